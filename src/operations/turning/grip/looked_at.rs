//! Holds that no friction table judges: the gripped work is tried with a bar and a spring balance.

use super::super::TORQUE_TO_STAND;
use super::{Held, dish, reach};
use crate::operations::kit::Tried;
use crate::operations::{Answer, HeldIn};
use crate::proof::{Refusal, Worked};
use crate::quantity::NewtonMetre;

/// What only jaws do.
const OF_JAWS: [&str; 5] = ["grip-moment", "jaw-pressure", "jaw-reach", "ring-lobe", "ring-stress"];

pub(super) fn work(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    answer.does_not_apply(&OF_JAWS);
    match held.hold.held_in.value {
        HeldIn::Collet => reach::grip_length(held, answer)?,
        _ => answer.does_not_apply(&["grip-length"]),
    }
    if super::is_asked(dish::ID, held.way) {
        dish::bolted_down(held, answer)?;
    }
    tried(held)?.looked_at(&TORQUE_TO_STAND, answer)
}

/// The torque that the work stood against what the cut asks.
pub(super) fn judge_tested(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    tried(held)?.judge(&TORQUE_TO_STAND, answer)
}

/// The cut as it turns the work in its grip.
fn tried<'a>(held: &Held<'a>) -> Result<Tried<'a>, Refusal> {
    Ok(Tried {
        hold: held.hold,
        held_in: held.hold.named_on_a_lathe(),
        used: held.cut.force.at_most(held.cut.force.number(), "at the factors used"),
        worst: held.worst_force(),
        blows: held.blows()?,
        across: held.cut_at.clone(),
        guard: held.guard,
    })
}

/// The torque to stand.
pub(super) fn asked(held: &Held) -> Result<Worked<NewtonMetre>, Refusal> {
    tried(held)?.asked()
}
