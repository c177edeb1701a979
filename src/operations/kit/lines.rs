//! The lines of a sheet to write sizes in, from what the answer has.

use super::instrument;
use crate::operations::{Answer, Bench, Blank, Target, Value};
use crate::proof::{Fact, Words};
use crate::quantity::{Decimals, Quantity, Unit};
use crate::shop::{Gauge, Instrument};

/// A line by its label in the card, with what was found and what is wanted.
pub fn blank(id: &'static str, as_found: Option<Fact>, target: Option<Fact>) -> Blank {
    let target = target.map(Target::of);
    Blank { words: Words::of(id), as_found, is_expected: false, target, readings: 1, gauge: None, log: None }
}

/// A value with its doubt, where the answer has it.
pub fn found(answer: &Answer, key: &str) -> Option<Fact> {
    answer.value(key).map(Value::fact)
}

/// A line for a roughness, which may be as rough as is wanted and no rougher.
pub fn no_rougher(id: &'static str, answer: &Answer, key: &str) -> Option<Blank> {
    let wanted = answer.value(key)?;
    let most = Target::UpTo(Fact::figure(wanted.number, wanted.unit));
    Some(Blank { target: Some(most), ..blank(id, None, None) })
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
    let target = blank.target.map(|target| as_read(target, instrument));
    let gauge = instrument.map(|instrument| Fact::from(&instrument.name.value).into());
    Blank { readings, gauge, target, ..blank }
}

/// Limits far apart as a coarse gauge reads them, or what is there to read them where the shop has none: in hundredths of a
/// millimetre.
fn as_read(target: Target, gauge: Option<&Instrument>) -> Target {
    const PLACES: i32 = 2;
    let hundredths = Decimals::Exactly(PLACES.unsigned_abs() as usize);
    let hundredth = 10_f64.powi(-PLACES);
    let is_coarse = gauge.is_none_or(|gauge| gauge.uncertainty.value.number() >= hundredth);
    let far = |low: &Fact, high: &Fact| match (low, high) {
        (
            Fact::Figure { number: low, unit: Unit::Mm, decimals: Decimals::Usual, .. },
            Fact::Figure { number: high, unit: Unit::Mm, .. },
        ) => high - low >= 10.0 * hundredth,
        _ => false,
    };
    match target {
        Target::Between(low, high) if is_coarse && far(&low, &high) => {
            Target::Between(low.to(hundredths), high.to(hundredths))
        }
        target => target,
    }
}

/// The figure of a fact, where it is one.
fn middle(fact: Option<&Fact>) -> Option<f64> {
    match fact? {
        Fact::Figure { number, .. } => Some(*number),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Print;

    #[test]
    fn limits_far_apart_are_no_finer_than_what_reads_them() {
        let between = |low, high| {
            let end = |number| Fact::figure(number, Unit::Mm);
            let read = as_read(Target::Between(end(low), end(high)), None);
            read.shown(Print::Metric).iter().map(|shown| shown.number.to_string()).collect::<Vec<_>>()
        };
        assert_eq!(between(6.217, 6.387), ["6.22", "6.38"], "rounded inward");
        assert_eq!(between(16.013, 16.031), ["16.013", "16.031"], "a narrow window keeps its digits");
    }
}
