//! What a reading may be off before it decides wrongly: a quarter of the window between two limits.

use crate::formula;
use crate::quantity::{Celsius, Expansion, Mm, Ratio};

formula! {
    /// A quarter of the window between two limits: what the doubt of an instrument may be.
    quarter(l: Mm = "the lower limit" in 0.0..=5_000.0, h: Mm = "the upper limit" in 0.0..=5_000.0)
        -> q: Mm { (h - l) / 4.0 }
    source CommonPractice "an instrument four times as fine as what is decided by it"
}
formula! {
    /// Half of the window: a doubt of so much leaves nothing that is sure to lie inside both limits.
    twice(q: Mm = "a quarter of the window" in 0.0..=5_000.0)
        -> h: Mm { 2.0 * q }
    source Derived "limits narrowed by the doubt at both ends meet in the middle"
}
formula! {
    /// How far the temperature of a part puts a size off that is meant at 20 °C, either way.
    off_by_warmth(d: Mm = "the size" in 0.01..=5_000.0, alpha: Expansion = "the thermal expansion" in 0.5..=200.0,
        T: Celsius = "the temperature of the part" in -40.0..=200.0)
        -> e: Mm { max(alpha * d * (T - 20.0), alpha * d * (20.0 - T)) / 1000000.0 }
    source Derived "linear expansion, of the part alone: the careful side where the gauge is as warm"
}
formula! {
    /// What a figure may be off in all: what the warmth of the part puts it off, and what the instrument may be off.
    off_in_all(e: Mm = "what warmth puts it off" in 0.0..=5_000.0, U: Mm = "the doubt of the instrument" in 0.0..=5_000.0,
        g: Ratio = "the guard on the standard uncertainty" in 0.5..=10.0)
        -> t: Mm { e + U * g / 2.0 }
    source Derived "warmth puts every reading off the same way, so it is added and not put under the root"
}
