//! What a job may say of its sizes and what is refused at its place: units, doubts, limits, hardness, names of others.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::*;
use setover::proof::{Outcome, Verdict};
use setover::reading::Problem;

const FACE: &str = include_str!("../examples/face.yaml");
const SKIM: &str = include_str!("../examples/skim.yaml");
const BUSH: &str = include_str!("../examples/ream-bush.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");

/// The problems of a job that must have some, each at its place.
#[track_caller]
fn problems(job: &str) -> Vec<Problem> {
    let Err(all) = try_plan(job, Some(&shop(SHOP))) else { panic!("nothing is wrong in {job}") };
    assert!(all.iter().all(|problem| problem.place.is_some()), "without a place: {all:#?}");
    all
}

/// One problem that says so, on the line of a piece of the job.
#[track_caller]
fn refused(job: &str, piece: &str, says: &str) {
    let all = problems(job);
    let line = job.lines().position(|line| line.contains(piece)).unwrap_or_else(|| panic!("no {piece}")) as u32 + 1;
    let found = all.iter().any(|p| p.says.contains(says) && p.place.is_some_and(|place| place.line == line));
    assert!(found, "no `{says}` in line {line}: {all:#?}");
}

/// The line of a job that a key of the first operation stands in, with another value.
#[track_caller]
fn keyed(job: &str, key: &str, value: &str) -> String {
    let head = format!("{key}: ");
    let mut found = false;
    let lines = job.lines().map(|line| match line.trim_start().strip_prefix(&head) {
        Some(_) => {
            found = true;
            format!("{}{head}{value}", " ".repeat(line.len() - line.trim_start().len()))
        }
        None => line.to_owned(),
    });
    let changed = lines.collect::<Vec<_>>().join("\n");
    assert!(found, "no line of {key}");
    changed
}

/// A job with a key added to its first operation.
fn with_key(job: &str, key: &str, value: &str) -> String {
    let mut lines: Vec<String> = job.lines().map(str::to_owned).collect();
    let at = lines.iter().position(|line| line.trim_start().starts_with("operations:")).expect("operations") + 2;
    let indent = lines[at].len() - lines[at].trim_start().len();
    lines.insert(at, format!("{}{key}: {value}", " ".repeat(indent)));
    lines.join("\n")
}

#[test]
fn a_hardness_off_its_scale_is_an_error_at_its_place() {
    let of = |hardness: &str| with(FACE, "hardness: 60 HRC", &format!("hardness: {hardness}"));
    for bad in ["95 HRC", "590 HRC", "19.9 HRC", "6 HRC", "70.5 HRC", "19 HB", "700 HB", "15 HV", "1250 HV"] {
        refused(&of(bad), bad, "is off the scale");
    }
    for good in ["20 HRC", "70 HRC", "650 HB", "20 HV", "1200 HV"] {
        assert!(try_plan(&of(good), Some(&shop(SHOP))).is_ok(), "{good}");
    }
    refused(&of("60"), "hardness: 60", "hardness with its scale");
}

#[test]
fn a_second_unit_is_an_error_at_its_place() {
    refused(&keyed(INSERT, "wall", "18 in mm"), "18 in mm", "one size has one unit");
    refused(&keyed(INSERT, "wall", "0.7 in thou"), "0.7 in thou", "one size has one unit");
    refused(&keyed(INSERT, "wall", "18.0 ± 0.3 in mm"), "0.3 in mm", "one size has one unit");
    refused(&keyed(FACE, "outside", "52 mm in"), "52 mm in", "one size has one unit");
    refused(&keyed(FACE, "finish", "Ra 1.6 um uin"), "1.6 um uin", "one size has one unit");
    refused(&keyed(INSERT, "wall", "18"), "wall: 18", "needs its unit");
}

/// Every measured key of the four operations and of the part.
const MEASURED: &[(&str, &str)] = &[
    (FACE, "length"),
    (FACE, "wear"),
    (FACE, "as-found-float"),
    (FACE, "removed-before"),
    (SKIM, "length"),
    (SKIM, "wear"),
    (SKIM, "dish"),
    (SKIM, "removed-before"),
    (BUSH, "shaft"),
    (INSERT, "wall"),
    (INSERT, "beyond"),
    (INSERT, "present-hole"),
    (INSERT, "present-depth"),
    (INSERT, "edge"),
];

