//! Hard case below the cut: judged from the unworn surface, wear is not subtracted again.

use super::{CASE_LEFT, Ground, Metal};
use crate::handbook::constants::constant;
use crate::handbook::cutting::stock;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity};
use crate::shop::Gauge;

/// Judges the case that is left, and gives its worst-case margin where it has one. Says whether the hardness must be tested
/// after the first cut: a hard part whose case nobody knows.
pub(super) fn work(
    bench: &Bench,
    ground: &Ground,
    metal: &mut Metal,
    answer: &mut Answer,
) -> Result<Option<f64>, Refusal> {
    let (effective, total) = (bench.part.case_depth.as_ref(), bench.part.case_depth_total.as_ref());
    let Some(at) = effective.or(total) else {
        // Who names the least that must be left has a case to lose, however soft the metal is said to be.
        let through = bench.part.through_hardened.as_ref().is_some_and(|at| at.value);
        if ground.asks_for_case(bench)? || (ground.asked.least_case.is_some() && !through) {
            metal.test_hardness = true;
            answer.check(Check::of_kind("case", Verdict::Doubtful)).remedy(Words::of("case-not-known"));
        } else {
            answer.does_not_apply(&["case"]);
        }
        return Ok(None);
    };
    let key = if effective.is_some() { "part.case-depth" } else { "part.case-depth-total" };
    let depth = answer.read(bench, key, Gauge::Depth, at)?;
    let before = match ground.asked.removed_before {
        Some(at) => answer.read_difference(bench, "removed-before", Gauge::Depth, at)?,
        None => answer.assume("removed-before", Worked::assumed(Mm::new(0.0), "never cut before")),
    };
    let left = answer.record(&CASE_LEFT, stock::case_left(&depth, &before, &metal.removed)?);
    let limit = match ground.asked.least_case {
        Some(least) => Worked::exact(least.value.high, Origin::Typed(least.place)),
        None => {
            let says = vec!["the case is through".into()];
            Worked::method(Mm::new(0.0), says, Source::fixed("a case cut through", Mark::Derived))
        }
    };
    let place = ground.asked.least_case.map_or(at.place, |least| least.place);
    let check = Check::judge("case", &left, Keep::AtLeast, &limit, bench.guard()).about(CASE_LEFT.key).at(place);
    let margin = check.judged.map(|judged| judged.margin);
    let unsure = doubts(ground, effective.is_none(), margin)?;
    let check = if unsure.is_empty() { check } else { check.not_better_than(Verdict::Doubtful) };
    let check = answer.check(check);
    for words in unsure {
        check.remedy(words);
    }
    Ok(margin.filter(|_| ground.asked.least_case.is_some()))
}

/// What makes the case doubtful however much of it is left: a total depth, no least, and a history that nobody knows where
/// little is left over.
fn doubts(ground: &Ground, total: bool, margin: Option<f64>) -> Result<Vec<Words>, Refusal> {
    let mut all = Vec::new();
    if total {
        all.push(Words::of("case-total-only"));
    }
    if ground.asked.least_case.is_none() {
        all.push(Words::of("least-case-not-given"));
    }
    let enough: Worked<Mm> = constant("case-margin-of-unknown-history")?;
    if ground.asked.removed_before.is_none() && margin.is_some_and(|margin| margin < enough.number()) {
        all.push(Words::of("removed-before-not-given"));
    }
    Ok(all)
}
