//! What became of a size that the log has: another operation of the part went on from it, or cut the same size again.

use super::ground::{DEEPEST, Ground, SAME};
use crate::job::Address;
use crate::operations::{OfPart, PartSize, Value};
use crate::plan::Planned;
use crate::plan::together::stale::Cut;

/// What the log last has of a size.
pub(super) enum Last<'a> {
    /// This value, by this cut.
    Left(Address, &'a Cut),
    /// Nothing: this cut went on from it, and what it left of it nobody wrote down.
    Unknown(&'a Cut),
}

/// What the log has of a size behind the operation that gives it; none where that is the last that was done to it.
pub(super) fn last<'a>(ground: &Ground<'a>, from: &Address) -> Option<Last<'a>> {
    let (mut at, mut last) = (from.clone(), None);
    for _ in 0..DEEPEST {
        match next(ground, &at) {
            Some(Last::Left(left, cut)) => {
                at = left.clone();
                last = Some(Last::Left(left, cut));
            }
            Some(unknown) => return Some(unknown),
            None => break,
        }
    }
    last
}

/// What was done next to a size.
fn next<'a>(ground: &Ground<'a>, at: &Address) -> Option<Last<'a>> {
    let owner = at.owner();
    let own = ground.planned(&owner)?;
    let value = own.answer.value(at.value.as_deref()?)?;
    let (_, size) = own.sizes.iter().find(|(key, _)| *key == value.key)?;
    // What the operation found of it is gone once its own cut is done, and so is what it left on the way there.
    let own_cut = match (size, ground.done(&owner)) {
        (OfPart::Found(size), Some(cut)) => leaves(own, *size).map(|left| (cut, left)),
        (OfPart::Passing(size), Some(cut)) => {
            leaves(own, *size).filter(|left| cut.keys.contains(&left.key)).map(|left| (cut, left))
        }
        _ => None,
    };
    if let Some((cut, left)) = own_cut {
        return Some(said(cut, left));
    }
    let (OfPart::Found(size) | OfPart::Leaves(size)) = *size else { return None };
    let others = ground.cuts.iter().filter(|cut| cut.of.part == owner.part && cut.of != owner && cut.is_done());
    others.filter_map(|cut| Some((cut, ground.planned(&cut.of)?))).find_map(|(cut, by)| {
        let is_lapped = size == PartSize::Faces && by.answer.value("metal_to_lap").is_some();
        if is_lapped && one_feature(own, by) != Some(false) {
            return ground.done(&owner).is_none_or(|own| !own.is_surely_behind(cut)).then_some(Last::Unknown(cut));
        }
        let (found, before) = found(by).find(|(_, found)| is_one(*found, size))?;
        let left = leaves(by, before)?;
        if goes_on_from(ground, by, at) {
            return ((found.number - value.number).abs() <= SAME).then(|| said(cut, left));
        }
        let own_found = self::found(own).find(|(_, own)| is_one(*own, size)).map(|(found, _)| found);
        let is_it = may_be(found, value) || own_found.is_some_and(|own| may_be(found, own));
        let is_there = size == PartSize::Faces || one_feature(own, by) != Some(false);
        (is_it && is_there && goes_further(left, value, size)).then(|| said(cut, left))
    })
}

/// What a cut left, where the log has it.
fn said<'a>(cut: &'a Cut, left: &Value) -> Last<'a> {
    match cut.keys.contains(&left.key) {
        true => Last::Left(cut.of.value(left.key), cut),
        false => Last::Unknown(cut),
    }
}

/// The sizes of the part as an operation found them.
fn found(planned: &Planned) -> impl Iterator<Item = (&Value, PartSize)> {
    planned.sizes.iter().filter_map(|(key, of)| match of {
        OfPart::Found(size) => Some((planned.answer.value(key)?, *size)),
        _ => None,
    })
}

