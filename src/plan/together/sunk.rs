//! A face that is lapped, and inserts that the same job fits in it: what comes off the face comes off their set-down.

use super::made::made_by;
use crate::operations::{Answer, PartSize};
use crate::plan::order::Task;
use crate::proof::{Check, Outcome, Verdict};

/// The check of the set-downs that somebody typed.
const SET_DOWN: &str = "set-down";
/// The check of the inserts that nobody counted.
const COUNTED: &str = "inserts-counted";

/// Holds each operation that counts inserts, and was told of none, against those that the job fits into its part.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = worked.iter().map(|own| of(own, worked)).collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check(check);
            // The set-up that takes the metal stands on it, not the one that maps the face.
            let last = answer.set_ups.len().saturating_sub(1);
            for (at, set_up) in answer.set_ups.iter_mut().enumerate() {
                set_up.checks.retain(|own| *own != COUNTED);
                if at == last {
                    set_up.checks.push(COUNTED);
                }
            }
        }
    }
}

fn of((at, own, answer): &(usize, &Task, Answer), all: &[(usize, &Task, Answer)]) -> Option<Check> {
    let told_of_none = |check: &Check| check.id == SET_DOWN && check.state == Outcome::DoesNotApply;
    answer.checks.iter().any(told_of_none).then_some(())?;
    let sinks = |(other, by, given): &&(usize, &Task, Answer)| {
        other != at
            && by.part.name == own.part.name
            && made_by(by, given).iter().any(|made| made.size == PartSize::SetDown)
    };
    let (_, by, _) = all.iter().find(sinks)?;
    Some(Check::of_kind(COUNTED, Verdict::Doubtful).at(own.place).with("by", by.address.to_string()))
}
