//! What a size of a set-up is brought to: the limits that it is measured against, and whether it may stand where nothing is cut.

use super::Sheet;
use crate::operations::{Blank, Target, Value};
use crate::proof::Fact;
use crate::quantity::{Decimals, Unit};
use crate::sheet::as_typed;

/// Whether a size may stand where nothing is cut: it fails, or it is no size that something is to be brought to.
pub(super) fn is_known(sheet: &Sheet, value: &Value) -> bool {
    let fails = sheet.failing().into_iter().any(|check| check.about == Some(value.key));
    // A size of the part stands as somebody wrote it; what was worked out from it, or is brought to it, does not.
    let written = value.unit != Unit::Mm || as_typed::is_as_written(sheet.plan, value);
    fails || written && !is_aimed_at(sheet, value) && between(sheet, value).is_none()
}

/// Whether a blank of its set-up asks for a size.
pub(super) fn is_aimed_at(sheet: &Sheet, value: &Value) -> bool {
    let aimed = |blank: &Blank<String>| match &blank.target {
        Some(Target::Aim(Fact::Figure { number, unit, .. })) => *number == value.number && *unit == value.unit,
        Some(_) => blank.log.is_some_and(|log| log.key == value.key),
        None => false,
    };
    sheet.set_up.is_some_and(|set_up| set_up.blanks.iter().any(aimed))
}

/// The greatest that a temperature may be read as, where its set-up asks for one.
pub(super) fn cold_enough(sheet: &Sheet, value: &Value) -> Option<Target> {
    let mut targets = sheet.set_up?.blanks.iter().filter_map(|blank| blank.target.clone());
    targets
        .find(|target| matches!(target, Target::UpTo(Fact::Figure { unit, .. }) if *unit == value.unit))
        .filter(|_| value.unit == Unit::DegC)
}

/// Limits so near to a size and its doubt are those, in its own unit: what rounding inward takes.
const NEAR: fn(Unit) -> f64 = |unit| if unit == Unit::Mm { 0.001 + 1e-6 } else { 1.0 + 1e-6 };

/// The limits that a size of this set-up is made to and measured against, where it has two and was not measured yet, and with
/// what decimals.
pub(super) fn between(sheet: &Sheet, value: &Value) -> Option<(f64, f64, Decimals)> {
    let own = |blank: &&Blank<String>| blank.log.is_some_and(|log| log.key == value.key);
    let set_up = sheet.set_up.filter(|_| value.origin.entry().is_none())?;
    let between = |target: &Target| match target {
        Target::Between(Fact::Figure { number: low, decimals, unit, .. }, Fact::Figure { number: high, .. })
            if *unit == value.unit =>
        {
            Some((*low, *high, if *decimals == Decimals::AsTyped { Decimals::Usual } else { *decimals }))
        }
        _ => None,
    };
    // What the log does not take has a target all the same: limits just so far about the size are its own.
    let about = |(low, high, _): &(f64, f64, Decimals)| {
        let near = |end: f64, off: f64| (value.number + off - end).abs() <= NEAR(value.unit);
        value.plus_minus > 0.0 && near(*low, -value.plus_minus) && near(*high, value.plus_minus)
    };
    match set_up.blanks.iter().find(own) {
        Some(blank) => set_up.target_of(blank).as_ref().and_then(between),
        None => set_up.blanks.iter().filter_map(|blank| between(blank.target.as_ref()?)).find(about),
    }
}
