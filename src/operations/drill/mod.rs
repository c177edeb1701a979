//! `drill`: one hole, its depth by the stop. Does its point come through, what does it meet behind, does the machine turn it, does
//! the drill itself stand its thrust and its torque?

mod keys;
mod names;
mod sketch;
mod work;

pub(super) use keys::Drill;
