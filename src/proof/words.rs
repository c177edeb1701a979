//! A text by its id, with the figures for its blanks: the words themselves stand in the operation's card.

use crate::quantity::{Decimals, Print, Rounds, Unit, shown_to, shown_window};

/// Words and figures for the blanks of a card.
pub type Facts = Vec<(&'static str, Fact)>;

/// What goes into a blank. A figure keeps its unit until it is printed: only then is the shop's unit known.
#[derive(Clone, Debug, PartialEq)]
pub enum Fact {
    /// Words.
    Text(String),
    /// A figure.
    Figure {
        /// The number, in `unit`.
        number: f64,
        /// Its doubt (k = 2), where it is to be shown.
        doubt: Option<f64>,
        /// The unit that it is held in.
        unit: Unit,
        /// Its decimals in that unit; other units of print have the usual ones.
        decimals: Decimals,
        /// Which way it is rounded: a limit inward.
        rounds: Rounds,
    },
    /// Words and figures one after the other.
    Joined(Vec<Fact>),
    /// Several with the same words between them; figures in one unit say it once.
    Series(Vec<Fact>, &'static str),
    /// From one to the other: two figures in one unit are a window, rounded inward, and say their unit once.
    Span(Box<Fact>, Box<Fact>),
    /// A name that the card has under `names`, with figures for its own blanks.
    Named(Words),
}

impl Fact {
    /// A figure with the usual decimals of its unit.
    pub const fn figure(number: f64, unit: Unit) -> Self {
        Self::Figure { number, doubt: None, unit, decimals: Decimals::Usual, rounds: Rounds::Nearest }
    }

    /// A name of the card, by its id.
    pub const fn named(id: &'static str) -> Self {
        Self::Named(Words::of(id))
    }

    /// The same with every name put into words.
    ///
    /// # Errors
    /// What `name` says of a name that it has no words for.
    pub fn in_words<E>(&self, name: &dyn Fn(&Words) -> Result<String, E>) -> Result<Self, E> {
        let each = |facts: &[Self]| facts.iter().map(|fact| fact.in_words(name)).collect::<Result<Vec<_>, E>>();
        Ok(match self {
            Self::Named(words) => Self::Text(name(words)?),
            Self::Joined(facts) => Self::Joined(each(facts)?),
            Self::Series(facts, between) => Self::Series(each(facts)?, between),
            Self::Span(low, high) => Self::span(low.in_words(name)?, high.in_words(name)?),
            Self::Text(_) | Self::Figure { .. } => self.clone(),
        })
    }

    /// A length in mm.
    pub const fn mm(number: f64) -> Self {
        Self::figure(number, Unit::Mm)
    }

    /// A figure with its doubt (k = 2).
    pub const fn doubted(number: f64, doubt: f64, unit: Unit) -> Self {
        Self::Figure { number, doubt: Some(doubt), unit, decimals: Decimals::Usual, rounds: Rounds::Nearest }
    }

    /// The same figure with other decimals in its own unit.
    pub fn to(self, wanted: Decimals) -> Self {
        match self {
            Self::Figure { number, doubt, unit, rounds, .. } => {
                Self::Figure { number, doubt, unit, decimals: wanted, rounds }
            }
            other => other,
        }
    }

    /// The same figure rounded another way: a lower limit up, an upper one down.
    pub fn rounded(self, rounds: Rounds) -> Self {
        match self {
            Self::Figure { number, doubt, unit, decimals, .. } => {
                Self::Figure { number, doubt, unit, decimals, rounds }
            }
            other => other,
        }
    }

    /// From one to the other.
    pub fn span(low: Self, high: Self) -> Self {
        Self::Span(Box::new(low), Box::new(high))
    }

    /// So much to either side.
    pub fn plus_minus(self) -> Self {
        Self::Joined(vec!["± ".into(), self])
    }

    /// In the units of print; `digits` are the decimals that a card asks for in the figure's own unit. A name without its words
    /// says its id ([`Self::in_words`]).
    pub fn said(&self, digits: Option<usize>, print: Print) -> String {
        match self {
            Self::Text(text) => text.clone(),
            Self::Named(words) => words.id.into(),
            Self::Figure { number, doubt, unit, decimals, rounds } => {
                let decimals = digits.map_or(*decimals, Decimals::Exactly);
                shown_to(*number, *doubt, *unit, (decimals, *rounds), print)
            }
            Self::Joined(facts) => facts.iter().map(|fact| fact.said(digits, print)).collect(),
            Self::Series(facts, between) => {
                let mut said: Vec<String> = facts.iter().map(|fact| fact.said(digits, print)).collect();
                let figures = facts.iter().all(|fact| matches!(fact, Self::Figure { .. }));
                if let Some((last, others)) = said.split_last_mut().filter(|_| figures && print != Print::Both) {
                    others.iter_mut().for_each(|other| *other = without_unit_of(other, last).to_owned());
                }
                said.join(between)
            }
            Self::Span(low, high) => {
                let (low, high) = match (low.as_ref(), high.as_ref()) {
                    (
                        Self::Figure { number: low, doubt: None, unit, decimals, .. },
                        Self::Figure { number: high, doubt: None, unit: other, .. },
                    ) if unit == other && *decimals != Decimals::AsTyped => {
                        let decimals = digits.map_or(*decimals, Decimals::Exactly);
                        shown_window(*low, *high, *unit, decimals, print)
                    }
                    (low, high) => (low.said(digits, print), high.said(digits, print)),
                };
                format!("{} to {high}", if print == Print::Both { &low } else { without_unit_of(&low, &high) })
            }
        }
    }
}

/// The first without its last word, where that is the second's: a unit said once.
fn without_unit_of<'a>(low: &'a str, high: &str) -> &'a str {
    let unit = high.rfind(' ').and_then(|at| high.get(at..));
    unit.and_then(|unit| low.strip_suffix(unit)).unwrap_or(low)
}

impl From<&str> for Fact {
    fn from(text: &str) -> Self {
        Self::Text(text.into())
    }
}

impl From<Words> for Fact {
    fn from(words: Words) -> Self {
        Self::Named(words)
    }
}

impl From<String> for Fact {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<&String> for Fact {
    fn from(text: &String) -> Self {
        Self::Text(text.clone())
    }
}

/// A text of a card by its id, with the figures for its blanks.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Words {
    /// Its id in the card.
    pub id: &'static str,
    /// What goes into its blanks.
    pub facts: Facts,
}

impl Words {
    /// A text by its id.
    pub const fn of(id: &'static str) -> Self {
        Self { id, facts: Vec::new() }
    }

    /// The same text with words or a figure for a blank.
    pub fn with(mut self, name: &'static str, fact: impl Into<Fact>) -> Self {
        self.facts.push((name, fact.into()));
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_span_says_its_unit_once_where_one_is_printed() {
        let span = Fact::span(Fact::mm(12.7), Fact::mm(25.4));
        assert_eq!(span.said(None, Print::Metric), "12.700 to 25.400 mm");
        assert_eq!(span.said(Some(4), Print::Imperial), "0.50000 to 1.00000 in");
        assert_eq!(span.said(None, Print::Both), "12.700 mm (0.50000 in) to 25.400 mm (1.00000 in)");
        assert_eq!(Fact::mm(0.2).to(Decimals::AsTyped).plus_minus().said(None, Print::Metric), "± 0.2 mm");
    }
}
