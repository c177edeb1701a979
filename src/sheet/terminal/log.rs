//! The log at a terminal: an entry a line, those that count no more marked, and what is wrong with lines quoted.

use super::lines::Lines;
use super::words::log as said;
use crate::job::Address;
use crate::operations::Target;
use crate::plan::{Change, Log, LogEntry, Plan, Planned};
use crate::proof::{Check, Fact, Verdict};
use crate::quantity::Print;
use crate::sheet::figures;
use std::collections::BTreeSet;

/// What was written.
pub fn written(entries: &[&LogEntry]) -> String {
    let mut out = Lines::default();
    entries.iter().for_each(|entry| out.line(&row(entry).join("  ")));
    out.finish()
}

/// What counts no more of an operation, after the line that gave it was taken back.
pub fn none_counts(job: &str, of: &str, names: &[&str]) -> String {
    let mut out = Lines::default();
    names.iter().for_each(|name| out.hanging("", &said::none_counts(job, of, name)));
    out.finish()
}

/// Lines that were written down and not judged, since their log is long.
pub fn long_log(jobs: &str) -> String {
    let mut out = Lines::default();
    out.hanging("", &said::long_log(jobs));
    out.finish()
}

/// Lines that were written down and not judged, since the job goes on from these of jobs that were not given.
pub fn goes_on_from(jobs: &str, wants: &[String]) -> String {
    let mut out = Lines::default();
    out.hanging("", &said::goes_on_from(jobs, wants));
    out.finish()
}

/// Lines that were written down and not judged, since the jobs have a fault.
pub fn cannot_be_worked(jobs: &str) -> String {
    let mut out = Lines::default();
    out.hanging("", &said::cannot_be_worked(jobs));
    out.finish()
}

/// After a correction was taken back.
pub fn counts_again(of: &str, n: u32) -> String {
    let mut out = Lines::default();
    out.hanging("", &said::counts_again(of, n));
    out.finish()
}

/// A size that was just written down and lies outside the limits that its sheet asked for, where it does: `before` as the job stood, `after`
/// as it stands by it.
pub fn not_as_asked((before, after): (&Planned, &Planned), name: &str, entry: u32, print: Print) -> Option<String> {
    let blanks = before.answer.set_ups.iter().flat_map(|set_up| &set_up.blanks);
    let asked =
        blanks.filter(|blank| blank.log.is_some_and(|log| log.key == name)).find_map(|blank| blank.target.as_ref());
    let value = after.answer.value(name)?;
    let number = |fact: &Fact| match fact {
        Fact::Figure { number, unit, .. } if *unit == value.unit => Some(*number),
        _ => None,
    };
    let (low, high) = match asked? {
        Target::Between(low, high) => (number(low)?, number(high)?),
        Target::UpTo(most) => (f64::NEG_INFINITY, number(most)?),
        Target::Aim(Fact::Figure { number, doubt: Some(doubt), .. }) => (number - doubt, number + doubt),
        Target::Aim(_) => return None,
    };
    let is_inside = (low - DUST..=high + DUST).contains(&value.number);
    let left = Fact::figure(value.number, value.unit).said(None, print);
    let mut out = Lines::default();
    out.hanging("", &said::not_as_asked(entry, name, &left, &figures::target_line(asked?, print)));
    (!is_inside).then(|| out.finish())
}

/// Under this two figures are one: binary fractions leave dust.
const DUST: f64 = 1e-9;

