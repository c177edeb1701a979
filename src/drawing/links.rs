//! Links of a gap, the dearest first, and the gap that they leave.

use super::Bars;

/// The links.
#[derive(Clone, Debug, PartialEq)]
pub struct Links {
    /// What stands over the columns: the links, their sizes, their shares.
    pub captions: [String; 3],
    /// A row a link.
    pub rows: Vec<LinkRow>,
    /// What they leave, against what is wanted.
    pub closing: Bars,
}

/// One link.
#[derive(Clone, Debug, PartialEq)]
pub struct LinkRow {
    /// What it is.
    pub name: String,
    /// Its size with its sign, as it is written.
    pub size: String,
    /// Its share of the whole squared doubt, 0 to 1.
    pub share: f64,
    /// The same as it is written, or why it has none.
    pub says: String,
}
