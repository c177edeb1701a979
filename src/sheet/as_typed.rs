//! Sizes as whoever wrote them reads them: in the unit that they were written in, a nominal one letter by letter.

use super::figures;
use crate::operations::{Answer, Value};
use crate::plan::Plan;
use crate::proof::{Fact, Origin, Place};
use crate::quantity::{Print, Shown, Unit};

/// A size in parts: they meet where the letters are set.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Typed {
    /// Its number, as a sheet sets it.
    pub number: String,
    /// Its doubt, with the decimals of the number.
    pub doubt: Option<String>,
    /// Its unit.
    pub unit: &'static str,
}

impl Typed {
    /// In one line.
    pub(super) fn line(&self) -> String {
        let doubt = self.doubt.as_ref().map_or_else(String::new, |doubt| format!(" ± {doubt}"));
        format!("{}{doubt} {}", self.number, self.unit)
    }
}

/// Where a size was written; nothing for one that nobody wrote.
fn place(value: &Value) -> Option<Place> {
    match *value.origin {
        Origin::Typed(place) if value.unit == Unit::Mm => Some(place),
        _ => None,
    }
}

/// A size of an answer as it was written; nothing for one that nobody wrote.
pub(super) fn size(plan: &Plan, value: &Value) -> Option<Typed> {
    let place = place(value)?;
    let print = print_at(plan, place)?;
    if let Some(written) = plan.written.at(place).filter(|written| written.mm.to_bits() == value.number.to_bits())
        && let (Some(nominal), true) = (written.nominal, value.plus_minus <= 0.0)
    {
        return Some(Typed { number: nominal.to_string(), doubt: None, unit: written.unit });
    }
    let shown = Shown::usual(value.number, Some(value.plus_minus), value.unit, value.rounds, print);
    let doubt = shown.doubt.as_ref().map(ToString::to_string);
    Some(Typed { number: figures::number(&shown.number), doubt, unit: shown.unit })
}

/// Whether a size of an answer is the one that somebody wrote: not the middle of limits, nor a nominal size to be set.
pub(super) fn is_as_written(plan: &Plan, value: &Value) -> bool {
    let written = place(value).and_then(|place| plan.written.at(place));
    written.is_some_and(|written| {
        written.mm.to_bits() == value.number.to_bits() && (written.nominal.is_none() || value.plus_minus <= 0.0)
    })
}

/// The figure that was found, as it was written; nothing for one that nobody wrote.
pub(super) fn found(plan: &Plan, answer: &Answer<String>, found: &Fact) -> Option<Typed> {
    let Fact::Figure { number, unit: Unit::Mm, .. } = found else { return None };
    let same = |value: &&Value| value.number.to_bits() == number.to_bits() && place(value).is_some();
    size(plan, answer.values.iter().find(same)?)
}

/// The units of print in which a size was written; nothing for one that nobody wrote.
pub(super) fn print_of(plan: &Plan, value: &Value) -> Option<Print> {
    print_at(plan, place(value)?)
}

fn print_at(plan: &Plan, place: Place) -> Option<Print> {
    Some(if plan.written.at(place)?.is_inch { Print::Imperial } else { Print::Metric })
}
