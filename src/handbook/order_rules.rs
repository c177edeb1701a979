//! Rules of order: what comes before what, and why.

use super::table::{rows, seen};
use crate::proof::{Mark, Verdict};
use serde::{Deserialize, Deserializer};
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
    /// The verdict between operations, where the rule is held there.
    #[serde(deserialize_with = "between_operations")]
    pub between: Option<Verdict>,
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

/// The rules that are held between the operations of a part.
pub fn between() -> impl Iterator<Item = (&'static OrderRule, Verdict)> {
    all().iter().filter_map(|rule| Some((rule, rule.between?)))
}

/// Reads the `between` column.
fn between_operations<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Verdict>, D::Error> {
    match String::deserialize(from)?.as_str() {
        "" => Ok(None),
        "doubtful" => Ok(Some(Verdict::Doubtful)),
        "fails" => Ok(Some(Verdict::Fails)),
        other => Err(serde::de::Error::custom(format!("`{other}` is no verdict of a rule"))),
    }
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
        assert!(between().any(|(rule, _)| rule.before == "face" && rule.after == "thread-insert"));
        assert!(!between().any(|(rule, _)| rule.before == "thread-insert" && rule.after == "face"));
    }
}
