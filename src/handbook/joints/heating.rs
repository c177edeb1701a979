//! Warm housings and chilled bushes: how hot, how cold, and what a fit becomes at another temperature.
//!
//! Sizes are those at 20 °C; `alpha` is in millionths per kelvin.

use crate::formula;
use crate::handbook::constants::constant;
use crate::handbook::materials::groups::{Kind, Material};
use crate::proof::{Refusal, Worked};
use crate::quantity::{Celsius, Expansion, Mm, Ratio, Shift};

/// The temperature at which sizes hold (ISO 1), °C: the 20 of the formulas.
pub const REFERENCE: f64 = 20.0;

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
    /// What warmth adds to an interference: bush and housing may have temperatures of their own. Negative loosens.
    tightened_by(d: Mm = "the joint diameter" in 0.5..=1_000.0, alpha_i: Expansion = "the thermal expansion of the bush" in 0.5..=200.0,
        T_i: Celsius = "the temperature of the bush" in -80.0..=400.0, alpha_o: Expansion = "the thermal expansion of the housing" in 0.5..=200.0,
        T_o: Celsius = "the temperature of the housing" in -80.0..=400.0)
        -> g: Shift { d * (alpha_i * (T_i - 20.0) - alpha_o * (T_o - 20.0)) / 1000000.0 }
    source Derived "difference of two expansions"
}
formula! {
    /// Interference once warmth has added its part.
    interference_warm(delta: Shift = "the interference at 20 degC" in -5.0..=5.0, g: Shift = "what warmth adds" in -5.0..=5.0)
        -> delta_T: Shift { delta + g }
    source Derived "interference and what warmth adds"
}
formula! {
    /// Temperature to set, or that the metal may reach: what is needed, and so many times the doubt of the oven.
    oven_at(T_need: Celsius = "the temperature needed" in -80.0..=2_000.0, n: Ratio = "how many times the doubt" in 0.0..=3.0,
        U: Celsius = "the doubt of the oven" in 0.0..=100.0)
        -> T: Celsius { T_need + n * U }
    source Derived "the coldest that the setting gives is what is needed, the hottest lies twice the doubt above"
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
    clearance_warm(c: Shift = "the clearance at 20 degC" in -5.0..=5.0, b: Shift = "the bore that comes back" in -1.0..=1.0,
        D: Mm = "the running diameter" in 0.1..=1_000.0, alpha_i: Expansion = "the thermal expansion of the bush" in 0.5..=200.0,
        T_i: Celsius = "the temperature of the bush" in -80.0..=400.0, alpha_s: Expansion = "the thermal expansion of the shaft" in 0.5..=200.0,
        T_s: Celsius = "the temperature of the shaft" in -80.0..=400.0)
        -> c_w: Shift { c + b + D * (alpha_i * (T_i - 20.0) - alpha_s * (T_s - 20.0)) / 1000000.0 }
    source Derived "free expansion of bush and shaft, and the bore that comes back"
}

formula! {
    /// What is left of warmth or cold when a part has been carried to the press.
    carried(T: Celsius = "the temperature as it leaves" in -200.0..=500.0, k: Ratio = "the share that is lost" in 0.0..=0.9)
        -> T_c: Celsius { 20.0 + (T - 20.0) * (1.0 - k) }
    source Own "a share of what it is over or under 20 degC is lost on the way"
}
formula! {
    /// Temperature that a part must leave with, so that this is left of it at the press.
    before_carrying(T_c: Celsius = "the temperature wanted at the press" in -200.0..=2_000.0, k: Ratio = "the share that is lost" in 0.0..=0.9)
        -> T: Celsius { 20.0 + (T_c - 20.0) / (1.0 - k) }
    source Derived "what is left when it has been carried, turned round"
}

/// The temperature that a part may be heated to: up to the first proven, over the second it fails.
#[derive(Clone, Debug, PartialEq)]
pub struct StopTemperature {
    /// Above this it is doubtful.
    pub doubtful: Worked<Celsius>,
    /// Above this it fails.
    pub fails: Worked<Celsius>,
}

