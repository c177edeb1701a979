//! The hold in whole jobs: which checks stand, what a key left out does, what the sheet tells the person. The figures of a typed
//! cutting force stand beside the code (`src/operations/turning/grip/cases/`).
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::*;
use setover::plan::{Plan, Planned};
use setover::proof::{Outcome, Verdict};

const FACE: &str = "job: A collar\nparts:\n  - part: collar\n    material: case-hardened steel\n    hardness: 60 HRC\n    case-depth: 1.0 ± 0.1 mm\n    operations:\n      - face:\n          outside: 52 mm\n          inside: 32 mm\n          length: 21.85 ± 0.01 mm\n          wear: 0.25 ± 0.02 mm\n          finish: Ra 1.6 um\n          square-within: 0.02 mm\n          hold: {in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step}\n          tool: cbn-02\n          least-case: 0.5 mm\n          removed-before: 0 mm\n";

const SKIM: &str = "job: A hub\nparts:\n  - part: hub\n    material: mild steel\n    operations:\n      - skim:\n          outside: 120 mm\n          inside: 84 mm\n          length: 8.00 ± 0.02 mm\n          wear: 0.15 ± 0.03 mm\n          finish: Ra 3.2 um\n          interrupted: 6\n          hold: {in: soft-jaws, diameter: 60 mm, inside: 0 mm, grip: 12 mm, overhang: 20 mm, true-within: 0.02 mm, stop: step}\n          tool: hss-knife\n          least-thickness: 7.5 mm\n";

const GRIP: [&str; 16] = [
    "grip",
    "grip-moment",
    "grip-length",
    "jaw-pressure",
    "jaw-reach",
    "tool-clear",
    "overhang",
    "ring-stress",
    "dish",
    "flange",
    "grip-looked-at",
    "ring-lobe",
    "square",
    "gives-way",
    "swing",
    "chuck-speed",
];

fn in_other_shop(job: &str, from: &str, to: &str) -> Plan {
    plan(job, Some(&shop(&with(SHOP, from, to))))
}

fn missing(planned: &Planned, check: &str) -> Vec<&'static str> {
    planned.answer.checks.iter().find(|f| f.id == check).unwrap_or_else(|| panic!("no check {check}")).missing.clone()
}

#[test]
fn the_collar_of_the_worked_example() {
    let plan = in_shop(FACE);
    let it = first(&plan);
    for (key, held) in [
        ("jaw_force_low", "5359"),
        ("jaw_force_high", "14000"),
        ("grip_by_torque", "2755"),
        ("grip_by_torque_worst", "2384"),
        ("grip_by_moment", "2464"),
        ("grip_by_moment_worst", "2270"),
        ("grip_needed", "2755"),
        ("grip_needed_worst", "2384"),
        ("grip_length_asked", "4.0"),
        ("jaw_pressure", "24.6"),
        ("tool_clear", "11.0"),
        ("ring_lobe", "0.0009"),
        ("dish_by_jaws", "0.0020"),
    ] {
        agrees(held, value(it, key));
    }
    for check in GRIP {
        match check {
            "flange" | "grip-looked-at" => assert_eq!(state(it, check), Outcome::DoesNotApply, "{check}"),
            _ => assert_eq!(verdict(it, check), Verdict::Proven, "{check}"),
        }
    }
    let swing = it.answer.checks.iter().find(|check| check.id == "swing").unwrap().judged.unwrap();
    agrees("166", swing.got);
    // With a finer feed it would be carried: this machine has none.
    let feeds = SHOP.lines().find(|line| line.contains("feeds-across:")).unwrap();
    let only = with(SHOP, feeds, "      feeds-across: 0.05 mm/rev");
    let none = common::plan(&with(FACE, ", stop: step", ", stop: none"), Some(&shop(&only)));
    let it = first(&none);
    agrees("6756", value(it, "grip_needed"));
    assert_eq!(it.answer.choices.iter().find(|choice| choice.name == "grip_needed_by").unwrap().chosen, "moment");
    assert_eq!((verdict(it, "grip-moment"), it.verdict), (Verdict::Doubtful, Verdict::Doubtful));
    let check = it.answer.checks.iter().find(|check| check.id == "grip-moment").unwrap();
    assert!(check.remedies[0].starts_with("seat it against a step"), "{:?}", check.remedies);
    let gauged = in_other_shop(FACE, "jaw-force: 20 kN", "jaw-force: 20 kN, jaw-force-by: gauge");
    agrees("7656", value(first(&gauged), "jaw_force_low"));
}

#[test]
fn the_hub_of_the_worked_example() {
    let plan = in_shop(SKIM);
    let it = first(&plan);
    agrees("5598", value(it, "jaw_force_low"));
    agrees("20.3", value(it, "jaw_pressure"));
    assert_eq!(verdict(it, "flange"), Verdict::Proven);
    for check in ["dish", "ring-stress", "ring-lobe", "grip-looked-at"] {
        assert_eq!(state(it, check), Outcome::DoesNotApply, "{check}");
    }
    let thin = in_shop(&with(SKIM, "tool: hss-knife", "tool: hss-knife\n          thickness-at-rim: 2.5 ± 0.02 mm"));
    assert_eq!(verdict(first(&thin), "flange"), Verdict::Fails);
}

