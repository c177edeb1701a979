//! A size that was read, beside work on that part that could not be worked: nobody knows what that takes of it.

use super::place::is_of_kind;
use super::scope::may_be_one_feature;
use crate::operations::{Answer, OfPart, PartSize, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};

/// The check of a size beside work that is not worked out.
const BESIDE: &str = "beside-what-is-refused";

/// Holds each operation of a part against those of it that were refused.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    if worked.iter().all(|(.., answer)| answer.refused.is_none()) {
        return;
    }
    let found: Vec<Option<(Check, &str)>> = worked.iter().map(|own| of(own, worked)).collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some((check, key)) = check {
            answer.check_of_size(check, key);
        }
    }
}

/// What is said of the first size that work which was refused may take from.
fn of((at, own, answer): &(usize, &Task, Answer), all: &[(usize, &Task, Answer)]) -> Option<(Check, &'static str)> {
    if answer.refused.is_some() {
        return None;
    }
    let mut others =
        all.iter().filter(|(other, by, given)| other != at && given.refused.is_some() && by.part.name == own.part.name);
    others.find_map(|(_, by, _)| {
        let (_, value) = sizes(own, answer).find(|(size, _)| may_take(by, own, *size))?;
        let check = Check::of_kind(BESIDE, Verdict::Doubtful).at(own.place).with("by", by.address.to_string());
        Some((check.with("size", value.means), value.key))
    })
}

/// The sizes of the part that an operation found.
fn sizes<'a>(own: &'a Task, answer: &'a Answer) -> impl Iterator<Item = (PartSize, &'a Value)> {
    own.request.declared().into_iter().filter_map(|name| match name.part {
        Some(OfPart::Found(size)) => Some((size, answer.value(name.key)?)),
        _ => None,
    })
}

/// Whether such work makes a size of that kind, at a place that may be the same: a diameter has a feature of its own, a length has none.
fn may_take(by: &Task, own: &Task, size: PartSize) -> bool {
    let makes = |made: PartSize| is_of_kind(size, made);
    let declared = by.request.declared();
    let kinds = || {
        declared.iter().filter_map(|name| match name.part {
            Some(OfPart::Leaves(made) | OfPart::Opens(made)) => Some(made),
            _ => None,
        })
    };
    let feature = |task: &Task| Some(task.request.set_up()?.feature.as_ref()?.value.key().to_owned());
    let is_diameter = matches!(size, PartSize::Inside | PartSize::Outside | PartSize::Seat | PartSize::Depth);
    kinds().any(makes) && (!is_diameter || may_be_one_feature(feature(by).as_deref(), feature(own).as_deref()))
}
