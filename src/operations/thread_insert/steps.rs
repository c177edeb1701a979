//! The set-ups of a thread insert: drill and tap under a spindle, then the bench.

use super::length::mm;
use super::*;
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::{ToolMaterial, constants::constant, threads::tapping};
use crate::operations::spindle::{speed_habit, step_at_or_below};
use crate::operations::{Blank, Cut, Pass, PassKind, SetUp, Station};
use crate::quantity::Unit;
use crate::shop::Machine;

/// The checks that the drilling page shows.
const CUTTING_CHECKS: &[&str] = &[
    "break-through", "wall-for-insert", "while-cutting", "edge-wall", "edge-distance", "old-hole", "drill-in-shop", "tap-in-shop",
    "vintage-form", "pull-out",
];
/// The checks that the bench page shows.
const BENCH_CHECKS: &[&str] = &["insert-in-drawer", "tang-clear", "when-assembled", "pull-out", "vintage-form"];

impl ThreadInsert {
    /// The machine named, else the first mill or drill press.
    pub(super) fn machine<'a>(&self, bench: &Bench<'a>) -> Option<&'a Machine> {
        let shop = bench.shop?;
        let named = self.set_up.as_ref().and_then(|wish| wish.machine.as_ref());
        match named {
            Some(name) => shop.machine(&name.value),
            None => shop.machines.iter().find(|machine| machine.drills().is_some()),
        }
    }
}

