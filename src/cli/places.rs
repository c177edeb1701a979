//! What stands at a place of a run's inputs: the file, the line, the key, and what was typed there.

use crate::proof::{Cause, Place};
use crate::reading::{ARGUMENT, Node, Text};
use crate::sheet::TypedAt;

/// The texts of a run and what each is as a document.
pub(super) struct Places<'a> {
    texts: &'a [Text],
    trees: Vec<Option<Node>>,
}

impl<'a> Places<'a> {
    pub(super) fn of(texts: &'a [Text]) -> Self {
        let tree = |(text, source): (&Text, u32)| match text.name == ARGUMENT {
            true => Node::arguments(std::slice::from_ref(&text.text), source).ok(),
            false => Node::yaml(&text.text, Place::start(source)).ok(),
        };
        Self { texts, trees: texts.iter().zip(0..).map(tree).collect() }
    }

    /// What stands at a place.
    pub(super) fn typed(&self, place: Place) -> TypedAt {
        let text = self.texts.get(place.source as usize);
        let line = text.and_then(|text| text.text.lines().nth(place.line.saturating_sub(1) as usize));
        let typed = |length: usize| -> String {
            line.unwrap_or_default().chars().skip(place.column.saturating_sub(1) as usize).take(length).collect()
        };
        let file = text.map_or_else(String::new, |text| text.name.clone());
        let tree = self.trees.get(place.source as usize).and_then(Option::as_ref);
        let keys = tree.and_then(|tree| tree.keys_to(place)).unwrap_or_default();
        let frame = |key: &&&str| !["parts", "operations"].contains(key);
        let key = keys.iter().filter(frame).copied().collect::<Vec<_>>().join(".");
        // A map is known by the place of its key: what was typed is what stands behind that.
        let own = typed(place.length as usize);
        let behind = typed(usize::MAX);
        let typed = match behind.strip_prefix(own.as_str()).and_then(|rest| rest.trim_start().strip_prefix(':')) {
            Some(rest) if keys.last() == Some(&own.as_str()) => rest.trim().to_owned(),
            _ => own,
        };
        TypedAt { is_argument: file == ARGUMENT, file, line: place.line, key, typed }
    }

    /// The key at a place, else its line.
    fn key(&self, place: Place) -> String {
        let at = self.typed(place);
        if at.key.is_empty() { format!("line {}", at.line) } else { at.key }
    }

    /// A cause of doubt by its name.
    pub(super) fn cause(&self, cause: Cause) -> String {
        match cause {
            Cause::Reading(place) | Cause::Instrument(place) => self.key(place),
            Cause::Own(place, nth) | Cause::Read(place, nth, _) if nth > 0 => {
                format!("{} ({})", self.key(place), nth + 1)
            }
            Cause::Own(place, _) | Cause::Read(place, ..) => self.key(place),
            Cause::Named(name) | Cause::Set(name) | Cause::SetBy(name, _) => name.to_owned(),
            Cause::Left(line) => format!("line {line} of the log"),
        }
    }
}
