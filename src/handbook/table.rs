//! Reading the built-in tables of `shared/`.

use crate::proof::{Mark, Source};
use csv::StringRecord;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Deserializer};
use std::cell::RefCell;
use std::collections::HashMap;
use std::io::{Cursor, SeekFrom};
use std::sync::{LazyLock, OnceLock, PoisonError, RwLock};

/// The rows of a built-in table. A row that does not load is left out; a test holds that none is.
pub(in crate::handbook) fn rows<R: DeserializeOwned>(text: &'static str) -> Vec<R> {
    let mut all = records(text).into_iter();
    all.next().map_or_else(Vec::new, |heads| loaded(&heads, all))
}

/// The rows that load, under the heads of their columns.
fn loaded<R: DeserializeOwned>(heads: &StringRecord, all: impl Iterator<Item = StringRecord>) -> Vec<R> {
    all.filter(|row| row.len() == heads.len()).filter_map(|row| row.deserialize(Some(heads)).ok()).collect()
}

/// The lines of a table as records, its heads first. A thread has one reader for all tables: to make one takes longer than to read
/// a short table with it.
fn records(text: &'static str) -> Vec<StringRecord> {
    thread_local! {
        static READER: RefCell<csv::Reader<Cursor<&'static [u8]>>> = RefCell::new(
            csv::ReaderBuilder::new().comment(Some(b'#')).has_headers(false).flexible(true).from_reader(Cursor::default()),
        );
    }
    READER.with_borrow_mut(|reader| {
        *reader.get_mut() = Cursor::new(text.as_bytes());
        match reader.seek_raw(SeekFrom::Start(0), csv::Position::new()) {
            Ok(()) => reader.records().filter_map(Result::ok).collect(),
            Err(_) => Vec::new(),
        }
    })
}

fn reader(text: &'static str) -> csv::Reader<&'static [u8]> {
    csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes())
}

/// A long table, read group by group: the rows whose first cells are the same stand together, and are read when the first of
/// them is asked for.
pub(in crate::handbook) struct Groups<R> {
    heads: &'static str,
    groups: Vec<(&'static str, &'static str, OnceLock<Vec<R>>)>,
}

impl<R: DeserializeOwned> Groups<R> {
    /// The groups of a table by its first `cells` cells, which are bare words.
    pub(in crate::handbook) fn of(text: &'static str, cells: usize) -> Self {
        let (mut heads, mut at) = ("", 0);
        // Where each group begins and ends; a remark in the table ends one.
        let mut groups: Vec<(&str, usize, usize)> = Vec::new();
        for line in text.split_inclusive('\n') {
            let from = at;
            at += line.len();
            if line.starts_with('#') {
                continue;
            }
            if heads.is_empty() {
                heads = line;
                continue;
            }
            let end = line.match_indices(',').nth(cells.saturating_sub(1)).map_or(line.len(), |comma| comma.0);
            let key = line.get(..end).unwrap_or(line);
            match groups.last_mut().filter(|last| last.0 == key && last.2 == from) {
                Some(last) => last.2 = at,
                None => groups.push((key, from, at)),
            }
        }
        let lines = |(key, from, to)| (key, text.get(from..to).unwrap_or_default(), OnceLock::new());
        Self { heads, groups: groups.into_iter().map(lines).collect() }
    }

    /// Whether a group stands in the table.
    pub(in crate::handbook) fn has(&self, key: &str) -> bool {
        self.groups.iter().any(|group| group.0 == key)
    }

    /// The rows of a group, in the order of the table.
    pub(in crate::handbook) fn under(&'static self, key: &str) -> impl Iterator<Item = &'static R> {
        let rows = |lines: &'static str| {
            records(self.heads).first().map_or_else(Vec::new, |heads| loaded(heads, records(lines).into_iter()))
        };
        self.groups
            .iter()
            .filter(move |group| group.0 == key)
            .flat_map(move |group| group.2.get_or_init(|| rows(group.1)))
    }
}

/// Shows a table's rows as they stand, each with the table's heads, to whoever counts what they cite.
pub(in crate::handbook) fn each_record(text: &'static str, mut see: impl FnMut(&StringRecord, &StringRecord)) {
    let mut reader = reader(text);
    let Ok(heads) = reader.headers().cloned() else { return };
    let mut record = StringRecord::new();
    while reader.read_record(&mut record).is_ok_and(|more| more) {
        see(&heads, &record);
    }
}

