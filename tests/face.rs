//! `face`: a regression of the project's own worked example, its negative twins, facts of the trade, and what holds for every face.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;
use crate::seeds;

use common::{agrees, doubt, first, plan, shop, state, try_plan, value, verdict, with};
use proptest::prelude::*;
use setover::operations::{Pass, PassKind};
use setover::plan::Planned;
use setover::proof::{Outcome, Verdict, Weight};
use setover::quantity::Print;
use std::sync::LazyLock;

const JOB: &str = include_str!("fixtures/face.yaml");

/// The shop of the fixtures without its indicator: nothing reaches a face whose far side is hidden.
static SHOP: LazyLock<String> = LazyLock::new(|| {
    common::SHOP.lines().filter(|line| !line.contains("lever indicator")).map(|line| format!("{line}\n")).collect()
});

fn in_shop(job: &str) -> setover::plan::Plan {
    plan(job, Some(&shop(&SHOP)))
}

/// Every pass in working order.
fn passes(planned: &Planned) -> Vec<Pass> {
    let cuts = planned.answer.set_ups[0].steps.iter().filter_map(|step| step.cut.clone());
    // A trial cut is within the cut that it begins.
    cuts.flat_map(|cut| cut.passes).filter(|pass| pass.kind != PassKind::Trial).collect()
}

fn dials(planned: &Planned) -> Vec<String> {
    passes(planned).iter().map(|pass| pass.dial.as_ref().expect("a dial").said(Print::Metric)).collect()
}

/// The steps by their ids, in working order.
fn steps(planned: &Planned) -> Vec<&str> {
    planned.answer.set_ups[0].steps.iter().map(|step| step.id).collect()
}

fn tool(planned: &Planned) -> String {
    planned.answer.choices.iter().find(|choice| choice.name == "tool").expect("a tool").chosen.clone()
}

/// Why a tool was not taken.
fn why_not(planned: &Planned, tool: &str) -> String {
    let found = planned.answer.alternatives.iter().find(|alternative| alternative.name == tool).expect("worked");
    found.why_not.clone().expect("a reason")
}

fn in_other_shop(job: &str, from: &str, to: &str) -> setover::plan::Plan {
    plan(job, Some(&shop(&with(&SHOP, from, to))))
}

#[test]
fn regression_of_the_worked_example() {
    let plan = in_shop(JOB);
    let it = first(&plan);
    for (key, held) in [
        ("removed", "0.30"),
        ("length_after", "21.550"),
        ("case_left", "0.700"),
        ("least_depth", "0.133"),
        ("passes", "2"),
        ("speed_wanted", "90"),
        ("spindle_speed", "430"),
        ("surface_speed_outside", "70.25"),
        ("surface_speed_inside", "43.23"),
        ("surface_speed_mean", "56.74"),
        ("speed_share", "0.78"),
        ("feed", "0.05"),
        ("finish_expected", "0.73"),
        ("cutting_force", "137.8"),
        ("power_at_motor", "0.215"),
        ("torque", "3.58"),
        ("cuts", "2"),
        ("time_a_pass", "0.558"),
        ("time", "1.116"),
        ("relief_left", "0.30"),
        ("float_change_from_new", "0.30"),
        ("float_change_from_found", "0.05"),
        ("float_after", "0.47"),
        ("measuring_window", "0.0995"),
    ] {
        agrees(held, value(it, key));
    }
    agrees("0.014", doubt(it, "length_after"));
    agrees("0.1005", doubt(it, "case_left"));
    agrees("0.5995", value(it, "case_left") - doubt(it, "case_left"));
    let proven = [
        "case",
        "tool-hard-enough",
        "most-depth",
        "bite",
        "measured-between",
        "finish",
        "chuck-speed",
        "can-be-measured",
        "power",
        "square",
        "relief-gap-left",
        "float-left",
        "speed-share",
        "spindle-too-fast",
    ];
    for check in proven {
        assert_eq!(verdict(it, check), Verdict::Proven, "{check}");
    }
    let closed =
        ["least-length", "balance", "built-up-edge", "shim-possible", "float-with-shim", "shim-in-drawer", "never-cut"];
    for check in closed {
        assert_eq!(state(it, check), Outcome::DoesNotApply, "{check}");
    }
    assert_eq!(state(it, "relief-land"), Outcome::NotChecked);
    assert_eq!(it.verdict, Verdict::Proven);
    // Nothing but a page-long list of what was taken for granted may hide behind that: the wish is rounded down, not up.
    let revs = 1000.0 * 90.0 / (std::f64::consts::PI * 52.0);
    assert!((550.0..551.0).contains(&revs) && value(it, "spindle_speed") < revs);
}

#[test]
fn the_dial_of_every_pass_counts_from_the_touch() {
    let plan = in_shop(JOB);
    assert_eq!(dials(first(&plan)), ["top slide 0.160 mm (8 div)", "top slide 0.300 mm (15 div)"]);
    let kinds: Vec<PassKind> = passes(first(&plan)).iter().map(|pass| pass.kind).collect();
    assert_eq!(kinds, [PassKind::Rough, PassKind::Finish], "CBN takes no spring pass: it would only rub");
}

#[test]
fn a_slide_set_over_reads_more_than_the_depth() {
    let plan = in_other_shop(JOB, "per-turn: 2 mm, set-over: 0 deg", "per-turn: 2 mm, set-over: 30 deg");
    // A dial is set on a whole division: nine of them, of 0.02 mm along the slide each, are so much deep.
    let on = dials(first(&plan));
    assert!(on.iter().all(|dial| !dial.split_once('(').unwrap().1.contains('.')), "{on:?}");
    let last = on.last().unwrap().split(' ').nth(2).unwrap().parse::<f64>().unwrap();
    agrees(&format!("{:.4}", last * 30f64.to_radians().cos()), value(first(&plan), "removed"));
}

#[test]
fn whole_turns_are_counted() {
    let plan = in_other_shop(JOB, "division: 0.02 mm, per-turn: 2 mm", "division: 0.02 mm, per-turn: 0.2 mm");
    assert_eq!(dials(first(&plan))[1], "top slide 1 turn and 0.100 mm (5 div)");
}

#[test]
fn the_depth_never_goes_on_a_dial_that_counts_a_diameter() {
    let plan = in_other_shop(JOB, "{axis: top, division: 0.02 mm, per-turn: 2 mm, set-over: 0 deg}, ", "");
    let it = first(&plan);
    assert!(passes(it).iter().all(|pass| pass.dial.is_none()), "the cross dial reads diameter");
    let along = in_other_shop(
        JOB,
        "axis: top, division: 0.02 mm, per-turn: 2 mm, set-over: 0 deg",
        "axis: along, division: 0.05 mm",
    );
    assert_eq!(dials(first(&along)), ["carriage 0.150 mm (3 div)", "carriage 0.300 mm (6 div)"]);
}

