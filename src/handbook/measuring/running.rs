//! Clearance of two parts that run warm.

use crate::formula;
use crate::quantity::{Celsius, Expansion, Mm, Shift};

formula! {
    /// Clearance between a bore and what runs in it, each at its own temperature; negative binds.
    clearance_running(B: Mm = "the bore at 20 °C" in 0.5..=1_000.0, alpha_b: Expansion = "the thermal expansion of the bore" in 0.5..=200.0,
        T_b: Celsius = "the temperature of the bore" in -60.0..=600.0,
        S: Mm = "what runs in it at 20 °C" in 0.5..=1_000.0, alpha_s: Expansion = "its thermal expansion" in 0.5..=200.0,
        T_s: Celsius = "its temperature" in -60.0..=600.0)
        -> c: Shift { B * (1.0 + alpha_b * (T_b - 20.0) / 1000000.0) - S * (1.0 + alpha_s * (T_s - 20.0) / 1000000.0) }
    source Derived "linear expansion of both from 20 °C"
}
