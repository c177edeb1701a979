//! What the log of a job says was worked: set-ups that a day need not hold any more.

use super::frame::Plan;
use super::of_day::WorkedSetUp;
use crate::job::{Log, LogEntry};
use crate::operations::SetUp;
use crate::reading::{Problem, near};

/// The set-ups of a plan that its log tells of. An entry names its set-up, or gives a figure that is written on the sheet of one.
///
/// # Errors
/// A set-up that the operation has not.
pub fn worked_by_log(plan: &Plan, log: &Log) -> Result<Vec<WorkedSetUp>, Vec<Problem>> {
    let (mut all, mut problems) = (Vec::new(), Vec::new());
    for entry in log.standing(None) {
        let Some(of) = &entry.of else { continue };
        let operations = plan.operations.iter().enumerate();
        for (operation, planned) in operations.filter(|(_, planned)| planned.address == of.value) {
            match set_ups(&planned.answer.set_ups, entry) {
                Ok(own) => all.extend(own.into_iter().map(|set_up| WorkedSetUp {
                    at: (operation, set_up),
                    entry: entry.n.value,
                    date: entry.date.as_ref().map(|date| date.value),
                    from: entry.from,
                    to: entry.to,
                    is_done: (entry.to.is_some() || !entry.values.is_empty())
                        && !entry.values.iter().any(|(name, _)| planned.answer.unfinished(&name.value).is_some()),
                    gives: entry.values.iter().map(|(name, _)| name.value.clone()).collect(),
                })),
                Err(problem) => problems.push(problem),
            }
        }
    }
    if problems.is_empty() { Ok(all) } else { Err(problems) }
}

/// The set-ups of an operation that an entry tells of.
fn set_ups(all: &[SetUp<String>], entry: &LogEntry) -> Result<Vec<usize>, Problem> {
    if let Some(named) = &entry.set_up {
        let found = all.iter().position(|set_up| set_up.id == named.value);
        return found.map(|at| vec![at]).ok_or_else(|| {
            let known = near(&named.value, all.iter().map(|set_up| set_up.id));
            Problem::new(named.place, format!("the operation has no set-up `{}`; {known}", named.value))
        });
    }
    let gives = |key: &str| entry.values.iter().any(|(name, _)| name.value == key);
    let written =
        |set_up: &SetUp<String>| set_up.blanks.iter().filter_map(|blank| blank.log).any(|left| gives(left.key));
    Ok(all.iter().enumerate().filter(|(_, set_up)| written(set_up)).map(|(at, _)| at).collect())
}
