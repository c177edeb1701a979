//! The day planned: one pair of hands, machines one each, waits that run unattended.
//!
//! [`Model`] is what is to be done, [`State`] times one order exactly, [`plan`] finds the best order: exactly, by layers of
//! labels, where the set-ups are few, else the best found with a bound. Limits are counts, never a clock.

mod answer;
mod beam;
mod bits;
mod bound;
mod circle;
mod clock;
mod dominance;
mod labels;
mod local;
mod made;
mod model;
mod order;
mod pieces;
mod rigging;
mod settled;
mod spec;
mod starts;
mod timing;
mod why;
mod window;

pub use answer::{Limits, Placed, Planned, Proof, plan};
pub use bound::bound;
pub use circle::circle;
pub use clock::{Clock, DAY, Minute};
pub use dominance::Compared;
pub use labels::{Weighed, weigh};
pub use model::Model;
pub use order::{Next, Order, time};
pub use pieces::made_whole;
pub use rigging::{Aspect, Rigging, Wish};
pub use settled::{filled, loaded_late, stay};
pub use spec::{Apart, Better, Edge, Holding, Inside, Machine, Piece, Spec, Takes};
pub use timing::{Piecemeal, State, Vector};
pub use why::{Reason, apart, reasons, slacks};

/// What stands at a place of a list, by value; the type's own nothing where the list is shorter.
fn at<T: Copy + Default>(list: &[T], place: usize) -> T {
    list.get(place).copied().unwrap_or_default()
}

/// Puts a value where the list has that place.
fn put<T>(list: &mut [T], place: usize, value: T) {
    if let Some(slot) = list.get_mut(place) {
        *slot = value;
    }
}
