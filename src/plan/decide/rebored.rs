//! A bore that was bored to another size: the limit that it had before says nothing of it any more. What proves it is the operation, with
//! the mate that it was bored for.

use super::frame::{Size, Why};
use super::ground::{Ground, SAME, remedies_of};
use crate::handbook::remedies;
use crate::job::{Inspected, PartFacts};
use crate::operations::Value;
use crate::plan::Planned;
use crate::proof::{Keep, Verdict};

/// The keys of what such an operation found before the cut, and of what it leaves.
const WORST: &str = "bore_worst";
const FINISH: &str = "finish_bore";

/// A feature as a rebore left it.
pub(super) struct Rebored {
    /// What was found.
    pub found: Size,
    /// How it stands; none where it is not proven as it was left.
    pub verdict: Option<Verdict>,
    /// Why.
    pub why: Vec<Why>,
}

/// How a feature stands whose readings, as sure as they are, are all what the log says a rebore of it left, and which its limit has outside.
/// None for any other.
pub(super) fn rebored(ground: &Ground, part: &PartFacts, of: &Inspected, sizes: &[Size]) -> Option<Rebored> {
    let found = *sizes.first()?;
    let (planned, cut) =
        ground.cuts.iter().rev().filter(|cut| cut.of.part == part.name && cut.is_done()).find_map(|cut| {
            let planned = ground.planned(&cut.of).filter(|planned| bores_it_to_a_mate(planned, of))?;
            let left = planned.answer.value(FINISH).filter(|left| cut.keys.contains(&left.key))?;
            let is_left = sizes.iter().all(|size| is_one(size, left));
            (is_left && limits_are_of_before(planned, of)).then_some((planned, cut))
        })?;
    let address = planned.address.to_string();
    let left = Why::Rebored(address.clone(), ground.line(cut), planned.verdict);
    let verdict = match planned.verdict {
        Verdict::Proven => Some(Verdict::Proven),
        Verdict::Doubtful => None,
        Verdict::Fails => Some(Verdict::Doubtful),
    };
    let fails = (planned.verdict == Verdict::Fails).then_some(Why::FailsByLog(address));
    let why = [left].into_iter().chain(fails).collect();
    Some(Rebored { found, verdict, why })
}

/// Whether an operation makes another size of the feature, to which mates are got.
fn bores_it_to_a_mate(planned: &Planned, of: &Inspected) -> bool {
    let named = planned.of_day.wish.feature.as_ref();
    let is_here = named.is_none_or(|at| at.value.key() == crate::job::feature_key(&of.feature.value));
    let makes_another = remedies::of(&planned.word).is_some_and(|row| !row.follows.is_empty());
    is_here && makes_another && remedies_of(of).contains(&planned.word.as_str())
}

fn is_one(size: &Size, left: &Value) -> bool {
    size.unit == left.unit && (size.number - left.number).abs() <= size.plus_minus + left.plus_minus + SAME
}

/// Whether every limit was passed before the cut already: one that was written for the new size is not.
fn limits_are_of_before(planned: &Planned, of: &Inspected) -> bool {
    let Some(worst) = planned.answer.value(WORST) else { return false };
    let limits = of.service.value.limits();
    let is_of_before = |(keep, limit): &(Keep, crate::quantity::Mm)| {
        *keep == Keep::AtLeast || crate::quantity::Quantity::number(*limit) < worst.number
    };
    limits.iter().any(|(keep, _)| *keep == Keep::AtMost) && limits.iter().all(is_of_before)
}
