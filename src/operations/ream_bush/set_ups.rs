//! The set-ups in the order of the trade: bench, oven, press, bench. Drilling and reaming stand in `steps.rs`.

use super::bore::Finished;
use super::line::Line;
use super::make::outsides;
use super::oil::OilHoles;
use super::*;
use crate::handbook::materials::groups::Kind;
use crate::handbook::set_up_minutes;
use crate::operations::{Blank, SetUp, Station};

/// The checks of each page.
const MEASURING: &[&str] = &["interference", "clearance-given", "window", "fit-runs", "in-line"];
const WARMING: &[&str] = &["oven-stop", "oven-reaches", "cold-enough"];
const PRESSING: &[&str] = &[
    "interference",
    "bush-yield",
    "bush-plastic",
    "housing-stress",
    "housing-iron",
    "stress-when-warm",
    "press-force",
    "oil-hole-order",
];
const COOLED: &[&str] = &["stock-least", "stock-most", "can-be-measured", "grip-when-warm", "clearance-when-warm"];

impl ReamBush {
    /// Every set-up, in order. The first bush of a line ends at its measured closed-in bore; where no bore satisfies the limits
    /// nothing is reamed.
    pub(super) fn all_set_ups(
        &self,
        bench: &Bench,
        metals: &Metals,
        (oil, line): (&OilHoles, Option<&Line>),
        (forbidden, finished): (Option<NotReamed>, &Finished),
        answer: &mut Answer,
    ) {
        let mut all = vec![self.measure_and_dress(bench, oil, answer)];
        let how = self.assembles();
        if how.warms() || how.chills() {
            all.push(self.heat_and_chill(bench, metals, answer));
        }
        all.push(self.press_home(bench, metals, oil, answer));
        let first = line.filter(|line| !line.second);
        all.push(self.cool_and_measure(bench, metals, (oil, first), answer));
        if first.is_none() && finished.middle.is_some() {
            let others = line.is_some_and(|line| line.oil_holes);
            if others || oil.drilled.iter().any(|hole| hole.after_press) {
                all.push(self.drill_oil_holes(bench, oil, line, answer));
            }
            all.push(match forbidden {
                Some(kind) => self.leave_unreamed(bench, kind, answer),
                None => self.ream(bench, (oil, line), answer),
            });
        }
        answer.set_ups.extend(all);
    }

    /// Measuring alone, where the bush cannot be made for a bore that does not exist.
    pub(super) fn before_the_bush_is_made(&self, bench: &Bench, oil: &OilHoles, answer: &mut Answer) {
        let mut set_up = self.measure_and_dress(bench, oil, answer);
        let measured = ["wash-and-cool", "measure-housing", "measure-shaft"];
        set_up.steps.retain(|step| measured.contains(&step.words.id));
        answer.set_ups.push(set_up);
    }

    /// A state of this bush.
    pub(super) fn state(bench: &Bench, state: &str) -> String {
        format!("{}:{state}", bench.address)
    }

    /// Minutes for all bushes.
    pub(super) fn minutes(&self, each: f64) -> f64 {
        each * f64::from(self.count())
    }

    fn measure_and_dress(&self, bench: &Bench, oil: &OilHoles, answer: &Answer) -> SetUp {
        let mut set_up = SetUp::at("measure-and-dress", Station::Bench);
        set_up.checks = MEASURING;
        set_up.hold.push(Words::of("on-the-bench"));
        set_up.step("wash-and-cool");
        set_up.step("measure-housing").step("measure-shaft");
        match (&self.bush.outside, &self.bush.bore) {
            (None, None) => set_up.step("make-bush"),
            (None, Some(_)) => set_up.step("turn-outside"),
            (Some(_), None) => set_up.step("bore-bush"),
            (Some(_), Some(_)) => &mut set_up,
        };
        set_up.step("measure-bush");
        match (answer.value(OUTSIDE_LEAST.key), answer.value(OUTSIDE_MOST.key)) {
            (Some(low), Some(high)) => {
                let ends = outsides((low.number, high.number));
                set_up.step_with(Words::of("outside-that-is-proven").with("outsides", ends));
            }
            _ if answer.value(BUSH_OUTSIDE.key).is_some() => {
                set_up.step("no-outside-is-proven");
            }
            _ => {}
        }
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
        set_up.minutes = self.minutes(20.0);
        set_up.needs = vec![format!("{}:washed", bench.part.name)];
        set_up.leaves = vec![Self::state(bench, "dressed")];
        set_up.blanks = vec![
            blank("housing-found", found(answer, HOUSING_BORE.key), None),
            blank(
                "bush-outside-found",
                self.bush.outside.as_ref().and_then(|_| found(answer, BUSH_OUTSIDE.key)),
                found(answer, OUTSIDE_TO_MAKE.key),
            ),
            blank(
                "bush-bore-found",
                self.bush.bore.as_ref().and_then(|_| found(answer, BUSH_BORE.key)),
                found(answer, BORE_TO_MAKE.key),
            ),
            blank("shaft-found", found(answer, SHAFT.key), None),
        ];
        set_up
    }

