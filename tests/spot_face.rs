//! A seat about a hole: led by its pilot, clean all round, square to its hole, with metal under it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{agrees, first, in_shop, plan, state, try_plan, value, verdict, with};
use setover::proof::{Outcome, Verdict};

const JOB: &str = include_str!("../examples/spot-face.yaml");

/// By hand: play 0.10 over 12 of pilot tips a seat of 18 by 0.15; (18 - 8.5)/2 = 4.75; 14 - 2 = 12. Half of 20 m/min or so at 18 mm.
#[test]
fn the_example_holds_and_its_figures_are_geometry() {
    let plan = in_shop(JOB);
    assert_eq!(first(&plan).verdict, Verdict::Proven, "{:#?}", first(&plan).answer.checks);
    agrees("0.10", value(first(&plan), "pilot_play"));
    agrees("0.15", value(first(&plan), "seat_out_of_square"));
    agrees("4.75", value(first(&plan), "seat_width"));
    agrees("12.00", value(first(&plan), "metal_left"));
    let drill = include_str!("../examples/drill.yaml").replace("diameter: 8 mm", "diameter: 12 mm");
    let drill = value(first(&in_shop(&drill)), "drill_surface_speed");
    assert!(value(first(&plan), "surface_speed") < drill, "half the drill's");
}

/// A cutter that nothing leads, or whose pilot rocks or jams.
#[test]
fn a_cutter_is_led_by_a_pilot_that_fits() {
    let pilot = |pilot: &str| in_shop(&with(JOB, "pilot: 8.40 ± 0.01 mm", pilot));
    let none = pilot("pilot: none");
    assert_eq!(verdict(first(&none), "pilot-there"), Verdict::Doubtful, "on the mill, its quill clamped");
    assert_ne!(first(&none).verdict, Verdict::Proven);
    let unsaid = in_shop(&with(JOB, "          pilot: 8.40 ± 0.01 mm\n", ""));
    for check in ["pilot-there", "pilot-runs", "seat-square"] {
        assert_eq!(state(first(&unsaid), check), Outcome::NotChecked, "{check}");
    }
    assert_eq!(first(&unsaid).verdict, Verdict::Doubtful);
    assert_eq!(verdict(first(&pilot("pilot: 8.52 ± 0.01 mm")), "pilot-runs"), Verdict::Fails);
    assert_eq!(verdict(first(&pilot("pilot: 8.49 ± 0.01 mm")), "pilot-runs"), Verdict::Doubtful);
    assert_eq!(verdict(first(&pilot("pilot: 8.00 ± 0.01 mm")), "seat-square"), Verdict::Fails, "0.5 over 12 of 18");
    let short = in_shop(&with(JOB, "pilot-length: 12 mm", "pilot-length: 3 mm"));
    assert_eq!(verdict(first(&short), "seat-square"), Verdict::Fails);
    let wide = in_shop(&with(JOB, "square-within: 0.3 mm", "square-within: 0.16 mm"));
    assert_eq!(verdict(first(&wide), "seat-square"), Verdict::Doubtful);
    let anyhow = in_shop(&with(JOB, "          square-within: 0.3 mm\n", ""));
    assert_eq!(state(first(&anyhow), "seat-square"), Outcome::NotChecked);
}

/// What is left at the thin end of the wall and the deep end of the stop; a raw spot under the head.
#[test]
fn metal_stays_and_the_raw_face_goes() {
    let wall = |wall: &str| in_shop(&with(JOB, "14.0 ± 0.2", wall));
    assert_eq!(verdict(first(&wall("12.3 ± 0.05")), "wall-left"), Verdict::Proven, "10.3, 0.21 of it not sure");
    assert_eq!(verdict(first(&wall("12.1 ± 0.2")), "wall-left"), Verdict::Doubtful);
    assert_eq!(verdict(first(&wall("11.8 ± 0.2")), "wall-left"), Verdict::Fails);
    assert_eq!(
        state(first(&in_shop(&with(JOB, "          least-left: 10 mm\n", ""))), "wall-left"),
        Outcome::NotChecked
    );
    let uneven = |raw: &str| in_shop(&with(JOB, "uneven: 1.0 ± 0.1", &format!("uneven: {raw}")));
    assert_eq!(verdict(first(&uneven("1.9 ± 0.1")), "cleans-up"), Verdict::Doubtful);
    assert_eq!(verdict(first(&uneven("2.2 ± 0.1")), "cleans-up"), Verdict::Fails);
    let unread = in_shop(&with(JOB, "          uneven: 1.0 ± 0.1 mm\n", ""));
    assert_eq!(first(&unread).verdict, Verdict::Doubtful);
    let head =
        |head: &str| in_shop(&with(JOB, "edge: 20 ± 0.3 mm", &format!("head: {head}\n          edge: 8.0 ± 0.2 mm")));
    assert_eq!(verdict(first(&head("16 mm")), "seat-wide-enough"), Verdict::Proven);
    assert_eq!(verdict(first(&head("17.5 mm")), "seat-wide-enough"), Verdict::Fails);
    assert_eq!(verdict(first(&head("16 mm")), "seat-on-metal"), Verdict::Doubtful, "8 from the edge, half of 18");
}

