//! What the project depends on: licences that it may use, each crate with a line of reason, no crate twice without one.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::collections::{BTreeMap, BTreeSet};
use std::process::Command;

/// Licences that a dependency may have (one of its alternatives is enough).
const ALLOWED: &[&str] = &[
    "MIT",
    "Apache-2.0",
    "Apache-2.0 WITH LLVM-exception",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "ISC",
    "Zlib",
    "Unicode-3.0",
    "Unlicense",
    "0BSD",
    "CC0-1.0",
    "BSL-1.0",
];

/// Crates that may stand in the tree in two versions, with the reason.
const TWICE: &[&str] = &[
    // Read by the builds of derive macros alone; nothing of either is in the program.
    "heck", "syn",
];

/// Name, version and licence of every package that is really built here.
fn packages() -> BTreeSet<(String, String, String)> {
    let words =
        ["tree", "--locked", "--prefix", "none", "--no-dedupe", "--edges", "normal,build,dev", "--format", "{p}|{l}"];
    let output = Command::new(env!("CARGO")).args(words).output().expect("cargo tree");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    let lines = String::from_utf8_lossy(&output.stdout).into_owned();
    let one = |line: &str| {
        let (package, licence) = line.split_once('|')?;
        let mut words = package.split_whitespace();
        Some((words.next()?.to_owned(), words.next()?.to_owned(), licence.trim().to_owned()))
    };
    lines.lines().filter_map(one).collect()
}

/// `MIT OR Apache-2.0`, `MIT/Apache-2.0`, `(MIT OR Apache-2.0) AND Unicode-3.0`: every part joined by AND needs one allowed.
fn allowed(licence: &str) -> bool {
    let plain = licence.replace(['(', ')'], "").replace('/', " OR ");
    plain.split(" AND ").all(|part| part.split(" OR ").any(|one| ALLOWED.contains(&one.trim())))
}

#[test]
fn every_dependency_has_a_licence_that_we_may_use() {
    let all = packages();
    assert!(all.len() > 20, "{all:?}");
    let wrong: Vec<_> = all.iter().filter(|(_, _, licence)| !allowed(licence)).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn no_crate_stands_in_the_tree_twice_without_a_reason() {
    let mut versions: BTreeMap<String, BTreeSet<String>> = BTreeMap::new();
    for (name, version, _) in packages() {
        versions.entry(name).or_default().insert(version);
    }
    let twice: Vec<_> =
        versions.into_iter().filter(|(name, all)| all.len() > 1 && !TWICE.contains(&name.as_str())).collect();
    assert!(twice.is_empty(), "{twice:?}");
}

#[test]
fn every_direct_dependency_has_its_line_of_reason() {
    let manifest = std::fs::read_to_string("Cargo.toml").expect("manifest");
    let guide = std::fs::read_to_string("DEVELOPERS.md").expect("guide");
    let section = |name: &str| {
        let after = manifest.split(&format!("[{name}]\n")).nth(1).expect("section");
        let lines = after.split("\n[").next().expect("lines").lines();
        lines.filter_map(|line| line.split_once(" = ")).map(|(name, _)| name.trim().to_owned()).collect::<Vec<_>>()
    };
    for name in section("dependencies").into_iter().chain(section("dev-dependencies")) {
        assert!(guide.contains(&format!("| `{name}`")), "{name} has no line in the guide");
    }
}
