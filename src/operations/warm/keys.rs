//! The keys of `warm`, as typed.

use crate::handbook::joints::warm_limits::{Near, Temper};
use crate::operations::SetUpWish;
use crate::operations::press_joint::ColdIn;
use crate::proof::At;
use crate::quantity::{Celsius, Mm};
use schemars::JsonSchema;
use serde::Deserialize;

/// A part warmed in the oven.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Warm {
    /// The bore that is to open.
    pub(super) bore: At<Mm>,
    /// The outside of its boss.
    pub(super) outside: At<Mm>,
    /// The length of its bore.
    pub(super) length: At<Mm>,
    /// The greatest interference of what is to drop in; left out, `to` is given.
    pub(super) interference: Option<At<Mm>>,
    /// What chilling takes off that at the least; left out, it is not chilled.
    pub(super) chilled_by: Option<At<Mm>>,
    /// What it lies in to become so cold; left out, the freezer.
    pub(super) chilled_in: Option<At<ColdIn>>,
    /// The temperature that the metal must reach; left out, what the interference asks.
    pub(super) to: Option<At<Celsius>>,
    /// All that is in it, or so near that it becomes as warm.
    pub(super) near: Option<Vec<At<Near>>>,
    /// How an aluminium was hardened.
    pub(super) temper: Option<At<Temper>>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}
