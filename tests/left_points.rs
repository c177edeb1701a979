//! Sizes that the log takes of work that was done: the reamed bore, the depth of a hole, the insert's seat, what an indicator read in a
//! row, the pack and the piston that were put in. Each judges the work in the place of what was planned, and whoever goes on from it
//! goes by it.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{self, SHOP, agrees, doubt, first, plan, plan_left, shop, state, value, verdict, with};
use serde_json::Value;
use setover::plan::{Plan, Planned};
use setover::proof::{Outcome, Verdict};
use setover::quantity::Unit;
use std::path::Path;
use std::process::{Command, Output};

const BUSH: &str = include_str!("../examples/ream-bush.yaml");
const DRILL: &str = include_str!("../examples/drill.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const TRUE: &str = include_str!("../examples/set-true.yaml");

fn left(job: &str, of: (&str, &str), left: &[(&str, f64, f64)]) -> Plan {
    let left: Vec<(&str, f64, Unit, f64)> =
        left.iter().map(|(key, size, doubt)| (*key, *size, Unit::Mm, *doubt)).collect();
    plan_left(job, &shop(SHOP), of, &left)
}

fn run(folder: &Path, words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(folder).output().expect("runs")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

/// A job with its shop in a folder of its own, with these lines in its log.
fn logged(job: &str, with_shop: &str, lines: &[&[&str]]) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("job.yaml"), job).unwrap();
    std::fs::write(folder.path().join("shop.yaml"), with_shop).unwrap();
    for line in lines {
        let output = run(folder.path(), &[&["log", "job.yaml", "--date", "2026-11-26"], *line].concat());
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    }
    folder
}

fn planned(folder: &Path) -> Value {
    let output = run(folder, &["plan", "job.yaml", "--format", "json"]);
    serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{}", said(&output)))
}

fn state_of(operation: &Value, id: &str) -> String {
    let all = operation["checks"].as_array().unwrap();
    all.iter().find(|check| check["check"] == id).unwrap_or_else(|| panic!("{id}"))["state"]
        .as_str()
        .unwrap()
        .to_owned()
}

const BUSHED: (&str, &str) = ("pump end case", "ream-bush");

/// By hand: 15.984 ± 0.003 and 0.0254 .. 0.0508 give 16.0124 .. 16.0318; the bore itself less the shaft is the clearance.
#[test]
fn a_reamed_bore_is_judged_by_what_it_was_left_at() {
    let bush = &with(BUSH, "clearance: 1 .. 2.5 thou", "clearance: 1 .. 2 thou");
    let planned = plan(bush, Some(&shop(SHOP)));
    agrees("16.0221", value(first(&planned), "finish_bore"));
    agrees("0.0381", value(first(&planned), "clearance"));
    let at = |size: f64, doubt: f64| left(bush, BUSHED, &[("finish_bore", size, doubt)]);
    let good = at(16.020, 0.004);
    agrees("0.0360", value(first(&good), "clearance"));
    assert_eq!(doubt(first(&good), "finish_bore"), 0.004, "the doubt is what measured it");
    assert_eq!(verdict(first(&good), "fit-runs"), Verdict::Proven);
    assert_eq!(verdict(first(&at(16.036, 0.002)), "fit-runs"), Verdict::Fails, "too large");
    assert_eq!(verdict(first(&at(16.008, 0.002)), "fit-runs"), Verdict::Fails, "too small");
    // What is too small is reamed on, what is too large is not.
    let remedies = |size: f64| -> String {
        let plan = at(size, 0.002);
        let checks = first(&plan).answer.checks.iter().filter(|check| check.id == "fit-runs");
        checks.flat_map(|check| check.remedies.iter().map(|remedy| remedy.words.clone())).collect()
    };
    assert!(remedies(16.008).contains("ream on to 16.0124 mm to 16.0318 mm"), "{}", remedies(16.008));
    assert!(!remedies(16.036).contains("ream on"), "{}", remedies(16.036));
    assert_eq!(
        verdict(first(&at(16.034, 0.002)), "fit-runs"),
        Verdict::Doubtful,
        "inside as it was read, and the shaft is in doubt too"
    );
    assert_eq!(verdict(first(&at(16.020, 0.010)), "fit-runs"), Verdict::Doubtful, "not read well enough");
    assert_eq!(verdict(first(&at(16.0125, 0.002)), "fit-runs"), Verdict::Doubtful, "just inside");
}

