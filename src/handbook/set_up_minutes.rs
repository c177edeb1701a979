//! Minutes of setting up and of waiting: a start that the shop corrects.

use super::table::{rows, seen};
use crate::proof::{Mark, Refusal};
use serde::Deserialize;
use std::sync::LazyLock;

/// A row of the table.
#[derive(Debug, Deserialize)]
pub struct SetUpMinutes {
    /// What is done.
    pub task: String,
    /// Low end, min.
    pub low_min: f64,
    /// High end, min.
    pub high_min: f64,
    /// What a plan starts with, min.
    pub start_min: f64,
    /// Source keys.
    pub source: String,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

const MINUTES: &str = include_str!("../../shared/set-up-minutes.csv");

/// Every row.
pub fn all() -> &'static [SetUpMinutes] {
    static ROWS: LazyLock<Vec<SetUpMinutes>> = LazyLock::new(|| rows(MINUTES));
    &ROWS
}

/// The minutes that a plan starts with.
///
/// # Errors
/// [`Refusal::NoRow`] where the table has no such task.
pub fn start(task: &str) -> Result<f64, Refusal> {
    let row = all().iter().find(|row| row.task == task);
    row.map(|row| row.start_min).ok_or_else(|| Refusal::NoRow { table: "set-up minutes", wanted: task.into() })
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<super::SetUpMinutes>(super::MINUTES);
        assert_eq!(all, good, "{first}");
        assert_eq!(super::start("four-jaw chuck, dial").unwrap(), 10.0);
    }
}
