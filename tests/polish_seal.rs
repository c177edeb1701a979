//! The track of a lip seal: what polishing takes, and when it must not.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, doubt, first, in_shop, plan, plan_left, shop, state, value, verdict, with};
use approx::assert_abs_diff_eq;
use setover::plan::Planned;
use setover::proof::{Outcome, Verdict};
use setover::quantity::Unit;

const EXAMPLE: &str = include_str!("../examples/polish-seal.yaml");

const SEAL: &str = "job: Seal\nparts:\n  - part: pump shaft\n    material: case-hardened steel\n    hardness: 58 HRC\n    case-depth: 0.8 ± 0.1 \
                    mm\n    operations:\n      - polish-seal:\n          track: 25 mm\n          size: {size: 24.962 mm, with: \
                    micrometer}\n          groove: 0.012 ± 0.004 mm\n          groove-width: 0.6 mm\n          removed-before: 0 \
                    mm\n          finish-found: Ra 1.1 um\n          finish: Ra 0.2 .. 0.8 um\n          speed: 1800 rev/min\n          \
                    dirt: clean\n          run-out: 0.03 ± 0.004 mm\n          seal-off-centre: 0.05 ± 0.02 mm\n          lip-width: 0.5 \
                    mm\n          free-track: 4 mm\n          lead: still\n";

fn one(job: &str) -> Planned {
    first(&in_shop(job)).clone()
}

fn way(it: &Planned) -> String {
    it.answer.choices.iter().find(|choice| choice.name == "way").expect("a way").chosen.clone()
}

fn margin(it: &Planned, id: &str) -> f64 {
    it.answer.checks.iter().find(|check| check.id == id).and_then(|check| check.judged).expect("figures").margin
}

#[test]
fn a_shallow_groove_is_polished_out() {
    let it = one(SEAL);
    assert_abs_diff_eq!(value(&it, "metal_off"), 0.018, epsilon = 1e-9);
    assert_abs_diff_eq!(value(&it, "diameter_after"), 24.926, epsilon = 1e-9);
    assert_abs_diff_eq!(doubt(&it, "diameter_after"), 0.004, epsilon = 1e-9);
    assert_abs_diff_eq!(value(&it, "diameter_least"), 24.870, epsilon = 1e-9);
    assert_abs_diff_eq!(margin(&it, "size"), 0.052, epsilon = 1e-9);
    assert_abs_diff_eq!(value(&it, "case_left"), 0.782, epsilon = 1e-9);
    assert_abs_diff_eq!(doubt(&it, "case_left"), 0.1, epsilon = 1e-9);
    assert_abs_diff_eq!(value(&it, "rim_speed"), 2.349, epsilon = 5e-4);
    assert_abs_diff_eq!(value(&it, "off_in_all"), 0.08, epsilon = 1e-9);
    for id in ["polish-only", "size", "finish", "hard-enough", "case", "run-out", "room-to-shift"] {
        assert_eq!(verdict(&it, id), Verdict::Proven, "{id}");
    }
    // The track as it came was too rough: that is why it is polished, and no fault of the plan.
    assert_eq!(verdict(&it, "finish-as-found"), Verdict::Fails);
    // A tenth of a case of eight is more than a reading of it may be off.
    let surer = tried(&with(SEAL, "0.8 ± 0.1 mm", "0.8 ± 0.08 mm"), &[]);
    assert_eq!((surer.verdict, way(&it).as_str()), (Verdict::Proven, "polish"));
}

/// What nobody can know before the work is no proof.
#[test]
fn until_the_thread_was_hung_on_it_nobody_knows_of_lead() {
    let untried = one(&with(SEAL, "          lead: still\n", ""));
    assert_eq!((state(&untried, "no-lead"), untried.verdict), (Outcome::NotChecked, Verdict::Doubtful));
    assert_eq!(verdict(&one(&with(SEAL, "still", "walks")), "no-lead"), Verdict::Fails);
    assert_eq!(first(&in_shop(EXAMPLE)).verdict, Verdict::Doubtful);
}

