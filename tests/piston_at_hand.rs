//! Which piston: what nobody could check makes none surer than one that lies in the drawer, measured.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, first, shop, try_plan, with};
use setover::proof::Verdict;

const BARREL: &str = "
job: One
parts:
  - part: barrel
    material: GG25
    operations:
      - bore:
          nominal: 70 mm
          length: 110 mm
          readings: {kind: diameter, depths: 10 55 100 mm, thrust: 70.14 70.10 70.05 mm, pin: 70.11 70.08 70.05 mm}
          unworn: 70.03 ± 0.01 mm
          piston-now: 69.93 mm
          clearance: 0.07 to 0.12 mm
          cooling: air
          series: inch
          outside: {size: 84 mm, eccentric: 0.3 ± 0.1 mm}
          least-wall: 5 mm
          base-square: 0.01 ± 0.004 mm
          hold: {in: clamps, tested: 60 N·m, true-within: 0.02 mm}
";

/// The bench with a bar that goes through the barrel.
fn with_a_bar() -> String {
    with(
        SHOP,
        "reach: 75 mm}",
        "reach: 75 mm}\n  - boring-bar: {name: bar 32, diameter: 32 mm, material: carbide, nose: 0.4 mm, reach: 140 mm}",
    )
}

/// The check of a piston by its ± stands open where nobody measured one: that is a doubt of it too, and metal decides.
#[test]
fn a_piston_that_must_be_bought_is_none_the_surer_for_being_unmeasured() {
    let bars = with_a_bar();
    let (before, after) = bars.split_once("  pistons: [").unwrap();
    let after = after.split_once("]\n").unwrap().1;
    for doubt in ["0.002", "0.006", "0.008", "0.010", "0.012"] {
        let shop = shop(&format!(
            "{before}  pistons: [{{for: barrel, oversize: 0.020 in, size: 70.44 ± {doubt} mm}}]\n{after}"
        ));
        let plan = try_plan(BARREL, Some(&shop)).unwrap();
        let rows = &first(&plan).answer.alternatives;
        let chosen = rows.iter().find(|row| row.chosen).unwrap();
        assert_eq!(chosen.name, "+0.020 in", "± {doubt}");
        assert!(rows.iter().any(|row| row.name == "+0.030 in"));
    }
}

/// The bench with one piston for the barrel in its drawer.
fn with_piston(piston: &str) -> setover::shop::Shop {
    let bars = with_a_bar();
    let (before, after) = bars.split_once("  pistons: [").unwrap();
    let after = after.split_once("]\n").unwrap().1;
    shop(&format!("{before}  pistons: [{{for: barrel, {piston}}}]\n{after}"))
}

/// A size is no surer for being bought of a metal that nobody names: what fails warm by the metal of the others fails in every size.
#[test]
fn another_oversize_is_no_way_out_of_a_clearance_that_goes_when_it_is_warm() {
    let tight = with(
        BARREL,
        "cooling: air",
        "cooling: air\n          running: {piston: 250 degC, bore: 90 degC}\n          least-running: 0 mm",
    );
    let measured = with_piston("oversize: 0.020 in, size: 70.44 ± 0.005 mm, metal: al-cast-hisi");
    let failing = |job: &str| -> Vec<String> {
        let plan = try_plan(job, Some(&measured)).unwrap();
        let rows = &first(&plan).answer.alternatives;
        let fails = |row: &&setover::operations::Alternative<String>| {
            row.answer.checks.iter().any(|check| check.id == "running" && check.verdict() == Some(Verdict::Fails))
        };
        rows.iter().filter(fails).map(|row| row.name.clone()).collect()
    };
    let unsaid = failing(&tight);
    assert!(unsaid.len() >= 3, "{unsaid:?}");
    assert_eq!(unsaid, failing(&with(&tight, "cooling: air", "piston-metal: al-cast-hisi\n          cooling: air")));
    let plan = try_plan(&tight, Some(&measured)).unwrap();
    let choice = first(&plan).answer.choices.iter().find(|choice| choice.name == "piston").unwrap();
    assert!(choice.why.contains("no oversize gives") && first(&plan).verdict == Verdict::Fails, "{}", choice.why);
}

/// What lies in the drawer unmeasured is measured, and not bought again.
#[test]
fn a_piston_in_the_drawer_is_not_bought_again() {
    let missing = |piston: &str| {
        let plan = try_plan(BARREL, Some(&with_piston(piston))).unwrap();
        first(&plan).answer.missing.join(" ")
    };
    assert!(!missing("oversize: 0.020 in").contains("+0.020 in"));
    assert!(missing("oversize: 0.001 in").contains("piston"));
}
