//! A part that was taken as solid, because nobody gave its bore, or as narrower than it is, and in which another operation makes or finds
//! a bore: what was worked for a bar is a tube then, whose wall may give way.

use super::made::{Made, made_by, share};
use super::place::one_feature;
use crate::operations::{Answer, OfPart, PartSize, Station, Value};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Origin, Verdict};

/// The check of a part that was taken as solid, and of one that was taken as narrower than it is.
const SOLID: &str = "solid-as-taken";
const NARROW: &str = "as-narrow-as-typed";
/// Under this two bores are one, mm.
const DUST: f64 = 1e-9;
/// The bore of the part, as an operation names it that may take it as solid.
const INSIDE: &str = "inside";

/// Holds the bore that each operation took its part to have against the bores that the others of the part make before it, and against
/// those that others find in it later: what is opened then was there. Those of one part come together, in the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..)
        .zip(worked.iter())
        .map(|(at, own)| {
            let taken = own.2.value(INSIDE)?;
            let mut others = (0..).zip(worked.iter()).filter(|(other, _): &(usize, _)| *other != at);
            others.find_map(|(other, by)| wider(own, taken, by, other < at))
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// What is said of a bore that another operation made before, or finds in the part later, wider than it was taken to be.
fn wider(
    (_, own, answer): &(usize, &Task, Answer),
    taken: &Value,
    (_, by, made): &(usize, &Task, Answer),
    is_before: bool,
) -> Option<Check> {
    let is_assumed = matches!(*taken.origin, Origin::Assumed(_));
    // Two bores of one part that are typed may be two: who says so says it of both.
    let is_apart = !is_assumed && one_feature(own, by) == Some(false) && !goes_through(made);
    (own.part.name == by.part.name && !is_apart).then_some(())?;
    let declared = own.request.declared();
    let outside = declared.iter().find(|name| name.part == Some(OfPart::Leaves(PartSize::Outside)));
    let outside = outside.and_then(|name| answer.value(name.key)).or_else(|| answer.value("outside"));
    let bore = along_the_axis(by, made, outside)?;
    let hole = if is_before { bore.left } else { bore.found? };
    let is_wider = hole.unit == taken.unit && hole.number - hole.plus_minus > taken.number + taken.plus_minus + DUST;
    is_wider.then(|| {
        let id = if taken.number <= 0.0 && is_assumed { SOLID } else { NARROW };
        let figure = |value: &Value| Fact::figure(value.number, value.unit);
        let check = Check::of_kind(id, Verdict::Doubtful).at(own.place).with("by", by.address.to_string());
        check.with("hole", figure(hole)).with("taken", figure(taken))
    })
}

/// Whether what an operation bores goes right through its part: it has no other bore on that axis, whatever the places are called.
fn goes_through(made: &Answer) -> bool {
    let (cut, whole) = (made.value("length_cut"), made.value("part_length"));
    let slack = share("through-of-its-length");
    cut.zip(whole).is_some_and(|(cut, whole)| cut.number >= slack * whole.number)
}

/// The widest bore that an operation makes along the axis, as far as one can say: on the lathe, or as wide as a good share of the part.
pub(super) fn along_the_axis<'a>(by: &Task, answer: &'a Answer, outside: Option<&Value>) -> Option<Made<'a>> {
    let is_bore = |size| matches!(size, PartSize::Inside | PartSize::Bushed);
    let bores = made_by(by, answer).into_iter().filter(|made| is_bore(made.size) && !made.takes_nothing());
    let widest = bores.max_by(|a, b| a.left.number.total_cmp(&b.left.number))?;
    let on_the_axis = answer.set_ups.iter().any(|set_up| set_up.station == Station::Lathe)
        || outside.is_some_and(|outside| widest.left.number >= share("bore-share-of-a-tube") * outside.number);
    on_the_axis.then_some(widest)
}
