//! A text by its id, with the figures for its blanks: the words themselves stand in the operation's card.

/// Words and figures for the blanks of a card.
pub type Facts = Vec<(&'static str, String)>;

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

    /// The same text with a figure for a blank.
    pub fn with(mut self, name: &'static str, text: impl Into<String>) -> Self {
        self.facts.push((name, text.into()));
        self
    }
}
