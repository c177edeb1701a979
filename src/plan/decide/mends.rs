//! Whether a remedy mends what is worn: what it leaves must lie inside the limits of the feature, as its plan aims at it.

use super::frame::{Limit, Row, Size, Why};
use super::ground::{SAME, is_size, near};
use super::planned_by::is_wear;
use crate::handbook::wear::is_metal;
use crate::operations::{Answer, Value};
use crate::plan::Planned;
use crate::proof::{Keep, Verdict};
use crate::quantity::Unit;

/// What is there before an operation and after it, by the keys of its values; before and found are of one size where they lie as near
/// each other as a size to its own. Where nothing is named before, the operation is for that size alone.
const BEFORE_AND_AFTER: [(Option<&str>, &str); 6] = [
    (Some("present"), "diameter_after"),
    (Some("size"), "diameter_after"),
    (Some("length"), "length_after"),
    (Some("thickness"), "thickness_after"),
    (None, "flat_after"),
    (None, "float_left"),
];

/// The values that are there before an operation.
pub(super) const BEFORE: [&str; 4] = ["present", "size", "length", "thickness"];

/// The same of what is no size of the part: how much it moves, and how far it is out of flat.
pub(super) const BEFORE_OF_NO_SIZE: [&str; 2] = ["float_found", "flat_found"];

/// Whether an operation goes by a size as it was found: by one that may be it, as sure as both are read.
pub(super) fn is_before(planned: &Planned, row: &Row) -> bool {
    let Some(found) = &row.found else { return false };
    let is_it = BEFORE.iter().filter_map(|key| planned.answer.value(key)).any(|value| may_be(value, found));
    is_it || float_after(&planned.answer, row).is_some()
}

/// The float that a cut leaves, where what was found is the float that it goes by: wear that is as large is none.
fn float_after<'a>(answer: &'a Answer<String>, row: &Row) -> Option<&'a Value> {
    let found = row.found.filter(|_| !is_wear(&row.feature))?;
    answer.value("float_as_found").filter(|value| may_be(value, &found)).and(answer.value("float_after"))
}

/// Whether a value may be the size that was found, as sure as both are read.
fn may_be(value: &Value, found: &Size) -> bool {
    value.unit == found.unit && (value.number - found.number).abs() <= value.plus_minus + found.plus_minus + SAME
}

/// What an operation takes off a face of the part, whichever length stands there, and what is left of a size then at the worst, where that
/// lies under its limit.
pub(super) fn laps_under(planned: &Planned, found: &Size, limits: &[Limit]) -> Option<(f64, Unit)> {
    planned.answer.value("metal_to_lap")?;
    let removed = planned.answer.value("removed").filter(|removed| removed.unit == found.unit)?;
    let left = found.number - found.plus_minus - removed.number - removed.plus_minus;
    let least = limits.iter().filter(|limit| limit.keep == Keep::AtLeast && limit.unit == found.unit);
    least.map(|limit| limit.number).any(|least| left < least).then_some((left, found.unit))
}

/// What stands beside a cut and gets thinner by it, by the keys of what is left of it, and of the sizes before and after whose difference
/// goes from it, that of a diameter by half.
const THINNED: [(&str, &str, Option<&str>); 4] = [
    ("wall_left", "finish_bore", Some("bore_least")),
    ("wall_left", "diameter_after", Some("present")),
    ("case_left", "removed", None),
    ("case_left", "diameter_after", Some("present")),
];

/// What is left at the worst of a wall or a case that was found about so thick as an operation has it before its cut, where that lies under
/// its limit.
pub(super) fn thins_under(planned: &Planned, found: &Size, limits: &[Limit]) -> Option<(f64, Unit)> {
    let near = near()?;
    let number = |key: &str| planned.answer.value(key).map(|value| value.number);
    THINNED.iter().find_map(|(left, after, before)| {
        let left = planned.answer.value(left).filter(|left| left.unit == found.unit)?;
        let goes = match before {
            Some(before) => (number(after)? - number(before)?).abs() / 2.0,
            None => number(after)?,
        };
        let is_it = (left.number + goes - found.number).abs() <= near;
        let worst = found.number - found.plus_minus - goes - left.plus_minus;
        let least = limits.iter().filter(|limit| limit.keep == Keep::AtLeast && limit.unit == found.unit);
        let is_under = least.map(|limit| limit.number).any(|least| worst < least);
        (is_it && is_under).then_some((worst, found.unit))
    })
}

/// Whether a size that was found too small would be put right by an operation that makes that very size smaller.
pub(super) fn takes_off_what_lacks(planned: &Planned, found: Option<&Size>, limits: &[Limit]) -> bool {
    let Some((found, near)) = found.zip(near()).filter(|(found, _)| is_size(found)) else { return false };
    let is_too_small = |limit: &Limit| limit.keep == Keep::AtLeast && found.number < limit.number;
    let number = |key: &str| planned.answer.value(key).map(|value| value.number);
    let shrinks = |(before, after): &(Option<&str>, &str)| {
        let both = before.and_then(number).zip(number(after));
        both.is_some_and(|(before, after)| after < before && (before - found.number).abs() <= near)
    };
    limits.iter().any(is_too_small) && BEFORE_AND_AFTER.iter().any(shrinks)
}

