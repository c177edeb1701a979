//! A quantity with its origin, its band and its doubt.
//!
//! A figure keeps its doubt and its band from the reading or the row to the verdict. Both are dropped in two ways only, and
//! both ways leave a trace in the origin: [`Worked::nominal`] gives the middle with the reason why the middle is enough, and
//! [`Worked::worst`] gives the bad end.

use super::{At, Cited, Mark, Origin, Place, Source};
use crate::quantity::{Quantity, Wanted};

/// What a share of doubt is due to. Shares of one cause are one reading: they are summed before they are squared.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cause {
    /// A reading, known by where it was written.
    Reading(Place),
    /// An instrument, a dial, a stop or a remembered row, known by its name here.
    Named(&'static str),
}

/// An end of what a figure may be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// As small as it may be.
    Low,
    /// As large as it may be.
    High,
}

/// A quantity, how it came about, its band, and its doubt as signed shares (k = 2) per cause.
#[derive(Clone, Debug, PartialEq)]
pub struct Worked<Q> {
    value: Q,
    shares: Vec<(Cause, f64)>,
    band: Option<(f64, f64)>,
    origin: Origin,
    remembered: bool,
}

impl<Q: Quantity> Worked<Q> {
    /// A figure without doubt.
    pub fn exact(value: Q, origin: Origin) -> Self {
        let remembered = origin.mark() == Some(Mark::FromMemory);
        Self { value, shares: Vec::new(), band: None, origin, remembered }
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

    /// What a formula gives: only [`super::work`] makes such a figure.
    pub(super) fn formula(
        value: Q,
        shares: Vec<(Cause, f64)>,
        band: Option<(f64, f64)>,
        origin: Origin,
        remembered: bool,
    ) -> Self {
        let remembered = remembered || origin.mark() == Some(Mark::FromMemory);
        Self { value, shares, band, origin, remembered }
    }

    /// The same figure with one cause of doubt more.
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

    /// The same figure, known to rest on a figure from memory.
    pub fn resting_on_memory(self, rests: bool) -> Self {
        Self { remembered: self.remembered || rests, ..self }
    }

    /// The quantity.
    pub fn value(&self) -> Q {
        self.value
    }

    /// The number, in the quantity's unit.
    pub fn number(&self) -> f64 {
        self.value.number()
    }

    /// The signed share of each cause, in the quantity's unit.
    pub fn shares(&self) -> &[(Cause, f64)] {
        &self.shares
    }

    /// Low and high of a handbook disagreement, where the figure has one; never mixed into the doubt.
    pub fn band(&self) -> Option<(f64, f64)> {
        self.band
    }

    /// How it came about.
    pub fn origin(&self) -> &Origin {
        &self.origin
    }

    /// Whether it rests on a figure that was remembered and not read.
    pub fn from_memory(&self) -> bool {
        self.remembered
    }

    /// The doubt (k = 2): root of the sum of squares over causes; the shares of one cause are added first.
    pub fn plus_minus(&self) -> f64 {
        root_sum_square(&self.shares)
    }

    /// An end of the band; the figure itself where it has none.
    pub fn band_end(&self, side: Side) -> f64 {
        match (self.band, side) {
            (Some((low, _)), Side::Low) => low.min(self.number()),
            (Some((_, high)), Side::High) => high.max(self.number()),
            (None, _) => self.number(),
        }
    }

    /// The bad end: the end of the band, then the doubt by the guard factor (2 keeps k = 2).
    pub fn worst_number(&self, side: Side, guard: f64) -> f64 {
        let doubt = self.plus_minus() * guard / 2.0;
        self.band_end(side) + if side == Side::Low { -doubt } else { doubt }
    }

    /// The lower end of band and doubt (k = 2).
    pub fn low(&self) -> f64 {
        self.worst_number(Side::Low, 2.0)
    }

    /// The upper end of band and doubt (k = 2).
    pub fn high(&self) -> f64 {
        self.worst_number(Side::High, 2.0)
    }

    /// The middle alone, without band and doubt; `reason` says why that is enough and stays in the origin.
    pub fn nominal(&self, reason: &'static str) -> Self {
        if self.shares.is_empty() && self.band.is_none() {
            return self.clone();
        }
        let origin = Origin::Nominal { reason, of: Box::new(self.origin.clone()) };
        Self { value: self.value, shares: Vec::new(), band: None, origin, remembered: self.remembered }
    }

    /// The bad end as a figure of its own: end of the band, then the doubt by the guard factor.
    pub fn worst(&self, side: Side, guard: f64) -> Self {
        let number = self.worst_number(side, guard);
        if number == self.number() && self.shares.is_empty() && self.band.is_none() {
            return self.clone();
        }
        let says = format!("at its {} end: {} {}", side.text(), crate::quantity::figure(number), Q::UNIT);
        let origin = Origin::End { says, of: Box::new(self.origin.clone()) };
        Self { value: Q::new(number), shares: Vec::new(), band: None, origin, remembered: self.remembered }
    }

    /// Another figure in its place, without doubt (for removal: each use is a `scaled`, `shifted`, `at_least`, `worst`).
    pub fn end(&self, number: f64, words: &str) -> Self {
        Self { shares: Vec::new(), band: None, ..self.changed(number, None, 1.0, words) }
    }

    /// The same figure moved by so much, by a rule in words; band and doubt move with it.
    pub fn shifted(&self, by: f64, words: &str) -> Self {
        let number = self.number() + by;
        self.changed(number, self.band.map(|(low, high)| (low + by, high + by)), 1.0, words)
    }

    /// So many times the figure, by a rule in words; band and doubt grow with it.
    pub fn scaled(&self, factor: f64, words: &str) -> Self {
        let band = self.band.map(|(a, b)| ((a * factor).min(b * factor), (a * factor).max(b * factor)));
        self.changed(self.number() * factor, band, factor, words)
    }

    /// Not under a floor; the ends of the band are held apart, the doubt stays.
    pub fn at_least(&self, floor: f64, words: &str) -> Self {
        self.held(|x| x.max(floor), words)
    }

    /// Not over a ceiling; the ends of the band are held apart, the doubt stays.
    pub fn at_most(&self, ceiling: f64, words: &str) -> Self {
        self.held(|x| x.min(ceiling), words)
    }

    fn held(&self, hold: impl Fn(f64) -> f64, words: &str) -> Self {
        let (number, band) = (hold(self.number()), self.band.map(|(low, high)| (hold(low), hold(high))));
        if number == self.number() && band == self.band { self.clone() } else { self.changed(number, band, 1.0, words) }
    }

    fn changed(&self, number: f64, band: Option<(f64, f64)>, times: f64, words: &str) -> Self {
        let says = format!("{words}: {} {}", crate::quantity::figure(number), Q::UNIT);
        let origin = Origin::End { says, of: Box::new(self.origin.clone()) };
        let shares = self.shares.iter().map(|(cause, share)| (*cause, share * times)).collect();
        Self { value: Q::new(number), shares, band, origin, remembered: self.remembered }
    }

    /// The same figure, origin, band and doubt as another kind of quantity in the same unit.
    pub fn becomes<R: Quantity>(&self) -> Worked<R> {
        debug_assert_eq!(Q::UNIT, R::UNIT, "a figure keeps its unit");
        self.recast()
    }

    /// The number of a table's column, which has no unit of its own, as the quantity that the column is in.
    pub fn recast<R: Quantity>(&self) -> Worked<R> {
        let Self { value, shares, band, origin, remembered } = self.clone();
        Worked { value: R::new(value.number()), shares, band, origin, remembered }
    }
}

impl Side {
    /// In a word.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Low => "low",
            Self::High => "high",
        }
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Mm;

