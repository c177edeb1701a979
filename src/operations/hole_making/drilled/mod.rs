//! A hole that a twist drill makes: read, picked, sent to its depth, its speed and its forces, the drill itself, the hold.

mod case;
mod effort;
pub(in crate::operations) mod names;
mod run;
mod set_up;
mod slender;

pub(in crate::operations) use case::Case;
pub(in crate::operations) use run::{Run, reached};
pub(in crate::operations) use set_up::drilled_by_the_stop;

use super::Beyond;
use crate::job::Reading;
use crate::operations::{Hold, SetUpWish};
use crate::proof::At;
use crate::quantity::Mm;

/// What every drilled hole is asked for.
pub(in crate::operations) struct Drilled<'a> {
    /// The drill.
    pub diameter: &'a At<Mm>,
    /// Metal from the face to the far side (measured).
    pub wall: &'a At<Reading>,
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
