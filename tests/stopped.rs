//! Sheets that stop the work, and what is drawn of a state: the word of the stamp by where the work is done, no size to be made in
//! the sketch, the reading that would prove it, no metal where a hole is.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::laws::texts;
use setover::drawing::Item;
use setover::operations::SetUp;
use setover::plan::Plan;
use setover::proof::Verdict;
use setover::sheet::layout;
use setover::sheet::page::Page;

fn plan(material: &str, operation: &str) -> Plan {
    let head = "job: Stopped\nparts:\n  - part: pulley of the winch\n";
    common::in_shop(&format!("{head}    material: {material}\n    operations:\n      - {operation}\n"))
}

fn pages(plan: &Plan) -> Vec<Page> {
    layout::pages(std::slice::from_ref(plan)).expect("pages")
}

fn said(page: &Page, area: &str) -> String {
    texts(page, area).iter().map(|text| text.text.as_str()).collect::<Vec<_>>().join(" ")
}

#[test]
fn what_is_fitted_and_not_cut_is_not_to_be_fitted() {
    let refused = plan("GG25", "warm: {bore: 40.00 mm, outside: 40.30 mm, length: 20 mm}");
    assert!(common::first(&refused).answer.refused.is_some(), "it has no `to`");
    assert!(said(&pages(&refused)[0], "stamp").starts_with("DO NOT FIT"), "{}", said(&pages(&refused)[0], "stamp"));
}

const TURN: &str = "turn: {present: 60.0 ± 0.1 mm, outside: 50.00 ± 0.02 mm, length: 30 ± 0.1 mm, over-all: 120 mm, finish: Ra 3.2 um, \
    hold: {in: jaws, diameter: 60 mm, grip: 8 mm, overhang: 112 mm, stop: none, nipped: light}}";

#[test]
fn no_size_to_be_made_stands_in_the_sketch_of_what_must_not_be_cut() {
    let plan = plan("GG25", TURN);
    assert_eq!(common::first(&plan).verdict, Verdict::Fails);
    let sketch = said(&pages(&plan)[0], "sketch");
    for size in ["50.0", "30.0", "49.98", "50.02", "29.9", "30.1"] {
        assert!(!sketch.contains(size), "{size}: {sketch}");
    }
    assert!(sketch.contains("grip"), "what fails stays: {sketch}");
}

#[test]
fn a_hole_that_comes_through_says_which_wall_would_prove_it() {
    let plan = plan(
        "GG25",
        "drill: {diameter: 8 mm, wall: 14.0 ± 0.3 mm, depth: 12 mm, starts-on: flat, edge: 14.0 ± 0.2 mm, \
         hold: {in: vice, diameter: 40 mm, grip: 12 mm, overhang: 6 mm, tested: 30 N·m}}",
    );
    assert_eq!(common::first(&plan).verdict, Verdict::Fails);
    let ways = said(&pages(&plan)[0], "ways out");
    let again = ways.split_once("Measure again").unwrap_or_else(|| panic!("{ways}")).1;
    let least = again.split_once("at least ").unwrap_or_else(|| panic!("{again}")).1;
    let least: f64 = least.split_whitespace().next().unwrap().parse().unwrap();
    let needed = common::first(&plan).answer.value("wall_needed").unwrap().number;
    assert!(least >= needed - 0.3 && least > 14.0 && least < 25.0, "{least}, {needed}: {again}");
}

/// The insert of a set-up that must not be begun is not drawn in the hole that broke through.
#[test]
fn what_must_not_be_made_is_not_drawn_as_made() {
    let job = common::with(include_str!("fixtures/thread-insert.yaml"), "wall: 18.0", "wall: 14.0");
    let plan = common::in_shop(&job);
    assert_eq!(common::first(&plan).verdict, Verdict::Fails);
    let pages = pages(&plan);
    assert!(pages.len() > 1 && said(&pages[0], "sketch").contains("Scale"), "what fails is drawn");
    assert_eq!(said(&pages[1], "sketch"), "No sketch: this must not be made.");
}

const BUSH: &str = include_str!("../examples/ream-bush.yaml");
const OILWAY: &str = "oilway: {diameter: 5.0 ± 0.1 mm, at: 10.2 ± 0.2 mm, depth: 18 ± 0.5 mm, open: both-ends}, ";

fn oil_holes(job: &str) -> SetUp<String> {
    let plan = common::in_shop(job);
    let set_ups = &common::first(&plan).answer.set_ups;
    set_ups.iter().find(|set_up| set_up.id == "drill-oil-holes").expect("oil holes").clone()
}

/// How far from the axis, which lies level, what is cut away and what is hollow reach.
fn reach(set_up: &SetUp<String>, hollow: bool) -> f64 {
    let outlines = set_up.sketch.items.iter().filter_map(|item| match item {
        Item::CutAway(outline) if !hollow => Some(outline),
        Item::Void(outline) if hollow => Some(outline),
        _ => None,
    });
    outlines.flatten().map(|point| point.y.abs()).fold(0.0, f64::max)
}

/// The housing is 40 over all, the bush 20.
#[test]
fn metal_is_drilled_only_where_there_is_metal() {
    let down_an_oilway = oil_holes(BUSH);
    assert!(reach(&down_an_oilway, false) < 10.1, "the oilway is there before: {}", reach(&down_an_oilway, false));
    assert!((reach(&down_an_oilway, true) - 20.0).abs() < 1e-6, "and is drawn");
    let without = oil_holes(&common::with(BUSH, OILWAY, ""));
    assert!((reach(&without, false) - 20.0).abs() < 1e-6, "nobody spoke of an oilway: the housing is drilled too");
}

/// The picture of the fit stands under the steps that measure for it.
#[test]
fn the_fit_is_shown_where_it_is_measured() {
    let page = &pages(&common::in_shop(BUSH))[0];
    assert!(said(page, "cuts").contains("bush outside"), "{}", said(page, "cuts"));
}
