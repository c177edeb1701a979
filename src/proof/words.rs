//! A text by its id, with the figures for its blanks: the words themselves stand in the operation's card.

use super::Dialled;
use crate::quantity::{Decimals, Print, Rounds, Shown, Unit};

/// Words and figures for the blanks of a card.
pub type Facts = Vec<(&'static str, Fact)>;

/// Where in a card a text stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Section {
    /// What a check asks.
    Asks,
    /// The name of a check that was not made: no text of the card, its id in words.
    Unmade,
    /// What a check is called under a stamp.
    Called,
    /// What would mend a check.
    Remedy,
    /// What would mend it, with the figure that it gives.
    Remedies,
    /// Reasons for a choice, or against an alternative.
    Reasons,
    /// What is assumed.
    Assumed,
    /// What the shop lacks.
    Missing,
    /// Cautions.
    Cautions,
    /// Titles of set-ups.
    SetUps,
    /// Holding and truing.
    Hold,
    /// Steps.
    Steps,
    /// Labels of blanks.
    Blanks,
    /// Names of tools, holds, settings.
    Names,
}

impl Section {
    /// As the card names it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Asks | Self::Unmade | Self::Called | Self::Remedy => "checks",
            Self::Remedies => "remedies",
            Self::Reasons => "reasons",
            Self::Assumed => "assumed",
            Self::Missing => "missing",
            Self::Cautions => "cautions",
            Self::SetUps => "set-ups",
            Self::Hold => "hold",
            Self::Steps => "steps",
            Self::Blanks => "blanks",
            Self::Names => "names",
        }
    }
}

/// Who puts other words in the place of an answer's words: the plan, from the cards.
pub trait Speak<W> {
    /// The other words.
    type Said;
    /// Why that cannot be.
    type Slip;

