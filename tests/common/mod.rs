//! What several tests share: working a job given as text, and asking the answer.
#![allow(dead_code)]

pub mod jobs;
pub mod laws;
pub mod printed;

use setover::job::{Address, JobFile, Ledger};
use setover::operations::Request;
use setover::plan::{Cards, Plan, Planned, work};
use setover::proof::{Figure, Place, Verdict};
use setover::quantity::Unit;
use setover::reading::{Node, Problem};
use setover::shop::Shop;
use std::collections::{BTreeMap, HashSet};
use std::path::{Path, PathBuf};
use std::sync::{Mutex, PoisonError};

/// The shop of the worked examples.
pub const SHOP: &str = include_str!("../fixtures/shop.yaml");

/// Reads a shop: one that is asked for again and again is read once.
pub fn shop(text: &str) -> Shop {
    static READ: Mutex<BTreeMap<String, Shop>> = Mutex::new(BTreeMap::new());
    let mut read = READ.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some(shop) = read.get(text) {
        return shop.clone();
    }
    let shop: Shop = Node::yaml(text, Place::start(1)).expect("yaml").read().expect("shop");
    assert_eq!(shop.problems(), Vec::new());
    read.insert(text.to_owned(), shop.clone());
    shop
}

/// Works a job, with or without a shop.
pub fn try_plan(job: &str, shop: Option<&Shop>) -> Result<Plan, Vec<Problem>> {
    let job: JobFile<Request> = JobFile::read(Node::yaml(job, Place::start(0)).map_err(|p| vec![p])?)?;
    let plan = work(&job, shop, &Cards::built_in(Request::WORDS.iter().copied())?, Ledger::default())?;
    let refused: Vec<String> =
        plan.operations.iter().filter_map(|o| Some(o.answer.refused.as_ref()?.to_string())).collect();
    assert!(refused.iter().all(|why| !why.contains("a fault of this program")), "{refused:?}");
    Ok(plan)
}

/// Works a job that must be good.
pub fn plan(job: &str, shop: Option<&Shop>) -> Plan {
    try_plan(job, shop).unwrap_or_else(|all| panic!("{all:#?}"))
}

/// Works a job whose log holds sizes of one operation as they were left, each with its doubt.
pub fn plan_left(job: &str, shop: &Shop, (part, word): (&str, &str), left: &[(&str, f64, Unit, f64)]) -> Plan {
    let job: JobFile<Request> = JobFile::read(Node::yaml(job, Place::start(0)).expect("YAML")).expect("job");
    let mut log = Ledger::default();
    for (at, (key, number, unit, doubt)) in left.iter().enumerate() {
        log.leave(&Address::of(part, word), key, Figure::as_left(*number, *unit, *doubt, at as u32 + 1));
    }
    let cards = Cards::built_in(Request::WORDS.iter().copied()).expect("cards");
    work(&job, Some(shop), &cards, log).unwrap_or_else(|all| panic!("{all:#?}"))
}

/// Works a job with the shop of the worked examples.
pub fn in_shop(job: &str) -> Plan {
    plan(job, Some(&shop(SHOP)))
}

/// The first operation of a plan.
pub fn first(plan: &Plan) -> &Planned {
    plan.operations.first().expect("an operation")
}

/// A value by its name.
pub fn value(planned: &Planned, key: &str) -> f64 {
    planned.answer.value(key).unwrap_or_else(|| panic!("no value {key}")).number
}

/// The doubt of a value.
pub fn doubt(planned: &Planned, key: &str) -> f64 {
    planned.answer.value(key).unwrap_or_else(|| panic!("no value {key}")).plus_minus
}

/// The verdict of a check that was made.
pub fn verdict(planned: &Planned, check: &str) -> Verdict {
    planned
        .answer
        .checks
        .iter()
        .find(|f| f.id == check)
        .unwrap_or_else(|| panic!("no check {check}"))
        .verdict()
        .unwrap_or_else(|| panic!("{check} was not made"))
}

/// A figure is what a page of the project's own says, to the digits that stand there: a regression, no outside check.
#[track_caller]
pub fn agrees(held: &str, got: f64) {
    let digits = held.split_once('.').map_or(0, |(_, d)| d.len()) as i32;
    let off = (got - held.parse::<f64>().expect("a number")).abs();
    assert!(off <= 0.500_001 * 10f64.powi(-digits), "held {held}, got {got}");
}

/// Replaces a piece of a job that must be there.
#[track_caller]
pub fn with(job: &str, from: &str, to: &str) -> String {
    assert!(job.contains(from), "no `{from}`");
    job.replace(from, to)
}

