//! A part is held on a diameter that another of its operations makes, or cuts away: there the day keeps the order of the file.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, shop, try_plan};
use setover::plan::day::{Asked, Because, Day, Why, day};

const BORE: &str = "bore-hole: {set-up: {feature: bore}, present: 24.2 ± 0.05 mm, bore: 25.00 .. 25.05 mm, depth: 30 mm, through: true, behind: 6.0 ± 0.5 mm, outside: 48.0 ± 0.1 mm, over-all: 30 ± 0.1 mm, eccentric: 0.05 ± 0.02 mm, least-wall: 10 mm, true-to: bore, finish: Ra 3.2 um, hold: {in: soft-jaws, diameter: 48 mm, grip: 18 mm, overhang: 12 mm, true-within: 0.03 mm, stop: step}}";
const ON_A_MANDREL: &str = "face: {set-up: {feature: end}, outside: 47 mm, inside: 25 mm, length: 30 ± 0.01 mm, wear: 0.10 ± 0.01 mm, least-length: 29 mm, finish: Ra 3.2 um, square-within: 0.03 mm, removed-before: 0 mm, hold: {in: mandrel, diameter: HELD, overhang: 30 mm, true-within: 0.02 mm, tested: 30 N·m}}";
const JOURNAL: &str = "turn: {set-up: {feature: journal}, present: 24.60 ± 0.02 mm, outside: 23.95 .. 24.00 mm, length: 22.0 ± 0.2 mm, over-all: 70 ± 0.2 mm, corner: 0.4 mm, finish: Ra 3.2 um, hold: {in: jaws, diameter: 24.6 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.05 mm, stop: rod, nipped: hard}, inside: 0 mm}";
const IN_JAWS: &str = "face: {set-up: {feature: other end}, outside: 24.6 mm, length: 70 ± 0.01 mm, wear: 0.10 ± 0.01 mm, least-length: 69 mm, finish: Ra 3.2 um, square-within: 0.03 mm, removed-before: 0 mm, hold: {in: soft-jaws, diameter: HELD, grip: 21 mm, overhang: 48.5 mm, true-within: 0.02 mm, stop: step, nipped: hard}}";