/// The job with the key at that value, added where the example has it not.
fn at(job: &str, key: &str, value: &str) -> String {
    let has = job.lines().any(|line| line.trim_start().starts_with(&format!("{key}: ")));
    if has { keyed(job, key, value) } else { with_key(job, key, value) }
}

#[test]
fn limits_on_a_measured_key_are_errors_at_their_place() {
    for (job, key) in MEASURED {
        for value in ["5.0 +0.1/-0.05 mm", "5.0 .. 5.2 mm", "5 +0.1/-0 mm"] {
            refused(&at(job, key, value), &format!("{key}: {value}"), "this is measured");
        }
        refused(&at(job, key, "{size: 5.0 .. 5.2 mm, with: micrometer}"), "5.0 .. 5.2", "this is measured");
    }
    let case =
        with(FACE, "material: case-hardened steel", "case-depth: 1.0 .. 1.2 mm\n    material: case-hardened steel");
    let case = case.replacen("case-depth: 1.0 .. 1.2 mm", "case-depth-total: 1.0 .. 1.2 mm", 1);
    refused(&case, "1.0 .. 1.2 mm", "this is measured");
}

#[test]
fn a_doubt_on_a_nominal_key_is_an_error_at_its_place() {
    for value in ["52 ± 0.1 mm", "52 +0.1/-0 mm", "52 .. 53 mm"] {
        refused(&keyed(FACE, "outside", value), value, "one plain figure is wanted here");
    }
}

#[test]
fn a_doubt_of_half_the_size_is_no_reading() {
    for (job, key, value) in [
        (FACE, "length", "21.85 ± 50 mm"),
        (INSERT, "wall", "3.00 ± 100 mm"),
        (INSERT, "wall", "18 ± 9 mm"),
        (INSERT, "edge", "14 ± 7.1 mm"),
        (INSERT, "present-hole", "8.0 ± 4 mm"),
        (INSERT, "wall", "{size: 18 ± 9 mm, with: micrometer}"),
        (INSERT, "wall", "± 0.2 mm"),
        (BUSH, "shaft", "15.984 ± 8 mm"),
    ] {
        refused(&at(job, key, value), &format!("{key}: {value}"), "half the size");
    }
    refused(&keyed(INSERT, "wall", "18 ± 0 mm"), "18 ± 0 mm", "no reading is without doubt");
    let case = with(FACE, "case-depth: ", "case-depth: 1.0 ± 0.6 mm #");
    refused(&case, "1.0 ± 0.6 mm", "half the size");
}

/// The verdict on the doubts of the readings of a job's first operation.
fn plausible(job: &str) -> Outcome {
    state(first(&in_shop(job)), "doubt-plausible")
}

#[test]
fn a_doubt_over_a_tenth_of_the_size_is_doubtful() {
    assert_eq!(plausible(&at(INSERT, "wall", "18 ± 1.8 mm")), Outcome::Made(Verdict::Proven));
    assert_eq!(plausible(&at(INSERT, "wall", "18 ± 1.9 mm")), Outcome::Made(Verdict::Doubtful));
    assert_eq!(plausible(&at(INSERT, "wall", "18 ± 8.9 mm")), Outcome::Made(Verdict::Doubtful));
    assert_eq!(plausible(&at(INSERT, "edge", "14 ± 2 mm")), Outcome::Made(Verdict::Doubtful));
}

