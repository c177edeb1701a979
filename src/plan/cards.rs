//! The cards of a run: the built-in ones, and a shop's own copies beside its jobs, which win.

use crate::operations::{Card, Request};
use crate::reading::Problem;
use std::collections::BTreeMap;

/// The words that every operation shares.
const COMMON: &str = include_str!("../../ops/common.yaml");

/// Cards by operation word.
#[derive(Clone, Debug)]
pub struct Cards {
    by_word: BTreeMap<String, Card>,
    common: Card,
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
        Ok(Self { by_word, common: Card::read(COMMON, u32::MAX)? })
    }

    /// Puts a shop's own copy in the place of a built-in card.
    pub fn replace(&mut self, card: Card) {
        self.by_word.insert(card.operation.clone(), card);
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
