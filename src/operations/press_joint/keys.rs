//! The keys of a press joint, as typed, whichever operation asks.

use crate::handbook::Material;
use crate::handbook::joints::reaming::NotReamed;
use crate::job::Reading;
use crate::proof::At;
use crate::quantity::{Celsius, Mm, Quantity, Roughness, Shift, Wanted};
use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, de};
use std::borrow::Cow;

/// What the bush is pressed into.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(in crate::operations) struct Housing {
    /// Its bore (measured).
    pub bore: At<Reading>,
    /// Its outside; of a boss that is not round, twice the smallest wall and the bore.
    pub outside: At<Mm>,
    /// Its metal, where it is not the part's; left out, the part's.
    pub material: Option<At<Material>>,
    /// Length of its bore; left out, that of the bush.
    pub length: Option<At<Mm>>,
    /// Whether its bore goes right through; left out, it does.
    pub through: Option<At<bool>>,
    /// Roughness of its bore.
    pub finish: Option<At<Roughness>>,
    /// What is left in it while it is heated (where `press-in` has it: said at its `warm`); left out, what `near` says of it.
    pub fitted: Option<At<Fitted>>,
}

/// What is left in a housing that goes into an oven.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(in crate::operations) enum Fitted {
    /// Nothing that warmth spoils.
    Nothing,
    /// Seals.
    Seals,
    /// Rolling bearings.
    Bearings,
}

/// The bush.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(in crate::operations) struct Bush {
    /// Its outside (measured); left out, it is made here.
    pub outside: Option<At<Reading>>,
    /// Its bore before pressing (measured); left out, it is bored here.
    pub bore: Option<At<Reading>>,
    /// Its length over all.
    pub length: At<Mm>,
    /// Its metal.
    pub material: At<Material>,
    /// How many alike; left out, one.
    pub count: Option<At<u32>>,
    /// Roughness of its outside.
    pub finish: Option<At<Roughness>>,
    /// What its bore is: solid metal, or a layer that must not be cut; left out, by its material.
    pub kind: Option<At<BushKind>>,
}

/// What the bore of a bush is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(in crate::operations) enum BushKind {
    /// The metal all through.
    Solid,
    /// Sintered and filled with oil.
    Sintered,
    /// Lined with PTFE.
    PtfeLined,
    /// Plated with a running layer.
    Plated,
}

impl BushKind {
    /// Whether the reamer is forbidden.
    pub(in crate::operations) fn forbids(self) -> Option<NotReamed> {
        match self {
            Self::Solid => None,
            Self::Sintered => Some(NotReamed::Sintered),
            Self::PtfeLined => Some(NotReamed::PtfeLined),
            Self::Plated => Some(NotReamed::Plated),
        }
    }
}

/// A flange of the bush.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(in crate::operations) struct Flange {
    /// Its diameter.
    pub diameter: At<Mm>,
    /// Its thickness.
    pub thickness: At<Mm>,
}

/// How far the bush stands out of its housing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::operations) enum Stands {
    /// A little proud.
    Proud,
    /// Level with the face.
    Flush,
    /// So many mm proud; negative is below.
    By(Shift),
}

/// Temperatures when it runs.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(in crate::operations) struct Running {
    /// Of the shaft; left out, that of the housing.
    pub shaft: Option<At<Celsius>>,
    /// Of housing and bush.
    pub housing: At<Celsius>,
    /// Metal of the shaft; left out, mild steel.
    pub shaft_material: Option<At<Material>>,
    /// The coldest that the joint gets where it stands; left out, frost is assumed.
    pub coldest: Option<At<Celsius>>,
}

impl<'de> Deserialize<'de> for Stands {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        match text.trim() {
            "proud" => Ok(Self::Proud),
            "flush" => Ok(Self::Flush),
            amount => {
                let limits: Wanted<Shift> = amount
                    .parse()
                    .map_err(|why| de::Error::custom(format!("`proud`, `flush` or an amount is wanted here: {why}")))?;
                Ok(Self::By(limits.nominal))
            }
        }
    }
}

impl JsonSchema for Stands {
    fn schema_name() -> Cow<'static, str> {
        "Stands".into()
    }
    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({ "type": "string", "description": "proud, flush, or by how much it stands proud", "examples": ["proud", "flush", "0.5 mm"] })
    }
}

/// Whether a bush stands out of the face that it goes into: its flange lies on it, where that is not let in, or it is left proud.
pub(in crate::operations) fn stands_out(stands: Option<&At<Stands>>, flange: Option<&Flange>) -> bool {
    match stands.map(|at| at.value) {
        Some(Stands::Proud) => true,
        Some(Stands::By(by)) => by.number() > 0.0,
        Some(Stands::Flush) => false,
        None => flange.is_some(),
    }
}
