//! `part-off`: a piece cut off with a blade. Does the blade reach, is it near to the jaws, what holds the piece as it comes off?

mod blade;
mod keys;
mod names;
mod sketch;
mod work;

pub(super) use keys::PartOff;
