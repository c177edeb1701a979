//! The answers to a check that was made.

use schemars::JsonSchema;
use serde::Serialize;

/// The three answers to a check that was made, worst last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Verdict {
    /// Holds at the worst end of band and doubt too.
    Proven,
    /// Holds at the middle only, or what it rests on is doubtful.
    Doubtful,
    /// Does not hold.
    Fails,
}

impl Verdict {
    /// As the JSON spells it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Proven => "proven",
            Self::Doubtful => "doubtful",
            Self::Fails => "fails",
        }
    }
}
