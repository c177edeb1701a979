//! The set-up: how it is held, every cut with its dial readings, what is measured.

use super::measuring::{self, Measured, Reference};
use super::sketch::{self, Shoulder};
use super::{FeedDirection, Ground, Metal};
use crate::handbook::constants::constant;
use crate::handbook::rigging::Aspect;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::turning::{self, CuttingData};
use crate::operations::{Answer, Bench, Blank, Carried, Cut, HeldIn, Pass, PassKind, SetUp, Station, kit, safety};
use crate::operations::{GaugeUsed, HoldPoint};
use crate::proof::{Cause, Check, Fact, Keep, Refusal, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Rounds, Unit};
use crate::shop::Gauge;

/// What an operation adds to the set-up.
pub(in crate::operations) struct Extra {
    /// The set-up's id in the card.
    pub id: &'static str,
    /// The state that it leaves.
    pub state: StateKind,
    /// Steps after the cut.
    pub after: Vec<Words>,
    /// Lines to measure, beside the shared ones.
    pub blanks: Vec<Blank>,
    /// The matching shoulder, for the sketch.
    pub shoulder: Option<Shoulder>,
}

/// Writes the one set-up of the operation into the answer.
pub(in crate::operations) fn set_up(
    bench: &Bench,
    ground: &Ground,
    metal: &Metal,
    cutting: &CuttingData,
    extra: Extra,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let mut set_up = SetUp::at(extra.id, Station::Lathe);
    set_up.on(ground.piece.lathe.map(|lathe| lathe.name.value.as_str()));
    set_up
        .takes(set_up_minutes::start(turning::loading(ground.asked.hold))? + set_up_minutes::start("end, measuring")?);
    kit::rig(&mut set_up, ground.asked.hold, HeldIn::Jaws);
    if ground.dial.on_the_top_slide && ground.dial.set_over.number() > 0.0 {
        set_up.carries(Aspect::TopSlide, Carried::SetOverDeg(ground.dial.set_over.number()));
    }
    turning::hold_lines(ground.asked.hold, "true-within", &mut set_up);
    let measured = measuring::before_the_last_cut(bench, ground, metal, cutting, answer)?;
    let reserve = reserve(metal, &measured, answer);
    measured_again(bench, ground, reserve, &mut set_up);
    before(ground, answer, &mut set_up)?;
    cutting.tell_the_hand(&mut set_up);
    let dial = ground.dial.slide.map(|_| ground.dial.own);
    answer.fact("dial_units", kit::dial_units(bench, dial));
    let direction = direction(ground, answer);
    let guard = bench.guard();
    let run =
        Run { guard, reserve, ground, metal, cutting, measured: &measured, direction, minutes: minutes_a_pass(answer) };
    run.cuts(&mut set_up)?;
    for words in extra.after {
        set_up.step_with(words);
    }
    if ground.asked.relief.is_some_and(super::Relief::recut) {
        set_up.step("recut-relief");
    }
    set_up.step("wash-and-measure");
    if shimmed(answer) {
        set_up.step("fit-shim");
    }
    let edge = sketch::Edge { angle: cutting.edge.angle.number() };
    set_up.sketch = sketch::draw(ground, metal, edge, extra.shoulder, answer);
    set_up.needs = kit::of_part(bench, &[StateKind::Washed, StateKind::Measured]);
    set_up.leaves = vec![kit::of_this(bench, extra.state)];
    set_up.warns(&["swarf", "chuck-key", "work-secure"]);
    if let Some(mass) = ground.piece.mass()? {
        safety::lifting(&mut set_up, &mass)?;
    }
    set_up.blanks = blanks(bench, (ground, metal, &measured), answer);
    set_up.blanks.extend(extra.blanks);
    answer.set_ups.push(set_up);
    Ok(())
}

/// What must be left inside the limits so that the work can still be measured: the least window that its two checks ask, where
/// they are proven.
fn reserve(metal: &Metal, measured: &measuring::Measured, answer: &Answer) -> f64 {
    let proven = |id: &str| answer.checks.iter().find(|check| check.id == id && check.is_proven());
    let between = proven("measured-between").and(measured.doubt).unwrap_or(0.0);
    let judged = proven("can-be-measured").and_then(|check| check.judged).filter(|judged| judged.limit > 0.0);
    let asked = judged.zip(metal.window).map_or(0.0, |(judged, window)| judged.got / judged.limit * window);
    between.max(asked)
}

