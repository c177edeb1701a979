//! The best order of a day, and what is known of how good it is.

use super::beam::beam;
use super::bound::bound;
use super::clock::Minute;
use super::dominance::Compared;
use super::labels::weigh;
use super::local::best_of;
use super::model::Model;
use super::order::{Next, Order};
use super::starts::starts;
use super::timing::{Piecemeal, Stand, State, Vector};
use super::window::rolled;

/// Limits of the search: counts, never a clock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Limits {
    /// Up to so many set-ups every order is weighed.
    pub exact: usize,
    /// Most labels of that.
    pub labels: usize,
    /// Over so many set-ups a window rolls.
    pub rolling: usize,
    /// Width of the beam.
    pub beam: usize,
    /// Most set-ups timed by local search.
    pub timed: u64,
    /// Kicks of the local search.
    pub kicks: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self { exact: 24, labels: 200_000, rolling: 60, beam: 30, timed: 10_000_000, kicks: 8 }
    }
}

/// Along so many of the orders to start from a window rolls.
const ALONG: usize = 3;

/// How well an order is known to be the best.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Proof {
    /// Its finish is that of hands that are never idle.
    NeverIdle,
    /// Every order was weighed or ruled out.
    Weighed,
    /// Its finish is the least that can be; of the rest it is the best found.
    LeastFinish,
    /// The best found.
    Near,
}

/// A set-up in the day.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Placed {
    /// The set-up.
    pub number: usize,
    /// The hands begin.
    pub start: Minute,
    /// The hands are done.
    pub end: Minute,
    /// It is over with its tail.
    pub over: Minute,
    /// Minutes of the change-over before it.
    pub change: Minute,
    /// When that is done.
    pub pieces: Vec<(Minute, Minute)>,
}

impl Placed {
    /// A set-up as it stands, with its own among the pieces of change-overs.
    pub(super) fn of(model: &Model, number: usize, stand: Stand, pieces: &[Piecemeal]) -> Option<Self> {
        let own = pieces.iter().filter(|(whose, ..)| *whose == number);
        let pieces: Vec<(Minute, Minute)> = own.map(|(_, from, to)| (*from, *to)).collect();
        let change = pieces.iter().map(|(from, to)| to - from).sum();
        Some(Self {
            number,
            start: stand.start,
            end: stand.end,
            over: stand.end + model.piece(number)?.tail,
            change,
            pieces,
        })
    }

    /// Minutes of its change-over that lie between two times.
    pub(super) fn pieces_within(&self, low: Minute, high: Minute) -> Minute {
        self.pieces.iter().map(|(from, to)| to.min(&high).saturating_sub(*from.max(&low))).sum()
    }

    /// Minutes of its change-over that lie after a time.
    pub fn pieces_after(&self, time: Minute) -> Minute {
        self.pieces.iter().map(|(from, to)| to.saturating_sub((*from).max(time))).sum()
    }
}

/// A day planned.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Planned {
    /// The order.
    pub order: Order,
    /// The set-ups in it with their times.
    pub placed: Vec<Placed>,
    /// What it reaches.
    pub vector: Vector,
    /// How well it is known to be the best.
    pub proof: Proof,
    /// Whether every level of it is proved.
    pub exact: bool,
    /// No order finishes before this.
    pub bound: Minute,
    /// Labels kept by the exact method.
    pub labels: usize,
}

/// Finds the best order; none where no order keeps every must (or none was found, over the limit of the exact method).
pub fn plan(model: &Model, limits: Limits) -> Option<Planned> {
    let least = bound(model, &State::first(model))?;
    let few = model.len() <= limits.exact.min(64);
    let mut orders = starts(model);
    // Of few set-ups every order is weighed: where a plain order ends as early as any can, no beam is wanted beside.
    let reached = |order: &Order| super::order::time(model, order).map(|vector| (vector.late, vector.finish));
    let is_met = orders.iter().any(|order| reached(order) == Some((least.late, least.finish)));
    if model.len() > limits.rolling {
        let mut timed: Vec<(Vector, &Order)> =
            orders.iter().filter_map(|order| Some((super::order::time(model, order)?, order))).collect();
        timed.sort_by_key(|(vector, _)| *vector);
        let rolled: Vec<Order> = timed.iter().take(ALONG).filter_map(|(_, along)| rolled(model, along)).collect();
        orders.extend(rolled);
    } else if !(few && is_met) {
        orders.extend(beam(model, &State::first(model), &model.in_line, limits.beam));
    }
    let kicks = if few { 0 } else { limits.kicks };
    let mut best = best_of(model, orders, least, (limits.timed, kicks));
    let (mut labels, mut exact) = (0, false);
    if few {
        let weighed = weigh(model, best.as_ref().map(|(_, vector)| *vector), limits.labels, Compared::default());
        (labels, exact) = (weighed.labels, weighed.whole);
        if let Some(order) = weighed.order {
            best = super::order::time(model, &order).map(|vector| (order, vector));
        } else if !exact {
            let start = best.map(|(order, _)| order).into_iter().collect();
            best = best_of(model, start, least, (limits.timed, limits.kicks));
        }
    }
    let (order, vector) = best?;
    let proof = proof(model, vector, least, exact);
    let bound = if exact { vector.finish } else { least.finish };
    Some(Planned { placed: placed(model, &order)?, order, vector, proof, exact, bound, labels })
}

fn proof(model: &Model, reached: Vector, least: Vector, exact: bool) -> Proof {
    let idle_never = model.clock.run(model.start, model.hands() + least.change).1;
    if reached.late == 0 && reached.finish == idle_never {
        Proof::NeverIdle
    } else if exact {
        Proof::Weighed
    } else if (reached.late, reached.finish) == (least.late, least.finish) {
        Proof::LeastFinish
    } else {
        Proof::Near
    }
}

/// Times an order, with every piece of its change-overs.
pub(super) fn placed(model: &Model, order: &[Next]) -> Option<Vec<Placed>> {
    let mut state = State::first(model);
    let mut all = Vec::with_capacity(order.len());
    let mut pieces = Vec::new();
    for next in order {
        let stand = state.append(model, next.number, next.later, Some(&mut pieces))?;
        all.push(Placed::of(model, next.number, stand, &pieces)?);
    }
    Some(all)
}
