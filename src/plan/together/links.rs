//! Sizes that are read of other parts: the links of a gap, the shaft of a bush, the room that a joint of two parts closes. Which part they
//! are of nobody types, so they are held against the cuts of all: a size that was read as just what a cut of the job takes away is no
//! more there when the gap is closed.

use super::half;
use super::made::{Made, asked_of, made_by};
use super::place::{goes_on_from, is_on_a_face};
use super::readied::{MADE_COLD, MADE_READY};
use crate::handbook::constants::row;
use crate::job::Address;
use crate::operations::{Answer, Closes, DOUBT_PLAUSIBLE, PartSize, ReadElsewhere, SetUp, Station, Value};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Outcome, Verdict, Words};

/// The check of a size that another operation takes metal from.
const STILL_THERE: &str = "size-still-there";

/// Whether the carriage stops where the shoulder is to stand.
const SHOULDER: &str = "shoulder-kept";

/// What a cut moves the float by.
const MOVED: &str = "float_change_from_found";
/// The float as it was found.
const FLOAT_FOUND: &str = "float_found";

/// A size that is cut: as it was found, and as it is left.
#[derive(Debug)]
struct Cut {
    size: PartSize,
    found: Value,
    left: Value,
    /// Whether nothing is cut: a bore closes in as its bush is pressed.
    is_pressed: bool,
    /// What its sheet asks it to be left as.
    asked: Option<(f64, f64)>,
}

/// What one operation cuts and reads, by its place in the files.
#[derive(Debug)]
pub(in crate::plan) struct Seen {
    at: usize,
    is_milled: bool,
    cuts: Vec<Cut>,
    /// Whether it takes metal off a face without saying over which length that stands: every length of the part may be meant.
    laps: bool,
    /// What the face that it cuts closes, where anybody says so.
    closes: Option<Closes>,
    /// Whether it may move the float of its assembly: it says so, or it takes metal off a face and does not say that it stands elsewhere.
    moves_float: bool,
    /// Whether it says itself that it moves a float.
    says_float: bool,
    /// Whether it cuts a shoulder, or a bottom, which stands along the axis as a face does.
    steps: bool,
    /// Whether it goes by the float as it was found, and by no chain that would tell of a cut.
    float_as_found: bool,
    read: Vec<ReadElsewhere>,
}

/// What the operations of a group cut and read of other parts; those that do neither are not among them.
pub(in crate::plan) fn seen(worked: &[(usize, &Task, Answer)]) -> Vec<Seen> {
    let of = |(at, task, answer): &(usize, &Task, Answer)| {
        let made = made_by(task, answer);
        let laps = is_on_a_face(&made)
            && made.iter().any(|made| made.size == PartSize::Gone)
            && !made.iter().any(|made| made.size == PartSize::Faces);
        let cuts: Vec<Cut> = made.into_iter().filter_map(|made| cut(made, answer)).collect();
        let is_milled = answer.set_ups.iter().any(|set_up| set_up.station == Station::Drilling);
        let is_off_a_face = laps || cuts.iter().any(|cut: &Cut| cut.size == PartSize::Faces);
        let closes = closes(task).or(answer.closes);
        let stands_elsewhere = answer.out_of_float || matches!(closes, Some(Closes::RoomOverPiston | Closes::NoGap));
        let says_float = answer.value(MOVED).is_some();
        // A flange, or a bush that stands proud, moves a face as a cut does.
        let stands_out = task.request.operation().stands_out();
        let moves_float = says_float || stands_out || (is_off_a_face && !stands_elsewhere);
        let is_asked = |check: &Check| check.id == SHOULDER && check.state != Outcome::DoesNotApply;
        let steps = !stands_elsewhere && answer.checks.iter().any(is_asked);
        let float_as_found = answer.elsewhere.is_empty() && answer.value(FLOAT_FOUND).is_some();
        Seen {
            at: *at,
            is_milled,
            cuts,
            laps,
            closes,
            moves_float,
            says_float,
            steps,
            float_as_found,
            read: answer.elsewhere.iter().map(slim).collect(),
        }
    };
    worked
        .iter()
        .map(of)
        .filter(|seen| {
            !seen.cuts.is_empty()
                || seen.laps
                || !seen.read.is_empty()
                || seen.moves_float
                || seen.steps
                || seen.float_as_found
        })
        .collect()
}