/// What the plan stands on is measured once more, before the part is held.
fn measured_again(bench: &Bench, ground: &Ground, reserve: f64, set_up: &mut SetUp) {
    let gauge = kit::gauge_used(bench, ground.piece.length.number(), Gauge::Outside, true);
    let hold = HoldPoint::of(super::LENGTH.key, PLACES, gauge, bench.guard());
    // The dial and the target are printed for this length: of another the sheet is worked again, whatever the checks would bear.
    set_up
        .hold_at(Words::of("measure-again"), hold.keeping(reserve).looked_at_unless(false).then("outside-work-again"));
}

/// Places at which a face is measured.
const PLACES: usize = 4;

fn before(ground: &Ground, answer: &Answer, set_up: &mut SetUp) -> Result<(), Refusal> {
    if ground.asked.off_centre.is_some_and(|off| off.value.number() > 0.0) {
        set_up.step("counterweight");
    }
    kit::try_the_grip(set_up, ground.asked.hold, &turning::TORQUE_TO_STAND, answer);
    set_up.step("turn-by-hand");
    if ground.piece.inside.number() <= 0.0 {
        let within: Worked<Mm> = constant("tool-on-centre")?;
        let outward = ground.asked.feed_direction.is_some_and(|way| way.value == FeedDirection::Outward);
        let id = if outward { "on-centre-outward" } else { "on-centre" };
        set_up.step_with(Words::of(id).with("within", Fact::mm(within.number())));
    }
    // A carriage that is locked puts no depth on.
    set_up.step(if ground.dial.on_the_top_slide { "lock-carriage" } else { "lock-carriage-at-each-depth" });
    set_up.step("touch-unworn");
    Ok(())
}

/// Whether a shim is fitted in the end.
fn shimmed(answer: &Answer) -> bool {
    answer.choices.iter().any(|choice| choice.name == "shim_taken" && choice.chosen != super::float::no_shim().into())
}

fn minutes_a_pass(answer: &Answer) -> f64 {
    answer.value(turning::TIME_A_PASS.key).map_or(0.0, |time| time.number)
}

/// Inward if nobody says: the tool meets the whole metal first and backs off into the bore.
fn direction(ground: &Ground, answer: &mut Answer) -> &'static str {
    match ground.asked.feed_direction.map(|direction| direction.value) {
        Some(FeedDirection::Outward) => "cut-outward",
        Some(FeedDirection::Inward) => "cut-inward",
        None => {
            answer.assume_words(Words::of("feed-direction"));
            "cut-inward"
        }
    }
}

/// The cuts in working order, with what is measured between them.
struct Run<'a> {
    /// The factor on the standard uncertainty.
    guard: f64,
    /// What must be left to measure in, mm.
    reserve: f64,
    ground: &'a Ground<'a>,
    metal: &'a Metal,
    cutting: &'a CuttingData,
    measured: &'a Measured,
    direction: &'static str,
    minutes: f64,
}

