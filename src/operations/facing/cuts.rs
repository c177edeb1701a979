//! How the metal is shared out among the cuts, and how long they take.

use super::speed::{Feed, Speed};
use super::tool::Edge;
use super::{Ground, LEAST_DEPTH, Metal, PASSES, TIME, TIME_A_PASS};
use crate::handbook::constants::constant;
use crate::handbook::cutting::{finish, times};
use crate::handbook::materials::groups::Kind;
use crate::operations::{Answer, Bench};
use crate::proof::{Check, Fact, Keep, Mark, Refusal, Source, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity, Ratio, figure};

/// The cuts in whole divisions of the dial.
pub(in crate::operations) struct Cuts {
    /// Divisions of each cut, in order.
    pub divisions: Vec<u32>,
    /// Passes more at the same dial.
    pub spring: u32,
    /// The deepest cut.
    pub deepest: Worked<Mm>,
    /// All passes, spring passes too.
    pub passes: Worked<Ratio>,
}

/// Everything that a cut needs.
pub(in crate::operations) struct Cutting {
    pub edge: Edge,
    pub cuts: Cuts,
    pub speed: Speed,
    pub feed: Feed,
}

/// The fewest cuts that keep every depth within what machine and tool stand; two near-equal ones where there is metal for two
/// that bite, one where there is not.
pub(super) fn divide(
    bench: &Bench,
    ground: &Ground,
    metal: &Metal,
    edge: &Edge,
    answer: &mut Answer,
) -> Result<Cuts, Refusal> {
    let division = ground.dial.division.number();
    let most = most_depth(ground, edge, answer)?;
    let least = answer.record(&LEAST_DEPTH, finish::least_depth(&constant("least-depth-over-nose")?, &edge.nose)?);
    let most_divisions = (most.number() / division + 1e-9).floor().clamp(1.0, 1e6) as u32;
    let fewest = metal.divisions.div_ceil(most_divisions).max(1);
    let two_bite = f64::from(metal.divisions / 2) * division >= least.number() - 1e-9;
    let count = if two_bite { fewest.max(2) } else { fewest };
    let divisions = near_equal(metal.divisions, count);
    let depth = |divisions: u32, what: &str| {
        let says = format!("{what} of {count}: {divisions} divisions of {} mm", figure(division));
        let source = Source::fixed("near-equal cuts in whole divisions", Mark::CommonPractice);
        Worked::method(Mm::new(f64::from(divisions) * division), vec![says], source)
    };
    let deepest = depth(divisions.first().copied().unwrap_or(0), "deepest cut");
    let shallowest = depth(divisions.last().copied().unwrap_or(0), "shallowest cut");
    answer.check(Check::judge("most-depth", &deepest, Keep::AtMost, &most, bench.guard()));
    bite(edge, &shallowest, &least, answer)?;
    let spring = spring_passes(ground, edge)?;
    let passes = format!("{count} cuts and {spring} spring passes");
    let source = Source::fixed("spring passes: steel and iron with HSS or carbide", Mark::CommonPractice);
    let passes = Worked::method(Ratio::new(f64::from(count + spring)), vec![passes], source);
    let passes = answer.record(&PASSES, passes);
    Ok(Cuts { divisions, spring, deepest, passes })
}

/// So many divisions in so many parts, the larger ones first.
fn near_equal(divisions: u32, count: u32) -> Vec<u32> {
    let (each, more) = (divisions / count, divisions % count);
    (0..count).map(|at| each + u32::from(at < more)).collect()
}

/// The lesser of what the machine and the tool stand.
fn most_depth(ground: &Ground, edge: &Edge, answer: &mut Answer) -> Result<Worked<Mm>, Refusal> {
    let machine = ground.lathe.and_then(|lathe| lathe.most_depth.as_ref()).map(Worked::from);
    Ok(match (machine, &edge.most_depth) {
        (Some(machine), Some(tool)) if tool.number() < machine.number() => tool.clone(),
        (Some(machine), _) => machine,
        (None, Some(tool)) => tool.clone(),
        (None, None) => super::undoubted(&answer.assume("most-depth", constant("most-depth-unknown")?)),
    })
}

/// A cut shallower than the nose can bite: doubtful, and where the edge would only rub it fails.
fn bite(edge: &Edge, shallowest: &Worked<Mm>, least: &Worked<Mm>, answer: &mut Answer) -> Result<(), Refusal> {
    let rubs: Worked<Mm> = match edge.material.is_steel() {
        true => constant("skim-least-hss")?,
        false => finish::least_depth(&constant("skim-least-insert-over-nose")?, &edge.nose)?,
    };
    let check = Check::judge("bite", shallowest, Keep::AtLeast, least, 2.0);
    let verdict = match check.verdict() {
        Some(Verdict::Proven) => Verdict::Proven,
        _ if shallowest.number() < rubs.number() - 1e-9 => Verdict::Fails,
        _ => Verdict::Doubtful,
    };
    let check = answer.check(check.judged_as(verdict));
    if verdict != Verdict::Proven {
        let over: Worked<Ratio> = constant("least-depth-over-nose")?;
        let nose = Fact::mm(shallowest.number() / over.number()).to(Decimals::Exactly(2));
        check.remedy(Words::of("sharper-nose").with("nose", nose)).remedy(Words::of("grind-or-lap"));
    }
    Ok(())
}

/// Passes more at the same dial: steel and iron spring back under HSS or carbide; the rest would only be rubbed.
fn spring_passes(ground: &Ground, edge: &Edge) -> Result<u32, Refusal> {
    let springs = matches!(ground.material.kind(), Kind::Steel | Kind::HardSteel | Kind::GreyIron | Kind::DuctileIron);
    let cuts_freely = edge.material.is_steel() || edge.material.is_carbide();
    let name = if springs && cuts_freely { "spring-passes-steel-and-iron" } else { "spring-passes-others" };
    let passes: Worked<Ratio> = constant(name)?;
    // A small whole number of the table of constants.
    Ok(passes.number().clamp(0.0, 9.0) as u32)
}

/// Cutting time: one pass, and all of them.
pub(super) fn time(
    bench: &Bench,
    ground: &Ground,
    cuts: &Cuts,
    speed: &Speed,
    feed: &Feed,
    answer: &mut Answer,
) -> Result<(), Refusal> {
    let (approach, overrun) = (constant("approach")?, constant("overrun")?);
    let one = times::facing_time(&ground.outside, &ground.inside, &approach, &overrun, &feed.step, &speed.step)?;
    let one = answer.record(&TIME_A_PASS, one);
    answer.record(&TIME, times::time_of_passes(&one, &cuts.passes)?);
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::near_equal;

    #[test]
    fn cuts_sum_up_and_differ_by_one_division_at_most() {
        assert_eq!(near_equal(15, 2), [8, 7]);
        assert_eq!(near_equal(12, 1), [12]);
        assert_eq!(near_equal(125, 3), [42, 42, 41]);
    }
}
