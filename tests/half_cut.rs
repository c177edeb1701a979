//! Work that the log has as begun is judged by what is still to come of it too, and a reading by what was cut since: no line of the log
//! opens what must not be cut.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::log_loop::Bench;

/// An example with one key tighter, so that it must not be cut; and a line of the log by which it is half cut, where it holds still.
const HALF: [(&str, &str, &str, &str, &[&str]); 6] = [
    (
        include_str!("../examples/drill.yaml"),
        "depth: 12 mm",
        "depth: 17 mm",
        "governor bracket/drill",
        &["drilled_depth=12 ± 0.1 mm"],
    ),
    (
        include_str!("../examples/bore-hole.yaml"),
        "least-wall: 10 mm",
        "least-wall: 11.5 mm",
        "impeller boss/bore-hole",
        &["diameter_after=24.7 ± 0.005 mm"],
    ),
    (
        include_str!("../examples/mill-face.yaml"),
        "least-thickness: 17 mm",
        "least-thickness: 17.4 mm",
        "pump cover/mill-face",
        &["thickness_after=17.6 ± 0.01 mm"],
    ),
    (
        include_str!("../examples/skim.yaml"),
        "least-thickness: 7.5 mm",
        "least-thickness: 7.9 mm",
        "clutch centre/skim",
        &["length_after=7.95 ± 0.01 mm"],
    ),
    (
        include_str!("../examples/face.yaml"),
        "least-case: 0.5 mm",
        "least-case: 0.75 mm",
        "distance piece/face",
        &["length_after=21.70 ± 0.004 mm"],
    ),
    (
        include_str!("../examples/lap.yaml"),
        "least-squish: 0.80 mm",
        "least-squish: 0.88 mm",
        "barrel/lap",
        &["removed=0.02 ± 0.005 mm", "flat_after=0.05 ± 0.003 mm"],
    ),
];

#[test]
fn a_line_about_a_half_made_cut_opens_nothing_that_must_not_be_cut() {
    for (example, from, to, of, line) in HALF {
        assert!(example.contains(from), "{of}");
        let states = |job: &str, log: bool| {
            let bench = Bench::of(job);
            if log {
                bench.log(&[&[of], line].concat());
            }
            let plan = bench.plan();
            let all = plan["operations"].as_array().expect("operations").clone();
            let own = all.iter().find(|own| format!("{}/{}", own["part"], own["operation"]).replace('"', "") == of);
            let own = own.unwrap_or_else(|| panic!("{of}: {plan:#}")).clone();
            (own["verdict"].as_str().expect("a verdict").to_owned(), own.to_string())
        };
        let tight = example.replace(from, to);
        assert_eq!(states(&tight, false).0, "fails", "{of}");
        let (verdict, said) = states(&tight, true);
        assert_eq!(verdict, "fails", "{of}");
        assert!(!said.contains("drill on") && !said.contains("take more off"), "{of}: {said}");
        // Where what is still to come may be cut it is cut on.
        assert_ne!(states(example, true).0, "fails", "{of}");
    }
}

/// An insert that is in a hole which is a pitch too short for it is not home: nobody drills on through it, and it is not done.
#[test]
fn an_insert_in_too_short_a_hole_is_not_done() {
    let of = "timing chest/thread-insert";
    let verdict = |depth: &str| {
        let bench = Bench::of(include_str!("../examples/thread-insert.yaml"));
        bench.log(&[of, &format!("drilled_depth={depth} ± 0.1 mm"), "set_down=0.5 ± 0.05 mm"]);
        (bench.verdict(0), bench.said(&["plan", "job.yaml"]))
    };
    let (whole, said) = verdict("14.0");
    assert_ne!(whole, "fails", "{said}");
    let (short, said) = verdict("11.4");
    assert_eq!(short, "fails", "{said}");
    assert!(said.contains("draw it") && !said.contains("by the same stop"), "{said}");
}

/// A doubt of half the size is no reading of what was made; a clearance of next to nothing may be one.
#[test]
fn what_was_not_read_is_not_written_down() {
    let bench = Bench::of(include_str!("../examples/turn.yaml"));
    let log = |size: &str| bench.said(&["log", "job.yaml", "pump drive shaft/turn", size, "--date", "2026-12-04"]);
    let said = log("diameter_after=23.975 ± 12 mm");
    assert!(said.contains("half the size and more is no measurement") && !said.contains("L1"), "{said}");
    assert!(log("diameter_after=23.975 ± 0.004 mm").contains("L1"));
    let fit = Bench::of(include_str!("../examples/fit-up.yaml"));
    let of = "outrigger bush/fit-up";
    assert!(fit.log(&[of, "clearance=0.004 ± 0.004 mm"]).contains("L1"));
}

/// Who cuts a part through its case has to have another: it is on the order list, where nothing else that was said mends it.
#[test]
fn a_spoilt_part_is_replaced_and_ordered_once() {
    let face = include_str!("../examples/face.yaml");
    let decided = |remedies: &str, size: &str| {
        let inspect = format!(
            "    inspect:\n      - {{feature: end wear, found: 0.25 ± 0.02 mm, service: at most 0.05 mm, remedies: [{remedies}]}}\n    operations:\n"
        );
        let bench = Bench::of(&face.replacen("    operations:\n", &inspect, 1));
        bench.log(&["distance piece/face", &format!("length_after={size} ± 0.004 mm")]);
        bench.said(&["decide", "job.yaml"])
    };
    let orders = |said: &str| said.matches("1 × distance piece, to buy").count();
    let spoilt = decided("face, replace", "21.30");
    assert!(orders(&spoilt) == 1 && !spoilt.contains("smaller cut"), "{spoilt}");
    let mended = decided("face", "21.30");
    assert_eq!(orders(&mended), 0, "{mended}");
    let good = decided("face, replace", "21.60");
    assert_eq!(orders(&good), 0, "{good}");
}
