//! Turning tapers: the angle, the tailstock set over, the top slide set over.

use crate::formula;
use crate::quantity::{Angle, Mm, PerSide, Ratio};

formula! {
    /// Half the included angle of a taper: what the top slide is set to.
    taper_half_angle(D: Mm = "the large end" in 0.0..=2_000.0, d: Mm = "the small end" in 0.0..=2_000.0,
        l: Mm = "the length of the taper" in 0.1..=5_000.0)
        -> alpha: Angle { atan((D - d) / (2.0 * l)) }
    source Derived "right triangle of half the difference and the length"
}
formula! {
    /// How much a taper of an included angle gains in diameter for each unit of length.
    taper_on_diameter(included: Angle = "the included angle" in 0.0..=170.0)
        -> C: Ratio { 2.0 * tan(included / 2.0) }
    source Derived "right triangle, both sides"
}
formula! {
    /// How far the tailstock is set over; only for slender tapers between centres.
    tailstock_set_over(D: Mm = "the large end" in 0.0..=2_000.0, d: Mm = "the small end" in 0.0..=2_000.0,
        l: Mm = "the length of the taper" in 0.1..=5_000.0, L: Mm = "the length of the work" in 0.1..=5_000.0)
        -> s: Mm { (D - d) / 2.0 * L / l }
    source Read "Jones, Turning and Boring"
}
formula! {
    /// What a travel of the top slide, set over, takes off on the radius.
    top_slide_infeed(t: Mm = "the travel of the top slide" in 0.0..=500.0, alpha: Angle = "the set-over" in 0.0..=90.0)
        -> a: PerSide { t * sin(alpha) }
    source Derived "right triangle"
}
