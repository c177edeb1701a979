//! What a sheet promises holds: an outside that "makes the joint proven" proves it, a torque that "must stand" stands at the speed too.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{first, in_shop, state, try_plan, verdict, with};
use setover::plan::Planned;
use setover::proof::{Outcome, Verdict};

/// A bush in a cover of some metals, wall and climate.
fn pressed(housing: &str, bush: &str, wall: f64, running: &str, outside: f64) -> Option<Planned> {
    let job = format!(
        "job: Promised\nparts:\n  - part: cover\n    material: {housing}\n    operations:\n      - press-in:\n          \
         housing: {{bore: 24.010 ± 0.004 mm, outside: {} mm, length: 20 mm, finish: Ra 0.8 um}}\n          \
         bush: {{outside: {outside:.4} ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: {bush}, finish: Ra 0.8 um}}\n          \
         stands: flush\n{running}          support: {{inside: 26 mm, under: boss}}\n",
        24.0 + 2.0 * wall
    );
    let shop = crate::common::shop(crate::common::SHOP);
    try_plan(&job, Some(&shop)).ok().map(|plan| first(&plan).clone())
}

#[test]
fn an_outside_that_makes_a_joint_proven_proves_it() {
    let mut promised = 0;
    for housing in ["cast aluminium", "GG25", "mild steel", "AZ91"] {
        for bush in ["phosphor bronze", "SAE 841", "mild steel", "Nylon"] {
            for (wall, running) in [
                (6.0, ""),
                (11.0, "          running: {housing: 60 degC, coldest: -30 degC}\n"),
                (5.0, "          running: {housing: 110 degC}\n"),
            ] {
                let at = |outside: f64| pressed(housing, bush, wall, running, outside);
                let Some(it) = at(24.036) else { continue };
                let end = |key: &str| it.answer.value(key).map(|value| value.number);
                let Some((low, high)) = end("outside_least_proven").zip(end("outside_most_proven")) else { continue };
                // Rounded inward, as it is printed.
                let (low, high) = ((low * 1000.0).ceil() / 1000.0, (high * 1000.0).floor() / 1000.0);
                for outside in [low, f64::midpoint(low, high), high] {
                    promised += 1;
                    let it = at(outside).unwrap();
                    // Support and frame go by other sizes.
                    let of_joint = |id: &str| !["under-the-boss", "push-fits", "press-reaches"].contains(&id);
                    let open: Vec<_> = it
                        .answer
                        .checks
                        .iter()
                        .filter(|check| check.stamps() > Some(Verdict::Proven) && of_joint(check.id))
                        .map(|check| (check.id, check.asks.clone()))
                        .collect();
                    assert!(open.is_empty(), "{bush} of {outside} in {housing}, wall {wall}{running}: {open:?}");
                }
            }
        }
    }
    assert!(promised > 30, "{promised} promises tried");
}

/// A face of which nobody says what is joined there may be that of two halves, whose bores close with it.
#[test]
fn a_joint_that_nobody_names_may_split_bores() {
    let lap = include_str!("../examples/lap.yaml");
    let of = |job: &str| state(first(&in_shop(job)), "bores-stay-round");
    let line = lap.lines().find(|line| line.trim_start().starts_with("joint:")).unwrap();
    assert_eq!(of(lap), Outcome::DoesNotApply);
    assert_eq!(of(&lap.replacen(&format!("{line}\n"), "", 1)), Outcome::NotChecked);
}

/// True in one plane near the jaws, a long part may swing at its end; and what it is held in is there.
#[test]
fn a_long_part_is_read_in_two_planes() {
    let job = include_str!("../examples/set-true.yaml");
    let held = |more: &str| with(job, "hold: {in: four-jaw}", &format!("hold: {{in: four-jaw, {more}}}"));
    let of = |job: &str| state(first(&in_shop(job)), "second-plane-true");
    assert_eq!(of(&held("diameter: 60 mm, grip: 20 mm, overhang: 50 mm")), Outcome::DoesNotApply);
    assert_eq!(of(&held("diameter: 60 mm, grip: 4 mm, overhang: 200 mm")), Outcome::Made(Verdict::Doubtful));
    let there = |job: &str| state(first(&in_shop(job)), "device-there");
    assert_eq!(there(job), Outcome::Made(Verdict::Proven));
    assert_eq!(there(&with(job, "in: four-jaw", "in: jaws")), Outcome::DoesNotApply);
    let bare = crate::common::SHOP;
    let line = bare.lines().find(|line| line.trim_start().starts_with("four-jaw:")).unwrap();
    let bare = crate::common::shop(&bare.replacen(&format!("{line}\n"), "", 1));
    let without = crate::common::plan(job, Some(&bare));
    assert_eq!(verdict(first(&without), "device-there"), Verdict::Doubtful);
}
