//! What cannot be a real joint (exit 2).

use super::asked::Asked;
use super::keys::Stands;
use crate::handbook::constants::constant;
use crate::job::PartFacts;
use crate::operations::kit::{above_zero, no_frost};
use crate::quantity::{Mm, Quantity, Ratio, figure};
use crate::reading::Problem;

impl Asked<'_> {
    /// Every size of housing and bush that cannot be, at its place.
    pub(in crate::operations) fn problems(&self, part: &PartFacts, all: &mut Vec<Problem>) {
        self.above_zero(all);
        self.inside_out(all);
        self.too_short(all);
        if let Some(running) = self.running {
            no_frost(running.coldest.as_ref(), &[Some(&running.housing), running.shaft.as_ref()], all);
        }
        if self.housing.material.is_none() && part.material.is_none() {
            let says = "the metal of the housing is not known: give `material` of the housing or of the part";
            all.push(Problem::new(self.housing.bore.place, says));
        }
    }

    fn above_zero(&self, all: &mut Vec<Problem>) {
        above_zero("`bore`", &self.housing.bore, all);
        above_zero("`outside`", self.bush.outside.as_ref(), all);
        above_zero("`bore`", self.bush.bore.as_ref(), all);
        above_zero("`outside`", &self.housing.outside, all);
        above_zero("`length`", &self.bush.length, all);
        above_zero("`length`", self.housing.length.as_ref(), all);
        if let Some(flange) = self.flange {
            above_zero("`diameter`", &flange.diameter, all);
            above_zero("`thickness`", &flange.thickness, all);
        }
        if let Some(count) = self.bush.count.as_ref().filter(|count| count.value == 0) {
            all.push(Problem::new(count.place, "`count` is one or more"));
        }
    }

    fn inside_out(&self, all: &mut Vec<Problem>) {
        let housing = self.housing.bore.value.typed();
        let outside = self.bush.outside.as_ref().and_then(|at| Some((at.value.typed()?, at.place)));
        let inside = self.bush.bore.as_ref().and_then(|at| Some((at.value.typed()?, at.place)));
        if let Some(bore) = housing.filter(|bore| *bore >= self.housing.outside.value.number()) {
            let says = format!("the housing is no larger outside than its bore ({} mm)", figure(bore));
            all.push(Problem::of_sizes(self.housing.outside.place, says));
        }
        if let Some((bore, place)) =
            inside.filter(|bore| outside.or(housing.map(|h| (h, bore.1))).is_some_and(|o| bore.0 >= o.0))
        {
            all.push(Problem::of_sizes(place, format!("a bush with this bore ({} mm) has no wall", figure(bore))));
        }
        let most = constant::<Mm>("bush-under-housing-most").map(|row| row.number()).ok();
        if let (Some((outside, place)), Some(housing), Some(most)) = (outside, housing, most)
            && outside < housing - most
        {
            let says = format!(
                "this bush is {} mm smaller than its housing: more than {} mm cannot be meant",
                figure(housing - outside),
                figure(most)
            );
            all.push(Problem::new(place, says));
        }
        if let (Some((outside, place)), Some(housing), Some(most)) = (outside, housing, most)
            && outside > housing + most
        {
            let says = format!(
                "this bush is {} mm larger than its housing: more than {} mm cannot be pressed in, nor be meant",
                figure(outside - housing),
                figure(most)
            );
            all.push(Problem::new(place, says));
        }
        if let (Some(flange), Some((outside, _))) = (self.flange, outside)
            && flange.diameter.value.number() <= outside
        {
            all.push(Problem::new(flange.diameter.place, "a flange is larger than the bush that it stands on"));
        }
        if let Some(flange) = self.flange.filter(|f| f.thickness.value.number() >= self.bush.length.value.number()) {
            all.push(Problem::new(flange.thickness.place, "this flange is as thick as the bush is long"));
        }
    }

    /// A bush or housing that is a ring of foil, or of which nothing lies in the housing.
    fn too_short(&self, all: &mut Vec<Problem>) {
        let least = constant::<Ratio>("bush-length-least-share").map_or(0.0, |row| row.number());
        let housing = self.housing.bore.value.typed();
        let bush = self.bush.bore.as_ref().and_then(|at| at.value.typed()).or(housing);
        let lengths = [(Some(&self.bush.length), bush), (self.housing.length.as_ref(), housing)];
        for (length, bore) in lengths.into_iter().filter_map(|(length, bore)| Some((length?, bore?))) {
            if length.value.number() > 0.0 && length.value.number() < least * bore {
                let says = format!("this length is under 1/{} of its bore: it cannot be meant", figure(1.0 / least));
                all.push(Problem::new(length.place, says));
            }
        }
        if let (Some(_), Some(Stands::By(by))) = (self.flange, self.stands.map(|at| at.value))
            && by.number() < 0.0
        {
            let place = self.stands.map_or(self.bush.length.place, |at| at.place);
            all.push(Problem::new(place, "a bush with a flange stands on the face, not below it"));
        }
        if let (Some(flange), Some(Stands::By(by))) = (self.flange, self.stands.map(|at| at.value))
            && by.number() > flange.thickness.value.number()
        {
            let place = self.stands.map_or(self.bush.length.place, |at| at.place);
            let says = format!(
                "a flange {} mm thick on its face stands so far out, and no further: there would be air under it",
                figure(flange.thickness.value.number())
            );
            all.push(Problem::new(place, says));
        }
        if let Some(housing) = self.housing.length.as_ref().filter(|at| self.sunk() >= at.value.number()) {
            let place = self.stands.map_or(housing.place, |at| at.place);
            all.push(Problem::new(place, "nothing of this bush lies in its housing"));
        }
        let outside = self.length_outside();
        if outside > 0.0 && outside >= self.bush.length.value.number() {
            let place = self.stands.map_or(self.bush.length.place, |at| at.place);
            all.push(Problem::new(place, "nothing of this bush lies in its housing"));
        }
    }
}
