//! The hold: grip enough and not too much, nothing standing out too far, square as far as it is trued.

use super::{DEFLECTION, GRIP_NEEDED, Ground, LOBE, Metal};
use crate::handbook::constants::{constant, worst};
use crate::handbook::cutting::deflection;
use crate::handbook::cutting::work_holding as holding;
use crate::operations::{Answer, Bench, HeldIn, Hold};
use crate::proof::{At, Check, Keep, Refusal, Verdict, Words, Worked};
use crate::quantity::{Mm, Newton, Quantity, Ratio};

pub(super) fn work(
    bench: &Bench,
    ground: &Ground,
    metal: &Metal,
    force: &Worked<Newton>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let Some(hold) = ground.asked.hold else {
        answer.check(Check::of_kind("hold-given", Verdict::Doubtful));
        return Ok(());
    };
    let gripped = gripped(hold, ground, answer);
    overhang_kept(bench, ground, answer)?;
    square(bench, ground, answer);
    friction(bench, ground, hold, &gripped, force, answer)?;
    gives_way(bench, ground, hold, &gripped, metal, force, answer)
}

/// The diameter gripped; left out, the outside that is cut.
fn gripped(hold: &Hold, ground: &Ground, answer: &mut Answer) -> Worked<Mm> {
    answer.typed_or(hold.diameter.as_ref(), "gripped", || {
        Worked::assumed(ground.outside.value(), "gripped on the outside that is cut")
    })
}

/// How far the part stands out, and how far it may.
pub(super) struct Overhang {
    pub out: Worked<Mm>,
    pub most: Worked<Mm>,
}

/// How far the part stands out, where somebody says.
pub(super) fn overhang(ground: &Ground) -> Result<Option<Overhang>, Refusal> {
    let Some(hold) = ground.asked.hold else { return Ok(None) };
    let Some(overhang) = &hold.overhang else { return Ok(None) };
    let gripped = hold.diameter.as_ref().map_or_else(|| super::undoubted(&ground.outside), Worked::from);
    let most = holding::overhang_most(&constant::<Ratio>("overhang-unsupported")?, &gripped)?;
    Ok(Some(Overhang { out: overhang.into(), most: super::undoubted(&most) }))
}

fn overhang_kept(bench: &Bench, ground: &Ground, answer: &mut Answer) -> Result<(), Refusal> {
    if let Some(overhang) = overhang(ground)? {
        answer.judge(bench, "overhang", &overhang.out, Keep::AtMost, &overhang.most);
    }
    Ok(())
}

/// A face can be no squarer than the part was trued.
fn square(bench: &Bench, ground: &Ground, answer: &mut Answer) {
    let (Some(limit), Some(within)) = (ground.asked.square_within, ground.asked.true_within()) else { return };
    let limit = Worked::exact(limit.value.high, crate::proof::Origin::Typed(limit.place));
    answer.judge(bench, "square", &Worked::<Mm>::from(within), Keep::AtMost, &limit);
}

/// The friction of the jaws at its bad end; none where the hold is not by jaws.
fn jaw_friction(held_in: HeldIn) -> Result<Option<Worked<Ratio>>, Refusal> {
    let name = match held_in {
        HeldIn::SoftJaws => "jaw-friction-soft-jaws",
        HeldIn::Jaws | HeldIn::FourJaw => "jaw-friction-smooth",
        _ => return Ok(None),
    };
    worst(name, false).map(Some)
}

fn friction(
    bench: &Bench,
    ground: &Ground,
    hold: &Hold,
    gripped: &Worked<Mm>,
    force: &Worked<Newton>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let Some(friction) = jaw_friction(hold.held_in.value)? else {
        let check = Check::of_kind("hold-carries", Verdict::Doubtful).with("in", hold.held_in.value.text());
        answer.check(check.at(hold.held_in.place));
        return Ok(());
    };
    if hold.overhang.is_none() {
        answer.assume_words(Words::of("overhang-not-given"));
    }
    let long = hold.overhang.as_ref().is_some_and(|overhang| overhang.value.number() > gripped.number());
    let safety = constant(if long { "grip-safety-long-stick-out" } else { "grip-safety-short-stick-out" })?;
    let needed = holding::grip_needed(force, &ground.outside, gripped, &friction, &super::undoubted(&safety))?;
    let needed = answer.record(&GRIP_NEEDED, needed);
    let there = ground.lathe.and_then(|lathe| lathe.chuck.as_ref()).and_then(|chuck| chuck.jaw_force.as_ref());
    let Some(there) = there else {
        answer.check(Check::of_kind("jaw-force-known", Verdict::Doubtful));
        return Ok(());
    };
    answer.judge(bench, "grip", &needed, Keep::AtMost, &there.into()).about = Some(GRIP_NEEDED.key);
    lobe(bench, ground, hold, gripped, there, answer)
}

