//! How the casting is held under the drill, where somebody says: judged as for every drill.

use super::case::Case;
use super::keys::HoleKind;
use crate::handbook::cutting::{drill_forces, speeds};
use crate::operations::hole_making::{self, Asks};
use crate::operations::{Answer, Bench};
use crate::proof::{Refusal, Side, Worked};
use crate::quantity::{Angle, Quantity};

impl Case<'_> {
    /// The hold against the torque of the drill, which is more than that of the tap; into an old hole it grabs, and as it comes out.
    pub(super) fn held(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let drill = &self.hole.drill;
        let feed = speeds::drill_feed(drill.number())?.worst(Side::High, bench.guard());
        let angle = Worked::assumed(Angle::new(2.0 * self.hole.half_point), "the angle of its point");
        let forms = drill_forces::forms(&self.material, drill, &feed, &angle);
        let torques: Vec<_> = forms.into_iter().flatten().map(|(torque, _)| torque).collect();
        let torque = drill_forces::greatest(torques.iter());
        let grabs = self.asked.hole.value == HoleKind::Through || self.asked.opens_old_hole();
        let asks = Asks { torque: torque.as_ref(), across: drill, grabs };
        hole_making::held(bench, self.asked.hold.as_ref(), &asks, answer)
    }
}
