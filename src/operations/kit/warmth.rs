//! What a metal grows, and how warm something runs, each with the doubt of what nobody reads.

use crate::handbook::Material;
use crate::handbook::constants::constant;
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
