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
use crate::quantity::{
    Celsius, Decimals, MPerMin, Mm, MmPerRev, Newton, NewtonMetre, Quantity, Ratio, RevPerMin, Rounds, Shift, Stress,
    Unit,
};
use crate::reading::Problem;
use crate::shop::By;
use keys::{Assemble, Bush, Clearance, Flange, GaugeBy, Groove, Housing, OilHole, Running, Stands};
use schemars::JsonSchema;
use serde::Deserialize;

const HOUSING_BORE: Name<Mm> = Name::new("housing_bore", "bore of the housing");
const HOUSING_OUTSIDE: Name<Mm> = Name::new("housing_outside", "outside of the housing");
const JOINT_LENGTH: Name<Mm> = Name::new("joint_length", "length over which bush and housing touch");
const BUSH_OUTSIDE: Name<Mm> = Name::new("bush_outside", "outside of the bush");
const BUSH_BORE: Name<Mm> = Name::new("bush_bore", "bore of the bush before pressing");
const BUSH_LENGTH: Name<Mm> = Name::new("bush_length", "length of the bush over all");
const SHAFT: Name<Mm> = Name::new("shaft", "shaft that runs in the bush");
const INTERFERENCE: Name<Shift> = Name::new("interference", "bush outside less housing bore");
const LOSS: Name<Mm> = Name::new("roughness_loss", "interference lost as the surfaces settle");
const LEFT: Name<Shift> = Name::new("interference_left", "interference once the surfaces have settled");
const INTERFERENCE_MIN: Name<Shift> = Name::new("interference_min", "least interference: for grip");
const INTERFERENCE_MAX: Name<Shift> =
    Name::new("interference_max", "greatest interference: for stress, press and heat");
const PRESSURE: Name<Stress> = Name::new("joint_pressure", "pressure in the joint at the greatest interference");
const PRESSURE_NOMINAL: Name<Stress> = Name::new("joint_pressure_nominal", "pressure in the joint as measured");
const PRESSURE_MIN: Name<Stress> = Name::new("joint_pressure_min", "pressure in the joint at the least interference");
const FIRST_YIELD: Name<Stress> =
    Name::new("first_yield_pressure", "pressure at which the bush begins to yield at its bore");
const FULL_YIELD: Name<Stress> = Name::new("full_yield_pressure", "pressure at which the bush yields all through");
const YIELD_INTERFERENCE: Name<Shift> =
    Name::new("first_yield_interference", "interference at which the bush begins to yield");
const HOOP_BUSH: Name<Stress> = Name::new("hoop_bush", "hoop stress at the bore of the bush, greatest interference");
const HOOP_HOUSING: Name<Stress> =
    Name::new("hoop_housing", "hoop stress of the housing at the joint, greatest interference");
const HOUSING_STRESS: Name<Stress> = Name::new(
    "housing_stress",
    "what decides in the housing, greatest interference: hoop and pressure together, of grey iron the hoop",
);
const CLOSE_IN: Name<Mm> = Name::new("close_in", "what pressing closes the bore by");
const CLOSE_IN_MOST: Name<Mm> =
    Name::new("close_in_most", "most that pressing may close the bore by, greatest interference");
const CLOSE_IN_SHARE: Name<Ratio> = Name::new("close_in_share", "close-in over interference");
const BORE_PRESSED: Name<Mm> = Name::new("bore_after_pressing", "bore of the bush once it is pressed in");
const BORE_LOW: Name<Mm> = Name::new("bore_after_low", "smallest that the bore may be once pressed");
const BORE_HIGH: Name<Mm> = Name::new("bore_after_high", "largest that the bore may be once pressed");
const MANDREL_PILOT: Name<Mm> =
    Name::upper("mandrel_pilot", "pilot of the pressing mandrel, free in the closed-in bore");
