//! What cannot be a real part on a lathe, each at its place.

use super::Asked;
use crate::job::PartFacts;
use crate::operations::Hold;
use crate::operations::kit::above_zero;
use crate::proof::Place;
use crate::quantity::{Quantity, figure};
use crate::reading::Problem;

/// Lengths taken with a rule need not agree closer than this, mm.
const LENGTHS_AGREE: f64 = 1.0;

/// What any cut must know: the metal, and the mass where the part lies off its centre.
pub(in crate::operations) fn lathe_problems(asked: &Asked, part: &PartFacts, place: Place, all: &mut Vec<Problem>) {
    above_zero("`finish`", asked.finish, all);
    above_zero("`mass`", asked.mass, all);
    above_zero("`thickness-at-rim`", asked.thickness_at_rim, all);
    if let (Some(off), None) = (asked.off_centre, asked.mass) {
        all.push(Problem::new(off.place, "`off-centre` needs the `mass` of the part beside it"));
    }
    if part.material.is_none() {
        all.push(Problem::new(place, "the metal is not known: give `material` on the part"));
    }
}

/// Grip and overhang that are longer than the part, and what a hold cannot be.
pub(in crate::operations) fn hold_problems(hold: Option<&Hold>, length: f64, all: &mut Vec<Problem>) {
    let Some(hold) = hold else { return };
    too_long(hold, length, all);
    hold.problems(Some(length), all);
}

/// Grip and overhang share the length of the part.
pub(in crate::operations) fn too_long(hold: &Hold, length: f64, all: &mut Vec<Problem>) {
    if let (Some(grip), Some(out)) = (&hold.grip, &hold.overhang)
        && grip.value.number() + out.value.number() - LENGTHS_AGREE > length
    {
        let says = format!("`grip` and `overhang` together are longer than the part ({} mm)", figure(length));
        all.push(Problem::new(out.place, says));
    }
}
