//! The finished bore: running clearance, its limits, whether any bore satisfies them, whether it can be measured.

use super::checks;
use super::keys::{GaugeBy, ReamBush};
use super::line::Line;
use super::names::{BORE_MAX, BORE_MIN, CLEARANCE, CLEARANCE_MAX, CLEARANCE_MIN, FINISH, MEASURING_WINDOW, SHAFT};
use crate::handbook::joints::clearance::{self, Duty, duty_clearance};
use crate::handbook::joints::fits::{Grade, tolerance};
use crate::handbook::joints::reaming::NotReamed;
use crate::handbook::joints::{press, reaming};
use crate::handbook::{Fit, constants::constant};
use crate::job::{PartFacts, Reading};
use crate::operations::kit::{self, Clearance, mm};
use crate::operations::{Answer, Bench, PartSize, Value};
use crate::proof::{Check, Fact, Keep, Mark, Origin, Refusal, Side, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Rounds, Shift, figure};
use crate::shop::{Gauge, Instrument};

/// The finished bore and its shaft.
pub(super) struct Finished {
    pub shaft: Worked<Mm>,
    /// Clearance of the bore at its middle on the shaft as measured, with the band of the limits.
    pub clearance: Worked<Shift>,
    pub low: Worked<Mm>,
    pub high: Worked<Mm>,
    /// What the reamer aims at; nothing where no bore satisfies the limits.
    pub middle: Option<Worked<Mm>>,
}

/// The limits of clearance and bore.
struct Limits {
    clearance: (Worked<Shift>, Worked<Shift>),
    bore: (Worked<Mm>, Worked<Mm>),
}

impl ReamBush {
    /// The shaft as a part of its own metal, where it was read warm.
    fn shaft_read_warm(&self, bench: &Bench, answer: &mut Answer) -> Result<Option<PartFacts>, Refusal> {
        if !matches!(&self.shaft.value, Reading::Size { warmth: Some(_), .. }) {
            return Ok(None);
        }
        let metal = self.shaft_metal(self.running.as_ref(), answer)?;
        Ok(Some(bench.part_of(&metal, self.shaft.place)))
    }

    /// Reads the shaft and works the limits of the finished bore; those of the other bush of a line count too.
    pub(super) fn finished_bore(
        &self,
        bench: &Bench,
        line: Option<&Line>,
        answer: &mut Answer,
    ) -> Result<Finished, Refusal> {
        let of_shaft = self.shaft_read_warm(bench, answer)?;
        let at_shaft = of_shaft.as_ref().map_or(*bench, |part| bench.with_part(part));
        let shaft = answer.read(&at_shaft, "shaft", Gauge::Outside, &self.shaft)?;
        let shaft = answer.record(&SHAFT, shaft);
        answer.read_elsewhere(SHAFT.means, Some(PartSize::Outside), Value::of(&SHAFT, &shaft));
        let limits = self.limits(bench, &shaft, answer)?;
        answer.record(&CLEARANCE_MIN, limits.clearance.0.clone());
        answer.record(&CLEARANCE_MAX, limits.clearance.1.clone());
        let (mut low, mut high) = limits.bore;
        if let Some(line) = line {
            low = low.at_least(line.bore.0, "the least bore of the other bush of the line");
            high = high.at_most(line.bore.1, "the greatest bore of the other bush of the line");
        }
        let low = answer.record(&BORE_MIN, low);
        let high = answer.record(&BORE_MAX, high);
        let (least, most) = inward(low.number(), high.number());
        answer.fact("bore_least", least);
        answer.fact("bore_most", most);
        let half_way = reaming::middle(&low, &high)?;
        // At the smallest that the shaft may be: a shaft that is read worse is never tight for it.
        let loosest = clearance::clearance(&low, &shaft.worst(Side::Low, bench.guard()))?;
        self.too_loose(&loosest, &shaft, answer)?;
        let on_shaft = shaft.nominal("its doubt stands in the limits of the bore");
        let ends = (clearance_of(&low, &shaft, bench)?, clearance_of(&high, &shaft, bench)?);
        let clearance = clearance::clearance(&half_way, &on_shaft)?.with_band(ends.0.0, ends.1.1);
        let middle = (low.number() <= high.number()).then(|| {
            // Whatever its own sheet accepts is handed on, till it is measured: anything between the limits.
            answer.record(&FINISH, half_way.clone().with_band(low.number(), high.number()));
            half_way
        });
        let clearance = self.as_left(bench, (&shaft, &low, &high), &limits.clearance, answer)?.unwrap_or(clearance);
        let clearance = answer.record(&CLEARANCE, clearance);
        let finished = Finished { shaft, clearance, low, high, middle };
        self.window(bench, &limits.clearance, &finished, answer)?;
        Ok(finished)
    }

