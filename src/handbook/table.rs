//! Reading the built-in tables of `shared/`.

mod cells;
mod row;

use crate::proof::{Mark, Source};
use cells::{begins_with, first_cells, lines, part};
use serde::{Deserialize, Deserializer};
use std::collections::HashMap;
use std::sync::{LazyLock, OnceLock, PoisonError, RwLock};

/// The rows of a built-in table. A row that does not load is left out; a test holds that none is.
pub(in crate::handbook) fn rows<R: Deserialize<'static>>(text: &'static str) -> Vec<R> {
    let mut all = Vec::new();
    each_row(text, |heads, cells| all.extend(row::read(heads, cells).ok()));
    all
}

/// Shows a table's rows as they stand, the cells of each with the heads of the columns.
pub(in crate::handbook) fn each_row(text: &'static str, mut see: impl FnMut(&[&'static str], &[&'static str])) {
    let mut lines = cells::rows(text);
    let (mut heads, mut cells) = (Vec::new(), Vec::new());
    lines.next().into_iter().for_each(|line| part(line, &mut heads));
    for line in lines {
        part(line, &mut cells);
        see(&heads, &cells);
    }
}

/// Whether a row of a table begins with these cells: found in its text, so that a name can be known without an index of the table.
pub(in crate::handbook) fn has_row(text: &str, cells: &str) -> bool {
    memchr::memmem::find(text.as_bytes(), format!("\n{cells},").as_bytes()).is_some()
}

/// A table read group by group: the rows whose first cells are the same stand together, and are read when the first of them is
/// asked for.
pub(in crate::handbook) struct Groups<R> {
    heads: Vec<&'static str>,
    groups: Vec<Group<R>>,
    /// The places of the groups in the order of their keys, the short ones first, for who asks by a key; of one key in the order of
    /// the table.
    sorted: OnceLock<Vec<(ByLength, usize)>>,
}

struct Group<R> {
    key: &'static str,
    lines: &'static str,
    rows: OnceLock<Vec<R>>,
}

