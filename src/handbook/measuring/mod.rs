//! Instruments: what a reading with them is worth.

pub mod instruments;
pub mod packs;
pub mod stack;
pub mod warmth;
pub mod window;
