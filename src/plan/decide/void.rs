//! What of the plan is void because a part is replaced: nothing of the old one is cut, nothing is got for that, and its partner is not cut to
//! match it.

use super::cured::Work;
use super::frame::{Cure, Decision, Row, Why};
use crate::handbook::remedies;
use crate::job::Named;
use crate::plan::{Plan, Planned};
use crate::proof::Verdict;

/// The features for which each part is replaced: part and feature.
fn replaced(rows: &[Row]) -> Vec<(String, String)> {
    let is_so = |row: &&Row| row.decision == Decision::Cure(Cure::Replace);
    rows.iter().filter(is_so).map(|row| (row.part.clone(), row.feature.clone())).collect()
}

/// Whatever else was found of a part that is replaced goes with it. A gasket and a seal go into the new one too.
pub(super) fn of_replaced(rows: &mut Vec<Row>) {
    let replaced = replaced(rows);
    let is_of = |row: &Row| replaced.iter().any(|(part, _)| *part == row.part);
    rows.retain(|row| !(is_of(row) && row.why.iter().any(|why| matches!(why, Why::After(_)))));
    for row in rows.iter_mut().filter(|row| is_of(row)) {
        let is_void = match &row.decision {
            Decision::Cure(cure) => *cure != Cure::Replace,
            // What fails as it was left is said by its own row.
            Decision::Doubtful(cure) => !matches!(cure.as_ref(), Cure::Failed(_) | Cure::Replace),
            _ => false,
        };
        if !is_void {
            continue;
        }
        let of_part = replaced.iter().filter(|(part, _)| *part == row.part).map(|(_, feature)| feature.clone());
        row.why.retain(|why| !matches!(why, Why::Nearest(..) | Why::Chooses(..)));
        row.why.push(Why::GoesWith(of_part.collect()));
        row.decision = Decision::Cure(Cure::Replace);
        row.sheets.clear();
        row.orders.retain(|order| remedies::all().iter().any(|known| known.fresh.contains(&order.item)));
    }
}

/// What one feature of a part shows that an operation was not planned by holds for every feature that it would put right: nothing is got for
/// it, nor for what would be matched to it.
pub(super) fn of_other_features(rows: &mut Vec<Row>) {
    let by_another = |row: &Row| {
        row.why.iter().find_map(|why| match why {
            Why::PlannedBy(word, ..) | Why::BeyondPlan(word, ..) | Why::TakesOffLess(word, ..) => {
                Some((row.part.clone(), word.clone(), row.feature.clone()))
            }
            _ => None,
        })
    };
    let doubted: Vec<_> = rows.iter().filter_map(by_another).collect();
    let mut void: Vec<(String, String)> = Vec::new();
    for row in rows.iter_mut() {
        let Decision::Cure(Cure::Proven(word)) = &row.decision else { continue };
        let of_it = doubted.iter().find(|(part, other, _)| *part == row.part && other == word);
        let Some((part, word, feature)) = of_it else { continue };
        row.decision = Decision::Cure(Cure::Doubtful(word.clone()));
        row.why.retain(|why| !matches!(why, Why::Nearest(..)));
        row.why.push(Why::NotByOther(word.clone(), feature.clone()));
        row.orders.clear();
        void.push((part.clone(), word.clone()));
    }
    let follows = |row: &Row, (part, word): &(String, String)| {
        row.part == *part && row.decision == Decision::Follows(word.clone())
    };
    rows.retain(|row| !void.iter().any(|of| follows(row, of)));
}

/// What goes by a size of a part that is replaced is worked anew by the new one: nothing is got for it before.
pub(super) fn of_links(rows: &mut [Row], plan: &Plan, named: &[Named]) {
    let replaced = replaced(rows);
    let by = |(planned, names): (&Planned, &Named)| {
        let is_gone = |part: &&String| **part != planned.address.part && replaced.iter().any(|(gone, _)| gone == *part);
        let gone = names.addresses.iter().map(|at| &at.value.part).find(is_gone)?;
        Some((planned.address.part.clone(), planned.word.clone(), gone.clone()))
    };
    let all: Vec<_> = plan.operations.iter().zip(named).filter_map(by).collect();
    for row in rows.iter_mut() {
        let word = match &row.decision {
            Decision::Cure(Cure::Proven(word) | Cure::Doubtful(word) | Cure::Anew(word)) => word.clone(),
            _ => continue,
        };
        let Some((_, _, gone)) = all.iter().find(|(part, by, _)| *part == row.part && *by == word) else { continue };
        row.why.retain(|why| !matches!(why, Why::Nearest(..)));
        row.why.push(Why::GoesByReplaced(word.clone(), gone.clone()));
        row.decision = Decision::Cure(Cure::Otherwise(word));
        row.orders.clear();
    }
}

/// Half of a pair whose partner is replaced is not cut to match the old one, nor replaced because that would leave too little of it: it goes
/// by its own wear.
pub(super) fn of_partners(rows: &mut [Row], work: &Work) {
    let replaced = replaced(rows);
    let is_gone = |part: &str| replaced.iter().any(|(gone, _)| gone == part);
    let is_done = |own: &Planned| work.cuts.iter().any(|cut| cut.of == own.address && cut.is_done());
    let to_do = work.plan.operations.iter().filter(|own| !is_done(own));
    let halves = to_do.filter_map(|planned| Some((planned, partner(planned)?)));
    let halves = halves.filter(|(own, other)| is_gone(other) && !is_gone_anyway(rows, own));
    let halves: Vec<_> = halves.map(|(own, other)| (&own.address.part, &own.word, other)).collect();
    for row in rows.iter_mut() {
        let Some((_, word, other)) = halves.iter().find(|(part, word, _)| **part == row.part && is_by(row, word))
        else {
            continue;
        };
        let cure = Cure::Otherwise((*word).clone());
        row.decision = match row.decision {
            Decision::Doubtful(_) => Decision::Doubtful(Box::new(cure)),
            _ => Decision::Cure(cure),
        };
        (row.sheets, row.orders) = (Vec::new(), Vec::new());
        row.why.retain(|why| !matches!(why, Why::Nearest(..) | Why::Checked(..)));
        row.why.push(Why::PartnerGoes(other.clone()));
    }
}

/// Whether an operation is what puts a feature right, or what it is replaced for because that fails.
fn is_by(row: &Row, word: &str) -> bool {
    let cure = match &row.decision {
        Decision::Cure(cure) => cure,
        Decision::Doubtful(cure) => cure.as_ref(),
        _ => return false,
    };
    match cure {
        Cure::Proven(own) | Cure::Doubtful(own) | Cure::Anew(own) => own == word,
        Cure::Replace => {
            row.why.iter().any(|why| matches!(why, Why::Checked(own, _, Verdict::Fails, _) if own == word))
        }
        _ => false,
    }
}

/// Whether the half of a pair is replaced for what its own cut, which is still to be made, has no part in.
fn is_gone_anyway(rows: &[Row], own: &Planned) -> bool {
    let of_part = rows.iter().filter(|row| row.part == own.address.part);
    let mut gone = of_part.filter(|row| row.decision == Decision::Cure(Cure::Replace));
    gone.any(|row| !is_by(row, &own.word))
}

/// The other part of a pair, where that asks the deeper cut.
fn partner(planned: &Planned) -> Option<String> {
    let deeper = planned.answer.choices.iter().find(|choice| choice.name == "deeper_of_pair")?;
    let part = deeper.chosen.split('/').next().unwrap_or(&deeper.chosen);
    (part != planned.address.part).then(|| part.to_owned())
}