    /// The bore as the log has it, against both its limits; the clearance that it leaves. What the reamer aimed at is of no account
    /// any more.
    fn as_left(
        &self,
        bench: &Bench,
        (shaft, low, high): (&Worked<Mm>, &Worked<Mm>, &Worked<Mm>),
        (least, most): &(Worked<Shift>, Worked<Shift>),
        answer: &mut Answer,
    ) -> Result<Option<Worked<Shift>>, Refusal> {
        let Some(left) = bench.left(&FINISH)? else { return Ok(None) };
        let left = answer.record(&FINISH, left);
        let clear = clearance::clearance(&left, shaft)?;
        let place = self.clearance.as_ref().map_or(self.shaft.place, |at| at.place);
        for (keep, limit, wanted) in [(Keep::AtLeast, low, least), (Keep::AtMost, high, most)] {
            let check = Check::judge("fit-runs", &left, keep, limit, bench.guard()).about(FINISH.key);
            // The limits of the bore have the doubt of the shaft in them: what lies inside as it was read is in doubt, and not wrong.
            let as_read = keep.inside(clear.as_there(keep.bad()), wanted.number()) >= 0.0;
            let check = if as_read { check.not_worse_than(Verdict::Doubtful) } else { check }.at(place);
            let fails = check.verdict() == Some(Verdict::Fails);
            let is_tight = keep == Keep::AtLeast && fails;
            // What stands too small can be reamed on; what is too large is lost.
            let check = answer.check(Check { remedy: check.remedy.clone().filter(|_| !is_tight), ..check });
            if is_tight {
                let limits = (mm(low.number()).rounded(Rounds::Up), mm(high.number()).rounded(Rounds::Down));
                check.remedy(Words::of("ream-on").with("least", limits.0).with("most", limits.1));
            } else if keep == Keep::AtMost && fails {
                check.remedy(Words::of("another-bush"));
            }
        }
        Ok(Some(clear))
    }

    fn limits(&self, bench: &Bench, shaft: &Worked<Mm>, answer: &mut Answer) -> Result<Limits, Refusal> {
        let largest = shaft.worst(Side::High, bench.guard());
        let smallest = shaft.worst(Side::Low, bench.guard());
        let by_clearance = |low: Worked<Shift>, high: Worked<Shift>| -> Result<_, Refusal> {
            let bore = (clearance::bore_least(&largest, &low)?, clearance::bore_most(&smallest, &high)?);
            Ok(Limits { clearance: (low, high), bore })
        };
        let Some((clearance, place)) = self.clearance.as_ref().map(|at| (&at.value, at.place)) else {
            answer.does_not_apply(&["fit-runs"]);
            let duty = self.duty.as_ref().map_or(Duty::General, |at| at.value);
            let rule = duty_clearance(duty, shaft)?;
            self.by_duty(duty, &rule.told, answer);
            return by_clearance(rule.low.becomes(), rule.high.becomes());
        };
        answer.check(Check::of_kind("clearance-given", Verdict::Proven).with("duty", "").with("rules", "").at(place));
        match clearance {
            Clearance::Limits(limits) => {
                // No clearance at the least is the same, however it is spelled: by limits or by a fit.
                if limits.low.number() > 0.0 {
                    answer.does_not_apply(&["fit-runs"]);
                } else {
                    answer.check(Check::of_kind("fit-runs", Verdict::Doubtful).at(place));
                }
                let typed = |end: Mm| Worked::exact(Shift::new(end.number()), Origin::Typed(place));
                by_clearance(typed(limits.low), typed(limits.high))
            }
            Clearance::Fit(fit) => {
                let nominal = kit::nominal_of_fit(fit, shaft, answer)?;
                let (low, high) = fit.hole.as_ref().ok_or_else(kit::fit_without_size)?.limits(nominal)?;
                let least = clearance::clearance(&low, &largest)?;
                self.fit_runs(bench, (fit, nominal), (&low, shaft, &least), answer)?;
                Ok(Limits { clearance: (least, clearance::clearance(&high, &smallest)?), bore: (low, high) })
            }
        }
    }

