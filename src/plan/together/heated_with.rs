//! What by the job itself sits in a part when it is made warm, and what the warming says is near it.

use crate::handbook::StateKind;
use crate::operations::Answer;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};

/// How hot an oven, or a flame, may make the part.
const HOTTEST: &str = "housing_hottest";

/// Does all that is near it bear the oven?
const NEIGHBOURS: &str = "neighbours-bear-it";

/// Holds each warming beside which nothing is said to sit against a bearing that was fitted to the part before it. Those of one part
/// come together, in the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..)
        .zip(worked.iter())
        .map(|(at, (_, task, answer))| {
            answer.value(HOTTEST)?;
            let judged = answer.checks.iter().any(|check| check.id == NEIGHBOURS && check.verdict().is_some());
            let mut before = worked.iter().take(at).filter(|(_, by, _)| by.part.name == task.part.name);
            let (_, by, _) = before.find(|(.., answer)| leaves_a_bearing(answer)).filter(|_| !judged)?;
            let check = Check::of_kind("bearing-in-the-oven", Verdict::Doubtful).with("by", by.address.to_string());
            Some(check.at(task.place))
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, HOTTEST);
        }
    }
}

fn leaves_a_bearing(answer: &Answer) -> bool {
    answer.set_ups.iter().flat_map(|set_up| &set_up.leaves).any(|state| state.kind == StateKind::BearingFitted)
}
