//! What a hold gives whatever is cut in it: worked once for all cuts that are tried there, when the first of them asks for it.

use super::jaw_force::AtRest;
use crate::operations::Nip;
use crate::proof::{Refusal, Worked};
use crate::quantity::{Kilogram, Mm, Mm4, Ratio, Stress};
use std::cell::OnceCell;

/// A figure that is worked once, or why it cannot be.
pub(super) struct Once<T>(OnceCell<Result<T, Refusal>>);

impl<T> Default for Once<T> {
    fn default() -> Self {
        Self(OnceCell::new())
    }
}

impl<T: Clone> Once<T> {
    /// What was worked, or is worked now.
    pub(super) fn or(&self, work: impl FnOnce() -> Result<T, Refusal>) -> Result<T, Refusal> {
        self.0.get_or_init(work).clone()
    }
}

/// What does not follow the cut, of one part in one hold.
#[derive(Default)]
pub(in crate::operations::turning) struct Kept {
    nipped: [Once<Option<AtRest>>; 3],
    pub(super) mass: Once<Option<Worked<Kilogram>>>,
    pub(super) blows: Once<Worked<Ratio>>,
    pub(super) touched: Once<Option<Worked<Mm>>>,
    pub(super) lever: Lever,
    /// Whether it is gripped so long that this is proven.
    pub(super) is_long_enough: Once<bool>,
    pub(super) moment_at_the_jaws: Once<Worked<Mm4>>,
    /// What bending it stands, proven and doubtful.
    pub(super) stands: Once<(Worked<Stress>, Worked<Stress>)>,
}

/// What the cut tilts a seat by.
#[derive(Default)]
pub(super) struct Lever {
    pub arm: Once<Worked<Mm>>,
    pub radius: Once<Worked<Mm>>,
    pub grips: Once<Worked<Mm>>,
}

impl Kept {
    /// What the jaws have of a nip before the spindle turns.
    pub(super) const fn nipped(&self, nip: Nip) -> &Once<Option<AtRest>> {
        let [light, normal, hard] = &self.nipped;
        match nip {
            Nip::Light => light,
            Nip::Normal => normal,
            Nip::Hard => hard,
        }
    }
}
