//! A quantity with its origin, its band and its doubt.
//!
//! A figure keeps its doubt and its band from the reading or the row to the verdict. Both are dropped in two ways only, and
//! both ways leave a trace in the origin: [`Worked::nominal`] gives the middle with the reason why the middle is enough, and
//! [`Worked::worst`] gives the worst end.

use super::cause::root_sum_square;
use super::{At, Begun, Cause, Cited, Done, Mark, Node, Origin, Side, Source};
use crate::quantity::{Quantity, Unit, Wanted};
use std::borrow::Cow;
use std::marker::PhantomData;
use std::sync::Arc;

/// What the working of a bent figure says.
const BENT_SAYS: &str = "not linear over the doubt of its readings: the ± is that of the wider side";

/// What a formula hands on beside its figures.
pub(super) struct Carried {
    /// Whether a symbol rests on memory.
    pub remembered: bool,
    /// Whether it is bent.
    pub bent: bool,
    /// Whether every end of its band is there.
    pub spread: bool,
    /// What it was worked from.
    pub node: Node,
}

/// A quantity, how it came about, its band, and its doubt as signed shares (k = 2) per cause. What it holds is written once for all
/// kinds of quantity, and a copy of it shares it.
#[derive(Clone, Debug, PartialEq)]
pub struct Worked<Q> {
    held: Arc<Held>,
    kind: PhantomData<Q>,
}

#[derive(Clone, Debug, PartialEq)]
struct Held {
    number: f64,
    unit: Unit,
    shares: Vec<(Cause, f64)>,
    band: Option<(f64, f64)>,
    origin: Arc<Origin>,
    remembered: bool,
    bent: bool,
    spread: bool,
    node: Node,
}

impl<Q> From<Held> for Worked<Q> {
    fn from(held: Held) -> Self {
        Self { held: Arc::new(held), kind: PhantomData }
    }
}

impl<Q: Quantity> Worked<Q> {
    /// A figure without doubt.
    pub fn exact(value: Q, origin: impl Into<Arc<Origin>>) -> Self {
        Held::exact(value.number(), Q::UNIT, origin.into()).into()
    }

    /// A default, with the reason that the list of assumptions shows.
    pub fn assumed(value: Q, why: impl Into<Cow<'static, str>>) -> Self {
        Self::exact(value, Origin::Assumed(why.into()))
    }

    /// A figure from a row of a table.
    pub fn row(value: Q, row: impl Into<Cow<'static, str>>, source: Source) -> Self {
        Self::exact(value, Origin::Row(Cited { row: row.into(), source }))
    }

    /// A figure found by a method that is not algebra.
    pub(crate) fn method(value: Q, lines: Vec<String>, source: Source) -> Self {
        Self::method_of(value, lines, source, [])
    }

    /// A figure found from others by a method that is not algebra.
    pub(crate) fn method_of<const N: usize>(
        value: Q,
        lines: Vec<String>,
        source: Source,
        of: [&Arc<Origin>; N],
    ) -> Self {
        Self::exact(value, Origin::Method { lines, source, of: Begun::each(of) })
    }

    /// A sum of figures, each so many times, and so much more: doubts go together by cause, the bands at their worst corner.
    /// `says` and the source tell how the factors were found.
    pub fn sum(terms: &[(f64, &Self)], more: f64, says: &str, source: Source) -> Self {
        let terms: Vec<(f64, &Held)> = terms.iter().map(|(times, term)| (*times, term.held.as_ref())).collect();
        Held::sum(&terms, (more, Q::UNIT), says, source).into()
    }

    /// What a formula gives: only [`super::work`] makes such a figure.
    pub(super) fn formula(
        value: Q,
        shares: Vec<(Cause, f64)>,
        band: Option<(f64, f64)>,
        origin: Arc<Origin>,
        carried: Carried,
    ) -> Self {
        Held::formula((value.number(), Q::UNIT), shares, band, origin, carried).into()
    }

    /// The same figure with a line more about how it came here.
    pub fn told(mut self, says: String) -> Self {
        let held = Arc::make_mut(&mut self.held);
        held.origin = Origin::End { says: Done::Told(says.into()), of: held.origin.clone() }.into();
        self
    }

