//! A hold point's limits: at the limit every check that stamps is proven when the size is typed anew, a step beyond it one is not.
#![allow(clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::*;
use setover::operations::{Holds, Measured, holds_for};
use setover::plan::{Plan, Planned};
use setover::proof::Verdict;

fn holds(planned: &Planned, key: &str, gauge: f64) -> Option<Holds> {
    let value = planned.answer.value(key).expect(key);
    holds_for(&planned.answer.checks, Measured { value, gauge })
}

const COVER: &str = "
job: a cover screw
parts:
  - part: chest
    material: cast aluminium
    operations:
      - thread-insert: {thread: M6, wall: WALL mm, hole: HOLE, present-hole: 6.0 ± 0.1 mm, present-depth: 10 ± 0.2 mm, edge: 13 ± 0.3 mm, bolt: {class: 4.6, reach: 6 mm}, tang: out, length: 1D}
";

fn cover(wall: f64, hole: &str) -> Plan {
    plan(&COVER.replace("WALL", &format!("{wall:.5} ± 0.2")).replace("HOLE", hole), None)
}

#[test]
fn a_wall_at_its_limit_is_proven_and_one_thinner_is_not() {
    for wall in [13.5, 19.0, 25.0] {
        let limits = holds(first(&cover(wall, "blind")), "wall", 0.2).expect("limits");
        let least = limits.least.expect("a least wall");
        assert_eq!(limits.most, None, "no wall is too thick");
        let needed = value(first(&cover(wall, "blind")), "wall_needed");
        assert!((least - needed).abs() < 1e-6, "{least} against {needed}, worked by its formula");
        assert_eq!(verdict(first(&cover(least + 2e-5, "blind")), "break-through"), Verdict::Proven);
        assert_ne!(verdict(first(&cover(least - 1e-3, "blind")), "break-through"), Verdict::Proven);
    }
}

#[test]
fn a_better_gauge_leaves_a_wider_window() {
    let it = cover(19.0, "blind");
    let least = |gauge| holds(first(&it), "wall", gauge).and_then(|limits| limits.least).expect("a limit");
    assert!(least(0.05) < least(0.2) && least(0.2) < least(0.4));
}

/// What no check follows has no limits: nothing is invented.
#[test]
fn a_size_that_nothing_is_judged_by_has_no_limits() {
    assert_eq!(holds(first(&cover(19.0, "blind")), "thread_percent", 0.1), None);
}

const BUSH: &str = include_str!("fixtures/ream-bush.yaml");

/// The closed-in bore: the plan foretells it, the gauge measures it. Inside the limits the bush can be reamed as printed.
#[test]
fn the_closed_in_bore_has_two_limits_about_what_is_foretold() {
    let it = in_shop(BUSH);
    let limits = holds(first(&it), "bore_after_pressing", 0.0095).expect("limits");
    eprintln!(
        "{limits:?} {:?}",
        first(&it).answer.value("bore_after_pressing").map(|v| (v.number, v.plus_minus, v.band))
    );
    let foretold = value(first(&it), "bore_after_pressing");
    assert!(limits.least.is_some_and(|least| least < foretold) && limits.most.is_some_and(|most| most > foretold));
}
