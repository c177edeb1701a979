//! What spring leaves: tool and part give way under the cut, each pass leaves its share of the depth, and the part gives more at
//! its free end than at the jaws, so that the diameter comes out tapered.

use super::measured::trial;
use super::{RADIAL, SHARE_LEFT, SPRING_LEFT, SPRING_MEASURED, Size};
use crate::handbook::constants::{constant, row, worst};
use crate::handbook::cutting::{deflection, ring_and_plate};
use crate::operations::turning::CuttingData;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Keep, Mark, Refusal, Side, Source, Words, Worked};
use crate::quantity::{Mm, Quantity, Ratio, SpringRate};

/// What gives way, and what the depth varies by.
pub(in crate::operations) struct Springs {
    /// How stiff tool and part stand together; none where it is not known, and the keys that would say it.
    pub stiffness: Option<Worked<SpringRate>>,
    pub lacking: Vec<&'static str>,
    /// By how much the depth of cut may vary round about; none where nobody says how true it is held.
    pub varies: Option<Worked<Mm>>,
    /// Whether hard metal pushes the tool away.
    pub pushes_back: bool,
}

/// How much is left after so many passes at one setting, at an end of the forces.
struct Left<'a> {
    depth: &'a Worked<Mm>,
    least_depth: &'a Worked<Mm>,
    stiffness: &'a Worked<SpringRate>,
}

/// Judges what spring leaves against the limits, and adds passes at the same dial where they help and the metal bears them.
pub(in crate::operations) fn spring_left(
    bench: &Bench,
    (size, length): (&Size, Mm),
    springs: &Springs,
    cutting: &mut CuttingData,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    const ID: &str = "spring-left";
    const MEASURED: &str = "spring-when-measured";
    let measured = cutting.cuts.divisions.len() > 1 || trial(size, length, &cutting.edge)?.is_some();
    if !measured {
        answer.does_not_apply(&[MEASURED]);
    }
    let mut missing: Vec<&'static str> = Vec::new();
    missing.extend(springs.lacking.iter().filter(|_| springs.stiffness.is_none()));
    missing.extend(springs.varies.is_none().then_some("hold.true-within"));
    missing.extend(size.width.is_none().then_some("limits of the diameter"));
    let (Some(stiffness), Some(varies), Some(width), true) =
        (&springs.stiffness, &springs.varies, &size.width, missing.is_empty())
    else {
        answer.not_checked(&[ID], &missing);
        if measured {
            answer.not_checked(&[MEASURED], &missing);
        }
        return Ok(());
    };
    let (Some(deepest), Some(shallowest)) = (cutting.cuts.depths.first(), cutting.cuts.depths.last()) else {
        return Ok(());
    };
    let says = format!("the last depth, and the {} mm that it may vary by", varies.number());
    let depth = Mm::new(deepest.number() + varies.number());
    let depth = Worked::method(depth, vec![says], Source::fixed("the worse of both", Mark::Own));
    let left = Left { depth: &depth, least_depth: shallowest, stiffness };
    let shares: [Worked<Ratio>; 2] = match springs.pushes_back {
        true => [constant("thrust-share-hard")?, worst("thrust-share-hard", true)?],
        false => [constant("radial-force-share")?, worst("radial-force-share", true)?],
    };
    let [used, bad] = shares;
    let reason = "at the factors used; the worst end is judged on its own";
    let used = used.nominal(reason);
    let force = cutting.force.nominal(reason);
    answer.record(&RADIAL, ring_and_plate::axial_force(&used, &force)?);
    let used_share = left.share(&used, &force, Some(answer))?;
    let worst_share = left.share(&bad, &cutting.force.worst(Side::High, bench.guard()), None)?;
    let quarter = width.scaled(row("spring-share-of-limits")?.value, "what spring may take of the limits");
    // A metal that only rubs gets no pass more.
    let most: Worked<Ratio> = constant("spring-passes-most")?;
    let first = cutting.cuts.spring;
    let last = if first > 0 { (most.number().clamp(0.0, 9.0) as u32).max(first) } else { first };
    let at = |spring: u32, share: &Worked<Ratio>| -> Result<Worked<Mm>, Refusal> {
        let says = format!("the last cut and {spring} spring passes");
        let passes = Ratio::new(f64::from(spring + 1));
        let passes = Worked::method(passes, vec![says], Source::fixed("at one setting", Mark::Derived));
        deflection::left_by_spring(share, &passes, left.depth)
    };
    let fewest = |first: u32| -> Result<Option<u32>, Refusal> {
        for passes in first..=last {
            if at(passes, &worst_share)?.number() <= quarter.number() {
                return Ok(Some(passes));
            }
        }
        Ok(None)
    };
    let spring = fewest(first)?.unwrap_or(first);
    // What has sprung away is read as metal still to go: dialled on, and then cut again by the passes at one dial, it goes twice.
    let again = if measured { fewest(0)?.unwrap_or(last) } else { 0 };
    let of_measured = measured.then_some((MEASURED, &SPRING_MEASURED, again));
    for (id, name, passes) in std::iter::once((ID, &SPRING_LEFT, spring)).chain(of_measured) {
        let (used, bad) = (at(passes, &used_share)?, at(passes, &worst_share)?);
        let used = answer.record(name, used);
        let check = Check::judge_two(id, (&bad, &quarter), Keep::AtMost, (&used, width), bench.guard());
        let check = answer.check(check.about(name.key));
        if !check.is_proven() {
            check.remedy(Words::of("stands-stiffer")).remedy(Words::of("lighter-last-cuts"));
        }
    }
    cutting.springs(spring - first, again, answer)
}

impl Left<'_> {
    /// The share that a pass leaves, at a radial share and a force.
    fn share(
        &self,
        radial: &Worked<Ratio>,
        force: &crate::proof::Worked<crate::quantity::Newton>,
        answer: Option<&mut Answer>,
    ) -> Result<Worked<Ratio>, Refusal> {
        let of_cut = deflection::stiffness_of_cut(radial, force, self.least_depth)?;
        let share = deflection::share_left(&of_cut, self.stiffness)?;
        if let Some(answer) = answer {
            answer.record(&SHARE_LEFT, share.clone());
        }
        Ok(share)
    }
}
