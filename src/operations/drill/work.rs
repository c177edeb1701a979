//! The hole: how deep, what is left, how fast, with what torque; and its one set-up.

use super::case::Case;
use super::keys::Drill;
use super::names::{
    DEPTH, DEPTH_TO_POINT, DIAMETER, EDGE_WALL, FEED, LEFT_BEHIND, METAL_LEFT, POINT, SPEED, STOP_TRAVEL, SURFACE,
    THRUST, TIME, TIP_BEHIND, TORQUE, TORQUE_THERE, WALL, WALL_NEEDED,
};
use super::sketch;
use crate::handbook::constants::constant;
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::cutting::{cutting_force, drill_forces, drilling, times};
use crate::handbook::materials::groups::Kind;
use crate::handbook::threads::insert;
use crate::handbook::{Material, StateKind, ToolMaterial, set_up_minutes};
use crate::operations::hole_making::{self, read_at};
use crate::operations::kit::{self, hard, mm, mm_as_typed};
use crate::operations::{Answer, Bench, Cut, HeldIn, HoldPoint, Pass, PassKind, SetUp, Station};
use crate::proof::{
    Cause, Check, Counted, Dialled, Fact, Keep, Mark, Origin, Refusal, Side, Source, Verdict, Words, Worked,
};
use crate::quantity::{Angle, Mm, MmPerRev, Quantity, Ratio, RevPerMin};
use crate::shop::{Gauge, Machine};

/// How fast it runs.
struct Run {
    step: Option<Worked<RevPerMin>>,
    feed: Worked<MmPerRev>,
    /// Whether the hole is so deep that the drill must come out for its chips.
    deep: bool,
}

