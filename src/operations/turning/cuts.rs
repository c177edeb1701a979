//! How the metal is shared out among the cuts, and how long they take.

use super::edge::Edge;
use super::{CUTS, LEAST_DEPTH, PASSES, Piece};
use crate::handbook::constants::{constant, row, worst};
use crate::handbook::cutting::finish;
use crate::handbook::materials::groups::Kind;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Keep, Mark, Refusal, Source, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Ratio, Rounds, figure};

/// The metal that goes, as the dial counts it.
#[derive(Clone, Copy, Debug)]
pub(in crate::operations) struct Amount {
    /// Whole divisions of the dial.
    pub divisions: u32,
    /// Depth of cut that a division gives, mm.
    pub division: f64,
}

/// The cuts in whole divisions of the dial.
pub(in crate::operations) struct Cuts {
    /// Divisions of each cut, in order.
    pub divisions: Vec<u32>,
    /// Passes more at the same dial.
    pub spring: u32,
    /// Passes more at the dial at which it is measured before the last cut.
    pub before_measured: u32,
    /// The depths that stand in it, the deepest first: one, or two that lie a division apart.
    pub depths: Vec<Worked<Mm>>,
    /// All passes, spring passes too.
    pub passes: Worked<Ratio>,
}

/// The fewest cuts that keep every depth within what machine and tool stand; two near-equal ones where there is metal for two
/// that bite, one where there is not.
pub(super) fn divide(
    bench: &Bench,
    piece: &Piece,
    amount: &Amount,
    edge: &Edge,
    answer: &mut Answer,
) -> Result<Cuts, Refusal> {
    let division = amount.division;
    let most = most_depth(piece, edge, answer)?;
    let least = finish::least_depth(&worst("least-depth-over-nose", true)?, &edge.nose)?;
    let least = answer.record(&LEAST_DEPTH, least);
    let most_divisions = (most.worst_number(crate::proof::Side::Low, bench.guard()) / division + 1e-9).floor();
    let fewest = amount.divisions.div_ceil(most_divisions.clamp(1.0, 1e6) as u32).max(1);
    let two_bite = f64::from(amount.divisions / 2) * division >= least.number() - 1e-9;
    let count = if two_bite { fewest.max(2) } else { fewest };
    let count = piece.eased.cuts.map_or(count, |cuts| cuts_more(cuts, count, amount, answer));
    let divisions = near_equal(amount.divisions, count);
    let depths = depths(&divisions, division);
    if let (Some(deepest), Some(shallowest)) = (depths.first(), depths.last()) {
        match bench.shop {
            Some(_) => {
                answer.judge(bench, "most-depth", deepest, Keep::AtMost, &most);
            }
            None => answer.no_shop(&["most-depth"]),
        }
        bite(bench, edge, shallowest, answer)?;
    }
    let spring = spring_passes(piece, edge)?;
    let source = || Source::fixed("spring passes: steel and iron with HSS or carbide", Mark::CommonPractice);
    let counted = |number: u32, says: String| Worked::method(Ratio::new(f64::from(number)), vec![says], source());
    answer.record(&CUTS, counted(count, format!("{count} cuts")));
    let passes = counted(count + spring, format!("{count} cuts and {spring} spring passes"));
    let passes = answer.record(&PASSES, passes);
    Ok(Cuts { divisions, spring, before_measured: 0, depths, passes })
}

/// More cuts than the fewest, so that grip and motor carry each.
fn cuts_more(cuts: u32, fewest: u32, amount: &Amount, answer: &mut Answer) -> u32 {
    let cuts = cuts.min(amount.divisions).max(fewest);
    answer.choose("cuts_more", format!("{cuts}"), Words::of("cuts-held-down").with("fewest", fewest.to_string()));
    cuts
}

/// The depths that stand in so many cuts, the deepest first.
pub(super) fn depths_of(amount: &Amount, count: u32) -> Vec<Worked<Mm>> {
    depths(&near_equal(amount.divisions, count.min(amount.divisions).max(1)), amount.division)
}

/// So many divisions in so many parts, the larger ones first.
fn near_equal(divisions: u32, count: u32) -> Vec<u32> {
    let (each, more) = (divisions / count, divisions % count);
    (0..count).map(|at| each + u32::from(at < more)).collect()
}

/// The different depths among the cuts, the deepest first.
fn depths(divisions: &[u32], division: f64) -> Vec<Worked<Mm>> {
    let mut different = divisions.to_vec();
    different.dedup();
    let depth = |of: u32| {
        let says = format!("a cut of {}: {of} divisions of {} mm", divisions.len(), figure(division));
        let source = Source::fixed("near-equal cuts in whole divisions", Mark::CommonPractice);
        Worked::method(Mm::new(f64::from(of) * division), vec![says], source)
    };
    different.into_iter().map(depth).collect()
}

