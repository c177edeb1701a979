//! Sums in a day: work without set-ups is no work, and passes on what it rests on.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, shop, try_plan};
use setover::plan::Plan;
use setover::plan::day::{Asked, Day, Stop, day};

const FACE: &str = "face: {outside: 52 mm, inside: 32 mm, length: 21.85 ± 0.01 mm, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, hold: {in: jaws, diameter: 52 mm, grip: 6 mm, overhang: 12 mm, true-within: 0.01 mm}, float: opens}";

fn plans(parts: &[(&str, &[&str])]) -> Vec<Plan> {
    let part = |(name, operations): &(&str, &[&str])| {
        let all: String = operations.iter().map(|own| format!("      - {own}\n")).collect();
        format!("  - part: {name}\n    material: mild steel\n    operations:\n{all}")
    };
    let job = format!("job: Gap\nparts:\n{}", parts.iter().map(part).collect::<String>());
    vec![try_plan(&job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{job}: {all:#?}"))]
}

fn planned(parts: &[(&str, &[&str])]) -> Day {
    day(&plans(parts), &Asked { days: 1, ..Asked::default() }).unwrap_or_else(|all| panic!("{all:#?}"))
}

fn at(day: &Day, id: &str) -> usize {
    day.lines.iter().position(|line| line.id == id).unwrap_or_else(|| panic!("no {id}: {:?}", day.lines))
}

/// A sum that holds is no work that is left out, and what comes after it comes after what it adds up.
#[test]
fn a_sum_that_holds_is_no_work() {
    let links =
        "links: [{link: case, size: 31.40 ± 0.01 mm}, {link: collar, by: -1, size: {of: collar/face/length_after}}]";
    let chain = format!("chain: {{wanted: 5 .. 15 mm, {links}}}");
    let after = "hand: {set-up: {after: gauge/chain, not-before: \"08:00\"}, does: Stamp it., minutes: 5 min}";
    let day = planned(&[("plate", &[after]), ("gauge", &[&chain]), ("collar", &[FACE])]);
    assert!(day.left_out.is_empty() && day.is_whole(), "{:?}", day.left_out);
    assert!(at(&day, "3.1") < at(&day, "1.1"));
    // What reads the sum reads the collar.
    let reads = "chain: {wanted: 1 .. 30 mm, links: [{link: room, size: 2.0 ± 0.1 mm}, {link: gap, size: {of: gauge/chain/gap}}]}";
    let after = after.replace("gauge/chain", "far/chain");
    let far = planned(&[("plate", &[&after]), ("gauge", &[&chain]), ("collar", &[FACE]), ("far", &[reads])]);
    assert!(at(&far, "3.1") < at(&far, "1.1"));
}

/// A sum that fails is told, and nothing is built on it.
#[test]
fn what_comes_after_a_sum_that_fails_is_left_out() {
    let chain = "chain: {wanted: 2.0 .. 2.1 mm, links: [{link: case, size: 31.40 ± 0.01 mm}, {link: collar, by: -1, size: 28.00 ± 0.01 mm}]}";
    let after = "hand: {set-up: {name: stamp, after: gauge/chain}, does: Stamp it., minutes: 5 min}";
    let then = "hand: {set-up: {name: pack}, does: Pack it., minutes: 5 min}";
    let day = planned(&[("gauge", &[chain]), ("plate", &[after, then])]);
    let out: Vec<(&str, &str)> = day.left_out.iter().map(|out| (out.id.as_str(), out.stopped_by.as_str())).collect();
    assert_eq!(out, [("1.1", "1.1"), ("2.1", "1.1"), ("3.1", "1.1")]);
    assert!(matches!(&day.left_out[0].stop, Stop::DoNotFit(reasons) if reasons.len() == 1), "{:?}", day.left_out);
    assert!(!day.is_whole());
}
