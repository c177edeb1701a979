//! `chill`: a part made cold so that it drops into its housing. Is it small enough once it has been carried to the press, does its
//! metal bear the cold, does it stay dry, and can whoever stands beside it breathe?

mod keys;
mod sketch;
mod work;

use super::{Answer, Bench, Declared, Operation, SetUpWish, press_joint};
use crate::handbook::Material;
use crate::job::PartFacts;
use crate::names;
use crate::operations::kit::above_zero;
use crate::proof::{At, CheckRule, Refusal};
use crate::quantity::{Celsius, Mm, Quantity, Shift, figure};
use crate::reading::Problem;
pub(super) use keys::Chill;

names! { ,
    OUTSIDE: Mm = new("outside", "diameter that is to become smaller").comes();
    PART: Celsius = new("part_temperature", "temperature of the part as it leaves the cold");
    THERE: Celsius = upper("temperature_at_press", "temperature of the part when it stands at the press, at the warmest");
    GAP: Shift = new("must_lose", "what the part must lose to drop in");
}

impl Operation for Chill {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[
            VALUES,
            press_joint::names::room::VALUES,
            press_joint::names::as_warm::VALUES,
            press_joint::names::freezer::VALUES,
        ]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("cold-enough", &["interference"]),
                CheckRule::must("can-be-so-warm", &[]),
                CheckRule::must("bears-cold", &["plated"]),
                CheckRule::must("stays-dry", &["bagged"]),
                CheckRule::must("air-to-breathe", &["aired"]),
            ]
        }
    }

    fn chills_its_part(&self) -> bool {
        self.material.is_none()
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn metals<'a>(&'a mut self, part: &'a mut PartFacts) -> Vec<&'a mut At<Material>> {
        self.material.as_mut().or(part.material.as_mut()).into_iter().collect()
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`outside`", &self.outside, &mut all);
        above_zero("`bore`", self.bore.as_ref(), &mut all);
        above_zero("`length`", &self.length, &mut all);
        above_zero("`interference`", self.interference.as_ref(), &mut all);
        above_zero("`opened-by`", self.opened_by.as_ref(), &mut all);
        if let Some(bore) = self.bore.as_ref().filter(|bore| bore.value.number() >= self.outside.value.number()) {
            let says = format!("a bush with this bore ({} mm) has no wall", figure(bore.value.number()));
            all.push(Problem::of_sizes(bore.place, says));
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.all_of_it(bench, answer)
    }
}
