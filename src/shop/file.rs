//! The shop file.

use super::{Drawers, Habits, Instrument, Machine, Reamer, Tool};
use crate::proof::At;
use crate::quantity::{Celsius, Print};
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

/// When the shop works.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Hours {
    /// Opening, `08:00`.
    pub from: String,
    /// Closing, `17:00`.
    pub to: String,
}

/// What one workshop owns and does by habit.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Shop {
    /// The shop's name.
    pub shop: At<String>,
    /// Units of print.
    #[serde(default)]
    pub units: Print,
    /// Paper.
    #[serde(default)]
    pub paper: Paper,
    /// Angle-of-view convention.
    #[serde(default)]
    pub view: View,
    /// Working hours.
    pub hours: Option<Hours>,
    /// Habits.
    #[serde(default)]
    pub habits: Habits,
    /// Highest temperature of the oven, where the habits do not say.
    pub oven: Option<At<Celsius>>,
    /// Temperature of the freezer, where the habits do not say.
    pub freezer: Option<At<Celsius>>,
    /// Machines, in the order in which they are taken when a job names none.
    #[serde(default)]
    pub machines: Vec<Machine>,
    /// Cutting tools, drills and taps.
    #[serde(default)]
    pub tools: Vec<Tool>,
    /// Reamers.
    #[serde(default)]
    pub reamers: Vec<Reamer>,
    /// What lies in the drawers.
    #[serde(default)]
    pub drawers: Drawers,
    /// Measuring instruments.
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
        all
    }

    /// The oven's highest temperature.
    pub fn oven(&self) -> Option<At<Celsius>> {
        self.habits.oven.clone().or_else(|| self.oven.clone())
    }

    /// The freezer's temperature.
    pub fn freezer(&self) -> Option<At<Celsius>> {
        self.habits.freezer.clone().or_else(|| self.freezer.clone())
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
