//! Random but valid jobs, ordinary and wild: every one is answered with finite figures, its pages hold, and it gives the same
//! bytes twice (every sixth). `SETOVER_JOBS=2000 cargo test --test random_jobs` works so many.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod common;

use common::jobs::{Maker, NOT_YET, SEED, is_known};
use common::{SHOP, shop, try_plan};
use setover::plan::Plan;
use setover::sheet::{check, layout};
use setover::shop::Shop;

fn finite(plan: &Plan) {
    for operation in &plan.operations {
        let all =
            operation.answer.values.iter().chain(operation.answer.alternatives.iter().flat_map(|c| &c.answer.values));
        for value in all {
            assert!(
                value.number.is_finite() && value.plus_minus.is_finite() && value.plus_minus >= 0.0,
                "{}: {value:?}",
                operation.address
            );
        }
        for set_up in &operation.set_ups {
            assert!(set_up.minutes.is_finite() && set_up.unattended.is_finite());
        }
    }
}

/// Pages are laid out for every job; the bytes are made, twice, for one in so many: nothing but these two makes them.
const PDF_OF_ONE_IN: u64 = 6;

fn pages_hold(plan: Plan, with_bytes: bool) {
    let plans = [plan];
    let pages = layout::pages(&plans).unwrap_or_else(|fault| panic!("{fault}"));
    assert!(!pages.is_empty());
    for (number, page) in pages.iter().enumerate() {
        let faults = check::faults(page);
        assert!(faults.is_empty(), "page {}: {faults:?}", number + 1);
    }
    if with_bytes {
        assert!(layout::pdf(&plans).expect("pdf") == layout::pdf(&plans).expect("pdf"), "the same bytes twice");
    }
}

/// The shops of these jobs: none, one that prints metric, one both units on other paper, one in inches.
fn shops() -> [Option<Shop>; 4] {
    let paper = SHOP.replace("paper: A4", "paper: Letter").replace("units: metric", "units: both");
    [None, Some(shop(SHOP)), Some(shop(&paper)), Some(shop(include_str!("jobs/inch-shop.yaml")))]
}

#[test]
fn a_random_valid_job_makes_sheets_that_hold() {
    let all = common::jobs_asked(300);
    println!("seed {SEED}, {all} jobs");
    common::over_jobs(all, |number| {
        let shops = shops();
        let job = Maker::of(number).job();
        let shop = shops[(number % 4) as usize].as_ref();
        let plan = try_plan(&job, shop).unwrap_or_else(|all| panic!("{job}\n{all:#?}"));
        finite(&plan);
        pages_hold(plan, number % PDF_OF_ONE_IN == 0);
    });
}

#[test]
fn every_key_of_the_random_jobs_is_known_or_named_as_to_come() {
    let mut keys: Vec<&str> =
        (0..400).flat_map(|number| Maker::of(number).asked().keys.into_iter().map(|(key, _)| key)).collect();
    keys.sort_unstable();
    keys.dedup();
    assert!(keys.len() > 50, "{keys:?}");
    let unknown: Vec<_> = keys.iter().filter(|key| !is_known(key) && !NOT_YET.contains(*key)).collect();
    assert!(unknown.is_empty(), "{unknown:?}");
    println!("to come: {:?}", NOT_YET.iter().filter(|key| !is_known(key)).collect::<Vec<_>>());
}
