//! What cannot be a real part on a lathe, each at its place.

use super::Asked;
use crate::job::PartFacts;
use crate::operations::kit::above_zero;
use crate::operations::{HeldIn, Hold};
use crate::proof::{At, Place};
use crate::quantity::{Mm, Quantity, figure};
use crate::reading::Problem;

/// Lengths taken with a rule need not agree closer than this, mm.
pub(in crate::operations) const LENGTHS_AGREE: f64 = 1.0;

/// What any cut must know: the metal, and the mass where the part lies off its centre.
pub(in crate::operations) fn lathe_problems(asked: &Asked, part: &PartFacts, place: Place, all: &mut Vec<Problem>) {
    above_zero("`finish`", asked.finish, all);
    above_zero("`mass`", asked.mass, all);
    above_zero("`thickness-at-rim`", asked.thickness_at_rim, all);
    if let (Some(off), None) = (asked.off_centre, asked.mass) {
        all.push(Problem::new(off.place, "`off-centre` needs the `mass` of the part beside it"));
    }
    if let Some(vice) = asked.hold.map(|hold| &hold.held_in).filter(|held_in| held_in.value == HeldIn::Vice) {
        let says = "no vice turns with a spindle: on a lathe the part is held in jaws, a collet, on a mandrel or bolted to the faceplate";
        all.push(Problem::new(vice.place, says));
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

/// The bore of a part that is gripped, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::operations) enum Bored {
    /// It goes through the part as far as anybody says; a hub has a bore of its own.
    Part(f64),
    /// It goes through the very length that is gripped.
    Grip(f64),
}

/// A bore that goes through leaves nothing under it to grip from outside; gripped inside, the part is larger than the jaws.
pub(in crate::operations) fn nothing_to_grip(hold: &Hold, outside: f64, bored: Option<Bored>, all: &mut Vec<Problem>) {
    let Some(gripped) = &hold.diameter else { return };
    let size = gripped.value.number();
    if hold.grips_inside() && size >= outside {
        all.push(Problem::new(gripped.place, "gripped inside: `diameter` is that of the bore, under `outside`"));
    }
    if hold.fills_the_bore() {
        return;
    }
    match bored {
        Some(Bored::Part(bore)) if size <= bore && hold.inside.is_none() => {
            let bore = figure(bore);
            let says = format!(
                "gripped at or under the bore ({bore} mm): of a hub give its own bore as `inside` of the hold, 0 mm where it is solid"
            );
            all.push(Problem::new(gripped.place, says));
        }
        Some(Bored::Grip(bore)) if size <= bore => {
            let says = format!(
                "gripped outside on a diameter not above the bore that goes through there ({} mm)",
                figure(bore)
            );
            all.push(Problem::new(gripped.place, says));
        }
        _ => {}
    }
}

/// A mandrel stands in the bore of the part, and is as large as that.
pub(in crate::operations) fn mandrel_stands(hold: Option<&Hold>, bore: Option<&At<Mm>>, all: &mut Vec<Problem>) {
    let Some(hold) = hold.filter(|hold| hold.held_in.value == HeldIn::Mandrel) else { return };
    let bore = bore.map_or(0.0, |bore| bore.value.number());
    if bore <= 0.0 {
        let says = "a mandrel stands in a bore, and the part has none: give its `inside`";
        all.push(Problem::new(hold.held_in.place, says));
    } else if let Some(gripped) = hold.diameter.as_ref().filter(|at| (at.value.number() - bore).abs() > LENGTHS_AGREE) {
        let says = format!("a mandrel is as large as the bore that it stands in ({} mm)", figure(bore));
        all.push(Problem::of_sizes(gripped.place, says));
    }
}

/// Grip and overhang share the length of the part.
pub(in crate::operations) fn too_long(hold: &Hold, length: f64, all: &mut Vec<Problem>) {
    if let (Some(grip), Some(out)) = (&hold.grip, &hold.overhang)
        && grip.value.number() + out.value.number() - LENGTHS_AGREE > length
    {
        let says = format!("`grip` and `overhang` together are longer than the part ({} mm)", figure(length));
        all.push(Problem::of_sizes(out.place, says));
    }
}
