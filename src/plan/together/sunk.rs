//! A face that is lapped, and what the same job puts in its part: inserts, whose set-down gets less by what comes off the face, and bushes
//! that stand out of it, on which the plate rides.

use super::made::made_by;
use crate::operations::{Answer, PartSize};
use crate::plan::order::Task;
use crate::proof::{Check, Outcome, Verdict};

/// The check of the set-downs that somebody typed.
const SET_DOWN: &str = "set-down";
/// The check of the inserts that nobody counted.
const COUNTED: &str = "inserts-counted";

/// The check of what the job leaves standing out of the part.
const IN_THE_WAY: &str = "nothing-stands-in-the-way";

/// Holds each operation that counts inserts, or what stands out, and was told of none, against those of its part that put such things there.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<[Option<Check>; 2]> = worked.iter().map(|own| [of(own, worked), in_the_way(own, worked)]).collect();
    for ((.., answer), checks) in worked.iter_mut().zip(found) {
        checks.into_iter().flatten().for_each(|check| where_it_is_cut(answer, check));
    }
}

/// The set-up that takes the metal stands on it, not the one that maps the face.
fn where_it_is_cut(answer: &mut Answer, check: Check) {
    let id = check.id;
    answer.check(check);
    let last = answer.set_ups.len().saturating_sub(1);
    for (at, set_up) in answer.set_ups.iter_mut().enumerate() {
        set_up.checks.retain(|own| *own != id);
        if at == last {
            set_up.checks.push(id);
        }
    }
}

/// What is said of a face that is lapped behind work that leaves something standing out of the part, where nobody says how far it stands
/// out of this face.
fn in_the_way((at, own, _): &(usize, &Task, Answer), all: &[(usize, &Task, Answer)]) -> Option<Check> {
    (!own.request.operation().counts_what_stands_out()).then_some(())?;
    let stands = |(other, by, _): &&(usize, &Task, Answer)| {
        other < at && by.part.name == own.part.name && by.request.operation().stands_out()
    };
    let (_, by, _) = all.iter().find(stands)?;
    Some(Check::of_kind(IN_THE_WAY, Verdict::Doubtful).at(own.place).with("by", by.address.to_string()))
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
