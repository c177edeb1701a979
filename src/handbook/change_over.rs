//! Minutes of changing a machine over: a start that the shop corrects.

use super::rigging::Aspect;
use super::table::{rows, seen};
use crate::proof::Mark;
use serde::{Deserialize, Deserializer, de};
use std::sync::LazyLock;

/// A row of the table.
#[derive(Debug, Deserialize)]
pub struct ChangeOver {
    /// The kind of machine.
    pub machine: String,
    /// What is changed.
    #[serde(deserialize_with = "aspect")]
    pub aspect: Aspect,
    /// What is fitted.
    pub to: String,
    /// Low end, min.
    pub low_min: f64,
    /// High end, min.
    pub high_min: f64,
    /// What a day starts with, min.
    pub start_min: f64,
    /// Aspects that need no minutes of their own when this row is paid.
    #[serde(deserialize_with = "aspects")]
    pub covers: Vec<Aspect>,
    /// Source keys.
    pub source: String,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

const MINUTES: &str = include_str!("../../shared/change-over.csv");

/// Every row.
pub fn all() -> &'static [ChangeOver] {
    static ROWS: LazyLock<Vec<ChangeOver>> = LazyLock::new(|| rows(MINUTES));
    &ROWS
}

/// The row of a kind of machine for an aspect fitted so; none where the table has none.
pub fn row(machine: &str, aspect: Aspect, to: &str) -> Option<&'static ChangeOver> {
    all().iter().find(|row| row.machine == machine && row.aspect == aspect && row.to == to)
}

fn aspect<'de, D: Deserializer<'de>>(from: D) -> Result<Aspect, D::Error> {
    String::deserialize(from)?.parse().map_err(de::Error::custom)
}

fn aspects<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Aspect>, D::Error> {
    let text = String::deserialize(from)?;
    let words = text.split(';').map(str::trim).filter(|word| !word.is_empty());
    words.map(|word| word.parse().map_err(de::Error::custom)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<ChangeOver>(MINUTES);
        assert_eq!(all, good, "{first}");
        let vice = row("mill", Aspect::Device, "vice").unwrap();
        assert_eq!((vice.low_min, vice.start_min, vice.high_min), (8.0, 10.0, 12.0));
        assert_eq!(row("lathe", Aspect::Device, "three-jaw").unwrap().covers, [Aspect::Jaws]);
    }

    #[test]
    fn each_start_lies_in_its_band() {
        for row in super::all() {
            assert!(row.low_min <= row.start_min && row.start_min <= row.high_min, "{row:?}");
        }
    }
}
