//! The registry walked both ways: what an operation declares is given by some job, and what a job gives was declared. No
//! card lacks a word that is asked of it: every plan of these tests would say so. Read from the JSON, as whoever builds on it would.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::jobs::{Maker, seed};
use crate::common::{self, SHOP, shop, try_plan};
use serde_json::Value;
use setover::job::JobFile;
use setover::operations::{Registered, Request};
use setover::proof::Place;
use setover::proof::notation::Expression;
use setover::reading::Node;
use setover::sheet::json;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;
use std::sync::Mutex;

/// Ids of one kind by the word of their operation.
type ByWord = BTreeMap<String, BTreeSet<String>>;

#[derive(Default)]
struct Seen {
    declared_values: ByWord,
    declared_checks: ByWord,
    values: ByWord,
    judged: ByWord,
    checks: ByWord,
    /// Every line of working.
    working: ByWord,
}

impl Seen {
    fn declare(&mut self, job: &str) {
        let Ok(tree) = Node::yaml(job, Place::start(0)) else { return };
        let Ok(file) = tree.read::<JobFile<Request>>() else { return };
        for request in file.parts.iter().flat_map(|part| &part.operations) {
            let word = request.word();
            let values = request.declared().into_iter().map(|value| value.key.to_owned());
            self.declared_values.entry(word.into()).or_default().extend(values);
            let checks = request.declared_checks().iter().map(|rule| rule.id.to_owned());
            self.declared_checks.entry(word.into()).or_default().extend(checks);
        }
    }

    fn walk(&mut self, word: &str, answer: &Value) {
        let values = answer["values"].as_object().into_iter().flatten().map(|(key, _)| key.clone());
        self.values.entry(word.into()).or_default().extend(values);
        let lines =
            answer["values"].as_object().into_iter().flatten().flat_map(|(_, value)| value["working"].as_array());
        let lines = lines.flatten().filter_map(|line| line.as_str().map(str::to_owned));
        self.working.entry(word.into()).or_default().extend(lines);
        for check in answer["checks"].as_array().into_iter().flatten() {
            let id = check["check"].as_str().unwrap().to_owned();
            if ["proven", "doubtful", "fails"].contains(&check["state"].as_str().unwrap()) {
                self.judged.entry(word.into()).or_default().insert(id.clone());
            }
            self.checks.entry(word.into()).or_default().insert(id);
        }
        for alternative in answer["alternatives"].as_array().into_iter().flatten() {
            self.walk(word, alternative);
        }
    }

    fn see(&mut self, job: &str, answered: &Value) {
        self.declare(job);
        for operation in answered["operations"].as_array().unwrap() {
            self.walk(operation["operation"].as_str().unwrap(), operation);
        }
    }
}

fn answered(job: &str, with: Option<&setover::shop::Shop>) -> Option<Value> {
    let plan = try_plan(job, with).ok()?;
    Some(serde_json::to_value(json::output(&[plan])).unwrap())
}

fn texts_of(folder: &str) -> Vec<String> {
    let entries = std::fs::read_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join(folder)).unwrap();
    let mut paths: Vec<_> = entries.map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths
        .into_iter()
        .filter(|p| p.extension().is_some_and(|e| e == "yaml"))
        .map(|p| std::fs::read_to_string(p).unwrap())
        .collect()
}

/// Every example, every fixture, and random jobs.
fn seen() -> Seen {
    let seen = Mutex::new(Seen::default());
    let owned = shop(SHOP);
    let oven = "machines:\n  - oven: {name: small oven, most: 230 degC, inside: 380 mm}";
    let small = shop(&common::with(SHOP, "machines:", oven));
    for job in ["examples", "tests/fixtures", "tests/jobs"].into_iter().flat_map(texts_of) {
        for with in [None, Some(&owned), Some(&small)] {
            if let Some(answered) = answered(&job, with) {
                seen.lock().unwrap().see(&job, &answered);
            }
        }
    }
    let all = common::jobs_asked(120);
    println!("seed {}, {all} jobs", seed());
    common::over_jobs(all, |number| {
        let job = Maker::of(number).job();
        let owned = shop(SHOP);
        if let Some(answered) = answered(&job, (number % 4 != 0).then_some(&owned)) {
            seen.lock().unwrap().see(&job, &answered);
        }
    });
    seen.into_inner().unwrap()
}

/// What the first has and the second lacks, by word.
fn lacking(all: &ByWord, of: &ByWord) -> Vec<String> {
    let none = BTreeSet::new();
    all.iter()
        .flat_map(|(word, ids)| ids.difference(of.get(word).unwrap_or(&none)).map(move |id| format!("{word}: {id}")))
        .collect()
}

#[test]
fn what_is_declared_is_given_and_what_is_given_was_declared() {
    let seen = seen();
    assert_eq!(seen.declared_values.len(), Request::WORDS.len(), "every operation is in some job");
    let never: Vec<String> = lacking(&seen.declared_values, &seen.values);
    let undeclared = lacking(&seen.values, &seen.declared_values);
    assert!(never.is_empty() && undeclared.is_empty(), "never given: {never:#?}\nnot declared: {undeclared:#?}");
    let never = lacking(&seen.declared_checks, &seen.judged);
    let lacks = lacking(&seen.declared_checks, &seen.checks);
    assert!(lacks.is_empty(), "an answer holds every check: {lacks:#?}");
    assert!(never.is_empty(), "no job makes these checks: {never:#?}");
}

/// The outside check of an operation: formulas that its examples are worked with and that figures printed elsewhere hold.
#[test]
fn every_operation_is_worked_with_formulas_that_print_holds() {
    let page = std::fs::read_to_string("docs/formulas.md").unwrap();
    let held = page.split("## Reached").nth(1).unwrap().split("## Not noticed").next().unwrap();
    let texts = held.lines().filter_map(|line| line.split('`').nth(1)).filter_map(Expression::read);
    let written: Vec<String> = texts.map(|text| format!(" = {} = ", text.write(&|_| None))).collect();
    let mut seen = Seen::default();
    let owned = shop(SHOP);
    for job in ["examples", "tests/fixtures"].into_iter().flat_map(texts_of) {
        if let Some(answered) = answered(&job, Some(&owned)) {
            seen.see(&job, &answered);
        }
    }
    // Work by hand rests on rows, not on formulas.
    let with_formulas = Request::WORDS.iter().zip(Request::FILES).filter(|(_, file)| **file != "by_hand");
    for (word, _) in with_formulas {
        let lines = &seen.working[*word];
        let used = written.iter().filter(|text| lines.iter().any(|line| line.contains(text.as_str()))).count();
        println!("{word}: {used} formulas that printed figures hold");
        assert!(used >= 3, "{word} is worked with {used} formulas that printed figures hold");
    }
}