    /// The other words of a text; `beside` are facts for its blanks beside its own.
    ///
    /// # Errors
    /// Where there are no other words.
    fn say(&self, section: Section, words: &W, beside: &[(&'static str, Fact)]) -> Result<Self::Said, Self::Slip>;

    /// The other words of several texts.
    ///
    /// # Errors
    /// As [`Self::say`].
    fn say_all(&self, section: Section, all: &[W]) -> Result<Vec<Self::Said>, Self::Slip> {
        try_each(all, |words| self.say(section, words, &[]))
    }
}

/// Makes something of each, and stops at the first of which nothing can be made: room is taken once, which a list that is gathered out of
/// results does not know to do.
pub(crate) fn try_each<'a, T, R, E>(all: &'a [T], make: impl Fn(&'a T) -> Result<R, E>) -> Result<Vec<R>, E> {
    let mut made = Vec::with_capacity(all.len());
    for one in all {
        made.push(make(one)?);
    }
    Ok(made)
}

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
    /// How far two figures are apart.
    Apart {
        /// The number, in `unit`.
        number: f64,
        /// The unit that it is held in.
        unit: Unit,
        /// Its decimals in that unit.
        decimals: Decimals,
        /// Which way it is rounded.
        rounds: Rounds,
    },
    /// What a dial reads.
    Dial(Dialled),
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
    pub(crate) fn in_words<E>(&self, name: &dyn Fn(&Words) -> Result<String, E>) -> Result<Self, E> {
        let each = |facts: &[Self]| facts.iter().map(|fact| fact.in_words(name)).collect::<Result<Vec<_>, E>>();
        Ok(match self {
            Self::Named(words) => Self::Text(name(words)?),
            Self::Joined(facts) => Self::Joined(each(facts)?),
            Self::Series(facts, between) => Self::Series(each(facts)?, between),
            Self::Span(low, high) => Self::span(low.in_words(name)?, high.in_words(name)?),
            Self::Text(_) | Self::Figure { .. } | Self::Apart { .. } | Self::Dial(_) => self.clone(),
        })
    }

    /// Its number, where it is a figure.
    pub const fn number(&self) -> Option<f64> {
        match self {
            Self::Figure { number, .. } => Some(*number),
            _ => None,
        }
    }

    /// A length in mm.
    pub const fn mm(number: f64) -> Self {
        Self::figure(number, Unit::Mm)
    }

    /// A figure with its doubt (k = 2); one whose doubt is nought has none, and may be a limit.
    pub const fn doubted(number: f64, doubt: f64, unit: Unit) -> Self {
        let doubt = if doubt > 0.0 { Some(doubt) } else { None };
        Self::Figure { number, doubt, unit, decimals: Decimals::Usual, rounds: Rounds::Nearest }
    }

    /// The same figure with other decimals in its own unit.
    pub fn to(self, wanted: Decimals) -> Self {
        match self {
            Self::Figure { number, doubt, unit, rounds, .. } => {
                Self::Figure { number, doubt, unit, decimals: wanted, rounds }
            }
            Self::Apart { number, unit, rounds, .. } => Self::Apart { number, unit, decimals: wanted, rounds },
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

    /// How far two figures are apart, rounded up.
    pub const fn apart(number: f64, unit: Unit) -> Self {
        Self::Apart { number, unit, decimals: Decimals::Usual, rounds: Rounds::Up }
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
            Self::Joined(facts) => facts.iter().map(|fact| fact.said(digits, print)).collect(),
            Self::Series(facts, between) => {
                let figures: Option<Vec<Shown>> = facts.iter().map(|fact| fact.shown(digits, print)).collect();
                let said: Vec<String> = match figures {
                    Some(figures) => unit_once(figures, print).iter().map(ToString::to_string).collect(),
                    None => facts.iter().map(|fact| fact.said(digits, print)).collect(),
                };
                said.join(between)
            }
            Self::Span(low, high) => match Self::span_shown(low, high, digits, print).as_slice() {
                [low, high] => format!("{low} to {high}"),
                _ => format!("{} to {}", low.said(digits, print), high.said(digits, print)),
            },
            Self::Dial(dialled) => dialled.said(print),
            Self::Figure { .. } | Self::Apart { .. } => {
                self.shown(digits, print).map_or_else(String::new, |shown| shown.to_string())
            }
        }
    }

    /// A figure with its parts apart; nothing where it is none.
    pub fn shown(&self, digits: Option<usize>, print: Print) -> Option<Shown> {
        match self {
            Self::Figure { number, doubt, unit, decimals, rounds } => {
                let decimals = digits.map_or(*decimals, Decimals::Exactly);
                Some(match (doubt, decimals) {
                    (None, Decimals::AsTyped) => Shown::typed(*number, *unit, *rounds, print),
                    _ => Shown::of(*number, *doubt, *unit, (decimals, *rounds), print),
                })
            }
            Self::Apart { number, unit, decimals, rounds } => {
                Some(Shown::apart(*number, *unit, (*decimals, *rounds), print))
            }
            _ => None,
        }
    }

    /// The two ends of a span with their parts apart, those of a window rounded inward; nothing where they are no figures.
    pub(crate) fn span_shown(low: &Self, high: &Self, digits: Option<usize>, print: Print) -> Vec<Shown> {
        let ends = match (low, high) {
            (
                Self::Figure { number: low, doubt: None, unit, decimals, .. },
                Self::Figure { number: high, doubt: None, unit: other, .. },
            ) if unit == other && *decimals != Decimals::AsTyped => {
                let decimals = digits.map_or(*decimals, Decimals::Exactly);
                Some(Shown::window(*low, *high, *unit, decimals, print))
            }
            (low, high) => low.shown(digits, print).zip(high.shown(digits, print)),
        };
        ends.map_or_else(Vec::new, |(low, high)| unit_once(vec![low, high], print))
    }
}

/// Figures in a row: where one unit of print is printed, those in the unit of the last leave it to that.
fn unit_once(mut figures: Vec<Shown>, print: Print) -> Vec<Shown> {
    if let Some((last, others)) = figures.split_last_mut().filter(|_| print != Print::Both) {
        others.iter_mut().filter(|other| other.unit == last.unit).for_each(|other| other.unit = "");
    }
    figures
}

impl From<&str> for Fact {
    fn from(text: &str) -> Self {
        Self::Text(text.into())
    }
}

impl From<Fact> for Words {
    /// A name of the card is its text; what was typed, or is a figure, stands for itself.
    fn from(fact: Fact) -> Self {
        match fact {
            Fact::Named(words) => words,
            fact => Self { id: ITSELF, facts: vec![(ITSELF, fact)] },
        }
    }
}

/// The id of words that stand for themselves: no text of a card.
const ITSELF: &str = "";

impl From<Words> for Fact {
    fn from(words: Words) -> Self {
        Self::Named(words)
    }
}

impl From<Dialled> for Fact {
    fn from(dialled: Dialled) -> Self {
        Self::Dial(dialled)
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
    /// The fact that they stand for, where they are no text of a card.
    pub(crate) fn as_fact(&self) -> Option<&Fact> {
        self.facts.first().filter(|_| self.id == ITSELF).map(|fact| &fact.1)
    }

    /// A text by its id.
    pub const fn of(id: &'static str) -> Self {
        Self { id, facts: Vec::new() }
    }

    /// The same text with words or a figure for a blank.
    pub fn with(mut self, name: &'static str, fact: impl Into<Fact>) -> Self {
        // Most texts have one blank or two, and there are many texts.
        self.facts.reserve_exact(1);
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
        assert_eq!(span.said(Some(4), Print::Imperial), "0.5000 to 1.0000 in");
        assert_eq!(span.said(None, Print::Both), "12.700 mm (0.5000 in) to 25.400 mm (1.0000 in)");
        assert_eq!(Fact::mm(0.2).to(Decimals::AsTyped).plus_minus().said(None, Print::Metric), "± 0.2 mm");
    }

    /// A limit that is worked with and has no doubt is rounded inward as any other: 25 mm is 0.98425 in.
    #[test]
    fn a_span_of_figures_whose_doubt_is_nought_is_rounded_inward() {
        let end = |number| Fact::doubted(number, 0.0, Unit::Mm);
        assert_eq!(Fact::span(end(24.873), end(25.0)).said(None, Print::Imperial), "0.9793 to 0.9842 in");
    }
}
