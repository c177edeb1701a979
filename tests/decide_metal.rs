//! No remedy takes off what lacks, what the job plans goes first, and no part is scrapped for want of a bar.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use serde_json::Value;
use setover::handbook::remedies;
use setover::operations::{OfPart, PartSize, Registered, Request};
use std::path::Path;
use std::process::Command;

const SHOP: &str = include_str!("../examples/shop.yaml");

fn folder(files: &[(&str, &str)]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
    files.iter().for_each(|(name, text)| std::fs::write(folder.path().join(name), text).unwrap());
    folder
}

fn run(folder: &Path, words: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_setover")).current_dir(folder).args(words).output().unwrap();
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

fn decided(folder: &Path, jobs: &[&str]) -> Vec<Value> {
    let says = run(folder, &[&["decide"][..], jobs, &["--format", "json"]].concat());
    let all: Value = serde_json::from_str(&says).unwrap_or_else(|_| panic!("{says}"));
    all["rows"].as_array().unwrap().clone()
}

/// A file of one part with features, each a line of `inspect`.
fn inspect(part: &str, features: &[String]) -> String {
    let lines: String = features.iter().map(|one| format!("      - {one}\n")).collect();
    format!("job: found\nshop: shop.yaml\nparts:\n  - part: {part}\n    material: GG25\n    inspect:\n{lines}")
}

fn feature(name: &str, found: &str, service: &str, remedies: &str) -> String {
    let remedies = if remedies.is_empty() { String::new() } else { format!(", remedies: [{remedies}]") };
    format!("{{feature: {name}, found: {found}, service: {service}{remedies}}}")
}

/// Whatever outside or face it is: under its least nothing is taken off; over its most it is, and a room is widened.
#[test]
fn nothing_is_taken_off_where_metal_lacks() {
    let under = ["foot face", "joint face", "seal track", "flange thickness", "pin", "wall of the bore"];
    let words = remedies::cuts_off().iter().map(|row| row.operation.clone()).collect::<Vec<_>>().join(", ");
    for name in under {
        for remedies in ["", words.as_str()] {
            // Surely under, and under at its worst end alone.
            for found in ["15.80 ± 0.02 mm", "16.01 ± 0.02 mm"] {
                let found = inspect("foot", &[feature(name, found, "at least 16 mm", remedies)]);
                let folder = folder(&[("found.yaml", &found)]);
                let page = run(folder.path(), &["decide", "found.yaml"]);
                assert!(page.contains("replace") && !page.contains("plan `"), "{name} {remedies}: {page}");
            }
        }
    }
    let over = inspect("foot", &[feature("foot face", "16.2 ± 0.02 mm", "at most 16 mm", "")]);
    let deep = inspect("foot", &[feature("recess depth", "15.8 ± 0.02 mm", "at least 16 mm", "face")]);
    let bore = inspect("foot", &[feature("bore", "69.90 ± 0.004 mm", "at least 70 mm", "bore")]);
    for found in [over, deep] {
        let folder = folder(&[("found.yaml", &found)]);
        let page = run(folder.path(), &["decide", "found.yaml"]);
        assert!(page.contains("plan `"), "{page}");
    }
    let folder = folder(&[("found.yaml", &bore)]);
    assert!(!run(folder.path(), &["decide", "found.yaml"]).contains("metal is what lacks"));
}

/// The table of what cuts an outside says what the operations themselves say.
#[test]
fn what_cuts_an_outside_is_in_the_table() {
    let mut seen = 0;
    for word in Request::WORDS {
        let text = Request::example(word).unwrap();
        let node = setover::reading::Node::yaml(text, setover::proof::Place::start(0)).unwrap();
        let job: setover::job::JobFile<Request> = node.read().unwrap_or_else(|all| panic!("{word}: {all:?}"));
        for request in job.parts.iter().flat_map(|part| &part.operations).filter(|own| own.word() == *word) {
            let leaves = |size| request.declared().iter().any(|own| own.part == Some(OfPart::Leaves(size)));
            let outside = [PartSize::Faces, PartSize::Outside, PartSize::Wall, PartSize::Bar].into_iter().any(leaves);
            let cuts = outside || leaves(PartSize::Gone);
            // A drilled hole and that of a bush are no wear put right by metal taken off.
            let bored = ["bore", "bore-hole"].contains(word);
            assert_eq!(remedies::takes_metal_off(word), cuts || bored, "{word}");
            seen += 1;
        }
    }
    assert!(seen >= Request::WORDS.len());
}

/// What is wrong with a plan and not with its part is a check that some operation makes.
#[test]
fn what_is_not_the_part_is_a_check() {
    let mut ids = std::collections::BTreeSet::new();
    for word in Request::WORDS {
        let node =
            setover::reading::Node::yaml(Request::example(word).unwrap(), setover::proof::Place::start(0)).unwrap();
        let job: setover::job::JobFile<Request> = node.read().unwrap();
        let all = job.parts.iter().flat_map(|part| &part.operations);
        ids.extend(all.flat_map(|request| request.declared_checks()).map(|rule| rule.id));
    }
    let unknown: Vec<&str> =
        remedies::not_the_part().iter().map(|row| row.check.as_str()).filter(|id| !ids.contains(id)).collect();
    assert!(unknown.is_empty(), "{unknown:?}");
}

/// A worn face is put right by the face that the job plans, and what was read before that was cut says nothing any more, whatever its
/// remedies are called.
#[test]
fn a_worn_face_goes_by_the_face_that_is_planned() {
    for remedies in ["", "lap", "lap, skim, replace"] {
        let one = feature("thrust face wear", "0.25 ± 0.02 mm", "at most 0.05 mm", remedies);
        let found = inspect("distance piece", &[one]).replace("    material: GG25\n", "");
        let folder = folder(&[("found.yaml", &found), ("job.yaml", include_str!("../examples/face.yaml"))]);
        let row = || {
            let rows = decided(folder.path(), &["found.yaml", "job.yaml"]);
            rows.into_iter().find(|row| row["feature"] == "thrust face wear").unwrap()
        };
        if remedies.is_empty() {
            assert_eq!(row()["by"], "face", "{}", row());
        }
        run(folder.path(), &["log", "job.yaml", "distance piece/face", "length_after=21.62 mm", "with=micrometer"]);
        assert_eq!(row()["decision"], "measure", "{remedies}: {}", row());
    }
}

/// A barrel is not ordered because the bar is too short: the boring is planned anew. One that no size cleans is.
#[test]
fn no_part_is_scrapped_for_how_its_work_is_planned() {
    let of = |shop: &str, job: &str| {
        let found = inspect("pump barrel", &[feature("bore", "46.09 ± 0.004 mm", "at most 46.05 mm", "")]);
        let folder = folder(&[("found.yaml", &found), ("job.yaml", job)]);
        std::fs::write(folder.path().join("shop.yaml"), shop).unwrap();
        let rows = decided(folder.path(), &["found.yaml", "job.yaml"]);
        rows.into_iter().find(|row| row["feature"] == "bore").unwrap()
    };
    let job = include_str!("../examples/bore.yaml");
    let whole = of(SHOP, job);
    assert_eq!(whole["by"], "bore", "{whole}");
    let loose = of(SHOP, &crate::common::with(job, "tested: 15.0 N·m", "tested: 0.01 N·m"));
    let is_scrap = loose["order"].as_array().unwrap().iter().any(|order| order["item"] == "pump barrel");
    assert!(loose["decision"] == "plan-first" && !is_scrap, "{loose}");
    let thin = of(SHOP, &crate::common::with(job, "least-wall: 4 mm", "least-wall: 5.2 mm"));
    assert_eq!(thin["decision"], "replace", "{thin}");
}

/// A reading that names no instrument goes by the one that reads such a size, and where that is too coarse the one that decides is named.
#[test]
fn a_reading_goes_by_the_instrument_of_its_kind() {
    let page = |name: &str, found: &str| {
        let found = inspect("shaft", &[feature(name, found, "at least 15.94 mm", "")]);
        let folder = folder(&[("found.yaml", &found)]);
        run(folder.path(), &["decide", "found.yaml"])
    };
    let fine = page("bush journal", "15.951 mm");
    assert!(fine.contains("micrometer") && !fine.contains("depth"), "{fine}");
    let coarse = page("bush journal", "15.95 mm");
    assert!(!coarse.contains("has none named for it"), "{coarse}");
}
