//! What carries a cut is sought to the end: the work itself must stand it, a motor or a grip that is too weak asks for a slower step or a finer
//! feed, and a shop with one step more is never worse off.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{first, plan, shop, state, value, verdict, with};
use crate::log_loop::Bench;
use setover::plan::Planned;
use setover::proof::{Outcome, Verdict};

const SHOP: &str = include_str!("../examples/shop.yaml");
const DRILL: &str = include_str!("../examples/drill.yaml");
const MILL: &str = include_str!("../examples/mill-face.yaml");
const PART: &str = include_str!("../examples/part-off.yaml");
const TAP: &str = include_str!("../examples/tap.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const REAM: &str = include_str!("../examples/ream-bush.yaml");

fn planned(job: &str, shop_text: &str) -> Planned {
    first(&plan(job, Some(&shop(shop_text)))).clone()
}

/// A pin turned down: so thick, so long, of such a metal.
fn pin(metal: &str, thick: f64, to: f64, long: f64) -> String {
    format!(
        "job: t\nparts:\n  - part: pin\n    material: {metal}\n    operations:\n      - turn:\n          present: {thick:.2} ± 0.02 mm\n          \
         outside: {:.2} .. {:.2} mm\n          length: {long:.1} ± 0.2 mm\n          over-all: 120 ± 0.2 mm\n          inside: 0 mm\n          \
         shoulder: {thick} mm\n          corner: 0.4 mm\n          finish: Ra 6.3 um\n          \
         hold: {{in: jaws, diameter: {thick} mm, grip: {:.1} mm, overhang: {:.1} mm, true-within: 0.05 mm, nipped: hard, stop: rod}}\n",
        to - 0.15,
        to + 0.15,
        120.0 - long - 3.6,
        long + 3.6
    )
}

/// A lathe with one heavy tool, whose cut no grip of it hinders.
fn heavy() -> String {
    let lathe = with(&with(SHOP, "most-depth: 1.0 mm", "most-depth: 4.0 mm"), "power: 0.75 kW", "power: 3 kW");
    let lathe = with(&lathe, "jaw-force: 20 kN", "jaw-force: 60 kN");
    with(&lathe, "0.06 0.10 0.16 0.20 0.26 0.40 mm/rev", "0.20 mm/rev")
}

/// The moment at the root over its section modulus, as it is worked on paper.
#[test]
fn a_slender_pin_breaks_before_it_slips() {
    const ID: &str = "work-stands-it";
    let it = planned(&pin("GG15", 10.0, 5.65, 23.2), &heavy());
    let check = it.answer.checks.iter().find(|check| check.id == ID).unwrap();
    let force = it.answer.value("cutting_force").unwrap();
    let high = force.band.map_or(force.number, |band| band.1);
    let last = it.answer.set_ups[0].steps.iter().filter_map(|step| step.cut.as_ref()).flat_map(|cut| &cut.passes);
    let last = last.filter(|pass| pass.depth > 0.0).last().unwrap().depth;
    // As thin as its limits let it become.
    let root = 5.50 + 2.0 * last;
    let stress = high * 23.2 / (std::f64::consts::PI * root.powi(3) / 32.0);
    let judged = check.judged.unwrap();
    assert!((judged.got / stress - 1.0).abs() < 0.02, "{judged:?} {stress}");
    assert_eq!((verdict(&it, ID), it.verdict), (Verdict::Fails, Verdict::Fails));
}

/// The thinner, the longer and the weaker the pin, the worse.
#[test]
fn what_is_more_slender_is_never_better() {
    let bends =
        |metal: &str, to: f64, long: f64| verdict(&planned(&pin(metal, 16.0, to, long), &heavy()), "work-stands-it");
    let mut seen = Vec::new();
    for metal in ["GG15", "mild steel", "cast aluminium"] {
        let of = |to: f64| bends(metal, to, 30.0);
        let by_size = [14.0, 11.0, 8.0, 6.0, 4.5, 3.5].map(of);
        assert!(by_size.is_sorted(), "{metal}: {by_size:?}");
        let by_length = [8.0, 16.0, 30.0, 40.0].map(|long| bends(metal, 8.0, long));
        assert!(by_length.is_sorted(), "{metal}: {by_length:?}");
        seen.extend(by_size.into_iter().chain(by_length));
    }
    assert!(seen.contains(&Verdict::Proven) && seen.contains(&Verdict::Fails), "{seen:?}");
}

/// Gripped on a thin spigot it bends there, whatever is turned of it.
#[test]
fn a_thin_spigot_in_the_jaws_bends_first() {
    let gripped = |on: f64| {
        let job = with(&pin("mild steel", 40.0, 36.0, 30.0), "diameter: 40 mm", &format!("diameter: {on} mm"));
        verdict(&planned(&job, &heavy()), "work-stands-it")
    };
    let all = [40.0, 30.0, 20.0, 12.0, 8.0, 6.0].map(gripped);
    assert!(all.is_sorted() && all[0] == Verdict::Proven && all[5] == Verdict::Fails, "{all:?}");
}

/// The edge runs at its slowest where it leaves its finish.
#[test]
fn the_last_cut_is_judged_at_its_own_speed() {
    let it = planned(&pin("mild steel", 40.0, 10.0, 10.0), &heavy());
    let speed = std::f64::consts::PI * 10.0 * value(&it, "spindle_speed") / 1000.0;
    assert!((value(&it, "surface_speed_last") - speed).abs() < 1e-6);
}

/// The shop with all but one of its steps of the spindle.
fn without(steps: &str) -> Vec<String> {
    let all: Vec<&str> = steps.split(' ').collect();
    let but = |at: usize| {
        let left: Vec<&str> = all.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, step)| *step).collect();
        left.join(" ")
    };
    (0..all.len()).map(but).collect()
}

