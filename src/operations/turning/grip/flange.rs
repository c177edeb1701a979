//! A flange that stands free of what is gripped: thick enough not to ring, stiff enough not to give under the tool.

use super::super::Way;
use super::super::{FLANGE_GIVES, FLANGE_SLENDERNESS};
use super::{Held, at_end};
use crate::handbook::constants::{constant, row};
use crate::handbook::cutting::ring_and_plate as law;
use crate::operations::Answer;
use crate::proof::{Check, Keep, Refusal, Side, Verdict, Words, Worked};
use crate::quantity::Mm;

const ID: &str = "flange";

pub(super) fn work(held: &Held, answer: &mut Answer) -> Result<(), Refusal> {
    let Some(gripped) = held.gripped() else {
        answer.not_checked(&[ID], &["hold.diameter"]);
        return Ok(());
    };
    if held.on_a_hub()? != Some(true) {
        answer.does_not_apply(&[ID]);
        return Ok(());
    }
    let Some(rim) = &held.rim else {
        answer.not_checked(&[ID], &["thickness-at-rim"]);
        return Ok(());
    };
    let left = thinnest(held, rim)?;
    let width = law::flange_width(&held.outside, &gripped)?;
    let slender = answer.record(&FLANGE_SLENDERNESS, law::flange_slenderness(&width, &left)?);
    let (proven, doubtful) = (constant("flange-slenderness-most")?, constant("flange-slenderness-doubtful")?);
    let check = Check::judge_two(ID, (&slender, &proven), Keep::AtMost, (&slender, &doubtful), held.guard);
    let check = check.about(FLANGE_SLENDERNESS.key);
    let (gives, at_the_rim) = gives(held, &width, &left, &gripped)?;
    answer.record(&FLANGE_GIVES, gives);
    let stiff = match &held.flat_within {
        Some(flat) => {
            let quarter = flat.scaled(row("lobe-share-of-flatness")?.value, "share of the flatness wanted");
            Check::judge(ID, &at_the_rim, Keep::AtMost, &quarter, held.guard).about(FLANGE_GIVES.key)
        }
        None => Check::of_kind(ID, Verdict::Doubtful),
    };
    // Slender fails; a rim that gives too much, or of which nobody says how flat, is doubtful.
    let stiff = stiff.not_worse_than(Verdict::Doubtful);
    let worse = if stiff.verdict() > check.verdict() { stiff } else { check };
    let check = answer.check(worse);
    if !check.is_proven() {
        check.remedy(Words::of("backing-ring"));
    }
    Ok(())
}

/// The rim after the cut at the low end of its doubt.
fn thinnest(held: &Held, rim: &Worked<Mm>) -> Result<Worked<Mm>, Refusal> {
    // Along a rim nothing of its thickness goes.
    let left = match held.way {
        Way::Across => crate::handbook::cutting::stock::length_after(rim, &held.removed)?,
        _ => rim.clone(),
    };
    Ok(left.worst(Side::Low, held.guard).at_least(0.001, "nothing is left of the rim"))
}

/// How far the rim gives: by the straight strip, and by the strip that is bent round the hub.
fn gives(
    held: &Held,
    width: &Worked<Mm>,
    left: &Worked<Mm>,
    gripped: &Worked<Mm>,
) -> Result<(Worked<Mm>, Worked<Mm>), Refusal> {
    let straight = constant("flange-tip-factor")?;
    let round = law::flange_round_factor(&straight, &constant("flange-round-exponent")?, &held.outside, gripped)?;
    let axial = law::axial_force(&at_end(&held.thrust()?, Side::High), &held.worst_force())?;
    let (blows, modulus, poisson) = (held.blows()?, held.material.modulus()?, held.material.poisson()?);
    let of = |factor| law::flange_gives(factor, &blows, &axial, width, &modulus, left, &poisson);
    Ok((of(&straight)?, of(&round)?))
}
