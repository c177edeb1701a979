//! The set-ups that cut: oil holes, then the reamer; or what is done with a bush that must not be reamed.

use super::keys::{GaugeBy, ReamBush};
use super::line::Line;
use super::names::{
    BORE_MAX, BORE_MIN, BORE_PRESSED, BUSH_OUTSIDE, CLEARANCE_MAX, CLEARANCE_MIN, FINISH, LAST_SETTING, STOCK,
};
use super::oil::OilHoles;
use super::reamer::Reaming;
use super::sketch;
use crate::handbook::StateKind;
use crate::handbook::joints::reaming::NotReamed;
use crate::handbook::set_up_minutes;
use crate::job::State;
use crate::operations::hole_making;
use crate::operations::kit::{Lies, mm};
use crate::operations::press_joint::{READINGS, bore_gauge};
use crate::operations::{Answer, Bench, Blank, Cut, HeldIn, HoldPoint, Limits, Pass, PassKind, SetUp, Station, kit};
use crate::proof::{Dialled, Fact, Refusal, Words};
use crate::quantity::{Decimals, Quantity};
use crate::shop::{By, Gauge, Reamer};

/// The line for the finished bore.
const LEFT_BY_GAUGE: &str = "bore-left";

impl ReamBush {
    pub(super) fn drill_oil_holes(&self, bench: &Bench, oil: &OilHoles, answer: &Answer) -> Result<SetUp, Refusal> {
        let mut set_up = SetUp::at("drill-oil-holes", Station::Drilling);
        set_up.on(oil.machine.as_deref());
        self.holding(&mut set_up);
        kit::rig(&mut set_up, self.hold.as_ref(), HeldIn::Clamps);
        set_up.hold.extend(self.stands_out(answer).map(Into::into));
        hole_making::try_the_grip(&mut set_up, self.hold.as_ref(), answer);
        set_up.step("plug-the-bore").step("zero-of-the-oil-hole").step("mark-down-the-oilway");
        let each = self.minutes("oil hole, drilling")?;
        let dial = hole_making::quill_dial(self.drilling_machine(bench))?;
        dial.told(&mut set_up);
        let drilled: Vec<_> = oil.drilled.iter().filter(|hole| hole.after_press).collect();
        // How deep each may go, where that is known of all of them.
        let stops = match answer.facts.iter().find(|fact| fact.0 == "oil_stop") {
            Some((_, Fact::Series(stops, _))) if stops.len() == drilled.len() => stops.as_slice(),
            _ => &[],
        };
        for (at, hole) in drilled.into_iter().enumerate() {
            let stop = stops.get(at).and_then(Fact::number).map(|stop| dial.set(stop));
            let drill = Words::of("drill-of").with("size", kit::drill_size(hole.diameter));
            set_up.lies.extend(kit::drill_lies(bench, &drill, hole.diameter));
            let cut = Cut {
                tool: drill,
                spindle: hole.spindle,
                feed: None,
                passes: vec![Pass { kind: PassKind::Depth, depth: self.wall(answer), dial: stop, leaves: None }],
                minutes: each,
            };
            let words = Words::of("drill-oil-hole")
                .with("size", kit::drill_size(hole.diameter))
                .with("at", kit::mm_as_typed(hole.at));
            set_up.cut(words, cut);
        }
        set_up.step("chips-out-of-oilway");
        set_up.sketch = sketch::oil_drilled(self, answer);
        set_up.takes(set_up_minutes::start("oil holes, setting up")?);
        set_up.needs = vec![kit::of_this(bench, StateKind::BoreMeasured)];
        set_up.leaves = vec![kit::of_this(bench, StateKind::OilHoleDrilled)];
        set_up.warns(&["clamp-never-freehand", "swarf"]);
        Ok(set_up)
    }

    /// Metal that an oil hole goes through: the wall of the bush.
    fn wall(&self, answer: &Answer) -> f64 {
        let number = |key: &str| answer.value(key).map(|value| value.number);
        number(BUSH_OUTSIDE.key).zip(number(BORE_PRESSED.key)).map_or(0.0, |(outside, bore)| (outside - bore) / 2.0)
    }

    fn holding(&self, set_up: &mut SetUp) {
        let hold = self.hold.as_ref();
        set_up.hold.push(kit::held_in(hold, "held-soft").into());
        set_up.hold.extend(kit::trued(hold).map(Into::into));
    }

