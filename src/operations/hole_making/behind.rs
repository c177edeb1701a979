//! What a tool meets that comes out behind.

use super::{Beyond, read_at};
use crate::handbook::constants::constant;
use crate::handbook::threads::insert;
use crate::operations::{Answer, Bench, Name};
use crate::proof::{At, Check, Keep, Place, Refusal, Words, Worked};
use crate::quantity::Mm;
use crate::shop::Gauge;

/// Judges the gap that is left behind a tool whose end comes out so far; where nobody says what lies there, it is not known.
pub(in crate::operations) fn behind(
    bench: &Bench,
    id: &'static str,
    (out, left): (&Worked<Mm>, &Name<Mm>),
    (beyond, place): (Option<&At<Beyond>>, Place),
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let gap = beyond.and_then(|at| read_at(at, at.value.reading()));
    let gap = answer.read_if(bench, "beyond", Gauge::Depth, gap.as_ref())?;
    match (gap, beyond) {
        (Some(gap), at) => {
            let place = at.map_or(place, |at| at.place);
            return gap_behind(bench, id, (out, left), (&gap, place), answer);
        }
        (None, Some(_)) => {
            answer.assume_words(Words::of("clear-beyond"));
            answer.does_not_apply(&[id]);
        }
        (None, None) => answer.not_checked(&[id], &["beyond"]),
    }
    Ok(())
}

/// The same of a gap that is known: the bore that the tool comes out into.
pub(in crate::operations) fn gap_behind(
    bench: &Bench,
    id: &'static str,
    (out, left): (&Worked<Mm>, &Name<Mm>),
    (gap, place): (&Worked<Mm>, Place),
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let gap = answer.record(left, insert::gap_left(gap, out)?);
    let least = constant("clear-while-cutting")?;
    let check = Check::judge(id, &gap, Keep::AtLeast, &least, bench.guard()).about(left.key).at(place);
    answer.check(check).remedy(Words::of("take-out-what-moves"));
    Ok(())
}
