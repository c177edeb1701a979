//! The planner of the day alone, without jobs: committed days with their optimum, random days against every order, relations.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

#[path = "day_planner/checker.rs"]
mod checker;
#[path = "day_planner/exhaustive.rs"]
mod exhaustive;
#[path = "day_planner/matrices.rs"]
mod matrices;
#[path = "day_planner/minutes.rs"]
mod minutes;
#[path = "day_planner/random.rs"]
pub mod random;
#[path = "day_planner/read.rs"]
pub mod read;
#[path = "day_planner/relations.rs"]
mod relations;
#[path = "day_planner/worked.rs"]
mod worked;

use checker::{Line, check};
use random::Kind;
use read::{instances, model, optimum};
use serde_json::Value;
use setover::plan::day::search::{
    Apart, Better, Clock, Compared, Edge, Holding, Inside, Limits, Machine, Model, Next, Piece, Placed, Planned, Proof,
    Rigging, Spec, State, Takes, Vector, bound, made_whole, plan, time, weigh,
};

/// The seed of the random days; `SETOVER_SEED` sets another.
const SEED: u64 = 20_261_126;

fn seed() -> u64 {
    let seed = std::env::var("SETOVER_SEED").ok().and_then(|text| text.parse().ok()).unwrap_or(SEED);
    println!("seed {seed}");
    seed
}

fn exactly(model: &Model, compared: Compared) -> Option<Vector> {
    let order = weigh(model, None, 10_000_000, compared).order?;
    time(model, &order)
}

fn heuristic() -> Limits {
    Limits { exact: 0, ..Limits::default() }
}

pub fn figures(vector: Vector) -> [u32; 5] {
    [vector.late, vector.finish, vector.better, vector.change, vector.turned]
}

/// Pieces of less than five minutes that change-overs leave over, those that only meet counted as one.
fn crumbs(planned: &Planned) -> usize {
    let own = |placed: &Placed| {
        let mut all: Vec<(u32, u32)> = Vec::new();
        let mut pieces = placed.pieces.clone();
        pieces.sort_unstable();
        for (from, to) in pieces {
            match all.last_mut().filter(|last| last.1 == from) {
                Some(last) => last.1 = to,
                None => all.push((from, to)),
            }
        }
        all.iter().skip(1).filter(|(from, to)| to - from < 5).count()
    };
    planned.placed.iter().map(own).sum()
}

fn lines(day: &Value, planned: &Planned) -> Vec<Line> {
    let id = |number: usize| day["set_ups"][number]["id"].as_str().unwrap().to_owned();
    let line = |placed: &Placed| Line {
        id: id(placed.number),
        start: placed.start,
        end: placed.end,
        pieces: placed.pieces.clone(),
    };
    planned.placed.iter().map(line).collect()
}

fn holds(day: &Value, planned: &Planned) {
    let (wrong, found) = check(day, &lines(day, planned));
    assert!(wrong.is_empty(), "{day}: {wrong:#?} {:?}", planned.placed);
    assert_eq!(found, figures(planned.vector), "{}", day["name"]);
}

#[test]
fn every_committed_day_has_its_five_figures() {
    for day in instances() {
        let model = model(&day).unwrap();
        let planned = plan(&model, Limits::default());
        assert_eq!(planned.as_ref().map(|planned| planned.vector), optimum(&day), "{}", day["name"]);
        assert_eq!(exactly(&model, Compared::default()), optimum(&day), "{}", day["name"]);
        let Some(planned) = planned else { continue };
        holds(&day, &planned);
        assert!(planned.exact && planned.bound == planned.vector.finish);
        let found = plan(&model, heuristic()).unwrap();
        holds(&day, &found);
        assert!(found.vector >= planned.vector && bound(&model, &State::first(&model)).unwrap() <= planned.vector);
    }
}

#[test]
fn random_days_are_as_good_as_the_best_of_all_their_orders() {
    let seed = seed();
    let (mut impossible, mut found_too, mut crumbs_gone) = (0, 0, 0);
    for number in 0..500 {
        let kind = Kind { set_ups: 4 + number as usize % 4, times: number % 3 > 0, rests: true };
        let day = random::day(seed.wrapping_add(number), kind);
        let model = model(&day).unwrap();
        let best = exhaustive::best(&model);
        let planned = plan(&model, Limits::default());
        assert_eq!(planned.as_ref().map(|planned| planned.vector), best, "{day}");
        assert_eq!(exactly(&model, Compared::default()), best, "{day}");
        let Some(planned) = planned else {
            impossible += 1;
            continue;
        };
        holds(&day, &planned);
        let whole = made_whole(&model, planned.clone(), 5);
        holds(&day, &whole);
        assert_eq!(whole.vector, planned.vector, "{day}");
        assert!(crumbs(&whole) <= crumbs(&planned), "{day}");
        crumbs_gone += crumbs(&planned) - crumbs(&whole);
        assert!(bound(&model, &State::first(&model)).unwrap() <= planned.vector, "{day}");
        found_too += u32::from(plan(&model, heuristic()).is_some_and(|found| found.vector == planned.vector));
    }
    println!("{impossible} impossible, {found_too} found without weighing every order, {crumbs_gone} crumbs less");
    assert!(impossible < 50 && found_too > 400 && crumbs_gone > 0);
}

/// Four committed days notice when the comparison of labels leaves something out: one where the rest after a tail counts, one
/// where banked minutes do, one where the time at which a machine is free does, one where the day of a load does.
#[test]
fn nothing_may_be_left_out_of_the_comparison_of_labels() {
    let days = read::notices();
    let whole = Compared::default();
    let mutants = [
        Compared { rest: false, ..whole },
        Compared { bank: false, ..whole },
        Compared { free: false, ..whole },
        Compared { load_day: false, ..whole },
    ];
    assert_eq!(days.len(), mutants.len());
    for (day, mutant) in days.iter().zip(mutants) {
        let model = model(day).unwrap();
        assert_eq!(exactly(&model, whole), exhaustive::best(&model));
        assert_ne!(exactly(&model, mutant), exactly(&model, whole), "{mutant:?}");
    }
}

#[test]
fn tiny_days_end_when_the_best_choice_of_every_minute_ends() {
    let (seed, mut compared) = (seed(), 0);
    for number in 0..40 {
        let day = minutes::tiny(seed.wrapping_add(number));
        let Some(planned) = plan(&model(&day).unwrap(), Limits::default()) else { continue };
        if planned.vector.finish < 60 {
            assert_eq!(minutes::least_finish(&day), Some(planned.vector.finish), "{day}");
            compared += 1;
        }
    }
    assert!(compared > 25, "{compared}");
}