    pub(super) fn ream(
        &self,
        bench: &Bench,
        (oil, line): (&OilHoles, Option<&Line>),
        answer: &Answer,
    ) -> Result<SetUp, Refusal> {
        let by_hand = self.by() == By::Hand;
        let mut set_up = SetUp::at(
            if by_hand { "ream-by-hand" } else { "ream-by-machine" },
            if by_hand { Station::Bench } else { Station::Drilling },
        );
        set_up.on(oil.machine.as_deref().filter(|_| !by_hand));
        // Nor a reamer.
        set_up.pause = false;
        let drilled = oil.drilled.iter().any(|hole| hole.after_press);
        set_up.needs =
            vec![kit::of_this(bench, if drilled { StateKind::OilHoleDrilled } else { StateKind::BoreMeasured })];
        set_up.needs.extend(measured_too(line));
        let theirs = line.filter(|line| line.drilled_in);
        set_up.needs.extend(theirs.map(|line| State::of_operation(&line.other, StateKind::OilHoleDrilled)));
        set_up.leaves = vec![kit::of_this(bench, StateKind::Reamed)];
        set_up.leaves.extend(line.map(|line| State::of_operation(&line.other, StateKind::Reamed)));
        self.holding(&mut set_up);
        let Ok(reaming) = self.reaming(bench, answer) else { return Ok(set_up) };
        if let Some(line) = line {
            set_up.step("both-pressed-and-measured");
            self.pilots(line, answer, &mut set_up);
        }
        set_up.step(if by_hand { "reamer-square" } else { "reamer-floats" });
        if reaming.trial {
            set_up.hold_at(Words::of("trial-bore"), trial_bore(bench, answer)?);
        }
        set_up.step("lubricate");
        let words = match (reaming.settings.is_empty(), by_hand) {
            (false, _) => "ream-in-steps",
            (true, true) => "ream-fixed-by-hand",
            (true, false) if reaming.feed.is_none() => "ream-fixed-by-quill",
            (true, false) => "ream-fixed-by-machine",
        };
        let cut = self.cut(&reaming, answer)?;
        set_up.lies.extend(reamer_lies(bench, &cut.tool));
        set_up.cut(Words::of(words), cut);
        set_up.step("deburr-ends");
        if !oil.drilled.is_empty() || line.is_some_and(|line| line.oil_holes) {
            set_up.step("deburr-inside-the-hole");
        }
        // An expanding reamer takes off what deburring raised; a fixed one goes through once.
        if !reaming.settings.is_empty() {
            set_up.step("same-setting-again");
        }
        set_up.step("wash-bore").step(self.measured_by()).step("try-the-real-shaft");
        if line.is_some() {
            set_up.step("measure-the-other-too");
        }
        set_up.sketch = sketch::reamed(self, answer, by_hand);
        set_up.takes(self.minutes("bush, reaming")?);
        set_up.warns(&["reamer-edges", "never-backwards"]);
        if !by_hand {
            set_up.warns(&["clamp-never-freehand"]);
        }
        set_up.blanks = vec![
            self.bore_left(bench, answer, LEFT_BY_GAUGE),
            kit::blank("shaft-clears", None, limits(answer, (CLEARANCE_MIN.key, CLEARANCE_MAX.key), 3)),
        ];
        Ok(set_up)
    }

    /// The finished bore, to be written down: by plugs whether both say that it lies between its limits, which read nothing and
    /// are sure; by a gauge a reading that is sure to.
    pub(super) fn bore_left(&self, bench: &Bench, answer: &Answer, id: &'static str) -> Blank {
        let by_plugs = matches!(self.gauge.as_ref().map(|at| at.value), Some(GaugeBy::Plugs));
        let limits = bore_limits(answer);
        if by_plugs {
            let id = if id == LEFT_BY_GAUGE { "bore-by-plugs" } else { id };
            return kit::blank(id, None, limits).left_as(&FINISH);
        }
        let ends = answer.value(BORE_MIN.key).zip(answer.value(BORE_MAX.key));
        let sure = ends.map(|(low, high)| kit::read_inside(bench, (low.number, high.number), Gauge::Inside));
        let blank = kit::blank(id, None, limits.and(sure)).left_as(&FINISH);
        kit::read_with(blank, READINGS, bench, Gauge::Inside)
    }

