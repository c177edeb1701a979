//! How a figure came about.

use super::{Mark, Place, Source, Working};
use crate::quantity::{Print, Unit, figure};
use std::borrow::Cow;
use std::collections::HashSet;
use std::fmt;
use std::sync::Arc;

/// A row of a table as it is quoted in a working.
#[derive(Clone, Debug, PartialEq)]
pub struct Cited {
    /// What the row says, in a line ("threads, M8: pitch 1.25 mm").
    pub row: Cow<'static, str>,
    /// Where the row comes from.
    pub source: Source,
}

/// What was done to a figure. Most of it is read by nobody: it is put into words when somebody asks.
#[derive(Clone, Debug, PartialEq)]
pub enum Done {
    /// In words already.
    Told(Cow<'static, str>),
    /// What was done, and the number that came of it.
    Gave {
        /// What was done.
        words: &'static str,
        /// What came of it.
        number: f64,
        /// Its unit.
        unit: Unit,
    },
}

impl fmt::Display for Done {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Told(says) => f.write_str(says),
            Self::Gave { words, number, unit } => write!(f, "{words}: {} {unit}", figure(*number)),
        }
    }
}

/// How the figures came about that a working began from. Two are always equal: what is compared is the working itself.
#[derive(Clone, Debug)]
pub struct Begun(Box<[Arc<Origin>]>);

impl Begun {
    /// Of these figures.
    pub(super) fn each<const N: usize>(of: [&Arc<Origin>; N]) -> Self {
        Self(Box::new(of.map(Arc::clone)))
    }

    /// Of as many as there are.
    pub(super) fn all<'a>(of: impl Iterator<Item = &'a Arc<Origin>>) -> Self {
        Self(of.map(Arc::clone).collect())
    }

    /// Each of them.
    pub fn iter(&self) -> impl Iterator<Item = &Arc<Origin>> {
        self.0.iter()
    }
}

impl PartialEq for Begun {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

/// How a figure came about.
#[derive(Clone, Debug, PartialEq)]
pub enum Origin {
    /// Typed by the person.
    Typed(Place),
    /// A default, listed as assumed: the reason.
    Assumed(Cow<'static, str>),
    /// A row of a table.
    Row(Cited),
    /// A formula of the book with its numbers, and how each of them came about, in the order of its symbols.
    Formula(Working, Begun),
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
        /// How the figures came about that it began from, where they are figures.
        of: Begun,
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
        says: Done,
        /// How the figure came about.
        of: Arc<Origin>,
    },
    /// The size as it was left: the entry of the log.
    AsLeft(u32),
}

impl Origin {
    /// The working, line by line, in the units that figures are held in; empty for what was typed, assumed or measured.
    pub fn working(&self) -> Vec<String> {
        self.working_in(Print::Metric)
    }

    /// The working, line by line; what a formula gave is told in the units of print too.
    pub fn working_in(&self, print: Print) -> Vec<String> {
        let of = |origin: &Self, more: String| origin.working_in(print).into_iter().chain([more]).collect();
        match self {
            Self::Typed(_) | Self::Assumed(_) | Self::AsLeft(_) => Vec::new(),
            Self::Row(cited) => vec![cited.row.to_string()],
            Self::Formula(working, _) => vec![working.in_print(print)],
            Self::Picked { rule, wanted } => of(wanted, rule.clone()),
            Self::Method { lines, .. } => lines.clone(),
            Self::Nominal { reason, of: origin } => of(origin, format!("taken at its middle: {reason}")),
            Self::End { says, of: origin } => of(origin, says.to_string()),
        }
    }

    /// The source in words; never empty.
    pub fn source(&self) -> String {
        match self {
            Self::Typed(_) => "given".into(),
            Self::Assumed(why) => format!("assumed: {why}"),
            Self::Row(cited) => cited.source.to_string(),
            Self::Formula(working, _) => working.formula.source.to_string(),
            Self::Picked { wanted, .. } => match wanted.as_ref() {
                Self::Typed(_) | Self::Assumed(_) | Self::AsLeft(_) => "what the shop owns".into(),
                other => format!("what the shop owns; {}", other.source()),
            },
            Self::Method { source, .. } => source.to_string(),
            Self::Nominal { of, .. } | Self::End { of, .. } => of.source(),
            Self::AsLeft(entry) => format!("as left, from the log (L{entry})"),
        }
    }

    /// The entry of the log that the figure is, where it was left so.
    pub const fn entry(&self) -> Option<u32> {
        match self {
            Self::AsLeft(entry) => Some(*entry),
            _ => None,
        }
    }

    /// The newest entry of the log that the figure comes from, where it comes from one.
    pub fn newest_entry(&self) -> Option<u32> {
        let (mut open, mut seen, mut newest) = (vec![self], HashSet::new(), None);
        while let Some(here) = open.pop() {
            match here {
                Self::AsLeft(entry) => newest = newest.max(Some(*entry)),
                // What several figures came from stands in each of them.
                _ if !seen.insert(std::ptr::from_ref(here)) => {}
                Self::Formula(_, begun) | Self::Method { of: begun, .. } => open.extend(begun.iter().map(Arc::as_ref)),
                Self::Picked { wanted: of, .. } | Self::Nominal { of, .. } | Self::End { of, .. } => open.push(of),
                Self::Typed(_) | Self::Assumed(_) | Self::Row(_) => {}
            }
        }
        newest
    }

    /// How well the figure's own source is known, where it has one.
    pub fn mark(&self) -> Option<Mark> {
        match self {
            Self::Row(cited) => Some(cited.source.mark),
            Self::Formula(working, _) => Some(working.formula.source.mark),
            Self::Picked { wanted, .. } => wanted.mark(),
            Self::Method { source, .. } => Some(source.mark),
            Self::Nominal { of, .. } | Self::End { of, .. } => of.mark(),
            Self::Typed(_) | Self::Assumed(_) | Self::AsLeft(_) => None,
        }
    }
}
