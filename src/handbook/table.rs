//! Reading the built-in tables of `shared/`.

use crate::proof::{Mark, Source};
use serde::de::DeserializeOwned;
use serde::{Deserialize, Deserializer};
use std::collections::HashMap;
use std::sync::LazyLock;

/// The rows of a built-in table. A row that does not load is left out; a test holds that none is.
pub(in crate::handbook) fn rows<R: DeserializeOwned>(text: &'static str) -> Vec<R> {
    reader(text).into_deserialize().filter_map(Result::ok).collect()
}

fn reader(text: &'static str) -> csv::Reader<&'static [u8]> {
    csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes())
}

/// Shows a table's rows as they stand, each with the table's heads, to whoever counts what they cite.
pub(in crate::handbook) fn each_record(
    text: &'static str,
    mut see: impl FnMut(&csv::StringRecord, &csv::StringRecord),
) {
    let mut reader = reader(text);
    let Ok(heads) = reader.headers().cloned() else { return };
    let mut record = csv::StringRecord::new();
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
    let mut titles: Vec<&str> = Vec::new();
    for key in keys.split(';').map(str::trim) {
        let title = title(key).unwrap_or(key);
        if !titles.contains(&title) {
            titles.push(title);
        }
    }
    Source { text: titles.join("; ").into(), mark }
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
