//! Each check is owned by one set-up: the first whose work cannot be undone if the check is wrong. The stamps of the set-ups
//! together say what the operation says.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::jobs::Maker;
use common::*;
use setover::drawing::Balloon;
use setover::operations::{COMMON_CHECKS, LimitsFrom};
use setover::plan::{Plan, Planned};
use setover::proof::Verdict;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};

/// What must hold of the set-ups of any operation; gives how many there are.
fn holds_together(planned: &Planned) -> usize {
    let answer = &planned.answer;
    if answer.set_ups.is_empty() {
        return 0;
    }
    let at = &planned.address;
    for check in &answer.checks {
        let owners = answer.set_ups.iter().filter(|set_up| set_up.checks.contains(&check.id)).count();
        assert_eq!(owners, 1, "{at}: {} has {owners} owners", check.id);
        let owner = answer.owner_of(check.id).expect("an owner");
        let stamp = answer.verdict_of_set_up(owner);
        assert!(
            check.stamps().is_none_or(|own| own <= stamp),
            "{at}: set-up {owner} is {stamp:?}, {} is not",
            check.id
        );
    }
    for rule in COMMON_CHECKS {
        assert_eq!(answer.owner_of(rule.id), Some(0), "{at}: {}", rule.id);
    }
    let mut stamps: Vec<Verdict> = (0..answer.set_ups.len()).map(|at| answer.verdict_of_set_up(at)).collect();
    assert_eq!(stamps.iter().max(), Some(&planned.verdict), "{at}");
    if planned.verdict == Verdict::Fails {
        stamps.dedup();
        assert_eq!(stamps, [Verdict::Fails], "{at}: nothing of what fails may be done");
    }
    for set_up in &answer.set_ups {
        let ids: Vec<&str> = set_up.checks.clone();
        assert!(ids.iter().all(|id| answer.checks.iter().any(|check| check.id == *id)), "{at}: {ids:?}");
        assert!(set_up.blanks.iter().all(|blank| blank.readings > 0), "{at}");
        assert!(
            set_up.hold.iter().all(|line| matches!(line.balloon, Balloon::Grip | Balloon::Indicator)),
            "{at}: a hold takes no zero and no tool"
        );
        for hold in set_up.steps.iter().filter_map(|step| step.hold_point.as_ref()) {
            let (least, most) = (&hold.limits.least, &hold.limits.most);
            assert!(least.is_some() || most.is_some(), "{at}: {} has no limit", hold.measures);
            assert!(hold.readings > 0 && !hold.gauge.is_empty(), "{at}: {hold:?}");
            if let (Some(least), Some(most)) = hold.limits.numbers() {
                assert!(least <= most || hold.limits.from == LimitsFrom::Checks, "{at}: {hold:?}");
            }
        }
    }
    answer.set_ups.len()
}

#[test]
fn every_check_of_every_committed_job_has_one_owner() {
    let (mut jobs, mut set_ups) = (0, 0);
    for (path, text) in committed_jobs() {
        for shop in [None, Some(shop(SHOP))] {
            // A machine that this shop has not is refused.
            let Ok(plan) = try_plan(&text, shop.as_ref()) else { continue };
            println!("{path}");
            jobs += 1;
            set_ups += plan.operations.iter().map(holds_together).sum::<usize>();
        }
    }
    assert!(jobs > 15 && set_ups > 40, "{jobs} jobs, {set_ups} set-ups");
}

#[test]
fn every_check_of_a_random_job_has_one_owner() {
    let set_ups = AtomicUsize::new(0);
    over_jobs(jobs_asked(200), |number| {
        let job = Maker::of(number).job();
        let shop = number.is_multiple_of(2).then(|| shop(SHOP));
        let plan = try_plan(&job, shop.as_ref()).unwrap_or_else(|all| panic!("{job}\n{all:#?}"));
        let all: usize = plan.operations.iter().map(holds_together).sum();
        set_ups.fetch_add(all, Ordering::Relaxed);
    });
    assert!(set_ups.into_inner() > 100);
}

const BUSH: &str = include_str!("fixtures/ream-bush.yaml");

fn owners(plan: &Plan) -> BTreeMap<&str, &str> {
    let answer = &first(plan).answer;
    let of = |id| answer.set_ups[answer.owner_of(id).expect("an owner")].id;
    answer.checks.iter().map(|check| (check.id, of(check.id))).collect()
}

/// Pressing cannot be undone if the joint is wrong, reaming if the clearance is, warming if the oven was too hot.
#[test]
fn the_work_that_cannot_be_undone_owns_the_check() {
    let warm = in_shop(BUSH);
    let owners_warm = owners(&warm);
    println!("{owners_warm:?}");
    for id in ["interference", "bush-yield", "housing-stress", "press-force", "stock-least"] {
        assert_eq!(owners_warm[id], "press-home", "{id}");
    }
    for id in ["window", "clearance-given", "stock-most", "reamer-opens", "can-be-measured", "clearance-when-warm"] {
        assert!(owners_warm[id].starts_with("ream-by"), "{id}: {}", owners_warm[id]);
    }
    for way in ["press", "warm-housing", "chill-bush", "warm-and-chill"] {
        let lines = BUSH.lines().filter(|line| !line.trim_start().starts_with("assemble:"));
        let job: Vec<String> = lines
            .map(|line| match line.find("duty:") {
                Some(at) => format!("{}assemble: {way}\n{line}", &line[..at]),
                None => line.to_owned(),
            })
            .collect();
        let plan = in_shop(&job.join("\n"));
        let owner = owners(&plan)["oven-stop"];
        let oven = first(&plan).answer.set_ups.iter().find(|set_up| set_up.checks.contains(&"oven-stop")).expect("one");
        // No oven: the next later work owns it.
        let asked = if way == "press" { "press-home" } else { oven.id };
        assert_eq!(owner, asked, "{way}");
        assert_eq!(way == "press", owner == "press-home", "{way}: {owner}");
    }
}

/// A bush drilled before it is pressed in: that drilling owns what is asked of the drill.
#[test]
fn drilling_before_pressing_owns_its_own_checks() {
    let drilled = |when: &str| {
        let lines = BUSH.lines().filter(|line| !line.trim_start().starts_with("oil-holes:"));
        let job: Vec<String> = lines
            .map(|line| match line.find("duty:") {
                Some(at) => format!("{}oil-holes: [{{diameter: 3 mm, drill: {when}, at: 6 mm}}]\n{line}", &line[..at]),
                None => line.to_owned(),
            })
            .collect();
        let plan = in_shop(&job.join("\n"));
        owners(&plan)["drill-in-shop"].to_owned()
    };
    assert_eq!(drilled("before-press"), "measure-and-dress");
    assert_eq!(drilled("after-press"), "drill-oil-holes");
}

/// A balloon stands for one thing only: the zero of its step, the tool of its cut.
#[test]
fn a_step_belongs_to_its_balloon() {
    let plan = in_shop(include_str!("fixtures/thread-insert.yaml"));
    let set_up = &first(&plan).answer.set_ups[0];
    let zeros = set_up.steps.iter().filter(|step| step.balloon() == Some(Balloon::Zero));
    assert_eq!(zeros.map(|step| step.id).collect::<Vec<_>>().len(), 1);
    assert!(set_up.steps.iter().all(|step| step.cut.is_some() == (step.balloon() == Some(Balloon::Tool))));
    assert!(set_up.hold.iter().any(|line| line.balloon == Balloon::Indicator));
    assert_eq!([Balloon::Grip, Balloon::Indicator, Balloon::Zero, Balloon::Tool].map(Balloon::number), [1, 2, 3, 4]);
}
