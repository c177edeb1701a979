//! Sentences that a native reader stumbles over are not said again: not on a card, not in a table, not in the code, not in a document.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::rust_files;
use std::path::{Path, PathBuf};
use std::process::Command;

/// What was said once, each with what is said in its place.
const GONE: [(&str, &str); 21] = [
    ("bad end", "the worst end, at worst"),
    ("swallow", "taken up, hidden"),
    ("have settled", "have bedded in"),
    ("surfaces settle", "surfaces bed in"),
    ("rides not given", "bears not given"),
    ("put aside", "left out"),
    ("by itself", "unattended, on its own"),
    ("by themselves", "unattended, on their own"),
    ("6 % low", "6 % faster than its plate says"),
    ("1 times or more", "by as much or more"),
    ("none even at best", "none at the nominal"),
    ("win depth", "gain depth"),
    ("win room", "gain room"),
    ("win metal", "gain metal"),
    ("ixed up it costs", "say what happens"),
    ("to nought", "to zero"),
    ("to be got first", "get these first"),
    ("min of the hands", "min hands-on"),
    ("no hand brakes", "never brake it by hand"),
    ("what it reads between", "a reading between"),
    ("hangs on these", "depends on these"),
];

/// Words in which the code was once described, which puzzle whoever comes new to it.
const OF_A_HOUSE: [&str; 7] =
    ["the house", "its room", "one floor", "on the floor", "a floor", "the rooms", "what each room"];

fn files(folder: &str, ends: &[&str]) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for entry in std::fs::read_dir(folder).expect("folder") {
        let path = entry.expect("entry").path();
        if path.is_dir() {
            all.extend(files(path.to_str().expect("a name"), ends));
        } else if path.extension().is_some_and(|end| ends.iter().any(|own| end == *own)) {
            all.push(path);
        }
    }
    all
}

/// What of a text is found in it, each with its line.
fn found(name: &str, text: &str, wanted: &[&str]) -> Vec<String> {
    let one = |(at, line): (usize, &str)| {
        let small = line.to_lowercase();
        wanted
            .iter()
            .filter(|words| small.contains(**words))
            .map(|words| format!("{name}:{}: {words}", at + 1))
            .collect()
    };
    text.lines().enumerate().flat_map(|line| -> Vec<String> { one(line) }).collect()
}

#[test]
fn what_a_reader_stumbles_over_is_not_said() {
    let gone = GONE.map(|(words, _)| words);
    let mut all = rust_files(Path::new("src"));
    for folder in ["ops", "docs", "examples", "demo", "shared", "tests/jobs", "tests/fixtures"] {
        all.extend(files(folder, &["yaml", "md", "csv", "json"]));
    }
    all.extend(["README.md", "DEVELOPERS.md"].map(PathBuf::from));
    assert!(all.len() > 200, "{}", all.len());
    let read = |path: &PathBuf| found(&path.to_string_lossy(), &std::fs::read_to_string(path).expect("text"), &gone);
    let wrong: Vec<String> = all.iter().flat_map(read).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// The finder finds.
#[test]
fn the_finder_of_such_words_finds_them() {
    assert_eq!(found("x", "good\nAt its Bad End it fails", &["bad end"]), ["x:2: bad end"]);
}

/// Everything that the demonstration and the examples print, on the terminal and on their sheets.
#[test]
fn what_is_printed_says_none_of_it() {
    let gone = GONE.map(|(words, _)| words);
    let mut jobs: Vec<PathBuf> = files("examples", &["yaml"]);
    jobs.retain(|path| !path.ends_with("shop.yaml"));
    jobs.push("demo/tidewater.yaml".into());
    let mut wrong = Vec::new();
    for job in &jobs {
        let job = job.to_str().expect("a name");
        for words in
            [&["plan", job, "--all", "--values"][..], &["sheets", job, "--working", "--format", "html", "-o", "-"]]
        {
            let output = Command::new(env!("CARGO_BIN_EXE_setover")).args(words).output().expect("runs");
            assert!(matches!(output.status.code(), Some(0 | 1)), "{job}: {}", String::from_utf8_lossy(&output.stderr));
            // One line: no line end hides a phrase.
            let text = String::from_utf8_lossy(&output.stdout).split_whitespace().collect::<Vec<_>>().join(" ");
            wrong.extend(found(job, &text, &gone));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Words that the code may have and that a person does not read: on no card, in no table, on no page.
const NOT_TO_BE_READ: [&str; 5] = ["settle", "it rides", "rides on", "rode on", "swallow"];

#[test]
fn what_a_person_reads_settles_and_rides_nowhere() {
    let mut all = Vec::new();
    for folder in ["ops", "docs", "examples", "demo", "shared", "src/sheet/words"] {
        all.extend(files(folder, &["yaml", "md", "csv", "rs"]));
    }
    all.push("README.md".into());
    assert!(all.len() > 100, "{}", all.len());
    let quoted = |path: &PathBuf, text: String| -> String {
        // Of code only what it says counts.
        if path.extension().is_none_or(|end| end != "rs") {
            return text;
        }
        let says = |line: &str| line.split('"').skip(1).step_by(2).collect::<Vec<_>>().join(" ");
        text.lines().map(|line| says(line) + "\n").collect()
    };
    let read = |path: &PathBuf| {
        let text = quoted(path, std::fs::read_to_string(path).expect("text"));
        found(&path.to_string_lossy(), &text, &NOT_TO_BE_READ)
    };
    let wrong: Vec<String> = all.iter().flat_map(read).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn documents_speak_of_modules_and_layers() {
    let read = |name: &str| found(name, &std::fs::read_to_string(name).expect("text"), &OF_A_HOUSE);
    let wrong: Vec<String> = ["README.md", "DEVELOPERS.md", "src/lib.rs"].into_iter().flat_map(read).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}
