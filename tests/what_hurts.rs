//! What hurts somebody, or costs a part, beside what is worked of the cut: weight out of balance, metals that gall or are eaten out,
//! frost, a bore that is shut, a spring pass in a metal that burns.

use crate::common;

use common::*;
use setover::plan::Plan;
use setover::proof::{Outcome, Verdict};

const TURN: &str = include_str!("../examples/turn.yaml");
const REAM: &str = include_str!("../examples/ream-bush.yaml");
const PRESSED: &str = include_str!("../examples/press-in.yaml");
const FIT: &str = include_str!("../examples/fit-up.yaml");
const WARM: &str = include_str!("../examples/warm.yaml");

fn own(job: &str) -> Plan {
    plan(job, Some(&shop(include_str!("../examples/shop.yaml"))))
}

fn steps(plan: &Plan) -> Vec<&str> {
    first(plan).answer.set_ups.iter().flat_map(|set_up| set_up.steps.iter().map(|step| step.id)).collect()
}

fn warned(plan: &Plan, of: &str) -> bool {
    let answer = &first(plan).answer;
    let said = answer.cautions.iter().chain(answer.set_ups.iter().flat_map(|set_up| &set_up.cautions));
    said.into_iter().any(|text| text.contains(of))
}

/// A metal without spring passes is never gone over again: magnesium dust burns, titanium glazes.
#[test]
fn no_sheet_goes_over_a_cut_again_that_must_not_rub() {
    for (metal, again) in [("mild steel", true), ("AZ91", false), ("316", false)] {
        let plan = own(&with(TURN, "material: mild steel", &format!("material: {metal}")));
        let passes = first(&plan).answer.set_ups[0].steps.iter().filter_map(|step| step.cut.as_ref());
        let springs = passes.flat_map(|cut| &cut.passes).any(|pass| pass.kind == setover::operations::PassKind::Spring);
        assert_eq!(springs, again, "{metal}");
        assert_eq!(steps(&plan).contains(&"finish"), again, "{metal}");
        assert_eq!(steps(&plan).contains(&"finish-once"), !again, "{metal}");
    }
}

/// 50 mm of the bar and 70 long weigh 0.26 kg: what weighs six is no bar, and nobody knows where the rest of it is.
#[test]
fn what_weighs_more_than_its_sizes_is_in_doubt() {
    let of = |more: &str| own(&with(TURN, "inside: 0 mm", &format!("inside: 0 mm{more}")));
    let balance = |more: &str| state(first(&of(more)), "balance");
    assert_eq!(balance(""), Outcome::DoesNotApply);
    assert_eq!(balance("\n          mass: 0.27 kg"), Outcome::DoesNotApply);
    assert_eq!(balance("\n          mass: 6 kg"), Outcome::Made(Verdict::Doubtful));
    assert_ne!(first(&of("\n          mass: 6 kg")).verdict, Verdict::Proven);
}

/// By hand: cast aluminium grows 22.0, phosphor bronze 18.4: 3.6e-6 * 20 * 80 K = 0.0058 mm tighter at -60 degC, a seventh more stress on
/// a housing that stands just under its limit.
#[test]
fn a_housing_shrinks_on_to_its_bush_in_frost() {
    const ID: &str = "stress-when-cold";
    let of = |coldest: &str| {
        let running = format!("running: {{housing: 20 degC, shaft: 20 degC{coldest}}}\n          duty: gear");
        in_shop(&with(REAM, "duty: gear", &running))
    };
    assert_eq!(verdict(first(&of(", coldest: -60 degC")), ID), Verdict::Doubtful);
    assert_eq!(verdict(first(&of(", coldest: 19 degC")), ID), Verdict::Proven);
    assert_eq!(state(first(&of("")), ID), Outcome::DoesNotApply);
    let margin = |coldest: &str| {
        let plan = of(coldest);
        let check = first(&plan).answer.checks.iter().filter(|check| check.id == ID);
        check.filter_map(|check| check.judged).map(|judged| judged.margin).fold(f64::INFINITY, f64::min)
    };
    assert!(margin(", coldest: -60 degC") < margin(", coldest: -20 degC"));
}

