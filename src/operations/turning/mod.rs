//! What every cut on a lathe shares, whatever its shape: the part and its metal ([`Piece`]), the edge, the cuts, speed, feed, force,
//! the hard case below them, and the hold.

mod case;
mod cuts;
mod edge;
mod effort;
mod feed;
mod grip;
mod names;
mod piece;
mod speed;
mod swing;
mod tool;

pub(super) use super::kit::hard::cuts_as;
pub(super) use case::{CaseKeys, case_below, case_left};
pub(super) use cuts::{Amount, Cuts};
pub(super) use grip::{Reach, mass_from_sizes};
pub(super) use names::*;
pub(super) use piece::{Asked, Metal, Piece, lathe_for};
pub(super) use tool::CuttingData;

use super::{Answer, Bench};
use crate::proof::{Refusal, Worked};

/// Everything that is worked once the metal to remove is known: the tool with its cuts, speed, feed and force, and the grip; none
/// where no tool can be worked out, and the answer says why.
pub(super) fn work_cut(
    bench: &Bench,
    piece: &Piece,
    amount: &Amount,
    reach: Reach,
    answer: &mut Answer,
) -> Result<Option<CuttingData>, Refusal> {
    let Some(cutting) = tool::choose(bench, piece, amount, answer)? else { return Ok(None) };
    let depths: Vec<f64> = cutting.cuts.depths.iter().map(Worked::number).collect();
    let nose = &cutting.edge.nose;
    let pushes_back = grip::Cut::pushes_back(piece, &depths, nose)?;
    let cut = grip::Cut { force: &cutting.force, step: &cutting.speed.step, nose, pushes_back };
    grip::work(bench, piece, reach, cut, answer)?;
    Ok(Some(cutting))
}
