//! What counts as done: a size that closes the work, or the word of who did it; and what a line of the log tells at once.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{shell_words, with};
use std::path::Path;
use std::process::Command;

const SHOP: &str = include_str!("../examples/shop.yaml");
const DRILL: &str = include_str!("../examples/drill.yaml");
const INSERT: &str = include_str!("../examples/thread-insert.yaml");
const WASH: &str = include_str!("../examples/wash.yaml");
const OUT: &str = include_str!("../examples/press-out.yaml");

/// A job beside its shop.
fn folder(job: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().unwrap();
    std::fs::write(folder.path().join("shop.yaml"), SHOP).unwrap();
    std::fs::write(folder.path().join("job.yaml"), job).unwrap();
    folder
}

/// What a command says, without where its lines end, and whether it was taken.
fn run(folder: &Path, words: &[&str]) -> (String, bool) {
    let output = Command::new(env!("CARGO_BIN_EXE_setover")).current_dir(folder).args(words).output().unwrap();
    let says = String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr);
    (says.split_whitespace().collect::<Vec<_>>().join(" "), matches!(output.status.code(), Some(0 | 1)))
}

fn said(folder: &Path, words: &[&str]) -> String {
    let (says, taken) = run(folder, words);
    assert!(taken, "{words:?}: {says}");
    says
}

fn logged(folder: &Path, of: &str, values: &[&str]) -> String {
    said(folder, &[&["log", "job.yaml", of][..], values].concat())
}

/// The ids of the set-ups that a day still holds.
fn in_the_day(folder: &Path) -> Vec<String> {
    let text = said(folder, &["day", "job.yaml", "--from", "08:00", "--format", "json"]);
    let day: serde_json::Value = serde_json::from_str(&text).unwrap_or_else(|_| panic!("{text}"));
    day["lines"].as_array().unwrap().iter().map(|line| line["id"].as_str().unwrap().to_owned()).collect()
}

/// What the log has as done stays out of the day, though a later set-up of it is not finished.
#[test]
fn what_is_not_finished_keeps_in_the_day_what_it_is_read_of_alone() {
    let folder = folder(INSERT);
    let of = "timing chest/thread-insert";
    logged(folder.path(), of, &["drilled_depth=13.1 mm", "set_down=0.2 mm"]);
    let plan = said(folder.path(), &["plan", "job.yaml", "--all"]);
    let left = in_the_day(folder.path());
    assert!(!left.contains(&"1.1".to_owned()), "{left:?} {plan}");
}

/// Work without a figure is done where somebody says so, in the plan and in the day; a note alone says nothing of the kind.
#[test]
fn work_without_a_figure_is_done_by_word() {
    for (job, of) in [(WASH, "pump cover/wash"), (OUT, "pump cover/press-out")] {
        let folder = folder(job);
        let names = said(folder.path(), &["log", "job.yaml", of]);
        assert!(names.contains("done=yes"), "{names}");
        let note = logged(folder.path(), of, &["note=clean"]);
        assert!(note.contains("does not say that") && note.contains("done=yes"), "{note}");
        assert!(!said(folder.path(), &["plan", "job.yaml"]).contains("DONE"), "{of}");
        assert!(!in_the_day(folder.path()).is_empty(), "{of}");
        let done = logged(folder.path(), of, &["done=yes", "note=let go at 1800 lbf"]);
        assert!(!done.contains("does not say"), "{done}");
        let plan = said(folder.path(), &["plan", "job.yaml", "--all"]);
        assert!(plan.contains("DONE"), "{of}: {plan}");
        assert_eq!(in_the_day(folder.path()), Vec::<String>::new(), "{of}");
        // Taken back it is to be done again.
        said(folder.path(), &["log", "job.yaml", "--withdraws", "L2"]);
        assert!(!in_the_day(folder.path()).is_empty(), "{of}");
        let (no, taken) = run(folder.path(), &["log", "job.yaml", of, "done=no"]);
        assert!(!taken && no.contains("`done: yes`"), "{no}");
    }
}

/// Where a size can be measured, the word alone proves nothing.
#[test]
fn a_word_is_no_size() {
    let folder = folder(DRILL);
    let told = logged(folder.path(), "governor bracket/drill", &["done=yes"]);
    assert!(told.contains("still to be measured") && told.contains("drilled_depth"), "{told}");
    let plan = said(folder.path(), &["plan", "job.yaml"]);
    assert!(plan.contains("DOUBTFUL"), "{plan}");
    assert_eq!(in_the_day(folder.path()), Vec::<String>::new());
}

