//! An oil hole: on its oilway, off the ends of its bush, after pressing and before reaming, its chips flushed out.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{agrees, first, in_shop, state, try_plan, value, verdict, with};
use setover::proof::{Outcome, Verdict};

const JOB: &str = include_str!("../examples/drill-oil-hole.yaml");

/// By hand: 0.2 beside an oilway that leaves (5 - 3)/2 = 1.0; 12 - 1.5 = 10.5 to the outer end; straight in the mouth is the drill.
#[test]
fn the_example_holds_and_its_figures_are_geometry() {
    let plan = in_shop(JOB);
    assert_eq!(first(&plan).verdict, Verdict::Proven, "{:#?}", first(&plan).answer.checks);
    agrees("0.2", value(first(&plan), "beside_oilway"));
    agrees("1.0", value(first(&plan), "oilway_room"));
    agrees("10.5", value(first(&plan), "to_the_end"));
    agrees("3.0", value(first(&plan), "exit_ellipse"));
}

#[test]
fn a_hole_that_misses_its_oilway_fails() {
    let at = |at: &str| verdict(first(&in_shop(&with(JOB, "at: 12.2 ± 0.2", &format!("at: {at}")))), "meets-oilway");
    assert_eq!(at("12.2 ± 0.2"), Verdict::Proven);
    assert_eq!(at("13.5 ± 0.2"), Verdict::Doubtful, "more than half of it opens");
    assert_eq!(at("15.0 ± 0.2"), Verdict::Fails);
    assert_eq!(at("12.2 ± 1.5"), Verdict::Doubtful);
    let small = with(JOB, "diameter: 5.0 ± 0.1", "diameter: 2.0 ± 0.1");
    assert_ne!(verdict(first(&in_shop(&small)), "meets-oilway"), Verdict::Proven, "wider than its oilway");
    let line = JOB.lines().find(|line| line.contains("oilway:")).unwrap();
    let unsaid = in_shop(&JOB.replace(&format!("{line}\n"), ""));
    assert_eq!(state(first(&unsaid), "meets-oilway"), Outcome::NotChecked);
    assert_eq!(state(first(&unsaid), "chips-come-out"), Outcome::NotChecked);
    assert_eq!(first(&unsaid).verdict, Verdict::Doubtful);
}

/// At 30 degrees the mouth is twice the drill, and comes out 3.46 mm further along a wall of 2.
#[test]
fn a_mouth_that_breaks_the_end_fails() {
    let end = |at: &str, angle: &str| {
        let job = with(&with(JOB, "at: 12 mm", &format!("at: {at}")), "angle: 90 deg", &format!("angle: {angle}"));
        in_shop(&job)
    };
    assert_eq!(verdict(first(&end("5.0 mm", "90 deg")), "clear-of-the-ends"), Verdict::Proven);
    assert_eq!(verdict(first(&end("3.5 mm", "90 deg")), "clear-of-the-ends"), Verdict::Doubtful);
    assert_eq!(verdict(first(&end("2.0 mm", "90 deg")), "clear-of-the-ends"), Verdict::Fails);
    assert_eq!(verdict(first(&end("23.0 mm", "90 deg")), "clear-of-the-ends"), Verdict::Fails, "the other end");
    let slant = end("5.0 mm", "30 deg");
    agrees("6.0", value(first(&slant), "exit_ellipse"));
    agrees("4.0", value(first(&slant), "wall_along"));
    assert_eq!(verdict(first(&slant), "clear-of-the-ends"), Verdict::Fails);
    assert_eq!(verdict(first(&slant), "starts-true"), Verdict::Doubtful);
    assert!(try_plan(&with(JOB, "at: 12 mm", "at: 30 mm"), None).is_err(), "beyond the bush");
    assert!(try_plan(&with(JOB, "angle: 90 deg", "angle: 5 deg"), None).is_err());
    let unsaid = in_shop(&with(JOB, "          length: 25 mm\n", ""));
    assert_eq!(state(first(&unsaid), "clear-of-the-ends"), Outcome::NotChecked);
}

