//! What lies in the drawers.

use super::Instrument;
use crate::handbook::{InsertLength, Material, Thread};
use crate::proof::{At, Place};
use crate::quantity::{Measured, Mm, Quantity};
use crate::reading::{Problem, near};
use schemars::JsonSchema;
use serde::Deserialize;
use std::collections::HashMap;

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

    /// So many of them taken out.
    pub(crate) fn take(&self, count: u32) -> Take {
        Take { of: self.count.place.into(), count, have: self.count.value }
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

impl PistonStock {
    /// It is taken out: each line of the drawer is one piston.
    pub(crate) fn take(&self) -> Take {
        Take { of: self.oversize.place.into(), count: 1, have: 1 }
    }
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
        self.insert_stocks(thread, length).map(|stock| stock.count.value).sum()
    }

    /// All lines of a length, those too that are used up.
    fn insert_stocks(&self, thread: Thread, length: InsertLength) -> impl Iterator<Item = &InsertStock> {
        let sold = length.as_sold(thread);
        let same =
            move |stock: &&InsertStock| stock.thread.value == thread && stock.length.value.as_sold(thread) == sold;
        self.inserts.iter().filter(same)
    }

    /// One of the shims that were measured so thick, as it is taken; nothing where there is none.
    pub(crate) fn take_shim(&self, thickness: f64) -> Option<Take> {
        let is_it = |stock: &&ShimStock| stock.thickness.as_ref().is_some_and(|at| at.value.number() == thickness);
        self.shims_in_hand().find(is_it).map(|stock| stock.take(1))
    }

    /// A pack as it is taken: each shim by the place of its stock among those in hand.
    pub(crate) fn take_shims(&self, pack: &[usize]) -> Vec<Take> {
        let count = |at: usize| pack.iter().filter(|shim| **shim == at).count() as u32;
        let all = self.shims_in_hand().enumerate().map(|(at, stock)| stock.take(count(at)));
        all.filter(|take| take.count > 0).collect()
    }

    /// The stocks of shims that have a thickness, and are not used up.
    fn shims_in_hand(&self) -> impl Iterator<Item = &ShimStock> {
        self.shims.iter().filter(|stock| stock.thickness().is_some() && stock.count.value > 0)
    }

    /// One insert of a thread and length as it is taken; nothing where there is none.
    pub(crate) fn take_insert(&self, thread: Thread, length: InsertLength) -> Option<Take> {
        let have = self.inserts_of(thread, length);
        // All lines of a length are one stock, called by the first of them.
        let first = self.insert_stocks(thread, length).next().filter(|_| have > 0)?;
        Some(Take { of: first.count.place.into(), count: 1, have })
    }

    /// The same drawers when so many of some stocks have been taken; of a piston there is one.
    pub(crate) fn without(&self, gone: &HashMap<StockAt, u32>) -> Self {
        let of = |place: Place| gone.get(&place.into()).copied().unwrap_or(0);
        let mut left = self.clone();
        left.pistons.retain(|stock| of(stock.oversize.place) == 0);
        left.shims
            .iter_mut()
            .for_each(|stock| stock.count.value = stock.count.value.saturating_sub(of(stock.count.place)));
        // Inserts of one thread and length lie together, whatever lines of the file have them.
        let mut more: Vec<(Thread, InsertLength, u32)> = Vec::new();
        for stock in &self.inserts {
            let thread = stock.thread.value;
            let taken = of(stock.count.place);
            if taken > 0 {
                more.push((thread, stock.length.value.as_sold(thread), taken));
            }
        }
        for stock in &mut left.inserts {
            let (thread, length) = (stock.thread.value, stock.length.value.as_sold(stock.thread.value));
            for (_, _, taken) in more.iter_mut().filter(|(t, l, _)| (*t, *l) == (thread, length)) {
                let now = stock.count.value.min(*taken);
                stock.count.value -= now;
                *taken -= now;
            }
        }
        left
    }
}

/// Where a stock of a drawer stands in its file: the same for all who take of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct StockAt {
    line: u32,
    column: u32,
}

impl From<Place> for StockAt {
    fn from(place: Place) -> Self {
        Self { line: place.line, column: place.column }
    }
}

/// What is taken out of a drawer for good: what one operation takes another finds no more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Take {
    /// Of which stock.
    pub of: StockAt,
    /// How many.
    pub count: u32,
    /// How many there are.
    pub have: u32,
}
