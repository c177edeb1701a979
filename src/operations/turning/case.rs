//! Hard case below the cut: judged from the unworn surface, wear is not subtracted again.

use super::{CASE_DEPTH, CASE_LEFT, Piece, REMOVED_BEFORE};
use crate::handbook::constants::constant;
use crate::handbook::cutting::stock;
use crate::handbook::materials::groups::Kind;
use crate::job::Difference;
use crate::operations::kit::hard::at_least;
use crate::operations::{Answer, Bench};
use crate::proof::{At, Check, Fact, Keep, Mark, Origin, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, Quantity, Wanted};
use crate::shop::Gauge;

/// The keys of the case that an operation has beside those of the part.
#[derive(Clone, Copy, Debug)]
pub(in crate::operations) struct CaseKeys<'a> {
    /// Least hard case that may be left.
    pub least: Option<&'a At<Wanted<Mm>>>,
    /// The row of the least that is usual for such work, taken where nobody names one.
    pub usual: Option<&'static str>,
    /// Metal taken off here in earlier overhauls.
    pub removed_before: Option<&'a At<Difference>>,
}

/// What is known of the case that is left.
#[derive(Clone, Copy, Debug, Default)]
pub(in crate::operations) struct Case {
    /// Its worst-case margin, where somebody says how much is enough.
    pub margin: Option<f64>,
    /// Whether the hardness must be tested after the first cut: a hard part whose case nobody knows.
    pub test_hardness: bool,
}

/// Judges the case that is left below so much metal.
pub(in crate::operations) fn case_left(
    bench: &Bench,
    piece: &Piece,
    keys: CaseKeys,
    removed: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<Case, Refusal> {
    judged(bench, piece.asks_for_case(bench)?, keys, removed, answer)
}

/// The same, of a part that is on no lathe: one that is as hard as a case, or whose metal is one that is hardened and that nobody tested.
pub(in crate::operations) fn case_below(
    bench: &Bench,
    keys: CaseKeys,
    removed: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<Case, Refusal> {
    let hardness = bench.part.hardness.as_ref().map(|at| at.value);
    let metal = bench.part.material.as_ref().map(|at| at.value.kind());
    let said = hardness.map_or_else(|| Fact::named("hardness-not-tested"), |it| it.to_string().into());
    answer.fact("hardness", said);
    let by_row = hardness.is_none() && metal == Some(Kind::HardSteel);
    let asks = !bench.part.is_hard_through() && (by_row || at_least(hardness, "case-asked-hardness")?);
    judged(bench, asks, keys, removed, answer)
}

/// `asks` where the part is so hard that its case must be known.
fn judged(
    bench: &Bench,
    asks: bool,
    keys: CaseKeys,
    removed: &Worked<Mm>,
    answer: &mut Answer,
) -> Result<Case, Refusal> {
    let (effective, total) = (bench.part.case_depth.as_ref(), bench.part.case_depth_total.as_ref());
    let Some(at) = effective.or(total) else {
        // Who names the least that must be left has a case to lose, however soft the metal is said to be.
        let through = bench.part.is_hard_through();
        let test_hardness = asks || (keys.least.is_some() && !through);
        if test_hardness {
            answer.check(Check::of_kind("case", Verdict::Doubtful)).remedy(Words::of("case-not-known"));
        } else {
            answer.does_not_apply(&["case"]);
        }
        return Ok(Case { margin: None, test_hardness });
    };
    let key = if effective.is_some() { "part.case-depth" } else { "part.case-depth-total" };
    let depth = answer.read(bench, key, Gauge::Depth, at)?;
    let depth = answer.record(&CASE_DEPTH, depth);
    let before = match keys.removed_before {
        Some(at) => answer.read_difference(bench, "removed-before", Gauge::Depth, at)?,
        None => answer.assume("removed-before", Worked::assumed(Mm::new(0.0), "never cut before")),
    };
    let before = answer.record(&REMOVED_BEFORE, before);
    let left = answer.record(&CASE_LEFT, stock::case_left(&depth, &before, removed)?);
    let limit = match (keys.least, keys.usual) {
        (Some(least), _) => Worked::exact(least.value.high, Origin::Typed(least.place)),
        (None, Some(usual)) => constant(usual)?,
        (None, None) => {
            let says = vec!["the case is through".into()];
            Worked::method(Mm::new(0.0), says, Source::fixed("a case cut through", Mark::Derived))
        }
    };
    let place = keys.least.map_or(at.place, |least| least.place);
    let check = Check::judge("case", &left, Keep::AtLeast, &limit, bench.guard()).about(CASE_LEFT.key).at(place);
    let margin = check.judged.map(|judged| judged.margin);
    let unsure = doubts(keys, effective.is_none(), margin)?;
    let check = if unsure.is_empty() { check } else { check.not_better_than(Verdict::Doubtful) };
    let check = answer.check(check);
    for words in unsure {
        check.remedy(words);
    }
    Ok(Case { margin: margin.filter(|_| keys.least.is_some()), test_hardness: false })
}

/// What makes the case doubtful however much of it is left: a total depth, no least, and a history that nobody knows where
/// little is left over.
fn doubts(keys: CaseKeys, total: bool, margin: Option<f64>) -> Result<Vec<Words>, Refusal> {
    let mut all = Vec::new();
    if total {
        all.push(Words::of("case-total-only"));
    }
    if keys.least.is_none() && keys.usual.is_none() {
        all.push(Words::of("least-case-not-given"));
    }
    let enough: Worked<Mm> = constant("case-margin-of-unknown-history")?;
    if keys.removed_before.is_none() && margin.is_some_and(|margin| margin < enough.number()) {
        all.push(Words::of("removed-before-not-given"));
    }
    Ok(all)
}