    /// A running clearance as wide as this is a slip of size or unit, or a worn shaft: it is not proven.
    fn too_loose(&self, least: &Worked<Shift>, shaft: &Worked<Mm>, answer: &mut Answer) -> Result<(), Refusal> {
        let most = kit::meant_most(shaft)?;
        if least.number() > most {
            let place = self.clearance.as_ref().map_or(self.shaft.place, |at| at.place);
            let check = answer.check(Check::of_kind("fit-runs", Verdict::Doubtful).at(place));
            check.remedy(Words::of("too-loose").with("least", mm(least.number())).with("most", mm(most)));
        }
        Ok(())
    }

    /// A clearance that nobody gave is doubtful: engine data come first.
    fn by_duty(&self, duty: Duty, rules: &str, answer: &mut Answer) {
        let words = Words::of("duty-rule").with("duty", duty.text()).with("rules", rules);
        answer.assume_words(words);
        if self.duty.is_none() {
            answer.assume_words(Words::of("duty-general"));
        }
        if duty == Duty::Rocker {
            answer.assume_words(Words::of("rocker-no-works-figure"));
        }
        answer
            .check(Check::of_kind("clearance-given", Verdict::Doubtful).with("duty", duty.text()).with("rules", rules));
    }

    /// A running bush has no interference fit: the fit's own least clearance first, then the measured shaft.
    fn fit_runs(
        &self,
        bench: &Bench,
        (fit, nominal): (&Fit, f64),
        (low, shaft, least): (&Worked<Mm>, &Worked<Mm>, &Worked<Shift>),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let none = Worked::assumed(Shift::new(0.0), "a running fit is not tight");
        let place = self.clearance.as_ref().map_or(self.shaft.place, |at| at.place);
        let class = fit.shaft.as_ref().map(|class| class.limits(nominal)).transpose()?;
        if let Some((_, largest)) = &class {
            let of_fit = clearance::clearance(low, largest)?;
            if of_fit.number() <= 0.0 {
                let check = Check::judge("fit-runs", &of_fit, Keep::AtLeast, &none, bench.guard());
                // A fit whose least clearance is just nothing is no proof that it runs.
                let check = check.not_better_than(Verdict::Doubtful).at(place);
                answer.check(check);
                return Ok(());
            }
        }
        let middle = clearance::clearance(low, &shaft.nominal("the middle of the shaft as measured"))?;
        let check = Check::judge_two("fit-runs", (least, &none), Keep::AtLeast, (&middle, &none), bench.guard());
        let check = check.about(CLEARANCE_MIN.key).at(place);
        // Whoever types a fit wants its clearance: a shaft that is none of its class, with all its doubt, has another.
        let outside =
            class.filter(|(smallest, largest)| shaft.low() > largest.number() || shaft.high() < smallest.number());
        let Some((smallest, largest)) = outside else {
            answer.check(check);
            return Ok(());
        };
        let class = Fact::span(four(smallest.number(), Rounds::Nearest), four(largest.number(), Rounds::Nearest));
        let check = answer.check(check.not_better_than(Verdict::Doubtful));
        check.remedy(Words::of("shaft-of-no-such-class").with("class", class));
        Ok(())
    }

