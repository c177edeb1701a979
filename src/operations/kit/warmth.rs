//! What a metal grows, and how warm something runs, each with the doubt of what nobody reads.

use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::handbook::joints::heating::REFERENCE;
use crate::proof::{At, Cause, Refusal, Worked};
use crate::quantity::{Celsius, Expansion, Quantity, figure};
use crate::reading::Problem;

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

/// What is no cold at all where the coldest was asked for: it would switch off what frost does.
pub(in crate::operations) fn no_frost(
    coldest: Option<&At<Celsius>>,
    runs: &[Option<&At<Celsius>>],
    all: &mut Vec<Problem>,
) {
    let Some(at) = coldest else { return };
    let typed = at.value.number();
    if typed > REFERENCE {
        let says = format!(
            "the coldest that it stands in is over {} degC, at which sizes are read: is it degF? Left out, a frost is assumed",
            figure(REFERENCE)
        );
        all.push(Problem::new(at.place, says));
    } else if runs.iter().flatten().any(|runs| runs.value.number() < typed) {
        all.push(Problem::new(at.place, "the coldest that it stands in is warmer than it runs"));
    }
}

/// The coldest that something stands in: as typed, else frost; none where that is no colder than sizes are read at.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the frost.
pub(in crate::operations) fn coldest(typed: Option<&At<Celsius>>) -> Result<Option<Worked<Celsius>>, Refusal> {
    let at = typed.map_or_else(|| constant("joint-coldest"), |typed| Ok(typed.into()))?;
    Ok(Some(at).filter(|at: &Worked<Celsius>| at.number() < REFERENCE))
}
