//! Sizes are meant at 20 °C: what a size is that was read at another temperature.

use crate::formula;
use crate::quantity::{Celsius, Expansion, Mm};

/// The temperature that sizes are meant at, °C (ISO 1).
pub const USUAL: f64 = 20.0;

formula! {
    /// The size at 20 °C of a part that was read warm with a gauge that was warm too.
    at_20(L: Mm = "the size as read" in 0.0..=5_000.0,
        alpha_g: Expansion = "the thermal expansion of the gauge" in 0.0..=50.0,
        T_g: Celsius = "the temperature of the gauge" in -60.0..=400.0,
        alpha_p: Expansion = "the thermal expansion of the part" in 0.5..=200.0,
        T_p: Celsius = "the temperature of the part" in -60.0..=400.0)
        -> L_20: Mm { L * (1.0 + (alpha_g * (T_g - 20.0) - alpha_p * (T_p - 20.0)) / 1000000.0) }
    source Derived "linear expansion of both from the reference temperature of ISO 1"
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Worked;
    use crate::quantity::Quantity;
    use approx::assert_abs_diff_eq;

    fn of<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "a test")
    }

    /// A length of 500.035 mm read at 23.7 °C, steel of 11.7: 500.013 mm at 20 °C (NPL, npl.co.uk: how do I correct lengths; read).
    #[test]
    fn a_bar_read_warm() {
        let steel = of(11.7);
        let cold = at_20(&of(500.035), &steel, &of(20.0), &steel, &of(23.7)).unwrap();
        assert_abs_diff_eq!(cold.number(), 500.013, epsilon = 0.0005);
        let both = at_20(&of(500.035), &steel, &of(23.7), &steel, &of(23.7)).unwrap();
        assert_abs_diff_eq!(both.number(), 500.035, epsilon = 1e-9);
    }
}