    /// Whether there is a window, whether it can be cut, whether it can be measured.
    fn window(
        &self,
        bench: &Bench,
        clearance: &(Worked<Shift>, Worked<Shift>),
        finished: &Finished,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        if !matches!(self.gauge.as_ref().map(|at| at.value), Some(GaugeBy::Plugs)) {
            answer.does_not_apply(&["plugs-are-read"]);
        }
        let window = answer.record(&MEASURING_WINDOW, clearance::window(&finished.high, &finished.low)?);
        let six = tolerance(Grade::Number(6), finished.shaft.number())?;
        let source = Source::fixed("ISO 286-1", Mark::Read);
        let narrowest = Worked::row(Shift::new(six / 1000.0), format!("IT6: {} µm", figure(six)), source);
        let check = Check::judge("window", &window, Keep::AtLeast, &narrowest, bench.guard());
        let there_is = finished.middle.is_some();
        // What fails by a doubt that nobody typed is doubtful: a better reading may mend it.
        let worst = if there_is || self.shaft_doubt_assumed() { Verdict::Doubtful } else { Verdict::Fails };
        let (low, high) = inward(finished.low.number(), finished.high.number());
        let says = match there_is {
            true => Words::of("bore-from").with("window", Fact::span(low, high)),
            false => Words::of("no-bore-satisfies").with("low", low).with("high", high),
        };
        let wanted = clearance::shaft_doubt_most(&clearance.0, &clearance.1)?;
        let wanted = four(wanted.number(), Rounds::Down);
        let check = answer.check(check.not_worse_than(worst).with("says", says).at(self.shaft.place));
        let measure = Words::of("measure-the-shaft").with("doubt", mm(finished.shaft.plus_minus()));
        check.remedy(measure.with("wanted", wanted)).remedy(Words::of("wider-clearance"));
        match self.gauge.as_ref().map(|at| at.value) {
            None => self.measurable(bench, finished, &window, answer),
            Some(GaugeBy::Plugs) => self.plugs_tell(bench, finished, &window, answer),
            Some(GaugeBy::Shaft) => {
                answer.does_not_apply(&["can-be-measured"]);
                Ok(())
            }
        }
    }

    /// Whether the shaft's doubt is a default of this program and not the person's word.
    fn shaft_doubt_assumed(&self) -> bool {
        matches!(&self.shaft.value, Reading::Size { size, with, .. } if size.plus_minus.is_none() && with.is_none())
    }

    /// Plugs are as good as what reads them: turned to the limits, each is off by the doubt of its micrometer.
    fn plugs_tell(
        &self,
        bench: &Bench,
        finished: &Finished,
        window: &Worked<Shift>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        const ID: &str = "plugs-are-read";
        answer.does_not_apply(&["can-be-measured"]);
        if bench.shop.is_none() {
            answer.no_shop(&[ID]);
            return Ok(());
        }
        let Some(reads) = kit::instrument(bench, finished.low.number(), Gauge::Outside) else {
            answer.check(Check::of_kind(ID, Verdict::Doubtful).at(self.shaft.place));
            return Ok(());
        };
        let most = clearance::doubt_most(&constant("measuring-share")?, window)?;
        let doubt = Worked::from(&reads.uncertainty);
        let check = Check::judge(ID, &doubt, Keep::AtMost, &most, bench.guard()).not_worse_than(Verdict::Doubtful);
        answer.check(check.about(MEASURING_WINDOW.key).at(self.shaft.place));
        Ok(())
    }

