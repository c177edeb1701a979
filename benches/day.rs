//! What it costs to find the order of a day: mixed days, flat ones, and weeks. `cargo bench --bench day`.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing, dead_code)]

#[path = "../tests/day_planner/random.rs"]
mod random;
#[path = "../tests/day_planner/read.rs"]
mod read;

use random::{Kind, Throws, day, week};
use serde_json::{Value, json};
use setover::plan::day::search::{
    Apart, Better, Clock, Edge, Holding, Inside, Limits, Machine, Model, Piece, Rigging, Spec, Takes, Vector, plan,
};
use std::time::Instant;

/// A day without a rule: six riggings on one machine.
fn flat(most: usize, seed: u64) -> Value {
    let mut throws = Throws::new(seed);
    let up = |number: usize, throws: &mut Throws| {
        let holding = throws.of(&["a", "b", "c", "d", "e", "f"]);
        json!({"id": format!("s{number}"), "machine": "lathe", "holding": holding, "hands": 5 + throws.below(35)})
    };
    let ups: Vec<Value> = (0..most).map(|number| up(number, &mut throws)).collect();
    json!({
        "name": "flat", "hours": [[480, 720], [765, 1020]], "room": {}, "rigged": {}, "set_ups": ups, "needs": [],
        "rig": {"lathe": {"a": 5, "b": 20, "c": 10, "d": 25, "e": 8, "f": 12}}, "fetched_by": [],
    })
}

/// Milliseconds that this process was at work, where the system says so: on a shared machine they tell more than the clock.
fn processor_ms() -> f64 {
    let text = std::fs::read_to_string("/proc/self/schedstat").unwrap_or_default();
    text.split_whitespace().next().and_then(|text| text.parse::<f64>().ok()).unwrap_or_default() / 1e6
}

fn run(name: &str, day: &Value) {
    let model: Model = read::model(day).expect("no circle");
    let (start, worked) = (Instant::now(), processor_ms());
    let planned = plan(&model, Limits::default());
    let (took, worked) = (start.elapsed(), processor_ms() - worked);
    let took = format!("{took:>10.1?} ({worked:.0} ms of the processor)");
    let Some(planned) = planned else {
        println!("{name:<12} {:>4} set-ups {took}  no order", model.len());
        return;
    };
    let open = |from, to| f64::from(model.clock.open_between(from, to));
    let gap = 100.0 * open(planned.bound, planned.vector.finish) / open(model.start, planned.vector.finish).max(1.0);
    let (most, labels, proof) = (model.len(), planned.labels, planned.proof);
    println!("{name:<12} {most:>4} set-ups {took} {labels:>8} labels  gap {gap:>4.1} %  {proof:?}");
}

fn main() {
    for (most, seed) in [(15, 9000), (15, 9001), (24, 9000), (24, 9001)] {
        run("mixed", &day(seed, Kind { set_ups: most, times: seed % 2 == 1, rests: true }));
    }
    for (most, seed) in [(15, 0), (15, 1), (24, 0), (24, 1)] {
        run("flat", &flat(most, seed));
    }
    for (most, seed) in [(200, 1), (200, 2), (200, 3), (200, 4), (400, 1)] {
        run("weeks", &week(seed, most));
    }
}
