//! The one set-up: trammed, clamped where it bears, touched on the highest place, cut, measured before the last pass.

use super::cutter::{DepthDial, Depths};
use super::effort::Run;
use super::keys::{MillFace, Way};
use super::names::{LEFT, RATE, REMOVED, THICKNESS, TOOTH, UNEVEN};
use super::sketch;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::hole_making;
use crate::operations::kit::{self, mm};
use crate::operations::{Answer, Bench, Cut, HeldIn, HoldPoint, Pass, PassKind, SetUp, Station};
use crate::proof::{Counted, Dialled, Fact, Refusal, Words, Worked};
use crate::quantity::{Decimals, Quantity, Rounds, Unit};
use crate::shop::{Gauge, Machine};

impl MillFace {
    pub(super) fn set_up_of(
        &self,
        bench: &Bench,
        (depths, run, dial): (&Depths, &Run, &DepthDial),
        mill: Option<&Machine>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let mut set_up = SetUp::at("mill-face", Station::Drilling);
        set_up.on(mill.map(Machine::name));
        set_up.hold.push(kit::held_in(self.hold.as_ref(), "clamp-it").into());
        set_up.hold.extend(kit::trued(self.hold.as_ref()).map(Into::into));
        let in_vice = self.hold.as_ref().is_some_and(|hold| hold.held_in.value == HeldIn::Vice);
        set_up.hold.push(Words::of(if in_vice { "down-on-parallels" } else { "support-under-each-clamp" }).into());
        if let Some(out) = &self.stick_out {
            set_up.hold.push(Words::of("cutter-stands-out").with("out", kit::mm_as_typed(out.value.number())).into());
        }
        kit::rig(&mut set_up, self.hold.as_ref(), HeldIn::Clamps);
        set_up.step("tram").step(if in_vice { "nip-in-the-vice" } else { "clamp" });
        hole_making::try_the_grip(&mut set_up, self.hold.as_ref(), answer);
        let thickness = answer.value(THICKNESS.key).map_or(0.0, |thick| thick.number);
        let gauge = || kit::gauge_used(bench, thickness, Gauge::Outside, true);
        // Set from its highest place, it is as thick there as it was worked with: thinner or thicker, every depth is another.
        let first = HoldPoint::of(THICKNESS.key, 1, gauge(), bench.guard()).looked_at_unless(false);
        let words = match self.lowest_that_cleans(bench, answer) {
            Some(under) => Words::of("measure-highest-and-lowest").with("under", Fact::mm(under).rounded(Rounds::Down)),
            None => Words::of("measure-highest"),
        };
        set_up.hold_at(words, first.then("outside-work-again"));
        set_up.step("touch-unworn");
        answer.fact("dial_units", kit::dial_units(bench, dial.slide.map(|_| dial.division)));
        // A hand goes by millimetres or inches a minute; a step stands on the machine as it was typed.
        if answer.facts.iter().all(|fact| fact.0 != "table_feed") {
            let rate =
                answer.value(RATE.key).map(|rate| Fact::figure(rate.number, Unit::MmPerMin).to(Decimals::Exactly(0)));
            answer.fact("table_feed", rate.unwrap_or(Fact::named("not-known")));
        }
        let tooth = answer.value(TOOTH.key).map_or(0.0, |tooth| tooth.number);
        answer.fact("each_tooth", Fact::mm(tooth).to(Decimals::Exactly(3)));
        let tracks = run.lanes > 1.0;
        if tracks {
            answer.fact("tracks", format!("{:.0}", run.lanes));
            set_up.step("track-by-track");
        }
        let climbs = self.way.as_ref().is_some_and(|way| way.value == Way::Climb);
        let last = depths.readings.len().saturating_sub(1);
        if last > 0 {
            let rough = depths.readings.get(..last).unwrap_or_default();
            let words = Words::of(if climbs { "cut-climbing" } else { "cut" });
            set_up.cut(words, self.passes(rough, 0.0, (run, dial), PassKind::Rough)?);
        }
        let before = depths.readings.get(last.wrapping_sub(1)).copied().filter(|_| last > 0).unwrap_or(0.0);
        if last > 0 {
            // What is thinner than it is to become cannot be dialled on to it any more.
            let becomes = kit::aimed(answer, LEFT.key).and_then(|left| left.number());
            let hold = HoldPoint::of(THICKNESS.key, 1, gauge(), bench.guard()).less(before);
            let hold = hold.not_under(becomes.map(|becomes| becomes + before));
            set_up.hold_at(Words::of("measure-last"), hold.then("dial-on-by-what-is-over"));
        }
        let starts = std::iter::once(0.0).chain(depths.readings.iter().copied());
        let deepest = depths.readings.iter().zip(starts).map(|(reading, from)| reading - from).fold(0.0, f64::max);
        answer.fact("deepest", mm(deepest));
        let finish = depths.readings.get(last..).unwrap_or_default();
        let words = if tracks { "last-pass-in-tracks" } else { "last-pass" };
        set_up.cut(Words::of(words), self.passes(finish, before, (run, dial), PassKind::Finish)?);
        let look = if in_vice { "open-the-vice-and-look" } else { "let-go-and-look" };
        set_up.step("deburr").step(look).step("measure");
        set_up.sketch = sketch::face(self, answer);
        set_up.takes(set_up_minutes::start("face, setting up on the mill")?);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed, StateKind::Measured]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::Faced)];
        set_up.warns(&["cutter-never-near-hands", "swarf-and-eyes", "clamp-before-start"]);
        let line = |id, found, target| kit::read_with(kit::blank(id, found, target), 1, bench, Gauge::Outside);
        set_up.blanks.push(line("thickness-left", None, kit::aimed(answer, LEFT.key)).left_as(&LEFT));
        let flat = self.flat_within.as_ref().map(|at| crate::operations::Target::UpTo(mm(at.value.high.number())));
        set_up.blanks.push(crate::operations::Blank { target: flat, ..kit::blank("flat-found", None, None) });
        answer.set_ups.push(set_up);
        Ok(())
    }

    /// How far under its highest place the lowest may lie that is sure to come clean, mm; none where nobody says how true it is held.
    fn lowest_that_cleans(&self, bench: &Bench, answer: &Answer) -> Option<f64> {
        let (removed, truth) = (answer.value(REMOVED.key)?, self.truth()?);
        let read = answer.value(UNEVEN.key).or(answer.value(THICKNESS.key)).map_or(0.0, |read| read.plus_minus);
        let under = removed.number - truth.value.number() - read.hypot(removed.plus_minus) * bench.guard() / 2.0;
        (under > 0.0).then_some(under)
    }

    /// Passes at these readings of the dial.
    fn passes(
        &self,
        readings: &[f64],
        before: f64,
        (run, dial): (&Run, &DepthDial),
        kind: PassKind,
    ) -> Result<Cut, Refusal> {
        let starts = std::iter::once(before).chain(readings.iter().copied());
        let pass = |(reading, from): (&f64, f64)| {
            let counted = |slide| Dialled::Slide(Counted::of(slide, *reading, dial.division, dial.per_turn));
            Pass { kind, depth: reading - from, dial: dial.slide.map(counted), leaves: None }
        };
        let passes: Vec<Pass> = readings.iter().zip(starts).map(pass).collect();
        // The way back and the brush for each track, and what it cuts.
        let by_hand = set_up_minutes::start("pass of a milling cutter")?;
        let minutes = (by_hand + run.once.unwrap_or_default()) * run.lanes * passes.len() as f64;
        Ok(Cut {
            tool: Words::of("cutter-of").with("size", kit::tool_size(self.cutter.value.number())),
            spindle: run.step.as_ref().map(Worked::number),
            // A table is fed by so much a minute, which its steps say; no feed of a turn is set on it.
            feed: None,
            passes,
            minutes,
        })
    }
}
