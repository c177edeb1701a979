//! What a line that was just written into a log does: told while the gauge is still in the hand.

use super::load::{Inputs, LINES};
use super::today::today;
use crate::job::{Address, Log, LogEntry};
use crate::operations::done_by;
use crate::plan::{Plan, Planned};
use crate::proof::{Check, Verdict};
use crate::sheet::terminal;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

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
    let mut says = odd_days(log, first);
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
        // What is put in the place of a wrong line lies where the sheet asked for it before that was written.
        let corrected = new().filter_map(|entry| entry.corrects.as_ref()).map(|at| at.value).min();
        let asked = corrected.and_then(|n| worked(Some(n.saturating_sub(1))));
        let asked = asked.as_ref().unwrap_or(&before);
        for plan in &after {
            for planned in &plan.operations {
                let own = new().rfind(|entry| entry.of.as_ref().is_some_and(|of| of.value == planned.address));
                let keys = logged_of(log, first, &planned.address);
                let corrects = own.is_some_and(|own| own.corrects.is_some());
                let mut failing = newly_failing(&before, planned, &keys, corrects);
                if failing.is_empty() {
                    failing = newly_doubted(&before, planned, &keys, corrects);
                }
                if failing.is_empty() && own.is_some() {
                    failing = failing_still(planned);
                }
                let was = asked.iter().flat_map(|plan| &plan.operations).find(|was| was.address == planned.address);
                if let (Some(entry), Some(was), true) = (own, was, failing.is_empty()) {
                    let off = |name: &str| terminal::not_as_asked((was, planned), name, entry.n.value, plan.print);
                    keys.iter().filter_map(|name| off(name)).for_each(|line| says += &line);
                }
                // What fails elsewhere by it is told too: the last of the lines that may be the cause.
                let by = own.or_else(|| new().rfind(|entry| entry.of.is_some()));
                let blamed = by.map(|by| blamed(log, planned, &failing, by)).unwrap_or_default();
                for (entry, failing) in blamed.values() {
                    let wrong: Vec<&str> =
                        failing.iter().flat_map(|check| [check.about, check.unfinished]).flatten().collect();
                    let slip = correction((job, others, shop), entry, &wrong);
                    says += &terminal::fails_by_it((plan, planned), failing, (entry.n.value, &slip));
                }
                if let Some(entry) = own {
                    says += &still_wanted((job, planned), (log, entry), &keys);
                }
            }
        }
    }
    says
}

/// The lines whose day is to come, or lies before that of the line above it: what was read before a cut is known by the day. East of
/// Greenwich it may be tomorrow.
fn odd_days(log: &Log, first: u32) -> String {
    let latest = today().plus(1);
    let day = |entry: &LogEntry| entry.date.as_ref().map(|at| at.value);
    let told = |entry: &LogEntry| {
        let own = day(entry)?;
        if own > latest {
            return Some(terminal::odd_day(entry.n.value, &own.to_string(), None));
        }
        let above = log.entries.iter().rev().filter(|other| other.n.value < entry.n.value);
        let (other, then) = above.filter_map(|other| Some((other.n.value, day(other)?))).next()?;
        (own < then && entry.corrects.is_none())
            .then(|| terminal::odd_day(entry.n.value, &own.to_string(), Some((other, then.to_string()))))
    };
    log.entries.iter().filter(|entry| entry.n.value >= first).filter_map(told).collect()
}