#[test]
fn the_doubt_of_an_instrument_and_of_a_default_are_held_to_the_same() {
    // A rule of ± 0.5 mm on a wall of 4 mm is over a tenth; on a wall of 0.9 mm over the half.
    let coarse = SHOP.replace(
        "instruments:",
        "instruments:\n  - {name: old rule, kind: steel rule, from: 0 mm, to: 300 mm, uncertainty: 0.5 mm}",
    );
    let coarse = match setover::reading::Node::yaml(&coarse, setover::proof::Place::start(1))
        .map_err(|p| vec![p])
        .and_then(setover::reading::Node::read::<setover::shop::Shop>)
    {
        Ok(shop) => shop,
        Err(all) => panic!("{all:#?}"),
    };
    let of = |value: &str| plan(&at(INSERT, "edge", value), Some(&coarse));
    assert_eq!(state(first(&of("{size: 14 mm, with: old rule}")), "doubt-plausible"), Outcome::Made(Verdict::Proven));
    assert_eq!(
        state(first(&of("{size: 4.5 mm, with: old rule}")), "doubt-plausible"),
        Outcome::Made(Verdict::Doubtful)
    );
    let none = of("{size: 0.9 mm, with: old rule}");
    assert_eq!(first(&none).verdict, Verdict::Fails);
    assert!(
        first(&none)
            .answer
            .refused
            .as_ref()
            .is_some_and(|why| why.to_string().contains("edge") && why.to_string().contains("no reading"))
    );
    // Nobody named an instrument: half a unit of the last digit typed.
    let half = |value: &str| plan(&at(INSERT, "edge", value), None);
    assert_eq!(state(first(&half("6 mm")), "doubt-plausible"), Outcome::Made(Verdict::Proven));
    assert_eq!(state(first(&half("4 mm")), "doubt-plausible"), Outcome::Made(Verdict::Doubtful));
    assert!(first(&half("1 mm")).answer.refused.is_some(), "half a millimetre on one is no reading");
}

#[test]
fn a_difference_may_be_doubted_by_its_own_size_but_never_by_a_millimetre() {
    let skim = |dish: &str| at(SKIM, "dish", dish);
    assert_eq!(plausible(&skim("0.08 ± 0.03 mm")), Outcome::Made(Verdict::Proven));
    assert_eq!(plausible(&skim("0.08 ± 0.09 mm")), Outcome::Made(Verdict::Doubtful));
    for (job, key) in
        [(FACE, "wear"), (SKIM, "wear"), (SKIM, "dish"), (FACE, "removed-before"), (FACE, "as-found-float")]
    {
        for value in ["0.25 ± 1 mm", "0.25 ± 50 mm", "3.0 ± 1.0 mm"] {
            refused(&at(job, key, value), &format!("{key}: {value}"), "leaves nothing of such a difference");
        }
    }
}

const CHAIN: &str = "job: Chain
parts:
  - part: ring
    material: case-hardened steel
    hardness: 60 HRC
    case-depth: DEPTH
    operations:
      - face: {set-up: {name: first}, outside: 52 mm, inside: 32 mm, length: LENGTH, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 52 mm, grip: 6 mm, overhang: 12 mm, true-within: 0.01 mm}}
  - part: plug
    material: mild steel
    operations:
      - face: {set-up: {name: other}, outside: 52 mm, inside: 32 mm, length: OTHER, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 52 mm, grip: 6 mm, overhang: 12 mm, true-within: 0.01 mm}}
";

fn chain(depth: &str, length: &str, other: &str) -> String {
    CHAIN.replace("DEPTH", depth).replace("LENGTH", length).replace("OTHER", other)
}

const DEPTH: &str = "1.2 ± 0.05 mm";
const LENGTH: &str = "21.85 ± 0.01 mm";

#[test]
fn a_size_of_the_part_may_come_from_another_operation_also_a_later_one() {
    // The case of the ring is what a later part leaves, in value and doubt.
    let job = chain("{of: plug/other/removed}", LENGTH, LENGTH);
    let plan = in_shop(&job);
    assert_eq!(plan.operations[0].answer.refused, None);
    let taken = value(&plan.operations[1], "removed");
    let left = value(&plan.operations[0], "case_left");
    assert!((left - (taken - value(&plan.operations[0], "removed"))).abs() < 1e-9, "{left} of {taken}");
    // A forward reference of an operation.
    let plan = in_shop(&chain(DEPTH, "{of: plug/other/length_after}", LENGTH));
    assert_eq!(value(&plan.operations[0], "length"), value(&plan.operations[1], "length_after"));
    assert!(doubt(&plan.operations[0], "length") >= doubt(&plan.operations[1], "length_after"));
}

#[test]
fn a_circle_through_a_part_is_told_with_its_members() {
    for job in [
        chain("{of: plug/other/length_after}", LENGTH, "{of: ring/first/length_after}"),
        chain("{of: ring/first/removed}", LENGTH, LENGTH),
        chain(DEPTH, "{of: plug/other/length_after}", "{of: ring/first/length_after}"),
    ] {
        let all = problems(&job);
        let circle = all.iter().find(|p| p.says.contains("wait for each other in a circle")).expect("a circle");
        assert!(circle.says.contains("ring/first needs"), "{circle:?}");
    }
}

