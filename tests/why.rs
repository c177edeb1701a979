//! One figure down to what it rests on: every chain ends at readings, rows and defaults, and its doubts are the figure's own.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common;

use serde_json::Value;
use setover::operations::Request;
use setover::proof::Cause;
use setover::sheet::{TypedAt, Why};
use std::collections::BTreeSet;
use std::path::Path;
use std::process::{Command, Output};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn why(arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).current_dir(root()).arg("why").args(arguments).output().expect("runs")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

/// What stands where a figure comes from: of which kind, and what it says.
fn root_of(from: &Value) -> (&str, &Value) {
    let kinds = ["working", "typed", "assumed", "row", "as_left"];
    let kind = kinds.into_iter().find(|kind| !from[kind].is_null()).unwrap_or_else(|| panic!("no root: {from}"));
    (kind, &from[kind])
}

/// Every working is there once and is asked for by the figure or by another; every leaf names where it comes from.
#[test]
fn every_chain_ends_at_what_was_read_or_looked_up() {
    let shop = std::fs::read_to_string(root().join("examples/shop.yaml")).unwrap();
    let (mut deepest, mut typed, mut rows) = (0, 0, 0);
    for word in Request::WORDS {
        let job = std::fs::read_to_string(root().join(format!("examples/{word}.yaml"))).unwrap();
        let plan = common::plan(&job, Some(&common::shop(&shop)));
        for planned in &plan.operations {
            for value in &planned.answer.values {
                let at = |place: setover::proof::Place| TypedAt {
                    file: "job".into(),
                    line: place.line,
                    key: "key".into(),
                    typed: "typed".into(),
                    is_argument: false,
                };
                let why = Why::of(planned, value, &at, &|cause| format!("{cause:?}"));
                assert!(!why.text(plan.print).is_empty());
                let why = serde_json::to_value(&why).unwrap();
                let steps = why["workings"].as_array().unwrap();
                let mut asked: BTreeSet<u64> = BTreeSet::new();
                let all = steps.iter().flat_map(|step| step["given"].as_array().unwrap()).map(|given| &given["from"]);
                for from in all.chain([&why["from"]]) {
                    match root_of(from) {
                        ("working", number) => drop(asked.insert(number.as_u64().unwrap())),
                        ("typed", at) => {
                            assert!(at["line"].as_u64().unwrap() > 0, "{word} {}: {at}", value.key);
                            typed += 1;
                        }
                        ("row", row) => {
                            assert!(row["source"].as_str().is_some_and(|source| !source.is_empty()), "{row}");
                            assert!(row["mark"].as_str().is_some_and(|mark| !mark.is_empty()), "{row}");
                            rows += 1;
                        }
                        ("assumed", says) => assert!(!says.as_str().unwrap().is_empty(), "{word} {}", value.key),
                        _ => {}
                    }
                }
                let numbers: BTreeSet<u64> = steps.iter().map(|step| step["number"].as_u64().unwrap()).collect();
                assert_eq!(asked, numbers, "{word} {}", value.key);
                for step in steps {
                    assert!(!step["says"].as_array().unwrap().is_empty(), "{word} {}: {step}", value.key);
                    assert!(!step["source"].as_str().unwrap().is_empty(), "{word} {}: {step}", value.key);
                }
                deepest = deepest.max(steps.len());
                let doubts = why["doubts"].as_array().unwrap();
                let parts: f64 = doubts.iter().map(|doubt| doubt["part"].as_f64().unwrap()).sum();
                assert!(doubts.is_empty() || (parts - 1.0).abs() < 1e-9, "{word} {}: {parts}", value.key);
                let squares: f64 = doubts.iter().map(|doubt| doubt["plus_minus"].as_f64().unwrap().powi(2)).sum();
                if why["at_worst_end"] == Value::Bool(false) {
                    // Readings of an instrument of which nobody knows what they share count as off together where that is worse.
                    let shared = value.shares.iter().any(|share| matches!(share.0, Cause::Read(..)));
                    let off = value.plus_minus - squares.sqrt();
                    assert!(off > -1e-9 && (shared || off < 1e-9), "{word} {}", value.key);
                }
                let order: Vec<f64> = doubts.iter().map(|doubt| doubt["part"].as_f64().unwrap()).collect();
                assert!(order.is_sorted_by(|a, b| a >= b), "{order:?}");
            }
        }
    }
    assert!(deepest >= 8 && typed > 100 && rows > 100, "{deepest} {typed} {rows}");
}

#[test]
fn a_figure_is_told_with_the_lines_that_it_rests_on() {
    let text = said(&why(&["examples/thread-insert.yaml", "wall_needed"]));
    for piece in [
        "timing chest/thread-insert/wall_needed: ",
        "W_n = W + least − left = ",
        "typed, thread-insert.wall: 18.0 ± 0.3 mm (examples/thread-insert.yaml, line 11)",
        "typed, tools.drills.point: 118 deg (examples/shop.yaml, line 34)",
        "ASME B18.29.2M notes",
        "stands at the worst end already",
    ] {
        assert!(text.split_whitespace().collect::<Vec<_>>().join(" ").contains(piece), "{piece}: {text}");
    }
    let line =
        |piece: &str| text.lines().find(|line| line.contains(piece)).unwrap_or_else(|| panic!("{piece}: {text}"));
    assert!(line("% ").contains("thread-insert.wall"), "the wall's doubt costs most: {text}");
    // Hyphens and a check that judges it lead to the same.
    assert_eq!(said(&why(&["examples/thread-insert.yaml", "wall-needed"])), text);
    assert_eq!(said(&why(&["examples/thread-insert.yaml", "timing chest/thread-insert/wall_needed"])), text);
    let json: Value =
        serde_json::from_slice(&why(&["examples/thread-insert.yaml", "wall_needed", "--format", "json"]).stdout)
            .unwrap();
    assert_eq!(json["workings"][0]["given"][0]["from"]["typed"]["key"], "thread-insert.wall");
    let inch = said(&why(&["examples/thread-insert.yaml", "wall_needed", "--units", "inch"]));
    assert!(inch.contains("wall_needed: 0.6648 in") && inch.contains("16.8842 mm (0.6647 in)"), "{inch}");
}

