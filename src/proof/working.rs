//! A formula of the handbook as it is written, and with the numbers put in.

use super::Source;
use super::notation::Expression;
use crate::quantity::{Print, Unit, figure, in_other_unit};
use std::fmt;
use std::ops::RangeInclusive;

/// A symbol of a formula: it knows its own name, unit and range.
#[derive(Debug, PartialEq)]
pub struct Symbol {
    /// The letter.
    pub name: &'static str,
    /// What it is, as a message names it.
    pub word: &'static str,
    /// Its unit.
    pub unit: Unit,
    /// The range in which the formula holds.
    pub within: RangeInclusive<f64>,
}

/// A formula of the handbook.
#[derive(Debug, PartialEq)]
pub struct Formula {
    /// The function's name.
    pub name: &'static str,
    /// The letter of the result.
    pub result: &'static str,
    /// The unit of the result.
    pub unit: Unit,
    /// The very expression that is evaluated.
    pub text: &'static str,
    /// Its symbols in order.
    pub symbols: &'static [Symbol],
    /// Where it comes from.
    pub source: Source,
}

/// The most symbols that one formula may have.
pub(super) const MOST_SYMBOLS: usize = 8;

/// A formula with the numbers put in.
#[derive(Clone, Debug, PartialEq)]
pub struct Working {
    /// The formula.
    pub formula: &'static Formula,
    /// The numbers, in the order of its symbols.
    pub given: [f64; MOST_SYMBOLS],
    /// What came out.
    pub result: f64,
}

impl Working {
    /// The formula with its numbers, and what came out in the unit of print behind it, where that is another. The numbers stay in
    /// the units of the formula: its own constants are in them.
    pub fn in_print(&self, print: Print) -> String {
        match (print, in_other_unit(self.result, self.formula.unit)) {
            (Print::Metric, _) | (_, None) => self.to_string(),
            (_, Some(other)) => format!("{self} ({other})"),
        }
    }

    /// The number that stands for a symbol.
    pub fn number_of(&self, symbol: &str) -> Option<f64> {
        let at = self.formula.symbols.iter().position(|s| s.name == symbol)?;
        self.given.get(at).copied()
    }
}

impl fmt::Display for Working {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Formula { result, unit, text, .. } = self.formula;
        let result_is = figure(self.result);
        let unit = if *unit == Unit::One { String::new() } else { format!(" {unit}") };
        match Expression::read(text) {
            Some(read) => {
                let letters = read.write(&|_| None);
                let numbers = read.write(&|name| self.number_of(name).map(figure));
                write!(f, "{result} = {letters} = {numbers} = {result_is}{unit}")
            }
            None => write!(f, "{result} = {text} = {result_is}{unit}"),
        }
    }
}
