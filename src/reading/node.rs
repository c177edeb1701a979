//! A value of a document and where it stands.

use super::Problem;
use crate::in_order::InOrder;
use crate::proof::Place;
use serde::de::DeserializeOwned;

/// A value of a document and where it stands.
#[derive(Clone, Debug)]
pub struct Node {
    pub(super) place: Place,
    pub(super) kind: Kind,
}

/// What a value is.
#[derive(Clone, Debug)]
pub(super) enum Kind {
    Null,
    /// `true` or `false`, as it was typed.
    Truth(bool, String),
    /// A number, as it was typed.
    Number(f64, String),
    Text(String),
    List(Vec<Node>),
    Map(Vec<(Node, Node)>),
    /// Struck out while problems are looked for: it is no more there.
    Struck,
}

/// From so many problems on they are counted alone: what was read without one is not read again.
const ENOUGH: usize = 40;
/// No more are counted.
const MOST_PROBLEMS: usize = 100_000;
/// What is struck out is taken away once so many stand before it.
const MANY: usize = 256;

/// How what cannot be read is struck out.
#[derive(Clone, Copy)]
struct Strike {
    /// Of what stands in a list only its first key, where the place is that of both.
    inner: bool,
    /// Problems are counted alone: the items of a list before it are struck out as well, which were read without one.
    counting: bool,
}

impl Strike {
    const OUTER: Self = Self { inner: false, counting: false };
}

/// Keys behind a dash that hold a name: what stands in line with them does not belong under them.
const NAMED: [&str; 4] = ["part", "name", "axis", "thread"];

/// What is said of a key with nothing after it; `beside` where what may belong to it stands in line with it.
fn nothing_after(name: &str, beside: bool) -> String {
    if beside {
        return format!(
            "nothing stands under `{name}`: its keys stand in line with it, and each must move two blanks in"
        );
    }
    // `length 21 mm`, `length=21 mm`, `length:21 mm`: in brackets the whole is taken for a key.
    let is_key = |key: &str| !key.is_empty() && key.chars().all(|c| c.is_ascii_lowercase() || c == '-');
    if let Some((key, value)) = name.split_once([' ', '=', ':']).filter(|(key, value)| is_key(key) && !value.is_empty())
    {
        return format!("a colon and a blank part a key from its value: write `{key}: {}`", value.trim());
    }
    format!(
        "`{name}` has nothing after it: give a value or leave the key out (a bare # starts a comment: put the value in quotes)"
    )
}

impl Node {
    /// An empty map at a place.
    pub fn map(place: Place) -> Self {
        Self { place, kind: Kind::Map(Vec::new()) }
    }

    /// A text at a place.
    pub fn text(place: Place, text: impl Into<String>) -> Self {
        Self { place, kind: Kind::Text(text.into()) }
    }

    /// Wraps a node in a map of one word, which stands at a place of its own.
    pub(crate) fn under_word(self, word: &str, place: Place) -> Self {
        Self { place, kind: Kind::Map(vec![(Self::text(place, word), self)]) }
    }

    /// Whether it is a map of keys.
    pub(crate) fn is_map(&self) -> bool {
        matches!(self.kind, Kind::Map(_))
    }

    /// Where it stands.
    pub fn place(&self) -> Place {
        self.place
    }

    /// Adds a key to a map; nothing happens to what is no map.
    pub fn insert(&mut self, key: &str, value: Self) {
        if let Kind::Map(entries) = &mut self.kind {
            entries.push((Self::text(value.place, key), value));
        }
    }

    /// A list of one node.
    pub fn alone(self) -> Self {
        Self { place: self.place, kind: Kind::List(vec![self]) }
    }

    /// Takes a key out of a map.
    pub fn take(&mut self, key: &str) -> Option<Self> {
        let Kind::Map(entries) = &mut self.kind else { return None };
        let at = entries.iter().position(|(k, _)| matches!(&k.kind, Kind::Text(text) if text == key))?;
        Some(entries.remove(at).1)
    }

    /// Takes the items out of the list under a key of a map: an empty list stays there.
    pub(crate) fn take_items(&mut self, key: &str) -> Vec<Self> {
        self.items_mut(key).map(std::mem::take).unwrap_or_default()
    }

    /// Puts them back.
    pub(crate) fn put_items(&mut self, key: &str, back: Vec<Self>) {
        if let Some(items) = self.items_mut(key) {
            *items = back;
        }
    }

    fn items_mut(&mut self, key: &str) -> Option<&mut Vec<Self>> {
        let Kind::Map(entries) = &mut self.kind else { return None };
        let under = entries.iter_mut().find(|(k, _)| matches!(&k.kind, Kind::Text(text) if text == key));
        under.and_then(|(_, value)| if let Kind::List(items) = &mut value.kind { Some(items) } else { None })
    }

