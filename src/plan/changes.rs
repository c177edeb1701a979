//! What the log changes: the plans of jobs held against others, address by address, each difference with the entry of the log that
//! is the nearest cause of it.

use super::change::{Change, ChangeKind};
use super::frame::{Plan, Planned};
use crate::job::{Address, Log, LogEntry};
use crate::operations::Choice;
use crate::proof::{Check, Verdict};
use crate::quantity::{Print, Shown};
use std::collections::{BTreeMap, HashMap, HashSet, VecDeque};

/// An entry of the log of one of the jobs: its number, and which job's.
type Cause = (u32, usize);

/// The entries of the logs by the operations that they tell of: the last of each counts.
#[derive(Clone, Debug, Default)]
struct Causes<'a> {
    entries: HashMap<&'a Address, Cause>,
    needs: HashMap<&'a Address, Vec<&'a Address>>,
    /// The names of the jobs, where there are several.
    jobs: Vec<&'a str>,
}

impl<'a> Causes<'a> {
    fn of(plans: &'a [Plan], logs: &[&'a Log], since: u32) -> Self {
        let mut causes = Self::default();
        for (job, log) in logs.iter().enumerate() {
            causes.enter(log, job, since);
        }
        if plans.len() > 1 {
            causes.jobs = plans.iter().map(|plan| plan.job.as_str()).collect();
        }
        for planned in plans.iter().flat_map(|plan| &plan.operations) {
            let needs = planned.of_day.reads.iter().chain(&planned.of_day.partner).collect();
            causes.needs.insert(&planned.address, needs);
        }
        causes
    }

    fn enter(&mut self, log: &'a Log, job: usize, since: u32) {
        let by_number: HashMap<u32, &LogEntry> = log.entries.iter().map(|entry| (entry.n.value, entry)).collect();
        let stands: HashSet<u32> = log.standing(None).map(|entry| entry.n.value).collect();
        for entry in log.entries.iter().filter(|entry| entry.n.value > since) {
            // One that takes an entry back is the cause for what that one told of, where the earlier plan went by it.
            let taken = entry.withdraws.as_ref().or(entry.corrects.as_ref());
            let other = taken.and_then(|n| by_number.get(&n.value)).filter(|other| other.n.value <= since);
            if !(stands.contains(&entry.n.value) && entry.of.is_some()) && other.is_none() {
                continue;
            }
            for of in [entry.of.as_ref(), other.and_then(|other| other.of.as_ref())].into_iter().flatten() {
                self.entries.insert(&of.value, (entry.n.value, job));
            }
        }
    }

    /// A difference of one operation, with its cause.
    fn change(&self, kind: ChangeKind, (address, old, new): (String, String, String), cause: Option<Cause>) -> Change {
        let job = cause.and_then(|(_, job)| self.jobs.get(job)).map(|job| (*job).to_owned());
        Change { kind, address, old, new, entry: cause.map(|cause| cause.0), job }
    }

    /// The newest entry that a value comes from, where it comes from what was left.
    fn of_value(&self, planned: &Planned, key: &str) -> Option<Cause> {
        let entry = planned.answer.value(key)?.origin.newest_entry()?;
        let there = self.up(&planned.address).into_iter().filter_map(|at| self.entries.get(at));
        let own = || self.entries.get(&planned.address).map(|own| (entry, own.1));
        there.copied().find(|cause| cause.0 == entry).or_else(own)
    }

    /// An operation, and all that it needs.
    fn up<'b>(&'b self, address: &'b Address) -> Vec<&'b Address> {
        let mut all = vec![address];
        let mut seen = HashSet::from([address]);
        let mut at = 0;
        while let Some(here) = all.get(at).copied() {
            all.extend(self.needs.get(here).into_iter().flatten().copied().filter(|need| seen.insert(*need)));
            at += 1;
        }
        all
    }

    /// The entry that left the very size which a check is about.
    fn of_check(&self, planned: &Planned, id: &str) -> Option<Cause> {
        self.of_value(planned, planned.answer.checks.iter().find(|check| check.id == id)?.about?)
    }

    /// The entry nearest up the needs of an operation; of those equally near the last.
    fn nearest(&self, address: &'a Address) -> Option<Cause> {
        let mut seen: HashSet<&Address> = HashSet::from([address]);
        let mut level = vec![address];
        while !level.is_empty() {
            if let Some(entry) = level.iter().filter_map(|at| self.entries.get(at)).max() {
                return Some(*entry);
            }
            let next: VecDeque<&Address> = level
                .iter()
                .filter_map(|at| self.needs.get(at))
                .flatten()
                .copied()
                .filter(|at| seen.insert(*at))
                .collect();
            level = next.into();
        }
        None
    }
}