/// What runs warm runs by the bore that was reamed, not by the one that was aimed at.
#[test]
fn what_runs_warm_runs_by_the_reamed_bore() {
    let job = with(
        BUSH,
        "          by: hand",
        "          running: {shaft: 60 degC, housing: 80 degC, shaft-material: mild steel}\n          by: hand",
    );
    let planned = plan(&job, Some(&shop(SHOP)));
    let tight = left(&job, BUSHED, &[("finish_bore", 16.0125, 0.002)]);
    let less = value(first(&planned), "clearance_warm") - value(first(&tight), "clearance_warm");
    approx::assert_abs_diff_eq!(less, value(first(&planned), "finish_bore") - 16.0125, epsilon = 1e-6);
}

/// A fit that goes on from a reamed bore waits for it to be measured, and then goes by it.
#[test]
fn a_fit_goes_on_from_the_reamed_bore() {
    let fit = "  - part: oil pump spindle\n    material: mild steel\n    operations:\n      - fit-up:\n          bore: {of: pump end case/ream-bush/finish_bore}\n          bore-material: phosphor bronze\n          shaft: 15.984 ± 0.003 mm\n          shaft-material: mild steel\n          clearance: 0.020 .. 0.060 mm\n";
    let job = format!("{BUSH}{fit}");
    let of =
        |plan: &Plan| -> Planned { plan.operations.iter().find(|one| one.word == "fit-up").expect("a fit").clone() };
    let before = of(&plan(&job, Some(&shop(SHOP))));
    assert_eq!(verdict(&before, "all-cuts-known"), Verdict::Doubtful);
    let after = of(&left(&job, BUSHED, &[("finish_bore", 16.020, 0.004)]));
    assert_eq!((verdict(&after, "all-cuts-known"), verdict(&after, "clearance")), (Verdict::Proven, Verdict::Proven));
    agrees("0.0360", value(&after, "clearance"));
    let wide = of(&left(&job, BUSHED, &[("finish_bore", 16.050, 0.004)]));
    assert_eq!(verdict(&wide, "clearance"), Verdict::Fails, "0.066 of 0.060");
}

/// By hand: the point of a drill of 8 is 2.403 long; 18 ± 0.3 less 14.3 and the point leaves 1.297 ± 0.304: not sure of 1.0.
#[test]
fn a_hole_is_judged_by_the_depth_that_it_was_left_at() {
    let of = ("timing chest", "drill");
    let part = |job: &str| common::in_shop(job).operations[0].address.part.clone();
    let of = (part(DRILL).leak() as &str, of.1);
    let at = |depth: f64, doubt: f64| left(DRILL, of, &[("drilled_depth", depth, doubt)]);
    let good = at(12.1, 0.05);
    assert_eq!(verdict(first(&good), "break-through"), Verdict::Proven);
    approx::assert_abs_diff_eq!(value(first(&good), "metal_left"), 18.0 - 12.1 - 2.4034, epsilon = 1e-3);
    approx::assert_abs_diff_eq!(doubt(first(&good), "metal_left"), 0.3_f64.hypot(0.05), epsilon = 1e-9);
    assert_eq!(verdict(first(&at(14.3, 0.05)), "break-through"), Verdict::Doubtful);
    assert_eq!(verdict(first(&at(15.0, 0.05)), "break-through"), Verdict::Fails);
    let shallow = at(9.0, 0.05);
    assert_eq!(first(&shallow).verdict, Verdict::Doubtful, "it is not as deep as was asked");
    let words: Vec<&String> = first(&shallow).answer.set_ups[0].steps.iter().map(|step| &step.words).collect();
    assert!(words.iter().any(|step| step.contains("14.40 mm")), "the stop stays set by what was asked: {words:?}");
    assert_eq!(verdict(first(&at(12.1, 2.6)), "break-through"), Verdict::Doubtful, "nobody knows how deep");
}

