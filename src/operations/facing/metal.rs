//! How much metal goes: from the original, unworn surface.

use super::{Asked, DepthDial};
use crate::handbook::constants::constant;
use crate::operations::turning::{Amount, Piece, Reach};
use crate::operations::{Answer, Bench};
use crate::proof::{At, Mark, Refusal, Source, Worked};
use crate::quantity::{Mm, Quantity, Wanted};

/// What goes and what stays.
pub(in crate::operations) struct Metal {
    /// Wear as read, for the float.
    pub worn: Worked<Mm>,
    /// Metal to remove, with the doubt of the dial.
    pub removed: Worked<Mm>,
    /// The same in whole divisions of the dial.
    pub divisions: u32,
    /// Metal that is gone: as it was measured where the log says what was left, else as it is to be removed.
    pub gone: Worked<Mm>,
    /// The length that is there after it.
    pub left: Worked<Mm>,
    /// What the cut is aimed at, whatever was left.
    pub length_after: Worked<Mm>,
    /// The least worst-case margin of case and length, where either has a limit.
    pub window: Option<f64>,
    /// The worst-case margin of the case, where it has a limit.
    pub case_margin: Option<f64>,
    /// Whether the case must be looked for with a hardness tester after the first cut.
    pub test_hardness: bool,
}

impl Metal {
    /// As the cuts share it out: a division of this dial is a division of depth.
    pub(super) fn amount(&self, dial: &DepthDial) -> Amount {
        Amount { divisions: self.divisions, division: dial.division.number() }
    }

    /// How far the tool comes.
    pub(super) fn reach(&self, piece: &Piece) -> Reach {
        Reach {
            left: self.length_after.clone(),
            removed: self.removed.clone(),
            thinnest: piece.outside.clone(),
            bored: piece.inside.clone(),
            into_the_grip: None,
            off: None,
            round_within: None,
        }
    }
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

/// The doubt of a reading by the guard factor, as a figure of its own: the cut goes to the bottom of the wear at its worst end.
pub(in crate::operations) fn doubt_of(bench: &Bench, reading: &Worked<Mm>) -> Worked<Mm> {
    let doubt = reading.plus_minus() * bench.guard() / 2.0;
    let says = format!("doubt of the reading: {} mm", crate::quantity::figure(doubt));
    Worked::method_of(Mm::new(doubt), vec![says], Source::fixed("GUM, k = 2", Mark::FromMemory), [reading.origin()])
}

/// The middle of a reading whose doubt is added beside it.
pub(in crate::operations) fn middle(reading: &Worked<Mm>) -> Worked<Mm> {
    reading.nominal("its doubt is added as metal of its own")
}
