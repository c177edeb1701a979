//! A worked figure with its type forgotten: what crosses from one operation to another, and into the log.

use super::worked::root_sum_square;
use super::{Cause, Origin, Worked};
use crate::quantity::{Quantity, Unit};

/// An operation of a job, by its number there: whose dial it was that a figure owes its doubt to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Owner(pub u32);

/// A figure, its unit, its doubt as signed shares (k = 2) by cause, its band and how it came about.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The number, in its unit.
    pub number: f64,
    /// The unit; a figure is never taken in another.
    pub unit: Unit,
    /// The signed share of each cause, in its unit: one reading stays one reading wherever the figure goes.
    pub shares: Vec<(Cause, f64)>,
    /// Low and high of a handbook disagreement.
    pub band: Option<(f64, f64)>,
    /// How it came about.
    pub origin: Origin,
    /// Whether it rests on a figure that was remembered and not read.
    pub from_memory: bool,
    /// Whether it does not follow its readings in a straight line over their doubt.
    pub bent: bool,
}

impl Figure {
    /// A size as it was measured after the work: its doubt is that of the instrument, of a cause of its own, and nothing of the
    /// plan's doubt is left in it.
    pub fn as_left(number: f64, unit: Unit, plus_minus: f64, line: u32) -> Self {
        let shares = if plus_minus > 0.0 { vec![(Cause::Left(line), plus_minus)] } else { Vec::new() };
        Self { number, unit, shares, band: None, origin: Origin::AsLeft, from_memory: false, bent: false }
    }

    /// The doubt (k = 2).
    pub fn plus_minus(&self) -> f64 {
        root_sum_square(&self.shares)
    }

    /// The same figure as another operation takes it over: what was set by hand is now the setting of its owner.
    pub(crate) fn handed_by(mut self, owner: Owner) -> Self {
        self.shares.iter_mut().for_each(|share| share.0 = share.0.of(owner));
        self
    }

    /// The figure as a quantity; none where its unit is another.
    pub fn worked<Q: Quantity>(&self) -> Option<Worked<Q>> {
        (self.unit == Q::UNIT).then(|| Worked::of_figure(self))
    }
}