/// Whether metal is what lacks: a size that gets smaller as metal is cut off lies at its worst end under its least, as it was found or as
/// something planned leaves it.
pub(super) fn lacks_metal(row: &Row) -> bool {
    let found = row.found.filter(|found| is_size(found) && is_metal(&row.feature));
    let Some(found) = found else { return false };
    let left = row.why.iter().filter_map(|why| match why {
        Why::LeavesIt(_, end, unit) if *unit == found.unit => Some(*end),
        _ => None,
    });
    let least = left.fold(found.number - found.plus_minus, f64::min);
    row.limits
        .iter()
        .any(|limit| limit.keep == Keep::AtLeast && limit.unit == found.unit && least < limit.number - SAME)
}

/// What an operation leaves of the size that was found: where it is for that size alone, or where it has one as near.
pub(super) fn after(answer: &Answer<String>, found: Option<f64>) -> Option<&Value> {
    BEFORE_AND_AFTER.iter().find_map(|(before, after)| {
        let after = answer.value(after)?;
        let Some(before) = before else { return Some(after) };
        let (before, found) = (answer.value(before)?, found?);
        let near = near()?;
        ((before.number - found).abs() <= near).then_some(after)
    })
}

/// The bore that a new bush is finished to, where the worn one was found about as wide, and its limits are sizes too. A barrel is bored out
/// to a piston.
fn bushed<'a>(answer: &'a Answer<String>, found: &Size, limits: &[Limit]) -> Option<&'a Value> {
    let finished = answer.value("finish_bore").filter(|_| answer.value("bore_worst").is_none())?;
    let near = near()?;
    let is_near = |number: f64| (finished.number - number).abs() <= near;
    (is_size(found) && is_near(found.number) && limits.iter().all(|limit| is_near(limit.number))).then_some(finished)
}

/// What an operation leaves of what was found.
pub(super) fn left_of<'a>(planned: &'a Planned, row: &Row) -> Option<&'a Value> {
    let (answer, found) = (&planned.answer, row.found.as_ref());
    let of_bush = || found.and_then(|found| bushed(answer, found, &row.limits));
    float_after(answer, row).or_else(|| after(answer, found.map(|found| found.number))).or_else(of_bush)
}

/// What an operation leaves that is not inside the limits: how surely, and the end that lies outside.
pub(super) fn leaves_outside(planned: &Planned, row: &Row) -> Option<(Verdict, f64, Unit)> {
    let (answer, limits) = (&planned.answer, &row.limits);
    let after = left_of(planned, row)?;
    let outside = limits.iter().filter(|limit| limit.unit == after.unit).filter_map(|limit| {
        let end = worst(answer, after, limit.keep);
        match (limit.keep.inside(after.number, limit.number), limit.keep.inside(end, limit.number)) {
            (middle, end_inside) if middle < 0.0 => {
                Some((Verdict::Fails, if end_inside < 0.0 { end } else { after.number }, after.unit))
            }
            (_, end_inside) if end_inside < 0.0 => Some((Verdict::Doubtful, end, after.unit)),
            _ => None,
        }
    });
    outside.max_by_key(|(verdict, ..)| *verdict)
}

/// The end of what may be left on the side of a limit: its band and doubt, and what the operation itself still allows.
fn worst(answer: &Answer<String>, after: &Value, keep: Keep) -> f64 {
    // Its band is all that its own sheet accepts, what its gauge may read off within.
    if let Some((low, high)) = after.band {
        return if keep == Keep::AtMost { high } else { low };
    }
    let (low, high) = (after.number, after.number);
    // Cut to a dial it is what the dial makes of it.
    let is_cut = ["length_after", "thickness_after"].contains(&after.key);
    let allowed = answer.checks.iter().filter(|check| check.about == Some(after.key) && !is_cut);
    let allowed =
        allowed.filter_map(|check| check.judged).filter(|judged| judged.keep == keep).map(|judged| judged.limit);
    let (low, high) = (low - after.plus_minus, high + after.plus_minus);
    let accepted = accepted(answer, after.key);
    match keep {
        Keep::AtMost => allowed.fold(high, f64::max).min(accepted.1.unwrap_or(f64::INFINITY).max(high)),
        Keep::AtLeast => allowed.fold(low, f64::min).max(accepted.0.unwrap_or(f64::NEG_INFINITY).min(low)),
    }
}

/// From where to where its own sheet goes on once it is measured: further off nothing is left that it calls done.
fn accepted(answer: &Answer<String>, key: &str) -> (Option<f64>, Option<f64>) {
    let steps = answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    let holds = steps.filter_map(|step| step.hold_point.as_ref());
    let last = holds.filter(|hold| hold.measures == key && hold.taken_off.abs() <= SAME).last();
    last.map_or((None, None), |hold| hold.limits.numbers())
}
