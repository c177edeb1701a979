//! Doubts proved by shaking: every reading drawn anew many times (GUM, Supplement 1) and every figure worked again.
//!
//! `SETOVER_TRIALS=20000 cargo test --test shaking` takes the full number of draws; without it each test takes the number that
//! its name says.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod common;

use common::in_shop;
use setover::operations::{Answer, shake};
use setover::proof::{BadEnds, Graph, State, Verdict};

const SEED: u64 = 19_530_426;

const JOBS: [(&str, &str); 4] = [
    ("thread-insert", include_str!("fixtures/thread-insert.yaml")),
    ("ream-bush", include_str!("fixtures/ream-bush.yaml")),
    ("face", include_str!("fixtures/face.yaml")),
    ("skim", include_str!("fixtures/skim.yaml")),
];

/// The draws asked for, or so many.
fn trials(usual: usize) -> usize {
    std::env::var("SETOVER_TRIALS").ok().and_then(|text| text.parse().ok()).unwrap_or(usual)
}

/// What is wrong with the doubts of an answer; `near` is how near a half-width must come to its ±.
fn wrong_doubts(name: &str, answer: &Answer, trials: usize, near: f64) -> Vec<String> {
    let shaken = shake(answer, trials, SEED);
    let mut wrong = Vec::new();
    for value in &shaken.values {
        let (worked, drawn) = (value.plus_minus, value.half_width);
        // The least part of a figure that arithmetic keeps.
        let noise = 1e-9 * value.number.abs();
        let covers = drawn <= worked * (1.0 + near) + noise;
        let equals = value.bent || drawn >= worked * (1.0 - near) - noise;
        if !covers || !equals {
            wrong.push(format!(
                "{name} {}: {} ± {worked}, drawn ± {drawn}, bent {}",
                value.key, value.number, value.bent
            ));
        }
    }
    wrong
}

/// Checks called proven that do not hold often enough.
fn broken_promises(name: &str, answer: &Answer, trials: usize, least: f64) -> Vec<String> {
    let proven =
        shake(answer, trials, SEED).checks.into_iter().filter(|check| check.state == State::Made(Verdict::Proven));
    let broken = proven.filter(|check| check.holds < least || check.holds_thawed < least);
    broken.map(|check| format!("{name} {}: {check:?}", check.id)).collect()
}

#[test]
fn a_graph_at_rest_gives_the_figures_again() {
    for (name, job) in JOBS {
        for planned in &in_shop(job).operations {
            for value in &planned.answer.values {
                let graph = Graph::of([&value.node]);
                let again = graph.work(&graph.as_read(BadEnds::Kept), &mut Vec::new());
                assert_eq!(again, [value.number], "{name} {}", value.key);
            }
        }
    }
}

#[test]
fn the_doubts_of_the_examples_are_those_of_5000_draws() {
    let trials = trials(5_000);
    println!("seed {SEED}, {trials} draws");
    let mut wrong = Vec::new();
    for (name, job) in JOBS {
        for planned in &in_shop(job).operations {
            wrong.extend(wrong_doubts(name, &planned.answer, trials, 0.05));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn what_is_proven_in_the_examples_holds_in_975_of_1000_draws() {
    let trials = trials(5_000);
    println!("seed {SEED}, {trials} draws");
    let mut broken = Vec::new();
    for (name, job) in JOBS {
        for planned in &in_shop(job).operations {
            broken.extend(broken_promises(name, &planned.answer, trials, 0.975));
        }
    }
    assert!(broken.is_empty(), "{broken:#?}");
}