    /// What the finished bore is measured with.
    fn measured_by(&self) -> &'static str {
        match self.gauge.as_ref().map(|at| at.value) {
            None => "measure-finished",
            Some(GaugeBy::Plugs) => "try-the-plugs",
            Some(GaugeBy::Shaft) => "shaft-is-the-gauge",
        }
    }

    /// The passes: each setting once and the last one twice; a fixed reamer goes through once.
    fn cut(&self, reaming: &Reaming, answer: &Answer) -> Result<Cut, Refusal> {
        let number = |key: &str| answer.value(key).map(|value| value.number);
        let start = number(LAST_SETTING.key).zip(number(STOCK.key)).map_or(0.0, |(last, stock)| last - stock);
        let last = reaming.settings.len();
        let mut before = start;
        let mut passes = Vec::new();
        for (at, setting) in reaming.settings.iter().enumerate() {
            let kind = if at + 1 == last { PassKind::Finish } else { PassKind::Rough };
            let dial = Dialled::Size { to_mm: *setting, more_mm: setting - before };
            passes.push(Pass { kind, depth: (setting - before) / 2.0, dial: Some(dial), leaves: None });
            before = *setting;
        }
        if last > 0 {
            passes.push(Pass { kind: PassKind::Spring, depth: 0.0, dial: Some(Dialled::Same), leaves: None });
        } else {
            passes.push(Pass {
                kind: PassKind::Depth,
                depth: self.bush.length.value.number(),
                dial: None,
                leaves: None,
            });
        }
        let minutes = self.minutes("pass of a reamer")? * passes.len() as f64;
        Ok(Cut { tool: reaming.name.clone(), spindle: reaming.spindle, feed: reaming.feed, passes, minutes })
    }

    /// The bore is left as it is, or brought to size without cutting.
    pub(super) fn leave_unreamed(&self, bench: &Bench, kind: NotReamed, answer: &Answer) -> Result<SetUp, Refusal> {
        let mut set_up = SetUp::at("bore-without-reaming", Station::Bench);
        self.holding(&mut set_up);
        match kind {
            NotReamed::Sintered => set_up.step("push-the-sizing-pin").step("soak-in-oil"),
            NotReamed::PtfeLined | NotReamed::Plated => set_up.step("leave-the-bore"),
            NotReamed::Hardened => set_up.step("hone-the-bore"),
        };
        set_up.step("wash-bore").step(self.measured_by()).step("try-the-real-shaft");
        set_up.sketch = sketch::pressed(self, answer);
        set_up.takes(self.minutes("bore, sizing without reaming")?);
        set_up.needs = vec![kit::of_this(bench, StateKind::BoreMeasured)];
        set_up.leaves = vec![kit::of_this(bench, StateKind::Sized)];
        set_up.blanks = vec![self.bore_left(bench, answer, LEFT_BY_GAUGE)];
        Ok(set_up)
    }
}

/// Both bushes of a line are pressed and measured before anything goes through them.
fn measured_too(line: Option<&Line>) -> Option<State> {
    line.map(|line| State::of_operation(&line.other, StateKind::BoreMeasured))
}

/// The trial bore: inside the window of the finished bore, by the gauge that measures it where that leaves anything.
fn trial_bore(bench: &Bench, answer: &Answer) -> Result<Option<HoldPoint>, Refusal> {
    let (Some(least), Some(most)) = (answer.value(BORE_MIN.key), answer.value(BORE_MAX.key)) else { return Ok(None) };
    let gauge = bore_gauge(bench, least.number)?;
    let doubt = gauge.doubt.unwrap_or(0.0) * bench.guard() / 2.0;
    let (low, high) = kit::inside(least.number, most.number, doubt);
    let limits = Limits::asked((Some(low), Some(high)), 3, least.unit);
    Ok(Some(HoldPoint::asking(FINISH.key, READINGS, gauge.name, limits)))
}

/// The limits of the finished bore, rounded inward.
fn bore_limits(answer: &Answer) -> Option<Fact> {
    let end = |name: &str| answer.facts.iter().find(|fact| fact.0 == name).map(|fact| fact.1.clone());
    Some(Fact::span(end("bore_least")?, end("bore_most")?))
}

/// From one value to another, with so many decimals of a millimetre.
fn limits(answer: &Answer, (low, high): (&str, &str), decimals: usize) -> Option<Fact> {
    let end = |key: &str| Some(mm(answer.value(key)?.number).to(Decimals::Exactly(decimals)));
    Some(Fact::span(end(low)?, end(high)?))
}

/// A reamer as its drawer calls it: a range alone says neither what it is nor where it lies.
fn reamer_lies(bench: &Bench, tool: &Words) -> Option<Lies> {
    let is_it = |reamer: &&Reamer| Words::from(Fact::from(reamer.name())) == *tool;
    let own = bench.shop?.reamers.iter().find(is_it)?;
    let kind = match own {
        Reamer::Fixed(_) => "fixed-reamer-of",
        Reamer::Expanding(_) => "expanding-reamer-of",
    };
    // Who calls it a reamer himself says enough.
    let is_said = own.name().to_lowercase().contains("reamer");
    (!is_said).then(|| Lies { tool: tool.clone(), item: Words::of(kind).with("name", own.name()) })
}
