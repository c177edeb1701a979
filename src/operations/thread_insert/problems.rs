//! What cannot be a real insert, each at its place.

use super::keys::{ThreadInsert, read_at};
use crate::job::PartFacts;
use crate::quantity::Quantity;
use crate::reading::Problem;

impl ThreadInsert {
    /// Sizes that cannot be, and what is not given.
    pub(super) fn all_problems(&self, part: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        let pitch = self.thread.value.pitch().number();
        let hole = self.present_hole.as_ref().and_then(|at| read_at(at, at.value.reading()));
        let above_zero = [("wall", Some(&self.wall)), ("edge", self.edge.as_ref()), ("present-hole", hole.as_ref())];
        for (key, at) in above_zero.into_iter().filter_map(|(key, at)| Some((key, at?))) {
            if at.value.typed().is_some_and(|size| size <= 0.0) {
                all.push(Problem::new(at.place, format!("`{key}` must be above zero mm")));
            }
        }
        for at in self.strip.iter().filter(|at| !(0.0..=50.0).contains(&at.value.number()) || at.value.number() == 0.0)
        {
            all.push(Problem::new(at.place, "`strip` lies above zero and up to 50 mm"));
        }
        let chamfer = self.present_chamfer.as_ref().filter(|at| at.value.typed().is_some_and(|c| c < 0.0));
        if let Some(at) = chamfer {
            all.push(Problem::new(at.place, "`present-chamfer` is not under zero mm"));
        }
        if let Some(torque) =
            self.bolt.as_ref().and_then(|bolt| bolt.torque.as_ref()).filter(|t| t.value.number() <= 0.0)
        {
            all.push(Problem::new(torque.place, "`torque` must be above zero"));
        }
        if self.wall.value.typed().is_some_and(|wall| wall > 0.0 && wall < 2.0 * pitch) {
            let pitches = crate::quantity::figure(2.0 * pitch);
            all.push(Problem::new(
                self.wall.place,
                format!("this wall is under two pitches ({pitches} mm): no thread holds in it"),
            ));
        }
        if let Some(reach) = self.bolt.as_ref().and_then(|bolt| bolt.reach.as_ref()).filter(|r| r.value.number() <= 0.0)
        {
            all.push(Problem::new(reach.place, "`reach` must be above zero mm"));
        }
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
