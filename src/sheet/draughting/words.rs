//! The words that draughting itself prints.

/// Before the scale.
pub(super) const SCALE: &str = "Scale";
/// Before the least of two limits.
pub(super) const LEAST: &str = "min";
