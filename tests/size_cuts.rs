//! What one operation of a part cuts away, another was judged by: then it is doubtful, unless it goes on from what is left.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, in_shop, plan_left, shop, with};
use setover::plan::{Plan, Planned};
use setover::proof::{Outcome, Verdict};
use setover::quantity::Unit;

const MILL: &str = include_str!("../examples/mill-face.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const FACE: &str = include_str!("../examples/face.yaml");
const BORE: &str = include_str!("../examples/bore-hole.yaml");
const DRILL: &str = include_str!("../examples/drill.yaml");
const LAP: &str = include_str!("../examples/lap.yaml");

/// The operations of a job that has one part.
fn operations(job: &str) -> &str {
    job.split_once("    operations:\n").unwrap().1
}

/// The part of one job with the operations of several, one after the other.
fn together(part: &str, others: &[&str]) -> String {
    let (head, own) = part.split_once("    operations:\n").unwrap();
    let all: Vec<&str> = std::iter::once(own).chain(others.iter().map(|job| operations(job))).collect();
    format!("{head}    operations:\n{}", all.join(""))
}

fn named(job: &str, name: &str, feature: &str) -> String {
    let line = job.lines().find(|line| line.starts_with("      - ")).unwrap().to_owned();
    job.replacen(&line, &format!("{line}\n          set-up: {{name: {name}, feature: {feature}}}"), 1)
}

fn cut_away(plan: &Plan, at: usize) -> Option<Outcome> {
    let of: &Planned = &plan.operations[at];
    of.answer.checks.iter().find(|check| check.id == "size-cut").map(|check| check.state)
}

const DOUBTFUL: Option<Outcome> = Some(Outcome::Made(Verdict::Doubtful));

#[test]
fn both_sides_of_a_cover_are_not_judged_by_one_thickness() {
    let both = together(MILL, &[MILL]);
    let plan = in_shop(&both);
    for at in [0, 1] {
        assert_eq!(cut_away(&plan, at), DOUBTFUL);
        assert_ne!(plan.operations[at].verdict, Verdict::Proven);
    }
    // As the first side leaves it: typed so, or taken from there.
    let (first, second) = both.split_at(both.rfind("      - mill-face:").unwrap());
    for thickness in ["17.20 ± 0.05 mm", "{of: pump cover/mill-face/thickness_after}"] {
        let plan = in_shop(&format!(
            "{first}{}",
            with(second, "thickness: 18.00 ± 0.05 mm", &format!("thickness: {thickness}"))
        ));
        assert_eq!((cut_away(&plan, 0), cut_away(&plan, 1)), (None, None), "{thickness}");
        assert_ne!(plan.operations[1].verdict, Verdict::Proven, "16.4 mm of the 17 that may be left");
    }
}

#[test]
fn a_wall_that_a_face_is_cut_from_proves_no_hole() {
    for order in [[0, 1], [1, 0]] {
        let jobs = [INSERT, MILL];
        let job = together(jobs[order[0]], &[jobs[order[1]]]);
        let plan = in_shop(&job);
        let insert = plan.operations.iter().position(|it| it.word == "thread-insert").unwrap();
        assert_eq!(cut_away(&plan, insert), DOUBTFUL);
        assert_ne!(plan.operations[insert].verdict, Verdict::Proven);
    }
    let drilled = in_shop(&together(DRILL, &[FACE]));
    assert_eq!(cut_away(&drilled, 0), DOUBTFUL, "the hole is drilled from a face that goes");
}

/// Another name of the place says that it is another place, but not of a wall that is just as thick as what is cut.
#[test]
fn a_feature_of_another_name_is_another_place_where_the_sizes_say_no_other() {
    let at = |wall: &str| {
        let insert = named(&with(INSERT, "wall: 18.0 ± 0.3 mm", &format!("wall: {wall} ± 0.3 mm")), "insert", "boss");
        cut_away(&in_shop(&together(&named(MILL, "mill", "joint"), &[&insert])), 1)
    };
    assert_eq!(at("24.0"), None);
    assert_eq!(at("18.0"), DOUBTFUL);
    assert_eq!(at("17.2"), None, "as the cut leaves it");
}

#[test]
fn a_wall_about_a_bore_goes_with_the_outside() {
    let turned = "      - turn: {present: 48.0 ± 0.1 mm, outside: 44.0 .. 44.1 mm, length: 10.0 ± 0.2 mm, over-all: 30 ± 0.1 mm, inside: 25.0 mm, corner: 0.4 mm, finish: Ra 3.2 um, hold: {in: soft-jaws, diameter: 48 mm, grip: 18 mm, overhang: 12 mm, true-within: 0.03 mm, stop: step}}\n";
    let job = format!("{BORE}{turned}");
    let plan = in_shop(&job);
    assert_eq!(cut_away(&plan, 0), DOUBTFUL);
    assert_ne!(plan.operations[0].verdict, Verdict::Proven);
    assert_eq!(cut_away(&plan, 1), None, "its bore is typed as it will be");
    let later = in_shop(&with(&job, "outside: 48.0 ± 0.1 mm", "outside: 44.05 ± 0.1 mm"));
    assert_eq!(cut_away(&later, 0), None);
    let early = in_shop(&with(&job, "inside: 25.0 mm", "inside: 24.2 mm"));
    assert_eq!(cut_away(&early, 1), DOUBTFUL);
}

/// Both faces of a barrel close the room over its piston, whatever they are called.
#[test]
fn two_laps_of_one_barrel_are_not_judged_each_alone() {
    let barrel = LAP.split_once("  - part: barrel\n").unwrap().1;
    let lap = operations(barrel);
    let lap = |name: &str| {
        lap.replacen(
            "      - lap:\n",
            &format!("      - lap:\n          set-up: {{name: {name}, feature: {name}}}\n"),
            1,
        )
    };
    let job = format!(
        "{}{}{}",
        LAP.split_once("      - lap:").unwrap().0.replace("cast aluminium", "grey iron barrel"),
        lap("top"),
        lap("base")
    );
    let plan = in_shop(&job);
    for at in [0, 1] {
        assert_eq!(cut_away(&plan, at), DOUBTFUL);
        assert_ne!(plan.operations[at].verdict, Verdict::Proven);
    }
    let alone = in_shop(LAP);
    assert_eq!((cut_away(&alone, 0), cut_away(&alone, 1)), (None, None));
}

/// What the log has of a cut makes a size stale that was read before it, whatever the size is called there.
#[test]
fn a_logged_cut_makes_a_wall_stale_that_is_called_otherwise() {
    let face = "      - face: {outside: 52 mm, inside: 32 mm, length: 18.00 ± 0.01 mm, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 52 mm, grip: 6 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step}, least-length: 17 mm}\n";
    let job = format!("{INSERT}{face}");
    let part = INSERT.lines().find_map(|line| line.trim().strip_prefix("- part: ")).unwrap();
    let plan = plan_left(&job, &shop(SHOP), (part, "face"), &[("length_after", 17.04, Unit::Mm, 0.01)]);
    let id = |at: usize, id: &str| plan.operations[at].answer.checks.iter().any(|check| check.id == id);
    assert!(id(0, "size-cut") || id(0, "log-stale"), "{:?}", plan.operations[0].answer.checks);
    assert_ne!(plan.operations[0].verdict, Verdict::Proven);
}
