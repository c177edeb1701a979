//! An answer shaken, with the causes of doubt by name: for the terminal and for the JSON.

use super::terminal::Table;
use super::words;
use crate::operations::{Shaken, ShakenCheck, ShakenValue};
use crate::proof::Cause;
use crate::quantity::{Print, Rounds, shown};
use schemars::JsonSchema;
use serde::Serialize;

/// An answer shaken: every reading drawn anew many times, each about what was read.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub struct ShakenOut {
    /// How many times.
    trials: usize,
    /// What the draws begin from: the same seed gives the same draws.
    seed: u64,
    /// The checks that were made with figures.
    checks: Vec<ShakenCheckOut>,
    /// The values that have a doubt.
    values: Vec<ShakenValueOut>,
}

#[derive(Clone, Debug, Serialize, JsonSchema)]
struct ShakenCheckOut {
    check: String,
    /// proven, doubtful or fails.
    state: String,
    /// The share of draws in which it holds, the figures at the worst end of their bands; 0 to 1.
    holds: f64,
    /// Whose doubt has the greatest part in the spread of its margin.
    #[serde(skip_serializing_if = "Option::is_none")]
    mostly: Option<String>,
    /// That part of the sum of squares, 0 to 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    part: Option<f64>,
}

#[derive(Clone, Debug, Serialize, JsonSchema)]
struct ShakenValueOut {
    name: String,
    value: f64,
    unit: String,
    plus_minus: f64,
    /// The least half-width about the value that holds 95 % of the draws.
    half_width: f64,
    /// The value does not follow its readings in a straight line; its ± is then the wider side's.
    not_linear: bool,
    #[serde(skip)]
    shown: ValueOf,
}

/// A value as it was shaken: kept for its unit.
#[derive(Clone, Debug)]
struct ValueOf(ShakenValue);

impl ShakenOut {
    /// Puts names to the causes.
    pub fn of(shaken: &Shaken, name: impl Fn(Cause) -> String) -> Self {
        let check = |check: &ShakenCheck| ShakenCheckOut {
            check: check.id.into(),
            state: check.state.text().into(),
            holds: check.holds,
            mostly: check.mostly.map(|(cause, _)| name(cause)),
            part: check.mostly.map(|(_, part)| part),
        };
        let value = |value: &ShakenValue| ShakenValueOut {
            name: value.key.into(),
            value: value.number,
            unit: value.unit.text().into(),
            plus_minus: value.plus_minus,
            half_width: value.half_width,
            not_linear: value.bent,
            shown: ValueOf(value.clone()),
        };
        let (trials, seed) = (shaken.trials, shaken.seed);
        let checks = shaken.checks.iter().map(check).collect();
        Self { trials, seed, checks, values: shaken.values.iter().map(value).collect() }
    }

    /// As text for a terminal.
    pub fn text(&self, print: Print) -> String {
        let checks = self.checks.iter().map(|check| {
            let mostly = check.mostly.as_ref().zip(check.part);
            let mostly = mostly.map_or(words::NONE.into(), |(name, part)| words::mostly(name, part));
            vec![check.check.clone(), words::holds(check.holds), check.state.clone(), mostly]
        });
        let values = self.values.iter().map(|value| {
            let ValueOf(of) = &value.shown;
            let half = format!("± {}", shown(of.half_width, None, of.unit, Rounds::Nearest, print));
            let bent = if of.bent { words::NOT_LINEAR } else { "" };
            let figure = shown(of.number, Some(of.plus_minus), of.unit, Rounds::Nearest, print);
            vec![value.name.clone(), figure, half, bent.into()]
        });
        Table::default()
            .under(&words::shaken(self.trials, self.seed), &checks.collect::<Vec<_>>())
            .under(words::SHAKEN_VALUES, &values.collect::<Vec<_>>())
            .finish()
    }
}