impl Case<'_> {
    pub(super) fn set_ups(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.material.safety().for_each(|id| answer.caution(id));
        let machine = self.asked.machine(bench);
        if let Some(machine) = machine {
            answer.fact("machine", machine.name());
            if self.asked.set_up.as_ref().and_then(|wish| wish.machine.as_ref()).is_none() {
                answer.assume_words(Words::of("machine"));
            }
        } else {
            answer.fact("machine", Station::Drilling.text());
            answer.assume_words(Words::of("steps-not-checked"));
        }
        let cutting = self.cutting(bench, machine, answer)?;
        let bench_work = self.bench_work(answer);
        answer.set_ups.extend([cutting, bench_work]);
        Ok(())
    }

    fn cutting(&self, bench: &Bench, machine: Option<&Machine>, answer: &mut Answer) -> Result<SetUp, Refusal> {
        let mut set_up = SetUp::at("drill-and-tap", Station::Drilling);
        set_up.machine = machine.map(|m| m.name().to_owned());
        set_up.checks = CUTTING_CHECKS;
        self.hold(&mut set_up);
        let drill_speed = self.drill_speed(bench, machine, answer)?;
        let feed = speeds::drill_feed(self.hole.drill.number())?;
        let (low, high) = feed.band().unwrap_or((feed.number(), feed.number()));
        let feed = |number| Fact::figure(number, Unit::MmPerRev).to(Decimals::AsTyped);
        answer.fact("drill_feed", Fact::span(feed(low), feed(high)));
        self.tap_figures(bench, machine, answer)?;

        set_up.step("clock-on-old-hole");
        if self.asked.hole.value == HoleKind::Through || self.beyond.is_some() {
            set_up.step("open-and-blank-beyond");
            set_up.cautions.push("chips-beyond");
        }
        let depth = |key: &str| answer.value(key).map(|value| value.number);
        let drilled = depth("drilled_depth").unwrap_or_default();
        let opening = self.opens_old_hole();
        if self.asked.hole.value == HoleKind::Blind {
            set_up.step(if answer.value("stop_travel_in_hole").is_some() { "zero-face-or-hole" } else { "zero-face" });
        }
        let cut = Cut {
            tool: format!("drill {}", bench.say(&mm(self.hole.drill.number()))),
            spindle: drill_speed,
            feed: None,
            passes: vec![Pass { kind: PassKind::Depth, depth: drilled, dial: self.stop_words(bench, answer) }],
            minutes: 2.0,
        };
        set_up.cut(Words::of(if opening { "open-old-hole" } else { "drill" }), cut);
        if self.countersink {
            set_up.step("countersink");
        }
        set_up.step("chips-out");
        let tap = Cut {
            tool: format!("insert tap {}, {} lead", self.asked.thread.value.name(), self.hole.lead.text()),
            spindle: None,
            feed: Some(self.pitch.number()),
            passes: vec![Pass { kind: PassKind::Depth, depth: depth("tap_depth").unwrap_or(drilled), dial: None }],
            minutes: 5.0,
        };
        let through = self.asked.hole.value == HoleKind::Through;
        set_up.cut(Words::of(if through { "tap-through" } else { "tap-blind" }), tap);
        set_up.step("clean-thread").step("measure-depth");
        set_up.sketch = sketch::hole(self, answer);
        set_up.minutes += 15.0;
        set_up.needs = vec![format!("{}:washed", bench.part.name), format!("{}:measured", bench.part.name)];
        set_up.leaves = vec![format!("{}:insert-hole-tapped", bench.address)];
        set_up.cautions.extend(["clamp-never-freehand", "swarf-and-eyes"]);
        set_up.blanks = self.cutting_blanks(answer);
        Ok(set_up)
    }

    fn hold(&self, set_up: &mut SetUp) {
        match &self.asked.hold {
            Some(hold) => {
                set_up.hold.push(Words::of("held-in").with("in", hold.held_in.value.text()));
                if let Some(true_within) = &hold.true_within {
                    set_up.hold.push(Words::of("true-within").with("within", mm(true_within.value.number())));
                }
            }
            None => set_up.hold.push(Words::of("clamp-flat")),
        }
        set_up.hold.push(Words::of("square-to-face"));
    }

    /// A drill in an old hole has no centre to cut: half speed.
    fn opens_old_hole(&self) -> bool {
        self.present_hole.as_ref().is_some_and(|old| old.number() > 0.0)
    }

    fn drill_speed(&self, bench: &Bench, machine: Option<&Machine>, answer: &mut Answer) -> Result<Option<f64>, Refusal> {
        let start = speeds::start_speed(&self.material, Work::Drill, self.hole.drill_material)?;
        let opening = match self.opens_old_hole() {
            true => constant("speed-factor-opening-an-old-hole")?,
            false => Worked::exact(Ratio::new(1.0), crate::proof::Origin::Assumed("no factor".into())),
        };
        let wanted = speeds::speed_by_factors(&start, &opening, &speed_habit(bench))?;
        let revs = speeds::spindle_speed(&wanted, &self.hole.drill)?;
        let Some(machine) = machine.and_then(Machine::drills) else {
            answer.fact("drill_speed_wanted", Fact::figure(revs.number(), Unit::RevPerMin));
            return Ok(None);
        };
        let step = step_at_or_below(machine, &revs, "drill-too-fast", answer);
        let step = answer.record(&DRILL_SPEED, step);
        let real = speeds::surface_speed(&step, &self.hole.drill)?;
        answer.record(&DRILL_SURFACE, real);
        Ok(Some(step.number()))
    }

    fn tap_figures(&self, bench: &Bench, machine: Option<&Machine>, answer: &mut Answer) -> Result<(), Refusal> {
        let form = self.asked.thread.value.form();
        let half = Worked::assumed(crate::quantity::Angle::new(form.half_angle()), "half the flank angle of the form");
        let fine = self.asked.thread.value.row().series == crate::handbook::threads::series::Series::Fine;
        let force = tapping::specific_force(&self.material);
        let factor = tapping::hand_tap_factor(self.hole.lead, self.material.kind(), fine);
        match (force, factor) {
            (Ok(force), Ok(factor)) => {
                let torque = tapping::tap_torque(&half, &force, &factor, &self.hole.major_min, &self.hole.drill)?;
                answer.record(&TAP_TORQUE, torque);
            }
            _ => answer.assume_words(Words::of("no-tap-torque")),
        }
        let by_machine = speeds::start_speed(&self.material, Work::Tap, ToolMaterial::Hss);
        if let (Ok(start), Some(machine)) = (by_machine, machine.and_then(Machine::drills)) {
            let plain = Worked::exact(Ratio::new(1.0), crate::proof::Origin::Assumed("no factor".into()));
            let wanted = speeds::speed_by_factors(&start, &plain, &speed_habit(bench))?;
            let revs = speeds::spindle_speed(&wanted, &self.hole.major_min)?;
            let step = step_at_or_below(machine, &revs, "tap-too-fast", answer);
            answer.record(&TAP_SPEED, step);
        }
        Ok(())
    }

    /// Both stop travels with the words for their zero: mixing them up costs the wall.
    fn stop_words(&self, bench: &Bench, answer: &Answer) -> Option<String> {
        let travel = |key: &str| answer.value(key).map(|value| bench.say(&mm(value.number).to(Decimals::Exactly(2))));
        let face = travel("stop_travel_from_face").map(|t| format!("stop {t} from a touch on the face"));
        let hole = travel("stop_travel_in_hole").map(|t| format!("or {t} from a touch in the old hole"));
        match (face, hole) {
            (Some(face), Some(hole)) => Some(format!("{face}; {hole}")),
            (face, _) => face,
        }
    }

    fn bench_work(&self, answer: &mut Answer) -> SetUp {
        let mut set_up = SetUp::at("fit-the-insert", Station::Bench);
        set_up.checks = BENCH_CHECKS;
        set_up.hold.push(Words::of("face-up"));
        set_up.step("wash-hole").step("wind-in").step("check-set-down");
        match (self.tang, self.asked.hole.value) {
            (Tang::Out, HoleKind::Through) => set_up.step("tang-out-through"),
            (Tang::Out, HoleKind::Blind) => set_up.step("tang-out-blind"),
            // Without a length there is no reach to name, and nothing is fitted.
            (Tang::In, _) if answer.value(super::REACH_MOST.key).is_none() => &mut set_up,
            (Tang::In, _) => set_up.step("tang-in"),
        };
        if self.asked.hole.value == HoleKind::Through {
            set_up.step("close-beyond");
            set_up.cautions.push("leaks-along-the-coil");
        }
        set_up.step("try-bolt");
        set_up.sketch = sketch::assembled(self, answer);
        set_up.minutes = 15.0;
        set_up.needs = set_up_needs(answer);
        set_up.leaves = Vec::new();
        set_up.cautions.push("coil-springs-out");
        set_up.blanks = vec![Blank { words: Words::of("set-down-left"), as_found: None, target: answer.value("set_down").map(|v| Fact::Joined(vec!["up to ".into(), mm(v.number)])) }];
        set_up
    }

    fn cutting_blanks(&self, answer: &Answer) -> Vec<Blank> {
        let said = |key: &str| answer.value(key).map(Value::fact);
        let found = |reading: Option<&Worked<Mm>>| reading.map(|r| Fact::doubted(r.number(), r.plus_minus(), Unit::Mm));
        vec![
            Blank { words: Words::of("wall-found"), as_found: found(Some(&self.wall)), target: None },
            Blank { words: Words::of("depth-left"), as_found: found(self.present_depth.as_ref()), target: said("drilled_depth") },
            Blank {
                words: Words::of("minor-left"),
                as_found: found(self.present_hole.as_ref()),
                target: said("hole_minor_min").zip(said("hole_minor_max")).map(|(low, high)| Fact::span(low, high)),
            },
        ]
    }
}

/// The bench work waits for the tapped hole.
fn set_up_needs(answer: &Answer) -> Vec<String> {
    answer.set_ups.first().map(|first| first.leaves.clone()).unwrap_or_default()
}
