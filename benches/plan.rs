//! What working a job costs: each worked example planned again and again. `cargo bench --bench plan`.

use setover::job::{JobFile, Ledger};
use setover::operations::Request;
use setover::plan::{Cards, work};
use setover::proof::Place;
use setover::reading::{Node, Problem};
use setover::shop::Shop;
use std::hint::black_box;
use std::time::{Duration, Instant};

const SHOP: &str = include_str!("../tests/fixtures/shop.yaml");

const JOBS: &[(&str, &str)] = &[
    ("thread-insert", include_str!("../tests/fixtures/thread-insert.yaml")),
    ("ream-bush", include_str!("../tests/fixtures/ream-bush.yaml")),
    ("face", include_str!("../tests/fixtures/face.yaml")),
    ("skim", include_str!("../tests/fixtures/skim.yaml")),
];

/// The least time of so many plans of a job.
fn timed(job: &str) -> Result<Duration, Vec<Problem>> {
    let shop: Shop = Node::yaml(SHOP, Place::start(1)).map_err(|problem| vec![problem])?.read()?;
    let cards = Cards::built_in(Request::WORDS.iter().copied())?;
    let job: JobFile<Request> = JobFile::read(Node::yaml(job, Place::start(0)).map_err(|problem| vec![problem])?)?;
    let mut least = Duration::MAX;
    for _ in 0..300 {
        let start = Instant::now();
        black_box(work(&job, Some(&shop), &cards, Ledger::default())?);
        least = least.min(start.elapsed());
    }
    Ok(least)
}

fn main() {
    for (name, job) in JOBS {
        match timed(job) {
            Ok(least) => println!("{name:<16} {least:>12.1?}"),
            Err(problems) => println!("{name:<16} cannot be read: {problems:?}"),
        }
    }
}
