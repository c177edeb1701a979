//! What a part may be washed with: a bath that suits one metal eats another, and what takes oil off leaves carbon where it is.

use super::kind::Kind;
use crate::handbook::table::{rows, seen};
use crate::proof::{Mark, Refusal};
use crate::reading::near;
use schemars::JsonSchema;
use serde::{Deserialize, Deserializer, de};
use std::sync::LazyLock;

/// Whether a bath suits a metal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Suits {
    /// It does.
    Suits,
    /// It does with care, or not for long.
    Care,
    /// It spoils the metal, or somebody.
    Never,
}

/// What a bath does to a person.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Harm {
    /// It burns skin and eyes.
    Skin,
    /// It scalds.
    Heat,
    /// It catches fire.
    Fire,
}

/// A row of the table.
#[derive(Debug, Deserialize)]
pub struct CleanerRow {
    cleaner: String,
    metal: String,
    /// Whether it suits.
    pub answer: Suits,
    /// What it does to a person.
    pub harm: Harm,
    /// Why.
    pub reason: String,
    /// Source keys.
    pub source: String,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

const CLEANERS: &str = include_str!("../../../shared/cleaners.csv");

fn all() -> &'static [CleanerRow] {
    static ROWS: LazyLock<Vec<CleanerRow>> = LazyLock::new(|| rows(CLEANERS));
    &ROWS
}

/// What the dirt is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Dirt {
    /// Oil and grease.
    Oil,
    /// Chips, grit, dust of grinding.
    Grit,
    /// Baked oil and carbon.
    Carbon,
    /// Old gasket and sealant.
    Sealant,
}

/// What a bath does to the dirt.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Takes {
    /// Brushed and rinsed, it is gone.
    Takes,
    /// Some of it stays.
    Partly,
    /// It does nothing to it.
    Leaves,
}

/// A row of what a bath takes off.
#[derive(Debug, Deserialize)]
pub struct DirtRow {
    cleaner: String,
    dirt: Dirt,
    /// What it does to it.
    pub answer: Takes,
    /// Why.
    pub reason: String,
    /// Source keys.
    pub source: String,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

const DIRT: &str = include_str!("../../../shared/cleaner-dirt.csv");

fn of_dirt() -> &'static [DirtRow] {
    static ROWS: LazyLock<Vec<DirtRow>> = LazyLock::new(|| rows(DIRT));
    &ROWS
}

/// A bath of the table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cleaner(&'static str);

impl Cleaner {
    /// Its name.
    pub const fn name(self) -> &'static str {
        self.0
    }

    /// What the table says of it on a metal: the row of the metal, else that of any.
    ///
    /// # Errors
    /// [`Refusal::NoRow`] where the table has neither.
    pub fn on(self, metal: Kind) -> Result<&'static CleanerRow, Refusal> {
        self.row(metal.text()).or_else(|_| self.row("any"))
    }

    /// What it does to a person.
    ///
    /// # Errors
    /// [`Refusal::NoRow`] where the table has no row of it for any metal.
    pub fn harm(self) -> Result<Harm, Refusal> {
        self.row("any").map(|row| row.harm)
    }

    /// What the table says of it on dirt; nothing where nobody knows.
    pub fn takes(self, dirt: Dirt) -> Option<&'static DirtRow> {
        of_dirt().iter().find(|row| row.cleaner == self.0 && row.dirt == dirt)
    }

    fn row(self, metal: &str) -> Result<&'static CleanerRow, Refusal> {
        let row = all().iter().find(|row| row.cleaner == self.0 && row.metal == metal);
        row.ok_or_else(|| Refusal::NoRow { table: "cleaners", wanted: self.0.into() })
    }
}

impl std::str::FromStr for Cleaner {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let known = all().iter().find(|row| row.cleaner.eq_ignore_ascii_case(text.trim()));
        let names = || near(text, all().iter().map(|row| row.cleaner.as_str()));
        known.map(|row| Self(&row.cleaner)).ok_or_else(|| format!("no cleaner is called `{text}`; {}", names()))
    }
}

impl<'de> Deserialize<'de> for Cleaner {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(de::Error::custom)
    }
}

impl JsonSchema for Cleaner {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Cleaner".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": "string", "description": "a cleaner of the table of cleaners" })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads_and_every_cleaner_has_an_answer_for_any_metal() {
        let (all_rows, good, first) = crate::handbook::table::audit::<CleanerRow>(CLEANERS);
        assert_eq!(all_rows, good, "{first}");
        for row in all() {
            let cleaner: Cleaner = row.cleaner.parse().unwrap();
            assert!(cleaner.on(Kind::Titanium).is_ok(), "{}", row.cleaner);
        }
    }

    #[test]
    fn every_row_of_dirt_loads_is_of_a_cleaner_and_stands_once() {
        let (all_rows, good, first) = crate::handbook::table::audit::<DirtRow>(DIRT);
        assert_eq!(all_rows, good, "{first}");
        for row in of_dirt() {
            let cleaner: Cleaner = row.cleaner.parse().unwrap();
            assert!(std::ptr::eq(cleaner.takes(row.dirt).unwrap(), row), "{} {:?}", row.cleaner, row.dirt);
        }
    }

    #[test]
    fn caustic_never_comes_on_aluminium_and_petrol_on_nothing() {
        let answer = |cleaner: &str, kind| cleaner.parse::<Cleaner>().unwrap().on(kind).unwrap().answer;
        assert_eq!(answer("hot caustic", Kind::Aluminium), Suits::Never);
        assert_eq!(answer("hot caustic", Kind::GreyIron), Suits::Suits);
        for kind in [Kind::Steel, Kind::Aluminium, Kind::Magnesium] {
            assert_eq!(answer("petrol", kind), Suits::Never);
        }
        assert!("vinegar".parse::<Cleaner>().is_err());
    }
}
