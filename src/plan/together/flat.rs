//! A face that was made flat, by whatever, and moves behind that: what is pressed in or out, and heat, leave no casting as it lay.

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
        .map(|(at, task, answer)| {
            let mapped = |name: &&crate::operations::Declared| name.part == Some(OfPart::Found(PartSize::Map));
            let is_mapped = task.request.declared().into_iter().any(|name| mapped(&name));
            // What is scraped or ground flat by hand has no map.
            (is_mapped || leaves(answer, &[StateKind::Flat])).then_some(())?;
            let of_part = worked.iter().filter(|(other, by, _)| other != at && by.part.name == task.part.name);
            let behind = |(other, by): (usize, &Task)| is_behind(log, (*at, task), (other, by));
            let (_, by, _) = of_part.into_iter().find(|(other, by, answer)| moves(answer) && behind((*other, by)))?;
            Some(Check::of_kind(STAYS_FLAT, Verdict::Doubtful).at(task.place).with("by", by.address.to_string()))
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// Whether one operation is done behind another: as the log tells of both, else as the file has them. What is logged of the two is done
/// before what is not.
fn is_behind(log: &Logged, (at, first): (usize, &Task), (other, then): (usize, &Task)) -> bool {
    match (log.logged(&first.address), log.logged(&then.address)) {
        (Some(one), Some(by)) => {
            let by_day = one.date.zip(by.date).filter(|(one, by)| one != by).map(|(one, by)| by > one);
            by_day.unwrap_or(if first.job == then.job { by.line > one.line } else { other > at })
        }
        (None, Some(_)) => false,
        (_, None) => other > at,
    }
}

/// Whether it makes the part warm, or presses something in or out.
fn moves(answer: &Answer) -> bool {
    leaves(answer, &[StateKind::Warm, StateKind::Pressed, StateKind::PressedOut])
}

/// Whether an operation leaves one of some states.
fn leaves(answer: &Answer, kinds: &[StateKind]) -> bool {
    let mut leaves = answer.set_ups.iter().flat_map(|set_up| &set_up.leaves);
    leaves.any(|state| kinds.contains(&state.kind))
}
