//! A measured shaft in a measured bore, cold and running.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{self, agrees, doubt, first, plan, state, try_plan, value, verdict, with};
use approx::assert_abs_diff_eq;
use setover::plan::Planned;
use setover::proof::{Outcome, Verdict};
use setover::shop::Shop;

const BUSH: &str = "job: Two fits\nparts:\n  - part: outrigger bush\n    material: phosphor bronze\n    operations:\n      - fit-up:\n          \
                    bore: {size: 25.012 mm, with: bore gauge}\n          shaft: {size: 24.962 mm, with: micrometer 0-25}\n          \
                    shaft-material: mild steel\n          clearance: 0.030 .. 0.080 mm\n          \
                    running: {bore: 60 degC, shaft: 70 degC}\n          carried-by: grey iron barrel\n";

const PISTON: &str = "job: Two fits\nparts:\n  - part: piston\n    material: cast aluminium high silicon\n    operations:\n      - fit-up:\n          \
                      bore: {size: 67.18025 mm, with: bore gauge}\n          bore-material: grey iron barrel\n          \
                      shaft: {size: 67.085 mm, with: micrometer 50-75}\n          shaft-material: cast aluminium high silicon\n          \
                      clearance: 3.0 .. 4.5 thou\n          running: {bore: 120 degC, shaft: 130 degC}\n          least-running: 0 mm\n";

fn owned() -> Shop {
    let more = "instruments:\n  - {name: micrometer 0-25, kind: outside micrometer, from: 0 mm, to: 25 mm, uncertainty: 4 um}\n  \
                - {name: micrometer 25-50, kind: outside micrometer, from: 25 mm, to: 50 mm, uncertainty: 4 um}\n  \
                - {name: micrometer 50-75, kind: outside micrometer, from: 50 mm, to: 75 mm, uncertainty: 5 um, repeat: 2 um}\n  \
                - {name: bore gauge, kind: bore gauge set by micrometer, from: 20 mm, to: 150 mm, uncertainty: 9.5 um, transfer: 8.08 um, set-by: [micrometer 25-50, micrometer 50-75]}\n";
    common::shop(&with(common::SHOP, "instruments:\n", more))
}

fn fitted(job: &str) -> Planned {
    first(&plan(&named(job), Some(&owned()))).clone()
}

/// The metals by the names of the book.
fn named(job: &str) -> String {
    job.replace("grey iron barrel", "GG25").replace("cast aluminium high silicon", HIGH_SILICON)
}

const HIGH_SILICON: &str = "LM13";

#[test]
fn a_bush_that_follows_its_iron_is_tighter() {
    let it = fitted(BUSH);
    agrees("0.0500", value(&it, "clearance"));
    agrees("0.0103", doubt(&it, "clearance"));
    agrees("0.0538", value(&it, "clearance_running"));
    agrees("0.0118", doubt(&it, "clearance_running"));
    agrees("0.0462", value(&it, "clearance_following"));
    agrees("0.0112", doubt(&it, "clearance_following"));
    for check in ["clearance", "running", "can-be-measured", "fit-runs", "clearance-given", "doubts-known"] {
        assert_eq!(verdict(&it, check), Verdict::Proven, "{check}");
    }
    let aluminium = fitted(&with(BUSH, "carried-by: grey iron barrel", "carried-by: cast aluminium"));
    agrees("0.0574", value(&aluminium, "clearance_following"));
}

#[test]
fn a_piston_in_its_bore() {
    let it = fitted(PISTON);
    agrees("0.09525", value(&it, "clearance"));
    agrees("0.00856", doubt(&it, "clearance"));
    agrees("0.0239", value(&it, "clearance_running"));
    agrees("0.0199", doubt(&it, "clearance_running"));
    agrees("148.3", value(&it, "temperature_of_seizing"));
    assert_eq!(verdict(&it, "running"), Verdict::Proven);
    assert_eq!(verdict(&it, "can-be-measured"), Verdict::Proven);
}

