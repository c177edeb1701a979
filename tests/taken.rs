//! Two operations of one part that go by one size: what the one cuts is no longer there as the other read it, planned or logged.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, plan, plan_left, shop, with};
use setover::plan::{Plan, Planned};
use setover::proof::Verdict;
use setover::quantity::Unit;

const MILL: &str = include_str!("../examples/mill-face.yaml");
const FACE: &str = include_str!("../examples/face.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const DRILL: &str = include_str!("../examples/drill.yaml");
const BORE: &str = include_str!("../examples/bore-hole.yaml");
const TWO_LAPS: &str = include_str!("jobs/lapped-at-both-ends.yaml");

/// The operations of a job as they stand under its last part.
fn operations(job: &str) -> &str {
    let (_, of) = job.split_once("    operations:\n").unwrap();
    of
}

/// The check that a size is no longer there, of an operation by its place.
fn taken(plan: &Plan, at: usize) -> Option<String> {
    let one: &Planned = &plan.operations[at];
    let check = one.answer.checks.iter().find(|check| ["size-still-there", "log-stale"].contains(&check.id))?;
    assert_eq!(check.verdict(), Some(Verdict::Doubtful));
    assert!(one.verdict >= Verdict::Doubtful);
    Some(check.asks.clone())
}

fn in_shop(job: &str) -> Plan {
    plan(job, Some(&shop(SHOP)))
}

/// 18.00 less 0.8 twice is 16.4, and 17 must be left: features part no thickness.
#[test]
fn two_faces_of_one_thickness_are_not_both_judged_as_found() {
    for set_up in ["", "          set-up: {feature: far side}\n"] {
        let job = format!(
            "{}{}",
            with(MILL, "          width:", "          set-up: {feature: near side}\n          width:"),
            { operations(MILL).replace("          width:", &format!("{set_up}          width:")) }
        );
        let both = in_shop(&job);
        assert_eq!(taken(&both, 0), None);
        assert!(taken(&both, 1).unwrap().contains("thickness"), "{:?}", taken(&both, 1));
    }
    // Going on from what the first leaves, the second is judged by it.
    let on = operations(MILL).replace("18.00 ± 0.05 mm", "{of: pump cover/mill-face/thickness_after}");
    let both = in_shop(&format!("{MILL}{on}"));
    assert_eq!((taken(&both, 0), taken(&both, 1)), (None, None));
    let left = both.operations[1].answer.checks.iter().find(|check| check.id == "thickness-left").unwrap();
    assert_eq!(left.verdict(), Some(Verdict::Fails), "16.4 of 17");
    // Typed as it will be, and another thickness: neither is the old one.
    for size in ["17.20 ± 0.05 mm", "25.00 ± 0.05 mm"] {
        let both = in_shop(&format!("{MILL}{}", operations(MILL).replace("18.00 ± 0.05 mm", size)));
        assert_eq!(taken(&both, 1), None, "{size}");
    }
}

#[test]
fn two_ends_of_one_length_are_not_both_judged_as_found() {
    let both = in_shop(&format!("{FACE}{}", operations(FACE)));
    assert_eq!(taken(&both, 0), None);
    assert!(taken(&both, 1).is_some());
}

/// A wall is as thin as it is in the end, whichever cut comes first; another place of the part, where another
/// wall was read, is free.
#[test]
fn a_wall_under_a_face_that_is_cut_is_not_there_any_more() {
    let mill = with(MILL, "GG25", "cast aluminium");
    let insert = operations(INSERT);
    for job in
        [format!("{mill}{insert}"), format!("{}{}", with(INSERT, "timing chest", "pump cover"), operations(&mill))]
    {
        let both = in_shop(&job);
        let at = both.operations.iter().position(|one| one.word == "thread-insert").unwrap();
        assert!(taken(&both, at).unwrap().contains("metal from the face"), "{job}");
    }
    let drilled = in_shop(&format!("{mill}{}", operations(DRILL)));
    assert!(taken(&drilled, 1).is_some());
    let apart = with(&mill, "          width:", "          set-up: {feature: joint}\n          width:");
    let insert = insert.replacen("          thread:", "          set-up: {feature: boss}\n          thread:", 1);
    let elsewhere = in_shop(&format!("{apart}{}", with(&insert, "wall: 18.0 ± 0.3 mm", "wall: 14.0 ± 0.3 mm")));
    assert_eq!(taken(&elsewhere, 1), None, "{:?}", taken(&elsewhere, 1));
    assert!(taken(&in_shop(&format!("{apart}{insert}")), 1).is_some(), "18.0 is the thickness that is milled away");
    // After the log it is the same: an old wall is not there.
    let job = format!("{mill}{}", operations(INSERT));
    let logged =
        plan_left(&job, &shop(SHOP), ("pump cover", "mill-face"), &[("thickness_after", 17.2, Unit::Mm, 0.01)]);
    assert!(taken(&logged, 1).is_some());
    let on = operations(INSERT).replace("wall: 18.0 ± 0.3 mm", "wall: {of: pump cover/mill-face/thickness_after}");
    assert_ne!(on, operations(INSERT));
    assert_eq!(taken(&in_shop(&format!("{mill}{on}")), 1), None);
}

/// 48 is turned to 44, and the bore's wall was worked from 48.
#[test]
fn a_wall_about_a_bore_goes_by_the_outside_that_was_turned() {
    let turn = "      - turn:\n          present: 48.0 ± 0.1 mm\n          outside: 44.0 .. 44.1 mm\n          length: 10.0 ± 0.2 mm\n          over-all: 30 ± 0.1 mm\n          inside: 24.2 mm\n          corner: 0.4 mm\n          hold: {in: soft-jaws, diameter: 48 mm, grip: 18 mm, overhang: 12 mm, true-within: 0.03 mm, stop: step}\n";
    let job = BORE.replace("      - bore-hole:", &format!("{turn}      - bore-hole:"));
    let both = in_shop(&job);
    assert_eq!(taken(&both, 0), None, "it is turned while the bore is as it was found");
    assert!(taken(&both, 1).unwrap().contains("outside"));
    let on = in_shop(&with(&job, "outside: 48.0 ± 0.1 mm", "outside: {of: impeller boss/turn/diameter_after}"));
    assert_eq!(taken(&on, 1), None);
    assert_eq!(on.operations[1].answer.value("outside").unwrap().number, 44.05);
}

/// Both joints let the head down: 0.95 less twice 0.089 and 0.05 is 0.72 of 0.80. The sheet that laps is the one that says so.
#[test]
fn two_joints_of_one_cylinder_take_from_one_squish() {
    let both = in_shop(TWO_LAPS);
    assert_eq!(taken(&both, 0), None);
    assert!(taken(&both, 1).unwrap().contains("clearance volume"), "{:?}", taken(&both, 1));
    let second = &both.operations[1].answer;
    let lapped = second.set_ups.iter().position(|set_up| set_up.id == "lap-it").unwrap();
    assert_eq!(second.verdict_of_set_up(lapped), Verdict::Doubtful);
    let at = TWO_LAPS.rfind("squish: 0.95 ± 0.05 mm").unwrap();
    let (before, behind) = TWO_LAPS.split_at(at);
    let on = format!("{before}{}", behind.replacen("0.95 ± 0.05 mm", "{of: barrel/top/squish_after}", 1));
    assert!(taken(&in_shop(&on), 1).is_some(), "the clearance volume is still the old one");
    let at = on.rfind("clearance-volume: 62.079 cm3").unwrap();
    let (before, behind) = on.split_at(at);
    let on = format!("{before}{}", behind.replacen("62.079 cm3", "61.764 cm3", 1));
    let on = in_shop(&on);
    assert_eq!(taken(&on, 1), None);
    let squish = on.operations[1].answer.checks.iter().find(|check| check.id == "squish").unwrap();
    assert_eq!(squish.verdict(), Some(Verdict::Fails), "0.95 less 0.178 is under 0.80");
}

/// A day is as doubtful as its plan: what the log contradicts does not stand there as proven.
#[test]
fn what_nobody_owns_stands_on_the_first_set_up() {
    let both = in_shop(&format!("{MILL}{}", operations(MILL)));
    assert_eq!(both.operations[1].answer.verdict_of_set_up(0), Verdict::Doubtful);
    let logged = {
        let job = format!("{}{}", MILL, operations(MILL));
        plan_left(&job, &shop(SHOP), ("pump cover", "mill-face"), &[("thickness_after", 17.2, Unit::Mm, 0.01)])
    };
    assert_eq!(logged.operations[1].answer.verdict_of_set_up(0), Verdict::Doubtful);
}

/// A feature says where somebody works, not what was measured there: the wall that a cut takes is that wall, whatever it is called.
#[test]
fn features_do_not_part_one_size_from_itself() {
    let head = "job: One\nshop: shop.yaml\nparts:\n  - part: cover\n    material: GG25\n    operations:\n";
    let mill = "      - mill-face: {set-up: {feature: top}, width: 36 mm, length: 110 mm, thickness: 18.00 ± 0.05 mm, removed: 2.0 mm, cutter: 50 mm, hold: {in: clamps}}\n";
    let insert = |wall: &str| {
        format!(
            "      - thread-insert: {{hold: {{in: clamps, tested: 60 N·m}}, set-up: {{feature: m8}}, thread: M8, wall: {wall}, hole: blind, tang: out}}\n"
        )
    };
    let bore = |feature: &str| {
        format!(
            "      - bore-hole: {{set-up: {{feature: {feature}}}, present: 24.2 ± 0.05 mm, bore: 24.50 .. 24.53 mm, depth: 30 mm, outside: 48.0 ± 0.1 mm, over-all: 30 ± 0.1 mm, hold: {{in: soft-jaws}}}}\n"
        )
    };
    let press = "      - press-in: {set-up: {feature: seat}, housing: {bore: 24.010 ± 0.004 mm, outside: 46 mm, length: 20 mm}, bush: {outside: 24.036 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze}, stands: flush}\n";
    let in_doubt = |operations: String| {
        let plan = crate::common::in_shop(&format!("{head}{operations}"));
        plan.operations[1].answer.checks.iter().any(|check| check.id == "size-still-there")
    };
    assert!(in_doubt(format!("{mill}{}", insert("18.0 ± 0.3 mm"))));
    assert!(!in_doubt(format!("{mill}{}", insert("12.0 ± 0.3 mm"))), "another wall");
    assert!(in_doubt(format!("{}{press}", bore("seat"))), "bored away before it is pressed");
    assert!(!in_doubt(format!("{}{press}", bore("other"))));
}

/// 21.85 faced to 21.60 by the log: a reading of a later day counts, unless it has metal that is gone; one of a day to come is none.
#[test]
fn a_later_reading_has_no_metal_that_the_log_says_is_gone() {
    let folder = tempfile::tempdir().unwrap();
    let write = |length: &str, measured: &str| {
        let set_up = |name: &str, more: &str| {
            format!("          set-up: {{name: {name}, feature: {name}{more}}}\n          outside:")
        };
        let second = operations(FACE).replace("          outside:", &set_up("rear", measured));
        let second = second.replace("21.85 ± 0.01 mm", length);
        let first = FACE.replace("          outside:", &set_up("front", ""));
        std::fs::write(folder.path().join("job.yaml"), format!("{first}{second}")).unwrap();
    };
    std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
    let run = |words: &[&str]| {
        let mut run = std::process::Command::new(env!("CARGO_BIN_EXE_setover"));
        let out = run.args(words).current_dir(folder.path()).output().unwrap();
        (out.status.code(), format!("{}{}", String::from_utf8_lossy(&out.stdout), String::from_utf8_lossy(&out.stderr)))
    };
    write("21.85 ± 0.01 mm", "");
    run(&["log", "job.yaml", "distance piece/front", "length_after=21.60 ± 0.003 mm", "--date", "2026-11-20"]);
    let says = |length: &str, measured: &str, of: &str| {
        write(length, measured);
        run(&["plan", "job.yaml", "--all"]).1.contains(of)
    };
    let (stale, contradicted) = ("were its sizes read after", "does it agree with the log");
    for (length, measured, of, want) in [
        ("21.85 ± 0.01 mm", "", stale, true),
        ("21.85 ± 0.01 mm", ", measured: 2026-11-20", stale, true),
        ("21.85 ± 0.01 mm", ", measured: 2026-11-21", stale, false),
        ("21.85 ± 0.01 mm", ", measured: 2026-11-21", contradicted, true),
        ("21.70 ± 0.01 mm", ", measured: 2026-11-21", contradicted, true),
        ("21.60 ± 0.01 mm", ", measured: 2026-11-21", contradicted, false),
        ("21.61 ± 0.01 mm", ", measured: 2026-11-21", contradicted, false),
        ("21.55 ± 0.01 mm", ", measured: 2026-11-21", contradicted, false),
        ("21.60 ± 0.01 mm", "", stale, false),
    ] {
        assert_eq!(says(length, measured, of), want, "{length}{measured}: {of}");
    }
    write("21.60 ± 0.01 mm", ", measured: 2131-01-01");
    let (code, page) = run(&["plan", "job.yaml"]);
    assert!(code == Some(2) && page.contains("that day is to come"), "{page}");
}

/// A hole read on a later day than its face was cut is as deep as it was read, however much deeper than what is left of the thickness.
#[test]
fn a_later_reading_from_the_face_is_no_size_of_the_face() {
    let folder = tempfile::tempdir().unwrap();
    let job = |set_up: &str| {
        format!(
            "job: One\nshop: shop.yaml\nparts:\n  - part: cover\n    material: GG25\n    operations:\n      - mill-face: {{width: 36 mm, length: 110 mm, thickness: 18.00 ± 0.05 mm, removed: 0.8 mm, cutter: 50 mm, hold: {{in: clamps}}}}\n      - tap: {{{set_up}thread: M8, hole: 6.80 ± 0.03 mm, depth: 10 mm, hole-depth: 25.0 ± 0.3 mm}}\n"
        )
    };
    std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
    let run = |words: &[&str]| {
        let mut run = std::process::Command::new(env!("CARGO_BIN_EXE_setover"));
        String::from_utf8_lossy(&run.args(words).current_dir(folder.path()).output().unwrap().stdout).into_owned()
    };
    std::fs::write(folder.path().join("job.yaml"), job("")).unwrap();
    assert!(run(&["plan", "job.yaml", "--all"]).contains("is it still as it was read"));
    run(&["log", "job.yaml", "cover/mill-face", "thickness_after=17.20 ± 0.01 mm", "--date", "2026-11-20"]);
    assert!(run(&["plan", "job.yaml", "--all"]).contains("were its sizes read after"));
    std::fs::write(folder.path().join("job.yaml"), job("set-up: {measured: 2026-11-21}, ")).unwrap();
    let later = run(&["plan", "job.yaml", "--all"]);
    assert!(!later.contains("does it agree with the log") && !later.contains("were its sizes read after"), "{later}");
}