/// Air and oil that find no way out of a shut bore stand under the bush.
#[test]
fn a_bore_that_is_shut_lets_no_air_out() {
    const ID: &str = "air-comes-out";
    for (job, length) in [(REAM, "outside: 40 mm, length: 20 mm,"), (PRESSED, "outside: 46 mm, length: 20 mm,")] {
        let of = |through: &str| in_shop(&with(job, length, &format!("{length} through: {through},")));
        assert_eq!(verdict(first(&of("false")), ID), Verdict::Doubtful);
        assert_ne!(first(&of("false")).verdict, Verdict::Proven);
        assert_eq!(verdict(first(&of("true")), ID), Verdict::Proven);
        let unsaid = in_shop(job);
        assert!(first(&unsaid).answer.assumed.iter().any(|line| line.contains("goes right through")));
    }
}

/// Metals of one kind that weld to themselves, running or pressed.
#[test]
fn two_of_a_kind_gall() {
    let fit = |bore: &str, shaft: &str| {
        let job = with(FIT, "material: phosphor bronze", &format!("material: {bore}"));
        in_shop(&with(&job, "shaft-material: mild steel", &format!("shaft-material: {shaft}")))
    };
    let runs = |bore: &str, shaft: &str| verdict(first(&fit(bore, shaft)), "pair-runs");
    assert_eq!(runs("phosphor bronze", "mild steel"), Verdict::Proven);
    for metal in ["316", "Titanium", "cast aluminium"] {
        assert_eq!(runs(metal, metal), Verdict::Doubtful, "{metal}");
    }
    let pressed = |bush: &str| {
        let job = with(PRESSED, "material: phosphor bronze", &format!("material: {bush}"));
        let plan = in_shop(&with(&job, "material: cast aluminium", "material: 6082-T6"));
        state(first(&plan), "pair-goes-in")
    };
    assert_eq!(pressed("6082-T6"), Outcome::Made(Verdict::Doubtful));
    assert_eq!(pressed("phosphor bronze"), Outcome::Made(Verdict::Proven));
}

/// Magnesium beside bronze is eaten out; porous bronze is never washed.
#[test]
fn a_bush_goes_in_as_its_metal_asks() {
    let in_magnesium = in_shop(&with(PRESSED, "material: cast aluminium", "material: AZ91"));
    assert!(warned(&in_magnesium, "eaten out") && !warned(&in_shop(PRESSED), "eaten out"));
    let porous = in_shop(&with(PRESSED, "material: phosphor bronze", "material: sintered bronze"));
    assert!(steps(&porous).contains(&"both-at-20-porous") && !steps(&porous).contains(&"both-at-20"));
    assert!(steps(&in_shop(PRESSED)).contains(&"both-at-20"));
}

/// What is fetched hot out of an oven and weighs more than one lifts is fetched by two, or by a hoist.
#[test]
fn what_is_heavy_is_not_carried_hot_by_one() {
    let of = |outside: &str, length: &str| {
        let line = WARM.lines().find(|line| line.contains("outside:")).unwrap();
        let other = WARM.lines().find(|line| line.trim().starts_with("length:")).unwrap();
        let job = with(WARM, line, &format!("          outside: {outside}"));
        in_shop(&with(&job, other, &format!("          length: {length}")))
    };
    assert!(warned(&of("400 mm", "300 mm"), "hoist") && !warned(&of("46 mm", "20 mm"), "hoist"));
}

/// An insert that the job itself fits lies in the face that is lapped.
#[test]
fn inserts_of_the_job_are_counted_in_its_lap() {
    let insert = include_str!("../examples/thread-insert.yaml");
    let lap = include_str!("../examples/lap.yaml");
    let body = |text: &str| {
        let rest = text.split_once("    operations:\n").unwrap().1;
        rest.split_once("\n  - part:").map_or(rest, |it| it.0).trim_end().to_owned() + "\n"
    };
    let of = |operations: &str| {
        let head =
            "job: Lapped\nshop: shop.yaml\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n";
        let plan = in_shop(&format!("{head}{operations}"));
        let lap = plan.operations.iter().find(|it| it.word == "lap").unwrap();
        lap.answer.checks.iter().any(|check| check.id == "inserts-counted")
    };
    let uncounted = with(lap, "          inserts: [{thread: M6, set-down: 0.75 ± 0.1 mm}]\n", "");
    assert!(of(&(body(insert) + &body(&uncounted))));
    assert!(!of(&(body(insert) + &body(lap))) && !of(&body(&uncounted)));
}