#[test]
fn wear_is_not_taken_off_the_case_twice() {
    let plan = in_shop(JOB);
    let it = first(&plan);
    let twice = value(it, "case_left") - value(it, "wear");
    agrees("0.45", twice);
    // √(0.1² + 0.01² + 0.02²) with the wear's own doubt; at its worst end the twice-counted case would be under 0.5 and fail.
    assert!(twice - 0.1005 < 0.5 && (twice - 0.1005 - 0.349).abs() < 0.001);
    assert_eq!(verdict(it, "case"), Verdict::Proven);
}

#[test]
fn the_nose_rule_and_not_the_straight_edge_gives_the_force() {
    let plan = in_shop(JOB);
    let straight = 4700.0 * (0.05 * 95f64.to_radians().sin()).powf(-0.30) * 1.3 * 0.16 * 0.05;
    agrees("120.2", straight);
    assert!(straight < 0.88 * value(first(&plan), "cutting_force"));
}

#[test]
fn a_blunter_nose_bites_only_once() {
    let plan =
        in_other_shop(JOB, "name: cbn-02, material: CBN, nose: 0.2 mm", "name: cbn-02, material: CBN, nose: 0.4 mm");
    let it = first(&plan);
    agrees("0.267", value(it, "least_depth"));
    agrees("1", value(it, "passes"));
    assert_eq!(dials(it), ["top slide 0.300 mm (15 div)"]);
}

#[test]
fn float_from_new_and_float_from_found() {
    let of = |rides: &str| {
        let plan = in_shop(&with(JOB, "bears: in-groove", &format!("bears: {rides}\n          float-wanted: 0.20 mm")));
        let it = first(&plan);
        let taken =
            it.answer.choices.iter().find(|choice| choice.name == "shim_taken").map(|choice| choice.chosen.clone());
        (value(it, "float_change_from_found"), value(it, "float_after"), value(it, "shim"), taken)
    };
    let (change, after, shim, taken) = of("in-groove");
    agrees("0.05", change);
    agrees("0.47", after);
    agrees("0.27", shim);
    assert_eq!(taken.as_deref(), Some("0.27 mm"));
    // Had the washer bridged the groove, the float would open by all that is removed.
    let (change, after, shim, taken) = of("across");
    agrees("0.30", change);
    agrees("0.72", after);
    agrees("0.52", shim);
    assert_eq!(taken.as_deref(), Some("0.520 mm"), "no such shim in the drawer: to be found");
    let closes = in_shop(&with(JOB, "float: opens", "float: closes"));
    agrees("-0.30", value(first(&closes), "float_change_from_new"));
    agrees("-0.05", value(first(&closes), "float_change_from_found"));
}

#[test]
fn high_speed_steel_is_refused_on_a_hard_part_and_carbide_warned() {
    let without = |tools: &[&str]| {
        let keep = |line: &&str| !tools.iter().any(|tool| line.contains(&format!("name: {tool},")));
        let shop_text: String = SHOP.lines().filter(keep).map(|line| format!("{line}\n")).collect();
        plan(&with(JOB, "          tool: cbn-02\n", ""), Some(&shop(&shop_text)))
    };
    let free = without(&[]);
    assert_eq!(tool(first(&free)), "cbn-02", "carbide that is doubtful stands behind CBN that is not, however quick");
    let carbide = without(&["cbn-02"]);
    assert_eq!(verdict(first(&carbide), "tool-hard-enough"), Verdict::Doubtful);
    assert!(value(first(&carbide), "spindle_speed") > 0.0);
    let steel = without(&["cbn-02", "carbide-04"]);
    let it = first(&steel);
    assert_eq!(verdict(it, "tool-hard-enough"), Verdict::Fails);
    assert_eq!(it.verdict, Verdict::Fails);
    assert!(
        it.answer.refused.is_none() && value(it, "removed") > 0.0 && value(it, "spindle_speed") > 0.0,
        "figures still given"
    );
    assert!(it.answer.missing.iter().any(|line| line.contains("CBN")));
    let at = |hardness: &str, tool: &str| {
        let job = with(&with(JOB, "hardness: 60 HRC", &format!("hardness: {hardness}")), "cbn-02", tool);
        verdict(first(&in_shop(&job)), "tool-hard-enough")
    };
    for (hardness, holds) in [("54 HRC", Verdict::Proven), ("55 HRC", Verdict::Fails), ("600 HV", Verdict::Fails)] {
        assert_eq!(at(hardness, "hss-knife"), holds, "{hardness}");
    }
    for (hardness, holds) in [("50 HRC", Verdict::Proven), ("51 HRC", Verdict::Doubtful), ("61 HRC", Verdict::Fails)] {
        assert_eq!(at(hardness, "carbide-04"), holds, "{hardness}");
    }
}

/// A tool that the job names is judged and not swapped for another.
#[test]
fn a_named_tool_is_judged_and_not_swapped() {
    let plan = in_shop(&with(JOB, "tool: cbn-02", "tool: hss-knife"));
    let it = first(&plan);
    assert_eq!((tool(it), it.verdict), ("hss-knife".into(), Verdict::Fails));
    assert!(it.answer.set_ups.is_empty(), "no cut is planned with it");
    assert!(why_not(it, "cbn-02").contains("another was named"), "{}", why_not(it, "cbn-02"));
    assert!(value(it, "removed") > 0.0, "what does not rest on the tool is still given");
    let absent = in_shop(&with(JOB, "tool: cbn-02", "tool: cbn-08"));
    assert_eq!(verdict(first(&absent), "tool-hard-enough"), Verdict::Fails);
    assert!(first(&absent).answer.missing.iter().any(|line| line.contains("cbn-08")));
}

const SOFT: &str = "job: Soft\nparts:\n  - part: ring\n    material: mild steel\n    operations:\n      - face: {outside: 200 mm, \
     inside: 120 mm, length: 30 ± 0.01 mm, wear: 0.40 ± 0.02 mm, finish: Ra 3.2 um, least-length: 29 mm, \
     hold: {in: soft-jaws, diameter: 200 mm, grip: 12 mm, overhang: 15 mm, true-within: 0.02 mm}}\n";

/// High-speed steel would turn at four times its speed at the lowest step; the carbide in the drawer has a step of its own.
#[test]
fn the_tool_is_the_quickest_of_those_that_can() {
    let fast = with(&SHOP, "38 62 100 165 270 430 700 1120", "165 270 430");
    let plan = plan(SOFT, Some(&shop(&fast)));
    let it = first(&plan);
    assert_eq!(tool(it), "carbide-04");
    agrees("165", value(it, "spindle_speed"));
    assert!(why_not(it, "hss-knife").contains("no spindle step is slow enough"), "{}", why_not(it, "hss-knife"));
    assert!(why_not(it, "cbn-02").contains("does not stand"));
    assert_eq!(verdict(it, "spindle-too-fast"), Verdict::Proven);
    // On a small diameter carbide never comes to its speed here: high-speed steel, and the reason is said.
    let small = with(&with(&with(SOFT, "200 mm", "52 mm"), "inside: 120 mm", "inside: 10 mm"), "Ra 3.2", "Ra 6.3");
    let small = in_shop(&small);
    assert_eq!(tool(first(&small)), "hss-knife");
    assert!(why_not(first(&small), "carbide-04").contains("of the speed it needs"));
    // A thin cut that the carbide's nose would rub goes to the sharper edge.
    let thin = with(
        &with(SOFT, "wear: 0.40 ± 0.02 mm", "wear: 0.02 ± 0.01 mm"),
        "least-length",
        "clean-up: 0.03 mm, least-length",
    );
    let thin = in_shop(&thin);
    assert_eq!(tool(first(&thin)), "hss-knife");
    assert!(why_not(first(&thin), "carbide-04").contains("too thin for its nose"));
}