/// The day of two works of one part, the first of them before the other in the file.
fn day_of(first: &str, second: &str) -> Day {
    let job = format!(
        "job: two\nparts:\n  - part: boss\n    material: cast iron\n    operations:\n      - {first}\n      - {second}\n"
    );
    let plans = vec![try_plan(&job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
    day(&plans, &Asked::default()).unwrap_or_else(|all| panic!("{all:#?}"))
}

fn order(day: &Day) -> Vec<&str> {
    day.lines.iter().map(|line| line.id.as_str()).collect()
}

#[test]
fn what_is_held_on_a_made_diameter_comes_behind_what_makes_it() {
    for (makes, held, size) in [(BORE, ON_A_MANDREL, "25 mm"), (JOURNAL, IN_JAWS, "24 mm")] {
        let day = day_of(makes, &held.replace("HELD", size));
        assert_eq!(order(&day), ["1.1", "2.1"], "held on {size}");
        let by = |line: &setover::plan::day::Line| matches!(&line.why, Why::Must(_, Because::HeldOn(_)));
        assert!(
            day.lines.iter().any(by),
            "the reason: {:?}",
            day.lines.iter().map(|line| &line.why).collect::<Vec<_>>()
        );
    }
}

#[test]
fn what_is_held_on_what_was_found_comes_before_that_is_cut_away() {
    // The usual order of the day, ends first, has them so; the other way round the grip is gone.
    let day = day_of(&IN_JAWS.replace("HELD", "24.6 mm"), JOURNAL);
    assert_eq!(order(&day), ["1.1", "2.1"]);
    let held = IN_JAWS.replace("other end", "end").replace("HELD", "24.6 mm");
    let hole = "drill: {starts-on: flat, diameter: 6.8 mm, depth: 20 mm, wall: 70 ± 0.3 mm, edge: 10 ± 0.2 mm, stick-out: 60 mm, set-up: {feature: middle, not-before: \"13:00\"}, hold: {in: vice, tested: 30 N·m, diameter: 24.6 mm, grip: 12 mm, overhang: 6 mm}}";
    for first in [hole, held.as_str()] {
        assert_eq!(order(&day_of(first, JOURNAL)), ["1.1", "2.1"], "{first}");
    }
}

#[test]
fn another_diameter_binds_nothing() {
    let day = day_of(JOURNAL, &IN_JAWS.replace("HELD", "20 mm"));
    assert_eq!(order(&day), ["2.1", "1.1"], "ends come first where nothing is held on what is made");
}

#[test]
fn both_bushes_are_in_before_either_closed_in_bore_is_read() {
    let bush = |feature: &str| {
        format!(
            "ream-bush: {{set-up: {{feature: {feature}, name: {feature}}}, housing: {{bore: 20.010 ± 0.004 mm, outside: 40 mm, length: 20 mm, material: cast aluminium, finish: Ra 0.8 um}}, bush: {{outside: 20.045 ± 0.004 mm, bore: 15.950 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}}, shaft: 15.984 ± 0.003 mm, clearance: 1 .. 2 thou, duty: gear, hold: {{in: clamps, tested: 15 N·m}}, assemble: warm-and-chill, near: [nothing], temper: as-cast, gauge: plugs, by: hand}}"
        )
    };
    let day = day_of(&bush("upper"), &bush("lower"));
    let at = |id: &str| {
        order(&day).iter().position(|own| *own == id).unwrap_or_else(|| panic!("no {id}: {:?}", order(&day)))
    };
    for (press, read) in [("1.3", "2.4"), ("2.3", "1.4")] {
        assert!(at(press) < at(read), "{press} before {read}: {:?}", order(&day));
    }
}

const DEBURR: &str = "deburr: {edges: 2, by: scraper, turning: false, set-up: {feature: bore, name: edges}}";
const WASH: &str = "wash: {cleaner: water and detergent, dirt: oil, cavities: 0}";
const FIT: &str = "fit-up: {bore: 25.012 ± 0.008 mm, shaft: 24.962 ± 0.004 mm, shaft-material: mild steel, clearance: 0.030 .. 0.080 mm, running: {bore: 60 degC, shaft: 70 degC}, set-up: {feature: bore, name: fit}}";

/// A day of works of one part, as the file has them.
fn day_of_all(works: &[&str]) -> Day {
    let list: String = works.iter().map(|work| format!("      - {work}\n")).collect();
    let job = format!("job: all\nparts:\n  - part: boss\n    material: cast iron\n    operations:\n{list}");
    let plans = vec![try_plan(&job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
    day(&plans, &Asked::default()).unwrap_or_else(|all| panic!("{all:#?}"))
}

#[test]
fn a_fit_is_measured_where_the_job_lists_it_and_turns_nothing_round() {
    let behind = day_of_all(&[BORE, DEBURR, WASH, FIT]);
    assert_eq!(order(&behind), ["1.1", "2.1", "3.1", "4.1"], "what was made");
    let worn = FIT.replace("25.012", "24.212").replace("24.962", "24.162");
    let found = day_of_all(&[&worn, BORE, DEBURR, WASH]);
    assert_eq!(order(&found), ["1.1", "2.1", "3.1", "4.1"], "what was found");
    // Read as the bore will be, it is the fit of that, wherever it is listed.
    assert_eq!(order(&day_of_all(&[FIT, BORE, DEBURR, WASH])).last(), Some(&"1.1"));
    let other = day_of_all(&[BORE, DEBURR, WASH, &FIT.replace("feature: bore", "feature: other end")]);
    assert_eq!(order(&other), ["1.1", "2.1", "3.1", "4.1"], "another bore");
}

/// What is measured of a fit says nothing of the other sizes of the part: no cut waits for it.
#[test]
fn a_fit_that_is_measured_leaves_no_part_measured() {
    use setover::handbook::StateKind;
    let job = format!("job: fit\nparts:\n  - part: boss\n    material: cast iron\n    operations:\n      - {FIT}\n");
    let plan = try_plan(&job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"));
    let leaves = plan.operations[0].answer.set_ups.iter().flat_map(|set_up| &set_up.leaves);
    let kinds: Vec<StateKind> = leaves.map(|state| state.kind).collect();
    assert_eq!(kinds, [StateKind::FitMeasured]);
}

#[test]
fn the_worn_fit_is_measured_before_its_bush_comes_out() {
    const OUT: &str = "press-out: {housing: {outside: 48 mm, length: 20 mm}, bush: {outside: 25.02 ± 0.02 mm, bore: 18.10 ± 0.02 mm, length: 23 mm, material: LG2}, interference: 0.030 mm, held-by: flange, push-from: inner, flange: {diameter: 30 mm, thickness: 3 mm}, mandrel: {diameter: 24.5 mm, length: 40 mm}, support: {inside: 32 mm, height: 40 mm, under: boss}, guarded: true, near: [nothing], set-up: {feature: bore, name: out}}";
    let worn = FIT.replace("not-before", "");
    let late = worn.replace("name: fit", "name: fit, not-before: \"12:00\"");
    assert_eq!(order(&day_of_all(&[&late, OUT])), ["1.1", "2.1"]);
    assert_eq!(order(&day_of_all(&[OUT, &worn])), ["1.1", "2.1"]);
}

/// Shims go in behind everything that is done to the parts that they stand between, whichever way the job lists the two.
#[test]
fn shims_go_in_last() {
    let shim = include_str!("../examples/shim.yaml");
    let shim = shim.split_once("      - shim:").unwrap().1;
    let list = |work: &str, first: bool| {
        let shim = format!("      - shim:{shim}");
        let work = format!("      - {work}\n");
        let both = if first { format!("{work}{shim}") } else { format!("{shim}{work}") };
        let job = format!("job: all\nparts:\n  - part: boss\n    material: mild steel\n    operations:\n{both}");
        let plans = vec![try_plan(&job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
        let day = day(&plans, &Asked { from: Some("11:00".parse().unwrap()), ..Asked::default() });
        day.unwrap_or_else(|all| panic!("{all:#?}"))
    };
    let at = |work: &str| work.replacen("set-up: {", "set-up: {not-before: \"13:00\", ", 1);
    for work in [&at(JOURNAL), &at(BORE)] {
        assert_eq!(order(&list(work, true)), ["1.1", "2.1"], "{work}");
        assert_eq!(order(&list(work, false)), ["2.1", "1.1"], "{work}");
    }
    // A deburring or a wash behind it is another.
    assert_eq!(order(&list(&at(DEBURR), true)), ["1.1", "2.1"]);
}
