//! Days planned by a general-purpose constraint solver (`days.py`): the five figures of each, by a model that times no order.

use super::rows;
use crate::day_planner::figures as figures_of;
use crate::day_planner::random::{Kind, day};
use crate::day_planner::read::{instances, model, notices};
use serde_json::Value;
use setover::plan::day::search::{Limits, plan};

/// The first seed of the random days; they are made anew, and their text is held against what the solver was given.
const SEED: u64 = 20_261_128;

/// The committed days, and two hundred random ones of five to nine set-ups.
fn days() -> Vec<Value> {
    let kind = |number: u64| Kind { set_ups: 5 + number as usize % 5, times: !number.is_multiple_of(3), rests: true };
    let random = (0..200).map(|number| day(SEED + number, kind(number)));
    instances().into_iter().chain(notices()).chain(random).collect()
}

/// A day without what it says of itself: the solver is told no answer.
fn asked(mut day: Value) -> Value {
    let keys = day.as_object_mut().expect("a day");
    keys.retain(|key, _| !["optimum", "count"].contains(&key.as_str()));
    day
}

/// `SETOVER_DAYS=FILE` writes the days for `days.py`.
#[test]
fn a_constraint_solver_finds_no_better_day() {
    let all: Vec<Value> = days().into_iter().map(asked).collect();
    if let Ok(path) = std::env::var("SETOVER_DAYS") {
        std::fs::write(path, serde_json::to_string(&all).expect("JSON")).expect("written");
    }
    let rows = rows("days.csv");
    assert_eq!(rows.len(), all.len());
    let (mut proven, mut impossible, mut others) = (0, 0, Vec::new());
    for (day, row) in all.iter().zip(&rows) {
        let text = serde_json::to_string(day).expect("JSON");
        let sum = format!("{:08x}", crc32fast::hash(text.as_bytes()));
        assert_eq!(
            (day["name"].as_str(), &sum),
            (Some(row["day"].as_str()), &row["crc32"]),
            "another day: run days.py"
        );
        let found = plan(&model(day).expect("no circle"), Limits::default());
        let own = found.map(|planned| figures_of(planned.vector));
        let figures = ["late_min", "finish_min", "better_broken", "change_over_min", "turned"];
        let theirs = || figures.map(|column| row[column].parse::<u32>().expect("minutes"));
        let same = match row["state"].as_str() {
            "impossible" => own.is_none(),
            "proven" => own == Some(theirs()),
            // What it found till it was stopped is no better, level by level.
            _ => own.is_some_and(|own| own <= theirs()),
        };
        if !same {
            others.push(format!("{own:?} for {row:?}: {day}"));
        }
        proven += u32::from(row["state"] == "proven");
        impossible += u32::from(row["state"] == "impossible");
    }
    assert!(others.is_empty(), "{others:#?}");
    println!("{proven} proven, {impossible} impossible, of {}", rows.len());
    assert!(proven > 200, "{proven}");
}
