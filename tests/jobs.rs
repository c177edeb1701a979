//! Whole jobs unlike the examples, with the verdicts that they must have; and what holds for every value of every job.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::{Arc, Mutex, OnceLock};

/// What holds only what was found on parts is no plan: the page of decisions has it.
fn jobs_in(folder: &str) -> Vec<PathBuf> {
    let mut all: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect(folder)
        .map(|entry| entry.expect("entry").path())
        .filter(|path| {
            path.extension().is_some_and(|e| e == "yaml")
                && !["shop.yaml", "found.yaml"].iter().any(|name| path.to_string_lossy().ends_with(name))
        })
        .collect();
    all.sort();
    all
}

/// Exit code, JSON and what was said of a job.
type Answered = (Option<i32>, serde_json::Value, String);

/// The same of a job that lies in the project, asked for once.
fn planned(job: &Path) -> Arc<Answered> {
    static ASKED: Mutex<BTreeMap<PathBuf, Arc<OnceLock<Arc<Answered>>>>> = Mutex::new(BTreeMap::new());
    let once = ASKED.lock().unwrap().entry(job.to_owned()).or_default().clone();
    once.get_or_init(|| Arc::new(plan(job))).clone()
}

fn plan(job: &Path) -> Answered {
    let output =
        Command::new(env!("CARGO_BIN_EXE_setover")).args(["plan", "--format", "json"]).arg(job).output().expect("runs");
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    (output.status.code(), serde_json::from_slice(&output.stdout).unwrap_or_default(), said)
}

fn worst(json: &serde_json::Value) -> String {
    let rank = |v: &str| ["proven", "doubtful", "fails"].iter().position(|w| *w == v).expect("a verdict");
    let all =
        json["operations"].as_array().expect("operations").iter().map(|o| o["verdict"].as_str().expect("verdict"));
    all.max_by_key(|v| rank(v)).expect("one").to_owned()
}

#[test]
fn every_job_has_the_verdict_that_it_expects() {
    let jobs = jobs_in("tests/jobs");
    assert!(jobs.len() >= 3);
    for job in jobs {
        let text = std::fs::read_to_string(&job).expect("text");
        let expected = text
            .lines()
            .next()
            .and_then(|l| l.strip_prefix("# expect: "))
            .unwrap_or_else(|| panic!("{job:?} expects nothing"))
            .to_owned();
        let (code, json, said) = &*planned(&job);
        assert!(code.is_some_and(|c| c < 2), "{job:?}: {said}");
        assert_eq!(worst(json), expected, "{job:?}");
        assert_eq!(*code, Some(i32::from(expected == "fails")), "{job:?}");
    }
}

/// Every value carries a source; a working unless it was typed, assumed or as left; a finite figure; a unit of the list.
fn hold_values(job: &Path, values: &serde_json::Value) -> usize {
    const UNITS: &[&str] = &[
        "mm", "um", "N", "N·m", "MPa", "kW", "min", "m/min", "mm/min", "mm/rev", "rev/min", "degC", "deg", "m/s",
        "cm3", "mm2", "N/mm", "1",
    ];
    let values = values.as_object().expect("values");
    for (name, value) in values {
        let source = value["source"].as_str().expect("source");
        let working = value["working"].as_array().expect("working");
        assert!(!source.is_empty(), "{job:?} {name}");
        let without = source == "given" || source.starts_with("assumed") || source.starts_with("as left");
        assert!(without || !working.is_empty(), "{job:?} {name}: no working; {source}");
        assert!(value["value"].as_f64().is_some_and(f64::is_finite), "{job:?} {name}");
        assert!(UNITS.contains(&value["unit"].as_str().expect("unit")), "{job:?} {name}: {}", value["unit"]);
        assert!(!value["means"].as_str().expect("means").is_empty());
    }
    values.len()
}

