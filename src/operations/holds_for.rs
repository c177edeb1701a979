//! For which readings a plan still holds: what a hold point asks of the size that is measured there.
//!
//! The settings stay as they are printed; the size moves, and with it every figure that was worked from it. It is good for as long
//! as each check that stamps is proven with it, at the worst ends of all bands and with all other doubts as they were; in the place
//! of the doubt that the size brought with it stands that of the gauge used now.

use super::Value;
use crate::proof::{BadEnds, Check, Draw, Graph, Judged, Node, Sweep};

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
/// A search ends within a millionth of a millionth of its way: so many halvings of it.
const HALVINGS: i32 = 40;

/// Lines that are drawn to find one end: five to ten do, and after so many the end lies where it was narrowed down to.
const MOST_LINES: u32 = 120;

/// The figures of a check that stamps and was made, with what they were worked from.
pub(super) type Stamping = (Judged, [Node; 2]);

/// The readings for which every check that stamps is proven. None where no check follows the size, or where no reading would
/// prove them all.
pub fn holds_for<W>(checks: &[Check<W>], measured: Measured) -> Option<Holds> {
    holds(&stamping(checks).collect::<Vec<_>>(), measured)
}

/// Every check that stamps and was made with figures.
pub(super) fn stamping<W>(checks: &[Check<W>]) -> impl Iterator<Item = Stamping> {
    let all = checks.iter().filter(|check| check.weight.stamps() && check.verdict().is_some());
    all.flat_map(|check| check.judged.zip(check.worked_from.clone()).into_iter().chain(check.other_ends.clone()))
}

/// As [`holds_for`], from the checks that stamp.
pub(super) fn holds(stamping: &[Stamping], measured: Measured) -> Option<Holds> {
    let mut follow = following(stamping, measured);
    if follow.is_empty() {
        return None;
    }
    let found = measured.value.number;
    let far = REACH * found.abs().max(measured.value.plus_minus);
    let start = if all_hold(&mut follow, found) { found } else { nearest_good(&mut follow, found, far)? };
    let mut end = |sign: f64| {
        let (good, bad) = bad_beyond(&mut follow, start, sign, far)?;
        Some(edge(&mut follow, good, bad))
    };
    Some(Holds { least: end(-1.0), most: end(1.0) })
}

/// As [`holds`], from those checks alone that hold with the size as it is planned: what no good work would mend asks nothing of it.
pub(super) fn holds_as_planned(stamping: &[Stamping], measured: Measured) -> Option<Holds> {
    let holds_there = |one: &&Stamping| {
        let mut follow = following(std::slice::from_ref(one), measured);
        all_hold(&mut follow, measured.value.number)
    };
    let good: Vec<Stamping> = stamping.iter().filter(holds_there).cloned().collect();
    holds(&good, measured)
}

/// The checks that follow the size. Most do not at all: which may is seen in one graph of them all.
fn following(checks: &[Stamping], measured: Measured) -> Vec<Follows> {
    let nodes = checks.iter().flat_map(|(_, nodes)| nodes.iter()).chain([&measured.value.node]);
    let moved = Graph::of(nodes).roots_following(2 * checks.len());
    let may = checks.iter().zip(moved.chunks_exact(2)).filter(|(_, ends)| ends.contains(&true));
    may.filter_map(|((judged, nodes), _)| Follows::of(*judged, nodes, measured)).collect()
}

/// Where the size stands among the roots of a graph, behind figure and limit.
const SIZE: usize = 2;

/// A check that follows a size.
struct Follows {
    judged: Judged,
    sweep: Sweep,
    /// Doubt of the gauge, the factor on the standard uncertainty, and the size as it stands in the plan.
    gauge: f64,
    guard: f64,
    found: f64,
    /// Figure and limit as they stand in the plan: how far inside, and the doubt of that.
    inside: f64,
    doubt: f64,
}

impl Follows {
    fn of(judged: Judged, nodes: &[Node; 2], measured: Measured) -> Option<Self> {
        let Measured { gauge, guard, value } = measured;
        let graph = Graph::of(nodes.iter().chain([&value.node]));
        let mut room = Vec::new();
        let mut at = |draw: &Draw| inside(&judged, &graph.work(draw, &mut room));
        // Seen at the middle of all bands.
        let mut pinned = |x: f64| at(&Draw { pinned: Some((SIZE, x)), ..graph.as_read(BadEnds::Carried) });
        let near = 1e-3 * value.number.abs().max(1.0);
        if pinned(value.number - near) == pinned(value.number + near) {
            return None;
        }
        let worst = graph.worst_ends(BadEnds::Carried, |numbers| inside(&judged, numbers));
        let as_planned = at(&worst);
        let doubt = doubt_at(&graph, &worst, &mut at);
        let sweep = Sweep::of(graph, worst, SIZE);
        let mut follows = Self { judged, sweep, gauge, guard, found: value.number, inside: as_planned, doubt };
        let moves = follows.per_mm(follows.found).abs() > 1e-9;
        moves.then_some(follows)
    }

    /// How far the figure is inside its limit with the size at `x`.
    fn at(&mut self, x: f64) -> f64 {
        self.sweep.at(x, |numbers| inside(&self.judged, numbers))
    }

    /// How far the figure moves within its limit for each millimetre of the size.
    fn per_mm(&mut self, x: f64) -> f64 {
        let step = 1e-4 * self.found.abs().max(1.0);
        (self.at(x + step) - self.at(x - step)) / (2.0 * step)
    }