#[test]
fn what_is_not_there_or_there_twice_is_said() {
    let none = why(&["examples/thread-insert.yaml", "wall_neded"]);
    assert_eq!(none.status.code(), Some(2));
    assert!(said(&none).contains("did you mean `wall_needed`"), "{}", said(&none));
    let none = why(&["examples/thread-insert.yaml", "timing chst/thread-insert/wall_needed"]);
    assert!(said(&none).contains("did you mean `timing chest/thread-insert`"), "{}", said(&none));
    let twice = why(&["demo/tidewater.yaml", "drill_diameter"]);
    assert_eq!(twice.status.code(), Some(2));
    assert!(said(&twice).contains("several operations have it: say which"), "{}", said(&twice));
    let all = why(&["examples/thread-insert.yaml"]);
    assert!(all.status.success() && said(&all).contains("wall_needed"), "{}", said(&all));
}

/// In an inch shop no size stands in a working without its inch.
#[test]
fn every_millimetre_in_a_working_has_its_inch() {
    for (job, value) in [
        ("examples/face.yaml", "length_after"),
        ("examples/thread-insert.yaml", "tap_depth"),
        ("examples/turn.yaml", "spindle_speed"),
    ] {
        let output = why(&[job, value, "--units", "inch"]);
        assert!(output.status.success(), "{}", said(&output));
        let text = said(&output).split_whitespace().collect::<Vec<_>>().join(" ");
        let words: Vec<&str> = text.split(' ').collect();
        let mut told = 0;
        for (at, word) in words.iter().enumerate().filter(|(_, word)| word.trim_end_matches([';', ',', ':']) == "mm") {
            // What was typed stands as it was typed: the figure before it has its key and its line.
            let line = words[at.saturating_sub(8)..at].join(" ");
            let typed = line.contains("typed,") || words.get(at + 1).is_some_and(|next| next.ends_with(".yaml,"));
            let beside = word.ends_with("mm") && words.get(at + 1).is_some_and(|next| next.starts_with('('));
            let is_figure = words[at - 1].trim_start_matches('(').parse::<f64>().is_ok();
            told += usize::from(beside && !typed);
            assert!(typed || beside || !is_figure, "{job} {value}: {line} {word}: {text}");
        }
        assert!(told > 0 || value == "spindle_speed", "{text}");
    }
}

/// The multipliers of a proof and the readings beside them, as a working prints them.
fn proof(says: &str) -> Vec<(f64, f64)> {
    let terms = says.split(" × ").collect::<Vec<_>>();
    let last = |text: &str| text.rsplit(' ').next().unwrap().parse::<f64>().unwrap();
    let first = |text: &str| text.split(" mm").next().unwrap().parse::<f64>().unwrap();
    terms.windows(2).map(|two| (last(two[0]), first(two[1]))).collect()
}

/// The narrowest zone and the least cylinder are proven by a few readings with their multipliers: whoever asks gets them, as text and
/// as JSON, and the figure is their sum.
#[test]
fn the_proof_of_a_zone_is_told_to_whoever_asks() {
    let jobs = [
        ("examples/lap.yaml", "governor gear case cover/lap/flat_found", 0.0, "no two planes lie closer"),
        ("tests/jobs/barrel-by-radii.yaml", "cylinder_form", 0.0, "none is less"),
        ("tests/jobs/barrel-by-radii.yaml", "clean_up_worn", 1.0, "none is less"),
    ];
    for (job, value, sum, rule) in jobs {
        let text = said(&why(&[job, value]));
        let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat.contains(rule) && flat.contains(" × "), "{text}");
        let json: Value = serde_json::from_slice(&why(&[job, value, "--format", "json"]).stdout).unwrap();
        let steps = json["workings"].as_array().unwrap();
        let says = steps.iter().flat_map(|step| step["says"].as_array().unwrap()).map(|line| line.as_str().unwrap());
        let proven = says.clone().find(|line| line.contains(rule)).unwrap_or_else(|| panic!("{json:#}"));
        let set = proof(proven);
        assert!(set.len() >= 2, "{proven}");
        approx::assert_abs_diff_eq!(set.iter().map(|(by, _)| by).sum::<f64>(), sum, epsilon = 1e-5);
        let height: f64 = set.iter().map(|(by, read)| by * read).sum();
        if sum == 0.0 {
            approx::assert_abs_diff_eq!(height, json["value"].as_f64().unwrap(), epsilon = 1e-4);
        } else {
            // Twice the least radius, and the clean-up on both sides.
            assert!(
                (0.0..0.2).contains(&(json["value"].as_f64().unwrap() - 2.0 * height)),
                "{height} {}",
                json["value"]
            );
        }
    }
}
