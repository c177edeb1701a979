//! Minutes of setting up, a start that the shop corrects.

use super::table::{cited, rows, seen};
use crate::proof::{Mark, Refusal, Worked};
use crate::quantity::{Minutes, Quantity, figure};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Debug, Deserialize)]
struct Row {
    task: String,
    low_min: f64,
    high_min: f64,
    start_min: f64,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
}

const TABLE: &str = include_str!("../../shared/set-up-minutes.csv");

/// The minutes to begin with for a task, with the band of experience.
///
/// # Errors
/// [`Refusal::NoRow`] where the table has no such task.
pub fn minutes(task: &str) -> Result<Worked<Minutes>, Refusal> {
    static ROWS: LazyLock<Vec<Row>> = LazyLock::new(|| rows(TABLE));
    let row = ROWS.iter().find(|row| row.task == task);
    let row = row.ok_or_else(|| Refusal::NoRow { table: "set-up minutes", wanted: task.into() })?;
    let says = format!("{task}: {} min", figure(row.start_min));
    let start = Worked::row(Minutes::new(row.start_min), says, cited(&row.source, row.seen));
    Ok(start.with_band(row.low_min, row.high_min))
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<super::Row>(super::TABLE);
        assert_eq!(all, good, "{first}");
        assert_eq!(crate::quantity::Quantity::number(super::minutes("three-jaw chuck").unwrap().value), 4.0);
    }
}