/// The lesser of what the machine and the tool stand.
fn most_depth(piece: &Piece, edge: &Edge, answer: &mut Answer) -> Result<Worked<Mm>, Refusal> {
    let machine = piece.lathe.and_then(|lathe| lathe.most_depth.as_ref()).map(Worked::from);
    Ok(match (machine, &edge.most_depth) {
        (Some(machine), Some(tool)) if tool.number() < machine.number() => tool.clone(),
        (Some(machine), _) => machine,
        (None, Some(tool)) => tool.clone(),
        (None, None) => answer.assume("most-depth", constant("most-depth-unknown")?),
    })
}

/// The shallowest cut at which an edge does more than rub.
pub(in crate::operations) fn least_bite(edge: &Edge) -> Result<Worked<Mm>, Refusal> {
    if edge.material.is_steel() {
        return constant("skim-least-hss");
    }
    finish::least_depth(&constant("skim-least-insert-over-nose")?, &edge.nose)
}

/// How wide a trial cut is, of so much that is cut: a share of it, no less than a gauge finds a face on beside the round of the nose; none
/// where that is more than half of it.
pub(in crate::operations) fn trial_width(edge: &Edge, all: f64) -> Result<Option<f64>, Refusal> {
    let usual = row("trial-cut-width")?.value.min(row("trial-cut-share")?.value * all);
    let least = row("trial-cut-least")?.value.max(row("trial-cut-over-nose")?.value * edge.nose.number());
    let width = usual.max(least);
    Ok((width <= all / 2.0).then_some(width))
}

/// A cut shallower than the nose can bite: doubtful, and where the edge would only rub it fails. Where the edge begins to cut
/// depends on what it is: high-speed steel is piece sharp, an insert is not, CBN and ceramic least of all.
fn bite(bench: &Bench, edge: &Edge, shallowest: &Worked<Mm>, answer: &mut Answer) -> Result<(), Refusal> {
    let over_nose = proven_over_nose(edge)?;
    let check = bites(bench, edge, shallowest)?;
    let proven = check.is_proven();
    let check = answer.check(check.about(LEAST_DEPTH.key));
    if !proven {
        if !edge.material.is_steel() {
            // The share of the nose is two thirds, held to four decimals.
            let nose = Fact::mm(shallowest.number() / over_nose.number() * 1.000_1);
            let nose = nose.to(Decimals::Exactly(2)).rounded(Rounds::Down);
            check.remedy(Words::of("sharper-nose").with("nose", nose));
        }
        check.remedy(Words::of("grind-or-lap"));
    }
    Ok(())
}

/// The share of its nose at which an edge bites for certain.
fn proven_over_nose(edge: &Edge) -> Result<Worked<Ratio>, Refusal> {
    worst("least-depth-over-nose", !edge.material.is_carbide())
}

/// Whether a cut is deep enough for an edge to bite.
pub(super) fn bites(bench: &Bench, edge: &Edge, shallowest: &Worked<Mm>) -> Result<Check, Refusal> {
    let over_nose = proven_over_nose(edge)?;
    let doubtful = least_bite(edge)?;
    let proven = match edge.material.is_steel() {
        true => doubtful.clone(),
        false => finish::least_depth(&over_nose, &edge.nose)?,
    };
    Ok(Check::judge_two("bite", (shallowest, &proven), Keep::AtLeast, (shallowest, &doubtful), bench.guard()))
}

/// Passes more at the same dial: steel and iron spring back under HSS or carbide; the rest would only be rubbed.
fn spring_passes(piece: &Piece, edge: &Edge) -> Result<u32, Refusal> {
    let springs = matches!(piece.material.kind(), Kind::Steel | Kind::HardSteel | Kind::GreyIron | Kind::DuctileIron);
    let cuts_freely = edge.material.is_steel() || edge.material.is_carbide();
    let name = if springs && cuts_freely { "spring-passes-steel-and-iron" } else { "spring-passes-others" };
    let passes: Worked<Ratio> = constant(name)?;
    // A small whole number of the table of constants.
    Ok(passes.number().clamp(0.0, 9.0) as u32)
}

#[cfg(test)]
mod tests {
    use super::{depths, near_equal};

    #[test]
    fn cuts_sum_up_and_differ_by_one_division_at_most() {
        assert_eq!(near_equal(15, 2), [8, 7]);
        assert_eq!(near_equal(12, 1), [12]);
        assert_eq!(near_equal(125, 3), [42, 42, 41]);
    }

    #[test]
    fn every_depth_that_stands_among_the_cuts_is_known() {
        let of = |divisions: &[u32]| depths(divisions, 0.02).iter().map(|d| d.value()).collect::<Vec<_>>();
        assert_eq!(of(&[15, 14]).len(), 2);
        assert_eq!(of(&[42, 42, 41]).len(), 2);
        assert_eq!(of(&[12]).len(), 1);
    }
}
