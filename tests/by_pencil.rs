//! Single operations worked with a pencil: what a sheet must not call proven, and what nobody can have meant.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{first, in_shop, state, try_plan, verdict, with};
use setover::proof::{Outcome, Verdict};

const REAM: &str = include_str!("../examples/ream-bush.yaml");
const SPOT: &str = include_str!("../examples/spot-face.yaml");
const MILL: &str = include_str!("../examples/mill-face.yaml");

/// What is said of a job that cannot be meant.
fn refused(job: &str) -> String {
    match try_plan(job, None) {
        Err(problems) => problems.iter().map(|problem| problem.says.clone()).collect::<Vec<_>>().join("\n"),
        Ok(_) => panic!("it was planned: {job}"),
    }
}

/// An oil hole lies in the joint, not beside it: what of the bush stands out of the case at either end carries no oil.
#[test]
fn an_oil_hole_is_held_against_what_lies_in_the_housing() {
    let ends = |from: &str, to: &str| verdict(first(&in_shop(&with(REAM, from, to))), "clear-of-the-ends");
    assert_eq!(verdict(first(&in_shop(REAM)), "clear-of-the-ends"), Verdict::Proven);
    // The mouth half a millimetre from the face of the case.
    for stands in ["8 mm", "8.4 mm"] {
        assert_eq!(ends("by: hand", &format!("by: hand\n          stands: {stands}")), Verdict::Fails, "{stands}");
    }
    assert_eq!(ends("outside: 40 mm, length: 20 mm", "outside: 40 mm, length: 12 mm"), Verdict::Fails);
    assert_eq!(ends("outside: 40 mm, length: 20 mm", "outside: 40 mm, length: 30 mm"), Verdict::Proven);
}

/// The remedy is said from the end that the hole was set out from.
#[test]
fn an_oil_hole_is_set_out_from_the_end_that_was_typed() {
    let job = with(REAM, "{diameter: 3 mm, at: 10 mm,", "{diameter: 3 mm, at: 6 mm, from: inner,");
    let job = with(&job, "at: 10.2 ± 0.2 mm", "at: 6.0 ± 0.2 mm");
    let plan = in_shop(&job);
    let check = first(&plan).answer.checks.iter().find(|check| check.id == "meets-oilway").unwrap();
    assert_eq!(check.verdict(), Some(Verdict::Fails));
    let told: Vec<&str> = check.remedies.iter().map(|remedy| remedy.words.as_str()).collect();
    let told = told.join("; ");
    assert!(told.contains("14.0 mm from the inner end"), "{told}");
}

/// The less is said of what grows, the less is sure.
#[test]
fn a_float_of_which_nothing_is_said_is_no_surer_than_one_whose_links_are_named() {
    let head = "job: j\nparts:\n  - part: shaft\n    material: mild steel\n    operations:\n      - shim: {float: 0.03 .. 0.09 mm, float-found: {size: 0.55 ± 0.005 mm, with-pack: 0 mm}";
    let chain = |case: &str, length: u32| {
        format!(
            ", chain: [{{link: case, opens: {length}.55 ± 0.002 mm, material: {case}}}, {{link: shaft, closes: {length}.00 ± 0.002 mm, material: mild steel}}]"
        )
    };
    let running = |more: &str| state(first(&in_shop(&format!("{head}{more}}}\n"))), "running");
    let doubtful = Outcome::Made(Verdict::Doubtful);
    assert_eq!(running(""), doubtful);
    assert_eq!(running(&chain("cast aluminium", 300)), doubtful);
    // One metal is not one warmth: a long shaft may run warmer than its case.
    assert_eq!(running(&chain("mild steel", 300)), doubtful);
    assert_ne!(running(&chain("mild steel", 20)), doubtful);
}

/// A cold that is none would switch off what frost does.
#[test]
fn the_coldest_is_cold() {
    let bush = |coldest: &str| {
        let running = format!("by: hand\n          running: {{housing: 60 degC, coldest: {coldest}}}");
        with(REAM, "by: hand", &running)
    };
    let warm = refused(&bush("50 degC"));
    assert!(warm.contains("over 20 degC, at which sizes are read: is it degF?"), "{warm}");
    assert!(try_plan(&bush("19 degC"), None).is_ok());
    let warmer = refused(&with(&bush("15 degC"), "housing: 60 degC", "housing: 12 degC"));
    assert!(warmer.contains("warmer than it runs"), "{warmer}");
}