    /// The text under a key of a map, with its place.
    pub(crate) fn text_under(&self, key: &str) -> Option<(&str, Place)> {
        let Kind::Map(entries) = &self.kind else { return None };
        entries.iter().find_map(|(k, v)| match (&k.kind, &v.kind) {
            (Kind::Text(name), Kind::Text(text)) if name == key => Some((text.as_str(), v.place)),
            _ => None,
        })
    }

    /// The one value that stands here, as it was typed; nothing of a list or a map.
    pub(crate) fn typed(&self) -> Option<String> {
        match &self.kind {
            Kind::Text(typed) | Kind::Truth(_, typed) | Kind::Number(_, typed) => Some(typed.clone()),
            _ => None,
        }
    }

    /// The items of a list; none of what is no list.
    pub fn items(&self) -> &[Self] {
        if let Kind::List(items) = &self.kind { items } else { &[] }
    }

    /// The keys of a map with their places, in the order of the text.
    pub(crate) fn keys(&self) -> impl Iterator<Item = (&str, Place)> {
        let entries = if let Kind::Map(entries) = &self.kind { entries.as_slice() } else { &[] };
        entries.iter().filter_map(|(key, _)| Some((key.name()?, key.place)))
    }

    /// A key as a name.
    fn name(&self) -> Option<&str> {
        if let Kind::Text(name) = &self.kind { Some(name) } else { None }
    }

    /// What stands under a key of a map.
    pub fn under(&self, key: &str) -> Option<&Self> {
        self.entry(key).map(|(_, value)| value)
    }

    /// A key of a map with what stands under it.
    pub(super) fn entry(&self, key: &str) -> Option<&(Self, Self)> {
        let Kind::Map(entries) = &self.kind else { return None };
        entries.iter().find(|(k, _)| matches!(&k.kind, Kind::Text(text) if text == key))
    }

    /// Every text of the tree but for the keys, with its place.
    pub(crate) fn texts(&self) -> Vec<(&str, Place)> {
        let mut found = Vec::new();
        self.all_texts(&mut found);
        found
    }

    fn all_texts<'a>(&'a self, found: &mut Vec<(&'a str, Place)>) {
        match &self.kind {
            Kind::Text(text) => found.push((text, self.place)),
            Kind::List(items) => items.iter().for_each(|item| item.all_texts(found)),
            Kind::Map(entries) => entries.iter().for_each(|(_, value)| value.all_texts(found)),
            _ => {}
        }
    }

    /// The keys that lead to what stands at a place, the outermost first; lists add none.
    pub(crate) fn keys_to(&self, place: Place) -> Option<Vec<&str>> {
        match &self.kind {
            Kind::List(items) => items.iter().find_map(|item| item.keys_to(place)),
            Kind::Map(entries) => entries.iter().find_map(|(key, value)| {
                let Kind::Text(name) = &key.kind else { return None };
                let below = if value.place == place { Vec::new() } else { value.keys_to(place)? };
                Some(std::iter::once(name.as_str()).chain(below).collect())
            }),
            _ => None,
        }
    }

    /// Every text that stands under a key of this name, wherever it is in the tree.
    pub(crate) fn texts_named(&self, key: &str) -> Vec<(&str, Place)> {
        self.texts_named_outside(key, &[])
    }

    /// The same but for what stands under other keys of this map itself.
    pub(crate) fn texts_named_outside(&self, key: &str, outside: &[&str]) -> Vec<(&str, Place)> {
        let mut found = Vec::new();
        self.find_texts(key, outside, &mut found);
        found
    }

    fn find_texts<'a>(&'a self, wanted: &str, outside: &[&str], found: &mut Vec<(&'a str, Place)>) {
        match &self.kind {
            Kind::List(items) => items.iter().for_each(|item| item.find_texts(wanted, &[], found)),
            Kind::Map(entries) => entries.iter().for_each(|(key, value)| match (&key.kind, &value.kind) {
                (Kind::Text(name), _) if outside.contains(&name.as_str()) => {}
                (Kind::Text(name), Kind::Text(text)) if name == wanted => found.push((text, value.place)),
                _ => value.find_texts(wanted, &[], found),
            }),
            _ => {}
        }
    }

    /// Reads a type and reports *all* problems: a bad value is struck out and the reading goes on past it.
    ///
    /// # Errors
    /// Every problem found, in the order of the text.
    pub fn read<T: DeserializeOwned>(self) -> Result<T, Vec<Problem>> {
        let mut value = None;
        let problems = self.problems(&mut |node| T::deserialize(node).map(|read| value = Some(read)).err());
        value.filter(|_| problems.is_empty()).ok_or(problems)
    }