#[test]
fn an_insert_is_judged_by_its_hole_and_by_its_seat() {
    let of = ("timing chest", "thread-insert");
    let planned = plan(INSERT, Some(&shop(SHOP)));
    let deep = value(first(&planned), "drilled_depth");
    let wall = 18.0;
    let at = |depth: f64| left(INSERT, of, &[("drilled_depth", depth, 0.05)]);
    approx::assert_abs_diff_eq!(
        value(first(&at(deep + 0.1)), "metal_left"),
        wall - deep - 0.1 - value(first(&planned), "drill_point"),
        epsilon = 1e-9
    );
    assert_eq!(verdict(first(&at(deep + 4.0)), "break-through"), Verdict::Fails);
    assert_eq!(verdict(first(&at(deep - 2.0)), "doubt-plausible"), Verdict::Doubtful);
    // M8 x 1.25: 0.3125 to 0.625 below the face.
    let sits = |down: f64| verdict(first(&left(INSERT, of, &[("set_down", down, 0.02)])), "doubt-plausible");
    assert_eq!((sits(0.45), sits(0.31), sits(0.70)), (Verdict::Proven, Verdict::Doubtful, Verdict::Doubtful));
    let proud = left(INSERT, of, &[("set_down", 0.001, 0.02)]);
    assert_ne!(first(&proud).verdict, Verdict::Proven, "a coil in the joint");
}

/// A coil may be wound in anywhere between a quarter and a half of a pitch: till somebody measured it, a lap may find it at the least.
#[test]
fn a_lap_over_an_insert_bears_the_least_that_it_may_sit_below_the_face() {
    let lap = "      - lap:\n          grid: {x: 0 60 120 180 mm, y: 0 50 100 mm, reads: [0 6 14 9 um, 11 22 31 17 um, 4 19 24 -3 um]}\n          with: lever indicator\n          flat-within: 0.03 mm\n          face: {long: 190 mm, wide: 110 mm}\n          out-first: []\n          inserts: [{thread: M8x1.25, set-down: {of: timing chest/thread-insert/set_down}}]\n";
    let job = format!("{INSERT}{lap}");
    let of = |plan: &Plan| -> Planned { plan.operations.iter().find(|one| one.word == "lap").expect("a lap").clone() };
    assert_eq!(verdict(&of(&plan(&job, Some(&shop(SHOP)))), "set-down"), Verdict::Doubtful);
    let at = |down: f64| {
        verdict(&of(&left(&job, ("timing chest", "thread-insert"), &[("set_down", down, 0.02)])), "set-down")
    };
    // 0.0434 comes off and 0.3125 must be left.
    assert_eq!((at(0.50), at(0.36), at(0.33)), (Verdict::Proven, Verdict::Doubtful, Verdict::Fails));
}

/// No jaw moves a form, and four readings see none of three lobes: what was read in a row after the move tells both.
#[test]
fn readings_after_the_move_tell_the_form_too() {
    let read = |row: &str| {
        let row = format!("tir_after={row}");
        let folder = logged(TRUE, SHOP, &[&["pump shaft/set-true", &row, "with=lever indicator"]]);
        planned(folder.path())["operations"][0].clone()
    };
    let good = read("1 0 -1 0 0 1 0 -1 um");
    assert_eq!((state_of(&good, "true-enough"), state_of(&good, "form-enough")), ("proven".into(), "proven".into()));
    // Two lobes of 15 um: no centre is off, and it is 30 um out of round in 20.
    let lobes = read("15 0 -15 0 15 0 -15 0 um");
    assert_eq!(state_of(&lobes, "true-enough"), "fails", "the tool sees the centre and the form together");
    assert_eq!(state_of(&lobes, "form-enough"), "fails");
    // Neither alone is over 20 um, and an indicator reads 22.5 in a turn.
    let both = read("15 5.3 -7.5 -5.3 0 -5.3 -7.5 5.3 um");
    assert_eq!((state_of(&both, "form-enough"), state_of(&both, "true-enough")), ("proven".into(), "fails".into()));
    assert_eq!(lobes["values"]["form"]["log"], "L1");
    assert_eq!(lobes["verdict"], "fails");
    let four = read("0 1 0 1 um");
    assert_eq!(state_of(&four, "lobes-seen"), "doubtful", "eight saw them, four do not");
}

