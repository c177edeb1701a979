//! One input problem, ready for a mark under the value.

use crate::proof::Place;
use serde::de;
use std::fmt;

/// One input problem: where, what was read, what would be accepted.
#[derive(Clone, Debug, PartialEq)]
pub struct Problem {
    /// Where it stands; the innermost place wins.
    pub place: Option<Place>,
    /// What is wrong and what would be accepted.
    pub says: String,
    /// Whether a key is missing (and so may be only an echo of one that was struck out).
    pub(super) missing: bool,
}

impl Problem {
    /// A problem at a place.
    pub fn new(place: impl Into<Option<Place>>, says: impl Into<String>) -> Self {
        Self { place: place.into(), says: says.into(), missing: false }
    }

    /// The same problem with a place, unless it has one already.
    pub(super) fn at(self, place: Place) -> Self {
        Self { place: self.place.or(Some(place)), ..self }
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.says)
    }
}

impl std::error::Error for Problem {}

impl de::Error for Problem {
    fn custom<T: fmt::Display>(says: T) -> Self {
        Self::new(None, says.to_string())
    }

    fn invalid_type(got: de::Unexpected<'_>, wanted: &dyn de::Expected) -> Self {
        Self::new(None, format!("{} stands here; {wanted} is wanted", plain(got)))
    }

    fn missing_field(key: &'static str) -> Self {
        Self { missing: true, ..Self::new(None, format!("`{key}` is missing")) }
    }

    fn duplicate_field(key: &'static str) -> Self {
        Self::new(None, format!("`{key}` stands here twice"))
    }

    fn unknown_field(key: &str, known: &'static [&'static str]) -> Self {
        Self::new(None, format!("there is no key `{key}` here; {}", near(key, known.iter().copied())))
    }

    fn unknown_variant(word: &str, known: &'static [&'static str]) -> Self {
        Self::new(None, format!("`{word}` is not known here; {}", near(word, known.iter().copied())))
    }
}

fn plain(got: de::Unexpected<'_>) -> String {
    match got {
        de::Unexpected::Bool(truth) => format!("`{truth}`"),
        de::Unexpected::Signed(n) => format!("the bare number {n}"),
        de::Unexpected::Unsigned(n) => format!("the bare number {n}"),
        de::Unexpected::Float(x) => format!("the bare number {x}"),
        de::Unexpected::Str(text) => format!("the text `{text}`"),
        de::Unexpected::Unit => "nothing".into(),
        de::Unexpected::Seq => "a list".into(),
        de::Unexpected::Map => "a map of keys".into(),
        _ => "something else".into(),
    }
}

/// The nearest of the names known, or all of them where they are few.
pub fn near<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> String {
    let known: Vec<&str> = known.into_iter().collect();
    let folded = word.to_lowercase();
    let mut ranked: Vec<(f64, &str)> =
        known.iter().map(|name| (strsim::jaro_winkler(&folded, &name.to_lowercase()), *name)).collect();
    ranked.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
    ranked.dedup_by(|a, b| a.1.eq_ignore_ascii_case(b.1));
    let close: Vec<String> = ranked.iter().filter(|r| r.0 > 0.8).take(3).map(|r| format!("`{}`", r.1)).collect();
    match (close.is_empty(), known.len()) {
        (false, _) => format!("did you mean {}?", close.join(" or ")),
        (true, 0) => "nothing is known here".into(),
        (true, 1..=16) => format!("known here: {}", known.join(", ")),
        (true, _) => {
            let some: Vec<String> = ranked.iter().take(6).map(|r| format!("`{}`", r.1)).collect();
            format!("the nearest names are {}", some.join(", "))
        }
    }
}