/// With what the thread did on the polished track, and what else was left.
fn tried(job: &str, left: &[(&str, f64, Unit, f64)]) -> Planned {
    let still = [("thread_walked", 0.0, Unit::Mm, 0.02)];
    first(&plan_left(job, &shop(SHOP), ("pump shaft", "polish-seal"), &[&still, left].concat())).clone()
}

/// What the thread did before the cloth took that surface off says nothing of the one that is left.
#[test]
fn a_thread_that_was_hung_on_the_track_as_it_was_is_hung_on_it_again() {
    assert_eq!(verdict(&one(SEAL), "no-lead"), Verdict::Doubtful);
    let polished = left_as("diameter_after", 24.926, Unit::Mm);
    assert_eq!(verdict(&polished, "no-lead"), Verdict::Doubtful, "polished since it was typed");
    for lead in ["", "          lead: walks\n", "          lead: still\n"] {
        let of = |walked: f64| {
            let job = with(SEAL, "          lead: still\n", lead);
            let left = [("thread_walked", walked, Unit::Mm, 0.02)];
            verdict(first(&plan_left(&job, &shop(SHOP), ("pump shaft", "polish-seal"), &left)), "no-lead")
        };
        assert_eq!((of(0.0), of(0.49), of(3.0)), (Verdict::Proven, Verdict::Doubtful, Verdict::Fails), "{lead}");
    }
}

/// The groove is its depth on the radius: taken off the diameter once it would look proven.
#[test]
fn a_groove_counts_on_both_sides() {
    let it = one(&with(SEAL, "groove: 0.012", "groove: 0.039"));
    assert_abs_diff_eq!(value(&it, "diameter_after"), 24.872, epsilon = 1e-9);
    assert_abs_diff_eq!(value(&it, "diameter_after") - doubt(&it, "diameter_after"), 24.868, epsilon = 1e-9);
    assert_eq!(verdict(&it, "size"), Verdict::Doubtful);
    assert_eq!((verdict(&it, "polish-only"), it.verdict), (Verdict::Fails, Verdict::Fails));
    assert_eq!(way(&it), "shift the seal");
    let no_track = one(&with(&with(SEAL, "groove: 0.012", "groove: 0.039"), "free-track: 4 mm", "free-track: 2 mm"));
    assert_eq!((way(&no_track).as_str(), verdict(&no_track, "room-to-shift")), ("build up and grind", Verdict::Fails));
    let sleeved = with(&with(SEAL, "groove: 0.012", "groove: 0.039"), "free-track: 4 mm", "sleeve-wall: 0.25 mm");
    assert_eq!(way(&one(&sleeved)), "sleeve");
}

/// A finish with one end only is met by a track so smooth that it starves the lip.
#[test]
fn a_finish_has_two_ends() {
    let of = |finish: &str| verdict(&one(&with(SEAL, "finish: Ra 0.2 .. 0.8 um", finish)), "finish");
    assert_eq!(of("finish: Ra 0.8 um"), Verdict::Fails);
    assert_eq!(of("finish: Ra 0 .. 0.8 um"), Verdict::Fails);
    assert_eq!(of("finish: Ra 0.05 .. 0.8 um"), Verdict::Doubtful);
    assert_eq!(of("finish: Ra 0.23 .. 0.43 um"), Verdict::Proven);
    let unsaid = one(&with(SEAL, "          finish: Ra 0.2 .. 0.8 um\n", ""));
    assert_eq!(verdict(&unsaid, "finish"), Verdict::Proven);
    assert!(unsaid.answer.assumed.iter().any(|line| line.contains("0.2")), "{:?}", unsaid.answer.assumed);
    for (left, wanted) in [(0.05, Verdict::Fails), (0.4, Verdict::Proven), (1.1, Verdict::Fails)] {
        assert_eq!(verdict(&left_as("finish", left, Unit::Um), "finish"), wanted, "{left}");
    }
}

