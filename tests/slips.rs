//! What would let work fly, break through or run out of true where one figure is a slip, one size is cut elsewhere, or one key is left out:
//! never proven.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{SHOP, first, in_shop, plan, shop, state, try_plan, verdict, with};
use setover::plan::Plan;
use setover::proof::{Outcome, Verdict};

const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const PRESS: &str = include_str!("../examples/press-in.yaml");
const TURN: &str = include_str!("../examples/turn.yaml");
const BORE_HOLE: &str = include_str!("../examples/bore-hole.yaml");
const POLISH: &str = include_str!("../examples/polish-seal.yaml");

fn of(example: &str) -> String {
    example.split_once("    operations:\n").expect("an example has operations").1.to_owned()
}

fn job(metal: &str, operations: &[String]) -> String {
    format!("job: One\nparts:\n  - part: piece\n    material: {metal}\n    operations:\n{}", operations.concat())
}

fn texts(plan: &Plan, at: usize) -> String {
    let steps = plan.operations[at].answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    let say = |step: &setover::operations::Step<String>| {
        let then = step.hold_point.iter().flat_map(|hold| &hold.then).cloned().collect::<String>();
        format!("{} {then}", step.words)
    };
    steps.map(say).collect::<Vec<_>>().join("\n")
}

/// A casting that spins on the drill: how it is held is judged where somebody says it, as for every drill.
#[test]
fn the_hold_of_a_casting_under_the_drill_is_judged() {
    let line = INSERT.lines().find(|line| line.trim_start().starts_with("hold:")).unwrap();
    let held = |hold: &str| in_shop(&with(INSERT, line, &format!("          hold: {hold}")));
    assert_eq!(first(&in_shop(INSERT)).verdict, Verdict::Proven);
    let bare = in_shop(&with(INSERT, &format!("{line}\n"), ""));
    assert_eq!(state(first(&bare), "held"), Outcome::NotChecked);
    assert_eq!(first(&bare).verdict, Verdict::Doubtful, "a casting that nobody holds is not proven");
    let proven = held("{in: vice, tested: 60 N·m, grip: 12 mm, overhang: 6 mm}");
    assert_eq!(first(&proven).verdict, Verdict::Proven);
    assert_eq!(
        verdict(first(&held("{in: vice, tested: 0.5 N·m, grip: 12 mm, overhang: 6 mm}")), "grip"),
        Verdict::Fails
    );
    assert_eq!(verdict(first(&held("{in: vice}")), "grip-looked-at"), Verdict::Doubtful);
    assert!(texts(&held("{in: vice}"), 0).contains("bar and spring balance on the casting"));
    assert_eq!(verdict(first(&held("{in: mandrel, tested: 60 N·m}")), "held"), Verdict::Doubtful);
    assert_eq!(first(&held("{in: press-support}")).verdict, Verdict::Fails);
}

/// A bar stands further in the chuck than its jaws touch it.
#[test]
fn jaws_grip_no_more_than_they_are_long() {
    let line = TURN.lines().find(|line| line.contains("hold:")).unwrap();
    let grip = |length: &str| {
        let at = line.find("grip: ").unwrap() + 6;
        let end = at + line[at..].find(" mm").unwrap();
        let own = format!("{}{length}{}", &line[..at], &line[end..]);
        let over = TURN.lines().find(|line| line.trim_start().starts_with("over-all:")).unwrap();
        let job = with(&with(TURN, line, &own), over, "          over-all: 400 ± 0.2 mm");
        let plan = in_shop(&job);
        let needed = |key: &str| first(&plan).answer.value(key).map(|value| value.number);
        (needed("grip_by_moment"), needed("jaw_pressure"))
    };
    // A jaw of a chuck of 160 mm is 64 mm long at the most.
    assert_eq!(grip("64"), grip("130"));
    assert_ne!(grip("40"), grip("64"));
}

