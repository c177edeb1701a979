//! Chips of a milling cutter that is not buried to its middle: they are thinner than the feed.

use crate::formula;
use crate::quantity::{Mm, Ratio};

formula! {
    /// Feed a tooth for a mean chip thickness, width of cut under half the cutter.
    feed_for_mean_chip(h_m: Mm = "the mean chip thickness" in 0.005..=1.0,
        x: Ratio = "the width of cut over the cutter" in 0.005..=0.5)
        -> f_z: Mm { h_m / sqrt(x) }
    source Read "Stellram indexable milling catalogue"
}
formula! {
    /// How much the feed may be raised for a narrow width of cut, so that the greatest chip stays the same.
    radial_chip_thinning(x: Ratio = "the width of cut over the cutter" in 0.005..=0.5)
        -> k: Ratio { 1.0 / (2.0 * sqrt(x * (1.0 - x))) }
    source Read "Dormer Pramet catalogue, milling p. 114"
}
