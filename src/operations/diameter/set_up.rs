//! The set-up of a diameter: rough cuts, the hold point before the last one, the last one by what was measured, spring passes.

use super::measured::{self, Measured};
use super::{CrossDial, LENGTH, PRESENT, Size};
use crate::drawing::Sketch;
use crate::handbook::constants::row;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::turning::{self, CuttingData, Piece};
use crate::operations::{
    Answer, Bench, Blank, Cut, Drawer, GaugeUsed, HeldIn, HoldPoint, Pass, PassKind, Pull, SetUp, Station, kit, safety,
};
use crate::proof::{At, Fact, Refusal, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Rounds, Unit, Wanted};
use crate::shop::Gauge;

/// What an operation adds.
pub(in crate::operations) struct Extra {
    /// The set-up's id in the card, and the row of its minutes.
    pub id: &'static str,
    pub minutes: &'static str,
    /// The line of the hold that says how true it is held.
    pub trued: &'static str,
    /// The state that it leaves.
    pub state: StateKind,
    /// Steps before the touch, and after the last cut.
    pub before: Vec<Words>,
    /// What is measured behind these.
    pub held_before: Option<(Words, HoldPoint)>,
    pub after: Vec<Words>,
    pub sketch: Sketch,
    /// Lines to measure beside the diameter and the finish.
    pub blanks: Vec<Blank>,
    /// Whether the hardness must be tested after the first cut.
    pub test_hardness: bool,
    /// Whether it ends at a shoulder or a bottom.
    pub ends: bool,
}

/// Places at which a diameter is measured.
const PLACES: usize = 3;

/// What is worked by now.
struct Run<'a> {
    bench: &'a Bench<'a>,
    size: &'a Size<'a>,
    dial: &'a CrossDial,
    cutting: &'a CuttingData,
    measured: Measured,
    minutes: f64,
    /// The limits of the length, mm.
    length: [f64; 2],
}

/// Writes the one set-up into the answer.
pub(in crate::operations) fn set_up(
    bench: &Bench,
    piece: &Piece,
    (size, dial, length): (&Size, &CrossDial, &At<Wanted<Mm>>),
    cutting: &CuttingData,
    extra: Extra,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let mut set_up = SetUp::at(extra.id, Station::Lathe);
    set_up.on(piece.lathe.map(|lathe| lathe.name.value.as_str()));
    let hold = piece.asked.hold;
    set_up.takes(set_up_minutes::start(turning::loading(hold))? + set_up_minutes::start(extra.minutes)?);
    kit::rig(&mut set_up, hold, HeldIn::Jaws);
    turning::hold_lines(hold, extra.trued, &mut set_up);
    let measured = measured::before_the_last_cut(bench, size, (dial, length.value.nominal), cutting, answer)?;
    let minutes = answer.value(turning::TIME_A_PASS.key).map_or(0.0, |time| time.number);
    let length = [length.value.low.number(), length.value.high.number()];
    answer.fact("dial_units", kit::dial_units(bench, dial.slide.map(|_| dial.division.number())));
    let run = Run { bench, size, dial, cutting, measured, minutes, length };
    let clean = Fact::mm(size.comes_clean_to()).to(Decimals::Exactly(2));
    let clean = clean.rounded(if size.inside { Rounds::Down } else { Rounds::Up });
    let words = Words::of("measure-again").with("clean_to", clean);
    set_up.hold_at(words, run.as_found(0.0, true).then("outside-work-again"));
    if piece.swings.is_some() || piece.asked.off_centre.is_some_and(|off| off.value.number() > 0.0) {
        set_up.step("counterweight");
    }
    kit::try_the_grip(&mut set_up, hold, &turning::TORQUE_TO_STAND, answer);
    for words in extra.before {
        set_up.step_with(words);
    }
    if let Some((words, hold)) = extra.held_before {
        set_up.hold_at(words, hold);
    }
    run.cuts(piece, extra.test_hardness, &mut set_up);
    for words in extra.after {
        set_up.step_with(words);
    }
    set_up.sketch = extra.sketch;
    set_up.needs = kit::of_part(bench, &[StateKind::Washed, StateKind::Measured]);
    set_up.leaves = vec![kit::of_this(bench, extra.state)];
    set_up.warns(&["swarf", "chuck-key", "work-secure"]);
    if let Some(mass) = piece.mass()? {
        safety::lifting(&mut set_up, &mass)?;
    }
    set_up.blanks = run.blanks(extra.ends, answer);
    set_up.blanks.extend(extra.blanks);
    answer.set_ups.push(set_up);
    Ok(())
}

