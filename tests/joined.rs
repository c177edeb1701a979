//! Joints, bores and faces beside each other, and the log: what one operation takes from what another goes by, of the same part or of one
//! that is bolted there. Each job here was proven as long as its operations were judged one by one.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{plan, plan_left, shop, with};
use crate::log_loop::Bench;
use serde_json::Value;
use setover::plan::Plan;
use setover::proof::Verdict;
use setover::quantity::Unit;
use std::process::Command;

macro_rules! job {
    ($name:literal) => {
        include_str!(concat!("joined/", $name, ".yaml"))
    };
}

/// The shop of the examples, with an outside micrometer and a spot-facer for larger work.
fn bench() -> String {
    let shop = include_str!("../examples/shop.yaml");
    let shop = with(
        shop,
        "instruments:\n",
        "instruments:\n  - {name: caliper 25-150, kind: outside micrometer, from: 25 mm, to: 150 mm, uncertainty: 8 um}\n",
    );
    with(
        &shop,
        "tools:\n",
        "tools:\n  - milling-cutter: {name: spot-facer 34, diameter: 34 mm, teeth: 4, material: HSS, flat-bottom: true}\n",
    )
}

fn in_shop(job: &str) -> Plan {
    plan(job, Some(&shop(&bench())))
}

fn verdict(plan: &Plan, at: usize, id: &str) -> Option<Verdict> {
    let check = plan.operations[at].answer.checks.iter().find(|check| check.id == id);
    check.and_then(|check| check.verdict()).filter(|verdict| *verdict != Verdict::Proven)
}

/// A job, the operation that is wrong by what another one does, the check that says so, and what is changed so that it is right.
type Wrong = (&'static str, usize, &'static str, Verdict, (&'static str, &'static str));

/// What stood beside each other, each proven alone.
const WRONG: &[Wrong] = &[
    // A bush that is bored away, or thin: what stays of it is no wall of bush and boss together.
    (
        job!("bush-bored-away"),
        1,
        "bush-left-standing",
        Verdict::Fails,
        ("bore: 24.15 .. 24.20 mm", "bore: 18.15 .. 18.20 mm"),
    ),
    (
        job!("bush-bored-away"),
        0,
        "bush-as-bored",
        Verdict::Doubtful,
        ("bore: 24.15 .. 24.20 mm", "bore: 18.15 .. 18.20 mm"),
    ),
    // A sleeve closes in as it is pressed: its bore is no more what it was before.
    (
        job!("sleeve-then-bush"),
        1,
        "size-there-yet",
        Verdict::Doubtful,
        ("bore: 24.010 ± 0.004 mm, outside: 30 mm", "bore: {of: cover/sleeve/bore_after_pressing}, outside: 30 mm"),
    ),
    // The metal under a face that is milled, whichever thickness is measured over that face.
    (
        job!("face-milled-over-insert"),
        1,
        "size-still-there",
        Verdict::Doubtful,
        ("removed: 1.3 mm", "removed: 0.02 mm"),
    ),
    (job!("face-milled-over-drill"), 1, "size-still-there", Verdict::Doubtful, ("removed: 1.3 mm", "removed: 0.02 mm")),
    // Brass shrinks on to its bush in nitrogen.
    (job!("joint-chilled"), 0, "joint-chilled-again", Verdict::Doubtful, ("coldest: 5 degC", "coldest: -200 degC")),
    // A boss that is milled on its side is as much thinner about its bore; what is left across it is no outside to go by.
    (job!("boss-milled"), 1, "size-still-there", Verdict::Doubtful, ("outside: 34 mm", "outside: 29.6 mm")),
    // A seat that is sunk about the bore shortens the joint.
    (
        job!("seat-about-bore"),
        1,
        "size-still-there",
        Verdict::Doubtful,
        ("length: 20 mm, finish", "length: 7.6 mm, finish"),
    ),
    // The old bush fills the hole.
    (
        job!("bored-before-it-is-out"),
        0,
        "size-there-yet",
        Verdict::Doubtful,
        ("{feature: main bore}\n          present", "{feature: other bore}\n          present"),
    ),
    // A bush that is faced is shorter, and its hole lies nearer to the end.
    (job!("bush-faced"), 1, "size-still-there", Verdict::Doubtful, ("length: 25 mm", "length: 22.6 mm")),
    // The warmth of one bush is not two.
    (job!("two-warmths"), 0, "joint-runs-warmer", Verdict::Doubtful, ("housing: 60 degC", "housing: 120 degC")),
];