impl Run<'_> {
    /// Every cut, spring passes at the last dial again. What is measured stands before the last cut, the hardness test after the
    /// first: a hold point stands after the cut that it names.
    fn cuts(&self, set_up: &mut SetUp) -> Result<(), Refusal> {
        let passes = self.passes()?;
        let count = self.cutting.cuts.divisions.len();
        if self.measured.from == Reference::Indicator {
            let on_top = self.ground.dial.on_the_top_slide;
            set_up.step_with(self.gauge(if on_top { "zero-indicator" } else { "zero-indicator-from-the-bed" }));
        }
        let (early, last) = passes.split_at_checked(count.saturating_sub(1)).unwrap_or((&[], &passes));
        if self.metal.test_hardness && !early.is_empty() {
            let (first, rest) = early.split_at_checked(1).unwrap_or((early, &[]));
            self.cut(first, set_up);
            turning::test_hardness(self.ground.piece.hardness, set_up);
            self.cut(rest, set_up);
        } else {
            self.cut(early, set_up);
        }
        self.measure(early.len(), set_up)?;
        self.cut(last, set_up);
        if self.metal.test_hardness && early.is_empty() {
            turning::test_hardness(self.ground.piece.hardness, set_up);
        }
        Ok(())
    }

    /// What is measured before the last cut: the length less what was taken off, or how deep the cut stands by then.
    fn hold_point(&self, cuts_before: usize) -> Result<HoldPoint, Refusal> {
        let before = self.cutting.cuts.divisions.iter().take(cuts_before).sum::<u32>();
        let trial = self.measured.trial.filter(|_| cuts_before == 0).map(|trial| trial.depth);
        let depth = trial.unwrap_or(f64::from(before) * self.ground.dial.division.number());
        let name = self.measured.gauge.clone().map_or(Fact::named("an-indicator"), Fact::Text);
        // A slide that stands over is dialled further than it cuts.
        let stretched = self.ground.dial.stretched()?;
        let dial_on = |id, over| match stretched {
            Some(times) => Words::of(over).with("times", Fact::figure(times, Unit::One).to(Decimals::Exactly(3))),
            None => Words::of(id),
        };
        let of = |key, read_before, less, places| {
            let gauge = GaugeUsed { name: name.clone(), doubt: self.measured.doubt, read_before };
            HoldPoint::of(key, places, gauge, self.guard).less(less).keeping(self.reserve)
        };
        // How deep the cut stands is what was set, within the doubt of setting it: what is still to come is dialled by the reading.
        let taken_off = |places| {
            let hold = of(super::REMOVED.key, false, self.metal.removed.number() - depth, places);
            hold.looked_at_unless(false).saying(Some(dial_on("dial-on-to-take-off", "dial-over-to-take-off")))
        };
        Ok(match self.measured.from {
            Reference::TrialStep => taken_off(PLACES),
            Reference::Indicator => taken_off(1),
            Reference::OverRim | Reference::ThroughBore | Reference::ToPlate => {
                let hold = of(super::LENGTH.key, true, depth, PLACES).looked_at_unless(false);
                hold.saying(Some(dial_on("dial-on-to-length", "dial-over-to-length")))
            }
        })
    }

    /// The hold point before the last cut; with one cut only a trial cut, or the reason why there is none.
    fn measure(&self, cuts_before: usize, set_up: &mut SetUp) -> Result<(), Refusal> {
        match self.measured.trial {
            _ if cuts_before > 0 => {}
            Some(trial) => {
                let words = Words::of("trial-cut").with("depth", Fact::mm(trial.depth));
                let words = words.with("width", kit::mm_as_typed((trial.width * 10.0).floor() / 10.0));
                let pass = self.pass(PassKind::Trial, trial.depth, trial.depth)?;
                // Its time is within that of the cut that it begins.
                set_up.cut(words, self.with_passes(vec![pass], 0.0));
            }
            None => {
                set_up.step("one-cut-no-trial");
                return Ok(());
            }
        }
        let words = self.gauge(match self.measured.from {
            Reference::OverRim => "measure-over-rim",
            Reference::ThroughBore => "measure-through-bore",
            Reference::ToPlate => "measure-to-plate",
            Reference::TrialStep => "measure-trial-step",
            Reference::Indicator => "measure-by-indicator",
        });
        set_up.hold_at(words, self.hold_point(cuts_before)?);
        set_up.step("measured-counts");
        self.no_further(set_up);
        Ok(())
    }

    /// How far the measured dial may go at most: by the least worst-case margin of case and length beyond the plan, rounded to
    /// the side of the part. Where nothing is left over the plan fails or is doubtful, and its own figure is the end.
    fn no_further(&self, set_up: &mut SetUp) {
        let Some(window) = self.metal.window else { return };
        // As it is read: a gauge that is off by its doubt must not hide the limit.
        let doubt = self.measured.doubt.unwrap_or(0.0) * self.guard / 2.0;
        let window = if doubt < window { window - doubt } else { window.max(0.0) };
        // Rounded in the unit that is printed.
        let to_the_part = |mm: f64, rounds: Rounds| Fact::mm(mm).to(Decimals::Exactly(3)).rounded(rounds);
        match self.measured.from {
            Reference::TrialStep | Reference::Indicator => {
                let most = to_the_part(self.metal.removed.number() + window, Rounds::Down);
                set_up.step_with(Words::of("never-deeper").with("most", most));
            }
            Reference::OverRim | Reference::ThroughBore | Reference::ToPlate => {
                let least = to_the_part(self.metal.length_after.number() - window, Rounds::Up);
                set_up.step_with(Words::of("never-under").with("least", least));
            }
        }
    }

    fn gauge(&self, id: &'static str) -> Words {
        let gauge = self.measured.gauge.clone();
        Words::of(id).with("gauge", gauge.map_or(Fact::named("an-indicator"), Fact::Text))
    }

    fn passes(&self) -> Result<Vec<Pass>, Refusal> {
        let division = self.ground.dial.division.number();
        let count = self.cutting.cuts.divisions.len();
        let mut passes = Vec::new();
        let mut reached = 0;
        for (at, divisions) in self.cutting.cuts.divisions.iter().enumerate() {
            reached += divisions;
            let kind = if at + 1 < count { PassKind::Rough } else { PassKind::Finish };
            passes.push(self.pass(kind, f64::from(*divisions) * division, f64::from(reached) * division)?);
        }
        for _ in 0..self.cutting.cuts.spring {
            passes.push(self.pass(PassKind::Spring, 0.0, f64::from(reached) * division)?);
        }
        Ok(passes)
    }

    fn pass(&self, kind: PassKind, depth: f64, reached: f64) -> Result<Pass, Refusal> {
        let dial = self.ground.dial.reads(reached)?;
        let found = &self.ground.piece.length;
        let left = Fact::doubted(found.number() - reached, found.plus_minus(), Unit::Mm);
        Ok(Pass { kind, depth, dial, leaves: Some(left) })
    }

    fn cut(&self, passes: &[Pass], set_up: &mut SetUp) {
        if passes.is_empty() {
            return;
        }
        let minutes = self.minutes * passes.len() as f64;
        set_up.cut(Words::of(self.direction), self.with_passes(passes.to_vec(), minutes));
    }

    fn with_passes(&self, passes: Vec<Pass>, minutes: f64) -> Cut {
        Cut {
            tool: self.cutting.edge.name.clone().into(),
            spindle: Some(self.cutting.speed.step.number()),
            feed: Some(self.cutting.feed.step.number()).filter(|_| !self.cutting.feed.by_hand),
            passes,
            minutes,
        }
    }
}