    /// A separate question from whether the plan is right: an instrument proves a size when its doubt is a quarter of the window.
    fn measurable(
        &self,
        bench: &Bench,
        finished: &Finished,
        window: &Worked<Shift>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let Some(shop) = bench.shop else {
            answer.no_shop(&["can-be-measured"]);
            return Ok(());
        };
        let size = finished.low.number();
        let reads = |i: &&Instrument| i.can_read(size, Gauge::Inside);
        let by_doubt =
            |a: &&Instrument, b: &&Instrument| a.uncertainty.value.number().total_cmp(&b.uncertainty.value.number());
        let (name, doubt) = match shop.instruments.iter().filter(reads).min_by(by_doubt) {
            Some(instrument) => (Fact::from(&instrument.name.value), Worked::from(&instrument.uncertainty)),
            None => (Fact::named("a-bore-gauge"), answer.assume("bore-gauge", reaming::usual_bore_gauge()?)),
        };
        let most = clearance::doubt_most(&constant("measuring-share")?, window)?;
        let (low, high) = (finished.low.number() + doubt.number(), finished.high.number() - doubt.number());
        // As a bore gauge is read; a window that would close so has a digit more.
        let guarded = if low <= high { Fact::span(mm(low), mm(high)) } else { "nothing".into() };
        let check = Check::judge("can-be-measured", &doubt, Keep::AtMost, &most, bench.guard());
        let check = check.not_worse_than(Verdict::Doubtful).about(MEASURING_WINDOW.key);
        let check = answer.check(check.with("instrument", name).with("guarded", guarded));
        // No plug and no instrument finds a bore that there is not: the window is to be mended first.
        if finished.middle.is_none() {
            return Ok(());
        }
        let (go, not_go) = inward(finished.low.number(), finished.high.number());
        check.remedy(Words::of("plugs").with("plug_go", go).with("plug_not_go", not_go));
        check.remedy(Words::of("try-the-shaft"));
        check.remedy(Words::of("finer-instrument").with("doubt", four(most.number(), Rounds::Down)));
        Ok(())
    }

    /// A bush that the reamer spoils: it fails, with what to do in its place.
    pub(super) fn must_not_be_reamed(
        &self,
        kind: NotReamed,
        finished: &Finished,
        close_in: &Worked<Mm>,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        answer.does_not_apply(checks::OF_THE_REAMER);
        let (why, instead) = match kind {
            NotReamed::Sintered => ("pores-smeared-shut", "sizing-pin"),
            NotReamed::PtfeLined => ("lining-is-thin", "leave-the-lining"),
            NotReamed::Plated => ("layer-is-thin", "leave-the-plating"),
            NotReamed::Hardened => ("hard-as-the-reamer", "hone-or-grind"),
        };
        let place = self.bush.kind.as_ref().map_or(self.bush.material.place, |at| at.place);
        let check = answer
            .check(Check::of_kind("must-not-be-reamed", Verdict::Fails).with("because", Fact::named(why)).at(place));
        check.remedy(Words::of(instead));
        if let Some(middle) = &finished.middle {
            let nothing = Worked::assumed(Mm::new(0.0), "nothing is reamed");
            let close_in = close_in.nominal("the size to buy");
            let bore = press::bore_to_make(&middle.nominal("the size to buy"), &nothing, &close_in)?;
            check.remedy(Words::of("buy-to-size").with("bush_bore_wanted", mm(bore.number())));
        }
        Ok(())
    }
}

/// Two limits rounded inward to what is read in a workshop, a thousandth; a window that would close so has a digit more.
fn inward(low: f64, high: f64) -> (Fact, Fact) {
    let open = (low * 1e3 - 1e-6).ceil() < (high * 1e3 + 1e-6).floor();
    let at = |number: f64, rounds| mm(number).to(Decimals::Exactly(if open { 3 } else { 4 })).rounded(rounds);
    (at(low, Rounds::Up), at(high, Rounds::Down))
}

/// A limit to a tenth of a micrometre, rounded inward.
fn four(number: f64, rounds: Rounds) -> Fact {
    mm(number).to(Decimals::Exactly(4)).rounded(rounds)
}

/// The clearance of a bore on the shaft at both ends of its doubt.
fn clearance_of(bore: &Worked<Mm>, shaft: &Worked<Mm>, bench: &Bench) -> Result<(f64, f64), Refusal> {
    let on = |side: Side| Ok(clearance::clearance(bore, &shaft.worst(side, bench.guard()))?.number());
    Ok((on(Side::High)?, on(Side::Low)?))
}
