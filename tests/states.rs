//! Every set-up says what must hold before it and what holds after it, and what it needs is left by an earlier one.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::jobs::{Maker, seed};
use common::{SHOP, in_shop, shop, try_plan};
use setover::handbook::StateKind;
use setover::job::{State, StateOf};
use setover::plan::Plan;

/// What may be true of a part before any work of a job; warm or cold it was made by work that the job does not list.
const BEGINNINGS: [StateKind; 4] = [StateKind::Washed, StateKind::Measured, StateKind::Warm, StateKind::Cold];

/// Work that may begin on a part as it comes.
const BY_HAND: [&str; 3] = ["wash", "deburr", "hand"];

/// Every set-up leaves a state, and needs what an earlier set-up of its own operation leaves, what any set-up of another does, or
/// how a part comes to the shop. Gives the number of set-ups walked.
#[track_caller]
fn states_stand(plan: &Plan, job: &str) -> usize {
    let of_others = |own: usize, need: &State| {
        let others = plan.operations.iter().enumerate().filter(|(at, _)| *at != own);
        others.flat_map(|(_, other)| &other.answer.set_ups).any(|set_up| set_up.leaves.contains(need))
    };
    let mut walked = 0;
    for (own, operation) in plan.operations.iter().enumerate() {
        let mut left: Vec<&State> = Vec::new();
        for set_up in &operation.answer.set_ups {
            let name = format!("{} {}", operation.address, set_up.id);
            assert!(!set_up.leaves.is_empty(), "{name} leaves nothing\n{job}");
            let begins = BY_HAND.contains(&operation.word.as_str());
            assert!(begins || !set_up.needs.is_empty(), "{name} needs nothing, not even a part\n{job}");
            for need in &set_up.needs {
                let begins = matches!(&need.of, StateOf::Part(_)) && BEGINNINGS.contains(&need.kind);
                assert!(begins || left.contains(&need) || of_others(own, need), "{name} waits for {need}\n{job}");
            }
            for leaves in &set_up.leaves {
                assert!(!left.contains(&leaves), "{name} leaves {leaves} a second time\n{job}");
            }
            left.extend(&set_up.leaves);
            walked += 1;
        }
    }
    walked
}

#[test]
fn every_set_up_of_the_committed_jobs_has_its_states() {
    let mut walked = 0;
    for (path, job) in common::committed_jobs() {
        walked += states_stand(&in_shop(&job), &path);
    }
    assert!(walked > 30, "{walked} set-ups");
}

#[test]
fn every_set_up_of_random_jobs_has_its_states() {
    let all = common::jobs_asked(300);
    println!("seed {}, {all} jobs", seed());
    let seen = std::sync::atomic::AtomicUsize::new(0);
    common::over_jobs(all, |number| {
        let job = Maker::of(number).job();
        let shop = (number % 2 == 0).then(|| shop(SHOP));
        let plan = try_plan(&job, shop.as_ref()).unwrap_or_else(|all| panic!("{job}\n{all:#?}"));
        seen.fetch_add(states_stand(&plan, &job), std::sync::atomic::Ordering::Relaxed);
    });
    assert!(seen.into_inner() as u64 > all, "set-ups walked");
}

/// A chilled bush is cold and a warmed housing warm: the press waits for what this way of assembling makes ready.
#[test]
fn the_press_waits_for_what_oven_and_freezer_make_ready() {
    let job = |assemble: &str| {
        format!(
            "job: Press\nparts:\n  - part: case\n    material: cast aluminium\n    operations:\n      - ream-bush: {{housing: {{bore: 20.010 ± 0.004 mm, outside: 40 mm}}, bush: {{outside: 20.045 ± 0.004 mm, bore: 15.950 ± 0.004 mm, length: 20 mm, material: LG2}}, shaft: 15.984 ± 0.003 mm, clearance: 1 .. 2 thou, assemble: {assemble}}}\n"
        )
    };
    for (assemble, waits_for) in [
        ("press", "case/ream-bush:dressed"),
        ("warm-housing", "case/ream-bush:warm"),
        ("chill-bush", "case/ream-bush:cold"),
        ("warm-and-chill", "case/ream-bush:warm, case/ream-bush:cold"),
    ] {
        let plan = in_shop(&job(assemble));
        let press = plan.operations[0].answer.set_ups.iter().find(|set_up| set_up.id == "press-home").expect("press");
        let needs: Vec<String> = press.needs.iter().map(ToString::to_string).collect();
        assert_eq!(needs.join(", "), waits_for, "{assemble}");
    }
}
