//! A ring in the jaws: squeezed out of round, and bent so that it may crack or stay bent.

use super::super::LOBE;
use super::jaw_force::JawForce;
use super::{Held, Spoilt};
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::ring_and_plate as law;
use crate::handbook::materials::groups::Kind;
use crate::operations::Answer;
use crate::proof::{Check, Fact, Keep, Mark, Origin, Refusal, Remedy, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Newton, Quantity, Rounds, Stress};

/// The ring that is gripped.
struct Ring {
    radius: Worked<Mm>,
    wall: Worked<Mm>,
}

/// A wall is not thinner than this, mm: what is left of none.
const LEAST_WALL: f64 = 2e-4;

/// What is known of the ring.
enum Gripped {
    /// A ring.
    Ring(Box<Ring>),
    /// Solid.
    NoRing,
    /// Nobody says which diameter, what bore the hub has, or whether a bore as wide runs into the grip: the key that would.
    Unknown(&'static str),
}

fn gripped(held: &Held) -> Result<Gripped, Refusal> {
    let Some(diameter) = held.gripped() else { return Ok(Gripped::Unknown("hold.diameter")) };
    let nobody_says = matches!(held.inside.origin().as_ref(), Origin::Assumed(_));
    if nobody_says && held.hold.inside.is_none() && !held.hold.grips_inside() {
        return Ok(Gripped::Unknown("inside"));
    }
    let (outer, inner) = match held.hold.grips_inside() {
        true => (held.outside.clone(), diameter),
        false => (diameter, bore_there(held)),
    };
    if held.into_the_grip.as_ref().is_some_and(|bore| bore.number() >= outer.number()) {
        return Ok(Gripped::Unknown("hold.overhang"));
    }
    if inner.number() >= outer.number() {
        // A hub under the bore of what is cut: it may be as hollow as a tube.
        return Ok(Gripped::Unknown("hold.inside"));
    }
    if inner.number() <= 0.0 {
        return Ok(Gripped::NoRing);
    }
    let wall = thinnest(held, law::ring_wall(&outer, &inner)?);
    let ring = Ring { radius: law::mean_radius(&outer, &inner)?, wall };
    Ok(Gripped::Ring(Box::new(ring)))
}

/// A bore that lies off the middle leaves one side thinner.
fn thinnest(held: &Held, even: Worked<Mm>) -> Worked<Mm> {
    let Some(off) = &held.off else { return even };
    let source = Source::fixed("a bore off the middle of its ring", Mark::Derived);
    let wall = Worked::sum(&[(1.0, &even), (-1.0, off)], 0.0, "the thinnest side", source);
    wall.at_least(LEAST_WALL, "not under nothing")
}

/// The bore where it is gripped: its own, and what runs in from the face where that is wider.
fn bore_there(held: &Held) -> Worked<Mm> {
    let own = held.hold.inside.as_ref().map_or_else(|| held.inside.clone(), Worked::from);
    match &held.into_the_grip {
        Some(bore) if bore.number() > own.number() => bore.clone(),
        _ => own,
    }
}

pub(super) fn work(held: &Held, spoilt: &Spoilt, answer: &mut Answer) -> Result<(), Refusal> {
    const BOTH: [&str; 2] = ["ring-lobe", "ring-stress"];
    let ring = match gripped(held)? {
        Gripped::Ring(ring) => ring,
        Gripped::NoRing => {
            answer.does_not_apply(&BOTH);
            return Ok(());
        }
        Gripped::Unknown(key) => {
            answer.not_checked(&BOTH, &[key]);
            return Ok(());
        }
    };
    if !held.in_shop {
        answer.no_shop(&BOTH);
        return Ok(());
    }
    let Some(squeezing) = &spoilt.force.squeezing else {
        answer.not_checked(&BOTH, &spoilt.force.lacking);
        return Ok(());
    };
    judge_lobe(held, &ring, squeezing, spoilt, answer)?;
    judge_stress(held, &ring, squeezing, spoilt, answer)
}

/// A quarter of the run-out allowed is proven, all of it doubtful.
fn judge_lobe(
    held: &Held,
    ring: &Ring,
    squeezing: &Worked<Newton>,
    spoilt: &Spoilt,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let lobe = answer.record(&LOBE, lobe(held, ring, squeezing, held.is_soft())?);
    let Some(allowed) = &held.round_within else {
        answer.not_checked(&["ring-lobe"], &["hold.true-within"]);
        return Ok(());
    };
    let quarter = allowed.scaled(row("ring-lobe-share-doubtful")?.value, "share of the run-out allowed");
    let check = Check::judge_two("ring-lobe", (&lobe, &quarter), Keep::AtMost, (&lobe, allowed), held.guard);
    let check = check.about(LOBE.key).at(held.hold.held_in.place);
    if check.is_proven() {
        answer.check(check);
        return Ok(());
    }
    let judged = |lobe: &Worked<Mm>| {
        Check::judge_two("ring-lobe", (lobe, &quarter), Keep::AtMost, (lobe, allowed), held.guard).verdict()
    };
    let mut remedies = vec![];
    if let Some(light) = spoilt.lighter(held) {
        let lobe = self::lobe(held, ring, light, held.is_soft())?;
        remedies.push((spoilt.light_words(lobe_figure(&lobe)), judged(&lobe)));
    }
    if !held.is_soft() {
        let soft = self::lobe(held, ring, squeezing, true)?;
        remedies.push((Words::of("soft-jaws-lobe").with("size", lobe_figure(&soft)), judged(&soft)));
    }
    mends(answer.check(check), remedies);
    Ok(())
}

/// What would make a check better than it is, with what it then is; what would not is no remedy.
fn mends(check: &mut Check, remedies: Vec<(Words, Option<Verdict>)>) {
    let own = check.verdict();
    for (words, gives) in remedies.into_iter().filter(|(_, gives)| *gives < own) {
        check.remedy(Remedy { words, gives });
    }
}

fn lobe(held: &Held, ring: &Ring, squeezing: &Worked<Newton>, soft: bool) -> Result<Worked<Mm>, Refusal> {
    let (factor, modulus) = (constant("ring-lobe-factor")?, held.material.modulus()?);
    let lobe = law::ring_lobe(&factor, squeezing, &ring.radius, &modulus, &held.length, &ring.wall)?;
    Ok(match soft {
        true => lobe.scaled(row("ring-lobe-share-soft-jaws")?.value, "soft jaws bored to size"),
        false => lobe,
    })
}

fn lobe_figure(lobe: &Worked<Mm>) -> Fact {
    Fact::mm(lobe.high()).to(Decimals::Exactly(3)).rounded(Rounds::Up)
}

/// Bent by the jaws: ductile metal against its yield stress, grey iron against its tensile strength.
fn judge_stress(
    held: &Held,
    ring: &Ring,
    squeezing: &Worked<Newton>,
    spoilt: &Spoilt,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let check = stress_check(held, ring, squeezing)?.at(held.hold.held_in.place);
    let proven = check.is_proven();
    let check = answer.check(check);
    if proven {
        return Ok(());
    }
    if let Some(light) = spoilt.lighter(held) {
        let figure = Fact::figure(stress(held, ring, light)?.high(), crate::quantity::Unit::MPa);
        let figure = figure.to(Decimals::Digits(3)).rounded(Rounds::Up);
        mends(check, vec![(spoilt.light_words(figure), stress_check(held, ring, light)?.verdict())]);
    }
    check.remedy(Words::of("mandrel"));
    Ok(())
}

fn stress_check(held: &Held, ring: &Ring, squeezing: &Worked<Newton>) -> Result<Check, Refusal> {
    let stress = stress(held, ring, squeezing)?;
    let (proven, doubtful) = limits(held)?;
    Ok(Check::judge_two("ring-stress", (&stress, &proven), Keep::AtMost, (&stress, &doubtful), held.guard))
}

/// A ring longer than its grip works only so far as the load spreads.
fn stress(held: &Held, ring: &Ring, squeezing: &Worked<Newton>) -> Result<Worked<Stress>, Refusal> {
    let grip = held.touched()?.unwrap_or_else(|| Worked::assumed(Mm::new(0.0), "grip not given"));
    let spread = constant("ring-stress-spread")?;
    let length = law::ring_length_working(&held.length, &grip, &spread, &ring.radius, &ring.wall)?;
    law::ring_stress(&constant("ring-stress-factor")?, squeezing, &ring.radius, &length, &ring.wall)
}

/// What is proven of a stress that bends the part, and what is doubtful.
pub(super) fn limits(held: &Held) -> Result<(Worked<Stress>, Worked<Stress>), Refusal> {
    let share = |strength: &Worked<Stress>, name: &'static str| -> Result<_, Refusal> {
        Ok(strength.scaled(1.0 / row(name)?.value, "with its safety"))
    };
    if held.material.kind() == Kind::GreyIron {
        let strength = held.material.tensile_low()?;
        return Ok((
            share(&strength, "ring-stress-safety-iron")?,
            share(&strength, "ring-stress-safety-iron-doubtful")?,
        ));
    }
    let strength = held.material.yield_low()?;
    Ok((share(&strength, "ring-stress-safety")?, strength))
}

/// Whether a nip spoils the ring.
pub(super) fn spoils(held: &Held, force: &JawForce) -> Result<bool, Refusal> {
    let (Gripped::Ring(ring), Some(squeezing)) = (gripped(held)?, &force.squeezing) else { return Ok(false) };
    let lobe = lobe(held, &ring, squeezing, held.is_soft())?;
    let out_of_round = held.round_within.as_ref().is_some_and(|allowed| lobe.number() > allowed.number());
    Ok(out_of_round || stress_check(held, &ring, squeezing)?.verdict() == Some(Verdict::Fails))
}
