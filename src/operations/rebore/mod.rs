//! `bore`: a worn cylinder. What is it worn, which piston makes it clean again, to what is it bored and honed, and what is left?

mod bar;
mod choose;
mod cutting;
mod found;
mod held;
mod keys;
mod names;
mod piston;
mod radii;
mod readings;
mod set_up;
mod sketch;
mod wall;

pub(super) use keys::Bore;
