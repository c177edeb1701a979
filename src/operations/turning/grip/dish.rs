//! A plate or washer gripped on its rim: jaws that press beside its middle dish the face that is cut.

use super::super::DISH_BY_JAWS;
use super::jaw_force::JawForce;
use super::{Held, Spoilt};
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::ring_and_plate as law;
use crate::operations::{Answer, Backed, HeldIn};
use crate::proof::{Check, Fact, Keep, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Newton, Rounds};

pub(super) const ID: &str = "dish";

/// What is bolted down: a thin plate or ring bends at every clamp that has nothing right behind it, is cut flat so, and springs back
/// when it is let go.
pub(super) fn bolted_down(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let bolted = matches!(held.hold.held_in.value, HeldIn::Faceplate | HeldIn::Clamps | HeldIn::AnglePlate);
    if !bolted || !thin(held, "thin-bolted-down")? {
        answer.does_not_apply(&[ID]);
        return Ok(());
    }
    let Some(backed) = &held.hold.backed else {
        answer.not_checked(&[ID], &["hold.backed"]);
        return Ok(());
    };
    let verdict = if backed.value == Backed::AllOver { Verdict::Proven } else { Verdict::Doubtful };
    let check = answer.check(Check::of_kind(ID, verdict).at(backed.place));
    if verdict == Verdict::Doubtful {
        check.remedy(Words::of("pack-it-all-over")).remedy(Words::of("wax-on-a-plate"));
    }
    Ok(())
}

pub(super) fn work(held: &Held, spoilt: &Spoilt, answer: &mut Answer) -> Result<(), Refusal> {
    if !applies(held)? {
        answer.does_not_apply(&[ID]);
        return Ok(());
    }
    if !held.in_shop {
        answer.no_shop(&[ID]);
        return Ok(());
    }
    let mut missing = held.lacking(&["hold.diameter", "hold.grip", "hold.overhang"]);
    missing.extend(held.flat_within.is_none().then_some("flat-within"));
    if spoilt.force.squeezing.is_none() {
        missing.extend(&spoilt.force.lacking);
    }
    let Some(check) = check(held, spoilt.force)?.filter(|_| missing.is_empty()) else {
        answer.not_checked(&[ID], &missing);
        return Ok(());
    };
    let (dish, check) = check;
    answer.record(&DISH_BY_JAWS, dish);
    let proven = check.is_proven();
    let light = match &spoilt.light.squeezing {
        Some(light) => dish_of(held, light)?.zip(self::check(held, spoilt.light)?),
        None => None,
    };
    let check = answer.check(check.about(DISH_BY_JAWS.key).at(held.hold.held_in.place));
    if proven {
        return Ok(());
    }
    // What is still too much is told after what may mend it.
    let mut too_much = None;
    if let Some((dish, (_, light))) = light {
        let size = Fact::mm(dish.high()).to(Decimals::Exactly(3)).rounded(Rounds::Up);
        match (spoilt.lighter(held), light.is_proven()) {
            // As lightly as it is held already.
            (None, _) => {}
            (Some(_), true) => {
                check.remedy(spoilt.light_words(size));
            }
            (Some(_), false) => too_much = Some(Words::of("nip-light-too-much").with("size", size)),
        }
        if light.verdict() == Some(Verdict::Fails) || spoilt.light_carries == Some(false) {
            check.remedy(Words::of("other-hold"));
        }
    }
    if !held.is_soft() {
        check.remedy(Words::of("soft-jaws"));
    }
    check
        .remedy(Words::of("lip-mid-thickness"))
        .remedy(Words::of("wax-on-a-plate"))
        .remedy(Words::of("grind-on-shims"));
    too_much.into_iter().for_each(|words| {
        check.remedy(words);
    });
    Ok(())
}

/// Not on a hub, and not for what is too thick to dish; always in a bore.
fn applies(held: &Held) -> Result<bool, Refusal> {
    if held.hold.grips_inside() {
        return Ok(true);
    }
    Ok(held.on_a_hub()? != Some(true) && thin(held, "dish-thickness-share")?)
}

/// Not so thick that nothing dishes it, by a share of its outside.
fn thin(held: &Held, share: &'static str) -> Result<bool, Refusal> {
    Ok(thickness(held, Side::Low).number() <= row(share)?.value * held.outside.number())
}

/// Thickness after the cut at an end of its doubt.
fn thickness(held: &Held, side: Side) -> Worked<Mm> {
    held.left.worst(side, held.guard).at_least(0.001, "nothing is left of it")
}

/// The dish and its check, where all is known.
fn check(held: &Held, force: &JawForce) -> Result<Option<(Worked<Mm>, Check)>, Refusal> {
    let (Some(squeezing), Some(flat)) = (&force.squeezing, &held.flat_within) else { return Ok(None) };
    let Some(dish) = dish_of(held, squeezing)? else { return Ok(None) };
    let quarter = flat.scaled(row("lobe-share-of-flatness")?.value, "share of the flatness wanted");
    let check = Check::judge_two(ID, (&dish, &quarter), Keep::AtMost, (&dish, flat), held.guard);
    Ok(Some((dish, check)))
}

/// How far a force dishes it.
fn dish_of(held: &Held, squeezing: &Worked<Newton>) -> Result<Option<Worked<Mm>>, Refusal> {
    let (Some(gripped), Some(grip), Some(overhang)) = (held.gripped(), held.grip(), &held.overhang) else {
        return Ok(None);
    };
    let (low, high) = (thickness(held, Side::Low), thickness(held, Side::High));
    // The arm may be longest at either end of the thickness; the plate gives most at its thinnest.
    let either = low.clone().with_band(low.number(), high.number());
    let arm = super::at_end(&law::dish_arm(overhang, &grip, &either)?, Side::High);
    let inside = held.hold.grips_inside();
    let outer = if gripped.number() > held.outside.number() { &gripped } else { &held.outside };
    let inner = if inside { &gripped } else { &held.inside };
    let (outer, inner) = (law::radius(outer)?, law::radius(inner)?);
    let factor = constant(if held.is_soft() { "dish-factor-soft-jaws" } else { "dish-factor" })?;
    let factor = law::dish_factor(&factor, &constant("dish-narrow-ring")?, &outer, &inner)?;
    let (modulus, poisson) = (held.material.modulus()?, held.material.poisson()?);
    let dish = match (inside, inner.number() > 0.0) {
        (true, _) => law::dish_from_inside(&factor, squeezing, &arm, &outer, &inner, &modulus, &low, &poisson),
        (false, true) => law::dish_of_ring(&factor, squeezing, &arm, &outer, &inner, &modulus, &low, &poisson),
        (false, false) => law::dish_of_disc(&factor, squeezing, &arm, &outer, &modulus, &low, &poisson),
    };
    dish.map(Some)
}

/// Whether a nip spoils the face.
pub(super) fn spoils(held: &Held, force: &JawForce) -> Result<bool, Refusal> {
    Ok(applies(held)? && check(held, force)?.is_some_and(|(_, check)| check.verdict() == Some(Verdict::Fails)))
}
