//! A quantity with its origin and its doubt.

use super::{At, Cited, Origin, Place, Source};
use crate::quantity::{Quantity, Wanted};

/// What a share of doubt is due to. Shares of one cause are one reading: they are summed before they are squared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// A reading, known by where it was written.
    Reading(Place),
    /// An instrument, a dial or a stop, known by its name here.
    Named(&'static str),
}

/// A quantity, how it came about, and its doubt as signed shares (k = 2) per cause.
#[derive(Clone, Debug, PartialEq)]
pub struct Worked<Q> {
    /// The figure.
    pub value: Q,
    /// The signed share of each cause, in the quantity's unit.
    pub shares: Vec<(Cause, f64)>,
    /// Low and high of a handbook disagreement, where the figure has one; never mixed into the doubt.
    pub band: Option<(f64, f64)>,
    /// How it came about.
    pub origin: Origin,
}

impl<Q: Quantity> Worked<Q> {
    /// A figure without doubt.
    pub fn exact(value: Q, origin: Origin) -> Self {
        Self { value, shares: Vec::new(), band: None, origin }
    }

    /// A default, with the reason that the list of assumptions shows.
    pub fn assumed(value: Q, why: impl Into<String>) -> Self {
        Self::exact(value, Origin::Assumed(why.into()))
    }

    /// A figure from a row of a table.
    pub fn row(value: Q, row: impl Into<String>, source: Source) -> Self {
        Self::exact(value, Origin::Row(Cited { row: row.into(), source }))
    }

    /// A figure found by a method that is not algebra.
    pub fn method(value: Q, lines: Vec<String>, source: Source) -> Self {
        Self::exact(value, Origin::Method { lines, source })
    }

    /// The same figure with one cause of doubt.
    pub fn with_doubt(mut self, cause: Cause, half_width: f64) -> Self {
        if half_width > 0.0 {
            self.shares.push((cause, half_width));
        }
        self
    }

    /// The same figure with the band of a disagreement.
    pub fn with_band(self, low: f64, high: f64) -> Self {
        Self { band: Some((low.min(high), low.max(high))), ..self }
    }

    /// The number, in the quantity's unit.
    pub fn number(&self) -> f64 {
        self.value.number()
    }

    /// The doubt: root of the sum of squares over causes; the shares of one cause are added first.
    pub fn plus_minus(&self) -> f64 {
        root_sum_square(&self.shares)
    }

    /// The lower end of the doubt.
    pub fn low(&self) -> f64 {
        self.number() - self.plus_minus()
    }

    /// The upper end of the doubt.
    pub fn high(&self) -> f64 {
        self.number() + self.plus_minus()
    }

    /// The same figure, origin and doubt as another kind of quantity in the same unit.
    pub fn becomes<R: Quantity>(&self) -> Worked<R> {
        debug_assert_eq!(Q::UNIT, R::UNIT, "a figure keeps its unit");
        let Self { value, shares, band, origin } = self.clone();
        Worked { value: R::new(value.number()), shares, band, origin }
    }

    /// One end of the figure as a figure of its own, without doubt ("at the bad end").
    pub fn end(&self, number: f64, words: &str) -> Self {
        let lines = self.origin.working().into_iter().chain([format!(
            "{words}: {} {}",
            crate::quantity::figure(number),
            Q::UNIT
        )]);
        let (text, mark) = (self.origin.source(), self.origin.mark().unwrap_or(super::Mark::Derived));
        // The words of a source end with its mark; here it stands beside them.
        let bare = text.strip_suffix(&format!(" ({})", mark.text())).unwrap_or(&text).to_owned();
        let source = Source { text: bare.into(), mark };
        Self::method(Q::new(number), lines.collect(), source)
    }
}

/// Root of the sum of squares over causes, shares of one cause added first.
pub(super) fn root_sum_square(shares: &[(Cause, f64)]) -> f64 {
    let of = |cause: Cause| shares.iter().filter(|s| s.0 == cause).map(|s| s.1).sum::<f64>();
    shares.iter().map(|&(cause, share)| share * of(cause)).sum::<f64>().max(0.0).sqrt()
}

impl<Q: Quantity> From<&At<Q>> for Worked<Q> {
    fn from(at: &At<Q>) -> Self {
        Self::exact(at.value, Origin::Typed(at.place))
    }
}

impl<Q: Quantity> From<&At<Wanted<Q>>> for Worked<Q> {
    fn from(at: &At<Wanted<Q>>) -> Self {
        Self::exact(at.value.nominal, Origin::Typed(at.place))
    }
}
