//! What the log of a job says was worked: set-ups that a day need not hold any more.

use super::frame::{Plan, Planned};
use super::of_day::WorkedSetUp;
use crate::job::{Address, Log, LogEntry};
use crate::operations::{SetUp, done_by};
use crate::reading::{Problem, near};
use std::collections::{HashMap, HashSet};

/// An operation that a log tells of: its number, and the entry that closes each of its set-ups.
type Told<'a> = (usize, &'a Planned, Vec<Option<u32>>);

/// The set-ups of a plan that its log tells of. An entry names its set-up, or gives a figure that is written on the sheet of one.
///
/// # Errors
/// A set-up that the operation has not.
pub fn worked_by_log(plan: &Plan, log: &Log) -> Result<Vec<WorkedSetUp>, Vec<Problem>> {
    let (mut all, mut problems) = (Vec::new(), Vec::new());
    // What stands of each operation, looked at once however long the log is.
    let mut given: HashMap<&Address, HashSet<&str>> = HashMap::new();
    for entry in log.standing(None) {
        if let Some(of) = &entry.of {
            let names = entry.values.iter().map(|(name, _)| name.value.as_str());
            given.entry(&of.value).or_default().extend(names);
        }
    }
    let mut told: HashMap<&Address, Vec<Told>> = HashMap::new();
    for (operation, planned) in plan.operations.iter().enumerate() {
        if let Some(given) = given.get(&planned.address) {
            let closed = done_by(&planned.answer.set_ups, |key| given.contains(&key).then_some(0));
            told.entry(&planned.address).or_default().push((operation, planned, closed));
        }
    }
    for entry in log.standing(None) {
        let Some(of) = &entry.of else { continue };
        for (operation, planned, closed) in told.get(&of.value).into_iter().flatten() {
            let operation = *operation;
            // One figure that is not there yet leaves its work to be done, whichever entry has it.
            let still_cut = |set_up: usize| {
                let is_open = |key: &str| planned.answer.unfinished(key).is_some();
                let mut own = planned.answer.set_ups.get(set_up).into_iter().flat_map(keys_of);
                let given = entry.values.iter().map(|(name, _)| name.value.as_str());
                let mut of_it = given.filter(|key| may_be_read_at(&planned.answer.set_ups, set_up, key));
                own.any(is_open) || of_it.any(is_open)
            };
            match set_ups((operation, &planned.answer.set_ups), closed, entry) {
                Ok(own) => all.extend(own.into_iter().map(|set_up| WorkedSetUp {
                    at: (operation, set_up),
                    entry: entry.n.value,
                    date: entry.date.as_ref().map(|date| date.value),
                    from: entry.from,
                    to: entry.to,
                    machine: entry.machine.clone(),
                    is_done: (entry.to.is_some() || entry.done || closed.get(set_up).is_some_and(Option::is_some))
                        && !still_cut(set_up),
                    gives: entry.values.iter().map(|(name, _)| name.value.clone()).collect(),
                })),
                Err(problem) => problems.push(problem),
            }
        }
    }
    if problems.is_empty() { Ok(all) } else { Err(problems) }
}

/// The names under which the log holds what a set-up asks for.
fn keys_of<W>(set_up: &SetUp<W>) -> impl Iterator<Item = &'static str> {
    set_up.blanks.iter().filter_map(|blank| blank.log).map(|left| left.key)
}

/// Whether a size is read at the end of a set-up, or at that of none: what another set-up leaves says nothing of this one.
pub(super) fn may_be_read_at<W>(all: &[SetUp<W>], set_up: usize, key: &str) -> bool {
    let asks = |set_up: &SetUp<W>| keys_of(set_up).any(|own| own == key);
    all.get(set_up).is_some_and(asks) || !all.iter().any(asks)
}

/// The set-up that is meant by its id, or by the number that stands on its sheet.
pub(super) fn named_set_up<W>((operation, all): (usize, &[SetUp<W>]), named: &str) -> Option<usize> {
    let by_number = || {
        // Before the stroke stands which of several jobs it is.
        let (of, nth) = named.rsplit('/').next()?.split_once('.')?;
        let nth: usize = nth.parse().ok()?;
        (of.parse() == Ok(operation + 1) && (1..=all.len()).contains(&nth)).then(|| nth - 1)
    };
    all.iter().position(|set_up| set_up.id == named).or_else(by_number)
}

/// The set-ups of an operation that an entry tells of: the one that it names, else those whose figures it has, and those before one
/// that it closes.
fn set_ups(
    (operation, all): (usize, &[SetUp<String>]),
    closed: &[Option<u32>],
    entry: &LogEntry,
) -> Result<Vec<usize>, Problem> {
    if let Some(named) = &entry.set_up {
        return named_set_up((operation, all), &named.value).map(|at| vec![at]).ok_or_else(|| {
            let known = near(&named.value, all.iter().map(|set_up| set_up.id));
            Problem::new(named.place, format!("the operation has no set-up `{}`; {known}", named.value))
        });
    }
    if entry.done {
        return Ok((0..all.len()).collect());
    }
    let gives = |key: &str| entry.values.iter().any(|(name, _)| name.value == key);
    let written =
        |set_up: &SetUp<String>| set_up.blanks.iter().filter_map(|blank| blank.log).any(|left| gives(left.key));
    let last = all.iter().zip(closed).rposition(|(set_up, closed)| closed.is_some() && written(set_up));
    let of_it = |at: usize, set_up: &SetUp<String>| written(set_up) || last.is_some_and(|last| at < last);
    Ok(all.iter().enumerate().filter(|(at, set_up)| of_it(*at, set_up)).map(|(at, _)| at).collect())
}
