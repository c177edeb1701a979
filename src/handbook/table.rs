//! Reading the built-in tables of `shared/`.

use crate::proof::{Mark, Source};
use csv::StringRecord;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Deserializer};
use std::collections::HashMap;
use std::sync::{LazyLock, OnceLock, PoisonError, RwLock};

/// The rows of a built-in table. A row that does not load is left out; a test holds that none is.
pub(in crate::handbook) fn rows<R: DeserializeOwned>(text: &'static str) -> Vec<R> {
    let mut all = records(text);
    all.next().map_or_else(Vec::new, |heads| loaded(&heads, all))
}

/// The rows that load, under the heads of their columns.
fn loaded<R: DeserializeOwned>(heads: &StringRecord, all: impl Iterator<Item = StringRecord>) -> Vec<R> {
    all.filter(|row| row.len() == heads.len()).filter_map(|row| row.deserialize(Some(heads)).ok()).collect()
}

/// The lines of a table as records, its heads first, without its remarks. No cell of a built-in table runs over a line.
fn records(text: &'static str) -> impl Iterator<Item = StringRecord> {
    let rows = lines(text).map(|(from, to)| text.get(from..to).unwrap_or_default().trim_end_matches(['\r', '\n']));
    rows.filter(|line| !line.is_empty() && !line.starts_with('#')).map(record)
}

/// A line as a record: most have no quotes, and fall apart at their commas.
fn record(line: &'static str) -> StringRecord {
    let mut record = StringRecord::with_capacity(line.len(), CELLS);
    if line.contains('"') {
        quoted(line, &mut record);
    } else {
        line.split(',').for_each(|cell| record.push_field(cell));
    }
    record
}

/// More columns than most tables have.
const CELLS: usize = 16;

/// The cells of a line with quotes. In quotes a comma is a comma, and two quotes are one; a test holds every table against the
/// reader of the library, which takes a hundred times as long to make as a line to read.
fn quoted(line: &str, record: &mut StringRecord) {
    let mut rest = Some(line);
    while let Some(text) = rest {
        let Some(inside) = text.strip_prefix('"') else {
            let (cell, more) = text.split_once(',').map_or((text, None), |(cell, more)| (cell, Some(more)));
            record.push_field(cell);
            rest = more;
            continue;
        };
        let end = end_of_quotes(inside);
        let (cell, more) = (inside.get(..end).unwrap_or(inside), inside.get(end + 1..).unwrap_or_default());
        if cell.contains('"') {
            record.push_field(&cell.replace("\"\"", "\""))
        } else {
            record.push_field(cell)
        }
        rest = more.strip_prefix(',');
    }
}

/// Where the quotes close: at one that is not followed by another.
fn end_of_quotes(inside: &str) -> usize {
    let mut from = 0;
    while let Some(at) = inside.get(from..).and_then(|rest| rest.find('"')).map(|at| from + at) {
        if inside.get(at + 1..).is_none_or(|rest| !rest.starts_with('"')) {
            return at;
        }
        from = at + 2;
    }
    inside.len()
}

/// Where each line of a text begins and ends, its sign of the end within.
fn lines(text: &'static str) -> impl Iterator<Item = (usize, usize)> {
    let mut from = 0;
    let ends = memchr::memchr_iter(b'\n', text.as_bytes()).map(|at| at + 1).chain([text.len()]);
    ends.map(move |end| (std::mem::replace(&mut from, end), end)).filter(|(from, end)| from < end)
}

fn reader(text: &'static str) -> csv::Reader<&'static [u8]> {
    csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes())
}

