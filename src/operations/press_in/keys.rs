//! The keys of `press-in`, as typed.

use crate::handbook::Material;
use crate::job::Reading;
use crate::operations::SetUpWish;
use crate::operations::press_joint::{Bush, ColdIn, Flange, Housing, Running, Stands, Support};
use crate::proof::At;
use crate::quantity::{Mm, Roughness};
use schemars::JsonSchema;
use serde::Deserialize;

/// A bush pressed into its housing, not reamed.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
#[schemars(extend("x-wants" = [["housing.material", "part.material"]]))]
pub struct PressIn {
    /// What it is pressed into.
    pub(super) housing: Housing,
    /// The bush.
    pub(super) bush: MeasuredBush,
    /// A flange of the bush; left out, it has none.
    pub(super) flange: Option<Flange>,
    /// How far it stands out.
    pub(super) stands: Option<At<Stands>>,
    /// Temperatures when it runs.
    pub(super) running: Option<Running>,
    /// Whether its bore is cut to size once it is in; left out, it is not.
    pub(super) bored_after: Option<At<bool>>,
    /// What the warm housing opens at the least, at the press; left out, it is cold.
    pub(super) opened_by: Option<At<Mm>>,
    /// What the cold bush loses at the least, at the press; left out, it is not chilled.
    pub(super) chilled_by: Option<At<Mm>>,
    /// What it lies in to become so cold; left out, the freezer.
    pub(super) chilled_in: Option<At<ColdIn>>,
    /// What the part stands on.
    pub(super) support: Option<Support>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

/// A bush that lies there to be measured.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct MeasuredBush {
    /// Its outside (measured).
    pub outside: At<Reading>,
    /// Its bore before pressing (measured).
    pub bore: At<Reading>,
    /// Its length over all.
    pub length: At<Mm>,
    /// Its metal.
    pub material: At<Material>,
    /// Roughness of its outside.
    pub finish: Option<At<Roughness>>,
}

impl MeasuredBush {
    /// As the joint asks for it.
    pub(super) fn bush(&self) -> Bush {
        Bush {
            outside: Some(self.outside.clone()),
            bore: Some(self.bore.clone()),
            length: self.length.clone(),
            material: self.material.clone(),
            count: None,
            finish: self.finish.clone(),
            kind: None,
        }
    }
}