/// The same held in something else: what has no jaws has no step of them.
#[track_caller]
pub fn held(job: &str, from: &str, to: &str) -> String {
    let job = with(job, from, to);
    if to.contains("jaw") { job } else { job.replace(", stop: step", "") }
}

/// What became of a check.
pub fn state(planned: &Planned, check: &str) -> setover::proof::Outcome {
    planned.answer.checks.iter().find(|f| f.id == check).unwrap_or_else(|| panic!("no check {check}")).state
}

/// How many random jobs are asked for (`SETOVER_JOBS`), or so many.
pub fn jobs_asked(usual: u64) -> u64 {
    std::env::var("SETOVER_JOBS").ok().and_then(|text| text.parse().ok()).unwrap_or(usual)
}

/// Whether a numbered job is asked for: all are, or those of `SETOVER_ONLY`, which has numbers with commas between them.
pub fn is_asked(number: u64) -> bool {
    let only = std::env::var("SETOVER_ONLY").ok();
    only.is_none_or(|only| only.split(',').any(|one| one.trim().parse() == Ok(number)))
}

/// Does something for each of so many numbered jobs, shared out over the machine; which job it was is said where one breaks.
pub fn over_jobs(all: u64, each: impl Fn(u64) + Sync) {
    let next = std::sync::atomic::AtomicU64::new(0);
    let threads = std::thread::available_parallelism().map_or(2, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                loop {
                    let number = next.fetch_add(1, std::sync::atomic::Ordering::Relaxed);
                    if number >= all {
                        break;
                    }
                    if !is_asked(number) {
                        continue;
                    }
                    let broke = std::panic::catch_unwind(std::panic::AssertUnwindSafe(|| each(number)));
                    assert!(broke.is_ok(), "job {number} of seed {}", jobs::seed());
                }
            });
        }
    });
}

/// Every job that is committed, by its path: examples, demonstration, whole jobs, fixtures.
pub fn committed_jobs() -> Vec<(String, String)> {
    let entries = ["examples", "demo", "tests/jobs", "tests/fixtures"]
        .into_iter()
        .flat_map(|folder| std::fs::read_dir(folder).expect(folder))
        .map(|entry| entry.expect("entry").path());
    // What holds only what was found on parts is no plan: the page of decisions has it.
    let entries = entries.filter(|path| path.is_file() && !path.ends_with("found.yaml"));
    let job = |path: std::path::PathBuf| {
        let text = std::fs::read_to_string(&path).expect("text");
        text.contains("\nparts:").then(|| (path.to_string_lossy().into_owned(), text))
    };
    let mut all: Vec<_> = entries.filter_map(job).collect();
    all.sort();
    all
}

/// Every Rust file under a folder.
pub fn rust_files(folder: &Path) -> Vec<PathBuf> {
    let mut all = Vec::new();
    for entry in std::fs::read_dir(folder).expect("folder") {
        let path = entry.expect("entry").path();
        if path.is_dir() {
            all.extend(rust_files(&path));
        } else if path.extension().is_some_and(|e| e == "rs") {
            all.push(path);
        }
    }
    all.sort();
    all
}

/// All that stands between two quotes of a text: what is asked of it hundreds of times is found at once.
pub fn between_quotes(text: &str) -> HashSet<&str> {
    let mut pieces: Vec<&str> = text.split('"').skip(1).collect();
    pieces.pop();
    pieces.into_iter().collect()
}

/// Copies a folder with all that lies in it.
pub fn copied(from: &Path, to: &Path) {
    std::fs::create_dir_all(to).expect("a folder");
    for entry in std::fs::read_dir(from).expect("a folder").map(|entry| entry.expect("an entry")) {
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copied(&entry.path(), &target);
        } else {
            std::fs::copy(entry.path(), target).expect("copied");
        }
    }
}

/// Words as a shell would take them: blanks part them, double quotes keep them together.
pub fn shell_words(command: &str) -> Vec<String> {
    let (mut all, mut word, mut quoted) = (Vec::new(), String::new(), false);
    for letter in command.chars() {
        match letter {
            '"' => quoted = !quoted,
            ' ' if !quoted => all.push(std::mem::take(&mut word)),
            other => word.push(other),
        }
    }
    all.push(word);
    all.into_iter().filter(|word| !word.is_empty()).collect()
}

/// Runs the program in a folder, with answers on its standard input; who has heard enough closes its end.
pub fn piped(folder: &std::path::Path, words: &[&str], answers: &str) -> std::process::Output {
    use std::io::Write;
    use std::process::{Command, Stdio};
    let mut child = Command::new(env!("CARGO_BIN_EXE_setover"))
        .current_dir(folder)
        .args(words)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("runs");
    let _ = child.stdin.take().expect("open").write_all(answers.as_bytes());
    child.wait_with_output().expect("ends")
}
