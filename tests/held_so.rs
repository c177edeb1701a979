//! What a hold cannot do, whatever was typed of it: a collet as large as no spindle, a light nip that stands a hard test, a mandrel in
//! no bore.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, first, in_shop, shop, state, try_plan, with};
use setover::plan::Plan;
use setover::proof::{Outcome, Verdict};

const TURN: &str = "
job: One
parts:
  - part: piece
    material: mild steel
    operations:
      - turn: {present: 20.0 ± 0.02 mm, outside: 19.40 .. 19.60 mm, length: 20 ± 0.2 mm, over-all: 62 mm, shoulder: 20 mm, corner: 1 mm, inside: 0 mm, finish: Ra 3.2 um, hold: {in: collet, diameter: 20 mm, grip: 35 mm, overhang: 27 mm, true-within: 0.05 mm, stop: none, tested: 20 N·m}}
";
const PLATE: &str = "
job: One
parts:
  - part: plate
    material: GG25
    operations:
      - skim: {outside: 101.6 mm, inside: 50.8 mm, length: 12.70 ± 0.01 mm, wear: 0.13 ± 0.01 mm, least-length: 12 mm, finish: Ra 1.6 um, square-within: 0.03 mm, hold: {in: soft-jaws, nipped: light, diameter: 101.6 mm, grip: 6 mm, overhang: 6.7 mm, true-within: 0.02 mm, stop: step}}
";

fn goes_through(plan: &Plan) -> Outcome {
    state(first(plan), "goes-through")
}

#[test]
fn a_collet_closes_within_the_spindle() {
    let bored = with(SHOP, "swing: 230 mm", "swing: 230 mm\n      bore: 28 mm");
    let in_a = |job: &str| try_plan(job, Some(&shop(&bored))).unwrap();
    let of = |size: &str, long: &str| {
        let job =
            TURN.replace("20.0 ±", &format!("{size}.0 ±")).replace("20 mm, corner", &format!("{size} mm, corner"));
        let job = job.replace("diameter: 20 mm", &format!("diameter: {size} mm")).replace("62 mm", long);
        job.replace("19.40 .. 19.60 mm", &format!("{0}.40 .. {0}.60 mm", size.parse::<u32>().unwrap() - 1))
    };
    assert_eq!(goes_through(&in_a(&of("20", "62 mm"))), Outcome::Made(Verdict::Proven));
    assert_eq!(goes_through(&in_a(&of("20", "262 mm"))), Outcome::Made(Verdict::Proven), "it goes through");
    // One in a chuck on the nose may be larger, but nothing that stands behind it.
    assert_eq!(goes_through(&in_a(&of("40", "62 mm"))), Outcome::Made(Verdict::Doubtful));
    assert_eq!(goes_through(&in_a(&of("40", "262 mm"))), Outcome::Made(Verdict::Fails));
    // Where nobody measured that bore it goes by the size of the lathe, and a larger one is in doubt.
    assert_eq!(goes_through(&in_shop(&of("20", "262 mm"))), Outcome::Made(Verdict::Proven));
    assert_eq!(goes_through(&in_shop(&of("60", "262 mm"))), Outcome::Made(Verdict::Doubtful));
}

/// What makes the hold sure makes the squeeze so hard: both cannot be had of one nip.
#[test]
fn jaws_that_stood_a_test_press_as_hard_as_that_asks() {
    let pressed = |job: &str| first(&in_shop(job)).answer.value("jaw_force_high").unwrap().number;
    let tested = |torque: &str, nip: &str| {
        with(PLATE, "stop: step}", &format!("stop: step, tested: {torque}}}")).replace("nipped: light", nip)
    };
    let light = pressed(PLATE);
    assert!(pressed(&tested("5 N·m", "nipped: light")) <= light * 1.001);
    // 60 N·m at 101.6 mm with a friction of 0.15: 7.9 kN at the least, 11.8 kN at 0.10.
    let stood = pressed(&tested("60 N·m", "nipped: light"));
    assert!(stood > 2.0 * 60_000.0 / (0.15 * 101.6) && stood > light, "{stood}, lightly {light}");
    // More that it stood never squeezes less, and never more than an arm gives.
    let all: Vec<f64> =
        [20, 60, 120, 400].iter().map(|torque| pressed(&tested(&format!("{torque} N·m"), "nipped: light"))).collect();
    assert!(all.is_sorted(), "{all:?}");
    let hard = pressed(&tested("5 N·m", "nipped: hard"));
    assert!(pressed(&tested("90 N·m", "nipped: light")) <= hard * 1.001);
    let dish = |job: &str| state(first(&in_shop(job)), "dish");
    assert_ne!(dish(&tested("60 N·m", "nipped: light")), Outcome::Made(Verdict::Proven));
}

#[test]
fn no_mandrel_stands_in_a_plate_that_has_no_bore_for_it() {
    let on = |size: &str| {
        let hold = format!("in: mandrel, diameter: {size}, overhang: 6.7 mm, true-within: 0.01 mm, tested: 60 N·m");
        let (before, after) = PLATE.split_once("in: soft-jaws").unwrap();
        let after = after.split_once('}').unwrap().1;
        try_plan(&format!("{before}{hold}}}{after}"), Some(&shop(SHOP)))
    };
    assert!(on("30 mm").is_ok() && on("50.8 mm").is_ok());
    for size in ["60 mm", "101.6 mm", "120 mm"] {
        let problems = on(size).expect_err(size);
        assert!(problems.iter().any(|problem| problem.says.contains("no mandrel so large")), "{problems:?}");
    }
}