/// What fails of an operation by a line that was just written, or is not finished, and how the line is put right where it was a slip.
pub fn fails_by_it(
    (plan, planned): (&Plan, &Planned),
    failing: &[&Check<String>],
    (told, (job, name, entry)): (&Address, (String, &str, u32)),
) -> String {
    let mut out = Lines::default();
    let of = planned.address.to_string();
    let any = |is: fn(&&Check<String>) -> bool| failing.iter().copied().any(|check| is(&check));
    let says = match (any(|check| check.verdict() == Some(Verdict::Fails)), any(|check| check.unfinished.is_some())) {
        (true, _) => said::fails_by(&of, entry),
        (false, true) => said::unfinished_by(&of, entry),
        (false, false) => said::doubtful_by(&of, entry),
    };
    out.hanging("", &says);
    failing.iter().for_each(|check| super::check(&mut out, plan, check, 2));
    out.hanging("", &said::slip(&job, &told.to_string(), name, entry));
    out.finish()
}

/// A whole log.
pub fn log(log: &Log) -> String {
    let mut out = Lines::default();
    if log.entries.is_empty() {
        out.line(said::NOTHING);
    }
    let standing: BTreeSet<u32> = log.standing(None).map(|entry| entry.n.value).collect();
    let rows: Vec<Vec<String>> = log
        .entries
        .iter()
        .map(|entry| {
            let mut row = row(entry);
            if let Some(last) = row.last_mut().filter(|_| !standing.contains(&entry.n.value)) {
                *last = format!("{last} {}", said::NO_MORE);
            }
            row
        })
        .collect();
    out.table(0, &rows);
    for fault in &log.faults {
        out.hanging("  ", &said::fault(fault));
    }
    out.finish()
}

/// The names of what can be written down of an operation, and a line to copy.
pub fn loggable(job: &str, of: &str, names: &[(String, String)]) -> String {
    let mut out = Lines::default();
    match names {
        [] => out.line(&said::nothing_is_logged(of)),
        [(first, _), ..] => {
            out.line(&said::what_is_logged(of));
            let rows: Vec<Vec<String>> = names.iter().map(|(name, means)| vec![name.clone(), means.clone()]).collect();
            out.table(2, &rows);
            out.hanging("", &said::as_in_log(job, of, first));
        }
    }
    out.finish()
}

/// What changed between two plans of a job, a difference a line, and what of it holds no longer; `since` which entry, of how many.
pub fn changes(all: &[Change], undone: &[Change], (since, last): (u32, u32)) -> String {
    let mut out = Lines::default();
    if all.is_empty() {
        out.line(&said::no_change(since, last));
    }
    all.iter().for_each(|change| out.hanging("", &said::change(change)));
    no_longer(&mut out, undone);
    out.finish()
}

/// What held before anything was logged and holds no more, under its heading.
pub(super) fn no_longer(out: &mut Lines, all: &[Change]) {
    if !all.is_empty() {
        out.heading(said::NO_LONGER);
        all.iter().for_each(|change| out.hanging("  • ", &said::change(change)));
    }
}

/// Number, day, who, operation, and what it says.
fn row(entry: &LogEntry) -> Vec<String> {
    let mut says: Vec<String> =
        entry.values.iter().map(|(name, typed)| format!("{} {}", name.value, typed.value)).collect();
    says.extend(entry.with.as_ref().map(|with| said::with(&with.value)));
    says.extend(entry.at.as_ref().map(|at| said::at(at.value)));
    says.extend(entry.gauge_at.as_ref().map(|at| said::gauge_at(at.value)));
    says.extend(entry.set_up.as_ref().map(|set_up| said::set_up(&set_up.value)));
    says.extend(entry.from.map(|from| format!("from {from}")));
    says.extend(entry.to.map(|to| format!("to {to}")));
    says.extend(entry.corrects.as_ref().map(|at| said::corrects(at.value)));
    says.extend(entry.withdraws.as_ref().map(|at| said::withdraws(at.value)));
    says.extend(entry.note.clone());
    vec![
        said::entry(entry.n.value),
        entry.date.as_ref().map_or_else(String::new, |date| date.value.to_string()),
        entry.by.clone().unwrap_or_default(),
        entry.of.as_ref().map_or_else(String::new, |of| of.value.to_string()),
        says.join(", "),
    ]
}
