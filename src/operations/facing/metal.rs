//! How much metal goes, what length and case are left: all from the original, unworn surface.

use super::{Asked, Ground, LENGTH_AFTER, REMOVED, case, float, measuring, recess};
use crate::handbook::constants::constant;
use crate::handbook::cutting::stock;
use crate::operations::{Answer, Bench};
use crate::proof::{At, Cause, Check, Keep, Mark, Origin, Refusal, Source, Verdict, Worked};
use crate::quantity::{Mm, Quantity, Wanted};

/// What goes and what stays.
pub(in crate::operations) struct Metal {
    /// Wear as read, for the float.
    pub worn: Worked<Mm>,
    /// Metal to remove, with the doubt of the dial.
    pub removed: Worked<Mm>,
    /// The same in whole divisions of the dial.
    pub divisions: u32,
    pub length_after: Worked<Mm>,
    /// The least worst-case margin of case and length, where either has a limit.
    pub window: Option<f64>,
    /// Whether the case must be looked for with a hardness tester after the first cut.
    pub test_hardness: bool,
}

/// The length or thickness that may be left, and whether the operation must have one.
pub(in crate::operations) struct Least<'a> {
    /// The check.
    pub id: &'static str,
    /// The keys that name it, those that were typed.
    pub typed: Vec<&'a At<Wanted<Mm>>>,
    /// Whether a part that goes by its hard case is spared the question where nobody named a least.
    pub case_does: bool,
}

/// The greater of clean-up and run-out: what must go below the wear.
pub(in crate::operations) fn clean_up(
    bench: &Bench,
    asked: &Asked,
    answer: &mut Answer,
) -> Result<Worked<Mm>, Refusal> {
    let habit = bench.shop.and_then(|shop| shop.habits.clean_up.as_ref());
    let clean_up: Worked<Mm> = match (asked.clean_up, habit) {
        (Some(typed), _) => typed.into(),
        (None, Some(habit)) => answer.assume("clean-up-habit", Worked::from(habit)),
        (None, None) => answer.assume("clean-up", constant("clean-up")?),
    };
    let run_out = asked.true_within().map(Worked::<Mm>::from);
    Ok(match run_out {
        Some(run_out) if run_out.number() > clean_up.number() => run_out,
        _ => clean_up.nominal("the clean-up is a choice of the shop, not a reading"),
    })
}

/// The doubt of a reading by the guard factor, as a figure of its own: the cut goes to the bottom of the wear at its bad end.
pub(in crate::operations) fn doubt_of(bench: &Bench, reading: &Worked<Mm>) -> Worked<Mm> {
    let doubt = reading.plus_minus() * bench.guard() / 2.0;
    let says = format!("doubt of the reading: {} mm", crate::quantity::figure(doubt));
    Worked::method(Mm::new(doubt), vec![says], Source::fixed("GUM, k = 2", Mark::FromMemory))
}

/// The middle of a reading whose doubt is added beside it.
pub(in crate::operations) fn middle(reading: &Worked<Mm>) -> Worked<Mm> {
    reading.nominal("its doubt is added as metal of its own")
}

/// Rounds up to whole divisions and works what is left. `wanted` is what must go at the bad end of the doubt of the wear.
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
    let length_after = answer.record(&LENGTH_AFTER, stock::length_after(&ground.length, &removed)?);
    let of_length = length_left(bench, ground, &length_after, least, answer)?;
    let mut metal = Metal { worn, removed, divisions, length_after, window: None, test_hardness: false };
    let of_case = case::work(bench, ground, &mut metal, answer)?;
    metal.window = [of_length, of_case].into_iter().flatten().reduce(f64::min);
    measuring::can_be_measured(bench, ground, &metal, answer)?;
    float::work(bench, &ground.asked.float, &metal, answer)?;
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
    if least.typed.is_empty() && least.case_does && ground.asks_for_case(bench)? {
        answer.does_not_apply(&[least.id]);
    }
    Ok(margin)
}
