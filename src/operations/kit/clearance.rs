//! The running clearance that is asked for: limits, or a fit with its nominal size.

use super::mm;
use crate::handbook::Fit;
use crate::handbook::constants::constant;
use crate::operations::Answer;
use crate::proof::{Refusal, Words, Worked};
use crate::quantity::{Mm, Quantity, Ratio, Wanted};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, de};
use std::borrow::Cow;

/// The running clearance wanted: limits, or a fit.
#[derive(Clone, Debug, PartialEq)]
pub enum Clearance {
    /// `1 .. 2 thou`.
    Limits(Wanted<Mm>),
    /// `H7/f7`, `16 H7`.
    Fit(Fit),
}

impl<'de> Deserialize<'de> for Clearance {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        let limits = match text.parse::<Wanted<Mm>>() {
            Ok(limits) => limits,
            Err(misread) => {
                return match text.parse::<Fit>() {
                    Ok(fit) if fit.hole.is_some() => Ok(Self::Fit(fit)),
                    Ok(_) => Err(de::Error::custom("a fit for a bush names its hole, as in `H7/f7`")),
                    Err(_) => Err(de::Error::custom(format!("{misread}; or a fit such as `H7/f7`"))),
                };
            }
        };
        if limits.high.number() <= limits.low.number() {
            return Err(de::Error::custom("a clearance has two limits, as in `1 to 2 thou`"));
        }
        Ok(Self::Limits(limits))
    }
}

impl JsonSchema for Clearance {
    fn schema_name() -> Cow<'static, str> {
        "Clearance".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "description": "limits of the running clearance, or a fit", "examples": ["1 to 2 thou", "0.025 to 0.050 mm", "16 H7/f7"] })
    }
}

/// A running clearance wider than this, mm, is a slip of size or unit, or a worn shaft.
///
/// # Errors
/// [`Refusal::NoRow`] where the table of constants lacks it.
pub(in crate::operations) fn meant_most(shaft: &Worked<Mm>) -> Result<f64, Refusal> {
    let share = constant::<Ratio>("clearance-meant-share")?.number();
    Ok(share * shaft.number() + constant::<Mm>("clearance-meant-most")?.number())
}

/// Why a fit without a size is none here.
pub(in crate::operations) fn fit_without_size() -> Refusal {
    Refusal::NotGiven { what: "the nominal size of the fit", key: "clearance: 16 H7/f7" }
}

/// The nominal size of a fit: as typed, else the whole millimetre that the shaft is near.
///
/// # Errors
/// [`Refusal::NotGiven`] where it is near none.
pub(in crate::operations) fn nominal_of_fit(
    fit: &Fit,
    shaft: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<f64, Refusal> {
    if let Some(nominal) = fit.nominal {
        return Ok(nominal);
    }
    let whole = near_whole(shaft.number()).ok_or_else(fit_without_size)?;
    answer.assume_words(Words::of("nominal-of-fit").with("value", mm(whole)));
    Ok(whole)
}

/// Whether a size is near enough to that of a fit to be meant by it.
pub(in crate::operations) fn is_near(nominal: f64, size: f64) -> bool {
    constant::<Mm>("fit-size-near").is_ok_and(|near| (nominal - size).abs() <= near.number())
}

/// The whole millimetre that a size is near enough to name a fit by.
pub(in crate::operations) fn near_whole(size: f64) -> Option<f64> {
    let near = constant::<Mm>("fit-nominal-near").ok()?.number();
    let whole = size.round();
    ((whole - size).abs() <= near && whole > 0.0).then_some(whole)
}
