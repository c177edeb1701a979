//! `lap`: a joint face lapped flat. How far is it out of flat, how much goes, and what goes with it: compression, squish, set-down?

mod consequences;
mod flat;
mod keys;
mod map;
mod names;
mod places;
mod set_up;
mod work;

pub(super) use keys::Lap;
