//! The set-ups of a thread insert: drill and tap under a spindle, then the bench.

use super::case::Case;
use super::keys::{HoleKind, Tang, ThreadInsert, ZeroKind};
use super::names::{DRILLED_DEPTH, MINOR_MIN, REACH_MOST, SET_DOWN, STOP_TRAVEL, TAP_OUT, TAP_TURNS, WALL};
use super::sketch;
use crate::handbook::cutting::speeds;
use crate::handbook::materials::groups::Kind;
use crate::handbook::set_up_minutes;
use crate::handbook::{StateKind, ToolMaterial};
use crate::operations::Lead;
use crate::operations::hole_making;
use crate::operations::kit::mm;
use crate::operations::{
    Answer, Bench, Blank, Cut, Drawer, HeldIn, HoldPoint, Pass, PassKind, Pull, SetUp, Stage, Station, kit,
};
use crate::proof::{Dialled, Fact, Refusal, Side, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Unit};
use crate::shop::{Gauge, Machine};

/// What each set-up cannot undo: the hole with its strength, then the tightened bolt.
pub(super) const STAGES: &[Stage] = &[
    Stage::of(
        &["drill-and-tap"],
        &[
            "break-through",
            "wall-for-insert",
            "while-cutting",
            "old-hole",
            "drill-in-limits",
            "zero",
            "insert-in-drawer",
            "pull-out",
            "held",
            "grip",
            "grip-looked-at",
            "grip-length",
            "edge-wall",
            "outlasts",
            "drill-too-fast",
            "torque",
            "tap-too-fast",
            "edge-distance",
        ],
    ),
    Stage::of(&["fit-the-insert"], &["clamping", "bolt-clear-of-floor", "tang-clear", "when-assembled"]),
];

impl ThreadInsert {
    /// The machine named, else the first mill or drill press.
    pub(super) fn machine<'a>(&self, bench: &Bench<'a>) -> Option<&'a Machine> {
        hole_making::machine(bench, self.set_up.as_ref())
    }
}

