//! What must hold between a day and the same day changed in one thing.

use super::random::{Kind, Throws, day, week};
use super::read::{list, minute, model};
use super::worked::without;
use super::{Limits, Model, Planned, State, Vector, bound, holds, plan, seed, time};
use crate::common::over_jobs;
use serde_json::{Value, json};
use std::sync::atomic::{AtomicU64, Ordering};

const DAYS: u64 = 2_000;

fn kind(number: u64) -> Kind {
    Kind { set_ups: 4 + usize::try_from(number % 4).expect("small"), times: number % 2 == 1, rests: true }
}

fn planned(day: &Value) -> Option<(Model, Planned)> {
    let model = model(day).expect("no circle");
    let planned = plan(&model, Limits::default())?;
    Some((model, planned))
}

/// What the first two levels are.
fn ends(planned: &Planned) -> (u32, u32) {
    (planned.vector.late, planned.vector.finish)
}

fn reached(day: &Value) -> Option<(u32, u32)> {
    planned(day).map(|(_, planned)| ends(&planned))
}

/// Random days that can be worked, each as it is planned, shared out over the machine.
fn over_days(each: impl Fn(Value, Planned, Throws) + Sync) {
    let (seed, worked) = (seed().wrapping_add(7_000), AtomicU64::new(0));
    over_jobs(DAYS, |number| {
        let day = day(seed + number, kind(number));
        if let Some((_, planned)) = planned(&day) {
            worked.fetch_add(1, Ordering::Relaxed);
            each(day, planned, Throws::new(number));
        }
    });
    let worked = worked.into_inner();
    println!("{worked} of {DAYS} days can be worked");
    assert!(worked * 10 > DAYS * 8 || std::env::var_os("SETOVER_ONLY").is_some());
}

fn ups(day: &mut Value) -> &mut Vec<Value> {
    day["set_ups"].as_array_mut().expect("set-ups")
}

/// Told by a checker that shares no line with the planner.
#[test]
fn every_must_is_kept_over_random_days() {
    over_days(|day, first, _| {
        holds(&day, &first);
        let model = model(&day).expect("no circle");
        assert!(bound(&model, &State::first(&model)).expect("a bound") <= first.vector, "{day}");
    });
}

#[test]
fn an_unrelated_set_up_never_shortens_the_day() {
    over_days(|day, first, mut throws| {
        let before = ends(&first);
        let mut more = day.clone();
        let added = if throws.one_in(2) {
            json!({"id": "new", "machine": "bench", "hands": 12, "pause": true})
        } else {
            json!({"id": "new", "machine": "lathe", "hands": 15, "holding": "four-jaw"})
        };
        ups(&mut more).push(added);
        more["order_before"].as_array_mut().expect("order").push(json!("new"));
        assert!(reached(&more).is_none_or(|after| after >= before), "{more}");
    });
}

#[test]
fn a_rule_left_out_never_lengthens_the_day() {
    over_days(|day, first, mut throws| {
        let before = ends(&first);
        let pairs = || list(&day, "fetched_by").iter().chain(list(&day, "at_once"));
        let fetches = |need: &Value| pairs().any(|pair| pair[0] == need[0] && pair[1] == need[1]);
        let half = throws.below(2);
        for number in (half..list(&day, "needs").len()).step_by(2) {
            if fetches(&day["needs"][number]) {
                continue;
            }
            let mut less = day.clone();
            less["needs"].as_array_mut().expect("needs").remove(number);
            assert!(reached(&less).expect("still an order") <= before, "{less}");
        }
    });
}

#[test]
fn what_is_worse_never_ends_the_day_earlier() {
    over_days(|day, first, mut throws| {
        let before = ends(&first);
        let mut worse = Vec::new();
        let number = throws.below(list(&day, "set_ups").len());
        let mut with = |change: &dyn Fn(&mut Value)| {
            let mut other = day.clone();
            change(&mut other);
            worse.push(other);
        };
        let longest =
            list(&day, "hours").iter().map(|hours| minute(&hours[1]) - minute(&hours[0])).min().expect("hours");
        let hands = minute(&day["set_ups"][number]["hands"]);
        if hands + 7 <= longest {
            with(&|day| day["set_ups"][number]["hands"] = json!(hands + 7));
        }
        let not_before = day["set_ups"][number].get("not-before").map_or(0, minute);
        with(&|day| day["set_ups"][number]["not-before"] = json!(not_before.max(600) + 30));
        if let Some(need) = list(&day, "needs").len().checked_sub(1) {
            with(&|day| day["needs"][need][2] = json!(minute(&day["needs"][need][2]) + 25));
        }
        with(&|day| day["room"]["oven"] = json!(1));
        with(&|day| day["room"]["freezer"] = json!(1));
        if let Some(oven) = list(&day, "set_ups").iter().position(|up| up["machine"] == "oven") {
            with(&|day| day["set_ups"][oven]["beside"] = json!("freezer"));
        }
        if let Some(rest) = day["apart"].get(0).map(|own| minute(&own[2])) {
            with(&|day| day["apart"][0][2] = json!(rest + 20));
        }
        if let Some(over) = day["inside"].get(0).map(|own| minute(&own["over"])) {
            with(&|day| day["inside"][0]["over"] = json!(over + 30));
        }
        if list(&day, "hours").len() > 1 {
            with(&|day| day["hours"][1][0] = json!(minute(&day["hours"][1][0]) + 15));
        }
        // Of so many days a third of it each.
        let third = throws.below(3);
        for worse in worse.into_iter().skip(third).step_by(3) {
            assert!(reached(&worse).is_none_or(|after| after >= before), "{day}\n{worse}");
        }
    });
}

