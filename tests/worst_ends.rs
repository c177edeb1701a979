//! Claims that must hold at the worst end of a doubt, and defaults that must not be silent.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::*;
use setover::operations::Target;
use setover::plan::Plan;
use setover::proof::Verdict;
use setover::quantity::Print;

const FACE: &str = include_str!("fixtures/face.yaml");
const SKIM: &str = include_str!("fixtures/skim.yaml");
const INSERT: &str = include_str!("fixtures/thread-insert.yaml");

fn with_float(wanted: &str) -> Plan {
    in_shop(&with(FACE, "bears: in-groove", &format!("bears: in-groove\n          float-wanted: {wanted}")))
}

fn chosen(plan: &Plan, name: &str) -> String {
    first(plan).answer.choices.iter().find(|c| c.name == name).expect(name).chosen.clone()
}

/// The float after the cut is 0.470 ± 0.024; the drawer has 0.10, 0.27 and 0.50.
#[test]
fn a_shim_is_judged_at_the_worst_end_of_the_float() {
    let within = with_float("0.15 .. 0.25 mm");
    assert_eq!(chosen(&within, "shim_taken"), "0.27 mm");
    let judged =
        |plan: &Plan| first(plan).answer.checks.iter().find(|f| f.id == "float-with-shim").unwrap().judged.unwrap();
    agrees("0.200", judged(&within).got);
    assert_eq!(verdict(first(&within), "float-with-shim"), Verdict::Proven);
    let at_the_limit = with_float("0.14 .. 0.20 mm");
    assert_eq!(verdict(first(&at_the_limit), "float-with-shim"), Verdict::Doubtful);
    let none_lands = with_float("0.05 .. 0.10 mm");
    assert_eq!(verdict(first(&none_lands), "shim-in-drawer"), Verdict::Doubtful);
    assert_eq!(first(&none_lands).answer.missing.len(), 1);
    agrees("0.075", value(first(&none_lands), "float_with_shim"));
}

/// The sheet's target is the float that is wanted, with the shim in, and a step fits it: what is foretold reaches over the limits with its
/// doubt.
#[test]
fn the_float_on_the_sheet_is_that_with_the_shim() {
    let within = with_float("0.15 .. 0.25 mm");
    let set_up = &first(&within).answer.set_ups[0];
    let blank = set_up.blanks.iter().find(|blank| blank.words.contains("float")).expect("a line");
    let said = |end: &setover::proof::Fact| end.said(None, Print::Metric);
    assert!(
        matches!(&blank.target, Some(Target::Between(low, high)) if said(low) == "0.150 mm" && said(high) == "0.250 mm"),
        "{blank:?}"
    );
    let step = set_up.steps.iter().find(|step| step.id == "fit-shim").expect("a step");
    assert!(step.words.contains("0.27 mm") && step.words.contains("0.150 to 0.250 mm"), "{}", step.words);
    let without = with_float("0.40 .. 0.54 mm");
    assert!(first(&without).answer.set_ups[0].steps.iter().all(|step| step.id != "fit-shim"));
    // Wider than the doubt allows on both sides: the nearer limit decides, whichever it is.
    let narrow = with_float("0.19 .. 0.21 mm");
    assert_eq!(verdict(first(&narrow), "float-with-shim"), Verdict::Doubtful);
}

#[test]
fn no_float_left_binds() {
    let closed = in_shop(&with(&with(FACE, "float: opens", "float: closes"), "0.42 ± 0.01", "0.05 ± 0.01"));
    assert_eq!(verdict(first(&closed), "float-left"), Verdict::Fails);
    let nearly = in_shop(&with(&with(FACE, "float: opens", "float: closes"), "0.42 ± 0.01", "0.06 ± 0.01"));
    assert_eq!(verdict(first(&nearly), "float-left"), Verdict::Doubtful);
}

#[test]
fn no_shim_is_a_choice_that_is_judged_too() {
    let plan = with_float("0.40 .. 0.54 mm");
    assert_eq!(chosen(&plan, "shim_taken"), "none");
    assert_eq!(verdict(first(&plan), "float-with-shim"), Verdict::Proven);
}

#[test]
fn a_tang_is_not_left_in_under_a_bolt_whose_reach_nobody_gave() {
    let job = with(&with(INSERT, ", reach: 8 mm", ""), "          tang: out", "");
    let plan = in_shop(&job);
    assert_eq!(state(first(&plan), "tang-clear"), setover::proof::Outcome::NotChecked);
    assert_eq!(first(&plan).verdict, Verdict::Doubtful);
    agrees("6.125", value(first(&plan), "reach_most_with_tang"));
    assert!(
        first(&plan).answer.assumed.iter().any(|a| a.starts_with("tang: it stays in")),
        "{:#?}",
        first(&plan).answer.assumed
    );
}

#[test]
fn an_old_hole_is_drilled_away_only_with_its_doubt() {
    assert_eq!(chosen(&in_shop(INSERT), "old_hole"), "drilled away");
    assert_eq!(chosen(&in_shop(&with(INSERT, "8.0 mm", "8 mm")), "old_hole"), "perhaps not drilled away");
    assert_eq!(
        chosen(&in_shop(&with(INSERT, "present-hole: 8.0 mm", "present-hole: 8.60 mm")), "old_hole"),
        "not drilled away"
    );
}

#[test]
fn a_step_cut_through_the_part_fails_and_one_cut_far_is_doubtful() {
    let cut = |amount: &str| in_shop(&with(SKIM, "cut: none", &format!("cut: {amount}")));
    assert_eq!(verdict(first(&cut("5 mm")), "step-left"), Verdict::Fails);
    assert_eq!(verdict(first(&cut("1 mm")), "step-left"), Verdict::Doubtful, "far more than the contact loses");
    assert_eq!(verdict(first(&cut("same")), "step-left"), Verdict::Proven);
}