/// Proven cold and seized hot; the metal of another alloy; a shaft alone warm; the two expansions swapped.
#[test]
fn a_slip_in_warmth_or_metal_gives_what_the_page_says() {
    let hot = fitted(&with(PISTON, "shaft: 130 degC", "shaft: 150 degC"));
    agrees("-0.0023", value(&hot, "clearance_running"));
    assert_eq!((verdict(&hot, "clearance"), verdict(&hot, "running")), (Verdict::Proven, Verdict::Fails));
    assert_eq!(hot.verdict, Verdict::Fails, "it would seize");
    let other = fitted(&with(PISTON, "shaft-material: cast aluminium high silicon", "shaft-material: cast aluminium"));
    agrees("0.0055", value(&other, "clearance_running"));
    assert_eq!(verdict(&other, "running"), Verdict::Doubtful);
    let cold_bush = fitted(&with(BUSH, "running: {bore: 60 degC", "running: {bore: 20 degC"));
    agrees("0.0354", value(&cold_bush, "clearance_running"));
    let swapped = with(PISTON, "bore-material: grey iron barrel", "bore-material: SWAP");
    let swapped = with(&swapped, "shaft-material: cast aluminium high silicon", "shaft-material: grey iron barrel");
    let swapped = fitted(&with(&swapped, "SWAP", "cast aluminium high silicon"));
    assert_abs_diff_eq!(value(&swapped, "clearance_running"), 0.1466, epsilon = 0.0005);
}

/// A plastic bush that iron holds has no way to grow but into its bore: 2 × 5 × (80 - 11.5) × 60 × (1 + nu) / (1 - nu), in
/// millionths; one whose wall nobody measured is never proven, and a thicker wall leaves less.
#[test]
fn a_held_bush_grows_into_its_own_bore() {
    let nylon = |wall: &str| {
        let job =
            with(&with(BUSH, "phosphor bronze", "nylon"), "25.012", "25.110").replace("0.030 .. 0.080", "0.10 .. 0.40");
        fitted(&with(
            &job,
            "{bore: 60 degC, shaft: 70 degC}",
            &format!("{{bore: 80 degC, shaft: 80 degC}}\n          least-running: 0.05 mm{wall}"),
        ))
    };
    let wall = |mm: &str| nylon(&format!("\n          bush-wall: {mm} mm"));
    let unsaid = nylon("");
    assert!(value(&unsaid, "clearance_following") > 0.12);
    assert_eq!((verdict(&unsaid, "running"), unsaid.verdict), (Verdict::Doubtful, Verdict::Doubtful));
    assert_eq!(verdict(&wall("5"), "running"), Verdict::Fails, "{}", value(&wall("5"), "clearance_following"));
    let left = |mm: &str| value(&wall(mm), "clearance_following");
    assert!(left("1") < value(&unsaid, "clearance_following") && left("3") < left("1"));
    let bronze = |more: &str| {
        value(
            &fitted(&with(BUSH, "carried-by: grey iron barrel\n", &format!("carried-by: grey iron barrel\n{more}"))),
            "clearance_following",
        )
    };
    let thick = bronze("          bush-wall: 3 mm\n");
    assert!(thick < bronze("") && thick > bronze("") - 0.005, "{thick}");
}

/// An interference is no running fit, whether it was asked for or measured.
#[test]
fn an_interference_does_not_run() {
    let asked = fitted(&with(BUSH, "clearance: 0.030 .. 0.080 mm", "clearance: 25 H7/p6"));
    assert_eq!(verdict(&asked, "fit-runs"), Verdict::Fails);
    let runs = fitted(&with(BUSH, "clearance: 0.030 .. 0.080 mm", "clearance: 25 H8/e8"));
    assert_eq!(verdict(&runs, "fit-runs"), Verdict::Proven);
    let tight = fitted(
        &with(BUSH, "shaft: {size: 24.962 mm", "shaft: {size: 25.020 mm")
            .replace("micrometer 0-25", "micrometer 25-50"),
    );
    assert_eq!((verdict(&tight, "fit-runs"), tight.verdict), (Verdict::Fails, Verdict::Fails));
    assert!(value(&tight, "clearance") < 0.0);
    // A fit of another size is a slip: 250 typed for 25 allows ten times what was meant.
    for other in ["250 H7/f7", "28 H7/f7"] {
        let slip = named(&with(BUSH, "clearance: 0.030 .. 0.080 mm", &format!("clearance: {other}")));
        assert!(try_plan(&slip, Some(&owned())).is_err(), "{other}");
    }
    // How little it may be does not say that it may be any amount.
    let loose = with(PISTON, "bore: 120 degC, shaft: 130 degC", "bore: 400 degC, shaft: 130 degC");
    assert_ne!(verdict(&fitted(&loose), "running"), Verdict::Proven);
    let hole_alone = named(&with(BUSH, "clearance: 0.030 .. 0.080 mm", "clearance: 25 H7"));
    assert!(try_plan(&hole_alone, Some(&owned())).is_err());
}

