//! `ream-bush`: a bush pressed into its housing, drilled for oil, reamed to a running fit. Does it hold, and what is left to ream?
//!
//! The finished bore first ([`bore`]), what is measured ([`sizes`]) or made here ([`make`]), then the joint cold and warm
//! ([`joint`]), how it goes together ([`assembly`]), the reamer ([`reamer`]), another bush of the line ([`line`](mod@line)), the oil holes
//! ([`oil`]) and the set-ups ([`set_ups`]).

mod assembly;
mod bore;
mod checks;
mod climate;
mod joint;
mod keys;
mod line;
mod make;
mod names;
mod oil;
mod problems;
mod reamer;
mod set_ups;
mod sizes;
mod sketch;
mod steps;

use super::{Answer, Bench, Declared, Hold, Name, Operation, SetUpWish};
use crate::handbook::Material;
use crate::handbook::joints::clearance::Duty;
use crate::handbook::joints::heating::REFERENCE;
use crate::handbook::joints::reaming::{NotReamed, forbids_reaming};
use crate::job::{Address, PartFacts, Reading};
use crate::operations::Value;
use crate::proof::{At, Check, CheckRule, Fact, Refusal, Verdict, Words, Worked};
use crate::quantity::{Celsius, Decimals, Mm, Quantity, Ratio, Rounds, Shift, Stress, Unit};
use crate::reading::Problem;
use crate::shop::By;
use keys::{Assemble, Bush, Clearance, Flange, GaugeBy, Groove, Housing, OilHole, Running, Stands};
use names::*;
use schemars::JsonSchema;
use serde::Deserialize;

/// A bush pressed in, drilled for oil and reamed.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct ReamBush {
    /// What it is pressed into.
    housing: Housing,
    /// The bush.
    bush: Bush,
    /// The shaft that runs in it (measured).
    shaft: At<Reading>,
    /// Running clearance: limits or a fit; left out, the rule for its duty.
    clearance: Option<At<Clearance>>,
    /// What proves the finished bore; left out, the shop's instruments.
    gauge: Option<At<GaugeBy>>,
    /// What it does.
    duty: Option<At<Duty>>,
    /// Oil holes through it.
    #[serde(default)]
    oil_holes: Vec<OilHole>,
    /// How it goes in.
    assemble: Option<At<Assemble>>,
    /// Reamed by hand or by machine.
    by: Option<At<By>>,
    /// Another bush that is reamed in one line with this one.
    line_with: Option<At<Address>>,
    /// How the part is held.
    hold: Option<Hold>,
    /// A flange of the bush.
    flange: Option<Flange>,
    /// A groove in its bore.
    groove: Option<At<Groove>>,
    /// How far it stands out.
    stands: Option<At<Stands>>,
    /// Temperatures when it runs.
    running: Option<Running>,
    /// Set-up wishes.
    set_up: Option<SetUpWish>,
    /// Outside and bore that the bush is made to, where another plan chose them.
    #[serde(skip)]
    #[schemars(skip)]
    made_to: Option<make::MadeTo>,
}

