//! Materials, hardness, what harms a person.

pub mod cleaners;
pub mod families;
pub mod groups;
pub mod hardness;
mod kind;
mod names;
pub mod safety;