const MANDREL_SHOULDER: Name<Mm> = Name::new("mandrel_shoulder", "shoulder of the pressing mandrel");
const BOSS_GROWTH: Name<Mm> = Name::new("boss_growth", "what the outside of the housing grows by");
const PRESS_FORCE: Name<Newton> = Name::new("press_force", "greatest force to press it home");
const PRESS_FORCE_NOMINAL: Name<Newton> = Name::new("press_force_nominal", "force to press it home as measured");
const HOLDING_FORCE: Name<Newton> = Name::new("holding_force", "least force that pushes it out");
const SLIP_TORQUE: Name<NewtonMetre> = Name::new("slip_torque", "least torque that turns it in its housing");
const CLEARANCE_MIN: Name<Shift> = Name::lower("clearance_min", "least running clearance");
const CLEARANCE_MAX: Name<Shift> = Name::upper("clearance_max", "greatest running clearance");
const BORE_MIN: Name<Mm> = Name::lower("bore_min", "least finished bore");
const BORE_MAX: Name<Mm> = Name::upper("bore_max", "greatest finished bore");
const BORE_MIDDLE: Name<Mm> = Name::new("bore_middle", "middle of the finished bore");
const MEASURING_WINDOW: Name<Shift> =
    Name::upper("measuring_window", "window of the finished bore, against which an instrument is judged");
const STOCK: Name<Shift> = Name::new("ream_stock", "stock left for the reamer, on diameter");
const REAMER_LOW: Name<Mm> = Name::new("reamer_low", "smallest that the fixed reamer may be");
const REAMER_HIGH: Name<Mm> = Name::new("reamer_high", "largest that the fixed reamer may be");
const FIRST_SETTING: Name<Mm> = Name::new("setting_first", "first setting of the expanding reamer");
const LAST_SETTING: Name<Mm> = Name::new("setting_last", "last setting of the expanding reamer, passed twice");
const PASSES: Name<Ratio> = Name::new("ream_passes", "passes of the reamer, the last one twice");
const ASSEMBLY_CLEARANCE: Name<Mm> = Name::new("assembly_clearance", "room to drop together");
const CHILL_GAIN: Name<Mm> = Name::new("chill_gain", "what chilling takes off the bush");
const HOUSING_TEMPERATURE: Name<Celsius> =
    Name::lower("housing_temperature", "temperature of the housing at which the bush drops in");
const OVEN_SETTING: Name<Celsius> = Name::upper("oven_setting", "what the oven is set to");
const HOUSING_HOTTEST: Name<Celsius> =
    Name::lower("housing_hottest", "hottest that the housing may become at this setting");
const BUSH_TEMPERATURE: Name<Celsius> = Name::new("bush_temperature", "temperature of the bush at which it drops in");
const INTERFERENCE_WARM: Name<Shift> = Name::new("interference_warm", "interference when warm");
const HOOP_HOUSING_WARM: Name<Stress> =
    Name::new("hoop_housing_warm", "hoop stress of the housing at the joint, warm and tightest");
const BUSH_PRESSURE_WARM: Name<Stress> = Name::new("bush_pressure_warm", "pressure on the bush, warm and tightest");
const CLEARANCE_WARM: Name<Shift> = Name::new("clearance_warm", "running clearance when warm");
const CLEARANCE_EVEN: Name<Shift> =
    Name::new("clearance_warm_all_over", "running clearance, shaft as warm as the housing");
