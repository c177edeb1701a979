//! Instruments: what a reading with them is worth.

pub mod cylinder;
pub mod instruments;
pub mod oversizes;
pub mod packs;
pub mod running;
pub mod stack;
pub mod warmth;
pub mod window;
