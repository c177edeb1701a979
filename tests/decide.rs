//! What must be done with a part as it came: judged at the bad end, and what was not measured is never reused.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::seeds;
use proptest::prelude::*;
use serde_json::Value;
use std::path::Path;
use std::process::{Command, Output};

const SHOP: &str = include_str!("fixtures/decide/shop.yaml");

fn run(folder: &Path, arguments: &[&str]) -> Output {
    let mut command = Command::new(env!("CARGO_BIN_EXE_setover"));
    command.current_dir(folder).arg("decide").args(arguments).output().expect("runs")
}

/// Jobs written beside the shop, decided together; the answer, or what was said of the problems.
fn try_decide(jobs: &[&str], more: &[&str]) -> Result<Value, String> {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
    let names: Vec<String> = (0..jobs.len()).map(|at| format!("job{at}.yaml")).collect();
    for (name, job) in names.iter().zip(jobs) {
        std::fs::write(folder.path().join(name), job).unwrap();
    }
    let names: Vec<&str> = names.iter().map(String::as_str).collect();
    let output = run(folder.path(), &[&names, &["--format", "json"][..], more].concat());
    match output.status.code() {
        Some(0 | 1) => Ok(serde_json::from_slice(&output.stdout).expect("JSON")),
        code => Err(format!(
            "{code:?} {}{}",
            String::from_utf8_lossy(&output.stdout),
            String::from_utf8_lossy(&output.stderr)
        )),
    }
}

fn decide(jobs: &[&str]) -> Value {
    try_decide(jobs, &[]).expect("decided")
}

/// The row of a part and feature.
fn row<'a>(decided: &'a Value, part: &str, feature: &str) -> &'a Value {
    let rows = decided["rows"].as_array().unwrap();
    let is_it = |row: &&Value| row["part"] == part && row["feature"] == feature;
    rows.iter().find(is_it).unwrap_or_else(|| panic!("no {part}, {feature}: {decided:#}"))
}

/// A job of one part with one feature.
fn one(feature: &str, found: &str, service: &str, more: &str) -> String {
    format!(
        "job: one\nshop: shop.yaml\nparts:\n  - part: thing\n    material: mild steel\n    inspect:\n      - {{feature: \
         {feature}, found: {found}, service: {service}{more}}}\n"
    )
}

fn decision_of(found: &str, service: &str, more: &str) -> Value {
    // A hole wears larger, what turns in it smaller.
    let feature = if service.starts_with("at most") { "hole" } else { "journal" };
    row(&decide(&[&one(feature, found, service, more)]), "thing", feature).clone()
}

#[test]
fn each_feature_is_judged_at_its_bad_end() {
    // Far inside, inside at the middle alone, outside, not measured.
    let micrometer = |size: &str| format!("{{size: {size}, with: micrometer 0-25}}");
    let inside = decision_of(&micrometer("12.010 mm"), "at least 12.000 mm", "");
    assert_eq!(inside["decision"], "reuse");
    assert!((inside["margin"].as_f64().unwrap() - 0.006).abs() < 1e-9, "{inside}");
    let middle = decision_of(&micrometer("12.003 mm"), "at least 12.000 mm", "");
    assert_eq!((&middle["decision"], &middle["verdict"]), (&"doubtful".into(), &"doubtful".into()));
    assert!(middle["why"].as_str().unwrap().contains("measure with"), "{middle}");
    let out = decision_of(&micrometer("11.990 mm"), "at least 12.000 mm", "");
    assert_eq!(out["decision"], "replace");
    assert_eq!(out["order"][0]["item"], "thing");
    let none = decision_of("not measured", "at least 12.000 mm", "");
    assert_eq!((&none["decision"], &none["verdict"]), (&"measure".into(), &Value::Null));
    // Both limits: the nearer one judges, whichever side it lies on.
    assert_eq!(decision_of("0.050 ± 0.010 mm", "0.030 .. 0.080 mm", "")["decision"], "reuse");
    assert_eq!(decision_of("0.035 ± 0.010 mm", "0.030 .. 0.080 mm", "")["decision"], "doubtful");
    assert_eq!(decision_of("0.075 ± 0.010 mm", "0.030 .. 0.080 mm", "")["decision"], "doubtful");
    assert_eq!(decision_of("0.085 ± 0.010 mm", "0.030 .. 0.080 mm", "")["decision"], "replace");
}

