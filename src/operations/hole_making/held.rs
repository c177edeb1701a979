//! Is the work held against a tool that turns in it, grabs, and lifts it? By what holds it, by the torque that the grip stood in a
//! test, and in jaws or a vice by the length that is gripped.

use super::names::{GRIP_LENGTH_ASKED, TORQUE_TO_STAND};
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::{drill_column, grip as law};
use crate::operations::kit::{self, Tried, at_end};
use crate::operations::{Answer, Bench, HeldIn, Hold, SetUp, Stop};
use crate::proof::{At, Check, Mark, Refusal, Side, Source, Verdict, Words, Worked};
use crate::quantity::{Mm, NewtonMetre, Quantity, Ratio};

/// Every check of a hold under a tool that turns.
const ALL: [&str; 4] = ["held", "grip", "grip-looked-at", "grip-length"];

/// What a tool asks of the hold.
pub(in crate::operations) struct Asks<'a> {
    /// The torque on it; none where no table has one.
    pub torque: Option<&'a Worked<NewtonMetre>>,
    /// Its diameter.
    pub across: &'a Worked<Mm>,
    /// Whether it grabs: as it breaks through, or where its edges catch.
    pub grabs: bool,
}

/// Judges the hold; where nobody says how it is held, or no torque is known, it says what is missing.
pub(in crate::operations) fn held(
    bench: &Bench,
    hold: Option<&Hold>,
    asks: &Asks,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let Some(hold) = hold else {
        answer.not_checked(&ALL, &["hold"]);
        return Ok(());
    };
    let squeezed = squeezed(hold, answer)?;
    let check = Check::of_kind("held", by_kind(hold).max(squeezed)).at(hold.held_in.place);
    let check = answer.check(check.with("in", hold.named()));
    if squeezed != Verdict::Proven {
        check.remedy(Words::of("thin-where-it-is-gripped"));
    }
    grip_length(bench, hold, answer)?;
    let Some(torque) = asks.torque else {
        answer.not_checked(&["grip", "grip-looked-at"], &[]);
        return Ok(());
    };
    let force = drill_column::force_at_corner(torque, asks.across)?;
    let tried = Tried {
        hold,
        held_in: hold.named(),
        used: force.at_most(force.number(), "at the factors used"),
        worst: at_end(&force, Side::High),
        blows: blows(asks.grabs)?,
        across: asks.across.clone(),
        guard: bench.guard(),
    };
    if hold.held_in.value.jaws().is_none() {
        return tried.looked_at(&TORQUE_TO_STAND, answer);
    }
    // In jaws friction alone carries torque and thrust: under a spindle over the work only a test says whether it does.
    answer.does_not_apply(&["grip-looked-at"]);
    if hold.tested.is_some() {
        return tried.judge(&TORQUE_TO_STAND, answer);
    }
    answer.record(&TORQUE_TO_STAND, tried.asked()?);
    answer.fact("torque_to_stand", tried.torque()?);
    answer.not_checked(&["grip"], &["hold.tested"]);
    Ok(())
}

/// What can neither turn nor lift holds; what the thrust may push through its grip, or tilt, is doubtful.
fn by_kind(hold: &Hold) -> Verdict {
    match hold.held_in.value {
        HeldIn::Vice | HeldIn::Clamps | HeldIn::AnglePlate => Verdict::Proven,
        HeldIn::Jaws | HeldIn::SoftJaws | HeldIn::FourJaw if hold.stop() == Stop::Step => Verdict::Proven,
        HeldIn::PressSupport => Verdict::Fails,
        _ => Verdict::Doubtful,
    }
}

/// A ring or a box between jaws is pressed out of round, and cracks where it is cast: what is hollow is gripped where its wall is thick.
/// What nobody says is hollow is taken as solid, and listed.
fn squeezed(hold: &Hold, answer: &mut Answer) -> Result<Verdict, Refusal> {
    let between_jaws = hold.held_in.value == HeldIn::Vice || hold.held_in.value.has_jaws();
    if !between_jaws || hold.grips_inside() {
        return Ok(Verdict::Proven);
    }
    let Some(inside) = &hold.inside else {
        answer.assume_words(Words::of("solid-where-gripped"));
        return Ok(Verdict::Proven);
    };
    let (inside, least) = (inside.value.number(), row("gripped-wall-of-width")?.value);
    let stands = |wide: &At<Mm>| (wide.value.number() - inside) / 2.0 >= least * wide.value.number();
    let solid = inside <= 0.0 || hold.diameter.as_ref().is_some_and(stands);
    Ok(if solid { Verdict::Proven } else { Verdict::Doubtful })
}

/// In jaws: enough of it in the grip, by the rule of every chuck; in a vice by the same rule, a third of what stands over its jaws.
fn grip_length(bench: &Bench, hold: &Hold, answer: &mut Answer) -> Result<(), Refusal> {
    const ID: &str = "grip-length";
    let in_vice = hold.held_in.value == HeldIn::Vice;
    if hold.held_in.value.jaws().is_none() && !in_vice {
        answer.does_not_apply(&[ID]);
        return Ok(());
    }
    let gripped = match &hold.overhang {
        // Between flat jaws no diameter is gripped.
        Some(out) if in_vice => Some(Worked::from(out).at_least(0.001, "not under nothing")),
        _ => hold.diameter.as_ref().map(Worked::from),
    };
    let (Some(grip), Some(out), Some(gripped)) = (&hold.grip, &hold.overhang, &gripped) else {
        let missing = [
            (hold.grip.is_none(), "hold.grip"),
            (hold.overhang.is_none(), "hold.overhang"),
            (hold.diameter.is_none() && !in_vice, "hold.diameter"),
        ];
        let missing: Vec<&'static str> = missing.iter().filter(|key| key.0).map(|key| key.1).collect();
        answer.not_checked(&[ID], &missing);
        return Ok(());
    };
    let least = constant(if hold.stop() == Stop::Step { "grip-least-step" } else { "grip-least" })?;
    let grips = law::length_that_grips(&grip.into(), &constant("jaw-corner")?)?;
    let asked = law::grip_length_asked(&least, &out.into(), gripped)?;
    kit::grip_length(&GRIP_LENGTH_ASKED, &grips, asked, bench.guard(), answer)
}

/// The factor of blows: a tool that grabs strikes.
fn blows(grabs: bool) -> Result<Worked<Ratio>, Refusal> {
    if grabs {
        return constant("blow-factor");
    }
    let source = Source::fixed("no blows", Mark::Derived);
    Ok(Worked::row(Ratio::new(1.0), "a tool that does not grab: 1", source))
}

/// The hold point at which the grip is tried, where it was not.
pub(in crate::operations) fn try_the_grip(set_up: &mut SetUp, hold: Option<&Hold>, answer: &Answer) {
    kit::try_the_grip(set_up, hold, &TORQUE_TO_STAND, answer);
}
