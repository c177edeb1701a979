//! The units that figures are held, worked and printed in.

use std::fmt;

/// A unit. Every figure that leaves the program carries one.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Unit {
    /// A pure number: a count, a ratio, a factor.
    One,
    /// Millimetre.
    Mm,
    /// Micrometre (roughness only).
    Um,
    /// Square millimetre.
    Mm2,
    /// Millimetre to the fourth power (second moment of area).
    Mm4,
    /// Degree of angle.
    Deg,
    /// Degree Celsius.
    DegC,
    /// Millionth per kelvin (thermal expansion).
    PerMillionK,
    /// Newton.
    N,
    /// Newton metre.
    Nm,
    /// Newton per millimetre (spring rate).
    NPerMm,
    /// Megapascal, the same as N/mm².
    MPa,
    /// Kilowatt.
    KW,
    /// Kilogram.
    Kg,
    /// Minute of time.
    Min,
    /// Metre per minute.
    MPerMin,
    /// Millimetre per minute.
    MmPerMin,
    /// Millimetre per revolution.
    MmPerRev,
    /// Revolution per minute.
    RevPerMin,
    /// Cubic centimetre per minute (metal removed).
    Cm3PerMin,
    /// Thread per inch.
    Tpi,
    /// Metre per second (a rim speed).
    MPerS,
    /// Cubic centimetre.
    Cm3,
}

impl Unit {
    /// The unit as it is printed and as the JSON spells it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::One => "1",
            Self::Mm => "mm",
            Self::Um => "um",
            Self::Mm2 => "mm2",
            Self::Mm4 => "mm4",
            Self::Deg => "deg",
            Self::DegC => "degC",
            Self::PerMillionK => "1e-6/K",
            Self::N => "N",
            Self::Nm => "N·m",
            Self::NPerMm => "N/mm",
            Self::MPa => "MPa",
            Self::KW => "kW",
            Self::Kg => "kg",
            Self::Min => "min",
            Self::MPerMin => "m/min",
            Self::MmPerMin => "mm/min",
            Self::MmPerRev => "mm/rev",
            Self::RevPerMin => "rev/min",
            Self::Cm3PerMin => "cm3/min",
            Self::Tpi => "tpi",
            Self::MPerS => "m/s",
            Self::Cm3 => "cm3",
        }
    }

    /// How many decimals a sheet shows: what the trade reads in that unit.
    pub(crate) const fn decimals(self) -> usize {
        match self {
            Self::Mm => 3,
            Self::Um | Self::Mm2 | Self::Nm | Self::Kg | Self::MmPerRev | Self::MPerMin | Self::MPerS | Self::Cm3 => 2,
            Self::KW => 3,
            Self::Min | Self::MmPerMin | Self::MPa | Self::PerMillionK | Self::NPerMm | Self::Cm3PerMin => 1,
            Self::Deg | Self::Tpi => 1,
            Self::N | Self::Mm4 | Self::RevPerMin | Self::DegC => 0,
            Self::One => 2,
        }
    }

    /// Whether figures of this unit are only ever estimates: what they rest on is known to a few parts in a hundred at best.
    pub(crate) const fn is_of_estimates(self) -> bool {
        matches!(self, Self::N | Self::Nm | Self::KW)
    }

    /// Most digits of a figure that nobody typed: a fourth digit of an estimate says nothing.
    pub(crate) const fn most_digits(self) -> Option<usize> {
        if self.is_of_estimates() { Some(DIGITS_OF_ESTIMATES) } else { None }
    }
}

/// Digits of an estimate that count.
pub(crate) const DIGITS_OF_ESTIMATES: usize = 3;

impl serde::Serialize for Unit {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.text())
    }
}

impl schemars::JsonSchema for Unit {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Unit".into()
    }

    fn json_schema(generator: &mut schemars::SchemaGenerator) -> schemars::Schema {
        String::json_schema(generator)
    }
}

impl fmt::Display for Unit {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.text())
    }
}
