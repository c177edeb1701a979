//! Metal that is left under the point of a drill, and whether the point pushes it out: as thin as somebody allows is not yet thick
//! enough to stand.

use crate::handbook::constants::{constant, row};
use crate::operations::Bench;
use crate::proof::{Check, Keep, Refusal, Verdict, Worked};
use crate::quantity::Mm;

/// Judges what is left under a drill so thick, under the id of the check of what was asked: less than stands is in doubt.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks a limit.
pub(in crate::operations) fn skin_stands(
    bench: &Bench,
    id: &'static str,
    (left, drill): (&Worked<Mm>, &Worked<Mm>),
) -> Result<Check, Refusal> {
    let least: Worked<Mm> = constant("skin-least")?;
    let share = drill.scaled(row("skin-over-drill")?.value, "a share of the drill");
    let least = if share.number() > least.number() { share } else { least };
    Ok(Check::judge(id, left, Keep::AtLeast, &least, bench.guard()).not_worse_than(Verdict::Doubtful))
}