/// One slip of the point in a doubt: the finest instrument of the shop reads no tenth of a micrometre.
#[test]
fn a_doubt_finer_than_the_shop_reads_is_asked_for() {
    let fine = |job: &str, from: &str, to: &str| verdict(first(&in_shop(&with(job, from, to))), "doubt-plausible");
    let bush = PRESS.lines().find(|line| line.contains("24.036 ± 0.004 mm")).unwrap();
    for (typed, held) in [("0.004", Verdict::Proven), ("0.002", Verdict::Proven), ("0.0001", Verdict::Doubtful)] {
        let own = bush.replace("24.036 ± 0.004", &format!("24.036 ± {typed}"));
        assert_eq!(fine(PRESS, bush, &own), held, "{typed}");
    }
    let wall = INSERT.lines().find(|line| line.trim_start().starts_with("wall:")).unwrap();
    assert_eq!(fine(INSERT, wall, "          wall: 18.0 ± 0.001 mm"), Verdict::Doubtful);
    let alone = try_plan(&with(INSERT, wall, "          wall: 18.0 ± 0.0001 mm"), None).unwrap();
    assert_eq!(verdict(first(&alone), "doubt-plausible"), Verdict::Doubtful, "without a shop too");
}

/// A jaw force, a stamp and a test that no chuck and no arm gives are refused where they stand.
#[test]
fn figures_that_hold_the_work_are_bounded() {
    let says = |shop_text: &str| {
        let node = setover::reading::Node::yaml(shop_text, setover::proof::Place::start(0)).unwrap();
        let read = node.read::<setover::shop::Shop>();
        let problems = match read {
            Ok(shop) => shop.problems(),
            Err(problem) => problem,
        };
        problems.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n")
    };
    assert_eq!(says(SHOP), "");
    let force = SHOP.find("jaw-force: ").map(|at| &SHOP[at..at + SHOP[at..].find(" kN").unwrap()]).unwrap();
    assert!(says(&SHOP.replacen(force, "jaw-force: 200", 1)).contains("no hand puts so much on a chuck"));
    let most = SHOP.find("chuck: {most: ").map(|at| &SHOP[at..at + SHOP[at..].find(" rev").unwrap()]).unwrap();
    assert!(says(&SHOP.replacen(most, "chuck: {most: 18000", 1)).contains("turns so fast"));
    let line = TURN.lines().find(|line| line.contains("hold:")).unwrap();
    let tested = |typed: &str| {
        try_plan(&with(TURN, line, &line.replace("{in:", &format!("{{tested: {typed}, in:"))), Some(&shop(SHOP)))
    };
    assert!(tested("200 N·m").is_ok());
    assert!(tested("2000 N·m").unwrap_err()[0].to_string().contains("no arm with a bar"));
}

const HARD_PLATE: &str = include_str!("jobs/lapped-hard-plate.yaml");

/// A lap goes through a hard case like every other cut.
#[test]
fn a_lap_does_not_go_through_the_case() {
    let of = |depth: &str| verdict(first(&in_shop(&with(HARD_PLATE, "0.05 ± 0.01 mm", depth))), "case");
    assert_eq!(
        [of("0.80 ± 0.01 mm"), of("0.05 ± 0.01 mm"), of("0.03 ± 0.005 mm")],
        [Verdict::Proven, Verdict::Doubtful, Verdict::Fails]
    );
    let line = HARD_PLATE.lines().find(|line| line.trim_start().starts_with("case-depth:")).unwrap();
    assert_eq!(verdict(first(&in_shop(&with(HARD_PLATE, &format!("{line}\n"), ""))), "case"), Verdict::Doubtful);
    let soft = in_shop(include_str!("../examples/lap.yaml"));
    assert_eq!(state(first(&soft), "case"), Outcome::DoesNotApply);
}

