//! What cannot be a real insert, each at its place.

use super::keys::ThreadInsert;
use crate::job::PartFacts;
use crate::operations::hole_making::read_at;
use crate::operations::kit::above_zero;
use crate::quantity::Quantity;
use crate::reading::Problem;

impl ThreadInsert {
    /// Sizes that cannot be, and what is not given.
    pub(super) fn all_problems(&self, part: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        let pitch = self.thread.value.pitch().number();
        let hole = self.present_hole.as_ref().and_then(|at| read_at(at, at.value.reading()));
        above_zero("`wall`", &self.wall, &mut all);
        above_zero("`edge`", self.edge.as_ref(), &mut all);
        above_zero("`present-hole`", hole.as_ref(), &mut all);
        for at in self.strip.iter().filter(|at| !(0.0..=50.0).contains(&at.value.number()) || at.value.number() == 0.0)
        {
            all.push(Problem::new(at.place, "`strip` lies above zero and up to 50 mm"));
        }
        let chamfer = self.present_chamfer.as_ref().filter(|at| at.value.typed().is_some_and(|c| c < 0.0));
        if let Some(at) = chamfer {
            all.push(Problem::new(at.place, "`present-chamfer` is not under zero mm"));
        }
        let bolt = self.bolt.as_ref();
        above_zero("`torque`", bolt.and_then(|bolt| bolt.torque.as_ref()), &mut all);
        if self.wall.value.typed().is_some_and(|wall| wall > 0.0 && wall < 2.0 * pitch) {
            let pitches = crate::quantity::figure(2.0 * pitch);
            all.push(Problem::of_sizes(
                self.wall.place,
                format!("this wall is under two pitches ({pitches} mm): no thread holds in it"),
            ));
        }
        above_zero("`reach`", bolt.and_then(|bolt| bolt.reach.as_ref()), &mut all);
        if self.material.is_none() && part.material.is_none() {
            let says = "the metal of the casting is not known: give `material` here or on the part";
            all.push(Problem::new(self.thread.place, says));
        }
        if let Some(hold) = &self.hold {
            hold.problems(None, &mut all);
        }
        all
    }
}
