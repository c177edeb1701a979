//! Sizes of a part that two of its operations go by: what one of them cuts is no longer there as the other read it, and what one of them
//! makes, opens or uncovers was not there to be read.
//!
//! Each operation declares which of its values are sizes of the part, as found or as its work leaves them ([`OfPart`]). A size that was
//! found is held against what the last operation before it leaves of that size at that place ([`super::place`]). Planned, it stands
//! where it covers all that may be left; logged, where the two readings agree; and what goes on from the other by an `of` is what
//! that leaves.

use super::made::{Made, agree, made_by, may_be_logged};
use super::place::{Here, goes_on_from, here, is_sunk_about_a_hole, one_feature};
use crate::job::Address;
use crate::operations::{Answer, Declared, OfPart, PartSize, Value};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::plan::together::stale::Cut;
use crate::proof::{Check, Fact, Origin, Verdict, Words};
use crate::quantity::Date;

/// The check of a size that was read before a cut was logged.
const STALE: &str = "log-stale";
/// The check of a size that was read since, and has more metal than the log left.
const CONTRADICTED: &str = "log-contradicted";
/// The check of a size that another operation takes metal from.
const STILL_THERE: &str = "size-still-there";
/// The check of a size that another operation makes, opens or uncovers first.
const THERE_YET: &str = "size-there-yet";

/// An operation that makes sizes.
struct By<'a> {
    at: usize,
    task: &'a Task<'a>,
    made: Vec<Made<'a>>,
    /// What the log tells of it.
    logged: Option<&'a Cut>,
    /// Whether the log may tell of it at all.
    may_be_logged: bool,
    /// Whether no other work of its part names the place where it works.
    is_alone: bool,
}

/// An operation that goes by sizes as they were found.
struct Own<'a> {
    at: usize,
    task: &'a Task<'a>,
    found: Vec<(PartSize, &'a Value)>,
    /// The day on which its sizes were read.
    since: Option<Date>,
    /// What the log tells of its work.
    logged: Option<&'a Cut>,
    /// The sizes that its work makes.
    makes: Vec<PartSize>,
    /// Whether it sets something down under the face.
    sets_down: bool,
}

/// One size of an operation, with another that makes it.
struct Pair<'a> {
    own: &'a Own<'a>,
    size: PartSize,
    value: &'a Value,
    by: &'a By<'a>,
    made: &'a Made<'a>,
    here: Here,
}

/// Holds what each operation found against what the others of its part leave. Those of one part come together, in the order of the
/// files.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)], log: &Logged) {
    let by = makers(worked, log);
    let own = (0..).zip(worked.iter()).map(|(at, own)| Own::of(at, own, log));
    let checks: Vec<Option<(Check, &str)>> = own.map(|own| own.judged(&by)).collect();
    for ((.., answer), check) in worked.iter_mut().zip(checks) {
        // What was said of a cut that was logged is not said twice.
        let said = |check: &Check| answer.checks.iter().any(|other| other.id == check.id && other.id == STALE);
        if let Some((check, key)) = check.filter(|(check, _)| !said(check)) {
            answer.check_of_size(check, key);
        }
    }
}

/// For each operation those behind it that take from a size which it goes by, and that nothing is said of: judged as they are listed, it is
/// right only while they stay behind it.
pub(super) fn cut_behind(worked: &[(usize, &Task, Answer)], log: &Logged) -> Vec<Vec<Address>> {
    let by = makers(worked, log);
    let own = (0..).zip(worked).map(|(at, own)| Own::of(at, own, log));
    own.map(|own| own.cut_behind(&by)).collect()
}

/// The operations that make sizes.
fn makers<'a>(worked: &'a [(usize, &'a Task, Answer)], log: &'a Logged) -> Vec<By<'a>> {
    let by = (0..).zip(worked).map(|(at, (_, task, answer))| By {
        at,
        task,
        made: made_by(task, answer),
        logged: log.logged(&task.address),
        may_be_logged: may_be_logged(task, answer),
        is_alone: !worked.iter().any(|(_, other, _)| {
            other.address != task.address && other.part.name == task.part.name && one_feature(other, task) == Some(true)
        }),
    });
    by.filter(|by| !by.made.is_empty()).collect()
}

