//! The leads of a tap.

use schemars::JsonSchema;
use serde::Deserialize;

/// The lead of a tap.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Lead {
    /// The longest.
    Taper,
    /// The usual one.
    Plug,
    /// The shortest.
    Bottoming,
}

impl Lead {
    /// As it is written.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Taper => "taper",
            Self::Plug => "plug",
            Self::Bottoming => "bottoming",
        }
    }

    /// Shortest first.
    pub const fn rank(self) -> u8 {
        match self {
            Self::Bottoming => 0,
            Self::Plug => 1,
            Self::Taper => 2,
        }
    }
}
