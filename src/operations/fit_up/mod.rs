//! `fit-up`: a measured shaft in a measured bore, cold and running.

mod keys;
mod names;
mod running;
mod work;

pub(super) use keys::FitUp;