/// Wish 442.8 rev/min; the plate has 276 and 445: half a per cent over is taken inside the book's row, under every cap.
#[test]
fn a_step_a_little_over_the_wish_is_taken_under_every_cap() {
    let plate = with(&SHOP, "38 62 100 165 270 430 700 1120", "276 445");
    let job = |outside: &str| {
        let job = with(SOFT, "200 mm", outside);
        with(&with(&job, "inside: 120 mm", "inside: 4 mm"), "least-length", "tool: hss-knife, least-length")
    };
    let at = |shop_text: &str, outside: &str| {
        let plan = plan(&job(outside), Some(&shop(shop_text)));
        let it = first(&plan);
        let cap = it.answer.choices.iter().any(|choice| choice.name == "speed_cap");
        (value(it, "spindle_speed"), cap, verdict(it, "chuck-speed"))
    };
    // 30 m/min × 0.9 over 19.41 mm: 442.8; the row goes to 30.
    assert_eq!(at(&plate, "19.41 mm"), (445.0, false, Verdict::Proven));
    let capped = with(&plate, "most: 1800 rev/min", "most: 460 rev/min");
    assert_eq!(at(&capped, "19.41 mm"), (276.0, true, Verdict::Proven), "445 on the plate may be 472 in truth");
    // Without the habit the row of one value leaves no room.
    let full = with(&plate, "speed-factor: 0.9", "speed-factor: 1.0");
    assert_eq!(at(&full, "21.567 mm"), (276.0, false, Verdict::Proven));
}

/// Cuts of 0.30 and 0.28 mm: the thinner lies under the round of the nose, its chip is thinner and its force greater.
#[test]
fn the_force_is_the_greatest_of_all_cuts() {
    let shop_text = with(
        &with(&SHOP, "feeds-across: 0.03 0.05 0.08 0.10 0.13 0.20", "feeds-across: 0.10"),
        "name: hss-knife, material: HSS, nose: 0.2 mm, edge-angle: 90 deg",
        "name: hss-knife, material: HSS, nose: 0.4 mm, edge-angle: 75 deg",
    );
    let job = with(&with(SOFT, "mild steel", "4140-30hrc"), "wear: 0.40", "wear: 0.53");
    let job = with(&with(&job, "least-length", "tool: hss-knife, least-length"), "Ra 3.2", "Ra 6.3");
    let plan = plan(&job, Some(&shop(&shop_text)));
    let it = first(&plan);
    let depths: Vec<String> = passes(it).iter().map(|pass| format!("{:.2}", pass.depth)).collect();
    assert_eq!(depths, ["0.30", "0.28", "0.00"]);
    agrees("138.2", value(it, "cutting_force"));
    let force = it.answer.value("cutting_force").expect("a force");
    let (_, high) = force.band.expect("up to the worst end of wear and tool factor");
    assert!(high >= 138.2 * 1.5 / 1.3 * 1.2 / 1.15 - 0.1, "{high}");
}

#[test]
fn a_hardened_steel_is_cut_as_one_whatever_its_name() {
    let plan = in_shop(&with(JOB, "case-hardened steel", "EN8"));
    let it = first(&plan);
    agrees("430", value(it, "spindle_speed"));
    assert!(it.answer.assumed.iter().any(|line| line.contains("Case-hardened")), "{:?}", it.answer.assumed);
}

/// A case of ten millimetres is one of one, with a slip of the point.
#[test]
fn a_case_deeper_than_any_is_doubtful() {
    let of = |depth: &str| {
        verdict(first(&in_shop(&with(JOB, "case-depth: 1.0", &format!("case-depth: {depth}")))), "case-plausible")
    };
    assert_eq!([of("1.0"), of("5.0"), of("10.0")], [Verdict::Proven, Verdict::Proven, Verdict::Doubtful]);
}

#[test]
fn a_case_nobody_knows_is_doubtful_with_a_hold_point() {
    let job = with(JOB, "    case-depth: 1.0 ± 0.1 mm\n", "");
    let plan = in_shop(&job);
    let it = first(&plan);
    assert_eq!(verdict(it, "case"), Verdict::Doubtful);
    let ids = steps(it);
    let cuts: Vec<usize> = ids.iter().enumerate().filter(|(_, id)| id.starts_with("cut-")).map(|(at, _)| at).collect();
    assert_eq!(ids[cuts[0] + 1], "test-hardness", "after the cut that it names: {ids:?}");
    assert!(cuts.len() == 2 && cuts[1] > cuts[0] + 1);
    assert!(it.answer.value("case_left").is_none(), "none is invented");
    let through = "    hardness: 60 HRC\n    through-hardened: true\n";
    let contradicts = in_shop(&with(&job, "    hardness: 60 HRC\n", through));
    assert_eq!(verdict(first(&contradicts), "case"), Verdict::Doubtful, "a case-hardened steel has a case");
    let hard = with(&job, "material: case-hardened steel", "material: Through-hardened steel 45-55 HRC");
    let through = in_shop(&with(&hard, "    hardness: 60 HRC\n", through));
    assert_eq!(state(first(&through), "case"), Outcome::DoesNotApply);
    assert_eq!(state(first(&through), "least-length"), Outcome::NotChecked, "then its length must be known");
    let total = in_shop(&with(JOB, "case-depth:", "case-depth-total:"));
    assert_eq!(verdict(first(&total), "case"), Verdict::Doubtful);
    let unsaid = in_shop(&with(JOB, "          least-case: 0.5 mm\n", ""));
    assert_eq!(verdict(first(&unsaid), "case"), Verdict::Doubtful);
    agrees("0.700", value(first(&unsaid), "case_left"));
    let before = in_shop(&with(JOB, "removed-before: 0 mm", "removed-before: 0.30 ± 0.02 mm"));
    agrees("0.400", value(first(&before), "case_left"));
    assert_eq!(verdict(first(&before), "case"), Verdict::Fails);
    let gone =
        with(&with(JOB, "          least-case: 0.5 mm\n", ""), "case-depth: 1.0 ± 0.1", "case-depth: 0.25 ± 0.01");
    assert_eq!(verdict(first(&in_shop(&gone)), "case"), Verdict::Fails, "cut through, whatever nobody asked");
}

