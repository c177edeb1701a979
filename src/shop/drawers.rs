//! What lies in the drawers.

use crate::handbook::{InsertLength, Material, Thread};
use crate::proof::At;
use crate::quantity::{Measured, Mm};
use schemars::JsonSchema;
use serde::Deserialize;

/// The drawers.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Drawers {
    /// Wire thread inserts.
    #[serde(default)]
    pub inserts: Vec<InsertStock>,
    /// Shims by measured thickness.
    #[serde(default)]
    pub shims: Vec<ShimStock>,
    /// Pistons, measured or only marked.
    #[serde(default)]
    pub pistons: Vec<PistonStock>,
}

/// Inserts of one thread and length.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct InsertStock {
    /// Thread.
    pub thread: At<Thread>,
    /// Length in diameters.
    pub length: At<InsertLength>,
    /// How many.
    pub count: At<u32>,
}

/// Shims of one measured thickness.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct ShimStock {
    /// Measured thickness.
    pub thickness: At<Mm>,
    /// How many.
    pub count: At<u32>,
}

/// A piston.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct PistonStock {
    /// The part whose bore it is for.
    #[serde(rename = "for")]
    pub of: At<String>,
    /// Its oversize as it is marked.
    pub oversize: At<Mm>,
    /// Its size across the skirt, where its maker measures it.
    pub size: Option<At<Measured<Mm>>>,
    /// The instrument that it was measured with.
    pub with: Option<At<String>>,
    /// Its metal.
    pub metal: Option<At<Material>>,
}

impl Drawers {
    /// How many inserts of a thread and length are in hand.
    pub(crate) fn inserts_of(&self, thread: Thread, length: InsertLength) -> u32 {
        let sold = |length: InsertLength| length.as_sold(thread);
        let same = |stock: &&InsertStock| stock.thread.value == thread && sold(stock.length.value) == sold(length);
        self.inserts.iter().filter(same).map(|stock| stock.count.value).sum()
    }
}