    /// The same figure with one cause of doubt more.
    pub fn with_doubt(mut self, cause: Cause, half_width: f64) -> Self {
        if half_width > 0.0 {
            let held = Arc::make_mut(&mut self.held);
            held.shares.push((cause, half_width));
            held.node = held.node.clone().doubted(cause, half_width);
        }
        self
    }

    /// The same figure with the band of a disagreement.
    pub fn with_band(mut self, low: f64, high: f64) -> Self {
        Arc::make_mut(&mut self.held).take_band(low, high, false);
        self
    }

    /// The same figure with the band of what was read at several places of the part: each of them is there, so that what fails at
    /// one of them fails.
    pub(crate) fn with_spread(mut self, low: f64, high: f64) -> Self {
        Arc::make_mut(&mut self.held).take_band(low, high, true);
        self
    }

    /// Whether both ends of its band are there, each at a place of the part: a figure read at several places, or what follows from
    /// one.
    pub fn is_spread(&self) -> bool {
        self.held.spread
    }

    /// The number that tells whether it fails: the middle of what is not known better, the worse end of what is there.
    pub(crate) fn as_there(&self, bad: Side) -> f64 {
        if self.held.spread { self.band_end(bad) } else { self.number() }
    }

    /// The quantity.
    pub fn value(&self) -> Q {
        Q::new(self.held.number)
    }

    /// The number, in the quantity's unit.
    pub fn number(&self) -> f64 {
        self.held.number
    }

    /// The signed share of each cause, in the quantity's unit.
    pub fn shares(&self) -> &[(Cause, f64)] {
        &self.held.shares
    }

    /// Low and high of a handbook disagreement, where the figure has one; never mixed into the doubt.
    pub fn band(&self) -> Option<(f64, f64)> {
        self.held.band
    }

    /// How it came about.
    pub fn origin(&self) -> &Arc<Origin> {
        &self.held.origin
    }

    /// Whether it rests on a figure that was remembered and not read.
    pub fn from_memory(&self) -> bool {
        self.held.remembered
    }

    /// Whether the figure does not follow its readings in a straight line over their doubt: then its doubt is the wider side's.
    pub(crate) fn is_bent(&self) -> bool {
        self.held.bent
    }

    /// How it came about; a bent figure says what its doubt is.
    pub(crate) fn origin_of_doubt(&self) -> Arc<Origin> {
        match self.held.bent {
            true => Arc::new(Origin::End { says: Done::Told(BENT_SAYS.into()), of: self.held.origin.clone() }),
            false => self.held.origin.clone(),
        }
    }

    /// What it was worked from.
    pub fn node(&self) -> &Node {
        &self.held.node
    }

    /// The doubt (k = 2): root of the sum of squares over causes; the shares of one cause are added first.
    pub fn plus_minus(&self) -> f64 {
        root_sum_square(&self.held.shares)
    }

    /// An end of the band; the figure itself where it has none.
    pub fn band_end(&self, side: Side) -> f64 {
        self.held.band_end(side)
    }

    /// The worst end: the end of the band, then the doubt by the guard factor (2 keeps k = 2).
    pub(crate) fn worst_number(&self, side: Side, guard: f64) -> f64 {
        self.held.worst_number(side, guard)
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
        self.or_same(self.held.nominal(reason))
    }

    /// What was made of it; itself where nothing had to be.
    fn or_same(&self, made: Option<Held>) -> Self {
        made.map_or_else(|| self.clone(), Self::from)
    }

    /// The worst end as a figure of its own: end of the band, then the doubt by the guard factor.
    pub fn worst(&self, side: Side, guard: f64) -> Self {
        self.or_same(self.held.worst(side, guard))
    }

    /// The same figure moved by so much, by a rule in words; band and doubt move with it.
    pub fn shifted(&self, by: f64, words: &'static str) -> Self {
        self.held.along(1.0, by, words).into()
    }

    /// So many times the figure, by a rule in words; band and doubt grow with it.
    pub fn scaled(&self, factor: f64, words: &'static str) -> Self {
        self.held.along(factor, 0.0, words).into()
    }

    /// Not under a floor; the ends of the band are held apart, the doubt stays.
    pub fn at_least(&self, floor: f64, words: &'static str) -> Self {
        self.or_same(self.held.between(floor, f64::INFINITY, words))
    }

