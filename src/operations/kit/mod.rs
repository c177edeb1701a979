//! What operations share, written once: no operation's name stands here.

mod facts;
mod names;
mod states;

pub(super) use facts::{degrees, mm, mm_as_typed};
pub(super) use names::names;
pub(super) use states::{of_part, of_this};
