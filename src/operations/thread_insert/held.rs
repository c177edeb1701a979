//! What the drill asks of the machine, and of how the casting is held under it: judged as for every drill.

use super::case::Case;
use super::keys::HoleKind;
use crate::handbook::cutting::speeds;
use crate::operations::hole_making::drilled::Effort;
use crate::operations::hole_making::{self, Asks};
use crate::operations::{Answer, Bench};
use crate::proof::{Refusal, Worked};
use crate::quantity::{Angle, Quantity};

impl Case<'_> {
    /// Torque and thrust of the drill, as in solid metal, which is more than an old hole asks.
    pub(super) fn effort(&self, bench: &Bench, answer: &mut Answer) -> Result<Effort, Refusal> {
        let drill = &self.hole.drill;
        let feed = speeds::drill_feed(drill.number())?;
        let angle = Worked::assumed(Angle::new(2.0 * self.hole.half_point), "the angle of its point");
        Effort::of(bench, (&self.material, drill, &angle), &feed, answer)
    }

    /// The hold against the torque of the drill, which is more than that of the tap; into an old hole it grabs, and as it comes out.
    pub(super) fn held(&self, bench: &Bench, effort: &Effort, answer: &mut Answer) -> Result<(), Refusal> {
        let grabs = self.asked.hole.value == HoleKind::Through || self.asked.opens_old_hole();
        let asks = Asks { torque: effort.torque.as_ref(), across: &self.hole.drill, grabs };
        hole_making::held(bench, self.asked.hold.as_ref(), &asks, answer)
    }
}
