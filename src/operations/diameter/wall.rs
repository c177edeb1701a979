//! The wall that is left of what is cut along the axis: too thin, it springs away from the tool and is crushed by what holds it.

use crate::handbook::constants::{constant, row};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Keep, Refusal, Worked};
use crate::quantity::Mm;

/// Judges the thinnest wall left, whatever the part is held in.
pub(in crate::operations) fn wall_stands(
    bench: &Bench,
    wall: &Worked<Mm>,
    outside: &Worked<Mm>,
    key: &'static str,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    answer.check(stands("wall-stands", bench, wall, outside)?.about(key));
    Ok(())
}

/// Judges what is left so thin, of a part so large.
pub(in crate::operations) fn stands(
    id: &'static str,
    bench: &Bench,
    wall: &Worked<Mm>,
    outside: &Worked<Mm>,
) -> Result<Check, Refusal> {
    let (least, share) = (constant::<Mm>("wall-cut-least")?, row("wall-cut-share")?.value);
    let of_outside = outside.scaled(share, "a share of the outside");
    let least = if of_outside.number() > least.number() { of_outside } else { least };
    let doubtful = least.scaled(row("wall-cut-doubtful")?.value, "thinner than this it fails");
    Ok(Check::judge_two(id, (wall, &least), Keep::AtLeast, (wall, &doubtful), bench.guard()))
}