impl Case<'_> {
    pub(super) fn set_ups(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.material.safety().for_each(|id| answer.caution(id));
        if self.material.kind() == Kind::Magnesium {
            answer.caution("magnesium-joint");
        }
        let machine = self.asked.machine(bench);
        hole_making::named_machine(machine, self.asked.set_up.as_ref(), answer);
        let cutting = self.cutting(bench, machine, answer)?;
        let bench_work = self.bench_work(bench, answer)?;
        answer.set_ups.extend([cutting, bench_work]);
        Ok(())
    }

    fn cutting(&self, bench: &Bench, machine: Option<&Machine>, answer: &mut Answer) -> Result<SetUp, Refusal> {
        let mut set_up = SetUp::at("drill-and-tap", Station::Drilling);
        set_up.on(machine.map(Machine::name));
        self.hold(&mut set_up);
        let tap = ("tap-hard-enough", self.asked.thread.place);
        hole_making::hard_enough(bench, &self.material, ToolMaterial::Hss, tap, answer)?;
        let effort = self.effort(bench, answer)?;
        let drill_speed = self.drill_speed(bench, (machine, effort.torque.as_ref()), answer)?;
        effort.against_the_machine(bench, drill_speed.as_ref(), machine, answer)?;
        self.held(bench, &effort, answer)?;
        let feed = speeds::drill_feed(self.hole.drill.number())?;
        let (low, high) = feed.band().unwrap_or((feed.number(), feed.number()));
        let feed = |number| Fact::figure(number, Unit::MmPerRev);
        answer.fact("drill_feed", Fact::span(feed(low), feed(high)));
        self.tap_figures(bench, machine, answer)?;

        hole_making::try_the_grip(&mut set_up, self.asked.hold.as_ref(), answer);
        let through = self.asked.hole.value == HoleKind::Through;
        let opening = self.asked.opens_old_hole();
        set_up.step(if opening { "clock-on-old-hole" } else { "set-out-new-hole" });
        if opening {
            set_up.warns(&["opening-hole"]);
        }
        if through && self.asked.spark_plug() {
            set_up.step("head-off");
        } else if through {
            set_up.step("open-and-blank-beyond").step("rags-out-of-reach");
            set_up.warns(&["chips-beyond"]);
        }
        let depth = |key: &str| answer.value(key).map(|value| value.number);
        // A through hole has no depth to aim at: the wall is what is cut.
        let drilled = depth("drilled_depth").unwrap_or(self.wall.number());
        let gauge = kit::gauge_used(bench, self.wall.number(), Gauge::Depth, true);
        set_up.hold_at(
            Words::of("measure-wall"),
            HoldPoint::of(WALL.key, 1, gauge, bench.guard()).looked_at_unless(!through).then("outside-do-not-drill"),
        );
        set_up.step(self.zero_step(answer));
        let drill = Words::of("drill-of").with("size", kit::drill_size(self.hole.drill.number()));
        set_up.lies.extend(kit::drill_lies(bench, &drill, self.hole.drill.number()));
        let cut = Cut {
            tool: drill,
            spindle: drill_speed.as_ref().map(Worked::number),
            feed: None,
            passes: vec![Pass { kind: PassKind::Depth, depth: drilled, dial: self.stop(answer), leaves: None }],
            minutes: set_up_minutes::start("hole, drilling")?,
        };
        let words = match (through, opening) {
            (false, false) => "drill",
            (false, true) => "open-old-hole",
            (true, false) => "drill-through",
            (true, true) => "open-old-hole-through",
        };
        // Into an old hole a drill grabs: a caution says so. That it grabs again as it comes out is a step of its own.
        if opening && through {
            set_up.step("old-hole-grabs-twice");
        }
        self.zero.dial.told(&mut set_up);
        set_up.cut(Words::of(words), cut);
        if self.countersink {
            set_up.step("countersink");
        }
        set_up.step(if through { "chips-out" } else { "chips-out-of-depth" });
        let turns = depth(TAP_TURNS.key).map(|turns| Dialled::Turns { turns });
        let tap = Cut {
            tool: Words::of("insert-tap-of")
                .with("thread", self.asked.thread.value.name())
                .with("lead", self.hole.lead.text()),
            spindle: None,
            feed: Some(self.pitch.number()),
            passes: vec![Pass {
                kind: PassKind::Depth,
                depth: depth("tap_depth").unwrap_or(drilled),
                dial: turns,
                leaves: None,
            }],
            minutes: set_up_minutes::start("hole, tapping")?,
        };
        let out = answer.value(TAP_OUT.key).is_some_and(|out| out.number > 0.0);
        let words = match (through, out) {
            (false, _) => "tap-blind",
            (true, true) => "tap-through",
            (true, false) => "tap-inside-the-wall",
        };
        if through {
            set_up.step(if out { "collar-through" } else { "collar-inside-the-wall" });
        }
        if self.hole.lead == Lead::Bottoming {
            set_up.step("plug-first");
        }
        set_up.cut(Words::of(words), tap);
        set_up.step("clean-thread");
        if through {
            set_up.step("look-behind");
        }
        set_up.sketch = sketch::hole(self, answer);
        set_up.takes(set_up_minutes::start("hole, setting up")?);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed, StateKind::Measured]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::Tapped)];
        set_up.warns(&["clamp-never-freehand", "swarf-and-eyes"]);
        set_up.blanks = self.cutting_blanks(bench, answer);
        Ok(set_up)
    }

    fn hold(&self, set_up: &mut SetUp) {
        let hold = self.asked.hold.as_ref();
        kit::rig(set_up, hold, HeldIn::Clamps);
        set_up.hold.push(kit::held_in(hold, "clamp-flat").into());
        set_up.hold.extend(kit::trued(hold).map(Into::into));
        set_up.hold.push(Words::of("square-to-face").into());
    }

    /// The travel of the stop, down to a whole division: the only depth that the drill's line names.
    fn stop(&self, answer: &Answer) -> Option<Dialled> {
        let (_, set) = answer.facts.iter().find(|fact| fact.0 == "stop_set")?;
        let Fact::Figure { number, .. } = set else { return None };
        Some(self.zero.dial.set(*number))
    }

    /// The one sentence of the zero: what touches, what is touched, the number.
    fn zero_step(&self, answer: &Answer) -> &'static str {
        match (self.zero.kind, answer.value(STOP_TRAVEL.key).is_some()) {
            (_, false) => "zero-cannot-be-taken",
            (ZeroKind::Face, _) => "zero-face",
            (ZeroKind::Strip, _) => "zero-strip",
            (ZeroKind::Corner, _) => "zero-corner",
            (ZeroKind::OldHole, _) => "zero-old-hole",
        }
    }

    fn bench_work(&self, bench: &Bench, answer: &mut Answer) -> Result<SetUp, Refusal> {
        let mut set_up = SetUp::at("fit-the-insert", Station::Bench);
        // No coil is left half wound in.
        set_up.pause = false;
        set_up.hold.push(Words::of("face-up").into());
        set_up.step("wash-hole").step("wind-in").step("check-set-down");
        match (self.tang, self.asked.hole.value) {
            (Tang::Out, HoleKind::Through) => set_up.step("tang-out-through"),
            (Tang::Out, HoleKind::Blind) => set_up.step("tang-out-blind"),
            // Without a length there is no reach to name, and nothing is fitted.
            (Tang::In, _) if answer.value(REACH_MOST.key).is_none() => &mut set_up,
            (Tang::In, _) => set_up.step("tang-in"),
        };
        if self.asked.hole.value == HoleKind::Through {
            set_up.step("close-beyond");
            set_up.warns(&["insert-leak"]);
        }
        set_up.step("try-bolt");
        if let Some(torque) = self.asked.bolt.as_ref().and_then(|bolt| bolt.torque.as_ref().zip(Some(bolt))) {
            let (torque, bolt) = torque;
            let torque = Fact::figure(torque.value.number(), Unit::Nm).to(Decimals::AsTyped);
            let words = match bolt.threads.as_ref().map(|threads| threads.value) {
                Some(threads) => Words::of("tighten").with("threads", threads.text()),
                None => Words::of("tighten-threads-not-said"),
            };
            set_up.step_with(words.with("torque", torque));
        }
        set_up.sketch = sketch::assembled(self, answer);
        // What the drawer lacks stands on the missing list.
        let known = answer.facts.iter().any(|(key, _)| *key == "length");
        if known && !answer.missing.iter().any(|line| line.id == "insert") {
            set_up.pulls.push(Pull { drawer: Drawer::Inserts, item: Words::of("insert-to-fit"), count: 1 });
        }
        set_up.takes(set_up_minutes::start("insert, fitting")?);
        set_up.needs = vec![kit::of_this(bench, StateKind::Tapped)];
        set_up.leaves = vec![kit::of_this(bench, StateKind::InsertFitted)];
        set_up.warns(&["coil-springs-out"]);
        let (least, most) = self.set_down()?;
        let target = kit::read_inside(bench, (least.number(), most.number()), Gauge::Depth);
        let set_down = kit::blank("set-down-left", None, Some(target)).left_as(&SET_DOWN);
        set_up.blanks = vec![kit::read_with(set_down, 1, bench, Gauge::Depth)];
        Ok(set_up)
    }

    /// The limits of the bore before tapping, each inside what is sure of it: a lower one rounded up, an upper one down.
    fn minor_limits(&self, answer: &Answer, guard: f64) -> Option<Fact> {
        let low = answer.value(MINOR_MIN.key)?.number;
        let high = self.hole.minor_max.worst_number(Side::Low, guard);
        Some(Fact::span(mm(low), mm(high)))
    }

    fn cutting_blanks(&self, bench: &Bench, answer: &Answer) -> Vec<Blank> {
        let found = |reading: Option<&Worked<Mm>>| reading.map(|r| Fact::doubted(r.number(), r.plus_minus(), Unit::Mm));
        let with = |blank: Blank, gauge: Gauge| kit::read_with(blank, 1, bench, gauge);
        let minor = self.minor_limits(answer, bench.guard());
        let mut all = vec![
            with(kit::blank("wall-found", found(Some(&self.wall)), None), Gauge::Depth),
            with(kit::blank("minor-left", found(self.present_hole.as_ref()), minor), Gauge::Inside),
        ];
        // A through hole has no depth to aim at.
        if self.asked.hole.value == HoleKind::Blind {
            // The old hole is found to its deepest point, the new one measured at its full diameter.
            let old = found(self.present_depth.as_ref());
            all.extend(old.map(|old| with(kit::blank("old-depth", Some(old), None), Gauge::Depth)));
            let left = kit::blank("depth-left", None, super::left::asked(answer, DRILLED_DEPTH.key));
            all.push(with(left.wanted_as(&DRILLED_DEPTH), Gauge::Depth));
        }
        all
    }
}
