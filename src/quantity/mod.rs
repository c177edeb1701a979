//! Layer 1. What a number means: its unit, its limits, its doubt, and how the trade writes it.
//!
//! Nothing here knows a trade's rule. A size is read exactly (`exact.rs`), in any of the spellings of its kind
//! (`written.rs`); a key of a job is then [`Measured`] (may carry a doubt), [`Wanted`] (may carry limits) or the
//! bare quantity (nominal: neither).

mod aside;
mod both_sides;
mod calendar;
mod decimal;
mod drawer;
mod exact;
mod hardness;
mod in_words;
mod kinds;
mod list;
mod misread;
mod parts;
mod plain;
mod row;
mod show;
mod unit;
mod wanted;
mod written;

pub use calendar::{ClockTime, Date, Moment, Weekdays};
pub use drawer::{by_drawer, drawer_list, drawer_name, listed_size, metric_drill, size_by_drawer};
pub use hardness::{Hardness, Scale};
pub use in_words::{in_inches, with_inch};
pub use kinds::{
    Angle, Celsius, Expansion, ForceShift, KiloWatt, Kilogram, MPerMin, MPerS, Minutes, Mm, Mm2, Mm4, MmPerMin,
    MmPerRev, Newton, NewtonMetre, Ratio, Removal, RevPerMin, Roughness, Shift, SpringRate, Stress, Tpi, Volume,
    Warmth,
};
pub use list::Steps;
pub use misread::Misread;
pub use parts::parts_of_an_inch;
pub use row::Row;
pub use show::{Decimals, Digits, Print, Rounds, Shown, as_written, figure, in_other_unit, shown};
pub use unit::Unit;
pub use wanted::{Measured, Wanted};
pub use written::{Form, Written};

/// A number that knows its unit. A bare `f64` crosses this border and no other.
pub trait Quantity: Copy + PartialOrd + std::fmt::Debug + Send + Sync + 'static {
    /// What it is, as a message names it ("a length").
    const WHAT: &'static str;
    /// The unit that it is held, worked and printed in.
    const UNIT: Unit;
    /// Every spelling of a unit that it can be written in.
    const SPELLINGS: &'static [Spelling];
    /// Least number that can be such a thing at all.
    const LEAST: f64;
    /// A word that must stand before the number (`Ra 0.8 um`), or nothing.
    const BEFORE: &'static str;
    /// All this as one thing, for what is written once for all kinds.
    const KIND: &'static Kind = &Kind {
        what: Self::WHAT,
        unit: Self::UNIT,
        spellings: Self::SPELLINGS,
        least: Self::LEAST,
        before: Self::BEFORE,
    };
    /// From a number in [`Self::UNIT`].
    fn new(number: f64) -> Self;
    /// The number in [`Self::UNIT`].
    fn number(self) -> f64;
}

/// What tells one kind of quantity from another; each field is the constant of [`Quantity`] of the same name.
#[derive(Clone, Copy, Debug)]
pub struct Kind {
    what: &'static str,
    unit: Unit,
    spellings: &'static [Spelling],
    least: f64,
    before: &'static str,
}

/// A spelling of a unit with its exact ratio to the unit held.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spelling {
    /// As it is written.
    pub text: &'static str,
    /// Numerator of the ratio.
    pub up: i128,
    /// Denominator of the ratio.
    pub down: i128,
    /// What is taken off the written number first (only degrees Fahrenheit: 32).
    pub zero: i128,
}
