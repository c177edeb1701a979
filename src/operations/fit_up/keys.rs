//! The keys of a fit that was measured, what cannot be, and what it answers.

use super::names;
use crate::handbook::Material;
use crate::handbook::joints::clearance::Duty;
use crate::job::{Address, PartFacts, Reading};
use crate::operations::kit::{Clearance, above_zero, is_near, near_whole, no_frost};
use crate::operations::{Answer, Bench, Declared, Operation, SetUpWish};
use crate::proof::{At, CheckRule, Refusal};
use crate::quantity::{Celsius, Mm, Shift};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// How warm it runs.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Running {
    /// What the bore is in.
    pub(super) bore: At<Celsius>,
    /// The shaft.
    pub(super) shaft: At<Celsius>,
    /// The coldest that both stand in; left out, frost is assumed.
    pub(super) coldest: Option<At<Celsius>>,
}

/// A measured shaft in a measured bore.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct FitUp {
    /// The bore (measured).
    pub(super) bore: At<Reading>,
    /// The shaft (measured).
    pub(super) shaft: At<Reading>,
    /// What the clearance must be: limits, or a fit of hole and shaft; left out, the rule for its duty.
    pub(super) clearance: Option<At<Clearance>>,
    /// What it does; left out, general work is assumed where the clearance is by rule.
    pub(super) duty: Option<At<Duty>>,
    /// The least clearance when it runs; left out, the limits hold then too.
    pub(super) least_running: Option<At<Shift>>,
    /// What the bore is in; left out, the part's.
    pub(super) bore_material: Option<At<Material>>,
    /// What the shaft is of; left out, the part's.
    pub(super) shaft_material: Option<At<Material>>,
    /// What carries the bore, where that holds it: both are worked, the worse judges; left out, the bore is taken to carry itself,
    /// and a bush to be carried by nobody knows what.
    pub(super) carried_by: Option<At<Material>>,
    /// The wall of the bush, from its bore to its outside; left out, the wall that such bushes have is counted in and doubtful
    /// at worst, and of plastic nothing is proven.
    pub(super) bush_wall: Option<At<Mm>>,
    /// How warm both run.
    pub(super) running: Option<Running>,
    /// Name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

impl FitUp {
    /// A fit names hole and shaft, and its size where the shaft is near no whole millimetre.
    fn problems_of_fit(&self, all: &mut Vec<Problem>) {
        let Some(At { value: Clearance::Fit(fit), place }) = &self.clearance else { return };
        if fit.shaft.is_none() {
            all.push(Problem::new(*place, "a fit of two measured parts names both, as in `20 H7/f7`"));
        }
        if let (Some(nominal), Some(shaft)) = (fit.nominal, self.shaft.value.typed())
            && !is_near(nominal, shaft)
        {
            all.push(Problem::new(
                *place,
                "the shaft is not of the size of this fit: look at the size before its letters",
            ));
        }
        if fit.nominal.is_none()
            && let Some(shaft) = self.shaft.value.typed().filter(|shaft| *shaft > 0.0)
            && near_whole(shaft).is_none()
        {
            all.push(Problem::new(
                *place,
                "the shaft is near no whole millimetre: give the fit its size, as in `20 H7/f7`",
            ));
        }
    }
}

impl FitUp {
    /// The metal that the bore is in: its own, else the part's.
    pub(super) fn bore_metal<'a>(&'a self, part: &'a PartFacts) -> Option<&'a At<Material>> {
        self.bore_material.as_ref().or(part.material.as_ref())
    }

    /// The metal of the shaft: its own, else the part's where the bore has one of its own. That both are of one metal is never taken
    /// for granted.
    pub(super) fn shaft_metal<'a>(&'a self, part: &'a PartFacts) -> Option<&'a At<Material>> {
        let of_part = part.material.as_ref().filter(|_| self.bore_material.is_some());
        self.shaft_material.as_ref().or(of_part)
    }

    /// The sizes that other operations leave.
    pub(super) fn of_others(&self) -> impl Iterator<Item = &At<Address>> {
        [&self.bore, &self.shaft].into_iter().filter_map(|at| match &at.value {
            Reading::Of(address) => Some(address),
            Reading::Size { .. } => None,
        })
    }

    /// What was read warm shrinks by its own metal.
    fn problems_of_warmth(&self, part: &PartFacts, all: &mut Vec<Problem>) {
        let warm = |at: &At<Reading>| matches!(&at.value, Reading::Size { warmth: Some(_), .. });
        if warm(&self.bore) && self.bore_metal(part).is_none() {
            all.push(Problem::new(self.bore.place, "`bore` was read warm: name its metal, `bore-material`"));
        }
        if warm(&self.shaft) && self.shaft_metal(part).is_none() {
            all.push(Problem::new(self.shaft.place, "`shaft` was read warm: name its metal, `shaft-material`"));
        }
    }
}

impl Operation for FitUp {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[names::VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("clearance", &[]),
                CheckRule::must("clearance-given", &["clearance"]),
                CheckRule::must("fit-runs", &[]),
                CheckRule::must("doubts-known", &[]),
                CheckRule::must("all-cuts-known", &[]),
                CheckRule::must("pair-runs", &["bore-material", "shaft-material"]),
                CheckRule::must("running", &["running", "carried-by", "shaft-material"]),
                CheckRule::must("frost", &["bore-material", "shaft-material"]),
                CheckRule::may("can-be-measured", &[]),
            ]
        }
    }

    fn runs_as_warm(&self) -> Option<&At<Celsius>> {
        self.running.as_ref().map(|running| &running.bore)
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn metals<'a>(&'a mut self, part: &'a mut PartFacts) -> Vec<&'a mut At<Material>> {
        let of_part = self.bore_material.is_none() || self.shaft_material.is_none();
        let own = self.bore_material.iter_mut().chain(&mut self.shaft_material).chain(&mut self.carried_by);
        own.chain(part.material.iter_mut().filter(|_| of_part)).collect()
    }

    fn problems(&self, part: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`bore`", &self.bore, &mut all);
        above_zero("`shaft`", &self.shaft, &mut all);
        above_zero("`bush-wall`", self.bush_wall.as_ref(), &mut all);
        self.problems_of_fit(&mut all);
        self.problems_of_warmth(part, &mut all);
        if let Some(running) = &self.running {
            no_frost(running.coldest.as_ref(), &[Some(&running.bore), Some(&running.shaft)], &mut all);
        }
        if let (Some(carried), None) = (&self.carried_by, &self.running) {
            all.push(Problem::new(carried.place, "`carried-by` says how the bore grows: give `running` with it"));
        }
        if let (Some(wall), None) = (&self.bush_wall, &self.carried_by) {
            all.push(Problem::new(wall.place, "`bush-wall` is held by what carries it: give `carried-by` with it"));
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
