//! One input problem, ready for a mark under the value.

use super::elsewhere::{called_elsewhere, of_holds};
use crate::in_order::InOrder;
use crate::proof::Place;
use crate::quantity::{Print, in_inches, with_inch};
use serde::de;
use std::borrow::Cow;
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
    /// Whether it tells sizes that nobody typed so: they are shown in the units of the shop.
    pub(super) sizes: bool,
    /// The key of an operation that is missing.
    pub(super) lacks: Option<Box<Lacks>>,
}

/// A key of an operation that is missing.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Lacks {
    /// The operation's word.
    pub word: String,
    /// The key, nested ones after a dot.
    pub key: String,
    /// How its example is told.
    pub as_in: String,
}

impl Problem {
    /// A problem at a place.
    pub fn new(place: impl Into<Option<Place>>, says: impl Into<String>) -> Self {
        Self { place: place.into(), says: says.into(), missing: false, sizes: false, lacks: None }
    }

    /// One that tells sizes which nobody typed so, in metric units: the shop sees them in its own.
    pub fn of_sizes(place: impl Into<Option<Place>>, says: impl Into<String>) -> Self {
        Self { sizes: true, ..Self::new(place, says) }
    }

    /// The same in the units of print.
    pub fn in_print(self, print: Print) -> Self {
        match (self.sizes, print) {
            (true, Print::Imperial) => Self { says: in_inches(&self.says), ..self },
            (true, Print::Both) => Self { says: with_inch(&self.says), ..self },
            _ => self,
        }
    }

    /// Whether it is only that a key is missing.
    pub fn is_missing(&self) -> bool {
        self.missing
    }

    /// A key that must be given and is not, with what is told of it.
    pub(super) fn missing(place: Place, key: &str, told: &str) -> Self {
        Self { missing: true, ..Self::new(place, format!("`{key}` is missing{told}")) }
    }

    /// The same where what must be given is one of several keys; `told` says which.
    pub(crate) fn lacking(place: impl Into<Option<Place>>, key: &str, told: &str) -> Self {
        Self { missing: true, ..Self::new(place, format!("`{key}` is missing{told}")) }
    }

    /// Something else stands where keys do: which.
    pub(super) fn keys_wanted(got: de::Unexpected<'_>, keys: &[&str]) -> Self {
        /// So many are named.
        const NAMED: usize = 6;
        let more = if keys.len() > NAMED { ", …" } else { "" };
        let named: Vec<String> = keys.iter().take(NAMED).map(|key| format!("`{key}: …`")).collect();
        Self::new(None, format!("{} stands here; keys are wanted: {}{more}", plain(got), named.join(", ")))
    }

    /// Whether a list is wanted.
    pub(super) fn is_list(wanted: &dyn de::Expected) -> bool {
        in_trade_words(&wanted.to_string()) == "a list"
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
        let wanted = in_trade_words(&wanted.to_string());
        if let (de::Unexpected::Str(text), "a list") = (got, wanted.as_str()) {
            let says = format!("the text `{text}` stands here; a list is wanted, in brackets: `[{text}]`");
            return Self::new(None, says);
        }
        Self::new(None, format!("{} stands here; {wanted} is wanted", plain(got)))
    }

    fn invalid_value(got: de::Unexpected<'_>, wanted: &dyn de::Expected) -> Self {
        Self::invalid_type(got, wanted)
    }

    fn invalid_length(count: usize, wanted: &dyn de::Expected) -> Self {
        Self::new(None, format!("{count} items stand here; {} is wanted", in_trade_words(&wanted.to_string())))
    }

    fn missing_field(key: &'static str) -> Self {
        Self { missing: true, ..Self::new(None, format!("`{key}` is missing")) }
    }

    fn duplicate_field(key: &'static str) -> Self {
        Self::new(None, format!("`{key}` stands here twice"))
    }

