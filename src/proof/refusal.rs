//! What cannot be worked out, and why.

use crate::quantity::{Decimals, Print, Rounds, Shown, Unit, figure};

/// Why a part of an operation cannot be worked out.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Refusal {
    /// Outside the range in which a formula or a table holds.
    #[error("{what} {} {unit} is outside {} to {} {unit}", figure(*got), figure(*least), figure(*most))]
    Outside {
        /// What lies outside.
        what: &'static str,
        /// The figure got.
        got: f64,
        /// The least that holds.
        least: f64,
        /// The most that holds.
        most: f64,
        /// The unit of the three.
        unit: Unit,
    },
    /// The figures have no finite result.
    #[error("{formula} has no finite result for these figures")]
    NotFinite {
        /// The formula's text.
        formula: &'static str,
    },
    /// The book has no such row.
    #[error("the book has no {table} for {wanted}")]
    NoRow {
        /// What the table gives.
        table: &'static str,
        /// What was looked for.
        wanted: String,
    },
    /// A figure that only the person can give is missing.
    #[error("{what} is needed to work this out: give `{key}`")]
    NotGiven {
        /// What it is.
        what: &'static str,
        /// The key that gives it.
        key: &'static str,
    },
    /// A size that another operation should hand over never came.
    #[error("{address} is needed first and could not be worked out")]
    NotHandedOver {
        /// The address asked.
        address: String,
    },
    /// A size that another operation hands over, or that the log holds, is in a unit that cannot be meant.
    #[error("{address} is in {is}: what is asked for here is in {asked}")]
    WrongUnit {
        /// The address asked.
        address: String,
        /// Its unit.
        is: Unit,
        /// The unit asked for.
        asked: Unit,
    },
    /// A reading whose doubt is half of it or more is none.
    #[error("{what}: {} ± {} mm is no reading: measure it again and type it as fine as it was read, or type its ±", figure(*size), figure(*doubt))]
    Unread {
        /// The key.
        what: &'static str,
        /// The size read, mm.
        size: f64,
        /// Its doubt, mm.
        doubt: f64,
    },
    /// Readings from which nothing follows.
    #[error("{what}: {why}")]
    NoForm {
        /// What was asked of them.
        what: &'static str,
        /// Why nothing follows.
        why: String,
    },
    /// The machine that was named is of another kind than any that the work is done on.
    #[error("`set-up.machine`: `{machine}` does none of this work; name a machine that does, or leave it out")]
    NotItsMachine {
        /// The machine, by its name in the shop.
        machine: String,
    },
    /// The shop's own copy of the operation's card cannot be used.
    #[error("{path}:{line}: the shop's own card cannot be used: {says}")]
    Card {
        /// The file.
        path: String,
        /// Its line.
        line: u32,
        /// What is wrong there.
        says: String,
    },
    /// The built-in card of the operation has a slip: a fault of the program, told as such.
    #[error("a fault of this program in its own card `{word}`: {says}")]
    BuiltInCard {
        /// The operation's word.
        word: String,
        /// What is wrong there.
        says: String,
    },
}

impl Refusal {
    /// The same in the units of print.
    pub fn in_print(&self, print: Print) -> String {
        let shown = |number: f64, unit: Unit| {
            Shown::of(number, None, unit, (Decimals::AsTyped, Rounds::Nearest), print).to_string()
        };
        match self {
            Self::Outside { what, got, least, most, unit } if print != Print::Metric => {
                let [got, least, most] = [got, least, most].map(|number| shown(*number, *unit));
                format!("{what} {got} is outside {least} to {most}")
            }
            Self::Unread { what, size, doubt } if print != Print::Metric => {
                let [size, doubt] = [size, doubt].map(|number| shown(*number, Unit::Mm));
                format!(
                    "{what}: {size} ± {doubt} is no reading: measure it again and type it as fine as it was read, or type its ±"
                )
            }
            other => other.to_string(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_inch_shop_is_refused_in_inches() {
        let outside = Refusal::Outside { what: "clearance", got: 9.13262, least: -5.0, most: 5.0, unit: Unit::Mm };
        assert_eq!(outside.in_print(Print::Metric), "clearance 9.13262 mm is outside -5 to 5 mm");
        let inch = outside.in_print(Print::Imperial);
        assert!(inch.contains("0.3596 in") && !inch.contains("mm"), "{inch}");
        let unread = Refusal::Unread { what: "edge", size: 0.9, doubt: 0.5 };
        let inch = unread.in_print(Print::Imperial);
        assert!(inch.contains("0.0354 in ± 0.0197 in") && !inch.contains("mm"), "{inch}");
        let both = unread.in_print(Print::Both);
        assert!(both.contains("0.9 mm (0.0354 in)"), "{both}");
    }
}
