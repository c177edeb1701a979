//! Rules of order: what comes before what, and why.

use super::table::{rows, seen};
use crate::proof::Mark;
use serde::Deserialize;
use std::sync::LazyLock;

/// A rule of order.
#[derive(Debug, Deserialize)]
pub struct OrderRule {
    /// Its name.
    pub rule: String,
    /// What comes first: a kind of step, or an operation.
    pub before: String,
    /// What comes after it.
    pub after: String,
    /// step, feature, part, casting or job.
    pub scope: String,
    /// Why.
    pub reason: String,
    /// Source keys.
    pub source: String,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

const RULES: &str = include_str!("../../shared/order.csv");

/// Every rule of order.
pub fn all() -> &'static [OrderRule] {
    static ROWS: LazyLock<Vec<OrderRule>> = LazyLock::new(|| rows(RULES));
    &ROWS
}

/// The rules that put one operation before another on the same part.
pub fn between(before: &str, after: &str) -> impl Iterator<Item = &'static OrderRule> {
    all().iter().filter(move |rule| {
        rule.before == before && rule.after == after && matches!(rule.scope.as_str(), "part" | "feature" | "casting")
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<OrderRule>(RULES);
        assert_eq!(all, good, "{first}");
    }

    #[test]
    fn a_face_comes_before_the_insert_whose_coil_it_would_cut() {
        assert!(between("face", "thread-insert").next().is_some());
        assert!(between("thread-insert", "face").next().is_none());
    }
}
