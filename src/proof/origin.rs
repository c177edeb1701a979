//! How a figure came about.

use super::{Mark, Place, Source, Working};
use std::borrow::Cow;
use std::sync::Arc;

/// A row of a table as it is quoted in a working.
#[derive(Clone, Debug, PartialEq)]
pub struct Cited {
    /// What the row says, in a line ("threads, M8: pitch 1.25 mm").
    pub row: Cow<'static, str>,
    /// Where the row comes from.
    pub source: Source,
}

/// How a figure came about.
#[derive(Clone, Debug, PartialEq)]
pub enum Origin {
    /// Typed by the person.
    Typed(Place),
    /// A default, listed as assumed: the reason.
    Assumed(String),
    /// A row of a table.
    Row(Cited),
    /// A formula of the book with its numbers.
    Formula(Working),
    /// Taken from a list that the shop owns, by a rule in words, for a wanted figure with a working of its own.
    Picked {
        /// The rule and the figure it was applied to.
        rule: String,
        /// How the wanted figure came about.
        wanted: Arc<Origin>,
    },
    /// A method that is not algebra (a search, a choice): its lines and its source.
    Method {
        /// What was done, line by line.
        lines: Vec<String>,
        /// Where the method comes from.
        source: Source,
    },
    /// The middle of a figure that has band or doubt: why the middle is enough.
    Nominal {
        /// The reason.
        reason: &'static str,
        /// How the figure came about.
        of: Arc<Origin>,
    },
    /// A figure moved, clamped or taken at an end: what was done, and how the figure came about.
    End {
        /// What was done, with the number that came of it.
        says: String,
        /// How the figure came about.
        of: Arc<Origin>,
    },
    /// The size as it was left, from the log.
    AsLeft,
}

impl Origin {
    /// The working, line by line; empty for what was typed, assumed or measured.
    pub fn working(&self) -> Vec<String> {
        match self {
            Self::Typed(_) | Self::Assumed(_) | Self::AsLeft => Vec::new(),
            Self::Row(cited) => vec![cited.row.to_string()],
            Self::Formula(working) => vec![working.to_string()],
            Self::Picked { rule, wanted } => wanted.working().into_iter().chain([rule.clone()]).collect(),
            Self::Method { lines, .. } => lines.clone(),
            Self::Nominal { reason, of } => {
                of.working().into_iter().chain([format!("taken at its middle: {reason}")]).collect()
            }
            Self::End { says, of } => of.working().into_iter().chain([says.clone()]).collect(),
        }
    }

    /// The source in words; never empty.
    pub fn source(&self) -> String {
        match self {
            Self::Typed(_) => "given".into(),
            Self::Assumed(why) => format!("assumed: {why}"),
            Self::Row(cited) => cited.source.to_string(),
            Self::Formula(working) => working.formula.source.to_string(),
            Self::Picked { wanted, .. } => match wanted.as_ref() {
                Self::Typed(_) | Self::Assumed(_) | Self::AsLeft => "what the shop owns".into(),
                other => format!("what the shop owns; {}", other.source()),
            },
            Self::Method { source, .. } => source.to_string(),
            Self::Nominal { of, .. } | Self::End { of, .. } => of.source(),
            Self::AsLeft => "as left, from the log".into(),
        }
    }

    /// How well the figure's own source is known, where it has one.
    pub fn mark(&self) -> Option<Mark> {
        match self {
            Self::Row(cited) => Some(cited.source.mark),
            Self::Formula(working) => Some(working.formula.source.mark),
            Self::Picked { wanted, .. } => wanted.mark(),
            Self::Method { source, .. } => Some(source.mark),
            Self::Nominal { of, .. } | Self::End { of, .. } => of.mark(),
            Self::Typed(_) | Self::Assumed(_) | Self::AsLeft => None,
        }
    }
}
