//! Leads of taps: how many threads are chamfered, by each standard and trade name.

use crate::formula;
use crate::handbook::table::{cited, rows, seen};
use crate::proof::{Mark, Source};
use crate::quantity::{Mm, Ratio};
use serde::Deserialize;
use std::sync::LazyLock;

/// A lead form as it was printed.
#[derive(Debug, Deserialize)]
pub struct LeadForm {
    /// The standard or trade that names it.
    pub standard: String,
    /// Its letter or name.
    pub lead: String,
    /// Chamfered threads, least.
    pub threads_low: f64,
    /// Chamfered threads, most.
    pub threads_high: f64,
    /// What it is for.
    #[serde(rename = "use")]
    pub purpose: String,
    source: String,
    #[serde(deserialize_with = "seen")]
    seen: Mark,
    /// A remark.
    pub note: String,
}

const LEADS: &str = include_str!("../../../shared/tap-leads.csv");

/// Every lead form of the book.
pub fn all() -> &'static [LeadForm] {
    static ROWS: LazyLock<Vec<LeadForm>> = LazyLock::new(|| rows(LEADS));
    &ROWS
}

impl LeadForm {
    /// Where it comes from.
    pub fn source(&self) -> Source {
        cited(&self.source, self.seen)
    }
}

formula! {
    /// Length of a tap's lead.
    lead_length(k: Ratio = "the chamfered threads" in 0.5..=12.0, P: Mm = "the pitch" in 0.05..=12.0)
        -> l: Mm { k * P }
    source Derived "one pitch a thread"
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<super::LeadForm>(super::LEADS);
        assert_eq!(all, good, "{first}");
    }
}