#[test]
fn a_history_that_nobody_knows_is_doubtful_where_little_is_left_over() {
    let unknown = with(JOB, "          removed-before: 0 mm\n", "");
    let plan = in_shop(&unknown);
    assert_eq!(verdict(first(&plan), "case"), Verdict::Doubtful, "a margin of 0.0995 mm");
    assert!(first(&plan).answer.assumed.iter().any(|line| line.contains("taken off here before")));
    let ample = in_shop(&with(&unknown, "least-case: 0.5 mm", "least-case: 0.3 mm"));
    assert_eq!(verdict(first(&ample), "case"), Verdict::Proven);
}

#[test]
fn a_soft_part_goes_by_its_length_and_no_limit_is_invented() {
    let plan = in_shop(SOFT);
    assert_eq!(verdict(first(&plan), "least-length"), Verdict::Proven);
    assert_eq!(state(first(&plan), "case"), Outcome::DoesNotApply);
    let unsaid = in_shop(&with(SOFT, "least-length: 29 mm, ", ""));
    assert_eq!(state(first(&unsaid), "least-length"), Outcome::NotChecked);
    assert_eq!(state(first(&unsaid), "can-be-measured"), Outcome::DoesNotApply, "no limit, no window");
    assert!(first(&unsaid).verdict >= Verdict::Doubtful);
    let check = first(&unsaid).answer.checks.iter().find(|check| check.id == "least-length").expect("listed");
    assert_eq!((check.missing.as_slice(), check.weight), (&["least-length"][..], Weight::Must));
    let short = in_shop(&with(SOFT, "least-length: 29 mm", "least-length: 29.56 mm"));
    assert_eq!(verdict(first(&short), "least-length"), Verdict::Fails);
}

/// The measuring line and its hold point stand before the last cut, and name the gauge and where it reads from.
#[test]
fn what_is_measured_stands_before_the_last_cut() {
    let plan = in_shop(JOB);
    let it = first(&plan);
    let ids = steps(it);
    let at = |id: &str| ids.iter().position(|step| *step == id).unwrap_or_else(|| panic!("no {id}: {ids:?}"));
    let cuts: Vec<usize> = ids.iter().enumerate().filter(|(_, id)| id.starts_with("cut-")).map(|(at, _)| at).collect();
    assert!(cuts[0] < at("measure-through-bore") && at("measure-through-bore") < cuts[1], "{ids:?}");
    let text = |id: &str| {
        let step = &it.answer.set_ups[0].steps[at(id)];
        let then = step.hold_point.as_ref().and_then(|hold| hold.then.clone()).unwrap_or_default();
        format!("{} {then}", step.words)
    };
    assert!(text("measure-through-bore").contains("HOLD POINT, stopped and cool"));
    assert!(text("measure-through-bore").contains("depth gauge") && text("measure-through-bore").contains("21.550"));
    // Three cuts: the point stands after the second.
    let deep = in_shop(&with(SOFT, "wear: 0.40 ± 0.02", "wear: 2.40 ± 0.02").replace("29 mm", "27 mm"));
    let ids = steps(first(&deep));
    let hold = ids.iter().rposition(|id| id.starts_with("measure-") && *id != "measure-again").expect("a hold point");
    let last = ids.iter().rposition(|id| id.starts_with("cut-")).expect("a last cut");
    let passes = |steps: &[setover::operations::Step<String>]| -> usize {
        steps.iter().filter_map(|step| step.cut.as_ref()).map(|cut| cut.passes.len()).sum()
    };
    let all = &first(&deep).answer.set_ups[0].steps;
    assert!(hold < last && passes(&all[..hold]) == 2, "{ids:?}");
    // A solid face: nothing is reached but by an indicator, put to nought before the first cut; the shop has none.
    let solid = in_shop(&with(SOFT, "inside: 120 mm, ", ""));
    let ids = steps(first(&solid));
    assert!(ids.contains(&"measure-by-indicator") && ids.contains(&"on-centre"), "{ids:?}");
    let nought = ids.iter().position(|id| *id == "zero-indicator").expect("zeroed");
    assert!(nought < ids.iter().position(|id| id.starts_with("cut-")).expect("a cut"));
    assert_eq!(verdict(first(&solid), "measured-between"), Verdict::Doubtful);
    let indicator = with(
        &SHOP,
        "instruments:\n",
        "instruments:\n  - {name: clock, kind: dial indicator, from: 0 mm, to: 10 mm, uncertainty: 10 um}\n",
    );
    let reached = common::plan(&with(SOFT, "inside: 120 mm, ", ""), Some(&shop(&indicator)));
    assert_eq!(verdict(first(&reached), "measured-between"), Verdict::Proven);
    // What seats on nothing has no step behind it to measure to.
    let loose = in_shop(&with(JOB, ", stop: step", ""));
    assert_eq!(verdict(first(&loose), "measured-between"), Verdict::Doubtful);
    assert!(steps(first(&loose)).contains(&"measure-by-indicator"));
    // A gauge that is coarser than what is left cannot guide the last cut.
    let coarse = with(JOB, "least-case: 0.5 mm", "least-case: 0.59 mm");
    assert_eq!(verdict(first(&in_shop(&coarse)), "measured-between"), Verdict::Doubtful);
}

#[test]
fn one_cut_takes_a_trial_cut_and_says_why() {
    let one =
        in_other_shop(JOB, "name: cbn-02, material: CBN, nose: 0.2 mm", "name: cbn-02, material: CBN, nose: 0.4 mm");
    let trial = first(&one).answer.set_ups[0].steps.iter().find(|step| step.id == "trial-cut").expect("a trial cut");
    // 0.30 − max(2 × 0.02, 0.01) = 0.26; a quarter of the 10 mm wide face.
    assert!(trial.words.starts_with("One cut only: a trial cut first"), "{}", trial.words);
    assert!(trial.words.contains("0.260 mm deep") && trial.words.contains("outermost 2.5 mm"), "{}", trial.words);
    let shallow = with(
        &with(SOFT, "wear: 0.40 ± 0.02 mm", "wear: 0.01 ± 0.01 mm"),
        "least-length",
        "clean-up: 0.02 mm, least-length",
    );
    let plan = in_shop(&shallow);
    assert_eq!(verdict(first(&plan), "measured-between"), Verdict::Doubtful);
    assert!(steps(first(&plan)).contains(&"one-cut-no-trial"));
}

