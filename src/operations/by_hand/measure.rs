//! `measure`: sizes written down before anything is decided. Is the instrument fine enough for what is decided by it, and is the
//! part at 20 °C?

use crate::handbook::constants::constant;
use crate::handbook::materials::groups::Kind;
use crate::handbook::measuring::window;
use crate::handbook::{StateKind, set_up_minutes};
use crate::job::PartFacts;
use crate::names;
use crate::operations::kit::{above_zero, inside, instrument, of_part, read_with};
use crate::operations::{Answer, Bench, Blank, Declared, Operation, SetUp, SetUpWish, Station, Target, Wait};
use crate::proof::{At, Check, CheckRule, Fact, Keep, Origin, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Celsius, Mm, Quantity, Ratio, Wanted};
use crate::reading::Problem;
use crate::shop::{Gauge, Instrument};
use schemars::JsonSchema;
use serde::Deserialize;

names! { pub(super),
    DOUBT: Mm = new("instrument_doubt", "doubt (k = 2) of the instrument for the size that asks most of it");
    QUARTER: Mm = upper("quarter_of_window", "a quarter of the window between the limits of that size");
    OFF: Mm = new("off_by_warmth", "how far warmth puts the size off that it moves most");
    IN_ALL: Mm = new("off_in_all", "how far warmth and instrument together may put that size off");
}

/// What kind of size is read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
enum Kinds {
    /// Over faces and diameters.
    Outside,
    /// In bores and slots.
    Inside,
    /// Depths and steps.
    Depth,
}

impl Kinds {
    const fn text(self) -> &'static str {
        match self {
            Self::Outside => "outside",
            Self::Inside => "inside",
            Self::Depth => "depth",
        }
    }

    const fn gauge(self) -> Gauge {
        match self {
            Self::Outside => Gauge::Outside,
            Self::Inside => Gauge::Inside,
            Self::Depth => Gauge::Depth,
        }
    }
}

/// One size to measure.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Size {
    /// What it is called.
    name: At<String>,
    /// Outside, inside or depth.
    gauge: At<Kinds>,
    /// Its limits, where something is decided by them (wanted); left out, it is only written down.
    size: Option<At<Wanted<Mm>>>,
    /// The instrument; left out, the shop's.
    with: Option<At<String>>,
    /// How often it is read; left out, as often as the table says.
    readings: Option<At<u32>>,
}

/// Sizes measured.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Measure {
    /// The sizes.
    what: Vec<Size>,
    /// Temperature of the part as it is now.
    temperature: Option<At<Celsius>>,
    /// Whether it has cooled to 20 °C; `false`: it waits first; left out, nobody felt it.
    cooled: Option<At<bool>>,
    /// Machine, name, feature, remark; left out, none.
    set_up: Option<SetUpWish>,
}

/// Ids of the checks.
const FINE: &str = "instrument-fine-enough";
const READS: &str = "instrument-reads-it";
const COOL: &str = "at-20-degrees";

impl Size {
    /// The instrument named, else the shop's for such a size.
    fn instrument<'a>(&self, bench: &Bench<'a>) -> Option<&'a Instrument> {
        let named = self.with.as_ref().and_then(|name| bench.shop?.instrument(&name.value));
        let middle = self.size.as_ref().map(|at| at.value.nominal.number());
        named.or_else(|| instrument(bench, middle?, self.gauge.value.gauge()))
    }

    /// A window with both ends apart.
    fn window(&self) -> Option<(&At<Wanted<Mm>>, f64)> {
        let at = self.size.as_ref()?;
        let wide = at.value.high.number() - at.value.low.number();
        (wide > 0.0).then_some((at, wide))
    }

    /// A quarter of the window.
    fn quarter(&self) -> Result<Option<Worked<Mm>>, Refusal> {
        let Some((at, _)) = self.window() else { return Ok(None) };
        let end = |end: Mm| Worked::exact(end, Origin::Typed(at.place));
        window::quarter(&end(at.value.low), &end(at.value.high)).map(Some)
    }
}

impl Measure {
    /// How often a size is read.
    fn readings(size: &Size) -> Result<u32, Refusal> {
        let usual = constant::<Ratio>("readings-of-a-size")?.number();
        // A small whole number of the table of constants.
        Ok(size.readings.as_ref().map_or(usual as u32, |at| at.value))
    }

