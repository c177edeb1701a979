//! What is too little to move a pair of jaws by.

use crate::handbook::constants::row;
use crate::operations::Value;
use crate::proof::Worked;
use crate::quantity::Shift;

/// Less than this, half of what an indicator shows, no pair of jaws is moved, mm.
const LEAST: f64 = 0.0005;

/// Whether a pair stays: it is off by less than anybody sees, or by no more than is known of it and no hand moves.
fn stays(by: f64, doubt: f64) -> bool {
    let by_a_key = row("jaw-moved-least").map_or(0.0, |row| row.value);
    by < LEAST || by < doubt.min(by_a_key)
}

/// Whether the jaws of a pair are moved by so much.
pub(super) fn is_moved(by: &Value) -> bool {
    !stays(by.number, by.plus_minus)
}

/// How far the pairs that stay leave the centre off, as an indicator reads it in a turn, mm.
pub(super) fn left_of([along, across]: [&Worked<Shift>; 2]) -> f64 {
    let left = |way: &Worked<Shift>| {
        let by = way.number().abs();
        if by >= LEAST && stays(by, way.plus_minus()) { by } else { 0.0 }
    };
    2.0 * left(along).hypot(left(across))
}
