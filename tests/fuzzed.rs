//! What the fuzzer kept, run again: the corpus that reaches most, and every input that ever broke something.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::given::TARGETS;
use std::path::{Path, PathBuf};

/// The inputs of a target in a folder of `tests/fuzz`.
fn inputs(folder: &str, target: &str) -> Vec<PathBuf> {
    let folder = Path::new("tests/fuzz").join(folder).join(target);
    let Ok(all) = std::fs::read_dir(&folder) else { return Vec::new() };
    let mut all: Vec<PathBuf> = all.map(|entry| entry.expect("entry").path()).collect();
    all.sort();
    all
}

/// The names of those that break something, each with what it says.
fn broken_by(all: &[PathBuf], target: fn(&[u8])) -> Vec<String> {
    let one = |path: &PathBuf| {
        let bytes = std::fs::read(path).expect("input");
        let said = std::panic::catch_unwind(|| target(&bytes)).err()?;
        let said = said.downcast_ref::<String>().cloned().unwrap_or_default();
        Some(format!("{}: {}", path.display(), said.chars().take(300).collect::<String>()))
    };
    all.iter().filter_map(one).collect()
}

#[test]
fn the_corpus_is_answered_or_refused() {
    let mut wrong = Vec::new();
    for (name, target) in TARGETS {
        let all = inputs("corpus", name);
        println!("{name}: {} inputs", all.len());
        assert!(!all.is_empty(), "{name} has no inputs");
        wrong.extend(broken_by(&all, target));
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn what_once_broke_something_breaks_nothing() {
    let wrong: Vec<String> =
        TARGETS.iter().flat_map(|(name, target)| broken_by(&inputs("broken", name), *target)).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// The corpus is no place for a large file or for thousands of small ones.
#[test]
fn the_corpus_stays_small() {
    let all: Vec<PathBuf> = TARGETS.iter().flat_map(|(name, _)| inputs("corpus", name)).collect();
    let bytes: u64 = all.iter().map(|path| path.metadata().expect("size").len()).sum();
    assert!(all.len() <= 1000 && bytes <= 1_000_000, "{} inputs, {bytes} bytes", all.len());
}

/// Every target that stands in the package of the fuzzer is one that is run here.
#[test]
fn every_target_is_run_here() {
    for entry in std::fs::read_dir("tests/fuzz/targets").expect("targets") {
        let name = entry.expect("entry").file_name().to_string_lossy().trim_end_matches(".rs").to_owned();
        assert!(TARGETS.iter().any(|(target, _)| *target == name), "{name} is run by the fuzzer alone");
    }
}
