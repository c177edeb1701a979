//! The torque on a tap, and what breaks it.

use crate::handbook::constants::constant;
use crate::handbook::threads::{tap_strength, tapping};
use crate::handbook::{Lead, Material};
use crate::proof::{Refusal, Side, Worked};
use crate::quantity::{Angle, Mm, NewtonMetre};

/// A tap in its hole.
pub(in crate::operations) struct InHole<'a> {
    /// What it cuts.
    pub material: &'a Material,
    /// Half the flank angle of the form.
    pub half: Worked<Angle>,
    /// Pitch.
    pub pitch: Worked<Mm>,
    /// Whether the thread is of a fine series.
    pub fine: bool,
    /// The lead of the tap.
    pub lead: Lead,
    /// Its outside, and the hole that it finds.
    pub across: [&'a Worked<Mm>; 2],
}

/// The torque by both ways that the books have.
pub(in crate::operations) struct OnTap {
    /// By the metal that is cut.
    pub long: Worked<NewtonMetre>,
    /// By pitch and diameter alone.
    pub short: Worked<NewtonMetre>,
    /// The books disagree: from the least of both to the greatest.
    pub sharp: Worked<NewtonMetre>,
}

/// The torque on a sharp tap; none where the book has no force for the metal.
///
/// # Errors
/// Outside the range of a formula.
pub(in crate::operations) fn on_the_tap(tap: &InHole) -> Result<Option<OnTap>, Refusal> {
    let force = tapping::specific_force(tap.material);
    let factor = tapping::hand_tap_factor(tap.lead, tap.material.kind(), tap.fine);
    let (Ok(force), Ok(factor)) = (force, factor) else { return Ok(None) };
    let [major, hole] = tap.across;
    let long: Worked<NewtonMetre> = tapping::tap_torque(&tap.half, &force, &factor, major, hole)?;
    let short: Worked<NewtonMetre> = tapping::tap_torque_short(&force, &tap.pitch, major)?;
    let (low, high) = (long.band_end(Side::Low), long.band_end(Side::High));
    let sharp = long.clone().with_band(low.min(short.number()), high.max(short.number()));
    Ok(Some(OnTap { long, short, sharp }))
}

/// What the core of a tap breaks at.
///
/// # Errors
/// Where the table of constants lacks a row.
pub(in crate::operations) fn breaks_at(major: &Worked<Mm>) -> Result<Worked<NewtonMetre>, Refusal> {
    let core = tap_strength::tap_core(major, &constant("tap-core-share")?)?;
    tap_strength::core_breaks_at(&core, &constant("tap-shear-strength")?)
}

/// The torque on a tap that was used before.
///
/// # Errors
/// Where the table of constants lacks a row.
pub(in crate::operations) fn blunt(sharp: &Worked<NewtonMetre>) -> Result<Worked<NewtonMetre>, Refusal> {
    tap_strength::blunt_torque(sharp, &constant("tap-worn-factor")?)
}