/// Every check that the operation declares stands in the answer once, whatever became of it; the stamp is the worst of those
/// that stamp; no margin is better than its verdict; what does not hold says what would mend it.
fn hold_checks(job: &Path, operation: &serde_json::Value) {
    let checks = operation["checks"].as_array().expect("checks");
    let mut worst = if operation["refused"].is_null() { "proven" } else { "fails" };
    let mut ids: Vec<&str> = Vec::new();
    for check in checks {
        let id = check["check"].as_str().expect("an id");
        let state = check["state"].as_str().expect("a state");
        let weight = check["weight"].as_str().expect("a weight");
        assert!(!ids.contains(&id) || id == "order-of-operations", "{job:?}: {id} stands twice");
        ids.push(id);
        match (weight, state) {
            ("advice" | "found", _) => {}
            (_, "fails") => worst = "fails",
            (_, "doubtful") | ("must", "not-checked") if worst == "proven" => worst = "doubtful",
            _ => {}
        }
        let mended = check["remedy"].is_string() || check["remedies"].as_array().is_some_and(|all| !all.is_empty());
        assert!(!matches!(state, "doubtful" | "fails") || mended, "{job:?}: {check}");
        if let Some(margin) = check["margin"].as_f64() {
            assert!(state != "proven" || margin >= 0.0, "{job:?}: {check}");
            assert!(margin <= inside(check) + 1e-9, "a margin better than the middle's: {job:?}: {check}");
        }
    }
    assert_eq!(operation["verdict"], worst, "{job:?}: {}", operation["address"]);
    let why = operation["refused"].as_str().unwrap_or_default();
    assert!(!why.contains("a fault of this program"), "{job:?}: {why}");
    let word = operation["operation"].as_str().expect("word");
    let declared: Vec<&str> =
        declared(word).into_iter().chain(setover::operations::COMMON_CHECKS.map(|rule| rule.id)).collect();
    assert!(declared.iter().all(|id| ids.contains(id)), "{job:?}: of {declared:?} only {ids:?}");
}

/// How far the middle of a check's figure, less its doubt, is inside the middle of its limit.
fn inside(check: &serde_json::Value) -> f64 {
    let number = |key: &str| check[key].as_f64().unwrap_or(0.0);
    let far = number("value") - number("limit");
    (if check["keep"] == "at least" { far } else { -far }) - number("plus_minus")
}

/// The checks that an operation declares.
fn declared(word: &str) -> Vec<&'static str> {
    use setover::job::JobFile;
    use setover::operations::{Registered, Request};
    let example = std::fs::read_to_string(format!("examples/{word}.yaml")).expect("an example of each operation");
    let node = setover::reading::Node::yaml(&example, setover::proof::Place::start(0)).expect("yaml");
    let job: JobFile<Request> = JobFile::read(node).expect("a job");
    let mut all = job.parts.iter().flat_map(|part| &part.operations);
    let request = all.find(|request| request.word() == word).expect("the operation");
    request.declared_checks().iter().map(|rule| rule.id).collect()
}

#[test]
fn every_value_of_every_job_can_show_where_it_comes_from() {
    let mut count = 0;
    for job in ["examples", "demo", "tests/jobs"].into_iter().flat_map(jobs_in) {
        let (code, json, said) = &*planned(&job);
        assert!(code.is_some_and(|c| c < 2), "{job:?}: {said}");
        assert_eq!(json["schema"], 3);
        for operation in json["operations"].as_array().expect("operations") {
            count += hold_values(&job, &operation["values"]);
            for alternative in operation["alternatives"].as_array().expect("alternatives") {
                count += hold_values(&job, &alternative["values"]);
                assert!(alternative["chosen"] == true || alternative["why_not"].is_string(), "{job:?}: {alternative}");
            }
            hold_checks(&job, operation);
            for set_up in operation["set_ups"].as_array().expect("set-ups") {
                assert!(!set_up["machine"].as_str().expect("machine").is_empty());
                assert!(set_up["minutes"].as_f64().is_some_and(|m| m.is_finite() && m >= 0.0));
                assert!(!set_up["steps"].as_array().expect("steps").is_empty());
            }
        }
    }
    println!("{count} values hold");
}

#[test]
fn the_schema_of_the_json_is_the_committed_one() {
    let made = serde_json::to_string_pretty(&setover::sheet::json::schema()).expect("json") + "\n";
    let path = "docs/answer.schema.json";
    if std::env::var_os("SETOVER_WRITE_DOCS").is_some() {
        std::fs::write(path, &made).expect("written");
    }
    assert_eq!(
        std::fs::read_to_string(path).unwrap_or_default(),
        made,
        "run with SETOVER_WRITE_DOCS=1 and look at what changed"
    );
}

#[test]
fn the_same_job_gives_the_same_json() {
    let job = Path::new("tests/jobs/insert-through-iron.yaml");
    assert_eq!(plan(job).1.to_string(), plan(job).1.to_string());
}

