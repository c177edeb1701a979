//! A hold point: what is measured at a step, how often, with what, and for which readings the work goes on as printed.

use super::Value;
use super::hold_search::{LimitsWhenAsked, Search};
use super::hold_window::{GaugeUsed, Limits, LimitsFrom, NO_BORE_GAUGE, NO_GAUGE};
use super::holds_for::Stamping;
use crate::proof::{Fact, Section, Speak, Words};
use crate::quantity::Unit;
use schemars::JsonSchema;
use serde::Serialize;
use std::sync::Arc;

/// What is measured at a step.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldPoint<W = Words> {
    /// The key of the size that is measured: of a reading, or of a size that the plan foretells.
    pub measures: &'static str,
    /// What is taken off the size before it is measured, mm: what is read is the size less this.
    pub taken_off: f64,
    /// How many readings are written down.
    pub readings: usize,
    /// The gauge by its name in the shop, else in the card.
    pub gauge: W,
    /// The readings for which the work goes on as printed.
    pub limits: LimitsWhenAsked,
    /// What is done with the reading, where the step itself does not say it: a text of the card under `steps`.
    pub then: Option<W>,
    search: Option<Search>,
}

impl HoldPoint {
    /// A size that is measured; its limits are found when every check was made. `guard` is the factor on the standard
    /// uncertainty.
    pub(super) fn of(measures: &'static str, readings: usize, gauge: GaugeUsed, guard: f64) -> Self {
        let limits = Limits::none().into();
        let name = gauge.name.clone().into();
        let search = Some(Search {
            gauge,
            guard,
            beside: 0.0,
            wider: 0.0,
            reserve: 0.0,
            floor: None,
            log_asks: None,
            ceiling: None,
            only_as_found: false,
        });
        Self { measures, taken_off: 0.0, readings, gauge: name, limits, then: None, search }
    }

    /// The same with so much taken off before it is measured, mm.
    pub(super) fn less(mut self, taken_off: f64) -> Self {
        self.taken_off = taken_off;
        self.search.iter_mut().for_each(|search| search.beside = -taken_off);
        self
    }

    /// The same where it may be read further off by what was done since, mm.
    pub(super) fn wider(mut self, by: f64) -> Self {
        self.search.iter_mut().for_each(|search| search.wider = by);
        self
    }

    /// What the work itself asks.
    pub(super) fn asking(measures: &'static str, readings: usize, gauge: impl Into<Fact>, limits: Limits) -> Self {
        let gauge = gauge.into().into();
        Self { measures, taken_off: 0.0, readings, gauge, limits: limits.into(), then: None, search: None }
    }

    /// The same with what is done with the reading.
    pub(super) fn then(mut self, id: &'static str) -> Self {
        self.then = Some(Words::of(id));
        self
    }

    /// The same with what is said of the reading, where anything is.
    pub(super) fn saying(mut self, words: Option<Words>) -> Self {
        self.then = words.or(self.then);
        self
    }

    /// The same not under what the first setting printed still finds to cut, mm.
    pub(super) fn not_under(mut self, floor: Option<f64>) -> Self {
        self.search.iter_mut().for_each(|search| search.floor = floor);
        self
    }

    /// The same between two readings that no check of the plan follows, mm: what checks of the log will judge.
    pub(super) fn between(mut self, least: f64, most: f64) -> Self {
        self.search.iter_mut().for_each(|search| search.log_asks = Some((least, most)));
        self
    }

    /// The same under a size that it cannot be, mm.
    pub(super) fn under(mut self, ceiling: Option<f64>) -> Self {
        self.search.iter_mut().for_each(|search| search.ceiling = ceiling);
        self
    }

    /// The same with so much kept inside what the checks leave: what a measurement needs to decide in, mm.
    pub(super) fn keeping(mut self, reserve: f64) -> Self {
        self.search.iter_mut().for_each(|search| search.reserve = reserve);
        self
    }

    /// The same looked at as it was found where nothing limits the size itself: that another would do as well says nothing.
    pub(super) fn looked_at_unless(mut self, limited: bool) -> Self {
        self.search.iter_mut().for_each(|search| search.only_as_found = !limited);
        self
    }

    /// Whether it is a size that no gauge of the shop reads.
    pub(super) fn is_without_gauge(&self) -> bool {
        [NO_GAUGE, NO_BORE_GAUGE].iter().any(|none| self.gauge == Fact::named(none).into())
    }

    /// Says how its limits are found, once every check was made. Of what `fails` nothing is printed that a reading is looked at for as
    /// it was found: what is sought is the reading that would prove it.
    pub(super) fn seek(&mut self, values: &[Value], (stamping, fails): (&Arc<[Stamping]>, bool)) {
        let value = values.iter().find(|value| value.key == self.measures);
        let Some((search, value)) = self.search.as_ref().zip(value) else { return };
        let search = Search { only_as_found: search.only_as_found && !fails, ..search.clone() };
        self.limits = LimitsWhenAsked::sought(search, value.clone(), stamping.clone());
    }
}

impl<W> HoldPoint<W> {
    /// The same in other words.
    pub(super) fn try_map_words<S: Speak<W>>(&self, speaker: &S) -> Result<HoldPoint<S::Said>, S::Slip> {
        Ok(HoldPoint {
            measures: self.measures,
            taken_off: self.taken_off,
            readings: self.readings,
            gauge: speaker.say(Section::Names, &self.gauge, &[])?,
            limits: self.limits.clone(),
            then: self.then.as_ref().map(|then| speaker.say(Section::Steps, then, &[])).transpose()?,
            search: self.search.clone(),
        })
    }
}

/// A hold point as the JSON has it.
#[derive(Serialize, JsonSchema)]
pub(super) struct HoldPointOut<'a, W> {
    /// The number of its step, from 1.
    step: usize,
    /// The key of the size that is measured.
    measures: &'static str,
    /// What is taken off the size before it is measured.
    taken_off: f64,
    /// How many readings are written down.
    readings: usize,
    /// The gauge.
    gauge: &'a W,
    /// Not under.
    #[serde(skip_serializing_if = "Option::is_none")]
    least: Option<End>,
    /// Not over.
    #[serde(skip_serializing_if = "Option::is_none")]
    most: Option<End>,
    /// The unit of both, where they are figures.
    #[serde(skip_serializing_if = "Option::is_none")]
    unit: Option<Unit>,
    /// Where the limits come from.
    from: LimitsFrom,
    /// What is done with the reading.
    #[serde(skip_serializing_if = "Option::is_none")]
    then: Option<&'a W>,
}

/// An end of the limits: a figure, or words (a hardness on its scale).
#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum End {
    Figure(f64),
    Words(String),
}

impl<'a, W> HoldPointOut<'a, W> {
    pub(super) fn of(at: usize, hold: &'a HoldPoint<W>) -> Self {
        let end = |end: &Option<Fact>| match end.as_ref()? {
            Fact::Figure { number, .. } => Some(End::Figure(*number)),
            fact => Some(End::Words(fact.said(None, crate::quantity::Print::Metric))),
        };
        let limits = &hold.limits;
        let unit = [&limits.least, &limits.most].into_iter().flatten().find_map(|fact| match fact {
            Fact::Figure { unit, .. } => Some(*unit),
            _ => None,
        });
        Self {
            step: at + 1,
            measures: hold.measures,
            taken_off: hold.taken_off,
            readings: hold.readings,
            gauge: &hold.gauge,
            least: end(&limits.least),
            most: end(&limits.most),
            unit,
            from: limits.from,
            then: hold.then.as_ref(),
        }
    }
}