/// A nominal ten-thousandth inside is no reuse, and the mean of two axes is not the bore.
#[test]
fn what_looks_inside_is_not_reused() {
    let near = decision_of("66.7799 ± 0.002 mm", "at most 66.78 mm", "");
    assert_eq!(near["decision"], "doubtful");
    let two = decision_of("[66.815 ± 0.0095 mm, 66.775 ± 0.0095 mm]", "at most 66.80 mm", "");
    // Their mean, 66.795, would look inside.
    assert_eq!((&two["verdict"], two["found"].as_f64()), (&"fails".into(), Some(66.815)));
    // A nought has its doubt, and a doubt as large as the figure is counted whole.
    assert!(try_decide(&[&one("face", "0 mm", "at most 0.03 mm", "")], &[]).unwrap_err().contains("nought"));
    assert!(try_decide(&[&one("face", "{size: 0 mm, with: depth gauge}", "at most 0.03 mm", "")], &[]).is_err());
    assert_eq!(decision_of("0 ± 0.04 mm", "at most 0.03 mm", "")["decision"], "doubtful");
    assert_eq!(decision_of("0.02 ± 0.02 mm", "at most 0.03 mm", "")["decision"], "doubtful");
    assert_eq!(decision_of("0.005 ± 0.02 mm", "at most 0.03 mm", "")["decision"], "reuse");
    // Nobody said with what, nor what sort of size it is: the shop's default with the greatest doubt, here the depth gauge's 0.030.
    let bare = decide(&[&one("lug", "24.98 mm", "at least 24.96 mm", "")]);
    assert_eq!(row(&bare, "thing", "lug")["decision"], "doubtful");
}

/// The first remedy that is proven, else the first that is doubtful, marked; a part is not replaced for want of a plan.
#[test]
fn remedies_go_in_order() {
    // The collar of the example: its face is cut, or too much of the case goes.
    let face = std::fs::read_to_string("examples/face.yaml").unwrap().replace("part: distance piece", "part: thing");
    let collar = |case: &str| crate::common::with(&face, "case-depth: 1.0 ± 0.1 mm", &format!("case-depth: {case}"));
    let shop = format!("{}/examples/shop.yaml", env!("CARGO_MANIFEST_DIR"));
    let together = |jobs: [&str; 2]| try_decide(&jobs, &["--shop", &shop]);
    let worn = |remedies: &str| {
        let worn = one("face", "0.16 ± 0.02 mm", "at most 0.05 mm", &format!(", remedies: {remedies}"));
        worn.replace("material: mild steel", "material: case-hardened steel")
    };
    let of =
        |case: &str, remedies: &str| row(&together([&worn(remedies), &collar(case)]).unwrap(), "thing", "face").clone();
    let deep = of("1.2 ± 0.1 mm", "[face, replace]");
    assert_eq!((&deep["by"], &deep["sheets"][0]), (&"face".into(), &"1.1".into()), "{deep}");
    assert_eq!(deep["decision"], "put-right", "{deep}");
    let thin = of("0.5 ± 0.1 mm", "[face, replace]");
    assert_eq!(thin["decision"], "replace", "{thin}");
    assert!(thin["why"].as_str().unwrap().contains("face fails"), "{thin}");
    let doubtful = of("0.85 ± 0.1 mm", "[face, replace]");
    assert_eq!((&doubtful["decision"], &doubtful["by"]), (&"put-right-doubtful".into(), &"face".into()), "{doubtful}");
    // An operation that nobody planned may still cure it; what is named first is wanted.
    assert_eq!(of("0.5 ± 0.1 mm", "[face, skim, replace]")["decision"], "plan-first");
    assert_eq!(of("1.2 ± 0.1 mm", "[replace, face]")["decision"], "replace");
    let wrong = together([&worn("[fce]"), &collar("1.2 ± 0.1 mm")]).unwrap_err();
    assert!(wrong.contains("did you mean `face`"), "{wrong}");
}

/// An operation that names another feature puts nothing right here.
#[test]
fn an_operation_puts_right_the_feature_that_it_names() {
    let bush =
        std::fs::read_to_string("examples/ream-bush.yaml").unwrap().replace("part: pump end case", "part: thing");
    let named = crate::common::with(&bush, "- ream-bush:", "- ream-bush:\n          set-up: {feature: front bush}");
    let shop = format!("{}/examples/shop.yaml", env!("CARGO_MANIFEST_DIR"));
    let of = |feature: &str| {
        let worn = one(feature, "16.09 ± 0.01 mm", "at most 16.05 mm", ", remedies: [ream-bush]");
        let worn = worn.replace("material: mild steel", "material: cast aluminium");
        row(&try_decide(&[&worn, &named], &["--shop", &shop]).unwrap(), "thing", feature)["decision"].clone()
    };
    assert_eq!(of("front bush"), "put-right");
    assert_eq!(of("rear bush"), "plan-first", "it goes back worn");
}