    fn unknown_field(key: &str, known: &'static [&'static str]) -> Self {
        let folded = key.trim().to_lowercase().replace([' ', '_'], "-");
        if known.contains(&folded.as_str()) {
            return Self::new(None, format!("the key `{key}` is written `{folded}`"));
        }
        if let Some(ours) = called_elsewhere(key, known) {
            return Self::new(None, format!("what is called `{key}` elsewhere is `{ours}` here"));
        }
        Self::new(None, format!("there is no key `{key}` here; {}", near(key, known.iter().copied())))
    }

    fn unknown_variant(word: &str, known: &'static [&'static str]) -> Self {
        if let Some(ours) = called_elsewhere(word, known) {
            return Self::new(None, format!("what is called `{word}` elsewhere is `{ours}` here"));
        }
        let near = near(word, known.iter().copied());
        let told = of_holds(word, &near, known).unwrap_or(near);
        Self::new(None, format!("`{word}` is not known here; {told}"))
    }
}

/// What the reader of the types wants, in words that need no programmer.
fn in_trade_words(wanted: &str) -> String {
    let first = wanted.split_whitespace().next().unwrap_or_default();
    let whole = ["u8", "u16", "u32", "u64", "usize", "i8", "i16", "i32", "i64", "isize"];
    match (first, wanted) {
        (
            _,
            "a string" | "a borrowed string" | "a character" | "identifier" | "field identifier" | "variant identifier",
        ) => "a text".into(),
        (_, "a boolean") => "`yes` or `no`".into(),
        (_, "unit" | "Option value" | "any value") => "a value".into(),
        ("f32" | "f64", _) => "a number".into(),
        (word, _) if whole.contains(&word) => "a whole number".into(),
        ("a", "a sequence") => "a list".into(),
        ("struct" | "map" | "internally" | "enum" | "variant" | "unit", _) | (_, "a map") => "a block of keys".into(),
        ("newtype", _) => "one value".into(),
        ("tuple", _) => "a list".into(),
        _ if wanted.starts_with("a tuple") || wanted.starts_with("an array") => "a list".into(),
        _ => wanted.into(),
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
        de::Unexpected::Map => "a block of keys".into(),
        _ => "something else".into(),
    }
}

/// The nearest of the names known, or all of them where they are few.
pub fn near<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> String {
    nearest(word, known.into_iter().collect())
}

fn nearest(word: &str, known: Vec<&str>) -> String {
    let folded = word.to_lowercase();
    // What shares a few letters by chance is no help.
    let letters = letters(&folded);
    let ranked = known.iter().filter(|name| may_be_near(&folded, &letters, name));
    let ranked = ranked.map(|name| (strsim::jaro_winkler(&folded, &small(name)), *name));
    let mut ranked: Vec<(f64, &str)> = ranked.filter(|(near, _)| *near > 0.6).collect();
    ranked.order_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
    ranked.dedup_by(|a, b| a.1.eq_ignore_ascii_case(b.1));
    let close: Vec<String> = ranked.iter().filter(|r| r.0 > 0.8).take(3).map(|r| format!("`{}`", r.1)).collect();
    match (close.is_empty(), known.len()) {
        (false, _) => format!("did you mean {}?", close.join(" or ")),
        (true, 0) => "nothing is known here".into(),
        (true, 1..=16) => {
            let mut once: Vec<&str> = Vec::new();
            for word in known {
                if !once.iter().any(|other| other.eq_ignore_ascii_case(word)) {
                    once.push(word);
                }
            }
            format!("known here: {}", once.join(", "))
        }
        (true, _) => {
            let some: Vec<String> = ranked.iter().take(6).map(|r| format!("`{}`", r.1)).collect();
            match some.is_empty() {
                true => "no name comes near it".into(),
                false => format!("the nearest names are {}", some.join(", ")),
            }
        }
    }
}

/// How often each letter stands in a text, whatever its case.
fn letters(text: &str) -> [u32; 128] {
    let mut all = [0_u32; 128];
    for byte in text.bytes() {
        all.get_mut(usize::from(byte.to_ascii_lowercase())).into_iter().for_each(|count| *count += 1);
    }
    all
}

