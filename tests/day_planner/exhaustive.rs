//! Every order of a small day, one after the other.

use super::{Model, State, Vector};

/// The best of all orders; part of an order is left only when it is late, or ends, after the best whole order known.
pub fn best(model: &Model) -> Option<Vector> {
    let mut best = None;
    go_on(model, &State::first(model), &mut vec![false; model.len()], &mut best);
    best
}

fn go_on(model: &Model, state: &State, done: &mut Vec<bool>, best: &mut Option<Vector>) {
    if done.iter().all(|done| *done) {
        let reached = state.vector();
        if best.is_none_or(|best| reached < best) {
            *best = Some(reached);
        }
        return;
    }
    for number in 0..model.len() {
        if done[number] {
            continue;
        }
        for later in [false, true] {
            if later && model.fetcher(number).is_none() {
                continue;
            }
            let mut next = state.clone();
            if next.append(model, number, later, None).is_none() {
                continue;
            }
            let reached = next.vector();
            if best.is_some_and(|best| (reached.late, reached.finish) > (best.late, best.finish)) {
                continue;
            }
            done[number] = true;
            go_on(model, &next, done, best);
            done[number] = false;
        }
    }
}