/// One bush is reamed, and two are worn: nobody says which. Wear and size of one face are one place.
#[test]
fn one_operation_without_a_feature_puts_right_one_of_two() {
    let bush =
        std::fs::read_to_string("examples/ream-bush.yaml").unwrap().replace("part: pump end case", "part: thing");
    let shop = format!("{}/examples/shop.yaml", env!("CARGO_MANIFEST_DIR"));
    let decided = |job: &str, found: [&str; 2]| {
        let line = |feature: &str, found: &str| {
            format!("      - {{feature: {feature}, found: {found}, service: at most 0.05 mm, remedies: [ream-bush]}}\n")
        };
        let worn = format!(
            "job: Worn\nparts:\n  - part: thing\n    material: cast aluminium\n    inspect:\n{}{}",
            line("front bush", found[0]),
            line("rear bush", found[1])
        );
        let all = try_decide(&[&worn, job], &["--shop", &shop]).unwrap();
        [row(&all, "thing", "front bush").clone(), row(&all, "thing", "rear bush").clone()]
    };
    let two = decided(&bush, ["16.09 ± 0.01 mm", "16.12 ± 0.01 mm"]);
    for row in &two {
        assert_eq!(row["decision"], "plan-first", "{row}");
        assert!(row["why"].to_string().contains("names no feature"), "{row}");
        assert_eq!(row["sheets"].as_array().map_or(0, Vec::len), 0);
    }
    let named = crate::common::with(&bush, "- ream-bush:", "- ream-bush:\n          set-up: {feature: front bush}");
    let [front, rear] = decided(&named, ["16.09 ± 0.01 mm", "16.12 ± 0.01 mm"]);
    assert_eq!((&front["decision"], &rear["decision"]), (&"put-right".into(), &"plan-first".into()));
    let [size, wear] = decided(&bush, ["16.09 ± 0.01 mm", "0.12 ± 0.01 mm"]);
    assert_eq!((&size["decision"], &wear["decision"]), (&"put-right".into(), &"put-right".into()));
}

/// Where nobody says what sort of size a feature is a micrometer does not lend it its doubt; where its name says it, it goes by what reads
/// such a size.
#[test]
fn a_bare_reading_has_the_doubt_of_the_sort_that_is_read_worst() {
    let bare = |name: &str, service: &str| row(&decide(&[&one(name, "16.040 mm", service, "")]), "thing", name).clone();
    assert_eq!(bare("hole", "at most 16.05 mm")["decision"], "doubtful");
    assert_eq!(bare("lug", "at least 16.03 mm")["decision"], "doubtful");
    assert_eq!(bare("journal", "at least 16.03 mm")["decision"], "reuse");
    let named = decision_of("{size: 16.040 mm, with: micrometer 0-25}", "at least 16.03 mm", "");
    assert_eq!(named["decision"], "reuse", "{named}");
}

/// Nothing wears larger: what reads more than a new one was misread, or is another size.
#[test]
fn more_metal_than_new_is_not_reused() {
    let journal = |found: &str| decision_of(found, "at least 11.95 mm", ", new: 11.99 .. 12.00 mm");
    assert_eq!(journal("11.995 ± 0.004 mm")["decision"], "reuse");
    assert_eq!(journal("12.003 ± 0.004 mm")["decision"], "reuse", "within its doubt");
    let thick = journal("12.100 ± 0.004 mm");
    assert_eq!(thick["decision"], "doubtful");
    assert!(thick.to_string().contains("nothing wears that way"), "{thick}");
    let bore = |found: &str| decision_of(found, "at most 16.05 mm", ", new: 16.00 .. 16.02 mm");
    assert_eq!(
        (&bore("16.03 ± 0.004 mm")["decision"], &bore("15.90 ± 0.004 mm")["decision"]),
        (&"reuse".into(), &"doubtful".into())
    );
}

/// What stands on its limit is decided by no instrument.
#[test]
fn nobody_is_sent_for_an_instrument_that_there_is_not() {
    let keyway = decision_of("5.03 ± 0.02 mm", "at most 5.03 mm", "");
    assert_eq!(keyway["decision"], "doubtful");
    let said = keyway.to_string();
    assert!(said.contains("stands on its limit") && !said.contains("good to"), "{said}");
}

/// Files given together are one set of addresses: a part may stand in several, a name only once.
#[test]
fn a_name_twice_is_an_error() {
    let wash = std::fs::read_to_string("examples/wash.yaml").unwrap();
    let twice = try_decide(&[&wash, &wash], &[]).unwrap_err();
    assert!(twice.contains("two operations have the address"), "{twice}");
    let journal = one("journal", "12 ± 0.01 mm", "at least 11.95 mm", "");
    assert!(try_decide(&[&journal, &journal], &[]).unwrap_err().contains("two features `journal`"));
    let unknown = one("face", "{of: thing/lap/flat_found}", "at most 0.03 mm", "");
    let said = try_decide(&[&unknown, &wash], &[]).unwrap_err();
    assert!(said.contains("no operation of these jobs has the address `thing/lap`"), "{said}");
    let wrong_side = one("journal", "12.01 ± 0.004 mm", "at most 11.95 mm", ", new: 12.00 ± 0.005 mm");
    assert!(try_decide(&[&wrong_side], &[]).unwrap_err().contains("a new part would be worn out"));
    assert!(try_decide(&[&one("journal", "12 ± 0.01 mm", "11.95 mm", "")], &[]).unwrap_err().contains("at most"));
    let idle = "job: x\nshop: shop.yaml\nparts:\n  - part: thing\n";
    assert!(try_decide(&[idle], &[]).unwrap_err().contains("`operations` is missing"));
}

