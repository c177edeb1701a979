//! Local search: moves in a whole order, each taken as soon as it is better; when stuck, a few random moves and again.

use super::model::Model;
use super::order::Order;
use super::timing::{State, Vector};

/// Longest run of set-ups that is moved together.
const RUN: usize = 3;
/// Random moves of a kick.
const MOVES: usize = 4;
/// Orders of more set-ups are not timed to their end where they fall behind, and moves reach no further than this.
const REACH: usize = 60;

/// A search round one order.
pub(super) struct Local<'a> {
    model: &'a Model,
    order: Order,
    vector: Vector,
    /// The state before each place of the order, and at its end.
    states: Vec<State>,
    trial: Order,
    work: State,
    /// What no order of these does better.
    least: Vector,
    /// Set-ups timed so far, and how many may be.
    spent: u64,
    most: u64,
}

impl<'a> Local<'a> {
    /// Round an order that no must forbids.
    pub(super) fn new(model: &'a Model, order: Order, least: Vector, most: u64) -> Option<Self> {
        let mut local = Self {
            model,
            trial: order.clone(),
            order,
            vector: Vector::default(),
            states: vec![State::first(model)],
            work: State::first(model),
            least,
            spent: 0,
            most,
        };
        local.vector = local.settle(0)?;
        Some(local)
    }

    /// The order found and what it reaches.
    pub(super) fn found(self) -> (Order, Vector) {
        (self.order, self.vector)
    }

    /// Takes the trial as the order, and times it from a place on.
    fn settle(&mut self, from: usize) -> Option<Vector> {
        self.order.clone_from(&self.trial);
        self.states.truncate(from + 1);
        let mut state = self.states.last()?.clone();
        for next in self.order.iter().skip(from) {
            state.append(self.model, next.number, next.later, None)?;
            self.spent += 1;
            self.states.push(state.clone());
        }
        Some(state.vector())
    }

    /// Times the trial, which differs from the order in `from..to`; none where it is not better.
    fn better(&mut self, from: usize, to: usize) -> Option<Vector> {
        self.work.copy(self.states.get(from)?);
        let long = self.order.len() > REACH;
        for (place, next) in self.trial.iter().enumerate().skip(from) {
            self.spent += 1;
            self.work.append(self.model, next.number, next.later, None)?;
            let so_far = self.work.vector();
            if (so_far.late, so_far.finish) > (self.vector.late, self.vector.finish) {
                return None;
            }
            if !long && self.at_least(so_far) >= self.vector {
                return None;
            }
            if long && place + 1 >= to {
                let known = self.states.get(place + 1)?;
                if self.work.time > known.time || (self.work.time == known.time && so_far >= known.vector()) {
                    return None;
                }
            }
        }
        Some(self.work.vector()).filter(|vector| *vector < self.vector)
    }

    /// What an order that has reached so much ends in at least.
    fn at_least(&self, so_far: Vector) -> Vector {
        Vector {
            late: so_far.late.max(self.least.late),
            finish: so_far.finish.max(self.least.finish),
            change: so_far.change.max(self.least.change),
            ..so_far
        }
    }

    /// Takes the trial where it is better.
    fn take(&mut self, from: usize, to: usize) -> bool {
        let better = self.better(from, to).and_then(|_| self.settle(from));
        if let Some(vector) = better {
            self.vector = vector;
        }
        better.is_some()
    }

    const fn is_spent(&self) -> bool {
        self.spent >= self.most
    }

    /// Moves until no move is better.
    pub(super) fn descend(&mut self) {
        let mut moved = true;
        while moved && !self.is_spent() {
            moved = false;
            for run in 1..=RUN {
                for from in 0..self.order.len() {
                    moved |= self.move_run(from, run);
                }
            }
            for one in 0..self.order.len() {
                moved |= self.swap_or_wait(one);
            }
        }
    }

    /// Tries a run of set-ups in every place that the musts allow, forward and back.
    fn move_run(&mut self, from: usize, run: usize) -> bool {
        let mut moved = false;
        for forward in [true, false] {
            for steps in 1..=REACH {
                let (low, high) =
                    if forward { (from, from + run + steps) } else { (from.wrapping_sub(steps), from + run) };
                if self.is_spent() || low > from || high > self.order.len() || !self.may_pass(low, high, run, forward) {
                    break;
                }
                self.trial.clone_from(&self.order);
                if let Some(part) = self.trial.get_mut(low..high) {
                    if forward { part.rotate_left(run) } else { part.rotate_right(run) }
                }
                if self.take(low, high) {
                    moved = true;
                    break;
                }
            }
        }
        moved
    }

