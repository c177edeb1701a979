//! A hole that a twist drill makes: read, picked, sent to its depth, its speed and its forces, the drill itself, the hold.

mod case;
mod effort;
pub(in crate::operations) mod names;
mod run;
mod set_up;
mod slender;

pub(in crate::operations) use case::Case;
pub(in crate::operations) use effort::Effort;
pub(in crate::operations) use run::{Run, reached};
pub(in crate::operations) use set_up::drilled_by_the_stop;

use super::{Beyond, Sunk};
use crate::job::Reading;
use crate::operations::{Hold, SetUpWish};
use crate::proof::{At, Place, Worked};
use crate::quantity::Mm;

/// Metal that a drill goes into.
#[derive(Clone, Copy)]
pub(in crate::operations) enum Thick<'a> {
    /// As it was read.
    Read(&'a At<Reading>),
    /// As it was worked: the wall of a bush, with the bore that the drill comes out into.
    Bush {
        /// The wall.
        wall: &'a Worked<Mm>,
        /// The bore.
        bore: &'a Worked<Mm>,
        /// Where the bush was typed.
        place: Place,
    },
}

impl Thick<'_> {
    /// Where it was typed.
    pub(in crate::operations) const fn place(&self) -> Place {
        match self {
            Self::Read(at) => at.place,
            Self::Bush { place, .. } => *place,
        }
    }
}

/// What every drilled hole is asked for.
pub(in crate::operations) struct Drilled<'a> {
    /// The drill.
    pub diameter: &'a At<Mm>,
    /// Metal from the face to the far side.
    pub wall: Thick<'a>,
    /// How deep that face lies under the mouth of what the drill goes down through.
    pub sunk: Sunk,
    /// How wide a bore is that lies across it and that it comes out in, mm; nothing where it comes out of a flat face.
    pub bore: Option<f64>,
    /// Whether it goes through.
    pub through: bool,
    /// What lies behind the wall.
    pub beyond: Option<&'a At<Beyond>>,
    /// How far the drill stands out of its chuck.
    pub stick_out: Option<&'a At<Mm>>,
    /// How the work is held.
    pub hold: Option<&'a Hold>,
    /// Machine, name, feature, remark; left out, none.
    pub set_up: Option<&'a SetUpWish>,
}
