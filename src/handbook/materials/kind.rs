//! The kinds of material that rules speak of.

use serde::Deserialize;

/// The kinds of material that rules speak of.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Carbon and low-alloy steel.
    Steel,
    /// Stainless steel.
    Stainless,
    /// Flake-graphite iron.
    GreyIron,
    /// Spheroidal-graphite iron.
    DuctileIron,
    /// Aluminium alloy.
    Aluminium,
    /// Magnesium alloy.
    Magnesium,
    /// Bronze, brass, copper.
    CopperAlloy,
    /// Sintered bronze.
    Sintered,
    /// Titanium.
    Titanium,
    /// Hardened steel.
    HardSteel,
    /// Plastic.
    Plastic,
    /// Cork or friction lining.
    Lining,
}

impl Kind {
    /// As tables spell it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Steel => "steel",
            Self::Stainless => "stainless",
            Self::GreyIron => "grey-iron",
            Self::DuctileIron => "ductile-iron",
            Self::Aluminium => "aluminium",
            Self::Magnesium => "magnesium",
            Self::CopperAlloy => "copper-alloy",
            Self::Sintered => "sintered",
            Self::Titanium => "titanium",
            Self::HardSteel => "hard-steel",
            Self::Plastic => "plastic",
            Self::Lining => "lining",
        }
    }

    /// Whether it welds to its own kind where the two rub, whatever room they have: common practice.
    pub(super) const fn galls(self) -> bool {
        matches!(self, Self::Stainless | Self::Titanium | Self::Aluminium | Self::Magnesium)
    }

    /// Whether it may turn in another, oiled, and neither welds nor cuts the other up: one of the two is a metal that bearings are made of, or
    /// hard steel: common practice.
    pub(super) const fn runs_in(self, other: Self) -> bool {
        match (self, other) {
            (Self::Titanium | Self::Magnesium, _) | (_, Self::Titanium | Self::Magnesium) => false,
            (Self::CopperAlloy | Self::Sintered, Self::CopperAlloy | Self::Sintered) => false,
            (one, other) => one.bears() || other.bears(),
        }
    }

    /// Whether soft steel runs in it or on it.
    const fn bears(self) -> bool {
        matches!(
            self,
            Self::GreyIron
                | Self::DuctileIron
                | Self::CopperAlloy
                | Self::Sintered
                | Self::Plastic
                | Self::Lining
                | Self::HardSteel
        )
    }
}
