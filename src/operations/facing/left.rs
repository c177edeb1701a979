//! What is left of length and case once the metal is gone, and what becomes of float and recess.

use super::metal::{Least, Metal};
use super::{Ground, LENGTH_AFTER, REMOVED, float, measuring, recess};
use crate::handbook::cutting::stock;
use crate::operations::turning::case_left;
use crate::operations::{Answer, Bench};
use crate::proof::{Cause, Check, Keep, Origin, Refusal, Verdict, Worked};
use crate::quantity::Mm;

/// Rounds up to whole divisions and works what is left. `wanted` is what must go at the worst end of the doubt of the wear.
pub(in crate::operations) fn work(
    bench: &Bench,
    ground: &Ground,
    worn: Worked<Mm>,
    wanted: &Worked<Mm>,
    least: &Least,
    answer: &mut Answer,
) -> Result<Metal, Refusal> {
    let (rounded, divisions) = stock::whole_divisions(wanted, &ground.dial.division)?;
    let half_division = ground.dial.division.number() / 2.0;
    let removed = answer.record(&REMOVED, rounded.with_doubt(Cause::Set("dial"), half_division));
    let length_after = answer.record(&LENGTH_AFTER, stock::length_after(&ground.piece.length, &removed)?);
    let of_length = length_left(bench, ground, &length_after, least, answer)?;
    let case = case_left(bench, &ground.piece, ground.asked.of_the_case(), &removed, answer)?;
    let window = [of_length, case.margin].into_iter().flatten().reduce(f64::min);
    let metal = Metal { worn, removed, divisions, length_after, window, test_hardness: case.test_hardness };
    measuring::can_be_measured(bench, ground, &metal, answer)?;
    float::work(bench, &float::Float::of(&ground.asked), &metal, answer)?;
    recess::work(bench, ground, &metal, answer)?;
    Ok(metal)
}

/// Judges the length that is left; none is invented. Gives its worst-case margin.
fn length_left(
    bench: &Bench,
    ground: &Ground,
    after: &Worked<Mm>,
    least: &Least,
    answer: &mut Answer,
) -> Result<Option<f64>, Refusal> {
    if after.low() <= 0.0 {
        let verdict = if after.number() <= 0.0 { Verdict::Fails } else { Verdict::Doubtful };
        answer.check(Check::of_kind(least.id, verdict).about(LENGTH_AFTER.key).at(ground.asked.length.place));
    }
    let mut margin = None;
    for typed in &least.typed {
        let limit = Worked::exact(typed.value.high, Origin::Typed(typed.place));
        let check = Check::judge(least.id, after, Keep::AtLeast, &limit, bench.guard());
        let of_this = check.judged.map(|judged| judged.margin);
        margin = [margin, of_this].into_iter().flatten().reduce(f64::min);
        answer.check(check.about(LENGTH_AFTER.key).at(typed.place));
    }
    if least.typed.is_empty() && least.case_does && ground.piece.asks_for_case(bench)? {
        answer.does_not_apply(&[least.id]);
    }
    Ok(margin)
}
