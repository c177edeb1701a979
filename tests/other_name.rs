//! One place under two names: who reads the very size that a cut leaves reads what that cut makes, whatever the two are called.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, in_shop, shop, try_plan, with};
use setover::plan::day::{Asked, Because, day};
use setover::proof::Verdict;

const BORE: &str = "      - bore-hole: {set-up: {feature: housing bore}, present: 22.2 ± 0.05 mm, bore: 24.004 .. 24.016 mm, depth: 20 mm, through: true, behind: 6.0 ± 0.5 mm, outside: 46.0 ± 0.1 mm, over-all: 20 ± 0.1 mm, eccentric: 0.05 ± 0.02 mm, least-wall: 8 mm, true-to: bore, finish: Ra 3.2 um, hold: {in: soft-jaws, diameter: 46 mm, grip: 10 mm, overhang: 10 mm, true-within: 0.03 mm, stop: step}}
";
const PRESS: &str = "      - press-in: {set-up: {feature: bush}, housing: {bore: 24.010 ± 0.006 mm, outside: 46 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 24.036 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, stands: flush, support: {inside: 30 mm, under: boss}}
";

fn job(operations: &[&str]) -> String {
    format!("job: One\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n{}", operations.concat())
}

/// What is said of a bush whose bore is cut at another name.
fn said(operations: &[&str]) -> Option<Verdict> {
    let plan = in_shop(&job(operations));
    let bush = plan.operations.iter().find(|own| own.word == "press-in").unwrap();
    bush.answer.checks.iter().find(|check| check.id == "made-at-another-name").and_then(|check| check.verdict())
}

/// The words of the operations of a day, in its order, and whether one stands behind another for that.
fn in_order(operations: &[&str]) -> (Vec<String>, bool) {
    let plans = vec![try_plan(&job(operations), Some(&shop(SHOP))).unwrap()];
    let day = day(&plans, &Asked::default()).unwrap();
    let words: Vec<String> = day.lines.iter().map(|line| plans[0].operations[line.sheet.1].word.to_string()).collect();
    let sized = day.lines.iter().flat_map(|line| &line.after).flat_map(|edge| &edge.because);
    (words, sized.into_iter().any(|because| matches!(because, Because::SizedBy(_))))
}

#[test]
fn a_bush_for_a_bore_that_is_cut_behind_it_is_in_doubt() {
    assert_eq!(said(&[PRESS, BORE]), Some(Verdict::Doubtful));
    assert_eq!(said(&[BORE, PRESS]), None);
    // A bore of another size, and one that was so before the cut, are others.
    let wider = with(BORE, "bore: 24.004 .. 24.016 mm", "bore: 26.004 .. 26.016 mm");
    assert_eq!(said(&[PRESS, &wider]), None);
    let from_there = with(&wider, "present: 22.2 ± 0.05 mm", "present: 24.01 ± 0.01 mm");
    assert_eq!(said(&[PRESS, &from_there]), None);
    // Of two bores of one size the one before is meant.
    let twin = with(BORE, "feature: housing bore", "feature: twin");
    assert_eq!(said(&[BORE, PRESS, &twin]), None);
}

#[test]
fn the_day_cuts_it_first() {
    for listed in [[PRESS, BORE], [BORE, PRESS]] {
        let (words, sized) = in_order(&listed);
        assert_eq!(words.first().map(String::as_str), Some("bore-hole"), "{words:?}");
        assert!(sized, "{words:?}");
    }
    let wider = with(BORE, "bore: 24.004 .. 24.016 mm", "bore: 26.004 .. 26.016 mm");
    assert!(!in_order(&[PRESS, &wider]).1);
}

#[test]
fn a_cut_behind_stays_behind_what_was_judged_before_it() {
    const FACE: &str = "      - face: {set-up: {feature: end}, outside: 46 mm, inside: 20 mm, length: 20.00 ± 0.01 mm, wear: 0.2 ± 0.02 mm, finish: Ra 3.2 um, square-within: 0.05 mm, least-length: 18 mm, hold: {in: soft-jaws, diameter: 46 mm, grip: 10 mm, overhang: 10 mm, true-within: 0.02 mm, stop: step}}
";
    let plans = [try_plan(&job(&[BORE, FACE]), Some(&shop(SHOP))).unwrap()];
    let words = |listed: &[&str]| in_order(listed).0;
    // Its lengths were read from the end as it was: the face stays behind it.
    assert_eq!(words(&[BORE, FACE]), ["bore-hole", "face"]);
    let checks = |word: &str| {
        let own = plans[0].operations.iter().find(|own| own.word == word).unwrap();
        own.answer.checks.iter().any(|check| check.id == "size-still-there")
    };
    assert!(!checks("bore-hole"));
}

