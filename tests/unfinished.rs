//! What the log calls not finished is nothing to go on from.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{plan_left, shop};
use setover::proof::Verdict;
use setover::quantity::Unit;

const TURN: &str = include_str!("../examples/turn.yaml");
const FIT: &str = "  - part: drive bush
    material: phosphor bronze
    operations:
      - fit-up:
          bore: 24.050 ± 0.004 mm
          shaft: {of: pump shaft/turn/diameter_after}
          shaft-material: mild steel
          clearance: 0.030 .. 0.130 mm
          running: {bore: 60 degC, shaft: 70 degC}
          carried-by: GG25
          bush-wall: 3 mm
";

/// A shaft that is still to be turned is no shaft for a fit; where it came to its size it is.
#[test]
fn a_size_as_left_is_handed_on_when_the_work_is_finished() {
    let of = TURN.lines().find_map(|line| line.trim().strip_prefix("- part: ")).unwrap().to_owned();
    let job = format!("{TURN}{}", FIT.replace("pump shaft", &of));
    let shop = shop(include_str!("../examples/shop.yaml"));
    let fitted = |size: f64| {
        let plan = plan_left(&job, &shop, (&of, "turn"), &[("diameter_after", size, Unit::Mm, 0.004)]);
        let fit = &plan.operations[1].answer;
        let at = |id: &str| fit.checks.iter().find(|check| check.id == id).and_then(|check| check.verdict());
        (at("size-still-there"), fit.checks.iter().all(|check| check.verdict().is_none_or(|it| it == Verdict::Proven)))
    };
    assert_eq!(fitted(23.975), (None, true));
    assert_eq!(fitted(24.015), (Some(Verdict::Doubtful), false));
}
