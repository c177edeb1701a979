//! What the project depends on: licences that it may use, each crate with a line of reason, no crate twice without one.

use std::collections::BTreeMap;
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

/// Crates that the tree holds in two versions, and why that stands.
const TWICE: &[&str] = &[
    // A digest or a random source that two of our dependencies have not yet moved on together; neither is ours to lift.
    "cpufeatures",
    "getrandom",
    "rand_core",
    "rand",
    "rand_chacha",
    "hashbrown",
    "windows-sys",
    "ttf-parser",
    "r-efi",
];

fn metadata() -> serde_json::Value {
    let output = Command::new(env!("CARGO"))
        .args(["metadata", "--format-version", "1", "--locked"])
        .output()
        .expect("cargo metadata");
    assert!(output.status.success(), "{}", String::from_utf8_lossy(&output.stderr));
    serde_json::from_slice(&output.stdout).expect("json")
}

/// `MIT OR Apache-2.0`, `MIT/Apache-2.0`, `(MIT OR Apache-2.0) AND Unicode-3.0`: every part joined by AND needs one allowed.
fn allowed(licence: &str) -> bool {
    let plain = licence.replace(['(', ')'], "").replace('/', " OR ");
    plain.split(" AND ").all(|part| part.split(" OR ").any(|one| ALLOWED.contains(&one.trim())))
}

#[test]
fn every_dependency_has_a_licence_that_we_may_use() {
    let all = metadata();
    let mut wrong = Vec::new();
    for package in all["packages"].as_array().expect("packages") {
        let licence = package["license"].as_str().unwrap_or("none");
        if !allowed(licence) {
            wrong.push(format!("{} {}: {licence}", package["name"], package["version"]));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn no_crate_stands_in_the_tree_twice_without_a_reason() {
    let all = metadata();
    let mut versions: BTreeMap<String, usize> = BTreeMap::new();
    for package in all["packages"].as_array().expect("packages") {
        *versions.entry(package["name"].as_str().expect("name").into()).or_default() += 1;
    }
    let twice: Vec<_> =
        versions.into_iter().filter(|(name, count)| *count > 1 && !TWICE.contains(&name.as_str())).collect();
    assert!(twice.is_empty(), "{twice:?}");
}

#[test]
fn every_direct_dependency_has_its_line_of_reason() {
    let manifest = std::fs::read_to_string("Cargo.toml").expect("manifest");
    let guide = std::fs::read_to_string("DEVELOPERS.md").expect("guide");
    let section = |name: &str| {
        let after = manifest.split(&format!("[{name}]\n")).nth(1).expect("section");
        after
            .split("\n[")
            .next()
            .expect("lines")
            .lines()
            .filter_map(|line| line.split_once(" = "))
            .map(|(name, _)| name.trim().to_owned())
            .collect::<Vec<_>>()
    };
    for name in section("dependencies").into_iter().chain(section("dev-dependencies")) {
        assert!(guide.contains(&format!("| `{name}`")), "{name} has no line in the guide");
    }
}