fn rank(decision: &Value) -> usize {
    // What is outside is put right or replaced, by whatever nobody said of it.
    let order: [&[&str]; 3] = [&["reuse"], &["doubtful"], &["replace", "plan-first"]];
    order.iter().position(|known| known.iter().any(|one| decision == one)).unwrap_or_else(|| panic!("{decision}"))
}

/// In one run, many readings of the same kind: whatever widens, none is better for it.
#[test]
fn a_larger_doubt_never_betters_a_decision() {
    let strategy = (0.001..0.2_f64, 0.0005..0.05_f64, 1.0..4.0_f64, any::<bool>());
    let mut runner = proptest::test_runner::TestRunner::new(seeds::config(150, "tests/regressions/decide.txt"));
    let cases: Vec<(f64, f64, f64, bool)> = (0..150)
        .map(|_| {
            use proptest::strategy::ValueTree;
            strategy.new_tree(&mut runner).unwrap().current()
        })
        .collect();
    let mut job = String::from("job: many\nshop: shop.yaml\nparts:\n");
    for (at, (off, doubt, wider, below)) in cases.iter().enumerate() {
        let (size, service) = if *below { (20.1 - off, "at most 20 mm") } else { (19.9 + off, "at least 20 mm") };
        job += &format!("  - part: p{at}\n    inspect:\n");
        for (name, doubt) in [("narrow", *doubt), ("wide", doubt * wider)] {
            job += &format!("      - {{feature: {name}, found: {size:.6} ± {doubt:.6} mm, service: {service}}}\n");
        }
        job += &format!("      - {{feature: none, found: not measured, service: {service}}}\n");
    }
    let decided = decide(&[&job]);
    let mut seen = [0; 3];
    for (at, case) in cases.iter().enumerate() {
        let part = format!("p{at}");
        let decision = |feature| row(&decided, &part, feature)["decision"].clone();
        let (narrow, wide) = (rank(&decision("narrow")), rank(&decision("wide")));
        assert!(wide >= narrow, "{:?}", case);
        assert!(narrow != 2 || wide == 2, "a wider reading never turns replace into reuse: {:?}", case);
        assert_eq!(decision("none"), "measure");
        seen[wide] += 1;
    }
    assert!(seen.iter().all(|count| *count > 5), "every decision is met: {seen:?}");
}

/// The demo: every output holds the same rows, at every width, and the page is one page.
#[test]
fn the_demo_is_decided_in_every_output() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let jobs = ["demo/found.yaml", "demo/tidewater.yaml"];
    let json = run(root, &[&jobs[..], &["--format", "json"]].concat());
    assert_eq!(json.status.code(), Some(0), "{}", String::from_utf8_lossy(&json.stderr));
    let decided: Value = serde_json::from_slice(&json.stdout).unwrap();
    assert_eq!(decided["schema"], 1);
    assert_eq!(row(&decided, "governor spindle", "outside")["decision"], "measure");
    assert_eq!(row(&decided, "oil pump spindle", "float")["decision"], "plan-first");
    assert_eq!(row(&decided, "tappet", "stem")["decision"], "doubtful");
    let folder = tempfile::tempdir().unwrap();
    let pdf = folder.path().join("found.pdf");
    let text = run(root, &[&jobs[..], &["-o", pdf.to_str().unwrap()]].concat());
    let text = String::from_utf8(text.stdout).unwrap();
    let html = String::from_utf8(run(root, &[&jobs[..], &["--format", "html"]].concat()).stdout).unwrap();
    for row in decided["rows"].as_array().unwrap() {
        let name = format!("{}, {}", row["part"].as_str().unwrap(), row["feature"].as_str().unwrap());
        assert!(text.contains(&name) && html.contains(&name), "{name}");
    }
    let bytes = std::fs::read(&pdf).unwrap();
    assert!(bytes.starts_with(b"%PDF"));
    let again = folder.path().join("again.pdf");
    run(root, &[&jobs[..], &["-o", again.to_str().unwrap()]].concat());
    assert_eq!(bytes, std::fs::read(again).unwrap(), "the same bytes");
    assert_eq!(run(root, &[&jobs[..], &["--strict"]].concat()).status.code(), Some(1), "open decisions");
}

