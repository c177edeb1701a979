//! Which source stands behind how many rows of the tables, and how well it is known.

use super::table::{SourceEntry, each_row, sources};
use crate::proof::Mark;
use std::collections::BTreeMap;

macro_rules! tables {
    ($($name:literal),+ $(,)?) => {
        /// Every table of the book that cites its sources row by row: name and text.
        pub const TABLES: &[(&str, &str)] = &[$(($name, include_str!(concat!("../../shared/", $name, ".csv")))),+];
    };
}

tables! {
    "at-hand", "bolts", "change-over", "chuck-force", "classes", "cleaner-dirt", "cleaners", "clearance-holes", "constants", "coolants", "cuts-off", "cutting", "deep-hole", "drill-feed", "drill-lengths", "drill-points", "drill-sizes",
    "drilling-f",
    "drilling-k", "drilling-kd",
    "duty-clearances", "families", "free-words", "hand-taps", "hardness", "insert-lengths", "insert-rules", "inserts", "instruments", "iso286",
    "material-aliases", "materials", "not-the-part", "old-inch-allowances", "order", "oversizes", "piston-clearance", "reaming",
    "remedies", "safety",
    "set-up-minutes", "tap-leads", "tapping-k", "tapping-kc", "thread-forms", "threads-inch",
    "threads-metric", "threads-tolerance", "usual-fits", "warm-limits", "wear",
}

/// How often a source is cited.
#[derive(Debug, Default)]
pub struct Citation {
    /// Rows by mark, best mark first.
    pub marks: BTreeMap<Mark, usize>,
    /// Rows by table.
    pub tables: BTreeMap<&'static str, usize>,
}

impl Citation {
    /// All rows that cite it.
    pub fn rows(&self) -> usize {
        self.marks.values().sum()
    }
}

/// Every source of the book with its citations, in the order of the list of sources.
pub fn all() -> Vec<(&'static SourceEntry, Citation)> {
    let mut by_key = by_key();
    sources().iter().map(|entry| (entry, by_key.remove(entry.key).unwrap_or_default())).collect()
}

/// Citations by key, over every column of every table that names sources.
fn by_key() -> BTreeMap<&'static str, Citation> {
    let mut all: BTreeMap<&str, Citation> = sources().iter().map(|entry| (entry.key, Citation::default())).collect();
    for &(table, text) in TABLES {
        let mut columns = None;
        each_row(text, |heads, row| {
            for &(source, seen) in columns.get_or_insert_with(|| source_columns(heads)).iter() {
                let Some(mark) = Mark::named(row.get(seen).copied().unwrap_or_default()) else { continue };
                for key in row.get(source).copied().unwrap_or_default().split(';').map(str::trim) {
                    if let Some(citation) = all.get_mut(key) {
                        *citation.marks.entry(mark).or_default() += 1;
                        *citation.tables.entry(table).or_default() += 1;
                    }
                }
            }
        });
    }
    all
}

/// Columns that name sources, each with the column of its mark: `source` with `seen`, `drill_source` with `drill_seen`.
fn source_columns(heads: &[&str]) -> Vec<(usize, usize)> {
    let of = |name: &str| heads.iter().position(|head| *head == name);
    let named = heads.iter().enumerate().filter(|(_, head)| head.ends_with("source"));
    named.filter_map(|(at, head)| Some((at, of(&head.replace("source", "seen"))?))).collect()
}

#[cfg(test)]
mod tests {
    #![allow(clippy::indexing_slicing)]
    use super::*;

    #[test]
    fn every_table_is_counted() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("shared");
        for file in std::fs::read_dir(folder).unwrap() {
            let path = file.unwrap().path();
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            // Rows that wait for their words are not loaded.
            let waits = name.ends_with("-later");
            if name == "sources" || waits || path.extension().is_none_or(|e| e != "csv") {
                continue;
            }
            assert!(TABLES.iter().any(|table| table.0 == name), "{name}.csv is not counted");
        }
    }

    #[test]
    fn every_row_cites_a_listed_source_with_a_mark() {
        for &(table, text) in TABLES {
            let mut rows = 0;
            each_row(text, |heads, row| {
                rows += 1;
                let columns = source_columns(heads);
                assert!(!columns.is_empty(), "{table} names no source");
                for (source, seen) in columns {
                    let keys: Vec<&str> = row[source].split(';').map(str::trim).filter(|k| !k.is_empty()).collect();
                    assert!(heads[source] != "source" || !keys.is_empty(), "{table}: {row:?}");
                    for key in &keys {
                        assert!(sources().iter().any(|entry| entry.key == *key), "{table}: `{key}` is not listed");
                    }
                    assert!(keys.is_empty() || Mark::named(row[seen]).is_some(), "{table}: {row:?}");
                }
            });
            assert!(rows > 0, "{table} is empty");
        }
    }
}