    /// The instrument of each size against a quarter of its window; over half of it no reading is sure inside both limits.
    fn fine_enough(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        let mut greatest = 0.0;
        if self.what.iter().all(|size| size.window().is_none()) {
            answer.does_not_apply(&[FINE]);
            return Ok(());
        }
        for size in &self.what {
            let Some(quarter) = size.quarter()? else { continue };
            let Some(instrument) = size.instrument(bench) else {
                match bench.shop {
                    Some(_) => answer.not_checked(&[FINE], &["an instrument"]),
                    None => answer.no_shop(&[FINE]),
                }
                continue;
            };
            let doubt: Worked<Mm> = (&instrument.uncertainty).into();
            let half = window::twice(&quarter)?;
            let check = Check::judge_two(FINE, (&doubt, &quarter), Keep::AtMost, (&doubt, &half), bench.guard());
            let check = check.about(DOUBT.key).at(size.name.place).with("size", size.name.value.clone());
            answer.check(check.with("instrument", instrument.name.value.clone()));
            let share = doubt.number() / quarter.number();
            if share > greatest {
                greatest = share;
                answer.record(&DOUBT, doubt);
                answer.record(&QUARTER, quarter);
            }
        }
        Ok(())
    }

    /// Each instrument reads such a size: a micrometer says nothing of a bore.
    fn reads(&self, bench: &Bench, answer: &mut Answer) {
        if bench.shop.is_none() {
            answer.no_shop(&[READS]);
            return;
        }
        for size in &self.what {
            let Some(instrument) = size.instrument(bench) else {
                let kind = size.gauge.value.text();
                let missing = match size.size.as_ref().map(|at| (at.value.low, at.value.high)) {
                    Some((low, high)) => Words::of("an-instrument-for")
                        .with("range", Fact::span(Fact::mm(low.number()), Fact::mm(high.number()))),
                    None => Words::of("an-instrument-of-that-kind"),
                };
                let missing = missing.with("size", size.name.value.clone()).with("kind", kind);
                answer.missing.push(missing);
                // What has limits is to be judged, and nobody can: beside what others read that is no small thing.
                match size.size.is_some() {
                    true => {
                        let check = Check::of_kind(READS, Verdict::Doubtful).at(size.name.place);
                        let check = check.with("size", size.name.value.clone());
                        answer.check(check.with("instrument", Fact::named("any-instrument-here")));
                    }
                    false => answer.not_checked(&[READS], &["an instrument"]),
                }
                continue;
            };
            let read = |end: f64| instrument.can_read(end, size.gauge.value.gauge());
            let ends = size.size.as_ref().map(|at| [at.value.low.number(), at.value.high.number()]);
            let verdict = match ends {
                Some(ends) if ends.into_iter().all(read) => Verdict::Proven,
                Some(_) => Verdict::Fails,
                None => Verdict::Doubtful,
            };
            let place = size.with.as_ref().map_or(size.name.place, |at| at.place);
            let check = Check::of_kind(READS, verdict).at(place).with("size", size.name.value.clone());
            answer.check(check.with("instrument", instrument.name.value.clone()));
        }
    }

    /// Whether it cools before it is measured.
    fn waits(&self) -> bool {
        self.cooled.as_ref().is_some_and(|at| !at.value)
    }

    /// What warmth and instrument put each size off together, against a quarter of its window; over half of it nothing is sure.
    fn cool(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        if self.what.iter().all(|size| size.window().is_none()) {
            answer.does_not_apply(&[COOL]);
            return Ok(());
        }
        let Some(at) = &self.temperature else {
            match &self.cooled {
                // Who says that it has cooled has felt it.
                Some(at) if at.value => {
                    answer.assume_words(Words::of("cool"));
                    answer.check(
                        Check::of_kind(COOL, Verdict::Proven).at(at.place).with("size", Fact::named("each-size")),
                    );
                }
                _ => answer.not_checked(&[COOL], &["temperature"]),
            }
            return Ok(());
        };
        let Some(metal) = bench.part.material.as_ref() else {
            answer.not_checked(&[COOL], &["material"]);
            return Ok(());
        };
        let (alpha, degrees): (_, Worked<Celsius>) = (metal.value.expansion()?, at.into());
        let mut greatest: Option<(Worked<Mm>, Worked<Mm>)> = None;
        for size in &self.what {
            let (Some(quarter), Some((limits, _))) = (size.quarter()?, size.window()) else { continue };
            let of = Worked::exact(limits.value.high, Origin::Typed(limits.place));
            let off = window::off_by_warmth(&of, &alpha, &degrees)?;
            // Without a shop nobody knows the instrument: what it asks stands in a check of its own.
            let none = || Worked::assumed(Mm::new(0.0), "no instrument is known");
            let doubt = size.instrument(bench).map_or_else(none, |instrument| (&instrument.uncertainty).into());
            let guard = Worked::assumed(Ratio::new(bench.guard()), "the shop's guard");
            let in_all = window::off_in_all(&off, &doubt, &guard)?;
            let half = window::twice(&quarter)?;
            let by_warmth = Check::judge_two(COOL, (&in_all, &quarter), Keep::AtMost, (&off, &quarter), bench.guard());
            let by_both = Check::judge_two(COOL, (&in_all, &quarter), Keep::AtMost, (&in_all, &half), bench.guard());
            for check in [by_warmth, by_both] {
                // What is too warm now and waits first is measured when it has cooled.
                let check = if self.waits() { check.not_worse_than(Verdict::Doubtful) } else { check };
                let check = check.about(IN_ALL.key).at(at.place).with("size", size.name.value.clone());
                let check = answer.check(check);
                if self.waits() && check.remedies.is_empty() {
                    check.remedy(Words::of("wait-until-cool"));
                }
            }
            if greatest.as_ref().is_none_or(|(other, _)| off.number() > other.number()) {
                greatest = Some((off, in_all));
            }
        }
        if let Some((off, in_all)) = greatest {
            answer.record(&OFF, off);
            answer.record(&IN_ALL, in_all);
        }
        Ok(())
    }

