//! Materials, hardness, what harms a person.

pub mod groups;
pub mod hardness;
pub mod safety;
