//! The checks of a bush: all of these stand in every answer.

use crate::proof::CheckRule;

pub(super) const CHECKS: &[CheckRule] = &[
    CheckRule::must("interference", &[]),
    CheckRule::must("bush-yield", &["bush.material"]),
    CheckRule::may("bush-plastic", &["bush.material"]),
    CheckRule::must("housing-stress", &["housing.material"]),
    CheckRule::must("housing-iron", &["housing.material"]),
    CheckRule::must("press-force", &[]),
    CheckRule::must("oven-stop", &[]),
    CheckRule::must("oven-reaches", &[]),
    CheckRule::must("cold-enough", &[]),
    CheckRule::must("window", &[]),
    CheckRule::must("fit-runs", &["clearance"]),
    CheckRule::must("clearance-given", &["clearance"]),
    CheckRule::must("stock-least", &[]),
    CheckRule::must("stock-most", &[]),
    CheckRule::must("reamer-closes", &[]),
    CheckRule::must("reamer-opens", &[]),
    CheckRule::must("reamer-not-under", &[]),
    CheckRule::must("reamer-not-over", &[]),
    CheckRule::must("reamer-by", &[]),
    CheckRule::must("reamer-too-fast", &[]),
    CheckRule::must("oil-hole-order", &[]),
    CheckRule::must("groove", &[]),
    CheckRule::must("in-line", &[]),
    CheckRule::must("grip-when-warm", &["running.housing"]),
    CheckRule::must("clearance-when-warm", &["running.housing"]),
    CheckRule::must("stress-when-warm", &["running.housing"]),
    CheckRule::may("must-not-be-reamed", &[]),
    CheckRule::may("can-be-measured", &[]),
    CheckRule::may("drill-in-shop", &[]),
    CheckRule::may("drill-too-fast", &[]),
];

/// What is asked of the reamer and of the stock that it finds.
pub(super) const OF_THE_REAMER: &[&str] = &[
    "stock-least",
    "stock-most",
    "reamer-closes",
    "reamer-opens",
    "reamer-not-under",
    "reamer-not-over",
    "reamer-by",
    "reamer-too-fast",
];

/// What is asked of an expanding reamer alone.
pub(super) const OF_EXPANDING: &[&str] = &["reamer-closes", "reamer-opens"];

/// What is asked of a fixed reamer alone.
pub(super) const OF_FIXED: &[&str] = &["reamer-not-under", "reamer-not-over"];
