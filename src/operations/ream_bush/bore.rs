//! The finished bore: running clearance, its limits, what is left to ream, whether it can be measured.

use super::joint::Joint;
use super::*;
use crate::handbook::joints::clearance::{self, duty_clearance};
use crate::handbook::joints::fits::{Grade, tolerance};
use crate::handbook::{Fit, constants::constant, joints::reaming};
use crate::proof::{Keep, Mark, Origin, Source};
use crate::quantity::figure;
use crate::shop::Gauge;

/// The finished bore and its shaft.
pub(super) struct Finished {
    pub shaft: Worked<Mm>,
    pub clearance_min: Worked<Mm>,
    pub clearance_max: Worked<Mm>,
    pub low: Worked<Mm>,
    pub high: Worked<Mm>,
    pub middle: Worked<Mm>,
}

/// How far from a whole millimetre a shaft may be and still name its fit, mm.
const NEAR_WHOLE: f64 = 0.1;

impl ReamBush {
    /// Reads the shaft and works the limits of the finished bore.
    pub(super) fn finished_bore(&self, bench: &Bench, answer: &mut Answer) -> Result<Finished, Refusal> {
        let shaft = answer.read(bench, "shaft", Gauge::Outside, &self.shaft)?;
        let shaft = answer.record(&SHAFT, shaft);
        let largest = shaft.end(shaft.high(), "the largest shaft");
        let smallest = shaft.end(shaft.low(), "the smallest shaft");
        let by_clearance = |low: Worked<Mm>, high: Worked<Mm>| -> Result<_, Refusal> {
            let bores = (clearance::bore_least(&largest, &low)?, clearance::bore_most(&smallest, &high)?);
            Ok((low, high, bores.0, bores.1))
        };
        let (clearance_min, clearance_max, low, high) = match self.clearance.as_ref().map(|at| (&at.value, at.place)) {
            Some((Clearance::Limits(limits), place)) => {
                let typed = |end: Mm| Worked::exact(end, Origin::Typed(place));
                by_clearance(typed(limits.low), typed(limits.high))?
            }
            Some((Clearance::Fit(fit), _)) => {
                let (low, high) = limits_of_fit(fit, &shaft, answer)?;
                let least = clearance::clearance(&low, &largest)?.becomes();
                let most = clearance::clearance(&high, &smallest)?.becomes();
                (least, most, low, high)
            }
            None => {
                let duty = self.duty.as_ref().map_or(Duty::General, |at| at.value);
                let rule = duty_clearance(duty, &shaft)?;
                self.by_duty(duty, &rule.rules, answer);
                by_clearance(rule.low, rule.high)?
            }
        };
        let clearance_min = answer.record(&CLEARANCE_MIN, clearance_min);
        let clearance_max = answer.record(&CLEARANCE_MAX, clearance_max);
        let low = answer.record(&BORE_MIN, low);
        let high = answer.record(&BORE_MAX, high);
        let middle = answer.record(&BORE_MIDDLE, reaming::middle(&low, &high)?);
        let finished = Finished { shaft, clearance_min, clearance_max, low, high, middle };
        self.window(bench, &finished, answer)?;
        Ok(finished)
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
        answer.check(Check::of_kind("clearance-given", Verdict::Doubtful).with("duty", duty.text()).with("rules", rules));
    }

    /// Whether the window can be cut and can be measured.
    fn window(&self, bench: &Bench, finished: &Finished, answer: &mut Answer) -> Result<(), Refusal> {
        let zero = Worked::assumed(Mm::new(0.0), "a running fit is not tight");
        if matches!(self.clearance.as_ref().map(|at| &at.value), Some(Clearance::Fit(_))) {
            let check = answer.judge(bench, "fit-runs", &finished.clearance_min, Keep::AtLeast, &zero);
            check.about = Some(CLEARANCE_MIN.key);
        }
        let window = clearance::window(&finished.high, &finished.low)?;
        let six = tolerance(Grade::Number(6), finished.middle.number())?;
        let source = Source::fixed("ISO 286-1", Mark::Read);
        let narrowest = Worked::row(Shift::new(six / 1000.0), format!("IT6: {} µm", figure(six)), source);
        let check = Check::judge("window", &window, Keep::AtLeast, &narrowest, bench.guard());
        let worst = if window.number() <= 0.0 { Verdict::Fails } else { Verdict::Doubtful };
        let check = answer.check(check.not_worse_than(worst).at(self.shaft.place));
        check.remedy(Words::of("measure-the-shaft").with("doubt", mm(finished.shaft.plus_minus())));
        // What cannot be cut need not be measured.
        if window.number() > 0.0 { self.measurable(bench, finished, &window, answer) } else { Ok(()) }
    }

