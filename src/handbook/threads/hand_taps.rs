//! How long the thread of a hand tap is: so deep it goes for sure.

use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Cause, Mark, Refusal, Worked};
use crate::quantity::{Mm, Quantity, figure};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    thread_mm: f64,
    length_mm: f64,
    doubt_mm: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

const TAPS: &str = include_str!("../../../shared/hand-taps.csv");

/// Length of the thread, its lead within, of the hand tap of the largest row that is no larger than this major diameter, mm.
///
/// # Errors
/// [`Refusal::NoRow`] for a thread smaller than those of the table.
pub fn thread_length(major: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
    static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows(TAPS));
    let row = ROWS.iter().rev().find(|row| row.thread_mm <= major.number());
    let none = || Refusal::NoRow { table: "hand taps", wanted: format!("{} mm", figure(major.number())) };
    let row = row.ok_or_else(none)?;
    let says = format!("hand tap M{}: {} mm of thread", figure(row.thread_mm), figure(row.length_mm));
    let length = Worked::row(Mm::new(row.length_mm), says, cited(&row.source, row.seen));
    Ok(length.with_doubt(Cause::Named("thread of a hand tap"), row.doubt_mm))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<Row>(TAPS);
        assert_eq!(all, good, "{first}");
    }

    #[test]
    fn a_thread_between_two_rows_has_the_shorter_tap() {
        let of = |mm: f64| thread_length(&Worked::assumed(Mm::new(mm), "a test"));
        assert_eq!(of(8.0).unwrap().number(), 22.0);
        assert_eq!(of(9.52).unwrap().number(), 22.0);
        assert!(of(2.0).is_err());
    }
}
