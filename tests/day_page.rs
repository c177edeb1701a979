//! The day as it is used: its page is always written, what was done before what is done is done, nothing of others is replaced.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::process::{Command, Output};

fn day(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .arg("day")
        .args(arguments)
        .output()
        .expect("runs")
}

#[test]
fn the_page_is_written_whenever_the_day_ends() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("day.pdf");
    let path = path.to_str().unwrap();
    let demo = "demo/tidewater.yaml";
    for arguments in [
        vec![demo],
        vec![demo, "--from", "13:20"],
        vec![demo, "--from", "12:20"],
        vec![demo, "--to", "12:30"],
        vec![demo, "--days", "2", "--to", "11:00"],
        vec!["examples/hand.yaml", "examples/deburr.yaml", "examples/measure.yaml"],
        vec!["examples/hand.yaml", "examples/drill.yaml", "examples/tap.yaml", "examples/wash.yaml"],
    ] {
        let output = day(&[arguments.as_slice(), &["-o", path]].concat());
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        assert!(matches!(output.status.code(), Some(0 | 1)), "{arguments:?}: {said}");
        assert!(std::fs::read(path).unwrap().starts_with(b"%PDF"), "{arguments:?}");
    }
    std::fs::write(path, "a letter").unwrap();
    assert_eq!(day(&[demo, "-o", path]).status.code(), Some(3));
    assert_eq!(std::fs::read(path).unwrap(), b"a letter");
    assert_eq!(day(&[demo, "-o", path, "--force"]).status.code(), Some(1));
}

/// A bush that is home was measured and warmed before; one that is being reamed was pressed, cooled and drilled.
#[test]
fn what_stands_before_what_is_done_is_done() {
    let ids = |more: &[&str]| {
        let output = day(&[&["demo/tidewater.yaml", "--format", "json"], more].concat());
        let day: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
        let lines = day["lines"].as_array().unwrap().iter().map(|line| line["id"].as_str().unwrap().to_owned());
        lines.collect::<Vec<String>>()
    };
    let all = ids(&[]);
    let after_pressing = ids(&["--done", "5.3"]);
    let gone: Vec<&String> = all.iter().filter(|id| !after_pressing.contains(id)).collect();
    assert_eq!(gone.len(), 3, "{gone:?}");
    assert!(gone.iter().all(|id| ["5.1", "5.2", "5.3"].contains(&id.as_str())), "{gone:?}");
    let reaming = ids(&["--at-work", "5.6", "--from", "09:00"]);
    assert_eq!(reaming.first().map(String::as_str), Some("5.6"), "{reaming:?}");
    assert!(!reaming.iter().any(|id| id.starts_with("5.") && id != "5.6"), "{reaming:?}");
}

/// What the day marks doubtful is what the list of sheets calls doubtful.
#[test]
fn the_day_and_the_sheets_say_the_same_of_each_set_up() {
    let day: serde_json::Value =
        serde_json::from_slice(&day(&["demo/tidewater.yaml", "--format", "json"]).stdout).expect("JSON");
    let list = Command::new(env!("CARGO_BIN_EXE_setover"))
        .current_dir(env!("CARGO_MANIFEST_DIR"))
        .args(["plan", "demo/tidewater.yaml"])
        .output()
        .expect("runs");
    let list = String::from_utf8_lossy(&list.stdout).into_owned();
    let mut doubtful = 0;
    for line in day["lines"].as_array().unwrap() {
        let id = line["id"].as_str().unwrap();
        let row = list.lines().find(|row| row.starts_with(&format!("{id} "))).expect("its row");
        let wanted = row.contains(" DOUBTFUL");
        assert_eq!(line["verdict"] == "doubtful", wanted, "{id}: {row}");
        doubtful += usize::from(wanted);
    }
    assert!(doubtful >= 3, "{doubtful}");
}
