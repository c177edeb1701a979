//! The kinds of quantity: one entry each, with every spelling and its exact ratio.

use super::{Quantity, Spelling, Unit};

macro_rules! quantities {
    ($($(#[$doc:meta])* $Q:ident: $what:literal in $unit:ident from $least:literal after $before:literal
        written $($s:literal = $up:literal / $down:literal $(less $zero:literal)?),*;)+) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $Q(f64);

        impl Quantity for $Q {
            const WHAT: &'static str = $what;
            const UNIT: Unit = Unit::$unit;
            const SPELLINGS: &'static [Spelling] =
                &[$(Spelling { text: $s, up: $up, down: $down, zero: 0 $(+ $zero)? }),*];
            const LEAST: f64 = $least;
            const BEFORE: &'static str = $before;
            fn new(number: f64) -> Self {
                Self(number)
            }
            fn number(self) -> f64 {
                self.0
            }
        }

        impl<'de> serde::Deserialize<'de> for $Q {
            fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                super::wanted::nominal(from)
            }
        }

        impl schemars::JsonSchema for $Q {
            fn schema_name() -> std::borrow::Cow<'static, str> {
                stringify!($Q).into()
            }
            fn json_schema(_: &mut schemars::SchemaGenerator) -> schemars::Schema {
                super::wanted::nominal_schema(Self::KIND)
            }
        }
    )+};
}

quantities! {
    /// A length or a size, mm.
    Mm: "a length" in Mm from 0.0 after "" written
        "mm" = 1/1, "cm" = 10/1, "m" = 1_000/1, "um" = 1/1_000, "µm" = 1/1_000, "μm" = 1/1_000,
        "in" = 254/10, "inch" = 254/10, "inches" = 254/10, "\"" = 254/10, "″" = 254/10, "thou" = 254/10_000,
        "tho" = 254/10_000;
    /// A length that may have either sign (a change, a travel, a preload), mm.
    Shift: "a signed length" in Mm from -1e9 after "" written
        "mm" = 1/1, "um" = 1/1_000, "µm" = 1/1_000, "μm" = 1/1_000, "in" = 254/10, "thou" = 254/10_000;
    /// Surface roughness as the arithmetic mean deviation Ra, µm.
    Roughness: "a roughness" in Um from 0.0 after "Ra" written
        "um" = 1/1, "µm" = 1/1, "μm" = 1/1, "uin" = 254/10_000, "µin" = 254/10_000, "μin" = 254/10_000;
    /// An angle, degrees.
    Angle: "an angle" in Deg from 0.0 after "" written "deg" = 1/1, "°" = 1/1;
    /// A temperature, °C.
    Celsius: "a temperature" in DegC from -273.15 after "" written
        "degC" = 1/1, "°C" = 1/1, "degF" = 5/9 less 32, "°F" = 5/9 less 32;
    /// How far two temperatures are apart, °C.
    Warmth: "a difference of temperature" in DegC from 0.0 after "" written
        "degC" = 1/1, "°C" = 1/1, "degF" = 5/9, "°F" = 5/9;
    /// A force, N.
    Newton: "a force" in N from 0.0 after "" written
        "N" = 1/1, "kN" = 1_000/1, "lbf" = 44_482_216_152_605/10_000_000_000_000;
    /// A force with a sign (gained or lost), N.
    ForceShift: "a change of force" in N from -1e12 after "" written "N" = 1/1, "kN" = 1_000/1;
    /// A torque, N·m.
    NewtonMetre: "a torque" in Nm from 0.0 after "" written
        "N·m" = 1/1, "Nm" = 1/1, "N.m" = 1/1,
        "lbf·ft" = 13_558_179_483_314_004/10_000_000_000_000_000,
        "lbf.ft" = 13_558_179_483_314_004/10_000_000_000_000_000,
        "lbf ft" = 13_558_179_483_314_004/10_000_000_000_000_000,
        "lbf·in" = 1_129_848_290_276_167/10_000_000_000_000_000,
        "lbf.in" = 1_129_848_290_276_167/10_000_000_000_000_000,
        "lbf in" = 1_129_848_290_276_167/10_000_000_000_000_000;
    /// A spring rate, N/mm.
    SpringRate: "a spring rate" in NPerMm from 0.0 after "" written
        "N/mm" = 1/1, "lbf/in" = 1_751_268_352_464_764/10_000_000_000_000_000;
    /// A stress, a pressure or a modulus, MPa.
    Stress: "a stress" in MPa from -1e9 after "" written
        "MPa" = 1/1, "N/mm2" = 1/1, "N/mm²" = 1/1, "GPa" = 1_000/1,
        "psi" = 6_894_757_293_168_361/1_000_000_000_000_000_000;
    /// A power, kW.
    KiloWatt: "a power" in KW from 0.0 after "" written "kW" = 1/1, "W" = 1/1_000, "hp" = 7_457/10_000;
    /// A mass, kg.
    Kilogram: "a mass" in Kg from 0.0 after "" written
        "kg" = 1/1, "g" = 1/1_000, "lb" = 45_359_237/100_000_000;
    /// A time, min.
    Minutes: "a time" in Min from 0.0 after "" written "min" = 1/1, "h" = 60/1, "s" = 1/60;
    /// A cutting speed, m/min.
    MPerMin: "a cutting speed" in MPerMin from 0.0 after "" written "m/min" = 1/1, "ft/min" = 3_048/10_000;
    /// A feed a minute, mm/min.
    MmPerMin: "a feed a minute" in MmPerMin from 0.0 after "" written "mm/min" = 1/1, "in/min" = 254/10;
    /// A rim speed, m/s.
    MPerS: "a rim speed" in MPerS from 0.0 after "" written "m/s" = 1/1;
    /// A volume, cm³.
    Volume: "a volume" in Cm3 from 0.0 after "" written
        "cm3" = 1/1, "cm³" = 1/1, "cc" = 1/1, "mm3" = 1/1_000, "ml" = 1/1, "in3" = 16_387_064/1_000_000;
    /// A feed, mm/rev.
    MmPerRev: "a feed" in MmPerRev from 0.0 after "" written
        "mm/rev" = 1/1, "in/rev" = 254/10, "thou/rev" = 254/10_000;
    /// A spindle speed, rev/min.
    RevPerMin: "a spindle speed" in RevPerMin from 0.0 after "" written "rev/min" = 1/1, "rpm" = 1/1;
    /// A coefficient of thermal expansion, 10⁻⁶/K.
    Expansion: "a thermal expansion" in PerMillionK from 0.0 after "" written "1e-6/K" = 1/1, "um/m/K" = 1/1;
    /// An area, mm².
    Mm2: "an area" in Mm2 from 0.0 after "" written "mm2" = 1/1, "mm²" = 1/1;
    /// A second moment of area, mm⁴.
    Mm4: "a second moment of area" in Mm4 from 0.0 after "" written "mm4" = 1/1;
    /// Metal removed in a minute, cm³/min.
    Removal: "a removal rate" in Cm3PerMin from 0.0 after "" written "cm3/min" = 1/1;
    /// Threads in an inch.
    Tpi: "threads per inch" in Tpi from 0.0 after "" written "tpi" = 1/1;
    /// A pure number: a ratio, a factor, a count.
    Ratio: "a pure number" in One from -1e15 after "" written ;
}
