//! What every cut on a lathe shares, whatever its shape: the part and its metal ([`Piece`]), the edge, the cuts, speed, feed, force,
//! the hard case below them, and the hold.

mod case;
mod cuts;
mod eased;
mod edge;
mod effort;
mod feed;
mod grip;
mod lines;
mod names;
mod piece;
mod problems;
mod sketch;
mod speed;
mod stands;
mod swing;
mod tool;

pub(super) use super::kit::hard::cuts_as;
pub(super) use super::kit::mass_from_sizes;
pub(super) use case::{CaseKeys, case_below, case_left};
pub(super) use cuts::{Amount, Cuts, least_bite, trial_width};
pub(super) use edge::Edge;
pub(super) use grip::{Reach, stands_out};
pub(super) use lines::{hold_lines, loading, test_hardness};
pub(super) use names::*;
pub(super) use piece::{Asked, Metal, Piece, Way, lathe_for};
pub(super) use problems::{
    Bored, LENGTHS_AGREE, hold_problems, lathe_problems, mandrel_stands, nothing_to_grip, too_long,
};
pub(super) use sketch::{halves, jaws, stepped};
pub(super) use swing::{judge as clears_the_bed, over_the_slide, part_alone as part_clears_the_bed};
pub(super) use tool::{Candidate, CuttingData, Tools, nothing_more};

use super::{Answer, Bench};
use crate::handbook::constants::constant;
use crate::handbook::cutting::times;
use crate::proof::{Mark, Refusal, Source, Worked};
use crate::quantity::{Mm, MmPerRev, Quantity, Ratio, SpringRate};

/// A cut, worked.
pub(super) struct WorkedCut {
    pub cutting: CuttingData,
    /// How stiff the part stands at its free end under a cut along it; none where nobody says how it is held.
    pub part: Option<Worked<SpringRate>>,
    /// Whether hard metal pushes the tool out of its cut.
    pub pushes_back: bool,
}

/// Everything that is worked once the metal to remove is known: the tool with its cuts, speed, feed and force, and the grip; none
/// where no tool can be worked out, and the answer says why.
pub(super) fn work_cut(
    bench: &Bench,
    piece: &Piece,
    amount: &Amount,
    reach: Reach,
    tools: &Tools,
    answer: &mut Answer,
) -> Result<Option<WorkedCut>, Refusal> {
    let kept = grip::Kept::default();
    let trial = grip::Trial::new(bench, (piece, &kept), &reach);
    let holds = |cut: grip::Cut| trial.carries(cut).unwrap_or(true);
    let Some(cutting) = tool::choose(bench, piece, amount, (tools, &holds), answer)? else { return Ok(None) };
    let part = held(bench, (piece, &kept), &cutting, reach.clone(), answer)?;
    let pushes_back = pushes_back(piece, &cutting)?;
    Ok(Some(WorkedCut { cutting, part, pushes_back }))
}

/// The hold under a cut.
fn held(
    bench: &Bench,
    (piece, kept): (&Piece, &grip::Kept),
    cutting: &CuttingData,
    reach: Reach,
    answer: &mut Answer,
) -> Result<Option<Worked<SpringRate>>, Refusal> {
    grip::work(bench, (piece, kept), reach, grip_cut(piece, cutting)?, answer)
}

/// A cut as the grip sees it.
fn grip_cut<'a>(piece: &Piece, cutting: &'a CuttingData) -> Result<grip::Cut<'a>, Refusal> {
    let (nose, pushes_back) = (&cutting.edge.nose, pushes_back(piece, cutting)?);
    let last = cutting.cuts.depths.last().map_or(0.0, Worked::number);
    Ok(grip::Cut { force: &cutting.force, step: &cutting.speed.step, nose, last, pushes_back })
}

fn pushes_back(piece: &Piece, cutting: &CuttingData) -> Result<bool, Refusal> {
    let depths: Vec<f64> = cutting.cuts.depths.iter().map(Worked::number).collect();
    grip::Cut::pushes_back(piece, &depths, &cutting.edge.nose)
}

/// The cut of a blade: no passes and no finish, its whole width at once.
pub(super) fn work_off(
    bench: &Bench,
    piece: &Piece,
    edge: Edge,
    width: &Worked<Mm>,
    reach: Reach,
    answer: &mut Answer,
) -> Result<CuttingData, Refusal> {
    stands::hard_enough(bench, piece, &edge, answer)?;
    // A blade runs at the roughing speed.
    let speed = speed::work(bench, piece, &edge, f64::INFINITY, answer)?;
    let (depths, kept) = (vec![width.clone()], grip::Kept::default());
    let trial = grip::Trial::new(bench, (piece, &kept), &reach);
    let carries = |feed: &Worked<MmPerRev>| -> Result<bool, Refusal> {
        let force = effort::greatest_force(piece, &edge, &depths, feed, &mut Answer::default())?;
        let pushes_back = grip::Cut::pushes_back(piece, &[width.number()], &edge.nose)?;
        let cut = grip::Cut { force: &force, step: &speed.step, nose: &edge.nose, last: width.number(), pushes_back };
        let strong = effort::is_strong_enough(bench, piece, &force, &speed.step)?;
        Ok(strong && trial.carries(cut)?)
    };
    let feed = feed::of_a_blade(piece, carries, answer)?;
    let force = effort::work(bench, piece, &edge, &depths, &speed, &feed, answer)?;
    let (approach, overrun) = (constant("approach")?, constant("overrun")?);
    let time = times::facing_time(&piece.outside, &piece.inside, &approach, &overrun, &feed.step, &speed.step)?;
    answer.record(&TIME, time);
    let once = Worked::row(Ratio::new(1.0), "one cut: 1", Source::fixed("one at a time", Mark::Derived));
    let cuts = Cuts { divisions: Vec::new(), spring: 0, before_measured: 0, depths, passes: once };
    let cutting = CuttingData { edge, cuts, speed, feed, force };
    held(bench, (piece, &kept), &cutting, reach.clone(), answer)?;
    Ok(cutting)
}
