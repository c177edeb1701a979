//! What the cut bends: a slender part, or one turned down thin, gives at its root before the jaws let go.

use super::super::Way;
use super::{Held, at_end, ring, stiffness};
use crate::handbook::cutting::deflection;
use crate::operations::Answer;
use crate::proof::{Check, Keep, Refusal, Side, Worked};
use crate::quantity::{Mm, Mm4};

/// The check.
pub(super) const ID: &str = "work-stands-it";

/// The bending stress with the cut at the free end: at the jaws, as thick as it is gripped; and where it was turned down, as thick as the cut
/// before the last leaves it.
pub(super) fn work(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let (Some(overhang), Some(gripped)) = (&held.overhang, held.gripped()) else {
        answer.not_checked(&[ID], &held.lacking(&["hold.overhang", "hold.diameter"]));
        return Ok(());
    };
    let at_the_jaws = held.kept.moment_at_the_jaws.or(|| stiffness::second_moment(held, &gripped))?;
    let across = if held.hold.grips_inside() { &held.outside } else { &gripped };
    judge(held, overhang, (across, &at_the_jaws), answer)?;
    let (arm, thick) = match held.way {
        Way::Along(length) => {
            let arm = if length.number() < overhang.number() { length } else { overhang };
            (arm, held.thinnest.shifted(2.0 * held.cut.last, "what the last cut takes off it still stands"))
        }
        _ => (overhang, held.thinnest.clone()),
    };
    let moment = match held.bored.number() > 0.0 && held.bored.number() < thick.number() {
        true => deflection::second_moment_tube(&thick, &held.bored)?,
        false => deflection::second_moment_round(&thick)?,
    };
    judge(held, arm, (&thick, &moment), answer)
}

/// A section of it, so far from the cut.
fn judge(
    held: &Held,
    arm: &Worked<Mm>,
    (across, moment): (&Worked<Mm>, &Worked<Mm4>),
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let stress = deflection::bending_stress(&at_end(held.cut.force, Side::High), arm, across, moment)?;
    let (proven, doubtful) = held.kept.stands.or(|| ring::limits(held))?;
    answer.check(Check::judge_two(ID, (&stress, &proven), Keep::AtMost, (&stress, &doubtful), held.guard));
    Ok(())
}
