//! What fails of work that was done, as the log has it: what puts that right, and where nothing does, another part.

use super::cured::{Work, order};
use super::found_row;
use super::frame::{Cure, Decision, Row, Size, Why};
use super::ground;
use crate::handbook::remedies;
use crate::job::Inspected;
use crate::operations::{DOUBT_PLAUSIBLE, OfPart, PartSize, SetUp, Station};
use crate::plan::Planned;
use crate::proof::{Check, Verdict, Weight};

/// What fails of an operation that was done: whatever else of the part is good, that is not. The part is replaced by a `new` one where
/// that was said.
pub(super) fn failed(work: &Work, planned: &Planned, new: bool) -> Vec<Row> {
    let row = |(at, check): (usize, &Check<String>)| {
        let row = found_row(planned, check);
        let found = row.found.map(|found| Size { as_left: true, ..found });
        let fails = Why::Checked(planned.word.clone(), check.asks.clone(), Verdict::Fails, remedy(planned, check));
        let why = row.why.into_iter().chain([fails]).collect();
        let part = planned.address.part.as_str();
        // One new part serves all that is wrong with the old.
        let (cure, orders) = match new {
            true => (Cure::Replace, (at == 0).then(|| order(part, part, false)).into_iter().collect()),
            false => (Cure::Failed(planned.word.clone()), Vec::new()),
        };
        Row { found, decision: Decision::Cure(cure), why, sheets: work.sheets(planned), orders, ..row }
    };
    let refused = planned.answer.refused.iter().map(|refusal| Row {
        part: planned.address.part.clone(),
        feature: planned.address.operation.clone(),
        found: None,
        limits: Vec::new(),
        new: None,
        margin: None,
        verdict: Some(Verdict::Fails),
        decision: Decision::Cure(Cure::Failed(planned.word.clone())),
        why: vec![Why::Refused(planned.word.clone(), refusal.to_string())],
        sheets: Vec::new(),
        orders: Vec::new(),
    });
    failing(planned).enumerate().map(row).chain(refused).collect()
}

/// The checks of an operation that fail, and are not about the part as it came.
fn failing(planned: &Planned) -> impl Iterator<Item = &Check<String>> {
    let is_as_it_came = |check: &Check<String>| check.weight == Weight::Found;
    let all = planned.answer.checks.iter().filter(|check| check.stamps() == Some(Verdict::Fails));
    all.filter(move |check| !is_as_it_came(check))
}

/// What is done about a check that fails. What was said of the cut comes too late once that is spoilt: what may still be done stands
/// beside it.
fn remedy(planned: &Planned, check: &Check<String>) -> Option<String> {
    let words = |remedy: &crate::proof::Remedy<String>| remedy.words.clone();
    match planned.spoilt {
        None => check.remedy.clone(),
        Some(_) if ground::goes_on_with_another(planned) => check.remedies.last().map(words),
        Some(_) => check.remedies.first().map(words),
    }
}

/// Whether somebody said of what was inspected that another part is got, where this work is what puts it right.
pub(super) fn is_replaced(planned: &Planned, of: &Inspected) -> bool {
    let said = ground::remedies_of(of);
    said.contains(&remedies::REPLACE) && said.contains(&planned.word.as_str())
}

/// Whether a part that was cut is lost: it fails by metal of its own that is gone, or by what nothing is known for. Where what was found and
/// what was left contradict each other nobody knows that it is, and a bore may have another mate.
pub(super) fn is_lost(planned: &Planned) -> bool {
    let cuts = |set_up: &SetUp<String>| matches!(set_up.station, Station::Lathe | Station::Drilling);
    let contradicts = |check: &&Check<String>| check.id == DOUBT_PLAUSIBLE.id;
    planned.spoilt.is_some()
        && planned.answer.set_ups.iter().any(cuts)
        && !failing(planned).any(|check| contradicts(&check))
        && !ground::goes_on_with_another(planned)
        && failing(planned).any(|check| takes_from_the_part(planned, check))
}

/// Whether a check is about metal of the part itself, and not of what sits in it, or nobody knows what mends it.
fn takes_from_the_part(planned: &Planned, check: &Check<String>) -> bool {
    let left = planned.sizes.iter().find_map(|(key, of)| match of {
        OfPart::Leaves(size) if check.about == Some(*key) => Some(*size),
        _ => None,
    });
    match left {
        Some(PartSize::Bushed | PartSize::SetDown) => false,
        Some(PartSize::Faces | PartSize::Outside | PartSize::Inside | PartSize::Seat | PartSize::Depth) => true,
        _ => check.remedies.is_empty(),
    }
}
