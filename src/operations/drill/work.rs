//! The hole: how deep, what is left; and its one set-up.

use super::keys::{Drill, StartsOn};
use super::names::{DEPTH, EDGE, EDGE_WALL, HOLE, METAL_LEFT, WALL_NEEDED};
use super::sketch;
use crate::handbook::constants::constant;
use crate::handbook::threads::insert;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::answer::DOUBT_PLAUSIBLE;
use crate::operations::hole_making::drilled::names::{DEPTH_TO_POINT, STICK_OUT, WALL};
use crate::operations::hole_making::drilled::{Case, Drilled, Run, Thick, drilled_by_the_stop, reached};
use crate::operations::hole_making::{self, Sunk};
use crate::operations::kit::{self, mm};
use crate::operations::readings::hole_of_drill;
use crate::operations::{Answer, Bench, HeldIn, HoldPoint, SetUp, Station};
use crate::proof::{Cause, Check, Fact, Keep, Origin, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity};
use crate::shop::{Gauge, Machine};

impl Drill {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let machine = hole_making::machine(bench, self.set_up.as_ref());
        let hole = self.hole();
        let case = hole.case(bench, machine, answer)?;
        answer.record(&HOLE, hole_of_drill(bench, &case.diameter)?);
        let depth = if hole.through {
            answer.does_not_apply(&["break-through"]);
            let depth = hole.through(bench, &case, answer)?;
            self.through_as_left(bench, &case, answer)?;
            depth
        } else {
            self.blind(bench, &case, answer)?
        };
        self.beside(bench, &case, answer)?;
        self.starts(answer);
        let run = hole.run(bench, &case, &depth, machine, answer)?;
        self.set_up_of(bench, &case, &run, machine, answer)
    }

    /// What every drilled hole is asked for.
    fn hole(&self) -> Drilled<'_> {
        Drilled {
            diameter: &self.diameter,
            wall: Thick::Read(&self.wall),
            sunk: Sunk::Level,
            through: self.goes_through(),
            bore: None,
            beyond: self.beyond.as_ref(),
            stick_out: self.stick_out.as_ref(),
            hold: self.hold.as_ref(),
            set_up: self.set_up.as_ref(),
        }
    }

    /// A point that starts on a round or a slope walks off: the hole is neither where it was marked nor square. An old hole holds the lips
    /// of a larger drill no better while they bite on one side, and a zero on a flat piece over it is none there.
    fn starts(&self, answer: &mut Answer) {
        const ID: &str = "starts-square";
        let Some(at) = &self.starts_on else {
            answer.not_checked(&[ID], &["starts-on"]);
            return;
        };
        let flat = at.value == StartsOn::Flat;
        let verdict = if flat { Verdict::Proven } else { Verdict::Doubtful };
        answer.check(Check::of_kind(ID, verdict).at(at.place));
    }

    fn beside(&self, bench: &Bench, case: &Case, answer: &mut Answer) -> Result<(), Refusal> {
        let edge = answer.read_if(bench, "edge", Gauge::FromCentre, self.edge.as_ref())?;
        let edge = edge.map(|edge| answer.record(&EDGE, edge));
        match (edge, &self.edge) {
            (Some(edge), Some(at)) => {
                let edge = edge.with_doubt(Cause::Set("setting out"), hole_making::set_out(answer)?);
                hole_making::edge_wall(bench, &EDGE_WALL, (&edge, at.place), &case.diameter, answer)
            }
            _ => {
                answer.not_checked(&["edge-wall"], &["edge"]);
                Ok(())
            }
        }
    }

    /// The point stays in the metal: what is left under it, at the thin end of the wall and the deep end of the stop.
    fn blind(&self, bench: &Bench, case: &Case, answer: &mut Answer) -> Result<Worked<Mm>, Refusal> {
        answer.does_not_apply(&["behind", "sheet-thick-enough"]);
        let depth = self.depth.as_ref().ok_or(Refusal::NotGiven { what: "the depth of the hole", key: "depth" })?;
        let depth: Worked<Mm> = depth.into();
        // Whoever goes on from it finds it as deep as the stop set it.
        answer.record(&DEPTH, depth.clone().with_doubt(Cause::Set("depth stop"), case.stop));
        let drilled = bench.left(&DEPTH)?;
        let least = match &self.least_left {
            Some(at) => Worked::exact(at.value.high, Origin::Typed(at.place)),
            None => answer.assume("least-left", constant("least-left")?),
        };
        let planned = reached(case, &depth, answer)?;
        let tip = match &drilled {
            Some(left) => self.as_left(bench, case, (left, &depth), answer)?,
            None => planned,
        };
        let left = answer.record(&METAL_LEFT, insert::metal_left(&case.wall, &tip)?);
        let wall = case.wall.nominal("what is short at the worst end is added to it");
        answer.record(&WALL_NEEDED, insert::wall_needed(&wall, &least, &left.worst(Side::Low, bench.guard()))?);
        let check = Check::judge("break-through", &left, Keep::AtLeast, &least, bench.guard());
        let check = answer.check(check.about(METAL_LEFT.key).at(self.wall.place));
        let then = left.shifted(case.point.number(), "a flat-bottomed finish has no point");
        let verdict = Check::judge("break-through", &then, Keep::AtLeast, &least, bench.guard()).verdict();
        let words = Words::of("flat-bottom").with("gain", mm(case.point.number())).with("then", mm(then.number()));
        // Once the point was there no drill gives back what it took.
        if drilled.is_none() {
            check.remedy(words.with("verdict", verdict.unwrap_or(Verdict::Fails).text()));
        }
        check.remedy(Words::of("ask-for-through"));
        let skin = hole_making::skin_stands(bench, "break-through", (&left, &case.diameter))?;
        let stands = skin.is_proven();
        let check = answer.check(skin.about(METAL_LEFT.key).at(self.wall.place));
        if !stands {
            check.remedy(Words::of("point-pushes-it-out"));
        }
        Ok(depth)
    }

    /// How deep its point goes by the depth as it was measured. A hole that is not as deep as it was asked is not done: nothing is
    /// spoilt by metal that stands, and nothing proven.
    fn as_left(
        &self,
        bench: &Bench,
        case: &Case,
        (left, asked): (&Worked<Mm>, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<Worked<Mm>, Refusal> {
        // The stop is set, and the line filled in, by what was asked.
        answer.fact(DEPTH.key, mm(asked.number()));
        let left = answer.record(&DEPTH, left.clone());
        let least = asked.shifted(-case.stop, "as surely as the stop sets it");
        let check = Check::judge(DOUBT_PLAUSIBLE.id, &left, Keep::AtLeast, &least, bench.guard());
        if !check.is_proven() {
            let check = check.not_worse_than(Verdict::Doubtful).unfinished(DEPTH.key).with("key", DEPTH.key);
            let check = check.with("doubt", Fact::mm(left.plus_minus())).at(self.wall.place);
            answer
                .check(kit::asked_as(check, "left-as-asked").past_finer_reading())
                .remedy(Words::of("not-as-deep-as-asked").with("asked", mm(asked.number())));
        }
        Ok(answer.record(&DEPTH_TO_POINT, insert::depth_to_point(&left, &case.point)?))
    }

    /// A hole that was measured less deep than its wall is thick is not through.
    fn through_as_left(&self, bench: &Bench, case: &Case, answer: &mut Answer) -> Result<(), Refusal> {
        let Some(left) = bench.left(&DEPTH)? else { return Ok(()) };
        answer.record(&DEPTH, left.clone());
        let wall = case.wall.nominal("its doubt is taken off below");
        let thinnest = wall.shifted(-case.wall.plus_minus(), "as thin as the wall may be");
        let check = Check::judge(DOUBT_PLAUSIBLE.id, &left, Keep::AtLeast, &thinnest, bench.guard());
        if !check.is_proven() {
            let check = check.not_worse_than(Verdict::Doubtful).unfinished(DEPTH.key);
            let check = check.with("key", DEPTH.key).with("doubt", Fact::mm(left.plus_minus())).at(self.wall.place);
            answer
                .check(kit::asked_as(check, "left-as-asked").past_finer_reading())
                .remedy(Words::of("not-as-deep-as-asked").with("asked", mm(case.wall.number())));
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
        if let Some(out) = answer.value(STICK_OUT.key).map(|out| out.number) {
            set_up.hold.push(Words::of("drill-stands-out").with("out", kit::mm_as_typed(out)).into());
        }
        kit::rig(&mut set_up, self.hold.as_ref(), HeldIn::Clamps);
        if through {
            set_up.step("room-beneath");
            set_up.warns(&["grabs-at-the-end"]);
        }
        let gauge = kit::gauge_used(bench, case.wall.number(), Gauge::Depth, true);
        // The stop is set for the wall as it was read: through another the drill goes too far, or not through.
        let hold = HoldPoint::of(WALL.key, 1, gauge, bench.guard()).looked_at_unless(!through);
        set_up.hold_at(Words::of("measure-wall"), hold.then("outside-work-again"));
        hole_making::try_the_grip(&mut set_up, self.hold.as_ref(), answer);
        match &self.opens {
            Some(at) => {
                let under = Words::of("old-hole-under-the-spindle").with("opens", kit::drill_size(at.value.number()));
                set_up.step_with(under).step("zero-over-the-hole");
                set_up.warns(&["opening-snatches"]);
            }
            None => {
                let comes_back = machine.is_none_or(hole_making::comes_back);
                set_up.step("mark").step("centre").step(if comes_back { "zero-face" } else { "zero-over-the-centre" });
            }
        }
        let depth = self.depth.as_ref().map_or(case.wall.number(), |depth| depth.value.number());
        let words = if through { "drill-through" } else { "drill" };
        drilled_by_the_stop(bench, &mut set_up, words, (case, run, depth), answer)?;
        set_up.step("chips-out").step("break-the-mouth").step(if through { "look-behind" } else { "measure-depth" });
        set_up.sketch = sketch::hole(self, case, answer);
        set_up.takes(set_up_minutes::start("hole, setting up")?);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed, StateKind::Measured]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::Drilled)];
        set_up.warns(&["clamp-never-freehand", "swarf-and-eyes"]);
        let found = Fact::doubted(case.wall.number(), case.wall.plus_minus(), crate::quantity::Unit::Mm);
        let line = |id, found, target| kit::read_with(kit::blank(id, found, target), 1, bench, Gauge::Depth);
        set_up.blanks.push(line("wall-found", Some(found), None));
        if through {
            set_up.blanks.push(line("through-left", None, None).left_as(&DEPTH));
        } else {
            // Not as deep as the stop sets it for sure is not done: what may be read is inside that by the doubt of the gauge.
            let deep = kit::read_inside(bench, (depth - case.stop, depth + case.stop), Gauge::Depth);
            set_up.blanks.push(line("depth-left", None, Some(deep)).left_as(&DEPTH));
        }
        answer.set_ups.push(set_up);
        Ok(())
    }
}
