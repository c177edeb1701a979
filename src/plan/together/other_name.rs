//! One place under two names: a hole that one operation bores, and that another was typed with as if it were bored already. Features that
//! are called differently are held to be two; who read the very size that a cut leaves, where nothing of that size was before it, reads
//! what that cut makes. The day puts the cut first, and what is listed before its cut is in doubt.

use super::made::{Made, agree, made_by};
use super::place::{goes_on_from, is_of_kind, one_feature};
use super::taken::found_by;
use crate::job::Address;
use crate::operations::{Answer, PartSize, Value};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::proof::{Check, Origin, Verdict};

/// The check of a size that is made behind the work that goes by it, at a place of another name.
const OTHER_NAME: &str = "made-at-another-name";

/// An operation, its place in the file and what it gave.
type Worked<'a, 'b> = (usize, &'a Task<'b>, Answer);

/// Holds each operation that goes by a bore, an outside or a length against those of its part behind it that make just that size.
pub(in crate::plan) fn check(worked: &mut [Worked], log: &Logged) {
    let found: Vec<Option<Check>> = (0..)
        .zip(worked.iter())
        .map(|(at, (_, task, _))| {
            // What is not there at all before a cut of its own name is said to be missing, as a size.
            let is_it = |(_, by, cut): &Worked| one_feature(task, by) == Some(false) || was_there(by, cut);
            let behind = makers(at, worked).into_iter().find(|by| *by > at && worked.get(*by).is_some_and(is_it))?;
            let (_, by, _) = worked.get(behind)?;
            let is_open = log.logged(&by.address).is_none() && log.logged(&task.address).is_none();
            let check = || Check::of_kind(OTHER_NAME, Verdict::Doubtful).at(task.place);
            is_open.then(|| check().with("by", by.address.to_string()))
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// Whether a cut opens, or turns down, a size that was there.
fn was_there(by: &Task, cut: &Answer) -> bool {
    made_by(by, cut)
        .iter()
        .any(|made| matches!(made.size, PartSize::Inside | PartSize::Outside | PartSize::Faces) && made.found.is_some())
}

/// The operations that make a size which the one at a place goes by, whatever the places are called: for the day, which may put operations
/// in another order than the file has.
pub(super) fn makers_of(at: usize, worked: &[Worked]) -> Vec<Address> {
    makers(at, worked).into_iter().filter_map(|by| Some(worked.get(by)?.1.address.clone())).collect()
}

/// Their places: those before it, else those behind it; of two bores of one size the one before is meant.
fn makers(at: usize, worked: &[Worked]) -> Vec<usize> {
    let Some((_, own, answer)) = worked.get(at) else { return Vec::new() };
    let found = found_by(own, answer);
    let makes = |(_, by, cut): &&Worked| {
        by.part.name == own.part.name
            && made_by(by, cut).iter().any(|made| found.iter().any(|found| is_made(*found, made)))
    };
    let makers = worked.iter().enumerate().filter(|(by, other)| *by != at && makes(other));
    // What it goes on from makes it: another place of just that size is another place.
    let is_its_own = |(by, (_, other, _)): &(usize, &Worked)| *by < at && goes_on_from(own, other);
    if makers.clone().any(|maker| is_its_own(&maker)) {
        return Vec::new();
    }
    let of_another = |(_, (_, by, _)): &(usize, &Worked)| !goes_on_from(own, by) && !goes_on_from(by, own);
    let (before, behind): (Vec<usize>, Vec<usize>) =
        makers.filter(of_another).map(|(by, _)| by).partition(|by| *by < at);
    if before.is_empty() { behind } else { before }
}

/// Whether a size was read as a cut leaves it, and not as it stood before.
fn is_made((size, value): (PartSize, &Value), made: &Made) -> bool {
    let is_of_one = match size {
        PartSize::Inside | PartSize::Seat | PartSize::Outside => is_of_kind(size, made.size),
        PartSize::Faces => made.size == PartSize::Faces,
        _ => false,
    };
    // What is handed on was typed by nobody.
    let is_typed = matches!(*value.origin, Origin::Typed(_));
    let was_there = made.found.is_some_and(|found| agree(value, found));
    is_of_one && is_typed && !made.opens && !was_there && made.may_leave(value)
}
