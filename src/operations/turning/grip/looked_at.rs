//! Holds that no friction table judges: the gripped work is tried with a bar and a spring balance.

use super::super::TORQUE_TO_STAND;
use super::Held;
use crate::handbook::constants::constant;
use crate::handbook::cutting::grip as law;
use crate::operations::{Answer, HeldIn, Hold, kit};
use crate::proof::{Check, Fact, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Newton, NewtonMetre, Rounds, Unit};

/// What only jaws do.
const OF_JAWS: [&str; 7] =
    ["grip-moment", "grip-length", "jaw-pressure", "jaw-reach", "ring-lobe", "ring-stress", "dish"];

/// Whether the hold must be tried before the first cut, and was not.
pub(in crate::operations) fn asks_for_test(hold: &Hold) -> bool {
    hold.held_in.value.jaws().is_none() && hold.tested.is_none()
}

pub(super) fn work(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let of_jaws = OF_JAWS.into_iter().filter(|id| super::is_asked(id, held.way));
    answer.does_not_apply(&of_jaws.collect::<Vec<_>>());
    if held.hold.held_in.value == HeldIn::PressSupport {
        answer.does_not_apply(&["grip"]);
        let check = Check::of_kind("grip-looked-at", Verdict::Fails).with("in", held.hold.held_in.value.named());
        answer.check(check.at(held.hold.held_in.place)).remedy(Words::of("holds-nothing-that-turns"));
        return Ok(());
    }
    if held.hold.tested.is_some() {
        answer.does_not_apply(&["grip-looked-at"]);
        return judge_tested(held, answer);
    }
    answer.does_not_apply(&["grip"]);
    answer.record(&TORQUE_TO_STAND, asked(held)?);
    answer.fact("torque_to_stand", torque(held)?);
    let words = Words::of("bar-and-balance").with("torque", torque(held)?);
    let check = Check::of_kind("grip-looked-at", Verdict::Doubtful).with("in", held.hold.held_in.value.named());
    answer.check(check.at(held.hold.held_in.place)).remedy(words);
    Ok(())
}

/// The torque that the work stood against what the cut asks.
pub(super) fn judge_tested(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let Some(at) = &held.hold.tested else { return Ok(()) };
    let half = at.value.plus_minus.or_else(|| at.value.grain.map(|grain| grain / 2.0)).unwrap_or(0.0);
    if at.value.plus_minus.is_none() {
        let doubt = Fact::figure(half, Unit::Nm).to(Decimals::AsTyped).plus_minus();
        answer.assume_words(Words::of("doubt-of-test").with("doubt", doubt));
    }
    let stood = kit::stood(at);
    let asked = asked(held)?;
    answer.record(&TORQUE_TO_STAND, asked.clone());
    let check = Check::judge("grip", &stood, Keep::AtLeast, &asked, held.guard).at(at.place);
    let words = Words::of("test-it").with("torque", torque(held)?);
    let check = answer.check(check.about(TORQUE_TO_STAND.key));
    if !check.is_proven() {
        check.remedy(words);
    }
    Ok(())
}

/// The greater of both: at the factors used with the full safety, and at the worst end with the least.
fn asked(held: &Held) -> Result<Worked<NewtonMetre>, Refusal> {
    let blows = held.blows()?;
    let of = |safety: &'static str, force: &Worked<Newton>| {
        law::torque_to_stand(&constant(safety)?, &blows, force, &held.cut_at)
    };
    let at_used = held.cut.force.at_most(held.cut.force.number(), "at the factors used");
    let used = of("grip-safety", &at_used)?;
    let worst = of("grip-safety-least", &held.worst_force())?;
    Ok(if worst.high() >= used.high() { worst } else { used })
}

/// The same as a figure to try, rounded up.
pub(super) fn torque(held: &Held) -> Result<Fact, Refusal> {
    let torque = asked(held)?.high();
    Ok(Fact::figure(torque, Unit::Nm).to(Decimals::Exactly(1)).rounded(Rounds::Up))
}
