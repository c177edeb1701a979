//! What a day asks to be at hand, what the shop lacks, what its sums count, and what its log says.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{shop, try_plan};
use setover::operations::Drawer;
use setover::plan::day::{Asked, Day, Pulled, day};
use setover::sheet::terminal;

const SHOP: &str = include_str!("../demo/shop.yaml");
const DEMO: &str = include_str!("../demo/tidewater.yaml");

fn planned(job: &str, asked: &Asked) -> Day {
    let plans = vec![try_plan(job, Some(&shop(SHOP))).unwrap_or_else(|all| panic!("{all:#?}"))];
    day(&plans, asked).unwrap_or_else(|all| panic!("{all:#?}"))
}

fn one_day() -> Asked {
    Asked { days: 1, ..Asked::default() }
}

fn text(day: &Day) -> String {
    terminal::day(day, &terminal::Reasons::None).expect("a text")
}

fn pulled<'a>(day: &'a Day, drawer: Drawer, item: &str) -> &'a Pulled {
    let found = day.pull.iter().find(|own| own.drawer == drawer && own.item == item);
    found.unwrap_or_else(|| panic!("no {item}: {:#?}", day.pull))
}

/// Gloves stand on the list for what comes out of the oven, oil for what is cut with it, the small tools of an insert beside its tap.
#[test]
fn the_pull_list_has_what_the_steps_ask_for() {
    let day = planned(DEMO, &one_day());
    assert!(pulled(&day, Drawer::Gloves, "dry heat-proof gloves").sheets.contains(&"5.2".to_owned()));
    assert!(pulled(&day, Drawer::Oils, "soluble oil").sheets.contains(&"2.1".to_owned()));
    assert!(pulled(&day, Drawer::Oils, "thin oil").sheets.contains(&"5.6".to_owned()));
    let mandrel = pulled(&day, Drawer::Tools, "mandrel for the insert");
    assert_eq!(mandrel.sheets, ["2.2", "3.2", "4.2"]);
    assert_eq!((mandrel.count, mandrel.is_counted), (1, false), "it comes back");
    let insert = day.pull.iter().find(|own| own.drawer == Drawer::Inserts).unwrap();
    assert!(insert.is_counted && text(&day).contains(&format!("1 × {}", insert.item)), "{}", text(&day));
    assert!(day.pull.iter().all(|own| !own.is_missing));
}

/// The shims of a pack stand on it one by one, with how many of each.
#[test]
fn the_pull_list_has_the_shims_of_the_pack() {
    let out = run(&["day", "cuts.yaml", "float.yaml", "--format", "json"], std::path::Path::new("demo/one-day"));
    let out: serde_json::Value = serde_json::from_str(&out).unwrap_or_else(|fault| panic!("{fault}: {out}"));
    let shims: Vec<&serde_json::Value> =
        out["pull"].as_array().unwrap().iter().filter(|own| own["drawer"] == "shims").collect();
    let of: Vec<(&str, u64)> =
        shims.iter().map(|own| (own["item"].as_str().unwrap(), own["count"].as_u64().unwrap())).collect();
    assert_eq!(of, [("shim 0.099 mm", 2), ("shim 0.530 mm", 1)], "{}", out["pull"]);
}

fn run(words: &[&str], folder: &std::path::Path) -> String {
    let mut run = std::process::Command::new(env!("CARGO_BIN_EXE_setover"));
    let out = run.args(words).current_dir(folder).output().unwrap();
    String::from_utf8_lossy(&out.stdout).into_owned() + &String::from_utf8_lossy(&out.stderr)
}

/// What the shop lacks is marked where it is to be pulled, and an insert is wanted where it is fitted.
#[test]
fn what_is_missing_is_marked_on_the_pull_list() {
    let job = "job: Missing
parts:
  - part: plate
    material: GG25
    operations:
      - drill: {starts-on: flat, diameter: 14.3 mm, wall: 36.0 ± 0.2 mm, through: true, beyond: clear, edge: 16 ± 0.2 mm, hold: {in: clamps, tested: 250 N·m}}
      - drill: {set-up: {name: there}, starts-on: flat, diameter: 8 mm, wall: 36.0 ± 0.2 mm, through: true, beyond: clear, edge: 16 ± 0.2 mm, hold: {in: clamps, tested: 250 N·m}}
  - part: boss
    material: cast aluminium
    operations:
      - thread-insert: {hold: {in: clamps, tested: 60 N·m}, thread: M14, wall: 40.0 ± 0.3 mm, hole: blind, edge: 28 ± 0.2 mm}
";
    let day = planned(job, &one_day());
    let drills: Vec<&Pulled> = day.pull.iter().filter(|own| own.item.starts_with("drill 14.3")).collect();
    assert!(drills.len() == 1 && drills[0].is_missing, "{:#?}", day.pull);
    assert!(
        day.pull.iter().filter(|own| own.item.starts_with("drill 8")).all(|own| !own.is_missing),
        "{:#?}",
        day.pull
    );
    assert!(text(&day).contains("missing: drill 14.3"), "{}", text(&day));
    let insert = day.missing.iter().find(|own| own.item.starts_with("insert M14"));
    assert_eq!(insert.map(|own| own.id.as_str()), Some("3.2"), "{:#?}", day.missing);
}

