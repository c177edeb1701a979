//! For which readings a plan still holds: what a hold point asks of the size that is measured there.
//!
//! The settings stay as they are printed; the size moves, and with it every figure that was worked from it. It is good for as long
//! as each check that stamps is proven with it, at the worst ends of all bands and with all other doubts as they were; in the place
//! of the doubt that the size brought with it stands that of the gauge used now.

use super::Value;
use crate::proof::{BadEnds, Check, Draw, Graph, Judged, Weight};

/// The readings for which a plan holds; an open end is held by no check.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Holds {
    /// Not under.
    pub least: Option<f64>,
    /// Not over.
    pub most: Option<f64>,
}

/// A size of the answer that is measured at the hold point: a reading, or a size that the plan foretells.
#[derive(Clone, Copy, Debug)]
pub struct Measured<'a> {
    /// The size as it stands in the plan.
    pub value: &'a Value,
    /// The doubt (k = 2) of the gauge that measures it now.
    pub gauge: f64,
    /// The factor on the standard uncertainty in verdicts.
    pub guard: f64,
}

/// How far a search goes: so many times the size, to either side.
const REACH: f64 = 1.0;
/// Halvings of a search: a step of it by a millionth of a millionth.
const HALVINGS: usize = 40;

/// The readings for which every check that stamps is proven. None where no check follows the size, or where no reading would
/// prove them all.
pub fn holds_for<W>(checks: &[Check<W>], measured: Measured) -> Option<Holds> {
    let all = checks.iter().filter(|check| check.weight != Weight::Advice);
    let follow: Vec<Follows> = all.filter_map(|check| Follows::of(check, measured)).collect();
    // Its sign alone is asked: one check that does not hold is enough.
    let least_margin = |x: f64| if follow.iter().all(|check| check.margin(x) >= 0.0) { 0.0 } else { -1.0 };
    let found = measured.value.number;
    let far = REACH * found.abs().max(measured.value.plus_minus);
    let start = if least_margin(found) >= 0.0 { found } else { nearest_good(found, far, &least_margin)? };
    let end = |sign: f64| bad_beyond(start, sign, far, &least_margin).map(|bad| edge(start, bad, &least_margin));
    (!follow.is_empty()).then(|| Holds { least: end(-1.0), most: end(1.0) })
}

/// Where the size stands among the roots of a graph, behind figure and limit.
const SIZE: usize = 2;

/// A check that follows a size.
struct Follows {
    judged: Judged,
    graph: Graph,
    worst: Draw,
    /// Doubt of the gauge, the factor on the standard uncertainty, and the size as it stands in the plan.
    gauge: f64,
    guard: f64,
    found: f64,
    /// Figure and limit as they stand in the plan: how far inside, and the doubt of that.
    inside: f64,
    doubt: f64,
}

impl Follows {
    fn of<W>(check: &Check<W>, measured: Measured) -> Option<Self> {
        let (judged, nodes) = (check.judged?, check.worked_from.as_ref()?);
        check.verdict()?;
        let graph = Graph::of(nodes.iter().chain([&measured.value.node]));
        // Most checks do not follow the size at all: seen at once, at the middle of all bands.
        let at = |x: f64| {
            let draw = Draw { pinned: Some((SIZE, x)), ..graph.as_read(BadEnds::Carried) };
            inside(&judged, &graph.work(&draw, &mut Vec::new()))
        };
        let near = 1e-3 * measured.value.number.abs().max(1.0);
        let (here, there) = (at(measured.value.number - near), at(measured.value.number + near));
        if here == there {
            return None;
        }
        let worst = graph.worst_ends(BadEnds::Carried, |numbers| inside(&judged, numbers));
        let Measured { gauge, guard, value } = measured;
        let found = value.number;
        let mut follows = Self { judged, graph, worst, gauge, guard, found, inside: 0.0, doubt: 0.0 };
        follows.inside = follows.at(&follows.worst);
        follows.doubt = follows.doubt_at(&follows.worst);
        let moves = follows.per_mm(found).abs() > 1e-9;
        moves.then_some(follows)
    }

    fn at(&self, draw: &Draw) -> f64 {
        inside(&self.judged, &self.graph.work(draw, &mut Vec::new()))
    }

    fn pinned(&self, x: f64) -> Draw {
        Draw { pinned: Some((SIZE, x)), ..self.worst.clone() }
    }

    /// How far the figure moves within its limit for each millimetre of the size.
    fn per_mm(&self, x: f64) -> f64 {
        let step = 1e-4 * self.found.abs().max(1.0);
        (self.at(&self.pinned(x + step)) - self.at(&self.pinned(x - step))) / (2.0 * step)
    }

    /// The doubt (k = 2) of how far the figure is inside, from all causes that the draw leaves free.
    fn doubt_at(&self, draw: &Draw) -> f64 {
        let share = |cause: usize| {
            let with = |off: f64| {
                let mut one = draw.clone();
                if let Some(at) = one.off.get_mut(cause) {
                    *at = off;
                }
                self.at(&one)
            };
            (with(2.0) - with(-2.0)) / 2.0
        };
        (0..self.graph.causes().len()).map(|cause| share(cause).powi(2)).sum::<f64>().sqrt()
    }

    /// The worst-case margin with the size at `x`: what the plan has, moved as the figures move, and the gauge's doubt in the
    /// place of the doubt that the size brought with it.
    fn margin(&self, x: f64) -> f64 {
        let draw = self.pinned(x);
        let there = self.at(&draw);
        if there.is_nan() {
            return f64::NEG_INFINITY;
        }
        let doubt = self.doubt_at(&draw).hypot(self.per_mm(x) * self.gauge);
        // As the plan has it and moved from there, or worked anew: the smaller, for the first forgets what is bent.
        let moved = self.judged.margin + (there - self.inside) - (doubt - self.doubt) * self.guard / 2.0;
        moved.min(there - doubt * self.guard / 2.0)
    }
}

fn inside(judged: &Judged, numbers: &[f64]) -> f64 {
    match numbers {
        [got, limit, ..] => judged.inside(*got, *limit),
        _ => f64::NAN,
    }
}

/// The size nearest to the one found at which all holds.
fn nearest_good(found: f64, far: f64, least_margin: &impl Fn(f64) -> f64) -> Option<f64> {
    let both = steps(far).flat_map(|step| [found - step, found + step]);
    let good = both.filter(|x| *x > 0.0).find(|x| least_margin(*x) >= 0.0)?;
    Some(edge(good, found, least_margin))
}

/// The first place to one side at which something does not hold.
fn bad_beyond(start: f64, sign: f64, far: f64, least_margin: &impl Fn(f64) -> f64) -> Option<f64> {
    steps(far).map(|step| start + sign * step).find(|x| least_margin(*x) < 0.0)
}

/// Steps that grow, from a ten-thousandth of the way to its whole.
fn steps(far: f64) -> impl Iterator<Item = f64> {
    (0..=48).map(move |at| far * 10_f64.powf(f64::from(at) / 12.0 - 4.0))
}

/// The last place that holds between a good and a bad one.
fn edge(mut good: f64, mut bad: f64, least_margin: &impl Fn(f64) -> f64) -> f64 {
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(good, bad);
        if least_margin(middle) >= 0.0 { good = middle } else { bad = middle }
    }
    good
}
