//! An answer shaken: every reading drawn anew many times, each about what was read, and every figure worked again.
//!
//! A doubt is a half-width at k = 2, so a reading is drawn from the normal distribution with half of it as its standard
//! deviation; the shares of one cause are drawn once (GUM, Supplement 1). What was chosen at the figures as read stays chosen.

use super::{Answer, Value};
use crate::proof::{BadEnds, Cause, Chance, Check, Draw, Graph, Judged, Node, Outcome};
use crate::quantity::Unit;

/// An answer shaken.
#[derive(Clone, Debug, PartialEq)]
pub struct Shaken {
    /// How many times it was drawn.
    pub trials: usize,
    /// What the draws begin from.
    pub seed: u64,
    /// Its values that have a doubt or are moved by one.
    pub values: Vec<ShakenValue>,
    /// Its checks that were made with figures.
    pub checks: Vec<ShakenCheck>,
}

/// A value shaken.
#[derive(Clone, Debug, PartialEq)]
pub struct ShakenValue {
    /// Its key.
    pub key: &'static str,
    /// The figure.
    pub number: f64,
    /// Its doubt (k = 2) as it was worked.
    pub plus_minus: f64,
    /// The least half-width about the figure that holds 95 % of the draws.
    pub half_width: f64,
    /// Whether it says that it is bent over its doubt.
    pub bent: bool,
    /// Its unit.
    pub unit: Unit,
}

/// A check shaken.
#[derive(Clone, Debug, PartialEq)]
pub struct ShakenCheck {
    /// Its id.
    pub id: &'static str,
    /// What became of it.
    pub state: Outcome,
    /// The share of draws in which figure and limit, at the worst ends of their bands, hold; 0 to 1.
    pub holds: f64,
    /// The same, where figures that were taken at their worst end move with what they were taken from; 0 to 1.
    pub holds_thawed: f64,
    /// The cause that has the greatest part in the spread of its margin, and that part, 0 to 1.
    pub mostly: Option<(Cause, f64)>,
}

/// Shakes an answer so many times from a seed.
pub fn shake<W>(answer: &Answer<W>, trials: usize, seed: u64) -> Shaken {
    let checks = answer.checks.iter().filter_map(|check| shake_check(check, trials, seed)).collect();
    Shaken { trials, seed, values: shake_values(&answer.values, trials, seed), checks }
}

/// How readings are drawn of an instrument of which nobody knows what they share: each for itself, or all off alike. The worse counts.
#[derive(Clone, Copy)]
enum Alike {
    Apart,
    Together,
}

fn shake_values(values: &[Value], trials: usize, seed: u64) -> Vec<ShakenValue> {
    let graph = Graph::of(values.iter().map(|value| &value.node));
    let half_widths = |alike: Alike| -> Vec<f64> {
        let mut off: Vec<Vec<f64>> = values.iter().map(|_| Vec::with_capacity(trials)).collect();
        draws(&graph, &graph.as_read(BadEnds::Kept), (trials, seed, alike), |numbers| {
            for ((value, off), number) in values.iter().zip(&mut off).zip(numbers) {
                off.push(distance(*number, value.number));
            }
        });
        off.iter_mut().map(|off| nineteen_in_twenty(off)).collect()
    };
    let widths = half_widths(Alike::Apart);
    let widths = match shares_unknown(&graph) {
        true => widths.into_iter().zip(half_widths(Alike::Together)).map(|(one, other)| one.max(other)).collect(),
        false => widths,
    };
    let shaken = |(value, half_width): (&Value, f64)| ShakenValue {
        key: value.key,
        number: value.number,
        plus_minus: value.plus_minus,
        half_width,
        bent: value.bent,
        unit: value.unit,
    };
    let all = values.iter().zip(widths).map(shaken);
    all.filter(|value| value.plus_minus > 0.0 || value.half_width > 0.0).collect()
}