/// What it was worked from is not asked any more.
fn slim(read: &ReadElsewhere) -> ReadElsewhere {
    let mut read = read.clone();
    read.value.node.let_go();
    read
}

/// A size over a part, or across a joint of it, that metal goes from.
fn cut(made: Made, answer: &Answer) -> Option<Cut> {
    use PartSize::{Bushed, ClearanceVolume, Faces, Inside, Outside, Squish, Wall};
    let is_pressed = made.size == Bushed;
    let size = if is_pressed { Inside } else { made.size };
    if !matches!(size, Faces | Inside | Outside | Wall | Squish | ClearanceVolume) || made.takes_nothing() {
        return None;
    }
    let [mut found, mut left] = [made.found.or(made.came)?.clone(), made.left.clone()];
    found.node.let_go();
    left.node.let_go();
    let asked = asked_of(answer, &left);
    Some(Cut { size, found, left, is_pressed, asked })
}

impl Cut {
    /// Whether a size was read as what this cut found, and is not what it leaves. A part has many diameters that are nearly alike: only the
    /// very reading is one of them.
    fn takes(&self, read: &ReadElsewhere) -> bool {
        let made = self.made();
        let is_diameter =
            matches!(read.size, Some(PartSize::Inside | PartSize::Outside)) && read.value.plus_minus > 0.0;
        let was_that = if is_diameter { made.was_read_as(&read.value) } else { made.was(&read.value) };
        let is_of_kind = read.size.map_or_else(|| !is_of_joint(self.size), |size| size == self.size);
        is_of_kind && was_that && !made.stands(&read.value)
    }

    /// Whether a diameter was typed as this cut will leave it, and surer than that is: nobody has read it yet. Of a bush that is still to
    /// be pressed in, also as it is before that. Of a cut that was logged what its sheet asked counts: what was left otherwise is no better
    /// for that.
    fn will_be(&self, read: &ReadElsewhere) -> bool {
        let made = self.made();
        let is_diameter = matches!(self.size, PartSize::Inside | PartSize::Outside) && read.size == Some(self.size);
        let lies_there = match self.is_pressed {
            true => made.lies_between(&read.value),
            false => (made.may_leave(&read.value) || self.was_asked(&read.value)) && !made.was(&read.value),
        };
        is_diameter && lies_there && !made.stands(&read.value)
    }

    /// Whether a size is one that the sheet of a cut asked which was logged since.
    fn was_asked(&self, value: &Value) -> bool {
        let (number, doubt) = (value.number, value.plus_minus);
        let lies_in = |(least, most): (f64, f64)| number + doubt >= least && number - doubt <= most;
        self.made().is_as_left() && value.unit == self.left.unit && self.asked.is_some_and(lies_in)
    }

    /// Whether a size was read as what this cut leaves.
    fn leaves(&self, read: &ReadElsewhere) -> bool {
        self.size == PartSize::Faces && self.made().stands(&read.value)
    }

    /// The size as it is made.
    const fn made(&self) -> Made<'_> {
        Made {
            size: self.size,
            found: Some(&self.found),
            left: &self.left,
            around: None,
            hole: None,
            within: None,
            came: None,
            is_milled: false,
            opens: false,
        }
    }
}

/// Whether a cut only polishes a place of a diameter: of another part that is read alike it may be any other place.
fn is_polished(cut: &Cut) -> bool {
    let least = row("turned-down-least").map_or(0.0, |row| row.value);
    matches!(cut.size, PartSize::Inside | PartSize::Outside) && (cut.found.number - cut.left.number).abs() < least
}

/// Whether a size lies between two parts that are bolted together.
const fn is_of_joint(size: PartSize) -> bool {
    matches!(size, PartSize::Squish | PartSize::ClearanceVolume)
}

/// Whether two parts may be bolted together: not where both say in what, and say it differently. A part of two jobs is one part: what it
/// is bolted to in either is bolted to it.
fn may_be_bolted(one: &Task, other: &Task) -> bool {
    let (one, other) = (&one.of_part.assemblies, &other.of_part.assemblies);
    one.is_empty() || other.is_empty() || one.iter().any(|name| other.contains(name))
}

/// Whether two parts are bolted together, as both say.
fn are_bolted(one: &Task, other: &Task) -> bool {
    one.of_part.assemblies.iter().any(|name| other.of_part.assemblies.contains(name))
}

