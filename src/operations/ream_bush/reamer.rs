//! The reamer: every one of the shop is worked as an alternative; the surest is taken, a fixed one before an expanding one.

use super::checks;
use super::keys::{Groove, ReamBush};
use super::names::{FIRST_SETTING, LAST_SETTING, PASSES, REAM_FEED, REAM_SPEED, REAMER_HIGH, REAMER_LOW, STOCK};
use crate::handbook::joints::reaming::{self, Way};
use crate::handbook::joints::reaming_run;
use crate::handbook::{cutting::speeds, joints::press};
use crate::operations::kit::mm;
use crate::operations::press_joint::{Joint, Metals};
use crate::operations::spindle::{speed_habit, step_at_or_below};
use crate::operations::{Alternative, Answer, Bench};
use crate::proof::{Check, Fact, Keep, Mark, Origin, Refusal, Side, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Ratio, Shift};
use crate::shop::{By, ExpandingReamer, FixedReamer, Machine, Reamer};

/// What is reamed: the limits of the finished bore and the closed-in bore, or bores, that the reamer finds.
pub(super) struct Reamed<'a> {
    pub low: &'a Worked<Mm>,
    pub high: &'a Worked<Mm>,
    pub middle: &'a Worked<Mm>,
    pub pressed: &'a Worked<Mm>,
}

