//! Cuts that take away a size by which other work of the same part is judged.

use super::table::{rows, seen};
use crate::proof::Mark;
use serde::{Deserialize, Deserializer};
use std::sync::LazyLock;

/// A cut and what rests on the size that it takes.
#[derive(Debug, Deserialize, PartialEq)]
pub struct SizeCut {
    /// Its name.
    pub rule: String,
    /// Operations that take it.
    #[serde(deserialize_with = "words")]
    pub cuts: Vec<String>,
    /// Their values of it before the cut.
    #[serde(deserialize_with = "words")]
    pub found: Vec<String>,
    /// Their values of it after the cut.
    #[serde(deserialize_with = "words")]
    pub left: Vec<String>,
    /// Operations that are judged by it.
    #[serde(deserialize_with = "words")]
    pub rests: Vec<String>,
    /// Their values of it.
    #[serde(deserialize_with = "words")]
    pub values: Vec<String>,
    /// Whether it is one size of the whole part.
    pub place: Lies,
    /// Why.
    pub reason: String,
    /// Source keys.
    pub source: String,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

/// Where such a size lies on a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Lies {
    /// It is one size of the whole part.
    One,
    /// Another feature may be another place.
    Elsewhere,
}

impl SizeCut {
    /// Whether one operation takes what another is judged by.
    pub fn binds(&self, cut: &str, rests: &str) -> bool {
        self.cuts.iter().any(|word| word == cut) && self.rests.iter().any(|word| word == rests)
    }

    /// Whether what is judged by the size takes it as well: it is judged by what it leaves itself.
    pub fn takes_too(&self, rests: &str) -> bool {
        self.cuts.iter().any(|word| word == rests)
    }
}

fn words<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<String>, D::Error> {
    let text = String::deserialize(from)?;
    Ok(text.split(';').map(str::trim).filter(|word| !word.is_empty()).map(str::to_owned).collect())
}

const CUTS: &str = include_str!("../../shared/size-cuts.csv");

/// Every row.
pub fn all() -> &'static [SizeCut] {
    static ROWS: LazyLock<Vec<SizeCut>> = LazyLock::new(|| rows(CUTS));
    &ROWS
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<SizeCut>(CUTS);
        assert_eq!(all, good, "{first}");
    }
}