    /// Not over a ceiling; the ends of the band are held apart, the doubt stays.
    pub fn at_most(&self, ceiling: f64, words: &'static str) -> Self {
        self.or_same(self.held.between(f64::NEG_INFINITY, ceiling, words))
    }

    /// The same figure, origin, band and doubt as another kind of quantity in the same unit.
    pub fn becomes<R: Quantity>(&self) -> Worked<R> {
        const { assert!(Q::UNIT as u8 == R::UNIT as u8, "a figure keeps its unit") };
        self.recast()
    }

    /// The number of a table's column, which has no unit of its own, as the quantity that the column is in.
    pub(crate) fn recast<R: Quantity>(&self) -> Worked<R> {
        let mut held = self.held.clone();
        if Q::UNIT != R::UNIT {
            Arc::make_mut(&mut held).unit = R::UNIT;
        }
        Worked { held, kind: PhantomData }
    }
}

impl Held {
    fn exact(number: f64, unit: Unit, origin: Arc<Origin>) -> Self {
        let remembered = origin.mark() == Some(Mark::FromMemory);
        let node = Node::fixed(number);
        Self { number, unit, shares: Vec::new(), band: None, origin, remembered, bent: false, spread: false, node }
    }

    fn sum(terms: &[(f64, &Self)], (more, unit): (f64, Unit), says: &str, source: Source) -> Self {
        let of = Begun::all(terms.iter().map(|term| &term.1.origin));
        let origin: Arc<Origin> = Arc::new(Origin::Method { lines: vec![says.to_owned()], source, of });
        let total =
            |of: &dyn Fn(f64, &Self) -> f64| terms.iter().fold(more, |sum, (times, term)| sum + of(*times, term));
        let number = total(&|times, term| times * term.number);
        let end = |times: f64, term: &Self, choose: fn(f64, f64) -> f64| {
            choose(times * term.band_end(Side::Low), times * term.band_end(Side::High))
        };
        let banded = terms.iter().any(|(_, term)| term.band.is_some());
        let band = banded.then(|| (total(&|t, x| end(t, x, f64::min)), total(&|t, x| end(t, x, f64::max))));
        let mut shares: Vec<(Cause, f64)> = Vec::new();
        for (cause, share) in terms.iter().flat_map(|(times, term)| term.shares.iter().map(|s| (s.0, s.1 * *times))) {
            match shares.iter_mut().find(|other| other.0 == cause) {
                Some(other) => other.1 += share,
                None => shares.push((cause, share)),
            }
        }
        let nodes: Vec<(f64, &Node)> = terms.iter().map(|(times, term)| (*times, &term.node)).collect();
        let carried = Carried {
            remembered: terms.iter().any(|term| term.1.remembered),
            bent: terms.iter().any(|term| term.1.bent && !term.1.shares.is_empty()),
            spread: terms.iter().any(|term| term.1.spread),
            node: Node::sum(number, &nodes, more),
        };
        Self::formula((number, unit), shares, band, origin, carried)
    }

    fn formula(
        (number, unit): (f64, Unit),
        shares: Vec<(Cause, f64)>,
        band: Option<(f64, f64)>,
        origin: Arc<Origin>,
        Carried { remembered, bent, spread, node }: Carried,
    ) -> Self {
        let remembered = remembered || origin.mark() == Some(Mark::FromMemory);
        Self { number, unit, shares, band, origin, remembered, bent, spread: spread && band.is_some(), node }
    }

    fn take_band(&mut self, low: f64, high: f64, spread: bool) {
        let (low, high) = (low.min(high), low.max(high));
        // A band in the place of another: the ends of the first are no longer this figure's.
        let of = if self.band.is_some() { Node::straight(self.number, &self.shares) } else { self.node.clone() };
        (self.band, self.spread, self.node) = (Some((low, high)), spread, of.banded(low, high));
    }

    fn band_end(&self, side: Side) -> f64 {
        match (self.band, side) {
            (Some((low, _)), Side::Low) => low.min(self.number),
            (Some((_, high)), Side::High) => high.max(self.number),
            (None, _) => self.number,
        }
    }

    fn worst_number(&self, side: Side, guard: f64) -> f64 {
        let doubt = root_sum_square(&self.shares) * guard / 2.0;
        self.band_end(side) + if side == Side::Low { -doubt } else { doubt }
    }