/// A size that the log holds is what was found, and it says so.
#[test]
fn what_was_left_is_taken_from_the_log() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::copy("examples/shop.yaml", folder.path().join("shop.yaml")).unwrap();
    let face = std::fs::read_to_string("examples/face.yaml").unwrap();
    let part = face.lines().find_map(|line| line.trim().strip_prefix("- part: ")).unwrap().to_owned();
    std::fs::write(folder.path().join("face.yaml"), &face).unwrap();
    let found = format!(
        "job: found\nshop: shop.yaml\nparts:\n  - part: {part}\n    inspect:\n      - {{feature: length, found: {{of: \
         {part}/face/length_after}}, service: at least 5 mm}}\n"
    );
    std::fs::write(folder.path().join("found.yaml"), found).unwrap();
    let decided = |folder: &Path| -> Value {
        let output = run(folder, &["found.yaml", "face.yaml", "--format", "json"]);
        serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{}", String::from_utf8_lossy(&output.stderr)))
    };
    let planned = decided(folder.path());
    let planned = row(&planned, &part, "length");
    // What is planned was not measured: it is far inside, and no reuse.
    assert_eq!((&planned["as_left"], &planned["decision"]), (&false.into(), &"doubtful".into()));
    assert!(planned["why"].as_str().unwrap().contains("nobody has measured it yet"), "{planned}");
    let log = format!(
        "- {{n: 1, date: 2026-12-04, by: EW, part: {part}, operation: face, length_after: {} ± 0.004 mm}}\n",
        planned["found"].as_f64().unwrap() - 0.01
    );
    std::fs::write(folder.path().join("face.log.yaml"), log).unwrap();
    let left = decided(folder.path());
    let left = row(&left, &part, "length");
    assert_eq!((&left["as_left"], left["plus_minus"].as_f64()), (&true.into(), Some(0.004)), "{left}");
    assert_eq!(left["decision"], "reuse");
}

/// Parts that came in: each with the decision that the trade would take.
#[test]
fn a_bench_of_parts() {
    let came_in = include_str!("fixtures/decide/came-in.yaml");
    let decided = decide(&[came_in]);
    let bore = row(&decided, "barrel", "bore");
    assert!((bore["margin"].as_f64().unwrap() + 0.0445).abs() < 5e-6, "{bore}");
    assert_eq!((&bore["decision"], &bore["by"]), (&"plan-first".into(), &"ream-bush".into()));
    let shaft = row(&decided, "exhaust rocker shaft", "bearing");
    assert!((shaft["margin"].as_f64().unwrap() - 0.0279).abs() < 5e-5, "{shaft}");
    assert_eq!(shaft["decision"], "reuse");
    let bush = row(&decided, "outrigger bush", "clearance");
    assert!((bush["margin"].as_f64().unwrap() - 0.0097).abs() < 1e-9, "{bush}");
    assert_eq!(bush["decision"], "reuse");
    let cover = row(&decided, "governor gear case cover", "joint face");
    assert_eq!((&cover["decision"], &cover["verdict"]), (&"replace".into(), &"fails".into()));
    assert_eq!(row(&decided, "governor spindle", "outside")["decision"], "measure");
}

/// A fit as it was measured is used again where it is proven, cold and running; its row names the sheet that measures it.
#[test]
fn a_fit_as_measured_is_used_again_only_where_it_is_proven() {
    const FIT: &str = "job: fit\nshop: shop.yaml\nparts:\n  - part: outrigger bush\n    material: phosphor bronze\n    inspect:\n      - {feature: clearance, \
                       found: {of: outrigger bush/fit-up/clearance}, service: 0.030 .. 0.080 mm}\n    operations:\n      - fit-up: {bore: {size: 25.012 mm, \
                       with: bore gauge}, shaft: {size: 24.962 mm, with: micrometer 0-25}, shaft-material: mild steel, clearance: 0.030 .. 0.080 mm, \
                       running: {bore: 60 degC, shaft: 70 degC}, carried-by: GG25}\n";
    let row_of = |job: &str| row(&decide(&[job]), "outrigger bush", "clearance").clone();
    let used = row_of(FIT);
    assert_eq!(used["decision"], "reuse", "{used}");
    assert!((used["margin"].as_f64().unwrap() - 0.0097).abs() < 5e-5, "{used}");
    assert_eq!(used["sheets"], serde_json::json!(["1.1"]));
    for (from, to) in [
        // It seizes hot; nobody said how warm it runs; nobody said what carries it; what a reading is worth nobody knows.
        ("shaft: 70 degC", "shaft: 250 degC"),
        (", running: {bore: 60 degC, shaft: 70 degC}, carried-by: GG25", ""),
        (", carried-by: GG25", ""),
        ("{size: 24.962 mm, with: micrometer 0-25}", "24.962 mm"),
        ("{size: 25.012 mm, with: bore gauge}", "25.012 ± 0.030 mm"),
        ("{size: 25.012 mm, with: bore gauge}", "{size: 25.050 mm, with: bore gauge}"),
    ] {
        assert!(FIT.contains(from), "{from}");
        let other = row_of(&FIT.replace(from, to));
        assert_ne!(other["decision"], "reuse", "{to}: {other}");
        // What fails names the sheets of its cure.
        assert!(other["verdict"] == "fails" || other["sheets"][0] == "1.1", "{to}: {other}");
    }
    let loose = row_of(&FIT.replace("25.012 mm", "25.090 mm"));
    assert_eq!((&loose["decision"], &loose["by"]), (&"plan-first".into(), &"ream-bush".into()), "{loose}");
}