/// What the reaming page needs of the reamer.
pub(super) struct Reaming {
    pub name: Words,
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
        reamed: &Reamed,
        joint: &Joint,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        answer.does_not_apply(&["must-not-be-reamed"]);
        answer.record(&STOCK, reaming::stock_left(reamed.middle, reamed.pressed)?);
        let reamers = bench.shop.map_or(&[][..], |shop| &shop.reamers);
        for reamer in reamers {
            answer.alternative(bench, reamer.name(), |bench, row| match reamer {
                Reamer::Fixed(fixed) => self.fixed(bench, fixed, reamed, joint, row),
                Reamer::Expanding(expanding) => self.expanding(bench, expanding, reamed, joint, row),
            });
        }
        let rank = |(at, alternative): (usize, &Alternative)| {
            let expanding = matches!(reamers.get(at), Some(Reamer::Expanding(_)));
            (alternative.answer.verdict(), expanding, at)
        };
        let best = answer.alternatives.iter().enumerate().map(rank).min();
        let best = best.filter(|(_, _, at)| answer.alternatives.get(*at).is_some_and(|it| !it.answer.does_not_fit()));
        let taken = best.map(|(verdict, _, at)| (at, verdict));
        for (at, alternative) in answer.alternatives.iter_mut().enumerate() {
            alternative.why_not = match (taken, alternative.answer.verdict()) {
                (Some((chosen, _)), _) if chosen == at => None,
                (_, Verdict::Fails) => Some(Words::of(alternative.answer.why_it_fails())),
                (Some((_, verdict)), own) if own > verdict => Some(Words::of("less-sure-than-chosen")),
                _ => Some(Words::of("another-serves")),
            };
        }
        self.take_reamer(bench, reamers, taken.map(|(at, _)| at), reamed, joint, answer)?;
        match self.by() {
            By::Machine => self.machine_speed(bench, metals, reamed, answer)?,
            By::Hand => answer.does_not_apply(&["reamer-too-fast"]),
        }
        match reaming_run::lubricant(&metals.bush) {
            Some((words, source)) => {
                answer.choose("lubricant", words, Words::of("lubricant-by-metal").with("source", source.to_string()));
            }
            None => answer.choose("lubricant", Fact::named("cutting-oil"), Words::of("lubricant-unknown")),
        }
        Ok(())
    }

    fn take_reamer(
        &self,
        bench: &Bench,
        reamers: &[Reamer],
        taken: Option<usize>,
        reamed: &Reamed,
        joint: &Joint,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let taken = taken.and_then(|at| Some((at, reamers.get(at)?)));
        match taken {
            Some((at, reamer)) => {
                answer.choose_alternative(at);
                let why = match reamer {
                    Reamer::Fixed(_) => "cuts-inside-the-window",
                    Reamer::Expanding(_) => "approaches",
                };
                answer.choose("reamer", reamer.name(), Words::of(why));
            }
            None => {
                self.judge_stock(bench, Way::Expanding, reamed, joint, answer)?;
                answer.does_not_apply(checks::OF_FIXED);
                if bench.shop.is_some() {
                    answer.missing.push(Words::of("reamer"));
                    let lacks = |id| Check::of_kind(id, Verdict::Doubtful);
                    checks::OF_EXPANDING.iter().for_each(|id| {
                        answer.check(lacks(id)).remedy(Words::of("borrow-a-reamer"));
                    });
                    answer.does_not_apply(&["reamer-by"]);
                } else {
                    answer.no_shop(checks::OF_EXPANDING);
                    answer.no_shop(&["reamer-by"]);
                    answer.assume_words(Words::of("reamer-not-checked"));
                }
                let why = if bench.shop.is_some() { "no-reamer-of-the-shop" } else { "reamers-not-known" };
                answer.choose("reamer", Fact::named("an-expanding-reamer"), Words::of(why));
            }
        }
        if !matches!(taken, Some((_, Reamer::Fixed(_)))) {
            self.settings(reamed, answer)?;
        }
        Ok(())
    }

    /// The stock that the reamer finds, against what it may take. A line has the stock of both bushes.
    fn judge_stock(
        &self,
        bench: &Bench,
        way: Way,
        reamed: &Reamed,
        joint: &Joint,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let way = if self.by() == By::Machine { Way::Machine } else { way };
        let stock = reaming::stock_left(reamed.middle, reamed.pressed)?;
        let limits = reaming::stock(way, reamed.middle.number())?;
        let none = Worked::assumed(Shift::new(0.0), "what is not there cannot be reamed");
        let place = self.bush.bore.as_ref().map_or(self.bush.length.place, |at| at.place);
        let exact = |x: &Worked<Mm>| x.nominal("the size to bore to");
        let bored = press::bore_to_make(&exact(reamed.middle), &limits.aim, &exact(&joint.close_in))?;
        let bored = Words::of("bush-bored-to").with("bore", mm(bored.number()));
        let says = Fact::span(mm(limits.least.number()), mm(limits.most.number()));
        let least: Worked<Shift> = limits.least.becomes();
        let check = Check::judge_two("stock-least", (&stock, &least), Keep::AtLeast, (&stock, &none), bench.guard());
        let check = answer.check(check.about(STOCK.key).with("stock_limits", says.clone()).at(place));
        check.remedy(bored.clone()).remedy(Words::of("hone-or-lap"));
        let (most, over) = (limits.most.becomes(), limits.doubtful_most.becomes());
        let check = Check::judge_two("stock-most", (&stock, &most), Keep::AtMost, (&stock, &over), bench.guard());
        let check = answer.check(check.about(STOCK.key).with("stock_limits", says).at(place));
        check.remedy(Words::of("bore-first")).remedy(bored);
        Ok(())
    }

    /// The series of settings, as values and as words: from the smaller bore where two are in line.
    fn settings(&self, reamed: &Reamed, answer: &mut Answer) -> Result<(), Refusal> {
        let from = reamed.pressed.number();
        let all = reaming::approach(from, reamed.middle.number())?;
        let line = |setting: f64| {
            let lines = vec![format!("from {from:.3} to {:.3} mm in steps: {setting:.3} mm", reamed.middle.number())];
            let source = Source::fixed("a series of small cuts, the steps of the constants", Mark::Own);
            Worked::method_of(Mm::new(setting), lines, source, [reamed.pressed.origin(), reamed.middle.origin()])
        };
        if let (Some(first), Some(last)) = (all.first(), all.last()) {
            answer.record(&FIRST_SETTING, line(*first));
            answer.record(&LAST_SETTING, line(*last));
            let count = Ratio::new(all.len() as f64 + 1.0);
            answer.record(&PASSES, Worked::exact(count, Origin::Assumed("the last setting is passed twice".into())));
        }
        let settings = Fact::Series(all.iter().map(|setting| mm(*setting)).collect(), ", ");
        answer.fact("settings", if all.is_empty() { Fact::named("no-settings") } else { settings });
        Ok(())
    }

    /// What the set-up needs of what was chosen.
    pub(super) fn reaming(&self, bench: &Bench, answer: &Answer) -> Result<Reaming, Refusal> {
        let number = |key: &str| answer.value(key).map(|value| value.number);
        let chosen = answer.choices.iter().find(|choice| choice.name == "reamer");
        let name = chosen.map_or_else(|| Fact::from("").into(), |choice| choice.chosen.clone());
        let settings = match (number(STOCK.key), number(LAST_SETTING.key)) {
            (Some(stock), Some(to)) => reaming::approach(to - stock, to)?,
            _ => Vec::new(),
        };
        let over = answer.checks.iter().find(|check| check.id == "reamer-not-over");
        let trial = over.is_some_and(|check| check.verdict().is_some_and(|verdict| verdict != Verdict::Proven));
        // A quill without feeds is fed by hand: that of a turn stands in the words.
        let spindle = number(REAM_SPEED.key);
        let mill = self.drilling_machine(bench).and_then(Machine::drills);
        let feed = number(REAM_FEED.key).filter(|_| mill.is_some_and(|mill| mill.feeds_quill.is_some()));
        Ok(Reaming { name, settings, trial, spindle, feed })
    }

    /// A fixed reamer: its own size inside the window, and what it cuts over as well.
    fn fixed(
        &self,
        bench: &Bench,
        reamer: &FixedReamer,
        reamed: &Reamed,
        joint: &Joint,
        row: &mut Answer,
    ) -> Result<(), Refusal> {
        let Some((nominal, hole)) = reamer.size.value.hole() else {
            return Err(Refusal::NotGiven { what: "the hole of the reamer", key: "size: 16 H7" });
        };
        // What nobody marked or measured is taken for the usual class and proves nothing.
        let sure = if reamer.size.value.has_class { Verdict::Proven } else { Verdict::Doubtful };
        if sure != Verdict::Proven {
            row.assume_words(Words::of("reamer-without-class").with("reamer", &reamer.name.value));
        }
        let size = reaming::reamer_size(nominal, hole)?;
        let low = row.record(&REAMER_LOW, size.low);
        let high = row.record(&REAMER_HIGH, size.high);
        let mut under = Check::judge("reamer-not-under", &low, Keep::AtLeast, reamed.low, bench.guard());
        under.about = Some(REAMER_LOW.key);
        row.check(under.not_better_than(sure));
        let habit = bench.shop.and_then(|shop| shop.habits.cuts_over.as_ref());
        let over = match reamer.cuts_over.as_ref().or(habit) {
            Some(seen) => seen.into(),
            None => {
                let usual = reaming::usual_cuts_over(self.by() == By::Hand)?;
                let upto = mm(usual.band_end(Side::High));
                row.assume_words(Words::of("cuts-over").with("value", upto).with("reamer", &reamer.name.value));
                usual
            }
        };
        let cuts = reaming::reamer_cuts(&high, &over)?;
        let mut over = Check::judge("reamer-not-over", &cuts, Keep::AtMost, reamed.high, bench.guard());
        over.about = Some(REAMER_HIGH.key);
        over.remedy(Words::of("trial-bore-first"));
        row.check(over.not_better_than(sure));
        row.does_not_apply(checks::OF_EXPANDING);
        self.judge_stock(bench, Way::FixedByHand, reamed, joint, row)?;
        self.suits(reamer.by.as_ref().map(|by| by.value), false, row);
        Ok(())
    }

    /// An expanding reamer: it must close to the bore that is there and open to the bore that is wanted.
    fn expanding(
        &self,
        bench: &Bench,
        reamer: &ExpandingReamer,
        reamed: &Reamed,
        joint: &Joint,
        row: &mut Answer,
    ) -> Result<(), Refusal> {
        row.judge(bench, "reamer-closes", &(&reamer.from).into(), Keep::AtMost, reamed.pressed);
        row.judge(bench, "reamer-opens", &(&reamer.to).into(), Keep::AtLeast, reamed.middle);
        row.does_not_apply(checks::OF_FIXED);
        self.judge_stock(bench, Way::Expanding, reamed, joint, row)?;
        self.suits(reamer.by.as_ref().map(|by| by.value), true, row);
        Ok(())
    }

    /// Hand reamers are guided by their long taper, machine reamers by the spindle; one that is set by a screw is no machine tool.
    fn suits(&self, made_for: Option<By>, expanding: bool, row: &mut Answer) {
        let wrong = made_for.is_some_and(|by| by != self.by()) || (expanding && self.by() == By::Machine);
        row.check(Check::of_kind("reamer-by", if wrong { Verdict::Doubtful } else { Verdict::Proven }));
    }

    /// Straight blades drop into a groove that runs along the bore.
    pub(super) fn groove(&self, answer: &mut Answer) {
        let Some(groove) = &self.groove else {
            answer.does_not_apply(&["groove"]);
            return;
        };
        let verdict = match (groove.value, self.by()) {
            (Groove::Split, By::Hand) => Verdict::Fails,
            (Groove::Split | Groove::Lengthwise, _) => Verdict::Doubtful,
            (Groove::Around | Groove::Spiral, _) => Verdict::Proven,
        };
        let check = answer.check(Check::of_kind("groove", verdict).at(groove.place));
        check.remedy(Words::of("fill-the-split")).remedy(Words::of("spiral-reamer"));
    }

    fn machine_speed(
        &self,
        bench: &Bench,
        metals: &Metals,
        reamed: &Reamed,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let Ok(start) = reaming_run::reaming_speed(&metals.bush) else {
            answer.not_checked(&["reamer-too-fast"], &["bush.material"]);
            answer.assume_words(Words::of("no-reaming-speed"));
            return Ok(());
        };
        if let Ok(feed) = reaming_run::reaming_feed(reamed.middle.number()) {
            answer.record(&REAM_FEED, feed);
        }
        let Some(machine) = self.drilling_machine(bench).and_then(Machine::drills) else {
            if bench.shop.is_some() {
                answer.not_checked(&["reamer-too-fast"], &["machines"]);
            } else {
                answer.no_shop(&["reamer-too-fast"]);
            }
            answer.assume_words(Words::of("steps-not-checked"));
            return Ok(());
        };
        let one = Worked::exact(Ratio::new(1.0), Origin::Assumed("no factor".into()));
        let wanted = speeds::speed_by_factors(&start, &one, &speed_habit(bench))?;
        let size = reamed.middle.nominal("a speed: the last hundredths of the bore do not show in it");
        let revs = speeds::spindle_speed(&wanted, &size)?;
        let step = step_at_or_below(machine, &revs, "reamer-too-fast", answer);
        answer.record(&REAM_SPEED, step);
        let slow = !answer.checks.iter().any(|check| check.id == "reamer-too-fast");
        if slow {
            answer.check(Check::of_kind("reamer-too-fast", Verdict::Proven).with("over", ""));
        }
        Ok(())
    }
}

impl Answer {
    fn fails(&self, id: &str) -> bool {
        self.checks.iter().any(|check| check.id == id && check.verdict() == Some(Verdict::Fails))
    }

    /// Whether a reamer cannot cut this bore, whatever stock it finds.
    fn does_not_fit(&self) -> bool {
        self.refused.is_some() || checks::OF_EXPANDING.iter().chain(checks::OF_FIXED).any(|id| self.fails(id))
    }

    /// Why a reamer will not do.
    fn why_it_fails(&self) -> &'static str {
        match () {
            () if self.refused.is_some() => "not-worked-out",
            () if self.fails("reamer-not-under") => "cuts-under-the-window",
            () if self.fails("reamer-not-over") => "cuts-over-the-window",
            () if self.fails("reamer-closes") => "does-not-close-so-far",
            () if self.fails("reamer-opens") => "does-not-open-so-far",
            () => "stock-does-not-suit",
        }
    }
}