/// What is missing never makes it better.
#[test]
fn what_is_missing_betters_nothing() {
    let without = |line: &str| fitted(&with(BUSH, line, ""));
    let open = without("          clearance: 0.030 .. 0.080 mm\n");
    assert_eq!(verdict(&open, "clearance-given"), Verdict::Doubtful);
    assert_ne!(open.verdict, Verdict::Proven);
    // Two metals that nobody named are not taken for one.
    let unnamed = without("          shaft-material: mild steel\n");
    assert_eq!(state(&unnamed, "running"), Outcome::NotChecked);
    assert_ne!(unnamed.verdict, Verdict::Proven);
    let cold =
        with(BUSH, "          running: {bore: 60 degC, shaft: 70 degC}\n          carried-by: grey iron barrel\n", "");
    assert_eq!(state(&fitted(&cold), "running"), Outcome::NotChecked, "bronze on steel");
    let alike = with(&cold, "shaft-material: mild steel", "shaft-material: phosphor bronze");
    assert_eq!(state(&fitted(&alike), "running"), Outcome::NotChecked, "a bush grows by what carries it");
    let boss = with(&cold, "    material: phosphor bronze\n", "    material: mild steel\n");
    assert_eq!(state(&fitted(&boss), "running"), Outcome::DoesNotApply);
    // A bush is carried by something: of what nobody said is not known.
    let free = fitted(&with(BUSH, "          carried-by: grey iron barrel\n", ""));
    assert_eq!((verdict(&free, "running"), fitted(BUSH).verdict), (Verdict::Doubtful, Verdict::Proven));
    let least = fitted(&with(PISTON, "          least-running: 0 mm\n", ""));
    assert_eq!(verdict(&least, "running"), Verdict::Fails, "the limits hold then");
    // A shop that nobody knows has no instrument.
    assert_ne!(first(&plan(&named(BUSH), None)).verdict, Verdict::Proven);
    let silent = fitted(&with(BUSH, "{size: 24.962 mm, with: micrometer 0-25}", "24.962 mm"));
    assert_eq!(verdict(&silent, "doubts-known"), Verdict::Doubtful);
}

/// A wider doubt never betters a verdict, a hotter shaft never either.
#[test]
fn a_worse_reading_betters_nothing() {
    let mut last = Verdict::Proven;
    for doubt in 2..20 {
        let job = with(BUSH, "{size: 25.012 mm, with: bore gauge}", &format!("25.012 ± 0.{:03} mm", 2 * doubt));
        let now = fitted(&job).verdict;
        assert!(now >= last, "{doubt}");
        last = now;
    }
    assert_ne!(last, Verdict::Proven);
    let mut last = Verdict::Proven;
    for warmer in 0..10 {
        let now =
            verdict(&fitted(&with(PISTON, "shaft: 130 degC", &format!("shaft: {} degC", 130 + 5 * warmer))), "running");
        assert!(now >= last, "{warmer}");
        last = now;
    }
    assert_eq!(last, Verdict::Fails);
}

