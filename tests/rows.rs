//! Every row is read, and a number that has a row stands only there.
//!
//! A row that nobody reads is a promise that nobody keeps; a number in code beside its row is two truths.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{between_quotes, rust_files};
use setover::handbook::citations::TABLES;
use std::collections::{BTreeMap, BTreeSet, HashSet};
use std::path::{Path, PathBuf};

/// The code of a file without its tests and its comments.
fn code(path: &Path) -> String {
    let text = std::fs::read_to_string(path).unwrap();
    let tests = text.match_indices("#[cfg(test)]\nmod ").map(|(at, _)| at);
    let inline = tests.filter(|at| text[*at..].lines().nth(1).is_some_and(|line| line.ends_with('{'))).min();
    let body = &text[..inline.unwrap_or(text.len())];
    let line = |line: &str| line.split("//").next().unwrap_or_default().to_owned() + "\n";
    body.lines().map(line).collect()
}

fn source() -> Vec<(PathBuf, String)> {
    rust_files(Path::new("src")).into_iter().map(|path| (path.clone(), code(&path))).collect()
}

/// The rows of a table, each a map from its heads.
fn rows(table: &str) -> Vec<BTreeMap<String, String>> {
    let text = TABLES.iter().find(|(name, _)| *name == table).unwrap_or_else(|| panic!("no table {table}")).1;
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).trim(csv::Trim::All).from_reader(text.as_bytes());
    reader.deserialize().map(|row| row.unwrap()).collect()
}

fn column(table: &str, head: &str) -> BTreeSet<String> {
    rows(table).iter().map(|row| row[head].clone()).filter(|cell| !cell.is_empty()).collect()
}

/// Names that no piece of code holds between quotes.
fn unnamed(names: &BTreeSet<String>, code: &[(PathBuf, String)]) -> Vec<String> {
    let named: HashSet<&str> = code.iter().flat_map(|(_, text)| between_quotes(text)).collect();
    names.iter().filter(|name| !named.contains(name.as_str())).cloned().collect()
}

#[test]
fn every_constant_is_read() {
    let dead = unnamed(&column("constants", "name"), &source());
    assert!(dead.is_empty(), "nobody reads these rows of constants.csv: {dead:#?}");
}

#[test]
fn every_constant_that_code_asks_for_is_a_row() {
    let known = column("constants", "name");
    for (path, text) in source() {
        for call in [
            "constant(\"",
            "constants::row(\"",
            "constants::worst(\"",
            " worst(\"",
            "constant::<Ratio>(\"",
            "constant::<Mm>(\"",
        ] {
            for after in text.split(call).skip(1) {
                let name = after.split('"').next().unwrap();
                assert!(known.contains(name), "{}: no row `{name}`", path.display());
            }
        }
    }
}

/// Every table is read by some page of the handbook, not only counted among the citations.
#[test]
fn every_table_has_a_reader() {
    // With its tests: a table of printed figures may hold a formula.
    let files = rust_files(Path::new("src")).into_iter().filter(|path| !path.ends_with("citations.rs"));
    let code: Vec<(PathBuf, String)> =
        files.map(|path| (path.clone(), std::fs::read_to_string(path).unwrap())).collect();
    for (table, _) in TABLES {
        let names = [format!("shared/{table}.csv"), format!("\"{table}\""), format!("\"{table}.csv\"")];
        let read = code.iter().any(|(_, text)| names.iter().any(|name| text.contains(name)));
        assert!(read, "nobody reads {table}.csv");
    }
}

#[test]
fn every_caution_is_named() {
    let code = source();
    let of_materials: BTreeSet<String> =
        column("materials", "safety").iter().flat_map(|cell| cell.split(';')).map(|id| id.trim().to_owned()).collect();
    let dead: Vec<String> =
        unnamed(&column("safety", "id"), &code).into_iter().filter(|id| !of_materials.contains(id)).collect();
    assert!(dead.is_empty(), "no page gives these cautions: {dead:?}");
}

#[test]
fn every_minute_of_setting_up_is_asked_for() {
    let dead: Vec<String> = unnamed(&column("set-up-minutes", "task"), &source());
    assert!(dead.is_empty(), "no set-up takes these minutes: {dead:?}");
}