/// What cannot be a part is an error at its place; what can but must not be done fails.
#[test]
fn a_grip_that_cannot_be() {
    let says = |job: &str, from: &str, to: &str| {
        let problems = try_plan(&with(job, from, to), Some(&shop(SHOP))).expect_err("a problem");
        assert!(problems.iter().all(|problem| problem.place.is_some()), "{problems:?}");
        problems.iter().map(|problem| problem.says.clone()).collect::<Vec<_>>().join("\n")
    };
    assert!(says(FACE, "overhang: 12 mm", "overhang: 14 mm").contains("longer than the part"));
    assert!(says(FACE, "in: soft-jaws, diameter: 52 mm", "in: soft-jaws, diameter: 30 mm").contains("under the bore"));
    assert!(says(FACE, "diameter: 52 mm", "diameter: 52 mm, grips: inside").contains("gripped inside"));
    assert!(says(FACE, "stop: step", "stop: wall").contains("wall"));
    assert!(says(FACE, "stop: step", "tested: 0 N·m").contains("above zero"));
    let whole = in_shop(&with(FACE, "grip: 10 mm, overhang: 12 mm", "grip: 21.85 mm, overhang: 0 mm"));
    assert_eq!(verdict(first(&whole), "tool-clear"), Verdict::Fails);
    let hair = in_shop(&with(FACE, "grip: 10 mm", "grip: 0.01 mm"));
    for check in ["grip-length", "jaw-pressure"] {
        assert_eq!(verdict(first(&hair), check), Verdict::Fails, "{check}");
    }
    assert_eq!(first(&hair).answer.refused, None);
    let three = in_shop(&with(FACE, "in: soft-jaws", "in: three-jaw"));
    agrees("3444", value(first(&three), "grip_by_torque"));
}

#[test]
fn a_ring_with_almost_no_wall_is_not_refused() {
    let job = "job: A ring\nparts:\n  - part: ring\n    material: mild steel\n    operations:\n      - skim: {outside: 80 mm, inside: 79.9999 mm, length: 20 ± 0.02 mm, wear: 0.1 ± 0.02 mm, hold: {in: jaws, diameter: 80 mm, grip: 8 mm, overhang: 11 mm, true-within: 0.02 mm}}\n";
    let plan = in_shop(job);
    let it = first(&plan);
    assert_eq!(it.answer.refused, None);
    assert_eq!(verdict(it, "ring-lobe"), Verdict::Fails);
    assert!(it.answer.checks.iter().find(|check| check.id == "ring-lobe").unwrap().judged.is_some());
}

#[test]
fn swing_and_chuck_speed_by_what_is_known() {
    let small = in_other_shop(&with(FACE, "diameter: 52 mm", "diameter: 150 mm"), "swing: 230 mm", "swing: 185 mm");
    assert_eq!(verdict(first(&small), "swing"), Verdict::Fails, "150 + 40 + 6 = 196");
    let chuck = "chuck: {most: 1800 rev/min, jaw-force: 20 kN, diameter: 160 mm}";
    let body = in_other_shop(FACE, chuck, "chuck: {jaw-force: 20 kN, diameter: 160 mm}");
    let it = first(&body);
    let check = it.answer.checks.iter().find(|check| check.id == "chuck-speed").unwrap();
    agrees("2387", check.judged.unwrap().limit);
    assert!(it.answer.assumed.iter().any(|line| line.contains("20 m/s at its body")), "{:?}", it.answer.assumed);
    let by_diameter = in_other_shop(FACE, chuck, "chuck: {most: 1800 rev/min, diameter: 160 mm}");
    agrees("28000", value(first(&by_diameter), "jaw_force_high"));
    let nothing = in_other_shop(FACE, chuck, "chuck: {mass: 10 kg}");
    let it = first(&nothing);
    for (check, keys) in [
        ("chuck-speed", vec!["chuck.most"]),
        ("swing", vec!["chuck.diameter"]),
        ("grip", vec!["chuck.jaw-force", "hold.tested"]),
        ("grip-moment", vec!["chuck.jaw-force"]),
        ("ring-stress", vec!["chuck.jaw-force"]),
        ("dish", vec!["chuck.jaw-force"]),
        ("jaw-reach", vec!["chuck.diameter"]),
    ] {
        assert_eq!((state(it, check), missing(it, check)), (Outcome::NotChecked, keys.to_vec()), "{check}");
    }
    assert_eq!(it.verdict, Verdict::Doubtful);
}

#[test]
fn without_a_hold_and_without_a_shop() {
    let hold = "          hold: {in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step}\n";
    let bare = in_shop(&with(FACE, hold, ""));
    let it = first(&bare);
    for check in GRIP.iter().filter(|check| !["swing", "square"].contains(check)) {
        assert_eq!((state(it, check), missing(it, check)), (Outcome::NotChecked, vec!["hold"]), "{check}");
    }
    assert_ne!(it.verdict, Verdict::Proven);
    let alone = plan(FACE, None);
    let it = first(&alone);
    for check in ["swing", "chuck-speed", "jaw-reach", "jaw-pressure", "ring-lobe", "ring-stress", "dish"] {
        assert_eq!(state(it, check), Outcome::NoShop, "{check}");
    }
    for check in ["grip", "grip-moment"] {
        assert_eq!((state(it, check), missing(it, check)), (Outcome::NotChecked, vec!["hold.tested"]), "{check}");
    }
    assert_ne!(it.verdict, Verdict::Proven);
}