/// Three jaws squeeze a ring out of round: a quarter of the run-out allowed is doubtful, all of it fails.
fn lobe(
    bench: &Bench,
    ground: &Ground,
    hold: &Hold,
    gripped: &Worked<Mm>,
    jaw_force: &At<Newton>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    if !matches!(hold.held_in.value, HeldIn::Jaws | HeldIn::SoftJaws) {
        return Ok(());
    }
    let bore = hold.inside.as_ref().map_or_else(|| ground.inside.clone(), Worked::from);
    if bore.number() <= 0.0 || bore.number() >= gripped.number() {
        answer.assume_words(Words::of("no-ring-gripped"));
        return Ok(());
    }
    let wall = holding::ring_wall(gripped, &bore)?;
    let moment = deflection::second_moment_rectangle(&super::undoubted(&ground.length), &wall)?;
    let radius = holding::mean_radius(gripped, &bore)?;
    let modulus = ground.material.modulus()?;
    let lobe = holding::ring_lobe(&constant("ring-lobe-factor")?, &jaw_force.into(), &radius, &modulus, &moment)?;
    let lobe = match hold.held_in.value {
        HeldIn::SoftJaws => holding::share_of(&constant("ring-lobe-share-soft-jaws")?, &lobe)?,
        _ => lobe,
    };
    let lobe = answer.record(&LOBE, lobe);
    let Some(allowed) = hold.true_within.as_ref().map(Worked::<Mm>::from) else {
        answer.assume_words(Words::of("run-out-not-given"));
        return Ok(());
    };
    let quarter = holding::share_of(&constant("ring-lobe-share-doubtful")?, &allowed)?;
    let check = Check::judge("ring-lobe", &lobe, Keep::AtMost, &quarter, bench.guard()).about(LOBE.key);
    let floor = if lobe.number() > allowed.number() { Verdict::Fails } else { Verdict::Doubtful };
    let verdict = if check.verdict() == Some(Verdict::Proven) { Verdict::Proven } else { floor };
    answer.check(check.judged_as(verdict).at(hold.held_in.place));
    Ok(())
}

/// How far the part that stands out gives way under the cut.
fn gives_way(
    bench: &Bench,
    ground: &Ground,
    hold: &Hold,
    gripped: &Worked<Mm>,
    metal: &Metal,
    force: &Worked<Newton>,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let Some(overhang) = &hold.overhang else { return Ok(()) };
    let bore = hold.inside.as_ref().map_or_else(|| ground.inside.clone(), Worked::from);
    let moment = match bore.number() > 0.0 && bore.number() < gripped.number() {
        true => deflection::second_moment_tube(gripped, &bore)?,
        false => deflection::second_moment_round(gripped)?,
    };
    let modulus = ground.material.modulus()?;
    let bends = deflection::deflection_cantilever(force, &overhang.into(), &modulus, &moment)?;
    let bends = answer.record(&DEFLECTION, bends);
    if let Some(limit) = ground.asked.square_within {
        let limit = Worked::exact(limit.value.high, crate::proof::Origin::Typed(limit.place));
        let check = Check::judge("gives-way", &bends, Keep::AtMost, &limit, bench.guard()).about(DEFLECTION.key);
        answer.check(check);
    }
    flange(bench, ground, gripped, metal, answer)
}

/// A flange that stands free of what is gripped must be thick enough not to ring under the tool.
fn flange(
    bench: &Bench,
    ground: &Ground,
    gripped: &Worked<Mm>,
    metal: &Metal,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    if gripped.number() >= ground.outside.number() || metal.length_after.number() <= 0.0 {
        return Ok(());
    }
    let left = super::undoubted(&metal.length_after);
    let slender = crate::handbook::cutting::stock::flange_slenderness(&ground.outside, gripped, &left)?;
    let most: Worked<Ratio> = constant("flange-slenderness-most")?;
    let check = Check::judge("flange", &slender, Keep::AtMost, &most, bench.guard());
    answer.check(check.not_worse_than(Verdict::Doubtful));
    Ok(())
}