#[test]
fn what_one_operation_takes_the_other_does_not_go_by() {
    let mut not_so = Vec::new();
    for (job, at, id, wanted, (from, to)) in WRONG {
        let wrong = in_shop(job);
        if verdict(&wrong, *at, id) != Some(*wanted) || wrong.operations[*at].verdict < *wanted {
            not_so.push(format!("{id} is {:?} in {job}", verdict(&wrong, *at, id)));
        }
        if verdict(&in_shop(&with(job, from, to)), *at, id).is_some() {
            not_so.push(format!("{id} stays with {to} in {job}"));
        }
    }
    assert!(not_so.is_empty(), "{}", not_so.join("\n"));
}

/// A sleeve and its bush come in either order, and by any name; two joints of one part that have nothing to do with each other stay two.
#[test]
fn the_order_and_the_names_of_a_sleeve_and_its_bush_are_no_way_out() {
    let (head, operations) = job!("sleeve-then-bush").split_once("      - press-in:").unwrap();
    let (sleeve, bush) = operations.split_once("      - ream-bush:").unwrap();
    let turned = format!("{head}      - ream-bush:{bush}      - press-in:{sleeve}");
    assert!(verdict(&in_shop(&turned), 0, "size-there-yet").is_some());
    let named = with(job!("sleeve-then-bush"), "{name: sleeve}", "{name: sleeve, feature: sleeve}");
    let named = with(&named, "- ream-bush:\n", "- ream-bush:\n          set-up: {feature: bush}\n");
    assert!(verdict(&in_shop(&named), 1, "size-there-yet").is_some());
    let another =
        with(job!("sleeve-then-bush"), "24.010 ± 0.004 mm, outside: 30 mm", "22.010 ± 0.004 mm, outside: 30 mm");
    let another = with(&another, "24.036", "22.036");
    assert_eq!(verdict(&in_shop(&another), 1, "size-there-yet"), None);
}

/// A bush of which nobody said that it is bored is judged as one that is not.
#[test]
fn a_bush_that_is_bored_says_so() {
    let thin = with(job!("bush-bored-away"), "bore: 24.15 .. 24.20 mm", "bore: 18.15 .. 18.20 mm");
    assert_eq!(verdict(&in_shop(&thin), 0, "bush-as-bored"), None);
    let unsaid = with(&thin, "          bored-after: true\n", "");
    assert_eq!(verdict(&in_shop(&unsaid), 0, "bush-as-bored"), Some(Verdict::Doubtful));
}

/// What a sheet accepts is what goes on from it: a polished shaft may be as thin as cloth may leave it.
#[test]
fn what_is_polished_is_handed_on_as_its_sheet_accepts_it() {
    let plan = in_shop(job!("polished-shaft"));
    let (low, high) = plan.operations[0].answer.value("diameter_after").unwrap().band.unwrap();
    assert!(low < 15.960 && (15.980..15.990).contains(&high), "{low} to {high}");
    assert_ne!(plan.operations[1].verdict, Verdict::Proven);
}

/// An outside at which all of the joint is proven drops in too.
#[test]
fn an_outside_that_proves_the_joint_drops_in() {
    let job = job!("outside-that-drops-in");
    let plan = in_shop(job);
    let most = plan.operations[1].answer.value("outside_most_proven").unwrap().number;
    let at = |outside: f64| with(job, "outside: 24.030 ± 0.002 mm", &format!("outside: {outside:.4} ± 0.002 mm"));
    assert_eq!(verdict(&in_shop(&at(most - 0.0001)), 1, "drops-in"), None, "{most}");
    assert!(verdict(&in_shop(&at(most + 0.0005)), 1, "drops-in").is_some(), "{most}");
}

