//! How a surface lay or looked as somebody found it (how deep a groove, how far off a middle, how rough, how true it ran), where another
//! operation cuts that surface first: what was read is gone with the metal, whatever the size is said to be by then.

use super::made::{Made, agree, made_by, may_be_logged};
use super::place::{goes_on_from, here};
use crate::operations::{Answer, OfPart, PartSize, Value};
use crate::plan::log::Logged;
use crate::plan::order::Task;
use crate::proof::{Check, Origin, Verdict};

/// The check of what was read of a surface before a cut of it.
const STILL_SO: &str = "form-still-so";
/// What is said of a size already holds of its form too.
const OF_SIZES: [&str; 4] = ["size-still-there", "size-there-yet", "log-stale", "log-contradicted"];

/// Holds what each operation read of its surfaces against the cuts of its part that come before it. Those of one part come together, in
/// the order of the files.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)], log: &Logged) {
    let found: Vec<Option<(Check, &str)>> = (0..)
        .zip(worked.iter())
        .map(|(at, own)| {
            log.logged(&own.1.address).is_none().then_some(())?;
            let said = own.2.checks.iter().any(|check| OF_SIZES.contains(&check.id));
            let by = |by: usize| {
                worked.get(by).filter(|_| by != at).and_then(|other| cut_since((at, own), (by, other), log))
            };
            (!said).then(|| (0..worked.len()).rev().find_map(by))?
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some((check, key)) = check {
            answer.check_of_size(check, key);
        }
    }
}

/// An operation with its answer, by its place.
type Worked<'a> = (usize, &'a Task<'a>, Answer);

/// What is said of the first thing that an operation read of a surface which another cuts before it; none where that cuts no such surface,
/// comes behind it, or was done when it was read.
fn cut_since(
    (at, (_, own, answer)): (usize, &Worked),
    (before, (_, by, cut)): (usize, &Worked),
    log: &Logged,
) -> Option<(Check, &'static str)> {
    let goes_on = goes_on_from(own, by);
    let comes_first = own.part.name == by.part.name && (goes_on || before < at) && !goes_on_from(by, own);
    (comes_first && !was_read_since(own, (by, cut), log)).then_some(())?;
    let declared = own.request.declared();
    let value = |key: &str| answer.value(key);
    let found = |of: &OfPart| match of {
        OfPart::Found(size) => Some(*size),
        _ => None,
    };
    let sizes: Vec<(PartSize, &Value)> =
        declared.iter().filter_map(|name| Some((found(name.part.as_ref()?)?, value(name.key)?))).collect();
    let all: Vec<Made> = made_by(by, cut);
    let is_cut = |surfaces: &[PartSize]| {
        let of_surface = sizes.iter().filter(|(size, _)| surfaces.contains(size));
        let mut pairs = of_surface.flat_map(|(size, value)| all.iter().map(move |made| (*size, *value, made)));
        pairs.any(|(size, value, made)| {
            let is_of_it = || match goes_on && !is_typed(value) {
                true => is_one_surface(size, made.size) && agree(value, made.left),
                false => here((own, &sizes), (by, &all), (size, value, made)).is_some(),
            };
            !made.takes_nothing() && is_of_it() && !reads_what_was_left(value, made)
        })
    };
    declared.iter().find_map(|name| {
        let Some(OfPart::Form(surfaces)) = name.part else { return None };
        // What goes on from that cut is no reading of what was there before.
        let read = value(name.key).filter(|read| !goes_on || is_typed(read))?;
        is_cut(surfaces).then(|| {
            let check = Check::of_kind(STILL_SO, Verdict::Doubtful).with("form", read.means);
            (check.with("by", by.address.to_string()).at(own.place), read.key)
        })
    })
}

/// Whether a value was typed, and goes on from nothing.
fn is_typed(value: &Value) -> bool {
    matches!(*value.origin, Origin::Typed(_))
}

/// Whether what one finds may be what another makes.
const fn is_one_surface(size: PartSize, made: PartSize) -> bool {
    matches!(
        (size, made),
        (PartSize::Outside | PartSize::Around, PartSize::Outside)
            | (PartSize::Inside, PartSize::Inside | PartSize::Bushed)
    )
}

/// Whether a size that was typed is what the log says was left, and not what was found: whoever read it read the rest with it.
fn reads_what_was_left(value: &Value, made: &Made) -> bool {
    is_typed(value)
        && made.is_as_left()
        && agree(value, made.left)
        && !made.found.is_some_and(|found| agree(value, found))
}

/// Whether somebody says that he read it after that cut: on a later day than the log has, or on any where no log can tell of it.
fn was_read_since(own: &Task, (by, cut): (&Task, &Answer), log: &Logged) -> bool {
    let since = own.request.set_up().and_then(|wish| wish.measured.as_ref()).map(|at| at.value);
    match log.logged(&by.address) {
        Some(logged) => since.zip(logged.date).is_some_and(|(since, cut)| since > cut),
        None => since.is_some() && !may_be_logged(by, cut),
    }
}
