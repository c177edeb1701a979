//! Spindle steps for drill and tap, torque on the tap.

use super::case::Case;
use super::names::{DRILL_SPEED, DRILL_SURFACE, TAP_SPEED, TAP_TORQUE};
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::{ToolMaterial, constants::constant};
use crate::operations::hole_making::drill_step;
use crate::operations::hole_making::tapping::{InHole, on_the_tap};
use crate::operations::spindle::{Begins, slow_enough, speed_habit, step_at_or_below};
use crate::operations::{Answer, Bench};
use crate::proof::{Refusal, Words, Worked};
use crate::quantity::{Angle, NewtonMetre, Quantity, Ratio, RevPerMin};
use crate::shop::Machine;

impl Case<'_> {
    pub(super) fn drill_speed(
        &self,
        bench: &Bench,
        (machine, torque): (Option<&Machine>, Option<&Worked<NewtonMetre>>),
        answer: &mut Answer,
    ) -> Result<Option<Worked<RevPerMin>>, Refusal> {
        let opening = match self.asked.opens_old_hole() {
            true => constant("speed-factor-opening-an-old-hole")?,
            false => Worked::exact(Ratio::new(1.0), crate::proof::Origin::Assumed("no factor".into())),
        };
        let begins = Begins::of(&self.material, (Work::Drill, self.hole.drill_material), opening)?;
        let step = drill_step(bench, machine, &begins, (&self.hole.drill, torque), answer)?;
        let Some(step) = step else { return Ok(None) };
        let step = answer.record(&DRILL_SPEED, step);
        let real = speeds::surface_speed(&step, &self.hole.drill)?;
        answer.record(&DRILL_SURFACE, real);
        Ok(Some(step))
    }

    pub(super) fn tap_figures(
        &self,
        bench: &Bench,
        machine: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let form = self.asked.thread.value.form();
        let in_hole = InHole {
            material: &self.material,
            half: Worked::assumed(Angle::new(form.half_angle()), "half the flank angle of the form"),
            pitch: self.pitch.clone(),
            fine: self.asked.thread.value.row().series.is_fine(),
            lead: self.hole.lead,
            across: [&self.hole.major_min, &self.hole.drill],
        };
        match on_the_tap(&in_hole)? {
            Some(on_tap) => {
                answer.record(&TAP_TORQUE, on_tap.long);
                self.tap_stands_it(bench, &on_tap.sharp, answer)?;
            }
            None => {
                answer.assume_words(Words::of("no-tap-torque"));
                answer.not_checked(&["tap-stands-it"], &["material"]);
            }
        }
        let by_machine = speeds::start_speed(&self.material, Work::Tap, ToolMaterial::Hss);
        if let (Ok(start), Some(machine)) = (by_machine, machine.and_then(Machine::drills)) {
            let no_factor = Worked::exact(Ratio::new(1.0), crate::proof::Origin::Assumed("no factor".into()));
            let wanted = speeds::speed_by_factors(&start, &no_factor, &speed_habit(bench))?;
            let revs = speeds::spindle_speed(&wanted, &self.hole.major_min)?;
            let step = step_at_or_below(machine, &revs, "tap-too-fast", answer);
            slow_enough(&step, &revs, "tap-too-fast", bench, answer);
            answer.record(&TAP_SPEED, step);
        } else {
            answer.no_shop(&["tap-too-fast"]);
        }
        Ok(())
    }
}
