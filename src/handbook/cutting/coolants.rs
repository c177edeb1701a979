//! Coolants and lubricants by material and operation.

use crate::handbook::materials::groups::Material;
use crate::handbook::table::{Groups, cited, seen};
use crate::proof::{Mark, Source};
use serde::Deserialize;
use std::sync::LazyLock;

/// A row of the table of coolants.
#[derive(Debug, Deserialize)]
pub struct Coolant {
    /// any, ream or tap.
    pub operation: String,
    /// What to use.
    pub coolant: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    /// A remark.
    pub note: String,
}

const COOLANTS: &str = include_str!("../../../shared/coolants.csv");

/// The rows of a material.
pub fn of(material: &Material) -> impl Iterator<Item = &'static Coolant> {
    static ROWS: LazyLock<Groups<Coolant>> = LazyLock::new(|| Groups::of(COOLANTS, 1));
    ROWS.under(material.id())
}

impl Coolant {
    /// Where it comes from.
    pub fn source(&self) -> Source {
        cited(&self.source, self.seen)
    }
}

/// The row of a material for an operation (`ream`, `tap`), else its row for any; none where the table has neither.
pub(crate) fn for_operation(material: &Material, operation: &str) -> Option<&'static Coolant> {
    of(material).find(|row| row.operation == operation).or_else(|| of(material).find(|row| row.operation == "any"))
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<super::Coolant>(super::COOLANTS);
        assert_eq!(all, good, "{first}");
    }
}
