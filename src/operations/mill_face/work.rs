//! The face from end to end.

use super::keys::MillFace;
use crate::handbook::cutting::cutting_force;
use crate::operations::hole_making::{self, Asks};
use crate::operations::kit::hard;
use crate::operations::{Answer, Bench};
use crate::proof::{Fact, Mark, Refusal, Source, Words, Worked};
use crate::quantity::{Mm, Quantity};
use crate::shop::Machine;

impl MillFace {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let mill = self.mill(bench, answer);
        let metal = hole_making::metal(bench, answer)?;
        let cuts_as = hard::cuts_as(&metal, bench.part.hardness.as_ref().map(|at| at.value))?;
        let hardness = bench.part.hardness.as_ref().map(|at| at.value.to_string());
        answer.fact("hardness", hardness.map_or(Fact::named("not-known"), Fact::from));
        if cuts_as.id() != metal.id() {
            answer.assume_words(Words::of("hard-group").with("group", cuts_as.row().name.clone()));
        }
        let machine = mill.and_then(Machine::drills);
        let cutter = self.cutter_of(bench, &metal, answer)?;
        let dial = Self::depth_dial(machine, answer)?;
        let removed = self.left(bench, dial.division, answer)?;
        let depths = self.depths(bench, machine, (&removed, dial.division), answer)?;
        self.thin_as_held(bench, answer)?;
        self.by_tram(bench, &cutter, answer)?;
        let run = self.runs(bench, &cuts_as, (&cutter, &depths), machine, answer)?;
        self.stiff(bench, &cutter, &run.force, answer)?;
        self.sways(bench, &metal, &run.force, answer)?;
        // The force pushes at the furthest corner of the face: the grip stands the torque that it has there about the middle.
        let corners = self.length.value.number().hypot(self.width.value.number());
        let says = vec!["from corner to corner of the face".into()];
        let corners = Worked::method(Mm::new(corners), says, Source::fixed("geometry", Mark::Derived));
        let across = if corners.number() > cutter.across.number() { corners } else { cutter.across.clone() };
        let torque = cutting_force::spindle_torque(&run.force, &across)?;
        let asks = Asks { torque: Some(&torque), across: &across, grabs: true };
        let hold = self.as_it_stands(answer);
        hole_making::held(bench, hold.as_ref(), &asks, answer)?;
        self.tips(bench, hold.as_ref(), &run.force, answer)?;
        self.set_up_of(bench, (&depths, &run, &dial), mill, answer)
    }
}
