//! Instruments and the doubt of a reading.

pub mod instruments;
pub mod uncertainty;