/// Puts to an answer what is doubtful of it: of a size the set-up owns it whose work is judged by that.
pub(in crate::plan) fn put_down(answer: &mut Answer, check: Check) {
    match check.id {
        STILL_THERE => {
            let key = check.about.unwrap_or_default();
            answer.check_of_size(check, key);
        }
        id @ (MADE_READY | MADE_COLD) => {
            answer.check(check);
            // It is the set-up at the press that stands on it.
            let needs = |set_up: &&mut SetUp| set_up.needs.iter().any(|state| state.kind.passes());
            if let Some(set_up) = answer.set_ups.iter_mut().find(needs) {
                set_up.checks.push(id);
            }
        }
        id if id == DOUBT_PLAUSIBLE.id && check.about.is_some() => {
            let key = check.about.unwrap_or_default();
            let is_open = |own: &Check| own.id == id && own.stamps().is_some_and(|made| made != Verdict::Proven);
            let is_alone = !answer.checks.iter().any(is_open);
            answer.check(check);
            if is_alone {
                half::owned_where_it_is_read(answer, id, key);
            }
        }
        _ => {
            answer.check(check);
        }
    }
}

/// What is doubtful of operations that read sizes of parts which the jobs still cut or have cut since.
pub(in crate::plan) fn doubtful(tasks: &[Task], seen: &[Seen], log: &Logged) -> Vec<(Option<Address>, Check)> {
    let readers = seen
        .iter()
        .filter(|own| !own.read.is_empty() || own.float_as_found)
        .filter_map(|own| Some((own, tasks.get(own.at)?)));
    readers
        .filter_map(|(own, task)| Some((Some(task.address.clone()), read_before(tasks, seen, log, (own, task))?)))
        .collect()
}

/// The check of the first size of an operation that was read before a cut; none where each stands.
fn read_before(tasks: &[Task], seen: &[Seen], log: &Logged, (own, task): (&Seen, &Task)) -> Option<Check> {
    if own.float_as_found {
        return float_moved(tasks, seen, log, (own, task), |by| by.moves_float);
    }
    let parts: Vec<&str> = tasks.iter().map(|task| task.part.name.as_str()).collect();
    // Who goes on from one bush that is pressed in reads no other.
    let has_its_bush = || {
        let presses = seen.iter().filter(|by| by.cuts.iter().any(|cut| cut.is_pressed));
        presses.filter_map(|by| tasks.get(by.at)).any(|by| goes_on_from(task, by))
    };
    let read = own.read.iter().find_map(|read| {
        let named = parts.iter().filter(|part| names(&read.what, part)).max_by_key(|part| part.len());
        let by = seen.iter().filter(|by| by.at != own.at).find_map(|by| {
            let of = tasks.get(by.at)?;
            let is_of_it = match read.size.is_some_and(is_of_joint) {
                // Within one part the two are held against each other as any sizes of it are.
                true => of.part.name != task.part.name && may_be_bolted(task, of),
                // What a size is called by the program names no part.
                false => read.size.is_some() || named.is_none_or(|part| of.part.name == **part),
            };
            let closes = || read.size.is_some_and(is_of_joint) && may_close_it(of);
            // What lies measured on the bench while the cut is still to come is another thing.
            let is_read = read.is_of_another && is_dated(task) && log.logged(&of.address).is_none();
            let is_of_it = is_of_it && !is_read && !(read.is_of_another && of.part.name == task.part.name);
            (is_of_it && !goes_on_through(tasks, task, of, log) && !goes_on_from(of, task) && !since(task, of, log))
                .then_some(())?;
            let is_meant = named.is_some_and(|part| of.part.name == **part) || of.part.name == task.part.name;
            // Within one part a bush that is pressed in is held against what is read of its bore as any work there is; and what is read of
            // a bush that goes in itself is no bore of one that is in.
            let puts_in = task.request.operation().puts_in().is_some();
            let is_held = |cut: &Cut| cut.is_pressed && (puts_in || of.part.name == task.part.name || has_its_bush());
            let takes = |cut: &&Cut| cut.takes(read) && (is_meant || !is_polished(cut)) && !is_held(cut);
            let will_be = |cut: &Cut| may_be_bolted(task, of) && !is_held(cut) && cut.will_be(read);
            let is_it = |cut: &&Cut| takes(cut) || will_be(cut) || (cut.size == PartSize::Faces && closes());
            by.cuts.iter().find(is_it).map(|cut| (of, cut))
        });
        let lapped = || lapped(tasks, seen, log, (own, task), (read, named.map(|part| part.as_ref())));
        by.map(|by| says(read, by)).or_else(lapped)
    });
    let links = || own.read.iter().filter(|read| read.size.is_none());
    let is_left = |by: &Seen| links().any(|read| by.cuts.iter().any(|cut| cut.leaves(read)));
    // A face that is cut on a part that a link names moves it whatever the link reads, but for the length that is left. A link that names
    // no part of the jobs may be of any that is bolted there: a joint that is milled is, and so is each that is said to be. Else what
    // the lathe makes shorter would be a link of its own, and none of them reads that length.
    let meets = |by: &Seen, read: &ReadElsewhere| {
        let named = parts.iter().filter(|part| names(&read.what, part)).max_by_key(|part| part.len());
        let may_be = |of: &Task| by.is_milled || are_bolted(task, of);
        tasks.get(by.at).is_some_and(|of| named.map_or_else(|| may_be(of), |part| of.part.name == **part))
    };
    let is_named = |by: &Seen, read: &ReadElsewhere| {
        tasks.get(by.at).is_some_and(|of| names(&read.what, &of.part.name)) && meets(by, read)
    };
    let moves = |by: &Seen| {
        by.says_float
            || (by.moves_float && !is_left(by) && links().any(|read| meets(by, read)))
            || (by.steps && links().any(|read| is_named(by, read)))
    };
    let said = || links().next().and_then(|_| float_moved(tasks, seen, log, (own, task), moves));
    read.or_else(said)
}