/// A through hole is done by the depth that the log takes of it, and is not through where that is less than its wall.
#[test]
fn a_through_hole_is_done_by_what_it_can_log() {
    let job = with(
        &with(DRILL, "          depth: 12 mm\n", "          through: true\n          beyond: clear\n"),
        "18.0 ± 0.3",
        "12.0 ± 0.1",
    );
    let of = "governor bracket/drill";
    for (depth, left) in [("12.0 mm", 0), ("9.0 mm", 1)] {
        let folder = folder(&job);
        assert_eq!(in_the_day(folder.path()).len(), 1);
        let told = logged(folder.path(), of, &[&format!("drilled_depth={depth}")]);
        assert_eq!(told.contains("NOT FINISHED"), left == 1, "{told}");
        assert_eq!(in_the_day(folder.path()).len(), left, "{depth}");
    }
}

/// Any name that does not close its work says at once which does.
#[test]
fn a_name_that_closes_nothing_says_what_does() {
    let folder = folder(INSERT);
    let told = logged(folder.path(), "timing chest/thread-insert", &["drilled_depth=13.1 mm"]);
    // What comes of the drilling is no end of it: the set-down is.
    assert!(told.contains("does not say that") || in_the_day(folder.path()).len() == 1, "{told}");
}

/// The command that is offered after a slip is taken as it stands, once the blank is filled.
#[test]
fn the_command_after_a_slip_works_as_it_is_typed() {
    let folder = folder(INSERT);
    let of = "timing chest/thread-insert";
    let told = logged(folder.path(), of, &["drilled_depth=13.1 mm", "set_down=0.2 mm", "note=first try"]);
    let at = told.find("Was that a slip of the pen? ").unwrap_or_else(|| panic!("{told}"));
    let command = told[at..].trim_start_matches("Was that a slip of the pen? ");
    let end = command.find("--corrects L1").unwrap() + "--corrects L1".len();
    let command = command[..end].replace("SIZE", "1.2 mm");
    assert!(command.contains("drilled_depth=\"13.1 mm\""), "what was right stands in it: {command}");
    let words = shell_words(&command);
    let words: Vec<&str> = words.iter().skip(1).map(String::as_str).collect();
    said(folder.path(), &words);
}

/// A line that corrects one figure is not blamed for what another line says.
#[test]
fn what_fails_is_laid_to_the_line_that_was_read() {
    let folder = folder(INSERT);
    let of = "timing chest/thread-insert";
    logged(folder.path(), of, &["set_down=0.2 mm"]);
    logged(folder.path(), of, &["drilled_depth=13.1 mm"]);
    let told = logged(folder.path(), of, &["drilled_depth=13.2 mm", "--corrects", "L2"]);
    assert!(told.contains("By L1") && told.contains("--corrects L1") && !told.contains("--corrects L3"), "{told}");
}

/// Whatever is left, a plan that is proven no more by it is not left for the plan to tell.
#[test]
fn what_the_plan_will_not_prove_is_told_at_once() {
    let shim: String = include_str!("../examples/shim.yaml")
        .lines()
        .filter(|line| !line.contains("float-found"))
        .map(|line| format!("{line}\n"))
        .collect();
    let bush = include_str!("../examples/ream-bush.yaml").to_owned();
    let cases = [
        (
            &shim,
            "idler shaft/shim",
            "float_left",
            "lever indicator",
            (0..8).map(|at| 0.10 + 0.03 * f64::from(at)).collect::<Vec<_>>(),
        ),
        (
            &bush,
            "pump end case/ream-bush",
            "bore_after_pressing",
            "bore gauge",
            (0..6).map(|at| 15.912 + 0.006 * f64::from(at)).collect(),
        ),
    ];
    for (job, of, name, with, sizes) in cases {
        let (mut silent, mut said_so) = (0, 0);
        for size in sizes {
            let folder = folder(job);
            let told = logged(folder.path(), of, &[&format!("{name}={size:.3} mm"), &format!("with={with}")]);
            let says = told.contains("By L1") || told.contains("lies outside");
            let plan = said(folder.path(), &["plan", "job.yaml"]);
            let is_open = ["DOUBTFUL", "FAILS", "NOT FINISHED"].iter().any(|word| plan.contains(word));
            assert!(says || !is_open, "{size}: {told} {plan}");
            silent += usize::from(!says);
            said_so += usize::from(says);
        }
        assert!(silent > 0 && said_so > 0, "{of}: {silent} {said_so}");
    }
}

/// What is to come is told, and what lies before the line above; what is of today is not.
#[test]
fn a_day_that_cannot_be_is_told() {
    let folder = folder(WASH);
    let of = "pump cover/wash";
    let today = logged(folder.path(), of, &["note=a"]);
    assert!(!today.contains("to come") && !today.contains("above it"), "{today}");
    let then = logged(folder.path(), of, &["note=b", "--date", "2099-12-24"]);
    assert!(then.contains("that day is to come"), "{then}");
    let before = logged(folder.path(), of, &["note=c", "--date", "2020-01-01"]);
    assert!(before.contains("L2 above it"), "{before}");
}

