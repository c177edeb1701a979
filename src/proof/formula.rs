//! A formula written once: how it is worked, with its ranges and its doubt.

use super::cause::root_sum_square;
use super::worked::Carried;
use super::working::MOST_SYMBOLS;
use super::{Begun, Cause, Formula, Node, Origin, Refusal, Worked, Working};
use crate::quantity::Quantity;
use std::sync::Arc;

/// What goes into a formula for one of its symbols.
#[derive(Clone, Copy, Debug)]
pub struct Given<'a> {
    number: f64,
    shares: &'a [(Cause, f64)],
    band: Option<(f64, f64)>,
    remembered: bool,
    bent: bool,
    spread: bool,
    node: &'a Node,
    origin: &'a Arc<Origin>,
}

impl<'a, Q: Quantity> From<&'a Worked<Q>> for Given<'a> {
    fn from(worked: &'a Worked<Q>) -> Self {
        let (number, shares, band) = (worked.number(), worked.shares(), worked.band());
        let (remembered, bent, node, origin) = (worked.from_memory(), worked.is_bent(), worked.node(), worked.origin());
        Self { number, shares, band, remembered, bent, spread: worked.is_spread(), node, origin }
    }
}

/// By how much the wider side of a doubt may pass its middle before it is taken in its place: a bow of this size moves the
/// half-width of 95 % by under 1 % (of three tenths, by 5 %).
const STRAIGHT: f64 = 0.10;

/// By how much causes may reach further together than each alone (at a bend of the figure) before that is taken: up to here the
/// half-width of 95 % moves by under 5 %.
const TOGETHER: f64 = 0.5;

/// By how much a doubt may grow by that before the figure is said to be bent.
const BENT: f64 = 0.05;

/// Works a formula: checks each range, evaluates once, then once up and once down for each cause of doubt (GUM, numerical),
/// and at every corner of the bands. Where up and down differ, the share is the wider of both; where the causes of one symbol
/// reach together what none of them reaches alone (no interference, but within its doubt), what they reach together.
///
/// # Errors
/// [`Refusal::Outside`] where a symbol or an end of its band lies outside its range, [`Refusal::NotFinite`] where the result is
/// not a number.
pub fn work<R: Quantity>(
    formula: &'static Formula,
    number: fn(&[f64]) -> f64,
    given: &[Given],
) -> Result<Worked<R>, Refusal> {
    let Outcome { result, shares, band, origin, carried } = outcome(formula, number, given)?;
    Ok(Worked::formula(R::new(result), shares, band, origin, carried))
}

/// What a formula gives, whatever kind of figure it is.
struct Outcome {
    result: f64,
    shares: Vec<(Cause, f64)>,
    band: Option<(f64, f64)>,
    origin: Arc<Origin>,
    carried: Carried,
}

fn outcome(formula: &'static Formula, number: fn(&[f64]) -> f64, given: &[Given]) -> Result<Outcome, Refusal> {
    for (symbol, given) in formula.symbols.iter().zip(given) {
        let outside = |got: &f64| !symbol.within.contains(got);
        let end = || given.band.and_then(|(low, high)| [low, high].into_iter().find(outside));
        if let Some(got) = Some(given.number).filter(outside).or_else(end) {
            let (&least, &most) = (symbol.within.start(), symbol.within.end());
            return Err(Refusal::Outside { what: symbol.word, got, least, most, unit: symbol.unit });
        }
    }
    let numbers = filled(given);
    let result = numbers.get(..given.len()).map_or(f64::NAN, number);
    let Doubt { shares, bent } = doubt(number, given, &numbers, result);
    let (mut finite, mut band) = (result.is_finite() && shares.iter().all(|share| share.1.is_finite()), None);
    at_corners(number, given, &numbers, |corner| {
        let (low, high) = band.unwrap_or((result, result));
        finite &= corner.is_finite();
        band = Some((f64::min(low, corner), f64::max(high, corner)));
    });
    if !finite {
        return Err(Refusal::NotFinite { formula: formula.text });
    }
    let working = Working { formula, given: numbers, result };
    let origin = Arc::new(Origin::Formula(working, Begun::all(given.iter().map(|g| g.origin))));
    let remembered = given.iter().any(|g| g.remembered);
    let spread = given.iter().any(|g| g.spread);
    let carried =
        Carried { remembered, bent, spread, node: Node::formula(result, number, given.iter().map(|g| g.node)) };
    Ok(Outcome { result, shares, band, origin, carried })
}

/// The doubt of a result: its share of each cause, and whether it is bent.
#[derive(Default)]
struct Doubt {
    shares: Vec<(Cause, f64)>,
    bent: bool,
}

/// What each cause does.
type Shares = [(Cause, f64)];