impl<R: Deserialize<'static>> Groups<R> {
    /// The groups of a table by its first `cells` cells.
    pub(in crate::handbook) fn of(text: &'static str, cells: usize) -> Self {
        let mut head = "";
        // Where each group begins and ends; a remark in the table ends one.
        let mut groups: Vec<(&str, usize, usize)> = Vec::new();
        for (from, to) in lines(text) {
            let line = text.get(from..to).unwrap_or_default();
            if line.starts_with('#') {
                continue;
            }
            if head.is_empty() {
                head = line.trim_end_matches(['\r', '\n']);
                continue;
            }
            // Most lines are of the group of the line before.
            if let Some(last) = groups.last_mut().filter(|last| last.2 == from && begins_with(line, last.0)) {
                last.2 = to;
                continue;
            }
            let key = first_cells(line, cells);
            match groups.last_mut().filter(|last| last.0 == key && last.2 == from) {
                Some(last) => last.2 = to,
                None => groups.push((key, from, to)),
            }
        }
        let group =
            |(key, from, to)| Group { key, lines: text.get(from..to).unwrap_or_default(), rows: OnceLock::new() };
        let groups = groups.into_iter().map(group).collect();
        let mut heads = Vec::new();
        part(head, &mut heads);
        Self { heads, groups, sorted: OnceLock::new() }
    }

    /// The groups of a key, in the order of the table.
    fn of_key(&self, key: &str) -> impl Iterator<Item = &Group<R>> {
        let sorted = self.sorted.get_or_init(|| {
            let places = self.groups.iter().zip(0..);
            let mut sorted: Vec<_> = places.map(|(group, at)| ((group.key.len(), group.key), at)).collect();
            sorted.sort_unstable();
            sorted
        });
        let wanted = (key.len(), key);
        let from = sorted.partition_point(|(own, _)| *own < wanted);
        let own = sorted.get(from..).unwrap_or_default().iter().take_while(move |(own, _)| *own == wanted);
        own.filter_map(|(_, at)| self.groups.get(*at))
    }

    /// The rows of a group, in the order of the table.
    pub(in crate::handbook) fn under(&'static self, key: &str) -> impl Iterator<Item = &'static R> {
        self.of_key(key).flat_map(|group| self.read(group))
    }

    /// The rows of every group whose key is wanted, in the order of the table.
    pub(in crate::handbook) fn wanted(&'static self, key: impl Fn(&str) -> bool) -> impl Iterator<Item = &'static R> {
        self.groups.iter().filter(move |group| key(group.key)).flat_map(|group| self.read(group))
    }

    fn read(&self, group: &'static Group<R>) -> &'static [R] {
        group.rows.get_or_init(|| {
            let mut cells = Vec::with_capacity(self.heads.len());
            let row = |line| {
                part(line, &mut cells);
                row::read(&self.heads, &cells).ok()
            };
            cells::rows(group.lines).filter_map(row).collect()
        })
    }
}

/// A key in an order in which most are told apart by their length alone.
type ByLength = (usize, &'static str);

/// How many rows a table has and how many of them load as `R`; the first that does not, in words.
#[cfg(test)]
pub(in crate::handbook) fn audit<R: Deserialize<'static>>(text: &'static str) -> (usize, usize, String) {
    let (mut all, mut faults) = (0, Vec::new());
    each_row(text, |heads, cells| {
        all += 1;
        faults.extend(row::read::<R>(heads, cells).err().map(|fault| fault.to_string()));
    });
    (all, all - faults.len(), faults.into_iter().next().unwrap_or_default())
}

/// An entry of the list of sources.
#[derive(Debug, Deserialize)]
pub struct SourceEntry {
    /// The key that rows cite.
    pub key: &'static str,
    /// Title in words.
    pub title: &'static str,
    /// Where it is found.
    #[serde(rename = "where")]
    pub place: &'static str,
    /// standard, handbook, textbook, maker, data, site, practice or own.
    pub kind: &'static str,
}

const SOURCES: &str = include_str!("../../shared/sources.csv");

/// The list of sources.
pub fn sources() -> &'static [SourceEntry] {
    static ROWS: LazyLock<Vec<SourceEntry>> = LazyLock::new(|| rows(SOURCES));
    &ROWS
}

/// The title of a source, where the list has it.
fn title(key: &str) -> Option<&'static str> {
    static ENTRIES: LazyLock<Groups<SourceEntry>> = LazyLock::new(|| Groups::of(SOURCES, 1));
    ENTRIES.under(key).next().map(|entry| entry.title)
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
    let text = <&str>::deserialize(from)?;
    Mark::named(text).ok_or_else(|| serde::de::Error::custom(format!("`{text}` is not a mark")))
}

/// Reads a `seen` column that may be empty.
pub(in crate::handbook) fn seen_or_none<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Mark>, D::Error> {
    let text = <&str>::deserialize(from)?;
    if text.is_empty() {
        return Ok(None);
    }
    Mark::named(text).map(Some).ok_or_else(|| serde::de::Error::custom(format!("`{text}` is not a mark")))
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeMap;

    #[test]
    fn the_groups_of_a_table_hold_its_rows() {
        for (text, cells) in
            [(include_str!("../../shared/iso286.csv"), 2), (include_str!("../../shared/cutting.csv"), 1), (SOURCES, 1)]
        {
            let groups: &'static Groups<BTreeMap<String, String>> = Box::leak(Box::new(Groups::of(text, cells)));
            let mut keys: Vec<&str> = groups.groups.iter().map(|group| group.key).collect();
            keys.sort_unstable();
            keys.dedup();
            assert!(keys.len() > 20 && groups.under("no such").next().is_none());
            let quoted = |key: &&&str| text.contains(&format!("\n\"{key}\","));
            assert!(keys.iter().all(|key| has_row(text, key) || quoted(&key)) && !has_row(text, "no such"));
            assert!(
                keys.iter().all(|key| has_row(text, key.get(1..).unwrap()) == keys.contains(&key.get(1..).unwrap()))
            );
            let by_group: usize = keys.iter().map(|key| groups.under(key).count()).sum();
            let all: Vec<BTreeMap<String, String>> = rows(text);
            assert_eq!(by_group, all.len());
            assert!(groups.wanted(|_| true).eq(all.iter()));
        }
    }
}
