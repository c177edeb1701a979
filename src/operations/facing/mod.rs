//! What face and skim share: a flat end taken back to clean metal on a lathe, and everything that goes wrong with it.
//!
//! The two list the same keys ([`facing_operation!`]) and add their own; each says how much metal must go, and this room works
//! the rest: [`Ground`] (part, lathe, dial), metal and case ([`metal`]), tool ([`tool`]), cuts, speed, feed, force, grip, set-up.

mod case;
mod checks;
mod cuts;
mod edge;
mod effort;
mod feed;
mod float;
mod grip;
mod ground;
mod keys;
mod left;
mod measuring;
mod metal;
mod names;
mod problems;
mod recess;
mod set_up;
mod sketch;
mod speed;
mod swing;
mod tool;

pub(super) use checks::facing_checks;
pub(super) use ground::{DepthDial, Ground, cuts_as, dial_alone};
pub(super) use keys::{Asked, Bears, FeedDirection, FloatWay, Relief, facing_operation};
pub(super) use left::work as metal_left;
pub(super) use metal::{Least, Metal, clean_up, doubt_of, middle};
pub(super) use names::*;
pub(super) use set_up::{Extra, set_up};
pub(super) use sketch::Shoulder;

use super::{Answer, Bench};
use crate::proof::{Refusal, Worked};

/// Everything that is worked once the metal to remove is known: the tool with its cuts, speed, feed and force, and the grip; none
/// where no tool can be worked out, and the answer says why.
pub(super) fn work_cut(
    bench: &Bench,
    ground: &Ground,
    metal: &Metal,
    answer: &mut Answer,
) -> Result<Option<tool::CuttingData>, Refusal> {
    let Some(cutting) = tool::choose(bench, ground, metal, answer)? else { return Ok(None) };
    let depths: Vec<f64> = cutting.cuts.depths.iter().map(Worked::number).collect();
    let nose = &cutting.edge.nose;
    let pushes_back = grip::Cut::pushes_back(ground, &depths, nose)?;
    let cut = grip::Cut { force: &cutting.force, step: &cutting.speed.step, nose, pushes_back };
    grip::work(bench, ground, metal, cut, answer)?;
    Ok(Some(cutting))
}
