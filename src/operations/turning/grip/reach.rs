//! Sizes of the grip: long enough, not pressed too hard, within the jaws' reach, the tool clear, nothing too far out.

use super::super::problems::LENGTHS_AGREE;
use super::super::{GRIP_LENGTH_ASKED, JAW_PRESSURE, Piece, TOOL_CLEAR};
use super::jaw_force::JawForce;
use super::{Held, SEATS, THROUGH, WHIPS_BEHIND};
use crate::handbook::Material;
use crate::handbook::constants::{constant, row, worst};
use crate::handbook::cutting::{grip as law, jaw_force, work_holding as holding};
use crate::handbook::materials::groups::Kind;
use crate::operations::kit::grip_length as grip_length_judged;
use crate::operations::{Answer, HeldIn};
use crate::proof::{Check, Fact, Keep, Mark, Origin, Refusal, Side, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Ratio, Rounds, Stress};

/// How far the part stands out, and how far it may.
pub(in crate::operations::turning) struct Overhang {
    pub out: Worked<Mm>,
    pub most: Worked<Mm>,
}

/// How far it stands out: what the part has between its far end and the grip, where nobody typed less.
pub(in crate::operations) fn stands_out(piece: &Piece) -> Option<Worked<Mm>> {
    let hold = piece.asked.hold?;
    let typed = hold.overhang.as_ref().map(Worked::from);
    let grip = hold.grip.as_ref().filter(|_| piece.asked.over_both_ends);
    let there = grip.map(|grip| {
        let behind = hold.behind.as_ref().map_or(0.0, |behind| behind.value.number());
        let out = piece.length.shifted(-grip.value.number() - behind, "the length less the grip");
        out.at_least(0.0, "not under nothing")
    });
    // A length that another operation leaves is known only here, and may be less than what was typed counts on; one that is typed too was
    // held against that where both were read.
    let is_typed = matches!(**piece.length.origin(), Origin::Typed(_));
    let is_short = |there: &Worked<Mm>| {
        typed.as_ref().is_none_or(|typed: &Worked<Mm>| !is_typed && there.number() < typed.number())
    };
    there.filter(is_short).or(typed)
}

/// How far the part stands out, where somebody says.
pub(in crate::operations::turning) fn overhang(piece: &Piece) -> Result<Option<Overhang>, Refusal> {
    let gripped = piece.asked.hold.and_then(|hold| hold.diameter.as_ref());
    let (Some(out), Some(gripped)) = (stands_out(piece), gripped) else { return Ok(None) };
    let most = holding::overhang_most(&constant::<Ratio>("overhang-unsupported")?, &gripped.into())?;
    Ok(Some(Overhang { out, most: super::at_end(&most, Side::Low) }))
}

/// No more than three diameters unsupported.
pub(super) fn overhang_kept(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let (Some(out), Some(gripped)) = (&held.overhang, held.gripped()) else {
        answer.not_checked(&["overhang"], &held.lacking(&["hold.overhang", "hold.diameter"]));
        return Ok(());
    };
    let most = holding::overhang_most(&constant::<Ratio>("overhang-unsupported")?, &gripped)?;
    answer.check(Check::judge("overhang", out, Keep::AtMost, &super::at_end(&most, Side::Low), held.guard));
    Ok(())
}

/// What is longer than grip and overhang stands in the spindle; what comes out behind it turns in the open, where nobody holds it.
pub(super) fn whips_behind(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let Some(whole) = &held.whole else { return Ok(()) };
    let (Some(out), Some(grip)) = (&held.overhang, held.grip()) else {
        answer.does_not_apply(&[WHIPS_BEHIND]);
        return Ok(());
    };
    let source = Source::fixed("geometry", Mark::Derived);
    let behind = Worked::sum(
        &[(1.0, whole), (-1.0, out), (-1.0, &grip)],
        0.0,
        "the part less what stands out and the grip",
        source,
    );
    let hidden = constant::<Mm>("behind-jaws-most")?;
    answer.check(match whirls_from(held)? {
        Some(free) => {
            let source = Source::fixed("geometry", Mark::Derived);
            let longest =
                Worked::sum(&[(1.0, &hidden), (1.0, &free)], 0.0, "what is hidden, and what does not whirl", source);
            Check::judge_two(WHIPS_BEHIND, (&behind, &hidden), Keep::AtMost, (&behind, &longest), held.guard)
        }
        None => {
            Check::judge(WHIPS_BEHIND, &behind, Keep::AtMost, &hidden, held.guard).not_worse_than(Verdict::Doubtful)
        }
    });
    Ok(())
}

