//! The words that draughting itself prints.

/// Beside the arrow of feed.
pub(super) const FEED: &str = "feed";
/// Before the scale.
pub(super) const SCALE: &str = "Scale";
