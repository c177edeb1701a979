//! What a kind of instrument is usually worth; the shop's own figure goes first.

use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Refusal, Source, Worked};
use crate::quantity::{Mm, Quantity, figure};
use crate::reading::near;
use serde::Deserialize;
use std::sync::LazyLock;

/// A row of the table of instruments.
#[derive(Debug, Deserialize)]
pub struct Row {
    /// The kind of instrument.
    pub instrument: String,
    /// Smallest size, mm.
    pub from_mm: f64,
    /// Largest size, mm.
    pub to_mm: f64,
    expanded_uncertainty_um: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    /// A remark.
    pub note: String,
}

const TABLE: &str = include_str!("../../../shared/instruments.csv");

/// Every row.
pub fn table() -> &'static [Row] {
    static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows(TABLE));
    &ROWS
}

impl Row {
    /// Expanded uncertainty, k = 2.
    pub fn uncertainty(&self) -> Worked<Mm> {
        let um = self.expanded_uncertainty_um;
        let (from, to) = (figure(self.from_mm), figure(self.to_mm));
        let says = format!("{}, {from} to {to} mm: {} µm (k = 2)", self.instrument, figure(um));
        Worked::row(Mm::new(um / 1000.0), says, self.source())
    }

    /// Where it comes from.
    pub fn source(&self) -> Source {
        cited(&self.source, self.seen)
    }
}

/// The usual expanded uncertainty of a kind of instrument at a size; the end of a range belongs to the finer row.
///
/// # Errors
/// [`Refusal::NoRow`] for a kind that the table lacks (near names stand beside it) or a size outside its ranges.
pub fn usual_uncertainty(kind: &str, size: f64) -> Result<Worked<Mm>, Refusal> {
    let of_kind = || table().iter().filter(|row| row.instrument.eq_ignore_ascii_case(kind.trim()));
    if of_kind().next().is_none() {
        let wanted = format!("`{kind}`; {}", near(kind, table().iter().map(|row| row.instrument.as_str())));
        return Err(Refusal::NoRow { table: "instrument", wanted });
    }
    let found = of_kind().find(|row| row.from_mm <= size && size <= row.to_mm);
    let wanted = || Refusal::NoRow { table: "instrument", wanted: format!("{} at {} mm", kind.trim(), figure(size)) };
    found.map(Row::uncertainty).ok_or_else(wanted)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<Row>(TABLE);
        assert_eq!(all, good, "{first}");
    }

    #[test]
    fn a_kind_has_its_ranges_and_a_wrong_name_its_near_ones() {
        let of = |kind, size| usual_uncertainty(kind, size).map(|u| u.number());
        assert_eq!(of("outside micrometer", 50.0), Ok(0.004));
        assert_eq!(of("outside micrometer", 50.1), Ok(0.005));
        assert!(of("outside micrometer", 500.0).is_err());
        // The budget of a bore gauge comes to its row.
        let causes = ["a", "b", "c", "d", "e"].into_iter().zip([2.89, 2.31, 2.0, 1.02, 2.0]);
        let gauge = causes.fold(Worked::assumed(Mm::new(1.0), ""), |gauge, (cause, um)| {
            gauge.with_doubt(crate::proof::Cause::Named(cause), 2.0 * um / 1000.0)
        });
        assert!((gauge.plus_minus() - 0.0095).abs() < 0.00005);
        assert!(of("outside micrometre", 20.0).unwrap_err().to_string().contains("outside micrometer"));
    }
}