    fn heat_and_chill(&self, bench: &Bench, metals: &Metals, answer: &Answer) -> SetUp {
        let how = self.assembles();
        let id = match (how.warms(), how.chills()) {
            (true, true) => "heat-and-chill",
            (true, false) => "warm-the-housing",
            (false, _) => "chill-the-bush",
        };
        let mut set_up = SetUp::at(id, Station::Oven);
        set_up.checks = WARMING;
        set_up.step("all-to-hand");
        if how.chills() {
            set_up.hold.push(Words::of("in-the-freezer"));
            set_up.step("chill-half-an-hour");
            set_up.cautions.push("freezer");
        }
        if how.warms() && !Self::may_be_heated(answer) {
            set_up.step("do-not-heat");
        } else if how.warms() {
            set_up.hold.push(Words::of("in-the-oven"));
            set_up.step("heat-the-housing").step("soak-and-check");
            set_up.cautions.extend(["hot-part", "oven-neighbours"]);
            if metals.housing.kind() == Kind::Magnesium {
                set_up.cautions.push("magnesium-heat");
            }
        }
        set_up.sketch = sketch::warmed(self, answer);
        set_up.minutes = 10.0;
        set_up.unattended = set_up_minutes::start("oven heat-up").unwrap_or_default();
        set_up.needs = vec![Self::state(bench, "dressed")];
        set_up.leaves = vec![Self::state(bench, "warm")];
        if how.warms() {
            set_up.blanks = vec![blank(
                "oven-read",
                None,
                found(answer, OVEN_SETTING.key).map(|fact| fact.to(Decimals::Exactly(0))),
            )];
        }
        set_up
    }

    /// Whether there is a setting of the oven that keeps the stop.
    fn may_be_heated(answer: &Answer) -> bool {
        answer.value(OVEN_SETTING.key).is_some()
    }

    /// Whether the freezer alone is proven to let the bush drop in.
    fn cold_enough(answer: &Answer) -> bool {
        answer.checks.iter().any(|check| check.id == "cold-enough" && check.is_proven())
    }

    fn press_home(&self, bench: &Bench, metals: &Metals, oil: &OilHoles, answer: &Answer) -> SetUp {
        let how = self.assembles();
        let mut set_up = SetUp::at("press-home", Station::Press);
        let press = bench.shop.and_then(|shop| shop.machines.iter().find_map(|m| m.press()));
        set_up.machine = press.map(|press| press.name.value.clone());
        set_up.checks = PRESSING;
        set_up.hold.push(Words::of("supported-square"));
        if how.chills() {
            set_up.step("wipe-the-frost");
        }
        if oil.before {
            set_up.step("line-up-the-hole").step("look-through-the-hole");
        }
        set_up.step("mandrel");
        match (how.warms(), how.chills()) {
            (false, false) => set_up.step("oil-the-bush").step("press-cold"),
            (true, _) if !Self::may_be_heated(answer) => set_up.step("do-not-fit"),
            (true, _) => set_up.step("drop-in-warm").step("hold-until-it-grips").step("if-it-sticks"),
            (false, true) if !Self::cold_enough(answer) => {
                set_up.step("press-chilled").step("hold-until-it-is-tight").step("if-it-sticks")
            }
            (false, true) => set_up.step("drop-in-chilled").step("hold-until-it-is-tight").step("if-it-sticks"),
        };
        if how.warms() {
            set_up.cautions.push("hot-part");
        }
        if how.chills() {
            set_up.cautions.push("freezer");
        }
        if [&metals.bush, &metals.housing].iter().any(|metal| matches!(metal.kind(), Kind::GreyIron | Kind::HardSteel))
        {
            set_up.step("never-hammer-iron");
        }
        set_up.step(if self.flange.is_some() { "flange-home" } else { "stands-as-wanted" });
        set_up.cautions.push("press");
        set_up.sketch = sketch::at_the_press(self, answer);
        let press_set = set_up_minutes::start("press set").unwrap_or_default();
        set_up.minutes = press_set + self.minutes(5.0);
        set_up.needs = vec![Self::state(bench, if how == Assemble::Press { "dressed" } else { "warm" })];
        set_up.leaves = vec![Self::state(bench, "pressed")];
        set_up
    }

    fn cool_and_measure(
        &self,
        bench: &Bench,
        metals: &Metals,
        (oil, first): (&OilHoles, Option<&Line>),
        answer: &Answer,
    ) -> SetUp {
        let mut set_up = SetUp::at("cool-and-measure", Station::Bench);
        set_up.checks = COOLED;
        set_up.hold.push(Words::of("on-the-bench"));
        set_up.step("cool-to-20");
        set_up.step(if answer.value(STOCK.key).is_some() { "measure-closed-in" } else { "measure-closed-in-only" });
        if first.is_some() {
            set_up.step("reamed-with-the-other");
        } else if !oil.drilled.is_empty() {
            set_up.step("clear-the-oilway");
        }
        set_up.sketch = sketch::pressed(self, answer);
        set_up.minutes = self.minutes(set_up_minutes::start("bore, six readings").unwrap_or_default());
        if self.assembles() != Assemble::Press {
            let task = match metals.housing.kind() {
                Kind::Aluminium | Kind::Magnesium => "cool, aluminium",
                _ => "cool, iron barrel",
            };
            set_up.unattended = set_up_minutes::start(task).unwrap_or_default();
        }
        set_up.needs = vec![Self::state(bench, "pressed")];
        set_up.leaves = vec![Self::state(bench, "bore-measured")];
        set_up.blanks = vec![
            blank("closed-in-left", None, found(answer, BORE_PRESSED.key)),
            blank("outside-left", found(answer, HOUSING_OUTSIDE.key), None),
        ];
        set_up
    }
}

/// A line to write in.
pub(super) fn blank(id: &'static str, as_found: Option<Fact>, target: Option<Fact>) -> Blank {
    Blank { words: Words::of(id), as_found, target }
}

/// A value with its doubt.
pub(super) fn found(answer: &Answer, key: &str) -> Option<Fact> {
    answer.value(key).map(Value::fact)
}