/// What is read warm shrinks by its own metal, and not by that of the part that it runs in.
#[test]
fn a_shaft_that_is_read_warm_shrinks_by_its_own_metal() {
    let warm = fitted(&with(
        PISTON,
        "{size: 67.085 mm, with: micrometer 50-75}",
        "{size: 67.085 mm, with: micrometer 50-75, at: 38 degC, gauge-at: 20 degC}",
    ));
    assert_abs_diff_eq!(value(&warm, "shaft"), 67.085 * (1.0 - 19.5e-6 * 18.0), epsilon = 1e-6);
    let bore = fitted(&with(
        PISTON,
        "{size: 67.18025 mm, with: bore gauge}",
        "{size: 67.18025 mm, with: bore gauge, at: 38 degC, gauge-at: 20 degC}",
    ));
    assert_abs_diff_eq!(value(&bore, "bore"), 67.18025 * (1.0 - 10.8e-6 * 18.0), epsilon = 1e-6);
    let unnamed = with(BUSH, "          shaft-material: mild steel\n", "");
    let unnamed = with(&unnamed, "with: micrometer 0-25}", "with: micrometer 0-25, at: 30 degC}");
    let problems = try_plan(&named(&unnamed), Some(&owned())).expect_err("nobody knows what it shrinks");
    assert!(problems.iter().any(|problem| problem.says.contains("shaft-material")), "{problems:?}");
}

/// A bore that another operation makes is planned and not measured, until the log has it.
#[test]
fn a_bore_that_is_only_planned_proves_no_fit() {
    let made = "  - part: housing\n    material: GG25\n    operations:\n      - bore-hole: {present: 24.2 ± 0.05 mm, bore: 25.000 .. 25.021 mm, depth: 30 mm, \
                through: true, outside: 48.0 ± 0.1 mm, over-all: 30 ± 0.1 mm, finish: Ra 3.2 um, \
                hold: {in: soft-jaws, diameter: 48 mm, grip: 18 mm, overhang: 12 mm, true-within: 0.03 mm}}\n";
    let job =
        named(&(with(BUSH, "{size: 25.012 mm, with: bore gauge}", "{of: housing/bore-hole/diameter_after}") + made));
    let planned = plan(&job, Some(&owned()));
    let it = first(&planned);
    assert_eq!(verdict(it, "all-cuts-known"), Verdict::Doubtful);
    assert_ne!(it.verdict, Verdict::Proven);
    assert!(it.answer.set_ups[0].steps.iter().any(|step| step.id == "measure-the-cuts-first"));
    let logged = logged(&job, &[("housing", "bore-hole", "diameter_after", 25.012)]);
    assert_eq!(verdict(first(&logged), "all-cuts-known"), Verdict::Proven);
    assert!(!first(&logged).answer.set_ups[0].steps.iter().any(|step| step.id == "measure-the-cuts-first"));
}

/// The clearance as it was written down judges; where both readings give another, one of the three is wrong.
#[test]
fn a_clearance_that_was_written_down_is_held_against_both_readings() {
    let with_left = |left: f64| logged(&named(BUSH), &[("outrigger bush", "fit-up", "clearance", left)]);
    let near = with_left(0.052);
    agrees("0.052", value(first(&near), "clearance"));
    assert_eq!(verdict(first(&near), "clearance"), Verdict::Proven);
    let far = with_left(0.070);
    assert_eq!(verdict(first(&far), "clearance"), Verdict::Doubtful);
    assert_ne!(first(&far).verdict, Verdict::Proven);
    let tight = with_left(-0.004);
    assert_eq!(first(&tight).verdict, Verdict::Fails);
}

/// One fit in other words is the same fit.
#[test]
fn another_spelling_is_the_same_fit() {
    let usual = fitted(BUSH);
    for (from, to) in [
        ("clearance: 0.030 .. 0.080 mm", "clearance: 30 .. 80 um"),
        ("{size: 24.962 mm, with: micrometer 0-25}", "{size: 2.4962 cm, with: micrometer 0-25}"),
        ("{bore: 60 degC, shaft: 70 degC}", "{shaft: 70 degC, bore: 60 degC}"),
        ("carried-by: grey iron barrel", "carried-by: GG30"),
    ] {
        let other = fitted(&with(BUSH, from, to));
        assert_eq!(usual.verdict, other.verdict, "{to}");
        for key in ["clearance", "clearance_running", "clearance_following", "temperature_of_seizing"] {
            assert_abs_diff_eq!(value(&usual, key), value(&other, key), epsilon = 1e-9);
            assert_abs_diff_eq!(doubt(&usual, key), doubt(&other, key), epsilon = 1e-9);
        }
    }
}