/// The operation with a figure as it was left.
fn left_as(key: &str, number: f64, unit: Unit) -> Planned {
    let plan = plan_left(SEAL, &shop(SHOP), ("pump shaft", "polish-seal"), &[(key, number, unit, 0.004)]);
    assert_eq!(first(&plan).answer.refused, None);
    first(&plan).clone()
}

/// What more came off than was planned counts against size and case.
#[test]
fn a_track_polished_too_far_is_judged_as_it_was_left() {
    let it = left_as("diameter_after", 24.860, Unit::Mm);
    assert_eq!((verdict(&it, "size"), verdict(&it, "polish-only")), (Verdict::Fails, Verdict::Fails));
    assert_abs_diff_eq!(value(&it, "case_left"), 0.8 - 0.051, epsilon = 1e-9);
    assert_eq!(verdict(&left_as("diameter_after", 24.930, Unit::Mm), "size"), Verdict::Proven);
}

/// A diameter that leaves the groove standing is not proven, however large the shaft still is; nothing is spoilt by it.
#[test]
fn a_track_on_which_the_groove_still_stands_is_not_proven() {
    let surer = with(SEAL, "0.8 ± 0.1 mm", "0.8 ± 0.08 mm");
    let beside = [("finish", 0.4, Unit::Um, 0.05), ("thread_walked", 0.0, Unit::Mm, 0.5)];
    let of = |left: f64| tried(&surer, &[("diameter_after", left, Unit::Mm, 0.001), beside[0], beside[1]]).verdict;
    assert_eq!(of(24.960), Verdict::Doubtful, "the groove is 0.012 deep and 0.001 is off the radius");
    assert_eq!(of(24.936), Verdict::Doubtful, "gone at the middle, not at worst");
    assert_eq!(of(24.928), Verdict::Proven);
}

/// By the radius 3400 rev/min would be 2.22 m/s, and 45 HRC enough.
#[test]
fn a_fast_rim_or_dirt_asks_a_harder_track() {
    let of = |job: &str| verdict(&one(job), "hard-enough");
    let soft = with(SEAL, "hardness: 58 HRC", "hardness: 50 HRC");
    assert_eq!(of(&soft), Verdict::Proven);
    let fast = with(&soft, "1800 rev/min", "3400 rev/min");
    assert_abs_diff_eq!(value(&one(&fast), "rim_speed"), 4.44, epsilon = 0.005);
    assert_eq!(of(&fast), Verdict::Doubtful);
    assert_eq!(of(&with(&fast, "50 HRC", "56 HRC")), Verdict::Proven);
    assert_eq!(of(&with(&soft, "dirt: clean", "dirt: dirty")), Verdict::Doubtful);
    // What nobody says is never the better of the two.
    assert_eq!(of(&with(&soft, "          dirt: clean\n", "")), Verdict::Doubtful);
    assert_eq!(of(&with(&soft, "          speed: 1800 rev/min\n", "")), Verdict::Doubtful);
    assert_eq!(of(&with(SEAL, "58 HRC", "35 HRC")), Verdict::Doubtful);
    assert_eq!(of(&with(SEAL, "58 HRC", "29 HRC")), Verdict::Fails);
    // Too soft for Rockwell C is too soft, and no question that nobody can answer.
    assert_eq!(of(&with(&with(SEAL, "58 HRC", "180 HB"), "case-hardened steel", "mild steel")), Verdict::Fails);
    assert_eq!(state(&one(&with(SEAL, "    hardness: 58 HRC\n", "")), "hard-enough"), Outcome::NotChecked);
}

/// The case counts from the unworn surface: with the groove taken off once more it would be 0.224.
#[test]
fn the_groove_is_not_taken_off_the_case_again() {
    let deep = with(&with(SEAL, "0.8 ± 0.1 mm", "0.35 ± 0.02 mm"), "groove: 0.012 ± 0.004", "groove: 0.060 ± 0.004");
    let it = one(&deep);
    assert_abs_diff_eq!(value(&it, "case_left"), 0.284, epsilon = 1e-9);
    assert_eq!(verdict(&it, "case"), Verdict::Fails);
    let unknown = one(&with(SEAL, "    case-depth: 0.8 ± 0.1 mm\n", ""));
    assert_eq!(verdict(&unknown, "case"), Verdict::Doubtful);
}

