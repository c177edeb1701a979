//! What a figure of another operation rests on: work that fails, that is planned alone, that is not finished, that proves nothing.

use super::frame::Why;
use super::ground::{DEEPEST, Ground};
use crate::handbook::StateKind;
use crate::job::{Address, Reading};
use crate::plan::Planned;
use crate::proof::{Check, Origin, Verdict, Weight};

/// What a figure of another operation rests on, where that is no reading of the part as it came: an operation that fails, one
/// that only plans it, or one that measures and proves nothing.
pub(super) fn rests_on(ground: &Ground, reading: &Reading) -> Option<Why> {
    let address = reading.address()?;
    let fails = ground.ledger.get(address)?.fails && !is_found(ground, address);
    let failing = || fails.then(|| Why::RestsOn(format!("{}, which fails", address.owner())));
    if let Some(failed) = fails_by_log(ground, address) {
        return Some(failed);
    }
    let planned = || planned(ground, address, 0).map(Why::Planned);
    failing().or_else(planned).or_else(|| not_finished(ground, address)).or_else(|| measured_in_doubt(ground, address))
}

/// Where the work that left it by the log fails as it was left.
fn fails_by_log(ground: &Ground, address: &Address) -> Option<Why> {
    let by = ground.planned(&address.owner()).filter(|by| by.verdict == Verdict::Fails)?;
    let was_left = ground.ledger.get(address).is_some_and(|entry| entry.as_left);
    (was_left && !is_found(ground, address)).then(|| Why::FailsByLog(by.address.to_string()))
}

/// Where by the log the work that left it is not finished.
fn not_finished(ground: &Ground, address: &Address) -> Option<Why> {
    let owner = address.owner();
    let by = ground.plan.operations.iter().find(|planned| planned.address == owner)?;
    let is_open = by.answer.is_unfinished() && !is_found(ground, address);
    is_open.then(|| Why::RestsOn(format!("{owner}, which is not finished")))
}

/// Where what measured it, or what left it by the log, is not proven: a fit that nobody saw warm, a reading of which nobody said what it
/// is worth, a size that others contradict.
fn measured_in_doubt(ground: &Ground, address: &Address) -> Option<Why> {
    let owner = address.owner();
    let by = ground.plan.operations.iter().find(|planned| planned.address == owner)?;
    let was_left = ground.ledger.get(address).is_some_and(|entry| entry.as_left);
    let in_doubt = (only_measures(by) || was_left) && by.verdict == Verdict::Doubtful && !is_found(ground, address);
    in_doubt.then(|| Why::RestsOn(format!("{owner}, which is doubtful")))
}

/// Whether an operation only measures: what it gives is found, unless it reads what another plans.
pub(super) fn only_measures(planned: &Planned) -> bool {
    let mut left = planned.answer.set_ups.iter().flat_map(|set_up| &set_up.leaves);
    left.all(|state| matches!(state.kind, StateKind::Measured | StateKind::FitMeasured))
}

/// The operation that plans a figure which nobody has measured yet.
fn planned(ground: &Ground, address: &Address, depth: usize) -> Option<String> {
    let left = ground.ledger.get(address).is_some_and(|entry| entry.as_left);
    if left || is_found(ground, address) {
        return None;
    }
    let owner = address.owner();
    let at = ground.plan.operations.iter().position(|planned| planned.address == owner)?;
    if !only_measures(ground.plan.operations.get(at)?) || depth > DEEPEST {
        return Some(owner.to_string());
    }
    let named = ground.named.get(at)?;
    named.addresses.iter().find_map(|other| planned(ground, &other.value, depth + 1))
}

/// Whether a value is what its operation found on the part as it came.
pub(super) fn is_found(ground: &Ground, address: &Address) -> bool {
    let owner = address.owner();
    let owner = ground.plan.operations.iter().find(|planned| planned.address == owner);
    // A check that nobody gave a limit is about what it is named for.
    let is_about = |check: &Check<String>, key: &str| match check.about {
        Some(about) => about == key,
        None => key.replace('_', "-") == check.id,
    };
    let of_check = |check: &Check<String>| {
        check.weight == Weight::Found && address.value.as_deref().is_some_and(|key| is_about(check, key))
    };
    let was_read = |planned: &Planned| {
        let value = address.value.as_deref().and_then(|key| planned.answer.value(key));
        value.is_some_and(|value| matches!(*value.origin, Origin::Typed(_)))
    };
    owner.is_some_and(|owner| was_read(owner) || owner.answer.checks.iter().any(of_check))
}
