//! The shop file: what is read, what cannot be, and what is picked from it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::{SHOP, shop, with};
use setover::proof::Place;
use setover::quantity::Quantity;
use setover::reading::{Node, Problem};
use setover::shop::{Gauge, Machine, Shop};

fn problems(text: &str) -> Vec<Problem> {
    match Node::yaml(text, Place::start(0)).map_err(|p| vec![p]).and_then(Node::read::<Shop>) {
        Ok(shop) => shop.problems(),
        Err(problems) => problems,
    }
}

#[test]
fn what_cannot_be_is_placed() {
    for (from, to, says) in [
        (
            "dials: [{axis: top, division: 0.02 mm, per-turn: 2 mm, set-over: 0 deg}",
            "dials: [{axis: top, reads: radius, division: 0.02 mm, per-turn: 2 mm}",
            "belongs to the dial `across` only",
        ),
        ("set-over: 0 deg", "set-over: 95 deg", "under 90 deg"),
        ("efficiency: 0.75\n      swing", "efficiency: 75\n      swing", "between 0.05 and 1"),
        ("spindle: 38 62 100 165 270 430 700 1120 rev/min", "spindle: 38 62 100", "as in `38 62 100 rev/min`"),
        ("spindle: 38 62 100 165 270 430 700 1120 rev/min", "spindle: 0 62 rev/min", "above zero"),
        (
            "edge-angle: 95 deg}\n  - turning: {name: carbide-04",
            "edge-angle: 5 deg}\n  - turning: {name: carbide-04",
            "between 30 and 120",
        ),
        ("to: 13 mm, by: 0.1 mm", "to: 13 mm", "needs `from`, `to` and `by`"),
        ("point: 118 deg", "point: 20 deg", "between 60 and 180"),
        ("size: 16 H7", "size: H7", "named by its hole"),
        ("size: 16 H7", "size: 16 Q7", "not a tolerance class"),
        ("uncertainty: 4 um", "uncertainty: 0 um", "no instrument is without doubt"),
        ("uncertainty: 4 um", "uncertainty: 0.04 um", "no gauge of a workshop reads finer"),
        ("depth-stop-doubt: 0.2 mm", "depth-stop-doubt: 0.002 mm", "no stop stands surer"),
        ("division: 0.02 mm", "division: 0.0002 mm", "no dial is divided finer"),
        ("per-turn: 2 mm", "per-turn: 2.01 mm", "a dial has whole lines"),
        ("guard: 2", "guard: 9", "lies between"),
        ("power: 0.75 kW", "power: 0.75", "needs its unit"),
        ("material: CBN", "material: cheese", "not a tool material"),
        ("  - press:", "  - pres:", "did you mean `press`"),
        ("units: metric", "units: metrical", "did you mean `metric`"),
    ] {
        let all = problems(&with(SHOP, from, to));
        assert!(all.iter().any(|p| p.says.contains(says) && p.place.is_some()), "{to}: {all:#?}");
    }
}

#[test]
fn a_default_instrument_is_taken_only_for_what_it_can_read() {
    let shop = shop(SHOP);
    assert_eq!(shop.default_instrument(20.0, Gauge::Outside).map(|i| i.name.value.as_str()), Some("micrometer"));
    assert!(shop.default_instrument(20.0, Gauge::Inside).is_none());
    assert!(shop.default_instrument(200.0, Gauge::Outside).is_none());
}

#[test]
fn a_drill_of_a_set_has_its_very_size() {
    let drills = shop(SHOP).drills();
    assert!(drills.iter().any(|d| d.diameter == 8.4));
    assert_eq!(drills.len(), 121);
}

#[test]
fn steps_are_those_of_the_plate() {
    let shop = shop(SHOP);
    let Some(Machine::Lathe(lathe)) = shop.machine("belt lathe") else { panic!("a lathe") };
    let step = |n| lathe.spindle.value.at_or_below(n).map(Quantity::number);
    assert_eq!((step(550.9), step(430.0), step(37.0)), (Some(430.0), Some(430.0), None));
}