/// After a trial cut at the rim a gauge across the bore would rest on what still stands proud: the step of the trial is measured,
/// from the face that is not cut yet. With two cuts the whole face is cut, and the gauge goes through the bore.
#[test]
fn after_a_trial_cut_no_gauge_rests_on_what_still_stands_proud() {
    let one =
        in_other_shop(JOB, "name: cbn-02, material: CBN, nose: 0.2 mm", "name: cbn-02, material: CBN, nose: 0.4 mm");
    let ids = steps(first(&one));
    assert!(ids.contains(&"trial-cut") && ids.contains(&"measure-trial-step"), "{ids:?}");
    assert!(!ids.contains(&"measure-through-bore"), "{ids:?}");
    let said =
        first(&one).answer.set_ups[0].steps.iter().find(|step| step.id == "measure-trial-step").expect("measured");
    let then = said.hold_point.as_ref().and_then(|hold| hold.then.clone()).expect("what follows");
    assert!(said.words.contains("depth gauge") && then.contains("0.300 mm less the reading"), "{} {then}", said.words);
    assert_eq!(verdict(first(&one), "measured-between"), Verdict::Proven);
}

/// Jaws that open in the bore stand in it, and what seats on them lies beyond it: no gauge goes through.
#[test]
fn no_gauge_goes_through_a_bore_that_the_jaws_fill() {
    let inside =
        with(&with(JOB, "diameter: 52 mm", "diameter: 32 mm, grips: inside"), "inside: 32 mm", "inside: 30 mm");
    let plan = in_shop(&inside);
    let ids = steps(first(&plan));
    assert!(ids.contains(&"measure-by-indicator"), "{ids:?}");
    assert_eq!(verdict(first(&plan), "measured-between"), Verdict::Doubtful);
}

/// A carriage that is locked puts no depth on, and a lathe of which only a diameter dial is known cannot be told what to set.
#[test]
fn the_carriage_is_not_locked_where_it_puts_the_depth_on() {
    const TOP: &str = "{axis: top, division: 0.02 mm, per-turn: 2 mm, set-over: 0 deg}";
    let locked = |plan: &setover::plan::Plan| {
        let ids = steps(first(plan)).into_iter().map(String::from).collect::<Vec<_>>();
        (ids.contains(&"lock-carriage".into()), ids.contains(&"lock-carriage-at-each-depth".into()))
    };
    assert_eq!(locked(&in_shop(JOB)), (true, false));
    let along = in_other_shop(JOB, TOP, "{axis: along, division: 0.02 mm, per-turn: 20 mm}");
    assert_eq!(locked(&along), (false, true));
    assert_eq!(verdict(first(&along), "measured-between"), Verdict::Proven);
    let loose =
        plan(&with(JOB, ", stop: step", ""), Some(&shop(&with(&SHOP, TOP, "{axis: along, division: 0.02 mm}"))));
    assert!(steps(first(&loose)).contains(&"zero-indicator-from-the-bed"), "{:?}", steps(first(&loose)));
    let none = in_other_shop(JOB, TOP, "{axis: quill, division: 0.02 mm}");
    assert_eq!(locked(&none), (false, true));
    assert_eq!(verdict(first(&none), "measured-between"), Verdict::Doubtful);
}

#[test]
fn a_solid_face_cut_outward_begins_at_the_centre() {
    let solid = with(SOFT, "inside: 120 mm, ", "");
    let outward = in_shop(&with(&solid, "least-length", "feed-direction: outward, least-length"));
    let ids = steps(first(&outward));
    assert!(ids.contains(&"on-centre-outward") && !ids.contains(&"on-centre"), "{ids:?}");
}

/// Who names the least case that must be left has a case to lose, whatever hardness is typed or not.
#[test]
fn a_least_case_asks_for_the_case() {
    let soft = in_shop(&with(SOFT, "least-length", "least-case: 0.5 mm, least-length"));
    assert_eq!(verdict(first(&soft), "case"), Verdict::Doubtful);
    assert_eq!(state(first(&in_shop(SOFT)), "case"), Outcome::DoesNotApply);
}

/// A remedy is not what the job already says.
#[test]
fn a_relief_that_is_cut_again_is_not_told_to_be() {
    let shallow = with(JOB, "depth: 0.60 mm, gap: 0.20 mm", "depth: 0.40 ± 0.02 mm, gap: 0.50 mm");
    let said = |job: &str| {
        let plan = in_shop(job);
        let check =
            first(&plan).answer.checks.iter().find(|check| check.id == "relief-gap-left").expect("judged").clone();
        assert_eq!(check.state, Outcome::Made(Verdict::Fails));
        format!("{:?} {:?}", check.remedy, check.remedies)
    };
    assert!(said(&shallow).contains("recut: true"));
    let again = said(&with(&shallow, "gap: 0.50 mm", "gap: 0.50 mm, recut: true"));
    assert!(again.contains("deeper") && !again.contains("recut: true"), "{again}");
}

/// Hard metal is cut by the fluid of hard metal, whatever its name; the same name soft is not.
#[test]
fn a_hardened_steel_gets_the_fluid_of_hard_metal() {
    let fluid = |job: &str| {
        let plan = in_shop(job);
        let step = first(&plan).answer.set_ups[0]
            .steps
            .iter()
            .find(|step| step.id == "cutting-fluid")
            .expect("a fluid")
            .clone();
        step.words
    };
    let hard = with(JOB, "case-hardened steel", "EN8");
    assert_eq!(fluid(&hard), fluid(JOB));
    assert!(fluid(&hard).contains("dry"), "{}", fluid(&hard));
    assert!(fluid(&with(SOFT, "mild steel", "EN8")).contains("soluble oil"));
}

/// A heavy part is lifted by two whether its mass was typed or only its sizes.
#[test]
fn a_mass_from_sizes_warns_of_the_lift() {
    let warns = |job: &str| {
        let plan = in_shop(job);
        first(&plan).answer.set_ups[0].cautions.iter().any(|caution| caution.contains("hoist"))
    };
    let heavy = with(SOFT, "length: 30", "length: 300");
    assert!(warns(&heavy) && !warns(JOB));
    // Who weighed it knows better.
    assert!(!warns(&with(&heavy, "least-length", "mass: 2 kg, least-length")));
}

/// A trial cut is a cut: its fluid stands before it, and its tool, step and feed are those of the cut that follows.
#[test]
fn the_trial_cut_is_told_its_fluid_and_its_feed() {
    let one =
        in_other_shop(JOB, "name: cbn-02, material: CBN, nose: 0.2 mm", "name: cbn-02, material: CBN, nose: 0.4 mm");
    let ids = steps(first(&one));
    let at = |id: &str| ids.iter().position(|step| *step == id).unwrap_or_else(|| panic!("no {id}: {ids:?}"));
    assert!(at("cutting-fluid") < at("trial-cut"), "{ids:?}");
    let cut = |id: &str| first(&one).answer.set_ups[0].steps[at(id)].cut.clone().expect("a cut");
    let (trial, whole) = (cut("trial-cut"), cut("cut-inward"));
    assert_eq!((&trial.tool, trial.spindle, trial.feed), (&whole.tool, whole.spindle, whole.feed));
    assert_eq!(trial.passes[0].dial.as_ref().expect("a dial").said(Print::Metric), "top slide 0.260 mm (13 div)");
}

