//! What is parted off where an earlier cut turned the outside down: the blade is through before its dial says so.

use super::made::made_by;
use super::place::one_feature;
use crate::operations::{Answer, OfPart, PartSize};
use crate::plan::order::Task;
use crate::proof::{Check, Verdict, Words};

/// The check of a size that another operation takes metal from.
const STILL_THERE: &str = "size-still-there";
/// The outside where it is parted.
const OUTSIDE: &str = "outside";
/// Under this two diameters are one, mm.
const DUST: f64 = 1e-9;

/// Holds the outside that each piece is parted off at against what the cuts before it left of that. Those of one part come together, in
/// the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> =
        (0..).zip(worked.iter()).map(|(at, own)| thinner(own, worked.get(..at).unwrap_or_default())).collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, OUTSIDE);
        }
    }
}

/// What is said of an outside that the last cut before it left thinner than it is typed; where both name features, and other ones, it is
/// another place.
fn thinner((_, own, answer): &(usize, &Task, Answer), before: &[(usize, &Task, Answer)]) -> Option<Check> {
    let typed = answer.value(OUTSIDE).filter(|_| parts_off(own))?;
    let of_part = before.iter().rev().filter(|(_, by, _)| by.part.name == own.part.name);
    let here = of_part.filter(|(_, by, _)| one_feature(own, by) != Some(false));
    let (by, left) = { here }.find_map(|(_, by, cut)| {
        let made = made_by(by, cut).into_iter().find(|made| made.size == PartSize::Outside)?;
        Some((by.address.to_string(), made.left.clone()))
    })?;
    let most = left.band.map_or(left.number, |(_, high)| high) + left.plus_minus;
    (most < typed.number - DUST).then(|| {
        let check = Check::of_kind(STILL_THERE, Verdict::Doubtful).at(own.place);
        let mut check = check.with("size", typed.means).with("by", by.clone());
        check.remedy(Words::of("part-what-is-left").with("by", by).with("left", left.fact()));
        check
    })
}

/// Whether an operation takes pieces off a bar.
fn parts_off(task: &Task) -> bool {
    task.request.declared().iter().any(|name| name.part == Some(OfPart::Leaves(PartSize::Bar)))
}
