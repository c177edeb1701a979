//! The laws of a sketch, for every set-up of the demonstration, of the examples and of random jobs: true to one scale, each
//! dimension on the faces that it names, thin cuts in a detail, and room in the zone that a sheet keeps for it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::jobs::random_jobs_keep;
use common::{shop, try_plan};
use setover::drawing::{Balloon, Item, Sketch};
use setover::plan::Plan;
use setover::sheet::check::{drawing_faults, faults, sketch_faults};
use setover::sheet::draughting::draw;
use setover::sheet::page::{Page, Paper, Rect};
use std::collections::BTreeSet;

/// The room of a sketch on A4 and on Letter, mm; height of its capitals.
const ZONES: [(f64, f64); 2] = [(122.0, 70.0), (126.0, 60.0)];
const CAPITAL: f64 = 3.5;

/// What breaks a law, each with its operation and set-up.
fn broken(plan: &Plan) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    for operation in &plan.operations {
        for set_up in &operation.answer.set_ups {
            if set_up.sketch.items.is_empty() {
                continue;
            }
            let at = format!("{} {}", operation.address, set_up.id);
            let number = |key: &str| operation.answer.value(key).map(|value| value.number);
            all.extend(sketch_faults(&set_up.sketch, number).iter().map(|fault| format!("{at}: {fault}")));
            // What is drawn above its axis alone keeps every size.
            let sizes =
                |sketch: &Sketch| sketch.items.iter().filter(|item| matches!(item, Item::Dimension { .. })).count();
            if let Some(half) = set_up.sketch.above_axis()
                && sizes(&half) < sizes(&set_up.sketch)
            {
                all.insert(format!("{at}: a size is lost above the axis"));
            }
            // What the words true in a hole is touched in the hole: within the metal about it.
            let in_the_hole = set_up.hold.iter().any(|line| {
                line.balloon == Balloon::Indicator
                    && ["in the hole", "unworn ring"].iter().any(|at| line.words.contains(at))
            });
            let outermost = set_up.sketch.items.iter().filter_map(|item| match item {
                Item::Section { outline, .. } => outline.iter().map(|p| p.y.abs()).reduce(f64::max),
                _ => None,
            });
            let outermost = outermost.fold(0.0, f64::max);
            let outside = |item: &Item| matches!(item, Item::Balloon { balloon: Balloon::Indicator, at, .. } if at.y.abs() > outermost - 1e-6);
            if in_the_hole && set_up.sketch.items.iter().any(outside) {
                all.insert(format!("{at}: the indicator stands outside, and the words have it in the hole"));
            }
            for (width, height) in ZONES {
                let mut page = Page::new(Paper::A4);
                let room = Rect::new(14.0, 60.0, 14.0 + width, 60.0 + height);
                let area = page.area("sketch", room);
                let said = |key: &str| operation.answer.value(key).map(|value| format!("{:.3}", value.number));
                match draw(&mut page, area, room, (&set_up.sketch, CAPITAL), said) {
                    Ok(drawing) => {
                        let thin = drawing_faults(&set_up.sketch, &drawing);
                        all.extend(thin.iter().map(|fault| format!("{at}: {fault}")));
                    }
                    Err(fault) => {
                        all.insert(format!("{at}: {fault}"));
                    }
                }
                all.extend(faults(&page).iter().map(|fault| format!("{at}, {width} × {height}: {fault}")));
            }
        }
    }
    all
}

#[test]
fn the_demonstration_and_the_examples_keep_the_laws() {
    let read = |path: &str| std::fs::read_to_string(path).unwrap();
    let own = shop(&read("demo/shop.yaml"));
    let mut all = broken(&try_plan(&read("demo/tidewater.yaml"), Some(&own)).unwrap());
    for word in ["face", "skim", "ream-bush", "thread-insert", "turn", "bore-hole", "part-off"] {
        let job = read(&format!("examples/{word}.yaml"));
        for shop in [None, Some(shop(&read("examples/shop.yaml")))] {
            all.extend(broken(&try_plan(&job, shop.as_ref()).unwrap()));
        }
    }
    assert!(all.is_empty(), "{all:#?}");
}

#[test]
fn random_jobs_keep_the_laws() {
    random_jobs_keep(60, |plan| broken(plan).into_iter().collect());
}