#[test]
fn every_property_of_the_cutting_table_is_read() {
    let book = ["kc-at-feed", "kc1.1-fit", "mc-fit", "machining", "tap-note"];
    let dead: Vec<String> = unnamed(&column("cutting", "property"), &source())
        .into_iter()
        .filter(|property| !book.contains(&property.as_str()))
        .collect();
    // The page of a material shows every row; what is worked with is asked for by name.
    assert!(dead.is_empty(), "{dead:?}");
}

#[test]
fn rows_that_name_a_material_name_one_of_the_book() {
    let known = column("materials", "material");
    for (table, head) in [("coolants", "material"), ("cutting", "material"), ("material-aliases", "material")] {
        let unknown: Vec<String> = column(table, head)
            .into_iter()
            .filter(|id| !["any", "none"].contains(&id.as_str()) && !known.contains(id))
            .collect();
        assert!(unknown.is_empty(), "{table}: {unknown:?}");
    }
    let members = column("families", "members");
    let unknown: Vec<&str> =
        members.iter().flat_map(|cell| cell.split(';')).map(str::trim).filter(|id| !known.contains(*id)).collect();
    assert!(unknown.is_empty(), "families: {unknown:?}");
}

/// A source stands in the list because a row cites it, or a remark of a row names it.
#[test]
fn every_source_is_cited_and_can_be_found() {
    // Rules that wait for their words keep their sources.
    let waiting = std::fs::read_to_string("shared/order-later.csv").unwrap();
    let all: String = TABLES.iter().map(|(_, text)| *text).chain([waiting.as_str()]).collect();
    for entry in setover::handbook::sources() {
        assert!(all.contains(entry.key), "no row cites `{}`", entry.key);
        let vague =
            ["web page", "web pages", "owners page", "copy of the manual", "worked example", "design of the sheet"];
        assert!(!vague.contains(&entry.place), "`{}` cannot be opened by a reader: {}", entry.key, entry.place);
    }
}

/// A name stands in one row of its table, and nothing that is loaded waits beside: of two rows of one name one is never read.
#[test]
fn each_rule_and_each_class_of_work_stands_once() {
    let read = |file: &str| {
        let text = std::fs::read_to_string(format!("shared/{file}.csv")).unwrap();
        let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
        reader.records().map(|row| row.unwrap()).map(|row| (row[0].to_owned(), row[1].to_owned())).collect::<Vec<_>>()
    };
    for (file, later) in [("order", "order-later"), ("classes", "classes-later")] {
        let (rows, waiting) = (read(file), read(later));
        let names: BTreeSet<&str> = rows.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!(names.len(), rows.len(), "{file}: a name stands twice");
        let of_rows: BTreeSet<&(String, String)> = waiting.iter().collect();
        assert_eq!(of_rows.len(), waiting.len(), "{later}: a row stands twice");
        if file == "order" {
            assert!(waiting.iter().all(|(name, _)| !names.contains(name.as_str())), "{later} holds what is loaded");
        } else {
            let words = |of: &str| of.split(';').map(str::to_owned).collect::<Vec<_>>();
            let loaded =
                |name: &str, word: &String| rows.iter().any(|(own, of)| own == name && words(of).contains(word));
            let twice = |(name, of): &(String, String)| words(of).iter().any(|word| loaded(name, word));
            assert!(!waiting.iter().any(twice), "{later} holds what is loaded");
        }
    }
}

/// Numbers of `constants.csv` that stand as a literal within so many lines of their own name.
const NEAR: usize = 6;

#[test]
fn no_literal_stands_beside_the_row_that_holds_it() {
    let mut twice = Vec::new();
    let code: Vec<(PathBuf, Vec<String>)> =
        source().into_iter().map(|(path, text)| (path, text.lines().map(String::from).collect())).collect();
    let quoted = quoted(&code);
    for row in rows("constants") {
        let value: f64 = row["value"].parse().unwrap();
        // Nothing can be said of 0, 1 and 2: they are counts everywhere.
        if [0.0, 1.0, 2.0].contains(&value) {
            continue;
        }
        for (file, at) in quoted.get(row["name"].as_str()).into_iter().flatten() {
            let (path, lines) = &code[*file];
            let near = at.saturating_sub(NEAR)..(at + NEAR + 1).min(lines.len());
            for line in lines[near].iter().filter(|line| literals(line).contains(&value)) {
                let name = &row["name"];
                twice.push(format!("{}:{}: {name} = {value}: {}", path.display(), at + 1, line.trim()));
            }
        }
    }
    twice.sort();
    twice.dedup();
    assert!(twice.is_empty(), "{twice:#?}");
}

