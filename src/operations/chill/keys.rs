//! The keys of `chill`, as typed.

use crate::handbook::Material;
use crate::operations::SetUpWish;
use crate::operations::press_joint::ColdIn;
use crate::proof::At;
use crate::quantity::Mm;
use schemars::JsonSchema;
use serde::Deserialize;

/// A part made cold.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Chill {
    /// What makes it cold.
    #[serde(rename = "in")]
    pub(super) cold_in: At<ColdIn>,
    /// The diameter that goes in.
    pub(super) outside: At<Mm>,
    /// Its bore; left out, it is solid.
    pub(super) bore: Option<At<Mm>>,
    /// Its length.
    pub(super) length: At<Mm>,
    /// Its metal, where it is not the part's; left out, the part's.
    pub(super) material: Option<At<Material>>,
    /// The greatest interference in its housing.
    pub(super) interference: Option<At<Mm>>,
    /// What a warm housing opens at the least; left out, it is not warmed.
    pub(super) opened_by: Option<At<Mm>>,
    /// Whether it lies degreased and dry in a shut bag.
    pub(super) bagged: Option<At<bool>>,
    /// Whether the place is open to the air, or drawn off by a fan.
    pub(super) aired: Option<At<bool>>,
    /// Whether it is plated.
    pub(super) plated: Option<At<bool>>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}
