//! What holds between the operations of a job: order, sizes handed on, circles, pairs.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::*;
use setover::proof::{State, Verdict};

const FACE: &str = "      - face: {set-up: {name: NAME, feature: FEATURE}, outside: 52 mm, inside: 32 mm, length: LENGTH, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 52 mm, grip: 6 mm, overhang: 12 mm, true-within: 0.01 mm}, float: opens}\n";
const INSERT: &str = "      - thread-insert: {thread: M8, wall: 18.0 ± 0.3 mm, hole: blind, material: mild steel}\n";
const BUSH: &str = "      - ream-bush: {set-up: {name: NAME, feature: FEATURE}, housing: {bore: 20.010 ± 0.004 mm, outside: 40 mm, length: 20 mm, material: cast aluminium}, bush: {outside: 20.045 ± 0.004 mm, bore: 15.950 ± 0.004 mm, length: 20 mm, material: phosphor bronze}, shaft: 15.984 ± 0.003 mm, clearance: 1 .. 2 thou, by: handMORE}\n";

fn job(operations: &[String]) -> String {
    format!("job: Between\nparts:\n  - part: piece\n    material: mild steel\n    operations:\n{}", operations.concat())
}

fn face(name: &str, length: &str) -> String {
    FACE.replace("NAME", name).replace("FEATURE", "end").replace("LENGTH", length)
}

fn bush(name: &str, feature: &str, more: &str) -> String {
    BUSH.replace("NAME", name).replace("FEATURE", feature).replace("MORE", more)
}

#[test]
fn a_face_after_an_insert_is_questioned() {
    let wrong = in_shop(&job(&[INSERT.into(), face("end", "21.85 ± 0.01 mm").replace(", feature: end", "")]));
    assert_eq!(verdict(&wrong.operations[1], "order-of-operations"), Verdict::Doubtful);
    let right = in_shop(&job(&[face("end", "21.85 ± 0.01 mm").replace(", feature: end", ""), INSERT.into()]));
    assert!(right.operations.iter().all(|o| state(o, "order-of-operations") == State::DoesNotApply));
}

#[test]
fn an_oil_hole_drilled_into_a_bore_that_was_reamed_before_fails() {
    let oil = ", oil-holes: [{diameter: 3 mm, at: 10 mm}]";
    let wrong = in_shop(&job(&[bush("first", "bore", ""), bush("second", "bore", oil)]));
    assert_eq!(verdict(&wrong.operations[1], "order-of-operations"), Verdict::Fails);
    let apart = in_shop(&job(&[bush("first", "one bore", ""), bush("second", "another bore", oil)]));
    assert_eq!(state(&apart.operations[1], "order-of-operations"), State::DoesNotApply);
}

#[test]
fn one_operation_hands_its_size_to_another() {
    let plan =
        in_shop(&job(&[face("one end", "21.85 ± 0.01 mm"), face("other end", "{of: piece/one end/length_after}")]));
    let (first, second) = (&plan.operations[0], &plan.operations[1]);
    assert_eq!(value(second, "length"), value(first, "length_after"));
    assert!(doubt(second, "length_after") > doubt(first, "length_after"), "the doubt is handed on too");
}

#[test]
fn the_order_of_the_file_does_not_matter_for_sizes_handed_on() {
    let plan =
        in_shop(&job(&[face("other end", "{of: piece/one end/length_after}"), face("one end", "21.85 ± 0.01 mm")]));
    assert_eq!(value(&plan.operations[0], "length"), value(&plan.operations[1], "length_after"));
}

#[test]
fn a_circle_is_reported_with_its_members() {
    let circle = job(&[face("a", "{of: piece/b/length_after}"), face("b", "{of: piece/a/length_after}")]);
    let problems = try_plan(&circle, None).expect_err("a circle");
    assert!(
        problems.iter().any(|p| p.says.contains("piece/a needs piece/b needs piece/a") && p.place.is_some()),
        "{problems:#?}"
    );
}

#[test]
fn an_address_that_nobody_has_is_placed_and_the_near_one_named() {
    let problems = try_plan(&job(&[face("a", "{of: piece/a/lenght_after}")]), None).expect_err("no such value");
    assert!(problems.iter().any(|p| p.says.contains("length_after") && p.place.is_some()), "{problems:#?}");
    let problems = try_plan(&job(&[face("a", "{of: pice/a/length_after}")]), None).expect_err("no such part");
    assert!(problems.iter().any(|p| p.says.contains("did you mean `piece/a`")), "{problems:#?}");
}

#[test]
fn two_operations_may_not_share_an_address() {
    let problems =
        try_plan(&job(&[face("a", "21.85 ± 0.01 mm"), face("a", "21.85 ± 0.01 mm")]), None).expect_err("twice");
    assert!(problems.iter().any(|p| p.says.contains("two operations have the address")), "{problems:#?}");
}