/// How far the measured dial may go is a figure: what is planned and the least margin of case and length.
#[test]
fn the_hold_point_says_how_far_it_may_go() {
    let text = |job: &str, id: &str| {
        let plan = in_shop(job);
        let step = first(&plan).answer.set_ups[0].steps.iter().find(|step| step.id == id).expect("a limit").clone();
        step.words
    };
    // 21.550 less the margin of the case, 0.0995, and the gauge with 0.030: never under 21.481 (rounded to the part's side).
    assert!(text(JOB, "never-under").contains("21.481 mm"), "{}", text(JOB, "never-under"));
    let loose = with(JOB, ", stop: step", "");
    assert!(text(&loose, "never-deeper").contains("0.399 mm"), "{}", text(&loose, "never-deeper"));
    let open = in_shop(&with(SOFT, "least-length: 29 mm, ", ""));
    assert!(!steps(first(&open)).iter().any(|id| id.starts_with("never-")), "no limit is invented");
}

/// The fluid stands before the first cut; iron is cut dry and leaves a dust that is warned of.
#[test]
fn the_cutting_fluid_is_named_on_every_sheet() {
    let said = |metal: &str| {
        let plan = in_shop(&with(SOFT, "mild steel", metal));
        let set_up = first(&plan).answer.set_ups[0].clone();
        let at = |id: &str| set_up.steps.iter().position(|step| step.id.starts_with(id)).expect("a line");
        assert!(at("cutting-fluid") < at("cut-"), "{metal}");
        (set_up.steps[at("cutting-fluid")].words.clone(), set_up.cautions.join("\n"))
    };
    assert!(said("mild steel").0.contains("soluble oil"));
    let (iron, cautions) = said("GG25");
    assert!(iron.contains("dry"), "{iron}");
    assert!(cautions.contains("dust"), "{cautions}");
}

#[test]
fn a_skim_too_shallow_for_the_edge_says_what_would_do() {
    let shallow = with(
        &with(JOB, "wear: 0.25 ± 0.02 mm", "wear: 0.03 ± 0.01 mm"),
        "least-case",
        "clean-up: 0.01 mm\n          least-case",
    );
    let plan = in_shop(&shallow);
    let check = first(&plan).answer.checks.iter().find(|check| check.id == "bite").expect("bite");
    agrees("0.06", value(first(&plan), "removed"));
    assert_eq!(check.verdict(), Some(Verdict::Doubtful), "between a quarter and two thirds of the nose");
    assert!(check.remedies.iter().any(|remedy| remedy.contains("0.09 mm")), "{:?}", check.remedies);
    let blunt = with(&SHOP, "name: cbn-02, material: CBN, nose: 0.2 mm", "name: cbn-02, material: CBN, nose: 0.8 mm");
    let rubs = common::plan(&shallow, Some(&shop(&blunt)));
    assert_eq!(verdict(first(&rubs), "bite"), Verdict::Fails);
}

#[test]
fn a_chuck_that_may_not_turn_so_fast_holds_the_step_down() {
    let plan = in_other_shop(JOB, "chuck: {most: 1800 rev/min", "chuck: {most: 440 rev/min");
    let it = first(&plan);
    agrees("270", value(it, "spindle_speed"));
    assert_eq!(verdict(it, "chuck-speed"), Verdict::Proven, "430 on the plate may be 456 in truth");
    let slow = in_other_shop(JOB, "chuck: {most: 1800 rev/min", "chuck: {most: 39 rev/min");
    assert_eq!(verdict(first(&slow), "chuck-speed"), Verdict::Fails);
}

#[test]
fn work_off_its_centre_turns_slowly() {
    let heavy = with(JOB, "least-case", "mass: 0.3 kg\n          off-centre: 2 mm\n          least-case");
    let plan = in_shop(&heavy);
    let it = first(&plan);
    // 0.05 × 0.3 × 9.807 N = m e ω²: 149.5 rev/min, less 6 %.
    agrees("100", value(it, "spindle_speed"));
    assert_eq!(verdict(it, "balance"), Verdict::Proven);
    assert!(it.answer.set_ups[0].steps.iter().any(|step| step.id == "counterweight"));
}

#[test]
fn no_step_is_low_enough_takes_the_lowest_and_says_by_how_much() {
    let big = with(&with(JOB, "outside: 52 mm", "outside: 220 mm"), "diameter: 52 mm", "diameter: 220 mm");
    let shop_text = with(&SHOP, "38 62 100 165 270 430 700 1120", "165 270 430");
    let plan = common::plan(&big, Some(&shop(&shop_text)));
    let it = first(&plan);
    agrees("165", value(it, "spindle_speed"));
    let check = it.answer.checks.iter().find(|check| check.id == "spindle-too-fast").expect("said");
    assert_eq!(check.verdict(), Some(Verdict::Doubtful));
    assert!(check.remedy.as_deref().unwrap_or_default().contains("27 %"), "{:?}", check.remedy);
}

#[test]
fn a_habit_of_less_speed_takes_a_lower_step() {
    let usual = in_shop(JOB);
    let slower = in_other_shop(JOB, "speed-factor: 0.9", "speed-factor: 0.6");
    assert!(value(first(&slower), "spindle_speed") < value(first(&usual), "spindle_speed"));
    let blows = in_shop(&with(JOB, "least-case", "interrupted: 4\n          least-case"));
    assert!(value(first(&blows), "spindle_speed") <= value(first(&usual), "spindle_speed"));
    assert_eq!(verdict(first(&blows), "tool-hard-enough"), Verdict::Doubtful, "CBN breaks under blows");
}

#[test]
fn carbide_in_steel_under_its_speed_builds_up_an_edge() {
    let job = with(
        &with(
            &with(JOB, "case-hardened steel", "mild steel"),
            "    hardness: 60 HRC\n    case-depth: 1.0 ± 0.1 mm\n",
            "",
        ),
        "tool: cbn-02",
        "tool: carbide-04",
    );
    let small = with(&with(&job, "outside: 52 mm", "outside: 20 mm"), "inside: 32 mm", "inside: 4 mm");
    let small = with(
        &small,
        "relief: {outside: 46 mm, inside: 40 mm, depth: 0.60 mm, gap: 0.20 mm}",
        "feed-direction: outward",
    );
    let small = with(&small, "diameter: 52 mm", "diameter: 20 mm");
    let plan = in_shop(&small);
    assert_eq!(verdict(first(&plan), "built-up-edge"), Verdict::Doubtful);
    // What is built up tears the face, whatever the feed leaves; a rough face stands it.
    assert!(small.contains("finish: Ra 1.6 um"));
    assert_eq!(verdict(first(&plan), "finish"), Verdict::Doubtful);
    let rough = in_shop(&with(&small, "finish: Ra 1.6 um", "finish: Ra 6.3 um"));
    assert_eq!(verdict(first(&rough), "finish"), Verdict::Proven);
    assert!(first(&plan).answer.set_ups[0].steps.iter().any(|step| step.id == "cut-outward"));
}