#[test]
fn the_face_and_the_second_plane_are_read_again() {
    let job = with(
        TRUE,
        "          hold: {in: four-jaw}",
        "          square-within: 0.02 mm\n          face-readings: 0 -10 -20 -10 um\n          face-diameter: 60 mm\n          face-outside: 90 mm\n          second: {jaw-readings: 0 -10 -18 -8 um, apart: 80 mm}\n          hold: {in: four-jaw}",
    );
    let read = |line: &str| {
        let folder = logged(&job, SHOP, &[&["pump shaft/set-true", line, "with=lever indicator"]]);
        planned(folder.path())["operations"][0].clone()
    };
    // Half of 8 across is the lean, twice that in a turn: 8 where it was read, 12 at the rim.
    let face = read("tilt_after=0 -4 -8 -4 um");
    approx::assert_abs_diff_eq!(face["values"]["tilt_after"]["value"].as_f64().unwrap(), 0.012, epsilon = 1e-9);
    assert_eq!(state_of(&face, "square-enough"), "proven");
    assert_eq!(state_of(&read("tilt_after=0 -10 -20 -10 um"), "square-enough"), "fails");
    assert_eq!(state_of(&read("tilt_after=0.03 mm"), "square-enough"), "fails");
    let second = read("tir_after_second=0 -20 -40 -20 um");
    approx::assert_abs_diff_eq!(second["values"]["tir_after_second"]["value"].as_f64().unwrap(), 0.040, epsilon = 1e-9);
    assert_eq!(state_of(&second, "second-plane-true"), "fails");
    let wrong = logged(&job, SHOP, &[]);
    let output =
        run(wrong.path(), &["log", "job.yaml", "pump shaft/set-true", "tilt_after=0 -4 -8 um", "with=lever indicator"]);
    assert_eq!(output.status.code(), Some(2), "{}", said(&output));
    assert!(said(&output).contains("four readings"), "{}", said(&output));
}