/// Where each text between quotes stands: the number of the file and of the line, both from nought.
fn quoted(code: &[(PathBuf, Vec<String>)]) -> BTreeMap<&str, Vec<(usize, usize)>> {
    let mut places: BTreeMap<&str, Vec<(usize, usize)>> = BTreeMap::new();
    for (file, (_, lines)) in code.iter().enumerate() {
        for (at, line) in lines.iter().enumerate() {
            for text in line.split('"').skip(1).step_by(2) {
                places.entry(text).or_default().push((file, at));
            }
        }
    }
    places
}

/// The numbers in a line of code that are no bound of a range and no piece of a text.
fn literals(line: &str) -> Vec<f64> {
    let outside: String = line.split('"').step_by(2).collect::<Vec<_>>().join(" ");
    if outside.contains("..=") {
        return Vec::new();
    }
    let is_of_number = |c: char| c.is_ascii_digit() || matches!(c, '.' | '_');
    outside
        .split(|c: char| !is_of_number(c) && !c.is_alphanumeric())
        .filter(|word| word.starts_with(|c: char| c.is_ascii_digit()))
        .filter_map(|word| word.replace('_', "").parse().ok())
        .collect()
}

/// A named number of the code that is a number of the table too is the table's.
#[test]
fn no_named_number_of_the_code_is_one_of_the_table() {
    let values: Vec<f64> = rows("constants").iter().map(|row| row["value"].parse().unwrap()).collect();
    let shadows = |value: f64| ![0.0, 1.0, 2.0].contains(&value) && values.contains(&value);
    let mut found = Vec::new();
    for (path, text) in source() {
        let shows = path.starts_with("src/sheet") || path.starts_with("src/drawing") || path.ends_with("sketch.rs");
        for line in text.lines().filter(|_| !shows) {
            let named = line.trim_start().strip_prefix("const ").and_then(|rest| rest.split_once(": f64 = "));
            let Some((name, value)) = named else { continue };
            let value: f64 = value.trim_end_matches(';').replace('_', "").parse().unwrap_or(f64::NAN);
            if shadows(value) && !CHANCE.contains(&name) {
                found.push(format!("{}: {name} = {value}", path.display()));
            }
        }
    }
    assert!(found.is_empty(), "{found:#?}");
}

/// Numbers that only happen to be those of a row: the end of a formula's range, the last figure of a printed size, what a doubt
/// may bend by, what no key moves.
const CHANCE: &[&str] = &["MOST_INTERFERENCE", "THOUSANDTH", "STRAIGHT", "BENT", "TOGETHER", "BY_A_KEY"];

/// The guard factor comes from the bench, wherever a check is judged.
#[test]
fn no_check_is_judged_by_a_guard_of_its_own() {
    for (path, text) in source() {
        let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let judged = flat.split("Check::judge").skip(1).filter(|call| {
            let end = call.find(';').unwrap_or(call.len());
            call[..end].contains(", 2.0)") || call[..end].contains(", 2.0,)")
        });
        assert_eq!(judged.count(), 0, "{}: a check with a guard of its own", path.display());
    }
}

/// The tables are read as they stand: a space beside a comma would be part of a name.
#[test]
fn no_cell_of_a_table_has_spaces_about_it() {
    for entry in std::fs::read_dir("shared").unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_none_or(|end| end != "csv") {
            continue;
        }
        let mut reader =
            csv::ReaderBuilder::new().comment(Some(b'#')).has_headers(false).flexible(true).from_path(&path).unwrap();
        for record in reader.records() {
            let record = record.unwrap();
            let stray: Vec<&str> = record.iter().filter(|cell| cell.trim() != *cell).collect();
            assert!(stray.is_empty(), "{}: {stray:?}", path.display());
        }
    }
}
