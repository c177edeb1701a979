//! One tool doing one thing, pass by pass.

use crate::proof::{Dialled, Fact, Words};
use schemars::JsonSchema;
use serde::Serialize;

/// One tool doing one thing.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Cut<W = Words> {
    /// The tool: a name of the shop or of the card.
    pub tool: W,
    /// Spindle step, rev/min; none by hand.
    #[serde(rename = "spindle_rev_min", skip_serializing_if = "Option::is_none")]
    pub spindle: Option<f64>,
    /// Feed step, mm/rev; none by hand.
    #[serde(rename = "feed_mm_rev", skip_serializing_if = "Option::is_none")]
    pub feed: Option<f64>,
    /// Passes in order.
    pub passes: Vec<Pass>,
    /// Cutting minutes.
    pub minutes: f64,
}

impl<T> Cut<T> {
    /// The same cut with its tool put another way.
    pub(crate) fn with_tool<U>(&self, tool: U) -> Cut<U> {
        Cut { tool, spindle: self.spindle, feed: self.feed, passes: self.passes.clone(), minutes: self.minutes }
    }
}

/// What a pass is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum PassKind {
    /// Over the outermost of a face only, so that there is something to measure.
    Trial,
    /// Takes the most.
    Rough,
    /// One of the last cuts.
    Finish,
    /// The same dial again.
    Spring,
    /// A drill, tap or reamer to its depth.
    #[serde(rename = "to depth")]
    Depth,
}

impl PassKind {
    /// As a sheet names it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Trial => "trial",
            Self::Rough => "rough",
            Self::Finish => "finish",
            Self::Spring => "spring",
            Self::Depth => "to depth",
        }
    }
}

/// One pass.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Pass {
    /// What it is for.
    pub kind: PassKind,
    /// Depth of cut, or depth of the hole, mm.
    #[serde(rename = "depth_mm")]
    pub depth: f64,
    /// What is set for it, where anything is.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dial: Option<Dialled>,
    /// What is then left to measure, by what was found and what is taken, where it is known.
    #[serde(skip)]
    pub leaves: Option<Fact>,
}
