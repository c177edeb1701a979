//! Chains of lengths: gap and doubt against a million draws of every link each (`chain.py`).

use super::forms::Dice;
use super::{number, rows};
use crate::common::{doubt, first, plan, value};

/// The links of a case as a job has them.
fn job(seed: u64, case: u64) -> String {
    let mut dice = Dice::of(seed, case + 40_000);
    let mut links = String::new();
    for nth in 0..2 + dice.next(6) {
        let (by, size, doubt) = (dice.next(21) - 10, 5_000 + dice.next(50_001), 10 + dice.next(300));
        let (by, size, doubt) = (if by == 0 { 1 } else { by }, size as f64 / 1e3, doubt as f64 / 1e4);
        links += &format!("            - {{link: x {nth}, by: {by}, size: {size:.3} ± {doubt:.4} mm}}\n");
    }
    format!(
        "job: Gap\nparts:\n  - part: case\n    material: GG25\n    operations:\n      - chain:\n          of: float\n          wanted: -1 .. 1 mm\n          links:\n{links}"
    )
}

#[test]
fn the_doubt_of_a_chain_is_that_of_a_million_draws() {
    let all = rows("chain.csv");
    let seed = number(&all[0], "gap_mm") as u64;
    println!("seed {seed}, {} draws each", all[0]["doubt_mm"]);
    let mut seen = 0;
    for (case, row) in (0..).zip(&all[1..]) {
        let it = plan(&job(seed, case), None);
        let (gap, held) = (value(first(&it), "gap"), doubt(first(&it), "gap"));
        let (drawn, spread) = (number(row, "gap_mm"), number(row, "doubt_mm"));
        assert!((spread / held - 1.0).abs() < 0.01, "case {case}: {spread} {held}");
        // The mean of a million draws lies within a hundredth of the spread, ten times what chance does.
        assert!((drawn - gap).abs() < 0.01 * spread, "case {case}: {drawn} {gap}");
        seen += 1;
    }
    assert_eq!(seen, 200);
}