/// A weak motor drives the drill at a slower step: with one step less nothing is surer, and the sheet says the step that was judged.
#[test]
fn no_step_less_makes_anything_surer() {
    const STEPS: &str = "80 135 210 325 660 1115 1750 2720";
    for job in [DRILL, MILL, INSERT, REAM] {
        let mut slowed = 0;
        for power in ["1.1", "0.5", "0.25", "0.12", "0.06"] {
            let weak = with(SHOP, "power: 1.1 kW", &format!("power: {power} kW"));
            let whole = planned(job, &weak);
            slowed += usize::from(power != "1.1" && whole.verdict == planned(job, SHOP).verdict);
            for fewer in without(STEPS) {
                let poorer = planned(job, &with(&weak, STEPS, &fewer));
                assert!(poorer.verdict >= whole.verdict, "{power} kW without one: {fewer}: {job}");
            }
        }
        assert!(slowed > 0, "{job}");
    }
    let weak = planned(DRILL, &with(SHOP, "power: 1.1 kW", "power: 0.25 kW"));
    assert!(value(&weak, "drill_spindle_speed") < value(&planned(DRILL, SHOP), "drill_spindle_speed"));
    let cut = weak.answer.set_ups[0].steps.iter().find_map(|step| step.cut.as_ref()).unwrap();
    assert_eq!(cut.spindle, Some(value(&weak, "drill_spindle_speed")));
}

/// The oil hole of a bush is drilled at the step at which its torque was judged.
#[test]
fn an_oil_hole_is_drilled_at_the_step_that_was_judged() {
    let steps = |power: &str| {
        let it = planned(REAM, &with(SHOP, "power: 1.1 kW", &format!("power: {power} kW")));
        let set_up = it.answer.set_ups.iter().find(|set_up| set_up.id == "drill-oil-holes").unwrap();
        let cut = set_up.steps.iter().find_map(|step| step.cut.as_ref()).unwrap();
        (state(&it, "torque"), cut.spindle.unwrap(), value(&it, "oil_hole_spindle_speed"))
    };
    let (strong, weak) = (steps("1.1"), steps("0.02"));
    assert_eq!(strong.0, Outcome::Made(Verdict::Proven));
    assert!(weak.1 < strong.1, "{weak:?} {strong:?}");
    assert_eq!((weak.1, strong.1), (weak.2, strong.2));
}

/// A blade is fed finer where the grip carries no more; a feed less on the plate betters nothing.
#[test]
fn a_blade_is_fed_finer_where_the_grip_is_weak() {
    const FEEDS: &str = "0.03 0.05 0.08 0.10 0.13 0.20";
    for force in ["20", "10", "8", "6", "5", "4", "3"] {
        let weak = with(SHOP, "jaw-force: 20 kN", &format!("jaw-force: {force} kN"));
        let whole = planned(PART, &weak);
        for fewer in without(FEEDS) {
            assert!(planned(PART, &with(&weak, FEEDS, &fewer)).verdict >= whole.verdict, "{force} kN: {fewer}");
        }
    }
}

