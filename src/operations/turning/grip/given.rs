//! Whether the diameter that is gripped can be one of this part.

use crate::handbook::constants::row;
use crate::operations::{Answer, HeldIn, Hold};
use crate::proof::{Check, Fact, Refusal, Verdict, Worked};
use crate::quantity::{Mm, Quantity};

/// What is said of a grip on a diameter that the part was not given.
const ID: &str = "gripped-as-given";

/// A grip far larger, or far smaller, than the part is where it is cut: a slip of the point, or another place of it. Who gives the bore
/// that it has there knows that place.
pub(super) fn gripped_as_given(hold: &Hold, outside: &Worked<Mm>, answer: &mut Answer) -> Result<(), Refusal> {
    let (most, least) = (row("gripped-over-outside-most")?.value, row("gripped-under-outside-least")?.value);
    let in_jaws = hold.held_in.value.has_jaws() || hold.held_in.value == HeldIn::Collet;
    let Some(gripped) = hold.diameter.as_ref().filter(|_| in_jaws && !hold.fills_the_bore() && hold.inside.is_none())
    else {
        return Ok(());
    };
    let share = gripped.value.number() / outside.number();
    // 1e-9: a grip of just that share is none too far off.
    if share > most + 1e-9 || share < least - 1e-9 {
        let check = Check::of_kind(ID, Verdict::Doubtful).with("gripped", Fact::mm(gripped.value.number()));
        answer.check(check.with("outside", Fact::mm(outside.number())).at(gripped.place));
    }
    Ok(())
}
