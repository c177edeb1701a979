//! `spot-face`: a seat about a hole, square to it. Is the pilot there and does it run, is the raw face cut clean, does metal enough
//! stay under the seat at its thin end, does the cutter grab?

mod keys;
mod names;
mod pilot;
mod sketch;
mod work;

pub(super) use keys::SpotFace;
