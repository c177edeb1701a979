//! When the shop is open, and what it takes to change its machines over.

use crate::handbook::rigging::Aspect;
use crate::proof::At;
use crate::quantity::{ClockTime, Date, Minutes, Quantity, Weekdays};
use crate::reading::{Problem, near};
use schemars::JsonSchema;
use serde::Deserialize;

/// From one time of the day to another.
#[derive(Clone, Copy, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Stretch {
    /// Its beginning, `08:00`.
    pub from: ClockTime,
    /// Its end, `17:00`.
    pub to: ClockTime,
}

/// When the shop is open; what is left out is the usual.
#[derive(Clone, Debug, Default)]
pub struct Opening {
    /// Working hours.
    pub hours: Option<At<Stretch>>,
    /// When the hands rest.
    pub breaks: Vec<At<Stretch>>,
    /// Days of the week that are worked.
    pub days: Option<At<Weekdays>>,
    /// Days that are not worked beside.
    pub closed: Vec<At<Date>>,
}

impl Opening {
    /// What no day can be.
    pub(super) fn problems(&self) -> Vec<Problem> {
        let backwards = self.hours.iter().chain(&self.breaks).filter(|at| at.value.from >= at.value.to);
        let mut all: Vec<Problem> =
            backwards.map(|at| Problem::new(at.place, "`from` comes before `to` on one day")).collect();
        let none = self.days.iter().filter(|at| at.value.is_none());
        all.extend(none.map(|at| Problem::new(at.place, "no day of the week is worked: name one, such as `mon`")));
        if let Some(hours) = &self.hours
            && all.is_empty()
            && self.stretches(hours.value).is_empty()
        {
            all.push(Problem::new(hours.place, "the breaks leave no minute of the hours"));
        }
        all
    }

    /// What is open of hours between the breaks, minutes from midnight.
    pub fn stretches(&self, hours: Stretch) -> Vec<(u32, u32)> {
        let mut open = vec![(hours.from.minutes(), hours.to.minutes())];
        for rest in &self.breaks {
            let (from, to) = (rest.value.from.minutes(), rest.value.to.minutes());
            let cut = |(start, end): (u32, u32)| [(start, end.min(from)), (start.max(to), end)];
            open = open.into_iter().flat_map(cut).filter(|(start, end)| start < end).collect();
        }
        open.sort_unstable();
        open
    }
}

/// The shop's own minutes of changing a machine over.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct OwnChangeOver {
    /// The machine by its name, or a kind of machine.
    pub machine: At<String>,
    /// What is changed.
    pub aspect: At<String>,
    /// What is fitted, as the table names it.
    pub to: At<String>,
    /// Minutes.
    pub minutes: At<Minutes>,
}

impl OwnChangeOver {
    /// A machine or an aspect that nobody has; `machines` are the names and the kinds of the shop's.
    pub(super) fn problem(&self, machines: &[&str]) -> Option<Problem> {
        let names = || machines.iter().copied();
        if !names().any(|name| name == self.machine.value) {
            let says =
                format!("the shop has no machine `{}`; {}", self.machine.value, near(&self.machine.value, names()));
            return Some(Problem::new(self.machine.place, says));
        }
        if let Err(says) = self.aspect.value.parse::<Aspect>() {
            let known = near(&self.aspect.value, Aspect::ALL.iter().map(|aspect| aspect.text()));
            return Some(Problem::new(self.aspect.place, format!("{says}; {known}")));
        }
        let minutes = self.minutes.value.number();
        let day = 24.0 * 60.0;
        (!(0.0..=day).contains(&minutes))
            .then(|| Problem::new(self.minutes.place, "a change-over takes between no minute and a day"))
    }

    /// Whether these are the minutes of a machine for an aspect fitted so.
    pub fn is_of(&self, (name, kind): (&str, &str), aspect: Aspect, to: &str) -> bool {
        (self.machine.value == name || self.machine.value == kind)
            && self.aspect.value == aspect.text()
            && self.to.value == to
    }
}
