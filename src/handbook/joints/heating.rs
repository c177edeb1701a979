//! Warm housings and chilled bushes: how hot, how cold, and what a fit becomes at another temperature.
//!
//! Sizes are those at 20 °C; `alpha` is in millionths per kelvin.

use crate::formula;
use crate::handbook::constants::constant;
use crate::handbook::materials::groups::{Kind, Material};
use crate::proof::{Refusal, Worked};
use crate::quantity::{Celsius, Expansion, Mm, Ratio, Shift};

formula! {
    /// Room that a heated joint needs to drop together, on diameter.
    assembly_clearance(k: Ratio = "the share of the diameter" in 0.0..=0.01, d: Mm = "the joint diameter" in 0.5..=1_000.0,
        c_min: Mm = "the least room" in 0.0..=1.0)
        -> c: Mm { max(k * d, c_min) }
    source FromMemory "DIN 7190: a thousandth of the diameter; at least 0.01 mm (own)"
}
formula! {
    /// How far bush and housing must part before they drop together.
    gap_to_open(delta: Shift = "the greatest interference" in -1.0..=5.0, c: Mm = "the room to drop in" in 0.0..=2.0)
        -> x: Shift { max(0.0, delta + c) }
    source Derived "interference and the room to drop in"
}
formula! {
    /// How much smaller a chilled part is than at 20 °C.
    chilled_by(alpha: Expansion = "the thermal expansion" in 0.5..=200.0, d: Mm = "the diameter" in 0.5..=1_000.0,
        T: Celsius = "the temperature" in -200.0..=20.0)
        -> s: Mm { alpha * d * (20.0 - T) / 1000000.0 }
    source Derived "linear expansion"
}
formula! {
    /// Temperature of the housing at which the bush drops in.
    housing_temperature(delta: Shift = "the greatest interference" in -1.0..=5.0, c: Mm = "the room to drop in" in 0.0..=2.0,
        s: Mm = "what chilling the bush gives" in 0.0..=2.0, alpha: Expansion = "the thermal expansion of the housing" in 0.5..=200.0,
        d: Mm = "the joint diameter" in 0.5..=1_000.0)
        -> T_o: Celsius { 20.0 + max(0.0, delta + c - s) * 1000000.0 / (alpha * d) }
    source Derived "linear expansion from 20 degC"
}
formula! {
    /// Temperature to which a shaft or bush must be brought so that its diameter changes by so much.
    temperature_to_enter(T_1: Celsius = "the temperature it has" in -200.0..=500.0, x: Shift = "the change of diameter wanted" in -5.0..=5.0,
        alpha: Expansion = "the thermal expansion" in 0.5..=200.0, d: Mm = "the diameter" in 0.5..=5_000.0)
        -> T_2: Celsius { T_1 - x * 1000000.0 / (alpha * d) }
    source Derived "linear expansion"
}
formula! {
    /// Temperature change that changes a diameter by so much.
    rise_for_change(x: Mm = "the change of diameter" in 0.0..=5.0, alpha: Expansion = "the thermal expansion" in 0.5..=200.0,
        d: Mm = "the diameter" in 0.5..=5_000.0)
        -> dT: Celsius { x * 1000000.0 / (alpha * d) }
    source Derived "linear expansion"
}
formula! {
    /// Size at 20 °C of what was measured at another temperature.
    size_at_20(L: Mm = "the size as measured" in 0.01..=5_000.0, alpha: Expansion = "the thermal expansion" in 0.5..=200.0,
        T: Celsius = "the temperature it was measured at" in -50.0..=120.0)
        -> L_20: Mm { L * (1.0 - alpha * (T - 20.0) / 1000000.0) }
    source Read "National Physical Laboratory: correction of lengths to 20 degC"
}
formula! {
    /// Interference at another temperature, bush and housing alike.
    interference_at(delta: Shift = "the interference at 20 degC" in -5.0..=5.0, alpha_o: Expansion = "the thermal expansion of the housing" in 0.5..=200.0,
        alpha_i: Expansion = "the thermal expansion of the bush" in 0.5..=200.0, d: Mm = "the joint diameter" in 0.5..=1_000.0,
        T: Celsius = "the temperature of both" in -80.0..=400.0)
        -> delta_T: Shift { delta - (alpha_o - alpha_i) * d * (T - 20.0) / 1000000.0 }
    source Derived "difference of two expansions"
}
formula! {
    /// Bore that comes back when the joint presses less than at 20 °C; negative where it presses more.
    bore_regrown(r: Ratio = "close-in over interference" in 0.0..=2.0, delta: Shift = "the interference at 20 degC" in -5.0..=5.0,
        delta_T: Shift = "the interference when warm" in -5.0..=5.0)
        -> b: Shift { r * (max(delta, 0.0) - max(delta_T, 0.0)) }
    source Derived "the close-in goes with the interference, down to none"
}
formula! {
    /// Running clearance when warm; bush and shaft may have temperatures of their own, their diameter is the same to a
    /// thousandth.
    clearance_warm(c: Mm = "the clearance at 20 degC" in 0.0..=5.0, b: Shift = "the bore that comes back" in -1.0..=1.0,
        D: Mm = "the running diameter" in 0.1..=1_000.0, alpha_i: Expansion = "the thermal expansion of the bush" in 0.5..=200.0,
        T_i: Celsius = "the temperature of the bush" in -80.0..=400.0, alpha_s: Expansion = "the thermal expansion of the shaft" in 0.5..=200.0,
        T_s: Celsius = "the temperature of the shaft" in -80.0..=400.0)
        -> c_w: Shift { c + b + D * (alpha_i * (T_i - 20.0) - alpha_s * (T_s - 20.0)) / 1000000.0 }
    source Derived "free expansion of bush and shaft, and the bore that comes back"
}