#[test]
fn a_mandrel_is_tried_before_the_first_cut() {
    let plan = in_shop(&common::held(FACE, "in: soft-jaws, diameter: 52 mm", "in: mandrel, diameter: 32 mm"));
    let it = first(&plan);
    assert_eq!(verdict(it, "grip-looked-at"), Verdict::Doubtful);
    let step = it.answer.set_ups[0].steps.iter().find(|step| step.id == "try-the-grip").expect("a hold point");
    assert!(step.words.contains("HOLD POINT") && step.words.contains("7.2 N·m"), "{}", step.words);
    let tried = in_shop(&with(
        &with(FACE, "in: soft-jaws, diameter: 52 mm", "in: mandrel, diameter: 32 mm"),
        "stop: step",
        "tested: 12 ± 1 N·m",
    ));
    assert_eq!(verdict(first(&tried), "grip"), Verdict::Proven);
    assert!(!first(&tried).answer.set_ups[0].steps.iter().any(|step| step.id == "try-the-grip"));
}

#[test]
fn the_sheet_says_how_hard_it_is_nipped() {
    let plan = in_shop(&with(FACE, "stop: step", "stop: step, nipped: light"));
    assert!(
        first(&plan).answer.set_ups[0].hold.iter().any(|line| line.words.contains("tighten lightly")),
        "{:?}",
        first(&plan).answer.set_ups[0].hold
    );
}

/// A ring on a mandrel is gripped in its bore; no chuck's jaw is asked for there.
#[test]
fn a_mandrel_grips_the_bore() {
    let on = common::held(FACE, "in: soft-jaws, diameter: 52 mm", "in: mandrel, diameter: 32 mm");
    let plan = in_shop(&with(&on, "least-case", "thickness-at-rim: 21.85 ± 0.01 mm\n          least-case"));
    let it = first(&plan);
    assert_eq!(verdict(it, "grip-looked-at"), Verdict::Doubtful);
    assert_eq!(verdict(it, "flange"), Verdict::Proven);
}

/// What bears against a press holds nothing that turns, whatever torque it stood.
#[test]
fn a_press_support_holds_nothing_that_turns() {
    let plan = in_shop(&with(&with(FACE, "in: soft-jaws", "in: press-support"), "stop: step", "tested: 30 ± 1 N·m"));
    assert_eq!(verdict(first(&plan), "grip-looked-at"), Verdict::Fails);
}

/// A skim's length is its thickness at the contact: where nobody says what is gripped, the grip may be longer.
#[test]
fn a_grip_is_longer_than_the_part_only_where_it_is_the_part_that_is_gripped() {
    let skim = include_str!("fixtures/skim.yaml");
    let nobody_says = common::try_plan(&with(skim, "diameter: 60 mm, ", ""), Some(&shop(SHOP)));
    let plan = nobody_says.unwrap_or_else(|_| panic!("refused"));
    assert_eq!(state(first(&plan), "grip"), Outcome::NotChecked);
    assert!(common::try_plan(&with(skim, "diameter: 60 mm", "diameter: 120 mm"), Some(&shop(SHOP))).is_err());
}

/// The contact may be a ring on a hub that is solid.
#[test]
fn a_hub_may_be_solid() {
    let hub = with(FACE, "diameter: 52 mm", "diameter: 30 mm, inside: 0 mm");
    let plan = common::try_plan(&hub, Some(&shop(SHOP))).unwrap_or_else(|_| panic!("refused"));
    assert_eq!(state(first(&plan), "ring-stress"), Outcome::DoesNotApply);
    let unsaid = with(FACE, "diameter: 52 mm", "diameter: 30 mm");
    let problems = common::try_plan(&unsaid, Some(&shop(SHOP))).err().unwrap_or_default();
    assert!(problems.iter().any(|problem| format!("{problem:?}").contains("0 mm where it is solid")));
}

/// A key that is left out never betters: work that stands out further than it is thick is cut slower, typed or not.
#[test]
fn an_overhang_that_nobody_typed_slows_the_cut_as_much() {
    let long = with(FACE, "length: 21.85 ± 0.01 mm", "length: 80 ± 0.01 mm");
    let typed = in_shop(&with(&long, "overhang: 12 mm", "overhang: 70 mm"));
    let left_out = in_shop(&with(&long, "overhang: 12 mm, ", ""));
    agrees(&format!("{:.2}", value(first(&typed), "speed_wanted")), value(first(&left_out), "speed_wanted"));
}

/// Whatever the hold, the same ids stand in the answer.
#[test]
fn the_ids_of_the_grip_never_depend_on_the_hold() {
    let ids = |job: &str| first(&in_shop(job)).answer.checks.iter().map(|check| check.id).collect::<Vec<_>>();
    let usual = ids(FACE);
    assert!(GRIP.iter().all(|check| usual.iter().any(|id| id == check)));
    for hold in [
        "{in: jaws}",
        "{in: four-jaw, diameter: 52 mm}",
        "{in: collet, overhang: 12 mm}",
        "{in: soft-jaws, grip: 5 mm, nipped: hard}",
        "{in: jaws, diameter: 40 mm, grips: inside, grip: 4 mm}",
        "{in: angle-plate, tested: 20 N·m}",
        "{in: clamps}",
    ] {
        let job = with(
            FACE,
            "{in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step}",
            hold,
        );
        assert_eq!(ids(&job), usual, "{hold}");
    }
}

const CHUCK: &str = "chuck: {most: 1800 rev/min, jaw-force: 20 kN, diameter: 160 mm}";