#[test]
fn it_stands_between_pressing_and_reaming_and_its_chips_have_a_way_out() {
    let before = |before: &str| in_shop(&with(JOB, "before: ream", &format!("before: {before}")));
    assert_eq!(verdict(first(&before("nothing")), "in-its-time"), Verdict::Fails);
    assert_eq!(verdict(first(&before("press")), "in-its-time"), Verdict::Doubtful);
    assert_eq!(state(first(&in_shop(&with(JOB, "          before: ream\n", ""))), "in-its-time"), Outcome::NotChecked);
    let blind = in_shop(&with(JOB, "both-ends", "one-end"));
    assert_eq!(verdict(first(&blind), "chips-come-out"), Verdict::Doubtful);
    let steps = &first(&blind).answer.set_ups[0].steps;
    assert!(steps.iter().any(|step| step.id == "clear-oilway-backwards"));
    // The far side of the bore.
    let narrow = in_shop(&with(JOB, "beyond: 16.0 ± 0.05", "beyond: 2.0 ± 0.05"));
    assert_eq!(verdict(first(&narrow), "behind"), Verdict::Fails);
    let untried = in_shop(&with(JOB, ", tested: 15 N·m", ""));
    assert_eq!(first(&untried).verdict, Verdict::Doubtful);
}

/// Behind a bush that was reamed on the same bore the order itself fails.
#[test]
fn a_hole_into_a_finished_bore_fails_by_its_order() {
    let line = JOB.lines().find(|line| line.trim() == "- drill-oil-hole:").unwrap();
    let ream = "      - ream-bush: {set-up: {feature: bore}, housing: {bore: 20.010 ± 0.004 mm, outside: 40 mm, length: 20 mm, material: cast aluminium}, bush: {outside: 20.045 ± 0.004 mm, bore: 15.950 ± 0.004 mm, length: 20 mm, material: phosphor bronze}, shaft: 15.984 ± 0.003 mm, clearance: 1 .. 2 thou, by: hand}";
    let job = JOB.replace(line, &format!("{ream}\n{line}\n          set-up: {{feature: bore}}"));
    let plan = in_shop(&job);
    let oil = plan.operations.iter().find(|planned| planned.word == "drill-oil-hole").unwrap();
    assert_eq!(verdict(oil, "order-of-operations"), Verdict::Fails);
}

/// Beside the centre of a bush that slants the surface is higher or lower: the stop is set over the centre. From a slope a drill runs
/// down, unless it starts on a flat or is led.
#[test]
fn on_a_slant_the_zero_is_taken_over_the_centre() {
    let steps = |angle: &str| {
        let plan = in_shop(&with(JOB, "angle: 90 deg", angle));
        let set_up = &first(&plan).answer.set_ups[0];
        set_up.steps.iter().map(|step| step.id).collect::<Vec<_>>()
    };
    assert!(steps("angle: 90 deg").contains(&"zero-down-the-oilway"));
    let bare = first(&in_shop(&with(JOB, "depth: 18 ± 0.5 mm", "depth: 0 mm"))).answer.set_ups[0].steps.clone();
    assert!(bare.iter().any(|step| step.id == "zero-face"));
    // A bush that lies open: down an oilway nothing is laid over the centre.
    let open = with(JOB, "depth: 18 ± 0.5 mm", "depth: 0 mm");
    let steps = |angle: &str| {
        let plan = in_shop(&with(&open, "angle: 90 deg", angle));
        let set_up = &first(&plan).answer.set_ups[0];
        set_up.steps.iter().map(|step| step.id).collect::<Vec<_>>()
    };
    assert!(steps("angle: 60 deg").contains(&"zero-on-a-slant") && !steps("angle: 60 deg").contains(&"zero-face"));
    let starts = |angle: &str| verdict(first(&in_shop(&with(&open, "angle: 90 deg", angle))), "starts-true");
    assert_eq!(starts("angle: 85 deg"), Verdict::Proven);
    assert_eq!(starts("angle: 60 deg"), Verdict::Doubtful);
    assert_eq!(starts("angle: 60 deg\n          start: as-it-is"), Verdict::Doubtful);
    for start in ["flat", "guide"] {
        assert_eq!(starts(&format!("angle: 60 deg\n          start: {start}")), Verdict::Proven);
        let does = if start == "flat" { "mill-a-flat" } else { "lead-in-a-guide" };
        assert!(steps(&format!("angle: 60 deg\n          start: {start}")).contains(&does));
    }
}

