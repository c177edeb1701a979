//! Where the bore comes to stand: how far off the axis the old hole lies, the wall that is left, and what is met at its end.

use super::keys::{BoreHole, TrueTo};
use super::names::{BELOW, ECCENTRIC, LEFT_BEHIND, PRESENT_DEPTH, WALL};
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::stock;
use crate::operations::diameter::{CleansUp, PART_LENGTH, Size, wall_stands};
use crate::operations::hole_making::read_at;
use crate::operations::{Answer, Bench, Stop, turning};
use crate::proof::{Check, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Shift};
use crate::shop::Gauge;

/// How far things lie off the axis that is bored.
pub(super) struct OffAxis {
    /// The hole as found; none where nobody says.
    pub of_hole: Option<Worked<Mm>>,
    /// The outside; none where nobody says.
    pub of_outside: Option<Worked<Mm>>,
    /// How far the hole lies off the middle of the outside; none where nobody says.
    pub eccentric: Option<Worked<Mm>>,
    /// The keys that are missing for either.
    pub missing: Vec<&'static str>,
}

impl OffAxis {
    pub(super) fn clean(&self) -> CleansUp {
        CleansUp { off: self.of_hole.clone(), missing: self.missing.clone() }
    }

    /// How far the part swings off the axis that it turns about: trued by its hole, as far as that lies off its middle. What is no more
    /// than any chuck runs out by does not count.
    pub(super) fn swings(&self, true_to: Option<TrueTo>) -> Result<Option<Worked<Mm>>, Refusal> {
        let from = row("swing-off-counted-from")?.value;
        let eccentric = self.eccentric.clone().filter(|off| off.high() > from);
        Ok(eccentric.filter(|_| true_to != Some(TrueTo::Outside)))
    }
}

impl BoreHole {
    /// Trued by the hole the outside lies off, trued by the outside the hole does; where nobody says, both.
    pub(super) fn off_axis(&self, bench: &Bench, answer: &mut Answer) -> Result<OffAxis, Refusal> {
        let run_out = self.hold.as_ref().and_then(|hold| hold.true_within.as_ref()).map(Worked::<Mm>::from);
        let eccentric = answer.read_difference_if(bench, "eccentric", Gauge::FromCentre, self.eccentric.as_ref())?;
        let eccentric = eccentric.map(|off| answer.record(&ECCENTRIC, off));
        let missing = |eccentric_asked: bool| {
            let mut all = Vec::new();
            all.extend((eccentric_asked && eccentric.is_none()).then_some("eccentric"));
            all.extend(run_out.is_none().then_some("hold.true-within"));
            all
        };
        let none = || Worked::row(Mm::new(0.0), "it runs true itself: 0", Source::fixed("geometry", Mark::Derived));
        let true_to = self.true_to.as_ref().map(|at| at.value);
        if true_to.is_none() {
            answer.assume_words(Words::of("true-to-unknown"));
        }
        let off = |own: bool| -> Result<Option<Worked<Mm>>, Refusal> {
            let eccentric = if own { Some(none()) } else { eccentric.clone() };
            match (eccentric, &run_out) {
                (Some(eccentric), Some(run_out)) => stock::off_the_axis(&eccentric, run_out).map(Some),
                _ => Ok(None),
            }
        };
        let of_hole = off(true_to == Some(TrueTo::Bore))?;
        let of_outside = off(true_to == Some(TrueTo::Outside))?;
        let missing = missing(true_to != Some(TrueTo::Bore));
        Ok(OffAxis { of_hole, of_outside, eccentric, missing })
    }

    /// Where nobody says by what it is trued, the worse of both was judged: saying it is the first way out.
    pub(super) fn says_by_what(&self, answer: &mut Answer) {
        const IDS: [&str; 4] = ["cleans-up", "wall", "wall-stands", "can-be-trued"];
        if self.true_to.is_some() {
            return;
        }
        let judged = answer.checks.iter_mut().filter(|check| IDS.contains(&check.id));
        for check in judged.filter(|check| check.verdict().is_some() && !check.is_proven()) {
            check.remedy(Words::of("say-by-what"));
        }
    }

    /// Trued by the hole, the part must be moved in what holds it: what centres itself moves it no further than paper under a jaw.
    pub(super) fn can_be_trued(&self, bench: &Bench, off: &OffAxis, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "can-be-trued";
        let Some(hold) = &self.hold else {
            answer.not_checked(&[ID], &["hold"]);
            return Ok(());
        };
        let true_to = self.true_to.as_ref().map(|at| at.value);
        if true_to == Some(TrueTo::Outside) || !hold.held_in.value.centres_itself() {
            answer.does_not_apply(&[ID]);
            return Ok(());
        }
        let as_it_is =
            hold.true_within.as_ref().map(|within| Worked::<Mm>::from(within).scaled(0.5, "half of the run-out"));
        let by_paper = constant::<Mm>("paper-under-a-jaw-most")?;
        let most = match as_it_is {
            Some(within) if hold.held_in.value.jaws().is_none() || within.number() > by_paper.number() => Some(within),
            _ if hold.held_in.value.jaws().is_some() => Some(by_paper),
            _ => None,
        };
        let (Some(eccentric), Some(most)) = (&off.eccentric, &most) else {
            let mut missing = Vec::new();
            missing.extend(off.eccentric.is_none().then_some("eccentric"));
            missing.extend(most.is_none().then_some("hold.true-within"));
            answer.not_checked(&[ID], &missing);
            return Ok(());
        };
        let check = Check::judge(ID, eccentric, Keep::AtMost, most, bench.guard()).at(hold.held_in.place);
        // Where nobody says what it is trued by, it may still be the outside.
        answer.check(if true_to.is_none() { check.not_worse_than(Verdict::Doubtful) } else { check });
        Ok(())
    }