/// The four-jaw named is judged by its own figures: nothing of the scroll chuck stands in for what nobody typed of it.
#[test]
fn a_four_jaw_is_no_scroll_chuck() {
    let four = |typed: &str| {
        let shop = with(SHOP, CHUCK, &format!("four-jaw: {{{typed}}}\n      {CHUCK}"));
        plan(
            &with(FACE, "in: soft-jaws", "in: four-jaw"),
            Some(&common::shop(&shop.replace("      four-jaw: {screw-pitch: 2.54 mm, most: 1000 rev/min}\n", ""))),
        )
    };
    let own = four("most: 300 rev/min, jaw-force: 20 kN, diameter: 200 mm");
    assert!(1.06 * value(first(&own), "spindle_speed") <= 300.0, "{}", value(first(&own), "spindle_speed"));
    assert_eq!(verdict(first(&own), "chuck-speed"), Verdict::Proven);
    assert!(state(first(&own), "grip").verdict().is_some());
    let bare = four("screw-pitch: 2 mm");
    let it = first(&bare);
    for (check, keys) in [
        ("chuck-speed", vec!["four-jaw.most"]),
        ("swing", vec!["four-jaw.diameter"]),
        ("grip", vec!["four-jaw.jaw-force", "hold.tested"]),
        ("grip-moment", vec!["four-jaw.jaw-force"]),
        ("jaw-reach", vec!["four-jaw.diameter"]),
    ] {
        assert_eq!((state(it, check), missing(it, check)), (Outcome::NotChecked, keys), "{check}");
    }
    assert_eq!(value(it, "spindle_speed"), 38.0, "nobody says how fast it may turn: the lowest step");
    assert_ne!(it.verdict, Verdict::Proven);
    // Its body is no measure of jaws that stand out as far as they are set.
    let wide = four("diameter: 200 mm, jaw-force: 20 kN");
    assert_eq!(missing(first(&wide), "chuck-speed"), ["four-jaw.most"]);
}

/// What is bolted to a plate turns at the lowest step, and that under what the largest plate stands that swings there.
#[test]
fn a_plate_turns_at_the_lowest_step() {
    let plate = in_shop(&common::held(FACE, "in: soft-jaws", "in: faceplate, tested: 30 N·m"));
    assert_eq!(value(first(&plate), "spindle_speed"), 38.0);
    assert_eq!(verdict(first(&plate), "chuck-speed"), Verdict::Proven);
    let fast = in_other_shop(
        &common::held(FACE, "in: soft-jaws", "in: faceplate, tested: 30 N·m"),
        "spindle: 38 62 100 165 270 430 700 1120 rev/min",
        "spindle: 1700 rev/min",
    );
    assert_eq!(verdict(first(&fast), "chuck-speed"), Verdict::Fails, "1661 rev/min at 230 mm");
}

/// A vice turns with no spindle: whatever is cut on a lathe, such a job is refused at its line.
#[test]
fn a_part_that_turns_is_held_in_no_vice() {
    for (job, hold) in [
        (FACE, "in: soft-jaws"),
        (include_str!("../examples/turn.yaml"), "in: jaws"),
        (include_str!("../examples/bore-hole.yaml"), "in: soft-jaws"),
        (include_str!("../examples/skim.yaml"), "in: soft-jaws"),
        (include_str!("../examples/part-off.yaml"), "in: jaws"),
    ] {
        let Err(problems) = try_plan(&with(job, hold, "in: vice"), Some(&common::shop(SHOP))) else {
            panic!("planned in a vice: {job}")
        };
        let says = format!("{problems:?}");
        assert!(says.contains("no vice turns with a spindle"), "{says}");
    }
}

/// What is clamped down on a lathe is clamped to the faceplate: it turns as that, and the sheet says so.
#[test]
fn clamps_on_a_lathe_are_those_of_the_faceplate() {
    let held = |within: &str| in_shop(&common::held(FACE, "in: soft-jaws", within));
    let (clamps, plate) = (held("in: clamps, tested: 30 N·m"), held("in: faceplate, tested: 30 N·m"));
    assert_eq!(value(first(&clamps), "spindle_speed"), value(first(&plate), "spindle_speed"));
    let lines = |plan: &Plan| first(plan).answer.set_ups.iter().flat_map(|of| of.hold.clone()).collect::<Vec<_>>();
    let told = format!("{:?}", lines(&clamps));
    assert!(told.contains("faceplate") && !told.contains("table"), "{told}");
    for (of, plan) in [("clamps", &clamps), ("faceplate", &plate)] {
        let rigged = &first(plan).answer.set_ups[0].rigging;
        assert!(format!("{rigged:?}").contains("Faceplate"), "{of}: {rigged:?}");
    }
}