/// Of a line each bush closes with its finished bore; one pass goes through both or through none.
#[test]
fn a_line_is_reamed_in_one_pass() {
    let plan = in_shop(job!("line-reamed"));
    let first = plan.operations[0].answer.set_ups.last().unwrap();
    assert_eq!(first.id, "drill-oil-holes");
    assert!(first.blanks.iter().any(|blank| blank.log.is_some_and(|line| line.key == "finish_bore" && line.closes)));
    let reamed = [("bore_after_pressing", 15.931, Unit::Mm, 0.004), ("finish_bore", 16.030, Unit::Mm, 0.004)];
    let plan = plan_left(job!("line-reamed"), &shop(&bench()), ("end case", "near"), &reamed);
    assert_eq!(verdict(&plan, 1, "in-line"), Some(Verdict::Doubtful), "the other is reamed already");
    let steps = plan.operations[1].answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    assert_eq!(steps.filter(|step| step.id == "pilot-in-the-other-bush").count(), 0, "no pilot in a reamed bore");
}

/// A bore that was left too small is reamed on, and no bush is thrown away for it.
#[test]
fn a_bore_that_is_too_small_is_not_too_large() {
    let said = |bore: f64| {
        let left = [("bore_after_pressing", 15.931, Unit::Mm, 0.004), ("finish_bore", bore, Unit::Mm, 0.004)];
        let plan = plan_left(job!("reamed-too-small"), &shop(&bench()), ("end case", "ream-bush"), &left);
        let checks = &plan.operations[0].answer.checks;
        let runs = checks.iter().find(|check| check.id == "fit-runs").unwrap();
        runs.remedies.iter().map(|remedy| remedy.words.clone()).collect::<Vec<_>>().join("; ")
    };
    let (small, large) = (said(15.92), said(16.10));
    assert!(small.contains("ream on") && !small.contains("another"), "{small}");
    assert!(!large.contains("ream on") && large.contains("another"), "{large}");
}

/// Files written beside the shop, and the JSON that the program gives of them.
fn json(command: &str, job: &str, log: &str) -> Value {
    let folder = tempfile::tempdir().unwrap();
    let write = |name: &str, text: &str| std::fs::write(folder.path().join(name), text).unwrap();
    write("shop.yaml", &bench());
    write("a.yaml", &with(job, "parts:\n", "shop: shop.yaml\nparts:\n"));
    write("a.log.yaml", log);
    let mut run = Command::new(env!("CARGO_BIN_EXE_setover"));
    let output = run.current_dir(folder.path()).args([command, "a.yaml", "--format", "json"]).output().expect("runs");
    serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{}", String::from_utf8_lossy(&output.stderr)))
}

/// Whether a check of an operation is not proven.
fn is_open(planned: &Value, at: usize, id: &str) -> bool {
    let checks = planned["operations"][at]["checks"].as_array().unwrap();
    checks.iter().any(|check| check["check"] == id && check["state"] != "proven")
}

/// A log that says otherwise than was typed proves nothing of it.
#[test]
fn what_was_left_otherwise_is_not_as_it_was_typed() {
    let shaft = (job!("shaft-logged-otherwise"), include_str!("joined/shaft-logged-otherwise.log.yaml"), 1);
    let bush = (job!("bush-logged-otherwise"), include_str!("joined/bush-logged-otherwise.log.yaml"), 1);
    for ((job, log, at), typed, left) in
        [(shaft, "15.984 ± 0.003 mm", "15.952 ± 0.002 mm"), (bush, "24.036 ± 0.004 mm", "24.022 ± 0.001 mm")]
    {
        assert!(is_open(&json("plan", job, ""), at, "size-still-there"), "planned: {job}");
        assert!(is_open(&json("plan", job, log), at, "size-still-there"), "logged: {job}");
        assert!(!is_open(&json("plan", &with(job, typed, left), log), at, "size-still-there"), "as it was left: {job}");
    }
}

/// A bore before the hone or the reamer is gone once that went through.
#[test]
fn a_size_on_the_way_to_another_is_none_to_go_on_from() {
    let reamed =
        (job!("fit-before-reaming"), include_str!("joined/fit-before-reaming.log.yaml"), "bore_after_pressing");
    let honed = (job!("fit-before-honing"), include_str!("joined/fit-before-honing.log.yaml"), "bored_size");
    for (job, log, before) in [reamed, honed] {
        assert!(is_open(&json("plan", job, log), 1, "size-still-there"), "{job}");
        let behind = with(job, before, "finish_bore");
        assert!(!is_open(&json("plan", &behind, log), 1, "size-still-there"), "{job}");
    }
    let (job, log, before) = reamed;
    let found = "    inspect:\n      - {feature: bush bore, found: {of: end case/ream-bush/FOUND}, service: at most 15.96 mm, remedies: [replace]}\n";
    let decided = |key: &str| {
        let of = with(
            job,
            "    material: cast aluminium\n",
            &format!("{}    material: cast aluminium\n", with(found, "FOUND", key)),
        );
        json("decide", &of, log)["rows"][0]["decision"].clone()
    };
    assert_eq!(decided("finish_bore"), "replace");
    assert_eq!(decided(before), "replace", "it is 16.030 mm by now");
}

