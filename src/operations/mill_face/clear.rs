//! Whether the cutter, which runs over the whole face, clears what holds the work.

use super::keys::MillFace;
use super::names::CLEAR;
use crate::handbook::constants::constant;
use crate::operations::{Answer, Bench, Clamped, HeldIn};
use crate::proof::{Check, Keep, Mark, Refusal, Source, Verdict, Worked};
use crate::quantity::{Mm, Quantity};

const ID: &str = "clear-of-clamps";

impl MillFace {
    /// In a vice or in jaws the face that is left stands over them; what is clamped down has its clamps below the face.
    pub(super) fn clears_its_hold(
        &self,
        bench: &Bench,
        [thickness, removed]: [&Worked<Mm>; 2],
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let Some(hold) = &self.hold else {
            answer.not_checked(&[ID], &["hold"]);
            return Ok(());
        };
        if hold.held_in.value != HeldIn::Vice && !hold.held_in.value.has_jaws() {
            match &hold.clamped {
                Some(at) => {
                    let meets = at.value == Clamped::OnTheFace;
                    let verdict = if meets { Verdict::Fails } else { Verdict::Proven };
                    answer.check(Check::of_kind(ID, verdict).at(at.place));
                }
                None => answer.not_checked(&[ID], &["hold.clamped"]),
            }
            return Ok(());
        }
        let Some(grip) = &hold.grip else {
            answer.not_checked(&[ID], &["hold.grip"]);
            return Ok(());
        };
        let source = Source::fixed("geometry", Mark::Derived);
        let gripped: Worked<Mm> = grip.into();
        let says = "what stands over the jaws, less what is cut off it";
        let clear = Worked::sum(&[(1.0, thickness), (-1.0, &gripped), (-1.0, removed)], 0.0, says, source);
        // Whoever measured how far it stands up knows better where that is less.
        let typed = hold.overhang.as_ref().map(|at| at.value.number() - removed.number());
        let clear = match typed {
            Some(typed) => clear.at_most(typed, "as it was measured to stand up"),
            None => clear,
        };
        let clear = answer.record(&CLEAR, clear);
        let (least, fails) = (constant::<Mm>("tool-clear-least")?, constant::<Mm>("tool-clear-doubtful")?);
        let check = Check::judge_two(ID, (&clear, &least), Keep::AtLeast, (&clear, &fails), bench.guard());
        answer.check(check.about(CLEAR.key).at(grip.place));
        Ok(())
    }
}
