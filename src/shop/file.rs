//! The shop file.

use super::{Drawers, Habits, Instrument, Machine, Opening, OwnChangeOver, Reamer, Stretch, Tool};
use crate::proof::At;
use crate::quantity::{Celsius, Date, Print, Weekdays};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// Paper that sheets are printed on.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, JsonSchema)]
pub enum Paper {
    /// 210 × 297 mm.
    #[default]
    #[serde(alias = "a4")]
    A4,
    /// 8.5 × 11 in.
    #[serde(alias = "letter")]
    Letter,
}

impl Paper {
    /// Width and height upright, mm (ISO 216; half of 11 × 17 in).
    #[must_use]
    pub const fn size(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::Letter => (215.9, 279.4),
        }
    }
}

/// How views are laid out on a drawing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum View {
    /// First-angle projection.
    #[default]
    FirstAngle,
    /// Third-angle projection.
    ThirdAngle,
}

/// What one workshop owns and does by habit.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Shop {
    /// The shop's name.
    pub shop: At<String>,
    /// Units of print; left out, metric.
    #[serde(default)]
    pub units: Print,
    /// Paper; left out, A4.
    #[serde(default)]
    pub paper: Paper,
    /// Angle-of-view convention; left out, first angle.
    #[serde(default)]
    pub view: View,
    /// Working hours; left out, the usual ones.
    pub hours: Option<At<Stretch>>,
    /// When the hands rest; left out, never.
    #[serde(default)]
    pub breaks: Vec<At<Stretch>>,
    /// Days of the week that are worked; left out, every day.
    pub days: Option<At<Weekdays>>,
    /// Days that are not worked beside; left out, none.
    #[serde(default)]
    pub closed: Vec<At<Date>>,
    /// The shop's own minutes of changing a machine over, before those of the table; left out, those of the table are assumed.
    #[serde(default)]
    pub change_over: Vec<OwnChangeOver>,
    /// Habits; left out, the book's figures are assumed.
    #[serde(default)]
    pub habits: Habits,
    /// Highest temperature of the oven, where the habits do not say; left out, that of the machine; without that it is doubtful whether the oven gets warm enough.
    pub oven: Option<At<Celsius>>,
    /// Temperature of the freezer, where the habits do not say; left out, that of the machine, else {freezer-temperature} is assumed.
    pub freezer: Option<At<Celsius>>,
    /// Machines, in the order in which they are taken when a job names none; left out, the shop has none.
    #[serde(default)]
    pub machines: Vec<Machine>,
    /// Cutting tools, drills and taps; left out, the shop has none.
    #[serde(default)]
    pub tools: Vec<Tool>,
    /// Reamers; left out, the shop has none.
    #[serde(default)]
    pub reamers: Vec<Reamer>,
    /// What lies in the drawers; left out, nothing.
    #[serde(default)]
    pub drawers: Drawers,
    /// Measuring instruments; left out, none: a reading then has the doubt that is typed with it, else of its last digit.
    #[serde(default)]
    pub instruments: Vec<Instrument>,
}

impl Shop {
    /// What cannot be, each at its place.
    pub fn problems(&self) -> Vec<Problem> {
        let mut all = Vec::new();
        self.machines.iter().for_each(|m| m.problems(&mut all));
        self.tools.iter().for_each(|t| t.problems(&mut all));
        self.reamers.iter().for_each(|r| r.problems(&mut all));
        self.instruments.iter().for_each(|i| i.problems(&mut all));
        self.habits.problems(&mut all);
        self.drawers.problems(&self.instruments, &mut all);
        all.extend(self.opening().problems());
        let machines: Vec<&str> = self.machines.iter().flat_map(|machine| [machine.name(), machine.kind()]).collect();
        self.change_over.iter().for_each(|own| all.extend(own.problem(&machines)));
        all
    }

    /// When the shop is open.
    pub fn opening(&self) -> Opening {
        Opening {
            hours: self.hours.clone(),
            breaks: self.breaks.clone(),
            days: self.days.clone(),
            closed: self.closed.clone(),
        }
    }

    /// The oven's highest temperature.
    pub fn oven(&self) -> Option<At<Celsius>> {
        self.habits.oven.clone().or_else(|| self.oven.clone())
    }

    /// The freezer's temperature.
    pub fn freezer(&self) -> Option<At<Celsius>> {
        let of_machine = || self.machines.iter().find_map(Machine::freezes_at);
        self.habits.freezer.clone().or_else(|| self.freezer.clone()).or_else(of_machine)
    }

    /// The machine of that name.
    pub fn machine(&self, name: &str) -> Option<&Machine> {
        self.machines.iter().find(|machine| machine.name() == name)
    }

    /// The instrument of that name.
    pub fn instrument(&self, name: &str) -> Option<&Instrument> {
        self.instruments.iter().find(|instrument| instrument.name.value == name)
    }
}
