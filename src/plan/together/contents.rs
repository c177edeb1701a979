//! What was put into a part goes with it: a bath that suits a casting may eat the bush in it.

use crate::operations::Answer;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};

/// Holds each operation that a part goes through with all that is in it against what was put in before. Those of one part come together,
/// in the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> =
        (0..).zip(worked.iter()).map(|(at, (_, task, _))| worst(task, worked.get(..at).unwrap_or_default())).collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check(check);
        }
    }
}

/// The worst that an operation says of what was put into its part before it; nothing where all of that stands it.
fn worst(task: &Task, before: &[(usize, &Task, Answer)]) -> Option<Check> {
    let of_part = before.iter().filter(|(_, by, _)| by.part.name == task.part.name);
    let metals = of_part.filter_map(|(_, by, _)| by.request.operation().puts_in());
    let said = metals.filter_map(|metal| task.request.operation().suits(&metal.value).ok()?);
    said.filter(|check| check.verdict() > Some(Verdict::Proven)).max_by_key(Check::verdict)
}