#[test]
fn run_out_is_judged_apart_and_together() {
    let of = |job: &str| one(job);
    assert_eq!(verdict(&of(&with(SEAL, "run-out: 0.03", "run-out: 0.14")), "run-out"), Verdict::Fails);
    assert_eq!(
        verdict(&of(&with(SEAL, "off-centre: 0.05 ± 0.02", "off-centre: 0.07 ± 0.02")), "run-out"),
        Verdict::Doubtful
    );
    let both =
        with(&with(SEAL, "run-out: 0.03", "run-out: 0.125"), "off-centre: 0.05 ± 0.02", "off-centre: 0.078 ± 0.002");
    assert_eq!(verdict(&of(&both), "run-out"), Verdict::Fails, "each within its own, both together not");
    let alone = of(&with(SEAL, "          seal-off-centre: 0.05 ± 0.02 mm\n", ""));
    assert_eq!(state(&alone, "run-out"), Outcome::NotChecked);
    let bad = with(&with(SEAL, "          seal-off-centre: 0.05 ± 0.02 mm\n", ""), "run-out: 0.03", "run-out: 0.3");
    assert_eq!(verdict(&of(&bad), "run-out"), Verdict::Fails);
}

/// No instruction ever puts a hand with cloth at turning work, nor cloth along it.
#[test]
fn no_hand_at_the_turning_track() {
    let it = one(SEAL);
    let set_up = &it.answer.set_ups[0];
    assert!(set_up.cautions.iter().any(|line| line.contains("No emery by hand")), "{:?}", set_up.cautions);
    let steps = set_up.steps.iter().map(|step| step.words.clone()).collect::<Vec<_>>().join("\n");
    assert!(steps.contains("in a tool-post holder, pressed straight in, never along"), "{steps}");
    assert_eq!(verdict(&one(&with(SEAL, "case-hardened steel", "LG2")), "metal-takes-it"), Verdict::Fails);
    let hold = set_up.steps.iter().rev().find_map(|step| step.hold_point.as_ref()).expect("a hold point");
    let (least, _) = hold.limits.numbers();
    assert!(least.expect("least") >= 24.870, "{least:?}");
}

#[test]
fn what_passes_over_leaves_the_track_alone() {
    let over = |bore: &str| {
        with(SEAL, "          track: 25 mm\n", &format!("          track: 25 mm\n          passes-over: {bore}\n"))
    };
    assert_eq!(verdict(&one(&over("25 mm")), "passes"), Verdict::Fails);
    assert_eq!(verdict(&one(&over("25.2 mm")), "passes"), Verdict::Proven);
}

#[test]
fn without_a_shop_it_plans_too() {
    assert_eq!(first(&plan(SEAL, None)).answer.refused, None);
}

#[test]
fn a_track_that_does_not_clear_the_bed_is_not_polished_there() {
    let of = |track: &str, size: &str| {
        let job = with(EXAMPLE, "track: 25 mm", &format!("track: {track}"));
        verdict(&one(&with(&job, "24.962", size)), "swing")
    };
    assert_eq!((of("25 mm", "24.962"), of("325 mm", "324.962")), (Verdict::Proven, Verdict::Fails));
}

/// The spindle runs both ways: a chuck that is only screwed on comes off backwards.
#[test]
fn a_chuck_that_is_turned_backwards_is_clamped_on_its_nose() {
    let plan = in_shop(include_str!("../examples/polish-seal.yaml"));
    let steps = &first(&plan).answer.set_ups[0].steps;
    let words = |id: &str| &steps.iter().find(|step| step.id == id).unwrap().words;
    assert!(words("true-the-track").contains("clamped on its nose"));
    assert!(words("polish-plunging").contains("Lowest speed"));
}