/// What is said of a float that was read before a cut of its assembly moves it. Links that were typed tell of no cut that says itself that
/// it moves a float, but for those that go on from it.
fn float_moved(
    tasks: &[Task],
    seen: &[Seen],
    log: &Logged,
    (own, task): (&Seen, &Task),
    moves: impl Fn(&Seen) -> bool,
) -> Option<Check> {
    let others = seen.iter().filter(|by| moves(by) && by.at != own.at);
    let mut moved = others.filter_map(|by| Some((by, tasks.get(by.at)?)));
    let (seen, by) = moved
        .find(|(_, by)| may_be_bolted(task, by) && !goes_on_through(tasks, task, by, log) && !since(task, by, log))?;
    let what = if own.read.is_empty() { "the-float-as-found" } else { "the-gap-of-the-links" };
    let check = Check::of_kind(STILL_THERE, Verdict::Doubtful).with("size", Fact::named(what));
    let mut check = check.with("by", by.address.to_string());
    if !own.read.is_empty() {
        let is_known = seen.says_float || own.read.iter().any(|read| names(&read.what, &by.part.name));
        let remedy = if is_known { "link-by-what-is-left" } else { "say-whose-link-it-is" };
        check.remedy(Words::of(remedy).with("by", by.address.to_string()));
        if seen.steps {
            check.remedy(Words::of("say-it-bounds-no-gap").with("by", by.address.to_string()));
        }
    }
    Some(check)
}

/// What is said of a length that was read of a part, or handed on by one of its operations, of which a face is still lapped; none where
/// the face closes the room over a piston, which is no length of a gap. The room over a piston is closed by each face of its joints.
fn lapped(
    tasks: &[Task],
    seen: &[Seen],
    log: &Logged,
    (own, task): (&Seen, &Task),
    (read, named): (&ReadElsewhere, Option<&str>),
) -> Option<Check> {
    let of_part = |by: &Task| {
        let part = by.part.name.as_str();
        named == Some(part) || task.named.addresses.iter().any(|at| at.value.owner().part == part)
    };
    let of_any = |by: &Task| named.is_none() && may_be_bolted(task, by);
    let counts = |seen: &Seen, by: &Task| match read.size {
        // A link that names no part of the jobs may be of any that is bolted there.
        None => (of_part(by) || of_any(by)) && !matches!(seen.closes, Some(Closes::RoomOverPiston | Closes::NoGap)),
        // One that reads the room over the piston itself is judged by that.
        Some(size) => {
            let reads_it = seen.read.iter().any(|read| read.size.is_some_and(is_of_joint));
            is_of_joint(size)
                && !reads_it
                && may_be_bolted(task, by)
                && seen.closes.is_none_or(|closes| closes == Closes::RoomOverPiston)
        }
    };
    let mut laps = seen.iter().filter(|by| by.laps && by.at != own.at).filter_map(|by| Some((by, tasks.get(by.at)?)));
    let (_, by) = laps.find(|(seen, by)| {
        counts(seen, by) && !goes_on_from(task, by) && !goes_on_from(by, task) && !since(task, by, log)
    })?;
    let is_unnamed = read.size.is_none() && named.is_none();
    let what = if is_unnamed { unnamed(tasks, own) } else { read.what.clone() };
    let mut check = Check::of_kind(STILL_THERE, Verdict::Doubtful).with("size", what);
    if is_unnamed {
        check.remedy(Words::of("say-whose-link-it-is").with("by", by.address.to_string()));
    }
    if read.size.is_some() {
        check.remedy(Words::of("say-what-it-closes").with("by", by.address.to_string()));
    }
    Some(check.with("by", by.address.to_string()))
}