/// Down an oilway of 18 mm the chuck has 36.39 less 18 to go; of 45 mm it stands on the casting before the drill touches the bush.
#[test]
fn a_drill_that_goes_down_its_oilway_reaches_the_bush() {
    let of = |depth: &str| in_shop(&with(JOB, "depth: 18 ± 0.5 mm, ", depth));
    let reaches = |depth: &str| verdict(first(&of(&format!("depth: {depth}, "))), "drill-reaches");
    let clear = |depth: &str| value(first(&of(&format!("depth: {depth}, "))), "chuck_clear");
    assert!((clear("0 mm") - clear("18 ± 0.5 mm") - 18.0).abs() < 1e-9);
    assert_eq!((reaches("18 ± 0.5 mm"), reaches("0 mm")), (Verdict::Proven, Verdict::Proven));
    assert_eq!((reaches("45 ± 0.5 mm"), reaches("35.2 ± 0.9 mm")), (Verdict::Fails, Verdict::Doubtful));
    assert_eq!(state(first(&of("")), "drill-reaches"), Outcome::NotChecked);
    assert_eq!(first(&of("")).verdict, Verdict::Doubtful);
    // All of a short-series drill, and its flutes: 33 mm for a drill of 3.
    let short = |depth: &str| in_shop(&with(&with(JOB, "          stick-out: 40 mm\n", ""), "18 ± 0.5 mm", depth));
    assert_eq!(verdict(first(&short("18 ± 0.5 mm")), "drill-reaches"), Verdict::Proven);
    assert_eq!(verdict(first(&short("32 ± 0.5 mm")), "drill-reaches"), Verdict::Doubtful);
    // Drilled before it is pressed it lies open on the bench.
    let loose = with(&with(JOB, "depth: 18 ± 0.5 mm, ", ""), "before: ream", "before: press");
    assert_eq!(verdict(first(&in_shop(&loose)), "drill-reaches"), Verdict::Proven);
    assert!(try_plan(&with(JOB, "18 ± 0.5 mm", "-1 mm"), None).is_err());
}

/// A drill of 3 mm on a slope of 30 degrees touches with its corner 1.70 before its point; on a flat its zero lies 2.60 under the surface, and
/// that flat goes 2.60 into the wall.
#[test]
fn the_stop_of_a_slanting_hole_goes_by_what_touches_first() {
    let of = |angle: &str, start: &str, wall: &str| {
        let job = with(JOB, "angle: 90 deg", &format!("angle: {angle}\n          start: {start}"));
        let job = with(&job, "depth: 18 ± 0.5 mm", "depth: 0 mm");
        let line = JOB.lines().find(|line| line.trim_start().starts_with("wall:")).unwrap();
        in_shop(&with(&job, line, &format!("          wall: {wall} ± 0.05 mm")))
    };
    let travel = |angle: &str, start: &str| {
        let plan = of(angle, start, "5.0");
        value(first(&plan), "depth_to_point") - value(first(&plan), "stop_travel")
    };
    // r / tan 30 - p = 2.598 - 0.901; the strip of 0.10 stands 0.20 along the hole.
    assert!((travel("30 deg", "guide") - (-1.697 - 0.2)).abs() < 0.002, "{}", travel("30 deg", "guide"));
    assert!((travel("30 deg", "flat") - (2.598 - 0.1)).abs() < 0.002, "{}", travel("30 deg", "flat"));
    assert!(travel("90 deg", "as-it-is").abs() < 1e-9);
    let leaves = |wall: &str| verdict(first(&of("30 deg", "flat", wall)), "flat-leaves-wall");
    assert_eq!([leaves("2.0"), leaves("2.9"), leaves("3.5")], [Verdict::Fails, Verdict::Doubtful, Verdict::Proven]);
}
