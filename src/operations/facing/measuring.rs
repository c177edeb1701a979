//! Measuring on the machine: whether it can be measured finely enough, and by what before the last cut.
//!
//! The part stays in its hold, so a gauge needs a reference that it can reach from the front: the back of a free rim, what the
//! part seats on through its bore, the faceplate beside it; where none is reached an indicator on the face, put to zero before
//! the first cut.

use super::metal::doubt_of;
use super::{Ground, LENGTH_AFTER, LENGTH_SPARE, Metal, WINDOW};
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::work_holding::share_of;
use crate::operations::turning::{CuttingData, Edge, least_bite, trial_width};
use crate::operations::{Answer, Bench, HeldIn, Hold, Stop, kit};
use crate::proof::{Check, Fact, Keep, Mark, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity};
use crate::shop::{Gauge, Instrument};

/// From where a gauge reads while the part stays in its hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Reference {
    /// Over a free rim, or over both ends of what hangs on a mandrel.
    OverRim,
    /// Through the bore, to the step of the jaws that the part seats on.
    ThroughBore,
    /// Beside the part, to the plate that it is clamped on.
    ToPlate,
    /// From the face that is not cut yet down to the trial cut: with one cut only, where what is left proud keeps a gauge from
    /// every other reference.
    TrialStep,
    /// An indicator on the face.
    Indicator,
}

impl Reference {
    /// Whether what is read is the length itself, and not how deep the cut is.
    pub(super) const fn is_of_the_length(self) -> bool {
        matches!(self, Self::OverRim | Self::ThroughBore | Self::ToPlate)
    }
}

/// By what it is measured before the last cut.
pub(super) struct Measured {
    pub from: Reference,
    /// The gauge; none where the shop has none that reaches.
    pub gauge: Option<String>,
    /// Its doubt (k = 2), mm.
    pub doubt: Option<f64>,
    /// How it is done with one cut only: depth and width of the trial cut, mm; none where there is no room for one.
    pub trial: Option<Trial>,
}

/// A trial cut over the outermost of the face.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Trial {
    pub depth: f64,
    pub width: f64,
}

/// Half of what a workshop reads at its finest, mm.
const FINEST_READ: f64 = 0.0005;

/// Is the best instrument of the shop worth a quarter of what is left to measure in?
pub(super) fn can_be_measured(
    bench: &Bench,
    ground: &Ground,
    metal: &Metal,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let Some(window) = metal.window else {
        answer.does_not_apply(&["can-be-measured"]);
        return Ok(());
    };
    let says = vec!["the least worst-case margin of case and length".into()];
    let source = Source::fixed("a margin is what a measurement may decide in", Mark::Own);
    let window = answer.record(&WINDOW, Worked::method(Mm::new(window.max(0.0)), says, source));
    let Some(shop) = bench.shop else {
        answer.no_shop(&["can-be-measured"]);
        return Ok(());
    };
    let size = metal.length_after.number();
    let share = share_of(&constant("measuring-share")?, &window)?;
    let limit = Fact::mm(share.number());
    let Some(best) = best(&shop.instruments, size, Gauge::Outside) else {
        answer.missing.push(Words::of("instrument").with("size", kit::about(size)));
        let check =
            Check::of_kind("can-be-measured", Verdict::Doubtful).with("instrument", "none").with("limit", limit);
        answer.check(check.at(ground.asked.length.place));
        return Ok(());
    };
    let worth = Worked::from(&best.uncertainty);
    let check = Check::judge("can-be-measured", &worth, Keep::AtMost, &share, bench.guard()).about(WINDOW.key);
    let check = check.with("instrument", best.name.value.clone()).at(ground.asked.length.place);
    // Where nothing is left to measure in no finer instrument mends that.
    let nothing_left = share.number() < FINEST_READ && !check.is_proven();
    let check = if nothing_left { Check { remedy: None, ..check } } else { check };
    let check = answer.check(check.not_worse_than(Verdict::Doubtful));
    if nothing_left {
        check.remedy(Words::of("nothing-left-to-measure-in"));
    }
    Ok(())
}

/// The finest instrument that reads such a size.
fn best(instruments: &[Instrument], size: f64, gauge: Gauge) -> Option<&Instrument> {
    let reads = instruments.iter().filter(|instrument| instrument.can_read(size, gauge));
    reads.min_by(|a, b| a.uncertainty.value.number().total_cmp(&b.uncertainty.value.number()))
}

