//! An order of set-ups and its timing from the first to the last.

use super::model::Model;
use super::timing::{State, Vector};

/// A set-up in an order.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Next {
    /// The set-up.
    pub number: usize,
    /// Whether a load waits for the next opening.
    pub later: bool,
}

/// An order, first to last.
pub type Order = Vec<Next>;

impl Next {
    /// The set-up at once.
    pub const fn now(number: usize) -> Self {
        Self { number, later: false }
    }
}

/// Times an order; none where a must forbids it.
pub fn time(model: &Model, order: &[Next]) -> Option<Vector> {
    let mut state = State::first(model);
    for next in order {
        state.append(model, next.number, next.later, None)?;
    }
    (state.count == model.len()).then(|| state.vector())
}

/// The ways in which a set-up may come next: loads with a fetcher may wait for the next opening.
pub(super) fn ways(model: &Model, number: usize) -> &'static [bool] {
    if model.fetcher(number).is_some() { &[false, true] } else { &[false] }
}