/// Whether an operation goes on from what another leaves, or from what work of the same part leaves that went on from that. What is done
/// went on from nothing that is still to come.
fn goes_on_through(tasks: &[Task], task: &Task, by: &Task, log: &Logged) -> bool {
    let is_done = |task: &Task| log.logged(&task.address).is_some();
    let last = tasks.iter().filter(|last| last.part.name == by.part.name && goes_on_from(task, last));
    let mut last = last.filter(|last| !is_done(last) || is_done(by));
    goes_on_from(task, by) || last.any(|last| goes_on_from(last, by))
}

/// The links that name no part of the jobs: any of them may be of the part that is meant.
fn unnamed(tasks: &[Task], own: &Seen) -> String {
    let is_named = |what: &str| tasks.iter().any(|task| names(what, &task.part.name));
    let links = own.read.iter().filter(|read| read.size.is_none() && !is_named(&read.what));
    links.map(|read| read.what.as_str()).collect::<Vec<_>>().join(", ")
}

/// Whether an operation says on which day its sizes were read.
fn is_dated(task: &Task) -> bool {
    task.request.set_up().is_some_and(|wish| wish.measured.is_some())
}

/// What a face that is cut closes, where somebody says so.
fn closes(task: &Task) -> Option<Closes> {
    task.request.set_up().and_then(|wish| wish.closes.as_ref()).map(|at| at.value)
}

/// Whether a face that is cut may close the room over a piston: nobody says otherwise.
fn may_close_it(task: &Task) -> bool {
    closes(task).is_none_or(|closes| closes == Closes::RoomOverPiston)
}

/// Whether a link is called by a part: `flange` and `flange to spigot`.
fn names(what: &str, part: &str) -> bool {
    let words = |text: &str| -> Vec<String> {
        text.split(|letter: char| !letter.is_alphanumeric())
            .filter(|word| !word.is_empty())
            .map(str::to_lowercase)
            .collect()
    };
    let (what, part) = (words(what), words(part));
    !part.is_empty() && what.windows(part.len()).any(|some| some == part)
}

/// Whether an operation says that its sizes were read after the log tells of a cut. What was done is not read again: it stands unless
/// the log has the cut for a later day.
fn since(task: &Task, cut: &Task, log: &Logged) -> bool {
    if let Some(done) = log.logged(&task.address) {
        return !log.logged(&cut.address).is_some_and(|cut| cut.was_made_after(done));
    }
    let read = task.request.set_up().and_then(|wish| wish.measured.as_ref()).map(|at| at.value);
    let cut = log.logged(&cut.address).and_then(|cut| cut.date);
    read.zip(cut).is_some_and(|(read, cut)| read > cut)
}

fn says(read: &ReadElsewhere, (by, cut): (&Task, &Cut)) -> Check {
    let by = by.address.to_string();
    let check = Check::of_kind(STILL_THERE, Verdict::Doubtful).about(read.value.key);
    let mut check = check.with("size", read.what.clone()).with("by", by.clone());
    if read.size.is_some_and(is_of_joint) && cut.size == PartSize::Faces {
        check.remedy(Words::of("say-what-it-closes").with("by", by));
    } else if read.value.plus_minus > 0.0 {
        let words = if read.is_of_another { "go-on-from-that-part" } else { "go-on-from-it" };
        check.remedy(Words::of(words).with("by", by).with("left", cut.left.key));
    } else {
        // A nominal size takes no reading of another operation.
        check.remedy(Words::of("type-what-is-left").with("by", by).with("left", cut.left.fact()));
    }
    check
}