/// A plate that says how fast it may turn lets its work turn faster than the lowest step only once it is known how it is balanced;
/// never over what it says, at the high side of the step.
#[test]
fn a_faceplate_turns_as_fast_as_it_says_once_its_work_is_balanced() {
    let shop = |plate: &str| common::shop(&with(SHOP, CHUCK, &format!("{CHUCK}\n      faceplate: {{{plate}}}")));
    let at = |plate: &str, more: &str| {
        let held = common::held(FACE, "in: soft-jaws", "in: faceplate, swings: 52 mm, tested: 30 N·m");
        let job = with(&held, "          hold:", &format!("{more}          hold:"));
        plan(&job, Some(&shop(plate)))
    };
    let speed = |plan: &Plan| value(first(plan), "spindle_speed");
    let balanced = "          mass: 0.3 kg\n          off-centre: 0 mm\n";
    assert_eq!(speed(&at("most: 400 rev/min", "")), 38.0, "nobody says how far off its centre it weighs");
    assert_eq!(speed(&at("diameter: 200 mm", balanced)), 38.0, "nobody says how fast it may turn");
    let free = at("most: 400 rev/min", balanced);
    assert_eq!((speed(&free), verdict(first(&free), "chuck-speed")), (270.0, Verdict::Proven), "1.06 × 430 is over it");
    let slow = at("most: 35 rev/min", balanced);
    assert_eq!((speed(&slow), verdict(first(&slow), "chuck-speed")), (38.0, Verdict::Fails));
    // Its own body in the place of the largest that swings there; and it must clear the bed.
    assert_eq!(verdict(first(&at("diameter: 100 mm", "")), "swing"), Verdict::Proven);
    assert_eq!(verdict(first(&at("diameter: 228 mm", "")), "swing"), Verdict::Fails, "228 + 6 of 230 mm");
    // What is bolted on is as large as its farthest arm, and nobody knows how far that reaches who does not say.
    let arm = |swings: &str| {
        let held = common::held(FACE, "in: soft-jaws", &format!("in: faceplate, {swings}tested: 30 N·m"));
        let plan = plan(&held, Some(&shop("diameter: 100 mm")));
        common::state(first(&plan), "swing")
    };
    assert_eq!(arm(""), Outcome::NotChecked);
    assert_eq!(arm("swings: 200 mm, "), Outcome::Made(Verdict::Proven));
    assert_eq!(arm("swings: 225 mm, "), Outcome::Made(Verdict::Fails));
    let off = "          mass: 2 kg\n          off-centre: 4 mm\n";
    assert!(speed(&at("most: 400 rev/min", off)) < 270.0, "out of balance it turns slower");
}

/// A four-jaw chuck that says how fast it may turn is never turned faster, however fast the other one may.
#[test]
fn a_four_jaw_chuck_turns_no_faster_than_its_own_highest() {
    let job = "job: A disc\nparts:\n  - part: disc\n    material: LM25\n    operations:\n      - face:\n          outside: 60 mm\n          length: 30.0 ± 0.02 mm\n          wear: 0.25 ± 0.02 mm\n          finish: Ra 1.6 um\n          hold: {in: soft-jaws, diameter: 60 mm, grip: 15 mm, overhang: 12 mm, true-within: 0.02 mm, stop: step}\n          tool: carbide-04\n";
    let four = with(job, "soft-jaws", "four-jaw");
    let at = |job: &str, most: &str| {
        in_other_shop(job, "screw-pitch: 2.54 mm, most: 1000 rev/min", &format!("screw-pitch: 2.54 mm{most}"))
    };
    let speed = |plan: &Plan| value(first(plan), "spindle_speed");
    let free = at(&four, ", most: 2000 rev/min");
    assert_eq!((speed(&free), verdict(first(&free), "chuck-speed")), (700.0, Verdict::Proven));
    // 700 may be 6 % more: over 720; the next step below is 430.
    let capped = at(&four, ", most: 720 rev/min");
    assert_eq!((speed(&capped), verdict(first(&capped), "chuck-speed")), (430.0, Verdict::Proven));
    let slow = at(&four, ", most: 35 rev/min");
    assert_ne!(verdict(first(&slow), "chuck-speed"), Verdict::Proven, "no step is slow enough");
    assert_eq!(speed(&at(job, ", most: 720 rev/min")), 700.0, "in the other chuck it is the other's");
    // The other chuck's 1800 says nothing of a four-jaw that says nothing of itself.
    assert_eq!(speed(&at(&four, "")), 38.0);
}

/// Bolted to a plate, what nobody balanced turns out of balance, at the lowest step too.
#[test]
fn what_is_clamped_on_a_plate_is_balanced_or_in_doubt() {
    let turn = include_str!("../examples/turn.yaml");
    let held = |in_: &str, more: &str| {
        let line = turn.lines().find(|line| line.contains("hold:")).unwrap();
        let hold = format!(
            "          hold: {{in: {in_}, tested: 400 N·m, diameter: 24.6 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.05 mm}}{more}"
        );
        let plan = common::in_shop(&turn.replace(line, &hold));
        common::state(common::first(&plan), "balance")
    };
    for plate in ["clamps", "angle-plate", "faceplate"] {
        assert_eq!(held(plate, ""), Outcome::Made(Verdict::Doubtful), "{plate}");
        let balanced = held(plate, "\n          off-centre: 0 mm\n          mass: 0.3 kg");
        assert_eq!(balanced, Outcome::DoesNotApply, "{plate}");
    }
    assert_eq!(held("four-jaw", ""), Outcome::DoesNotApply);
}

