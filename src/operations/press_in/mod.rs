//! `press-in`: a measured bush pressed into its housing, cold, or dropped in where warmth and cold have made room for it. Does it
//! hold, do bush, housing and press stand it, does it get home?

mod keys;
mod work;

use super::{Answer, Bench, Declared, Operation, SetUpWish, Stage, press_joint};
use crate::handbook::Material;
use crate::job::PartFacts;
use crate::operations::kit::above_zero;
use crate::operations::press_joint::{Asked, Bush, stands_out};
use crate::proof::{At, CheckRule, Refusal};
use crate::reading::Problem;
pub(super) use keys::PressIn;

impl PressIn {
    /// Its joint, about the bush as it was measured.
    fn asked<'a>(&'a self, bush: &'a Bush) -> Asked<'a> {
        Asked {
            housing: &self.housing,
            bush,
            flange: self.flange.as_ref(),
            stands: self.stands.as_ref(),
            running: self.running.as_ref(),
            cold: self.opened_by.is_none() && self.chilled_by.is_none(),
            gives: self.gives(),
            set_up: self.set_up.as_ref(),
        }
    }
}

impl Operation for PressIn {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[
            press_joint::names::joint::VALUES,
            press_joint::names::fitted::VALUES,
            press_joint::names::closed_in::AS_IT_STAYS,
            press_joint::names::room::VALUES,
            press_joint::names::push::VALUES,
            press_joint::names::support::VALUES,
            press_joint::names::as_warm::VALUES,
            press_joint::names::as_cold::VALUES,
            press_joint::names::at_press::VALUES,
        ]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("long-enough", &[]),
                CheckRule::must("interference", &[]),
                CheckRule::must("closes-in", &[]),
                CheckRule::must("bush-yield", &["bush.material"]),
                CheckRule::may("bush-plastic", &["bush.material"]),
                CheckRule::must("housing-stress", &["housing.material"]),
                CheckRule::must("housing-iron", &["housing.material"]),
                CheckRule::must("press-force", &[]),
                CheckRule::must("bush-stands-push", &["bush.material"]),
                CheckRule::must("drops-in", &[]),
                CheckRule::must("can-be-so-warm", &[]),
                CheckRule::must("can-be-so-cold", &[]),
                CheckRule::must("under-the-boss", &["support"]),
                CheckRule::must("support-clears", &["support"]),
                CheckRule::must("room-beneath", &["support", "support.height"]),
                CheckRule::must("press-opens", &["daylight of the press"]),
                CheckRule::must("may-be-bored", &[]),
                CheckRule::must("pair-goes-in", &[]),
                CheckRule::must("goes-in-straight", &[]),
                CheckRule::must("air-comes-out", &["housing.through"]),
                CheckRule::must("grip-when-warm", &["running.housing"]),
                CheckRule::must("grip-when-cold", &["running.coldest"]),
                CheckRule::must("stress-when-warm", &["running.housing"]),
                CheckRule::must("stress-when-cold", &["running.coldest"]),
            ]
        }
    }

    fn stages(&self) -> &'static [Stage] {
        const {
            &[
                Stage::of(&["measure-and-dress"], &[]),
                Stage::of(
                    &["press-in"],
                    &[
                        "long-enough",
                        "interference",
                        "bush-yield",
                        "bush-plastic",
                        "housing-stress",
                        "housing-iron",
                        "press-force",
                        "bush-stands-push",
                        "drops-in",
                        "can-be-so-warm",
                        "can-be-so-cold",
                        "under-the-boss",
                        "support-clears",
                        "room-beneath",
                        "press-opens",
                        "may-be-bored",
                        "pair-goes-in",
                        "air-comes-out",
                        "goes-in-straight",
                        "grip-when-warm",
                        "grip-when-cold",
                        "stress-when-warm",
                        "stress-when-cold",
                    ],
                ),
                Stage::of(&["cool-and-measure"], &["closes-in"]),
            ]
        }
    }

    fn runs_as_warm(&self) -> Option<&At<crate::quantity::Celsius>> {
        self.running.as_ref().map(|running| &running.housing)
    }

    fn stands_out(&self) -> bool {
        stands_out(self.stands.as_ref(), self.flange.as_ref())
    }

    fn puts_in(&self) -> Option<&At<Material>> {
        Some(&self.bush.material)
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn metals<'a>(&'a mut self, part: &'a mut PartFacts) -> Vec<&'a mut At<Material>> {
        let housing = self.housing.material.as_mut().or(part.material.as_mut());
        let shaft = self.running.as_mut().and_then(|running| running.shaft_material.as_mut());
        housing.into_iter().chain([&mut self.bush.material]).chain(shaft).collect()
    }

    fn problems(&self, part: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        let bush = self.bush.bush();
        self.asked(&bush).problems(part, &mut all);
        above_zero("`opened-by`", self.opened_by.as_ref(), &mut all);
        above_zero("`chilled-by`", self.chilled_by.as_ref(), &mut all);
        if let (Some(cold), None) = (&self.chilled_in, &self.chilled_by) {
            all.push(Problem::new(cold.place, "`chilled-in` says what makes it cold: give `chilled-by` with it"));
        }
        above_zero("`inside`", self.support.as_ref().map(|support| &support.inside), &mut all);
        above_zero("`height`", self.support.as_ref().and_then(|support| support.height.as_ref()), &mut all);
        if let Some(at) = &self.housing.fitted {
            all.push(Problem::new(at.place, "what is left in a housing is asked where it is made warm: by `warm`"));
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.all_of_it(bench, answer)
    }
}
