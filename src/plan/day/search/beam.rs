//! A beam: layer by layer only the most promising are kept.

use super::bound::Sums;
use super::model::Model;
use super::order::{Next, Order, ways};
use super::timing::{State, Vector};
use std::collections::HashSet;

/// The best order that a beam of so many finds from a state, over the set-ups of `line` alone (each after what must come
/// before it); none where every one of its ways ends.
pub(super) fn beam(model: &Model, from: &State, line: &[usize], width: usize) -> Option<Order> {
    let mut sums = Sums::default();
    let mut ranked: Vec<usize> = line.iter().copied().filter(|number| !from.done.has(*number)).collect();
    ranked.sort_by_key(|number| model.known.get(*number).map(|known| known.rank));
    let mut kept: Vec<(State, Order)> = vec![(from.clone(), Order::new())];
    let mut work = State::first(model);
    for _ in 0..ranked.len() {
        let mut found: Vec<(Vector, usize, Next)> = Vec::new();
        for (place, (state, _)) in kept.iter().enumerate() {
            for number in ranked.iter().filter(|number| !state.done.has(**number)) {
                for later in ways(model, *number) {
                    work.copy(state);
                    if work.append(model, *number, *later, None).is_some()
                        && let Some(bound) = sums.bound(model, &work, line)
                    {
                        found.push((bound, place, Next { number: *number, later: *later }));
                    }
                }
            }
        }
        found.sort_by_key(|(bound, place, _)| (*bound, *place));
        kept = widest(model, &kept, found, width);
    }
    kept.into_iter().min_by_key(|(state, _)| state.vector()).map(|(_, order)| order)
}

/// The most promising, no two with the same done, carried, and time.
fn widest(
    model: &Model,
    before: &[(State, Order)],
    found: Vec<(Vector, usize, Next)>,
    width: usize,
) -> Vec<(State, Order)> {
    let mut kept: Vec<(State, Order)> = Vec::with_capacity(width);
    let mut seen: HashSet<(Vec<usize>, Vec<u16>, u32)> = HashSet::new();
    for (_, place, next) in found {
        if kept.len() >= width {
            break;
        }
        let Some((state, order)) = before.get(place) else { continue };
        let mut state = state.clone();
        if state.append(model, next.number, next.later, None).is_none() {
            continue;
        }
        let order: Order = order.iter().copied().chain([next]).collect();
        let mut done: Vec<usize> = order.iter().map(|next| next.number).collect();
        done.sort_unstable();
        if seen.insert((done, state.held.clone(), state.time)) {
            kept.push((state, order));
        }
    }
    kept
}