fn doubt(number: fn(&[f64]) -> f64, given: &[Given], numbers: &Numbers, result: f64) -> Doubt {
    // Most of what a formula is given has none.
    if given.iter().all(|g| g.shares.is_empty()) {
        return Doubt::default();
    }
    // What the formula gives as its symbols go up, and down, by their shares.
    let both_ways = |share: &dyn Fn(&Shares) -> f64| {
        let mut moves = [0.0; MOST_SYMBOLS];
        moves.iter_mut().zip(given).for_each(|(slot, g)| *slot = share(g.shares));
        [1.0, -1.0].map(|sign| {
            let mut moves = moves.iter();
            let mut moved = |g: &Given| moves.next().map(|by| g.number + sign * by).filter(|_| !g.shares.is_empty());
            at(number, given, numbers, &mut moved)
        })
    };
    let along = |way: &Shares| {
        let by = |cause: Cause| way.iter().filter(|part| part.0 == cause).map(|part| part.1).sum::<f64>();
        both_ways(&|of| of.iter().map(|share| share.1 * by(share.0)).sum())
    };
    let mut shares = each_cause(given);
    let (mut alone, mut straight) = (0.0, 0.0);
    for (cause, share) in &mut shares {
        let [up, down] = both_ways(&|of| of.iter().filter(|s| s.0 == *cause).map(|s| s.1).sum());
        let (up, down) = (up - result, result - down);
        *share = wider(up, down);
        alone += share.powi(2);
        straight += ((up + down) / 2.0).powi(2);
    }
    let (alone, straight) = (f64::sqrt(alone), f64::sqrt(straight));
    let carries = |g: &Given| g.bent && !g.shares.is_empty();
    let together = given.iter().filter_map(|g| together(g, result, &along)).max_by(|a, b| a.1.total_cmp(&b.1));
    let together = together.filter(|(_, most)| *most > alone * (1.0 + TOGETHER));
    let bent = given.iter().any(carries) || together.is_some() || alone > straight * (1.0 + BENT);
    if let Some((way, most)) = together {
        shares = way.into_iter().map(|part| (part.0, part.1 * most)).collect();
    }
    Doubt { shares, bent }
}

/// Every cause of doubt once, in their order, with no share yet.
fn each_cause(given: &[Given]) -> Vec<(Cause, f64)> {
    let mut all = Vec::with_capacity(given.iter().map(|g| g.shares.len()).sum());
    all.extend(given.iter().flat_map(|g| g.shares).map(|share| (share.0, 0.0)));
    all.sort_unstable_by_key(|share| share.0);
    all.dedup_by_key(|share| share.0);
    all
}

/// A number for each symbol, in a row as long as the longest.
type Numbers = [f64; MOST_SYMBOLS];

fn filled(given: &[Given]) -> Numbers {
    let mut all = [0.0; MOST_SYMBOLS];
    all.iter_mut().zip(given).for_each(|(slot, g)| *slot = g.number);
    all
}

/// The formula at these numbers, but for the symbols that stand at another.
fn at(
    number: fn(&[f64]) -> f64,
    given: &[Given],
    numbers: &Numbers,
    mut other: impl FnMut(&Given) -> Option<f64>,
) -> f64 {
    let mut all = *numbers;
    all.iter_mut().zip(given).for_each(|(slot, g)| *slot = other(g).unwrap_or(*slot));
    all.get(..given.len()).map_or(f64::NAN, number)
}

/// The way on which all causes of a symbol go together, each by its part of their sum of squares, and what the result does on it;
/// on a straight figure never more than the sum of squares of what each does alone. Nothing where there are not two.
fn together(given: &Given, result: f64, along: &impl Fn(&Shares) -> [f64; 2]) -> Option<(Vec<(Cause, f64)>, f64)> {
    if given.shares.len() < 2 {
        return None;
    }
    let whole = root_sum_square(given.shares);
    if whole <= 0.0 {
        return None;
    }
    let way: Vec<_> = given.shares.iter().map(|(cause, share)| (*cause, share / whole)).collect();
    let [up, down] = along(&way).map(|moved| (moved - result).abs());
    let most = up.max(down);
    Some((way, most))
}

/// The share of a cause from what it does upward and downward: the middle of both where the figure is straight, else the wider.
fn wider(up: f64, down: f64) -> f64 {
    let (middle, most) = ((up + down) / 2.0, up.abs().max(down.abs()));
    if most > middle.abs() * (1.0 + STRAIGHT) { most.copysign(middle) } else { middle }
}

/// Meets the result at each corner of the bands; none where no symbol has a band. From one corner to the next one symbol alone goes to
/// its other end.
fn at_corners(number: fn(&[f64]) -> f64, given: &[Given], numbers: &Numbers, mut met: impl FnMut(f64)) {
    let mut bands = [(0, 0.0, 0.0); MOST_SYMBOLS];
    let mut banded = 0;
    let mut all = *numbers;
    for (place, (slot, given)) in all.iter_mut().zip(given).enumerate() {
        if let (Some((low, high)), Some(band)) = (given.band, bands.get_mut(banded)) {
            (*band, *slot) = ((place, low, high), low);
            banded += 1;
        }
    }
    let corners = if banded == 0 { 0 } else { 1_usize << banded };
    for corner in 0..corners {
        if let Some(&(place, low, high)) = bands.get(corner.trailing_zeros() as usize).filter(|_| corner > 0)
            && let Some(slot) = all.get_mut(place)
        {
            *slot = if *slot == low { high } else { low };
        }
        met(all.get(..given.len()).map_or(f64::NAN, number));
    }
}

