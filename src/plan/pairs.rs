//! Parts that are one of a pair: each must name the other, and one half that fails fails both.

use super::order::{Task, places};
use crate::operations::Answer;
use crate::proof::{Check, Verdict};

/// Each half must be planned and named by the other; the worse verdict of the two stands on both sheets.
pub(super) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let places = places(worked.iter().map(|(_, task, _)| *task));
    let partners: Vec<Option<usize>> = worked
        .iter()
        .map(|(_, task, _)| task.request.partner().and_then(|address| places.get(&address).copied()))
        .collect();
    let partner = |at: usize| partners.get(at).copied().flatten();
    let alone: Vec<Verdict> = worked.iter().map(|(.., answer)| answer.verdict_without("both-halves")).collect();
    for at in 0..worked.len() {
        let Some((_, task, _)) = worked.get(at) else { continue };
        let Some(address) = task.request.partner() else {
            named_by_another(at, &partners, worked);
            continue;
        };
        let other = partner(at);
        let mutual = other.is_some_and(|other| other != at && partner(other) == Some(at));
        let planned = if mutual { Verdict::Proven } else { Verdict::Fails };
        let both = other.filter(|_| mutual).map(|other| [at, other]);
        let both = both.map(|halves| halves.iter().filter_map(|half| alone.get(*half)).copied().max());
        let pair = address.part.clone();
        let Some((.., answer)) = worked.get_mut(at) else { continue };
        answer.check(Check::of_kind("pair-planned", planned).with("pair", pair.clone()));
        match both.flatten() {
            Some(verdict) => {
                answer.check(Check::of_kind("both-halves", verdict).with("pair", pair));
            }
            None => answer.not_checked(&["both-halves"], &["pair"]),
        }
    }
}

/// One that names no other is stopped as well where another names it: cut alone it would no longer fit that one.
fn named_by_another(at: usize, partners: &[Option<usize>], worked: &mut [(usize, &Task, Answer)]) {
    let Some(other) = partners.iter().position(|named| *named == Some(at)) else { return };
    let Some(pair) = worked.get(other).map(|(_, task, _)| task.address.part.clone()) else { return };
    let Some((.., answer)) = worked.get_mut(at) else { return };
    if answer.checks.iter().any(|check| check.id == "pair-planned") {
        answer.check(Check::of_kind("pair-planned", Verdict::Fails).with("pair", pair));
    }
}