#[test]
fn a_relief_that_is_nearly_gone() {
    let deep = in_shop(&with(JOB, "depth: 0.60 mm", "depth: 0.31 ± 0.02 mm"));
    assert_eq!(verdict(first(&deep), "relief-gap-left"), Verdict::Fails);
    let recut = in_shop(&with(JOB, "depth: 0.60 mm", "depth: 0.31 ± 0.02 mm, recut: true"));
    assert_eq!(verdict(first(&recut), "relief-gap-left"), Verdict::Proven);
    assert_eq!(verdict(first(&recut), "relief-tool"), Verdict::Doubtful, "what faces the end does not go in");
    assert!(first(&recut).answer.set_ups[0].steps.iter().any(|step| step.id == "recut-relief"));
    let land = |ring: &str| {
        let plan = in_shop(&with(JOB, "gap: 0.20 mm", &format!("gap: 0.20 mm, ring-outside: {ring}")));
        verdict(first(&plan), "relief-land")
    };
    assert_eq!(land("41 ± 0.05 mm"), Verdict::Proven);
    assert_eq!(land("60 ± 0.05 mm"), Verdict::Doubtful, "the ring hangs over the relief by more than half");
}

#[test]
fn a_part_that_stands_out_too_far_fails_and_turns_at_the_lowest_step() {
    let long = with(JOB, "length: 21.85 ± 0.01 mm", "length: 170.00 ± 0.01 mm");
    let plan = in_shop(&with(&long, "overhang: 12 mm", "overhang: 160 mm"));
    assert_eq!(verdict(first(&plan), "overhang"), Verdict::Fails);
    agrees("38", value(first(&plan), "spindle_speed"));
}

#[test]
fn what_cannot_be_a_part_is_pointed_at() {
    let says = |from: &str, to: &str| {
        let problems = try_plan(&with(JOB, from, to), Some(&shop(&SHOP))).expect_err("a problem");
        assert!(problems.iter().all(|problem| problem.place.is_some()), "{problems:?}");
        problems.iter().map(|problem| problem.says.clone()).collect::<Vec<_>>().join("\n")
    };
    assert!(says("inside: 32 mm", "inside: 52 mm").contains("smaller than `outside`"));
    assert!(says("outside: 52 mm", "outside: 0 mm").contains("above zero"));
    assert!(says("length: 21.85 ± 0.01 mm", "length: 0 mm").contains("above zero"));
    assert!(says("wear: 0.25 ± 0.02 mm", "wear: 22 ± 0.02 mm").contains("less than the length"));
    assert!(says("grip: 10 mm", "grip: 30 mm").contains("longer than the part"));
    assert!(says("relief: {outside: 46 mm", "relief: {outside: 60 mm").contains("outside the contact"));
    assert!(says("inside: 40 mm", "inside: 47 mm").contains("smaller than its `outside`"));
    assert!(says("          bears: in-groove\n", "").contains("bears"));
    assert!(says("          float: opens\n", "").contains("float"));
    assert!(says("    material: case-hardened steel\n", "").contains("material"));
    assert!(says("length: 21.85 ± 0.01 mm", "length: 21.8 .. 21.9 mm").contains("measured"));
}

#[test]
fn without_a_shop_the_wish_is_given_and_said_to_be_one() {
    let plan = plan(JOB, None);
    let it = first(&plan);
    let wish = value(it, "spindle_speed");
    assert!((1000.0 * 100.0 / (std::f64::consts::PI * 52.0) - wish).abs() < 0.5, "no habit without a shop: {wish}");
    assert!(it.answer.assumed.iter().any(|line| line.starts_with("no shop")));
    agrees("0.30", value(it, "removed"));
}

#[test]
fn a_float_reads_what_a_face_hands_over() {
    let chain = format!(
        "{JOB}  - part: spacer\n    material: mild steel\n    operations:\n      - face:\n          outside: 52 mm\n          \
         inside: 32 mm\n          length: {{of: thrust collar/face/length_after}}\n          wear: 0.1 ± 0.02 mm\n"
    );
    let plan = in_shop(&chain);
    agrees("21.550", plan.operations[1].answer.value("length").unwrap().number);
}

proptest! {
    #![proptest_config(seeds::config(24, "tests/regressions/face.txt"))]

    /// Removed is never less than the wear at its worst end; the passes add up to it; the step is never above the wish except
    /// the lowest; every value is finite.
    #[test]
    fn what_holds_for_every_face(
        outside in 12.0..220.0_f64,
        ratio in 0.1..0.9_f64,
        length in 3.0..120.0_f64,
        wear in 0.01..1.8_f64,
        doubt in 0.005..0.05_f64,
        metal in prop::sample::select(vec![
            "case-hardened steel", "mild steel", "EN8", "cast iron", "phosphor bronze", "304", "cast aluminium", "brass",
        ]),
        jaws in prop::sample::select(vec!["jaws", "soft-jaws", "four-jaw", "faceplate", "mandrel"]),
    ) {
        let inside = outside * ratio;
        let job = format!(
            "job: Any\nparts:\n  - part: ring\n    material: \"{metal}\"\n    operations:\n      - face: {{outside: {outside:.2} mm, \
             inside: {inside:.2} mm, length: {length:.2} ± 0.01 mm, wear: {wear:.3} ± {doubt:.3} mm, finish: Ra 1.6 um, \
             hold: {{in: {jaws}, overhang: 5 mm, true-within: 0.02 mm}}}}\n"
        );
        let plan = in_shop(&job);
        let it = first(&plan);
        prop_assert!(it.answer.refused.is_none(), "{:?}", it.answer.refused);
        for value in &it.answer.values {
            prop_assert!(value.number.is_finite() && value.plus_minus.is_finite(), "{}", value.key);
        }
        let removed = value(it, "removed");
        prop_assert!(removed >= value(it, "wear") + doubt - 0.0006);
        let divisions = removed / 0.02;
        prop_assert!((divisions - divisions.round()).abs() < 1e-6);
        let passes = passes(it);
        let sum: f64 = passes.iter().map(|pass| pass.depth).sum();
        prop_assert!((sum - removed).abs() < 1e-9);
        prop_assert!(passes.iter().all(|pass| pass.depth <= 1.0 + 1e-9), "the lathe stands 1 mm");
        prop_assert_eq!(passes.len() as f64, value(it, "passes"));
        let (wish, real) = (value(it, "speed_wanted"), value(it, "surface_speed_outside"));
        let lowest = value(it, "spindle_speed") == 38.0;
        prop_assert!(real <= 1.05 * wish + 1e-9 || lowest && verdict(it, "spindle-too-fast") == Verdict::Doubtful);
        let pages = setover::sheet::layout::pages(std::slice::from_ref(&plan));
        prop_assert!(pages.is_ok(), "{:?}", pages.err().map(|fault| fault.to_string()));
        prop_assert!(value(it, "finish_expected") <= 1.6 + 1e-9 || verdict(it, "finish") != Verdict::Proven);
        let ids: Vec<&str> = it.answer.checks.iter().map(|check| check.id).filter(|id| !id.starts_with("order")).collect();
        let reference = in_shop(JOB);
        let others: Vec<&str> = first(&reference).answer.checks.iter().map(|check| check.id).filter(|id| !id.starts_with("order")).collect();
        prop_assert_eq!(ids, others, "no check vanishes and none comes up");
    }
}