/// What fails of an operation, by the line that gives the figure which is judged, where that is its own: the one that was just written only
/// where it does, or where it is of other work.
fn blamed<'a, 'b>(
    log: &'a Log,
    planned: &Planned,
    failing: &[&'b Check<String>],
    by: &'a LogEntry,
) -> BTreeMap<u32, (&'a LogEntry, Vec<&'b Check<String>>)> {
    let read = |check: &Check<String>| {
        let value = planned.answer.value(check.about.or(check.unfinished)?)?;
        let (entry, key) = (value.origin.entry()?, value.key);
        let gives = |other: &&LogEntry| {
            other.n.value == entry
                && other.of.as_ref().is_some_and(|of| of.value == planned.address)
                && other.values.iter().any(|(name, _)| name.value == key)
        };
        log.entries.iter().find(gives)
    };
    let mut all = BTreeMap::new();
    for check in failing {
        // What another operation's line does is laid to that.
        let is_own = by.of.as_ref().is_some_and(|of| of.value == planned.address);
        let entry = read(check).filter(|_| is_own).unwrap_or(by);
        all.entry(entry.n.value).or_insert((entry, Vec::new())).1.push(*check);
    }
    all
}

/// The command that puts a line right.
fn correction((job, others, shop): (&Path, &[PathBuf], Option<&Path>), entry: &LogEntry, wrong: &[&str]) -> String {
    let mut more = String::new();
    let mut put = |key: &str, value: &str| more += &format!(" {key} {}", terminal::in_quotes(value));
    if let Some(date) = entry.date.as_ref().filter(|at| at.value != today()) {
        put("--date", &date.value.to_string());
    }
    entry.by.iter().for_each(|by| put("--by", by));
    others.iter().for_each(|other| put("--and", &other.display().to_string()));
    shop.into_iter().for_each(|shop| put("--shop", &shop.display().to_string()));
    terminal::correction(entry, (&job.display().to_string(), &more), wrong)
}

/// What is still to be written down of work of which a line was just written: which name says that it was done, or what must be known of it
/// beside that.
fn still_wanted((job, planned): (&Path, &Planned), (log, entry): (&Log, &LogEntry), keys: &[&str]) -> String {
    let set_ups = &planned.answer.set_ups;
    let is_left = |key: &str| planned.answer.value(key).is_some_and(|value| value.origin.entry().is_some());
    let finished = |at: usize| {
        log.standing(None).any(|other| {
            let is_it = other.of.as_ref().is_some_and(|of| of.value == planned.address);
            is_it
                && (other.done || other.to.is_some())
                && other.set_up.as_ref().is_none_or(|named| set_ups.get(at).is_some_and(|it| it.id == named.value))
        })
    };
    let done: Vec<bool> = {
        let closed = done_by(set_ups, |key| is_left(key).then_some(0));
        closed.into_iter().enumerate().map(|(at, closed)| closed.is_some() || finished(at)).collect()
    };
    let lines = |at: usize| set_ups.get(at).into_iter().flat_map(|it| &it.blanks).filter_map(|blank| blank.log);
    let mine = |at: &usize| keys.is_empty() || lines(*at).any(|line| keys.contains(&line.key));
    let means = |key: &'static str| (key, planned.answer.value(key).map_or("", |value| value.means));
    let own: Vec<usize> = (0..set_ups.len()).filter(mine).collect();
    let job = job.display().to_string();
    let of = planned.address.to_string();
    let open: Vec<usize> = own.iter().copied().filter(|at| !done.get(*at).copied().unwrap_or(true)).collect();
    let is_begun = entry.from.is_some() && entry.to.is_none();
    if !is_begun && (!open.is_empty() || own.is_empty() && done.iter().any(|done| !done)) {
        let closing =
            |at: usize| lines(at).filter(|line| line.closes && !is_left(line.key)).map(|line| means(line.key));
        let mut wanted: Vec<(&str, &str)> = open.iter().flat_map(|at| closing(*at)).collect();
        // What comes before one that is done is done too.
        if wanted.is_empty() {
            wanted = (0..set_ups.len()).skip(open.last().map_or(0, |last| last + 1)).flat_map(closing).collect();
        }
        let which = match open.as_slice() {
            all if all.len() == set_ups.len() => String::new(),
            [one] => format!("set-up={} ", set_ups.get(*one).map_or("SET-UP", |set_up| set_up.id)),
            _ => "set-up=SET-UP ".to_owned(),
        };
        return terminal::still_wanted(entry, (&job, &of), &wanted, Some(&which));
    }
    let lacks = planned.answer.checks.iter().any(|check| check.id == WRITTEN_DOWN);
    let wanted =
        own.iter().flat_map(|at| lines(*at)).filter(|line| (line.closes || line.is_wanted) && !is_left(line.key));
    let wanted: Vec<(&str, &str)> = wanted.map(|line| means(line.key)).collect();
    if lacks && !wanted.is_empty() { terminal::still_wanted(entry, (&job, &of), &wanted, None) } else { String::new() }
}

/// The check of a size that was not written down of work that is done: what is wanted is told by its name.
const WRITTEN_DOWN: &str = "size-written-down";

/// The names under which new lines tell of an operation.
fn logged_of<'a>(log: &'a Log, first: u32, of: &Address) -> Vec<&'a str> {
    let new = log.entries.iter().filter(|entry| entry.n.value >= first);
    let own = new.filter(|entry| entry.of.as_ref().is_some_and(|told| told.value == *of));
    own.flat_map(|entry| entry.values.iter().map(|(name, _)| name.value.as_str())).collect()
}

/// The checks of an operation of which a line was just written that are doubtful: of the figures that it gives those which were not before,
/// of a correction all; of others those which were not asked before.
fn newly_doubted<'a>(before: &[Plan], planned: &'a Planned, keys: &[&str], corrects: bool) -> Vec<&'a Check<String>> {
    let is_open = |check: &&Check<String>| check.stamps() == Some(Verdict::Doubtful) && check.verdict().is_some();
    let mut operations = before.iter().flat_map(|plan| &plan.operations);
    let Some(was) = operations.find(|other| other.address == planned.address) else { return Vec::new() };
    let was_open = |id: &str| was.answer.checks.iter().filter(is_open).any(|check| check.id == id);
    let is_own = |check: &Check<String>| check.about.is_some_and(|key| keys.contains(&key));
    let own = planned.answer.checks.iter().filter(|check| !keys.is_empty() && check.id != WRITTEN_DOWN);
    // What was proven by the plan and hangs on a figure besides is told by the plan.
    let was_asked = |id: &str| was.answer.checks.iter().any(|check| check.id == id && check.verdict().is_some());
    let is_told = |check: &Check<String>| match is_own(check) {
        true => corrects || !was_open(check.id),
        false => !was_asked(check.id),
    };
    own.filter(is_open).filter(|check| is_told(check)).collect()
}

/// The checks of an operation that fails as it did before the line that was just written: the line betters nothing.
fn failing_still(planned: &Planned) -> Vec<&Check<String>> {
    planned.answer.checks.iter().filter(|check| check.stamps() == Some(Verdict::Fails)).collect()
}

/// The checks of an operation that fail, or by which metal still stands, and did not before or are about a figure that was just written
/// down; of a correction all that do.
fn newly_failing<'a>(before: &[Plan], planned: &'a Planned, keys: &[&str], corrects: bool) -> Vec<&'a Check<String>> {
    let fails = |check: &&Check<String>| check.stamps() == Some(Verdict::Fails) || check.unfinished.is_some();
    let mut operations = before.iter().flat_map(|plan| &plan.operations);
    let Some(was) = operations.find(|other| other.address == planned.address) else { return Vec::new() };
    let failed = |id: &str| was.answer.checks.iter().filter(fails).any(|check| check.id == id);
    let is_own =
        |check: &Check<String>| [check.about, check.unfinished].into_iter().flatten().any(|key| keys.contains(&key));
    let is_told = |check: &Check<String>| corrects || is_own(check) || !failed(check.id);
    planned.answer.checks.iter().filter(fails).filter(|check| is_told(check)).collect()
}
