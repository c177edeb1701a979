//! What a metal grows, and how warm something runs, each with the doubt of what nobody reads.

use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::handbook::joints::heating::REFERENCE;
use crate::proof::{At, Cause, Refusal, Worked};
use crate::quantity::{Celsius, Expansion};

/// The expansion of a metal, with the doubt of one that is only known by name.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the metal or the doubt.
pub(in crate::operations) fn expansion(metal: &Material, cause: Cause) -> Result<Worked<Expansion>, Refusal> {
    Ok(metal.expansion()?.with_doubt(cause, constant::<Expansion>("expansion-doubt")?.number()))
}

/// How warm something runs: nobody can read it while it does.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the doubt.
pub(in crate::operations) fn runs_at(at: &At<Celsius>, cause: Cause) -> Result<Worked<Celsius>, Refusal> {
    Ok(Worked::from(at).with_doubt(cause, constant::<Celsius>("temperature-running-doubt")?.number()))
}

/// The coldest that something stands in: as typed, else frost; none where that is no colder than sizes are read at.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the frost.
pub(in crate::operations) fn coldest(typed: Option<&At<Celsius>>) -> Result<Option<Worked<Celsius>>, Refusal> {
    let at = typed.map_or_else(|| constant("joint-coldest"), |typed| Ok(typed.into()))?;
    Ok(Some(at).filter(|at: &Worked<Celsius>| at.number() < REFERENCE))
}
