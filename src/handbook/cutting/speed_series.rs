//! How the speeds of a machine are stepped: geometric series, preferred numbers, pulleys, and what a step suits.

use crate::formula;
use crate::quantity::{MPerMin, Mm, Ratio, RevPerMin};

formula! {
    /// Ratio of a geometric series of speeds.
    series_ratio(n_1: RevPerMin = "the lowest speed" in 1.0..=60_000.0, n_z: RevPerMin = "the highest speed" in 1.0..=60_000.0,
        z: Ratio = "the number of speeds" in 2.0..=60.0)
        -> phi: Ratio { pow(n_z / n_1, 1.0 / (z - 1.0)) }
    source Read "worked answer on a geometric series of eleven speeds; DIN 804 by way of a copy"
}
formula! {
    /// A speed of a geometric series, so many steps above the lowest.
    series_speed(n_1: RevPerMin = "the lowest speed" in 1.0..=60_000.0, phi: Ratio = "the ratio of the series" in 1.0..=4.0,
        i: Ratio = "the step" in 0.0..=60.0)
        -> n: RevPerMin { n_1 * pow(phi, i) }
    source Read "worked answer on a geometric series of eleven speeds; DIN 804 by way of a copy"
}
formula! {
    /// A preferred number (theoretical value) of the series with so many steps to ten.
    preferred_number(i: Ratio = "the step" in 0.0..=200.0, R: Ratio = "the steps to ten" in 5.0..=80.0)
        -> a: Ratio { pow(10.0, i / R) }
    source Read "ISO 17 in a copy"
}
formula! {
    /// Speed that a pair of pulleys gives.
    pulley_speed(n: RevPerMin = "the speed of the driver" in 1.0..=60_000.0, d: Mm = "the driver" in 1.0..=2_000.0,
        D: Mm = "the driven" in 1.0..=2_000.0)
        -> n_2: RevPerMin { n * d / D }
    source Derived "the belt runs at one speed"
}
formula! {
    /// Diameter that a spindle step suits at a cutting speed.
    diameter_for_speed(v: MPerMin = "the cutting speed" in 0.01..=3_000.0, n: RevPerMin = "the spindle speed" in 0.5..=60_000.0)
        -> d: Mm { 1000.0 * v / (PI * n) }
    source Derived "circumference times turns"
}
