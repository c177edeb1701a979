//! The seat: what is left under it, whether it cleans up, how fast and with what torque; and its one set-up.

use super::keys::SpotFace;
use super::names::{
    DEPTH, EDGE, EDGE_LEFT, FEED, HOLE, METAL_LEFT, SEAT, SPEED, STOP_TRAVEL, SURFACE, TIME, TORQUE, TORQUE_THERE,
    UNEVEN, WALL, WIDTH,
};
use super::sketch;
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::speeds::{self, Work};
use crate::handbook::cutting::{cutting_force as force, spot_face as law, times};
use crate::handbook::threads::insert;
use crate::handbook::{Material, StateKind, ToolMaterial, set_up_minutes};
use crate::job::State;
use crate::operations::hole_making::{self, Asks, QuillDial};
use crate::operations::kit::{self, hard, mm};
use crate::operations::spindle::Begins;
use crate::operations::{Answer, Bench, Cut, HeldIn, HoldPoint, Pass, PassKind, SetUp, Station};
use crate::proof::{Cause, Check, Fact, Keep, Origin, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, MmPerRev, NewtonMetre, Quantity, Ratio, RevPerMin};
use crate::shop::{Gauge, Machine};

/// The cutter that is taken.
struct Cutter {
    tool: ToolMaterial,
    teeth: Worked<Ratio>,
}

