//! What a part was trued to is how true it runs in the next cut of that hold.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{self, SHOP, held, plan_left, shop, with};
use setover::plan::Planned;
use setover::proof::Verdict;
use setover::quantity::Unit;

fn open(planned: &Planned, id: &str) -> bool {
    let check = planned.answer.checks.iter().find(|check| check.id == id);
    check.is_some_and(|check| check.verdict() == Some(Verdict::Doubtful))
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
    let elsewhere = held(&closer, "hold: {in: four-jaw, tested", "hold: {in: faceplate, tested");
    assert!(!turned(&elsewhere), "another hold is trued anew");
    let left = |job: &str, tir: f64| {
        let plan = plan_left(job, &shop(SHOP), ("shaft", "set-true"), &[("tir_after", tir, Unit::Mm, 0.002)]);
        open(&plan.operations[1], "trued-so-closely")
    };
    assert_eq!((left(&closer, 0.008), left(&closer, 0.02), left(TRUED, 0.06)), (false, true, true));
}

/// Trued in four jaws and then gripped by three, or on another lathe: nothing of it is true there, and nobody cut it where it was.
#[test]
fn what_is_moved_after_its_truing_is_not_true_any_more() {
    let says = |job: &str| open(&common::plan(job, Some(&shop(&two_lathes()))).operations[1], "trued-elsewhere");
    let on = |job: &str, lathe: &str| {
        with(
            job,
            "          hold: {in: four-jaw, tested",
            &format!("          set-up: {{machine: {lathe}}}\n          hold: {{in: four-jaw, tested"),
        )
    };
    assert!(!says(TRUED) && !says(&on(TRUED, "belt lathe")));
    assert!(says(&on(TRUED, "other lathe")));
    assert!(says(&with(TRUED, "hold: {in: four-jaw, tested", "hold: {in: jaws, tested")));
    assert!(says(&held(TRUED, "hold: {in: four-jaw, tested: 400 N·m,", "hold: {in: faceplate, tested: 400 N·m,")));
    // What was cut where it was trued has had its truth.
    let turn = TRUED.split_once("      - turn:").unwrap().1;
    let both = format!("{TRUED}      - turn:{}", with(turn, "in: four-jaw, tested", "in: jaws, tested"));
    let plan = common::plan(&both, Some(&shop(&two_lathes())));
    assert!(plan.operations[1..].iter().all(|planned| !open(planned, "trued-elsewhere")));
}

/// Trued, taken out for a hole, put back: it is as true as whatever is put into its jaws. Trued behind the cut, it was cut untrue.
#[test]
fn what_is_taken_out_between_truing_and_cut_is_not_true_any_more() {
    const DRILL: &str = "      - drill: {starts-on: flat, diameter: 6 mm, depth: 10 mm, wall: 24 ± 0.3 mm, hold: {in: vice, tested: 30 N·m, grip: 12 mm, overhang: 6 mm}}\n";
    let has = |job: &str, word: &str, id: &str| {
        let plan = common::in_shop(job);
        plan.operations.iter().filter(|planned| planned.word == word).any(|planned| open(planned, id))
    };
    let (head, turn) = TRUED.split_once("      - turn:").unwrap();
    let turn = format!("      - turn:{turn}");
    let (truing, top) =
        (head.split_once("      - set-true:").unwrap().1, head.split_once("      - set-true:").unwrap().0);
    let truing = format!("      - set-true:{truing}");
    for (order, moved, late) in [
        (vec![&*truing, &turn], false, false),
        (vec![&*truing, DRILL, &turn], true, false),
        (vec![&*truing, &turn, DRILL], false, false),
        (vec![DRILL, &*truing, &turn], false, false),
        (vec![&*turn, &truing], false, true),
        (vec![&*truing], false, false),
        (
            vec![
                &*turn,
                &truing,
                &truing.replace("set-true:\n", "set-true:\n          set-up: {name: again}\n"),
                &turn.replace("turn:\n", "turn:\n          set-up: {name: anew}\n"),
            ],
            false,
            false,
        ),
    ] {
        let job = format!("{top}{}", order.concat());
        assert_eq!(order.contains(&&*turn) && has(&job, "turn", "trued-and-moved"), moved, "{job}");
        assert_eq!(has(&job, "set-true", "trued-too-late"), late, "{job}");
    }
    // True is not asked of it: nothing is lost.
    let rough = turn.replace(", true-within: 0.05 mm", "");
    assert!(!has(&format!("{top}{truing}{DRILL}{rough}"), "turn", "trued-and-moved"));
}

/// The shop of the examples with a second lathe like its first.
fn two_lathes() -> String {
    let from = SHOP.find("  - lathe:").unwrap();
    let to = SHOP[from..].find("\n  - mill").unwrap() + from + 1;
    let lathe = &SHOP[from..to];
    assert!(lathe.contains("name: belt lathe"));
    format!("{}{lathe}{}{}", &SHOP[..from], with(lathe, "name: belt lathe", "name: other lathe"), &SHOP[to..])
}