/// What is bored once a bush is in is the bush.
#[test]
fn a_bore_in_a_bush_is_worked_for_the_bush() {
    let stands = "stands: flush                   # opened-by, chilled-by: it drops in";
    let press = |metal: &str| {
        let press =
            of(&with(PRESS, stands, "stands: flush\n          bored-after: true\n          set-up: {feature: b}"));
        let from = press.find("material: ").unwrap();
        let end = from + press[from..].find([',', '}']).unwrap();
        format!("{}material: {metal}{}", &press[..from], &press[end..])
    };
    let bore = |more: &str, at: &str| {
        let bore = of(&with(BORE_HOLE, "present: 24.2 ± 0.05 mm", &format!("present: {at}\n          {more}")));
        bore.replace("bore: 25.00 .. 25.05 mm", "bore: 18.50 .. 18.55 mm")
    };
    let said = |metal: &str, more: &str, at: &str| {
        let plan = in_shop(&job("cast aluminium", &[press(metal), bore(more, at)]));
        (verdict_if(&plan, 0, "may-be-bored"), verdict_if(&plan, 1, "metal-bored"))
    };
    let handed = "{of: piece/press-in/bore_after_pressing}";
    let (proven, doubtful, fails) = (Some(Verdict::Proven), Some(Verdict::Doubtful), Some(Verdict::Fails));
    assert_eq!(said("phosphor bronze", "set-up: {feature: b}", handed), (proven, doubtful));
    assert_eq!(said("phosphor bronze", "material: PB1\n          set-up: {feature: b}", handed), (proven, None));
    assert_eq!(
        said("phosphor bronze", "set-up: {feature: b}", "17.97 ± 0.02 mm"),
        (proven, doubtful),
        "by its feature"
    );
    assert_eq!(said("phosphor bronze", "set-up: {feature: other}", "17.0 ± 0.02 mm"), (proven, None), "another hole");
    assert_eq!(
        said("sintered bronze", "material: sintered bronze\n          set-up: {feature: b}", handed),
        (fails, fails)
    );
    let hard = in_shop(&job(
        "cast aluminium",
        &[press("case-hardened steel"), bore("material: case-hardened steel\n          set-up: {feature: b}", handed)],
    ));
    assert_ne!(hard.operations[1].verdict, Verdict::Proven, "high-speed steel does not bore a hard bush");
}

fn verdict_if(plan: &Plan, at: usize, check: &str) -> Option<Verdict> {
    plan.operations[at].answer.checks.iter().find(|one| one.id == check).and_then(setover::proof::Check::verdict)
}

/// A diameter that was turned off is gripped only where enough of it still stands.
#[test]
fn what_was_turned_off_is_not_gripped() {
    let turn = "      - turn: {present: 48.0 ± 0.02 mm, outside: 43.95 .. 44.00 mm, length: 12.0 ± 0.2 mm, over-all: 30 ± 0.1 mm, corner: 0.4 mm, inside: 24.2 mm, finish: Ra 3.2 um, hold: {in: soft-jaws, diameter: 60 mm, inside: 24.2 mm, grip: 14 mm, overhang: 16 mm, true-within: 0.05 mm, stop: step}}\n";
    let bore = |diameter: &str, grip: &str| {
        let bore = of(BORE_HOLE).replace("outside: 48.0 ± 0.1 mm", "outside: 60.0 ± 0.1 mm");
        let bore = bore.replace("diameter: 48 mm", &format!("diameter: {diameter}"));
        bore.replace("grip: 18 mm", &format!("grip: {grip}"))
    };
    let said =
        |operations: [String; 2], at: usize| verdict_if(&in_shop(&job("GG25", &operations)), at, "size-still-there");
    assert_eq!(said([turn.into(), bore("48 mm", "18 mm")], 1), Some(Verdict::Doubtful));
    assert_eq!(said([turn.into(), bore("48 mm", "15 mm")], 1), None, "enough of it stands behind the cut");
    assert_eq!(said([turn.into(), bore("43.975 mm", "11 mm")], 1), None, "what is left is gripped");
    assert_eq!(said([turn.into(), bore("60 mm", "18 mm")], 1), None, "another diameter");
    // Turned from both ends, nothing is left between them to be gripped.
    let end =
        |name: &str| turn.replacen("- turn: {", &format!("- turn: {{set-up: {{name: {name}, feature: {name}}}, "), 1);
    let both = |second: &str, grip: &str| {
        let plan = in_shop(&job("GG25", &[end("near"), end(second), bore("48 mm", grip)]));
        verdict_if(&plan, 2, "size-still-there")
    };
    assert_eq!(both("far", "10 mm"), Some(Verdict::Doubtful));
}

/// A track is polished smaller: whoever goes by the shaft as it was read goes by what is gone then.
#[test]
fn a_polished_track_is_no_more_the_shaft_that_was_read() {
    let fit = include_str!("../examples/fit-up.yaml");
    let size = POLISH.lines().find(|line| line.trim_start().starts_with("size:")).unwrap().trim();
    let read = size.trim_start_matches("size: ").split('#').next().unwrap().trim().to_owned();
    let line = fit.lines().find(|line| line.trim_start().starts_with("shaft:")).unwrap();
    let fit = of(&with(fit, line, &format!("          shaft: {read}")));
    let said = |operations: [String; 2], at| {
        verdict_if(&in_shop(&job("case-hardened steel", &operations)), at, "size-still-there")
    };
    assert_eq!(said([fit.clone(), of(POLISH)], 0), Some(Verdict::Doubtful));
    assert_eq!(said([of(POLISH), fit], 1), Some(Verdict::Doubtful));
}

