//! Every row of a table and every formula has a source, and every table says its units.

use crate::support::written;
use setover::handbook::sources;
use setover::proof::Mark;
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

fn tables() -> Vec<PathBuf> {
    let mut all: Vec<PathBuf> =
        std::fs::read_dir("shared").expect("folder").map(|entry| entry.expect("entry").path()).collect();
    all.retain(|path| path.extension().is_some_and(|end| end == "csv"));
    all.sort();
    all
}

fn name(path: &Path) -> String {
    path.file_stem().expect("a name").to_string_lossy().into_owned()
}

/// What is wrong with the sources of a row, by its columns.
fn wrong_sources(columns: &csv::StringRecord, row: &csv::StringRecord, known: &BTreeSet<&str>) -> Vec<String> {
    let mut wrong = Vec::new();
    for (column, keys) in columns.iter().zip(row).filter(|(column, _)| column.ends_with("source")) {
        let seen = column.replace("source", "seen");
        let mark = columns.iter().position(|c| c == seen).and_then(|at| row.get(at)).unwrap_or_default();
        // A second source may be empty where its figure is: then its mark is too.
        if column != "source" && keys.is_empty() && mark.is_empty() {
            continue;
        }
        wrong.extend(
            keys.split(';').map(str::trim).filter(|key| !known.contains(key)).map(|key| format!("{column} `{key}`")),
        );
        if Mark::named(mark).is_none() {
            wrong.push(format!("{seen} `{mark}`"));
        }
    }
    wrong
}

#[test]
fn every_row_has_a_source_and_a_mark() {
    let known: BTreeSet<&str> = sources().iter().map(|source| source.key).collect();
    let mut rows = 0;
    for path in tables().iter().filter(|path| name(path) != "sources") {
        let text = std::fs::read_to_string(path).expect("text");
        let head: String = text.lines().filter(|line| line.starts_with('#')).collect();
        assert!(head.contains("unit: ") && head.contains("authoritative: "), "{path:?} does not say its units");
        let mut reader =
            csv::ReaderBuilder::new().comment(Some(b'#')).trim(csv::Trim::All).from_reader(text.as_bytes());
        let columns = reader.headers().expect("columns").clone();
        assert!(columns.iter().any(|c| c == "source") && columns.iter().any(|c| c == "seen"), "{path:?}");
        for row in reader.records() {
            let row = row.expect("a row");
            let wrong = wrong_sources(&columns, &row, &known);
            assert!(wrong.is_empty(), "{path:?}: {row:?}: {wrong:?}");
            rows += 1;
        }
    }
    assert!(rows > 3_000, "{rows}");
}

#[test]
fn a_row_without_a_source_is_noticed() {
    let columns = csv::StringRecord::from(vec!["value", "source", "seen", "drill_source", "drill_seen"]);
    let known = BTreeSet::from(["mh31"]);
    let wrong = |row: [&str; 5]| wrong_sources(&columns, &csv::StringRecord::from(row.to_vec()), &known).len();
    assert_eq!(wrong(["1", "mh31", "read", "", ""]), 0);
    assert_eq!(wrong(["1", "", "read", "", ""]), 1);
    assert_eq!(wrong(["1", "mh31;hearsay", "read", "", ""]), 1);
    assert_eq!(wrong(["1", "mh31", "", "mh31", "surely"]), 2);
}

#[test]
fn every_source_is_written_once_and_says_where_it_is_found() {
    let keys: BTreeSet<&str> = sources().iter().map(|source| source.key).collect();
    assert_eq!(keys.len(), sources().len());
    for source in sources() {
        assert!(!source.title.is_empty() && !source.place.is_empty() && !source.kind.is_empty(), "{}", source.key);
    }
}

#[test]
fn the_book_lists_every_table() {
    let listed: BTreeSet<String> =
        setover::handbook::citations::TABLES.iter().map(|(name, _)| (*name).to_owned()).collect();
    let there = tables().into_iter().map(|path| name(&path)).filter(|name| name != "sources");
    // What waits for an operation that is not there yet is not of the book.
    let there: BTreeSet<String> = there.filter(|name| !name.ends_with("-later")).collect();
    assert_eq!(listed, there);
}

#[test]
fn every_formula_has_a_source_and_a_mark() {
    let formulas = written::formulas();
    assert!(formulas.len() > 150, "{}", formulas.len());
    for formula in formulas {
        let marks = ["Read", "ReadDamaged", "FromMemory", "CommonPractice", "Derived", "Own"];
        assert!(marks.contains(&formula.mark.as_str()), "{}: {}", formula.name, formula.mark);
        assert!(formula.source.len() > 6, "{}: `{}`", formula.name, formula.source);
    }
}
