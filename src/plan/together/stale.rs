//! Sizes that were read before a cut took them away: the log tells of the cut, the job still has the old size.

use crate::job::{Address, LogEntry};
use crate::operations::{Declared, OfPart, SetUpWish};
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};
use crate::quantity::Date;
use crate::shop::Gauge;

/// The check of a reading that is older than a cut which it goes by.
pub(in crate::plan) const READ_BEFORE: &str = "log-read-before";

/// What the log says was done to a part by one operation.
#[derive(Clone, Debug)]
pub(in crate::plan) struct Cut {
    /// The operation.
    pub of: Address,
    /// The values that were left.
    pub keys: Vec<&'static str>,
    /// Whether somebody says that it was done, whatever was measured.
    pub is_told: bool,
    /// The last entry that tells of it.
    pub entry: u32,
    /// The last line that tells of it; of an entry in the place of another the line of that.
    pub line: u32,
    /// The log that has it, by its number among those given together.
    pub log: u32,
    /// The last day of its entries.
    pub date: Option<Date>,
    /// The first day of its entries.
    pub first: Option<Date>,
    /// The day of each value.
    pub days: Vec<Day>,
}

/// When a value was read, as far as its entry says.
#[derive(Clone, Debug)]
pub(in crate::plan) struct Day {
    /// The value.
    pub key: &'static str,
    /// The entry.
    pub entry: u32,
    /// Read no earlier than on this day. What was written in the place of another entry may have been read before its own day.
    pub from: Option<Date>,
    /// Read no later than on this day.
    pub to: Option<Date>,
}

impl Day {
    pub(in crate::plan) fn of(key: &'static str, entry: &LogEntry) -> Self {
        let date = entry.date.as_ref().map(|at| at.value);
        Self { key, entry: entry.n.value, from: date.filter(|_| entry.corrects.is_none()), to: date }
    }
}

/// Each operation that is still to be done by a size which the log says was cut since, with the check that says so.
pub(in crate::plan) fn stale(tasks: &[Task], all: &[Cut]) -> Vec<(Option<Address>, Check)> {
    let all: Vec<&Cut> = all.iter().filter(|cut| cut.is_done()).collect();
    let cuts: Vec<(&Cut, &Task)> = all
        .iter()
        .copied()
        .filter_map(|cut| Some((cut, tasks.iter().find(|task| task.address == cut.of)?)))
        .filter(|(_, by)| takes_metal(by))
        .collect();
    let is_done = |task: &Task| all.iter().any(|cut| cut.of == task.address);
    let open = tasks.iter().filter(|task| !is_done(task));
    let said = |id, task: &Task, cut: &Cut| {
        let check = Check::of_kind(id, Verdict::Doubtful);
        let check = check.with("by", cut.of.to_string()).with("entry", format!("L{}", cut.entry));
        (Some(task.address.clone()), check)
    };
    let found = open.filter_map(|task| {
        let (cut, _) = cuts.iter().find(|(cut, by)| takes_away(cut, by, task))?;
        Some(said("log-stale", task, cut))
    });
    let across = tasks.iter().filter(|task| reads_across(task)).filter_map(|task| {
        let own = all.iter().find(|cut| cut.of == task.address)?;
        let (cut, _) =
            cuts.iter().find(|(cut, _)| cut.was_made_after(own) && stands_on(|of| named(tasks, of), task, &cut.of))?;
        Some(said(READ_BEFORE, task, cut))
    });
    found.chain(across).collect()
}

impl Cut {
    /// What an entry tells of an operation, of which it gives no size of the part.
    pub(in crate::plan) fn of(of: &Address, entry: &LogEntry) -> Self {
        let date = entry.date.as_ref().map(|at| at.value);
        let (keys, days, line, entry) = (Vec::new(), Vec::new(), entry.stands_at, entry.n.value);
        Self { of: of.clone(), keys, is_told: false, entry, line, log: 0, date, first: date, days }
    }