/// A base that stands out of square is not made good by truing the barrel worse.
#[test]
fn a_base_out_of_square_is_never_proven_by_a_worse_truing() {
    let example = include_str!("../examples/bore.yaml");
    let of = |square: &str, within: &str| {
        let job = with(example, "base-square: 0.010 ± 0.003 mm", &format!("base-square: {square} ± 0.003 mm"));
        let job = with(&job, "true-within: 0.02 mm", &format!("true-within: {within} mm"));
        verdict(first(&in_shop(&job)), "base-square")
    };
    assert_eq!(of("0.010", "0.02"), Verdict::Proven);
    assert_eq!(of("0.15", "0.02"), Verdict::Fails);
    assert_eq!(of("0.15", "0.2"), Verdict::Fails);
    assert_eq!(of("0.06", "0.2"), Verdict::Fails);
}

/// A slide that stands over is dialled further than it cuts, in the words of the step as on its dial.
#[test]
fn what_was_measured_is_dialled_by_a_slide_set_over() {
    for example in [include_str!("../examples/face.yaml"), include_str!("../examples/skim.yaml")] {
        let at = |angle: &str| {
            let own = with(SHOP, "set-over: 0 deg", &format!("set-over: {angle} deg"));
            texts(&plan(example, Some(&shop(&own))), 0)
        };
        assert!(at("0").contains("Then dial on: reading less"), "{}", at("0"));
        assert!(at("60").contains("Then dial on 2.000 × (reading less"), "{}", at("60"));
        if example.contains("- skim:") {
            let line = at("60").lines().find(|line| line.starts_with("Step: ")).unwrap().to_owned();
            assert!(line.contains("along the slide"), "{line}");
        }
    }
}

/// A grip is known by what the bar is called, and in a drilling machine's jaws as in a lathe's; two ends that both have a name are two.
#[test]
fn a_grip_is_known_however_it_is_typed() {
    let turn = |name: &str| {
        format!(
            "      - turn: {{set-up: {{name: {name}, feature: {name}}}, present: 24.60 ± 0.02 mm, outside: 23.95 .. 24.00 mm, length: 22.0 ± 0.2 mm, over-all: 70 ± 0.2 mm, corner: 0.4 mm, finish: Ra 3.2 um, hold: {{in: jaws, diameter: 24.6 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.05 mm, stop: rod, nipped: hard}}}}\n"
        )
    };
    let drill = |diameter: &str, grip: &str| {
        format!(
            "      - drill: {{starts-on: flat, diameter: 6.8 mm, depth: 15 mm, wall: 24 ± 0.1 mm, hold: {{in: jaws, diameter: {diameter} mm, grip: {grip} mm, overhang: 15 mm, tested: 40 N·m, stop: step}}}}\n"
        )
    };
    let of = |diameter: &str, grip: &str| {
        verdict_if(&in_shop(&job("mild steel", &[turn("near"), drill(diameter, grip)])), 1, "size-still-there")
    };
    assert_eq!(of("24.6", "55"), Some(Verdict::Doubtful));
    assert_eq!(of("25", "55"), Some(Verdict::Doubtful), "by its nominal");
    assert_eq!(of("24.6", "40"), None, "enough of it stands");
    assert_eq!(of("24", "20"), None, "what was turned");
    let both = in_shop(&job("mild steel", &[turn("near"), turn("far")]));
    let at_the_other = verdict_if(&both, 1, "size-still-there");
    assert_eq!(at_the_other, Some(Verdict::Doubtful), "18 of the 40 that are gripped were not turned down");
}

/// A wear that is the difference of two readings is as fine as those, whatever reads a size so small.
#[test]
fn a_difference_of_two_readings_is_not_too_fine() {
    let face = include_str!("../examples/face.yaml");
    let line = face.lines().find(|line| line.trim_start().starts_with("wear:")).unwrap();
    let at =
        |wear: &str| verdict(first(&in_shop(&with(face, line, &format!("          wear: {wear}")))), "doubt-plausible");
    assert_eq!(at("0.25 ± 0.006 mm"), Verdict::Proven);
}
