//! `face`: a worn end taken back to clean metal. Is there case enough below, and what becomes of the end float?
//!
//! Everything but the metal to remove is worked in [`facing`].

use super::facing::{self, Extra, Ground};
use super::turning;
use super::{Answer, Bench, Declared, Hold, Operation, SetUpWish};
use crate::handbook::cutting::stock;
use crate::handbook::{Material, StateKind};
use crate::job::{Difference, PartFacts};
use crate::proof::{At, CheckRule, Refusal};
use crate::reading::Problem;
use crate::shop::Gauge;

/// Every check of a face.
const CHECKS: &[CheckRule] = facing::facing_checks!(
    CheckRule::must("least-length", &["least-length"]),
    CheckRule::must("whips-behind", &["hold.grip", "hold.overhang"]),
    CheckRule::must("seats-on-step", &["hold.grip", "hold.overhang"]),
    CheckRule::must("goes-through", &["hold.grip", "hold.overhang", "hold.diameter"]),
);

facing::facing_operation! {
    /// A worn end taken back to clean metal.
    #[schemars(extend("x-wants" = [["part.material"]]))]
    Face {
        /// Depth of the groove below the unworn surface (measured).
        wear: At<Difference>,
    }
}

impl Face {
    /// Its length is that over both ends.
    const OVER_BOTH_ENDS: bool = true;
}

impl Operation for Face {
    fn values(&self) -> &'static [&'static [Declared]] {
        facing::values!()
    }

    fn checks(&self) -> &'static [CheckRule] {
        CHECKS
    }

    fn hold(&self) -> Option<&Hold> {
        self.hold.as_ref()
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn cuts_as(&self, part: &PartFacts, metal: &Material) -> Result<Material, Refusal> {
        turning::cuts_as(metal, part.hardness.as_ref().map(|at| at.value))
    }

    fn problems(&self, part: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        self.asked().problems(part, &mut all);
        self.asked().too_deep("wear", &self.wear, &mut all);
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let ground = Ground::of(bench, self.asked(), answer)?;
        let wear = answer.read_difference(bench, "wear", Gauge::Depth, &self.wear)?;
        let wear = answer.record(&facing::WEAR, wear);
        let below = facing::clean_up(bench, &ground.asked, answer)?;
        let (middle, doubt) = (facing::middle(&wear), facing::doubt_of(bench, &wear));
        let wanted = stock::metal_to_remove(&middle, &doubt, &below)?;
        let typed = ground.asked.least_length.into_iter().collect();
        let least = facing::Least { id: "least-length", typed, case_does: true };
        let metal = facing::metal_left(bench, &ground, wear, &wanted, &least, answer)?;
        let Some(cutting) = facing::work_cut(bench, &ground, &metal, answer)? else { return Ok(()) };
        let extra = Extra {
            id: "face-the-end",
            state: StateKind::Faced,
            after: Vec::new(),
            blanks: Vec::new(),
            shoulder: None,
        };
        facing::set_up(bench, &ground, &metal, &cutting, extra, answer)
    }
}
