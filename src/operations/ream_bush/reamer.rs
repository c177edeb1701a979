//! The reamer: every one of the shop is worked as a alternative; the surest is taken, a fixed one before an expanding one.

use super::bore::Finished;
use super::joint::Joint;
use super::*;
use crate::handbook::{joints::reaming, cutting::speeds};
use crate::operations::Alternative;
use crate::operations::spindle::{speed_habit, step_at_or_below};
use crate::proof::{Keep, Origin};
use crate::shop::{ExpandingReamer, FixedReamer, Machine, Reamer};

/// What the reaming page needs of the reamer.
pub(super) struct Reaming {
    pub name: String,
    /// Settings of an expanding reamer; empty for a fixed one.
    pub settings: Vec<f64>,
    /// Whether a trial bore comes first.
    pub trial: bool,
    pub spindle: Option<f64>,
    pub feed: Option<f64>,
}

impl ReamBush {
    /// Works every reamer of the shop and takes the best.
    pub(super) fn choose_reamer(
        &self,
        bench: &Bench,
        metals: &Metals,
        finished: &Finished,
        joint: &Joint,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        self.groove_and_reamer(answer);
        let reamers = bench.shop.map_or(&[][..], |shop| &shop.reamers);
        for reamer in reamers {
            answer.alternative(reamer.name(), |row| match reamer {
                Reamer::Fixed(fixed) => self.fixed(bench, fixed, finished, row),
                Reamer::Expanding(expanding) => self.expanding(bench, expanding, finished, joint, row),
            });
        }
        let rank = |(at, alternative): (usize, &Alternative)| {
            let expanding = matches!(reamers.get(at), Some(Reamer::Expanding(_)));
            (alternative.answer.verdict(), expanding, at)
        };
        let best = answer.alternatives.iter().enumerate().map(rank).min();
        let taken = best.filter(|(verdict, ..)| *verdict != Verdict::Fails).map(|(verdict, _, at)| (at, verdict));
        for (at, alternative) in answer.alternatives.iter_mut().enumerate() {
            alternative.why_not = match (taken, alternative.answer.verdict()) {
                (Some((chosen, _)), _) if chosen == at => None,
                (_, Verdict::Fails) => Some(Words::of(alternative.answer.why_it_fails())),
                (Some((_, verdict)), own) if own > verdict => Some(Words::of("less-sure-than-chosen")),
                _ => Some(Words::of("another-serves")),
            };
        }
        self.take_reamer(bench, reamers, taken.map(|(at, _)| at), finished, joint, answer)?;
        if self.by() == By::Machine {
            self.machine_speed(bench, metals, finished, answer)?;
        }
        match reaming::lubricant(&metals.bush) {
            Some((words, source)) => {
                answer.choose("lubricant", words, Words::of("lubricant-by-metal").with("source", source.to_string()));
            }
            None => answer.choose("lubricant", "cutting oil", Words::of("lubricant-unknown")),
        }
        Ok(())
    }

    fn take_reamer(
        &self,
        bench: &Bench,
        reamers: &[Reamer],
        taken: Option<usize>,
        finished: &Finished,
        joint: &Joint,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let taken = taken.and_then(|at| Some((at, reamers.get(at)?)));
        match taken {
            Some((at, reamer)) => {
                answer.choose_alternative(at);
                let why = match reamer {
                    Reamer::Fixed(_) => "cuts-inside-the-window",
                    Reamer::Expanding(_) => "creeps-up",
                };
                answer.choose("reamer", reamer.name(), Words::of(why));
            }
            None => {
                if bench.shop.is_some() {
                    answer.missing.push(Words::of("reamer"));
                    answer.check(Check::of_kind("reamer-in-shop", Verdict::Doubtful));
                } else {
                    answer.assume_words(Words::of("reamer-not-checked"));
                }
                answer.choose("reamer", "an expanding reamer", Words::of("no-reamer-of-the-shop"));
            }
        }
        if !matches!(taken, Some((_, Reamer::Fixed(_)))) {
            self.settings(bench, finished, joint, answer)?;
        }
        Ok(())
    }

    /// The creep-up series, as values and as words.
    fn settings(&self, bench: &Bench, finished: &Finished, joint: &Joint, answer: &mut Answer) -> Result<(), Refusal> {
        let all = reaming::creep_up(joint.pressed.number(), finished.middle.number())?;
        let line = |setting: f64| {
            let lines = vec![format!("creep up to {:.3} mm: {setting:.3} mm", finished.middle.number())];
            let source = crate::proof::Source::fixed("a series of small cuts, the steps of the constants", crate::proof::Mark::Own);
            Worked::method(Mm::new(setting), lines, source)
        };
        if let (Some(first), Some(last)) = (all.first(), all.last()) {
            answer.record(&FIRST_SETTING, line(*first));
            answer.record(&LAST_SETTING, line(*last));
            let count = Ratio::new(all.len() as f64 + 1.0);
            answer.record(&PASSES, Worked::exact(count, Origin::Assumed("the last setting is passed twice".into())));
        }
        let settings = Fact::Series(all.iter().map(|setting| mm(*setting)).collect(), ", ");
        answer.fact("settings", if all.is_empty() { "none: nothing is left".into() } else { settings });
        Ok(())
    }

