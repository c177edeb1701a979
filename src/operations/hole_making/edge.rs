//! Metal between a hole and the nearest edge.

use crate::handbook::constants::constant;
use crate::handbook::threads::insert;
use crate::operations::{Answer, Bench, Name};
use crate::proof::{Check, Fact, Keep, Place, Refusal, Words, Worked};
use crate::quantity::Mm;

/// Records it and judges it by two shares of the hole: what is proven, and what is the least.
pub(in crate::operations) fn edge_wall(
    bench: &Bench,
    name: &Name<Mm>,
    (edge, place): (&Worked<Mm>, Place),
    across: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let wall = answer.record(name, insert::edge_wall(edge, across)?);
    let proven = insert::edge_wall_share(&insert::rule("edge-wall-over-hole-major")?, across)?;
    let least = insert::edge_wall_share(&constant("edge-wall-least-share")?, across)?;
    let check = Check::judge_two("edge-wall", (&wall, &proven), Keep::AtLeast, (&wall, &least), bench.guard());
    answer.check(check.about(name.key).at(place));
    Ok(())
}

/// How far a hole that is marked out by hand may come to stand off its place, mm; listed as assumed.
pub(in crate::operations) fn set_out(answer: &mut Answer) -> Result<f64, Refusal> {
    let set_out: Worked<Mm> = constant("set-out-doubt")?;
    answer.assume_words(Words::of("set-out").with("value", Fact::mm(set_out.number()).plus_minus()));
    Ok(set_out.number())
}