/// The operations of all jobs, in the order of the files.
fn operations(plans: &[Plan]) -> impl Iterator<Item = &Planned> {
    plans.iter().flat_map(|plan| &plan.operations)
}

/// What stands in plans under each address.
fn by_address(plans: &[Plan]) -> HashMap<&Address, &Planned> {
    operations(plans).map(|planned| (&planned.address, planned)).collect()
}

/// Everything that differs between the plans of jobs by the entries of each log up to `since` and those by all of them.
pub fn changes(old: &[Plan], new: &[Plan], logs: &[&Log], since: u32) -> Vec<Change> {
    let causes = Causes::of(new, logs, since);
    let before = by_address(old);
    let mut all = Vec::new();
    for (print, planned) in new.iter().flat_map(|plan| plan.operations.iter().map(|planned| (plan.print, planned))) {
        let Some(was) = before.get(&planned.address) else { continue };
        let cause = causes.nearest(&planned.address);
        let change = |kind, of: &str, (old, new): (String, String)| {
            causes.change(kind, (planned.address.value(of).to_string(), old, new), cause)
        };
        for (key, ends) in differing(&figures(was, print), &figures(planned, print)) {
            let kind = match (&ends.0, &ends.1) {
                (None, _) => ChangeKind::Added,
                (_, None) => ChangeKind::Gone,
                _ => ChangeKind::Figure,
            };
            let own = causes.of_value(planned, key).filter(|(entry, _)| *entry > since).or(cause);
            let ends = (ends.0.unwrap_or_default(), ends.1.unwrap_or_default());
            all.push(causes.change(kind, (planned.address.value(key).to_string(), ends.0, ends.1), own));
        }
        let stops = stops(was, planned);
        if stops {
            let ends = (planned.address.to_string(), WORKED.to_owned(), NOT_WORKED.to_owned());
            all.push(causes.change(ChangeKind::Check, ends, cause));
        }
        for (id, ends) in differing(&states(was), &states(planned)) {
            if stops && !is_made(planned, id) {
                continue;
            }
            let cause = causes.of_check(planned, id).filter(|(entry, _)| *entry > since).or(cause);
            let change = |kind, of: &str, (old, new): (String, String)| {
                causes.change(kind, (planned.address.value(of).to_string(), old, new), cause)
            };
            all.push(change(ChangeKind::Check, id, (ends.0.unwrap_or_default(), ends.1.unwrap_or_default())));
        }
        for (name, ends) in differing(&choices(was), &choices(planned)) {
            all.push(change(ChangeKind::Chosen, name, (ends.0.unwrap_or_default(), ends.1.unwrap_or_default())));
        }
    }
    all
}

/// A name with what stood under it before and what stands there now.
type Differing<'a> = Vec<(&'a str, (Option<String>, Option<String>))>;

