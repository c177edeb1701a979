//! The set-ups in the order of the trade: bench, oven, press, bench. Drilling and reaming stand in `steps.rs`.

use super::bore::Finished;
use super::keys::{Assemble, ReamBush};
use super::line::Line;
use super::names::{
    BORE_PRESSED, BORE_TO_MAKE, BUSH_BORE, BUSH_OUTSIDE, FIRST_SETTING, HOUSING_BORE, HOUSING_HOTTEST,
    HOUSING_TEMPERATURE, OUTSIDE_TO_MAKE, OVEN_SETTING, SHAFT, STOCK,
};
use super::oil::OilHoles;
use super::sketch;
use crate::handbook::constants::constant;
use crate::handbook::joints::reaming::NotReamed;
use crate::handbook::rigging::Aspect;
use crate::handbook::{StateKind, set_up_minutes};
use crate::operations::press_joint::{
    ColdIn, GoesIn, Metals, NONE_PROVEN, READINGS, bore_gauge, closed_in_at_most, closed_in_expected, foretold,
    measured_when_cold, no_outside_is_proven, says_what_is_proven, soaks, soaks_for,
};
use crate::operations::{Answer, Bench, Carried, HoldPoint, Limits, SetUp, Station, Wait, kit};
use crate::proof::{Fact, Refusal, Words};
use crate::quantity::{Decimals, Mm, Quantity, Unit};
use crate::shop::{Freezer, Gauge, Machine};

/// Half a thousandth, which a reading lies under a size that it cannot be, mm.
const UNDER: f64 = 0.0005;

/// Several places of a shaft: both ends and the middle of where it runs.
const SEVERAL: usize = 3;

impl ReamBush {
    /// Every set-up, in order. Each bush of a line has its own oil holes drilled, by its own figures; the first ends there, or at its
    /// measured closed-in bore. Where no bore satisfies the limits nothing is reamed.
    pub(super) fn all_set_ups(
        &self,
        bench: &Bench,
        metals: &Metals,
        (oil, line): (&OilHoles, Option<&Line>),
        (forbidden, finished): (Option<NotReamed>, &Finished),
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let mut all = vec![self.measure_and_dress(bench, oil, answer)?];
        let how = self.assembles();
        if how.warms() || how.chills() {
            all.push(self.heat_and_chill(bench, metals, answer)?);
        }
        all.push(self.press_home(bench, metals, oil, answer)?);
        let first = line.filter(|line| !line.second);
        all.push(self.cool_and_measure(bench, metals, oil, answer)?);
        if finished.middle.is_some() && oil.drilled.iter().any(|hole| hole.after_press) {
            all.push(self.drill_oil_holes(bench, oil, answer)?);
        }
        if let (Some(_), Some(last)) = (first, all.last_mut()) {
            last.step("reamed-with-the-other");
            // The sheet of the other has no line for it; and nothing of this one is still to be done once it is reamed.
            last.blanks.push(self.bore_left(bench, answer, "bore-left-later"));
        }
        if first.is_none() && finished.middle.is_some() {
            all.push(match forbidden {
                Some(kind) => self.leave_unreamed(bench, kind, answer)?,
                None => self.ream(bench, (oil, line), answer)?,
            });
        }
        answer.set_ups.extend(all);
        Ok(())
    }

    /// Measuring alone, where the bush cannot be made for a bore that does not exist.
    pub(super) fn before_the_bush_is_made(
        &self,
        bench: &Bench,
        oil: &OilHoles,
        answer: &mut Answer,
    ) -> Result<(), Refusal> {
        let mut set_up = self.measure_and_dress(bench, oil, answer)?;
        let measured = ["wash-and-cool", "measure-housing", "measure-shaft"];
        set_up.steps.retain(|step| measured.contains(&step.id));
        set_up.leaves = vec![kit::of_this(bench, StateKind::Measured)];
        answer.set_ups.push(set_up);
        Ok(())
    }

    /// Minutes of a task for all bushes.
    ///
    /// # Errors
    /// As [`set_up_minutes::start`].
    pub(super) fn minutes(&self, task: &str) -> Result<f64, Refusal> {
        Ok(set_up_minutes::start(task)? * f64::from(self.count()))
    }

