//! `ream-bush`: a bush pressed into its housing, drilled for oil, reamed to a running fit. Does it hold, and what is left to ream?
//!
//! The finished bore first ([`bore`]), what is measured or made here ([`make`]), then the joint cold and warm
//! (`press_joint`, beside it), how it goes together ([`assembly`]), the reamer ([`reamer`]), another bush of the line ([`line`](mod@line)), the oil holes
//! ([`oil`], [`any_hole`]) and the set-ups ([`set_ups`]).

mod any_hole;
mod assembly;
mod at_press;
mod bore;
mod checks;
mod fit;
mod keys;
mod line;
mod make;
mod metals;
mod names;
mod oil;
mod problems;
mod reamer;
mod running;
mod set_ups;
mod sketch;
mod steps;

use super::safety::BESIDE;
use super::{Answer, Bench, Declared, Operation, SetUpWish, Stage, press_joint};
use crate::handbook::Material;
use crate::job::PartFacts;
use crate::proof::{At, CheckRule, Refusal};
use crate::reading::Problem;
pub(super) use keys::ReamBush;

impl Operation for ReamBush {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[
            press_joint::names::joint::VALUES,
            press_joint::names::fitted::VALUES,
            press_joint::names::closed_in::VALUES,
            press_joint::names::room::VALUES,
            press_joint::names::at_press::VALUES,
            press_joint::names::oven::VALUES,
            press_joint::names::oven_set::VALUES,
            press_joint::names::freezer::VALUES,
            press_joint::names::push::VALUES,
            press_joint::names::support::VALUES,
            names::VALUES,
            any_hole::VALUES,
        ]
    }

    fn checks(&self) -> &'static [CheckRule] {
        checks::CHECKS
    }

    fn stages(&self) -> &'static [Stage] {
        checks::STAGES
    }

    fn runs_as_warm(&self) -> Option<&At<crate::quantity::Celsius>> {
        self.running.as_ref().map(|running| &running.housing)
    }

    fn stands_out(&self) -> bool {
        press_joint::stands_out(self.stands.as_ref(), self.flange.as_ref())
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

    fn take_sizes(&mut self, of: &Answer) -> bool {
        self.made_to = keys::MadeTo::of(of);
        self.made_to.is_some()
    }

    /// The reamer's lubricant stands in its own step.
    fn fluids(&self, set_up: &str) -> &'static [(usize, &'static str)] {
        if set_up == "drill-oil-holes" { &[(0, BESIDE), (1, "any")] } else { &[] }
    }

    fn problems(&self, part: &PartFacts) -> Vec<Problem> {
        self.all_problems(part)
    }

    /// Its bore and its closed-in bore, as if it stood alone: two bushes in one line find each other by them.
    fn asks(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        if self.line_with.is_none() {
            return Ok(());
        }
        Self { line_with: None, ..self.clone() }.work(bench, answer)
    }

    fn beside(&self) -> Option<crate::job::Address> {
        self.line_with.as_ref().map(|other| other.value.owner())
    }

    fn disagrees(&self, bench: &Bench) -> Vec<Problem> {
        self.line_problems(bench)
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let asked = self.asked();
        let metals = asked.metals(bench)?;
        self.says(&metals, answer);
        let line = self.line(bench, answer)?;
        let finished = self.finished_bore(bench, line.as_ref(), answer)?;
        let sizes = asked.sizes(bench, answer)?;
        let forbidden = self.forbids(&metals);
        let climate = asked.climate(&metals, &sizes, forbidden.is_none(), answer)?;
        let mut oil = self.oil_holes(bench, &metals, answer)?;
        self.groove(answer);
        let Some(made) = self.bush_as_it_is(bench, &metals, &sizes, &finished, &climate, answer)? else {
            return self.before_the_bush_is_made(bench, &oil, answer);
        };
        let joint = asked.joint(bench, &metals, (&sizes, &made), &climate, answer)?;
        answer.picture = Some(self.fit_picture(forbidden.is_none() && finished.middle.is_some()));
        self.like_any_hole(bench, &mut oil, [&sizes.d, &joint.pressed], answer)?;
        self.when_it_runs(bench, &metals, (&sizes, &joint, &finished), &climate, answer)?;
        self.assembly(bench, &metals, &sizes, &joint, answer)?;
        self.stands_under_the_boss(bench, &sizes, answer)?;
        asked.comes_out_clear(bench, self.support.as_ref(), answer)?;
        asked.goes_in_straight(bench, answer);
        asked.pile_goes_in(bench, self.support.as_ref(), answer)?;
        match (forbidden, &finished.middle) {
            (Some(kind), _) => self.must_not_be_reamed(kind, &finished, &joint.close_in, answer)?,
            (None, Some(middle)) => {
                let reamed = reamer::Reamed {
                    low: &finished.low,
                    high: &finished.high,
                    middle,
                    pressed: &line::common(&joint.pressed, line.as_ref(), bench.guard()),
                };
                self.choose_reamer(bench, &metals, &reamed, &joint, answer)?;
            }
            (None, None) => answer.not_checked(checks::OF_THE_REAMER, &["shaft"]),
        }
        self.all_set_ups(bench, &metals, (&oil, line.as_ref()), (forbidden, &finished), answer)
    }
}