/// Both ends of a collar, the second cut from what the first left: the gap goes by what is left in the end.
#[test]
fn what_goes_on_from_the_last_cut_goes_on_from_the_one_before() {
    let (job, log) = (job!("collar-both-ends"), include_str!("joined/collar-both-ends.log.yaml"));
    assert!(!is_open(&json("plan", job, log), 2, "size-still-there"));
    let before = with(
        job,
        "closes: {of: thrust collar/other end/length_after}",
        "closes: {of: thrust collar/one end/length_after}",
    );
    assert!(is_open(&json("plan", &before, log), 2, "size-still-there"), "the second end is cut behind that");
    // What is done went on from nothing that is still to come: the first end is cut behind it.
    let bench = Bench::of(job);
    bench.log(&["thrust collar/other end", "length_after=21.54 ± 0.004 mm"]);
    let said = bench.said(&["plan", "job.yaml", "--format", "json"]);
    assert!(is_open(&serde_json::from_str(&said).unwrap(), 2, "size-still-there"), "{said}");
}

/// What is measured of one bush of a line is none of the other.
#[test]
fn the_bushes_of_a_line_are_two() {
    let (job, log) = (job!("line-logged"), include_str!("joined/line-logged.log.yaml"));
    assert!(!is_open(&json("plan", job, log), 1, "log-stale"));
    let apart =
        job.replace("          line-with: end case/far\n", "").replace("          line-with: end case/near\n", "");
    assert!(is_open(&json("plan", &apart, log), 1, "log-stale"));
    let both = (job!("line-reamed"), include_str!("joined/line-reamed.log.yaml"));
    let planned = json("plan", both.0, both.1);
    let open = planned["operations"].as_array().unwrap().iter().filter(|own| own["verdict"] != "proven").count();
    assert_eq!(open, 0, "all four bores are known");
}

/// Of two bores in a line the stock is that of the larger, with the doubt of its reading once.
#[test]
fn the_doubt_of_the_other_bore_counts_once() {
    let job = job!("line-bored-apart");
    for at in [0, 1] {
        assert_eq!(verdict(&in_shop(job), at, "stock-least"), None, "{at}");
        let larger = with(job, "bore: 16.02 ± 0.004 mm", "bore: 16.027 ± 0.004 mm");
        assert!(verdict(&in_shop(&larger), at, "stock-least").is_some(), "{at}");
    }
}

/// A worse reading, an inch for a millimetre, a feature that nobody names: none of them is a way out.
#[test]
fn no_spelling_and_no_worse_reading_is_a_way_out() {
    for (job, at, id, wanted, _) in WRONG {
        let worse = job.replace("± 0.004 mm", "± 0.006 mm").replace("± 0.3 mm", "± 0.4 mm");
        assert!(verdict(&in_shop(&worse), *at, id) >= Some(*wanted), "{id} in {worse}");
    }
    for (job, at, id, typed, inches) in [
        (
            job!("sleeve-then-bush"),
            1,
            "size-there-yet",
            "bore: 24.010 ± 0.004 mm, outside: 30",
            "bore: 0.94528 ± 0.00016 in, outside: 30",
        ),
        (job!("boss-milled"), 1, "size-still-there", "outside: 34 mm", "outside: 1.3386 in"),
        (job!("bush-faced"), 1, "size-still-there", "length: 25 mm", "length: 0.9843 in"),
        (job!("seat-about-bore"), 1, "size-still-there", "          set-up: {name: bush, feature: main bore}\n", ""),
    ] {
        assert!(verdict(&in_shop(&with(job, typed, inches)), at, id).is_some(), "{id} with {inches} in {job}");
    }
}