    fn measure_and_dress(&self, bench: &Bench, oil: &OilHoles, answer: &Answer) -> Result<SetUp, Refusal> {
        let mut set_up = SetUp::at("measure-and-dress", Station::Bench);
        set_up.hold.push(Words::of("on-the-bench").into());
        set_up.step("wash-and-cool");
        set_up.step("measure-housing").step("measure-shaft");
        if self.bush.outside.is_none() && no_outside_is_proven(answer) {
            set_up.step(NONE_PROVEN);
        }
        match (&self.bush.outside, &self.bush.bore) {
            (None, None) => set_up.step("make-bush"),
            (None, Some(_)) => set_up.step("turn-outside"),
            (Some(_), None) => set_up.step("bore-bush"),
            (Some(_), Some(_)) => &mut set_up,
        };
        set_up.step("measure-bush");
        says_what_is_proven(&mut set_up, answer);
        set_up.step("deburr-and-chamfer");
        if oil.before {
            set_up.step("scribe-line").step("drill-before-pressing");
        } else if !oil.drilled.is_empty() {
            set_up.step("mark-oilway");
        }
        if self.assembles() != Assemble::Press {
            set_up.step("degrease");
        }
        set_up.sketch = sketch::apart(self, answer);
        set_up.takes(self.minutes("bush, measuring and dressing")?);
        set_up.needs = kit::of_part(bench, &[StateKind::Washed]);
        set_up.leaves = vec![kit::of_this(bench, StateKind::Dressed)];
        let bore = |blank| kit::read_with(blank, READINGS, bench, Gauge::Inside);
        let outside = |blank| kit::read_with(blank, READINGS, bench, Gauge::Outside);
        set_up.blanks = vec![
            bore(kit::blank("housing-found", kit::found(answer, HOUSING_BORE.key), None)),
            outside(kit::blank(
                "bush-outside-found",
                self.bush.outside.as_ref().and_then(|_| kit::found(answer, BUSH_OUTSIDE.key)),
                // Between the limits that the step has, each rounded inward in each unit of print.
                answer.value(OUTSIDE_TO_MAKE.key).map(|made| {
                    let end = |off: f64| Fact::mm(made.number + off);
                    Fact::span(end(-made.plus_minus), end(made.plus_minus))
                }),
            )),
            bore(kit::blank(
                "bush-bore-found",
                self.bush.bore.as_ref().and_then(|_| kit::found(answer, BUSH_BORE.key)),
                kit::found(answer, BORE_TO_MAKE.key),
            )),
            kit::read_with(
                kit::blank("shaft-found", kit::found(answer, SHAFT.key), None),
                SEVERAL,
                bench,
                Gauge::Outside,
            ),
        ];
        Ok(set_up)
    }

    fn heat_and_chill(&self, bench: &Bench, metals: &Metals, answer: &mut Answer) -> Result<SetUp, Refusal> {
        let how = self.assembles();
        let id = match (how.warms(), how.chills()) {
            (true, true) => "heat-and-chill",
            (true, false) => "warm-the-housing",
            (false, _) => "chill-the-bush",
        };
        let mut set_up = SetUp::at(id, Station::Oven);
        if !how.warms() {
            let own = kit::machine_for(bench, self.set_up.as_ref(), freezer_of);
            set_up.machine = Fact::named("the-freezer").into();
            set_up.on(own.map(|own| own.name.value.as_str()));
        }
        set_up.step("all-to-hand");
        let soak = self.chilled_for(answer)?;
        if how.chills() {
            answer.fact("soak", soaks_for(soak));
            set_up.hold.push(Words::of("in-the-freezer").into());
            set_up.step("chill-half-an-hour");
            set_up.warns(&["freezer"]);
        }
        if how.warms() && !Self::may_be_heated(answer) {
            set_up.step("do-not-heat");
        } else if how.warms() {
            set_up.hold.push(Words::of("in-the-oven").into());
            set_up.step("heat-the-housing");
            let hot = HoldPoint::asking(HOUSING_TEMPERATURE.key, 1, Fact::named("a-contact-thermometer"), warm(answer));
            set_up.hold_at(Words::of("soak-and-check"), hot);
            set_up.warns(&["hot-part", "oven-neighbours"]);
            if metals.warms_magnesium() {
                set_up.warns(&["magnesium-heat"]);
            }
        }
        set_up.sketch = sketch::warmed(self, answer);
        set_up.takes(set_up_minutes::start("oven and freezer, loading")?);
        let wait = self.soak()?;
        let minutes = if how.chills() { wait.minutes.max(soak) } else { wait.minutes };
        set_up.tail = Some(Wait { minutes, ..wait });
        if let Some(setting) = answer.value(OVEN_SETTING.key).filter(|_| how.warms()) {
            set_up.carries(Aspect::Setting, Carried::AtDegC(setting.number.round()));
        }
        set_up.needs = vec![kit::of_this(bench, StateKind::Dressed)];
        set_up.leaves = how.readies().map(|kind| kit::of_this(bench, kind)).collect();
        if how.warms() {
            let whole = |fact: Fact| fact.to(Decimals::Exactly(0));
            let metal = warm(answer);
            let metal = metal.least.zip(metal.most).map(|(least, most)| Fact::span(least, most));
            set_up.blanks = vec![
                kit::blank("metal-read", None, metal),
                kit::blank("oven-read", None, kit::found(answer, OVEN_SETTING.key).map(whole)),
            ];
        }
        Ok(set_up)
    }

    /// How long the bush lies in the freezer until it is cold all through, min.
    fn chilled_for(&self, answer: &Answer) -> Result<f64, Refusal> {
        let number = |key: &str| answer.value(key).map_or(0.0, |value| value.number);
        let length = self.bush.length.value.number();
        soaks(ColdIn::Freezer, [number(BUSH_OUTSIDE.key), number(BUSH_BORE.key), length])
    }