/// A remedy that does not bring the size inside its limits is none, however sure its plan is.
#[test]
fn a_remedy_mends_what_it_is_for() {
    let job = |service: &str| {
        format!(
            "job: one\nshop: shop.yaml\nparts:\n  - part: bar\n    material: mild steel\n    inspect:\n      - {{feature: journal, found: 23.90 ± 0.004 mm, service: {service}, remedies: [turn, replace]}}\n    operations:\n      - turn: {{present: 23.90 ± 0.004 mm, outside: 22.95 .. 23.00 mm, length: 22.0 ± 0.2 mm, over-all: 70 ± 0.2 mm, corner: 0.4 mm, finish: Ra 3.2 um, hold: {{in: jaws, diameter: 24.6 mm, grip: 40 mm, overhang: 30 mm, true-within: 0.05 mm, stop: rod, nipped: hard}}}}\n"
        )
    };
    let decided = |service: &str| row(&decide(&[&job(service)]), "bar", "journal")["decision"].to_string();
    assert!(decided("at least 23.95 mm").contains("replace"), "{}", decided("at least 23.95 mm"));
    assert!(decided("at most 23.10 mm").contains("put-right"), "{}", decided("at most 23.10 mm"));
}

/// A float that only wants a shim of another thickness is put right by one that is ordered; the part is not replaced, which nobody
/// allowed.
#[test]
fn no_part_is_replaced_for_want_of_a_shim() {
    let job = "job: float\nshop: shop.yaml\nparts:\n  - part: gudgeon\n    material: mild steel\n    inspect:\n      - {feature: end float, found: 0.23 ± 0.01 mm, service: 0.05 .. 0.15 mm, remedies: [shim]}\n    operations:\n      - shim: {float: 0.05 .. 0.15 mm, chain: [{link: rod, opens: 20.23 ± 0.005 mm}, {link: boss, closes: 20.00 ± 0.005 mm}]}\n";
    let decided = decide(&[job]);
    let row = row(&decided, "gudgeon", "end float");
    assert_eq!(row["by"], "shim", "{row}");
    assert_ne!(row["decision"], "replace", "{row}");
    assert!(!row["order"].to_string().contains("gudgeon\",\"size"), "{row}");
}

const FACED: &str = "    material: case-hardened steel\n    hardness: 60 HRC\n    case-depth: 1.0 ± 0.1 mm\n    operations:\n      - face: {outside: 52 mm, inside: 32 mm, length: 21.85 ± 0.01 mm, wear: 0.20 ± 0.02 mm, finish: Ra 1.6 um, square-within: 0.02 mm, hold: {in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step}, least-case: 0.5 mm, removed-before: 0 mm}\n";

/// A size that was found good, and that the plan still cuts under its limit, does not go back as it is.
#[test]
fn what_the_plan_still_cuts_is_not_used_again() {
    let decided = |found: &str, service: &str| {
        let job = format!(
            "job: one\nshop: shop.yaml\nparts:\n  - part: collar\n{FACED}    inspect:\n      - {{feature: thickness, found: {found}, service: {service}}}\n"
        );
        row(&decide(&[&job]), "collar", "thickness").clone()
    };
    let cut = decided("21.85 ± 0.01 mm", "at least 21.80 mm");
    assert!(cut["decision"] == "doubtful" && cut.to_string().contains("face leaves it outside"), "{cut}");
    // No finer reading of it helps: what is planned spoils it.
    assert!(!cut.to_string().contains("measure better"), "{cut}");
    assert_eq!(decided("21.85 ± 0.01 mm", "at least 21.20 mm")["decision"], "reuse", "as it is left");
    assert_eq!(decided("30.85 ± 0.01 mm", "at least 30.80 mm")["decision"], "reuse", "another size");
}

/// Whatever takes the metal: a cutter, a lap that knows no length, a size that was read with another doubt.
#[test]
fn what_any_work_of_the_part_takes_under_its_limit_is_not_used_again() {
    let of = |example: &str| example.split_once("    operations:\n").unwrap().1.to_owned();
    let decided = |example: &str, found: &str, service: &str| {
        let job = format!(
            "job: one\nshop: shop.yaml\nparts:\n  - part: cover\n    material: GG25\n    inspect:\n      - {{feature: thickness, found: {found}, service: {service}}}\n    operations:\n{}",
            of(example)
        );
        row(&decide(&[&job]), "cover", "thickness").clone()
    };
    let mill = include_str!("../examples/mill-face.yaml");
    assert_eq!(decided(mill, "18.01 ± 0.05 mm", "at least 17.5 mm")["decision"], "doubtful");
    assert_eq!(decided(mill, "18.01 ± 0.05 mm", "at least 16.5 mm")["decision"], "reuse");
    let lap = include_str!("../examples/lap.yaml");
    assert_eq!(decided(lap, "18.00 ± 0.005 mm", "at least 17.97 mm")["decision"], "doubtful");
    assert_eq!(decided(lap, "18.00 ± 0.005 mm", "at least 17.5 mm")["decision"], "reuse");
}

