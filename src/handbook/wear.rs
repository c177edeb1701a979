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

/// What a size is read with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum ReadWith {
    /// A micrometer, a caliper.
    Outside,
    /// A bore gauge.
    Inside,
    /// A depth gauge.
    Depth,
    /// An indicator.
    Indicator,
}

/// A row of the table.
#[derive(Debug, Deserialize)]
pub struct WearRow {
    /// A word of the feature's name.
    pub feature: String,
    /// The way it wears.
    pub wears: Option<Wears>,
    /// What cutting metal off there does to the size.
    pub cut: Option<Wears>,
    /// What such a size is read with.
    pub gauge: Option<ReadWith>,
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
    let mut ways = all().iter().filter(|row| words().any(|word| word == row.feature)).filter_map(|row| row.wears);
    let first = ways.next().filter(|way| *way != Wears::Neither)?;
    ways.all(|way| way == first).then_some(first)
}

/// Whether the size of a feature of such a name gets smaller as metal is cut off: of a thickness, a length, a wall, a shaft it does, of a
/// bore or a depth it does not. The last word that says it is what is measured; where none does it is metal.
pub fn is_metal(feature: &str) -> bool {
    let name = feature.to_lowercase();
    let measured = name.split(" of ").next().unwrap_or_default();
    last_said(measured, |row| row.cut) != Some(Wears::Larger)
}

/// What a feature of such a name is read with: by the last of its words that says it.
pub fn read_with(feature: &str) -> Option<ReadWith> {
    last_said(&feature.to_lowercase(), |row| row.gauge)
}

fn last_said<T>(name: &str, says: impl Fn(&WearRow) -> Option<T>) -> Option<T> {
    let words: Vec<&str> = name.split(|c: char| !c.is_alphanumeric()).collect();
    words.into_iter().rev().find_map(|word| says(all().iter().find(|row| row.feature == word)?))
}

#[cfg(test)]
mod tests {
    use super::{Wears, is_metal, way};

    #[test]
    fn a_name_says_what_cutting_does_to_its_size() {
        for metal in ["foot face", "bore wall", "seal track", "Flange thickness", "pin", "length of bore", "lug"] {
            assert!(is_metal(metal), "{metal}");
        }
        for room in ["bore", "recess depth", "depth of the face", "end float", "Clearance"] {
            assert!(!is_metal(room), "{room}");
        }
    }

    #[test]
    fn a_name_says_which_way_it_wears() {
        assert_eq!(way("Governor bore"), Some(Wears::Larger));
        assert_eq!(way("crankpin"), Some(Wears::Smaller));
        for says_nothing in ["bore depth", "journal in its bush", "boreal thing", "joint face"] {
            assert_eq!(way(says_nothing), None, "{says_nothing}");
        }
    }
}
