//! The words that draughting itself prints.

/// Before the scale.
pub(super) const SCALE: &str = "Scale";