/// Where the rest is left for the next day, the sums are those of what is printed.
#[test]
fn the_sums_are_of_the_days_that_are_printed() {
    let one = |n: usize| {
        format!(
            "  - part: piece {n}\n    operations:\n      - hand: {{set-up: {{machine: turret mill}}, does: Mill it, minutes: 150 min, hold: {{in: vice}}}}\n"
        )
    };
    let job = format!("job: Long\nparts:\n{}", (1..=6).map(one).collect::<String>());
    let first = planned(&job, &one_day());
    assert!(!first.left_over.is_empty());
    assert_eq!(first.hands, first.lines.iter().map(|line| line.hands).sum::<u32>());
    assert_eq!(first.machines.iter().map(|own| own.hands).sum::<u32>(), first.hands);
    assert!(first.open <= 8 * 60 + 15 && first.machines.iter().all(|own| own.in_use <= first.open), "{first:#?}");
    assert_eq!(first.waiting, first.open.saturating_sub(first.hands + first.change));
    let all = planned(&job, &Asked { days: 3, ..Asked::default() });
    assert_eq!((all.left_over.len(), all.hands), (0, 900));
}

/// A preference that can be kept for nothing is told so only where that breaks no other.
#[test]
fn a_preference_that_another_pays_for_is_told_so() {
    let job = "job: Spacer
parts:
  - part: spacer
    material: mild steel
    operations:
      - turn: {present: 31.4 ± 0.05 mm, outside: 29.95 .. 30.05 mm, length: 15 ± 0.2 mm, over-all: 80 ± 0.2 mm, finish: Ra 3.2 um, hold: {in: jaws, diameter: 31.4 mm, grip: 50 mm, overhang: 30 mm, true-within: 0.05 mm, nipped: normal, stop: rod}}
      - bore-hole: {present: 22 ± 0.05 mm, bore: 23.0 .. 23.1 mm, depth: 20 mm, present-depth: 80 ± 0.3 mm, outside: 31.4 ± 0.05 mm, over-all: 80 ± 0.2 mm, eccentric: 0.01 ± 0.01 mm, least-wall: 3 mm, true-to: outside, finish: Ra 3.2 um, hold: {in: jaws, diameter: 31.4 mm, inside: 22 mm, grip: 50 mm, overhang: 30 mm, true-within: 0.05 mm, stop: rod}}
";
    let bar = "tools:\n  - boring-bar: {name: bar 12, diameter: 12 mm, material: HSS, nose: 0.4 mm, edge-angle: 90 deg, reach: 40 mm}\n";
    let owned = crate::common::with(SHOP, "tools:\n", bar);
    let plans = vec![try_plan(job, Some(&shop(&owned))).unwrap_or_else(|all| panic!("{all:#?}"))];
    let day = day(&plans, &one_day()).unwrap_or_else(|all| panic!("{all:#?}"));
    let broken: Vec<(&str, bool)> =
        day.better_broken.iter().map(|own| (own.rule.rule.as_str(), own.for_another)).collect();
    assert!(matches!(broken.as_slice(), [(_, true)]), "{broken:?}");
    let told = text(&day);
    assert!(
        told.contains("kept, it breaks another of these in its place") && !told.contains("costs no minute"),
        "{told}"
    );
}

/// A line that was cut off is quoted on the page of the day and in its JSON.
#[test]
fn a_torn_line_is_quoted_on_the_day() {
    let folder = tempfile::tempdir().unwrap();
    let job = std::fs::read_to_string("demo/one-day/cuts.yaml").unwrap().replace("../shop.yaml", "shop.yaml");
    std::fs::write(folder.path().join("cuts.yaml"), job).unwrap();
    std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
    let log = folder.path().join("cuts.log.yaml");
    std::fs::write(log, "- {n: 1, date: 2026-11-30, of: thrust col").unwrap();
    let json = ["--format", "json"];
    for words in [
        vec!["day", "cuts.yaml"],
        ["day", "cuts.yaml"].into_iter().chain(json).collect(),
        vec!["day", "cuts.yaml", "--format", "html"],
        ["decide", "cuts.yaml"].into_iter().chain(json).collect(),
        vec!["decide", "cuts.yaml"],
    ] {
        let said = run(&words, folder.path());
        let said = said.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(said.contains("of: thrust col"), "{words:?}: {said}");
    }
}

