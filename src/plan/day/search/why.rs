//! Why each set-up stands where it stands, and how much later it could begin.

use super::answer::{Placed, Planned};
use super::clock::Minute;
use super::model::Model;
use super::order::{Next, time};
use super::timing::{State, Vector};

/// Why a set-up stands behind the one before it: the first reason that holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// Nothing stands before it.
    First,
    /// It must: the number of the edge.
    Must(usize),
    /// It waits for another: which, when that is over with its tail, and the rest.
    Waits(usize, Minute, Minute),
    /// It stands apart from another, which makes its part warm, or damp, or takes it away: which, when that is over with its tail, and the
    /// rest.
    Apart(usize, Minute, Minute),
    /// It has a time of its own.
    Fixed(Minute),
    /// It may not begin earlier.
    NotBefore(Minute),
    /// It would not fit before the break.
    Break,
    /// Turned round, so many minutes more are late.
    SavesLate(Minute),
    /// Turned round, the day ends so many minutes later.
    SavesFinish(Minute),
    /// Turned round, so many more better rules are broken.
    KeepsRules(u32),
    /// Turned round, change-overs take so many minutes more.
    SavesChange(Minute),
    /// Turned round, some must would be broken.
    NoOther,
    /// The hands would wait else.
    Fills,
    /// As in the order before.
    Kept,
}

/// The reason for each set-up of a day, in its order.
pub fn reasons(model: &Model, planned: &Planned) -> Vec<Reason> {
    (0..planned.placed.len()).map(|place| reason(model, planned, place).unwrap_or(Reason::First)).collect()
}

fn reason(model: &Model, planned: &Planned, place: usize) -> Option<Reason> {
    let own = planned.placed.get(place)?;
    let piece = model.piece(own.number)?;
    let Some(before) = place.checked_sub(1).and_then(|before| planned.placed.get(before)) else {
        return Some(Reason::First);
    };
    let over = |number: usize| planned.placed.iter().find(|placed| placed.number == number).map(|placed| placed.over);
    let released = |&(number, rest): &(usize, Minute)| Some((number, over(number)?, rest));
    // Released in a break it begins when the break ends, or when a change-over that was begun before is ended.
    let lets_go = |(_, over, rest): &(usize, Minute, Minute)| {
        let free = model.clock.stretch(over + rest).0;
        let fitted: Minute = planned.placed.iter().map(|placed| placed.pieces_within(free, own.start)).sum();
        free <= own.start && model.clock.open_between(free, own.start) == fitted
    };
    let waits =
        model.before(own.number).iter().filter_map(released).filter(lets_go).max_by_key(|(_, over, rest)| over + rest);
    let idle = model.clock.open_between(before.end, own.start) > own.pieces_after(before.end);
    let apart = apart(model, planned, place).into_iter().filter(lets_go).max_by_key(|(_, over, rest)| over + rest);
    let ends = |found: Option<(usize, Minute, Minute)>| found.map_or(0, |(_, over, rest)| over + rest);
    if let Some((number, over, rest)) = apart.filter(|_| idle && ends(apart) > ends(waits)) {
        return Some(Reason::Apart(number, over, rest));
    }
    let edge = model.edges.iter().position(|edge| edge.before == before.number && edge.after == own.number);
    if let Some(edge) = edge {
        return Some(Reason::Must(edge));
    }
    if let Some((number, over, rest)) = waits.filter(|_| idle) {
        return Some(Reason::Waits(number, over, rest));
    }
    if let Some(fixed) = piece.at {
        return Some(Reason::Fixed(fixed));
    }
    if piece.not_before == own.start && idle {
        return Some(Reason::NotBefore(own.start));
    }
    if idle {
        return Some(Reason::Break);
    }
    Some(turned_round(model, planned, place - 1))
}

/// What a set-up stands apart from that comes before it: which, when that is over or fetched, and the rest.
pub fn apart(model: &Model, planned: &Planned, place: usize) -> Vec<(usize, Minute, Minute)> {
    let own = planned.placed.get(place).and_then(|own| model.known.get(own.number));
    let before = planned.placed.get(..place).unwrap_or_default();
    let over = |number: usize| before.iter().find(|placed| placed.number == number).map(|placed| placed.over);
    let ends = |&(load, rest): &(usize, Minute)| {
        let last = model.known.get(load)?.ended_by.unwrap_or(load);
        Some((load, over(last)?, rest))
    };
    own.into_iter().flat_map(|own| &own.apart).filter_map(ends).collect()
}

/// What it would cost to turn two neighbours round.
fn turned_round(model: &Model, planned: &Planned, first: usize) -> Reason {
    let mut order = planned.order.clone();
    order.swap(first, first + 1);
    let Some(turned) = time(model, &order) else { return Reason::NoOther };
    let now = planned.vector;
    let cost = |of: fn(&Vector) -> u32| of(&turned).saturating_sub(of(&now));
    if turned.late != now.late {
        Reason::SavesLate(cost(|vector| vector.late))
    } else if turned.finish != now.finish {
        Reason::SavesFinish(cost(|vector| vector.finish))
    } else if turned.better != now.better {
        Reason::KeepsRules(cost(|vector| vector.better))
    } else if turned.change != now.change {
        Reason::SavesChange(cost(|vector| vector.change))
    } else {
        let rank = |place: usize| {
            let next = planned.order.get(place)?;
            model.known.get(next.number).map(|known| known.rank)
        };
        if rank(first) > rank(first + 1) { Reason::Fills } else { Reason::Kept }
    }
}

/// How many minutes later each set-up could begin with the same late minutes and the same finish, the order kept.
pub fn slacks(model: &Model, planned: &Planned) -> Vec<Minute> {
    let mut model = model.clone();
    // The state before each set-up; what follows another at once goes with it.
    let mut before = State::first(&model);
    let mut heads: Vec<(usize, State)> = Vec::new();
    for (place, next) in planned.order.iter().enumerate() {
        let follows = model.known.get(next.number).is_some_and(|known| known.behind.is_some());
        let head = heads.last().filter(|_| follows).cloned();
        heads.push(head.unwrap_or_else(|| (place, before.clone())));
        if before.append(&model, next.number, next.later, None).is_none() {
            break;
        }
    }
    let of = |(placed, (head, before)): (&Placed, &(usize, State))| {
        let rest = planned.order.get(*head..).unwrap_or_default();
        slack(&mut model, (before, rest), planned.vector, (placed.number, placed.start))
    };
    planned.placed.iter().zip(&heads).map(of).collect()
}

fn slack(
    model: &mut Model,
    (before, rest): (&State, &[Next]),
    reached: Vector,
    (number, start): (usize, Minute),
) -> Minute {
    let Some(not_before) = model.piece(number).map(|piece| piece.not_before) else { return 0 };
    let set = |model: &mut Model, time: Minute| {
        model.known.get_mut(number).into_iter().for_each(|known| known.piece.not_before = time);
    };
    // The latest start that holds lies from `low` on, below `high`.
    let (mut low, mut high) = (start, reached.finish.max(start) + 1);
    // Most have none: whether a minute is too much is asked first.
    let mut middle = start + 1;
    let mut state = before.clone();
    while low + 1 < high {
        set(model, middle);
        state.copy(before);
        let holds = rest.iter().all(|next| {
            let stands = state.append(model, next.number, next.later, None).is_some();
            stands && (state.vector().late, state.vector().finish) <= (reached.late, reached.finish)
        });
        if holds {
            low = middle
        } else {
            high = middle
        }
        middle = low + (high - low) / 2;
    }
    set(model, not_before);
    low - start
}
