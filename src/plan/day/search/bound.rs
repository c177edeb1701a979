//! What no order can do better, from what is done so far.

use super::clock::{DAY, Minute};
use super::model::Model;
use super::timing::{State, Vector};
use super::{at, put};

/// Room for the working of bounds, used again and again.
#[derive(Debug, Default)]
pub(super) struct Sums {
    /// Earliest end of each set-up's tail.
    over: Vec<Minute>,
    /// Earliest start, minutes of the hands, and what must follow, of each set-up left.
    left: Vec<(Minute, Minute, Minute)>,
    /// What is wanted of each machine.
    wanted: Vec<u64>,
}

/// What is left behind a set of set-ups.
#[derive(Debug, Default)]
pub(super) struct Left {
    /// Minutes of the hands.
    hands: Minute,
    /// The least watched tail.
    least_tail: Minute,
    /// Pairs that are turned round in every order.
    pub turned: u32,
    /// What is wanted of each machine.
    wanted: Vec<u64>,
}

/// The least that any order reaches from a state; none where no order can be finished from there.
pub fn bound(model: &Model, state: &State) -> Option<Vector> {
    Sums::default().bound(model, state, &model.in_line)
}

impl Sums {
    /// See [`bound`]; of the set-ups in `line` alone, each after what must come before it.
    pub(super) fn bound(&mut self, model: &Model, state: &State, line: &[usize]) -> Option<Vector> {
        let quick = self.quick(model, state, line);
        self.sharper(model, state, line, (quick, None))
    }

    /// The bound itself, from what was quickly worked; none as well as soon as it is not under `most`.
    pub(super) fn sharper(
        &mut self,
        model: &Model,
        state: &State,
        line: &[usize],
        (mut best, most): (Vector, Option<Vector>),
    ) -> Option<Vector> {
        let is_over = |best: Vector| most.is_some_and(|most| best >= most);
        self.over.clone_from(&state.ready);
        self.left.clear();
        for number in line.iter().filter(|number| !state.done.has(**number)) {
            let known = model.known.get(*number)?;
            let piece = &known.piece;
            let (start, end) = self.alone(model, state, *number)?;
            put(&mut self.over, *number, end + piece.tail);
            best.late += piece.due.map_or(0, |due| end.saturating_sub(due));
            let tail = if piece.watched { piece.tail } else { 0 };
            best.finish = best.finish.max(end + tail);
            if is_over(best) {
                return None;
            }
            self.left.push((start, piece.hands, known.tail_of_day));
        }
        best.finish = best.finish.max(self.heads_and_tails(model));
        Some(best).filter(|best| !is_over(*best))
    }

    /// A part of it that is quickly worked, never over it: what the hands and the change-overs left must take, and pairs turned
    /// round.
    pub(super) fn quick(&mut self, model: &Model, state: &State, line: &[usize]) -> Vector {
        let left = self.left(model, state, line);
        let quick = self.quickly(model, state, &left);
        self.wanted = left.wanted;
        quick
    }

    /// What is left behind what is done, whatever its times: the same for all that have done the same.
    pub(super) fn left(&mut self, model: &Model, state: &State, line: &[usize]) -> Left {
        let mut wanted = std::mem::take(&mut self.wanted);
        wanted.clear();
        wanted.resize(model.machines.len(), 0);
        let mut all = Left { hands: 0, least_tail: Minute::MAX, turned: 0, wanted };
        let left = line.iter().filter(|number| !state.done.has(**number));
        for known in left.filter_map(|number| model.known.get(*number)) {
            all.hands += known.piece.hands;
            all.least_tail = all.least_tail.min(if known.piece.watched { known.piece.tail } else { 0 });
            if let Some(wanted) = all.wanted.get_mut(known.piece.machine) {
                *wanted |= known.needs;
            }
            all.turned += known.turned_for_sure.count_outside(&state.done);
        }
        all
    }

    /// The quick part of a bound, from what is left.
    pub(super) fn quickly(&self, model: &Model, state: &State, left: &Left) -> Vector {
        let mut best = state.vector();
        best.turned += left.turned;
        if left.least_tail == Minute::MAX {
            return best;
        }
        let change = left.unavoidable(model, state);
        let banked: Minute = state.bank.iter().map(|(from, to)| to - from).sum();
        let all = model.clock.run(state.time, left.hands + change.saturating_sub(banked)).1;
        best.finish = best.finish.max(all + left.least_tail);
        best.change += change;
        best
    }

    /// The earliest start and end of a set-up left, were it alone with what must come before it.
    fn alone(&self, model: &Model, state: &State, number: usize) -> Option<(Minute, Minute)> {
        let known = model.known.get(number)?;
        let piece = &known.piece;
        let released =
            known.before.iter().map(|(before, rest)| at(&self.over, *before) + rest).max().unwrap_or_default();
        let mut begin = released.max(state.time).max(piece.not_before);
        if let Some(fixed) = piece.at {
            if begin > fixed {
                return None;
            }
            begin = fixed;
        }
        let (start, end) = model.clock.fit(begin, piece.hands, piece.pause);
        let stale =
            |load: &usize| state.done.has(*load) && at(&state.ready, *load).saturating_sub(1) / DAY != start / DAY;
        if known.loads.iter().any(stale) {
            return None;
        }
        Some((start, end))
    }

    /// Of those that cannot start before some time: all their minutes after it, and the least that must follow.
    fn heads_and_tails(&mut self, model: &Model) -> Minute {
        self.left.sort_unstable_by(|one, other| other.cmp(one));
        let (mut hands, mut tail, mut most) = (0, Minute::MAX, 0);
        for &(start, minutes, after) in &self.left {
            hands += minutes;
            tail = tail.min(after);
            most = most.max(model.clock.run(start, hands).1 + tail);
        }
        most
    }
}

impl Left {
    /// Minutes of change-over that no order avoids, rounded down.
    fn unavoidable(&self, model: &Model, state: &State) -> Minute {
        let machines = model.machines.iter().zip(&self.wanted).zip(&state.held);
        machines.map(|((machine, wanted), held)| machine.rigging.unavoidable(*held, *wanted)).sum::<u32>() / 100
    }
}