/// What others call a slide is told with our word for it.
#[test]
fn other_words_for_a_slide_are_told_with_ours() {
    let shop = |axis: &str| {
        let text = format!(
            "shop: x\nmachines:\n  - lathe: {{name: a, spindle: 100 rev/min, dials: [{{axis: {axis}, division: 0.02 mm, per-turn: 2 mm, reads: radius}}]}}\n"
        );
        let node = setover::reading::Node::yaml(&text, setover::proof::Place::start(0)).expect("YAML");
        node.read::<setover::shop::Shop>().err().map_or_else(String::new, |all| all[0].says.clone())
    };
    for (axis, ours) in [
        ("cross", "across"),
        ("cross slide", "across"),
        ("compound", "top"),
        ("Top Slide", "top"),
        ("carriage", "along"),
        ("saddle", "along"),
    ] {
        assert!(shop(axis).contains(&format!("is `{ours}` here")), "{axis}: {}", shop(axis));
    }
    assert!(shop("sideways").contains("is no slide"), "{}", shop("sideways"));
    assert_eq!(shop("across"), "");
}

/// A gauge whose reach nobody typed proves no size: it is asked for, not taken to reach everything.
#[test]
fn an_instrument_says_from_what_to_what_it_reads() {
    for key in ["from: 0 mm, ", "to: 25 mm, "] {
        let whole =
            "shop: s\ninstruments: [{name: m, kind: outside micrometer, from: 0 mm, to: 25 mm, uncertainty: 4 um}]\n";
        let less = whole.replace(key, "");
        let missing = format!("`{}` is missing", key.split(':').next().unwrap());
        assert!(problems(&less).iter().any(|problem| problem.says.contains(&missing)), "{missing}");
        assert!(problems(whole).is_empty());
    }
}

/// Whoever names a machine finds it on the sheet, or nothing proven: another never stands in its place.
#[test]
fn a_machine_that_is_named_does_the_work_or_nothing_is_proven() {
    let more = "machines:\n  - oven: {name: stove, most: 250 degC}\n  - freezer: {name: ice box, at: -18 degC}\n";
    let own = shop(&with(include_str!("../examples/shop.yaml"), "machines:\n", more));
    let jobs = std::fs::read_dir("examples").unwrap().map(|entry| entry.unwrap().path());
    let (mut refused, mut stood) = (0, 0);
    for path in jobs.filter(|path| path.file_name().is_none_or(|name| name != "shop.yaml")) {
        let (text, word) =
            (std::fs::read_to_string(&path).unwrap(), path.file_stem().unwrap().to_string_lossy().into_owned());
        for machine in &own.machines {
            let named = format!("      - {word}:\n          set-up: {{machine: {}}}\n", machine.name());
            let plan = common::plan(&with(&text, &format!("      - {word}:\n"), &named), Some(&own));
            let planned = plan.operations.iter().find(|planned| planned.word == word).expect("the operation");
            // Of an oven that one operation needs beside other machines the sheet may say no more than "oven".
            let by_kind = matches!(machine, Machine::Oven(_)).then_some("oven");
            let is_on = |name: &str| name == machine.name() || Some(name) == by_kind;
            // What is only reckoned stands on no machine.
            let reckoned = planned.answer.set_ups.is_empty() && planned.answer.refused.is_none();
            let stands = reckoned || planned.answer.set_ups.iter().any(|set_up| is_on(&set_up.machine));
            let is_proven = planned.verdict == setover::proof::Verdict::Proven;
            assert!(stands || !is_proven, "{word} on the {}", machine.name());
            stood += usize::from(stands);
            refused += usize::from(planned.answer.refused.is_some());
        }
    }
    assert!(refused > 20 && stood > 20, "{refused} refused, {stood} stood there");
}
