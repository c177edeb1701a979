//! The keys of a bored hole, what cannot be a real part, and what it answers.

use super::names;
use crate::handbook::Material;
use crate::job::{Difference, PartFacts, Reading};
use crate::operations::diameter;
use crate::operations::hole_making::Beyond;
use crate::operations::kit::above_zero;
use crate::operations::{Answer, Bench, Declared, Hold, Operation, SetUpWish, turning};
use crate::proof::{At, CheckRule, Refusal};
use crate::quantity::{Kilogram, Mm, Quantity, Roughness, Wanted, figure};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// What the part is trued by before it is bored.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum TrueTo {
    /// The hole as it is: the new one stands where the old one stood.
    Bore,
    /// The outside: the new hole stands in its middle, and the old one may lie to one side.
    Outside,
}

/// A hole bored to size.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
#[schemars(extend("x-wants" = [["material", "part.material"]]))]
pub struct BoreHole {
    /// Diameter of the hole as found: the least (measured).
    pub(super) present: At<Reading>,
    /// Diameter of the bore (wanted).
    pub(super) bore: At<Wanted<Mm>>,
    /// How far it is bored from the face (wanted).
    pub(super) depth: At<Wanted<Mm>>,
    /// Whether it goes through; left out, it does not.
    pub(super) through: Option<At<bool>>,
    /// Outside of the part about the bore; of one that is not round twice the least distance from the bore's middle (measured).
    pub(super) outside: At<Reading>,
    /// Length of the part over both ends (measured).
    pub(super) over_all: At<Reading>,
    /// How far the hole lies off the middle of the outside (measured).
    pub(super) eccentric: Option<At<Difference>>,
    /// Metal that is bored, where it is not the part's: that of a bush in it; left out, the part's.
    pub(super) material: Option<At<Material>>,
    /// Least wall that may be left (wanted).
    pub(super) least_wall: Option<At<Wanted<Mm>>>,
    /// What it is trued by; left out, the worse of both is judged.
    pub(super) true_to: Option<At<TrueTo>>,
    /// What lies behind a part that is bored through: the gap to the chuck's face or the jaws' step (measured), or `clear`.
    pub(super) behind: Option<At<Beyond>>,
    /// Depth of a hole that does not go through (measured).
    pub(super) present_depth: Option<At<Reading>>,
    /// Greatest round that may stay in the corner at its bottom (wanted); a range has a least as well.
    pub(super) corner: Option<At<Wanted<Mm>>>,
    /// Roughness wanted.
    pub(super) finish: Option<At<Wanted<Roughness>>>,
    /// Gaps that interrupt the cut; left out, none.
    pub(super) interrupted: Option<At<u32>>,
    /// Least hard case that may be left (wanted).
    pub(super) least_case: Option<At<Wanted<Mm>>>,
    /// Metal that went here since it was new, on the radius: worn off, and taken off in earlier overhauls (measured); left out, none is assumed where a case is judged.
    pub(super) removed_before: Option<At<Difference>>,
    /// How the part is held.
    pub(super) hold: Option<Hold>,
    /// The boring bar by its name in the shop; left out, the one that does it in least time is chosen.
    pub(super) bar: Option<At<String>>,
    /// Mass of the part.
    pub(super) mass: Option<At<Kilogram>>,
    /// How far its centre of mass lies off the spindle's axis.
    pub(super) off_centre: Option<At<Mm>>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

const CHECKS: &[CheckRule] = diameter::diameter_checks!(
    CheckRule::must("can-be-trued", &["eccentric", "hold", "hold.true-within"]),
    CheckRule::must("wall", &["least-wall", "eccentric", "hold.true-within"]),
    CheckRule::must("behind", &["behind"]),
    CheckRule::must("bottom", &["present-depth"]),
    CheckRule::must("bar-in-hole", &["bar"]),
    CheckRule::must("bar-reach", &["bar.reach"]),
    CheckRule::must("bar-slender", &["bar"]),
    CheckRule::may("metal-bored", &["material"]),
);

impl BoreHole {
    /// Whether it goes through.
    pub(super) fn goes_through(&self) -> bool {
        self.through.as_ref().is_some_and(|at| at.value)
    }

