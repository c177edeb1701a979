//! A text by its id, with the figures for its blanks: the words themselves stand in the operation's card.

use crate::quantity::{Decimals, Print, Unit, shown_to};

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
    },
    /// Words and figures one after the other.
    Joined(Vec<Fact>),
}

impl Fact {
    /// A figure with the usual decimals of its unit.
    pub const fn figure(number: f64, unit: Unit) -> Self {
        Self::Figure { number, doubt: None, unit, decimals: Decimals::Usual }
    }

    /// A length in mm.
    pub const fn mm(number: f64) -> Self {
        Self::figure(number, Unit::Mm)
    }

    /// A figure with its doubt (k = 2).
    pub const fn doubted(number: f64, doubt: f64, unit: Unit) -> Self {
        Self::Figure { number, doubt: Some(doubt), unit, decimals: Decimals::Usual }
    }

    /// The same figure with other decimals in its own unit.
    pub fn to(self, wanted: Decimals) -> Self {
        match self {
            Self::Figure { number, doubt, unit, .. } => Self::Figure { number, doubt, unit, decimals: wanted },
            other => other,
        }
    }

    /// From one to the other.
    pub fn span(low: Self, high: Self) -> Self {
        Self::Joined(vec![low, " to ".into(), high])
    }

    /// So much to either side.
    pub fn plus_minus(self) -> Self {
        Self::Joined(vec!["± ".into(), self])
    }

    /// Several with words between them.
    pub fn list(facts: impl IntoIterator<Item = Self>, between: &str) -> Self {
        let mut all = Vec::new();
        for fact in facts {
            if !all.is_empty() {
                all.push(between.into());
            }
            all.push(fact);
        }
        Self::Joined(all)
    }

    /// In the units of print; `digits` are the decimals that a card asks for in the figure's own unit.
    pub fn said(&self, digits: Option<usize>, print: Print) -> String {
        match self {
            Self::Text(text) => text.clone(),
            Self::Figure { number, doubt, unit, decimals } => {
                let decimals = digits.map_or(*decimals, Decimals::Exactly);
                shown_to(*number, *doubt, *unit, decimals, print)
            }
            Self::Joined(facts) => facts.iter().map(|fact| fact.said(digits, print)).collect(),
        }
    }
}

impl From<&str> for Fact {
    fn from(text: &str) -> Self {
        Self::Text(text.into())
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
