//! What is made warm or cold passes off: for which work it is made so, what is measured before, and what stays as it was set true.

use super::frame::Because;
use super::items::Item;
use super::link::{Links, is_before};
use crate::handbook::StateKind;
use crate::handbook::order_rules;
use crate::handbook::rigging::Aspect;
use crate::job::{State, StateOf};

/// The rule by which a joint is known before its part is warm.
pub(super) const MEASURED_FIRST: &str = "measure-before-warm";

/// The set-ups that bring a state to another. What is warm passes off: of several that make a part warm that of its own operation
/// is meant, else on the same feature; of these the last before it in the file, else the first.
pub(super) fn brought(items: &[Item], after: usize, state: &State) -> Vec<usize> {
    let Some(item) = items.get(after) else { return Vec::new() };
    let brings = |(before, other): &(usize, &Item)| {
        let later_in_turn = other.same_operation(item) && *before > after;
        *before != after && !later_in_turn && other.set_up.leaves.iter().any(|left| left.holds_of(state))
    };
    let mut all: Vec<usize> = items.iter().enumerate().filter(brings).map(|(before, _)| before).collect();
    if !state.kind.passes() || !matches!(state.of, StateOf::Part(_)) {
        return all;
    }
    if all.is_empty() && state.kind == StateKind::Cold {
        return made_cold_for(items, after, state).into_iter().collect();
    }
    let feature = |at: usize| feature_of(items, at);
    let own = feature(after);
    let is_other = |before: &usize| own.zip(feature(*before)).is_some_and(|(own, other)| own != other);
    all.retain(|before| !is_other(before));
    // An old bush is out before the new one's warmth: what is warmed behind it in the file for that is not its own.
    if item.leaves(StateKind::PressedOut) {
        all.retain(|before| *before < after || !is_for_a_bush(items, *before));
    }
    // What an operation makes warm is for itself; else what is on the same feature is meant.
    let of_one = |at: usize| items.get(at).is_some_and(|other| other.same_operation(item));
    for is_meant in [&of_one as &dyn Fn(usize) -> bool, &|at| own.is_some() && feature(at) == own] {
        if all.iter().any(|before| is_meant(*before)) {
            all.retain(|before| is_meant(*before));
        }
    }
    let last = all.iter().copied().rfind(|before| *before < after);
    last.or(all.first().copied()).into_iter().collect()
}

/// Whether some set-up presses a bush into what this one makes warm: one that says so, or goes on in the same operation.
pub(super) fn is_for_a_bush(items: &[Item], load: usize) -> bool {
    let Some(warm) = items.get(load) else { return false };
    let is_other = |item: usize| feature_of(items, item).zip(feature_of(items, load)).is_some_and(|(a, b)| a != b);
    let takes = |(at, item): (usize, &Item)| {
        let needs = || item.set_up.needs.iter().any(|need| warm.set_up.leaves.contains(need) && need.kind.passes());
        item.leaves(StateKind::Pressed) && !is_other(at) && (item.same_operation(warm) || needs())
    };
    items.iter().enumerate().any(takes)
}

/// Whether an old bush alone is pushed out of what this one makes warm: the bore in it is not to be measured before.
pub(super) fn pushes_out(items: &[Item], links: &Links, load: usize) -> bool {
    let mut fetched = links.musts.iter().filter(|link| link.before == load && link.fetches(items)).peekable();
    let is_out = |at: usize| items.get(at).is_some_and(|item| item.leaves(StateKind::PressedOut));
    fetched.peek().is_some() && fetched.all(|link| is_out(link.after))
}

fn feature_of<'a>(items: &'a [Item], at: usize) -> Option<&'a str> {
    items.get(at)?.operation.of_day.wish.feature.as_ref().map(|at| at.value.key())
}

/// The bush that is made cold for a press. It is a part of its own, and no key says which: of those of this job, or else of every
/// job, the one on the same feature is meant, else the one that comes as the press does in the order of the files.
fn made_cold_for(items: &[Item], press: usize, state: &State) -> Option<usize> {
    let job = items.get(press)?.sheet.0;
    let makes_cold = |item: &Item| item.takes_part() && item.leaves(StateKind::Cold) && !item.leaves(StateKind::Warm);
    let all: Vec<usize> = (0..items.len()).filter(|at| items.get(*at).is_some_and(makes_cold)).collect();
    let of_job: Vec<usize> =
        all.iter().copied().filter(|at| items.get(*at).is_some_and(|i| i.sheet.0 == job)).collect();
    let cold = if of_job.is_empty() { all } else { of_job };
    let own = feature_of(items, press);
    let on_it = cold.iter().copied().find(|at| own.is_some() && feature_of(items, *at) == own);
    let needs_cold = |item: &Item| item.set_up.needs.iter().any(|need| need.kind == state.kind);
    let before = (0..press).filter(|at| items.get(*at).is_some_and(needs_cold)).count();
    on_it.or_else(|| cold.get(before).copied()).or(cold.last().copied())
}

/// What drops into a warm part, or is dropped in cold, is measured before the oven and the freezer.
pub(super) fn measured_first(items: &[Item], links: &mut Links) {
    for (press, item) in items.iter().enumerate() {
        for state in item.set_up.needs.iter().filter(|state| state.kind.passes()) {
            let name = if state.kind == StateKind::Warm { MEASURED_FIRST } else { "measure-before-cold" };
            let Some(rule) = order_rules::all().iter().find(|rule| rule.rule == name) else { continue };
            for load in brought(items, press, state) {
                let of_press = |at: &usize| items.get(*at).is_some_and(|own| own.same_operation(item));
                let is_load = |at: usize| items.get(at).zip(items.get(load)).is_some_and(|(a, b)| a.same_operation(b));
                for before in (0..press).filter(of_press).filter(|at| !is_load(*at)) {
                    let measures = items.get(before).is_some_and(Item::only_measures);
                    if measures && !is_before(items, links, load, before) {
                        links.must(before, load, 0, Because::Rule(rule));
                    }
                }
            }
        }
    }
}

/// What is held as it was set true comes after that.
pub(super) fn held_true(items: &[Item], links: &mut Links) {
    for (by, item) in items.iter().enumerate() {
        let Some(state) = item.set_up.leaves.iter().find(|state| state.kind == StateKind::True) else { continue };
        for rider in riders(items, by) {
            if !is_before(items, links, rider, by) {
                links.must(by, rider, 0, Because::State(state.clone()));
            }
        }
    }
}

/// The set-ups behind one in the file that go on with its part as it is held there, up to the first that does not.
pub(super) fn riders(items: &[Item], by: usize) -> Vec<usize> {
    let Some(first) = items.get(by) else { return Vec::new() };
    let device = |item: &Item| item.set_up.rigging.get(&Aspect::Device).cloned();
    let of_part = items.iter().enumerate().skip(by + 1).filter(|(_, item)| item.same_part(first));
    let goes_on = |(_, item): &(usize, &Item)| {
        let as_held = device(item).is_none_or(|own| Some(own) == device(first));
        item.set_up.station == first.set_up.station && item.set_up.machine == first.set_up.machine && as_held
    };
    let is_anew = |item: &Item| item.set_up.leaves.iter().any(|state| state.kind == StateKind::True);
    of_part.take_while(|own| goes_on(own) && !is_anew(own.1)).map(|(at, _)| at).collect()
}
