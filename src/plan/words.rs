//! The words of a card with the figures put in.

use crate::operations::Answer;
use crate::operations::card::fill;
use crate::proof::{Fact, Words};
use crate::quantity::Print;
use crate::reading::Problem;

/// What the blanks of one operation's card are filled from.
#[derive(Clone, Copy)]
pub(super) struct Filler<'a> {
    /// The operation's word, for a message.
    pub word: &'a str,
    /// The answer with its values, choices and facts.
    pub answer: &'a Answer,
    /// The answer to ask when the first has no such name: the whole one, where the first is one of its alternatives.
    pub owner: &'a Answer,
    /// Units of print.
    pub print: Print,
}

impl Filler<'_> {
    /// A text of the card under an id, filled.
    ///
    /// # Errors
    /// A problem where the card has no such text, or a blank that nothing fills.
    pub fn text(
        &self,
        section: &str,
        texts: &[&crate::operations::card::Texts],
        words: &Words,
    ) -> Result<String, Problem> {
        let text = texts.iter().find_map(|texts| texts.get(words.id)).ok_or_else(|| {
            Problem::new(None, format!("the card `{}` has no text `{}` under `{section}`", self.word, words.id))
        })?;
        self.fill(section, words.id, text, &words.facts)
    }

    /// A given text, filled.
    ///
    /// # Errors
    /// A problem for a blank that nothing fills.
    pub fn fill(&self, section: &str, id: &str, text: &str, facts: &[(&'static str, Fact)]) -> Result<String, Problem> {
        fill(text, &|name, digits| self.blank(name, digits, facts)).map_err(|blank| {
            let says = format!(
                "nothing fills the blank `{{{blank}}}` of `{id}` under `{section}` in the card `{}`",
                self.word
            );
            Problem::new(None, says)
        })
    }

    fn blank(&self, name: &str, digits: Option<usize>, facts: &[(&'static str, Fact)]) -> Option<String> {
        let own = facts.iter().find(|fact| fact.0 == name).map(|fact| fact.1.said(digits, self.print));
        own.or_else(|| self.from(self.answer, name, digits)).or_else(|| self.from(self.owner, name, digits))
    }

    fn from(&self, answer: &Answer, name: &str, digits: Option<usize>) -> Option<String> {
        let fact = answer.facts.iter().find(|fact| fact.0 == name).map(|fact| fact.1.said(digits, self.print));
        let choice = || answer.choices.iter().find(|choice| choice.name == name).map(|choice| choice.chosen.clone());
        let value = || {
            let value = answer.value(name)?;
            // Who asks for so many decimals wants the size to set, not its doubt.
            let fact = if digits.is_some() {
                Fact::figure(value.number, value.unit).rounded(value.rounds)
            } else {
                value.fact()
            };
            Some(fact.said(digits, self.print))
        };
        fact.or_else(choice).or_else(value)
    }
}
