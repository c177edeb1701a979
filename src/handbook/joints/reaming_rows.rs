//! The table of reaming: stock, speeds, feeds and tolerances of reamers, as they were printed.

use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Cited, Mark, Origin, Source, Worked};
use crate::quantity::{Quantity, figure};
use serde::Deserialize;
use std::sync::LazyLock;

/// A row of the table of reaming.
#[derive(Debug, Deserialize)]
pub struct Row {
    /// What it is about: stock, speed, feed, reamer-tolerance-h7 …
    pub topic: String,
    /// The metal, or `any`.
    pub material: String,
    over_mm: Option<f64>,
    upto_mm: Option<f64>,
    /// Low end.
    pub low: Option<f64>,
    /// High end.
    pub high: Option<f64>,
    /// Unit, as the table says.
    pub unit: String,
    /// hand, machine or any.
    pub by: String,
    pub(super) source: String,
    #[serde(deserialize_with = "seen")]
    pub(super) seen: Mark,
    /// A remark.
    pub note: String,
}

const REAMING: &str = include_str!("../../../shared/reaming.csv");

pub(super) fn table() -> &'static [Row] {
    static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows(REAMING));
    &ROWS
}

/// The rows that hold at a diameter, as they were printed.
pub(crate) fn rows_at(diameter: f64) -> impl Iterator<Item = &'static Row> {
    table().iter().filter(move |row| row.holds(diameter))
}

impl Row {
    /// Where it comes from.
    pub fn source(&self) -> Source {
        cited(&self.source, self.seen)
    }

    pub(super) fn holds(&self, size: f64) -> bool {
        self.over_mm.is_none_or(|over| size > over) && self.upto_mm.is_none_or(|upto| size <= upto)
    }

    pub(super) fn ends<Q: Quantity>(&self, factor: f64) -> Option<(Worked<Q>, Worked<Q>)> {
        let of = |end: f64| {
            let row = format!("{}, {}: {} {}", self.topic.replace('-', " "), self.material, figure(end), self.unit);
            Worked::exact(Q::new(end), Origin::Row(Cited { row: row.into(), source: cited(&self.source, self.seen) }))
        };
        Some((of(self.low? * factor), of(self.high? * factor)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<Row>(REAMING);
        assert_eq!(all, good, "{first}");
    }
}