/// The float that is wanted in the end: with the shim in, where there is one.
fn float_target(answer: &Answer) -> &'static str {
    match answer.value(super::FLOAT_WITH_SHIM.key) {
        Some(value) => value.key,
        None => super::FLOAT_AFTER.key,
    }
}

/// The float in the end, between the limits that are wanted: what is foretold with its doubt reaches over them.
fn float_left(answer: &Answer) -> Option<Blank> {
    let (_, limits) = answer.facts.iter().find(|(name, _)| *name == super::float::FLOAT_LIMITS)?;
    answer.value(super::FLOAT_WITH_SHIM.key)?;
    Some(kit::blank("float-left", None, Some(limits.clone())))
}

/// How far off the length may be left where it is set by what a gauge reads: that, and half a division; nothing where what is
/// read is not the length.
fn as_read(ground: &Ground, measured: &Measured) -> Option<f64> {
    let read = measured.doubt.filter(|_| measured.from.is_of_the_length())?;
    Some(read.hypot(ground.dial.division.number() / 2.0))
}

/// The float in the end, as foretold: what the gauge that the length is set by is off, the float is off as well.
fn float_foretold(ground: &Ground, measured: &Measured, aim: Fact) -> Fact {
    match aim {
        Fact::Figure { number, doubt: Some(doubt), unit, .. } => {
            Fact::doubted(number, as_read(ground, measured).map_or(doubt, |off| doubt.hypot(off)), unit)
        }
        other => other,
    }
}

/// The length in the end: as near as dial and gauge bring it, and never so long that the wear may stand still.
fn length_left(bench: &Bench, (ground, metal, measured): (&Ground, &Metal, &Measured), aim: Fact) -> Fact {
    let Fact::Figure { number, doubt: Some(doubt), .. } = aim else { return aim };
    let off = as_read(ground, measured).map_or(doubt, |off| doubt.max(off));
    let gauge = kit::instrument(bench, number, Gauge::Outside);
    let gauge = gauge.map_or(metal.length_after.plus_minus(), |own| own.uncertainty.value.number());
    let left = metal.length_after.nominal("read when it is done").with_doubt(Cause::Set("the gauge"), gauge);
    let gone = kit::gone(1.0, (&ground.piece.length, &left));
    let clean = Check::judge("", &gone, Keep::AtLeast, &metal.worn, bench.guard()).judged.map(|judged| judged.margin);
    let longer = clean.filter(|clean| *clean > 0.0).map_or(off, |clean| off.min(clean));
    Fact::span(Fact::mm(number - off), Fact::mm(number + longer))
}

fn blanks(bench: &Bench, by: (&Ground, &Metal, &Measured), answer: &Answer) -> Vec<Blank> {
    let said = |key: &str| kit::found(answer, key);
    let line = |id: &'static str, found: Option<&str>, target: &str| {
        Some(kit::blank(id, found.and_then(said), Some(kit::aimed(answer, target)?)))
    };
    let length = kit::aimed(answer, super::LENGTH_AFTER.key).map(|aim| length_left(bench, by, aim));
    let length = length.map(|length| kit::blank("length-left", said("length"), Some(length)));
    [
        length.map(|blank| kit::read_with(blank, PLACES, bench, Gauge::Outside).left_as(&super::LENGTH_AFTER)),
        kit::no_rougher("finish-left", answer, turning::FINISH.key),
        line("relief-left", None, super::RELIEF_LEFT.key).map(|blank| kit::read_with(blank, 1, bench, Gauge::Depth)),
        float_left(answer).or_else(|| {
            let aim = kit::aimed(answer, float_target(answer))?;
            Some(kit::blank("float-left", None, Some(float_foretold(by.0, by.2, aim))))
        }),
    ]
    .into_iter()
    .flatten()
    .collect()
}