    /// A separate question from whether the plan is right: an instrument proves a size when its doubt is a quarter of the window.
    fn measurable(&self, bench: &Bench, finished: &Finished, window: &Worked<Shift>, answer: &mut Answer) -> Result<(), Refusal> {
        let size = finished.middle.number();
        let reads = |i: &&crate::shop::Instrument| i.can_read(size, Gauge::Inside);
        let finest = bench.shop.and_then(|shop| {
            let by_doubt = |a: &&crate::shop::Instrument, b: &&crate::shop::Instrument| {
                a.uncertainty.value.number().total_cmp(&b.uncertainty.value.number())
            };
            shop.instruments.iter().filter(reads).min_by(by_doubt)
        });
        let (name, doubt) = match finest {
            Some(instrument) => (instrument.name.value.clone(), Worked::from(&instrument.uncertainty)),
            None => ("a bore gauge set by micrometer".into(), answer.assume("bore-gauge", reaming::usual_bore_gauge()?)),
        };
        let most = clearance::doubt_most(&constant("measuring-share")?, window)?;
        let (low, high) = (finished.low.number() + doubt.number(), finished.high.number() - doubt.number());
        let four = |number: f64| mm(number).to(Decimals::Exactly(4));
        let guarded = if low <= high { Fact::span(four(low), four(high)) } else { "nothing".into() };
        answer.fact("plug_go", four(finished.low.number()));
        answer.fact("plug_not_go", four(finished.high.number()));
        let check = Check::judge("can-be-measured", &doubt, Keep::AtMost, &most, bench.guard());
        let check = check.not_worse_than(Verdict::Doubtful).with("instrument", name).with("guarded", guarded);
        let check = answer.check(check);
        check.remedy(Words::of("plugs"));
        check.remedy(Words::of("try-the-shaft"));
        check.remedy(Words::of("finer-instrument").with("doubt", mm(most.number())));
        Ok(())
    }

    /// What pressing leaves to ream, against the least and the most that a reamer should take.
    pub(super) fn stock(
        &self,
        bench: &Bench,
        metals: &Metals,
        finished: &Finished,
        joint: &Joint,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let mut stock = reaming::stock_left(&finished.middle, &joint.pressed)?;
        if let Some((low, high)) = joint.pressed.band() {
            let middle = finished.middle.number();
            stock = stock.with_band(middle - high, middle - low);
        }
        let stock = answer.record(&STOCK, stock);
        if self.forbids(metals).is_none() {
            let by_hand = self.by() == By::Hand;
            let limits = reaming::stock(metals.bush.kind(), finished.middle.number(), by_hand)?;
            answer.fact("stock_limits", Fact::span(mm(limits.least.number()), mm(limits.most.number())));
            let (low, high) = stock.band().unwrap_or((stock.number(), stock.number()));
            let end = |_: f64| stock.clone();
            let place = self.bush.bore.as_ref().map_or(self.bush.length.place, |at| at.place);
            let aim = mm(finished.middle.number() - limits.aim.number() + joint.close_in.number());
            let bored = Words::of("bush-bored-to").with("bore", aim);
            let least = Check::judge("stock-least", &end(low), Keep::AtLeast, &limits.least.becomes(), bench.guard());
            answer.check(least.about(STOCK.key).at(place)).remedy(bored.clone()).remedy(Words::of("hone-or-lap"));
            let most = Check::judge("stock-most", &end(high), Keep::AtMost, &limits.most.becomes(), bench.guard());
            answer.check(most.about(STOCK.key).at(place)).remedy(Words::of("bore-first")).remedy(bored);
        }
        Ok(())
    }

    /// A bush that the reamer spoils: it fails, with what to do in its place.
    pub(super) fn must_not_be_reamed(
        &self,
        kind: NotReamed,
        finished: &Finished,
        joint: &Joint,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let bore = crate::handbook::joints::press::bore_to_make(
            &plain(&finished.middle),
            &Worked::assumed(Mm::new(0.0), "nothing is reamed"),
            &plain(&joint.close_in),
        )?;
        let (why, instead) = match kind {
            NotReamed::Sintered => ("its pores would be smeared shut", "sizing-pin"),
            NotReamed::PtfeLined => ("its lining is a few hundredths thick", "leave-the-lining"),
            NotReamed::Plated => ("its running layer is a few hundredths thick", "leave-the-plating"),
        };
        answer.fact("bush_bore_wanted", mm(bore.number()));
        let place = self.bush.kind.as_ref().map_or(self.bush.material.place, |at| at.place);
        let check = answer.check(Check::of_kind("must-not-be-reamed", Verdict::Fails).with("because", why).at(place));
        check.remedy(Words::of(instead)).remedy(Words::of("buy-to-size"));
        Ok(())
    }
}

/// The hole's class on the nominal size: as typed, else the whole millimetre that the shaft is near.
fn limits_of_fit(fit: &Fit, shaft: &Worked<Mm>, answer: &mut Answer) -> Result<(Worked<Mm>, Worked<Mm>), Refusal> {
    let lacking = || Refusal::NotGiven { what: "the nominal size of the fit", key: "clearance: 16 H7/f7" };
    let nominal = match fit.nominal {
        Some(nominal) => nominal,
        None => {
            let whole = shaft.number().round();
            if (whole - shaft.number()).abs() > NEAR_WHOLE {
                return Err(lacking());
            }
            answer.assume_words(Words::of("nominal-of-fit").with("value", mm(whole)));
            whole
        }
    };
    fit.hole.as_ref().ok_or_else(lacking)?.limits(nominal)
}