fn shake_check<W>(check: &Check<W>, trials: usize, seed: u64) -> Option<ShakenCheck> {
    let (judged, nodes) = (check.judged.as_ref()?, check.worked_from.as_ref()?);
    check.verdict()?;
    // A window has two ends: a draw holds where it lies inside both.
    let ends: Vec<&Judged> = std::iter::once(judged).chain(check.other_ends.iter().map(|end| &end.0)).collect();
    let graph = Graph::of(nodes.iter().chain(check.other_ends.iter().flat_map(|end| &end.1)));
    let inside = |numbers: &[f64]| {
        let margins = ends.iter().zip(numbers.chunks(2)).map(|(judged, numbers)| margin(judged, numbers));
        margins.fold(f64::INFINITY, |least, margin| if margin.is_nan() { margin } else { least.min(margin) })
    };
    let share = |worst_ends, alike| {
        let worst = graph.worst_ends(worst_ends, inside);
        let mut held = 0_usize;
        draws(&graph, &worst, (trials, seed, alike), |numbers| held += usize::from(inside(numbers) >= 0.0));
        held as f64 / trials.max(1) as f64
    };
    let worse = |worst_ends| match shares_unknown(&graph) {
        true => share(worst_ends, Alike::Apart).min(share(worst_ends, Alike::Together)),
        false => share(worst_ends, Alike::Apart),
    };
    Some(ShakenCheck {
        id: check.id,
        state: check.state,
        holds: worse(BadEnds::Kept),
        holds_thawed: worse(BadEnds::Thawed),
        mostly: costs_most(judged, nodes),
    })
}

/// Whether there are several readings of one instrument of which nobody knows what they share.
fn shares_unknown(graph: &Graph) -> bool {
    (0..).zip(graph.causes()).any(|(at, cause)| first_alike(graph, at, *cause) != at)
}

/// The first cause that is off together with one, where all readings of an instrument are off alike; itself where nothing is.
fn first_alike(graph: &Graph, at: usize, cause: Cause) -> usize {
    let Cause::Read(.., instrument) = cause else { return at };
    let same = |other: &Cause| matches!(other, Cause::Read(.., own) if *own == instrument);
    graph.causes().iter().position(same).unwrap_or(at)
}

/// How far inside its limit a figure is.
fn margin(judged: &Judged, numbers: &[f64]) -> f64 {
    match numbers {
        [got, limit] => judged.inside(*got, *limit),
        _ => f64::NAN,
    }
}

/// The cause with the greatest squared share of the margin, and its part of the sum of squares.
fn costs_most(judged: &Judged, nodes: &[Node; 2]) -> Option<(Cause, f64)> {
    let graph = Graph::of(nodes);
    let mut draw = graph.worst_ends(BadEnds::Thawed, |numbers| margin(judged, numbers));
    let mut room = Vec::new();
    let mut moved = |draw: &mut Draw, cause: usize, by: f64| {
        if let Some(off) = draw.off.get_mut(cause) {
            *off = by;
        }
        let margin = margin(judged, &graph.work(draw, &mut room));
        if let Some(off) = draw.off.get_mut(cause) {
            *off = 0.0;
        }
        margin
    };
    let mut square = |cause: usize| {
        let share = (moved(&mut draw, cause, 2.0) - moved(&mut draw, cause, -2.0)) / 2.0;
        share * share
    };
    let squares: Vec<(Cause, f64)> =
        graph.causes().iter().enumerate().map(|(at, cause)| (*cause, square(at))).collect();
    let sum: f64 = squares.iter().map(|(_, square)| square).sum();
    let most = squares.into_iter().max_by(|a, b| a.1.total_cmp(&b.1))?;
    (most.1 > 0.0 && sum.is_finite()).then(|| (most.0, most.1 / sum))
}

/// Draws every cause and works the graph, so many times.
fn draws(graph: &Graph, at: &Draw, (trials, seed, alike): (usize, u64, Alike), mut see: impl FnMut(&[f64])) {
    let (mut chance, mut room, mut draw) = (Chance::from_seed(seed), Vec::new(), at.clone());
    let first: Vec<usize> = match alike {
        Alike::Apart => Vec::new(),
        Alike::Together => (0..).zip(graph.causes()).map(|(at, cause)| first_alike(graph, at, *cause)).collect(),
    };
    for _ in 0..trials {
        draw.off.iter_mut().for_each(|off| *off = chance.normal());
        for (at, first) in first.iter().enumerate().filter(|(at, first)| at != *first) {
            let off = draw.off.get(*first).copied().unwrap_or_default();
            draw.off.get_mut(at).into_iter().for_each(|own| *own = off);
        }
        see(&graph.work(&draw, &mut room));
    }
}

/// How far a draw is off; one that cannot be worked is off by more than any other.
fn distance(number: f64, from: f64) -> f64 {
    let off = (number - from).abs();
    if off.is_nan() { f64::INFINITY } else { off }
}

/// What 95 % of them do not pass.
fn nineteen_in_twenty(all: &mut [f64]) -> f64 {
    let at = (all.len() * 95).div_ceil(100).saturating_sub(1);
    if at >= all.len() {
        return 0.0;
    }
    *all.select_nth_unstable_by(at, f64::total_cmp).1
}
