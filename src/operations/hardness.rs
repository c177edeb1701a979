//! Can the metal that was named have the hardness that was typed, and a case so deep? If not, it is cut by rows of another metal, or a cut
//! is judged by a case that is not there.

use super::{Answer, Bench};
use crate::handbook::Material;
use crate::handbook::constants::constant;
use crate::handbook::materials::hardness::on_scale;
use crate::proof::{Check, Keep, Origin, Refusal, Verdict, Worked};
use crate::quantity::{Hardness, Mm, Quantity, Ratio, Scale, figure};

/// Judges hardness and case of the part as they were typed.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks the deepest case.
pub(super) fn judge(bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
    of_part(bench, answer);
    case(bench, answer)
}

/// A case deeper than any that is usual is a slip of unit, or of a digit.
fn case(bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
    let Some(typed) = bench.part.case_depth.as_ref().or(bench.part.case_depth_total.as_ref()) else { return Ok(()) };
    let Some(depth) = typed.value.typed() else { return Ok(()) };
    let most = constant::<Mm>("case-depth-most")?;
    let depth = Worked::exact(Mm::new(depth), Origin::Typed(typed.place));
    let check = Check::judge("case-plausible", &depth, Keep::AtMost, &most, bench.guard());
    answer.check(check.not_worse_than(Verdict::Doubtful).at(typed.place));
    Ok(())
}

/// Judges the hardness of the part against the row of its metal.
fn of_part(bench: &Bench, answer: &mut Answer) {
    let Some(typed) = &bench.part.hardness else { return };
    let Some(material) = &bench.part.material else {
        answer.not_checked(&["hardness-plausible"], &["material"]);
        return;
    };
    let Some((low, high, unit, _)) = material.value.hardness_range() else { return };
    let verdict = match plausible(typed.value, &material.value) {
        Ok(true) => Verdict::Proven,
        Ok(false) | Err(_) => Verdict::Doubtful,
    };
    let check = Check::of_kind("hardness-plausible", verdict).at(typed.place);
    let range = format!("{} to {} {unit}", figure(low), figure(high));
    answer.check(check.with("hardness", typed.value.to_string()).with("range", range));
}

/// Whether a hardness lies within the row, or no further beyond than the tables say; on the row's scale, else on the one that
/// was typed.
///
/// # Errors
/// [`Refusal::NoRow`] where the two scales cannot be compared: another metal than steel, or outside the conversion.
fn plausible(typed: Hardness, material: &Material) -> Result<bool, Refusal> {
    let (low, high, unit, _) =
        material.hardness_range().ok_or(Refusal::NoRow { table: "hardness", wanted: material.row().name.clone() })?;
    let scales = [Scale::Hrc, Scale::Hb, Scale::Hv];
    let scale = scales.into_iter().find(|scale| scale.text() == unit).unwrap_or(typed.scale);
    let end = |number: f64, to: Scale| on(Hardness { number, scale }, to, material);
    let inside = |got: &Worked<Ratio>, low: &Worked<Ratio>, high: &Worked<Ratio>, scale: Scale| {
        let (below, above) = (beyond(low.number(), scale)?, beyond(high.number(), scale)?);
        Ok(got.low() >= low.number() - below && got.high() <= high.number() + above)
    };
    match on(typed, scale, material) {
        Ok(got) => inside(&got, &end(low, scale)?, &end(high, scale)?, scale),
        Err(_) => {
            let got = on(typed, typed.scale, material)?;
            inside(&got, &end(low, typed.scale)?, &end(high, typed.scale)?, typed.scale)
        }
    }
}

/// A hardness on a scale; on its own it stays as it is.
fn on(hardness: Hardness, scale: Scale, material: &Material) -> Result<Worked<Ratio>, Refusal> {
    if hardness.scale == scale {
        return Ok(Worked::assumed(Ratio::new(hardness.number), "as it was tested"));
    }
    on_scale(hardness, scale, material.kind())
}

/// How far beyond its row a hardness may lie: so many points of Rockwell, else a share.
fn beyond(end: f64, scale: Scale) -> Result<f64, Refusal> {
    match scale {
        Scale::Hrc => Ok(constant::<Ratio>("hardness-beyond-row-hrc")?.number()),
        Scale::Hb | Scale::Hv => Ok(end * constant::<Ratio>("hardness-beyond-row-share")?.number()),
    }
}
