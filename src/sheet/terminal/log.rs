//! The log at a terminal: an entry a line, those that count no more marked, and what is wrong with lines quoted.

use super::lines::Lines;
use super::words::log as said;
use crate::operations::{HoldPoint, Target};
use crate::plan::{Change, ChangeKind, Log, LogEntry, Plan, Planned};
use crate::proof::{Check, Fact, Verdict};
use crate::quantity::{Print, Quantity};
use crate::sheet::figures;
use std::collections::BTreeSet;

/// What was written.
pub fn written(entries: &[&LogEntry], all: &Log) -> String {
    let mut out = Lines::default();
    entries.iter().for_each(|entry| out.line(&row(entry, all).join("  ")));
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
    // Where its sheet stops for it, for what is read there the work goes on.
    let ((low, high), asked) = match hold(before, name) {
        Some(hold) => {
            let (least, most) = hold.limits.numbers();
            let says = said::hold_limits(&hold.limits, print);
            ((least.unwrap_or(f64::NEG_INFINITY), most.unwrap_or(f64::INFINITY)), says)
        }
        None => {
            let ends = match asked? {
                Target::Between(low, high) => (number(low)?, number(high)?),
                Target::UpTo(most) => (f64::NEG_INFINITY, number(most)?),
                Target::Aim(Fact::Figure { number, doubt: Some(doubt), .. }) => (number - doubt, number + doubt),
                Target::Aim(_) => return None,
            };
            (ends, figures::target_line(asked?, print))
        }
    };
    let is_inside = (low - DUST..=high + DUST).contains(&value.number);
    let left = Fact::figure(value.number, value.unit).said(None, print);
    let mut out = Lines::default();
    out.hanging("", &said::not_as_asked(entry, name, &left, &asked));
    (!is_inside).then(|| out.finish())
}

/// The last stop of an operation at which a size is measured as it stays.
fn hold<'a>(planned: &'a Planned, name: &str) -> Option<&'a HoldPoint<String>> {
    let steps = planned.answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    let holds = steps.filter_map(|step| step.hold_point.as_ref());
    let own = holds.filter(|hold| hold.measures == name && hold.taken_off.abs() <= DUST);
    own.filter(|hold| hold.limits.numbers() != (None, None)).last()
}

/// What is still to be written down of work of which a line was just written, and how it is said that it was done without; `open` is the
/// set-up that nobody said was done, as a command names it.
pub fn still_wanted(entry: &LogEntry, (job, of): (&str, &str), wanted: &[(&str, &str)], open: Option<&str>) -> String {
    let mut out = Lines::default();
    let names: Vec<String> = wanted.iter().map(|(key, means)| said::name(key, means)).collect();
    out.hanging("", &said::still_wanted(entry.n.value, (job, of), &names, open));
    out.finish()
}

/// A day of a line that is to come, or that lies before that of the line above it.
pub fn odd_day(entry: u32, day: &str, before: Option<(u32, String)>) -> String {
    let mut out = Lines::default();
    out.hanging("", &said::odd_day(entry, day, before));
    out.finish()
}

/// The command that puts an entry right: all that it gives, and in the place of what is wrong the blank to be filled.
pub fn correction(entry: &LogEntry, (job, more): (&str, &str), wrong: &[&str]) -> String {
    let mut says = format!("setover log {job}");
    let mut put = |text: String| {
        says.push(' ');
        says.push_str(&text);
    };
    if let Some(of) = &entry.of {
        put(in_quotes(&of.value.to_string()));
    }
    let is_wrong =
        |name: &str| wrong.contains(&name) || !entry.values.iter().any(|(own, _)| wrong.contains(&own.value.as_str()));
    for (name, typed) in &entry.values {
        let size = if is_wrong(&name.value) { "SIZE" } else { typed.value.as_str() };
        put(format!("{}={}", name.value, in_quotes(size)));
    }
    let keys = [
        ("with", entry.with.as_ref().map(|at| at.value.clone())),
        ("at", entry.at.as_ref().map(|at| format!("{} degC", at.value.number()))),
        ("gauge-at", entry.gauge_at.as_ref().map(|at| format!("{} degC", at.value.number()))),
        ("set-up", entry.set_up.as_ref().map(|at| at.value.clone())),
        ("from", entry.from.map(|at| at.to_string())),
        ("to", entry.to.map(|at| at.to_string())),
        ("machine", entry.machine.clone()),
        ("done", entry.done.then(|| "yes".to_owned())),
        ("note", entry.note.clone()),
    ];
    for (key, value) in keys {
        value.into_iter().for_each(|value| put(format!("{key}={}", in_quotes(&value))));
    }
    put(format!("--corrects {}{more}", said::entry(entry.n.value)));
    says
}

/// A word of a command line, as a shell takes it.
pub fn in_quotes(text: &str) -> String {
    let is_plain = |c: char| !matches!(c, '"' | '$' | '`' | '\\' | '!');
    if text.chars().all(is_plain) { format!("\"{text}\"") } else { format!("'{}'", text.replace('\'', "'\\''")) }
}

/// Under this two figures are one: binary fractions leave dust.
const DUST: f64 = 1e-9;

/// What fails of an operation by a line that was just written, or is not finished, and how the line is put right where it was a slip.
pub fn fails_by_it(
    (plan, planned): (&Plan, &Planned),
    failing: &[&Check<String>],
    (entry, slip): (u32, &str),
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
    out.hanging("", &said::slip(slip));
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
            let mut row = row(entry, log);
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
        [] => out.hanging("", &said::nothing_is_logged(job, of)),
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

/// Figures that are printed otherwise than in a plan before, a line each.
pub fn figures_changed(all: &[Change]) -> String {
    let mut out = Lines::default();
    let figures = all.iter().filter(|change| !matches!(change.kind, ChangeKind::Check));
    figures.for_each(|change| out.hanging("  ", &said::change(change)));
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
fn row(entry: &LogEntry, all: &Log) -> Vec<String> {
    let taken = entry.withdraws.as_ref().and_then(|at| all.entries.iter().find(|other| other.n.value == at.value));
    let of = entry.of.as_ref().or_else(|| taken?.of.as_ref());
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
    says.extend(entry.done.then(|| said::DONE.to_owned()));
    says.extend(entry.note.clone());
    vec![
        said::entry(entry.n.value),
        entry.date.as_ref().map_or_else(String::new, |date| date.value.to_string()),
        entry.by.clone().unwrap_or_default(),
        of.map_or_else(String::new, |of| of.value.to_string()),
        says.join(", "),
    ]
}
