//! What a step needs at hand beside the tools of its cuts and the gauges of its readings.

use super::table::{rows, seen};
use crate::proof::Mark;
use serde::Deserialize;
use std::sync::LazyLock;

/// A row of the table.
#[derive(Debug, Deserialize)]
pub struct AtHand {
    /// The step, by its whole id.
    pub step: String,
    /// Where it lies.
    pub drawer: Lies,
    /// What it is.
    pub item: String,
    /// Source keys.
    pub source: String,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

/// Where such a thing lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Lies {
    /// With the tools.
    Tools,
    /// With the gauges.
    Gauges,
    /// With oils and greases.
    Oils,
    /// With gloves and guards.
    Gloves,
}

const ROWS: &str = include_str!("../../shared/at-hand.csv");

/// Every row.
pub fn all() -> &'static [AtHand] {
    static ALL: LazyLock<Vec<AtHand>> = LazyLock::new(|| rows(ROWS));
    &ALL
}

/// What a step needs.
pub fn of_step(step: &str) -> impl Iterator<Item = &'static AtHand> {
    all().iter().filter(move |row| row.step == step)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<AtHand>(ROWS);
        assert_eq!(all, good, "{first}");
    }
}
