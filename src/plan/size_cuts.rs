//! Sizes that one operation of a part is judged by while another cuts them away: each was judged alone, by the part as it was found.

use super::order::Task;
use super::stale::Cut;
use crate::handbook::constants::row;
use crate::handbook::size_cuts::{self, Lies, SizeCut};
use crate::operations::{Answer, SetUpWish, Value};
use crate::proof::{Check, Verdict};

/// A piece of work on a part.
#[derive(Clone, Copy)]
struct Work<'a, 'b> {
    task: &'a Task<'b>,
    answer: &'a Answer,
}

impl<'a> Work<'a, '_> {
    /// The first of these values that it gives.
    fn value(&self, keys: &[String]) -> Option<&'a Value> {
        self.answer.values.iter().find(|value| keys.iter().any(|key| key == value.key))
    }

    /// Whether it goes on from a size of the other.
    fn goes_on_from(&self, other: &Self) -> bool {
        self.task.named.addresses.iter().any(|read| read.value.owner() == other.task.address)
    }

    fn wish(&self) -> Option<&'a SetUpWish> {
        self.task.request.set_up()
    }

    /// Whether both name the place on the part, and name two.
    fn is_elsewhere(&self, other: &Self) -> bool {
        let feature = |of: &Self| of.wish().and_then(|wish| wish.feature.as_ref()).map(|at| &at.value);
        matches!((feature(self), feature(other)), (Some(own), Some(theirs)) if own != theirs)
    }
}

/// Judges the operations of each part by what the others of it cut: doubtful where such a size was typed as it is before the cut.
/// Those of one part come together.
pub(super) fn check(worked: &mut [(usize, &Task, Answer)], logged: &[Cut]) {
    let found: Vec<(usize, Check)> = {
        let all: Vec<Work> = worked.iter().map(|(_, task, answer)| Work { task, answer }).collect();
        let on = |rests: &Work| first_cut(rests, &all, logged).map(|check| check.at(rests.task.place));
        all.iter().enumerate().filter_map(|(at, rests)| Some((at, on(rests)?))).collect()
    };
    for (at, check) in found {
        if let Some((_, _, answer)) = worked.get_mut(at) {
            answer.check(check);
        }
    }
}

/// The check of the first cut that takes what an operation rests on.
fn first_cut(rests: &Work, all: &[Work], logged: &[Cut]) -> Option<Check> {
    if rests.answer.checks.iter().any(|check| check.id == "log-stale") {
        return None;
    }
    all.iter().find_map(|by| {
        let others = by.task.address != rests.task.address && by.task.part.name == rests.task.part.name;
        let rules =
            || size_cuts::all().iter().filter(|rule| rule.binds(by.task.request.word(), rests.task.request.word()));
        let rule = rules().filter(|_| others).find(|rule| is_taken(rule, by, rests))?;
        let done = |of: &Work| logged.iter().find(|cut| cut.of == of.task.address);
        match done(by) {
            None => Some(size_cut(rule, by)),
            Some(cut) if done(rests).is_none() && !is_newer(rests, cut) => Some(cut.stale()),
            Some(_) => None,
        }
    })
}

/// Whether somebody says that it was measured after the cut.
fn is_newer(rests: &Work, cut: &Cut) -> bool {
    let measured = rests.wish().and_then(|wish| wish.measured.as_ref()).map(|at| at.value);
    measured.zip(cut.date).is_some_and(|(measured, cut)| measured >= cut)
}

fn size_cut(rule: &SizeCut, by: &Work) -> Check {
    Check::of_kind("size-cut", Verdict::Doubtful)
        .with("by", by.task.address.to_string())
        .with("because", rule.reason.clone())
}

/// Whether a cut takes the very size that an operation is judged by. What is typed as the cut leaves it is not taken, nor what goes on
/// from there; typed as the cut found it, it is, whatever its feature is called.
fn is_taken(rule: &SizeCut, by: &Work, rests: &Work) -> bool {
    let Some(size) = rests.value(&rule.values) else { return false };
    if rests.goes_on_from(by) || (rule.takes_too(rests.task.request.word()) && goes_on(rule, by, rests)) {
        return false;
    }
    if let (Some(found), Some(left)) = (by.value(&rule.found), by.value(&rule.left)) {
        let cut = (found.number - left.number).abs();
        let off = |other: &Value| (size.number - other.number).abs();
        if off(left) <= off(found) && off(left) <= size.plus_minus + left.plus_minus + as_left() * cut {
            return false;
        }
        if off(found) <= size.plus_minus.max(found.plus_minus) {
            return true;
        }
    }
    rule.place == Lies::One || !rests.is_elsewhere(by)
}

/// What a typed size may lie off what the cut leaves, in shares of the cut, and still be that.
fn as_left() -> f64 {
    row("typed-as-left-share").map_or(0.0, |row| row.value)
}

/// Whether the cut goes on from what the other leaves, and is judged by that: named, or typed as that.
fn goes_on(rule: &SizeCut, by: &Work, rests: &Work) -> bool {
    let typed_so = || {
        let (Some(found), Some(left)) = (by.value(&rule.found), rests.value(&rule.left)) else { return false };
        rests.value(&rule.found).is_some_and(|before| {
            let off = |other: &Value| (found.number - other.number).abs();
            off(left) < off(before) && off(left) <= found.plus_minus + left.plus_minus
        })
    };
    by.goes_on_from(rests) || typed_so()
}