/// It grabs: half as much again is asked of the grip as of a drill in its hole; a hard part, a lining, a seat that is no seat.
#[test]
fn a_flat_cutter_grabs_and_does_not_cut_everything() {
    let plan = in_shop(JOB);
    let (torque, asked) = (value(first(&plan), "torque"), value(first(&plan), "torque_to_stand"));
    assert!(asked >= 3.0 * torque - 1e-9, "{asked} of {torque}");
    let held = |hold: &str| in_shop(&with(JOB, "{in: clamps, tested: 60 N·m}", hold));
    assert_eq!(verdict(first(&held("{in: clamps}")), "grip-looked-at"), Verdict::Doubtful);
    assert_eq!(verdict(first(&held("{in: clamps, tested: 1 N·m}")), "grip"), Verdict::Fails);
    assert_eq!(first(&held("{in: press-support, tested: 60 N·m}")).verdict, Verdict::Fails);
    let hard = with(JOB, "    material: GG25\n", "    material: mild steel\n    hardness: 60 HRC\n");
    assert_eq!(verdict(first(&in_shop(&hard)), "cutter-hard-enough"), Verdict::Fails);
    assert_eq!(first(&in_shop(&with(JOB, "GG25", "friction lining"))).verdict, Verdict::Fails);
    assert!(try_plan(&with(JOB, "diameter: 18 mm", "diameter: 8 mm"), None).is_err(), "no wider than its hole");
    let other = JOB.replace("diameter: 18 mm", "diameter: 26 mm");
    assert_eq!(verdict(first(&in_shop(&other)), "cutter-in-drawer"), Verdict::Doubtful);
    assert_eq!(state(first(&plan_without(JOB)), "cutter-led"), Outcome::NoShop);
}

fn plan_without(job: &str) -> setover::plan::Plan {
    plan(job, None)
}

/// A pilot is guided by no more than there is wall about it.
#[test]
fn a_pilot_longer_than_its_wall_is_led_by_the_wall() {
    let square = |length: &str, wall: &str| {
        let job = with(JOB, "pilot-length: 12 mm", &format!("pilot-length: {length}"));
        in_shop(&with(&job, "wall: 14.0 ± 0.2 mm", &format!("wall: {wall}")))
    };
    let out = |plan: &setover::plan::Plan| value(first(plan), "seat_out_of_square");
    let thin = square("12 mm", "3.0 ± 0.2 mm");
    assert_eq!(verdict(first(&thin), "seat-square"), Verdict::Fails, "0.8 of wall and no more");
    let (long, short) = (square("20 mm", "14.0 ± 0.2 mm"), square("12 mm", "14.0 ± 0.2 mm"));
    assert!((out(&long) - out(&short)).abs() < 1e-9, "{} {}", out(&long), out(&short));
    let unsaid = in_shop(&with(JOB, "          wall: 14.0 ± 0.2 mm\n", ""));
    assert_eq!(state(first(&unsaid), "seat-square"), Outcome::NotChecked);
}

/// One place is measured, touched on and counted from: the highest. What is left there is the wall less the depth.
#[test]
fn the_wall_is_measured_where_the_cutter_is_touched_on() {
    let plan = in_shop(JOB);
    let set_up = &first(&plan).answer.set_ups[0];
    let words = |id: &str| set_up.steps.iter().find(|step| step.id == id).unwrap().words.clone();
    assert!(words("measure-wall").contains("highest place") && words("zero-high").contains("highest place"));
    assert!(set_up.blanks.iter().any(|blank| blank.words.contains("highest place")), "the line to write it in");
    agrees("12.00", value(first(&plan), "metal_left"));
}

/// A seat as deep as its cutter is wide is as deep as its teeth; a pilot that is longer than its hole meets the bottom first.
#[test]
fn cutter_and_pilot_have_room() {
    let of = |from: &str, to: &str, check: &str| verdict(first(&in_shop(&with(JOB, from, to))), check);
    let thick =
        |depth: &str| with(&with(JOB, "wall: 14.0", "wall: 60.0"), "depth: 2.0 mm", &format!("depth: {depth} mm"));
    let reaches = |depth: &str| verdict(first(&in_shop(&thick(depth))), "cutter-reaches");
    assert_eq!(
        (reaches("2.0"), reaches("17.0"), reaches("40.0")),
        (Verdict::Proven, Verdict::Proven, Verdict::Doubtful)
    );
    let room = |length: &str| of("pilot-length: 12 mm", &format!("pilot-length: {length} mm"), "pilot-has-room");
    assert_eq!((room("8"), room("12"), room("60")), (Verdict::Proven, Verdict::Proven, Verdict::Doubtful));
    let drilled = |deep: &str| {
        let drill = include_str!("../examples/drill.yaml").split_once("    operations:\n").unwrap().1;
        let drill = with(drill, "depth: 12 mm", &format!("depth: {deep} mm"));
        let job = with(JOB, "    operations:\n", &format!("    operations:\n{drill}"));
        let plan = in_shop(&with(&job, "hole: 8.50 ± 0.02 mm", "hole: {of: pump cover/drill/hole_drilled}"));
        verdict(&plan.operations[1], "pilot-has-room")
    };
    assert_eq!(drilled("8"), Verdict::Fails, "it strikes the bottom of a hole that is drilled no deeper");
    // By the depth that was measured: sure, within its doubt, and short of it at the middle; a deeper hole is never worse.
    let blind =
        |deep: &str| of("wall: 14.0", &format!("hole-depth: {deep} ± 0.3 mm\n          wall: 14.0"), "pilot-has-room");
    let seen = ["1.0", "4.0", "13.9", "14.1", "14.4", "20.0"].map(blind);
    let held = [Verdict::Fails, Verdict::Fails, Verdict::Fails, Verdict::Doubtful, Verdict::Proven, Verdict::Proven];
    assert_eq!(seen, held);
}
