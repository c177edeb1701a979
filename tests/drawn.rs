//! What one operation takes out of the drawer no other finds there; and what a part was trued to is how true it runs in the next cut.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{self, SHOP, plan, plan_left, shop, with};
use setover::plan::{Plan, Planned};
use setover::proof::Verdict;
use setover::quantity::Unit;

const BORE: &str = include_str!("../examples/bore.yaml");
const SHIM: &str = include_str!("../examples/shim.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");

fn operations(job: &str) -> &str {
    job.split_once("    operations:\n").unwrap().1
}

fn parts(job: &str) -> &str {
    job.split_once("parts:\n").unwrap().1
}

fn open(planned: &Planned, id: &str) -> bool {
    let check = planned.answer.checks.iter().find(|check| check.id == id);
    check.is_some_and(|check| check.verdict() == Some(Verdict::Doubtful))
}

fn second_lacks(plan: &Plan, what: &str) {
    let [first, second] = &plan.operations[..] else { panic!("two") };
    assert!(!open(first, "in-drawer-for-all"));
    assert!(open(second, "in-drawer-for-all") && second.verdict >= Verdict::Doubtful);
    assert!(second.answer.missing.iter().any(|line| line.contains(what)), "{:?}", second.answer.missing);
}

/// One piston was measured for the barrel: the second bore is not made to it.
#[test]
fn one_piston_is_not_bored_for_twice() {
    let both = common::in_shop(&format!("{BORE}{}", operations(BORE)));
    second_lacks(&both, "another piston +0.020 in");
    let clearance = both.operations[1].answer.owner_of("in-drawer-for-all");
    assert_eq!(clearance, both.operations[1].answer.owner_of("wall"), "the set-up that bores to it says so");
    // The first was done by the log: the second is the one that waits, whichever stands first.
    let second = ("pump barrel", "bore#2");
    let logged = plan_left(&format!("{BORE}{}", operations(BORE)), &shop(SHOP), second, &[]);
    second_lacks(&logged, "another piston");
}

/// Two shafts want the same pack, and the drawer has one shim of it.
#[test]
fn one_shim_is_not_put_in_twice() {
    let other = parts(SHIM).replace("part: ", "part: second ");
    let job = format!("{SHIM}{other}");
    let few = with(
        SHOP,
        "shims: [{thickness: 0.10 mm, count: 4}, {thickness: 0.27 mm, count: 1}, {thickness: 0.50 mm, count: 2}]",
        "shims: [{thickness: 0.10 mm, count: 2}, {thickness: 0.50 mm, count: 1}]",
    );
    let both = plan(&job, Some(&shop(&few)));
    second_lacks(&both, "another shim 0.");
    let enough = few.replace("count: 1}]", "count: 9}]").replace("count: 2}", "count: 9}");
    let both = plan(&job, Some(&shop(&enough)));
    assert!(both.operations.iter().all(|one| !open(one, "in-drawer-for-all")));
}

#[test]
fn one_insert_is_not_wound_in_twice() {
    let other = parts(INSERT).replace("part: ", "part: second ");
    let job = format!("{INSERT}{other}");
    let of = |count: u32| {
        let drawer = format!("inserts: [{{thread: M8x1.25, length: 1D, count: {count}}}]");
        let own = with(
            SHOP,
            "inserts: [{thread: M8x1.25, length: 1D, count: 6}, {thread: M8x1.25, length: 1.5D, count: 4}]",
            &drawer,
        );
        let both = plan(&job, Some(&shop(&own)));
        both.operations.iter().map(|one| open(one, "insert-in-drawer")).collect::<Vec<_>>()
    };
    assert_eq!((of(2), of(1), of(0)), (vec![false, false], vec![false, true], vec![true, true]));
}

const TRUED: &str = "job: A shaft trued and turned
parts:
  - part: shaft
    material: mild steel
    operations:
      - set-true:
          readings: {at: 0 45 90 135 180 225 270 315 deg, reads: 0 -6 -19 -31 -36 -30 -18 -6 um}
          with: lever indicator
          true-within: 0.05 mm
          hold: {in: four-jaw}
      - turn:
          present: 24.60 ± 0.02 mm
          outside: 23.95 .. 24.00 mm
          length: 22.0 ± 0.2 mm
          over-all: 70 ± 0.2 mm
          corner: 0.4 mm
          finish: Ra 3.2 um
          hold: {in: four-jaw, tested: 400 N·m, diameter: 24.6 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.05 mm, stop: step}
";

/// Trued within 0.05, a cut in the same hold does not run within 0.01; what was read after the move counts in its place.
#[test]
fn a_cut_runs_no_truer_than_its_truing_left_it() {
    let turned = |job: &str| open(&common::in_shop(job).operations[1], "trued-so-closely");
    let closer = with(TRUED, "overhang: 30 mm, true-within: 0.05 mm", "overhang: 30 mm, true-within: 0.01 mm");
    assert_eq!((turned(TRUED), turned(&closer)), (false, true));
    let elsewhere = with(&closer, "hold: {in: four-jaw, tested", "hold: {in: faceplate, tested");
    assert!(!turned(&elsewhere), "another hold is trued anew");
    let left = |job: &str, tir: f64| {
        let plan = plan_left(job, &shop(SHOP), ("shaft", "set-true"), &[("tir_after", tir, Unit::Mm, 0.002)]);
        open(&plan.operations[1], "trued-so-closely")
    };
    assert_eq!((left(&closer, 0.008), left(&closer, 0.02), left(TRUED, 0.06)), (false, true, true));
}
