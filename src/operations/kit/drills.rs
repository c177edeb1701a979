//! Drills as the drawer calls them.

use super::mm_as_typed;
use crate::operations::Bench;
use crate::proof::{Fact, Words};
use crate::quantity::parts_of_an_inch;

/// A drill by the set that it lies in, where the shop has one of its size; else by its size alone.
pub fn drill_named(bench: &Bench, size: f64) -> Words {
    let drills = bench.shop.map(|shop| shop.drills()).unwrap_or_default();
    let owned = drills.into_iter().find(|drill| (drill.diameter - size).abs() < 1e-6);
    match owned.and_then(|drill| drill.from) {
        Some(from) => Words::of("drill-of-drawer").with("size", drill_size(size)).with("from", from),
        None => Words::of("drill-of").with("size", drill_size(size)),
    }
}

/// The size of a drill: in parts of an inch where it is called so.
fn drill_size(size: f64) -> Fact {
    parts_of_an_inch(size).map_or_else(|| mm_as_typed(size), Fact::from)
}