/// Sizes that an operation goes by as they were found.
pub(super) fn found_by<'a>(task: &Task, answer: &'a Answer) -> Vec<(PartSize, &'a Value)> {
    let found = |name: &&Declared| match name.part {
        Some(OfPart::Found(size)) => Some((size, answer.value(name.key)?)),
        _ => None,
    };
    task.request.declared().iter().filter_map(found).collect()
}

/// Sizes that the work of an operation makes of its part.
fn makes(task: &Task) -> Vec<PartSize> {
    let leaves = |name: &&Declared| if let Some(OfPart::Leaves(size)) = name.part { Some(size) } else { None };
    task.request.declared().iter().filter_map(leaves).collect()
}

/// Whether the work of an operation brings a size into being that nobody knows before.
fn opens(task: &Task, size: PartSize) -> bool {
    task.request.declared().iter().any(|name| name.part == Some(OfPart::Opens(size)))
}

impl<'a> Own<'a> {
    fn of(at: usize, (_, task, answer): &'a (usize, &'a Task, Answer), log: &'a Logged) -> Self {
        let since = task.request.set_up().and_then(|wish| wish.measured.as_ref()).map(|at| at.value);
        let (logged, makes) = (log.logged(&task.address), makes(task));
        let sets_down = opens(task, PartSize::SetDown);
        Self { at, task, found: found_by(task, answer), since, logged, makes, sets_down }
    }

    /// Whether a size that it goes by is made by work that has a name of its own for it: it was read just as that leaves it, and nobody else
    /// goes by that place. A hole is known by how wide it is.
    fn is_made_by(&self, by: &By, (size, value, made): (PartSize, &Value, &Made)) -> bool {
        let is_left = |value: &Value, made: &Made| {
            agree(value, made.left) && !made.found.is_some_and(|found| agree(value, found)) && !made.opens
        };
        let as_wide =
            |hole: &Made| self.found.iter().any(|(size, own)| *size == PartSize::Inside && is_left(own, hole));
        let mut drilled = by.made.iter().filter(|made| made.size == PartSize::Inside && made.found.is_none());
        by.is_alone
            && match (size, made.size) {
                (PartSize::Inside | PartSize::Seat, PartSize::Inside) | (PartSize::Outside, PartSize::Outside) => {
                    is_left(value, made)
                }
                (PartSize::Depth, PartSize::Depth) => made.found.is_none() && drilled.any(as_wide),
                _ => false,
            }
    }

    fn cut_behind(&self, all: &[By]) -> Vec<Address> {
        let behind = all.iter().filter(|by| by.at > self.at && !goes_on_from(by.task, self.task));
        let behind = behind.filter(|by| by.task.part.name == self.task.part.name && by.logged.is_none());
        let eats = |by: &&By| {
            let mut pairs = self.found.iter().flat_map(|found| self.pairs(by, *found).collect::<Vec<_>>());
            // A size that nobody found comes to be there: that is no cut of what was read.
            let is_cut = |pair: &Pair| pair.made.found.is_some() && !pair.made.takes_whenever(pair.size);
            pairs.any(|pair| is_cut(&pair) && !pair.goes_on() && pair.is_eaten())
        };
        behind.filter(eats).map(|by| by.task.address.clone()).collect()
    }

    /// The worst that is to be said of its sizes, the first of it, with the value that it is said of; none where all stand.
    fn judged(&self, all: &[By]) -> Option<(Check, &'static str)> {
        let others = || all.iter().filter(|by| by.at != self.at && !goes_on_from(by.task, self.task));
        let others: Vec<&By> = others().filter(|by| by.task.part.name == self.task.part.name).collect();
        let mut worst: Option<(Verdict, Check, &'static str)> = None;
        for (size, value) in &self.found {
            let pairs: Vec<Pair> = others.iter().flat_map(|by| self.pairs(by, (*size, value))).collect();
            for pair in meant(&pairs) {
                let Some((verdict, id)) = pair.verdict() else { continue };
                if worst.as_ref().is_none_or(|(worst, ..)| verdict > *worst) {
                    worst = Some((verdict, pair.says(id, verdict), value.key));
                }
            }
        }
        worst.map(|(_, check, key)| (check, key))
    }

    /// A size of it with all that another makes of it.
    fn pairs<'b>(&'b self, by: &'b By<'b>, (size, value): (PartSize, &'b Value)) -> impl Iterator<Item = Pair<'b>> {
        by.made.iter().filter_map(move |made| {
            let here = here((self.task, &self.found), (by.task, &by.made), (size, value, made));
            let here = here.or_else(|| self.is_made_by(by, (size, value, made)).then_some(Here::Perhaps))?;
            Some(Pair { own: self, size, value, by, made, here })
        })
    }
}

/// Those that a size is held against: of what is done before it the last, what was logged though it stands behind it, and all that takes
/// from it whenever it comes; where nothing is done before it, what must be.
fn meant<'a>(pairs: &'a [Pair<'a>]) -> Vec<&'a Pair<'a>> {
    let (whenever, in_turn): (Vec<&Pair>, Vec<&Pair>) =
        pairs.iter().partition(|pair| pair.made.takes_whenever(pair.size));
    let (before, behind): (Vec<&Pair>, Vec<&Pair>) = in_turn.into_iter().partition(|pair| pair.by.at < pair.own.at);
    let last = |here: Here| before.iter().filter(|pair| pair.here == here).max_by_key(|pair| pair.by.at).copied();
    let surely = last(Here::Surely);
    // What is surely made anew is no more what another may have made before; nor is the bush that has its own name another's.
    let is_another = |pair: &Pair| pair.made.size == PartSize::Bushed && pair.is_apart();
    let may_be = |pair: &&Pair| surely.is_none_or(|surely| surely.by.at < pair.by.at && !is_another(pair));
    let perhaps = last(Here::Perhaps).filter(may_be);
    let mut meant: Vec<&Pair> = surely.into_iter().chain(perhaps).collect();
    let none_before = meant.is_empty();
    let comes_first = |pair: &&&Pair| pair.made.comes_first() && (none_before || pair.here == Here::Surely);
    // What is read of a bush before it is in is no bore of the part yet: pressing closes it.
    let closes_in = |pair: &&&Pair| none_before && pair.made.came.is_some_and(|came| agree(came, pair.value));
    let is_behind = |pair: &&&Pair| comes_first(pair) || closes_in(pair) || pair.is_sunk_behind();
    meant.extend(behind.iter().filter(|pair| pair.by.logged.is_some() || is_behind(pair)));
    meant.extend(whenever);
    meant
}

impl Pair<'_> {
    /// Whether both name their places, and other ones.
    fn is_apart(&self) -> bool {
        one_feature(self.own.task, self.by.task) == Some(false)
    }

    /// Whether a seat is sunk about the very hole in which an insert was set down: what it sinks is off that, whatever the two are called.
    fn is_sunk_behind(&self) -> bool {
        let is_wall = self.size == PartSize::Wall && self.made.size == PartSize::Wall;
        is_wall && self.own.sets_down && is_sunk_about_a_hole(&self.own.found, self.made)
    }

    /// What is to be said of the size, and in which words; none where it stands.
    fn verdict(&self) -> Option<(Verdict, &'static str)> {
        if self.goes_on() {
            return None;
        }
        if let Some(own) = self.own.logged.filter(|_| !self.counts_when_done())
            && !self.was_read_before_a_cut(own)
        {
            return None;
        }
        let Some(cut) = self.by.logged else { return self.planned() };
        // What only comes to light is read on the very day; a cut of that day may have been behind the reading.
        let is_behind = |cut: Date, since: Date| if self.made.opens { since >= cut } else { since > cut };
        let is_newer = cut.date.zip(self.own.since).is_some_and(|(cut, since)| is_behind(cut, since));
        match is_newer {
            true => self.has_more_metal().then_some((Verdict::Doubtful, CONTRADICTED)),
            false => self.is_eaten().then_some((Verdict::Doubtful, STALE)),
        }
    }

    /// Whether the size is what the other leaves: what was typed beside what goes on from it is as old as it was, and no depth is what a
    /// face leaves of a wall.
    fn goes_on(&self) -> bool {
        let is_of_it = !matches!(*self.value.origin, Origin::Typed(_)) && !self.is_from_the_face();
        goes_on_from(self.own.task, self.by.task) && is_of_it
    }

    /// Whether what was done was cut from a size that another cut had taken away by then: what is gone of it was never worked out, however
    /// well it was measured as it is left.
    fn was_read_before_a_cut(&self, own: &Cut) -> bool {
        self.own.makes.contains(&self.size) && self.by.logged.is_some_and(|cut| !cut.is_surely_behind(own))
    }

    /// What was done is judged by what it left; the room over a piston goes on counting.
    const fn counts_when_done(&self) -> bool {
        matches!(self.size, PartSize::Wall | PartSize::Around | PartSize::Squish | PartSize::ClearanceVolume)
    }

    /// Against work that is still to be done. Where the log takes no size of it, whoever says on which day he read the size says that it was
    /// done; but for what only comes to light by it, which nobody read before.
    fn planned(&self) -> Option<(Verdict, &'static str)> {
        if (self.own.since.is_some() && !self.by.may_be_logged && !self.made.opens) || !self.is_eaten() {
            return None;
        }
        let id = if self.made.found.is_some() { STILL_THERE } else { THERE_YET };
        let before = self.made.found.or(self.made.came.filter(|_| self.own.at < self.by.at));
        let read_before = before.is_some_and(|found| agree(self.value, found));
        let is_wrong = self.here == Here::Surely && !read_before && !self.made.may_leave(self.value);
        Some((if is_wrong { Verdict::Fails } else { Verdict::Doubtful }, id))
    }

    /// Whether the size does not stand as it was read.
    fn is_eaten(&self) -> bool {
        !self.made.takes_nothing() && (self.is_from_the_face() || !self.made.stands(self.value))
    }

    /// Whether the size is measured from the face that is cut: what is off that is off this, which is another size.
    fn is_from_the_face(&self) -> bool {
        use PartSize::{Around, Depth, Edge, Faces, Inside, Map, SetDown, Squish, Wall};
        let is_from_it = matches!(self.size, Squish | Depth | Edge | SetDown | Map) && self.made.size != self.size;
        // Of a boss one side is milled, and about its bore it is as much thinner as if all of it were.
        let is_of_a_boss = self.size == Around && self.made.size == Faces;
        let is_from_it = is_from_it || is_of_a_boss || self.is_under_a_face();
        let is_of_a_tube = self.made.size == PartSize::Outside && self.made.was_the_wall(self.value);
        is_from_it || (self.size == Wall && (self.made.size == Inside || is_of_a_tube))
    }

    /// Whether the size is metal under a face that is cut, and not over which that is measured.
    fn is_under_a_face(&self) -> bool {
        let is_under = self.size == PartSize::Wall && self.made.size == PartSize::Faces;
        is_under && !self.made.lies_between(self.value)
    }

    /// Whether metal is there that the log says is gone.
    fn has_more_metal(&self) -> bool {
        if self.is_from_the_face() || matches!(self.size, PartSize::SetDown | PartSize::Edge) {
            return false;
        }
        let more = self.value.number - self.made.left.number;
        let more = if self.made.size.grows_as_metal_goes() { -more } else { more };
        self.made.is_as_left() && more > self.value.plus_minus + self.made.left.plus_minus
    }

    fn says(&self, id: &'static str, verdict: Verdict) -> Check {
        let by = self.by.task.address.to_string();
        let check = Check::of_kind(id, verdict).with("size", self.value.means).with("by", by.clone());
        let check = match self.by.logged {
            Some(cut) => check.with("entry", format!("L{}", cut.entry)),
            None => check,
        };
        let mut check = check.at(self.own.task.place);
        let [typed, left] = [self.value, self.made.left].map(Value::fact);
        match id {
            CONTRADICTED => return check.with("typed", typed).with("left", left),
            _ if self.made.opens => {
                check.remedy(Words::of("log-that-it-is-out").with("by", by));
                return check;
            }
            _ => {}
        }
        if verdict == Verdict::Fails {
            let (least, most) = self.made.ends();
            let words = Words::of("it-will-not-be-so").with("typed", typed).with("by", by.clone());
            check.remedy(words.with("least", Fact::mm(least)).with("most", Fact::mm(most)));
        }
        if self.size == PartSize::Edge {
            check.remedy(Words::of("another-edge").with("by", by));
        } else if self.is_under_a_face() {
            check.remedy(Words::of("another-face").with("by", by));
        } else if self.is_from_the_face() {
            // What is left behind the cut is another size.
            check.remedy(Words::of("read-it-behind-that").with("by", by));
        } else if self.value.plus_minus > 0.0 {
            check.remedy(Words::of("go-on-from-it").with("by", by).with("left", self.made.left.key));
        } else {
            // A nominal size takes no reading of another operation.
            check.remedy(Words::of("type-what-is-left").with("by", by).with("left", left));
        }
        check
    }
}
