//! Random but valid jobs: every one is answered with finite figures, its pages hold, and it gives the same bytes twice.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

mod common;

use common::{SHOP, shop, try_plan};
use proptest::prelude::*;
use setover::plan::Plan;
use setover::sheet::{check, layout};

/// One size with a doubt, as it would be typed.
fn reading(low: f64, high: f64) -> impl Strategy<Value = String> {
    (low..high, 0.002..0.2_f64).prop_map(|(size, doubt)| format!("{size:.3} ± {doubt:.3} mm"))
}

fn insert() -> impl Strategy<Value = String> {
    let thread = prop::sample::select(vec![
        "M4",
        "M6",
        "M8",
        "M8x1",
        "M10",
        "M12x1.5",
        "1/4 BSF",
        "3/8 BSW",
        "2 BA",
        "1/4-26 BSC",
        "5/16-18 UNC",
        "No. 10-32 UNF",
    ]);
    let lead = prop::sample::select(vec!["", "lead: plug, ", "lead: bottoming, ", "lead: taper, "]);
    let bolt = prop::sample::select(vec![
        "",
        "bolt: {class: 8.8, reach: 9 mm}, ",
        "bolt: {class: \"4.6\"}, ",
        "bolt: {class: BS R, reach: 7/16 in, torque: 20 Nm}, ",
    ]);
    let hole = prop::sample::select(vec![
        "hole: blind",
        "hole: through",
        "hole: through, beyond: 6 ± 0.5 mm",
        "hole: blind, least-left: 2 mm, present-depth: 8 mm",
    ]);
    let more = prop::sample::select(vec![
        "",
        ", countersink: true",
        ", tang: out",
        ", length: 2D",
        ", edge: 15 ± 0.3 mm",
        ", present-hole: 5.1 ± 0.1 mm",
    ]);
    let metal = prop::sample::select(vec!["cast aluminium", "cast iron", "mild steel", "AZ91", "LG2"]);
    (thread, reading(5.0, 60.0), hole, lead, bolt, more, metal).prop_map(|(thread, wall, hole, lead, bolt, more, metal)| {
        format!("      - thread-insert: {{thread: \"{thread}\", wall: {wall}, {lead}{bolt}{hole}{more}, material: {metal}}}\n")
    })
}

fn job() -> impl Strategy<Value = String> {
    let name = prop::sample::select(vec![
        "cover",
        "a very long name of a part that somebody typed without thinking of the sheet it must stand on",
        "Крышка",
        "Κάλυμμα",
        "x",
    ]);
    (name, prop::collection::vec(operation(), 1..3)).prop_map(|(name, operations)| {
        format!("job: Random\ndate: 2026-02-03\nparts:\n  - part: \"{name}\"\n    material: cast aluminium\n    operations:\n{}", operations.concat())
    })
}

fn bush() -> impl Strategy<Value = String> {
    let metal = prop::sample::select(vec!["phosphor bronze", "leaded bronze", "brass", "sintered bronze"]);
    let housing = prop::sample::select(vec!["cast aluminium", "cast iron", "mild steel", "AZ91"]);
    let assemble = prop::sample::select(vec!["press", "warm-housing", "chill-bush", "warm-and-chill"]);
    let more = prop::sample::select(vec![
        "",
        ", clearance: 1 .. 2 thou",
        ", clearance: H7/f7",
        ", duty: rocker",
        ", duty: gear, oil-holes: [{diameter: 3 mm, at: 5 mm}]",
    ]);
    let by = prop::sample::select(vec!["hand", "machine"]);
    (8.0..40.0_f64, 0.0..0.08_f64, 0.7..0.85_f64, 1.6..3.0_f64, metal, housing, assemble, more, by).prop_map(|(bore, over, wall, boss, metal, housing, assemble, more, by)| {
        let (outside, inner) = (bore + over, bore * wall);
        let more = more.replace("H7/f7", &format!("{:.0} H7/f7", inner));
        format!(
            "      - ream-bush: {{housing: {{bore: {bore:.3} ± 0.004 mm, outside: {:.1} mm, length: 20 mm, material: {housing}}}, bush: {{outside: {outside:.3} ± 0.004 mm, bore: {inner:.3} ± 0.005 mm, length: 20 mm, material: {metal}}}, shaft: {:.3} ± 0.003 mm, assemble: {assemble}, by: {by}{more}}}\n",
            bore * boss,
            inner + 0.05
        )
    })
}

