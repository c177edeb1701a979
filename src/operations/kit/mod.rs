//! What operations share, written once: no operation's name stands here.

mod states;

pub(super) use states::{of_part, of_this};
