//! What face and skim share: a flat end taken back to clean metal on a lathe, and everything that goes wrong with it.
//!
//! The two list the same keys ([`facing_operation!`]) and add their own; each says how much metal must go, and this module works
//! the rest: [`Ground`] (part and dial), metal and what is left, measuring, set-up. Tool, speed and hold are those of every cut on
//! a lathe ([`turning`]).

mod checks;
mod float;
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

pub(super) use checks::facing_checks;
pub(super) use ground::{DepthDial, Ground, dial_alone};
pub(super) use keys::{Asked, Bears, FeedDirection, FloatWay, Relief, facing_operation};
pub(super) use left::{deep_enough, work as metal_left};
pub(super) use metal::{Least, Metal, clean_up, doubt_of, middle};
pub(super) use names::*;
pub(super) use set_up::{Extra, set_up};
pub(super) use sketch::Shoulder;

use super::turning::{self, CuttingData, Tools};
use super::{Answer, Bench};
use crate::proof::Refusal;

/// Everything that is worked once the metal to remove is known; none where no tool can be worked out, and the answer says why.
pub(super) fn work_cut(
    bench: &Bench,
    ground: &Ground,
    metal: &Metal,
    answer: &mut Answer,
) -> Result<Option<CuttingData>, Refusal> {
    let (amount, tools) = (metal.amount(&ground.dial), Tools::turning(bench, &turning::nothing_more));
    let cut = turning::work_cut(bench, &ground.piece, &amount, metal.reach(&ground.piece), &tools, answer)?;
    Ok(cut.map(|cut| cut.cutting))
}
