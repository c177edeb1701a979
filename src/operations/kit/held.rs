//! The lines of a sheet that say how a part is held.

use super::{Station, mm, mm_as_typed};
use crate::handbook::constants::row;
use crate::handbook::rigging::Aspect;
use crate::operations::{Carried, HeldIn, Hold, SetUp, Stop};
use crate::proof::{At, Cause, Origin, Words, Worked};
use crate::quantity::{Measured, Mm, NewtonMetre, Quantity};

/// What it is held in; where nobody says, the words of the card for that.
pub fn held_in(hold: Option<&Hold>, unnamed: &'static str) -> Words {
    match hold {
        Some(hold) => Words::of("held-in").with("in", hold.named()),
        None => Words::of(unnamed),
    }
}

/// The same where it turns with the spindle.
pub fn turns_in(hold: Option<&Hold>, unnamed: &'static str) -> Words {
    match hold {
        Some(hold) => Words::of("held-in").with("in", hold.named_on_a_lathe()),
        None => Words::of(unnamed),
    }
}

/// How deep the jaws of a vice hold it and how far it stands out of them, and how true it is held, where somebody says.
pub fn trued(hold: Option<&Hold>) -> impl Iterator<Item = Words> {
    let vice = hold.filter(|hold| hold.held_in.value == HeldIn::Vice);
    let grip = vice.and_then(|hold| Some(gripped_so_long(hold.grip.as_ref()?, hold.overhang.as_ref())));
    grip.into_iter().chain(trued_as("true-within", hold))
}

/// How much of it is gripped, and how far it stands out where somebody says.
pub fn gripped_so_long(grip: &At<Mm>, overhang: Option<&At<Mm>>) -> Words {
    let typed = |at: &At<Mm>| mm_as_typed(at.value.number());
    match overhang {
        Some(out) => Words::of("grip-and-out").with("grip", typed(grip)).with("out", typed(out)),
        None => Words::of("grip-length").with("grip", typed(grip)),
    }
}

/// The same in the words of a card for what it is trued by. What is finer than anybody reads is asked in words.
pub fn trued_as(id: &'static str, hold: Option<&Hold>) -> Option<Words> {
    let within = hold?.true_within.as_ref()?;
    if row("no-gauge-reads-to").is_ok_and(|least| within.value.number() < least.value) {
        return Some(Words::of("true-as-it-will-go"));
    }
    Some(Words::of(id).with("within", mm(within.value.number())))
}

/// What the machine must carry to hold it so; where nobody says, the device that is usual there. Soft jaws are bored to the size
/// that they grip, a tenth of a millimetre fine; hard ones stand one way round or the other.
pub fn rig(set_up: &mut SetUp, hold: Option<&Hold>, usual: HeldIn) {
    let device = hold.map_or(usual, |hold| hold.held_in.value);
    let device = if set_up.station == Station::Lathe { device.on_a_lathe() } else { device };
    set_up.carries(Aspect::Device, Carried::Held(device));
    let tenths = |at: &At<Mm>| (at.value.number() * 10.0).round() / 10.0;
    match (device, hold.and_then(|hold| hold.diameter.as_ref())) {
        (HeldIn::Collet | HeldIn::Mandrel, Some(gripped)) => {
            set_up.carries(Aspect::Jaws, Carried::ForMm(tenths(gripped)));
        }
        (HeldIn::SoftJaws, Some(gripped)) if hold.is_some_and(Hold::grips_inside) => {
            set_up.carries(Aspect::Jaws, Carried::OpensInMm(tenths(gripped)));
        }
        (HeldIn::SoftJaws, Some(gripped)) => {
            let step = hold.filter(|hold| hold.stop() == Stop::Step).and_then(|hold| hold.grip.as_ref());
            set_up.carries(Aspect::Jaws, Carried::BoredMm(tenths(gripped), step.map(tenths)));
        }
        (HeldIn::Jaws, _) if hold.is_some_and(Hold::grips_inside) => {
            set_up.carries(Aspect::Jaws, Carried::TurnedRound);
        }
        _ => {}
    }
}

/// The torque that the gripped work was seen to stand, with the doubt of its reading: what was typed, else half of its last digit.
pub fn stood(at: &At<Measured<NewtonMetre>>) -> Worked<NewtonMetre> {
    let half = at.value.plus_minus.or_else(|| at.value.grain.map(|grain| grain / 2.0)).unwrap_or(0.0);
    Worked::exact(at.value.value, Origin::Typed(at.place)).with_doubt(Cause::Reading(at.place), half)
}
