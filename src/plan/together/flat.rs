//! A face that was made flat, and moves behind that: what is pressed in or out, and heat, leave no casting as it lay.

use crate::handbook::StateKind;
use crate::operations::{Answer, OfPart, PartSize};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};

/// The check of a face that something behind it moves.
const STAYS_FLAT: &str = "stays-flat";

/// Holds each operation that makes a mapped face flat against what stands behind it and warms its part, or presses. Those of one part
/// come together, in the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)], log: &Logged) {
    let found: Vec<Option<Check>> = worked
        .iter()
        .map(|(at, task, _)| {
            let mapped = |name: &&crate::operations::Declared| name.part == Some(OfPart::Found(PartSize::Map));
            task.request
                .declared()
                .into_iter()
                .find(|name| mapped(name))
                .filter(|_| log.logged(&task.address).is_none())?;
            let behind = worked.iter().filter(|(other, by, _)| other > at && by.part.name == task.part.name);
            let (_, by, _) = behind.into_iter().find(|(.., answer)| moves(answer))?;
            Some(Check::of_kind(STAYS_FLAT, Verdict::Doubtful).at(task.place).with("by", by.address.to_string()))
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// Whether it makes the part warm, or presses something in or out.
fn moves(answer: &Answer) -> bool {
    let mut leaves = answer.set_ups.iter().flat_map(|set_up| &set_up.leaves);
    leaves.any(|state| matches!(state.kind, StateKind::Warm | StateKind::Pressed | StateKind::PressedOut))
}
