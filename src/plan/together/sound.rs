//! Sound metal where another operation has made a hole: a new hole in it is none.

use super::made::made_by;
use crate::operations::{Answer, PartSize};
use crate::plan::order::Task;
use crate::proof::{Check, Verdict, Words};

/// The check of a size that another operation makes first.
const THERE_YET: &str = "size-there-yet";

/// Holds each operation that says that there is no hole yet against those before it that make one at its feature.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let by: Vec<Option<(String, &'static str)>> = (0..)
        .zip(worked.iter())
        .map(|(at, (_, task, answer))| {
            let before = worked.get(..at).unwrap_or_default();
            if answer.no_hole { before.iter().find_map(|(_, by, made)| drills_there(task, (by, made))) } else { None }
        })
        .collect();
    for ((_, task, answer), by) in worked.iter_mut().zip(by) {
        let Some((by, left)) = by else { continue };
        let check = Check::of_kind(THERE_YET, Verdict::Doubtful).at(task.place);
        let check = check.with("size", "no hole there yet").with("by", by.clone());
        answer.check(check).remedy(Words::of("go-on-from-it").with("by", by).with("left", left));
    }
}

/// Who makes a hole at the feature of an operation, and what it leaves.
fn drills_there(own: &Task, (by, made): (&Task, &Answer)) -> Option<(String, &'static str)> {
    let feature = |task: &Task| task.request.set_up()?.feature.as_ref().map(|at| at.value.key().to_owned());
    let is_there = own.part.name == by.part.name && feature(own).is_some_and(|own| Some(own) == feature(by));
    let hole = made_by(by, made).into_iter().find(|made| made.size == PartSize::Inside && made.found.is_none());
    hole.filter(|_| is_there).map(|hole| (by.address.to_string(), hole.left.key))
}