impl Run<'_> {
    const fn gauge(&self) -> Gauge {
        if self.size.inside { Gauge::Inside } else { Gauge::Outside }
    }

    /// The diameter as found with so much of it gone (grown, in a bore), as it is read again.
    fn as_found(&self, changed: f64, read_before: bool) -> HoldPoint {
        let gauge = self.gauge_at(changed, read_before);
        let less = if self.size.inside { -changed } else { changed };
        HoldPoint::of(PRESENT.key, PLACES, gauge, self.bench.guard()).less(less).looked_at_unless(false)
    }

    /// With what the diameter is read when it has changed so much: another than at its end where that does not open so far.
    fn gauge_at(&self, changed: f64, read_before: bool) -> GaugeUsed {
        kit::gauge_used(self.bench, self.size.after_so_much(changed), self.gauge(), read_before)
    }

    /// Every cut, with what is measured between.
    fn cuts(&self, piece: &Piece, test_hardness: bool, set_up: &mut SetUp) {
        set_up.step("touch");
        self.cutting.tell_the_hand(set_up);
        let divisions = &self.cutting.cuts.divisions;
        let passes = self.passes();
        let (early, last) = passes.split_at_checked(divisions.len().saturating_sub(1)).unwrap_or((&[], &passes));
        if test_hardness && !early.is_empty() {
            let (first, rest) = early.split_at_checked(1).unwrap_or((early, &[]));
            self.cut("rough", first, set_up);
            turning::test_hardness(piece.hardness, set_up);
            self.cut("rough", rest, set_up);
        } else {
            self.cut("rough", early, set_up);
        }
        self.measure(divisions, set_up);
        self.cut(if self.cutting.cuts.spring > 0 { "finish" } else { "finish-once" }, last, set_up);
        if test_hardness && early.is_empty() {
            turning::test_hardness(piece.hardness, set_up);
        }
    }

    /// The hold point before the last cut; with one cut only a trial cut, or the reason why there is none.
    fn measure(&self, divisions: &[u32], set_up: &mut SetUp) {
        let before = divisions.iter().rev().skip(1).sum::<u32>();
        let gone = match (before, self.measured.trial) {
            (0, None) => {
                set_up.step("one-cut-no-trial");
                return;
            }
            (0, Some(trial)) => {
                let gone = f64::from(trial.divisions) * self.size.division;
                let words = Words::of("trial-cut").with("depth", Fact::mm(gone / 2.0));
                let words = words.with("width", kit::mm_as_typed(trial.length));
                let pass = Pass { kind: PassKind::Trial, depth: gone / 2.0, dial: self.dial.reads(gone), leaves: None };
                // Its time is within that of the cut that it begins.
                set_up.cut(words, self.with_passes(vec![pass], 0.0));
                gone
            }
            (before, _) => f64::from(before) * self.size.division,
        };
        let dialled = gone;
        self.again(gone, set_up);
        let then = match (self.size.inside, self.dial.on_radius) {
            (false, false) => "dial-on-by-what-is-over",
            (false, true) => "dial-on-by-half-of-what-is-over",
            (true, false) => "dial-on-by-what-is-short",
            (true, true) => "dial-on-by-half-of-what-is-short",
        };
        let (gone, wider) = self.size.changed_by(gone);
        let hold = self.as_found(gone, false).wider(wider).then(then);
        let words = Words::of("measure-last").with("gauge", self.gauge_at(gone, false).name);
        set_up.hold_at(words, hold);
        for changed in [0.0, gone] {
            let Some(gauge) = kit::instrument(self.bench, self.size.after_so_much(changed), self.gauge()) else {
                continue;
            };
            let pull = Pull { drawer: Drawer::Gauges, item: Words::from(Fact::from(&gauge.name.value)), count: 1 };
            if !set_up.pulls.contains(&pull) {
                set_up.pulls.push(pull);
            }
        }
        set_up.step("measured-counts");
        let to = |mm: f64| Fact::mm(mm).to(Decimals::Exactly(3));
        // As it is read: a gauge that is off by its doubt must not hide the limit.
        let (least, most) = kit::read_ends(self.bench, (self.size.least(), self.size.most()), self.gauge());
        set_up.step_with(match self.size.inside {
            // Inward in the unit that is printed.
            true => Words::of("never-over").with("most", to(most).rounded(Rounds::Down)),
            false => Words::of("never-under").with("least", to(least).rounded(Rounds::Up)),
        });
        // What was judged is not much deeper.
        let most = self.size.still_to_cut(dialled).map_or(0.0, |left| left.number() + left.plus_minus());
        let deepest = self.cutting.cuts.depths.first().map_or(f64::INFINITY, Worked::number);
        let share = row("depth-over-judged").map_or(1.0, |row| row.value);
        if most > share * deepest {
            set_up.step_with(Words::of("over-so-deep-two").with("deepest", to(deepest).rounded(Rounds::Down)));
        }
    }

    /// The passes more at one dial before it is measured: what sprang away must be gone, or it is taken for metal still to go.
    fn again(&self, gone: f64, set_up: &mut SetUp) {
        let same = Pass { kind: PassKind::Spring, depth: 0.0, dial: self.dial.reads(gone), leaves: None };
        let passes = vec![same; usize::try_from(self.cutting.cuts.before_measured).unwrap_or(0)];
        self.cut("again-before-measuring", &passes, set_up);
    }

    fn passes(&self) -> Vec<Pass> {
        let count = self.cutting.cuts.divisions.len();
        let mut passes = Vec::new();
        let mut reached = 0;
        for (at, divisions) in self.cutting.cuts.divisions.iter().enumerate() {
            reached += divisions;
            let kind = if at + 1 < count { PassKind::Rough } else { PassKind::Finish };
            passes.push(self.pass(kind, *divisions, reached));
        }
        for _ in 0..self.cutting.cuts.spring {
            passes.push(self.pass(PassKind::Spring, 0, reached));
        }
        passes
    }

    fn pass(&self, kind: PassKind, divisions: u32, reached: u32) -> Pass {
        let depth = f64::from(divisions) * self.size.amount.division;
        let gone = f64::from(reached) * self.size.division;
        let (changed, wider) = self.size.changed_by(gone);
        let left = self.size.after_so_much(changed);
        let left = Fact::doubted(left, self.size.present.plus_minus() + wider, Unit::Mm);
        // What is cut on one side alone has no diameter yet.
        let leaves = self.size.is_round_after(gone).then_some(left);
        Pass { kind, depth, dial: self.dial.reads(gone), leaves }
    }

    fn cut(&self, id: &'static str, passes: &[Pass], set_up: &mut SetUp) {
        if passes.is_empty() {
            return;
        }
        let minutes = self.minutes * passes.len() as f64;
        set_up.cut(Words::of(id), self.with_passes(passes.to_vec(), minutes));
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

    fn blanks(&self, ends: bool, answer: &Answer) -> Vec<Blank> {
        let found = kit::found(answer, PRESENT.key);
        let target = self.size.width.as_ref().map_or_else(
            || kit::aimed(answer, self.size.name.key),
            |_| Some(kit::read_inside(self.bench, (self.size.least(), self.size.most()), self.gauge())),
        );
        let diameter = kit::read_with(kit::blank("diameter-left", found, target), PLACES, self.bench, self.gauge());
        let diameter = diameter.left_as(self.size.name);
        let [short, long] = self.length;
        let length = match long > short {
            true => Some(kit::read_inside(self.bench, (short, long), Gauge::Depth)),
            false => kit::aimed(answer, LENGTH.key),
        };
        let length = kit::blank("length-left", None, length);
        let length = if ends { length.left_as(&LENGTH) } else { length };
        let finish = kit::no_rougher("finish-left", answer, turning::FINISH.key);
        [Some(diameter), Some(kit::read_with(length, 1, self.bench, Gauge::Depth)), finish]
            .into_iter()
            .flatten()
            .collect()
    }
}