/// A shaft that is still to be turned was read by nobody: a fit is not judged by what it will be, but for the whole of its limits.
#[test]
fn a_size_of_another_part_that_is_still_to_be_cut_was_read_by_nobody() {
    const SHAFT: &str = "  - part: shaft\n    material: mild steel\n    operations:\n      - turn: {present: 25.60 ± 0.02 mm, outside: 24.965 .. 25.000 mm, length: 22.0 ± 0.2 mm, over-all: 70 ± 0.2 mm, corner: 0.4 mm, finish: Ra 1.6 um, inside: 0 mm, hold: {in: jaws, diameter: 25.6 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.05 mm, stop: rod, nipped: hard}}\n";
    let said = |shaft: &str, first: bool| {
        let fit = format!(
            "  - part: case\n    material: cast iron\n    operations:\n      - fit-up: {{bore: 25.040 ± 0.008 mm, shaft: {shaft}, shaft-material: mild steel, clearance: 0.030 .. 0.080 mm, running: {{bore: 60 degC, shaft: 70 degC}}}}\n"
        );
        let parts = if first { [SHAFT, &fit].concat() } else { [&fit, SHAFT].concat() };
        let plan = in_shop(&format!("job: Fit\nparts:\n{parts}"));
        let fit = plan.operations.iter().find(|own| own.word == "fit-up").unwrap();
        fit.answer.checks.iter().find(|check| check.id == "size-still-there").and_then(|check| check.verdict())
    };
    for first in [true, false] {
        assert_eq!(said("24.982 ± 0.003 mm", first), Some(Verdict::Doubtful));
        // Another shaft, and the whole of what may be left.
        assert_eq!(said("25.30 ± 0.003 mm", first), None);
        assert_eq!(said("24.982 ± 0.020 mm", first), None);
    }
}

/// A link that names no part may be of any: all of them are told, not the first alone.
#[test]
fn every_link_that_names_no_part_is_told() {
    let lap = include_str!("../examples/lap.yaml").split_once("    operations:\n").unwrap().1;
    let lap = lap.split_once("  - part:").unwrap().0;
    let chain = "      - chain: {wanted: 0.10 .. 0.40 mm, links: [{link: depth of cover, size: 58.280 ± 0.01 mm}, {link: gear, by: -1, size: 38.000 ± 0.01 mm}, {link: shoulder, by: -1, size: 20.000 ± 0.01 mm}]}\n";
    let text = format!(
        "job: One\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n{lap}  - part: shaft\n    material: mild steel\n    operations:\n{chain}"
    );
    let plan = in_shop(&text);
    let chain = plan.operations.iter().find(|own| own.word == "chain").unwrap();
    let asks = |check: &&setover::proof::Check<String>| check.id == "size-still-there";
    let said = chain.answer.checks.iter().find(asks).map(|check| check.asks.clone()).unwrap_or_default();
    assert!(said.contains("depth of cover") || said.contains("gear, shoulder"), "{said}");
    let plan = in_shop(&text.replace("depth of cover", "depth of housing"));
    let chain = plan.operations.iter().find(|own| own.word == "chain").unwrap();
    let said = chain.answer.checks.iter().find(asks).map(|check| check.asks.clone()).unwrap_or_default();
    assert!(said.contains("depth of housing, gear, shoulder"), "{said}");
}

/// Hole by hole: a tap that is tied to its own drill is not tied to the drill of the next hole, which is of the same size.
#[test]
fn a_hole_that_its_own_drill_makes_is_no_other_of_its_size() {
    let hold = "hold: {in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}";
    let drill = |nth: u32| {
        format!(
            "      - drill: {{diameter: 6.8 mm, starts-on: flat, depth: 27 mm, wall: 36 ± 0.3 mm, edge: 14 ± 0.2 mm, stick-out: 60 mm, {hold}, set-up: {{feature: stud hole {nth}, name: drill {nth}}}}}\n"
        )
    };
    let tap = |nth: u32, depth: &str| {
        format!(
            "      - tap: {{thread: M8, hole: 6.80 ± 0.03 mm, depth: 14 mm, hole-depth: {depth}, edge: 14 ± 0.3 mm, lead: plug, worn: false, {hold}, set-up: {{feature: stud hole {nth}, name: tap {nth}}}}}\n"
        )
    };
    let told = |operations: &[String]| {
        let text: Vec<&str> = operations.iter().map(String::as_str).collect();
        let plan = in_shop(&job(&text));
        let check = |own: &setover::plan::Planned| own.answer.checks.iter().any(|c| c.id == "made-at-another-name");
        plan.operations.iter().filter(|own| own.word == "tap").map(check).collect::<Vec<bool>>()
    };
    let of = |nth: u32| format!("{{of: cover/drill {nth}/drilled_depth}}");
    assert_eq!(told(&[drill(1), tap(1, &of(1)), drill(2), tap(2, &of(2))]), [false, false]);
    // Not tied, and listed before the one drill there is: in doubt.
    assert_eq!(told(&[tap(1, "27.0 ± 0.2 mm"), drill(2)]), [true]);
}
