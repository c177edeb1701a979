//! Words of the pictures that compare.

use crate::quantity::Print;

/// The far side of a wall.
pub(in crate::sheet) const FAR_SIDE: &str = "breaks through";
/// The far side, where holes go through.
pub(in crate::sheet) const FAR_FACE: &str = "far face";
/// The least that must be left.
pub(in crate::sheet) fn least_left(figure: &str) -> String {
    format!("least left {figure}")
}
/// Before how many of each length are there.
pub(in crate::sheet) const IN_DRAWER: &str = "(in drawer)";
/// Before what a length leaves.
pub(in crate::sheet) const LEFT_AT_WORST: &str = "left at worst";
/// Before what a wall is longer than a length asks.
pub(in crate::sheet) const SPARE_AT_WORST: &str = "to spare at worst";
/// Before why a length will not do though its depth would.
pub(in crate::sheet) const BECAUSE: &str = "because";

/// The least of something.
pub(in crate::sheet) fn least(figure: &str) -> String {
    format!("least {figure}")
}

/// The greatest of something.
pub(in crate::sheet) fn greatest(figure: &str) -> String {
    format!("greatest {figure}")
}

/// Both ends of a bar, written beside it.
pub(in crate::sheet) fn both_ends(low: &str, high: &str) -> String {
    format!("{low} to {high}")
}

/// The scale of bars, mm of paper for each micrometre.
pub(in crate::sheet) fn a_micrometre(mm: f64) -> String {
    format!("{} mm a µm", crate::quantity::figure(mm))
}

/// The unit of the sizes beside bars.
pub(in crate::sheet) const fn unit_of_sizes(print: Print) -> &'static str {
    if matches!(print, Print::Imperial) { "in" } else { "mm" }
}

/// Heading of lengths side by side.
pub(in crate::sheet) const LENGTHS: &str = "Lengths in this wall";
/// Heading of sizes that fit into each other.
pub(in crate::sheet) const FITS: &str = "How the sizes fit";
