//! `press-out`: an old bush pressed out of its housing. Which way does it come, does everything clear, does the press do it, and
//! do bush and housing stand it?

mod keys;
mod mandrel;
mod push;
mod sketch;
mod work;

use super::{Answer, Bench, Declared, Operation, PartSize, SetUpWish};
use crate::handbook::Material;
use crate::job::PartFacts;
use crate::names;
use crate::operations::kit::above_zero;
use crate::operations::press_joint::names::{oven_set, push as pushed, support};
use crate::proof::{At, CheckRule, Refusal};
use crate::quantity::{Celsius, Mm, Newton, Quantity, Shift, Stress, figure};
use crate::reading::Problem;
use keys::HeldBy;
pub(super) use keys::PressOut;

names! { ,
    JOINT: Mm = new("joint_diameter", "diameter of the joint").opens(PartSize::Seat);
    HOUSING: Mm = new("housing_outside", "outside of the housing").found(PartSize::Around);
    BORE: Mm = new("bore_now", "bore of the bush as it is").comes();
    GRIPPED: Mm = new("gripped_length", "length over which the housing grips the bush").comes();
    TIGHT: Shift = new("interference_at_most", "greatest interference that it may have");
    PRESSURE: Stress = new("grip_pressure", "pressure in the joint at the greatest interference");
    HOOP: Stress = new("grip_hoop", "hoop stress of the housing at the joint, greatest interference");
    FORCE: Newton = lower("push_force", "force to push it out as its joint asks");
    FORCE_STUCK: Newton = lower("push_force_stuck", "greatest force to push it out, rusted or gummed in");
    MANDREL_CARRIES: Newton = upper("mandrel_carries", "force at which the mandrel bows out or is crushed");
    HOUSING_LEAST: Mm = lower("housing_bore_least", "least bore that the housing may have once it is out");
    WARMED_TO: Celsius = new("warmed_to", "how warm housing and bush are said to be as it is pushed out");
    MANDREL: Mm = new("mandrel_diameter", "diameter of the mandrel, where it pushes");
    TRAVEL: Mm = new("travel", "how far it is pushed until it is free");
}

impl Operation for PressOut {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[VALUES, pushed::VALUES, support::VALUES, oven_set::VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("way-out", &["held-by", "push-from"]),
                CheckRule::must("support-clears", &["support"]),
                CheckRule::must("under-the-boss", &["support"]),
                CheckRule::must("mandrel-covers", &["mandrel"]),
                CheckRule::must("mandrel-clears", &["mandrel"]),
                CheckRule::must("mandrel-bows", &["mandrel", "interference"]),
                CheckRule::must("comes-right-out", &["mandrel", "support"]),
                CheckRule::must("press-opens", &["daylight of the press"]),
                CheckRule::must("press-force", &["interference"]),
                CheckRule::must("housing-stands", &["interference"]),
                CheckRule::must("bush-stands-push", &["interference"]),
                CheckRule::must("pieces-caught", &["guarded"]),
                CheckRule::must("warmth-loosens", &[]),
                CheckRule::must("may-be-so-warm", &[]),
                CheckRule::must("temper-bears-it", &["temper"]),
                CheckRule::must("neighbours-bear-it", &["near"]),
                CheckRule::must("oven-reaches", &[]),
                CheckRule::must("goes-in", &["longest"]),
            ]
        }
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn metals<'a>(&'a mut self, part: &'a mut PartFacts) -> Vec<&'a mut At<Material>> {
        let housing = self.housing.material.as_mut().or(part.material.as_mut());
        housing.into_iter().chain([&mut self.bush.material]).collect()
    }

    fn problems(&self, part: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        self.above_zero(&mut all);
        let outside = self.bush.outside.value.typed();
        if let (Some(outside), Some(bore)) = (outside, self.bush.bore.value.typed())
            && bore >= outside
        {
            let says = format!("a bush with this bore ({} mm) has no wall", figure(bore));
            all.push(Problem::of_sizes(self.bush.bore.place, says));
        }
        if let Some(outside) = outside.filter(|outside| *outside >= self.housing.outside.value.number()) {
            let says = format!("the housing is no larger outside than its bore ({} mm)", figure(outside));
            all.push(Problem::of_sizes(self.housing.outside.place, says));
        }
        if let (Some(flange), Some(at)) = (&self.flange, &self.held_by)
            && matches!(at.value, HeldBy::Nothing | HeldBy::Shoulder)
        {
            let says = "this bush has a flange: its flange holds it one way";
            all.push(Problem::new(flange.diameter.place, says));
        }
        if let (Some(flange), Some(outside)) = (&self.flange, outside)
            && flange.diameter.value.number() <= outside
        {
            all.push(Problem::new(flange.diameter.place, "a flange is larger than the bush that it stands on"));
        }
        if self.housing.material.is_none() && part.material.is_none() {
            let says = "the metal of the housing is not known: give `material` of the housing or of the part";
            all.push(Problem::new(self.housing.outside.place, says));
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.all_of_it(bench, answer)
    }
}

impl PressOut {
    fn above_zero(&self, all: &mut Vec<Problem>) {
        above_zero("`outside`", &self.bush.outside, all);
        above_zero("`bore`", &self.bush.bore, all);
        above_zero("`length`", &self.bush.length, all);
        above_zero("`outside`", &self.housing.outside, all);
        above_zero("`length`", self.housing.length.as_ref(), all);
        above_zero("`shoulder-bore`", self.housing.shoulder_bore.as_ref(), all);
        above_zero("`shoulder-thickness`", self.housing.shoulder_thickness.as_ref(), all);
        above_zero("`interference`", self.interference.as_ref(), all);
        above_zero("`inside`", self.support.as_ref().map(|support| &support.inside), all);
        above_zero("`height`", self.support.as_ref().and_then(|support| support.height.as_ref()), all);
        above_zero("`diameter`", self.mandrel.as_ref().map(|mandrel| &mandrel.diameter), all);
        above_zero("`length`", self.mandrel.as_ref().and_then(|mandrel| mandrel.length.as_ref()), all);
        if let Some(flange) = &self.flange {
            above_zero("`diameter`", &flange.diameter, all);
            above_zero("`thickness`", &flange.thickness, all);
        }
    }
}