/// The free length from which a bar as thick as it is gripped whirls at the speed of the cut; none where diameter or metal are not known.
fn whirls_from(held: &Held) -> Result<Option<Worked<Mm>>, Refusal> {
    let (Some(diameter), Some((density, source))) = (held.gripped(), held.material.density()) else { return Ok(None) };
    let Ok(modulus) = held.material.modulus() else { return Ok(None) };
    let fast = holding::plate_speed_high(held.cut.step, &worst("plate-speed-high-side", true)?)?;
    let share = row("whirl-share")?.value;
    let whirling = fast.scaled(1.0 / share, "a share of the speed at which it whirls");
    let density = Worked::row(Ratio::new(density), "density over that of water", source);
    let diameter = diameter.nominal("its doubt does not matter in the length that whirls");
    holding::whirl_length(&whirling, &modulus.nominal("the middle"), &density, &diameter).map(Some)
}

/// What seats on a step of the jaws ends there: where it is longer than grip and overhang, it either seats on nothing or stands out
/// further than was said, and the step that holds it against tilting is not there.
pub(super) fn seats_on_step(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let Some(whole) = &held.whole else { return Ok(()) };
    if !held.on_a_step() {
        answer.does_not_apply(&[SEATS]);
        return Ok(());
    }
    let (Some(out), Some(grip)) = (&held.overhang, held.grip()) else {
        answer.not_checked(&[SEATS], &held.lacking(&["hold.grip", "hold.overhang"]));
        return Ok(());
    };
    let behind = held.hold.behind.as_ref().map_or(0.0, |at| at.value.number());
    let source = Source::fixed("geometry", Mark::Derived);
    let over = Worked::sum(
        &[(1.0, whole), (-1.0, out), (-1.0, &grip)],
        -behind,
        "the part less what stands out, the grip and its smaller end",
        source,
    );
    let limit = Worked::assumed(Mm::new(LENGTHS_AGREE), "lengths taken with a rule agree no closer");
    let check = Check::judge(SEATS, &over, Keep::AtMost, &limit, held.guard);
    let place = held.hold.stop.as_ref().map_or(held.hold.held_in.place, |at| at.place);
    answer.check(check.not_worse_than(Verdict::Doubtful).at(place));
    // The steps of hard jaws are what their maker made them.
    let deepest: Worked<Mm> = constant("hard-jaw-step-most")?;
    if held.hold.held_in.value == HeldIn::Jaws && !held.hold.grips_inside() && grip.number() > deepest.number() {
        let check = answer.check(Check::of_kind(SEATS, Verdict::Doubtful).at(place));
        check.remedy(Words::of("no-step-so-deep").with("deepest", Fact::mm(deepest.number())));
    }
    // What stands out, the grip and a smaller end behind are together no longer than the part.
    if behind > 0.0 {
        let least = Worked::assumed(Mm::new(-LENGTHS_AGREE), "lengths taken with a rule agree no closer");
        let check = Check::judge(SEATS, &over, Keep::AtLeast, &least, held.guard);
        answer.check(check.not_worse_than(Verdict::Doubtful).at(place));
    }
    Ok(())
}

/// What stands behind the jaws stands in the chuck and its spindle: thicker than their bore it meets the chuck, and stands out in front
/// by as much more.
pub(super) fn goes_through(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let Some(whole) = &held.whole else { return Ok(()) };
    let in_collet = held.hold.held_in.value == HeldIn::Collet;
    if !in_collet && (held.hold.held_in.value.jaws().is_none() || held.hold.grips_inside()) {
        answer.does_not_apply(&[THROUGH]);
        return Ok(());
    }
    let (Some(out), Some(grip), Some(gripped)) = (&held.overhang, held.grip(), held.gripped()) else {
        answer.not_checked(&[THROUGH], &held.lacking(&["hold.grip", "hold.overhang", "hold.diameter"]));
        return Ok(());
    };
    let jaws = held.longest_jaw()?.map_or(0.0, |jaw| jaw.number());
    let deep = whole.number() - out.number();
    let behind = deep > jaws.max(grip.number()) + LENGTHS_AGREE;
    if !behind && !in_collet {
        answer.does_not_apply(&[THROUGH]);
        return Ok(());
    }
    if !held.in_shop {
        answer.no_shop(&[THROUGH]);
        return Ok(());
    }
    let chuck = held.chuck.or(held.scroll).and_then(|chuck| chuck.diameter.as_ref()).map(Worked::<Mm>::from);
    let bore = match (&held.bore, chuck) {
        (Some(bore), _) => bore.clone(),
        (None, Some(chuck)) => {
            let share = chuck.scaled(row("spindle-bore-share")?.value, "a share of the chuck's diameter");
            answer.assume("spindle-bore", share)
        }
        (None, None) => {
            answer.not_checked(&[THROUGH], &["bore of the machine"]);
            return Ok(());
        }
    };
    let check = Check::judge(THROUGH, &gripped, Keep::AtMost, &bore, held.guard);
    // A collet closes within the spindle; one in a chuck on the nose may be larger, where nothing stands behind it.
    let check = if held.bore.is_some() && behind { check } else { check.not_worse_than(Verdict::Doubtful) };
    answer.check(check.at(held.hold.grip.as_ref().map_or(held.hold.held_in.place, |at| at.place)));
    Ok(())
}

