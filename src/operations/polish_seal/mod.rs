//! `polish-seal`: the track of a lip seal polished under its groove. Is the shaft still large, hard and true enough, and what if not?

mod checks;
mod keys;
mod names;
mod set_up;
mod sketch;
mod ways;
mod work;

pub(super) use keys::PolishSeal;
