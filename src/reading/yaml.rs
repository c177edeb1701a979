//! A document from YAML, with the place of every value.

use super::node::{Kind, Node};
use super::plain::plain;
use super::problem::Problem;
use super::slips;
use crate::proof::Place;
use serde::de::{self, Visitor};
use serde::{Deserialize, Deserializer};
use serde_yaml::{Budget, Options, Spanned};
use std::borrow::Cow;
use std::fmt;

/// A job or shop file is prose of a few hundred lines; beyond these bounds a text is not one, and reading stops at once.
const MOST_NODES: usize = 200_000;
/// Deepest nesting that is read.
pub(super) const MOST_DEPTH: usize = 64;
/// Longest text that is read, in bytes: a remark of several pages.
const MOST_TEXT: usize = 20_000;
/// What is said of a longer one.
pub(super) const TOO_LONG: &str = "this text is longer than any in a job or shop file";
/// What is said of a file in which nothing stands.
const EMPTY: &str = "the file is empty: `setover ask OPERATION` writes a job, `setover start` a shop; `setover keys job` and `keys shop` show what stands in one";
/// What is said of a deeper nesting.
pub(super) const TOO_DEEP: &str = "this is nested deeper than any job or shop file";

impl Node {
    /// Reads YAML that begins at `start`; every place inside is counted from there.
    ///
    /// # Errors
    /// The first place where the text is no YAML, or where it goes beyond the bounds above.
    pub fn yaml(text: &str, start: Place) -> Result<Self, Problem> {
        let text = text.strip_prefix('\u{feff}').unwrap_or(text);
        let text = &*in_plain_blanks(text);
        if text.trim().is_empty() {
            return Err(Problem::new(start, EMPTY));
        }
        if let Some(tab) = tab_indent(text, start) {
            return Err(tab);
        }
        let mut node = plain(text).map_or_else(|| Self::whole(text, start), Ok)?;
        node.settle(start);
        node.keep_typed(&text.lines().collect::<Vec<_>>(), start);
        match node.too_long() {
            Some(place) => Err(Problem::new(place, TOO_LONG)),
            None => node.figures_between_commas().map_or(Ok(node), Err),
        }
    }

    /// `{spindle: 35, 60, 105 rev/min}`: in brackets a comma parts keys, and the figures behind it are no keys.
    fn figures_between_commas(&self) -> Option<Problem> {
        let entries = match &self.kind {
            Kind::List(items) => return items.iter().find_map(Self::figures_between_commas),
            Kind::Map(entries) => entries,
            _ => return None,
        };
        let figure = |node: &Self| node.typed().filter(|typed| typed.starts_with(|c: char| c.is_ascii_digit()));
        let split = |(at, (key, value)): (usize, &(Self, Self))| {
            let rest = entries.get(at + 1..)?.iter();
            let bare = rest.take_while(|(_, value)| matches!(value.kind, Kind::Null));
            let rest: Vec<String> = bare.map_while(|(key, _)| figure(key)).collect();
            if rest.is_empty() {
                return None;
            }
            let first = figure(value)?;
            let name = key.typed()?;
            let says = match rest.as_slice() {
                // One figure with a decimal comma, likelier than two figures: a blank in it would make it a thousand times as large.
                [one] if !first.contains([' ', '.']) => {
                    format!("in brackets a comma parts keys; the decimal sign is a point: `{name}: {first}.{one}`")
                }
                _ => {
                    let whole = std::iter::once(first).chain(rest).collect::<Vec<_>>().join(" ");
                    format!("in brackets a comma parts keys: figures stand apart by blanks, `{name}: {whole}`")
                }
            };
            Some(Problem::new(value.place, says))
        };
        let own = entries.iter().enumerate().find_map(split);
        own.or_else(|| entries.iter().find_map(|(_, value)| value.figures_between_commas()))
    }

    /// Reads whatever YAML there is; its places are counted from the first line.
    pub(super) fn whole(text: &str, start: Place) -> Result<Self, Problem> {
        serde_yaml::from_str_with_options(text, options()).map_err(|error| {
            let error_says = error.without_snippet().to_string();
            let at = error.location().map_or(Place::start(start.source), spot);
            match slips::plainly(text, at, &error_says) {
                Some((place, says)) => Problem::new(place.after(start), says),
                None => Problem::new(at.after(start), words_of(&error_says)),
            }
        })
    }