    /// The worst-case margin with the size at `x`: what the plan has, moved as the figures move, and the gauge's doubt in the
    /// place of the doubt that the size brought with it.
    fn margin(&mut self, x: f64) -> f64 {
        let there = self.at(x);
        self.margin_of(x, there)
    }

    /// The same where it is known how far the figure is inside, the size being at `x`.
    fn margin_of(&mut self, x: f64, there: f64) -> f64 {
        if there.is_nan() {
            return f64::NEG_INFINITY;
        }
        let doubt = self.sweep.doubt(|numbers| inside(&self.judged, numbers)).hypot(self.per_mm(x) * self.gauge);
        // As the plan has it and moved from there, or worked anew: the smaller, for the first forgets what is bent.
        let moved = self.judged.margin + (there - self.inside) - (doubt - self.doubt) * self.guard / 2.0;
        moved.min(there - doubt * self.guard / 2.0)
    }

    /// Whether it is proven with the size at `x`; what does not hold at its middle is not asked for its doubt.
    fn holds(&mut self, x: f64) -> bool {
        let there = self.at(x);
        there >= 0.0 && self.margin_of(x, there) >= 0.0
    }
}

fn inside(judged: &Judged, numbers: &[f64]) -> f64 {
    match numbers {
        [got, limit, ..] => judged.inside(*got, *limit),
        _ => f64::NAN,
    }
}

/// The doubt (k = 2) of how far a figure is inside, from all causes.
fn doubt_at(graph: &Graph, draw: &Draw, at: &mut impl FnMut(&Draw) -> f64) -> f64 {
    let mut draw = draw.clone();
    let mut with = |cause: usize, by: f64| {
        let before = draw.off.get(cause).copied();
        draw.off.get_mut(cause).into_iter().for_each(|off| *off = by);
        let there = at(&draw);
        draw.off.get_mut(cause).zip(before).into_iter().for_each(|(off, before)| *off = before);
        there
    };
    let mut share = |cause: usize| (with(cause, 2.0) - with(cause, -2.0)) / 2.0;
    (0..graph.causes().len()).map(|cause| share(cause).powi(2)).sum::<f64>().sqrt()
}

/// One check that does not hold is enough.
fn all_hold(follow: &mut [Follows], x: f64) -> bool {
    follow.iter_mut().all(|check| check.holds(x))
}

/// The size nearest to the one found at which all holds.
fn nearest_good(follow: &mut [Follows], found: f64, far: f64) -> Option<f64> {
    let both = steps(far).flat_map(|step| [found - step, found + step]);
    let good = both.filter(|x| *x > 0.0).find(|x| all_hold(follow, *x))?;
    Some(edge(follow, good, found))
}

/// The first place to one side at which something does not hold, and the last before it at which all did.
fn bad_beyond(follow: &mut [Follows], start: f64, sign: f64, far: f64) -> Option<(f64, f64)> {
    let mut good = start;
    for x in steps(far).map(|step| start + sign * step) {
        if !all_hold(follow, x) {
            return Some((good, x));
        }
        good = x;
    }
    None
}

/// Steps that grow, from a ten-thousandth of the way to its whole.
fn steps(far: f64) -> impl Iterator<Item = f64> {
    (0..=48).map(move |at| far * 10_f64.powf(f64::from(at) / 12.0 - 4.0))
}

/// The last place that holds between a good and a bad one.
fn edge(follow: &mut [Follows], good: f64, bad: f64) -> f64 {
    // Never closer than numbers of this size lie to each other.
    let within = ((bad - good).abs() * 0.5_f64.powi(HALVINGS)).max(4.0 * f64::EPSILON * bad.abs().max(good.abs()));
    let (mut last, mut beyond) = (good, bad);
    // Each check that does not hold at the worst end moves it nearer to the good one.
    for check in follow.iter_mut() {
        (last, beyond) = zero(check, (good, beyond), within).unwrap_or((last, beyond));
    }
    if all_hold(follow, last) { last } else { halved(follow, good, bad) }
}

/// Where the margin of one check ends between a good and a bad place: the two sides of it, closer than `within`. None where it
/// holds at the bad place too.
fn zero(check: &mut Follows, (mut good, mut bad): (f64, f64), within: f64) -> Option<(f64, f64)> {
    let mut at_bad = check.margin(bad);
    if at_bad >= 0.0 {
        return None;
    }
    let mut at_good = check.margin(good);
    let mut was_good = None;
    for step in 1..=MOST_LINES {
        let (low, high) = (good.min(bad) + within / 2.0, good.max(bad) - within / 2.0);
        if low >= high {
            break;
        }
        // A straight line through both ends, now and then the middle; an end that stays counts for half (the Illinois rule).
        let straight = good + (bad - good) * at_good / (at_good - at_bad);
        let x =
            if step % 4 == 0 || !straight.is_finite() { f64::midpoint(good, bad) } else { straight.clamp(low, high) };
        let there = check.margin(x);
        let is_good = there >= 0.0;
        let stays = if was_good == Some(is_good) { 0.5 } else { 1.0 };
        match is_good {
            true => (good, at_good, at_bad) = (x, there, at_bad * stays),
            false => (bad, at_bad, at_good) = (x, there, at_good * stays),
        }
        was_good = Some(is_good);
    }
    Some((good, bad))
}

/// The same by halving alone, over all checks: where one of them holds, does not, and holds again.
fn halved(follow: &mut [Follows], mut good: f64, mut bad: f64) -> f64 {
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(good, bad);
        if all_hold(follow, middle) { good = middle } else { bad = middle }
    }
    good
}