/// The job with what its log holds: each figure ± 0.004 mm.
fn logged(job: &str, left: &[(&'static str, &'static str, &'static str, f64)]) -> setover::plan::Plan {
    let tree = setover::reading::Node::yaml(job, setover::proof::Place::start(0)).unwrap();
    let file = setover::job::JobFile::<setover::operations::Request>::read(tree).unwrap();
    let mut ledger = setover::job::Ledger::default();
    for (nth, (part, operation, key, size)) in (1..).zip(left) {
        let figure = setover::proof::Figure::as_left(*size, setover::quantity::Unit::Mm, 0.004, nth);
        ledger.leave(&setover::job::Address::of(part, operation), key, figure);
    }
    let cards = setover::plan::Cards::built_in(setover::operations::Request::WORDS.iter().copied()).unwrap();
    setover::plan::work(&file, Some(&owned()), &cards, ledger).unwrap()
}

/// Limits that any shaft in any bore would meet are a slip of size or unit; nothing left is nothing left, whatever was asked of it
/// when it runs; what is carried by a family of metals is judged by the worst of them.
#[test]
fn what_nobody_can_mean_proves_nothing() {
    let wide = fitted(&with(BUSH, "0.030 .. 0.080 mm", "0.030 .. 0.080 in"));
    assert_eq!(verdict(&wide, "clearance"), Verdict::Fails, "the least is wider than it is");
    let wide = fitted(&with(BUSH, "0.030 .. 0.080 mm", "0.001 .. 0.080 in"));
    assert_eq!((verdict(&wide, "clearance"), verdict(&wide, "fit-runs")), (Verdict::Proven, Verdict::Doubtful));
    assert_ne!(wide.verdict, Verdict::Proven);
    let hot =
        with(PISTON, "shaft: 130 degC", "shaft: 150 degC").replace("least-running: 0 mm", "least-running: -0.05 mm");
    assert_eq!(verdict(&fitted(&hot), "running"), Verdict::Fails, "below nothing it seizes");
    let family = fitted(&with(BUSH, "shaft-material: mild steel", "shaft-material: steel"));
    assert_ne!(family.verdict, Verdict::Proven);
    assert!(value(&family, "clearance_following") <= value(&fitted(BUSH), "clearance_following") + 1e-9);
    // The bore and the shaft in each other's place are no fit.
    let swapped = with(BUSH, "25.012 mm, with: bore gauge", "24.962 mm, with: bore gauge");
    assert_eq!(
        fitted(&with(&swapped, "24.962 mm, with: micrometer 0-25", "25.012 mm, with: micrometer 25-50")).verdict,
        Verdict::Fails
    );
    // No doubt at all is no better than a little.
    let sure = named(&with(BUSH, "{size: 25.012 mm, with: bore gauge}", "25.012 ± 0 mm"));
    if let Ok(sure) = try_plan(&sure, Some(&owned())) {
        assert_ne!(first(&sure).verdict, Verdict::Proven);
    }
}

/// Colder and hotter, tighter and wider: a shaft that grows never has more room, and a hotter bore in a metal that grows less never
/// proves what a cooler one does not.
#[test]
fn a_larger_shaft_and_a_colder_bore_have_less_room() {
    let room = |job: &str| value(&fitted(job), "clearance_following");
    let mut last = f64::INFINITY;
    for warm in [60, 50, 40, 30, 20, 0] {
        let now = room(&with(BUSH, "bore: 60 degC", &format!("bore: {warm} degC")));
        assert!(now < last, "{warm}");
        last = now;
    }
    let mut last = f64::INFINITY;
    for thou in 0..8 {
        let now = room(&with(BUSH, "24.962 mm", &format!("{:.3} mm", 24.962 + 0.002 * f64::from(thou))));
        assert!(now < last, "{thou}");
        last = now;
    }
}
