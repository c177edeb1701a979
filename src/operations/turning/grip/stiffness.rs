//! How square it can come out: as true as it was set, and no further than it gives way under the cut.

use super::super::DEFLECTION;
use super::{Held, at_end};
use crate::handbook::constants::row;
use crate::handbook::cutting::deflection;
use crate::operations::Answer;
use crate::proof::{Check, Keep, Mark, Refusal, Side, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Mm4, SpringRate};

/// A face can be no squarer than the part was trued.
pub(super) fn square(held: &Held, answer: &mut Answer) {
    match (&held.square_within, &held.true_within) {
        (Some(limit), Some(within)) => {
            answer.check(Check::judge("square", within, Keep::AtMost, limit, held.guard));
        }
        (Some(_), None) => square_unknown(true, answer),
        (limit, within) => {
            let mut missing = Vec::new();
            missing.extend(limit.is_none().then_some("square-within"));
            missing.extend(within.is_none().then_some("hold.true-within"));
            answer.not_checked(&["square"], &missing);
        }
    }
}

/// Nobody says how it is held.
pub(super) fn square_unknown(wanted: bool, answer: &mut Answer) {
    // Who says how square it must be asks: not judged, that is in doubt.
    match wanted {
        true => {
            answer.check(Check::of_kind("square", Verdict::Doubtful)).remedy(Words::of("say-how-true"));
        }
        false => answer.not_checked(&["square"], &["square-within", "hold.true-within"]),
    }
}

/// Of what is gripped.
pub(super) fn second_moment(held: &Held, gripped: &Worked<Mm>) -> Result<Worked<Mm4>, Refusal> {
    let bore = held.hold.inside.as_ref().map_or_else(|| held.inside.clone(), Worked::from);
    match (held.hold.grips_inside(), bore.number() > 0.0 && bore.number() < gripped.number()) {
        (true, _) => deflection::second_moment_tube(&held.outside, gripped),
        (false, true) => deflection::second_moment_tube(gripped, &bore),
        (false, false) => deflection::second_moment_round(gripped),
    }
}

/// How stiff the part stands at its free end, as thick all along as where it is thinnest: gripped, or cut. None where nobody says
/// how it is held.
pub(super) fn of_the_part(held: &Held) -> Result<Option<Worked<SpringRate>>, Refusal> {
    let (Some(overhang), Some(gripped)) = (&held.overhang, held.gripped()) else { return Ok(None) };
    let of_grip = second_moment(held, &gripped)?;
    let is_tube = held.bored.number() > 0.0 && held.bored.number() < held.thinnest.number();
    let of_rest = match is_tube {
        true => deflection::second_moment_tube(&held.thinnest, &held.bored)?,
        false => deflection::second_moment_round(&held.thinnest)?,
    };
    let weakest = if of_grip.number() < of_rest.number() { of_grip } else { of_rest };
    let out = overhang.at_least(row("stub-share")?.value * gripped.number(), "a stub gives way in shear");
    let modulus = held.material.modulus()?;
    let bends = deflection::stiffness_cantilever(&modulus, &weakest, &out)?;
    if !is_tube {
        return Ok(Some(bends));
    }
    // A tube gives way under the tool before it bends as a whole.
    let geometry = || Source::fixed("geometry", Mark::Derived);
    let wall = Worked::sum(&[(0.5, &held.thinnest), (-0.5, &held.bored)], 0.0, "half of outside less bore", geometry());
    let middle = Worked::sum(&[(0.25, &held.thinnest), (0.25, &held.bored)], 0.0, "middle of the wall", geometry());
    let dents = deflection::stiffness_tube_end(&modulus, &wall, &middle)?;
    deflection::stiffness_in_row(&bends, &dents).map(Some)
}

/// How far the part that stands out gives way under the cut.
pub(super) fn gives_way(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let (Some(overhang), Some(gripped)) = (&held.overhang, held.gripped()) else {
        answer.not_checked(&["gives-way"], &held.lacking(&["hold.overhang", "hold.diameter"]));
        return Ok(());
    };
    let moment = held.kept.moment_at_the_jaws.or(|| second_moment(held, &gripped))?;
    let modulus = held.material.modulus()?;
    let used = held.cut.force.nominal("at the factors used; the worst end is judged on its own");
    let bends = deflection::deflection_cantilever(&used, overhang, &modulus, &moment)?;
    answer.record(&DEFLECTION, bends);
    let Some(limit) = &held.square_within else {
        answer.not_checked(&["gives-way"], &["square-within"]);
        return Ok(());
    };
    let worst = deflection::deflection_cantilever(&at_end(held.cut.force, Side::High), overhang, &modulus, &moment)?;
    answer.check(Check::judge("gives-way", &worst, Keep::AtMost, limit, held.guard).about(DEFLECTION.key));
    Ok(())
}
