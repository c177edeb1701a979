//! A hole drilled and tapped in one job: what is typed of a hole that is not there yet proves nothing, nor does a thread that goes
//! through into nobody knows what.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{first, in_shop, try_plan, verdict, with};
use setover::operations::LimitsFrom;
use setover::proof::Verdict;

const DRILL: &str = include_str!("../examples/drill.yaml");
const TAP: &str = include_str!("../examples/tap.yaml");

/// The operations of the tap's example, the part's drill before them.
fn after(drill: &str) -> String {
    let drill = format!("    operations:\n      - drill: {drill}\n");
    TAP.replacen("    operations:\n", &drill, 1)
}

#[test]
fn a_hole_that_is_drilled_first_was_not_measured() {
    let job = after(
        "{diameter: 6.8 mm, depth: 12 mm, wall: 18.0 ± 0.3 mm, edge: 14 ± 0.2 mm, hold: {in: vice, tested: 60 N·m, grip: 12 mm, overhang: 6 mm}}",
    );
    let plan = in_shop(&job);
    let tap = plan.operations.iter().find(|planned| planned.word == "tap").expect("tap");
    assert_eq!(verdict(tap, "size-there-yet"), Verdict::Doubtful);
    assert_ne!(tap.verdict, Verdict::Proven);
    // Another hole of the part is another hole.
    let other = after(
        "{diameter: 3 mm, depth: 6 mm, wall: 18.0 ± 0.3 mm, edge: 14 ± 0.2 mm, hold: {in: vice, tested: 60 N·m, grip: 12 mm, overhang: 6 mm}}",
    );
    let plan = in_shop(&other);
    let tap = plan.operations.iter().find(|planned| planned.word == "tap").expect("tap");
    assert!(tap.answer.checks.iter().all(|check| check.id != "size-there-yet"));
    assert!(first(&in_shop(TAP)).answer.checks.iter().all(|check| check.id != "size-there-yet"));
}

#[test]
fn a_thread_that_goes_through_has_no_depth_of_hole_and_is_not_proven_by_less() {
    let both = with(TAP, "hole-depth:", "through: true\n          hole-depth:");
    let problems = try_plan(&both, None).expect_err("both");
    assert!(problems.iter().any(|problem| problem.says.contains("no `hole-depth`")), "{problems:?}");
    let line = TAP.lines().find(|line| line.contains("hole-depth:")).expect("its line");
    let through = TAP.replace(line, "          through: true");
    assert_ne!(first(&in_shop(&through)).verdict, Verdict::Proven);
}

#[test]
fn a_grip_that_was_tried_is_judged_by_what_it_stood() {
    let held = |tested: &str| {
        let line = DRILL.lines().find(|line| line.contains("hold:")).expect("its line");
        in_shop(
            &DRILL
                .replace(line, &format!("          hold: {{in: vice, tested: {tested}, grip: 12 mm, overhang: 6 mm}}")),
        )
    };
    assert_eq!(verdict(first(&held("0.5 N·m")), "grip"), Verdict::Fails);
    assert_eq!(verdict(first(&held("60 N·m")), "grip"), Verdict::Proven);
}

/// The stop is set for the wall as it was read: through another it comes out too far, or not at all.
#[test]
fn a_hole_that_goes_through_is_drilled_for_the_wall_as_it_was_read() {
    let line = DRILL.lines().find(|line| line.trim_start().starts_with("depth:")).expect("its line");
    let job = DRILL.replace(line, "          through: true\n          beyond: 6.0 ± 0.1 mm");
    let plan = in_shop(&job);
    let steps = &first(&plan).answer.set_ups[0].steps;
    let hold = steps.iter().find(|step| step.id == "measure-wall").and_then(|step| step.hold_point.as_ref()).unwrap();
    assert_eq!(hold.limits.from, LimitsFrom::AsFound);
    let (least, most) = hold.limits.numbers();
    let wall = first(&plan).answer.value("wall").unwrap();
    assert!(
        least.unwrap() >= wall.number - wall.plus_minus - 1e-9 && most.unwrap() <= wall.number + wall.plus_minus + 1e-9
    );
    let both = try_plan(&job.replace("through: true", "through: true\n          least-left: 3 mm"), None);
    assert!(both.expect_err("both").iter().any(|problem| problem.says.contains("least-left")));
}

/// A drill cuts over its size: what is handed on as its hole may be as much larger, so that a drill just under the greatest minor
/// diameter proves no thread.
#[test]
fn a_hole_handed_on_by_its_drill_may_be_larger() {
    let at = |drill: &str| {
        let job = after(&format!(
            "{{diameter: {drill} mm, starts-on: flat, depth: 15 mm, wall: 18.0 ± 0.3 mm, edge: 14 ± 0.2 mm, hold: {{in: vice, tested: 60 N·m, grip: 12 mm, overhang: 6 mm}}}}"
        ));
        let line = TAP.lines().find(|line| line.trim().starts_with("hole:")).expect("the hole").to_owned();
        let part = TAP.lines().find_map(|line| line.trim().strip_prefix("- part: ")).expect("the part");
        let job = with(&job, &line, &format!("          hole: {{of: {part}/drill/drill_diameter}}"));
        let plan = in_shop(&job);
        let tap = plan.operations.iter().find(|planned| planned.word == "tap").expect("tap").clone();
        let hole = tap.answer.value("hole").expect("hole").clone();
        (tap, hole)
    };
    let (tap, hole) = at("6.8");
    let (low, high) = hole.band.expect("a band");
    assert!(low == 6.8 && (6.89..6.92).contains(&high), "{low} to {high}");
    assert_eq!(hole.number, 6.8);
    let wide = |tap: &setover::plan::Planned| {
        let of_hole = tap
            .answer
            .checks
            .iter()
            .filter(|check| check.judged.is_some_and(|judged| (6.0..7.0).contains(&judged.got)));
        of_hole.map(|check| (check.id, check.verdict())).collect::<Vec<_>>()
    };
    assert!(!wide(&tap).is_empty());
    let (over, _) = at("6.85");
    assert!(wide(&over).iter().any(|(_, verdict)| *verdict != Some(Verdict::Proven)), "{:?}", wide(&over));
}