    /// Where a text or a key stands that is longer than anything in a job or shop file.
    pub(super) fn too_long(&self) -> Option<Place> {
        match &self.kind {
            Kind::Text(text) => (text.len() > MOST_TEXT).then_some(self.place),
            Kind::List(items) => items.iter().find_map(Self::too_long),
            Kind::Map(entries) => entries.iter().find_map(|(key, value)| key.too_long().or_else(|| value.too_long())),
            _ => None,
        }
    }

    /// Keeps numbers and truths as they were typed: where a name is wanted, `1.10` and `007` are names.
    fn keep_typed(&mut self, lines: &[&str], start: Place) {
        let (place, column) = (self.place, self.place.column.saturating_sub(1));
        match &mut self.kind {
            Kind::Truth(_, typed) | Kind::Number(_, typed) => {
                let row = place.line.saturating_sub(start.line) as usize;
                let before = if row == 0 { column.saturating_sub(start.column.saturating_sub(1)) } else { column };
                let line = lines.get(row).copied().unwrap_or_default();
                *typed = line.chars().skip(before as usize).take(place.length as usize).collect();
            }
            Kind::List(items) => items.iter_mut().for_each(|item| item.keep_typed(lines, start)),
            Kind::Map(entries) => entries.iter_mut().for_each(|(key, value)| {
                key.keep_typed(lines, start);
                // A key is a name and nothing else, also `y` and `no`: whoever looks for it finds it by its letters.
                if let Kind::Truth(_, typed) = &mut key.kind {
                    key.kind = Kind::Text(std::mem::take(typed));
                }
                value.keep_typed(lines, start);
            }),
            _ => {}
        }
    }

    /// Counts places from `start`, and lets a block be shown by its key.
    pub(super) fn settle(&mut self, start: Place) {
        self.place = self.place.after(start);
        match &mut self.kind {
            Kind::List(items) => items.iter_mut().for_each(|item| item.settle(start)),
            Kind::Map(entries) => {
                for (key, value) in entries.iter_mut() {
                    key.settle(start);
                    value.settle(start);
                    if matches!(value.kind, Kind::Map(_) | Kind::List(_)) {
                        value.place = key.place;
                    }
                }
            }
            _ => {}
        }
        if let Kind::Map(entries) = &self.kind
            && let Some((first, _)) = entries.first()
        {
            self.place = first.place;
        }
    }
}

fn options() -> Options {
    let mut options = Options::default();
    options.with_snippet = false;
    options.duplicate_keys = serde_yaml::DuplicateKeyPolicy::Error;
    let mut budget = Budget::default();
    budget.max_nodes = MOST_NODES;
    budget.max_depth = MOST_DEPTH;
    budget.max_aliases = 0;
    budget.max_anchors = 0;
    options.budget = Some(budget);
    options
}

/// What the reader found, in our words; its own only where there are none, without the tail that says the place again.
fn words_of(error: &str) -> String {
    let plain = error.lines().next().unwrap_or(error).split(" at line ").next().unwrap_or(error).trim();
    let known = [
        ("duplicate mapping key", "a key stands here for the second time: keep one of the two"),
        ("nchors", "anchors (&) and aliases (*) are not used in a job or shop file: write the value out"),
        ("lias", "anchors (&) and aliases (*) are not used in a job or shop file: write the value out"),
        ("epth", TOO_DEEP),
        ("ecursion", TOO_DEEP),
        ("budget", "this goes beyond what a job or shop file can be"),
    ];
    match known.iter().find(|(sign, _)| plain.contains(sign)) {
        Some((_, says)) if plain.contains("duplicate") => match plain.split_once("key: ") {
            Some((_, key)) => format!("{says} (`{}`)", key.split(',').next().unwrap_or(key)),
            None => (*says).to_owned(),
        },
        Some((_, says)) => (*says).to_owned(),
        None => "this line cannot be read as keys and values: each is `key: value`, those of one level stand under each other".into(),
    }
}

