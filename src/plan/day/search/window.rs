//! Many set-ups: a window rolls over an order, in each a beam finds the best, and the first of it are fixed.

use super::beam::beam;
use super::bits::Bits;
use super::model::Model;
use super::order::Order;
use super::timing::State;

/// Set-ups in the window.
const WINDOW: usize = 24;
/// How many of them are fixed before it rolls on.
const FIXED: usize = 12;
/// Width of its beam.
const WIDTH: usize = 8;

/// An order made window by window along another; none where a window comes to nothing.
pub(super) fn rolled(model: &Model, along: &Order) -> Option<Order> {
    let mut state = State::first(model);
    let mut order = Order::new();
    while order.len() < model.len() {
        let line = window(model, &state, along);
        let found = beam(model, &state, &line, WIDTH)?;
        let mut waiting = Vec::new();
        for (place, next) in found.iter().enumerate() {
            // A load and its fetching stand in one window, and what follows at once.
            if place >= FIXED && waiting.is_empty() {
                break;
            }
            state.append(model, next.number, next.later, None)?;
            waiting.retain(|fetcher| *fetcher != next.number);
            waiting.extend(model.fetcher(next.number));
            waiting.extend(model.train(next.number));
            waiting.extend(model.riders(next.number));
            order.push(*next);
        }
    }
    Some(order)
}

/// The next set-ups along the order, loads with all that is needed to fetch them, each after what must come before it.
fn window(model: &Model, state: &State, along: &Order) -> Vec<usize> {
    let mut inside = Bits::none(model.len());
    let mut count = 0;
    for next in along.iter().filter(|next| !state.done.has(next.number)) {
        if count >= WINDOW {
            break;
        }
        let fetcher = model.fetcher(next.number).into_iter();
        let train = model.train(next.number).iter().copied();
        let ends: Vec<usize> = fetcher.chain(train).chain(model.riders(next.number)).collect();
        let needed = (0..model.len()).filter(|number| {
            *number == next.number || ends.iter().any(|end| end == number || model.must_precede(*number, *end))
        });
        for number in needed.filter(|number| !state.done.has(*number)) {
            if !inside.has(number) {
                inside.add(number);
                count += 1;
            }
        }
    }
    model.in_line.iter().copied().filter(|number| inside.has(*number)).collect()
}
