//! Sizes of a part that two of its operations go by: what one of them cuts is no longer there as the other read it, whether it is planned
//! or was logged.

use crate::operations::{Answer, Declared, OfPart, PartSize, Value};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::proof::{Check, Origin, Verdict, Words};

/// A size as one operation finds it and leaves it.
struct Cut<'a> {
    size: PartSize,
    found: Option<&'a Value>,
    left: &'a Value,
}

/// How two operations of one part stand to each other.
struct Pair<'a> {
    own: &'a Task<'a>,
    by: &'a Task<'a>,
    /// Whether it stands behind the one that cuts.
    is_later: bool,
    /// The entry of the log that tells of the cut.
    logged: Option<u32>,
    /// Whether the log tells of its own work too.
    done: bool,
    /// Whether it goes on from the one that cuts, by some size.
    goes_on: bool,
}

/// Holds what each operation found against what the others of its part leave. What goes on from the other, by an `of`, is not
/// meant; those of one part come together, in the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)], log: &Logged) {
    let cuts: Vec<Cuts> = (0..)
        .zip(worked.iter())
        .map(|(at, (_, by, answer))| Cuts { at, by, cuts: cuts_of(by, answer) })
        .filter(|by| !by.cuts.is_empty())
        .collect();
    let checks: Vec<Option<(Check, &str)>> = (0..)
        .zip(worked.iter())
        .map(|(own, (_, task, answer))| taken(&Cuts { at: own, by: task, cuts: Vec::new() }, answer, &cuts, log))
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(checks) {
        // What was said of a cut that was logged is not said twice.
        let said = |check: &Check| answer.checks.iter().any(|other| other.id == check.id && other.id == STALE);
        if let Some((check, key)) = check.filter(|(check, _)| !said(check)) {
            answer.check_of_size(check, key);
        }
    }
}

/// The check of a size that was read before a cut was logged.
const STALE: &str = "log-stale";

/// An operation by its place, with what it cuts.
struct Cuts<'a> {
    at: usize,
    by: &'a Task<'a>,
    cuts: Vec<Cut<'a>>,
}

/// The check that a size of an operation is taken by another, and that size; none where all stand.
fn taken(own: &Cuts, answer: &Answer, all: &[Cuts], log: &Logged) -> Option<(Check, &'static str)> {
    let found = found_by(own.by, answer);
    if found.is_empty() {
        return None;
    }
    let since = own.by.request.set_up().and_then(|wish| wish.measured.as_ref()).map(|at| at.value);
    let others = all.iter().filter(|other| {
        other.at != own.at && other.by.part.name == own.by.part.name && !goes_on_from(other.by, own.by)
    });
    others
        .filter_map(|other| {
            let logged = log.logged(&other.by.address);
            let is_newer = logged.and_then(|cut| cut.date).zip(since).is_some_and(|(cut, since)| since > cut);
            let pair = Pair {
                own: own.by,
                by: other.by,
                is_later: other.at < own.at,
                logged: logged.map(|cut| cut.entry),
                done: log.logged(&own.by.address).is_some(),
                goes_on: goes_on_from(own.by, other.by),
            };
            if is_newer { None } else { pair.eaten(&found, &other.cuts) }
        })
        .next()
}

/// Sizes that an operation goes by as they were found.
fn found_by<'a>(task: &Task, answer: &'a Answer) -> Vec<(PartSize, &'a Value)> {
    let found = |name: &&Declared| match name.part {
        Some(OfPart::Found(size)) => Some((size, answer.value(name.key)?)),
        _ => None,
    };
    task.request.declared().iter().filter_map(found).collect()
}

/// Whether one of two operations goes on from the other.
fn goes_on_from(one: &Task, other: &Task) -> bool {
    one.named.addresses.iter().any(|at| at.value.owner() == other.address)
}

/// What an operation cuts, where it takes something off.
fn cuts_of<'a>(task: &Task, answer: &'a Answer) -> Vec<Cut<'a>> {
    let declared = task.request.declared();
    let value = |wanted: OfPart| {
        let name = declared.iter().find(|name| name.part == Some(wanted) && answer.value(name.key).is_some())?;
        answer.value(name.key)
    };
    let leaves = declared.iter().filter_map(|name| match name.part {
        Some(OfPart::Leaves(size)) => Some((size, answer.value(name.key)?)),
        _ => None,
    });
    leaves.map(|(size, left)| Cut { size, found: value(OfPart::Found(size)), left }).collect()
}