    /// What the set-up needs of what was chosen.
    pub(super) fn reaming(&self, answer: &Answer) -> Result<Reaming, Refusal> {
        let number = |key: &str| answer.value(key).map(|value| value.number);
        let name = answer.choices.iter().find(|choice| choice.name == "reamer").map(|choice| choice.chosen.clone());
        let settings = match (number(BORE_PRESSED.key), number(LAST_SETTING.key)) {
            (Some(from), Some(to)) => reaming::creep_up(from, to)?,
            _ => Vec::new(),
        };
        let trial = answer.checks.iter().any(|f| f.id == "cuts-over-known" && f.verdict() != Some(Verdict::Proven));
        let (spindle, feed) = (number(REAM_SPEED.key), number(REAM_FEED.key));
        Ok(Reaming { name: name.unwrap_or_default(), settings, trial, spindle, feed })
    }

    /// A fixed reamer: its own size inside the window, and what it cuts over as well.
    fn fixed(&self, bench: &Bench, reamer: &FixedReamer, finished: &Finished, row: &mut Answer) -> Result<(), Refusal> {
        let fit = &reamer.size.value;
        let (Some(nominal), Some(hole)) = (fit.nominal, &fit.hole) else {
            return Err(Refusal::NotGiven { what: "the hole of the reamer", key: "size: 16 H7" });
        };
        let size = reaming::reamer_size(nominal, hole)?;
        let low = row.record(&REAMER_LOW, size.low);
        let high = row.record(&REAMER_HIGH, size.high);
        row.judge(bench, "reamer-not-under", &low, Keep::AtLeast, &finished.low).about = Some(REAMER_LOW.key);
        match &reamer.cuts_over {
            Some(over) => {
                let cuts = high.end(high.number() + over.value.number(), "and what it cuts over");
                row.judge(bench, "reamer-not-over", &cuts, Keep::AtMost, &finished.high);
                row.check(Check::of_kind("cuts-over-known", Verdict::Proven));
            }
            None => {
                row.judge(bench, "reamer-not-over", &high, Keep::AtMost, &finished.high).about = Some(REAMER_HIGH.key);
                row.check(Check::of_kind("cuts-over-known", Verdict::Doubtful));
            }
        }
        self.suits(reamer.by.as_ref().map(|by| by.value), false, row);
        Ok(())
    }

    /// An expanding reamer: it must close to the bore that is there and open to the bore that is wanted.
    fn expanding(
        &self,
        bench: &Bench,
        reamer: &ExpandingReamer,
        finished: &Finished,
        joint: &Joint,
        row: &mut Answer,
    ) -> Result<(), Refusal> {
        row.judge(bench, "reamer-closes", &(&reamer.from).into(), Keep::AtMost, &plain(&joint.pressed));
        row.judge(bench, "reamer-opens", &(&reamer.to).into(), Keep::AtLeast, &plain(&finished.middle));
        self.suits(reamer.by.as_ref().map(|by| by.value), true, row);
        Ok(())
    }

    /// Hand reamers are guided by their long taper, machine reamers by the spindle; one that is set by a screw is no machine tool.
    fn suits(&self, made_for: Option<By>, expanding: bool, row: &mut Answer) {
        let wrong = made_for.is_some_and(|by| by != self.by()) || (expanding && self.by() == By::Machine);
        if wrong {
            row.check(Check::of_kind("reamer-by", Verdict::Doubtful));
        }
    }

    /// Straight blades drop into a groove that runs along the bore.
    fn groove_and_reamer(&self, answer: &mut Answer) {
        let Some(groove) = &self.groove else { return };
        let verdict = match (groove.value, self.by()) {
            (Groove::Split, By::Hand) => Verdict::Fails,
            (Groove::Split | Groove::Lengthwise, _) => Verdict::Doubtful,
            (Groove::Around | Groove::Spiral, _) => Verdict::Proven,
        };
        let check = answer.check(Check::of_kind("groove", verdict).at(groove.place));
        check.remedy(Words::of("fill-the-split")).remedy(Words::of("spiral-reamer"));
    }

    fn machine_speed(&self, bench: &Bench, metals: &Metals, finished: &Finished, answer: &mut Answer) -> Result<(), Refusal> {
        let Ok(start) = reaming::reaming_speed(&metals.bush) else {
            answer.assume_words(Words::of("no-reaming-speed"));
            return Ok(());
        };
        if let Ok(feed) = reaming::reaming_feed(finished.middle.number()) {
            answer.record(&REAM_FEED, feed);
        }
        let Some(machine) = self.drilling_machine(bench).and_then(Machine::drills) else {
            answer.assume_words(Words::of("steps-not-checked"));
            return Ok(());
        };
        let one = Worked::exact(Ratio::new(1.0), Origin::Assumed("no factor".into()));
        let wanted = speeds::speed_by_factors(&start, &one, &speed_habit(bench))?;
        let revs = speeds::spindle_speed(&wanted, &plain(&finished.middle))?;
        let step = step_at_or_below(machine, &revs, "reamer-too-fast", answer);
        answer.record(&REAM_SPEED, step);
        Ok(())
    }
}

impl Answer {
    /// Why a reamer will not do.
    fn why_it_fails(&self) -> &'static str {
        let fails = |check: &str| self.checks.iter().any(|f| f.id == check && f.verdict() == Some(Verdict::Fails));
        match () {
            () if self.refused.is_some() => "not-worked-out",
            () if fails("reamer-not-under") => "cuts-under-the-window",
            () if fails("reamer-not-over") => "cuts-over-the-window",
            () if fails("reamer-closes") => "does-not-close-so-far",
            () => "does-not-open-so-far",
        }
    }
}
