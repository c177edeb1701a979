//! What lies in the drawers.

use crate::handbook::{InsertLength, Thread};
use crate::proof::At;
use crate::quantity::Mm;
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

impl Drawers {
    /// How many inserts of a thread and length are in hand.
    pub(crate) fn inserts_of(&self, thread: Thread, length: InsertLength) -> u32 {
        let sold = |length: InsertLength| length.as_sold(thread);
        let same = |stock: &&InsertStock| stock.thread.value == thread && sold(stock.length.value) == sold(length);
        self.inserts.iter().filter(same).map(|stock| stock.count.value).sum()
    }
}
