//! `bore-hole`: a hole bored to size on the lathe. Does the bar reach, does it fit, does it spring, what wall is left, what does it
//! strike behind?
//!
//! What it shares with the turning of an outside is worked in [`super::diameter`].

mod bar;
mod keys;
mod names;
mod place;
mod sketch;
mod work;

pub(super) use keys::BoreHole;
