//! What the jaws squeeze a part with that they may spoil.

use super::Held;
use super::jaw_force::JawForce;
use crate::operations::Nip;
use crate::proof::{Fact, Words, Worked};
use crate::quantity::Newton;

/// What a squeezed part is judged with.
pub(super) struct Spoilt<'a> {
    pub force: &'a JawForce,
    pub light: &'a JawForce,
    /// Whether a light nip carries the cut at its worst end; none where that is not known.
    pub light_carries: Option<bool>,
}

impl Spoilt<'_> {
    /// What the jaws squeeze with where they are tightened lightly; nothing where they are.
    pub(super) fn lighter(&self, held: &Held) -> Option<&Worked<Newton>> {
        let is_light = held.hold.nipped.as_ref().is_some_and(|at| at.value == Nip::Light);
        self.light.squeezing.as_ref().filter(|_| !is_light)
    }

    /// What a light nip would do, and whether it still carries.
    pub(super) fn light_words(&self, size: Fact) -> Words {
        let id = match self.light_carries {
            Some(true) => "nip-light-carries",
            Some(false) => "nip-light-slips",
            None => "nip-light",
        };
        Words::of(id).with("size", size)
    }
}
