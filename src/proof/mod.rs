//! Layer 2. Why a figure may be believed: where it was written, how it was worked, whether it holds.
//!
//! A formula is written once, with [`formula!`](crate::formula): the function, its range refusals, its doubt, its text and its
//! text with the numbers put in all come from the one expression.

mod by_term;
mod cause;
mod chance;
mod check;
mod closest;
mod dialled;
mod figure;
mod formula;
mod graph;
mod judged;
pub mod notation;
mod origin;
mod place;
mod refusal;
mod remedy;
mod source;
mod sweep;
mod verdict;
mod words;
mod worked;
mod working;

pub use by_term::{doubt_with_term, doubts_in, shares_of_terms};
pub use cause::{Cause, Owner, Side};
pub use chance::Chance;
pub use check::{Check, CheckRule, Outcome, Weight};
pub(crate) use closest::{closest, worse_first};
pub use dialled::{Counted, Dialled, DividedIn};
pub use figure::Figure;
pub use formula::{Given, work};
pub use graph::{BadEnds, Draw, Graph, Node};
pub use judged::{Judged, Keep};
pub use origin::{Begun, Cited, Done, Origin};
pub use place::{At, Place};
pub use refusal::Refusal;
pub use remedy::Remedy;
pub use source::{Mark, Source};
pub(crate) use sweep::Sweep;
pub use verdict::Verdict;
pub(crate) use words::try_each;
pub use words::{Fact, Facts, Section, Speak, Words};
pub use worked::Worked;
pub use working::{Formula, Symbol, Working};

/// The functions that a formula may use: prefix form, so that the expression and its printed text read alike.
pub mod maths {
    pub use std::f64::consts::PI;

    /// Square root.
    pub fn sqrt(x: f64) -> f64 {
        x.sqrt()
    }
    /// Square.
    pub fn sq(x: f64) -> f64 {
        x * x
    }
    /// A power.
    pub(crate) fn pow(x: f64, exponent: f64) -> f64 {
        x.powf(exponent)
    }
    /// Natural logarithm.
    pub fn ln(x: f64) -> f64 {
        x.ln()
    }
    /// Tangent of an angle in degrees.
    pub fn tan(degrees: f64) -> f64 {
        degrees.to_radians().tan()
    }
    /// Sine of an angle in degrees.
    pub fn sin(degrees: f64) -> f64 {
        degrees.to_radians().sin()
    }
    /// Cosine of an angle in degrees.
    pub fn cos(degrees: f64) -> f64 {
        degrees.to_radians().cos()
    }
    /// The greater of two.
    pub fn max(a: f64, b: f64) -> f64 {
        a.max(b)
    }
    /// The lesser of two.
    pub fn min(a: f64, b: f64) -> f64 {
        a.min(b)
    }
}
