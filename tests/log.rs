//! The log: lines that are appended and never edited, what a torn or changed line costs, and what the next plan makes of the rest.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use setover::job::{Log, LogFaultKind, NewLine};
use setover::proof::Place;
use std::path::Path;
use std::process::{Command, Output, Stdio};

const SHOP: &str = include_str!("fixtures/shop.yaml");
const JOB: &str = "
job: a collar
shop: shop.yaml
parts:
  - part: collar
    material: mild steel
    operations:
      - face: {outside: 58 mm, inside: 30 mm, length: 21.87 ± 0.016 mm, wear: 0.16 ± 0.01 mm, least-length: 21.0 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 58 mm, grip: 10 mm, overhang: 12 mm}}
";

fn folder(job: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("folder");
    std::fs::write(folder.path().join("job.yaml"), job).expect("job");
    std::fs::write(folder.path().join("shop.yaml"), SHOP).expect("shop");
    folder
}

fn command(folder: &Path, words: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_setover"));
    command.args(words).current_dir(folder);
    command
}

fn run(folder: &Path, words: &[&str]) -> Output {
    command(folder, words).output().expect("runs")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

const AT: &str = "collar/face";

fn log_it(folder: &Path, words: &[&str]) -> Output {
    run(folder, &[&["log", "job.yaml", AT, "--date", "2026-12-01"], words].concat())
}

fn bytes(folder: &Path) -> Vec<u8> {
    std::fs::read(folder.join("job.log.yaml")).expect("a log")
}

fn read(bytes: &[u8]) -> Log {
    Log::read(bytes, Place::start(0))
}

fn kinds(log: &Log) -> Vec<(LogFaultKind, u32)> {
    log.faults.iter().map(|fault| (fault.kind, fault.line)).collect()
}

/// A log of so many entries, as the program writes it.
fn lines(count: u32) -> Vec<u8> {
    let mut bytes = Vec::new();
    for n in 1..=count {
        let line = NewLine { keys: vec![("note".into(), format!("line {n} ± ü"))], ..NewLine::default() };
        bytes.extend_from_slice(line.text(&bytes, n).as_bytes());
    }
    bytes
}

#[test]
fn what_was_left_goes_behind_the_old_bytes_and_into_the_next_plan() {
    let folder = folder(JOB);
    let plan = || said(&run(folder.path(), &["plan", "job.yaml", "--values"]));
    assert!(!plan().contains("21.677"));
    let first = log_it(folder.path(), &["length_after=21.677 ± 0.004 mm", "--by", "A. Fitter"]);
    assert_eq!(first.status.code(), Some(0), "{}", said(&first));
    assert!(
        said(&first).starts_with("L1  2026-12-01  A. Fitter  collar/face  length_after 21.677 ± 0.004 mm"),
        "{}",
        said(&first)
    );
    let old = bytes(folder.path());
    assert!(plan().contains("21.677"), "{}", plan());
    let second = log_it(folder.path(), &["length-after=21.675 mm", "with=micrometer", "--corrects", "L1"]);
    assert_eq!(second.status.code(), Some(0), "{}", said(&second));
    assert!(bytes(folder.path()).starts_with(&old) && plan().contains("21.675"));
    assert!(said(&run(folder.path(), &["log", "job.yaml"])).contains("(counts no more)"));
    let third = run(folder.path(), &["log", "job.yaml", "--withdraws", "2", "--date", "2026-12-02"]);
    assert_eq!(third.status.code(), Some(0), "{}", said(&third));
    assert!(!plan().contains("21.675"), "what was taken back counts no more");
}

/// The longer piece, twice as short a doubt, the case of the size: whatever the log says decides what is proven.
#[test]
fn a_cut_that_went_too_deep_is_no_longer_proven() {
    let verdict = |left: &str| {
        let folder = folder(JOB);
        let logged = log_it(folder.path(), &[&format!("length_after={left}")]);
        assert_eq!(logged.status.code(), Some(0), "{}", said(&logged));
        let plan = run(folder.path(), &["plan", "job.yaml", "--format", "json"]);
        let answer: serde_json::Value = serde_json::from_slice(&plan.stdout).expect("json");
        let checks = answer["operations"][0]["checks"].as_array().expect("checks").clone();
        let of = checks
            .iter()
            .find(|check| check["id"] == "length-after")
            .or_else(|| checks.iter().find(|check| check["about"] == "length_after"));
        of.expect("a check of the length")["state"].as_str().expect("a word").to_owned()
    };
    assert_eq!(verdict("21.64 ± 0.01 mm"), "proven");
    assert_eq!(verdict("21.005 ± 0.01 mm"), "doubtful");
    assert_eq!(verdict("20.9 ± 0.01 mm"), "fails");
}

#[test]
fn what_cannot_be_of_this_job_is_refused_at_its_place_and_not_written() {
    let folder = folder(JOB);
    for (words, says) in [
        (vec!["length_after=21.677"], "has no unit"),
        (vec!["length_after=21.677 N"], "has no unit that a length can have"),
        (vec!["length_aftr=21.677 mm"], "did you mean `length_after`?"),
        (vec!["length_after=21.6 .. 21.7 mm"], "give one figure"),
        (vec!["length_after=21.677 ± 0 mm"], "no reading is without doubt"),
        (vec!["length_after=21.677 mm", "with=rubber rule"], "the shop has no instrument"),
        (vec!["length_after=21.677 mm", "length_after=21.678 mm"], "twice"),
        (vec!["removed=0.2 mm"], "does not ask the log for `removed`"),
        (vec!["length_after=21.677 mm", "--corrects", "7"], "there is no entry 7"),
        (vec!["21.677 mm"], "not of the form"),
        (vec!["gauge-at=20 degC", "length_after=21.677 mm"], "how warm the gauge was"),
    ] {
        let output = log_it(folder.path(), &words);
        assert_eq!(output.status.code(), Some(2), "{words:?}: {}", said(&output));
        assert!(said(&output).contains(says), "{words:?}: {}", said(&output));
        assert!(!folder.path().join("job.log.yaml").exists(), "{words:?}");
    }
    let other = run(folder.path(), &["log", "job.yaml", "collar/fase", "length_after=21 mm"]);
    assert!(said(&other).contains("did you mean `collar/face`?"), "{}", said(&other));
    assert_eq!(log_it(folder.path(), &["length_after=21.677 mm"]).status.code(), Some(0));
    let second = log_it(folder.path(), &["length_after=21.676 mm"]);
    assert!(said(&second).contains("entry 1 gives `length_after` already"), "{}", said(&second));
    assert!(said(&second).contains("job.log.yaml, line 2: "), "{}", said(&second));
}

#[test]
fn a_log_written_by_hand_is_read_and_its_slips_are_placed() {
    let folder = folder(JOB);
    let says = |text: &str| {
        std::fs::write(folder.path().join("job.log.yaml"), text).expect("log");
        said(&run(folder.path(), &["plan", "job.yaml", "--values"]))
    };
    assert!(says("- {n: 1, part: collar, operation: face, length_after: 21.677 mm}\n").contains("21.677"));
    let gap = says("- {n: 1, note: a}\n- {n: 3, note: b}\n");
    assert!(gap.contains("job.log.yaml, line 2: the entry after 1 has the number 2, not 3"), "{gap}");
    assert!(gap.contains("- {n: 3, note: b}\n          ^"), "{gap}");
    let wrong = says("- {n: 1, part: collar, operation: face, length_aftr: 21.677 mm}\n");
    assert!(wrong.contains("job.log.yaml, line 1: ") && wrong.contains("did you mean `length_after`?"), "{wrong}");
    let half = says("- {n: 1, part: collar, length_after: 21.677 mm}\n");
    assert!(half.contains("names its part and its operation, or neither"), "{half}");
}

/// The figure 21.6 is never read out of `21.677 mm`, wherever the last line is cut.
#[test]
fn cut_at_every_byte_the_rest_is_quoted_and_no_figure_of_it_is_read() {
    let folder = folder(JOB);
    assert_eq!(log_it(folder.path(), &["note=begun ± ü"]).status.code(), Some(0));
    let one = bytes(folder.path());
    assert_eq!(log_it(folder.path(), &["length_after=21.677 ± 0.004 mm"]).status.code(), Some(0));
    let two = bytes(folder.path());
    for end in one.len()..=two.len() {
        let log = read(&two[..end]);
        let whole = end == two.len();
        let figures = log.standing(None).flat_map(|entry| &entry.values).count();
        assert_eq!(figures, usize::from(whole), "cut at {end}");
        let torn = log.torn().map(|torn| torn.text.clone());
        assert_eq!(torn.is_some(), !whole && end > one.len(), "cut at {end}: {torn:?}");
        assert_eq!(log.problems, Vec::new(), "cut at {end}");
        if let Some(torn) = torn {
            let said = String::from_utf8_lossy(&two[one.len()..end]).into_owned();
            assert_eq!(torn, said.trim_end());
            let mended = Log::mended(&two[..end]);
            assert!(mended.starts_with(&one) && mended.ends_with(b"\n"));
            assert!(
                mended.windows(end - one.len()).any(|piece| piece == &two[one.len()..end]),
                "nothing of it is lost"
            );
            assert!(read(&mended).faults.is_empty() && read(&mended).entries.len() == 1);
        }
    }
}

#[test]
fn a_torn_log_makes_every_operation_doubtful_and_is_mended_by_hand_alone() {
    let folder = folder(JOB);
    assert_eq!(log_it(folder.path(), &["length_after=21.677 ± 0.004 mm"]).status.code(), Some(0));
    let whole = bytes(folder.path());
    let torn = &whole[..whole.len() - 30];
    std::fs::write(folder.path().join("job.log.yaml"), torn).expect("log");
    let plan = run(folder.path(), &["plan", "job.yaml", "--all"]);
    assert!(said(&plan).contains("Line 1 was cut off") && said(&plan).contains("DOUBTFUL"), "{}", said(&plan));
    assert!(!said(&plan).contains("21.677 ± 0.004"), "{}", said(&plan));
    let refused = log_it(folder.path(), &["length_after=21.677 mm"]);
    assert_eq!(refused.status.code(), Some(2));
    assert!(said(&refused).contains("--mend"), "{}", said(&refused));
    assert_eq!(bytes(folder.path()), torn, "what is there stays");
    let mended = run(folder.path(), &["log", "job.yaml", "--mend", "--date", "2026-12-01"]);
    assert_eq!(mended.status.code(), Some(0), "{}", said(&mended));
    let text = String::from_utf8(bytes(folder.path())).expect("text");
    assert!(text.starts_with(&format!("# torn: {}\n- {{n: 1, ", String::from_utf8_lossy(torn))), "{text}");
    assert_eq!(log_it(folder.path(), &["length_after=21.677 mm"]).status.code(), Some(0));
    let again = run(folder.path(), &["log", "job.yaml", "--mend"]);
    assert!(said(&again).contains("nothing to mend"), "{}", said(&again));
}

#[test]
fn a_line_that_was_changed_later_is_known_and_so_is_one_number_twice() {
    let good = lines(5);
    assert_eq!(kinds(&read(&good)), []);
    let text = String::from_utf8(good).expect("text");
    let changed = text.replace("line 2", "line 7");
    assert_eq!(kinds(&read(changed.as_bytes())), [(LogFaultKind::Changed, 5)], "all were written before the change");
    assert_eq!(read(changed.as_bytes()).standing(None).count(), 5, "figures are used");
    // Changed while three stood there; then two more were written over what was there.
    let three: String = text.lines().take(3).map(|line| line.to_owned() + "\n").collect();
    let mut later = three.replace("line 2", "line 7").into_bytes();
    for n in 4..=5 {
        let line = NewLine::default().text(&later, n);
        later.extend_from_slice(line.as_bytes());
    }
    assert_eq!(kinds(&read(&later)), [(LogFaultKind::Changed, 3)]);
    let last = text.replace("line 5", "line 9");
    assert_eq!(kinds(&read(last.as_bytes())), [(LogFaultKind::Torn, 5)]);
    let bad = text.replace("- {n: 2,", "- [n: 2,");
    assert_eq!(kinds(&read(bad.as_bytes())), [(LogFaultKind::Broken, 2), (LogFaultKind::Changed, 5)]);
    assert_eq!(read(bad.as_bytes()).standing(None).count(), 4, "a bad line costs one line");
    let twice = "- {n: 1, note: a}\n- {n: 2, note: b}\n- {n: 2, note: c}\n- {n: 3, note: d}\n";
    let log = read(twice.as_bytes());
    assert_eq!(kinds(&log), [(LogFaultKind::Doubled, 2), (LogFaultKind::Doubled, 3)]);
    assert_eq!(log.standing(None).map(|entry| entry.n.value).collect::<Vec<_>>(), [1, 3]);
    assert_eq!(log.problems, []);
}

#[test]
fn a_lock_that_another_holds_is_told_with_who_holds_it() {
    let folder = folder(JOB);
    let lock = std::fs::File::create(folder.path().join("job.log.yaml.lock")).expect("lock");
    lock.lock().expect("locked");
    std::fs::write(folder.path().join("job.log.yaml.lock"), "process 12345\n").expect("holder");
    let output = log_it(folder.path(), &["length_after=21.677 mm"]);
    assert_eq!(output.status.code(), Some(3), "{}", said(&output));
    assert!(said(&output).contains("process 12345 holds"), "{}", said(&output));
}

#[test]
fn entries_come_from_a_file_or_from_standard_input() {
    let folder = folder(JOB);
    let text = "- {part: collar, operation: face, length-after: 21.677 mm, date: 2026-12-03, by: B}\n- {part: collar, operation: face, note: clean}\n";
    std::fs::write(folder.path().join("blanks.txt"), text).expect("file");
    let output = run(folder.path(), &["log", "job.yaml", "--from", "blanks.txt", "--date", "2026-12-01", "--by", "A"]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let log = String::from_utf8(bytes(folder.path())).expect("text");
    assert!(
        log.starts_with(
            "- {n: 1, date: 2026-12-03, by: B, part: collar, operation: face, length_after: 21.677 mm, sum: "
        ),
        "{log}"
    );
    assert!(
        log.contains("- {n: 2, date: 2026-12-01, by: A, part: collar, operation: face, note: clean, sum: "),
        "{log}"
    );
    let mut child = command(folder.path(), &["log", "job.yaml", "--from", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .expect("runs");
    std::io::Write::write_all(
        child.stdin.as_mut().expect("stdin"),
        b"- {part: collar, operation: face, lenth: 21 mm}\n",
    )
    .expect("written");
    let output = child.wait_with_output().expect("ended");
    assert_eq!(output.status.code(), Some(2), "{}", said(&output));
    assert_eq!(String::from_utf8(bytes(folder.path())).expect("text"), log, "nothing of it was written");
}

/// Two processes that write at once lose nothing: every number once, every sum right.
#[test]
fn two_writers_lose_nothing() {
    let folder = folder(JOB);
    let many: String = (0..20).map(|n| format!("- {{part: collar, operation: face, note: number {n}}}\n")).collect();
    std::fs::write(folder.path().join("many.txt"), many).expect("file");
    std::thread::scope(|scope| {
        for by in ["A", "B"] {
            let folder = folder.path();
            scope.spawn(move || {
                for _ in 0..25 {
                    let output =
                        run(folder, &["log", "job.yaml", "--from", "many.txt", "--by", by, "--date", "2026-12-01"]);
                    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
                }
            });
        }
    });
    let log = read(&bytes(folder.path()));
    assert_eq!(log.entries.iter().map(|entry| entry.n.value).collect::<Vec<_>>(), (1..=1000).collect::<Vec<_>>());
    assert!(log.faults.is_empty() && log.problems.is_empty());
    for by in ["A", "B"] {
        assert_eq!(log.entries.iter().filter(|entry| entry.by.as_deref() == Some(by)).count(), 500, "{by}");
    }
}

/// Killed at any instant, the log is what it was or has the whole line.
#[test]
fn killed_at_random_instants_it_is_old_or_new() {
    let folder = folder(JOB);
    assert_eq!(log_it(folder.path(), &["note=begun"]).status.code(), Some(0));
    let mut seed = 20_261_201_u64;
    println!("seed {seed}");
    let usual = {
        let start = std::time::Instant::now();
        assert_eq!(log_it(folder.path(), &["note=timed"]).status.code(), Some(0));
        start.elapsed()
    };
    let (mut old, mut new) = (0, 0);
    for _ in 0..200 {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let share = (seed >> 33) as f64 / f64::from(1_u32 << 31);
        let before = bytes(folder.path());
        let words = ["log", "job.yaml", AT, "note=another line", "--date", "2026-12-01"];
        let mut child =
            command(folder.path(), &words).stdout(Stdio::null()).stderr(Stdio::null()).spawn().expect("runs");
        std::thread::sleep(usual.mul_f64(share * 1.2));
        let _ = child.kill();
        child.wait().expect("ended");
        let after = bytes(folder.path());
        assert!(after.starts_with(&before));
        let log = read(&after);
        assert!(log.faults.is_empty() && log.problems.is_empty(), "{:?}", log.faults);
        let more = log.entries.len() - read(&before).entries.len();
        assert!(more <= 1);
        (old, new) = (old + usize::from(more == 0), new + more);
    }
    println!("{old} old, {new} new");
    assert!(old > 0 && new > 0, "{old} old, {new} new: no kill fell in between");
    assert_eq!(log_it(folder.path(), &["note=and on"]).status.code(), Some(0), "whoever comes next goes on");
}
