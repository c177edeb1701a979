//! What an operation goes by, beside others of its part: work that could not be worked, and a bore that is finished too soon.

use crate::common;

use common::*;
use setover::plan::Plan;
use setover::proof::Verdict;

const LAPPED: &str = include_str!("jobs/lapped-at-both-ends.yaml");
const PRESSED: &str = include_str!("../examples/press-in.yaml");
const HOLE: &str = include_str!("../examples/drill-oil-hole.yaml");

/// What a check says in the operation of that name.
fn said(plan: &Plan, operation: &str, id: &str) -> Option<Verdict> {
    let it = plan.operations.iter().find(|it| it.address.to_string().ends_with(operation)).unwrap();
    it.answer.checks.iter().find(|check| check.id == id).and_then(|check| check.verdict())
}

fn worst(plan: &Plan, operation: &str) -> Verdict {
    plan.operations.iter().find(|it| it.address.to_string().ends_with(operation)).unwrap().verdict
}

/// What an operation takes that lacks a reading nobody knows: what else goes by that size is no better for it.
#[test]
fn what_could_not_be_worked_takes_metal_all_the_same() {
    const ID: &str = "beside-what-is-refused";
    let whole = in_shop(LAPPED);
    assert_eq!((worst(&whole, "/base"), said(&whole, "/base", ID)), (Verdict::Doubtful, None));
    let points = LAPPED.lines().find(|line| line.contains("points:")).unwrap();
    let lacking = in_shop(&LAPPED.replacen(&format!("{points}\n"), "", 1));
    assert!(lacking.operations[0].answer.refused.is_some());
    assert_eq!((worst(&lacking, "/base"), said(&lacking, "/base", ID)), (Verdict::Doubtful, Some(Verdict::Doubtful)));
    // Another part is none of its business.
    let apart = LAPPED.replacen(&format!("{points}\n"), "", 1);
    let (head, tail) = apart.split_at(apart.rfind("      - lap:").unwrap());
    let apart = format!("{head}  - part: other barrel\n    material: grey iron barrel\n    operations:\n{tail}");
    assert_eq!(said(&in_shop(&apart), "/base", ID), None);
}

/// A hole through a bush whose bore was cut to size before it leaves a burr that nothing takes off.
#[test]
fn a_hole_is_drilled_before_its_bore_is_finished() {
    const ID: &str = "burr-cut-off";
    let operations = |text: &str| {
        let body = text
            .split_once("    operations:\n")
            .unwrap()
            .1
            .split_once("\n  - part:")
            .map_or_else(|| text.split_once("    operations:\n").unwrap().1, |it| it.0);
        body.trim_end().to_owned() + "\n"
    };
    let named = |text: &str, word: &str, name: &str, feature: &str| {
        let wish = format!("- {word}:\n          set-up: {{name: {name}{feature}}}");
        operations(text).replacen(&format!("- {word}:"), &wish, 1)
    };
    let bore = |feature: &str| {
        format!(
            "      - bore-hole: {{set-up: {{name: bored{feature}}}, present: 18.0 ± 0.02 mm, bore: 18.50 .. 18.55 mm, depth: 20 mm, through: true, behind: 6.0 ± 0.5 mm, outside: 46.0 ± 0.1 mm, over-all: 20 ± 0.1 mm, material: phosphor bronze, eccentric: 0.05 ± 0.02 mm, least-wall: 10 mm, true-to: bore, hold: {{in: soft-jaws, diameter: 46 mm, grip: 10 mm, overhang: 10 mm, true-within: 0.03 mm, stop: step}}}}\n"
        )
    };
    let of = |feature: &str, order: &[&str]| {
        let press = named(PRESSED, "press-in", "pressed", feature);
        let hole = named(HOLE, "drill-oil-hole", "oil", feature);
        let all: String = order
            .iter()
            .map(|what| match *what {
                "press" => press.clone(),
                "bore" => bore(feature),
                _ => hole.clone(),
            })
            .collect();
        in_shop(&format!(
            "job: Burr\nshop: shop.yaml\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n{all}"
        ))
    };
    let one = ", feature: hole";
    assert_eq!(said(&of(one, &["press", "bore", "hole"]), "/oil", ID), Some(Verdict::Fails));
    assert_eq!(said(&of("", &["press", "bore", "hole"]), "/oil", ID), Some(Verdict::Doubtful));
    assert_eq!(said(&of(one, &["press", "hole", "bore"]), "/oil", ID), None);
    assert_eq!(said(&of(one, &["bore", "press", "hole"]), "/oil", ID), None, "the bore of the housing");
    assert_eq!(said(&of(one, &["press", "hole"]), "/oil", ID), None);
}
