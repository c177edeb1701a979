//! Room that a joint counts on, held against what an oven of the same job makes: each was typed alone.

use super::scope::may_be_one_feature;
use crate::handbook::StateKind;
use crate::operations::{Answer, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Verdict};
use crate::quantity::Decimals;

/// How warm the housing must be, to open as far as was typed.
const ASKED: &str = "housing_as_warm";
/// How warm a part is when it stands at the press, at the least.
const THERE: &str = "temperature_at_press";
/// Holds each joint that drops in against the last warming before it of the same part. Those of one part come together, in the order
/// of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let feature =
        |task: &Task| task.request.set_up().and_then(|wish| wish.feature.as_ref()).map(|at| at.value.key().to_owned());
    let found: Vec<Option<Check>> = worked
        .iter()
        .map(|(at, task, answer)| {
            let asked = answer.value(ASKED)?;
            let warmed = worked.iter().rev().find_map(|(other, by, answer)| {
                let binds = by.part.name == task.part.name
                    && may_be_one_feature(feature(by).as_deref(), feature(task).as_deref());
                let there = answer.value(THERE).filter(|_| other < at && warms(answer) && binds)?;
                Some((by.address.to_string(), there))
            });
            let (by, there) = warmed?;
            let short = there.number < asked.number;
            short.then(|| cold(by, asked, there).at(task.place))
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check(check);
        }
    }
}

/// Whether it is an oven that brings it there.
fn warms(answer: &Answer) -> bool {
    answer.set_ups.iter().flat_map(|set_up| &set_up.leaves).any(|state| state.kind == StateKind::Warm)
}

fn cold(by: String, asked: &Value, there: &Value) -> Check {
    let degrees = |value: &Value| Fact::figure(value.number, value.unit).to(Decimals::Exactly(0));
    let check = Check::of_kind("room-is-made", Verdict::Doubtful).with("by", by);
    check.with("there", degrees(there)).with("asked", degrees(asked))
}
