//! Why a command stops before it has an answer.

use crate::reading::{Problem, Text};

/// More problems than this at once help nobody: the rest are counted.
pub(super) const SHOWN: usize = 40;

/// Why a command stops before it has an answer.
pub(super) enum Stop {
    /// The arguments are none of ours.
    Arguments(String),
    /// The input cannot be read: every problem, with the texts that they point into.
    Input(Vec<Problem>, Vec<Text>),
    /// An output could not be written.
    Unwritten(String),
    /// The program's own fault: its page would not hold.
    Page(String),
}