/// The pack that was put in counts, not the one that would be taken; and the plan says where it would take another now.
#[test]
fn the_pack_that_is_in_is_judged() {
    let job = include_str!("../demo/one-day/float.yaml");
    let job = with(job, "{of: layshaft thrust collar/face/length_after}", "{size: 21.677 mm, with: micrometer 0-25}");
    let owned = std::fs::read_to_string("demo/shop.yaml").unwrap();
    let job = with(&job, "../shop.yaml", "shop.yaml");
    let job = with(&job, "float: 0.12 .. 0.28 mm", "float: 0.15 .. 0.25 mm");
    let of = |folder: &Path| {
        planned(folder)["operations"].as_array().unwrap().iter().find(|one| one["operation"] == "shim").unwrap().clone()
    };
    let none = logged(&job, &owned, &[]);
    assert_eq!(of(none.path())["choices"]["pack"]["chosen"], "0.530 + 0.152 mm");
    // As chosen, measured shim by shim: nothing to tell.
    let same = logged(&job, &owned, &[&["layshaft/shim", "pack_thickness=0.531 0.152 mm", "with=micrometer 0-25"]]);
    let it = of(same.path());
    assert_eq!(
        (&it["choices"]["pack"]["chosen"], &it["choices"]["pack"]["instead"]),
        (&"0.530 + 0.152 mm".into(), &Value::Null)
    );
    assert_eq!(it["values"]["pack_thickness"]["log"], "L1");
    approx::assert_abs_diff_eq!(it["values"]["float_left"]["value"].as_f64().unwrap(), 0.880 - 0.683, epsilon = 1e-9);
    // The old pack: 0.880 - 0.728 = 0.152, under 0.15 by its doubt.
    let old =
        logged(&job, &owned, &[&["layshaft/shim", "pack_thickness=0.530 0.099 0.099 mm", "with=micrometer 0-25"]]);
    let it = of(old.path());
    assert_eq!(
        (&it["choices"]["pack"]["chosen"], &it["choices"]["pack"]["instead"]),
        (&"0.728 mm".into(), &"0.530 + 0.152 mm".into())
    );
    assert_eq!((state_of(&it, "float"), state_of(&it, "thin-alone")), ("doubtful".into(), "proven".into()));
    let said = said(&run(old.path(), &["plan", "job.yaml"]));
    assert!(
        said.contains("layshaft/shim/pack: 0.728 mm is in; by what was left, 0.530 + 0.152 mm would be taken now (L1)"),
        "{said}"
    );
    // Thin shims alone: no thick one can stand against what turns; of a pack measured as one nobody knows.
    let thin = logged(&job, &owned, &[&["layshaft/shim", "pack_thickness=0.099 0.099 mm", "with=micrometer 0-25"]]);
    assert_eq!(state_of(&of(thin.path()), "thin-alone"), "doubtful");
    let whole = logged(&job, &owned, &[&["layshaft/shim", "pack_thickness=0.60 mm", "with=micrometer 0-25"]]);
    assert_eq!(state_of(&of(whole.path()), "thin-alone"), "not-checked");
    // Measured over all, the float judges; that it is not what the links give is told.
    let apart = logged(
        &job,
        &owned,
        &[
            &["layshaft/shim", "pack_thickness=0.530 0.099 0.099 mm", "with=micrometer 0-25"],
            &["layshaft/shim", "float_left=0.20 ± 0.01 mm"],
        ],
    );
    let it = of(apart.path());
    assert_eq!((state_of(&it, "float"), state_of(&it, "chain-closed")), ("proven".into(), "doubtful".into()));
}

#[test]
fn the_piston_that_is_in_is_judged_and_told() {
    let barrel = plan_left(
        crate::rebore::BARREL,
        &shop(crate::rebore::SHOP),
        ("barrel", "bore"),
        &[("piston", 66.831, Unit::Mm, 0.005)],
    );
    let it = first(&barrel);
    let choice = it.answer.choices.iter().find(|choice| choice.name == "piston").unwrap();
    assert_eq!((choice.chosen.as_str(), choice.instead.as_deref()), ("+0.010 in", Some("+0.020 in")));
    assert_eq!(verdict(it, "cleans-up"), Verdict::Fails, "the old axis does not come clean for it");
    assert_ne!(state(it, "piston-in-hand"), Outcome::NotChecked);
}

/// A bush that did not close in at all is loose, or its bore was misread.
#[test]
fn a_bush_that_did_not_close_in_is_not_proven() {
    let planned = plan(BUSH, Some(&shop(SHOP)));
    let (before, foretold) = (15.950, value(first(&planned), "bore_after_pressing"));
    assert!(before > foretold, "{foretold}");
    let read = |size: f64, doubt: f64| {
        let plan = left(BUSH, BUSHED, &[("bore_after_pressing", size, doubt)]);
        verdict(first(&plan), "closes-in")
    };
    let at = |size: f64| read(size, 0.002);
    assert_eq!(at(foretold), Verdict::Proven);
    assert_ne!(at(before), Verdict::Proven, "as wide as before it was pressed");
    assert_ne!(at(before + 0.005), Verdict::Proven);
    // It lies within a hundredth of what was foretold.
    assert!(before + 0.005 - foretold < foretold / 100.0);
    let steps = first(&planned).answer.set_ups.iter().flat_map(|set_up| &set_up.steps);
    let mut holds = steps.filter_map(|step| step.hold_point.as_ref());
    let hold = holds.find(|hold| hold.measures == "bore_after_pressing").map(|hold| hold.limits.numbers());
    assert_eq!(hold.unwrap().1, Some(15.939), "the sheet says so too, the gauge allowed for");
    // Over that the gauge is sure of nothing, however little was sure of what was foretold.
    assert_eq!(read(15.939, 0.0095), Verdict::Proven);
    let coarse = with(BUSH, "outside: 20.042 ± 0.004 mm", "outside: 20.042 ± 0.012 mm");
    let of = |size: f64| {
        let plan = left(&coarse, BUSHED, &[("bore_after_pressing", size, 0.0095)]);
        verdict(first(&plan), "closes-in")
    };
    assert_eq!((of(15.939), of(15.942)), (Verdict::Proven, Verdict::Doubtful));
}

