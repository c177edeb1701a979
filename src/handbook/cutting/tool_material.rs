//! What a tool cuts with.

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer};
use std::borrow::Cow;

/// What a tool cuts with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum ToolMaterial {
    /// Carbon tool steel.
    CarbonSteel,
    /// High-speed steel.
    Hss,
    /// Cobalt high-speed steel.
    HssCo,
    /// Carbide.
    Carbide,
    /// Coated carbide.
    CarbideCoated,
    /// Cubic boron nitride.
    Cbn,
    /// Ceramic.
    Ceramic,
}

impl ToolMaterial {
    /// Every tool material.
    pub const ALL: [Self; 7] =
        [Self::CarbonSteel, Self::Hss, Self::HssCo, Self::Carbide, Self::CarbideCoated, Self::Cbn, Self::Ceramic];

    /// As tables and sheets spell it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::CarbonSteel => "carbon steel",
            Self::Hss => "HSS",
            Self::HssCo => "HSS-Co",
            Self::Carbide => "carbide",
            Self::CarbideCoated => "carbide-coated",
            Self::Cbn => "CBN",
            Self::Ceramic => "ceramic",
        }
    }

    /// Whether it is a steel that a hard part turns blunt.
    pub(crate) const fn is_steel(self) -> bool {
        matches!(self, Self::CarbonSteel | Self::Hss | Self::HssCo)
    }

    /// Whether it is carbide, coated or not.
    pub(crate) const fn is_carbide(self) -> bool {
        matches!(self, Self::Carbide | Self::CarbideCoated)
    }
}

impl std::str::FromStr for ToolMaterial {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let found = Self::ALL.into_iter().find(|m| m.text().eq_ignore_ascii_case(text.trim()));
        found.ok_or_else(|| {
            format!("`{text}` is not a tool material; {}", crate::reading::near(text, Self::ALL.map(Self::text)))
        })
    }
}

impl<'de> Deserialize<'de> for ToolMaterial {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        String::deserialize(from)?.parse().map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for ToolMaterial {
    fn schema_name() -> Cow<'static, str> {
        "ToolMaterial".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        // As it is typed, in whatever letters: an editor offers these.
        json_schema!({
            "description": format!("what a tool cuts with: {}", Self::ALL.map(Self::text).join(", ")),
            "anyOf": [{ "enum": Self::ALL.map(Self::text) }, { "type": "string" }],
            "examples": [Self::Hss.text()],
        })
    }
}
