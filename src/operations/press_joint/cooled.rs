//! How long a part takes until it is as cold, or as cool, as what it lies in: the thicker the longer.

use super::metals::Metals;
use super::names::joint::{HOUSING_BORE, HOUSING_LENGTH, HOUSING_OUTSIDE};
use crate::handbook::constants::row;
use crate::handbook::materials::groups::Kind;
use crate::operations::{Answer, Wait};
use crate::proof::Refusal;

/// The usual time, longer for what is thick: so many minutes for each millimetre of its volume over all of its surface, min. Asked of its
/// outside, bore and length.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks a row.
pub(super) fn through(usual: f64, slow: &'static str, [outside, bore, length]: [f64; 3]) -> Result<f64, Refusal> {
    let wall = ((outside - bore) / 2.0).max(0.0);
    let depth = if length > 0.0 { wall * length / (2.0 * (length + wall)) } else { 0.0 };
    let asked = depth * row(slow)?.value;
    let step = row("soak-step")?.value;
    Ok(usual.max((asked / step - 1e-9).ceil() * step))
}

/// How long a housing that was warm, or had a cold bush put in, lies until its bore is read.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the wait.
pub(super) fn cools(metals: &Metals, answer: &Answer) -> Result<Wait, Refusal> {
    let (task, slow) = match metals.housing.kind() {
        Kind::Aluminium | Kind::Magnesium => ("cool, aluminium", "cool-minutes-per-mm-light"),
        _ => ("cool, iron barrel", "cool-minutes-per-mm-heavy"),
    };
    let wait = Wait::of(task)?;
    let number = |key: &str| answer.value(key).map_or(0.0, |value| value.number);
    let sizes = [HOUSING_OUTSIDE.key, HOUSING_BORE.key, HOUSING_LENGTH.key].map(number);
    Ok(Wait { minutes: through(wait.minutes, slow, sizes)?, ..wait })
}
