//! Random but valid jobs, ordinary and wild: every one is answered with finite figures, its pages hold, and it gives the same
//! bytes twice (every tenth). `SETOVER_JOBS=2000 cargo test --test all random_jobs::` works so many.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::jobs::{Maker, SEED, is_known};
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
        for set_up in &operation.answer.set_ups {
            assert!(set_up.minutes.is_none_or(f64::is_finite) && set_up.by_itself().is_finite());
        }
    }
}

/// Pages are laid out for every job; for one in so many the bytes are made, twice.
const TWICE_ONE_IN: u64 = 10;

fn pages_hold(plan: Plan, with_bytes: bool) {
    let plans = [plan];
    let pages = layout::pages(&plans).unwrap_or_else(|fault| panic!("{fault}"));
    assert!(!pages.is_empty());
    assert_eq!(common::laws::broken(&plans[0], &pages), Vec::<String>::new());
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
        pages_hold(plan, number % TWICE_ONE_IN == 0);
    });
}

#[test]
fn every_key_of_the_random_jobs_is_known() {
    let mut keys: Vec<&str> =
        (0..400).flat_map(|number| Maker::of(number).asked().keys.into_iter().map(|(key, _)| key)).collect();
    keys.sort_unstable();
    keys.dedup();
    assert!(keys.len() > 60, "{keys:?}");
    let unknown: Vec<_> = keys.iter().filter(|key| !is_known(key)).collect();
    assert!(unknown.is_empty(), "{unknown:?}");
}

/// An ordinary job, typed with care in a shop that owns what it asks, is proven: a tool that cries wolf is not believed.
#[test]
fn ordinary_jobs_are_proven() {
    const LEAST_SHARE: f64 = 0.3;
    let wrong = std::sync::Mutex::new(std::collections::BTreeMap::<String, (usize, usize, Vec<String>)>::new());
    common::over_jobs(common::jobs_asked(60), |number| {
        let mut maker = Maker::of(number);
        let shop = common::jobs::whole_shop();
        for asked in [maker.insert(false), maker.bush(false), maker.facing("face", false), maker.facing("skim", false)]
        {
            let job = common::jobs::job_of("part", std::slice::from_ref(&asked));
            let plan = try_plan(&job, Some(&shop)).unwrap_or_else(|all| panic!("{job}\n{all:#?}"));
            let planned = &plan.operations[0];
            let mut wrong = wrong.lock().unwrap();
            let slot = wrong.entry(asked.word.to_owned()).or_default();
            slot.0 += 1;
            slot.1 += usize::from(planned.verdict == setover::proof::Verdict::Proven);
            let bad = planned
                .answer
                .checks
                .iter()
                .filter(|check| check.stamps().is_some_and(|verdict| verdict != setover::proof::Verdict::Proven));
            slot.2.extend(bad.map(|check| format!("{} {}", check.id, check.state.text())));
        }
    });
    for (word, (all, proven, why)) in wrong.into_inner().unwrap() {
        let mut times = std::collections::BTreeMap::<&str, usize>::new();
        why.iter().for_each(|why| *times.entry(why).or_default() += 1);
        println!("{word}: {proven} of {all} proven; else {times:?}");
        assert!(proven as f64 >= LEAST_SHARE * all as f64, "{word}: {proven} of {all} proven; {times:?}");
    }
}
