//! What the log changes: one plan of a job held against another, address by address, each difference with the entry of the log that
//! is the nearest cause of it.

use super::change::{Change, ChangeKind};
use super::frame::{Plan, Planned};
use crate::job::{Address, Log};
use crate::operations::Choice;
use crate::proof::{Check, Verdict};
use crate::quantity::{Print, Shown};
use std::collections::{BTreeMap, HashMap, HashSet, VecDeque};

/// The entries of a log by the operations that they tell of: the last of each counts.
#[derive(Clone, Debug, Default)]
struct Causes<'a> {
    entries: HashMap<&'a Address, u32>,
    needs: HashMap<&'a Address, Vec<&'a Address>>,
}

impl<'a> Causes<'a> {
    fn of(plan: &'a Plan, log: &'a Log, since: u32) -> Self {
        let mut causes = Self::default();
        for entry in log.entries.iter().filter(|entry| entry.n.value > since) {
            // One that takes an entry back is the cause for what that one told of.
            let taken = entry.withdraws.as_ref().or(entry.corrects.as_ref());
            let other = taken.and_then(|n| log.entries.iter().find(|other| other.n.value == n.value));
            for of in [entry.of.as_ref(), other.and_then(|other| other.of.as_ref())].into_iter().flatten() {
                causes.entries.insert(&of.value, entry.n.value);
            }
        }
        for planned in &plan.operations {
            let needs = planned.of_day.reads.iter().chain(&planned.of_day.partner).collect();
            causes.needs.insert(&planned.address, needs);
        }
        causes
    }

    /// The entry nearest up the needs of an operation; of those equally near the last.
    fn nearest(&self, address: &'a Address) -> Option<u32> {
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

/// What stands in a plan under each address, in the order of the file.
fn by_address(plan: &Plan) -> HashMap<&Address, &Planned> {
    plan.operations.iter().map(|planned| (&planned.address, planned)).collect()
}

/// Everything that differs between a plan by the entries up to `since` and one by all of them.
pub fn changes(old: &Plan, new: &Plan, log: &Log, since: u32) -> Vec<Change> {
    let causes = Causes::of(new, log, since);
    let before = by_address(old);
    let mut all = Vec::new();
    for planned in &new.operations {
        let Some(was) = before.get(&planned.address) else { continue };
        let entry = causes.nearest(&planned.address);
        let change = |kind, of: &str, (old, new): (String, String)| Change {
            kind,
            address: planned.address.value(of).to_string(),
            old,
            new,
            entry,
        };
        for (key, ends) in differing(&figures(was, new.print), &figures(planned, new.print)) {
            let kind = match (&ends.0, &ends.1) {
                (None, _) => ChangeKind::Added,
                (_, None) => ChangeKind::Gone,
                _ => ChangeKind::Figure,
            };
            all.push(change(kind, key, (ends.0.unwrap_or_default(), ends.1.unwrap_or_default())));
        }
        for (id, ends) in differing(&states(was), &states(planned)) {
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

/// What held before anything was logged and holds no more: verdicts that are worse, and work that went on from what was not written
/// down.
pub fn no_longer(unlogged: &Plan, plan: &Plan, log: &Log) -> Vec<Change> {
    let before = by_address(unlogged);
    let causes = Causes::of(plan, log, 0);
    let mut all = Vec::new();
    for planned in &plan.operations {
        let entry = causes.nearest(&planned.address);
        if let Some(was) = before.get(&planned.address) {
            all.extend(worse(was, planned).into_iter().map(|(id, old, new)| Change {
                kind: ChangeKind::Check,
                address: planned.address.value(id).to_string(),
                old: old.text().to_owned(),
                new: new.text().to_owned(),
                entry,
            }));
        }
        if let Some(own) = causes.entries.get(&planned.address) {
            all.extend(passed(planned, plan, &causes).into_iter().map(|address| Change {
                kind: ChangeKind::Passed,
                address,
                old: String::new(),
                new: planned.address.to_string(),
                entry: Some(*own),
            }));
        }
        all.extend(stale(planned, plan, &causes));
    }
    all
}

/// Checks of an operation whose verdict is worse than it was, each with both.
fn worse<'a>(was: &Planned, is: &'a Planned) -> Vec<(&'a str, Verdict, Verdict)> {
    let verdict = |planned: &Planned, id: &str| {
        planned.answer.checks.iter().filter(|check| check.id == id).filter_map(Check::stamps).max()
    };
    let mut seen = HashSet::new();
    let ids = is.answer.checks.iter().map(|check| check.id).filter(|id| seen.insert(*id));
    ids.filter_map(|id| {
        let new = verdict(is, id)?;
        let old = verdict(was, id).unwrap_or(Verdict::Proven);
        (new > old).then_some((id, old, new))
    })
    .collect()
}

/// Operations whose size this one, which was done, goes on from, and of which nothing was written down.
fn passed(done: &Planned, plan: &Plan, causes: &Causes) -> Vec<String> {
    let asks = |address: &Address| {
        let other = plan.operations.iter().find(|other| other.address == *address);
        other.is_some_and(|other| !other.may_be_logged.is_empty())
    };
    let needs = done.of_day.reads.iter().filter(|need| asks(need) && !causes.entries.contains_key(need));
    let mut all: Vec<String> = needs.map(ToString::to_string).collect();
    all.dedup();
    all
}

/// A size of one feature that was typed with the job, and the cut on that very feature that was logged since.
fn stale(planned: &Planned, plan: &Plan, causes: &Causes) -> Option<Change> {
    let feature = |planned: &Planned| planned.of_day.wish.feature.as_ref().map(|at| at.value.clone());
    let own = feature(planned)?;
    if causes.entries.contains_key(&planned.address) {
        return None;
    }
    let earlier = plan.operations.iter().take_while(|other| other.address != planned.address);
    let cut = earlier.filter(|other| {
        other.address.part == planned.address.part
            && feature(other).as_ref() == Some(&own)
            && !planned.of_day.reads.contains(&other.address)
    });
    let (other, entry) = cut.filter_map(|other| Some((other, *causes.entries.get(&other.address)?))).last()?;
    Some(Change {
        kind: ChangeKind::Stale,
        address: planned.address.to_string(),
        old: own,
        new: other.address.to_string(),
        entry: Some(entry),
    })
}
