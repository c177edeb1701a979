//! The cards of a run: the built-in ones, and a shop's own copies beside its jobs, which win.

use crate::operations::{Card, Request};
use crate::proof::Refusal;
use crate::reading::Problem;
use std::collections::BTreeMap;

/// The words that every operation shares.
const COMMON: &str = include_str!("../../ops/common.yaml");

/// Cards by operation word.
#[derive(Clone, Debug)]
pub struct Cards {
    by_word: BTreeMap<String, Card>,
    common: Card,
    own: BTreeMap<String, Own>,
}

/// A shop's own copy of a card: where it lies and what it says, so that a slip can be pointed at.
#[derive(Clone, Debug)]
struct Own {
    path: String,
    text: String,
    /// Why it cannot be read, where it cannot.
    unread: Option<Problem>,
}

impl Cards {
    /// The built-in cards of some operations.
    ///
    /// # Errors
    /// The problems of a card.
    pub fn built_in<'a>(words: impl IntoIterator<Item = &'a str>) -> Result<Self, Vec<Problem>> {
        let mut by_word = BTreeMap::new();
        for word in words {
            if let Some(text) = Request::built_in_card(word) {
                by_word.insert(word.to_owned(), Card::read(text, u32::MAX)?);
            }
        }
        Ok(Self { by_word, common: Card::read(COMMON, u32::MAX)?, own: BTreeMap::new() })
    }

    /// Puts a shop's own copy in the place of a built-in card. One that cannot be read refuses its operation, not the job.
    pub fn put_own(&mut self, word: &str, path: String, text: String) {
        let read = Card::read(&text, 0).map(|card| self.by_word.insert(word.to_owned(), card));
        let unread = read.err().and_then(|problems| problems.into_iter().next());
        self.own.insert(word.to_owned(), Own { path, text, unread });
    }

    /// Why the shop's own card refuses its operation: it cannot be read, or a text of it cannot be filled.
    pub(super) fn refusal(&self, word: &str, slip: Option<&Problem>) -> Option<Refusal> {
        let own = self.own.get(word)?;
        let problem = own.unread.as_ref().or(slip)?;
        let line = problem.place.map_or_else(|| own.line_of(&problem.says), |place| place.line);
        Some(Refusal::Card { path: own.path.clone(), line, says: problem.says.clone() })
    }

    /// The card of an operation.
    pub fn of(&self, word: &str) -> &Card {
        self.by_word.get(word).unwrap_or(&self.common)
    }

    /// The card of what all operations share.
    pub fn common(&self) -> &Card {
        &self.common
    }
}

impl Own {
    /// The line that a message without a place speaks of: the first that holds one of the words that the message quotes.
    fn line_of(&self, says: &str) -> u32 {
        let quoted: Vec<&str> = says.split('`').skip(1).step_by(2).collect();
        let at = |word: &&str| self.text.lines().position(|line| line.contains(word.trim_end_matches('}')));
        quoted.iter().find_map(at).map_or(1, |line| u32::try_from(line + 1).unwrap_or(u32::MAX))
    }
}
