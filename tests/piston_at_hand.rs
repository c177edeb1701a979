//! Which piston: what nobody could check makes none surer than one that lies in the drawer, measured.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, first, shop, try_plan, with};

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

/// The check of a piston by its ± stands open where nobody measured one: that is a doubt of it too, and metal decides.
#[test]
fn a_piston_that_must_be_bought_is_none_the_surer_for_being_unmeasured() {
    let bars = with(
        SHOP,
        "reach: 75 mm}",
        "reach: 75 mm}\n  - boring-bar: {name: bar 32, diameter: 32 mm, material: carbide, nose: 0.4 mm, reach: 140 mm}",
    );
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
