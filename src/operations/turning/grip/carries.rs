//! Whether a grip carries a cut that is only tried: nobody reads how.

use super::super::Piece;
use super::{Cut, Held, Kept, Reach, bends, is_asked, reach};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Refusal, Verdict};

/// Whether the jaws carry a cut, as far as anybody can say; what no jaws hold only a test can judge.
pub(in crate::operations::turning) fn carries(
    bench: &Bench,
    (piece, kept): (&Piece, &Kept),
    reach: Reach,
    cut: Cut,
) -> Result<bool, Refusal> {
    let Some(hold) = piece.asked.hold.filter(|hold| hold.held_in.value.jaws().is_some()) else { return Ok(true) };
    let mut aside = Answer::default();
    let held = Held::under(bench, (piece, kept), hold, (reach, cut), &mut aside)?;
    let held = Held { told: false, ..held };
    held.carried(&mut aside)?;
    let is_long_enough = kept.is_long_enough.or(|| {
        let mut aside = Answer::default();
        reach::grip_length(&held, &mut aside)?;
        Ok(holds(&aside))
    })?;
    if is_asked(bends::ID, held.way) {
        bends::work(&held, &mut aside)?;
    }
    Ok(is_long_enough && holds(&aside))
}

/// Whether all of the grip that was judged is proven.
fn holds(aside: &Answer) -> bool {
    let of_grip = |check: &&Check| matches!(check.id, "grip" | "grip-moment" | "grip-length" | bends::ID);
    let slips = |check: &Check| check.verdict().is_some_and(|verdict| verdict != Verdict::Proven);
    !aside.checks.iter().filter(of_grip).any(slips)
}