/// By what it is measured before the last cut; judges whether anything of the shop reaches, and whether it is fine enough that
/// the last cut, set by it, stays inside the limits.
pub(super) fn before_the_last_cut(
    bench: &Bench,
    ground: &Ground,
    metal: &Metal,
    cutting: &CuttingData,
    answer: &mut Answer,
) -> Result<Measured, Refusal> {
    let several = cutting.cuts.divisions.len() > 1;
    let trial = if several { None } else { trial(ground, metal, &cutting.edge)? };
    let (from, gauge) = reach(bench, ground, metal, trial);
    length_sure(bench, ground, metal, from, answer)?;
    let name = gauge.map(|gauge| gauge.name.value.clone());
    let doubt = gauge.map(|gauge| gauge.uncertainty.value.number());
    if bench.shop.is_none() {
        answer.no_shop(&["measured-between"]);
        return Ok(Measured { from, gauge: name, doubt, trial });
    }
    let in_time = several || trial.is_some();
    let window = metal.window.into_iter().chain(float_margin(answer)).reduce(f64::min);
    let coarse = gauge.zip(window).filter(|(gauge, window)| gauge.uncertainty.value.number() > window.max(0.0));
    let holds = gauge.is_some() && in_time && coarse.is_none() && ground.dial.slide.is_some();
    let verdict = if holds { Verdict::Proven } else { Verdict::Doubtful };
    let check = answer.check(Check::of_kind("measured-between", verdict));
    if gauge.is_none() {
        check.remedy(Words::of("indicator-on-the-face"));
    }
    if let Some((gauge, _)) = coarse {
        let doubt = Fact::mm(gauge.uncertainty.value.number()).to(Decimals::AsTyped).plus_minus();
        let words = Words::of("gauge-too-coarse").with("gauge", gauge.name.value.clone());
        check.remedy(words.with("doubt", doubt));
    }
    if ground.dial.slide.is_none() {
        check.remedy(Words::of("no-dial-for-the-depth"));
    }
    if !in_time {
        check.remedy(Words::of("no-room-for-a-trial"));
    }
    Ok(Measured { from, gauge: name, doubt, trial })
}

/// Where the last cut goes to a length, the metal that goes is off by what the length as found is off: by no more than what goes below the
/// wear, and than case and float have to spare.
fn length_sure(
    bench: &Bench,
    ground: &Ground,
    metal: &Metal,
    from: Reference,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    const ID: &str = "length-sure";
    // What was left is judged as it was left.
    if !from.is_of_the_length() || bench.left(&LENGTH_AFTER)?.is_some() {
        answer.does_not_apply(&[ID]);
        return Ok(());
    }
    let below = metal.removed.number() - metal.worn.number() - doubt_of(bench, &metal.worn).number();
    let others = [metal.case_margin, float_margin(answer), what_follows(answer)];
    let spare = others.into_iter().flatten().fold(below, f64::min);
    let says = vec!["the least of what goes below the wear, and of the margins of case and float".into()];
    let spare = Worked::method(Mm::new(spare.max(0.0)), says, Source::fixed("the worst of them", Mark::Derived));
    let spare = answer.record(&LENGTH_SPARE, spare);
    let check = Check::judge(ID, &doubt_of(bench, &ground.piece.length), Keep::AtMost, &spare, bench.guard());
    let check = check.not_worse_than(Verdict::Doubtful).about(LENGTH_SPARE.key).at(ground.asked.length.place);
    let check = answer.check(check);
    if !check.is_proven() {
        check.remedy(Words::of("length-by-that-gauge")).remedy(Words::of("more-clean-up"));
    }
    Ok(())
}

/// What else hangs on the metal that goes, mm of it: recess and step, and the springs by how much they lose for what goes.
fn what_follows(answer: &Answer) -> Option<f64> {
    let of = |ids: &'static [&'static str]| {
        let checks = answer.checks.iter().filter(|check| ids.contains(&check.id));
        checks.filter_map(|check| check.judged).map(|judged| judged.margin).reduce(f64::min)
    };
    let rate = answer.value("spring_rate").map(|rate| rate.number).filter(|rate| *rate > 0.0);
    let springs = of(&["clamp-lost"]).zip(rate).map(|(newtons, rate)| newtons / rate);
    [of(&["relief-gap-left", "step-left"]), springs].into_iter().flatten().reduce(f64::min)
}

