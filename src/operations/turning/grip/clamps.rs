//! Where the clamps of what is bolted down stand: on the face that is cut they are in the way of the tool.

use super::Held;
use crate::operations::{Answer, Clamped, HeldIn};
use crate::proof::{Check, Verdict};

pub(super) const ID: &str = "clear-of-clamps";

/// Does the tool go over the whole face without meeting a clamp, a bolt or a nut?
pub(super) fn clear(held: &Held, answer: &mut Answer) {
    if !matches!(held.hold.held_in.value, HeldIn::Faceplate | HeldIn::Clamps | HeldIn::AnglePlate) {
        return answer.does_not_apply(&[ID]);
    }
    let Some(clamped) = &held.hold.clamped else { return answer.not_checked(&[ID], &["hold.clamped"]) };
    let verdict = if clamped.value == Clamped::OnTheFace { Verdict::Fails } else { Verdict::Proven };
    answer.check(Check::of_kind(ID, verdict).at(clamped.place));
}