#[test]
fn an_address_of_a_part_that_nobody_has_is_placed_with_near_names() {
    refused(&chain("{of: plug/othr/removed}", LENGTH, LENGTH), "case-depth", "did you mean `plug/other`");
    refused(&chain("{of: plug/other/remved}", LENGTH, LENGTH), "case-depth", "did you mean `removed`");
    refused(&chain("{of: plug/other}", LENGTH, LENGTH), "case-depth", "`of` with part/operation/value");
    refused(&chain("{of: nonsense}", LENGTH, LENGTH), "case-depth", "is not an address");
    refused(&chain(DEPTH, LENGTH, "{of: rung/first/length_after}"), "name: other", "did you mean `ring/first`");
}

#[test]
fn an_instrument_that_the_shop_has_not_is_placed_with_near_names() {
    refused(&chain("{size: 1.2 mm, with: micrometr}", LENGTH, LENGTH), "case-depth", "did you mean `micrometer`");
    refused(
        &chain(DEPTH, "{size: 21.85 mm, with: abacus}", LENGTH),
        "name: first",
        "the shop has no instrument `abacus`",
    );
    refused(&chain(DEPTH, LENGTH, "{size: 21.85 mm, with: Micrometers}"), "name: other", "`micrometer`");
    assert!(
        try_plan(&chain(DEPTH, "{size: 21.85 mm, with: abacus}", LENGTH), None).is_ok_and(|p| !p.operations.is_empty())
    );
}

#[test]
fn a_job_without_an_operation_is_an_error_at_its_name() {
    for parts in [
        "parts: []",
        "parts:\n  - {part: a, operations: []}",
        "parts: [{part: a, operations: []}, {part: b, operations: []}]",
    ] {
        refused(&format!("job: Nothing\n{parts}\n"), "job: Nothing", "asks for no operation");
    }
}

#[test]
fn a_text_longer_than_any_is_an_error_at_its_place() {
    let long = |count: usize| "n".repeat(count);
    refused(&with(FACE, "part: distance piece", &format!("part: {}", long(20_001))), "part: nnn", "longer than any");
    refused(&with(FACE, "wear:", &format!("{}:", long(900))), "nnn", "there is no key");
    assert!(try_plan(&with(FACE, "part: distance piece", &format!("part: {}", long(20_000))), None).is_ok());
}

/// An instrument that was named but cannot have read the size lends it no small doubt: out of its range, or of another kind.
#[test]
fn what_an_instrument_cannot_have_read_is_doubtful() {
    let wall = |size: &str| keyed(INSERT, "wall", size);
    let state = |job: &str| plausible(job);
    assert_eq!(state(&wall("{size: 18.0 mm, with: depth gauge}")), Outcome::Made(Verdict::Proven));
    for with in ["lever indicator", "bore gauge"] {
        assert_eq!(
            state(&wall(&format!("{{size: 18.0 mm, with: {with}}}"))),
            Outcome::Made(Verdict::Doubtful),
            "{with}"
        );
    }
    assert_eq!(state(&wall("{size: 180 mm, with: depth gauge}")), Outcome::Made(Verdict::Doubtful), "beyond its range");
    let fit = include_str!("../examples/fit-up.yaml");
    let shaft =
        |with: &str| fit.replace("{size: 24.962 mm, with: micrometer}", &format!("{{size: 24.962 mm, with: {with}}}"));
    let fitted = |with: &str| common::plan(&shaft(with), Some(&common::shop(include_str!("../examples/shop.yaml"))));
    assert_eq!(verdict(first(&fitted("micrometer")), "doubt-plausible"), Verdict::Proven);
    for with in ["bore gauge", "lever indicator"] {
        assert_eq!(verdict(first(&fitted(with)), "doubt-plausible"), Verdict::Doubtful, "{with}");
        assert_ne!(first(&fitted(with)).verdict, Verdict::Proven, "{with}");
    }
    let turned = include_str!("../examples/set-true.yaml")
        .replace("reads: 0 -6 -19 -31 -36 -30 -18 -6 um", "reads: 0 -600 -1900 -3100 -3600 -3000 -1800 -600 um");
    let turned = common::plan(&turned, Some(&common::shop(include_str!("../examples/shop.yaml"))));
    assert_eq!(verdict(first(&turned), "doubt-plausible"), Verdict::Doubtful, "more than the indicator reaches");
}
