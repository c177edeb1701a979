//! What a line that was just written into a log does: told while the gauge is still in the hand.

use super::load::Inputs;
use crate::job::{Address, Log};
use crate::plan::{Plan, Planned};
use crate::proof::{Check, Verdict};
use crate::sheet::terminal;
use std::path::{Path, PathBuf};

/// In a log of more lines than this a job is not worked again for every line.
const LINES: u32 = 1000;

/// What counts no more by the lines of a log from `first` on, and what fails by them, or is not finished, that did not and was before; where
/// nothing fails, of which of their own figures it is doubtful whether it can be. The jobs that this one goes on from are worked with it:
/// where they are not given, it is told of what of `elsewhere` it wants.
pub(super) fn told(
    (job, others): (&Path, &[PathBuf]),
    shop: Option<&Path>,
    (log, first): (&Log, u32),
    elsewhere: &[Address],
) -> String {
    let new = || log.entries.iter().filter(|entry| entry.n.value >= first);
    let mut says = String::new();
    for taken in new().filter_map(|entry| entry.withdraws.as_ref()) {
        let other = log.entries.iter().find(|entry| entry.n.value == taken.value);
        if let Some((of, other)) = other.and_then(|other| Some((other.of.as_ref()?, other))) {
            if let Some(before) = &other.corrects {
                says += &terminal::counts_again(&of.value.to_string(), before.value);
                continue;
            }
            let names: Vec<&str> = other.values.iter().map(|(name, _)| name.value.as_str()).collect();
            says += &terminal::none_counts(&job.display().to_string(), &of.value.to_string(), &names);
        }
    }
    let paths: Vec<PathBuf> = std::iter::once(job.into()).chain(others.iter().cloned()).collect();
    let worked = |upto| Inputs::default().upto(&paths, shop, upto);
    let both = || worked(Some(first.saturating_sub(1))).zip(worked(None));
    let both = if log.last <= LINES { both() } else { None };
    if both.is_none() && new().any(|entry| entry.of.is_some()) {
        let all: Vec<String> = paths.iter().map(|path| path.display().to_string()).collect();
        let wants: Vec<String> = elsewhere.iter().map(ToString::to_string).collect();
        says += &match (log.last > LINES, wants.is_empty() || !others.is_empty()) {
            (true, _) => terminal::long_log(&all.join(" ")),
            (false, false) => terminal::goes_on_from(&all.join(" "), &wants),
            (false, true) => terminal::cannot_be_worked(&all.join(" ")),
        };
    }
    if let Some((before, after)) = both {
        for plan in &after {
            for planned in &plan.operations {
                let own = new().rfind(|entry| entry.of.as_ref().is_some_and(|of| of.value == planned.address));
                let keys = logged_of(log, first, &planned.address);
                let corrects = own.is_some_and(|own| own.corrects.is_some());
                let mut failing = newly_failing(&before, planned, &keys, corrects);
                if failing.is_empty() {
                    failing = newly_doubted(&before, planned, &keys, corrects);
                }
                let was = before.iter().flat_map(|plan| &plan.operations).find(|was| was.address == planned.address);
                if let (Some(entry), Some(was), true) = (own, was, failing.is_empty()) {
                    let off = |name: &str| terminal::not_as_asked((was, planned), name, entry.n.value, plan.print);
                    keys.iter().filter_map(|name| off(name)).for_each(|line| says += &line);
                }
                // What fails elsewhere by it is told too: the last of the lines that may be the cause.
                let by = own.or_else(|| new().rfind(|entry| entry.of.is_some()));
                if let (Some(entry), false) = (by, failing.is_empty()) {
                    let of = entry.of.as_ref().map_or_else(|| planned.address.clone(), |of| of.value.clone());
                    let name = entry.values.first().map_or("NAME", |(name, _)| name.value.as_str());
                    let at = (job.display().to_string(), name, entry.n.value);
                    says += &terminal::fails_by_it((plan, planned), &failing, (&of, at));
                }
            }
        }
    }
    says
}

/// The names under which new lines tell of an operation.
fn logged_of<'a>(log: &'a Log, first: u32, of: &Address) -> Vec<&'a str> {
    let new = log.entries.iter().filter(|entry| entry.n.value >= first);
    let own = new.filter(|entry| entry.of.as_ref().is_some_and(|told| told.value == *of));
    own.flat_map(|entry| entry.values.iter().map(|(name, _)| name.value.as_str())).collect()
}

/// The checks of figures that were just written down which are doubtful and were not before; of a correction all that are.
fn newly_doubted<'a>(before: &[Plan], planned: &'a Planned, keys: &[&str], corrects: bool) -> Vec<&'a Check<String>> {
    let is_open = |check: &&Check<String>| check.stamps() == Some(Verdict::Doubtful) && check.verdict().is_some();
    let mut operations = before.iter().flat_map(|plan| &plan.operations);
    let Some(was) = operations.find(|other| other.address == planned.address) else { return Vec::new() };
    let was_open = |id: &str| was.answer.checks.iter().filter(is_open).any(|check| check.id == id);
    let own = planned.answer.checks.iter().filter(|check| check.about.is_some_and(|key| keys.contains(&key)));
    own.filter(is_open).filter(|check| corrects || !was_open(check.id)).collect()
}

/// The checks of an operation that fail, or by which metal still stands, and did not before or are about a figure that was just written
/// down; of a correction all that do.
fn newly_failing<'a>(before: &[Plan], planned: &'a Planned, keys: &[&str], corrects: bool) -> Vec<&'a Check<String>> {
    let fails = |check: &&Check<String>| check.verdict() == Some(Verdict::Fails) || check.unfinished.is_some();
    let mut operations = before.iter().flat_map(|plan| &plan.operations);
    let Some(was) = operations.find(|other| other.address == planned.address) else { return Vec::new() };
    let failed = |id: &str| was.answer.checks.iter().filter(fails).any(|check| check.id == id);
    let is_own =
        |check: &Check<String>| [check.about, check.unfinished].into_iter().flatten().any(|key| keys.contains(&key));
    let is_told = |check: &Check<String>| corrects || is_own(check) || !failed(check.id);
    planned.answer.checks.iter().filter(fails).filter(|check| is_told(check)).collect()
}
