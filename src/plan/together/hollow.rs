//! A part that was taken as solid, because nobody gave its bore, and in which another operation makes one: what was worked for a bar is
//! a tube then, whose wall may give way.

use super::made::made_by;
use crate::handbook::constants::row;
use crate::operations::{Answer, OfPart, PartSize, Station};
use crate::plan::order::Task;
use crate::proof::{Check, Fact, Origin, Verdict};

/// The check of a part that was taken as solid.
const SOLID: &str = "solid-as-taken";
/// The bore of the part, as an operation names it that may take it as solid.
const INSIDE: &str = "inside";

/// Holds each operation that took its part as solid against the bores that the others of the part make, wherever they stand: a tube is
/// held otherwise than a bar, and bored later it was a bar when it was turned. Those of one part come together, in the order of the file.
pub(in crate::plan) fn check(worked: &mut [(usize, &Task, Answer)]) {
    let found: Vec<Option<Check>> = (0..)
        .zip(worked.iter())
        .map(|(at, own)| {
            takes_as_solid(&own.2).then_some(())?;
            worked.get(..at).unwrap_or_default().iter().rev().find_map(|by| bored(own, by))
        })
        .collect();
    for ((.., answer), check) in worked.iter_mut().zip(found) {
        if let Some(check) = check {
            answer.check_of_size(check, "");
        }
    }
}

/// Whether an operation took the part as solid of itself.
fn takes_as_solid(answer: &Answer) -> bool {
    answer.value(INSIDE).is_some_and(|inside| inside.number <= 0.0 && matches!(*inside.origin, Origin::Assumed(_)))
}

/// What is said of a bore that another operation made before; none where it made none along the axis, as far as one can say: on the lathe,
/// or as wide as a good share of the part.
fn bored((_, own, answer): &(usize, &Task, Answer), (_, by, made): &(usize, &Task, Answer)) -> Option<Check> {
    (own.part.name == by.part.name).then_some(())?;
    let is_bore = |size| matches!(size, PartSize::Inside | PartSize::Bushed);
    let bores = made_by(by, made).into_iter().filter(|made| is_bore(made.size) && !made.takes_nothing());
    let widest = bores.map(|made| made.left).max_by(|a, b| a.number.total_cmp(&b.number))?;
    let declared = own.request.declared();
    let outside = declared.iter().find(|name| name.part == Some(OfPart::Leaves(PartSize::Outside)));
    let outside = outside.and_then(|name| answer.value(name.key)).or_else(|| answer.value("outside"));
    let share = row("bore-share-of-a-tube").map_or(0.0, |row| row.value);
    let on_the_axis = made.set_ups.iter().any(|set_up| set_up.station == Station::Lathe)
        || outside.is_some_and(|outside| widest.number >= share * outside.number);
    on_the_axis.then(|| {
        let check = Check::of_kind(SOLID, Verdict::Doubtful).at(own.place).with("by", by.address.to_string());
        check.with("hole", Fact::figure(widest.number, widest.unit))
    })
}