    /// The wait in oven or freezer: an oven is not left on when the shop is closed.
    fn soak(&self) -> Result<Wait, Refusal> {
        let wait = Wait::of("oven heat-up")?.in_machine();
        Ok(if self.assembles().warms() { wait.watched() } else { wait })
    }

    /// Whether there is a setting of the oven that keeps the stop.
    fn may_be_heated(answer: &Answer) -> bool {
        answer.value(OVEN_SETTING.key).is_some()
    }

    /// Whether the freezer alone is proven to let the bush drop in.
    fn cold_enough(answer: &Answer) -> bool {
        answer.checks.iter().any(|check| check.id == "cold-enough" && check.is_proven())
    }

    fn press_home(&self, bench: &Bench, metals: &Metals, oil: &OilHoles, answer: &Answer) -> Result<SetUp, Refusal> {
        let how = self.assembles();
        let before: &[&'static str] = if oil.before { &["line-up-the-hole", "look-through-the-hole"] } else { &[] };
        let drops = if how.warms() { Self::may_be_heated(answer) } else { Self::cold_enough(answer) };
        let goes = GoesIn { warm: how.warms(), cold: how.chills().then_some(ColdIn::Freezer), drops };
        let mut set_up = self.asked().at_the_press(("press-home", bench, answer), metals, before, goes);
        set_up.sketch = sketch::at_the_press(self, answer);
        set_up.takes(self.minutes("bush, pressing home")?);
        set_up.needs = match how {
            Assemble::Press => vec![kit::of_this(bench, StateKind::Dressed)],
            _ => how.readies().map(|kind| kit::of_this(bench, kind)).collect(),
        };
        set_up.leaves = vec![kit::of_this(bench, StateKind::Pressed)];
        Ok(set_up)
    }

    /// The closed-in bore: what the reamer finds.
    fn closed_in(&self, bench: &Bench, answer: &Answer) -> Result<Option<HoldPoint>, Refusal> {
        let Some(bore) = answer.value(BORE_PRESSED.key) else { return Ok(None) };
        let gauge = bore_gauge(bench, bore.number)?;
        // The first setting is printed: a bore smaller than two of its steps under it would be cut too deep at once.
        let step = constant::<Mm>("ream-step-coarse")?.number();
        let floor = answer.value(FIRST_SETTING.key).map(|first| first.number - 2.0 * step);
        // A bush that grips has closed in; by more or less than was foretold it is not home, loose or collapsed.
        let before = answer.value(BUSH_BORE.key).filter(|_| self.bush.bore.is_some()).map(|before| before.number);
        let (least, most) = foretold(bore, gauge.doubt, bench.guard());
        let floor = Some(floor.map_or(least, |floor| floor.max(least)));
        let under = before.map_or(most, |before| before.min(most));
        let (most, says) =
            if before.is_some() { closed_in_at_most(bench, answer, gauge.doubt, under) } else { (under, None) };
        // What it may still be read as lies under what it cannot be.
        let under = if most < under { most + UNDER } else { under };
        let hold = HoldPoint::of(bore.key, READINGS, gauge, bench.guard()).not_under(floor).under(Some(under));
        Ok(Some(hold.saying(says)))
    }

    fn cool_and_measure(
        &self,
        bench: &Bench,
        metals: &Metals,
        oil: &OilHoles,
        answer: &Answer,
    ) -> Result<SetUp, Refusal> {
        let mut set_up = measured_when_cold(bench, metals, self.assembles() != Assemble::Press, answer)?;
        let closed_in = if answer.value(STOCK.key).is_some() { "measure-closed-in" } else { "measure-closed-in-only" };
        let words = closed_in_expected(answer)
            .map_or(Words::of(closed_in), |expected| Words::of(closed_in).with("expected", expected));
        set_up.hold_at(words, self.closed_in(bench, answer)?);
        set_up.step("what-was-measured-decides");
        if !oil.drilled.is_empty() {
            set_up.step("clear-the-oilway");
        }
        set_up.sketch = sketch::pressed(self, answer);
        set_up.takes(self.minutes("bore, six readings")?);
        Ok(set_up)
    }
}

fn freezer_of(machine: &Machine) -> Option<&Freezer> {
    if let Machine::Freezer(freezer) = machine { Some(freezer) } else { None }
}

/// The warmth of the metal at which the bush drops in, and at which nothing is spoilt.
fn warm(answer: &Answer) -> Limits {
    let number = |key: &str| answer.value(key).map(|value| value.number);
    let stop = answer.facts.iter().find_map(|(name, fact)| match fact {
        Fact::Figure { number, .. } if *name == "stop_temperature" => Some(*number),
        _ => None,
    });
    // The setting is printed in whole degrees, rounded up: so hot it may become.
    let most = number(HOUSING_HOTTEST.key).map(|hottest| hottest.ceil().min(stop.unwrap_or(hottest)));
    Limits::asked((number(HOUSING_TEMPERATURE.key), most), 0, Unit::DegC)
}
