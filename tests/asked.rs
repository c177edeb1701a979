//! What somebody asks for by typing its limit is answered or in doubt, never passed over for want of another key; and what no tool, lip or
//! float stands is not proven.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{first, in_shop, verdict, with};
use setover::proof::Verdict;

const FACE: &str = include_str!("../examples/face.yaml");
const LAP: &str = include_str!("../examples/lap.yaml");
const SHIM: &str = include_str!("../examples/shim.yaml");
const TAP: &str = include_str!("../examples/tap.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const DRILL: &str = include_str!("../examples/drill.yaml");
const SEAL: &str = include_str!("../examples/polish-seal.yaml");

fn of(job: &str, check: &str) -> Verdict {
    verdict(first(&in_shop(job)), check)
}

/// A face comes out no squarer than the part was set up.
#[test]
fn a_square_that_is_asked_for_is_in_doubt_where_nobody_says_how_true_it_stands() {
    assert!(FACE.contains("square-within") && FACE.contains("true-within"), "{FACE}");
    let line = FACE.lines().find(|line| line.contains("true-within")).unwrap();
    let start = line.find("true-within").unwrap();
    let end = line[start..].find([',', '}']).unwrap() + start;
    let rest = line[end..].trim_start_matches(", ");
    let without = with(FACE, line, &format!("{}{rest}", &line[..start]).replace(", }", "}"));
    assert_eq!((of(FACE, "square"), of(&without, "square")), (Verdict::Proven, Verdict::Doubtful), "{without}");
}

#[test]
fn a_compression_that_is_asked_for_is_in_doubt_where_nobody_says_what_is_swept() {
    let compression = |job: &str| {
        let plan = in_shop(job);
        verdict(plan.operations.last().unwrap(), "compression")
    };
    assert_eq!(compression(LAP), Verdict::Proven);
    for line in ["swept", "clearance-volume", "bore"] {
        let line = LAP.lines().find(|other| other.trim_start().starts_with(&format!("{line}:"))).unwrap();
        assert_eq!(compression(&with(LAP, &format!("{line}\n"), "")), Verdict::Doubtful, "{line}");
    }
}

/// An aluminium case leaves a steel shaft more room when it is warm.
#[test]
fn a_float_between_two_metals_is_in_doubt_where_nobody_says_how_warm_it_runs() {
    let warm = SHIM.lines().find(|line| line.trim_start().starts_with("warm:")).unwrap();
    let cold = with(SHIM, &format!("{warm}\n"), "");
    assert_eq!(of(&cold, "running"), Verdict::Doubtful);
    let alike = cold.replace("material: cast aluminium", "material: mild steel");
    let plan = in_shop(&alike);
    let running = first(&plan).answer.checks.iter().find(|check| check.id == "running").unwrap();
    assert_eq!(running.verdict(), None, "nothing grows otherwise than the rest");
}

/// Taps and drills of high-speed steel end where a turning tool of it still cuts.
#[test]
fn a_tap_breaks_in_what_is_as_hard_as_itself() {
    for (job, check) in [(TAP, "tap-hard-enough"), (INSERT, "tap-hard-enough"), (DRILL, "drill-hard-enough")] {
        let metal = job.lines().find(|line| line.trim_start().starts_with("material:")).unwrap();
        let hard = |hrc: u32| {
            let part = format!("    material: EN24\n    hardness: {hrc} HRC");
            of(&with(job, metal, &part), check)
        };
        let wanted = [Verdict::Proven, Verdict::Doubtful, Verdict::Fails, Verdict::Fails];
        assert_eq!([30, 40, 45, 54].map(hard), wanted, "{check}");
    }
}

/// No lip stands any speed.
#[test]
fn a_seal_burns_on_a_track_that_runs_too_fast() {
    let speed = SEAL.lines().find(|line| line.trim_start().starts_with("speed:"));
    let at = |speed_of: u32| match speed {
        Some(line) => with(SEAL, line, &format!("          speed: {speed_of} rev/min")),
        None => with(
            SEAL,
            "      - polish-seal:\n",
            &format!("      - polish-seal:\n          speed: {speed_of} rev/min\n"),
        ),
    };
    let wanted = [Verdict::Proven, Verdict::Doubtful, Verdict::Fails];
    assert_eq!([900, 15_000, 40_000].map(|speed| of(&at(speed), "rim-speed")), wanted);
}
