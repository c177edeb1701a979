//! A worked figure with its type forgotten: what crosses from one operation to another, and into the log.

use super::cause::root_sum_square;
use super::worked::Carried;
use super::{Cause, Node, Origin, Owner, Worked};
use crate::quantity::{Quantity, Unit};
use std::sync::Arc;

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
    pub origin: Arc<Origin>,
    /// Whether it rests on a figure that was remembered and not read.
    pub from_memory: bool,
    /// Whether it does not follow its readings in a straight line over their doubt.
    pub bent: bool,
    /// Whether both ends of its band are there, each at a place of the part.
    pub spread: bool,
}

impl Figure {
    /// A size as it was measured after the work: its doubt is that of the measuring, and nothing of the plan's doubt is left in it.
    pub fn as_left(number: f64, unit: Unit, plus_minus: f64, entry: u32) -> Self {
        let shares = if plus_minus > 0.0 { vec![(Cause::Left(entry), plus_minus)] } else { Vec::new() };
        let origin = Arc::new(Origin::AsLeft(entry));
        Self { number, unit, shares, band: None, origin, from_memory: false, bent: false, spread: false }
    }

    /// A reading that was taken after the work: an entry of the log. Whatever it was made of, its doubt stands as it is.
    #[must_use]
    pub fn left_by(self, entry: u32) -> Self {
        Self { origin: Arc::new(Origin::AsLeft(entry)), bent: false, ..self }
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
        (self.unit == Q::UNIT).then(|| {
            // What it was worked from stays with its owner; its causes come with it.
            let Self { number, shares, band, origin, from_memory, bent, spread, .. } = self.clone();
            let node = Node::straight(number, &shares);
            let node = band.map_or(node.clone(), |(low, high)| node.banded(low, high));
            let carried = Carried { remembered: from_memory, bent, spread, node };
            Worked::formula(Q::new(number), shares, band, origin, carried)
        })
    }
}

impl<Q: Quantity> Worked<Q> {
    /// The figure with its type forgotten.
    pub fn figure(&self) -> Figure {
        Figure {
            number: self.number(),
            unit: Q::UNIT,
            shares: self.shares().to_vec(),
            band: self.band(),
            origin: self.origin_of_doubt(),
            from_memory: self.from_memory(),
            bent: self.is_bent(),
            spread: self.is_spread(),
        }
    }
}