/// Whether a name has as many letters of a word as it needs to be near it: most names of a long list have not, and need not be
/// compared. Letters that are met in both are no more than those that both have.
fn may_be_near(word: &str, letters: &[u32; 128], name: &str) -> bool {
    if word.is_empty() || !word.is_ascii() || !name.is_ascii() {
        return true;
    }
    let mut left = *letters;
    let met = name.bytes().filter(|byte| {
        let slot = left.get_mut(usize::from(byte.to_ascii_lowercase())).filter(|count| **count > 0);
        slot.map(|count| *count -= 1).is_some()
    });
    let met = met.count() as f64;
    met / word.len() as f64 + met / name.len().max(1) as f64 + 1.0 > 3.0 * 0.6 - 1e-9
}

/// A name in small letters; most are.
fn small(name: &str) -> Cow<'_, str> {
    let is_small = name.bytes().all(|byte| byte.is_ascii() && !byte.is_ascii_uppercase());
    if is_small { name.into() } else { name.to_lowercase().into() }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::reading::Node;
    use serde::Deserialize;

    #[derive(Debug, Deserialize)]
    #[serde(deny_unknown_fields)]
    #[allow(dead_code)]
    struct Everything {
        text: Option<String>,
        count: Option<u32>,
        signed: Option<i64>,
        truth: Option<bool>,
        number: Option<f64>,
        list: Option<Vec<String>>,
        pair: Option<(f64, f64)>,
        inner: Option<Box<Everything>>,
        word: Option<Word>,
        wrapped: Option<Wrapped>,
    }

    #[derive(Debug, Deserialize)]
    #[allow(dead_code)]
    struct Wrapped(u8);

    #[derive(Debug, Deserialize)]
    #[serde(rename_all = "kebab-case")]
    enum Word {
        One,
        #[allow(dead_code)]
        Two(f64),
    }

    /// No message speaks of types, whatever stands where something else is wanted.
    /// No name that is near is left out before it is compared.
    #[test]
    fn what_is_left_out_for_its_letters_is_not_near() {
        let words: Vec<String> = include_str!("key-examples.txt").split_whitespace().map(str::to_lowercase).collect();
        let mut out = 0;
        for word in words.iter().step_by(7) {
            for name in &words {
                let may = may_be_near(word, &letters(word), name);
                assert!(may || strsim::jaro_winkler(word, name) <= 0.6, "{word} {name}");
                out += usize::from(!may);
            }
        }
        assert!(out > 1000, "{out}");
    }

    #[test]
    fn no_message_speaks_of_types() {
        let values = [
            "[a, b]",
            "{a: b}",
            "-3",
            "2.5",
            "300",
            "yes",
            "true",
            "\"\"",
            "[[1]]",
            "{one: 1}",
            "{two: [1]}",
            "[1, 2, 3]",
        ];
        let keys = ["text", "count", "signed", "truth", "number", "list", "pair", "inner", "word", "wrapped"];
        let mut seen = 0;
        for (key, value) in keys.iter().flat_map(|key| values.map(|value| (key, value))) {
            let text = format!("{key}: {value}\n");
            let read = Node::yaml(&text, Place::start(0)).map_err(|p| vec![p]).and_then(Node::read::<Everything>);
            for problem in read.err().unwrap_or_default() {
                seen += 1;
                let says = problem.says.to_lowercase();
                for word in [
                    "struct", "sequence", "u32", "u8", "i64", "f64", "newtype", "string", "boolean", "enum", "tuple",
                    "variant", "expected", "unit", "option",
                ] {
                    assert!(!says.contains(word), "{text}: {says}");
                }
            }
        }
        assert!(seen > 40, "{seen}");
    }

    /// What looks like a number or a truth is a name where a name is wanted.
    #[test]
    fn a_name_may_look_like_a_number() {
        for (typed, name) in [
            ("23", "23"),
            ("y", "y"),
            ("No", "No"),
            ("007", "007"),
            ("1.10", "1.10"),
            ("true", "true"),
            ("0x1F", "0x1F"),
        ] {
            let read = |text: &str, start: Place| Node::yaml(text, start).unwrap().read::<Everything>().unwrap().text;
            assert_eq!(read(&format!("# a remark\ntext: {typed} # and one\n"), Place::start(0)).as_deref(), Some(name));
            let within = Place { column: 7, ..Place::start(3) };
            assert_eq!(read(&format!("{{text: {typed}}}"), within).as_deref(), Some(name));
        }
    }
}
