//! The name of a feature of a part: one bore, one face.

use schemars::JsonSchema;
use serde::Deserialize;
use std::cmp::Ordering;

/// A feature as somebody named it. Capitals, blanks, hyphens and plurals make no other feature: `Stud-holes` is `stud hole`.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(from = "String")]
#[schemars(with = "String")]
pub struct Feature {
    typed: String,
    key: String,
}

impl From<String> for Feature {
    fn from(typed: String) -> Self {
        let key = feature_key(&typed);
        Self { typed, key }
    }
}

impl PartialEq for Feature {
    fn eq(&self, other: &Self) -> bool {
        self.key == other.key
    }
}

impl Eq for Feature {}

impl PartialOrd for Feature {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Feature {
    fn cmp(&self, other: &Self) -> Ordering {
        self.key.cmp(&other.key)
    }
}

impl Feature {
    /// What it is known by: two names of one feature have the same.
    pub fn key(&self) -> &str {
        &self.key
    }

    /// As it was typed.
    pub fn typed(&self) -> &str {
        &self.typed
    }
}

/// What a feature of such a name is known by: neither capitals, blanks, hyphens, a "no." before a number nor a plural make another.
pub fn feature_key(typed: &str) -> String {
    let small = typed.to_lowercase();
    let words = small.split(|sign: char| !sign.is_alphanumeric()).filter(|word| !matches!(*word, "" | "no" | "nr"));
    words.map(singular).collect()
}

/// A word without the `s` of its plural.
fn singular(word: &str) -> &str {
    let is_plural = word.chars().count() > 3 && !word.ends_with("ss");
    word.strip_suffix('s').filter(|_| is_plural).unwrap_or(word)
}
