//! Sizes that must be above zero: what is not, is no real part.

use crate::job::{Difference, Reading};
use crate::proof::At;
use crate::quantity::{Measured, Quantity, Unit, Wanted};
use crate::reading::Problem;

/// A key that holds a figure; none where another operation gives it.
pub trait Typed {
    /// Its unit.
    const UNIT: Unit;

    /// The figure as typed; of limits the upper one.
    fn figure(&self) -> Option<f64>;
}

impl<Q: Quantity> Typed for Q {
    const UNIT: Unit = Q::UNIT;

    fn figure(&self) -> Option<f64> {
        Some(self.number())
    }
}

impl<Q: Quantity> Typed for Wanted<Q> {
    const UNIT: Unit = Q::UNIT;

    fn figure(&self) -> Option<f64> {
        Some(self.high.number())
    }
}

impl<Q: Quantity> Typed for Measured<Q> {
    const UNIT: Unit = Q::UNIT;

    fn figure(&self) -> Option<f64> {
        Some(self.value.number())
    }
}

impl Typed for Reading {
    const UNIT: Unit = Unit::Mm;

    fn figure(&self) -> Option<f64> {
        self.typed()
    }
}

impl Typed for Difference {
    const UNIT: Unit = Unit::Mm;

    fn figure(&self) -> Option<f64> {
        self.typed()
    }
}

/// Says of a key that was typed, in words (`` `rate` of the springs ``), that it must be above zero where it is not.
pub fn above_zero<'a, T: Typed + 'a>(key: &str, typed: impl Into<Option<&'a At<T>>>, all: &mut Vec<Problem>) {
    if let Some(at) = typed.into()
        && at.value.figure().is_some_and(|figure| figure <= 0.0)
    {
        all.push(Problem::new(at.place, format!("{key} must be above zero")));
    }
}