/// The nose of the tool stays clear of the jaws at the end of the cut.
pub(super) fn tool_clear(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let Some(overhang) = &held.overhang else {
        answer.not_checked(&["tool-clear"], &["hold.overhang"]);
        return Ok(());
    };
    let clear = law::tool_clear(overhang, &held.removed, held.cut.nose, &constant("jaw-corner")?)?;
    let clear = answer.record(&TOOL_CLEAR, clear);
    let (least, doubtful) = (constant("tool-clear-least")?, constant("tool-clear-doubtful")?);
    let check = Check::judge_two("tool-clear", (&clear, &least), Keep::AtLeast, (&clear, &doubtful), held.guard);
    let check = answer.check(check.about(TOOL_CLEAR.key));
    let shorter = held.grip().map(|grip| grip.number() + clear.worst_number(Side::Low, held.guard) - least.number());
    if let Some(shorter) = shorter.filter(|_| !check.is_proven()) {
        // A grip that leaves the least and no less.
        let grip = Fact::mm(shorter).to(Decimals::Exactly(1)).rounded(Rounds::Down);
        check.remedy(match shorter >= constant::<Mm>("grip-least-step")?.number() {
            true => Words::of("grip-less").with("grip", grip),
            false => Words::of("other-hold"),
        });
    }
    Ok(())
}

/// Enough of it in the grip; half of that is doubtful, less fails.
pub(super) fn grip_length(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let (Some(grips), Some(overhang), Some(gripped)) = (held.grips()?, &held.overhang, held.gripped()) else {
        let missing = held.lacking(&["hold.grip", "hold.overhang", "hold.diameter"]);
        answer.not_checked(&["grip-length"], &missing);
        return Ok(());
    };
    if let (Some(longest), Some(grip)) = (held.longest_jaw()?, held.grip())
        && grip.number() > longest.number()
    {
        answer.assume_words(Words::of("jaws-touch").with("length", Fact::mm(longest.number())));
    }
    let least = constant(if held.on_a_step() { "grip-least-step" } else { "grip-least" })?;
    // How a collet stands a tilt nothing judges: there a short grip of a thick bar is none the better for its thickness.
    let counts = match held.hold.held_in.value {
        HeldIn::Collet => overhang.scaled(2.0, "in a collet the overhang alone counts"),
        _ => gripped,
    };
    let asked = law::grip_length_asked(&least, overhang, &counts)?;
    grip_length_judged(&GRIP_LENGTH_ASKED, &grips, asked, held.guard, answer)?;
    // No jaw is as long as its chuck is wide.
    let chuck = held.chuck.and_then(|chuck| chuck.diameter.as_ref());
    if let (Some(typed), Some(chuck)) = (&held.hold.grip, chuck)
        && typed.value.number() > chuck.value.number()
    {
        let check = Check::of_kind("grip-length", Verdict::Doubtful).at(typed.place);
        answer.check(check).remedy(Words::of("longer-than-jaws").with("chuck", Fact::mm(chuck.value.number())));
    }
    Ok(())
}

