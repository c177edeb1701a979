//! Figures as a sheet shows them.

use crate::proof::Fact;
use crate::quantity::{Decimals, Rounds, Unit};

/// A length.
pub fn mm(number: f64) -> Fact {
    Fact::mm(number)
}

/// What is left at worst, to hundredths of a millimetre, rounded towards the worse.
pub fn hundredths(number: f64) -> Fact {
    Fact::mm(number).to(Decimals::Exactly(2)).rounded(Rounds::Down)
}

/// A length with the digits that it was typed with.
pub fn mm_as_typed(number: f64) -> Fact {
    Fact::mm(number).to(Decimals::AsTyped)
}

/// A temperature.
pub fn degrees(number: f64) -> Fact {
    Fact::figure(number, Unit::DegC)
}
