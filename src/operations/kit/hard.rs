//! How hard a part is against the limits of the table.

use crate::handbook::constants::row;
use crate::handbook::materials::groups::Kind;
use crate::handbook::materials::hardness::on_scale;
use crate::proof::Refusal;
use crate::quantity::{Hardness, Scale};

/// Whether a hardness reaches a limit of the table.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the limit.
pub fn at_least(hardness: Option<Hardness>, limit: &'static str) -> Result<bool, Refusal> {
    Ok(against(hardness, limit)?.is_some_and(|(number, limit)| number >= limit))
}

/// Whether a hardness lies over a limit of the table.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the limit.
pub fn over(hardness: Option<Hardness>, limit: &'static str) -> Result<bool, Refusal> {
    Ok(against(hardness, limit)?.is_some_and(|(number, limit)| number > limit))
}

/// A hardness beside a limit of the table, which stands in HRC: the limit is turned into the scale that was read.
fn against(hardness: Option<Hardness>, limit: &'static str) -> Result<Option<(f64, f64)>, Refusal> {
    let Some(hardness) = hardness else { return Ok(None) };
    let limit = Hardness { number: row(limit)?.value, scale: Scale::Hrc };
    let limit = match hardness.scale {
        Scale::Hrc => limit.number,
        scale => on_scale(limit, scale, Kind::HardSteel)?.number(),
    };
    Ok(Some((hardness.number, limit)))
}
