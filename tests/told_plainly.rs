//! What somebody who tries the program for the first time is told: the word that mends it, and nothing that sends him the wrong way.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{first, in_shop, plan, shop, try_plan, verdict, with};
use setover::proof::Verdict;

const BORE: &str = include_str!("../examples/bore.yaml");
const DRILL: &str = include_str!("../examples/drill.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const SHIM: &str = include_str!("../examples/shim.yaml");
const SHOP: &str = include_str!("../examples/shop.yaml");
const TURN: &str = include_str!("../examples/turn.yaml");

fn refused(job: &str) -> String {
    match try_plan(job, Some(&shop(SHOP))) {
        Ok(_) => panic!("it was planned"),
        Err(problems) => problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"),
    }
}

/// Parts of silver steel are mostly hardened: nobody takes one for soft that he has not tried.
#[test]
fn steel_that_is_used_hardened_is_not_taken_for_soft() {
    for (job, metal, check) in [(TURN, "mild steel", "tool-hard-enough"), (DRILL, "GG25", "drill-hard-enough")] {
        let of = |metal_now: &str| verdict(first(&in_shop(&with(job, metal, metal_now))), check);
        assert_eq!(of("mild steel"), Verdict::Proven, "{check}");
        for untried in ["silver steel", "O1", "gauge plate"] {
            assert_eq!(of(untried), Verdict::Doubtful, "{check} {untried}");
            assert_eq!(of(&format!("{untried}\n    hardness: 200 HB")), Verdict::Proven, "{check} {untried}");
        }
        assert!(of("silver steel\n    hardness: 60 HRC") >= Verdict::Doubtful, "{check}");
    }
}

/// A figure with a decimal comma in brackets is not led to one a thousand times as large.
#[test]
fn a_decimal_comma_in_brackets_becomes_a_point() {
    let said = refused(&with(TURN, "diameter: 24.6 mm", "diameter: 24,6 mm"));
    assert!(said.contains("the decimal sign is a point: `diameter: 24.6 mm`"), "{said}");
    assert!(!said.contains("24 6"), "{said}");
}

/// Limits of no width can never be kept: two are asked for.
#[test]
fn a_clearance_has_two_limits() {
    let said = refused(&with(BORE, "clearance: 0.06 .. 0.10 mm", "clearance: 2 thou"));
    assert!(said.contains("`clearance` has two limits"), "{said}");
}

/// A table whose dials nobody told is not named by one of its slides; a dial that is told is.
#[test]
fn a_slide_is_named_where_its_dial_is_told() {
    let zero = |dials: &str| {
        let shop = shop(&with(SHOP, "[{axis: quill, division: 0.02 mm, per-turn: 4 mm}]", dials));
        let plan = plan(INSERT, Some(&shop));
        let steps = &first(&plan).answer.set_ups[0].steps;
        steps.iter().find(|step| step.id.starts_with("zero")).expect("a zero").words.clone()
    };
    let quill = "{axis: quill, division: 0.02 mm, per-turn: 4 mm}";
    assert!(zero(&format!("[{quill}]")).contains("one slide of the table only"));
    let cross = zero(&format!("[{quill}, {{axis: table-cross, division: 0.02 mm, per-turn: 4 mm}}]"));
    assert!(cross.contains("table, cross only"), "{cross}");
    assert!(zero("[]").contains("strip"), "no dial: over a strip");
}

/// What makes a float uncertain when it runs warm is told: the metals that nobody named.
#[test]
fn a_float_that_is_unsure_warm_asks_for_its_metals() {
    let named = first(&in_shop(SHIM)).answer.checks.clone();
    let asks = |checks: &[setover::proof::Check<String>]| {
        let running = checks.iter().find(|check| check.id == "running").unwrap();
        running.remedies.iter().any(|remedy| remedy.words.contains("name the links with their metals"))
    };
    assert!(!asks(&named));
    let bare: String = SHIM.lines().map(|line| line.replace(", material: mild steel", "") + "\n").collect();
    assert_ne!(bare, SHIM);
    assert!(asks(&first(&in_shop(&bare)).answer.checks));
}

/// A drawer of thin shims has the pack, only not in so few: how many would do is told, and done so it is proven.
#[test]
fn a_pack_of_more_shims_is_named() {
    let shop = shop(&with(
        SHOP,
        "shims: [{thickness: 0.10 mm, count: 4}, {thickness: 0.27 mm, count: 1}, {thickness: 0.50 mm, count: 2}]",
        "shims: [{thickness: 0.10 mm, count: 8}]",
    ));
    let job = |pack: &str| {
        format!(
            "job: float\nparts:\n  - part: spindle\n    material: mild steel\n    operations:\n      - shim:\n          float: 0.10 .. 0.20 mm\n          float-found: {{size: {{size: 0.65 mm, with: lever indicator}}, with-pack: 0 mm}}\n{pack}          round: exact\n"
        )
    };
    let float = |pack: &str| {
        let plan = plan(&job(pack), Some(&shop));
        first(&plan).answer.checks.iter().find(|check| check.id == "float").unwrap().clone()
    };
    let few = float("");
    assert_ne!(few.verdict(), Some(Verdict::Proven));
    let told = |check: &setover::proof::Check<String>| {
        check.remedies.iter().any(|remedy| remedy.words.contains("a pack of more shims would do"))
    };
    assert!(told(&few), "{:?}", few.remedies);
    assert!(few.remedies.iter().any(|remedy| remedy.words.contains("`pack: most` (5)")), "{:?}", few.remedies);
    let more = float("          pack: {most: 5}\n");
    assert!(more.verdict() == Some(Verdict::Proven) && !told(&more));
    assert!(!told(&float("          pack: {most: 3}\n")), "who says how many may be is not asked for more");
}

/// Words of the bench: scales as they are spoken, a material by its letters, and none where a size is asked for.
#[test]
fn words_of_the_bench_are_taken() {
    for hardness in ["58 Rc", "RC 58", "HRC 58"] {
        let job = with(TURN, "material: mild steel", &format!("material: mild steel\n    hardness: {hardness}"));
        assert!(try_plan(&job, Some(&shop(SHOP))).is_ok(), "{hardness}");
    }
    assert!(try_plan(&with(TURN, "mild steel", "CI"), Some(&shop(SHOP))).is_ok());
    let none = refused(&with(TURN, "inside: 0 mm", "inside: none"));
    assert!(none.contains("write `0 mm` where there is none"), "{none}");
    let valve = refused(&with(TURN, "mild steel", "valve steel"));
    assert!(valve.contains("valves are of many steels"), "{valve}");
}
