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
