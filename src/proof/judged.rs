//! What a check is judged by: a figure, its limit, and the side on which it must stay.

use super::cause::Side;
use crate::quantity::{Rounds, Unit};
use schemars::JsonSchema;
use serde::Serialize;

/// The side of a limit on which a figure must stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
pub enum Keep {
    /// Not under the limit.
    #[serde(rename = "at least")]
    AtLeast,
    /// Not over the limit.
    #[serde(rename = "at most")]
    AtMost,
}

impl Keep {
    /// Which way such a limit is rounded where it is printed: inward.
    pub const fn rounds(self) -> Rounds {
        match self {
            Self::AtLeast => Rounds::Up,
            Self::AtMost => Rounds::Down,
        }
    }

    /// The worst end of what is judged.
    pub(crate) const fn bad(self) -> Side {
        match self {
            Self::AtLeast => Side::Low,
            Self::AtMost => Side::High,
        }
    }

    /// The worst end of the limit.
    pub(super) const fn bad_limit(self) -> Side {
        match self {
            Self::AtLeast => Side::High,
            Self::AtMost => Side::Low,
        }
    }

    /// How far a figure is inside a limit; negative is outside.
    pub(crate) const fn inside(self, got: f64, limit: f64) -> f64 {
        match self {
            Self::AtLeast => got - limit,
            Self::AtMost => limit - got,
        }
    }
}

/// The figures of a check.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Judged {
    /// The figure got, at its middle.
    #[serde(rename = "value")]
    pub got: f64,
    /// The figure at the end of its band that is judged.
    #[serde(skip)]
    pub at_worst_end: f64,
    /// The doubt of the margin, by the guard factor; absent where there is none.
    #[serde(rename = "plus_minus", default, skip_serializing_if = "is_nought")]
    pub doubt: f64,
    /// The limit.
    pub limit: f64,
    /// On which side it must stay.
    pub keep: Keep,
    /// How far inside the limit it is at the worst end of bands and doubt; negative is outside.
    pub margin: f64,
    /// The unit of all.
    pub unit: Unit,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // As the serialiser asks it.
fn is_nought(doubt: &f64) -> bool {
    *doubt <= 0.0
}

impl Judged {
    /// How far a figure is inside a limit on the side where this one must stay; negative is outside.
    pub fn inside(&self, got: f64, limit: f64) -> f64 {
        settled(self.keep.inside(got, limit), limit)
    }
}

/// A limit met exactly holds: a margin smaller than the arithmetic's own noise is none.
pub(super) fn settled(margin: f64, scale: f64) -> f64 {
    if margin.abs() <= 1e-12 * scale.abs().max(1.0) { 0.0 } else { margin }
}