const OIL_HOLE: Name<Mm> = Name::new("oil_hole", "diameter of the oil hole");
const OIL_HOLE_AT: Name<Mm> = Name::new("oil_hole_at", "middle of the oil hole from the outer end");
const OIL_SPEED: Name<RevPerMin> = Name::new("oil_hole_spindle_speed", "spindle step for the oil hole");
const OIL_SURFACE: Name<MPerMin> = Name::new("oil_hole_surface_speed", "cutting speed that this step gives the drill");
const REAM_SPEED: Name<RevPerMin> = Name::new("reamer_spindle_speed", "spindle step for the reamer");
const REAM_FEED: Name<MmPerRev> = Name::new("reamer_feed", "least feed of the reamer");
const OUTSIDE_TO_MAKE: Name<Mm> = Name::new("bush_outside_to_make", "outside that the bush is turned to");
const BORE_TO_MAKE: Name<Mm> = Name::new("bush_bore_to_make", "bore that the bush is bored to before pressing");
const OUTSIDE_LEAST: Name<Mm> =
    Name::lower("outside_least_proven", "least outside of the bush at which the joint is proven");
const OUTSIDE_MOST: Name<Mm> =
    Name::upper("outside_most_proven", "greatest outside of the bush at which the joint is proven");
const LINE_PLACE: Name<Ratio> =
    Name::new("in_line_place", "which bush of the line it is: the second has the common set-up");

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
    const VALUES: &'static [Declared] = &[
        HOUSING_BORE.declare(),
        HOUSING_OUTSIDE.declare(),
        JOINT_LENGTH.declare(),
        BUSH_OUTSIDE.declare(),
        BUSH_BORE.declare(),
        BUSH_LENGTH.declare(),
        SHAFT.declare(),
        INTERFERENCE.declare(),
        LOSS.declare(),
        LEFT.declare(),
        INTERFERENCE_MIN.declare(),
        INTERFERENCE_MAX.declare(),
        PRESSURE.declare(),
        PRESSURE_NOMINAL.declare(),
        PRESSURE_MIN.declare(),
        FIRST_YIELD.declare(),
        FULL_YIELD.declare(),
        YIELD_INTERFERENCE.declare(),
        HOOP_BUSH.declare(),
        HOOP_HOUSING.declare(),
        HOUSING_STRESS.declare(),
        CLOSE_IN.declare(),
        CLOSE_IN_MOST.declare(),
        CLOSE_IN_SHARE.declare(),
        BORE_PRESSED.declare(),
        BORE_LOW.declare(),
        BORE_HIGH.declare(),
        MANDREL_PILOT.declare(),
        MANDREL_SHOULDER.declare(),
        BOSS_GROWTH.declare(),
        PRESS_FORCE.declare(),
        PRESS_FORCE_NOMINAL.declare(),
        HOLDING_FORCE.declare(),
        SLIP_TORQUE.declare(),
        CLEARANCE_MIN.declare(),
        CLEARANCE_MAX.declare(),
        BORE_MIN.declare(),
        BORE_MAX.declare(),
        BORE_MIDDLE.declare(),
        MEASURING_WINDOW.declare(),
        STOCK.declare(),
        REAMER_LOW.declare(),
        REAMER_HIGH.declare(),
        FIRST_SETTING.declare(),
        LAST_SETTING.declare(),
        PASSES.declare(),
        ASSEMBLY_CLEARANCE.declare(),
        CHILL_GAIN.declare(),
        HOUSING_TEMPERATURE.declare(),
        OVEN_SETTING.declare(),
        HOUSING_HOTTEST.declare(),
        BUSH_TEMPERATURE.declare(),
        INTERFERENCE_WARM.declare(),
        HOOP_HOUSING_WARM.declare(),
        BUSH_PRESSURE_WARM.declare(),
        CLEARANCE_WARM.declare(),
        CLEARANCE_EVEN.declare(),
        OIL_HOLE.declare(),
        OIL_HOLE_AT.declare(),
        OIL_SPEED.declare(),
        OIL_SURFACE.declare(),
        REAM_SPEED.declare(),
        REAM_FEED.declare(),
        OUTSIDE_TO_MAKE.declare(),
        BORE_TO_MAKE.declare(),
        OUTSIDE_LEAST.declare(),
        OUTSIDE_MOST.declare(),
        LINE_PLACE.declare(),
    ];

    const CHECKS: &'static [CheckRule] = checks::CHECKS;

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