impl SpotFace {
    pub(super) fn work_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let machine = hole_making::machine(bench, self.set_up.as_ref());
        hole_making::named_machine(machine, self.set_up.as_ref(), answer);
        let material = hole_making::metal(bench, answer)?;
        let cuts_as = hard::cuts_as(&material, bench.part.hardness.as_ref().map(|at| at.value))?;
        let cutter = self.cutter(bench, answer)?;
        let edge = ("cutter-hard-enough", self.diameter.place);
        hole_making::hard_enough(bench, &material, cutter.tool, edge, answer)?;
        let hole = answer.read(bench, "hole", Gauge::Inside, &self.hole)?;
        let hole = answer.record(&HOLE, hole);
        let seat = answer.record(&SEAT, (&self.diameter).into());
        let wall = answer.read_if(bench, "wall", Gauge::Depth, self.wall.as_ref())?;
        let wall = wall.map(|wall| answer.record(&WALL, wall));
        self.pilot_of(bench, (&hole, &seat, wall.as_ref()), machine, answer)?;
        self.led(bench, machine, answer)?;
        let dial = self.deep(bench, machine, wall, answer)?;
        self.wide(bench, answer)?;
        let step = self.runs(bench, (&cuts_as, &cutter), machine, answer)?;
        self.set_up_of(bench, (&step, dial), machine, answer)
    }

    /// The cutter of that size in the drawer; what lacks is a doubt and a line on the missing list.
    fn cutter(&self, bench: &Bench, answer: &mut Answer) -> Result<Cutter, Refusal> {
        let size = self.diameter.value.number();
        let owned = kit::milling_cutter(bench, size, true);
        kit::cutter_owned("cutter-in-drawer", bench, owned.is_some(), (size, self.diameter.place), answer);
        let teeth = self.teeth.as_ref().or_else(|| owned.and_then(|cutter| cutter.teeth.as_ref()));
        let teeth = match teeth {
            Some(at) => Worked::exact(Ratio::new(f64::from(at.value)), Origin::Typed(at.place)),
            None => answer.assume("teeth", constant("spot-facer-teeth")?),
        };
        Ok(Cutter { tool: owned.map_or(ToolMaterial::Hss, |cutter| cutter.material.value), teeth })
    }

    /// A quill with play lets a wide cutter grab and dig in: over a drill press only a small one is proven.
    fn led(&self, bench: &Bench, machine: Option<&Machine>, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "cutter-led";
        let most = row("spot-face-most-on-drill-press")?.value;
        let verdict = match machine {
            None if bench.shop.is_none() => {
                return {
                    let _: () = answer.no_shop(&[ID]);
                    Ok(())
                };
            }
            Some(Machine::Mill(_)) => Verdict::Proven,
            Some(Machine::DrillPress(_)) if self.diameter.value.number() <= most => Verdict::Proven,
            _ => Verdict::Doubtful,
        };
        answer.check(Check::of_kind(ID, verdict).at(self.diameter.place));
        Ok(())
    }

    /// Depth by the stop from the highest place: the raw face must be gone all round, and metal enough be left.
    fn deep(
        &self,
        bench: &Bench,
        machine: Option<&Machine>,
        wall: Option<Worked<crate::quantity::Mm>>,
        answer: &mut Answer,
    ) -> Result<QuillDial, Refusal> {
        let stop = hole_making::depth_stop(bench, machine, answer)?;
        let dial = hole_making::quill_dial(machine)?;
        let planned = answer.record(&STOP_TRAVEL, (&self.depth).into());
        answer.fact("stop_set", hole_making::stop_set(&planned, dial.division));
        let set = planned.with_doubt(Cause::Set("depth stop"), stop);
        let (seat, under) = (bench.left(&DEPTH)?, bench.left(&METAL_LEFT)?);
        if seat.is_some() {
            answer.fact(DEPTH.key, mm(set.number()));
        }
        let depth = answer.record(&DEPTH, seat.clone().unwrap_or(set));
        let wide = row("spot-face-depth-share")?.value;
        let teeth = Worked::<Mm>::from(&self.diameter).scaled(wide, "its teeth are about as long as it is wide");
        let reaches = Check::judge("cutter-reaches", &depth, Keep::AtMost, &teeth, bench.guard());
        answer.check(reaches.about(DEPTH.key).not_worse_than(Verdict::Doubtful).at(self.depth.place));
        let uneven = answer.read_difference_if(bench, "uneven", Gauge::Depth, self.uneven.as_ref())?;
        let uneven = uneven.map(|uneven| answer.record(&UNEVEN, uneven));
        // What is left under it tells how deep it went, where nobody measured that itself.
        let (gone, about) = match (&wall, &under) {
            (Some(wall), Some(under)) if seat.is_none() => (kit::gone(1.0, (wall, under)), METAL_LEFT.key),
            _ => (depth.clone(), DEPTH.key),
        };
        match (&self.uneven, &uneven) {
            (Some(at), Some(uneven)) => {
                let check = Check::judge("cleans-up", &gone, Keep::AtLeast, uneven, bench.guard());
                let check = check.about(about).at(at.place);
                // Nothing is spoilt by metal that stands: the seat is cut on.
                let is_left = seat.is_some() || under.is_some();
                let check = match is_left {
                    true => check.not_worse_than(Verdict::Doubtful).unfinished(about),
                    false => check,
                };
                let is_short = check.unfinished.is_some();
                let check = answer.check(check);
                if is_short {
                    check.remedy(Words::of("seat-on"));
                }
            }
            _ => answer.not_checked(&["cleans-up"], &["uneven"]),
        }
        let planned = wall.as_ref().map(|wall| insert::metal_left(wall, &depth)).transpose()?;
        if let (Some(planned), Some(_)) = (&planned, &under) {
            answer.fact(METAL_LEFT.key, mm(planned.number()));
        }
        // Both were measured: together they are the wall, or one of them is wrong.
        let both = seat.as_ref().zip(under.as_ref()).zip(wall.as_ref());
        let off = both.map(|((seat, under), wall)| kit::off_the_whole((seat, under), wall));
        let off = off.filter(|off| off.number() > off.plus_minus() * bench.guard() / 2.0);
        let Some(left) = under.or(planned) else {
            answer.not_checked(&["wall-left"], &["wall"]);
            return Ok(dial);
        };
        let left = answer.record(&METAL_LEFT, left);
        match &self.least_left {
            None => answer.not_checked(&["wall-left"], &["least-left"]),
            Some(at) => {
                let least = Worked::exact(at.value.high, Origin::Typed(at.place));
                let check = Check::judge("wall-left", &left, Keep::AtLeast, &least, bench.guard());
                let check = if off.is_some() { check.not_better_than(Verdict::Doubtful) } else { check };
                let check = answer.check(check.about(METAL_LEFT.key).at(at.place));
                if let Some(off) = off {
                    check.remedy(Words::of("not-the-wall").with("off", mm(off.number())));
                }
            }
        }
        Ok(dial)
    }

    /// Wide enough for its head, and not over the edge of the part.
    fn wide(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let (hole, seat) = (self.hole_found(answer), (&self.diameter).into());
        answer.record(&WIDTH, law::seat_width(&seat, &hole)?);
        match &self.head {
            None => answer.not_checked(&["seat-wide-enough"], &["head"]),
            Some(head) => {
                let over = row("seat-over-head")?.value;
                let asked = crate::proof::Worked::from(head).shifted(over, "the head and some air");
                let check = Check::judge("seat-wide-enough", &seat, Keep::AtLeast, &asked, bench.guard());
                answer.check(check.about(SEAT.key).at(head.place));
            }
        }
        let edge = answer.read_if(bench, "edge", Gauge::FromCentre, self.edge.as_ref())?;
        let edge = edge.map(|edge| answer.record(&EDGE, edge));
        let (Some(edge), Some(at)) = (edge, &self.edge) else {
            answer.not_checked(&["seat-on-metal"], &["edge"]);
            return Ok(());
        };
        let left = answer.record(&EDGE_LEFT, insert::edge_wall(&edge, &seat)?);
        let none = Worked::assumed(crate::quantity::Mm::new(0.0), "the seat ends on the part");
        let check = Check::judge("seat-on-metal", &left, Keep::AtLeast, &none, bench.guard());
        // Over the edge the cutter strikes, and the head has less to bear on: not spoilt by that alone.
        answer.check(check.about(EDGE_LEFT.key).at(at.place).not_worse_than(Verdict::Doubtful));
        Ok(())
    }

    /// The hole as it stands on record.
    fn hole_found(&self, answer: &Answer) -> Worked<crate::quantity::Mm> {
        let number = answer.value(HOLE.key).map_or(0.0, |hole| hole.number);
        Worked::exact(crate::quantity::Mm::new(number), Origin::Typed(self.hole.place))
    }

    /// Half the drill's speed, a fine feed, its torque and time; and the hold against that torque.
    fn runs(
        &self,
        bench: &Bench,
        (metal, cutter): (&Material, &Cutter),
        machine: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<Option<Worked<RevPerMin>>, Refusal> {
        let seat: Worked<crate::quantity::Mm> = (&self.diameter).into();
        let half = constant::<Ratio>("speed-factor-spot-face")?;
        let begins = Begins::of(metal, (Work::Drill, cutter.tool), half)?;
        let feed = answer.record(&FEED, constant::<MmPerRev>("spot-face-feed")?);
        let torque = self.torque(bench, (metal, cutter), &feed, answer).ok();
        let step = hole_making::drill_step(bench, machine, &begins, (&seat, torque.as_ref()), answer)?;
        if let Some(step) = &step {
            answer.record(&SPEED, step.clone());
            answer.record(&SURFACE, speeds::surface_speed(step, &seat)?);
            let none = Worked::assumed(crate::quantity::Mm::new(0.0), "a flat cutter has no point");
            let fed = times::depth_fed(&(&self.depth).into(), &none, &constant("approach")?)?;
            let once = Worked::exact(Ratio::new(1.0), Origin::Assumed("one seat".into()));
            answer.record(&TIME, times::drilling_time(&fed, &feed, step, &once)?);
        }
        if let Some(torque) = &torque {
            let about = (torque, TORQUE.key);
            hole_making::against_the_machine(bench, about, step.as_ref(), machine, ("torque", &TORQUE_THERE), answer)?;
        } else {
            answer.assume_words(Words::of("no-cutter-torque"));
            answer.not_checked(&["torque"], &[]);
        }
        let asks = Asks { torque: torque.as_ref(), across: &seat, grabs: true };
        hole_making::held(bench, self.hold.as_ref(), &asks, answer)?;
        Ok(step)
    }

    /// At the most feed, each tooth its share.
    fn torque(
        &self,
        bench: &Bench,
        (metal, cutter): (&Material, &Cutter),
        feed: &Worked<MmPerRev>,
        answer: &mut Answer,
    ) -> Result<Worked<NewtonMetre>, Refusal> {
        let most = feed.worst(crate::proof::Side::High, bench.guard());
        let each = most.scaled(1.0 / cutter.teeth.number(), "each tooth its share");
        let square = Worked::assumed(crate::quantity::Angle::new(90.0), "a flat cutter");
        let chip = force::chip_thickness(&each, &square)?;
        let floor: Worked<crate::quantity::Mm> = constant("chip-thickness-floor")?;
        let chip = if chip.number() < floor.number() { floor } else { chip };
        let specific = force::specific_force(&force::force_at_one(metal)?, &chip, &force::exponent(metal)?)?;
        let wear = constant::<Ratio>("force-factor-wear")?;
        let torque = law::ring_torque(&wear, &most, &specific, &(&self.diameter).into(), &self.hole_found(answer))?;
        Ok(answer.record(&TORQUE, torque))
    }

    fn set_up_of(
        &self,
        bench: &Bench,
        (step, dial): (&Option<Worked<RevPerMin>>, QuillDial),
        machine: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let mut set_up = SetUp::at("spot-face", Station::Drilling);
        set_up.on(machine.map(Machine::name));
        set_up.hold.push(kit::held_in(self.hold.as_ref(), "clamp-it").into());
        set_up.hold.extend(kit::trued(self.hold.as_ref()).map(Into::into));
        set_up.hold.push(Words::of("hole-under-the-spindle").into());
        kit::rig(&mut set_up, self.hold.as_ref(), HeldIn::Clamps);
        if let Some(wall) = answer.value(WALL.key).map(|wall| wall.number) {
            let gauge = kit::gauge_used(bench, wall, Gauge::Depth, true);
            let hold = HoldPoint::of(WALL.key, 1, gauge, bench.guard());
            set_up.hold_at(Words::of("measure-wall"), hold.then("outside-work-again"));
        }
        hole_making::try_the_grip(&mut set_up, self.hold.as_ref(), answer);
        let piloted = self.pilot.as_ref().is_some_and(|at| at.value.reading().is_some());
        set_up.step(if piloted { "pilot" } else { "no-pilot" }).step("zero-high");
        let feed = |number| Fact::figure(number, crate::quantity::Unit::MmPerRev);
        if let Some((low, high)) = answer.value(FEED.key).and_then(|value| value.band) {
            answer.fact("feed_by_hand", Fact::span(feed(low), feed(high)));
        }
        let travel = answer.value(STOP_TRAVEL.key).map_or(0.0, |travel| travel.number);
        let set = (travel / dial.division + 1e-9).floor() * dial.division;
        let cut = Cut {
            tool: Words::of("spot-facer-of").with("size", kit::tool_size(self.diameter.value.number())),
            spindle: step.as_ref().map(Worked::number),
            feed: None,
            passes: vec![Pass { kind: PassKind::Depth, depth: travel, dial: Some(dial.set(set)), leaves: None }],
            minutes: set_up_minutes::start("seat, spot-facing")?,
        };
        dial.told(&mut set_up);
        set_up.cut(Words::of("cut"), cut);
        set_up.step("look-all-round").step("deburr").step("measure");
        set_up.sketch = sketch::seat(self, answer);
        set_up.takes(set_up_minutes::start("hole, setting up")?);
        set_up.needs = match self.hole.value.address() {
            Some(address) => vec![State::of_operation(&address.owner(), StateKind::Drilled)],
            None => kit::of_part(bench, &[StateKind::Washed, StateKind::Measured]),
        };
        set_up.leaves = vec![kit::of_this(bench, StateKind::Faced)];
        set_up.warns(&["clamp-never-freehand", "cutter-grabs", "swarf-and-eyes"]);
        let line = |id, found, target| kit::read_with(kit::blank(id, found, target), 1, bench, Gauge::Depth);
        set_up.blanks.push(line("wall-found", kit::found(answer, WALL.key), None));
        set_up.blanks.push(line("left-under-it", None, kit::aimed(answer, METAL_LEFT.key)).left_as(&METAL_LEFT));
        let deep = kit::aimed(answer, DEPTH.key).map(|deep| deep.to(Decimals::Exactly(2)));
        set_up.blanks.push(line("seat-deep", None, deep).also_left_as(&DEPTH));
        set_up.blanks.push(kit::blank("seat-across", None, Some(mm(self.diameter.value.number()))));
        answer.set_ups.push(set_up);
        Ok(())
    }
}
