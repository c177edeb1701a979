//! What is measured before the last cut: the diameter itself, which a gauge reaches while the part is held; with one cut only a
//! short trial cut first.

use super::{CrossDial, STILL_TO_CUT, Size};
use crate::handbook::constants::row;
use crate::operations::turning::{CuttingData, Edge, least_bite, trial_width};
use crate::operations::{Answer, Bench, kit};
use crate::proof::{Check, Fact, Keep, Refusal, Side, Verdict, Words};
use crate::quantity::{Decimals, Mm, Quantity};
use crate::shop::Gauge;

/// A trial cut over the first of the length.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Trial {
    pub divisions: u32,
    /// How far along the axis, mm.
    pub length: f64,
}

/// How it is measured before the last cut.
pub(super) struct Measured {
    /// With one cut only; none where there is no room for one.
    pub trial: Option<Trial>,
}

/// Judges whether it can be measured in time, and finely enough.
pub(super) fn before_the_last_cut(
    bench: &Bench,
    size: &Size,
    (slide, length): (&CrossDial, Mm),
    cutting: &CuttingData,
    answer: &mut Answer,
) -> Result<Measured, Refusal> {
    const ID: &str = "measured-between";
    let cuts = &cutting.cuts;
    let several = cuts.divisions.len() > 1;
    let trial = if several { None } else { trial(size, length, &cutting.edge)? };
    metal_when_measured(bench, size, cutting, answer)?;
    if bench.shop.is_none() {
        answer.no_shop(&[ID]);
        return Ok(Measured { trial });
    }
    let in_time = several || trial.is_some();
    // Before the last cut the diameter is another than after it: the gauge for that may not reach.
    let before = cuts.divisions.iter().rev().skip(1).sum::<u32>().max(trial.map_or(0, |trial| trial.divisions));
    let dial = f64::from(before) * size.division;
    let there = size.after_so_much(size.changed_by(dial).0);
    // What is cut on one side alone has no diameter yet.
    let is_round = size.is_round_after(dial);
    let kind = if size.inside { Gauge::Inside } else { Gauge::Outside };
    let used = kit::instrument(bench, there, kind).filter(|_| size.gauge.is_some());
    let half = size.width.as_ref().map(|width| width.number() / 2.0);
    let coarse = used.zip(half).filter(|(gauge, half)| gauge.uncertainty.value.number() > *half);
    let holds = used.is_some() && in_time && coarse.is_none() && slide.slide.is_some() && is_round;
    let check = answer.check(Check::of_kind(ID, if holds { Verdict::Proven } else { Verdict::Doubtful }));
    if used.is_none() {
        let size = if size.gauge.is_none() { size.after.number() } else { there };
        check.remedy(Words::of("no-gauge-for-the-diameter").with("size", kit::about(size)));
    }
    if let Some((gauge, _)) = coarse {
        let doubt = Fact::mm(gauge.uncertainty.value.number()).to(Decimals::AsTyped).plus_minus();
        let words = Words::of("gauge-too-coarse").with("gauge", gauge.name.value.clone());
        check.remedy(words.with("doubt", doubt));
    }
    if slide.slide.is_none() {
        check.remedy(Words::of("no-dial-for-the-depth"));
    }
    if in_time && !is_round {
        check.remedy(Words::of("not-round-yet"));
    }
    if !in_time {
        check.remedy(Words::of("no-room-for-a-trial"));
    }
    Ok(Measured { trial })
}

/// What is left to cut at the worst of the diameter as found, when it is measured behind cuts that were dialled: as much as the edge
/// bites, or the last cut only rubs, or the limit is passed before anybody measures.
fn metal_when_measured(bench: &Bench, size: &Size, cutting: &CuttingData, answer: &mut Answer) -> Result<(), Refusal> {
    const ID: &str = "metal-when-measured";
    let before = cutting.cuts.divisions.iter().rev().skip(1).sum::<u32>();
    // What was left is judged as it was left.
    if before == 0 || size.left.is_some() {
        answer.does_not_apply(&[ID]);
        return Ok(());
    }
    let left = answer.record(&STILL_TO_CUT, size.still_to_cut(f64::from(before) * size.division)?);
    let check = Check::judge(ID, &left, Keep::AtLeast, &least_bite(&cutting.edge)?, bench.guard());
    let check = check.about(STILL_TO_CUT.key).at(size.place);
    if !check.is_proven() {
        answer.check(check).remedy(Words::of("finer-as-found"));
        return Ok(());
    }
    answer.check(check);
    Ok(())
}

/// Short of the depth by two divisions, or by the doubt of the diameter as found; over the first of the length. None where the edge
/// would only rub, or no gauge would find a cylinder.
pub(super) fn trial(size: &Size, length: Mm, edge: &Edge) -> Result<Option<Trial>, Refusal> {
    let short = row("trial-cut-short")?.value;
    // As far as the diameter as found may lie from its middle.
    let side = if size.inside { Side::High } else { Side::Low };
    let off = (size.present.worst_number(side, 2.0) - size.present.number()).abs();
    let short = (short * size.division).max(off);
    let divisions = ((2.0 * size.removed.number() - short) / size.division + 1e-9).floor();
    let deep = divisions * size.division / 2.0;
    let bites = divisions >= 1.0 && deep >= least_bite(edge)?.number() - 1e-9;
    // A small whole number: no more than the divisions of the whole cut.
    let trial = |length| Trial { divisions: divisions.clamp(1.0, 1e6) as u32, length };
    let width = trial_width(edge, length.number())?.filter(|_| bites);
    // A gauge stands in no ring.
    let least = if size.inside { row("trial-bore-least")?.value } else { 0.0 };
    Ok(width.map(|width| width.max(least)).filter(|width| *width <= length.number() / 2.0).map(trial))
}
