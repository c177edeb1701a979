//! `tap`: a thread cut by hand into a hole that is there. Is the hole inside the thread's limits, is there room under the tap, and
//! does the tap stand its torque? A tap broken off in a casting is harder than the casting.

mod keys;
mod names;
mod sketch;
mod work;

pub(super) use keys::Tap;
