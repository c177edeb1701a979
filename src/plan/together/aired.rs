//! What goes into an oven after it was washed in what burns.

use crate::handbook::StateKind;
use crate::operations::Answer;
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};

/// How hot an oven, or a flame, may make the part.
const HOTTEST: &str = "housing_hottest";

/// The step of a wash in what burns.
const OF_FUEL: &str = "air-the-fuel-off";

/// What an operation does about what burns: leaves the part wet with it, or free of it; nothing where it does neither.
fn leaves_wet(answer: &Answer) -> Option<bool> {
    let leaves =
        |kind: StateKind| answer.set_ups.iter().flat_map(|set_up| &set_up.leaves).any(|state| state.kind == kind);
    if answer.set_ups.iter().flat_map(|set_up| &set_up.steps).any(|step| step.words.id == OF_FUEL) {
        return Some(true);
    }
    (leaves(StateKind::Aired) || leaves(StateKind::Washed)).then_some(false)
}

/// Holds each warming against the last washing before it of the same part. Those of one part come together, in the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..)
        .zip(worked.iter())
        .map(|(at, (_, task, answer))| {
            answer.value(HOTTEST)?;
            let before = worked.iter().take(at).rev().filter(|(_, by, _)| by.part.name == task.part.name);
            let (by, wet) = before.filter_map(|(_, by, answer)| Some((by, leaves_wet(answer)?))).next()?;
            let check = Check::of_kind("fuel-is-out", Verdict::Doubtful).with("by", by.address.to_string());
            wet.then(|| check.at(task.place))
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, HOTTEST);
        }
    }
}