impl Operation for ReamBush {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        checks::CHECKS
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
        self.made_to = make::MadeTo::of(of);
        self.made_to.is_some()
    }

    /// The reamer's lubricant stands in its own step.
    fn fluids(&self, set_up: &str) -> &'static [(usize, &'static str)] {
        if set_up == "drill-oil-holes" { &[(1, "any")] } else { &[] }
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

    fn disagrees(&self, bench: &Bench) -> Vec<Problem> {
        self.line_problems(bench)
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let metals = self.metals(bench)?;
        self.says(&metals, answer);
        let line = self.line(bench, answer)?;
        let finished = self.finished_bore(bench, line.as_ref(), answer)?;
        let sizes = self.sizes(bench, answer)?;
        let climate = self.climate(&metals, &sizes, answer)?;
        let forbidden = self.forbids(&metals);
        let oil = self.oil_holes(bench, &metals, answer)?;
        self.groove(answer);
        let Some(made) = self.bush_as_it_is(bench, &metals, &sizes, &finished, &climate, answer)? else {
            return self.before_the_bush_is_made(bench, &oil, answer);
        };
        let joint = self.joint(bench, &metals, (&sizes, &made), &climate, answer)?;
        self.when_it_runs(bench, &metals, (&sizes, &joint, &finished), &climate, answer)?;
        self.assembly(bench, &metals, &sizes, &joint, answer)?;
        match (forbidden, &finished.middle) {
            (Some(kind), _) => self.must_not_be_reamed(kind, &finished, &joint, answer)?,
            (None, Some(middle)) => {
                let reamed = reamer::Reamed {
                    low: &finished.low,
                    high: &finished.high,
                    middle,
                    pressed: &line::common(&joint.pressed, line.as_ref()),
                };
                self.choose_reamer(bench, &metals, &reamed, &joint, answer)?;
            }
            (None, None) => answer.not_checked(checks::OF_THE_REAMER, &["shaft"]),
        }
        self.all_set_ups(bench, &metals, (&oil, line.as_ref()), (forbidden, &finished), answer)
    }
}

/// The two metals.
struct Metals {
    housing: Material,
    bush: Material,
}

impl ReamBush {
    fn metals(&self, bench: &Bench) -> Result<Metals, Refusal> {
        let housing = self.housing.material.as_ref().or(bench.part.material.as_ref()).map(|at| at.value.clone());
        let housing = housing.ok_or(Refusal::NotGiven { what: "the metal of the housing", key: "material" })?;
        Ok(Metals { housing, bush: self.bush.material.value.clone() })
    }

    fn assembles(&self) -> Assemble {
        self.assemble.as_ref().map_or(Assemble::Press, |at| at.value)
    }

    fn by(&self) -> By {
        self.by.as_ref().map_or(By::Hand, |at| at.value)
    }

    fn count(&self) -> u32 {
        self.bush.count.as_ref().map_or(1, |at| at.value)
    }

    fn forbids(&self, metals: &Metals) -> Option<NotReamed> {
        self.bush.kind.as_ref().and_then(|kind| kind.value.forbids()).or_else(|| forbids_reaming(&metals.bush))
    }

    /// Words that many lines of the card need.
    fn says(&self, metals: &Metals, answer: &mut Answer) {
        answer.fact("housing_material", metals.housing.typed());
        answer.fact("bush_material", metals.bush.typed());
        let count = self.count();
        answer.fact(
            "bushes",
            if count == 1 { Words::of("the-bush") } else { Words::of("each-bush").with("count", count.to_string()) },
        );
        answer.fact("reference_temperature", Fact::figure(REFERENCE, Unit::DegC).to(Decimals::Exactly(0)));
        metals.housing.safety().chain(metals.bush.safety()).for_each(|id| answer.caution(id));
        if self.assemble.is_none() {
            answer.assume_words(Words::of("assemble"));
        }
        if self.by.is_none() {
            answer.assume_words(Words::of("by-hand"));
        }
        let stands = match self.stands.as_ref().map(|at| at.value) {
            None | Some(Stands::Flush) => Words::of("flush"),
            Some(Stands::Proud) => Words::of("a-little-proud"),
            Some(Stands::By(by)) if by.number() < 0.0 => Words::of("below-the-face").with("by", mm(-by.number())),
            Some(Stands::By(by)) => Words::of("proud-by").with("by", mm(by.number())),
        };
        answer.fact("stands", stands);
        if self.stands.is_none() {
            answer.assume_words(Words::of("stands-flush"));
        }
    }
}

/// A length as a sheet shows it.
fn mm(number: f64) -> Fact {
    Fact::mm(number)
}

/// A temperature as a sheet shows it.
fn degrees(number: f64) -> Fact {
    Fact::figure(number, Unit::DegC)
}
