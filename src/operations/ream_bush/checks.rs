//! The checks of a bush: all of these stand in every answer.

use crate::proof::CheckRule;

pub(super) const CHECKS: &[CheckRule] = &[
    CheckRule::must("interference", &[]),
    CheckRule::must("bush-yield", &[]),
    CheckRule::may("bush-plastic", &[]),
    CheckRule::must("housing-stress", &[]),
    CheckRule::must("housing-iron", &[]),
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
    CheckRule::must("oil-hole-order", &[]),
    CheckRule::must("groove", &[]),
    CheckRule::must("in-line", &[]),
    CheckRule::must("grip-when-warm", &["running.housing"]),
    CheckRule::must("clearance-when-warm", &["running.housing"]),
    CheckRule::must("stress-when-warm", &["running.housing"]),
    CheckRule::may("must-not-be-reamed", &[]),
    CheckRule::may("can-be-measured", &[]),
    CheckRule::may("drill-in-shop", &[]),
];
