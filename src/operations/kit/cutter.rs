//! Milling cutters of the drawer.

use super::{mm_as_typed, tool_size};
use crate::operations::{Answer, Bench, Instead};
use crate::proof::{Check, Place, Verdict, Words};
use crate::quantity::Quantity;
use crate::shop::{MillingCutter, Tool};

/// The cutter of such a diameter; `flat` where its end must cut a flat bottom.
pub fn milling_cutter<'a>(bench: &Bench<'a>, across: f64, flat: bool) -> Option<&'a MillingCutter> {
    let cuts_flat = |cutter: &&MillingCutter| !flat || cutter.flat_bottom.as_ref().is_some_and(|at| at.value);
    cutters(bench, across).find(cuts_flat)
}

/// The first cutter of that size in the drawer that has so many teeth, where that is said: one with others is another cutter.
pub fn cutter_with_teeth<'a>(bench: &Bench<'a>, across: f64, teeth: Option<u32>) -> Option<&'a MillingCutter> {
    let has = |cutter: &&MillingCutter| teeth.is_none_or(|n| cutter.teeth.as_ref().is_none_or(|at| at.value == n));
    cutters(bench, across).find(has)
}

fn cutters<'a>(bench: &Bench<'a>, across: f64) -> impl Iterator<Item = &'a MillingCutter> {
    let all = bench.shop.into_iter().flat_map(|shop| &shop.tools).filter_map(|tool| match tool {
        Tool::MillingCutter(cutter) => Some(cutter),
        _ => None,
    });
    // 1e-6: an inch size read in millimetres.
    all.filter(move |cutter| (cutter.diameter.value.number() - across).abs() < 1e-6)
}

/// The cutters of the drawer of other sizes, by their names.
pub fn other_cutters(bench: &Bench, across: f64, flat: bool, name: &'static str) -> Vec<(Words, Instead)> {
    let Some(shop) = bench.shop.filter(|_| milling_cutter(bench, across, flat).is_none()) else { return Vec::new() };
    let sizes = shop.tools.iter().filter_map(|tool| match tool {
        Tool::MillingCutter(cutter) if !flat || cutter.flat_bottom.as_ref().is_some_and(|at| at.value) => {
            Some(cutter.diameter.value.number())
        }
        _ => None,
    });
    sizes.map(|size| (Words::of(name).with("size", tool_size(size)), Instead::Size(size))).collect()
}

/// Says whether the drawer has it: what lacks is a doubt and a line on the missing list.
pub fn cutter_owned(id: &'static str, bench: &Bench, owned: bool, (size, place): (f64, Place), answer: &mut Answer) {
    if bench.shop.is_none() {
        answer.no_shop(&[id]);
        return;
    }
    if !owned {
        answer.missing.push(Words::of("cutter").with("size", mm_as_typed(size)));
    }
    let verdict = if owned { Verdict::Proven } else { Verdict::Doubtful };
    answer.check(Check::of_kind(id, verdict).at(place));
}