/// No jaw is as long as its chuck is wide, and a run-out wider than a tenth of the diameter is hardly meant.
#[test]
fn a_grip_and_a_truth_that_cannot_be_meant() {
    let skim = include_str!("../examples/skim.yaml");
    let line = skim.lines().find(|line| line.contains("hold:")).unwrap();
    let gripped = |grip: &str| {
        let hold = format!(
            "          hold: {{in: soft-jaws, diameter: 60 mm, grip: {grip}, overhang: 20 mm, true-within: 0.02 mm, stop: step, inside: 0 mm}}"
        );
        common::verdict(common::first(&common::in_shop(&skim.replace(line, &hold))), "grip-length")
    };
    assert_eq!((gripped("12 mm"), gripped("1200 mm")), (Verdict::Proven, Verdict::Doubtful));
    let part_off = include_str!("../examples/part-off.yaml");
    let true_to = |within: &str| {
        let job = common::with(part_off, "true-within: 0.1 mm", &format!("true-within: {within}"));
        let plan = common::in_shop(&job);
        common::first(&plan).answer.checks.iter().any(|check| check.id == "true-within-meant")
    };
    assert_eq!(["0.1 mm", "1 mm", "6 mm", "100 mm"].map(true_to), [false, false, true, true]);
}

/// A thin ring bolted to a plate is bent by every clamp that has nothing behind it, and springs back when it is let go.
#[test]
fn a_thin_ring_that_is_bolted_down_lies_on_something_all_over_or_is_in_doubt() {
    let bolted = |hold: &str, backed: &str, length: &str| {
        let job = common::held(FACE, "in: soft-jaws", &format!("in: {hold}{backed}, tested: 200 N·m"));
        let plan = in_shop(&with(&with(&job, "21.85", length), "grip: 10 mm, overhang: 12 mm", "overhang: 4 mm"));
        let dish = first(&plan).answer.checks.iter().find(|check| check.id == "dish").unwrap();
        (dish.state, missing(first(&plan), "dish"))
    };
    for hold in ["faceplate", "clamps", "angle-plate"] {
        assert_eq!(bolted(hold, "", "5.85"), (Outcome::NotChecked, vec!["hold.backed"]), "{hold}");
        assert_eq!(bolted(hold, ", backed: at-clamps", "5.85").0, Outcome::Made(Verdict::Doubtful));
        assert_eq!(bolted(hold, ", backed: all-over", "5.85").0, Outcome::Made(Verdict::Proven));
        assert_eq!(bolted(hold, "", "14.85").0, Outcome::DoesNotApply, "thick as it is nothing bends it");
    }
    assert_eq!(bolted("collet", "", "5.85").0, Outcome::DoesNotApply, "pressed evenly all round");
}

/// A collet that holds a millimetre of a part holds nothing, however the torque was tried.
#[test]
fn a_collet_grips_over_a_length_as_jaws_do() {
    let gripped = |grip: &str| {
        let job = common::held(FACE, "in: soft-jaws", "in: collet, tested: 200 N·m");
        verdict(first(&in_shop(&with(&job, "grip: 10 mm", &format!("grip: {grip} mm")))), "grip-length")
    };
    assert_eq!((gripped("10"), gripped("1")), (Verdict::Proven, Verdict::Fails));
}

/// What seats on a step of the jaws ends there: a longer part seats on nothing, and nothing holds it against tilting; a smaller end
/// behind the shoulder that seats is said.
#[test]
fn what_is_longer_than_grip_and_overhang_seats_on_no_step() {
    let face = include_str!("../examples/face.yaml");
    let judged = |length: &str, hold: &str| {
        let job = with(&with(face, "length: 21.85 ± 0.01 mm", length), "stop: step", hold);
        let plan = in_shop(&job);
        (verdict(first(&plan), "seats-on-step"), first(&plan).verdict)
    };
    assert_eq!(judged("length: 21.85 ± 0.01 mm", "stop: step"), (Verdict::Proven, Verdict::Proven));
    let mut worst = Verdict::Proven;
    for length in ["22.5", "23.0", "24.0", "60", "150"] {
        let (now, stamp) = judged(&format!("length: {length} ± 0.01 mm"), "stop: step");
        assert!(now >= worst && stamp >= now, "{length}");
        worst = now;
    }
    assert_eq!(worst, Verdict::Doubtful);
    let shaft = judged("length: 60 ± 0.01 mm", "stop: step, behind: 38 mm");
    assert_eq!(shaft.0, Verdict::Proven, "its shoulder seats, 38 mm stand behind it");
    // Said to stand out by less than it does the arm of the cut is short: that seats nowhere either.
    let short = with(face, "overhang: 12 mm", "overhang: 2.5 mm");
    assert_eq!(verdict(first(&in_shop(&short)), "seats-on-step"), Verdict::Doubtful);
    let none = with(face, ", stop: step", "");
    assert_eq!(state(first(&in_shop(&none)), "seats-on-step"), Outcome::DoesNotApply);
}

