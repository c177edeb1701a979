//! How much metal goes, what length and case are left: all from the original, unworn surface.

use super::{Asked, CASE_LEFT, Ground, LENGTH_AFTER, REMOVED, float, recess};
use crate::handbook::constants::constant;
use crate::handbook::cutting::stock;
use crate::operations::{Answer, Bench};
use crate::proof::{Cause, Check, Fact, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity};
use crate::shop::Gauge;

/// What goes and what stays.
pub(in crate::operations) struct Metal {
    /// Wear as read, for the float.
    pub worn: Worked<Mm>,
    /// Metal to remove, with the doubt of the dial.
    pub removed: Worked<Mm>,
    /// The same in whole divisions of the dial.
    pub divisions: u32,
    pub length_after: Worked<Mm>,
    /// Whether the case must be looked for with a hardness tester after the first cut.
    pub test_hardness: bool,
}

/// The greater of clean-up and run-out: what must go below the wear.
pub(in crate::operations) fn clean_up(
    bench: &Bench,
    asked: &Asked,
    answer: &mut Answer,
) -> Result<Worked<Mm>, Refusal> {
    let habit = bench.shop.and_then(|shop| shop.habits.clean_up.as_ref());
    let clean_up = match (asked.clean_up, habit) {
        (Some(typed), _) => typed.into(),
        (None, Some(habit)) => answer.assume("clean-up-habit", Worked::from(habit)),
        (None, None) => answer.assume("clean-up", constant("clean-up")?),
    };
    let run_out = asked.true_within().map(Worked::<Mm>::from);
    Ok(match run_out {
        Some(run_out) if run_out.number() > clean_up.number() => run_out,
        _ => super::undoubted(&clean_up),
    })
}

/// The doubt of a reading as a figure of its own.
pub(in crate::operations) fn doubt_of(reading: &Worked<Mm>) -> Worked<Mm> {
    let says = format!("doubt of the reading: {} mm", crate::quantity::figure(reading.plus_minus()));
    Worked::method(Mm::new(reading.plus_minus()), vec![says], Source::fixed("GUM, k = 2", Mark::FromMemory))
}

/// Rounds up to whole divisions and works what is left. `wanted` is what must go at the bad end of the doubt of the wear.
pub(in crate::operations) fn work(
    bench: &Bench,
    ground: &Ground,
    worn: Worked<Mm>,
    wanted: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<Metal, Refusal> {
    let (rounded, divisions) = stock::whole_divisions(&super::undoubted(wanted), &ground.dial.division)?;
    let half_division = ground.dial.division.number() / 2.0;
    let removed = answer.record(&REMOVED, rounded.with_doubt(Cause::Named("dial"), half_division));
    let length_after = answer.record(&LENGTH_AFTER, stock::length_after(&ground.length, &removed)?);
    if length_after.number() <= 0.0 {
        answer.check(Check::of_kind("metal-left", Verdict::Fails).at(ground.asked.length.place));
    }
    if let Some(least) = ground.asked.least_length {
        let limit = Worked::exact(least.value.high, Origin::Typed(least.place));
        answer
            .check(Check::judge("least-length", &length_after, Keep::AtLeast, &limit, bench.guard()).at(least.place))
            .about = Some(LENGTH_AFTER.key);
    }
    measurable(bench, ground, answer)?;
    let mut metal = Metal { worn, removed, divisions, length_after, test_hardness: false };
    case(bench, ground, &mut metal, answer)?;
    float::work(bench, &ground.asked.float, &metal, answer)?;
    recess::work(bench, ground, &metal, answer)?;
    Ok(metal)
}

/// The case is judged from the unworn surface: wear is not subtracted again.
fn case(bench: &Bench, ground: &Ground, metal: &mut Metal, answer: &mut Answer) -> Result<(), Refusal> {
    let (effective, total) = (bench.part.case_depth.as_ref(), bench.part.case_depth_total.as_ref());
    let through = bench.part.through_hardened.as_ref().is_some_and(|at| at.value);
    let Some(at) = effective.or(total) else {
        if ground.asks_for_case()? && !through {
            metal.test_hardness = true;
            answer.check(Check::of_kind("case-not-known", Verdict::Doubtful));
        }
        return Ok(());
    };
    let key = if effective.is_some() { "case-depth" } else { "case-depth-total" };
    let depth = answer.read(bench, key, Gauge::Depth, at)?;
    let before = match ground.asked.removed_before {
        Some(at) => answer.read_difference(bench, "removed-before", Gauge::Depth, at)?,
        None => answer.assume("removed-before", Worked::assumed(Mm::new(0.0), "never cut before")),
    };
    let left = answer.record(&CASE_LEFT, stock::case_left(&depth, &before, &metal.removed)?);
    let floor = if effective.is_some() { Verdict::Proven } else { Verdict::Doubtful };
    if floor == Verdict::Doubtful {
        answer.check(Check::of_kind("case-total-only", Verdict::Doubtful).at(at.place));
    }
    match ground.asked.least_case {
        Some(least) => {
            let limit = Worked::exact(least.value.high, Origin::Typed(least.place));
            let check = Check::judge("case", &left, Keep::AtLeast, &limit, bench.guard());
            let check = check.about(CASE_LEFT.key).at(least.place);
            answer.check(check.not_better_than(floor));
        }
        None if left.low() <= 0.0 => {
            let none = Worked::method(
                Mm::new(0.0),
                vec!["the case is through".into()],
                Source::fixed("a case cut through", Mark::Derived),
            );
            let check = Check::judge("case-through", &left, Keep::AtLeast, &none, bench.guard());
            let check = check.about(CASE_LEFT.key).at(at.place);
            answer.check(check.not_better_than(Verdict::Doubtful));
        }
        None => {
            answer.check(Check::of_kind("least-case-not-given", Verdict::Doubtful));
        }
    }
    Ok(())
}

/// Can squareness be measured: is some instrument of the shop, on this length, worth a quarter of the limit?
fn measurable(bench: &Bench, ground: &Ground, answer: &mut Answer) -> Result<(), Refusal> {
    let (Some(limit), Some(shop)) = (ground.asked.square_within, bench.shop) else { return Ok(()) };
    let size = ground.length.number();
    let usable = shop.instruments.iter().filter(|instrument| instrument.can_read(size, Gauge::Outside));
    let best = usable.min_by(|a, b| a.uncertainty.value.number().total_cmp(&b.uncertainty.value.number()));
    let Some(best) = best else {
        answer.missing.push(Words::of("instrument").with("size", Fact::mm(size)));
        answer.check(Check::of_kind("instrument-in-shop", Verdict::Doubtful).with("size", Fact::mm(size)));
        return Ok(());
    };
    let share = crate::handbook::cutting::work_holding::share_of(&constant("measuring-share")?, &limit.into())?;
    let check = Check::judge("can-be-measured", &Worked::from(&best.uncertainty), Keep::AtMost, &share, 2.0);
    let check = check.with("instrument", best.name.value.clone()).at(limit.place);
    let verdict = if check.verdict() == Some(Verdict::Proven) { Verdict::Proven } else { Verdict::Doubtful };
    answer.check(check.judged_as(verdict));
    Ok(())
}