    /// Whether the outermost set-up may be passed by the run.
    fn may_pass(&self, low: usize, high: usize, run: usize, forward: bool) -> bool {
        let Some(part) = self.order.get(low..high) else { return false };
        if forward {
            let Some((last, rest)) = part.split_last() else { return false };
            !rest.iter().take(run).any(|next| self.model.must_precede(next.number, last.number))
        } else {
            let Some((first, rest)) = part.split_first() else { return false };
            !rest.iter().rev().take(run).any(|next| self.model.must_precede(first.number, next.number))
        }
    }

    /// Tries to swap a set-up with each later one, and a load at the next opening.
    fn swap_or_wait(&mut self, one: usize) -> bool {
        let mut moved = false;
        for other in one + 2..self.order.len().min(one + REACH) {
            if self.is_spent() {
                return moved;
            }
            self.trial.clone_from(&self.order);
            self.trial.swap(one, other);
            moved |= self.take(one, other + 1);
        }
        if self.order.get(one).is_some_and(|next| self.model.fetcher(next.number).is_some()) {
            self.trial.clone_from(&self.order);
            self.trial.get_mut(one).into_iter().for_each(|next| next.later = !next.later);
            moved |= self.take(one, one + 1);
        }
        moved
    }

    /// Kicks the order so many times, each time descending again; what is not better is undone.
    pub(super) fn kick(&mut self, kicks: usize) {
        let mut throws = Throws::of(self.model);
        for _ in 0..kicks {
            if self.is_spent() || self.order.len() < 2 {
                return;
            }
            let (order, vector) = (self.order.clone(), self.vector);
            (0..MOVES).for_each(|_| self.throw(&mut throws));
            self.descend();
            if self.vector >= vector {
                self.trial = order;
                self.vector = self.settle(0).unwrap_or(vector);
            }
        }
    }

    /// One random move that no must forbids, better or not.
    fn throw(&mut self, throws: &mut Throws) {
        for _ in 0..20 {
            let most = self.order.len();
            let (from, to) = (throws.below(most), throws.below(most));
            let reach = from.abs_diff(to);
            if reach == 0 || reach > REACH {
                continue;
            }
            self.trial.clone_from(&self.order);
            if let Some(part) = self.trial.get_mut(from.min(to)..=from.max(to)) {
                if from < to { part.rotate_left(1) } else { part.rotate_right(1) }
            }
            let before = self.order.clone();
            if let Some(vector) = self.settle(from.min(to)) {
                self.vector = vector;
                return;
            }
            self.trial = before;
            if let Some(vector) = self.settle(0) {
                self.vector = vector;
            }
        }
    }
}

/// Throws of a die whose seed is the model itself: the same day, the same throws.
struct Throws(u64);

impl Throws {
    fn of(model: &Model) -> Self {
        Self(model.mark() | 1)
    }

    fn below(&mut self, most: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        (self.0 % most.max(1) as u64) as usize
    }
}

/// Of many set-ups so many orders are tried, each with this share of what may be timed, before the best is gone on with.
const TRIED: usize = 3;
const SHARE: u64 = 6;

/// The best of several orders after moves in the best of them.
pub(super) fn best_of(
    model: &Model,
    orders: Vec<Order>,
    least: Vector,
    (most, kicks): (u64, usize),
) -> Option<(Order, Vector)> {
    let timed = orders.into_iter().filter_map(|order| Some((super::order::time(model, &order)?, order)));
    let mut timed: Vec<(Vector, Order)> = timed.collect();
    timed.sort_by_key(|(vector, _)| *vector);
    timed.dedup();
    let mut spent = 0;
    if model.len() > REACH {
        for (vector, order) in timed.iter_mut().take(TRIED) {
            let mut local = Local::new(model, order.clone(), least, most / SHARE)?;
            local.descend();
            spent += local.spent;
            (*order, *vector) = local.found();
        }
        timed.sort_by_key(|(vector, _)| *vector);
    }
    let (_, order) = timed.into_iter().next()?;
    let mut local = Local::new(model, order, least, most.saturating_sub(spent))?;
    local.descend();
    local.kick(kicks);
    Some(local.found())
}
