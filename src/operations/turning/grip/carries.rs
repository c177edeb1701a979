//! Whether a grip carries a cut that is only tried: nobody reads how.

use super::super::Piece;
use super::{Cut, Held, Kept, Reach, Under, bends, is_asked, reach};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Refusal, Verdict};
use std::cell::OnceCell;

/// A part in a hold in which cuts are tried, which come so far towards it.
pub(in crate::operations::turning) struct Trial<'a> {
    bench: &'a Bench<'a>,
    piece: &'a Piece<'a>,
    reach: &'a Reach,
    kept: &'a Kept,
    /// What its jaws hold; none where no jaws do.
    under: OnceCell<Result<Option<Under<'a>>, Refusal>>,
}

impl<'a> Trial<'a> {
    pub(in crate::operations::turning) const fn new(
        bench: &'a Bench<'a>,
        (piece, kept): (&'a Piece<'a>, &'a Kept),
        reach: &'a Reach,
    ) -> Self {
        Self { bench, piece, reach, kept, under: OnceCell::new() }
    }

    /// Whether the jaws carry a cut, as far as anybody can say; what no jaws hold only a test can judge.
    pub(in crate::operations::turning) fn carries(&self, cut: Cut) -> Result<bool, Refusal> {
        let under = self.under.get_or_init(|| self.under());
        let Some(under) = under.as_ref().map_err(Clone::clone)? else { return Ok(true) };
        let held = Held { under, cut, told: false };
        let mut aside = Answer::default();
        held.carried(&mut aside)?;
        let is_long_enough = self.kept.is_long_enough.or(|| {
            let mut aside = Answer::default();
            reach::grip_length(&held, &mut aside)?;
            Ok(holds(&aside))
        })?;
        if is_asked(bends::ID, held.way) {
            bends::work(&held, &mut aside)?;
        }
        Ok(is_long_enough && holds(&aside))
    }

    fn under(&self) -> Result<Option<Under<'a>>, Refusal> {
        let in_jaws = self.piece.asked.hold.filter(|hold| hold.held_in.value.jaws().is_some());
        let mut aside = Answer::default();
        let of = |hold| Under::of(self.bench, (self.piece, self.kept), hold, self.reach.clone(), &mut aside);
        in_jaws.map(of).transpose()
    }
}

/// Whether all of the grip that was judged is proven.
fn holds(aside: &Answer) -> bool {
    let of_grip = |check: &&Check| matches!(check.id, "grip" | "grip-moment" | "grip-length" | bends::ID);
    let slips = |check: &Check| check.verdict().is_some_and(|verdict| verdict != Verdict::Proven);
    !aside.checks.iter().filter(of_grip).any(slips)
}
