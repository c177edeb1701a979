//! What the log of one thing does to the decision on another: nothing, unless that was done to it; and what is doubtful in the plan is
//! reused by nobody.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::log_loop::Bench;

const BORE: &str = include_str!("../examples/bore.yaml");
const SHIM: &str = include_str!("../examples/shim.yaml");
const REAM: &str = include_str!("../examples/ream-bush.yaml");
const TURN: &str = include_str!("../examples/turn.yaml");

fn row(bench: &Bench, feature: &str) -> (String, String) {
    let rows = bench.decided();
    let row = rows.iter().find(|row| row.0 == feature).unwrap_or_else(|| panic!("{feature}: {rows:#?}"));
    (row.1.clone(), row.2.clone())
}

/// A job with features that were inspected, above its operations.
fn inspecting(job: &str, features: &str) -> String {
    let (before, after) = job.split_once("    operations:\n").expect("operations");
    format!("{before}    inspect:\n{features}    operations:\n{after}")
}

/// The piston is measured, and the ring tried, before anything is cut.
#[test]
fn a_piston_that_was_measured_bores_nothing() {
    let wear = "      - {feature: bore, found: 46.090 ± 0.008 mm, service: at most 46.060 mm, remedies: [bore]}\n";
    let bench = Bench::of(&inspecting(BORE, wear));
    let before = bench.decided();
    assert!(before.iter().any(|row| row.0.contains("piston")), "{before:#?}");
    bench.log(&["pump barrel/bore", "piston=46.420 ± 0.004 mm"]);
    let after = bench.decided();
    let short = |rows: &[(String, String, String)]| -> Vec<_> {
        rows.iter().map(|row| (row.0.clone(), row.1.clone())).collect()
    };
    assert_eq!(short(&after), short(&before));
    assert!(!format!("{after:?}").contains("was done"), "{after:#?}");
    bench.log(&["pump barrel/bore", "finish_bore=46.500 ± 0.006 mm"]);
    assert_ne!(short(&bench.decided()), short(&before));
}

/// What is done to one bore of a case says nothing of another that only has the same remedy.
#[test]
fn work_on_one_feature_leaves_the_others_as_they_were_found() {
    let bores = "      - {feature: governor bore, found: 19.062 ± 0.010 mm, service: at most 19.040 mm, remedies: [ream-bush]}\n      - {feature: idler bore, found: 25.012 ± 0.006 mm, service: at most 25.050 mm, remedies: [ream-bush]}\n";
    let job = inspecting(REAM, bores)
        .replace("- ream-bush:\n", "- ream-bush:\n          set-up: {name: governor bush, feature: governor bore}\n");
    let bench = Bench::of(&job);
    assert_eq!(row(&bench, "idler bore").0, "reuse");
    bench.log(&["pump end case/governor bush", "finish_bore=16.022 ± 0.004 mm"]);
    assert_eq!(row(&bench, "idler bore").0, "reuse");
    // The bore of the bush is not the bore that it was pressed into.
    assert!(!row(&bench, "governor bore").1.contains("finish_bore"), "{:?}", row(&bench, "governor bore"));
}

/// A size as it was left is no surer than the work that left it.
#[test]
fn what_is_doubtful_in_the_plan_is_not_reused() {
    let float = "      - {feature: end float, found: 0.38 ± 0.01 mm, service: 0.10 to 0.30 mm, remedies: [shim]}\n";
    let decided = |left: &str| {
        let bench = Bench::of(&inspecting(SHIM, float));
        bench.log(&["idler shaft/shim", left]);
        (bench.verdict(0), row(&bench, "end float"))
    };
    let sure = decided("float_left=0.19 ± 0.01 mm");
    let off = decided("float_left=0.22 ± 0.01 mm");
    assert_eq!(off.0, "doubtful");
    assert_ne!(off.1.0, "reuse", "{:?}", off.1);
    if sure.0 == "proven" {
        assert_eq!(sure.1.0, "reuse");
    }
    // A trial pack that leaves it wrong is changed: nobody buys a shaft for that.
    let trial = decided("float_left=0.36 ± 0.01 mm");
    assert_eq!(trial.1.0, "put-right-doubtful", "{trial:?}");
}

/// What was measured again after the work is what is there now.
#[test]
fn what_was_measured_since_is_decided_by_that() {
    let of = |measured: &str| {
        let wear = format!(
            "      - {{feature: seat, found: 24.50 ± 0.01 mm,{measured} service: at least 24.40 mm, remedies: [turn]}}\n"
        );
        let bench = Bench::of(&inspecting(TURN, &wear));
        bench.log(&["pump drive shaft/turn", "diameter_after=23.97 ± 0.004 mm"]);
        row(&bench, "seat")
    };
    let (decision, why) = of("");
    assert_eq!(decision, "measure", "{why}");
    assert!(why.contains("measured"), "{why}");
    assert_eq!(of(" measured: 2026-12-04,").0, "measure", "of the same day");
    let (decision, why) = of(" measured: 2026-12-05,");
    assert!(!why.contains("was done"), "{decision}: {why}");
}

/// What is typed on a page for a screen belongs to the plan that printed it; and one reading of a turn is no turn.
#[test]
fn a_page_keeps_what_is_typed_for_its_own_plan() {
    let bench = Bench::of(include_str!("../examples/set-true.yaml"));
    let page = || {
        bench.said(&["sheets", "job.yaml", "--format", "html", "-o", "page.html", "--force"]);
        std::fs::read_to_string(bench.path().join("page.html")).expect("a page")
    };
    let key = |page: &str| {
        page.split("data-key=\"").nth(1).and_then(|rest| rest.split('"').next()).expect("a key").to_owned()
    };
    let before = page();
    assert_eq!(key(&before), key(&page()));
    let blanks = before.split("data-log=\"tir_after\"").skip(1);
    let blanks: Vec<&str> = blanks.map(|rest| rest.split('>').next().expect("a tag")).collect();
    assert!(blanks.len() > 4 && blanks.iter().all(|blank| blank.contains(" data-all")), "{blanks:?}");
    bench.log(&["pump shaft/set-true", "tir_after=0.002 0.001 -0.001 -0.003 -0.004 -0.002 0.001 0.002 mm"]);
    assert_ne!(key(&before), key(&page()));
}

/// What follows a bore is wanted until it is there, also once the bore is done: on that very evening it is needed.
#[test]
fn what_follows_a_bore_is_ordered_until_it_is_there() {
    let bench = Bench::of(&inspecting(
        BORE,
        "      - {feature: bore, found: 46.090 ± 0.008 mm, service: at most 46.06 mm, remedies: [bore, replace]}\n",
    ));
    let ordered = |item: &str| {
        let said = bench.said(&["decide", "job.yaml"]);
        let list = said.split("Order list").nth(1).unwrap_or_default().to_owned();
        list.lines().any(|line| line.contains(&format!("× {item}")))
    };
    assert!(ordered("piston") && ordered("rings"));
    bench.log(&["pump barrel/bore", "finish_bore=46.500 ± 0.004 mm"]);
    // The piston lies in the drawer, and was in hand when the bore was cut to it.
    assert!(ordered("rings") && !ordered("piston"));
    bench.log(&["pump barrel/bore", "ring_gap=0.16 ± 0.02 mm"]);
    assert!(!ordered("rings"));
}
