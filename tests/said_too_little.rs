//! What is left out, read worse, or done between two works, never makes a better stamp: holds that are given up, holes that are there
//! already, edges that nobody measured, readings so coarse that nothing can contradict them.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use common::*;
use setover::plan::Plan;
use setover::proof::{Outcome, Verdict};

const TURN: &str = include_str!("../examples/turn.yaml");
const DRILL: &str = include_str!("../examples/drill.yaml");
const TAP: &str = include_str!("../examples/tap.yaml");
const SEAL: &str = include_str!("../examples/polish-seal.yaml");
const SHIM: &str = include_str!("../examples/shim.yaml");
const BORE: &str = include_str!("../examples/bore.yaml");

fn own(job: &str) -> Plan {
    plan(job, Some(&shop(include_str!("../examples/shop.yaml"))))
}

/// The operations of an example, as lines of its part.
fn operations(job: &str) -> &str {
    job.split_once("    operations:\n").unwrap().1
}

fn made(plan: &Plan, at: usize, check: &str) -> Option<Verdict> {
    let check = plan.operations[at].answer.checks.iter().find(|own| own.id == check)?;
    check.verdict()
}

/// A shaft trued in the four-jaw, something between, and a cut that asks for that truing.
fn trued_then(between: &str, held: &str) -> Plan {
    let truing = operations(include_str!("../examples/set-true.yaml"));
    let truing = with(truing, "{in: four-jaw}", held);
    let turn = with(operations(TURN), "in: jaws", "in: four-jaw");
    let turn = with(&turn, "true-within: 0.05 mm", "true-within: 0.02 mm");
    own(&with(TURN, operations(TURN), &format!("{truing}{between}{turn}")))
}

/// Nothing is washed in a chuck: what was trued before is put back as any work is.
#[test]
fn a_bath_gives_up_a_truing() {
    const WASH: &str = "      - wash: {cleaner: paraffin, dirt: oil, cavities: 0}\n";
    const BURR: &str = "      - deburr: {edges: 2, by: stone}\n";
    let moved = |between: &str| made(&trued_then(between, "{in: four-jaw}"), 2, "trued-and-moved");
    assert_eq!(moved(WASH), Some(Verdict::Doubtful));
    assert_eq!(moved(BURR), None, "deburred where it is held");
}

/// Gripped on another diameter it is the other end, or another place: nothing of the truing is left.
#[test]
fn a_truing_is_good_for_the_grip_that_it_was_made_in() {
    let elsewhere = |held: &str| made(&trued_then("", held), 1, "trued-elsewhere");
    assert_eq!(elsewhere("{in: four-jaw, diameter: 24.6 mm}"), None);
    assert_eq!(elsewhere("{in: four-jaw, diameter: 30 mm, grip: 15 mm, overhang: 55 mm}"), Some(Verdict::Doubtful));
}

/// Jaws print a track that was polished.
#[test]
fn nothing_is_trued_behind_the_polish() {
    let truing = operations(include_str!("../examples/set-true.yaml"));
    let both = |jobs: [&str; 2]| own(&with(SEAL, operations(SEAL), &jobs.concat()));
    let order = |plan: &Plan| {
        plan.operations
            .iter()
            .flat_map(|planned| &planned.answer.checks)
            .any(|check| check.id == "order-of-operations" && check.verdict() == Some(Verdict::Doubtful))
    };
    assert!(order(&both([operations(SEAL), truing])));
    assert!(!order(&both([truing, operations(SEAL)])));
}

/// Links as they were read tell of no face that is cut in the same job and says that it moves a float.
#[test]
fn a_float_by_typed_links_is_doubtful_beside_a_cut_that_opens_one() {
    const FACE: &str = include_str!("../examples/face.yaml");
    const STILL: &str = "size-still-there";
    let face = |float: bool, more: &str| {
        let parts = FACE.split_once("parts:\n").unwrap().1;
        let says = |line: &&str| ["float:", "as-found-float:", "bears:"].iter().any(|key| line.trim().starts_with(key));
        let parts: String = parts.split_inclusive('\n').filter(|line| float || !says(line)).collect();
        let parts = with(&parts, "    operations:", &format!("{more}    operations:"));
        let shim = SHIM.split_once("parts:\n").unwrap().1;
        let shim = with(shim, "    operations:", "    assembly: gearbox\n    operations:");
        own(&format!("job: Float\nparts:\n{parts}{shim}"))
    };
    let gearbox = "    assembly: gearbox\n";
    assert_eq!(made(&face(false, "    assembly: engine\n"), 1, STILL), None);
    assert_eq!(made(&face(false, ""), 1, STILL), None, "no link reads the length that goes");
    assert_eq!(made(&face(false, gearbox), 1, STILL), Some(Verdict::Doubtful), "its own box, and no word of the float");
    assert_eq!(made(&face(true, gearbox), 1, STILL), Some(Verdict::Doubtful));
    assert_eq!(made(&face(true, ""), 1, STILL), Some(Verdict::Doubtful), "nobody says of which it is");
    assert_eq!(made(&face(true, "    assembly: engine\n"), 1, STILL), None);
}

