//! The days on which the log has the set-ups of one operation done: a later set-up is not done before an earlier one.

use super::stale::{Cut, Day};
use crate::handbook::order_rules::{Word, Work};
use crate::operations::{Answer, SetUp};
use crate::quantity::Date;

/// What is read in a set-up, with the days on which the log has it; of what it was when it was done, or of all.
fn days_of<'a>(set_up: &'a SetUp, cut: &'a Cut, is_done: bool) -> impl Iterator<Item = &'a Day> {
    let left = set_up.blanks.iter().filter_map(|blank| blank.log).filter(move |left| left.closes || !is_done);
    left.filter_map(|left| cut.days.iter().find(|day| day.key == left.key))
}

/// What was read in an earlier set-up, by the log on a later day than that on which a later one was done.
pub(super) fn turned_round<'a>(answer: &'a Answer, cut: &'a Cut) -> Option<&'a Day> {
    let set_ups = answer.set_ups.as_slice();
    set_ups.iter().enumerate().find_map(|(at, earlier)| {
        let later = set_ups.iter().skip(at + 1).flat_map(|set_up| days_of(set_up, cut, true));
        let first = later.filter_map(|day| day.to).min()?;
        days_of(earlier, cut, false).find(|day| day.from.is_some_and(|from| from > first))
    })
}

/// The day by which the first set-up that does such work, or one behind it, was done.
pub(super) fn begun(operation: &str, answer: &Answer, cut: &Cut, work: &Word) -> Option<Date> {
    let does = |set_up: &SetUp| {
        let steps = set_up.steps.iter().map(|step| step.words.id).collect();
        work.is_in(&Work::of(operation, steps, set_up.leaves.iter().map(|state| state.kind).collect()))
    };
    let at = answer.set_ups.iter().position(does)?;
    answer.set_ups.iter().skip(at).flat_map(|set_up| days_of(set_up, cut, true)).filter_map(|day| day.to).min()
}
