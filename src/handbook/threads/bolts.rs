//! Strength classes of bolts.

use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Refusal, Source, Worked};
use crate::quantity::{Quantity, Stress, figure};
use crate::reading::near;
use serde::de;
use serde::{Deserialize, Deserializer};
use std::fmt;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    class: String,
    standard: String,
    over_mm: f64,
    upto_mm: f64,
    tensile_min_mpa: f64,
    proof_mpa: Option<f64>,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    #[allow(dead_code)]
    note: String,
}

fn table() -> &'static [Row] {
    static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows(include_str!("../../../shared/bolts.csv")));
    &ROWS
}

/// A strength class of bolts: a handle that was looked up when it was read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BoltClass(String);

impl BoltClass {
    /// The class as it is written.
    pub fn text(&self) -> &str {
        &self.0
    }

    /// Least tensile strength at a diameter.
    ///
    /// # Errors
    /// [`Refusal::NoRow`] outside the diameters of the class.
    pub fn tensile(&self, diameter: f64) -> Result<Worked<Stress>, Refusal> {
        let row = self.row(diameter)?;
        Ok(Worked::row(
            Stress::new(row.tensile_min_mpa),
            row.says("tensile at least", row.tensile_min_mpa),
            row.source(),
        ))
    }

    /// Proof stress at a diameter; none where the table has none.
    ///
    /// # Errors
    /// As [`Self::tensile`].
    pub fn proof(&self, diameter: f64) -> Result<Option<Worked<Stress>>, Refusal> {
        let row = self.row(diameter)?;
        Ok(row.proof_mpa.map(|proof| Worked::row(Stress::new(proof), row.says("proof", proof), row.source())))
    }

    fn row(&self, diameter: f64) -> Result<&'static Row, Refusal> {
        let holds = |row: &&Row| row.class == self.0 && diameter > row.over_mm && diameter <= row.upto_mm;
        let wanted = || format!("class {} at {} mm", self.0, figure(diameter));
        table().iter().find(holds).ok_or_else(|| Refusal::NoRow { table: "bolt strength", wanted: wanted() })
    }
}

impl Row {
    fn says(&self, what: &str, mpa: f64) -> String {
        format!("{} class {}: {what} {} MPa", self.standard, self.class, figure(mpa))
    }

    fn source(&self) -> Source {
        cited(&self.source, self.seen)
    }
}

impl std::str::FromStr for BoltClass {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let found = table().iter().find(|row| row.class.eq_ignore_ascii_case(text.trim()));
        found.map(|row| Self(row.class.clone())).ok_or_else(|| {
            let mut known: Vec<&str> = table().iter().map(|row| row.class.as_str()).collect();
            known.dedup();
            format!("`{text}` is not a bolt class; {}", near(text, known))
        })
    }
}

impl<'de> Deserialize<'de> for BoltClass {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Class;
        impl de::Visitor<'_> for Class {
            type Value = BoltClass;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a bolt class such as `8.8`")
            }
            fn visit_str<E: de::Error>(self, text: &str) -> Result<BoltClass, E> {
                text.parse().map_err(E::custom)
            }
            // Metric classes look like numbers; they are names all the same.
            fn visit_f64<E: de::Error>(self, number: f64) -> Result<BoltClass, E> {
                figure(number).parse().map_err(E::custom)
            }
        }
        from.deserialize_any(Class)
    }
}

impl schemars::JsonSchema for BoltClass {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "BoltClass".into()
    }
    fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
        schemars::json_schema!({ "type": ["string", "number"], "description": "a bolt class such as 8.8, grade 5 or BS R" })
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<super::Row>(include_str!("../../../shared/bolts.csv"));
        assert_eq!(all, good, "{first}");
    }
}