/// A reading so coarse that it contradicts nothing proves no more than a good one that contradicts.
#[test]
fn a_coarser_reading_hides_no_slip() {
    let closed = |found: &str| {
        let job = with(SHIM, "float: 0.10 .. 0.30 mm", "float: 0.00 .. 0.60 mm");
        made(&own(&with(&job, "size: 0.38 ± 0.01 mm", &format!("size: {found}"))), 0, "chain-closed")
    };
    assert_eq!(closed("0.38 ± 0.01 mm"), Some(Verdict::Proven));
    for doubt in [0.01, 0.02, 0.05, 0.1, 0.15] {
        assert_eq!(closed(&format!("0.48 ± {doubt} mm")), Some(Verdict::Doubtful), "{doubt}");
    }
    let line = BORE.lines().find(|line| line.trim_start().starts_with("unworn:")).unwrap();
    let ring =
        |unworn: &str| made(&own(&with(BORE, line, &format!("          unworn: {unworn}"))), 0, "unworn-is-least");
    for doubt in [0.008, 0.02, 0.03, 0.05] {
        assert_eq!(ring(&format!("46.060 ± {doubt} mm")), Some(Verdict::Doubtful), "{doubt}");
    }
}

/// How far the edge is, nobody measured: that is no better than near it.
#[test]
fn an_edge_that_nobody_measured_is_not_far() {
    let jobs = [
        (DRILL, "edge-wall"),
        (TAP, "edge-wall"),
        (include_str!("../examples/thread-insert.yaml"), "edge-wall"),
        (include_str!("../examples/spot-face.yaml"), "seat-on-metal"),
    ];
    for (job, check) in jobs {
        let edge = job.lines().find(|line| line.trim_start().starts_with("edge:")).unwrap();
        assert_eq!(state(first(&own(job)), check), Outcome::Made(Verdict::Proven), "{job}");
        let without = own(&with(job, &format!("{edge}\n"), ""));
        assert_eq!(state(first(&without), check), Outcome::NotChecked);
        assert_ne!(first(&without).verdict, Verdict::Proven, "{job}");
    }
}

/// M8 in aluminium: a turn and a bit of thread strips as the screw is drawn up; 1.5 diameters are 12 mm.
#[test]
fn a_thread_of_one_turn_is_not_proven() {
    let of = |depth: &str| made(&own(&with(TAP, "depth: 16 mm", &format!("depth: {depth}"))), 0, "threads-enough");
    assert_eq!(["1.5 mm", "11.9 mm"].map(of), [Some(Verdict::Doubtful); 2]);
    assert_eq!(["12 mm", "16 mm"].map(of), [Some(Verdict::Proven); 2]);
    let iron = |depth: &str| {
        let job = with(TAP, "material: cast aluminium", "material: GG25");
        made(&own(&with(&job, "depth: 16 mm", &format!("depth: {depth}"))), 0, "threads-enough")
    };
    assert_eq!((iron("10 mm"), iron("9.9 mm")), (Some(Verdict::Proven), Some(Verdict::Doubtful)));
}

/// There is nothing to mark and to centre on where a hole is already; a hole that is opened is set up over that.
#[test]
fn a_second_drill_finds_no_metal_to_centre_on() {
    let small = with(operations(DRILL), "diameter: 8 mm", "diameter: 6 mm\n          set-up: {feature: pin hole}");
    let second = |feature: &str, opens: &str| {
        let wish = format!("diameter: 8 mm{opens}\n          set-up: {{feature: {feature}, name: second}}");
        let large = with(operations(DRILL), "diameter: 8 mm", &wish);
        own(&with(DRILL, operations(DRILL), &format!("{small}{large}")))
    };
    let there = |plan: &Plan| made(plan, 1, "hole-is-there");
    assert_eq!(there(&second("pin hole", "")), Some(Verdict::Doubtful));
    assert_eq!(there(&second("other hole", "")), None);
    let opened = second("pin hole", "\n          opens: 6 mm");
    assert_eq!(there(&opened), None);
    let steps: Vec<&str> = opened.operations[1].answer.set_ups[0].steps.iter().map(|step| step.id).collect();
    assert!(steps.contains(&"old-hole-under-the-spindle") && steps.contains(&"zero-over-the-hole"), "{steps:?}");
    assert!(!steps.contains(&"centre") && !steps.contains(&"zero-face"), "{steps:?}");
    assert!(try_plan(&with(DRILL, "diameter: 8 mm", "diameter: 8 mm\n          opens: 8 mm"), None).is_err());
}

