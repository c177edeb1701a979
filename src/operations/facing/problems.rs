//! What cannot be a real part, each at its place.

use super::Asked;
use super::float::Float;
use crate::job::{Difference, PartFacts};
use crate::operations::kit::above_zero;
use crate::operations::turning;
use crate::proof::At;
use crate::quantity::{Mm, Quantity, figure};
use crate::reading::Problem;

impl Asked<'_> {
    /// Sizes that cannot be, of the keys that face and skim share.
    pub(crate) fn problems(&self, part: &PartFacts, all: &mut Vec<Problem>) {
        let outside = self.outside.value.number();
        above_zero("`outside`", self.outside, all);
        above_zero("`inside`", self.inside, all);
        if let Some(inside) = self.inside.filter(|inside| inside.value.number() >= outside) {
            all.push(Problem::of_sizes(
                inside.place,
                format!("`inside` must be smaller than `outside` ({} mm)", figure(outside)),
            ));
        }
        above_zero("`length`", self.length, all);
        above_zero("`flat-within`", self.flat_within, all);
        turning::lathe_problems(&self.of_any_cut(), part, self.outside.place, all);
        self.hold_problems(all);
        self.relief_problems(all);
        Float::of(self).problems(all);
    }

    /// Wear or dish that is as deep as the part is long.
    pub(crate) fn too_deep(&self, key: &str, at: &At<Difference>, all: &mut Vec<Problem>) {
        if let (Some(depth), Some(length)) = (at.value.typed(), self.length.value.typed())
            && depth >= length
        {
            let says = format!("`{key}` must be less than the length ({} mm)", figure(length));
            all.push(Problem::of_sizes(at.place, says));
        }
    }

    /// Held on the very length that is named, the grip is not longer; a hub behind it has a length of its own. Over both ends
    /// there is room for grip and overhang, and a bore that goes through leaves nothing under it to grip.
    fn hold_problems(&self, all: &mut Vec<Problem>) {
        let Some(hold) = self.hold else { return };
        if self.over_both_ends {
            turning::mandrel_stands(Some(hold), self.inside, all);
        } else {
            self.mandrel_in_the_way(hold, all);
        }
        if let Some(length) = self.length.value.typed().filter(|_| self.over_both_ends) {
            turning::too_long(hold, length, all);
        }
        let bored = self.inside.filter(|_| self.over_both_ends).map(|bore| turning::Bored::Part(bore.value.number()));
        turning::nothing_to_grip(hold, self.outside.value.number(), bored, all);
        let on_the_rim = |gripped: &At<Mm>| gripped.value.number() >= self.outside.value.number();
        let on_the_length = self.over_both_ends || hold.diameter.as_ref().is_some_and(on_the_rim);
        hold.problems(self.length.value.typed().filter(|_| on_the_length), all);
    }

    /// The bore of a plate ends within its contact: a mandrel that is larger than that cannot stand in it.
    fn mandrel_in_the_way(&self, hold: &crate::operations::Hold, all: &mut Vec<Problem>) {
        let inside = self.inside.map_or(0.0, |inside| inside.value.number());
        let mandrel = hold.diameter.as_ref().filter(|_| hold.held_in.value == crate::operations::HeldIn::Mandrel);
        if let Some(mandrel) = mandrel.filter(|at| at.value.number() > inside + turning::LENGTHS_AGREE) {
            let says = format!(
                "no mandrel so large stands in the part: its contact goes in to {} mm, and its bore is no larger",
                figure(inside)
            );
            all.push(Problem::of_sizes(mandrel.place, says));
        }
    }

    fn relief_problems(&self, all: &mut Vec<Problem>) {
        let Some(relief) = self.relief else { return };
        let above = |at: &At<Mm>, most: f64| at.value.number() > most + 1e-9;
        if relief.inside.value.number() >= relief.outside.value.number() {
            all.push(Problem::new(relief.inside.place, "`inside` of the relief must be smaller than its `outside`"));
        }
        if above(&relief.outside, self.outside.value.number()) {
            all.push(Problem::new(relief.outside.place, "the relief lies outside the contact that it is cut in"));
        }
        if let Some(inside) = self.inside.filter(|inside| relief.inside.value.number() < inside.value.number() - 1e-9) {
            let says = format!("the relief begins inside the bore ({} mm)", figure(inside.value.number()));
            all.push(Problem::of_sizes(relief.inside.place, says));
        }
        self.too_deep("depth", &relief.depth, all);
    }
}