/// A thread right through is no longer than its wall may be; a bottoming tap follows a plug tap.
#[test]
fn a_tapped_thread_is_as_sure_as_its_wall() {
    let through = |wall: &str| {
        let job = with(
            &with(TAP, "depth: 16 mm", "depth: 12 mm"),
            "hole-depth: 27.0 ± 0.3 mm",
            &format!("through: true\n          beyond: clear\n          wall: {wall}"),
        );
        verdict(&planned(&job, SHOP), "threads-enough")
    };
    assert_eq!(["12.5 ± 0.1 mm", "12.1 ± 1 mm"].map(through), [Verdict::Proven, Verdict::Doubtful]);
    let tapped = |lead: &str, taps: &str| {
        let more = with(SHOP, "tools:\n", &format!("tools:\n{taps}"));
        verdict(&planned(&with(TAP, "lead: plug", &format!("lead: {lead}")), &more), "tap-in-drawer")
    };
    let (plug, bottoming) =
        ("  - tap: {thread: M8, lead: plug}\n", "  - tap: {thread: M8, lead: bottoming, male-centre: false}\n");
    assert_eq!(tapped("bottoming", bottoming), Verdict::Doubtful);
    assert_eq!(tapped("bottoming", &format!("{plug}{bottoming}")), Verdict::Proven);
    assert_eq!(tapped("plug", plug), Verdict::Proven);
}

/// Readings of what was left that lie further apart than the face may lean and be uneven are told, and betters nothing that they are many.
#[test]
fn readings_that_lie_apart_are_told() {
    let after = |size: &str| {
        let bench = Bench::of(MILL);
        bench.log(&["pump cover/mill-face", &format!("thickness_after={size}"), "with=micrometer"]);
        bench.verdict(0)
    };
    assert_eq!(after("17.20 17.21 17.20 17.22 mm"), "proven");
    assert_eq!(after("17.10 17.30 17.15 17.25 mm"), "doubtful");
}

/// A slip that is put right on the day of the work behind it makes that work no earlier.
#[test]
fn a_correction_stands_where_the_slip_stood() {
    const FACE: &str = "      - lap:\n          grid: {x: 0 60 120 180 mm, y: 0 50 100 mm, reads: [0 6 14 9 um, 11 22 31 17 um, 4 19 24 -3 um]}\n          \
                        with: lever indicator\n          flat-within: 0.03 mm\n          face: {long: 190 mm, wide: 110 mm}\n          joint: cover\n          \
                        inserts: [{thread: M8, set-down: {of: timing chest/thread-insert/set_down}}]\n";
    let bench = Bench::of(&format!("{INSERT}{FACE}"));
    let insert = |down: &str, more: &[&str]| {
        let size = format!("set_down={down} mm");
        let own = ["timing chest/thread-insert", "drilled_depth=13.0 ± 0.1 mm", &size, "--date", "2026-11-28"];
        bench.log(&[own.as_slice(), more].concat())
    };
    insert("0.40 ± 0.02", &[]);
    let lapped = ["removed=0.031 ± 0.004 mm", "flat_after=0.008 ± 0.003 mm", "--date", "2026-11-28"];
    bench.log(&[["timing chest/lap"].as_slice(), &lapped].concat());
    let turned_round = |bench: &Bench| bench.plan()["operations"][1].to_string().contains("log-made-before");
    assert!(!turned_round(&bench));
    insert("0.42 ± 0.02", &["--corrects", "L1"]);
    assert!(!turned_round(&bench));
    // Read on a later day it is behind the lap.
    let late = Bench::of(&format!("{INSERT}{FACE}"));
    late.log(&[["timing chest/lap"].as_slice(), &lapped].concat());
    late.log(&[
        "timing chest/thread-insert",
        "drilled_depth=13.0 ± 0.1 mm",
        "set_down=0.42 ± 0.02 mm",
        "--date",
        "2026-11-29",
    ]);
    assert!(turned_round(&late));
}
