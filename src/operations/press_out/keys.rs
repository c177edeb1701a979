//! The keys of `press-out`, as typed.

use crate::handbook::Material;
use crate::handbook::joints::warm_limits::{Near, Temper};
use crate::job::Reading;
use crate::operations::SetUpWish;
use crate::operations::press_joint::{Flange, Support};
use crate::proof::At;
use crate::quantity::{Celsius, Mm};
use schemars::JsonSchema;
use serde::Deserialize;

/// An old bush pressed out of its housing.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
#[schemars(extend("x-wants" = [["housing.material", "part.material"]]))]
pub struct PressOut {
    /// What it sits in.
    pub(super) housing: Around,
    /// The bush.
    pub(super) bush: OldBush,
    /// The greatest interference that it may have.
    pub(super) interference: Option<At<Mm>>,
    /// What keeps it from coming out one way.
    pub(super) held_by: Option<At<HeldBy>>,
    /// The end that the mandrel stands on.
    pub(super) push_from: Option<At<PushFrom>>,
    /// A flange of the bush.
    pub(super) flange: Option<Flange>,
    /// What pushes it.
    pub(super) mandrel: Option<Mandrel>,
    /// What the part stands on.
    pub(super) support: Option<Support>,
    /// What both are warmed to; left out, they are cold.
    pub(super) warm_to: Option<At<Celsius>>,
    /// All that is in the housing, or so near that it becomes as warm.
    pub(super) near: Option<Vec<At<Near>>>,
    /// How an aluminium housing was hardened.
    pub(super) temper: Option<At<Temper>>,
    /// Whether a guard stands round what may fly.
    pub(super) guarded: Option<At<bool>>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

/// What the bush sits in.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Around {
    /// Its outside; of a boss that is not round, twice the smallest wall and the bore.
    pub outside: At<Mm>,
    /// Length of its bore; left out, that of the bush.
    pub length: Option<At<Mm>>,
    /// The bore of its shoulder, through which the mandrel must pass; left out, not checked where a shoulder holds the bush:
    /// mandrel clears.
    pub shoulder_bore: Option<At<Mm>>,
    /// How thick that shoulder is: the mandrel goes through it before it meets the bush; left out, not checked where a shoulder
    /// holds the bush: comes right out.
    pub shoulder_thickness: Option<At<Mm>>,
    /// Its metal, where it is not the part's; left out, the part's.
    pub material: Option<At<Material>>,
}

/// A bush that sits in its housing.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct OldBush {
    /// The diameter of the joint, read at the end of the bush or known (measured).
    pub outside: At<Reading>,
    /// Its bore as it is (measured).
    pub bore: At<Reading>,
    /// Its length over all.
    pub length: At<Mm>,
    /// Its metal.
    pub material: At<Material>,
}

/// What pushes the bush.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Mandrel {
    /// Its diameter, where it pushes.
    pub diameter: At<Mm>,
    /// How far it reaches.
    pub length: Option<At<Mm>>,
}

/// What keeps the bush from coming out one way.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum HeldBy {
    /// Nothing: looked at from both ends.
    Nothing,
    /// Its own flange, on the outer face.
    Flange,
    /// A shoulder of the housing at its inner end.
    Shoulder,
    /// Both of them.
    Both,
}

/// The end that the mandrel stands on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum PushFrom {
    /// The outer end, where it once went in.
    Outer,
    /// The inner end.
    Inner,
}
