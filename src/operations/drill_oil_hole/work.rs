//! The hole: its place, its wall along the slant, its drill; and its one set-up.

use super::keys::{DrillOilHole, Start};
use super::names::{AT, WALL_ALONG};
use super::place::CALLED;
use super::sketch;
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::oil_hole as law;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::hole_making::drilled::names::{STICK_OUT, WALL};
use crate::operations::hole_making::drilled::{Case, Run, drilled_by_the_stop};
use crate::operations::hole_making::{self, Open, Sunk};
use crate::operations::kit;
use crate::operations::{Answer, Bench, HeldIn, HoldPoint, SetUp, Station};
use crate::proof::{Check, Fact, Keep, Mark, Refusal, Source, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Unit};
use crate::shop::{Gauge, Machine};

/// The strip that a zero is taken on beside a slope.
const STRIP: &str = "oil-hole-zero-strip";

impl DrillOilHole {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let machine = hole_making::machine(bench, self.set_up.as_ref());
        let sunk = hole_making::sunk(bench, self.oilway.as_ref(), (CALLED, self.is_in()), answer)?;
        let down = self.is_in() && !matches!(&sunk, Sunk::By(sunk) if sunk.number() <= 0.0);
        let hole = self.hole(sunk);
        let mut case = hole.case(bench, machine, answer)?;
        let angle = (&self.angle).into();
        let wall = case.wall.clone();
        case.wall = answer.record(&WALL_ALONG, law::along_a_slant(&wall, &angle)?);
        case.corner = law::corner_behind(&case.diameter, &angle)?;
        if !self.is_square() {
            case.zero = self.zero_on_a_slant(&case, down)?;
        }
        self.flat_leaves_wall(bench, (&case, &wall), answer)?;
        self.stands(bench, &case.diameter, down, answer)?;
        let depth = hole.through(bench, &case, answer)?;
        let run = hole.run(bench, &case, &depth, machine, answer)?;
        self.set_up_of(bench, (&case, &run, down), machine, answer)
    }

    fn is_square(&self) -> bool {
        (self.angle.value.number() - 90.0).abs() < 1e-9
    }

    /// Where the tip stands as the stop is set to zero on a strip over the centre: on the floor of a flat that lies under the surface
    /// there, else where the drill's corner comes before its point that much higher.
    fn zero_on_a_slant(&self, case: &Case, down: bool) -> Result<Worked<Mm>, Refusal> {
        let strip = Worked::row(Mm::new(row(STRIP)?.value), "the strip", Source::fixed("a strip of shim", Mark::Own));
        let source = Source::fixed("where the drill touches", Mark::Derived);
        // Down in its oilway the drill touches the bush itself.
        if down {
            let over = law::point_over_corner(&case.corner, &case.point)?;
            return Ok(Worked::sum(&[(-1.0, &over)], 0.0, "over the surface, on the bush", source));
        }
        if self.is_on_a_flat() {
            return Ok(Worked::sum(
                &[(1.0, &case.corner), (-1.0, &strip)],
                0.0,
                "the floor of the flat, less the strip",
                source,
            ));
        }
        let strip = law::along_a_slant(&strip, &(&self.angle).into())?;
        let over = law::point_over_corner(&case.corner, &case.point)?;
        Ok(Worked::sum(&[(-1.0, &over), (-1.0, &strip)], 0.0, "over the surface, on the strip", source))
    }

    fn is_on_a_flat(&self) -> bool {
        self.start.as_ref().is_some_and(|at| at.value == Start::Flat)
    }

    /// Does the flat leave a wall to be drilled?
    fn flat_leaves_wall(
        &self,
        bench: &Bench,
        (case, wall): (&Case, &Worked<Mm>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "flat-leaves-wall";
        let Some(start) = self.start.as_ref().filter(|_| self.is_on_a_flat()) else {
            answer.does_not_apply(&[ID]);
            return Ok(());
        };
        let deep = law::depth_of_a_flat(&case.diameter, &(&self.angle).into())?;
        let source = Source::fixed("wall less flat", Mark::Derived);
        let left = Worked::sum(&[(1.0, wall), (-1.0, &deep)], 0.0, "what a flat as wide as the drill leaves", source);
        let least: Worked<Mm> = constant("flat-over-bore-least")?;
        let none = Worked::assumed(Mm::new(0.0), "nothing");
        let check = Check::judge_two(ID, (&left, &least), Keep::AtLeast, (&left, &none), bench.guard());
        answer.check(check.at(start.place));
        Ok(())
    }

    fn set_up_of(
        &self,
        bench: &Bench,
        (case, run, down): (&Case, &Run, bool),
        machine: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let mut set_up = SetUp::at("drill-oil-hole", Station::Drilling);
        set_up.on(machine.map(Machine::name));
        set_up.hold.push(kit::held_in(self.hold.as_ref(), "clamp-it").into());
        set_up.hold.extend(kit::trued(self.hold.as_ref()).map(Into::into));
        answer.fact("angle", Fact::figure(self.angle.value.number(), Unit::Deg).to(Decimals::AsTyped));
        let is_in = self.is_in();
        set_up.hold.push(Words::of(if is_in { "oilway-under-the-spindle" } else { "bush-under-the-spindle" }).into());
        if let Some(out) = answer.value(STICK_OUT.key).map(|out| out.number) {
            set_up.hold.push(Words::of("drill-stands-out").with("out", kit::mm_as_typed(out)).into());
        }
        kit::rig(&mut set_up, self.hold.as_ref(), HeldIn::AnglePlate);
        // A bush that is not in yet has no oilway about it.
        if is_in {
            set_up.step("clear-the-oilway").step("line-up");
        }
        if let Some(wall) = answer.value(WALL.key).map(|wall| wall.number) {
            let gauge = kit::gauge_used(bench, wall, Gauge::Depth, true);
            let hold = HoldPoint::of(WALL.key, 1, gauge, bench.guard()).looked_at_unless(false);
            set_up.hold_at(Words::of("measure-wall"), hold.then("outside-work-again"));
        }
        hole_making::try_the_grip(&mut set_up, self.hold.as_ref(), answer);
        // Down in its oilway the bush is touched before anything marks it: behind, the point would lie in its own mark.
        let square = self.is_square();
        if down {
            set_up.step("zero-down-the-oilway");
        }
        set_up.step(if down { "mark-down-the-oilway" } else { "mark" });
        match self.start.as_ref().map(|at| at.value).filter(|_| !down) {
            Some(Start::Flat) => {
                set_up.step("mill-a-flat");
            }
            Some(Start::Guide) => {
                set_up.step("lead-in-a-guide");
            }
            Some(Start::AsItIs) | None => {}
        }
        // Beside the centre a bush that slants stands higher or lower.
        match (square, down) {
            (_, true) => {}
            (true, false) => {
                let comes_back = machine.is_none_or(hole_making::comes_back);
                set_up.step(if comes_back { "zero-face" } else { "zero-over-the-centre" });
            }
            (false, false) => {
                set_up.step_with(Words::of("zero-on-a-slant").with("strip", kit::mm_as_typed(row(STRIP)?.value)));
            }
        }
        drilled_by_the_stop(bench, &mut set_up, "drill", (case, run, case.wall.number()), answer)?;
        let flushed = self.oilway.as_ref().and_then(|oilway| oilway.open.as_ref());
        let flushed = flushed.is_some_and(|open| open.value == Open::BothEnds);
        if is_in {
            set_up.step(if flushed { "clear-oilway" } else { "clear-oilway-backwards" });
        }
        set_up.step(match (is_in, down) {
            (true, true) => "burr-left-in-the-oilway",
            (true, false) => "burr-left-for-the-reamer",
            (false, _) => "burr-off",
        });
        set_up.sketch = sketch::hole(self, case, answer);
        set_up.takes(set_up_minutes::start("oil holes, setting up")?);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed, StateKind::Measured]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::OilHoleDrilled)];
        set_up.warns(&["clamp-never-freehand", "grabs-at-the-end", "swarf-and-eyes"]);
        let line = |id, found, target| kit::read_with(kit::blank(id, found, target), 1, bench, Gauge::Depth);
        set_up.blanks.push(line("hole-at", None, kit::found(answer, AT.key)));
        answer.set_ups.push(set_up);
        Ok(())
    }
}
