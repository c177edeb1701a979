//! The JSON of days drawn at random, read by a checker that knows what was asked for and nothing of how it was planned.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "day_json/asked.rs"]
mod asked;
#[path = "day_json/checker.rs"]
mod checker;

use crate::common::{jobs_asked, over_jobs, shop, try_plan};
use asked::Asked;
use serde_json::Value;
use setover::plan::day::{Asked as Wanted, day};
use setover::sheet::day_json;
use std::sync::atomic::{AtomicU64, Ordering};

/// The seed of the days; `SETOVER_SEED` sets another, `SETOVER_JOBS` how many.
const SEED: u64 = 20_261_126;

fn seed() -> u64 {
    std::env::var("SETOVER_SEED").ok().and_then(|text| text.parse().ok()).unwrap_or(SEED)
}

/// The JSON of a day; none where hot parts stand between each other, which is refused as a circle.
fn planned(asked: &Asked) -> Option<Value> {
    let (job, shop_text) = (asked.job(), asked.shop());
    let plan = try_plan(&job, Some(&shop(&shop_text))).unwrap_or_else(|all| panic!("{job}{shop_text}{all:#?}"));
    // What stands as it is listed gives way to the job's own word: without that word it binds, and a rule less is a rule more.
    let leave_out = ["hand-before-work", "work-before-hand"].map(Into::into).to_vec();
    let wanted = Wanted { days: 30, leave_out, ..Wanted::default() };
    match day(&[plan], &wanted) {
        Ok(day) => Some(serde_json::to_value(day_json::output(&day)).expect("JSON")),
        Err(all) => {
            let is_circle = all[0].says.contains("in a circle: ") && all[0].says.contains(" follows at once: ");
            // A part that would be worked while it lies in the oven is refused too.
            let is_away = all[0].says.contains("is in the oven or warm");
            assert!(is_circle || is_away, "{job}{shop_text}{all:#?}");
            None
        }
    }
}

fn holds(asked: &Asked, out: &Value) {
    let wrong = checker::wrong(asked, out);
    assert!(wrong.is_empty(), "{}{}{out:#}\n{wrong:#?}", asked.job(), asked.shop());
}

/// Late minutes and finish.
fn reached(out: &Value) -> (u64, u32) {
    (out["day"]["late_min"].as_u64().expect("minutes"), checker::minute(&out["day"]["finish"]))
}

/// Whether all that was asked for is in the day, its appointments kept.
fn is_whole(out: &Value) -> bool {
    ["left_out", "left_over", "impossible"].iter().all(|key| checker::list(out, key).is_empty())
}

#[test]
fn the_json_of_every_random_day_can_be_worked() {
    let (seed, all) = (seed(), jobs_asked(2000));
    println!("seed {seed}, {all} days");
    let [by_hand, kept, whole] = [const { AtomicU64::new(0) }; 3];
    over_jobs(all, |number| {
        let asked = Asked::of(seed.wrapping_add(number));
        let Some(out) = planned(&asked) else { return };
        holds(&asked, &out);
        assert_eq!(Some(&out), planned(&asked).as_ref(), "the same day twice");
        let add = |count: &AtomicU64, more: usize| count.fetch_add(more as u64, Ordering::Relaxed);
        add(&by_hand, asked.hot.iter().filter(|(.., load)| *load == asked::Load::ByHand).count());
        add(&kept, asked.hot.iter().filter(|(.., load)| *load == asked::Load::Kept).count());
        add(&whole, usize::from(is_whole(&out)));
    });
    let [by_hand, kept, whole] = [by_hand, kept, whole].map(AtomicU64::into_inner);
    println!("{whole} whole days, {by_hand} parts made warm by hand, {kept} in an oven or a freezer");
    assert!(whole * 2 > all && by_hand * 8 > all && kept * 8 > all);
}

#[test]
fn a_rule_less_or_a_work_less_never_ends_a_random_day_later() {
    let (seed, all) = (seed().wrapping_add(1 << 20), jobs_asked(500));
    println!("seed {seed}, {all} days");
    let compared = AtomicU64::new(0);
    over_jobs(all, |number| {
        let asked = Asked::of(seed.wrapping_add(number));
        let Some(out) = planned(&asked).filter(|out| is_whole(out) && out["day"]["exact"] == true) else { return };
        for less in asked.with_one_rule_less().into_iter().chain(asked.with_one_work_less()) {
            let shorter = planned(&less).expect("less stands in no circle");
            holds(&less, &shorter);
            assert!(reached(&shorter) <= reached(&out), "{}\n{}", asked.job(), less.job());
            compared.fetch_add(1, Ordering::Relaxed);
        }
    });
    let compared = compared.into_inner();
    assert!(compared * 2 > all, "rules left out, works left out: {compared} days compared");
}

/// The checker can fail: whatever is moved in the JSON of a day that can be worked, it says so.
#[test]
fn what_is_moved_in_a_day_is_noticed() {
    let mut noticed = std::collections::BTreeSet::new();
    for number in 0..60 {
        let asked = Asked::of(seed().wrapping_add(number));
        let Some(out) = planned(&asked).filter(is_whole) else { continue };
        for (what, bent) in bent(&out) {
            let wrong = checker::wrong(&asked, &bent);
            assert!(!wrong.is_empty(), "{what}: {out:#}");
            noticed.insert(what);
        }
    }
    assert_eq!(noticed.len(), 5, "{noticed:?}");
}

/// The day with one thing moved, each in its own way.
fn bent(out: &Value) -> Vec<(&'static str, Value)> {
    let mut all = Vec::new();
    let mut with = |what: &'static str, bend: &dyn Fn(&mut Value)| {
        let mut other = out.clone();
        bend(&mut other);
        all.push((what, other));
    };
    let lines = checker::list(out, "lines");
    let last = lines.len() - 1;
    if last > 0 {
        with("two at once", &|day| {
            for key in ["start", "end"] {
                day["lines"][last][key] = lines[0][key].clone();
            }
        });
        with("a line is lost", &|day| day["lines"].as_array_mut().expect("lines").truncate(last));
    }
    with("a minute less", &|day| {
        day["lines"][0]["end"] = Value::from(asked::clock(checker::minute(&lines[0]["end"]) - 1));
    });
    with("the finish", &|day| day["day"]["finish"] = Value::from("day 30 23:00"));
    if let Some(number) = lines.iter().position(|line| !checker::list(line, "change_over").is_empty()) {
        with("a change-over is lost", &|day| day["lines"][number]["change_over"] = Value::Array(Vec::new()));
    }
    all
}