#[test]
fn the_order_of_the_file_moves_only_what_is_turned_round() {
    let same = |vector: Vector| (vector.late, vector.finish, vector.better, vector.change);
    over_days(|day, first, _| {
        let mut turned = day.clone();
        ups(&mut turned).reverse();
        turned["order_before"].as_array_mut().expect("order").reverse();
        let (_, second) = planned(&turned).expect("an order");
        assert_eq!(same(first.vector), same(second.vector), "{day}");
        assert_eq!(planned(&day).expect("an order").1, first);
    });
}

#[test]
fn planned_again_like_its_own_answer_it_stays_as_it_is() {
    over_days(|day, first, _| {
        let mut again = day.clone();
        again["order_before"] = first.placed.iter().map(|placed| day["set_ups"][placed.number]["id"].clone()).collect();
        let (_, second) = planned(&again).expect("an order");
        assert_eq!((second.vector.turned, &second.placed), (0, &first.placed), "{day}");
    });
}

/// A small thing at the bench comes in: of all places for it in the order as it was, none beats what was planned, so that nothing
/// else is moved but for late minutes, finish, rules or change-overs.
#[test]
fn a_small_thing_more_moves_nothing_without_cause() {
    over_days(|day, first, _| {
        let mut more = day.clone();
        ups(&mut more).push(json!({"id": "new", "machine": "bench", "hands": 4, "pause": true}));
        more["order_before"] = first
            .placed
            .iter()
            .map(|placed| day["set_ups"][placed.number]["id"].clone())
            .chain([json!("new")])
            .collect();
        let Some((model, second)) = planned(&more) else { return };
        let new = list(&day, "set_ups").len();
        for place in 0..=first.order.len() {
            let mut order = first.order.clone();
            order.insert(place, super::Next::now(new));
            assert!(time(&model, &order).is_none_or(|vector| vector >= second.vector), "{more}");
        }
    });
}

#[test]
fn odd_days_are_planned_or_refused_without_a_stop() {
    let empty = json!({"hours": [[480, 720]], "room": {}, "rig": {}, "rigged": {}, "set_ups": [], "needs": [], "fetched_by": []});
    let (_, none) = planned(&empty).expect("nothing to do");
    assert_eq!((none.vector.finish, none.placed.len()), (480, 0));
    let mut long = empty.clone();
    ups(&mut long).push(json!({"id": "long", "machine": "bench", "hands": 2000}));
    assert!(planned(&long).expect("over days").1.vector.finish > 1440);
    let mut night = empty.clone();
    night["hours"] = json!([[0, 1440]]);
    ups(&mut night).push(json!({"id": "a", "machine": "bench", "hands": 1440}));
    ups(&mut night).push(json!({"id": "b", "machine": "bench", "hands": 10}));
    assert_eq!(planned(&night).expect("over midnight").1.vector.finish, 1450);
    let mut never = empty;
    ups(&mut never).push(json!({"id": "oven", "machine": "oven", "hands": 10, "tail": 600, "watched": true}));
    assert!(planned(&never).is_none());
}

#[test]
fn weeks_of_many_set_ups_end_near_the_least() {
    for (most, seed) in [(30, 1), (80, 2)] {
        let day = week(seed, most);
        let model = model(&day).expect("no circle");
        let planned = plan(&model, Limits { timed: 400_000, ..Limits::default() }).expect("an order");
        holds(&day, &planned);
        let open = |from, to| model.clock.open_between(from, to);
        let gap = open(planned.bound, planned.vector.finish);
        println!("{most}: {gap} min of {}", open(480, planned.vector.finish));
        assert!(gap * 20 <= open(480, planned.vector.finish), "{gap}");
    }
}

/// More set-ups than any week has: an order is found, and every must holds.
#[test]
fn four_hundred_set_ups_are_planned() {
    let day = week(3, 400);
    let model = model(&day).expect("no circle");
    let planned = plan(&model, Limits { timed: 20_000, beam: 2, ..Limits::default() }).expect("an order");
    holds(&day, &planned);
}

#[test]
fn a_part_of_a_day_is_no_longer_than_the_day() {
    over_days(|day, first, mut throws| {
        let before = ends(&first);
        let number = throws.below(list(&day, "set_ups").len());
        let id = day["set_ups"][number]["id"].as_str().expect("id").to_owned();
        if list(&day, "needs").iter().any(|need| need[0] == id || need[1] == id) {
            return;
        }
        assert!(reached(&without(&day, &[&id])).is_none_or(|after| after <= before), "{day}");
    });
}