/// What an operation leaves of a size.
fn leaves(planned: &Planned, size: PartSize) -> Option<&Value> {
    let mut left = planned.sizes.iter().filter_map(|(key, of)| match of {
        OfPart::Leaves(left) if is_one(size, *left) => planned.answer.value(key),
        _ => None,
    });
    left.next()
}

/// Whether two are one sort of size: a bore is one with a bush in it too.
fn is_one(one: PartSize, other: PartSize) -> bool {
    let plain = |size| if size == PartSize::Bushed { PartSize::Inside } else { size };
    plain(one) == plain(other)
}

/// Whether an operation reads this very value.
fn goes_on_from(ground: &Ground, by: &Planned, at: &Address) -> bool {
    let own = ground.plan.operations.iter().zip(ground.named).find(|(planned, _)| planned.address == by.address);
    own.is_some_and(|(_, named)| named.addresses.iter().any(|address| address.value == *at))
}

/// Whether the features that both name are one; none where one of them names none.
fn one_feature(own: &Planned, by: &Planned) -> Option<bool> {
    let feature = |planned: &Planned| planned.of_day.wish.feature.as_ref().map(|at| at.value.key().to_owned());
    Some(feature(own)? == feature(by)?)
}

/// Whether two readings may be of one size.
fn may_be(one: &Value, other: &Value) -> bool {
    one.unit == other.unit && (one.number - other.number).abs() <= one.plus_minus + other.plus_minus + SAME
}

/// Whether less metal is there by one reading than by the other, beyond the doubt of both.
fn goes_further(left: &Value, value: &Value, size: PartSize) -> bool {
    let less = if size.grows_as_metal_goes() { left.number - value.number } else { value.number - left.number };
    less > left.plus_minus + value.plus_minus
}

/// The cut that was made since a size was read: it found that size, and took from it. Diameters are of two places where both are said to
/// be.
pub(super) fn cut_since<'a>(
    ground: &Ground<'a>,
    (part, feature): (&str, &str),
    (number, plus_minus): (f64, f64),
    is_older: impl Fn(&Cut) -> bool,
) -> Option<&'a Cut> {
    let mut cuts = ground.cuts.iter().filter(|cut| cut.of.part == part && cut.is_done() && is_older(cut));
    cuts.find(|cut| {
        let Some(by) = ground.planned(&cut.of) else { return false };
        let named = by.of_day.wish.feature.as_ref().map(|at| at.value.key() == feature);
        found(by).any(|(before, size)| {
            let is_there = size == PartSize::Faces || named != Some(false);
            let is_it = (before.number - number).abs() <= before.plus_minus + plus_minus + SAME;
            let took = leaves(by, size).is_some_and(|left| (left.number - before.number).abs() > SAME);
            is_there && is_it && took
        })
    })
}

/// The metal that a size has beyond what the log says was left of it before that was read, with the cut that left it: metal that is gone
/// does not come back. Diameters are of one place only where both are said to be.
pub(super) fn has_come_back<'a>(
    ground: &Ground<'a>,
    (part, feature): (&str, &str),
    (number, plus_minus): (f64, f64),
    is_newer: impl Fn(&Cut) -> bool,
) -> Option<(&'a Cut, f64)> {
    let cuts = ground.cuts.iter().rev().filter(|cut| cut.of.part == part && cut.is_done() && is_newer(cut));
    cuts.filter_map(|cut| Some((cut, ground.planned(&cut.of)?))).find_map(|(cut, by)| {
        let named = by.of_day.wish.feature.as_ref().map(|at| at.value.key() == feature);
        found(by).find_map(|(before, size)| {
            let left = leaves(by, size).filter(|left| cut.keys.contains(&left.key))?;
            let is_there = if size == PartSize::Faces { true } else { named == Some(true) };
            let doubt = plus_minus + left.plus_minus;
            let (more, least) = match size.grows_as_metal_goes() {
                true => (left.number - number, number - before.number),
                false => (number - left.number, before.number - number),
            };
            let lies_between = more > doubt && least >= -(plus_minus + before.plus_minus);
            (is_there && lies_between).then_some((cut, left.number))
        })
    })
}
