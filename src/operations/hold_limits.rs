//! The limits of the hold points of an answer: found when every check was made, narrowed where other metals may be meant.

use super::hold_window::NO_GAUGE;
use super::holds_for::{Stamping, stamping};
use super::{Answer, Bench, GaugeUsed, HoldPoint, Limits, LimitsFrom, LimitsWhenAsked, Proving, Value};
use crate::handbook::constants::constant;
use crate::proof::{Check, Fact, Origin, Verdict, Words};
use crate::quantity::{Mm, Unit};
use std::sync::Arc;

/// Says of every hold point of an answer whose checks were all made how its limits are found; of what fails too for which readings it
/// would not.
pub(super) fn seek_all(answer: &mut Answer, guard: f64) {
    let fails = answer.checks.iter().any(|check| check.stamps() == Some(Verdict::Fails));
    let steps = answer.set_ups.iter_mut().flat_map(|set_up| &mut set_up.steps);
    let mut holds = steps.filter_map(|step| step.hold_point.as_mut()).peekable();
    if holds.peek().is_none() && !fails {
        return;
    }
    let all: Arc<[Stamping]> = stamping(&answer.checks).collect();
    holds.for_each(|hold| hold.seek(&answer.values, (&all, fails)));
    if fails {
        // What is in doubt for another reason stays so, whatever is read.
        let sure: Vec<Check> =
            answer.checks.iter().filter(|check| check.stamps() != Some(Verdict::Doubtful)).cloned().collect();
        let sure: Arc<[Stamping]> = stamping(&sure).collect();
        let read = |value: &&Value| value.unit == Unit::Mm && value.plus_minus > 0.0 && value.number > 0.0;
        let readings = answer.values.iter().filter(read).filter(|value| matches!(*value.origin, Origin::Typed(_)));
        answer.proving = readings.map(|value| Proving { key: value.key, limits: prove(value, &sure, guard) }).collect();
    }
}

/// The readings of a size, read again as closely as it was, for which every one of these is proven.
fn prove(value: &Value, stamping: &Arc<[Stamping]>, guard: f64) -> LimitsWhenAsked {
    let gauge = GaugeUsed { name: Fact::named(NO_GAUGE), doubt: None, read_before: true };
    let mut hold = HoldPoint::of(value.key, 1, gauge, guard);
    hold.seek(std::slice::from_ref(value), (stamping, true));
    hold.limits
}

/// What a hold point asks to be read, and nothing of the shop reads, is told among what the shop lacks.
pub(super) fn gauges_to_get(bench: &Bench, answer: &mut Answer) {
    if bench.shop.is_none_or(|shop| shop.instruments.is_empty()) {
        return;
    }
    // One instrument reads sizes that lie together: who is told of one knows what to look for.
    if answer.missing.iter().any(|missing| [INSTRUMENT, SMALL].contains(&missing.id)) {
        return;
    }
    let steps = answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    let mut unread = steps.filter_map(|step| step.hold_point.as_ref()).filter(|hold| hold.is_without_gauge());
    let size = unread.find_map(|hold| Some(answer.value(hold.measures)?.number - hold.taken_off));
    // What is less than a millimetre is a difference or a gap, and no size between two anvils.
    let difference = constant::<Mm>("doubt-of-difference-most").map_or(0.0, |limit| limit.number());
    let lacks = |size: f64| Words::of(if size < difference { SMALL } else { INSTRUMENT }).with("size", Fact::mm(size));
    answer.missing.extend(size.map(lacks));
}

/// What is told of a size that nothing of the shop reads.
const INSTRUMENT: &str = "instrument";
/// The same of one so small that blades and indicators read it.
const SMALL: &str = "small-instrument";

/// The readings that are good for another answer as well: of one operation worked for several metals.
pub(super) fn narrow(answer: &mut Answer, by: &Answer) {
    let theirs = |set_up: &str, step: &str| {
        let of = by.set_ups.iter().filter(|other| other.id == set_up).flat_map(|other| &other.steps);
        of.filter(|other| other.id == step).find_map(|other| other.hold_point.as_ref())
    };
    for set_up in &mut answer.set_ups {
        for step in &mut set_up.steps {
            let Some(own) = step.hold_point.as_mut() else { continue };
            let Some(other) = theirs(set_up.id, step.id).filter(|other| other.limits.from == LimitsFrom::Checks) else {
                continue;
            };
            own.limits = match own.limits.from {
                LimitsFrom::Checks => tighter(&own.limits, &other.limits).into(),
                LimitsFrom::AsFound => other.limits.clone(),
                LimitsFrom::Asked => continue,
            };
        }
    }
}

/// The higher of the least and the lower of the most.
fn tighter(one: &Limits, other: &Limits) -> Limits {
    let (own, theirs) = (one.numbers(), other.numbers());
    let of_other = |own: Option<f64>, theirs: Option<f64>, more: fn(&f64, &f64) -> bool| match (own, theirs) {
        (Some(own), Some(theirs)) => more(&theirs, &own),
        (None, Some(_)) => true,
        (_, None) => false,
    };
    let least = if of_other(own.0, theirs.0, f64::gt) { &other.least } else { &one.least };
    let most = if of_other(own.1, theirs.1, f64::lt) { &other.most } else { &one.most };
    Limits { least: least.clone(), most: most.clone(), from: one.from, proves: one.proves && other.proves }
}