proptest! {
    #![proptest_config(seeds::config(24, "tests/regressions/face.txt"))]

    /// A worse reading never betters what is judged by it.
    #[test]
    fn a_wider_doubt_never_betters_a_verdict(
        wear in 0.05..0.4_f64,
        least in 0.2..0.7_f64,
        key in prop::sample::select(vec![
            ("case-depth: 1.0 ± 0.1 mm", "case-depth: 1.0 ± {} mm", 0.1),
            ("length: 21.85 ± 0.01 mm", "length: 21.85 ± {} mm", 0.01),
            ("depth: 0.60 mm", "depth: 0.60 ± {} mm", 0.02),
            ("as-found-float: 0.42 ± 0.01 mm", "as-found-float: 0.42 ± {} mm", 0.01),
            ("wear: {w} ± 0.02 mm", "wear: {w} ± {} mm", 0.02),
        ]),
    ) {
        let wear = format!("{wear:.2}");
        let base = with(&with(JOB, "wear: 0.25 ± 0.02 mm", &format!("wear: {wear} ± 0.02 mm")), "least-case: 0.5 mm", &format!("least-case: {least:.2} mm"));
        let base = with(&base, "least-case", "least-length: 21.4 mm\n          least-case");
        let (from, to, doubt) = key;
        let judged = ["case", "least-length", "relief-gap-left", "can-be-measured", "measured-between"];
        let mut before: Option<Vec<Verdict>> = None;
        for step in 0..5 {
            let wider = doubt * (1.0 + f64::from(step) * 0.45);
            let to = to.replace("{w}", &wear).replace("{}", &format!("{wider:.4}"));
            let plan = in_shop(&with(&base, &from.replace("{w}", &wear), &to));
            // What is measured between asks for metal to measure in: more doubt of the wear may give it.
            let of_wear = from.starts_with("wear");
            let made: Vec<Verdict> = judged.iter().filter(|id| !of_wear || **id != "measured-between")
                .map(|id| verdict(first(&plan), id)).collect();
            if let Some(before) = &before {
                prop_assert!(before.iter().zip(&made).all(|(old, new)| new >= old), "{key:?} {wider}: {before:?} {made:?}");
            }
            before = Some(made);
        }
    }
}

/// A slide set over goes further than it cuts: at the last hold point too, where what was measured is dialled.
#[test]
fn what_is_left_to_dial_is_stretched_by_a_slide_set_over() {
    let per_measured = |angle: &str| {
        let set_over = with(&SHOP, "set-over: 0 deg", &format!("set-over: {angle} deg"));
        let plan = common::plan(JOB, Some(&shop(&set_over)));
        let passes = first(&plan).answer.set_ups[0].steps.iter().flat_map(|step| &step.cut).flat_map(|cut| &cut.passes);
        let dials: Vec<f64> = passes
            .filter_map(|pass| match &pass.dial {
                Some(setover::proof::Dialled::Slide(counted)) => Some(counted.per_measured),
                _ => None,
            })
            .collect();
        assert!(!dials.is_empty() && dials.iter().all(|one| (one - dials[0]).abs() < 1e-9));
        dials[0]
    };
    assert!((per_measured("0") - 1.0).abs() < 1e-9);
    assert!((per_measured("60") - 2.0).abs() < 1e-9);
}

/// A shim is as sure as what read it: the float with it has the doubt of both.
#[test]
fn the_doubt_of_a_shim_is_in_the_float_with_it() {
    let job = with(JOB, "bears: in-groove", "bears: in-groove\n          float-wanted: 0.17 .. 0.23 mm");
    let with_shim = |more: &str| {
        let text = with(&SHOP, "{thickness: 0.27 mm, count: 1}", &format!("{{thickness: 0.27 mm, count: 1{more}}}"));
        let plan = plan(&job, Some(&shop(&text)));
        (doubt(first(&plan), "float_with_shim"), doubt(first(&plan), "float_after"))
    };
    let (own, after) = with_shim("");
    assert!(own > after, "{own} {after}");
    let (coarse, _) = with_shim(", with: depth gauge");
    assert!(coarse > own, "{coarse} {own}");
    assert!((coarse - after.hypot(0.030)).abs() < 1e-9, "{coarse}");
}

/// A step of the jaws is none where no jaws are: it is refused at its line, whatever else holds the work.
#[test]
fn a_step_of_jaws_is_asked_of_jaws_alone() {
    let job = include_str!("../examples/face.yaml");
    let stepped = |held: &str| {
        let hold = job.split_once("hold: {").unwrap().1.split_once('}').unwrap().0;
        try_plan(
            &with(job, hold, &format!("in: {held}, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, stop: step")),
            None,
        )
    };
    for held in ["jaws", "soft-jaws", "four-jaw"] {
        assert!(stepped(held).is_ok(), "{held}");
    }
    for held in ["collet", "mandrel", "faceplate", "clamps", "angle-plate", "vice"] {
        let problems = stepped(held).expect_err(held);
        assert!(
            problems.iter().any(|problem| problem.says.contains("held in none") && problem.place.is_some()),
            "{held}"
        );
    }
}

/// Through a narrow bore no gauge is moved about on what the part seats on.
#[test]
fn no_gauge_goes_through_a_narrow_bore() {
    let by = |inside: &str| {
        let plan =
            in_shop(&with(include_str!("../examples/face.yaml"), "inside: 32 mm", &format!("inside: {inside} mm")));
        let set_up = &first(&plan).answer.set_ups[0];
        set_up.steps.iter().any(|step| step.words.contains("through bore"))
    };
    assert!(by("32"));
    assert!(!by("2"));
}

/// A length that is accepted makes no float that is not: what the gauge of the length is off, the float is off as well.
#[test]
fn the_float_is_asked_no_closer_than_the_length() {
    use setover::operations::Target;
    use setover::proof::Fact;
    let plan = plan(include_str!("../examples/face.yaml"), Some(&shop(include_str!("../examples/shop.yaml"))));
    let blanks = &first(&plan).answer.set_ups[0].blanks;
    let half = |words: &str| {
        let blank = blanks.iter().find(|blank| blank.words.contains(words)).unwrap_or_else(|| panic!("no {words}"));
        match blank.target.clone().unwrap() {
            Target::Between(Fact::Figure { number: low, .. }, Fact::Figure { number: high, .. }) => (high - low) / 2.0,
            Target::Aim(Fact::Figure { doubt, .. }) => doubt.unwrap(),
            other => panic!("{words}: {other:?}"),
        }
    };
    assert!(half("float") >= half("ength"), "{} {}", half("float"), half("ength"));
}
