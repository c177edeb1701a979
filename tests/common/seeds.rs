//! Property tests draw from a seed that is printed, and keep what failed in `tests/regressions/`, to be committed.
#![allow(dead_code)]

use proptest::prelude::ProptestConfig;
use proptest::test_runner::{FileFailurePersistence, RngSeed};

/// The seed of every run; `SETOVER_SEED` sets another.
const SEED: u64 = 20_261_126;

/// So many cases of a property, its failures kept in a file: those are tried again before any that is drawn.
pub fn config(cases: u32, kept: &'static str) -> ProptestConfig {
    let seed = std::env::var("SETOVER_SEED").ok().and_then(|text| text.parse().ok()).unwrap_or(SEED);
    println!("seed {seed}, {cases} cases, failures in {kept}");
    ProptestConfig {
        cases,
        rng_seed: RngSeed::Fixed(seed),
        failure_persistence: Some(Box::new(FileFailurePersistence::Direct(kept))),
        ..ProptestConfig::default()
    }
}