/// Writes a formula of the handbook once.
///
/// ```text
/// formula! {
///     /// Spindle speed for a wanted cutting speed.
///     spindle_speed(v: MPerMin = "the cutting speed" in 0.1..=2_000.0, d: Mm = "the diameter" in 0.05..=5_000.0)
///         -> n: RevPerMin { 1000.0 * v / (PI * d) }
///     source Derived "identity: circumference × turns"
/// }
/// ```
#[macro_export]
macro_rules! formula {
    ($(#[$doc:meta])* $name:ident($($sym:ident: $Q:ty = $word:literal in $within:expr),+ $(,)?)
        -> $out:ident: $R:ty { $body:expr } source $mark:ident $source:literal) => {
        $(#[$doc])*
        ///
        /// # Errors
        /// [`Refusal::Outside`](crate::proof::Refusal) outside the range of a symbol.
        #[allow(non_snake_case, clippy::too_many_arguments)]
        pub fn $name(
            $($sym: &$crate::proof::Worked<$Q>),+
        ) -> Result<$crate::proof::Worked<$R>, $crate::proof::Refusal> {
            use $crate::proof::{Formula, Mark, Source, Symbol, work};
            use $crate::quantity::Quantity;
            static FORMULA: Formula = Formula {
                name: stringify!($name),
                result: stringify!($out),
                unit: <$R>::UNIT,
                text: stringify!($body),
                source: Source::fixed($source, Mark::$mark),
                symbols: &[$(Symbol { name: stringify!($sym), word: $word, unit: <$Q>::UNIT, within: $within }),+],
            };
            fn number(given: &[f64]) -> f64 {
                #[allow(unused_imports)]
                use $crate::proof::maths::*;
                let &[$($sym),+] = given else { return f64::NAN };
                $body
            }
            work(&FORMULA, number, &[$($crate::proof::Given::from($sym)),+])
        }
    };
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Mm;

    crate::formula! {
        /// A square, less the other.
        bow(a: Mm = "a size" in -10.0..=10.0, b: Mm = "another" in -10.0..=10.0) -> y: Mm { sq(a) - b } source Own "for this test"
    }

    crate::formula! {
        /// Not under nothing.
        not_negative(a: Mm = "a size" in -10.0..=10.0) -> y: Mm { max(0.0, a) } source Own "for this test"
    }

    fn read(number: f64, doubt: f64) -> Worked<Mm> {
        Worked::assumed(Mm::new(number), "a test").with_doubt(Cause::Named("gauge"), doubt)
    }

    #[test]
    fn where_up_and_down_differ_the_wider_side_is_the_doubt_and_the_figure_says_so() -> Result<(), Refusal> {
        let sure = Worked::assumed(Mm::new(1.0), "a test");
        let flat = bow(&read(0.0, 0.5), &sure)?;
        assert_eq!((flat.plus_minus(), flat.is_bent()), (0.25, true));
        assert!(flat.origin_of_doubt().working().iter().any(|line| line.contains("not linear")));
        let steep = bow(&read(5.0, 0.01), &sure)?;
        assert!(!steep.is_bent() && (steep.plus_minus() - 0.1).abs() < 1e-9);
        assert!(bow(&flat.becomes(), &sure)?.is_bent(), "what follows from a bent figure is bent");
        Ok(())
    }

    /// Two doubts that only together reach past a clamp are not nothing.
    #[test]
    fn what_causes_reach_together_is_counted() -> Result<(), Refusal> {
        let two = |number: f64| {
            let one = Worked::assumed(Mm::new(number), "a test").with_doubt(Cause::Named("one"), 0.3);
            one.with_doubt(Cause::Named("two"), 0.4)
        };
        let under = not_negative(&two(-0.45))?;
        assert!(under.is_bent() && (under.plus_minus() - 0.05).abs() < 1e-9, "{}", under.plus_minus());
        assert!(not_negative(&two(-0.6))?.plus_minus() < 1e-9, "out of reach");
        let above = not_negative(&two(2.0))?;
        assert!(!above.is_bent() && (above.plus_minus() - 0.5).abs() < 1e-9, "straight as it was");
        Ok(())
    }

    #[test]
    fn shares_of_one_cause_go_together_in_graph_and_sum_alike() -> Result<(), Refusal> {
        let one = bow(&read(0.5, 0.01), &read(1.0, 0.01))?;
        // Up and down go the same small way: only the bow is left.
        assert!((one.plus_minus() - 0.01 * 0.01).abs() < 1e-9 && one.is_bent(), "{}", one.plus_minus());
        let graph = super::super::Graph::of([one.node()]);
        assert_eq!(graph.causes(), [Cause::Named("gauge")]);
        Ok(())
    }
}
