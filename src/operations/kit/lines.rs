//! The lines of a sheet to write sizes in, from what the answer has.

use super::instrument;
use crate::operations::{Answer, Bench, Blank, Target, Value};
use crate::proof::{Fact, Words};
use crate::quantity::Decimals;
use crate::shop::Gauge;

/// A line by its label in the card, with what was found and what is wanted.
pub fn blank(id: &'static str, as_found: Option<Fact>, target: Option<Fact>) -> Blank {
    Blank { words: Words::of(id), as_found, target: target.map(Target::of), readings: 1, gauge: None, log: None }
}

/// A value with its doubt, where the answer has it.
pub fn found(answer: &Answer, key: &str) -> Option<Fact> {
    answer.value(key).map(Value::fact)
}

/// A depth to be made, as a depth gauge reads it: hundredths of a millimetre.
pub fn depth(answer: &Answer, key: &str) -> Option<Fact> {
    found(answer, key).map(|fact| fact.to(Decimals::Exactly(2)))
}

/// The same line with as many readings as its step asks, and with the gauge of the shop that reads such a size.
pub fn read_with(blank: Blank, readings: usize, bench: &Bench, gauge: Gauge) -> Blank {
    // What is written down is what was left, where anything is made of it.
    let wanted = blank.target.as_ref().and_then(|target| match target {
        Target::Aim(fact) | Target::UpTo(fact) | Target::Between(fact, _) => middle(Some(fact)),
    });
    let size = wanted.or_else(|| middle(blank.as_found.as_ref()));
    let instrument = size.and_then(|size| instrument(bench, size, gauge));
    let gauge = instrument.map(|instrument| Fact::from(&instrument.name.value).into());
    Blank { readings, gauge, ..blank }
}

/// The figure of a fact, where it is one.
fn middle(fact: Option<&Fact>) -> Option<f64> {
    match fact? {
        Fact::Figure { number, .. } => Some(*number),
        _ => None,
    }
}
