//! A grip that is tried with a bar and a spring balance: the torque that it must stand, and whether it stood it.

use super::held::stood;
use crate::handbook::constants::constant;
use crate::handbook::cutting::grip as law;
use crate::operations::{Answer, HeldIn, Hold, HoldPoint, Limits, Name, SetUp};
use crate::proof::{Check, Fact, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Newton, NewtonMetre, Ratio, Rounds, Unit};

/// What turns the work in its grip.
pub struct Tried<'a> {
    /// How it is held.
    pub hold: &'a Hold,
    /// What that is called there.
    pub held_in: Fact,
    /// The force at the factors used.
    pub used: Worked<Newton>,
    /// The force at the worst end of its band.
    pub worst: Worked<Newton>,
    /// The factor of blows.
    pub blows: Worked<Ratio>,
    /// The diameter on which the force acts.
    pub across: Worked<Mm>,
    /// The factor of the guard band.
    pub guard: f64,
}

impl Tried<'_> {
    /// The torque to stand: the greater of both, at the factors used with the full safety, and at the worst end with the least.
    ///
    /// # Errors
    /// As the formula of the torque.
    pub fn asked(&self) -> Result<Worked<NewtonMetre>, Refusal> {
        let of = |safety: &'static str, force: &Worked<Newton>| {
            law::torque_to_stand(&constant(safety)?, &self.blows, force, &self.across)
        };
        let used = of("grip-safety", &self.used)?;
        let worst = of("grip-safety-least", &self.worst)?;
        Ok(if worst.high() >= used.high() { worst } else { used })
    }

    /// The same as a figure to try, rounded up.
    ///
    /// # Errors
    /// As [`Self::asked`].
    pub fn torque(&self) -> Result<Fact, Refusal> {
        let torque = self.asked()?.high();
        Ok(Fact::figure(torque, Unit::Nm).to(Decimals::Exactly(1)).rounded(Rounds::Up))
    }

    /// Judges the torque that the work stood against what is asked of it; nothing where it was not tried.
    ///
    /// # Errors
    /// As [`Self::asked`].
    pub fn judge(&self, name: &Name<NewtonMetre>, answer: &mut Answer) -> Result<(), Refusal> {
        let Some(at) = &self.hold.tested else { return Ok(()) };
        let half = at.value.plus_minus.or_else(|| at.value.grain.map(|grain| grain / 2.0)).unwrap_or(0.0);
        if at.value.plus_minus.is_none() {
            let doubt = Fact::figure(half, Unit::Nm).to(Decimals::AsTyped).plus_minus();
            answer.assume_words(Words::of("doubt-of-test").with("doubt", doubt));
        }
        let asked = answer.record(name, self.asked()?);
        let check = Check::judge("grip", &stood(at), Keep::AtLeast, &asked, self.guard).at(at.place);
        let words = Words::of("test-it").with("torque", self.torque()?);
        let check = answer.check(check.about(name.key));
        if !check.is_proven() {
            check.remedy(words);
        }
        Ok(())
    }

    /// A hold that no friction table judges: as it was tried, else doubtful with the torque to try. A support under a press holds
    /// nothing that turns.
    ///
    /// # Errors
    /// As [`Self::asked`].
    pub fn looked_at(&self, name: &Name<NewtonMetre>, answer: &mut Answer) -> Result<(), Refusal> {
        let held_in = &self.hold.held_in;
        let named = |verdict| Check::of_kind("grip-looked-at", verdict).with("in", self.held_in.clone());
        let looked = |verdict| named(verdict).at(held_in.place);
        if held_in.value == HeldIn::PressSupport {
            answer.does_not_apply(&["grip"]);
            answer.check(looked(Verdict::Fails)).remedy(Words::of("holds-nothing-that-turns"));
            return Ok(());
        }
        if self.hold.tested.is_some() {
            answer.does_not_apply(&["grip-looked-at"]);
            return self.judge(name, answer);
        }
        answer.does_not_apply(&["grip"]);
        answer.record(name, self.asked()?);
        answer.fact("torque_to_stand", self.torque()?);
        let words = Words::of("bar-and-balance").with("torque", self.torque()?);
        answer.check(looked(Verdict::Doubtful)).remedy(words);
        Ok(())
    }
}

/// Decimals of a newton metre that a bar and a spring balance are read to.
const TORQUE_PLACES: i32 = 1;

/// The hold point at which a grip is tried, where it must stand so much.
pub fn try_the_grip(set_up: &mut SetUp, hold: Option<&Hold>, name: &Name<NewtonMetre>, answer: &Answer) {
    if !hold.is_some_and(|hold| hold.tested.is_none() && hold.held_in.value != HeldIn::PressSupport) {
        return;
    }
    let Some(torque) = answer.value(name.key) else { return };
    // At its worst end, and the same figure in the words and in the limit.
    let high = torque.band.map_or(torque.number, |band| band.1.max(torque.number)) + torque.plus_minus;
    let limits = Limits::asked((Some(high), None), TORQUE_PLACES, torque.unit);
    let words = Words::of("try-the-grip");
    let words = match &limits.least {
        Some(least) => words.with("torque_to_stand", least.clone()),
        None => words,
    };
    let point = HoldPoint::asking(torque.key, 1, Fact::named("bar-and-balance"), limits);
    set_up.hold_at(words, point);
}

/// Judges the length that grips against what is asked; half of that is doubtful, less fails.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the share.
pub fn grip_length(
    name: &Name<Mm>,
    grips: &Worked<Mm>,
    asked: Worked<Mm>,
    guard: f64,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let asked = answer.record(name, asked);
    let share = crate::handbook::constants::row("grip-length-share-doubtful")?.value;
    let half = asked.scaled(share, "doubtful to half of it");
    let check = Check::judge_two("grip-length", (grips, &asked), Keep::AtLeast, (grips, &half), guard);
    let check = answer.check(check.about(name.key));
    let corner: Worked<Mm> = constant("jaw-corner")?;
    if !check.is_proven() {
        let grip = Fact::mm(asked.number() + corner.number()).to(Decimals::Exactly(1)).rounded(Rounds::Up);
        check.remedy(Words::of("longer-grip").with("grip", grip));
    }
    Ok(())
}
