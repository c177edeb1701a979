//! A document from `key=value` words: the same tree that a file gives, each word a source of its own.

use super::node::{Kind, Node};
use super::problem::Problem;
use super::yaml::{MOST_DEPTH, TOO_DEEP, TOO_LONG};
use crate::proof::Place;

impl Node {
    /// Builds `{key: value, nested: {key: value}}` from `key=value` and `nested.key=value` words; word `i` is source `first + i`.
    ///
    /// # Errors
    /// Every word that is no `key=value` or whose value is no YAML.
    pub fn arguments(words: &[String], first: u32) -> Result<Self, Vec<Problem>> {
        let mut keys = Self::map(Place::start(first));
        let mut problems = Vec::new();
        for (source, word) in (first..).zip(words) {
            match word.split_once('=') {
                Some((path, _)) if path.split('.').count() > MOST_DEPTH => {
                    let key = Place { length: length(path), ..Place::start(source) };
                    problems.push(Problem::new(key, TOO_DEEP));
                }
                Some((path, value)) if !path.is_empty() && !value.trim().is_empty() => {
                    let key = Place { length: length(path), ..Place::start(source) };
                    let start = Place { column: key.length + 2, length: length(value), ..key };
                    match Self::argument_value(value, start) {
                        Ok(value) if value.too_long().is_some() => problems.push(Problem::new(start, TOO_LONG)),
                        Ok(value) => problems.extend(keys.plant(path, key, value).err()),
                        Err(problem) => problems.push(problem),
                    }
                }
                _ => {
                    let whole = Place { length: length(word), ..Place::start(source) };
                    problems.push(Problem::new(whole, format!("`{word}` is not of the form key=value")));
                }
            }
        }
        if problems.is_empty() { Ok(keys) } else { Err(problems) }
    }

    /// A value as YAML, except that what YAML would take for a comment or a quote is kept as it was typed (`1/2"`, `#8-32 UNC`).
    fn argument_value(value: &str, start: Place) -> Result<Self, Problem> {
        let plain = value.trim_start().starts_with(['{', '[', '"', '\'']);
        if plain || value.parse::<f64>().is_ok() || matches!(value, "true" | "false") {
            return Self::yaml(value, start);
        }
        Ok(Self::text(start, value.trim()))
    }

    fn plant(&mut self, path: &str, place: Place, value: Self) -> Result<(), Problem> {
        let Kind::Map(entries) = &mut self.kind else {
            return Err(Problem::new(place, format!("`{path}` stands under a key that already has a plain value")));
        };
        let (head, tail) = path.split_once('.').map_or((path, None), |(head, tail)| (head, Some(tail)));
        let found = entries.iter_mut().find(|(key, _)| matches!(&key.kind, Kind::Text(text) if text == head));
        let key = Self::text(place, head);
        match (tail, found) {
            (Some(tail), Some((_, inner))) => return inner.plant(tail, place, value),
            (Some(tail), None) => {
                let mut inner = Self::map(place);
                inner.plant(tail, place, value)?;
                entries.push((key, inner));
            }
            (None, Some(_)) => return Err(Problem::new(place, format!("`{path}` is given twice"))),
            (None, None) => entries.push((key, value)),
        }
        Ok(())
    }
}

fn length(text: &str) -> u32 {
    u32::try_from(text.chars().count()).unwrap_or(u32::MAX).max(1)
}