/// What the float has to spare at its worst end: a last cut that is set by a gauge moves it by what that gauge is off.
fn float_margin(answer: &Answer) -> Option<f64> {
    let of_float = answer.checks.iter().filter(|check| ["float-left", "float-with-shim"].contains(&check.id));
    of_float.filter_map(|check| check.judged).map(|judged| judged.margin).reduce(f64::min)
}

/// The reference, and the finest gauge of the shop that reaches it.
///
/// Through the bore a gauge rests across the face: after a trial cut at the rim it would rest on what still stands proud, so the
/// step that the trial left is measured instead. Jaws that open in the bore leave no step to be seen through it.
fn reach<'a>(
    bench: &Bench<'a>,
    ground: &Ground,
    metal: &Metal,
    trial: Option<Trial>,
) -> (Reference, Option<&'a Instrument>) {
    let instruments: &[Instrument] = bench.shop.map_or(&[], |shop| &shop.instruments);
    let size = ground.piece.length.number();
    let held_in = ground.asked.hold.map(|hold| hold.held_in.value);
    let gripped = ground.asked.hold.and_then(|hold| hold.diameter.as_ref()).map(|gripped| gripped.value.number());
    let rim_is_free = gripped.is_some_and(|gripped| gripped < ground.piece.outside.number());
    // A bore that the rod of a gauge does not go through, and is moved about in, shows nothing of what it seats on.
    let through = row("gauge-through-bore-least").map_or(f64::INFINITY, |row| row.value);
    // Seated by a shoulder, the step of the jaws touches that, and no rod through the bore meets it.
    let by_its_end = |hold: &Hold| hold.stop() == Stop::Step && !hold.grips_inside() && hold.behind.is_none();
    let seated = ground.asked.hold.is_some_and(by_its_end);
    let direct = match held_in {
        Some(HeldIn::Mandrel) => Some((Reference::OverRim, Gauge::Outside, size)),
        Some(HeldIn::Faceplate | HeldIn::Clamps) => Some((Reference::ToPlate, Gauge::Depth, size)),
        // The thickness at the contact is that of the rim; a length over both ends is not.
        Some(_) if rim_is_free && !ground.asked.over_both_ends => Some((Reference::OverRim, Gauge::Outside, size)),
        Some(_) if ground.piece.inside.number() >= through && seated => match trial {
            Some(trial) => Some((Reference::TrialStep, Gauge::Depth, trial.depth)),
            None => Some((Reference::ThroughBore, Gauge::Depth, size)),
        },
        _ => None,
    };
    let reached = direct.and_then(|(from, gauge, size)| Some((from, best(instruments, size, gauge)?)));
    match reached {
        Some((from, gauge)) => (from, Some(gauge)),
        None => (Reference::Indicator, indicator(instruments, metal.removed.number())),
    }
}

/// An indicator of the shop that reads as far as the face goes back.
fn indicator(instruments: &[Instrument], removed: f64) -> Option<&Instrument> {
    let is = |instrument: &&Instrument| {
        let kind = instrument.kind.value.to_lowercase();
        let named = ["indicator", "dial gauge", "dial test"].iter().any(|word| kind.contains(word));
        named && instrument.may_have_read(removed, Gauge::Indicator)
    };
    instruments.iter().find(is)
}

/// A trial cut: short of the depth by two divisions or the doubt of the length, whichever is more, over the outermost of the
/// face. None where that leaves nothing that bites, or nothing that a gauge finds.
fn trial(ground: &Ground, metal: &Metal, edge: &Edge) -> Result<Option<Trial>, Refusal> {
    let division = ground.dial.division.number();
    let off = ground.piece.length.number() - ground.piece.length.low();
    let short = (row("trial-cut-short")?.value * division).max(off);
    let divisions = ((metal.removed.number() - short) / division + 1e-9).floor();
    let depth = divisions * division;
    let bites = divisions >= 1.0 && depth >= least_bite(edge)?.number() - 1e-9;
    let face = (ground.piece.outside.number() - ground.piece.inside.number()) / 2.0;
    Ok(trial_width(edge, face)?.filter(|_| bites).map(|width| Trial { depth, width }))
}