    /// The wall at the worst end of everything.
    pub(super) fn wall_left(
        &self,
        bench: &Bench,
        (size, outside): (&Size, &Worked<Mm>),
        off: &OffAxis,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "wall";
        let mut missing = Vec::new();
        missing.extend(self.least_wall.is_none().then_some("least-wall"));
        let Some(off) = &off.of_outside else {
            missing.extend(self.eccentric.is_none().then_some("eccentric"));
            missing
                .extend(self.hold.as_ref().is_none_or(|hold| hold.true_within.is_none()).then_some("hold.true-within"));
            answer.not_checked(&[ID], &missing);
            missing.retain(|key| *key != "least-wall");
            answer.not_checked(&["wall-stands"], &missing);
            return Ok(());
        };
        let largest = size.most_gone(self.bore.place);
        let wall = answer.record(&WALL, stock::wall_of_bore(outside, &largest, off)?);
        wall_stands(bench, &wall, outside, WALL.key, answer)?;
        let Some(least) = &self.least_wall else {
            answer.not_checked(&[ID], &missing);
            return Ok(());
        };
        let limit = Worked::exact(least.value.high, Origin::Typed(least.place));
        let check = Check::judge(ID, &wall, Keep::AtLeast, &limit, bench.guard()).about(WALL.key).at(least.place);
        answer.check(check);
        Ok(())
    }

    /// What a bar that comes through would strike, or what stands below the bottom of one that does not.
    pub(super) fn at_its_end(&self, bench: &Bench, depth: &Worked<Mm>, answer: &mut Answer) -> Result<(), Refusal> {
        if self.goes_through() {
            answer.does_not_apply(&["bottom"]);
            return self.behind_it(bench, answer);
        }
        answer.does_not_apply(&["behind"]);
        let Some(there) = answer.read_if(bench, "present-depth", Gauge::Depth, self.present_depth.as_ref())? else {
            answer.not_checked(&["bottom"], &["present-depth"]);
            return Ok(());
        };
        let there = answer.record(&PRESENT_DEPTH, there);
        let deepest = Worked::exact(self.depth.value.high, Origin::Typed(self.depth.place));
        let deepest = if depth.high() > deepest.number() { depth.clone() } else { deepest };
        let below = answer.record(&BELOW, stock::gap_behind(&there, &deepest)?);
        let least: Worked<Shift> = constant("bore-bottom-clear")?;
        let check = Check::judge("bottom", &below, Keep::AtLeast, &least, bench.guard()).about(BELOW.key);
        answer.check(check);
        Ok(())
    }

    fn behind_it(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        const ID: &str = "behind";
        let Some(behind) = &self.behind else {
            answer.not_checked(&[ID], &["behind"]);
            return Ok(());
        };
        let Some(at) = read_at(behind, behind.value.reading()) else {
            answer.assume_words(Words::of("clear-behind"));
            // A rod in the spindle stands where the bar comes out, whatever was typed.
            if self.hold.as_ref().is_some_and(|hold| hold.stop() == Stop::Rod) {
                answer.check(Check::of_kind(ID, Verdict::Doubtful).at(behind.place)).remedy(Words::of("rod-behind"));
            } else {
                answer.does_not_apply(&[ID]);
            }
            return Ok(());
        };
        let gap = answer.read(bench, "behind", Gauge::Depth, &at)?;
        // Sent further than the part is long, it comes out by as much more.
        let over_all = answer.value(PART_LENGTH.key).map_or(f64::INFINITY, |over_all| over_all.number);
        let beyond = (self.depth.value.high.number() - over_all - turning::LENGTHS_AGREE).max(0.0);
        let overrun = constant::<Mm>("overrun")?.shifted(beyond, "and what it is sent past the far end");
        let left = answer.record(&LEFT_BEHIND, stock::gap_behind(&gap, &overrun)?);
        let least: Worked<Shift> = constant("clear-while-cutting")?;
        let check = Check::judge(ID, &left, Keep::AtLeast, &least, bench.guard()).about(LEFT_BEHIND.key);
        // A rod in the spindle stands right behind the rim of the hole, whatever was read beside it.
        if self.hold.as_ref().is_some_and(|hold| hold.stop() == Stop::Rod) {
            let check = check.not_better_than(Verdict::Doubtful);
            answer.check(check.at(behind.place)).remedy(Words::of("rod-behind"));
        } else {
            answer.check(check.at(behind.place));
        }
        Ok(())
    }
}