    /// Whether anything was done to the part, by what was written down.
    pub(in crate::plan) fn is_done(&self) -> bool {
        self.is_told || !self.keys.is_empty()
    }

    /// Whether it surely was made behind another: on a later day, or by a later line of one log that has both on one day or on none.
    pub(in crate::plan) fn is_surely_behind(&self, other: &Self) -> bool {
        let is_later = || self.log == other.log && self.line > other.line;
        self.is_all_behind(other) || (!other.is_all_behind(self) && is_later())
    }

    /// Whether the log has all of it for a later day than all of that other.
    pub(in crate::plan) fn is_all_behind(&self, other: &Self) -> bool {
        self.first.zip(other.date).is_some_and(|(first, last)| first > last)
    }

    /// Whether the log tells of it for a later day than the first on which that other was read.
    pub(in crate::plan) fn was_made_after(&self, read: &Self) -> bool {
        self.date.zip(read.first).is_some_and(|(cut, read)| cut > read)
    }
}

/// Whether what the log holds of an operation is read over what others leave, and is no size that it makes itself: a float, a clearance.
fn reads_across(task: &Task) -> bool {
    let makes = |part: &Option<OfPart>| matches!(part, Some(OfPart::Leaves(_) | OfPart::Opens(_)));
    !task.request.declared().iter().any(|own| own.left.is_some() && makes(&own.part))
}

/// The operation of an address.
fn named<'a, 'b>(tasks: &'a [Task<'b>], of: &Address) -> Option<&'a Task<'b>> {
    tasks.iter().find(|task| task.address == *of)
}

/// Whether an operation goes on from what another leaves, itself or through those that it names.
pub(super) fn stands_on<'a, 'b: 'a>(
    named: impl Fn(&Address) -> Option<&'a Task<'b>>,
    task: &'a Task<'b>,
    of: &Address,
) -> bool {
    let (mut seen, mut open): (Vec<Address>, Vec<&Task>) = (Vec::new(), vec![task]);
    while let Some(task) = open.pop() {
        for owner in task.named.addresses.iter().map(|at| at.value.owner()) {
            if owner == *of {
                return true;
            }
            if !seen.contains(&owner) {
                open.extend(named(&owner));
                seen.push(owner);
            }
        }
    }
    false
}

/// Whether an operation takes metal off: one whose log has nothing but what an indicator reads only sets up.
fn takes_metal(by: &Task) -> bool {
    left(by).any(|(_, gauge)| gauge != Gauge::Indicator)
}

/// What the log may hold of an operation, and by which gauge.
fn left(task: &Task) -> impl Iterator<Item = (&'static str, Gauge)> {
    task.request.declared().into_iter().filter_map(|Declared { key, left, .. }| Some((*key, left.as_ref()?.gauge)))
}

/// Whether a cut took away a size by which an operation is still to be done: they work on one feature or on one size of a part, the
/// later does not go on from the earlier, and nobody says that it was measured since.
fn takes_away(cut: &Cut, by: &Task, task: &Task) -> bool {
    if task.part.name != by.part.name || task.named.addresses.iter().any(|read| read.value.owner() == cut.of) {
        return false;
    }
    // Two that are worked in one line are two.
    if task.request.operation().beside().is_some_and(|other| other == cut.of) {
        return false;
    }
    let feature =
        |task: &Task| task.request.set_up().and_then(|wish| wish.feature.as_ref()).map(|at| at.value.key().to_owned());
    let one_size = || {
        let sizes = |gauge| matches!(gauge, Gauge::Outside | Gauge::Inside);
        left(task).any(|(key, gauge)| sizes(gauge) && cut.keys.contains(&key))
    };
    let same = match (feature(task), feature(by)) {
        (Some(own), Some(other)) => own == other,
        _ => one_size(),
    };
    let since = |wish: &SetUpWish| wish.measured.as_ref().map(|at| at.value);
    let measured = task.request.set_up().and_then(since);
    let is_newer = measured.zip(cut.date).is_some_and(|(measured, cut)| measured > cut);
    same && !is_newer
}