/// What swings with a track is wider than it, and strikes the bed first; what is not said is listed.
#[test]
fn what_swings_with_a_track_clears_the_bed() {
    let of = |more: &str| own(&with(SEAL, "track: 25 mm", &format!("track: 25 mm{more}")));
    let swing = |more: &str| made(&of(more), 0, "swing");
    assert_eq!(swing("\n          swings: 180 mm"), Some(Verdict::Proven));
    assert_eq!(swing("\n          swings: 260 mm"), Some(Verdict::Fails));
    let assumed = |more: &str| first(&of(more)).answer.assumed.iter().any(|line| line.contains("swings not given"));
    assert!(assumed("") && !assumed("\n          swings: 180 mm"));
    assert!(first(&own(SEAL)).answer.assumed.iter().any(|line| line.contains("passes-over not given")));
}

/// What is hollow between the jaws of a vice is squeezed, also where it does not turn.
#[test]
fn what_is_hollow_is_not_nipped() {
    let of = |more: &str| own(&with(DRILL, "hold: {in: vice,", &format!("hold: {{in: vice,{more}")));
    let held = |more: &str| made(&of(more), 0, "held");
    assert_eq!(held(""), Some(Verdict::Proven));
    assert!(first(&of("")).answer.assumed.iter().any(|line| line.contains("inside of the hold not given")));
    assert_eq!(held(" inside: 0 mm,"), Some(Verdict::Proven));
    assert_eq!(held(" diameter: 60 mm, inside: 30 mm,"), Some(Verdict::Proven));
    assert_eq!(held(" diameter: 60 mm, inside: 50 mm,"), Some(Verdict::Doubtful));
    assert_eq!(held(" inside: 50 mm,"), Some(Verdict::Doubtful));
}

/// Whose joint nobody names, and whose cylinder somebody describes, closes that cylinder: what stands over the piston is asked for.
#[test]
fn a_joint_without_a_name_may_close_a_cylinder() {
    const LAP: &str = include_str!("../examples/lap.yaml");
    let squish = |more: &str| {
        let line = LAP.lines().find(|line| line.trim().starts_with("joint:")).unwrap();
        state(first(&own(&with(LAP, line, more))), "squish")
    };
    assert_eq!(squish("          joint: cover"), Outcome::DoesNotApply);
    assert_eq!(squish("          joint: head"), Outcome::NotChecked);
    assert_eq!(
        squish("          bore: 67.18 mm\n          swept: 315 cm3\n          clearance-volume: 62 cm3"),
        Outcome::NotChecked
    );
}

/// Lines an eighth of an inch apart set no depth: a stop down to a whole line of them leaves a hole short that its sheet calls deep.
#[test]
fn a_coarse_dial_sets_no_depth() {
    const SHOP: &str = include_str!("../examples/shop.yaml");
    let short = |division: &str| {
        let line = "dials: [{axis: quill, division: 0.02 mm, per-turn: 4 mm}]";
        let shop = shop(&with(SHOP, line, &format!("dials: [{{axis: quill, division: {division}, per-turn: 1 in}}]")));
        let plan = plan(DRILL, Some(&shop));
        let travel = value(first(&plan), "stop_travel");
        let mut cuts = first(&plan).answer.set_ups[0].steps.iter().filter_map(|step| step.cut.as_ref());
        let dial = cuts.next().unwrap().passes[0].dial.clone();
        let Some(setover::proof::Dialled::Stop(set)) = dial else { panic!("{dial:?}") };
        travel - set.travel_mm
    };
    for division in ["0.001 in", "0.005 in", "1/64 in", "1/16 in", "1/8 in"] {
        let short = short(division);
        assert!((-1e-9..0.2).contains(&short), "{division}: {short}");
    }
}
