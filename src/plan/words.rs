//! The words of a card with the figures put in.

use crate::operations::Answer;
use crate::operations::card::{Texts, fill};
use crate::proof::{Fact, Words};
use crate::quantity::Print;
use crate::reading::Problem;
use std::cell::RefCell;

/// What the blanks of one operation's card are filled from.
#[derive(Clone, Copy)]
pub(super) struct Filler<'a> {
    /// The operation's word, for a message.
    pub word: &'a str,
    /// The answer with its values, choices and facts.
    pub answer: &'a Answer,
    /// The answer to ask when the first has no such name: the whole one, where the first is one of its alternatives.
    pub owner: &'a Answer,
    /// The names of the operation's own card and of the common one.
    pub names: [&'a Texts; 2],
    /// Units of print.
    pub print: Print,
}

impl Filler<'_> {
    /// A text of the card under an id, filled.
    ///
    /// # Errors
    /// A problem where the card has no such text, or a blank that nothing fills.
    pub(super) fn text(&self, section: &str, texts: &[&Texts], words: &Words) -> Result<String, Problem> {
        let text = texts.iter().find_map(|texts| texts.get(words.id)).ok_or_else(|| {
            Problem::new(None, format!("the card `{}` has no text `{}` under `{section}`", self.word, words.id))
        })?;
        self.fill(section, words.id, text, &words.facts)
    }

    /// A given text, filled.
    ///
    /// # Errors
    /// A problem for a blank that nothing fills.
    pub(super) fn fill(
        &self,
        section: &str,
        id: &str,
        text: &str,
        facts: &[(&'static str, Fact)],
    ) -> Result<String, Problem> {
        let slip = RefCell::new(None);
        let blank = |name: &str, digits| {
            self.blank(name, digits, facts).unwrap_or_else(|problem| {
                slip.replace(Some(problem));
                None
            })
        };
        let filled = fill(text, &blank);
        if let Some(problem) = slip.take() {
            return Err(problem);
        }
        filled.map_err(|blank| {
            let says = format!(
                "nothing fills the blank `{{{blank}}}` of `{id}` under `{section}` in the card `{}`",
                self.word
            );
            Problem::new(None, says)
        })
    }

    /// A fact in words: names are those of the card, which fill their own blanks.
    ///
    /// # Errors
    /// As [`Self::text`].
    pub(super) fn said(&self, fact: &Fact, digits: Option<usize>) -> Result<String, Problem> {
        Ok(fact.in_words(&|words| self.name(words))?.said(digits, self.print))
    }

    /// A name: the card's, or one that was typed or is a figure.
    ///
    /// # Errors
    /// As [`Self::text`].
    pub(super) fn name(&self, words: &Words) -> Result<String, Problem> {
        match words.as_fact() {
            Some(fact) => self.said(fact, None),
            None => self.text("names", &self.names, words),
        }
    }

    fn blank(
        &self,
        name: &str,
        digits: Option<usize>,
        facts: &[(&'static str, Fact)],
    ) -> Result<Option<String>, Problem> {
        let of = |facts: &[(&'static str, Fact)]| facts.iter().find(|fact| fact.0 == name).map(|fact| fact.1.clone());
        let fact = of(facts).or_else(|| from(self.answer, name, digits));
        let fact = fact.or_else(|| from(self.owner, name, digits));
        fact.map(|fact| self.said(&fact, digits)).transpose()
    }
}

/// What an answer has under a name: a fact, a choice, a value.
fn from(answer: &Answer, name: &str, digits: Option<usize>) -> Option<Fact> {
    let fact = answer.facts.iter().find(|fact| fact.0 == name).map(|fact| fact.1.clone());
    let choice = || answer.choices.iter().find(|choice| choice.name == name).map(|choice| choice.chosen.clone().into());
    let value = || {
        let value = answer.value(name)?;
        // Who asks for so many decimals wants the size to set, not its doubt.
        Some(match digits {
            Some(_) => Fact::figure(value.number, value.unit).rounded(value.rounds),
            None => value.fact(),
        })
    };
    fact.or_else(choice).or_else(value)
}