    fn nominal(&self, reason: &'static str) -> Option<Self> {
        if self.shares.is_empty() && self.band.is_none() {
            return None;
        }
        let origin = Origin::Nominal { reason, of: self.origin.clone() };
        Some(self.frozen(self.number, origin.into(), Node::fixed(self.number)))
    }

    fn worst(&self, side: Side, guard: f64) -> Option<Self> {
        let number = self.worst_number(side, guard);
        if number == self.number && self.shares.is_empty() && self.band.is_none() {
            return None;
        }
        let words = match side {
            Side::Low => "at its low end",
            Side::High => "at its high end",
        };
        Some(self.frozen(number, self.ended(number, words), self.node.worst(number)))
    }

    /// A number in its place that has neither doubt nor band.
    fn frozen(&self, number: f64, origin: Arc<Origin>, node: Node) -> Self {
        let (unit, remembered) = (self.unit, self.remembered);
        Self { number, unit, shares: Vec::new(), band: None, origin, remembered, bent: false, spread: false, node }
    }

    fn along(&self, times: f64, more: f64, words: &'static str) -> Self {
        let to = |x: f64| x * times + more;
        let (number, band) = (to(self.number), self.band.map(|(a, b)| (to(a).min(to(b)), to(a).max(to(b)))));
        let shares = self.shares.iter().map(|(cause, share)| (*cause, share * times)).collect();
        let (origin, node) = (self.ended(number, words), self.node.line(number, times, more));
        Self { number, shares, band, origin, node, ..*self }
    }

    /// Held between two limits. The doubt of a figure that a limit holds within its doubt is not straight: it stays the whole.
    fn between(&self, least: f64, most: f64, words: &'static str) -> Option<Self> {
        let hold = |x: f64| x.max(least).min(most);
        let (number, band) = (hold(self.number), self.band.map(|(low, high)| (hold(low), hold(high))));
        let reached = self.worst_number(Side::Low, 2.0) < least || self.worst_number(Side::High, 2.0) > most;
        if !reached {
            return None;
        }
        let same = number == self.number && band == self.band;
        let origin = if same { self.origin.clone() } else { self.ended(number, words) };
        let bent = self.bent || !self.shares.is_empty();
        let node = self.node.held(number, least, most);
        Some(Self { number, shares: self.shares.clone(), band, origin, bent, node, ..*self })
    }

    /// How it came about, and what was done to it.
    fn ended(&self, number: f64, words: &'static str) -> Arc<Origin> {
        let says = Done::Gave { words, number, unit: self.unit };
        Arc::new(Origin::End { says, of: self.origin.clone() })
    }
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
    fn the_worst_end_is_the_end_of_the_band_and_then_the_doubt() {
        assert_eq!(figure().worst_number(Side::Low, 2.0), 1.4);
        assert_eq!(figure().worst_number(Side::High, 1.0), 3.05);
        let worst = figure().worst(Side::High, 2.0);
        assert_eq!((worst.number(), worst.plus_minus(), worst.band()), (3.1, 0.0, None));
        assert!(worst.origin().working().last().is_some_and(|line| line.contains("at its high end: 3.1 mm")));
    }

    #[test]
    fn a_sum_takes_one_cause_once_and_bands_at_their_worst() {
        let (one, two) = (figure(), figure());
        let sum = Worked::sum(&[(1.0, &one), (-1.0, &two)], 5.0, "a test", Source::fixed("a test", Mark::Own));
        assert_eq!((sum.number(), sum.plus_minus(), sum.band()), (5.0, 0.0, Some((3.5, 6.5))));
        let sum = Worked::sum(&[(2.0, &one), (1.0, &two)], 0.0, "a test", Source::fixed("a test", Mark::Own));
        assert!((sum.plus_minus() - 0.3).abs() < 1e-12 && sum.number() == 6.0);
        let graph = super::super::Graph::of([sum.node()]);
        let mut draw = graph.as_read(super::super::BadEnds::Kept);
        draw.off = vec![2.0];
        assert!((graph.work(&draw, &mut Vec::new())[0] - 6.3).abs() < 1e-12);
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
        assert!(held.is_bent() && !figure().at_least(1.0, "not under").is_bent());
    }
}