    /// What a reader finds wrong, until it finds nothing more.
    fn problems(mut self, read: &mut dyn FnMut(&Self) -> Option<Problem>) -> Vec<Problem> {
        let (mut problems, mut wounds) = (self.empty_keys(), Vec::new());
        for problem in &problems {
            wounds.extend(problem.place.and_then(|place| self.strike(place, Strike::OUTER)));
        }
        while let Some(problem) = read(&self) {
            let place = problem.place.unwrap_or(self.place);
            let echo = problem.missing && wounds.contains(&place);
            // The first key of what stands in a list has the place of the whole: it alone is struck out, unless that mended nothing.
            let is_known = problems.iter().rev().take(ENOUGH).any(|known| *known == problem);
            let strike = Strike { inner: !problem.missing && !is_known, counting: problems.len() + 1 >= ENOUGH };
            if !echo && !is_known {
                problems.push(problem);
            }
            match self.strike(place, strike) {
                Some(parent) if problems.len() < MOST_PROBLEMS => wounds.push(parent),
                _ => break,
            }
        }
        problems.order_by_key(|problem| problem.place);
        problems
    }

    /// A key with nothing after it is an error wherever it stands.
    pub(crate) fn empty_keys(&self) -> Vec<Problem> {
        let mut found = Vec::new();
        self.find_empty(false, &mut found);
        found
    }

    fn find_empty(&self, is_item: bool, found: &mut Vec<Problem>) {
        match &self.kind {
            Kind::List(items) => items.iter().for_each(|item| item.find_empty(true, found)),
            Kind::Map(entries) => entries.iter().enumerate().for_each(|(at, (key, value))| match value.kind {
                Kind::Null => {
                    let name = if let Kind::Text(name) = &key.kind { name.as_str() } else { "this key" };
                    // `- face:` with its keys in line with it, and not under it.
                    let next = entries.get(at + 1).map(|(next, _)| next.place);
                    let beside = next.is_some_and(|next| next.line > key.place.line && next.column == key.place.column);
                    found.push(Problem::new(
                        key.place,
                        nothing_after(name, is_item && at == 0 && beside && !NAMED.contains(&name)),
                    ));
                }
                _ => value.find_empty(false, found),
            }),
            _ => {}
        }
    }

    /// Strikes the entry or item at `place` out, so that reading can go on past it; says where it hung.
    fn strike(&mut self, place: Place, how: Strike) -> Option<Place> {
        let here = self.place;
        match &mut self.kind {
            Kind::Map(entries) => {
                let at = |(key, value): &(Self, Self)| !key.is_struck() && (key.place == place || value.place == place);
                if let Some(found) = entries.iter().position(at) {
                    entries.iter_mut().filter(|entry| at(entry)).for_each(|(key, _)| key.kind = Kind::Struck);
                    if found > MANY {
                        entries.retain(|(key, _)| !key.is_struck());
                    }
                    return Some(here);
                }
                let left = entries.iter_mut().filter(|(key, _)| !key.is_struck());
                left.map(|(_, value)| value).find_map(|value| value.strike(place, how))
            }
            Kind::List(items) => {
                let own = items.iter().position(|item| !item.is_struck() && item.place == place);
                let within = own.filter(|_| how.inner).and_then(|at| items.get_mut(at)?.strike(place, how));
                let (found, struck) = match (own, within) {
                    (Some(found), within) => (found, within.unwrap_or(here)),
                    (None, _) => {
                        items.iter_mut().enumerate().find_map(|(at, item)| Some((at, item.strike(place, how)?)))?
                    }
                };
                let (before, rest) = items.split_at_mut_checked(found)?;
                if how.counting {
                    before.iter_mut().for_each(|item| item.kind = Kind::Struck);
                }
                if let Some(item) = rest.first_mut().filter(|_| own.is_some() && within.is_none()) {
                    item.kind = Kind::Struck;
                }
                if found > MANY {
                    items.retain(|item| !item.is_struck());
                }
                Some(struck)
            }
            _ => None,
        }
    }

    pub(super) fn is_struck(&self) -> bool {
        matches!(self.kind, Kind::Struck)
    }

    pub(super) fn len(&self) -> usize {
        match &self.kind {
            Kind::Map(entries) => entries.iter().filter(|(key, _)| !key.is_struck()).count(),
            Kind::List(items) => items.iter().filter(|item| !item.is_struck()).count(),
            _ => 0,
        }
    }
}
