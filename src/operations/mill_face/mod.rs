//! `mill-face`: a face milled flat. Is the work held against the cutter and not bent by its clamps, is the spindle trammed, what is
//! left of thickness and case, how deep is each pass, and what does the mill have power for?

mod clear;
mod cutter;
mod effort;
mod flat;
mod keys;
mod left;
mod names;
mod set_up;
mod sketch;
mod tips;
mod work;

pub(super) use keys::MillFace;