/// Every text that a reader of a plan meets, but for what is named after a thread.
fn texts(value: &serde_json::Value, all: &mut Vec<String>) {
    match value {
        serde_json::Value::String(text) => all.push(text.clone()),
        serde_json::Value::Array(many) => many.iter().for_each(|one| texts(one, all)),
        serde_json::Value::Object(fields) => fields
            .iter()
            // Values and units of the JSON are the type's own, whatever the shop prints in.
            .filter(|(name, _)| !["values", "unit", "job", "part", "address"].contains(&name.as_str()))
            .for_each(|(_, one)| texts(one, all)),
        _ => {}
    }
}

/// A text without the sizes of tools and shims, which are called as they are marked.
fn without_tools(text: &str) -> String {
    let words: Vec<&str> = text.split(' ').collect();
    let is_marked = |at: usize| {
        let before = words.get(..at).unwrap_or_default();
        let named = ["drill", "Drill", "cutter", "spot-facer", "+", "turns:"];
        let named = before.iter().rev().take(3).any(|word| named.contains(word));
        let of_table = words.get(at + 1..).is_some_and(|rest| rest.starts_with(&["from", "the", "table"]));
        named || of_table || words.contains(&"+")
    };
    let kept = words.iter().enumerate().filter(|(at, word)| !(word.starts_with("mm") && is_marked(*at)));
    kept.map(|(_, word)| *word).collect::<Vec<_>>().join(" ")
}

/// A metric drill is named by its stamp in any shop: `drill 8 mm`, `drill of 6.8 mm`, `8.4 mm, from the table`.
fn names_a_metric_drill(text: &str) -> bool {
    let Some((before, behind)) = text.split_once(" mm") else { return false };
    let size = before.rsplit(' ').next().unwrap_or_default();
    let drill = before.strip_suffix(size).unwrap_or_default().to_lowercase();
    let twentieths = size.parse::<f64>().map_or(f64::NAN, |size| size * 20.0);
    let named =
        drill.ends_with("drill ") || drill.ends_with("drill of ") || (drill.is_empty() && behind.starts_with(", "));
    named && (twentieths - twentieths.round()).abs() < 1e-6 && !behind.contains(" mm")
}

#[test]
fn an_inch_shop_reads_no_millimetre_in_any_text() {
    let folder = std::env::temp_dir().join(format!("setover-inch-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("folder");
    std::fs::copy("tests/jobs/inch-shop.yaml", folder.join("inch-shop.yaml")).expect("shop");
    let (mut count, mut strangers) = (0, Vec::new());
    for job in ["examples", "demo", "tests/jobs"].into_iter().flat_map(jobs_in) {
        let text = std::fs::read_to_string(&job).expect("text");
        let lines = text.lines().map(|line| if line.starts_with("shop:") { "shop: inch-shop.yaml" } else { line });
        let moved = folder.join(job.file_name().expect("name"));
        std::fs::write(&moved, lines.collect::<Vec<_>>().join("\n")).expect("written");
        let (code, json, said) = plan(&moved);
        // A machine that this shop has not is refused: such a job says nothing of units.
        if json["operations"].is_null() || !text.contains("shop:") {
            assert!(!text.contains("shop: inch-shop.yaml"), "{job:?}: {code:?} {said}");
            continue;
        }
        let mut all = Vec::new();
        texts(&json["operations"], &mut all);
        for text in all {
            let other = without_tools(&text);
            let wrong = [" mm", "°C", " in in", "°F °F", "lbf lbf"].iter().any(|piece| other.contains(piece));
            let wrong = wrong && !names_a_metric_drill(&text);
            if wrong || text.ends_with(" 1") {
                strangers.push(format!("{job:?}: {text}"));
            }
            count += 1;
        }
        let output = Command::new(env!("CARGO_BIN_EXE_setover")).arg("plan").arg(&moved).output().expect("runs");
        let page = String::from_utf8_lossy(&output.stdout).into_owned();
        for line in page.lines().filter(|line| line.trim_start().starts_with("measure") || line.contains("target")) {
            assert!(!line.contains(" mm"), "{job:?}: {line}");
        }
    }
    std::fs::remove_dir_all(&folder).expect("folder away");
    assert_eq!(strangers, Vec::<String>::new());
    assert!(count > 100, "{count}");
}
