//! The operation card: the words of an operation. Words live there, arithmetic here.

mod lines;

use crate::handbook::Quick;
use crate::proof::Place;
use crate::reading::{Node, Problem};
use serde::Deserialize;
use std::borrow::Cow;
use std::collections::HashMap;
use std::hash::BuildHasherDefault;

/// A text of a card: of one that is built in it is never copied.
pub type Text = Cow<'static, str>;

/// What stands under an id.
type ById<T> = HashMap<Text, T, BuildHasherDefault<Quick>>;

/// A list of texts by id.
pub type Texts = ById<Text>;

/// The words of an operation. Blanks are `{name}` of a value, a choice, a key or a fact, with `{name:2}` for two decimals;
/// nothing else: a card that needs an `if` is two steps.
#[derive(Clone, Debug, Default, Deserialize, PartialEq)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Card {
    /// The operation's word.
    pub operation: Text,
    /// Its title on a sheet.
    pub title: Text,
    /// What it does, in a sentence or two.
    pub does: Text,
    /// Titles of its set-ups by id.
    #[serde(default)]
    pub set_ups: Texts,
    /// Words of each step by id.
    #[serde(default)]
    pub steps: Texts,
    /// Words of the holding by id.
    #[serde(default)]
    pub hold: Texts,
    /// What each check asks, and its remedy.
    #[serde(default)]
    pub checks: ById<CheckWords>,
    /// Remedies with the figure that each gives, by id.
    #[serde(default)]
    pub remedies: Texts,
    /// Reasons for a choice, or against a alternative, by id.
    #[serde(default)]
    pub reasons: Texts,
    /// What is assumed, by id.
    #[serde(default)]
    pub assumed: Texts,
    /// Names of holds, tools, dials and settings, by id: what other texts put into their blanks.
    #[serde(default)]
    pub names: Texts,
    /// What the shop lacks, by id.
    #[serde(default)]
    pub missing: Texts,
    /// Cautions by id.
    #[serde(default)]
    pub cautions: Texts,
    /// Labels of blanks by id.
    #[serde(default)]
    pub blanks: Texts,
    /// Labels in the sketch by id.
    #[serde(default)]
    pub labels: Texts,
    /// The question that asks for each key.
    #[serde(default)]
    pub questions: Texts,
}

/// What a check asks, and what would mend it.
#[derive(Clone, Debug, Deserialize, PartialEq)]
#[serde(deny_unknown_fields)]
pub struct CheckWords {
    /// What it asks.
    pub asks: Text,
    /// What would mend it, where it does not hold.
    pub remedy: Text,
    /// What it is called under a stamp; left out, its id.
    pub stamp: Option<Text>,
}

impl Card {
    /// Reads a card.
    ///
    /// # Errors
    /// Every problem of the card, at its place.
    pub fn read(text: &str, source: u32) -> Result<Self, Vec<Problem>> {
        Node::yaml(text, Place::start(source)).map_err(|problem| vec![problem])?.read()
    }

    /// Reads a built-in card. Those are written line by line, and are so read a hundred times as fast; one that is not is read as
    /// any other.
    ///
    /// # Errors
    /// As [`Self::read`].
    pub(crate) fn built_in(text: &'static str) -> Result<Self, Vec<Problem>> {
        lines::card(text).map_or_else(|| Self::read(text, u32::MAX), Ok)
    }
}

/// Fills the blanks of a text; a blank that nothing fills is an error with its name.
///
/// # Errors
/// The name of the first blank that `fill` does not know, or that is not closed.
pub(crate) fn fill(text: &str, fill: &dyn Fn(&str, Option<usize>) -> Option<String>) -> Result<String, String> {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        out += before;
        let (blank, tail) = after.split_once('}').ok_or_else(|| after.to_owned())?;
        let (name, digits) = blank.split_once(':').map_or((blank, None), |(name, digits)| (name, digits.parse().ok()));
        out += &fill(name, digits).ok_or_else(|| name.to_owned())?;
        rest = tail;
    }
    Ok(out + rest)
}
