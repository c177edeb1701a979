//! A hole that is drilled into a bore from outside, behind the work that finished that bore: its burr stands in there, and nothing cuts it
//! off.

use super::made::made_by;
use super::scope::may_be_one_feature;
use crate::operations::{Answer, PartSize};
use crate::plan::order::Task;
use crate::proof::{Check, Verdict};

/// The check of when a hole is drilled, as it was typed.
const IN_ITS_TIME: &str = "in-its-time";
/// The check of what takes off its burr.
const CUT_OFF: &str = "burr-cut-off";

/// Holds each hole that says it is drilled before a bore is finished against the bores of its part. Those of one part come together, in
/// the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..).zip(worked.iter()).map(|(at, own)| of(at, own, worked)).collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check(check);
        }
    }
}

/// What is said of a hole whose bore an earlier operation cuts, behind a bush that was put in, and no later one.
fn of(at: usize, (_, own, answer): &(usize, &Task, Answer), all: &[(usize, &Task, Answer)]) -> Option<Check> {
    let in_its_time = |check: &Check| check.id == IN_ITS_TIME && check.is_proven();
    answer.checks.iter().any(in_its_time).then_some(())?;
    let there = |other: &&(usize, &Task, Answer)| {
        let (_, by, _) = other;
        by.part.name == own.part.name && may_be_one_feature(feature(by).as_deref(), feature(own).as_deref())
    };
    let (before, behind) = (all.get(..at)?, all.get(at + 1..)?);
    let cuts = |other: &&(usize, &Task, Answer)| there(other) && cuts_a_bore(other);
    let bushed = before.iter().position(|other| there(&other) && leaves_a_bush(other))?;
    let (_, by, _) = before.get(bushed + 1..)?.iter().find(cuts)?;
    if behind.iter().any(|other| cuts(&other)) {
        return None;
    }
    let surely = feature(by).is_some() && feature(by) == feature(own);
    let verdict = if surely { Verdict::Fails } else { Verdict::Doubtful };
    Some(Check::of_kind(CUT_OFF, verdict).at(own.place).with("by", by.address.to_string()))
}

fn feature(task: &Task) -> Option<String> {
    Some(task.request.set_up()?.feature.as_ref()?.value.key().to_owned())
}

fn cuts_a_bore((_, task, answer): &(usize, &Task, Answer)) -> bool {
    made_by(task, answer).iter().any(|made| made.size == PartSize::Inside && made.found.is_some())
}

fn leaves_a_bush((_, task, answer): &(usize, &Task, Answer)) -> bool {
    made_by(task, answer).iter().any(|made| made.size == PartSize::Bushed)
}
