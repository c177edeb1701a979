//! The drill and the tap themselves: does the one reach to the bottom of its hole, and does the other stand its torque?

use super::case::Case;
use super::names::{DEPTH_TO_POINT, TAP_BREAKS_AT, TAP_TORQUE, TIP_BEHIND};
use crate::handbook::cutting::{drill_column, drilling};
use crate::operations::hole_making::tapping;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Mm, NewtonMetre, Quantity};

impl Case<'_> {
    /// Whether a short-series drill, which nobody measured, has flutes as long as its hole is deep.
    pub(super) fn drill_reaches(&self, bench: &Bench, answer: &mut Answer) {
        const ID: &str = "drill-reaches";
        let deep = |key: &str| answer.value(key).map(|value| value.number + value.plus_minus);
        let behind = deep(TIP_BEHIND.key).map(|behind| behind + self.wall.number());
        let diameter = self.hole.drill.number();
        let depth = behind.or_else(|| deep(DEPTH_TO_POINT.key));
        let is_shallow =
            depth.is_some_and(|depth| drilling::deep_hole(depth, diameter).is_ok_and(|deep| deep.is_none()));
        let known = depth.zip(drill_column::drill_length(diameter).ok());
        // Of a size that the table has not, any drill has flutes for a hole that is not deep.
        if known.is_none() && is_shallow {
            return answer.does_not_apply(&[ID]);
        }
        match known.filter(|(deep, _)| drilling::deep_hole(*deep, diameter).is_ok()) {
            Some((deep, length)) => {
                let deep = Worked::assumed(Mm::new(deep), "to the tip of its point");
                let check = Check::judge(ID, &length.flutes, Keep::AtLeast, &deep, bench.guard());
                answer.check(check.at(self.asked.wall.place).not_worse_than(Verdict::Doubtful));
            }
            None => answer.not_checked(&[ID], &[]),
        }
    }

    /// The torque on the tap against what breaks its core; nobody says that it is sharp.
    pub(super) fn tap_stands_it(
        &self,
        bench: &Bench,
        sharp: &Worked<NewtonMetre>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let blunt = tapping::blunt(sharp)?;
        let breaks = answer.record(&TAP_BREAKS_AT, tapping::breaks_at(&self.hole.major_min)?);
        let check = Check::judge("tap-stands-it", &blunt, Keep::AtMost, &breaks, bench.guard());
        let check = answer.check(check.about(TAP_TORQUE.key).at(self.asked.thread.place));
        if !check.is_proven() {
            check.remedy(Words::of("taper-and-plug-first"));
        }
        Ok(())
    }
}
