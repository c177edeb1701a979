//! `set-true`: a part trued in its chuck. Where is its centre, which jaw moves how far, and can such readings see what they must?

mod circle;
mod face;
mod jaws;
mod keys;
mod least;
mod names;
mod polar;
mod set_up;
mod shims;

pub(super) use keys::SetTrue;