/// Names whose texts differ, in the order of the new, those that are gone behind them.
fn differing<'a>(old: &[(&'a str, String)], new: &[(&'a str, String)]) -> Differing<'a> {
    let find =
        |all: &[(&str, String)], name: &str| all.iter().find(|(own, _)| *own == name).map(|(_, text)| text.clone());
    let gone = old.iter().filter(|(name, _)| find(new, name).is_none());
    let all = new.iter().chain(gone).map(|(name, _)| (*name, (find(old, name), find(new, name))));
    all.filter(|(_, ends)| ends.0 != ends.1).collect()
}

fn figures(planned: &Planned, print: Print) -> Vec<(&str, String)> {
    let shown = |value: &crate::operations::Value| {
        let shown = Shown::usual(value.number, Some(value.plus_minus), value.unit, value.rounds, print);
        (value.key, shown.to_string())
    };
    planned.answer.values.iter().map(shown).collect()
}

fn states(planned: &Planned) -> Vec<(&str, String)> {
    let mut worst: BTreeMap<&str, &Check<String>> = BTreeMap::new();
    for check in &planned.answer.checks {
        let known = worst.entry(check.id).or_insert(check);
        if check.verdict() > known.verdict() {
            *known = check;
        }
    }
    worst.into_iter().map(|(id, check)| (id, check.state.text().to_owned())).collect()
}

fn choices(planned: &Planned) -> Vec<(&str, String)> {
    let shown = |choice: &Choice<String>| (choice.name, choice.chosen.clone());
    planned.answer.choices.iter().map(shown).collect()
}

/// What held before anything was logged and holds no more, of each plan: verdicts that are worse, what was fitted and would not
/// be taken now, work that went on from what was not written down.
pub fn no_longer(unlogged: &[Plan], plans: &[Plan], logs: &[&Log]) -> Vec<Vec<Change>> {
    let before = by_address(unlogged);
    let causes = Causes::of(plans, logs, 0);
    let of_one = |planned: &Planned| {
        let mut all = Vec::new();
        let cause = causes.nearest(&planned.address);
        if let Some(was) = before.get(&planned.address) {
            let stops = stops(was, planned);
            if stops {
                let ends = (planned.address.to_string(), WORKED.to_owned(), NOT_WORKED.to_owned());
                all.push(causes.change(ChangeKind::Check, ends, cause));
            }
            let worse = worse(was, planned).into_iter().filter(|(id, ..)| !stops || is_made(planned, id));
            all.extend(worse.map(|(id, old, new)| {
                let ends = (planned.address.value(id).to_string(), old.to_owned(), new.text().to_owned());
                let own = causes.of_check(planned, id).or(cause);
                causes.change(ChangeKind::Check, ends, own)
            }));
        }
        for check in &planned.answer.checks {
            let Some(key) = check.unfinished else { continue };
            let says = check.remedies.first().map_or_else(String::new, |remedy| remedy.words.clone());
            let ends = (planned.address.value(key).to_string(), String::new(), says);
            all.push(causes.change(ChangeKind::Unfinished, ends, cause));
        }
        for choice in &planned.answer.choices {
            let Some(instead) = &choice.instead else { continue };
            let ends = (planned.address.value(choice.name).to_string(), choice.chosen.clone(), instead.clone());
            all.push(causes.change(ChangeKind::Fitted, ends, cause));
        }
        if let Some(own) = causes.entries.get(&planned.address) {
            all.extend(passed(planned, plans, &causes).into_iter().map(|address| {
                let ends = (address, String::new(), planned.address.to_string());
                causes.change(ChangeKind::Passed, ends, Some(*own))
            }));
        }
        all
    };
    plans.iter().map(|plan| plan.operations.iter().flat_map(of_one).collect()).collect()
}

/// An operation before and after it could no longer be worked out.
const WORKED: &str = "worked out";
const NOT_WORKED: &str = "not worked out";

/// Whether an operation that was worked out no longer is: what it then does not check has that one cause.
fn stops(was: &Planned, is: &Planned) -> bool {
    was.answer.refused.is_none() && is.answer.refused.is_some()
}

/// Whether an operation made a check.
fn is_made(planned: &Planned, id: &str) -> bool {
    planned.answer.checks.iter().any(|check| check.id == id && check.verdict().is_some())
}

/// Puts to each check that came out otherwise the entry by which it first does, in the log that has its cause. `logs` are the jobs' names with
/// their logs; `upto` works the jobs with the entries of the one log up to one, of the others with all.
pub fn by_their_entries(
    all: &mut [Change],
    logs: &[(&str, &Log)],
    mut upto: impl FnMut(usize, u32) -> Option<Vec<Plan>>,
) {
    let mut worked: HashMap<Cause, Option<Vec<Plan>>> = HashMap::new();
    for change in all.iter_mut().filter(|change| change.kind == ChangeKind::Check && change.entry.is_some()) {
        let is_its = |(name, _): &(&str, &Log)| change.job.as_deref().is_none_or(|job| job == *name);
        let Some(nth) = logs.iter().position(is_its) else { continue };
        let mut stands = |n: u32| {
            let plans = worked.entry((n, nth)).or_insert_with(|| upto(nth, n));
            plans.as_ref().is_some_and(|plans| stands_so(plans, change))
        };
        let Some((_, log)) = logs.get(nth) else { continue };
        let (mut before, mut by) = (0, log.last);
        // Where it stood so before anything was written here, or does not even now, another log has the cause.
        if stands(before) || !stands(by) {
            continue;
        }
        while before + 1 < by {
            let middle = before.midpoint(by);
            if stands(middle) { by = middle } else { before = middle }
        }
        change.entry = Some(by);
    }
}

/// Whether a check stands as a change says that it does now.
fn stands_so(plans: &[Plan], change: &Change) -> bool {
    operations(plans).any(|planned| {
        let id = change.address.strip_prefix(&planned.address.to_string()).and_then(|rest| rest.strip_prefix('/'));
        id.is_some_and(|id| states(planned).iter().any(|(own, state)| *own == id && *state == change.new))
    })
}

/// What of the same holds no longer since an entry: what held then too, and was asked.
pub fn no_longer_since(unlogged: &[Plan], old: &[Plan], plans: &[Plan], logs: &[&Log]) -> Vec<Change> {
    let held = |change: &Change| {
        [Verdict::Proven, Verdict::Doubtful, Verdict::Fails].iter().any(|verdict| verdict.text() == change.old)
    };
    let since: Vec<Change> = no_longer(old, plans, logs).into_iter().flatten().filter(held).collect();
    let is_since = |change: &Change| {
        let is_check = change.kind == ChangeKind::Check && change.old != WORKED;
        !is_check || held(change) && since.iter().any(|other| other.address == change.address)
    };
    no_longer(unlogged, plans, logs).into_iter().flatten().filter(is_since).collect()
}

/// Checks of an operation whose verdict is worse than it was, each with both.
fn worse<'a>(was: &Planned, is: &'a Planned) -> Vec<(&'a str, &'static str, Verdict)> {
    let verdict = |planned: &Planned, id: &str| {
        planned.answer.checks.iter().filter(|check| check.id == id).filter_map(Check::stamps).max()
    };
    let mut seen = HashSet::new();
    let ids = is.answer.checks.iter().map(|check| check.id).filter(|id| seen.insert(*id));
    ids.filter_map(|id| {
        let new = verdict(is, id)?;
        let old = verdict(was, id);
        // What was not asked then was not proven either, and says so.
        let unmade = || was.answer.checks.iter().find(|check| check.id == id).map(|check| check.state.text());
        let said = old.map(Verdict::text).or_else(unmade).unwrap_or_default();
        (new > old.unwrap_or(Verdict::Proven)).then_some((id, said, new))
    })
    .collect()
}

/// Operations whose size this one, which was done, goes on from, and of which nothing was written down.
fn passed(done: &Planned, plans: &[Plan], causes: &Causes) -> Vec<String> {
    let asks = |address: &Address| {
        let other = operations(plans).find(|other| other.address == *address);
        other.is_some_and(|other| !other.may_be_logged.is_empty())
    };
    let needs = done.of_day.reads.iter().filter(|need| asks(need) && !causes.entries.contains_key(need));
    let mut all: Vec<String> = needs.map(ToString::to_string).collect();
    all.dedup();
    all
}