/// What stands behind the jaws stands in chuck and spindle: thicker than their bore it does not go in.
#[test]
fn what_stands_behind_the_jaws_goes_through_the_spindle() {
    let turn = include_str!("../examples/turn.yaml");
    let bar = |size: &str, over_all: &str, bore: &str| {
        let job = with(
            &with(turn, "present: 24.60", &format!("present: {size}.60")),
            "diameter: 24.6",
            &format!("diameter: {size}.6"),
        );
        let job = with(
            &with(&job, "23.95 .. 24.00", &format!("{}.95 .. {size}.00", size.parse::<u32>().unwrap() - 1)),
            "stop: rod, ",
            "",
        );
        let job = with(&job, "over-all: 70 ± 0.2 mm", over_all);
        let shop = with(SHOP, "      swing: 230 mm\n", &format!("      swing: 230 mm\n{bore}"));
        plan(&job, Some(&common::shop(&shop))).operations[0].clone()
    };
    let state_of = |size: &str, over_all: &str, bore: &str| state(&bar(size, over_all, bore), "goes-through");
    assert_eq!(state_of("24", "over-all: 70 ± 0.2 mm", ""), Outcome::DoesNotApply, "it ends between the jaws");
    // An eighth of the chuck of 160.
    assert_eq!(state_of("19", "over-all: 250 mm", ""), Outcome::Made(Verdict::Proven));
    let mut worst = Outcome::Made(Verdict::Proven);
    for size in ["19", "21", "24", "41", "60", "100"] {
        let now = state_of(size, "over-all: 250 mm", "");
        assert!(matches!((now, worst), (Outcome::Made(now), Outcome::Made(then)) if now >= then), "{size}");
        worst = now;
    }
    assert_eq!(worst, Outcome::Made(Verdict::Doubtful), "a bore that nobody measured");
    assert_eq!(state_of("100", "over-all: 250 mm", "      bore: 26 mm\n"), Outcome::Made(Verdict::Fails));
    assert_eq!(state_of("41", "over-all: 250 mm", "      bore: 52 mm\n"), Outcome::Made(Verdict::Proven));
}

/// On a face that is cut right over no clamp stands, and nobody guesses where they are.
#[test]
fn no_clamp_stands_on_the_face_that_is_cut() {
    let bolted = |clamped: &str| {
        let job = common::held(FACE, "in: soft-jaws", &format!("in: faceplate{clamped}, tested: 200 N·m"));
        in_shop(&job).operations[0].clone()
    };
    assert_eq!(state(&bolted(""), "clear-of-clamps"), Outcome::NotChecked);
    assert_ne!(bolted("").verdict, Verdict::Proven);
    assert_eq!(verdict(&bolted(", clamped: behind"), "clear-of-clamps"), Verdict::Proven);
    assert_eq!(verdict(&bolted(", clamped: on-a-ledge"), "clear-of-clamps"), Verdict::Proven);
    assert_eq!(verdict(&bolted(", clamped: on-the-face"), "clear-of-clamps"), Verdict::Fails);
    assert_eq!(state(&in_shop(FACE).operations[0], "clear-of-clamps"), Outcome::DoesNotApply);
}

/// Where the loss at speed decides, the limit that it leaves is shown, and a lighter cut of all of this depth is no way out.
#[test]
fn the_limit_that_makes_a_grip_doubtful_is_the_one_that_is_shown() {
    let turn = with(include_str!("../examples/turn.yaml"), "nipped: hard", "nipped: normal");
    // Of a lathe with one step nothing slower is taken.
    let steps = "38 62 100 165 270 430 700 1120 rev/min";
    let fast = with(include_str!("../examples/shop.yaml"), steps, "1120 rev/min");
    let it = plan(&turn, Some(&common::shop(&fast))).operations[0].clone();
    for id in ["grip", "grip-moment"] {
        let check = it.answer.checks.iter().find(|check| check.id == id).unwrap();
        if check.is_proven() {
            continue;
        }
        assert!(check.judged.unwrap().margin < 0.0, "{id}: {:?}", check.judged);
        assert!(check.remedies.iter().all(|remedy| !remedy.words.contains("100 %")), "{id}: {:?}", check.remedies);
    }
    assert_eq!(verdict(&it, "grip"), Verdict::Doubtful);
}

/// A boss of 48 mm is not gripped on 144, nor a bar of 24.6 on 73.8: more grip must not come of a slip of the pen.
#[test]
fn what_is_gripped_is_a_diameter_of_the_part() {
    let said = |job: &str| {
        let plan = in_shop(job);
        plan.operations[0].answer.checks.iter().find(|check| check.id == "gripped-as-given").and_then(|check| {
            assert!(plan.operations[0].verdict >= check.verdict().unwrap());
            check.verdict()
        })
    };
    let (bore, turn) = (include_str!("../examples/bore-hole.yaml"), include_str!("../examples/turn.yaml"));
    assert_eq!((said(bore), said(turn)), (None, None));
    let of = |gripped: &str| said(&with(bore, "diameter: 48 mm", &format!("diameter: {gripped}")));
    assert_eq!((of("144 mm"), of("72 mm"), of("73 mm")), (Some(Verdict::Doubtful), None, Some(Verdict::Doubtful)));
    assert_eq!(of("144 mm, inside: 24 mm"), None, "a flange whose bore is known");
    let thick = turn.lines().find(|line| line.contains("hold:")).unwrap();
    let gripped = |size: &str| {
        let (from, _) = thick.split_once("diameter: ").map(|(_, rest)| rest.split_once(',').unwrap()).unwrap();
        said(&with(turn, &format!("diameter: {from}"), &format!("diameter: {size}")))
    };
    assert_eq!((gripped("73.8 mm"), gripped("4 mm")), (Some(Verdict::Doubtful), Some(Verdict::Doubtful)));
}