/// A remedy that was planned for less wear than was found leaves some of it.
#[test]
fn a_remedy_takes_off_as_much_as_was_found() {
    let decided = |wear: &str| {
        let job = format!(
            "job: one\nshop: shop.yaml\nparts:\n  - part: collar\n{FACED}    inspect:\n      - {{feature: wear, found: {wear} ± 0.02 mm, service: at most 0.05 mm, remedies: [face]}}\n"
        );
        row(&decide(&[&job]), "collar", "wear").clone()
    };
    let (less, enough) = (decided("0.40"), decided("0.22"));
    assert_ne!(less["decision"], "put-right", "{less}");
    assert!(less.to_string().contains("planned for 0.200 mm of it alone"), "{less}");
    assert!(!enough.to_string().contains("of it alone"), "{enough}");
}

/// A slip of the decimal point is not used again.
#[test]
fn a_size_ten_times_its_limit_is_not_used_again() {
    let journal = |found: &str, more: &str| decision_of(found, "at least 24.96 mm", more)["decision"].clone();
    assert_eq!(journal("24.97 ± 0.004 mm", ""), "reuse");
    assert_eq!(journal("249.7 ± 0.004 mm", ""), "doubtful");
    let wall = |more: &str| decision_of("18.0 ± 0.1 mm", "at least 2 mm", more)["decision"].clone();
    assert_eq!((wall(""), wall(", new: 18.5 .. 19 mm")), ("doubtful".into(), "reuse".into()));
}

/// A limit to which nothing wears says nothing of wear: a bore is never used again by `at least` alone, a journal never by `at most`.
#[test]
fn a_limit_against_the_wear_is_asked_for() {
    let of = |feature: &str, service: &str| {
        row(&decide(&[&one(feature, "24.97 ± 0.004 mm", service, "")]), "thing", feature).clone()
    };
    for (feature, service) in [
        ("governor bore", "at least 24.96 mm"),
        ("cylinder", "at least 24.96 mm"),
        ("thrust wear", "at least 24.96 mm"),
        ("journal", "at most 24.98 mm"),
        ("plate thickness", "at most 24.98 mm"),
    ] {
        let asked = of(feature, service);
        assert_eq!(asked["decision"], "doubtful", "{asked}");
        assert!(asked.to_string().contains("alone never sees that"), "{asked}");
        assert!(asked["says"].as_str().unwrap().contains("say the other limit"), "{asked}");
    }
    for (feature, service) in [
        ("governor bore", "at most 24.98 mm"),
        ("governor bore", "24.96 to 24.98 mm"),
        ("journal", "at least 24.96 mm"),
        ("bore depth", "at least 24.96 mm"),
        ("shaft run-out", "at most 24.98 mm"),
        ("journal out of round", "at most 24.98 mm"),
        ("crank pin ovality", "at most 24.98 mm"),
        ("shaft end play", "at most 24.98 mm"),
        ("liner stand-out", "at least 24.96 mm"),
        ("shaft wear", "at most 24.98 mm"),
        ("crown", "at least 24.96 mm"),
    ] {
        assert_eq!(of(feature, service)["decision"], "reuse", "{feature} {service}");
    }
}

/// A remedy that was planned by another reading than what was found cures that reading: it is not proven for this one.
#[test]
fn a_remedy_is_planned_by_what_was_found() {
    let decided = |part: &str, example: &str, feature: &str, found: &str, service: &str, remedy: &str| {
        let job = example.replacen(
            "    operations:\n",
            &format!("    inspect:\n      - {{feature: {feature}, found: {found}, service: {service}, remedies: [{remedy}]}}\n    operations:\n"),
            1,
        );
        row(&decide(&[&job]), part, feature).clone()
    };
    let press = include_str!("../examples/press-in.yaml");
    let bush = |found: &str| decided("pump cover", press, "bush bore", found, "at most 24.005 mm", "press-in");
    assert!(!bush("24.010 ± 0.004 mm").to_string().contains("planned by a reading"));
    let loose = bush("24.100 ± 0.010 mm");
    assert_eq!(loose["decision"], "put-right-doubtful", "{loose}");
    assert!(loose.to_string().contains("planned by a reading of 24.010"), "{loose}");
    assert!(!loose.to_string().contains("press-in is proven"), "{loose}");
    // A bush that is worn is no reading of the bore that it sits in.
    assert_eq!(bush("18.100 ± 0.010 mm").to_string().matches("planned by a reading").count(), 0);
    let lap = include_str!("../examples/lap.yaml");
    let flat = |found: &str| decided("governor gear case cover", lap, "joint face", found, "at most 0.03 mm", "lap");
    assert_eq!(flat("0.032 ± 0.005 mm")["decision"], "put-right");
    assert_eq!(flat("0.300 ± 0.010 mm")["decision"], "put-right-doubtful");
    let shim = &include_str!("../examples/shim.yaml").replace("with: micrometer", "with: micrometer 0-25");
    let part = shim.lines().find_map(|line| line.trim_start().strip_prefix("- part: ")).unwrap();
    let float = |found: &str| decided(part, shim, "end float", found, "0.10 to 0.30 mm", "shim");
    assert!(!float("0.38 ± 0.01 mm").to_string().contains("planned by a reading"));
    assert!(float("0.90 ± 0.01 mm").to_string().contains("planned by a reading"));
}

