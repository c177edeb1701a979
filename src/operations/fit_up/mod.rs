//! `fit-up`: a measured shaft in a measured bore, cold and running.

mod frost;
mod keys;
mod names;
mod picture;
mod running;
mod work;

pub(super) use keys::FitUp;

/// Its one set-up.
const SET_UP: &str = "measure-the-fit";