/// A tap goes on from a hole as deep as the stop sets it: the stop's doubt is the hole's, till somebody measured it.
#[test]
fn a_tap_finds_its_hole_as_deep_as_the_stop_set_it() {
    let job = "job: Both\nparts:\n  - part: cover\n    material: cast aluminium\n    operations:\n      - drill: {starts-on: flat, diameter: 6.8 mm, depth: 27 mm, wall: 42 ± 0.3 mm, hold: {in: vice}}\n      - tap: {thread: M8, hole: {of: cover/drill/drill-diameter}, hole-depth: {of: cover/drill/drilled-depth}, depth: 16 mm, worn: false}\n";
    let of = |plan: &Plan, key: &str| doubt(plan.operations.iter().find(|one| one.word == "tap").unwrap(), key);
    approx::assert_abs_diff_eq!(of(&plan(job, Some(&shop(SHOP))), "hole_depth"), 0.2, epsilon = 1e-9);
    let measured = left(job, ("cover", "drill"), &[("drilled_depth", 27.1, 0.03)]);
    approx::assert_abs_diff_eq!(of(&measured, "hole_depth"), 0.03, epsilon = 1e-9);
}

/// A gap over a size that a cut leaves waits for it to be measured, as a float does.
#[test]
fn a_chain_over_a_planned_cut_is_not_proven() {
    let job = std::fs::read_to_string("tests/jobs/chain-after-a-cut.yaml").unwrap();
    let of = |plan: &Plan| -> Planned { plan.operations.iter().find(|one| one.word == "chain").unwrap().clone() };
    let planned = of(&plan(&job, Some(&shop(SHOP))));
    assert_eq!((verdict(&planned, "all-cuts-known"), planned.verdict), (Verdict::Doubtful, Verdict::Doubtful));
    let after = of(&left(&job, ("idler thrust collar", "face"), &[("length_after", 21.66, 0.004)]));
    assert_eq!((verdict(&after, "all-cuts-known"), after.verdict), (Verdict::Proven, Verdict::Proven));
}

/// An operation put in above another of its word takes over what the log has of that: a bush that nobody touched would be done.
#[test]
fn what_the_log_knows_by_its_place_alone_is_in_doubt() {
    let bush = BUSH.find("      - ream-bush:").expect("an operation");
    let (head, operation) = BUSH.split_at(bush);
    let named = |name: &str| {
        operation.replacen(
            "- ream-bush:",
            &format!("- ream-bush:\n          set-up: {{name: {name}, feature: {name}}}"),
            1,
        )
    };
    let of = |job: &str, address: &str| {
        let folder = logged(job, SHOP, &[&[&format!("pump end case/{address}"), "finish_bore=16.010 ± 0.002 mm"]]);
        let plan = planned(folder.path());
        let asks = |one: &Value| one["checks"].as_array().unwrap().iter().any(|check| check["check"] == "log-by-place");
        plan["operations"].as_array().unwrap().iter().map(asks).collect::<Vec<_>>()
    };
    assert_eq!(of(BUSH, "ream-bush"), [false], "there is one alone");
    assert_eq!(of(&format!("{head}{operation}{operation}"), "ream-bush"), [true, true]);
    assert_eq!(of(&format!("{head}{}{}", named("front"), named("rear")), "rear"), [false, false]);
    assert_eq!(of(&format!("{head}{}{operation}", named("front")), "ream-bush#2"), [false, false]);
}