    /// A line to write a size in: what is sure to lie inside the limits is accepted.
    fn line(&self, size: &Size, bench: &Bench) -> Result<Blank, Refusal> {
        let words = Words::of("size-measured").with("size", size.name.value.clone());
        let doubt = size.instrument(bench).map_or(0.0, |instrument| instrument.uncertainty.value.number());
        // What warmth adds and the gauge's doubt are both taken off the limits.
        let inward = doubt * bench.guard() / 2.0 + self.warmth_of(size, bench)?;
        let target = size.window().map(|(at, _)| {
            let (low, high) = (at.value.low.number(), at.value.high.number());
            let (least, most) = inside(low, high, inward);
            Target::Between(Fact::mm(least), Fact::mm(most))
        });
        let blank = Blank { words, as_found: None, is_expected: false, target, readings: 1, gauge: None, log: None };
        let blank = read_with(blank, Self::readings(size)? as usize, bench, size.gauge.value.gauge());
        let named = size.with.as_ref().map(|name| Fact::from(&name.value).into());
        Ok(Blank { gauge: named.or(blank.gauge.clone()), ..blank })
    }

    /// What warmth adds to a size, mm; 0 where nothing is said of it, or where it cools first.
    fn warmth_of(&self, size: &Size, bench: &Bench) -> Result<f64, Refusal> {
        if self.waits() {
            return Ok(0.0);
        }
        let (Some(at), Some((limits, _)), Some(metal)) =
            (&self.temperature, size.window(), bench.part.material.as_ref())
        else {
            return Ok(0.0);
        };
        let of = Worked::exact(limits.value.high, Origin::Typed(limits.place));
        let off = window::off_by_warmth(&of, &metal.value.expansion()?, &at.into())?;
        Ok(off.worst_number(Side::High, bench.guard()).abs())
    }

    /// How long it cools.
    fn cooling(bench: &Bench) -> &'static str {
        match bench.part.material.as_ref().map(|at| at.value.kind()) {
            Some(Kind::Aluminium | Kind::Magnesium) => "cool, aluminium",
            _ => "cool, iron barrel",
        }
    }
}

impl Operation for Measure {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must(FINE, &["what.size"]),
                CheckRule::must(READS, &["what.with"]),
                CheckRule::must(COOL, &["temperature", "material"]),
            ]
        }
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        for size in &self.what {
            above_zero("`size`", size.size.as_ref(), &mut all);
            if let Some(at) = size.readings.as_ref().filter(|at| !(1..=MOST_READINGS).contains(&at.value)) {
                all.push(Problem::new(at.place, format!("`readings` are one to {MOST_READINGS}")));
            }
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        if self.what.is_empty() {
            return Err(Refusal::NotGiven { what: "a size to measure", key: "what" });
        }
        bench.part.material.iter().flat_map(|at| at.value.safety_without_chips()).for_each(|id| answer.caution(id));
        self.fine_enough(bench, answer)?;
        self.reads(bench, answer);
        self.cool(bench, answer)?;
        let mut set_up = SetUp::at("measure", Station::Bench);
        set_up.hold.push(Words::of("on-the-plate").into());
        set_up.step("clean-it");
        if self.waits() {
            set_up.step("cool-it");
            set_up.rest = Some(Wait::of(Self::cooling(bench))?);
            set_up.is_warm_now = true;
        }
        set_up.step("set-each-instrument").step("read-each").step("write-each-down");
        let each = set_up_minutes::start("size, one reading")?;
        for size in &self.what {
            set_up.takes(each * f64::from(Self::readings(size)?));
            set_up.blanks.push(self.line(size, bench)?);
        }
        set_up.warns(&["hot-or-turning"]);
        set_up.needs = of_part(bench, &[StateKind::Washed]);
        set_up.leaves = of_part(bench, &[StateKind::Measured]);
        answer.set_ups.push(set_up);
        Ok(())
    }
}

/// More readings than this of one size are no reading but a study.
const MOST_READINGS: u32 = 12;
