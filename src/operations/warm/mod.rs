//! `warm`: a part in the oven, so that what is cold drops into it. Does it open far enough once it has been carried to the press,
//! and do its metal, its temper and all that sits in it bear the oven at its hottest?

mod keys;
mod sketch;
mod work;

use super::{Answer, Bench, Declared, Operation, SetUpWish, press_joint};
use crate::job::PartFacts;
use crate::names;
use crate::operations::kit::above_zero;
use crate::proof::{CheckRule, Refusal};
use crate::quantity::{Celsius, Mm, Quantity, Shift, figure};
use crate::reading::Problem;
pub(super) use keys::Warm;

names! { ,
    BORE: Mm = new("bore", "bore that is to open").comes();
    MUST_OPEN: Shift = new("must_open", "what the bore must open so that it drops in");
    LEAVES_WITH: Celsius = lower("temperature_wanted", "temperature that the part leaves the oven with at the least");
    PART: Celsius = new("part_temperature", "temperature of the part as it leaves the oven");
    THERE: Celsius = lower("temperature_at_press", "temperature of the part when it stands at the press, at the least");
    LEFT: Shift = new("interference_warm", "interference left when it stands at the press; negative is room");
}

impl Operation for Warm {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[
            VALUES,
            press_joint::names::room::VALUES,
            press_joint::names::as_cold::VALUES,
            press_joint::names::oven::VALUES,
            press_joint::names::oven_set::VALUES,
        ]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("opens-enough", &["interference"]),
                CheckRule::must("can-be-so-cold", &[]),
                CheckRule::must("oven-stop", &[]),
                CheckRule::must("oven-reaches", &[]),
                CheckRule::must("goes-in", &["longest"]),
                CheckRule::must("temper-bears-it", &["temper"]),
                CheckRule::must("neighbours-bear-it", &["near"]),
            ]
        }
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`bore`", &self.bore, &mut all);
        above_zero("`outside`", &self.outside, &mut all);
        above_zero("`length`", &self.length, &mut all);
        above_zero("`interference`", self.interference.as_ref(), &mut all);
        above_zero("`chilled-by`", self.chilled_by.as_ref(), &mut all);
        if let (Some(cold), None) = (&self.chilled_in, &self.chilled_by) {
            all.push(Problem::new(cold.place, "`chilled-in` says what makes it cold: give `chilled-by` with it"));
        }
        if self.bore.value.number() >= self.outside.value.number() {
            let says = format!("no larger outside than its bore ({} mm)", figure(self.bore.value.number()));
            all.push(Problem::of_sizes(self.outside.place, says));
        }
        if let Some(to) = self.to.as_ref().filter(|to| to.value.number() <= crate::handbook::joints::heating::REFERENCE)
        {
            all.push(Problem::new(to.place, "`to` must be over 20 degC: what is no warmer is not warmed"));
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.all_of_it(bench, answer)
    }
}