    fn figure() -> Worked<Mm> {
        Worked::assumed(Mm::new(2.0), "a test").with_band(1.5, 3.0).with_doubt(Cause::Named("gauge"), 0.1)
    }

    #[test]
    fn the_bad_end_is_the_end_of_the_band_and_then_the_doubt() {
        assert_eq!(figure().worst_number(Side::Low, 2.0), 1.4);
        assert_eq!(figure().worst_number(Side::High, 1.0), 3.05);
        let worst = figure().worst(Side::High, 2.0);
        assert_eq!((worst.number(), worst.plus_minus(), worst.band()), (3.1, 0.0, None));
        assert!(worst.origin().working().last().is_some_and(|line| line.contains("at its high end: 3.1 mm")));
    }

    #[test]
    fn what_is_dropped_leaves_its_reason() {
        let middle = figure().nominal("a size to set");
        assert_eq!((middle.plus_minus(), middle.band()), (0.0, None));
        assert!(middle.origin().working().iter().any(|line| line.contains("a size to set")));
    }

    #[test]
    fn a_clamp_holds_each_end_apart_and_never_the_doubt() {
        let held = figure().at_least(2.5, "not under");
        assert_eq!((held.number(), held.band(), held.plus_minus()), (2.5, Some((2.5, 3.0)), 0.1));
    }
}