impl Drill {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let machine = hole_making::machine(bench, self.set_up.as_ref());
        let case = self.case(bench, machine, answer)?;
        let depth =
            if self.goes_through() { self.through(bench, &case, answer)? } else { self.blind(bench, &case, answer)? };
        self.beside(bench, &case, answer)?;
        hole_making::held_against_the_drill(self.hold.as_ref(), answer);
        let run = self.run(bench, &case, &depth, machine, answer)?;
        self.set_up_of(bench, &case, &run, machine, answer)
    }

    fn case(&self, bench: &Bench, machine: Option<&Machine>, answer: &mut Answer) -> Result<Case, Refusal> {
        let material = bench.part.material.as_ref().map(|at| at.value.clone());
        let material = material.ok_or(Refusal::NotGiven { what: "the metal of the part", key: "material" })?;
        material.safety().for_each(|id| answer.caution(id));
        match material.kind() {
            Kind::Lining => {
                answer.check(Check::of_kind("never-cut", Verdict::Fails));
            }
            _ => answer.does_not_apply(&["never-cut"]),
        }
        let diameter = answer.record(&DIAMETER, (&self.diameter).into());
        let (tool, angle) = self.picked(bench, answer)?;
        self.hard_enough(bench, &material, tool, answer)?;
        let point = answer.record(&POINT, insert::drill_point(&diameter, &angle)?);
        let wall = answer.read(bench, "wall", Gauge::Depth, &self.wall)?;
        let wall = answer.record(&WALL, wall);
        let stop = hole_making::depth_stop(bench, machine, answer)?;
        let division = hole_making::quill_division(machine)?;
        Ok(Case { material, diameter, wall, point, angle, tool, stop, division })
    }

    /// The drill of that size in the drawer, with its point; what lacks is a doubt and a line on the missing list.
    fn picked(&self, bench: &Bench, answer: &mut Answer) -> Result<(ToolMaterial, Worked<Angle>), Refusal> {
        const ID: &str = "drill-in-drawer";
        let drills = bench.shop.map(|shop| shop.drills()).unwrap_or_default();
        let size = self.diameter.value.number();
        let owned = drills.iter().find(|drill| (drill.diameter - size).abs() < 1e-6);
        match (owned, bench.shop) {
            (_, None) => answer.no_shop(&[ID]),
            (Some(_), _) => {
                answer.check(Check::of_kind(ID, Verdict::Proven).at(self.diameter.place));
            }
            (None, _) => {
                answer.missing.push(Words::of("drill").with("size", mm_as_typed(size)));
                answer.check(Check::of_kind(ID, Verdict::Doubtful).at(self.diameter.place));
            }
        }
        let tool = owned.map_or(ToolMaterial::Hss, |drill| drill.material);
        let angle = match owned.and_then(|drill| drill.point.as_ref()) {
            Some(typed) => typed.into(),
            None => answer.assume("point-angle", constant("drill-point-angle")?),
        };
        Ok((tool, angle))
    }

    /// High-speed steel goes soft on a hard part, and a drill that rubs breaks in its hole.
    fn hard_enough(
        &self,
        bench: &Bench,
        material: &Material,
        tool: ToolMaterial,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let hardness = bench.part.hardness.as_ref().map(|at| at.value);
        let by_row = hardness.is_none() && material.kind() == Kind::HardSteel;
        let soft = tool.is_steel() && (by_row || hard::at_least(hardness, "hss-hardest")?);
        let verdict = match (soft, tool.is_carbide() && hard::over(hardness, "carbide-hardest")?) {
            (true, _) | (_, true) => Verdict::Fails,
            _ => Verdict::Proven,
        };
        answer.check(Check::of_kind("drill-hard-enough", verdict).at(self.diameter.place));
        Ok(())
    }

    /// The travel of the stop from the face, down to whole divisions; what the tip then reaches, with the doubt of the stop.
    fn reached(case: &Case, depth: &Worked<Mm>, answer: &mut Answer) -> Result<Worked<Mm>, Refusal> {
        let source = Source::fixed("the point touches the face", Mark::Derived);
        let face = Worked::method(Mm::new(0.0), vec!["the tip is level with the face".into()], source);
        let tip = insert::depth_to_point(depth, &case.point)?;
        let travel = answer.record(&STOP_TRAVEL, insert::stop_travel(&tip, &face)?);
        answer.fact("stop_set", hole_making::stop_set(&travel, case.division));
        let reached = insert::depth_reached(&travel, &face)?.with_doubt(Cause::Set("depth stop"), case.stop);
        Ok(answer.record(&DEPTH_TO_POINT, reached))
    }

    /// The point stays in the metal: what is left under it, at the thin end of the wall and the deep end of the stop.
    fn blind(&self, bench: &Bench, case: &Case, answer: &mut Answer) -> Result<Worked<Mm>, Refusal> {
        answer.does_not_apply(&["behind"]);
        let depth = self.depth.as_ref().ok_or(Refusal::NotGiven { what: "the depth of the hole", key: "depth" })?;
        let depth = answer.record(&DEPTH, depth.into());
        let least = match &self.least_left {
            Some(at) => Worked::exact(at.value.high, Origin::Typed(at.place)),
            None => answer.assume("least-left", constant("least-left")?),
        };
        let reached = Self::reached(case, &depth, answer)?;
        let left = answer.record(&METAL_LEFT, insert::metal_left(&case.wall, &reached)?);
        let wall = case.wall.nominal("what is short at the bad end is added to it");
        answer.record(&WALL_NEEDED, insert::wall_needed(&wall, &least, &left.worst(Side::Low, bench.guard()))?);
        let check = Check::judge("break-through", &left, Keep::AtLeast, &least, bench.guard());
        let check = answer.check(check.about(METAL_LEFT.key).at(self.wall.place));
        let then = left.shifted(case.point.number(), "a flat-bottomed finish has no point");
        let verdict = Check::judge("break-through", &then, Keep::AtLeast, &least, bench.guard()).verdict();
        let words = Words::of("flat-bottom").with("gain", mm(case.point.number())).with("then", mm(then.number()));
        check
            .remedy(words.with("verdict", verdict.unwrap_or(Verdict::Fails).text()))
            .remedy(Words::of("ask-for-through"));
        Ok(depth)
    }

    /// It is sent through at the thick end of the wall; the tip then stands out behind, into whatever lies there.
    fn through(&self, bench: &Bench, case: &Case, answer: &mut Answer) -> Result<Worked<Mm>, Refusal> {
        answer.does_not_apply(&["break-through"]);
        let level = Worked::assumed(Mm::new(0.0), "the face");
        let lacks = hole_making::lacking(&case.wall, level, case.stop, bench.guard())?;
        let wall = case.wall.nominal("the stop is set for the wall as read and what that lacks in surety");
        let sure = insert::through_depth(&wall, &lacks, &constant("through-overrun")?)?;
        let reached = Self::reached(case, &sure, answer)?;
        let tip = answer.record(&TIP_BEHIND, insert::behind_wall(&reached, &case.wall)?);
        let gap = self.beyond.as_ref().and_then(|at| read_at(at, at.value.reading()));
        let gap = answer.read_if(bench, "beyond", Gauge::Depth, gap.as_ref())?;
        match (gap, &self.beyond) {
            (Some(gap), at) => {
                let left = answer.record(&LEFT_BEHIND, insert::gap_left(&gap, &tip)?);
                let least = constant("clear-while-cutting")?;
                let check = Check::judge("behind", &left, Keep::AtLeast, &least, bench.guard());
                let check = check.about(LEFT_BEHIND.key).at(at.as_ref().map_or(self.wall.place, |at| at.place));
                answer.check(check).remedy(Words::of("take-out-what-moves"));
            }
            (None, Some(_)) => {
                answer.assume_words(Words::of("clear-beyond"));
                answer.does_not_apply(&["behind"]);
            }
            (None, None) => answer.not_checked(&["behind"], &["beyond"]),
        }
        Ok(sure)
    }

    fn beside(&self, bench: &Bench, case: &Case, answer: &mut Answer) -> Result<(), Refusal> {
        let edge = answer.read_if(bench, "edge", Gauge::FromCentre, self.edge.as_ref())?;
        match (edge, &self.edge) {
            (Some(edge), Some(at)) => {
                hole_making::edge_wall(bench, &EDGE_WALL, (&edge, at.place), &case.diameter, answer)
            }
            _ => {
                answer.not_checked(&["edge-wall"], &["edge"]);
                Ok(())
            }
        }
    }

    /// Speed, feed, torque, thrust and time.
    fn run(
        &self,
        bench: &Bench,
        case: &Case,
        depth: &Worked<Mm>,
        machine: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<Run, Refusal> {
        hole_making::named_machine(machine, self.set_up.as_ref(), answer);
        let start = speeds::start_speed(&case.material, Work::Drill, case.tool)?;
        let deep = drilling::deep_hole(depth.number(), case.diameter.number())?;
        let none = || Worked::exact(Ratio::new(1.0), Origin::Assumed("no factor".into()));
        let factor = deep.as_ref().map_or_else(none, |[speed, _]| speed.clone());
        let step = hole_making::drill_step(bench, machine, (&start, &factor), &case.diameter, answer)?;
        let feed = answer.record(&FEED, speeds::drill_feed(case.diameter.number())?);
        if let Some(step) = &step {
            answer.record(&SPEED, step.clone());
            answer.record(&SURFACE, speeds::surface_speed(step, &case.diameter)?);
            let fed = times::depth_fed(depth, &case.point, &constant("approach")?)?;
            answer.record(&TIME, times::drilling_time(&fed, &feed, step, &none())?);
        }
        self.torque(bench, case, (&feed, step.as_ref()), machine, answer)?;
        Ok(Run { step, feed, deep: deep.is_some() })
    }

    /// The greatest torque of the forms, at the high end of the feed, against what the machine gives at its step.
    fn torque(
        &self,
        bench: &Bench,
        case: &Case,
        (feed, step): (&Worked<MmPerRev>, Option<&Worked<RevPerMin>>),
        machine: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "torque";
        let most = feed.worst(Side::High, bench.guard());
        let forms = drill_forces::forms(&case.material, &case.diameter, &most, &case.angle);
        let all: Vec<_> = forms.into_iter().flatten().collect();
        let (Some(torque), Some(thrust)) = (
            drill_forces::greatest(all.iter().map(|forces| &forces.0)),
            drill_forces::greatest(all.iter().map(|forces| &forces.1)),
        ) else {
            answer.assume_words(Words::of("no-drill-torque"));
            answer.not_checked(&[ID], &[]);
            match self.hold.as_ref().and_then(|hold| hold.tested.as_ref()) {
                Some(_) => answer.not_checked(&["grip-tested"], &[]),
                None => answer.does_not_apply(&["grip-tested"]),
            }
            return Ok(());
        };
        let torque = answer.record(&TORQUE, torque);
        match self.hold.as_ref().and_then(|hold| hold.tested.as_ref()) {
            Some(at) => {
                let stood = kit::stood(at);
                let check = Check::judge("grip-tested", &torque, Keep::AtMost, &stood, bench.guard());
                answer.check(check.about(TORQUE.key).at(at.place));
            }
            None => answer.does_not_apply(&["grip-tested"]),
        }
        answer.record(&THRUST, thrust);
        let cutting = machine.and_then(Machine::drills);
        match (cutting.and_then(|machine| machine.power.as_ref()), step, cutting) {
            (Some(power), Some(step), Some(machine)) => {
                let efficiency = match machine.efficiency_at(step.value()) {
                    Some(typed) => (&typed).into(),
                    None => answer.assume("efficiency", constant("drive-efficiency-geared-head")?),
                };
                let power = Worked::from(power).scaled(efficiency.low(), "what the drive leaves of the motor");
                let there = answer.record(&TORQUE_THERE, cutting_force::torque_from_power(&power, step)?);
                let check = Check::judge(ID, &torque, Keep::AtMost, &there, bench.guard());
                // A motor too weak stalls: a lower step or a smaller drill first; nothing is spoilt by it.
                answer.check(check.about(TORQUE.key).not_worse_than(Verdict::Doubtful));
            }
            _ if bench.shop.is_none() => answer.no_shop(&[ID]),
            _ => answer.not_checked(&[ID], &["power of the machine"]),
        }
        Ok(())
    }

    fn set_up_of(
        &self,
        bench: &Bench,
        case: &Case,
        run: &Run,
        machine: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let through = self.goes_through();
        let mut set_up = SetUp::at("drill", Station::Drilling);
        set_up.on(machine.map(Machine::name));
        set_up.hold.push(kit::held_in(self.hold.as_ref(), "clamp-it").into());
        set_up.hold.extend(kit::trued(self.hold.as_ref()).map(Into::into));
        set_up.hold.push(Words::of("square-to-face").into());
        kit::rig(&mut set_up, self.hold.as_ref(), HeldIn::Clamps);
        if through {
            set_up.step("room-beneath");
            set_up.warns(&["grabs-at-the-end"]);
        }
        let gauge = kit::gauge_used(bench, case.wall.number(), Gauge::Depth, true);
        // The stop is set for the wall as it was read: through another the drill goes too far, or not through.
        let hold = HoldPoint::of(WALL.key, 1, gauge, bench.guard()).looked_at_unless(!through);
        set_up.hold_at(Words::of("measure-wall"), hold);
        set_up.step("mark").step("centre").step("zero-face");
        let (low, high) = run.feed.band().unwrap_or((run.feed.number(), run.feed.number()));
        let feed = |number| Fact::figure(number, crate::quantity::Unit::MmPerRev);
        answer.fact("drill_feed", Fact::span(feed(low), feed(high)));
        let travel = answer.value(STOP_TRAVEL.key).map(|travel| travel.number);
        let reads = travel.map(|travel| {
            let set = (travel / case.division + 1e-9).floor() * case.division;
            Dialled::Stop(Counted::of("stop", set, case.division, None))
        });
        let depth = answer.value(DEPTH.key).map_or(case.wall.number(), |depth| depth.number);
        let cut = Cut {
            tool: kit::drill_named(bench, case.diameter.number()),
            spindle: run.step.as_ref().map(Worked::number),
            feed: None,
            passes: vec![Pass { kind: PassKind::Depth, depth, dial: reads }],
            minutes: set_up_minutes::start("hole, drilling")?,
        };
        if run.deep {
            set_up.step("come-out-for-chips");
        }
        set_up.cut(Words::of(if through { "drill-through" } else { "drill" }), cut);
        set_up.step("chips-out").step("break-the-mouth").step(if through { "look-behind" } else { "measure-depth" });
        set_up.sketch = sketch::hole(self, case, answer);
        set_up.takes(set_up_minutes::start("hole, setting up")?);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed, StateKind::Measured]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::Drilled)];
        set_up.warns(&["clamp-never-freehand", "swarf-and-eyes"]);
        let found = Fact::doubted(case.wall.number(), case.wall.plus_minus(), crate::quantity::Unit::Mm);
        let line = |id, found, target| kit::read_with(kit::blank(id, found, target), 1, bench, Gauge::Depth);
        set_up.blanks.push(line("wall-found", Some(found), None));
        if !through {
            set_up.blanks.push(line("depth-left", None, kit::depth(answer, DEPTH.key)));
        }
        answer.set_ups.push(set_up);
        Ok(())
    }
}