/// The same with a plain blank where one stands that only looks like it, as what is copied from a page has it.
fn in_plain_blanks(text: &str) -> Cow<'_, str> {
    const LIKE_BLANKS: [char; 6] = ['\u{a0}', '\u{2007}', '\u{2009}', '\u{200a}', '\u{202f}', '\u{3000}'];
    // The first bytes of these in UTF-8; a ± begins like one of them.
    let (all, mut begun) = (text.as_bytes(), memchr::memchr3_iter(0xc2, 0xe2, 0xe3, text.as_bytes()));
    let stands = |at: usize| all.get(at..).is_some_and(|rest| LIKE_BLANKS.iter().any(|blank| begins(rest, *blank)));
    match !begun.any(stands) {
        true => Cow::Borrowed(text),
        false => Cow::Owned(text.replace(LIKE_BLANKS, " ")),
    }
}

fn begins(bytes: &[u8], with: char) -> bool {
    bytes.starts_with(with.encode_utf8(&mut [0; 4]).as_bytes())
}

/// A tab before a key is the commonest slip that YAML's own words do not explain.
fn tab_indent(text: &str, start: Place) -> Option<Problem> {
    memchr::memchr(b'\t', text.as_bytes())?;
    let (line, column) = text.lines().zip(1..).find_map(|(line, number)| {
        let indent = line.len() - line.trim_start().len();
        let blank = line.get(..indent).unwrap_or_default();
        blank.find('\t').map(|at| (number, u32::try_from(at).unwrap_or(0) + 1))
    })?;
    let place = Place { line, column, length: 1, ..start }.after(start);
    Some(Problem::new(place, "a tab stands here; YAML takes only spaces before a key"))
}

fn spot(at: serde_yaml::Location) -> Place {
    let count = |n: u64| u32::try_from(n).unwrap_or(u32::MAX);
    Place { source: 0, line: count(at.line()), column: count(at.column()), length: count(at.span().len()).max(1) }
}

impl<'de> Deserialize<'de> for Node {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let Spanned { value: kind, referenced, .. } = Spanned::deserialize(from)?;
        Ok(Self { place: spot(referenced), kind })
    }
}

impl<'de> Deserialize<'de> for Kind {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        struct Any;
        impl<'de> Visitor<'de> for Any {
            type Value = Kind;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("plain YAML")
            }
            fn visit_unit<E>(self) -> Result<Kind, E> {
                Ok(Kind::Null)
            }
            fn visit_bool<E>(self, truth: bool) -> Result<Kind, E> {
                Ok(Kind::Truth(truth, String::new()))
            }
            fn visit_i64<E>(self, number: i64) -> Result<Kind, E> {
                Ok(Kind::Number(number as f64, String::new()))
            }
            fn visit_u64<E>(self, number: u64) -> Result<Kind, E> {
                Ok(Kind::Number(number as f64, String::new()))
            }
            fn visit_f64<E>(self, number: f64) -> Result<Kind, E> {
                Ok(Kind::Number(number, String::new()))
            }
            fn visit_str<E>(self, text: &str) -> Result<Kind, E> {
                Ok(Kind::Text(text.into()))
            }
            fn visit_seq<A: de::SeqAccess<'de>>(self, mut items: A) -> Result<Kind, A::Error> {
                std::iter::from_fn(|| items.next_element().transpose()).collect::<Result<_, _>>().map(Kind::List)
            }
            fn visit_map<A: de::MapAccess<'de>>(self, mut entries: A) -> Result<Kind, A::Error> {
                std::iter::from_fn(|| entries.next_entry().transpose()).collect::<Result<_, _>>().map(Kind::Map)
            }
        }
        from.deserialize_any(Any)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A key that the one or other YAML takes for a truth is the name that was typed: it is found by its letters, and where something
    /// else is wrong it is not told as missing.
    #[test]
    fn a_key_is_a_name_whatever_its_letters() {
        for key in ["x", "y", "n", "on", "no", "off", "yes", "true", "Y", "No"] {
            for text in [format!("a: 1\n{key}: 2 mm\n"), format!("{{a: 1, {key}: 2 mm}}")] {
                let node = Node::yaml(&text, Place::start(0)).unwrap();
                assert_eq!(node.under(key).and_then(Node::typed).as_deref(), Some("2 mm"), "{text}");
                assert!(node.keys().any(|(name, _)| name == key), "{text}");
            }
        }
    }
}
