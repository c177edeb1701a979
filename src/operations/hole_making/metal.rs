//! The metal of the part, and whether the tool is hard enough for it.

use crate::handbook::materials::groups::Kind;
use crate::handbook::{Material, ToolMaterial};
use crate::operations::kit::{self, hard};
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Place, Refusal, Verdict, Words};

/// The part's metal with its cautions; a lining is never cut.
///
/// # Errors
/// [`Refusal::NotGiven`] where nobody says.
pub(in crate::operations) fn metal(bench: &Bench, answer: &mut Answer) -> Result<Material, Refusal> {
    let material = bench.part.material.as_ref().map(|at| at.value.clone());
    let material = material.ok_or(Refusal::NotGiven { what: "the metal of the part", key: "material" })?;
    material.safety().for_each(|id| answer.caution(id));
    kit::never_cut(material.kind(), answer);
    Ok(material)
}

/// High-speed steel goes soft on a hard part, and a tool that rubs breaks in its hole.
///
/// # Errors
/// [`Refusal::NoRow`] where the table lacks a limit.
pub(in crate::operations) fn hard_enough(
    bench: &Bench,
    material: &Material,
    tool: ToolMaterial,
    (id, place): (&'static str, Place),
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let hardness = bench.part.hardness.as_ref().map(|at| at.value);
    let by_row = hardness.is_none() && material.kind() == Kind::HardSteel;
    let soft = tool.is_steel() && (by_row || hard::at_least(hardness, "hss-in-hole-never")?);
    let blunt = tool.is_steel() && hard::over(hardness, "hss-in-hole-most")?;
    let verdict = match (soft, tool.is_carbide() && hard::over(hardness, "carbide-hardest")?) {
        (true, _) | (_, true) => Verdict::Fails,
        _ if blunt => Verdict::Doubtful,
        _ => Verdict::Proven,
    };
    let untried = hard::is_untried(material, hardness);
    let best = if untried { Verdict::Doubtful } else { Verdict::Proven };
    let check = answer.check(Check::of_kind(id, verdict).not_better_than(best).at(place));
    if untried {
        check.remedy(Words::of("try-it-with-a-file"));
    }
    Ok(())
}
