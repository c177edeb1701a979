//! Oil holes: when they are drilled, with which drill, how fast.

use super::checks::LIKE_ANY_HOLE;
use super::keys::{DrillWhen, End, OilHole, ReamBush};
use super::names::{OIL_AFTER, OIL_HOLE, OIL_HOLE_AT, OIL_SPEED, OIL_SURFACE};
use crate::handbook::ToolMaterial;
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::speeds::{self, Work};
use crate::operations::kit::{self, by_its_drawer, mm};
use crate::operations::press_joint::Metals;
use crate::operations::press_joint::names::joint::JOINT_LENGTH;
use crate::operations::spindle::{Begins, any_motor};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Keep, Origin, Refusal, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Ratio, Shift, figure};
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
        kit::machine_for(bench, self.set_up.as_ref(), kit::that_drills)
    }

    /// Checks and works every oil hole.
    pub(super) fn oil_holes(&self, bench: &Bench, metals: &Metals, answer: &mut Answer) -> Result<OilHoles, Refusal> {
        let machine = self.drilling_machine(bench);
        let mut plan = OilHoles { drilled: Vec::new(), before: false, machine: machine.map(|m| m.name().to_owned()) };
        if self.oil_holes.is_empty() {
            answer.does_not_apply(&["oil-hole-order", "clear-of-the-ends", "drill-in-shop", "drill-too-fast"]);
            answer.does_not_apply(&LIKE_ANY_HOLE);
            return Ok(plan);
        }
        for hole in &self.oil_holes {
            let when = hole.drill.as_ref().map_or(DrillWhen::AfterPress, |at| at.value);
            let place = hole.drill.as_ref().map_or(hole.diameter.place, |at| at.place);
            plan.before |= when == DrillWhen::BeforePress;
            let (verdict, cure) = match when {
                DrillWhen::AfterPress => (Verdict::Proven, "drill-it-before-reaming"),
                DrillWhen::BeforePress => (Verdict::Doubtful, "line-it-up"),
                DrillWhen::AfterReam => (Verdict::Fails, "drill-it-before-reaming"),
            };
            answer.check(Check::of_kind("oil-hole-order", verdict).at(place)).remedy(Words::of(cure));
            let from_outer = hole.from.as_ref().is_none_or(|end| end.value == End::Outer);
            let along = hole.at.value.number();
            let at = if from_outer { along } else { self.bush.length.value.number() - along };
            let first = plan.drilled.is_empty();
            if first {
                answer.record(&OIL_HOLE, (&hole.diameter).into());
                answer.record(&OIL_HOLE_AT, Worked::exact(Mm::new(at), Origin::Typed(hole.at.place)));
            }
            let drill = self.drill(bench, hole, answer)?;
            let spindle = self.oil_speed(metals, (bench, machine), &drill, first, answer)?;
            let after_press = when != DrillWhen::BeforePress;
            plan.drilled.push(Drilled { diameter: drill.0.number(), at, spindle, after_press });
        }
        let after = plan.drilled.iter().filter(|hole| hole.after_press).count();
        if after > 0 {
            answer.record(
                &OIL_AFTER,
                Worked::exact(Ratio::new(after as f64), Origin::Assumed("as they were asked for".into())),
            );
        }
        self.clear_of_the_ends(bench, &plan.drilled, answer)?;
        let said = |hole: &Drilled| {
            Words::of("hole-from-the-outer-end").with("size", mm(hole.diameter)).with("at", mm(hole.at)).into()
        };
        answer.fact("oil_holes", Fact::Series(plan.drilled.iter().map(said).collect(), "; "));
        Ok(plan)
    }

    /// Metal between each hole and the nearer end of what of the bush lies in its housing, and between two holes: the least of all. What
    /// stands out of the housing, at either end, carries no oil.
    fn clear_of_the_ends(&self, bench: &Bench, holes: &[Drilled], answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "clear-of-the-ends";
        let outer = self.asked().length_outside();
        let length = self.bush.length.value.number();
        let inner = answer.value(JOINT_LENGTH.key).map_or(length, |joint| (outer + joint.number).min(length));
        let ends =
            holes.iter().map(|hole| ((hole.at - outer).min(inner - hole.at) - hole.diameter / 2.0, hole.diameter));
        let pairs =
            holes.iter().enumerate().flat_map(|(at, one)| holes.iter().skip(at + 1).map(move |other| (one, other)));
        let between = pairs.map(|(one, other)| {
            let both = (one.diameter + other.diameter) / 2.0;
            ((one.at - other.at).abs() - both, one.diameter.max(other.diameter))
        });
        let least = ends.chain(between).min_by(|a, b| (a.0 / a.1).total_cmp(&(b.0 / b.1)));
        let Some((left, drill)) = least else { return Ok(()) };
        let left = Worked::assumed(Shift::new(left), "metal beside a hole");
        let share = |name: &'static str| {
            Ok::<_, Refusal>(Worked::assumed(Shift::new(drill * row(name)?.value), "of the drill"))
        };
        let (proven, fails) = (share("oil-hole-end-share")?, share("oil-hole-end-least-share")?);
        let check = Check::judge_two(ID, (&left, &proven), Keep::AtLeast, (&left, &fails), bench.guard());
        let place = self.oil_holes.first().map_or(self.bush.length.place, |hole| hole.at.place);
        answer.check(check.at(place));
        Ok(())
    }

    /// The drill of the shop that is near enough to an oil hole; none over it where one under it is as near.
    fn drill(&self, bench: &Bench, hole: &OilHole, answer: &mut Answer) -> Result<(Worked<Mm>, ToolMaterial), Refusal> {
        let wanted: Worked<Mm> = (&hole.diameter).into();
        let size = wanted.number();
        let Some(shop) = bench.shop else {
            answer.no_shop(&["drill-in-shop"]);
            return Ok((wanted, ToolMaterial::Hss));
        };
        let share = constant::<Ratio>("drill-near-share")?.number() * size;
        let near = constant::<Mm>("drill-near-least")?.number().max(share);
        let drills = shop.drills();
        // The oilway is not known but by its hole: of two as near, the smaller.
        let off = |diameter: f64| ((diameter - size).abs(), diameter > size);
        let best = drills.iter().min_by(|a, b| {
            let (a, b) = (off(a.diameter), off(b.diameter));
            a.0.total_cmp(&b.0).then(a.1.cmp(&b.1))
        });
        // 1e-9: a drill that is just near enough is.
        let best = best.filter(|drill| (drill.diameter - size).abs() <= near + 1e-9);
        let verdict = if best.is_some() { Verdict::Proven } else { Verdict::Doubtful };
        answer.check(Check::of_kind("drill-in-shop", verdict).with("size", by_its_drawer(size)));
        match best {
            Some(drill) if (drill.diameter - size).abs() <= SAME_DRILL => Ok((wanted, drill.material)),
            Some(drill) => {
                let rule = format!("the drill of the shop nearest to {} mm", figure(size));
                let origin = Origin::Picked { rule, wanted: wanted.origin().clone() };
                Ok((Worked::exact(Mm::new(drill.diameter), origin), drill.material))
            }
            None => {
                answer.missing.push(Words::of("drill").with("size", by_its_drawer(size)));
                Ok((wanted, ToolMaterial::Hss))
            }
        }
    }

    fn oil_speed(
        &self,
        metals: &Metals,
        (bench, machine): (&Bench, Option<&Machine>),
        (diameter, of): &(Worked<Mm>, ToolMaterial),
        first: bool,
        answer: &mut Answer,
    ) -> Result<Option<f64>, Refusal> {
        let Ok(begins) = Begins::plainly(&metals.bush, (Work::Drill, *of)) else {
            answer.not_checked(&["drill-too-fast"], &["bush.material"]);
            answer.assume_words(Words::of("no-drill-speed"));
            return Ok(None);
        };
        let Some(cutting) = machine.and_then(Machine::drills) else {
            if bench.shop.is_some() {
                // A drill without a spindle over the hole is a drill by hand.
                let check =
                    Check::of_kind("drill-too-fast", Verdict::Doubtful).with("over", Fact::named("no-step-known"));
                answer.check(check);
                answer.missing.push(Words::of("drilling-machine"));
            } else {
                answer.no_shop(&["drill-too-fast"]);
            }
            answer.assume_words(Words::of("steps-not-checked"));
            return Ok(None);
        };
        let step = begins.step((bench, cutting), diameter, "drill-too-fast", any_motor, answer)?;
        if !answer.checks.iter().any(|check| check.id == "drill-too-fast") {
            answer.check(Check::of_kind("drill-too-fast", Verdict::Proven).with("over", ""));
        }
        if first {
            let step = answer.record(&OIL_SPEED, step.clone());
            answer.record(&OIL_SURFACE, speeds::surface_speed(&step, diameter)?);
        }
        Ok(Some(step.number()))
    }
}

/// Drills nearer than this are the same, mm: the noise of an inch size.
const SAME_DRILL: f64 = 0.0005;
