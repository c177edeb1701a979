//! What operations share, written once: no operation's name stands here.

mod above_zero;
mod blank;
mod facts;
mod gauge;
mod held;
mod machine;
mod names;
mod states;

pub(super) use above_zero::above_zero;
pub(super) use blank::{blank, found, read_with};
pub(super) use facts::{degrees, hundredths, mm, mm_as_typed};
pub(super) use gauge::{gauge_used, instrument};
pub(super) use held::{held_in, trued};
pub(super) use machine::{machine_for, machine_named, that_drills};
pub(super) use names::names;
pub(super) use states::{of_part, of_this};