/// The stop of a housing, with or without seals and rolling bearings left in it. Bronze, brass, copper
/// and titanium go by the rule of aluminium, the careful side; what is glued or full of oil by that of plastic, the lowest of all.
///
/// # Errors
/// [`Refusal::NoRow`] where the table of constants lacks it.
pub(crate) fn stop_temperature(material: &Material, seals: bool) -> Result<StopTemperature, Refusal> {
    let both = |doubtful, fails| Ok(StopTemperature { doubtful: constant(doubtful)?, fails: constant(fails)? });
    let one = |name| both(name, name);
    let stop = match material.kind() {
        Kind::Magnesium => one("stop-temperature-magnesium-fails"),
        Kind::HardSteel => one("stop-temperature-seals-bearings-and-case-hardened"),
        Kind::Steel | Kind::Stainless | Kind::GreyIron | Kind::DuctileIron => {
            both("stop-temperature-iron-and-steel-doubtful", "stop-temperature-iron-and-steel-fails")
        }
        Kind::Plastic | Kind::Lining | Kind::Sintered => {
            both("stop-temperature-plastic-doubtful", "stop-temperature-plastic-fails")
        }
        Kind::Aluminium | Kind::CopperAlloy | Kind::Titanium => {
            both("stop-temperature-aluminium-doubtful", "stop-temperature-aluminium-fails")
        }
    }?;
    if !seals {
        return Ok(stop);
    }
    let within = one("stop-temperature-seals-bearings-and-case-hardened")?;
    Ok(if within.fails.number() < stop.fails.number() { within } else { stop })
}

/// The stop of two metals that lie in the oven together: the lower of both.
///
/// # Errors
/// As [`stop_temperature`].
pub(crate) fn stop_of_both(stop: StopTemperature, other: &Material) -> Result<StopTemperature, Refusal> {
    let own = stop_temperature(other, false)?;
    Ok(if own.fails.number() < stop.fails.number() { own } else { stop })
}

/// The stop of what drops into a warm housing and becomes as warm: that of the housing, or of the bush, where that is of a plastic, a
/// lining or full of oil.
///
/// # Errors
/// As [`stop_temperature`].
pub(crate) fn stop_with(stop: StopTemperature, bush: &Material) -> Result<StopTemperature, Refusal> {
    if !matches!(bush.kind(), Kind::Plastic | Kind::Lining | Kind::Sintered) {
        return Ok(stop);
    }
    stop_of_both(stop, bush)
}

/// The warmest at which the strengths of a light metal or a plastic stand for something; nothing for a metal that keeps its
/// strength at any temperature at which a bush lives.
///
/// # Errors
/// [`Refusal::NoRow`] where the table of constants lacks it.
pub(crate) fn strength_known_to(material: &Material) -> Result<Option<Worked<Celsius>>, Refusal> {
    match material.kind() {
        Kind::Aluminium | Kind::Magnesium => Ok(Some(stop_temperature(material, false)?.doubtful)),
        Kind::Plastic => Ok(Some(constant("warm-strength-plastic-most")?)),
        _ => Ok(None),
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

    /// Source: Bhavikatti 8.8.17 prints 66.67 K with the wrong diameter (250); the joint is 400 mm: 41.67 K over 20 °C.
    #[test]
    fn the_joint_diameter_is_the_one_that_grows() {
        let hot = housing_temperature(&of(0.2), &of(0.0), &of(0.0), &of(12.0), &of(400.0)).unwrap();
        assert_eq!(format!("{:.2}", hot.number() - REFERENCE), "41.67");
    }

    #[test]
    fn nothing_is_heated_below_20_degrees() {
        let t = housing_temperature(&of(0.01), &of(0.01), &of(0.05), &of(22.0), &of(20.0)).unwrap();
        assert_eq!(t.number(), 20.0);
    }

    #[test]
    fn every_metal_has_its_stop() {
        let stop = |name: &str, seals| {
            let stop = stop_temperature(&name.parse().unwrap(), seals).unwrap();
            (stop.doubtful.number(), stop.fails.number())
        };
        assert_eq!(stop("cast aluminium", false), (150.0, 180.0));
        assert_eq!(stop("cast aluminium", true), (120.0, 120.0));
        assert_eq!(stop("magnesium castings", false), (120.0, 120.0));
        assert_eq!(stop("mild steel", false), (180.0, 200.0));
        assert_eq!(stop("case-hardened steel", false), (120.0, 120.0));
        for soft in ["acetal", "nylon", "PTFE", "sintered bronze"] {
            assert_eq!(stop(soft, false), (80.0, 120.0), "{soft}");
            assert!(stop(soft, true).1 <= 120.0, "{soft}");
        }
    }
}
