//! What is mended first: above the checks stands the one reading, or the one key, that the most of them wait for, and what is said of it
//! is so; the open checks stand the worst first.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::piped;
use serde_json::Value;
use std::path::Path;

const BUSH: &str = "job: a bush
shop: shop.yaml
parts:
  - part: end case
    material: cast aluminium
    operations:
      - ream-bush:
          housing: {bore: 20.010 mm, outside: 40 mm}
          bush: {outside: 20.045 mm, bore: 15.950 mm, length: 20 mm, material: phosphor bronze}
          shaft: 15.984 mm
          duty: gear
";

const INSERT: &str = "job: an insert
shop: shop.yaml
parts:
  - part: cover
    material: cast aluminium
    operations:
      - thread-insert: {thread: M8, wall: 24 mm, hole: blind, present-hole: 8.0 mm, present-depth: 12 mm}
";

fn run(folder: &Path, words: &[&str]) -> String {
    let output = piped(folder, words, "");
    let text = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    assert!(matches!(output.status.code(), Some(0 | 1)), "{words:?}: {text}");
    text
}

/// The checks that stamp the one operation of a job and are open, each with how far it is outside for its limit.
fn open(folder: &Path, job: &str) -> Vec<(String, String, f64)> {
    let plan: Value = serde_json::from_str(&run(folder, &["plan", job, "--format", "json"])).unwrap();
    let checks = plan["operations"][0]["checks"].as_array().unwrap();
    let stamps = |check: &&Value| {
        let (state, weight) = (check["state"].as_str().unwrap(), check["weight"].as_str().unwrap());
        let made = ["doubtful", "fails"].contains(&state) && ["must", "may"].contains(&weight);
        made || (state == "not-checked" && weight == "must")
    };
    let of = |check: &Value| {
        let figure = |name: &str| check[name].as_f64().unwrap_or(0.0);
        let scale = figure("limit").abs().max(figure("plus_minus")).max(1e-9);
        let text = |name: &str| check[name].as_str().unwrap().to_owned();
        (text("check"), text("asks"), -figure("margin") / scale)
    };
    checks.iter().filter(stamps).map(of).collect()
}

fn folder(job: &str, shop: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("shop.yaml"), shop).unwrap();
    std::fs::write(folder.path().join("job.yaml"), job).unwrap();
    folder
}

/// The key, the doubt and the two counts of the line that says which reading comes first.
fn told(text: &str) -> Option<(String, String, usize, usize)> {
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let (_, rest) = flat.split_once("Take this reading first: `")?;
    let (key, rest) = rest.split_once('`')?;
    let (_, rest) = rest.split_once("to ± ")?;
    let (to, rest) = rest.split_once(": if it reads the same, ")?;
    let mut counts = rest.split_whitespace().filter_map(|word| word.parse().ok());
    Some((key.to_owned(), to.to_owned(), counts.next()?, counts.next()?))
}

#[test]
fn the_reading_that_is_told_first_does_what_is_said_of_it() {
    let example = std::fs::read_to_string("examples/shop.yaml").unwrap();
    let mut seen = 0;
    for (job, shop, key) in
        [(BUSH, "shop: x\n", "shaft"), (BUSH, example.as_str(), "housing.bore"), (INSERT, example.as_str(), "")]
    {
        let folder = folder(job, shop);
        let text = run(folder.path(), &["plan", "job.yaml"]);
        let Some((own, to, proves, all)) = told(&text) else {
            assert!(key.is_empty(), "{text}");
            continue;
        };
        assert!(key.is_empty() || own == key, "{text}");
        let before = open(folder.path(), "job.yaml");
        assert_eq!(before.len(), all, "{text}");
        // The sheets say the same beside their list.
        assert_eq!(told(&run(folder.path(), &["sheets", "job.yaml"])), told(&text));
        // The same job with that reading taken so closely.
        let last = own.rsplit('.').next().unwrap();
        let typed = job.split(&format!("{last}: ")).nth(1).unwrap().split([',', '}', '\n']).next().unwrap();
        let figure = typed.trim().strip_suffix(" mm").unwrap();
        let to = to.strip_suffix(" mm").unwrap();
        let closer = job.replacen(&format!("{last}: {typed}"), &format!("{last}: {figure} ± {to} mm"), 1);
        assert_ne!(closer, job);
        std::fs::write(folder.path().join("closer.yaml"), &closer).unwrap();
        let after = open(folder.path(), "closer.yaml");
        let gone = before.iter().filter(|own| after.iter().all(|other| other.0 != own.0)).count();
        assert_eq!(gone, proves, "{closer}: {before:?}: {after:?}");
        assert!(proves >= 2 && after.len() < before.len());
        seen += 1;
    }
    assert!(seen >= 2);
}

#[test]
fn the_open_checks_stand_the_worst_first() {
    let example = std::fs::read_to_string("examples/shop.yaml").unwrap();
    for shop in ["shop: x\n", example.as_str()] {
        let folder = folder(BUSH, shop);
        let text = run(folder.path(), &["plan", "job.yaml"]);
        let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
        let open = open(folder.path(), "job.yaml");
        let mut stand: Vec<(usize, f64)> = open
            .iter()
            .filter_map(|(_, asks, outside)| Some((flat.find(&format!("doubtful {asks}"))?, *outside)))
            .collect();
        assert!(stand.len() >= 4, "{text}");
        stand.sort_by_key(|(at, _)| *at);
        assert!(stand.windows(2).all(|two| two[0].1 >= two[1].1 - 1e-9), "{stand:?}: {text}");
    }
    // Of what was not checked that stands first which most hangs on.
    let folder = folder(BUSH, "shop: x\n");
    let text = run(folder.path(), &["plan", "job.yaml"]);
    let at = |piece: &str| text.find(piece).unwrap_or_else(|| panic!("{piece}: {text}"));
    assert!(at("2 checks not made") < at("check not made (under the boss)"), "{text}");
}

/// Nothing is told first where nothing is open, where one thing alone is, or where what fails is to be mended.
#[test]
fn nothing_is_told_first_where_nobody_asks() {
    for job in ["examples/face.yaml", "demo/tidewater.yaml"] {
        let text = run(Path::new("."), &["plan", job]);
        assert!(!text.contains("first: `"), "{text}");
    }
}

/// A key that most of what was not judged waits for is told in the place of a reading.
#[test]
fn the_key_that_most_waits_for_is_told_first() {
    let mill = std::fs::read_to_string("examples/mill-face.yaml").unwrap();
    let line = mill.lines().find(|line| line.trim_start().starts_with("hold: ")).unwrap();
    let example = std::fs::read_to_string("examples/shop.yaml").unwrap();
    let folder = folder(&mill.replace(line, "          hold: vice"), &example);
    let text = run(folder.path(), &["plan", "job.yaml"]);
    let flat = text.split_whitespace().collect::<Vec<_>>().join(" ");
    let (_, rest) =
        flat.split_once("Give this first: `hold.true-within` (run-out allowed when it is trued): ").expect(&text);
    let told: usize = rest.split(' ').next().unwrap().parse().unwrap();
    // With it no fewer checks than were told wait no longer for it.
    let waits = |text: &str| text.matches("true-within").count();
    let given = mill.replace(line, "          hold: {in: vice, true-within: 0.02 mm}");
    std::fs::write(folder.path().join("given.yaml"), given).unwrap();
    let after = run(folder.path(), &["plan", "given.yaml"]);
    assert!(told >= 2 && waits(&after) < waits(&text) && !after.contains("`hold.true-within`"), "{text}: {after}");
}
