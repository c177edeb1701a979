//! A hole that is drilled where another drill has been: there is no metal in its middle to mark, to centre or to touch.

use super::scope::may_be_one_feature;
use crate::handbook::StateKind;
use crate::operations::Answer;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};

/// The check of a hole that is there already.
const THERE: &str = "hole-is-there";

/// Holds each hole that is drilled from the solid against those that were drilled before it in the same feature.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..).zip(worked.iter()).map(|(at, own)| before(own, worked.get(..at)?)).collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check(check);
        }
    }
}

fn before((_, own, answer): &(usize, &Task, Answer), before: &[(usize, &Task, Answer)]) -> Option<Check> {
    let feature = feature(own)?;
    (drills(answer) && !own.request.operation().opens_a_hole()).then_some(())?;
    let is_there = |(_, by, other): &&(usize, &Task, Answer)| {
        let same = self::feature(by).is_some_and(|at| may_be_one_feature(Some(&at), Some(&feature)));
        by.part.name == own.part.name && same && drills(other)
    };
    let (_, by, _) = before.iter().rfind(is_there)?;
    Some(Check::of_kind(THERE, Verdict::Doubtful).at(own.place).with("by", by.address.to_string()))
}

fn drills(answer: &Answer) -> bool {
    answer.set_ups.iter().flat_map(|set_up| &set_up.leaves).any(|state| state.kind == StateKind::Drilled)
}

fn feature(task: &Task) -> Option<String> {
    Some(task.request.set_up()?.feature.as_ref()?.value.key().to_owned())
}
