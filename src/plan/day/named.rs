//! What the address of another operation means in the day: a set-up of it; of work that has none, what that rests on.

use super::items::{self, Item};
use crate::job::Address;
use crate::plan::{Plan, Planned};
use crate::proof::Verdict;

/// What an address means in the day.
pub(super) enum Named {
    /// These set-ups: none where it was only reckoned, of what was read off the part.
    SetUps(Vec<usize>),
    /// Work without set-ups that must not be built on, by its id.
    LeftOut(String),
    /// Nothing.
    Unknown,
}

/// Finds it: the last set-up of an operation, or the one of that id; of an operation without set-ups, a sum, what that reads and what it
/// comes after.
pub(super) fn named(items: &[Item], plans: &[Plan], address: &Address) -> Named {
    let (mut set_ups, mut seen, mut open) = (Vec::new(), Vec::new(), vec![address.clone()]);
    while let Some(next) = open.pop() {
        if let Some(at) = of_address(items, &next) {
            set_ups.push(at);
            continue;
        }
        let owner = next.owner();
        let Some((id, planned)) = without_set_ups(plans, &owner) else { return Named::Unknown };
        if planned.answer.refused.is_some() || planned.verdict == Verdict::Fails {
            return Named::LeftOut(id);
        }
        if !seen.contains(&owner) {
            let afters = planned.of_day.wish.afters().map(|after| after.value.clone());
            open.extend(planned.of_day.reads.iter().cloned().chain(afters));
            seen.push(owner);
        }
    }
    Named::SetUps(set_ups)
}

/// The last set-up of an operation, or the one of that id.
fn of_address(items: &[Item], address: &Address) -> Option<usize> {
    let owner = address.owner();
    let is_it = |item: &Item| {
        let own = |id: &str| id.replace('-', "_");
        let named = address.value.as_ref().is_none_or(|value| *value == own(item.set_up.id));
        item.operation.address == owner && named
    };
    items.iter().rposition(is_it)
}

/// An operation that has no set-ups, with its id.
fn without_set_ups<'a>(plans: &'a [Plan], owner: &Address) -> Option<(String, &'a Planned)> {
    let of_plan = |(job, plan): (usize, &'a Plan)| {
        let is_it = |own: &&Planned| own.address == *owner && own.answer.set_ups.is_empty();
        let at = plan.operations.iter().position(|own| is_it(&own))?;
        Some((items::id(plan, (job, at, 0), plans.len() > 1), plan.operations.get(at)?))
    };
    plans.iter().enumerate().find_map(of_plan)
}