/// What lacks is named with what of the drawer would do its work: the operation worked with it fails in nothing.
#[test]
fn what_lacks_is_told_with_what_of_the_drawer_would_serve() {
    let part = |material: &str, operation: &str| {
        format!("job: Lacks\nparts:\n  - part: plate\n    material: {material}\n    operations:\n      - {operation}\n")
    };
    let owned = "tools:\n  - tap: {thread: M10, lead: bottoming}\n  - milling-cutter: {name: shell mill, diameter: 50 mm, teeth: 6, material: HSS}\n";
    let owned = crate::common::with(SHOP, "tools:\n", owned);
    let lacking = |job: &str| {
        let plans = vec![try_plan(job, Some(&shop(&owned))).unwrap_or_else(|all| panic!("{all:#?}"))];
        let day = day(&plans, &one_day()).unwrap_or_else(|all| panic!("{all:#?}"));
        // What reads a bore of that size is asked for elsewhere.
        let tools = day.missing.iter().filter(|own| !own.item.starts_with("an instrument that reads"));
        tools.map(|own| (own.item.clone(), own.could_serve.clone())).collect::<Vec<_>>()
    };
    let tap = |deep: &str| {
        lacking(&part(
            "GG25",
            &format!(
                "tap: {{thread: M10, hole: 8.55 ± 0.03 mm, depth: 15 mm, hole-depth: {deep} ± 0.2 mm, lead: taper, worn: false, hold: {{in: vice, tested: 60 N·m, grip: 12 mm, overhang: 6 mm}}}}"
            ),
        ))
    };
    assert_eq!(tap("40"), [("tap M10, taper".to_owned(), vec!["tap M10, bottoming".to_owned()])]);
    let drill = |size: &str| {
        lacking(&part(
            "GG25",
            &format!(
                "drill: {{starts-on: flat, diameter: {size}, wall: 36.0 ± 0.2 mm, through: true, beyond: clear, edge: 26 ± 0.2 mm, hold: {{in: clamps, tested: 250 N·m}}}}"
            ),
        ))
    };
    assert_eq!(
        drill("8.05 mm")[0].1,
        ["drill 8 mm (the hole 0.050 mm smaller)", "drill 8.1 mm (the hole 0.050 mm larger)"]
    );
    assert_eq!(drill("15.2 mm")[0].1, Vec::<String>::new(), "none is near");
    let mill = |cutter: &str| {
        lacking(&part(
            "GG25",
            &format!(
                "mill-face: {{width: 30 mm, length: 80 mm, thickness: 37 ± 0.05 mm, removed: 0.6 mm, cutter: {cutter}, stick-out: 60 mm, way: conventional, uneven: 0.3 ± 0.05 mm, tram: {{reads: 0.02 ± 0.01 mm, over: 200 mm}}, flat-within: 0.05 mm, square-within: 0.2 mm, least-thickness: 30 mm, bears: on-solid, hold: {{in: clamps, clamped: on-a-ledge, tested: 120 N·m, true-within: 0.03 mm}}}}"
            ),
        ))
    };
    let cutter = mill("63 mm");
    assert!(
        cutter.iter().any(|(item, serves)| item.contains("63 mm") && serves.contains(&"cutter 50 mm".to_owned())),
        "{cutter:?}"
    );
    // A tool of which nobody has heard: those of the shop against which nothing speaks, and no other.
    let turned = |material: &str| {
        lacking(&part(
            material,
            "face: {tool: left-hand knife, outside: 58 mm, inside: 30 mm, length: 21.87 ± 0.016 mm, wear: 0.16 ± 0.01 mm, least-length: 21.0 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 58 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm}}",
        ))
    };
    let soft = turned("mild steel");
    assert_eq!(soft[0].0, "tool: left-hand knife", "{soft:?}");
    assert!(!soft[0].1.is_empty() && soft[0].1.iter().all(|tool| owned.contains(tool.as_str())), "{soft:?}");
    // What a hard part is too hard for is not among them.
    let hard = turned("case-hardened steel");
    assert!(soft[0].1.contains(&"HSS knife".to_owned()) && !hard[0].1.contains(&"HSS knife".to_owned()), "{hard:?}");
    let measured = lacking(&part(
        "GG25",
        "measure: {what: [{name: bed, gauge: outside, size: 460.00 .. 460.02 mm}], cooled: true}",
    ));
    assert_eq!(measured[0].0, "an instrument for bed: outside, 460.000 to 460.020 mm");
}
