//! Lines of a sheet to write a size in.

use crate::operations::{Answer, Blank, Target, Value};
use crate::proof::{Fact, Words};

/// A line by its label in the card, with what was found and what is wanted.
pub(in crate::operations) fn blank(id: &'static str, as_found: Option<Fact>, target: Option<Fact>) -> Blank {
    Blank { words: Words::of(id), as_found, target: target.map(Target::of) }
}

/// A value with its doubt, where the answer has it.
pub(in crate::operations) fn found(answer: &Answer, key: &str) -> Option<Fact> {
    answer.value(key).map(Value::fact)
}