/// The jaws press no marks into the softer of part and soft jaw.
pub(super) fn jaw_pressure(held: &Held, jaws: u8, force: &JawForce, answer: &mut Answer) -> Result<(), Refusal> {
    const ID: &str = "jaw-pressure";
    if !held.in_shop {
        answer.no_shop(&[ID]);
        return Ok(());
    }
    let (width, grips) = (jaw_width(held, answer)?, held.grips()?);
    let (Some(width), Some(grips), Some(squeezing)) = (width.clone(), grips, &force.squeezing) else {
        let mut missing = held.lacking(&["hold.grip"]);
        missing.extend(force.squeezing.is_none().then_some(held.of_chuck("chuck.jaw-force")));
        missing.extend(width.is_none().then_some(held.of_chuck("chuck.jaw-width")));
        answer.not_checked(&[ID], &missing);
        return Ok(());
    };
    let count = Worked::exact(Ratio::new(f64::from(jaws)), Origin::Typed(held.hold.held_in.place));
    let pressure = answer.record(&JAW_PRESSURE, jaw_force::jaw_pressure(squeezing, &count, &width, &grips)?);
    let stands = softer(held)?;
    let twice = stands.scaled(row("jaw-pressure-doubtful")?.value, "up to this it marks");
    let check = Check::judge_two(ID, (&pressure, &stands), Keep::AtMost, (&pressure, &twice), held.guard);
    let check = answer.check(check.about(JAW_PRESSURE.key));
    if !check.is_proven() {
        check.remedy(Words::of("copper-shim"));
    }
    Ok(())
}

/// As given, else a share of the chuck's diameter; none where that is not known.
fn jaw_width(held: &Held, answer: &mut Answer) -> Result<Option<Worked<Mm>>, Refusal> {
    let Some(chuck) = held.chuck else { return Ok(None) };
    if let Some(width) = &chuck.jaw_width {
        return Ok(Some(width.into()));
    }
    let Some(diameter) = &chuck.diameter else { return Ok(None) };
    let share = row(if held.is_soft() { "jaw-width-share-soft-jaws" } else { "jaw-width-share" })?.value;
    let width = Worked::<Mm>::from(diameter).scaled(share, "a share of the chuck's diameter");
    Ok(Some(answer.assume("jaw-width", width)))
}

/// What the softer of part and jaw stands; a hard jaw has no limit.
fn softer(held: &Held) -> Result<Worked<Stress>, Refusal> {
    let part = stands(held.material)?;
    if !held.is_soft() {
        return Ok(part);
    }
    let jaw = "mild steel"
        .parse::<Material>()
        .map_err(|_| Refusal::NoRow { table: "material", wanted: "mild steel".into() })?;
    let jaw = stands(&jaw)?;
    Ok(if jaw.number() < part.number() { jaw } else { part })
}

/// Yield stress; grey iron has none, its tensile strength stands for it.
fn stands(material: &Material) -> Result<Worked<Stress>, Refusal> {
    if material.kind() == Kind::GreyIron { material.tensile_low() } else { material.yield_low() }
}

/// The jaws reach the diameter.
pub(super) fn jaw_reach(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    const ID: &str = "jaw-reach";
    if !held.in_shop {
        answer.no_shop(&[ID]);
        return Ok(());
    }
    let diameter = held.chuck.and_then(|chuck| chuck.diameter.as_ref()).map(Worked::<Mm>::from);
    let reach = held.chuck.and_then(|chuck| chuck.reach.as_ref()).map(Worked::<Mm>::from);
    let (Some(gripped), true) = (held.gripped(), diameter.is_some() || reach.is_some()) else {
        let mut missing = held.lacking(&["hold.diameter"]);
        missing.extend((diameter.is_none() && reach.is_none()).then_some(held.of_chuck("chuck.diameter")));
        answer.not_checked(&[ID], &missing);
        return Ok(());
    };
    if held.hold.grips_inside() {
        let Some(diameter) = diameter else {
            answer.not_checked(&[ID], &[held.of_chuck("chuck.diameter")]);
            return Ok(());
        };
        let least = diameter.scaled(row("jaw-reach-inside-share")?.value, "least bore that the jaws grip");
        answer.check(Check::judge(ID, &gripped, Keep::AtLeast, &least, held.guard));
        return Ok(());
    }
    let gripped = match &held.swings {
        Some(off) => {
            let source = Source::fixed("one jaw stands so much further out", Mark::Derived);
            Worked::sum(&[(1.0, &gripped), (2.0, off)], 0.0, "twice as far as the furthest jaw stands out", source)
        }
        None => gripped,
    };
    let reach = match (reach, diameter) {
        (Some(reach), _) => reach,
        (None, Some(diameter)) => answer.assume("jaw-reach", diameter),
        (None, None) => return Ok(()),
    };
    let well = reach.scaled(row("jaw-reach-share")?.value, "up to this the jaws run well in their guides");
    answer.check(Check::judge_two(ID, (&gripped, &well), Keep::AtMost, (&gripped, &reach), held.guard));
    Ok(())
}
