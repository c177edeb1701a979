//! Work that the log tells of and that is not judged by that alone: metal still stands that is to go, or what was read is not so any more,
//! for a cut came behind it. What is still to come, or has come since, is planned: the worse of the two stands.

use super::order::Task;
use super::together::stale::READ_BEFORE;
use crate::job::Ledger;
use crate::operations::{self, Answer, Bench, Declared, OfPart};
use crate::proof::{Check, Verdict};
use crate::shop::{Gauge, Shop};

/// Holds an answer against that which stood without what the log has of the part itself. What is known of a piston, a ring, a shim stays.
pub(super) fn judge(answer: &mut Answer, task: &Task, shop: Option<&Shop>, ledger: &Ledger) {
    let declared = task.request.declared();
    let is_old = || answer.checks.iter().any(|check| check.id == READ_BEFORE);
    if !is_old() && !cuts_on(answer, &declared) {
        return;
    }
    let is_of_the_part =
        |key: &str| declared.iter().any(|own| own.key == key && own.left.is_some_and(|left| !left.is_foreign));
    let bare = ledger.without_left(&task.address, is_of_the_part);
    let planned = operations::work(task.request, &Bench::new(shop, task.part, &task.address, &bare));
    let worse: Vec<Check> = planned.checks.into_iter().filter(|check| is_worse(check, answer)).collect();
    // What must not be cut on is not cut on.
    if worse.iter().any(|check| check.stamps() == Some(Verdict::Fails)) {
        answer.checks.iter_mut().filter(|own| own.unfinished.is_some()).for_each(|own| own.remedies.clear());
    }
    worse.into_iter().for_each(|check| {
        answer.check(check);
    });
    answer.refused = answer.refused.take().or(planned.refused);
}

/// Whether by the log metal still stands that is to go.
fn cuts_on(answer: &Answer, declared: &[&Declared]) -> bool {
    let is_cut = |key: &str| {
        let takes_metal = |own: &&&Declared| own.left.is_some_and(|left| left.gauge != Gauge::Indicator);
        let mut own = declared.iter().filter(|own| own.key == key).filter(takes_metal);
        own.any(|own| matches!(own.part, Some(OfPart::Leaves(_) | OfPart::Opens(_))))
    };
    answer.checks.iter().filter_map(|check| check.unfinished).any(is_cut)
}

/// Whether a check of what is planned stands worse than the same of what was left, or fails where that has none.
fn is_worse(planned: &Check, answer: &Answer) -> bool {
    let Some(verdict) = planned.stamps() else { return false };
    let own = answer.checks.iter().find(|own| own.id == planned.id).and_then(Check::stamps);
    own.map_or(verdict == Verdict::Fails, |own| verdict > own)
}
