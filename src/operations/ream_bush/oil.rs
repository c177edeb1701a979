//! Oil holes: when they are drilled, with which drill, how fast.

use super::keys::{DrillWhen, End};
use super::*;
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::ToolMaterial;
use crate::operations::spindle::{speed_habit, step_at_or_below};
use crate::proof::Origin;
use crate::shop::Machine;

/// How the oil holes are drilled.
pub(super) struct OilHoles {
    /// Drill and spindle step of each, with the distance from the outer end.
    pub drilled: Vec<Drilled>,
    /// Whether one is drilled before pressing, and must be lined up.
    pub before: bool,
    /// The machine.
    pub machine: Option<String>,
}

/// One oil hole.
pub(super) struct Drilled {
    pub diameter: f64,
    /// Middle from the outer end, mm.
    pub at: f64,
    pub spindle: Option<f64>,
    pub after_press: bool,
}

impl ReamBush {
    /// The machine named, else the first mill or drill press.
    pub(super) fn drilling_machine<'a>(&self, bench: &Bench<'a>) -> Option<&'a Machine> {
        let shop = bench.shop?;
        let named = self.set_up.as_ref().and_then(|wish| wish.machine.as_ref()).and_then(|at| shop.machine(&at.value));
        named.filter(|m| m.drills().is_some()).or_else(|| shop.machines.iter().find(|m| m.drills().is_some()))
    }

    /// Checks and works every oil hole.
    pub(super) fn oil_holes(&self, bench: &Bench, metals: &Metals, answer: &mut Answer) -> Result<OilHoles, Refusal> {
        let machine = self.drilling_machine(bench);
        let mut plan = OilHoles { drilled: Vec::new(), before: false, machine: machine.map(|m| m.name().to_owned()) };
        for hole in &self.oil_holes {
            let when = hole.drill.as_ref().map_or(DrillWhen::AfterPress, |at| at.value);
            let place = hole.drill.as_ref().map_or(hole.diameter.place, |at| at.place);
            match when {
                DrillWhen::AfterPress => {}
                DrillWhen::BeforePress => {
                    plan.before = true;
                    answer.check(Check::of_kind("oil-hole-before", Verdict::Doubtful).at(place));
                }
                DrillWhen::AfterReam => {
                    answer.check(Check::of_kind("oil-hole-order", Verdict::Fails).at(place));
                }
            }
            let from_outer = hole.from.as_ref().is_none_or(|end| end.value == End::Outer);
            let along = hole.at.value.number();
            let at = if from_outer { along } else { self.bush.length.value.number() - along };
            let diameter: Worked<Mm> = (&hole.diameter).into();
            if plan.drilled.is_empty() {
                answer.record(&OIL_HOLE, diameter.clone());
                answer.record(&OIL_HOLE_AT, Worked::exact(Mm::new(at), Origin::Typed(hole.at.place)));
            }
            let spindle = self.oil_speed(bench, metals, machine, &diameter, plan.drilled.is_empty(), answer)?;
            let after_press = when != DrillWhen::BeforePress;
            plan.drilled.push(Drilled { diameter: diameter.number(), at, spindle, after_press });
        }
        if !plan.drilled.is_empty() {
            if machine.is_none() {
                answer.assume_words(Words::of("steps-not-checked"));
            }
            let said = |hole: &Drilled| {
                Fact::Joined(vec![mm(hole.diameter), " at ".into(), mm(hole.at), " from the outer end".into()])
            };
            answer.fact("oil_holes", Fact::Series(plan.drilled.iter().map(said).collect(), "; "));
        }
        Ok(plan)
    }

    fn oil_speed(
        &self,
        bench: &Bench,
        metals: &Metals,
        machine: Option<&Machine>,
        diameter: &Worked<Mm>,
        first: bool,
        answer: &mut Answer,
    ) -> Result<Option<f64>, Refusal> {
        let drills = bench.shop.map(|shop| shop.drills()).unwrap_or_default();
        let drill = drills.iter().find(|drill| (drill.diameter - diameter.number()).abs() < SAME_DRILL);
        if bench.shop.is_some() && drill.is_none() {
            answer.missing.push(Words::of("drill").with("size", mm(diameter.number())));
            answer.check(Check::of_kind("drill-in-shop", Verdict::Doubtful).with("size", mm(diameter.number())));
        }
        let of = drill.map_or(ToolMaterial::Hss, |drill| drill.material);
        let Ok(start) = speeds::start_speed(&metals.bush, Work::Drill, of) else {
            answer.assume_words(Words::of("no-drill-speed"));
            return Ok(None);
        };
        let Some(cutting) = machine.and_then(Machine::drills) else { return Ok(None) };
        let one = Worked::exact(Ratio::new(1.0), Origin::Assumed("no factor".into()));
        let wanted = speeds::speed_by_factors(&start, &one, &speed_habit(bench))?;
        let revs = speeds::spindle_speed(&wanted, diameter)?;
        let step = step_at_or_below(cutting, &revs, "drill-too-fast", answer);
        if first {
            let step = answer.record(&OIL_SPEED, step.clone());
            answer.record(&OIL_SURFACE, speeds::surface_speed(&step, diameter)?);
        }
        Ok(Some(step.number()))
    }
}

/// Drills nearer than this are the same, mm.
const SAME_DRILL: f64 = 0.005;