/// The temperature that a part may be heated to: above the first doubtful, above the second it fails.
#[derive(Clone, Debug, PartialEq)]
pub struct StopTemperature {
    /// Above this it is doubtful, where there is such a step.
    pub doubtful: Option<Worked<Celsius>>,
    /// Above this it fails.
    pub fails: Worked<Celsius>,
}

/// The stop of a material. Aluminium rules stand for every metal without a row of its own: the careful side.
///
/// # Errors
/// [`Refusal::NoRow`] where the table of constants lacks it.
pub fn stop_temperature(material: &Material) -> Result<StopTemperature, Refusal> {
    let only = |name| Ok(StopTemperature { doubtful: None, fails: constant(name)? });
    match material.kind() {
        Kind::Magnesium => only("stop-temperature-magnesium-fails"),
        Kind::HardSteel => only("stop-temperature-bearings-and-case-hardened"),
        Kind::Steel | Kind::Stainless | Kind::GreyIron | Kind::DuctileIron => only("stop-temperature-iron-and-steel"),
        _ => Ok(StopTemperature {
            doubtful: Some(constant("stop-temperature-aluminium-doubtful")?),
            fails: constant("stop-temperature-aluminium-fails")?,
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;

    fn of<Q: Quantity>(number: f64) -> Worked<Q> {
        Worked::assumed(Q::new(number), "a test")
    }

    /// Source: worked question, a hole of 86.9 and a shaft of 87.0 at 27 °C: −69 °C.
    #[test]
    fn a_shaft_is_chilled_to_enter() {
        let t = temperature_to_enter(&of(27.0), &of(0.1), &of(12.0), &of(87.0)).unwrap();
        assert_eq!(format!("{:.0}", t.number()), "-69");
    }

    /// Source: Bhavikatti 8.8.17 prints 66.67 K with the wrong diameter (250); the joint is 400 mm: 41.67 K.
    #[test]
    fn the_joint_diameter_is_the_one_that_grows() {
        assert_eq!(format!("{:.2}", rise_for_change(&of(0.2), &of(12.0), &of(400.0)).unwrap().number()), "41.67");
    }

    /// Source: NPL, 500.035 mm at 23.7 °C is 500.013 mm at 20 °C.
    #[test]
    fn a_warm_reading_is_brought_to_20_degrees() {
        assert_eq!(format!("{:.3}", size_at_20(&of(500.035), &of(11.7), &of(23.7)).unwrap().number()), "500.013");
    }

    #[test]
    fn nothing_is_heated_below_20_degrees() {
        let t = housing_temperature(&of(0.01), &of(0.01), &of(0.05), &of(22.0), &of(20.0)).unwrap();
        assert_eq!(t.number(), 20.0);
    }

    #[test]
    fn every_metal_has_its_stop() {
        let stop = |name: &str| stop_temperature(&name.parse().unwrap()).unwrap();
        assert_eq!(stop("cast aluminium").fails.number(), 150.0);
        assert_eq!(stop("cast aluminium").doubtful.unwrap().number(), 120.0);
        assert_eq!(stop("magnesium castings").fails.number(), 120.0);
        assert_eq!(stop("mild steel").fails.number(), 200.0);
        assert_eq!(stop("case-hardened steel").fails.number(), 120.0);
    }
}
