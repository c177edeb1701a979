//! What is left of length and case once the metal is gone, and what becomes of float and recess.

use super::metal::{Least, Metal};
use super::{Ground, LENGTH_AFTER, REMOVED, float, measuring, recess};
use crate::handbook::cutting::stock;
use crate::operations::answer::DOUBT_PLAUSIBLE;
use crate::operations::turning::case_left;
use crate::operations::{Answer, Bench, kit};
use crate::proof::{Cause, Check, Fact, Keep, Origin, Place, Refusal, Verdict, Words, Worked};
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
    let length_after = stock::length_after(&ground.piece.length, &removed)?;
    let (left, gone) = as_left(bench, ground, (&length_after, &removed), answer)?;
    cleaned_up(bench, ground, &worn, &gone, answer)?;
    let gone = gone.at_least(0.0, "nothing is put on");
    let of_length = length_left(bench, ground, &left, least, answer)?;
    let case = case_left(bench, &ground.piece, ground.asked.of_the_case(), &gone, answer)?;
    let window = [of_length, case.margin].into_iter().flatten().reduce(f64::min);
    let case_margin = case.margin;
    let test_hardness = case.test_hardness;
    let metal = Metal { worn, removed, divisions, gone, left, length_after, window, case_margin, test_hardness };
    measuring::can_be_measured(bench, ground, &metal, answer)?;
    float::work(bench, &float::Float::of(&ground.asked), &metal, answer)?;
    recess::work(bench, ground, &metal, answer)?;
    Ok(metal)
}

/// The length that is left and the metal that is gone: as planned, or as it was measured after the cut. What is still to be cut is
/// told by the plan: a piece that was left too long is not finished by being written down.
fn as_left(
    bench: &Bench,
    ground: &Ground,
    (planned, removed): (&Worked<Mm>, &Worked<Mm>),
    answer: &mut Answer,
) -> Result<(Worked<Mm>, Worked<Mm>), Refusal> {
    let left = bench.left(&LENGTH_AFTER)?;
    kit::left_even(left.as_ref(), [ground.asked.flat_within, ground.asked.square_within], bench, answer);
    let Some(left) = left else {
        return Ok((answer.record(&LENGTH_AFTER, planned.clone()), removed.clone()));
    };
    answer.fact(LENGTH_AFTER.key, Fact::figure(planned.number(), crate::quantity::Unit::Mm));
    let gone = kit::gone(1.0, (&ground.piece.length, &left));
    // Whoever goes on from what came off goes on from what did.
    answer.fact(REMOVED.key, Fact::figure(removed.number(), crate::quantity::Unit::Mm));
    answer.record(&REMOVED, gone.clone());
    Ok((answer.record(&LENGTH_AFTER, left), gone))
}

/// Of a length as it was left: less metal gone than the wear is deep leaves the wear standing, whatever else holds.
fn cleaned_up(
    bench: &Bench,
    ground: &Ground,
    worn: &Worked<Mm>,
    gone: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    if let Some(left) = bench.left(&LENGTH_AFTER)? {
        let of = (LENGTH_AFTER.key, ground.asked.length.place);
        if !kit::grown(bench, (1.0, &ground.piece.length, &left), of, answer) {
            deep_enough(bench, (gone, worn), of, answer);
        }
    }
    Ok(())
}

/// Whether what is gone, by what was written down as `key`, is as much as was worn. It can still be cut on: nothing is spoilt by
/// metal that stands.
pub(in crate::operations) fn deep_enough(
    bench: &Bench,
    (gone, worn): (&Worked<Mm>, &Worked<Mm>),
    (key, place): (&'static str, Place),
    answer: &mut Answer,
) {
    let check = Check::judge(DOUBT_PLAUSIBLE.id, gone, Keep::AtLeast, worn, bench.guard());
    if !check.is_proven() {
        let check = check.not_worse_than(Verdict::Doubtful).unfinished(key);
        let words = if check.unfinished.is_some() { "wear-still-there" } else { "wear-may-be-there" };
        let check = kit::asked_as(check, "wear-gone");
        let check = check.with("key", key).with("doubt", Fact::mm(gone.plus_minus()));
        answer.check(check.at(place).past_finer_reading()).remedy(Words::of(words));
    }
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
