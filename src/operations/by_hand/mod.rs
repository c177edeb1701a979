//! The work of the hands between the cuts: [`Hand`] (whatever the job says in its own words), [`Wash`], [`Measure`], [`Deburr`].
//! Their minutes are rows; what they leave is what the next set-up needs.

mod deburr;
mod hand;
mod measure;
mod state_word;
mod wash;

pub(super) use deburr::Deburr;
pub(super) use hand::Hand;
pub(super) use measure::Measure;
pub(super) use wash::Wash;
