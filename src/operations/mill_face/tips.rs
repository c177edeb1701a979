//! Whether the cut, which pushes at the top of the work, tips it over its hold.

use super::keys::MillFace;
use super::names::{RIGHTING, THICKNESS, TIPPING};
use crate::handbook::constants::constant;
use crate::handbook::cutting::{grip, tipping as law};
use crate::operations::kit::{Tried, at_end, stood};
use crate::operations::{Answer, Bench, HeldIn, Hold, Stop};
use crate::proof::{Check, Keep, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Mm, Newton, NewtonMetre, Quantity};

const ID: &str = "tips-over";

/// How high the cut pushes over the edge that it would tip over, and what rights it; or the keys that are missing for that.
type Balance = Result<(Worked<Mm>, Worked<NewtonMetre>), &'static [&'static str]>;

impl MillFace {
    /// The force at its height, with blows and safety like the twist that a grip must stand, against what the hold rights.
    pub(super) fn tips(
        &self,
        bench: &Bench,
        hold: Option<&Hold>,
        force: &Worked<Newton>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let Some(hold) = hold else {
            answer.not_checked(&[ID], &["hold"]);
            return Ok(());
        };
        let (high, rights) = match self.balance(hold, answer)? {
            Ok(balance) => balance,
            Err(missing) => {
                answer.not_checked(&[ID], missing);
                return Ok(());
            }
        };
        // A torque acts on half of its diameter: here on the height.
        let tried = Tried {
            hold,
            held_in: hold.named(),
            used: force.at_most(force.number(), "at the factors used"),
            worst: at_end(force, Side::High),
            blows: constant("blow-factor")?,
            across: high.scaled(2.0, "twice the height"),
            guard: bench.guard(),
        };
        let tips = answer.record(&TIPPING, tried.asked()?);
        let rights = answer.record(&RIGHTING, rights);
        let check = Check::judge(ID, &rights, Keep::AtLeast, &tips, bench.guard());
        // A twist against a stop says nothing of the clamps.
        let beside = !hold.held_in.value.has_jaws() && hold.stop() != Stop::None;
        let check = if beside { check.not_better_than(Verdict::Doubtful) } else { check };
        answer.check(check.about(RIGHTING.key).at(hold.held_in.place));
        Ok(())
    }

    fn balance(&self, hold: &Hold, answer: &mut Answer) -> Result<Balance, Refusal> {
        let Some(tested) = &hold.tested else { return Ok(Err(&["hold.tested"])) };
        let (Some(high), Some(thick)) = (self.stands_up(hold, answer), answer.value(THICKNESS.key)) else {
            return Ok(Err(&["hold.grip"]));
        };
        let (high, doubt) = (high.max(hold.overhang.as_ref().map_or(0.0, |at| at.value.number())), thick.plus_minus);
        let high = Worked::assumed(Mm::new(high + doubt), "as high as it may stand over its hold");
        let (stood, friction) = (stood(tested), constant("tested-hold-friction")?);
        let (width, length) = (self.width.value.number(), self.length.value.number());
        let corner = constant::<Mm>("jaw-corner")?;
        let seat = self.seat.as_ref().map(|at| at.value.number());
        let across = seat.unwrap_or_else(|| width.min(length));
        let corners = Worked::assumed(Mm::new(length.hypot(width.max(across))), "from corner to corner");
        Ok(match hold.held_in.value {
            HeldIn::Clamps | HeldIn::Faceplate => {
                let across = match &self.seat {
                    Some(at) => at.into(),
                    None => answer.assume("seat", Worked::assumed(Mm::new(across), "as narrow as the face")),
                };
                answer.assume_words(Words::of("held-by-clamps-alone"));
                Ok((high, law::righted_by_clamps(&stood, &across, &friction, &corners)?))
            }
            HeldIn::Vice | HeldIn::AnglePlate => {
                // Clamped against an angle plate it bears as high as it stands; in a vice as deep as it is gripped.
                let deep = match (hold.held_in.value, &hold.grip) {
                    (HeldIn::Vice, Some(at)) => grip::length_that_grips(&at.into(), &corner)?,
                    (HeldIn::Vice, None) => return Ok(Err(&["hold.grip"])),
                    _ => Worked::assumed(Mm::new(high.number()), "as high as it stands against its plate"),
                };
                // By the longer side, but for one that is gripped across that.
                if hold.diameter.is_none() {
                    answer.assume_words(Words::of("gripped-across-the-narrower"));
                }
                let (short, long) = (width.min(length), width.max(length));
                let lies_across = hold.diameter.as_ref().is_some_and(|at| at.value.number() > short);
                let side = if lies_across { short } else { long };
                let along = Worked::assumed(Mm::new(side), "the side that is gripped");
                Ok((high, law::righted_between_sides(&stood, &deep, &along, &friction, &corners)?))
            }
            HeldIn::Jaws | HeldIn::SoftJaws | HeldIn::FourJaw => {
                let Some(deep) = &hold.grip else { return Ok(Err(&["hold.grip"])) };
                let Some(gripped) = &hold.diameter else { return Ok(Err(&["hold.diameter"])) };
                let four = hold.held_in.value == HeldIn::FourJaw;
                let pressure = constant(if four { "grip-tilt-four-jaws" } else { "grip-tilt-three-jaws" })?;
                let left = constant("grip-friction-tilt")?;
                let arm = grip::arm_of_the_cut(&high, &corner, &deep.into())?;
                let grips = grip::length_that_grips(&deep.into(), &corner)?;
                Ok((arm, law::righted_by_jaws(&stood, &pressure, &grips, &left, &friction, &gripped.into())?))
            }
            HeldIn::Mandrel | HeldIn::Collet | HeldIn::PressSupport => Err(&[]),
        })
    }
}
