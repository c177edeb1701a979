//! Random but valid jobs, ordinary and wild: every one is answered with finite figures, its pages hold, and it gives the same
//! bytes twice (every tenth). `SETOVER_JOBS=2000 cargo test --test all random_jobs::` works so many.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::jobs::{Maker, is_known, seed};
use common::{SHOP, shop, try_plan};
use setover::plan::Plan;
use setover::quantity::Print;
use setover::sheet::{check, layout};
use setover::shop::{Paper, Shop};

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

/// What is wrong with the pages of a plan.
fn wrong(plan: Plan, with_bytes: bool) -> Vec<String> {
    let plans = [plan];
    let pages = match layout::pages(&plans) {
        Ok(pages) => pages,
        Err(fault) => return vec![fault.to_string()],
    };
    let mut all = common::laws::broken(&plans[0], &pages);
    all.extend(pages.is_empty().then(|| "no page".to_owned()));
    for (number, page) in pages.iter().enumerate() {
        all.extend(check::faults(page).into_iter().map(|fault| format!("page {}: {fault}", number + 1)));
    }
    let twice = || [layout::pdf(&plans).expect("pdf"), layout::pdf(&plans).expect("pdf")];
    if with_bytes && !matches!(twice(), [one, other] if one == other) {
        all.push("not the same bytes twice".into());
    }
    all
}

/// The shops of these jobs: none, and one that owns everything, in each unit of print on each paper.
fn shops() -> Vec<Option<Shop>> {
    let inch = include_str!("jobs/inch-shop.yaml");
    let printed = |text: &str, paper, units| Some(Shop { paper, units, ..shop(text) });
    let mut all = vec![None];
    for paper in [Paper::A4, Paper::Letter] {
        all.push(printed(SHOP, paper, Print::Metric));
        all.push(printed(inch, paper, Print::Imperial));
        all.push(printed(SHOP, paper, Print::Both));
    }
    all
}

#[test]
fn a_random_valid_job_makes_sheets_that_hold() {
    let jobs = common::jobs_asked(300);
    println!("seed {}, {jobs} jobs", seed());
    let shops = shops();
    let found = std::sync::Mutex::new(Vec::new());
    common::over_jobs(jobs, |number| {
        let job = Maker::of(number).job();
        // The kind of a job hangs on its number too: every kind meets every shop.
        let shop = &shops[((number + number / 7) % shops.len() as u64) as usize];
        let plan = try_plan(&job, shop.as_ref()).unwrap_or_else(|all| panic!("{job}\n{all:#?}"));
        finite(&plan);
        let (paper, print) = (plan.paper, plan.print);
        let named = |what: String| format!("job {number}, {paper:?}, {print:?}: {what}");
        if std::env::var("SETOVER_ONLY").is_ok() {
            println!("job {number}, {paper:?}, {print:?}:\n{job}");
        }
        found.lock().unwrap().extend(wrong(plan, number % TWICE_ONE_IN == 0).into_iter().map(named));
    });
    let mut found = found.into_inner().unwrap();
    found.sort();
    assert!(found.is_empty(), "{} in {jobs} jobs: {:#?}", found.len(), found.iter().take(400).collect::<Vec<_>>());
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
