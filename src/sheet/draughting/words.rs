//! The words that draughting itself prints.

/// Beside the arrow of feed.
pub(super) const FEED: &str = "feed";
/// Under a figure whose size is not drawn to scale.
pub(super) const NOT_TO_SCALE: &str = "NOT TO SCALE";
/// Before the scale.
pub(super) const SCALE: &str = "Scale";

/// The note of what is stretched one way.
pub(super) fn stretched(which: &str, times: u16) -> String {
    format!("{which} drawn {times} × larger than this scale: {NOT_TO_SCALE}")
}

/// The note of something drawn larger than it is.
pub(super) fn exaggerated(what: &str, factor: f64) -> String {
    format!("{what} drawn {factor} × its size: {NOT_TO_SCALE}")
}
