//! What lies in the drawers.

use super::Instrument;
use crate::handbook::{InsertLength, Material, Thread};
use crate::proof::At;
use crate::quantity::{Measured, Mm, Quantity};
use crate::reading::{Problem, near};
use schemars::JsonSchema;
use serde::Deserialize;

/// The drawers.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Drawers {
    /// Wire thread inserts; left out, none.
    #[serde(default)]
    pub inserts: Vec<InsertStock>,
    /// Shims by measured thickness; left out, none.
    #[serde(default)]
    pub shims: Vec<ShimStock>,
    /// Pistons, measured or only marked; left out, none.
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

/// Shims of one thickness.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct ShimStock {
    /// Thickness as measured; left out, nobody measured it.
    pub thickness: Option<At<Mm>>,
    /// What is marked on it: only a name where it was measured; left out, its `thickness` is its name.
    pub marked: Option<At<Mm>>,
    /// How many.
    pub count: At<u32>,
    /// What it was measured with; left out, the shop's instrument for such a size.
    pub with: Option<At<String>>,
}

impl ShimStock {
    /// Its thickness: as measured, else as marked.
    pub(crate) fn thickness(&self) -> Option<&At<Mm>> {
        self.thickness.as_ref().or(self.marked.as_ref())
    }
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
    /// Its size across the skirt, where its maker measures it; left out, nobody measured it.
    pub size: Option<At<Measured<Mm>>>,
    /// The instrument that it was measured with; left out, the shop's instrument for such a size.
    pub with: Option<At<String>>,
    /// Its metal; left out, the `piston-metal` of the job.
    pub metal: Option<At<Material>>,
}

impl Drawers {
    /// Every thickness that was measured and of which there is a shim, mm.
    pub(crate) fn shims_measured(&self) -> impl Iterator<Item = f64> {
        let in_hand = self.shims.iter().filter(|stock| stock.count.value > 0);
        in_hand.filter_map(|stock| Some(stock.thickness.as_ref()?.value.number()))
    }

    pub(super) fn problems(&self, instruments: &[Instrument], all: &mut Vec<Problem>) {
        for stock in &self.shims {
            match stock.thickness() {
                Some(at) if at.value.number() <= 0.0 => {
                    all.push(Problem::new(at.place, "a shim has a thickness above zero"));
                }
                Some(_) => {}
                None => {
                    all.push(Problem::new(stock.count.place, "a shim has its `thickness`, or what is `marked` on it"))
                }
            }
            if let Some(with) = stock.with.as_ref()
                && !instruments.iter().any(|instrument| instrument.name.value == with.value)
            {
                let names = near(&with.value, instruments.iter().map(|instrument| instrument.name.value.as_str()));
                all.push(Problem::new(with.place, format!("the shop has no instrument `{}`; {names}", with.value)));
            }
        }
    }

    /// How many inserts of a thread and length are in hand.
    pub(crate) fn inserts_of(&self, thread: Thread, length: InsertLength) -> u32 {
        let sold = |length: InsertLength| length.as_sold(thread);
        let same = |stock: &&InsertStock| stock.thread.value == thread && sold(stock.length.value) == sold(length);
        self.inserts.iter().filter(same).map(|stock| stock.count.value).sum()
    }
}