/// What was not asked before never held: it stands once, as what it is.
#[test]
fn what_was_not_asked_never_held() {
    let folder = folder(DRILL);
    logged(folder.path(), "governor bracket/drill", &["done=yes"]);
    let since = said(folder.path(), &["plan", "job.yaml", "--since", "L0"]);
    assert_eq!(since.matches("size-written-down").count(), 1, "{since}");
    assert!(since.contains("not asked before"), "{since}");
}

/// Two instruments take two lines, and what is wrong with a line is told where it was typed, whatever its sum looks like.
#[test]
fn a_slip_is_told_where_it_was_typed() {
    let folder = folder(WASH);
    for n in 0..12 {
        let note = format!("note={n}");
        logged(folder.path(), "pump cover/wash", &[&note]);
        let (slip, _) =
            run(folder.path(), &["log", "job.yaml", "pump cover/wash", &format!("depth=9{n} mm"), "with=depth gauge"]);
        assert!(slip.starts_with("argument:"), "{slip}");
    }
    said(folder.path(), &["log", "job.yaml", "--withdraws", "L1"]);
    let (twice, _) = run(folder.path(), &["log", "job.yaml", "--withdraws", "L1"]);
    assert!(twice.starts_with("argument:"), "{twice}");
}

/// What an old bush hid is read from the day on that the log has it as out: on that very day too, and on none before.
#[test]
fn what_was_hidden_is_read_from_the_day_that_it_came_to_light() {
    let out = OUT.split_once("    operations:\n").unwrap();
    let press = "      - press-in: {set-up: {measured: 2026-11-20}, housing: {bore: 24.010 ± 0.004 mm, outside: 46 mm, length: 20 mm, finish: Ra 0.8 um}, bush: {outside: 24.036 ± 0.004 mm, bore: 18.000 ± 0.004 mm, length: 20 mm, material: phosphor bronze, finish: Ra 0.8 um}, stands: flush, support: {inside: 30 mm, under: boss}}\n";
    let job = format!("{}    operations:\n{}{press}", out.0, out.1);
    let check = |folder: &Path| {
        let text = said(folder, &["plan", "job.yaml", "--format", "json"]);
        let plan: serde_json::Value = serde_json::from_str(&text).unwrap();
        let checks = plan["operations"][1]["checks"].as_array().unwrap().clone();
        let open = checks.iter().filter(|check| {
            matches!(check["check"].as_str(), Some("size-there-yet" | "log-stale")) && check["state"] != "proven"
        });
        open.map(|check| check["check"].as_str().unwrap().to_owned()).collect::<Vec<_>>()
    };
    let bench = folder(&job);
    assert_eq!(check(bench.path()), ["size-there-yet"], "nobody says that it is out");
    for (date, open) in [("2026-11-20", 0), ("2026-11-19", 0), ("2026-11-21", 1)] {
        let bench = folder(&job);
        logged(bench.path(), "pump cover/press-out", &["done=yes", "--date", date]);
        assert_eq!(check(bench.path()).len(), open, "out on {date}, read on 2026-11-20");
    }
}

/// A bore that was read over the limit of its own sheet is in doubt, however finely one gauge tells two readings apart.
#[test]
fn a_closed_in_bore_over_its_hold_is_in_doubt() {
    let gauge = "instruments:\n  - {name: small gauge, kind: bore gauge, from: 10 mm, to: 30 mm, uncertainty: 8 um, repeat: 4 um, default: true}";
    let job = include_str!("../examples/press-in.yaml");
    let job =
        with(job, "outside: 24.036 ± 0.004 mm, bore: 18.000 ± 0.004 mm", "outside: 24.050 ± 0.004 mm, bore: 18.000 mm");
    let state = |read: &str| {
        let bench = folder(&job);
        std::fs::write(bench.path().join("shop.yaml"), with(SHOP, "instruments:", gauge)).unwrap();
        logged(bench.path(), "pump cover/press-in", &[&format!("bore_after_pressing={read}"), "with=small gauge"]);
        let text = said(bench.path(), &["plan", "job.yaml", "--format", "json"]);
        let plan: serde_json::Value = serde_json::from_str(&text).unwrap();
        let checks = plan["operations"][0]["checks"].as_array().unwrap().clone();
        let own = checks.iter().find(|check| check["check"] == "closes-in").unwrap_or_else(|| panic!("{checks:#?}"));
        own["state"].as_str().unwrap().to_owned()
    };
    // The hold ends at 17.988.
    assert_eq!((state("17.985 mm").as_str(), state("17.990 mm").as_str()), ("proven", "doubtful"));
}