impl Pair<'_> {
    /// The check that a size of the one no longer stands; none where all do.
    fn eaten(&self, found: &[(PartSize, &Value)], cuts: &[Cut]) -> Option<(Check, &'static str)> {
        // What it goes on from is as fresh as it is left; what was typed beside it is as old as it was.
        let is_fresh = |value: &Value| self.goes_on && !matches!(*value.origin, Origin::Typed(_));
        found.iter().filter(|(_, value)| !is_fresh(value)).find_map(|(size, value)| {
            let cut = cuts
                .iter()
                .find(|cut| self.takes_from(*size, cut, value) && cut.eats(*size, value, self.is_one_feature()))?;
            Some((self.says(value, cut), value.key))
        })
    }

    /// The features that both name.
    fn features(&self) -> Option<(&str, &str)> {
        let (own, by) = (self.own.request.set_up()?.feature.as_ref()?, self.by.request.set_up()?.feature.as_ref()?);
        Some((own.value.as_str(), by.value.as_str()))
    }

    /// Whether both name one feature.
    fn is_one_feature(&self) -> bool {
        self.features().is_some_and(|(own, by)| own == by)
    }

    /// Whether such a cut takes from such a size at all, as the two stand. A feature says where somebody works, not what is measured
    /// there: a wall and an outside that were read as the very size that the cut found are that size, whatever the features are called.
    fn takes_from(&self, size: PartSize, cut: &Cut, value: &Value) -> bool {
        let apart = self.features().is_some_and(|(own, by)| own != by);
        let is_that_size = || {
            let found =
                cut.found.map(|found| ((found.number - value.number).abs(), found.plus_minus + value.plus_minus));
            found.is_some_and(|(off, doubts)| off <= doubts + 1e-9)
        };
        let comes_first = self.is_later || self.logged.is_some();
        match (size, cut.size) {
            // As much room as there is in the end, whichever cut comes first.
            (PartSize::Wall | PartSize::Squish, PartSize::Faces) => !apart || is_that_size(),
            (PartSize::Outside, PartSize::Outside) if is_that_size() => comes_first && !self.done,
            // Two joints of one cylinder: what was read of it is as old as it was, also where the work was done.
            (PartSize::Squish, PartSize::Squish) | (PartSize::ClearanceVolume, PartSize::ClearanceVolume) => {
                comes_first
            }
            // What was done is judged by what it left. Two faces of one thickness are two features of it.
            (PartSize::Faces, PartSize::Faces) => comes_first && !self.done,
            // A housing that is bored to its size first cannot have been measured before.
            (PartSize::Seat, PartSize::Inside) => self.is_one_feature() && comes_first && !self.done,
            (own, by) => own == by && !apart && comes_first && !self.done,
        }
    }

    fn says(&self, value: &Value, cut: &Cut) -> Check {
        let by = self.by.address.to_string();
        let check = match self.logged {
            Some(entry) => Check::of_kind(STALE, Verdict::Doubtful).with("entry", format!("L{entry}")),
            None => Check::of_kind("size-still-there", Verdict::Doubtful).with("size", value.means),
        };
        let mut check = check.with("by", by.clone()).at(self.own.place);
        check.remedy(Words::of("go-on-from-it").with("by", by).with("left", cut.left.key));
        check
    }
}

/// A size that is nearer than this to what a cut leaves, in parts of what it takes, was typed as it will be.
const TYPED_AS_LEFT: f64 = 0.16;

impl Cut<'_> {
    /// Whether a size was read before this cut: it is nearer to what the cut found than to what it leaves, or it lies between them and is
    /// neither. What is cut on one feature, that both name, cannot have been read before as anything but what is left.
    fn eats(&self, size: PartSize, value: &Value, one_feature: bool) -> bool {
        let Some(found) = self.found else { return false };
        let gone = (found.number - self.left.number).abs();
        if gone <= f64::EPSILON * found.number.abs() {
            return false;
        }
        if size == PartSize::Squish && self.size == PartSize::Faces {
            return true;
        }
        let (low, high) = (found.number.min(self.left.number), found.number.max(self.left.number));
        let near = value.plus_minus + found.plus_minus;
        let reaches = (low - near..=high + near).contains(&value.number)
            || (one_feature && (size == self.size || size == PartSize::Seat));
        let (old, new) = ((value.number - found.number).abs(), (value.number - self.left.number).abs());
        reaches && !(new < old && new <= value.plus_minus + self.left.plus_minus + TYPED_AS_LEFT * gone)
    }
}
