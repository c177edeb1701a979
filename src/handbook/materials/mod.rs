//! Materials, hardness, what harms a person.

pub mod families;
pub mod groups;
pub mod hardness;
pub mod safety;