    /// Whether what is bored runs into the length that is gripped; none where nobody says how far that stands from the face.
    pub(super) fn runs_into_the_grip(&self) -> Option<bool> {
        if self.goes_through() {
            return Some(true);
        }
        let hold = self.hold.as_ref()?;
        let out = match (&hold.overhang, &hold.grip) {
            (Some(out), _) => out.value.number(),
            (None, Some(grip)) => self.over_all.value.typed()? - grip.value.number(),
            (None, None) => return None,
        };
        Some(self.depth.value.high.number() > out)
    }

    pub(super) fn asked(&self) -> turning::Asked<'_> {
        turning::Asked {
            over_both_ends: true,
            finish: self.finish.as_ref(),
            interrupted: self.interrupted.as_ref(),
            hold: self.hold.as_ref(),
            tool: self.bar.as_ref(),
            mass: self.mass.as_ref(),
            off_centre: self.off_centre.as_ref(),
            set_up: self.set_up.as_ref(),
            ..turning::Asked::default()
        }
    }
}

/// What it gives, with the depth that it has: where it goes through nothing ends there to be measured.
macro_rules! given {
    ($length:expr) => {
        &[
            names::VALUES,
            diameter::BORED_VALUES,
            $length,
            diameter::VALUES,
            turning::OF_CUT,
            turning::OF_ALONG,
            turning::OF_HOLD,
            turning::OF_PASSES,
        ]
    };
}

impl Operation for BoreHole {
    fn values(&self) -> &'static [&'static [Declared]] {
        if self.goes_through() { const { given!(diameter::OUT_FREE) } } else { const { given!(diameter::TO_ITS_END) } }
    }

    fn checks(&self) -> &'static [CheckRule] {
        CHECKS
    }

    fn metals<'a>(&'a mut self, part: &'a mut PartFacts) -> Vec<&'a mut At<Material>> {
        self.material.as_mut().or(part.material.as_mut()).into_iter().collect()
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
        above_zero("`present`", &self.present, &mut all);
        above_zero("`bore`", &self.bore, &mut all);
        above_zero("`depth`", &self.depth, &mut all);
        above_zero("`outside`", &self.outside, &mut all);
        above_zero("`over-all`", &self.over_all, &mut all);
        above_zero("`present-depth`", self.present_depth.as_ref(), &mut all);
        turning::lathe_problems(&self.asked(), part, self.present.place, &mut all);
        let wanted = self.bore.value;
        if let Some(present) = self.present.value.typed().filter(|present| wanted.high.number() <= *present) {
            let says = format!("`bore` must be larger than the hole is now ({} mm)", figure(present));
            all.push(Problem::of_sizes(self.bore.place, says));
        }
        if let Some(outside) = self.outside.value.typed().filter(|outside| wanted.low.number() >= *outside) {
            let says = format!("`bore` must be smaller than `outside` ({} mm)", figure(outside));
            all.push(Problem::of_sizes(self.bore.place, says));
        }
        if let Some(over_all) = self.over_all.value.typed() {
            if self.depth.value.high.number() > over_all {
                all.push(Problem::new(self.depth.place, "it is bored deeper than the part is long (`over-all`)"));
            }
            if self.goes_through() && self.depth.value.high.number() < over_all - turning::LENGTHS_AGREE {
                let says = format!(
                    "it goes through (`through: true`), so `depth` is the part's length ({} mm)",
                    figure(over_all)
                );
                all.push(Problem::new(self.depth.place, says));
            }
            turning::hold_problems(self.hold.as_ref(), over_all, &mut all);
        }
        if let Some(hold) = &self.hold {
            let there = self.runs_into_the_grip() == Some(true);
            let bored = there.then(|| turning::Bored::Grip(wanted.high.number()));
            turning::nothing_to_grip(hold, f64::INFINITY, bored, &mut all);
        }
        if let Some(hold) = self.hold.as_ref().filter(|hold| hold.fills_the_bore()) {
            all.push(Problem::new(hold.held_in.place, "what holds it stands in the very hole that is to be bored"));
        }
        match (self.goes_through(), &self.behind, &self.present_depth) {
            (false, Some(behind), _) => {
                all.push(Problem::new(
                    behind.place,
                    "only of a hole that goes through (`through: true`) is asked what lies behind",
                ));
            }
            (true, _, Some(depth)) => {
                all.push(Problem::new(depth.place, "a hole that goes through has no `present-depth`"));
            }
            _ => {}
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
