//! Instruments: what a reading with them is worth.

pub mod instruments;
pub mod warmth;
pub mod window;