/// How many rows a table has and how many of them load as `R`; the first that does not, in words.
#[cfg(test)]
pub(in crate::handbook) fn audit<R: DeserializeOwned>(text: &'static str) -> (usize, usize, String) {
    let all = reader(text).records().count();
    let loads: Vec<_> = reader(text).into_deserialize::<R>().collect();
    let first = loads.iter().find_map(|row| row.as_ref().err()).map(ToString::to_string).unwrap_or_default();
    (all, loads.iter().filter(|row| row.is_ok()).count(), first)
}

/// An entry of the list of sources.
#[derive(Debug, Deserialize)]
pub struct SourceEntry {
    /// The key that rows cite.
    pub key: String,
    /// Title in words.
    pub title: String,
    /// Where it is found.
    #[serde(rename = "where")]
    pub place: String,
    /// standard, handbook, textbook, maker, data, site, practice or own.
    pub kind: String,
}

/// The list of sources.
pub fn sources() -> &'static [SourceEntry] {
    static ROWS: LazyLock<Vec<SourceEntry>> = LazyLock::new(|| rows(include_str!("../../shared/sources.csv")));
    &ROWS
}

/// The title of a source, where the list has it.
fn title(key: &str) -> Option<&'static str> {
    static TITLES: LazyLock<HashMap<&str, &str>> =
        LazyLock::new(|| sources().iter().map(|entry| (entry.key.as_str(), entry.title.as_str())).collect());
    TITLES.get(key).copied()
}

/// The source that a row cites: its keys turned into titles.
pub fn cited(keys: &str, mark: Mark) -> Source {
    if let Some(title) = title(keys) {
        return Source::fixed(title, mark);
    }
    Source::fixed(joined(keys), mark)
}

/// The titles of several keys in one text, which is made once and stays: the tables cite a few hundred sets of keys.
fn joined(keys: &str) -> &'static str {
    static JOINED: LazyLock<RwLock<HashMap<String, &str>>> = LazyLock::new(RwLock::default);
    let known = JOINED.read().unwrap_or_else(PoisonError::into_inner).get(keys).copied();
    if let Some(known) = known {
        return known;
    }
    let mut titles: Vec<&str> = Vec::new();
    for key in keys.split(';').map(str::trim) {
        let title = title(key).unwrap_or(key);
        if !titles.contains(&title) {
            titles.push(title);
        }
    }
    let text: &str = titles.join("; ").leak();
    JOINED.write().unwrap_or_else(PoisonError::into_inner).insert(keys.to_owned(), text);
    text
}

/// Reads the `seen` column.
pub(in crate::handbook) fn seen<'de, D: Deserializer<'de>>(from: D) -> Result<Mark, D::Error> {
    let text = String::deserialize(from)?;
    Mark::named(&text).ok_or_else(|| serde::de::Error::custom(format!("`{text}` is not a mark")))
}

/// Reads a `seen` column that may be empty.
pub(in crate::handbook) fn seen_or_none<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Mark>, D::Error> {
    let text = String::deserialize(from)?;
    if text.is_empty() {
        return Ok(None);
    }
    Mark::named(&text).map(Some).ok_or_else(|| serde::de::Error::custom(format!("`{text}` is not a mark")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn the_groups_of_a_table_hold_its_rows() {
        for (text, cells) in
            [(include_str!("../../shared/iso286.csv"), 2), (include_str!("../../shared/cutting.csv"), 1)]
        {
            let groups: &'static Groups<BTreeMap<String, String>> = Box::leak(Box::new(Groups::of(text, cells)));
            let mut keys: Vec<&str> = groups.groups.iter().map(|group| group.0).collect();
            keys.sort_unstable();
            keys.dedup();
            assert!(keys.len() > 20 && keys.iter().all(|key| groups.has(key)) && !groups.has("no such"));
            let by_group: usize = keys.iter().map(|key| groups.under(key).count()).sum();
            assert_eq!(by_group, rows::<BTreeMap<String, String>>(text).len());
        }
    }
}
