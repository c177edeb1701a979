//! `shim`: the pack of shims that brings an end float to what is wanted, from the sizes in its path or from the float as found.

mod bare;
mod fitted;
mod frost;
mod growth;
mod keys;
mod more;
mod names;
mod pack;
mod set_up;
mod to_order;

pub(super) use keys::Shim;