/// A tool more in the drawer, a step more on the plate, a coarser finish make no cut less sure: what the grip does not carry is not taken.
#[test]
fn a_better_shop_and_a_coarser_finish_are_no_worse() {
    let whole = include_str!("../examples/shop.yaml");
    let line = |of: &str| format!("{}\n", whole.lines().find(|line| line.contains(of)).unwrap());
    let weaker = [
        with(whole, &line("carbide-04"), ""),
        with(whole, " 430 700 1120 rev/min", " rev/min"),
        with(whole, " 0.08 0.10 0.13 0.20 mm/rev", " mm/rev"),
        with(whole, "most-depth: 1.0 mm", "most-depth: 0.3 mm"),
    ];
    let turn = with(include_str!("../examples/turn.yaml"), "nipped: hard", "nipped: normal");
    let skim = include_str!("../examples/skim.yaml");
    let of = |job: &str, text: &str| plan(job, Some(&shop(text))).operations[0].clone();
    let rough = |ra: &str| with(skim, "finish: Ra 3.2 um", &format!("finish: Ra {ra} um"));
    for job in [&turn, skim, &rough("9.6"), &rough("6.4"), &with(&turn, "nipped: normal", "nipped: light")] {
        let best = of(job, whole);
        for less in &weaker {
            let other = of(job, less);
            assert!(best.verdict <= other.verdict, "{job}\n{:?} with all, {:?} with less", best.verdict, other.verdict);
        }
    }
    let turned = of(&turn, whole);
    let tool = turned.answer.choices.iter().find(|choice| choice.name == "tool").unwrap();
    assert_eq!((turned.verdict, tool.chosen.as_str()), (Verdict::Proven, "hss-knife"));
    assert!(tool.why.contains("grip and motor carry"), "{}", tool.why);
    let verdicts = ["1.6", "3.2", "6.4", "9.6"].map(|ra| of(&rough(ra), whole).verdict);
    assert!(verdicts.is_sorted_by(|finer, coarser| coarser <= finer), "{verdicts:?}");
    // What it was held down to is said.
    let eased = of(&rough("9.6"), whole);
    let choices: Vec<_> = eased.answer.choices.iter().map(|choice| choice.name).collect();
    assert!(choices.contains(&"feed_cap") || choices.contains(&"speed_cap"), "{choices:?}");
    // A tool that the job names is judged; its step and feed are still those that the grip carries.
    let named = with(&turn, "finish: Ra 3.2 um", "finish: Ra 3.2 um\n          tool: carbide-04");
    let named = of(&named, whole);
    assert!(named.answer.choices.iter().any(|choice| choice.name == "tool" && choice.chosen == "carbide-04"));
}

/// A test at rest knows nothing of what the speed takes from the jaws: at a fast step it must have stood that as well.
#[test]
fn a_test_at_rest_must_stand_what_the_speed_takes() {
    let text = include_str!("../examples/shop.yaml");
    let carbide: String =
        text.lines().filter(|line| !line.contains("hss-knife")).map(|line| format!("{line}\n")).collect();
    let of = |shop_text: &str, tested: &str| {
        let job =
            with(include_str!("../examples/turn.yaml"), "nipped: hard", &format!("nipped: hard, tested: {tested}"));
        verdict(first(&plan(&job, Some(&shop(shop_text)))), "grip")
    };
    // 0.67 (1187 / 1800)^2 of 20 kN, at a friction of 0.15 on 24.6 mm: some 8.6 N·m beside the 2.4 that the cut asks.
    assert_eq!(of(&carbide, "3 N·m"), Verdict::Doubtful);
    assert_eq!(of(&carbide, "10 N·m"), Verdict::Doubtful);
    assert_eq!(of(&carbide, "12 N·m"), Verdict::Proven);
    // At the steps of a tool of high-speed steel the jaws lose next to nothing.
    assert_eq!(of(text, "3 N·m"), Verdict::Proven);
}

/// A thin ring, nipped lightly already.
const RING: &str = "job: A thin ring\nparts:\n  - part: thrust washer\n    material: phosphor bronze\n    operations:\n      - face:\n          outside: 46 mm\n          inside: 40 mm\n          length: 2.00 ± 0.01 mm\n          wear: 0.10 ± 0.02 mm\n          finish: Ra 1.6 um\n          square-within: 0.02 mm\n          hold: {in: jaws, diameter: 46 mm, grip: 1.2 mm, overhang: 0.8 mm, true-within: 0.02 mm, stop: step, nipped: light}\n";

/// What is done already is no way out, and what would leave a check as it stands is none either.
#[test]
fn what_is_done_already_is_no_remedy() {
    let shop = common::shop(include_str!("../examples/shop.yaml"));
    let of = |job: &str| plan(job, Some(&shop)).operations[0].clone();
    let said = |it: &Planned| -> Vec<String> {
        let ring = it.answer.checks.iter().filter(|check| ["ring-lobe", "ring-stress", "dish"].contains(&check.id));
        let open = ring.filter(|check| check.verdict() > Some(Verdict::Proven));
        open.flat_map(|check| check.remedies.iter().map(|remedy| remedy.words.clone()).chain(check.remedy.clone()))
            .collect()
    };
    let light = said(&of(RING));
    assert!(!light.is_empty() && light.iter().all(|words| !words.contains("lightly")), "{light:?}");
    for nipped in ["light", "normal", "hard"] {
        for held in ["jaws", "soft-jaws"] {
            let job =
                with(&with(RING, "nipped: light", &format!("nipped: {nipped}")), "in: jaws", &format!("in: {held}"));
            for check in of(&job).answer.checks.iter().filter(|check| ["ring-lobe", "ring-stress"].contains(&check.id))
            {
                let better = |gives| Some(gives) < check.verdict();
                let gives: Vec<Verdict> = check.remedies.iter().filter_map(|remedy| remedy.gives).collect();
                assert!(gives.iter().all(|gives| better(*gives)), "{nipped} {held} {}: {gives:?}", check.id);
            }
        }
    }
}
