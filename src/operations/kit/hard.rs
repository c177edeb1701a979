//! How hard a part is against the limits of the table.

use crate::handbook::Material;
use crate::handbook::constants::row;
use crate::handbook::materials::groups::Kind;
use crate::handbook::materials::hardness::{hardest_converted, on_scale};
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

/// Whether nobody says how hard a part is whose metal is mostly used hardened.
pub(crate) fn is_untried(material: &Material, hardness: Option<Hardness>) -> bool {
    hardness.is_none() && material.is_used_hardened()
}

/// A steel that was hardened is cut by the rows of the hard groups, whatever its name.
///
/// # Errors
/// [`Refusal::NoRow`] where a table lacks a limit or a group.
pub fn cuts_as(material: &Material, hardness: Option<Hardness>) -> Result<Material, Refusal> {
    let hard = at_least(hardness, "hard-group-hardness")?;
    if material.kind() != Kind::Steel || !hard {
        return Ok(material.clone());
    }
    let over = at_least(hardness, "hss-hardest")?;
    let id = if over { "case-hard-60" } else { "hard-50" };
    let group = Material::all().find(|other| other.id() == id);
    group.ok_or_else(|| Refusal::NoRow { table: "material", wanted: id.into() })
}

/// A hardness beside a limit of the table, which stands in HRC: the limit is turned into the scale that was read.
fn against(hardness: Option<Hardness>, limit: &'static str) -> Result<Option<(f64, f64)>, Refusal> {
    let Some(hardness) = hardness else { return Ok(None) };
    let limit = Hardness { number: row(limit)?.value, scale: Scale::Hrc };
    let limit = match hardness.scale {
        Scale::Hrc => limit.number,
        // A limit beyond the end of the conversion is held at that end: what is harder than it may be over the limit.
        scale => match on_scale(limit, scale, Kind::HardSteel) {
            Ok(limit) => limit.number(),
            Err(refused) => hardest_converted(scale).ok_or(refused)?,
        },
    };
    Ok(Some((hardness.number, limit)))
}