fn facing() -> impl Strategy<Value = String> {
    let hold = prop::sample::select(vec!["in: soft-jaws", "in: jaws", "in: mandrel", "in: faceplate"]);
    let face = prop::sample::select(vec![
        "",
        ", float: opens, as-found-float: 0.4 ± 0.01 mm, rides: in-groove",
        ", least-length: 5 mm",
        ", interrupted: 4",
        ", feed-direction: outward",
    ]);
    let skim = prop::sample::select(vec![
        "",
        ", dish: 0.06 ± 0.02 mm, from: local",
        ", step: {present: 2.5 mm, cut: same}",
        ", springs: {count: 6, rate: 9 N/mm}, step: {present: 3 mm, cut: none}",
        ", least-thickness: 4 mm",
    ]);
    let kind = prop::bool::ANY;
    (20.0..220.0_f64, 0.3..0.85_f64, 5.0..60.0_f64, 0.01..0.6_f64, hold, face, skim, kind).prop_map(|(outside, hole, length, wear, hold, face, skim, kind)| {
        let (word, more) = if kind { ("face", face) } else { ("skim", skim) };
        format!(
            "      - {word}: {{outside: {outside:.1} mm, inside: {:.1} mm, length: {length:.2} ± 0.02 mm, wear: {wear:.3} ± 0.02 mm, finish: Ra 3.2 um, hold: {{{hold}, diameter: {outside:.1} mm, grip: {:.1} mm, overhang: {:.1} mm, true-within: 0.02 mm}}{more}}}\n",
            outside * hole,
            length / 3.0,
            length * 0.6
        )
    })
}

fn operation() -> impl Strategy<Value = String> {
    prop_oneof![insert(), bush(), facing()]
}

fn finite(plan: &Plan) {
    for operation in &plan.operations {
        let all =
            operation.answer.values.iter().chain(operation.answer.alternatives.iter().flat_map(|c| &c.answer.values));
        for value in all {
            assert!(
                value.number.is_finite() && value.plus_minus.is_finite() && value.plus_minus >= 0.0,
                "{}: {value:?}",
                operation.address
            );
        }
        for set_up in &operation.set_ups {
            assert!(set_up.minutes.is_finite() && set_up.unattended.is_finite());
        }
    }
}

fn pages_hold(plan: Plan) {
    let plans = [plan];
    let pages = layout::pages(&plans).unwrap_or_else(|fault| panic!("{fault}"));
    assert!(!pages.is_empty());
    for (number, page) in pages.iter().enumerate() {
        let faults = check::faults(page);
        assert!(faults.is_empty(), "page {}: {faults:?}", number + 1);
    }
    assert!(layout::pdf(&plans).expect("pdf") == layout::pdf(&plans).expect("pdf"), "the same bytes twice");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, rng_seed: proptest::test_runner::RngSeed::Fixed(19_530_426), ..ProptestConfig::default() })]

    #[test]
    fn a_random_valid_job_makes_sheets_that_hold(job in job(), shop_kind in 0..4_u8) {
        let paper = SHOP.replace("paper: A4", "paper: Letter").replace("units: metric", "units: both");
        let inch = include_str!("jobs/inch-shop.yaml");
        let shop = match shop_kind { 0 => None, 1 => Some(shop(SHOP)), 2 => Some(shop(&paper)), _ => Some(shop(inch)) };
        let plan = try_plan(&job, shop.as_ref()).unwrap_or_else(|all| panic!("{job}\n{all:#?}"));
        finite(&plan);
        pages_hold(plan);
    }
}