/// What a gauge for bores reads of a journal, and one for outsides of a bore, is no reading of it.
#[test]
fn a_gauge_of_another_kind_reads_nothing_of_a_feature() {
    let of = |feature: &str, with: &str, service: &str| {
        let found = format!("{{size: 24.000 mm, with: {with}}}");
        let row = row(&decide(&[&one(feature, &found, service, "")]), "thing", feature).clone();
        row["verdict"].as_str().unwrap().to_owned()
    };
    for (feature, service) in [("journal", "at least 23.9 mm"), ("bore", "at most 24.1 mm")] {
        let (right, wrong) =
            if feature == "bore" { ("bore gauge", "micrometer 0-25") } else { ("micrometer 0-25", "bore gauge") };
        assert_eq!(of(feature, right, service), "proven", "{feature} with {right}");
        assert_eq!(of(feature, wrong, service), "doubtful", "{feature} with {wrong}");
    }
}

/// A remedy that takes another size of the part outside its limits puts the part not right, however proven its own sheet is.
#[test]
fn a_remedy_that_spends_another_size_is_in_doubt() {
    let found = include_str!("../demo/found.yaml");
    let folder = tempfile::tempdir().unwrap();
    for (name, text) in
        [("shop.yaml", include_str!("../demo/shop.yaml")), ("job.yaml", include_str!("../demo/tidewater.yaml"))]
    {
        std::fs::write(folder.path().join(name), text).unwrap();
    }
    let faced = |least: &str| {
        std::fs::write(folder.path().join("found.yaml"), crate::common::with(found, "at least 17.50 mm", least))
            .unwrap();
        let out = run(folder.path(), &["found.yaml", "job.yaml", "--format", "json"]);
        let decided: Value = serde_json::from_slice(&out.stdout).unwrap();
        row(&decided, "idler thrust collar", "thrust face wear").clone()
    };
    let spent = faced("at least 17.88 mm");
    assert_eq!((&spent["decision"], &spent["by"]), (&"put-right-doubtful".into(), &"face".into()), "{spent}");
    assert!(spent["why"].to_string().contains("leaves the part's thickness outside"), "{spent}");
    assert_eq!(faced("at least 17.60 mm")["decision"], "put-right");
}

/// What takes metal off mends nothing that is too small, and what is for another diameter mends not this one.
#[test]
fn a_cut_is_no_remedy_for_what_lacks() {
    let turned = |found: &str, service: &str| {
        let inspect = format!(
            "    inspect:\n      - {{feature: seal journal, found: {found}, service: {service}, remedies: [turn, replace]}}\n    operations:"
        );
        let job = include_str!("../examples/turn.yaml").replace("    operations:", &inspect);
        row(&decide(&[&job]), "pump drive shaft", "seal journal").clone()
    };
    let other = turned("19.90 ± 0.004 mm", "at most 19.85 mm");
    assert_eq!(other["decision"], "plan-first", "{other}");
    let small = turned("24.60 ± 0.004 mm", "at least 24.70 mm");
    assert!(small["decision"] == "replace" && small.to_string().contains("metal is what lacks"), "{small}");
}

/// A face that opens the float closes none, and a float that is good as found is not reused past a face that opens it.
#[test]
fn a_float_is_judged_as_the_face_leaves_it() {
    let of = |found: &str, service: &str| {
        let demo = include_str!("../demo/found.yaml");
        let start = demo.find("      - {feature: thickness").expect("it");
        let line =
            format!("      - {{feature: end float, found: {found}, service: {service}, remedies: [face, shim]}}\n");
        let folder = tempfile::tempdir().unwrap();
        let job = include_str!("../demo/tidewater.yaml");
        let files = [("shop.yaml", include_str!("../demo/shop.yaml")), ("job.yaml", job)];
        for (name, text) in files {
            std::fs::write(folder.path().join(name), text).unwrap();
        }
        let found = format!("{}{line}{}", &demo[..start], &demo[start..]);
        std::fs::write(folder.path().join("found.yaml"), found).unwrap();
        let out = run(folder.path(), &["found.yaml", "job.yaml", "--format", "json"]);
        let decided: Value = serde_json::from_slice(&out.stdout).unwrap();
        row(&decided, "idler thrust collar", "end float").clone()
    };
    let opened = of("0.31 ± 0.01 mm", "at most 0.25 mm");
    assert_ne!(opened["decision"], "put-right", "{opened}");
    let good = of("0.31 ± 0.01 mm", "0.25 .. 0.40 mm");
    assert!(good["decision"] != "reuse" && good["why"].to_string().contains("face leaves it outside"), "{good}");
}
