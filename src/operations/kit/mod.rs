//! What operations share, written once: no operation's name stands here.

mod names;
mod states;

pub(super) use names::names;
pub(super) use states::{of_part, of_this};