/// A flange that lies on its face stands out as far as it is thick.
#[test]
fn there_is_no_air_under_a_flange() {
    let job = |stands: &str| {
        with(
            REAM,
            "by: hand",
            &format!("by: hand\n          flange: {{diameter: 30 mm, thickness: 3 mm}}\n          stands: {stands}"),
        )
    };
    assert!(refused(&job("5 mm")).contains("there would be air under it"));
    for stands in ["3 mm", "2 mm", "flush"] {
        assert!(try_plan(&job(stands), None).is_ok(), "{stands}");
    }
}

/// A head that drops through its hole, a seat that is a line, a hole that ends before its pilot does.
#[test]
fn a_seat_bears_its_head_and_its_pilot_has_room() {
    let job = |hole: &str, more: &str| {
        let job = with(SPOT, "hole: 8.50 ± 0.02 mm", &format!("hole: {hole} ± 0.02 mm"));
        with(&job, "edge: 20", &format!("{more}edge: 20"))
    };
    assert!(refused(&job("8.50", "head: 8.6 mm\n          ")).contains("nothing bears on that"));
    let ring = with(&job("17.9", ""), "pilot: 8.40", "pilot: 17.80");
    assert!(refused(&ring).contains("this seat is wider than its hole by 0.05 mm"), "{}", refused(&ring));
    assert!(try_plan(&job("8.50", "head: 16 mm\n          "), None).is_ok());
    let room = |depth: &str| {
        verdict(first(&in_shop(&job("8.50", &format!("hole-depth: {depth} ± 0.2 mm\n          ")))), "pilot-has-room")
    };
    assert_eq!((room("10.0"), room("13.0"), room("20.0")), (Verdict::Fails, Verdict::Fails, Verdict::Proven));
}

/// The window that a sheet prints for a bush made here is proven at both ends by the gauge that will read it.
#[test]
fn what_is_turned_to_its_target_is_proven_when_it_is_read() {
    let plan = in_shop(&with(REAM, "outside: 20.042 ± 0.004 mm, ", ""));
    let made = first(&plan);
    assert_eq!(made.verdict, Verdict::Proven);
    let ends = made
        .answer
        .value("bush_outside_to_make")
        .map(|value| (value.number - value.plus_minus, value.number + value.plus_minus));
    let (low, high) = ends.unwrap();
    for outside in [low, high] {
        let read = in_shop(&with(REAM, "outside: 20.042 ± 0.004 mm", &format!("outside: {outside:.3} ± 0.004 mm")));
        assert_eq!(first(&read).verdict, Verdict::Proven, "{outside}");
    }
}

/// A length in inches is no bush that comes out behind; half a millimetre is.
#[test]
fn a_hundredth_of_length_comes_out_nowhere() {
    let behind = |length: &str| {
        let job = with(REAM, "outside: 40 mm, length: 20 mm", &format!("outside: 40 mm, length: {length}"));
        state(first(&in_shop(&job)), "room-beneath")
    };
    assert_eq!((behind("0.787 in"), behind("20 mm")), (Outcome::DoesNotApply, Outcome::DoesNotApply));
    assert_eq!(behind("19.5 mm"), Outcome::NotChecked, "nobody said how high it stands");
}

/// Walls thicker than the face is wide, and a truth that no indicator of the shop reads.
#[test]
fn a_face_is_no_truer_than_its_indicator_reads() {
    let width = MILL.split("width: ").nth(1).and_then(|rest| rest.split(' ').next()).unwrap();
    let walls = MILL.split("walls: ").nth(1).and_then(|rest| rest.split(' ').next()).unwrap();
    let thick = with(MILL, &format!("walls: {walls} "), &format!("walls: {width}0 "));
    assert!(refused(&thick).contains("thicker than the face is wide"));
    let truth = MILL.split("true-within: ").nth(1).and_then(|rest| rest.split(' ').next()).unwrap();
    let margin = |within: &str| {
        let plan = in_shop(&with(MILL, &format!("true-within: {truth}"), &format!("true-within: {within}")));
        let judged =
            first(&plan).answer.checks.iter().find(|check| check.id == "cleans-up").and_then(|check| check.judged);
        judged.map(|judged| judged.margin).unwrap()
    };
    assert!(margin("0.03") < margin("0.01"));
    assert!((margin("0.0003") - margin("0.0001")).abs() < 1e-9, "neither is read");
    // Nor is it printed: nobody obeys a figure that he cannot read.
    let said = |within: &str| {
        let plan = in_shop(&with(MILL, &format!("true-within: {truth}"), &format!("true-within: {within}")));
        first(&plan).answer.set_ups.iter().flat_map(|set_up| &set_up.hold).any(|line| line.words.contains(within))
    };
    assert!(said("0.01") && !said("0.0003"));
}
