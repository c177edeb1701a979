//! Change-overs made whole: a crumb of one is not left for hours where the day ends as well without it.
//!
//! The timing takes idle minutes as they come, so that a change-over may lack its last minute when other work begins. Which order
//! is the best does not hang on that; when it is found, each change-over with a crumb left over is tried in an earlier place, or in
//! one stretch. What is worse in nothing that is compared, and has fewer crumbs, is taken. To begin with a crumb harms nobody.

use super::answer::{Placed, Planned};
use super::clock::{Clock, Minute};
use super::model::Model;
use super::order::Next;
use super::timing::{Ahead, State, Vector};

/// So many places before its set-up a change-over is tried at.
const REACH: usize = 12;

/// A change-over that is done before the set-up at a place of the order, not as its minutes come.
#[derive(Clone, Copy, Debug)]
struct Moved {
    place: usize,
    number: usize,
    how: Ahead,
}

/// The same day with as few crumbs left over as its levels allow: later pieces of less than so many minutes.
#[must_use]
pub fn made_whole(model: &Model, mut planned: Planned, crumb: Minute) -> Planned {
    let mut moved: Vec<Moved> = Vec::new();
    for place in 0..planned.order.len() {
        let is_whole = planned.placed.get(place).is_none_or(|placed| crumbs(&model.clock, placed, crumb) == 0);
        let Some(number) = planned.order.get(place).map(|next| next.number).filter(|_| !is_whole) else { continue };
        let all = all_crumbs(&model.clock, &planned.placed, crumb);
        let tried = ways(model, &planned.order, place).filter_map(|(at, how)| {
            let trial: Vec<Moved> = moved.iter().copied().chain([Moved { place: at, number, how }]).collect();
            let (placed, vector) = timed(model, &planned.order, &trial)?;
            let left = all_crumbs(&model.clock, &placed, crumb);
            (vector == planned.vector && left < all).then_some((left, trial, placed))
        });
        if let Some((_, trial, placed)) = tried.min_by_key(|(left, ..)| *left) {
            (moved, planned.placed) = (trial, placed);
        }
    }
    planned
}

/// Where a change-over may be done instead: from behind the set-up before it on its machine up to its own set-up, as the minutes
/// come and in one stretch.
fn ways(model: &Model, order: &[Next], place: usize) -> impl Iterator<Item = (usize, Ahead)> {
    let machine = |next: &Next| model.piece(next.number).map(|piece| piece.machine);
    let own = order.get(place).and_then(machine);
    let before = order.iter().take(place).rposition(|next| machine(next) == own).map_or(0, |at| at + 1);
    (before.max(place.saturating_sub(REACH))..=place).flat_map(|at| [(at, Ahead::AsTheyCome), (at, Ahead::InOne)])
}

/// Times an order with some change-overs done where they are moved to.
fn timed(model: &Model, order: &[Next], moved: &[Moved]) -> Option<(Vec<Placed>, Vector)> {
    let mut state = State::first(model);
    let mut all = Vec::with_capacity(order.len());
    let mut pieces = Vec::new();
    for (place, next) in order.iter().enumerate() {
        for own in moved.iter().filter(|own| own.place == place) {
            state.fit_ahead(model, own.number, own.how, &mut pieces)?;
        }
        let stand = state.append(model, next.number, next.later, Some(&mut pieces))?;
        all.push(Placed::of(model, next.number, stand, &pieces)?);
    }
    Some((all, state.vector()))
}

/// What crumbs a day has, each by its weight.
fn all_crumbs(clock: &Clock, placed: &[Placed], crumb: Minute) -> usize {
    placed.iter().map(|placed| crumbs(clock, placed, crumb)).sum()
}

/// A crumb with other work round it weighs more than one that only a break parts from the rest.
const BY_ITSELF: usize = 4;

/// The crumbs that one change-over leaves over; none where it is one piece.
fn crumbs(clock: &Clock, placed: &Placed, crumb: Minute) -> usize {
    let mut pieces = placed.pieces.clone();
    pieces.sort_unstable();
    // Pieces with no open minute between them are one go; those that meet are one piece.
    let (mut goes, mut apart, mut end) = (Vec::<Minute>::new(), Vec::<Minute>::new(), None);
    for (from, to) in pieces {
        let long = to - from;
        match (end, goes.last_mut()) {
            (Some(end), Some(go)) if clock.open_between(end, from) == 0 => *go += long,
            _ => goes.push(long),
        }
        match (end == Some(from), apart.last_mut()) {
            (true, Some(piece)) => *piece += long,
            _ => apart.push(long),
        }
        end = Some(to);
    }
    let small = |all: &[Minute]| all.iter().skip(1).filter(|long| **long < crumb).count();
    BY_ITSELF * small(&goes) + small(&apart)
}