/// The first cells of a line, which are bare words; a single one may stand in quotes.
fn first_cells(line: &'static str, cells: usize) -> &'static str {
    if line.starts_with('"')
        && let Some((cell, _)) = line.get(1..).and_then(|rest| rest.split_once('"'))
    {
        return cell;
    }
    let end = memchr::memchr_iter(b',', line.as_bytes()).nth(cells.saturating_sub(1));
    end.and_then(|end| line.get(..end)).unwrap_or(line)
}

/// Whether a row of a table begins with these cells: found in its text, so that a name can be known without an index of the table.
pub(in crate::handbook) fn has_row(text: &str, cells: &str) -> bool {
    memchr::memmem::find(text.as_bytes(), format!("\n{cells},").as_bytes()).is_some()
}

/// Whether the first cells of a line are these.
fn begins_with(line: &str, cells: &str) -> bool {
    line.strip_prefix(cells).is_some_and(|rest| rest.starts_with(','))
}

/// A table read group by group: the rows whose first cells are the same stand together, and are read when the first of them is
/// asked for.
pub(in crate::handbook) struct Groups<R> {
    heads: OnceLock<Option<StringRecord>>,
    head: &'static str,
    groups: Vec<Group<R>>,
    /// The groups in the order of their keys, the short ones first, for who asks by a key; of one key in the order of the table.
    sorted: OnceLock<Vec<usize>>,
}

struct Group<R> {
    key: &'static str,
    lines: &'static str,
    rows: OnceLock<Vec<R>>,
}

impl<R: DeserializeOwned> Groups<R> {
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
                head = line;
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
        Self { heads: OnceLock::new(), head, groups, sorted: OnceLock::new() }
    }

    /// The groups of a key, in the order of the table.
    fn of_key(&self, key: &str) -> impl Iterator<Item = &Group<R>> {
        let group = |at: &usize| self.groups.get(*at);
        let sorted = self.sorted.get_or_init(|| {
            let mut sorted: Vec<usize> = (0..self.groups.len()).collect();
            sorted.sort_by_key(|at| group(at).map(|group| by_length(group.key)));
            sorted
        });
        let wanted = by_length(key);
        let from = sorted.partition_point(|at| group(at).is_some_and(|group| by_length(group.key) < wanted));
        sorted.get(from..).unwrap_or_default().iter().map_while(move |at| group(at).filter(|group| group.key == key))
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
            let heads = self.heads.get_or_init(|| records(self.head).next());
            heads.as_ref().map_or_else(Vec::new, |heads| loaded(heads, records(group.lines)))
        })
    }
}

/// An order of keys in which most are told apart by their length alone.
fn by_length(key: &str) -> (usize, &str) {
    (key.len(), key)
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

const SOURCES: &str = include_str!("../../shared/sources.csv");

/// The list of sources.
pub fn sources() -> &'static [SourceEntry] {
    static ROWS: LazyLock<Vec<SourceEntry>> = LazyLock::new(|| rows(SOURCES));
    &ROWS
}

/// The title of a source, where the list has it.
fn title(key: &str) -> Option<&'static str> {
    static ENTRIES: LazyLock<Groups<SourceEntry>> = LazyLock::new(|| Groups::of(SOURCES, 1));
    ENTRIES.under(key).next().map(|entry| entry.title.as_str())
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

    /// Every table of the project, by its name.
    fn every_table() -> Vec<(String, &'static str)> {
        let folder = std::fs::read_dir("shared").unwrap().map(|entry| entry.unwrap().path());
        let tables = folder.filter(|path| path.extension().is_some_and(|end| end == "csv"));
        let text =
            |path: std::path::PathBuf| (path.display().to_string(), &*std::fs::read_to_string(path).unwrap().leak());
        tables.map(text).collect()
    }

    #[test]
    fn every_table_is_read_by_lines_as_by_the_library() {
        let all = every_table();
        assert!(all.len() > 20);
        for (name, text) in all {
            let mut builder = csv::ReaderBuilder::new();
            let mut whole = builder.comment(Some(b'#')).has_headers(false).flexible(true).from_reader(text.as_bytes());
            let by_library: Vec<StringRecord> = whole.records().map(Result::unwrap).collect();
            let by_lines: Vec<StringRecord> = records(text).collect();
            assert!(by_lines.len() > 1, "{name}");
            assert_eq!(by_lines, by_library, "{name}");
        }
    }

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
