//! Which way a feature wears: a hole grows, what turns in it shrinks.

use super::table::{rows, seen};
use crate::proof::Mark;
use serde::Deserialize;
use std::sync::LazyLock;

/// The way that wear goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Wears {
    /// A worn one is larger.
    Larger,
    /// A worn one is smaller.
    Smaller,
    /// A name with such a word says nothing of it.
    Neither,
}

/// A row of the table.
#[derive(Debug, Deserialize)]
pub struct WearRow {
    /// A word of the feature's name.
    pub feature: String,
    /// The way it wears.
    pub wears: Wears,
    /// Source keys.
    pub source: String,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

const WEAR: &str = include_str!("../../shared/wear.csv");

/// Every row.
pub fn all() -> &'static [WearRow] {
    static ROWS: LazyLock<Vec<WearRow>> = LazyLock::new(|| rows(WEAR));
    &ROWS
}

/// The way a feature of such a name wears; nothing where its words say nothing, or not the same.
pub fn way(feature: &str) -> Option<Wears> {
    let name = feature.to_lowercase();
    let words = || name.split(|c: char| !c.is_alphanumeric());
    let mut ways = all().iter().filter(|row| words().any(|word| word == row.feature)).map(|row| row.wears);
    let first = ways.next().filter(|way| *way != Wears::Neither)?;
    ways.all(|way| way == first).then_some(first)
}

#[cfg(test)]
mod tests {
    use super::{Wears, way};

    #[test]
    fn a_name_says_which_way_it_wears() {
        assert_eq!(way("Governor bore"), Some(Wears::Larger));
        assert_eq!(way("crankpin"), Some(Wears::Smaller));
        for says_nothing in ["bore depth", "journal in its bush", "boreal thing", "joint face"] {
            assert_eq!(way(says_nothing), None, "{says_nothing}");
        }
    }
}
