//! `drill`: one hole, its depth by the stop. Does its point come through, what does it meet behind, does the machine turn it?

mod case;
mod keys;
mod names;
mod sketch;
mod work;

pub(super) use keys::Drill;
