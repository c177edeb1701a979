//! Lines of a sheet that every set-up on the lathe has: how it is held, and what is tried before the first cut and after it.

use crate::operations::{HeldIn, Hold, HoldPoint, Limits, SetUp, kit};
use crate::proof::{Fact, Words};
use crate::quantity::{Hardness, Quantity};

/// The row of the table of set-up minutes: seating and truing the part, not the chuck.
pub(in crate::operations) fn loading(hold: Option<&Hold>) -> &'static str {
    match hold.map(|hold| hold.held_in.value.on_a_lathe()) {
        Some(HeldIn::FourJaw) => "four-jaw chuck, dial",
        Some(HeldIn::Faceplate) => "faceplate, clamping",
        _ => "jaws, loading",
    }
}

/// How it is held and trued, in lines; `trued` says by what.
pub(in crate::operations) fn hold_lines(hold: Option<&Hold>, trued: &'static str, set_up: &mut SetUp) {
    set_up.hold.push(kit::turns_in(hold, "hold-not-named").into());
    let Some(hold) = hold else { return };
    let held_in = hold.held_in.value;
    if held_in == HeldIn::SoftJaws {
        let words = if hold.grips_inside() { "turn-soft-jaws" } else { "bore-soft-jaws" };
        set_up.hold.push(Words::of(words).into());
    }
    if held_in.jaws().is_some() {
        let nip = hold.nipped.as_ref().map_or(crate::operations::Nip::Normal, |at| at.value);
        let words = if held_in == HeldIn::FourJaw { "nip-each" } else { "nip" };
        set_up.hold.push(Words::of(words).with("nip", nip.named()).into());
    }
    if let Some(gripped) = &hold.diameter {
        let words = if hold.grips_inside() { "gripped-inside" } else { "gripped-on" };
        set_up.hold.push(Words::of(words).with("gripped", kit::mm_as_typed(gripped.value.number())).into());
    }
    if let Some(grip) = &hold.grip {
        set_up.hold.push(kit::gripped_so_long(grip, hold.overhang.as_ref()).into());
    }
    if let Some(clamped) = &hold.clamped {
        set_up.hold.push(Words::of("clamped-so").with("so", clamped.value.named()).into());
    }
    if let Some(stop) = &hold.stop {
        set_up.hold.push(Words::of("seated-on").with("stop", stop.value.named()).into());
    }
    set_up.hold.push(kit::trued_as(trued, Some(hold)).unwrap_or_else(|| Words::of("true-as-it-will-go")).into());
}

/// The new surface must be as hard as the old one was.
pub(in crate::operations) fn test_hardness(hardness: Option<Hardness>, set_up: &mut SetUp) {
    let hold = hardness.map(|hardness| {
        let least = Limits::not_under(hardness.to_string().into());
        HoldPoint::asking("hardness", 1, Fact::named("a-hardness-tester"), least)
    });
    set_up.hold_at(Words::of("test-hardness"), hold);
}
