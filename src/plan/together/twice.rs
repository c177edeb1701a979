//! A place of the part that is given two things of which it takes one: a bush into a bore that has one, an insert into a hole with another.

use crate::handbook::StateKind;
use crate::operations::Answer;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};

/// What a place takes once.
const ONCE: [StateKind; 2] = [StateKind::Pressed, StateKind::InsertFitted];

/// What is put into the part there.
fn puts(answer: &Answer) -> Option<StateKind> {
    let mut leaves = answer.set_ups.iter().flat_map(|set_up| &set_up.leaves);
    leaves.find(|state| ONCE.contains(&state.kind)).map(|state| state.kind)
}

fn feature<'a>(task: &'a Task) -> Option<&'a str> {
    task.request.set_up()?.feature.as_ref().map(|at| at.value.key())
}

/// Holds each operation that puts something into a feature against those of its part that stand before it and put the like there.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..)
        .zip(worked.iter())
        .map(|(at, (_, task, answer))| {
            let (kind, own) = (puts(answer)?, feature(task)?);
            let before = worked.get(..at).unwrap_or_default();
            let mut same = before.iter().filter(|(_, by, answer)| {
                by.part.name == task.part.name && feature(by) == Some(own) && puts(answer) == Some(kind)
            });
            let (_, by, _) = same.next()?;
            let check = Check::of_kind("taken-twice", Verdict::Doubtful).at(task.place);
            let called = task.request.set_up()?.feature.as_ref()?.value.typed().to_owned();
            Some(check.with("by", by.address.to_string()).with("feature", called))
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}
