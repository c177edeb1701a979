//! The log: lines that are appended and never edited, what a torn or changed line costs, and what the next plan makes of the rest.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use setover::job::{Log, LogFaultKind, NearInLog, NewLine};
use setover::proof::Place;
use std::path::Path;
use std::process::{Command, Output, Stdio};

const SHOP: &str = include_str!("fixtures/shop.yaml");
pub const JOB: &str = "
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
    // Each line's sum goes over all before it: carried on here, and asked of the program for the first few.
    let (mut bytes, mut sum) = (Vec::new(), crc32fast::Hasher::new());
    for n in 1..=count {
        let line = NewLine { keys: vec![("note".into(), format!("line {n} ± ü"))], ..NewLine::default() };
        let alone = line.text(&[], n);
        let open = alone.split_once(", sum: ").expect("a sum").0;
        sum.update(open.as_bytes());
        let end = format!(", sum: {:08x}}}\n", sum.clone().finalize());
        sum.update(end.as_bytes());
        let text = format!("{open}{end}");
        assert!(n > 20 || text == line.text(&bytes, n), "{text}");
        bytes.extend_from_slice(text.as_bytes());
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

/// A length that leaves the wear standing is not proven, however well the rest holds; nothing is spoilt by it.
#[test]
fn a_cut_that_left_the_wear_standing_is_not_proven() {
    let state = |left: &str| {
        let folder = folder(JOB);
        assert_eq!(log_it(folder.path(), &[&format!("length_after={left}")]).status.code(), Some(0));
        let plan = run(folder.path(), &["plan", "job.yaml", "--format", "json"]);
        let answer: serde_json::Value = serde_json::from_slice(&plan.stdout).expect("json");
        let checks = answer["operations"][0]["checks"].as_array().expect("checks").clone();
        let plausible = checks.iter().find(|check| check["check"] == "doubt-plausible").expect("the check");
        plausible["state"].as_str().expect("a word").to_owned()
    };
    assert_eq!(state("21.80 ± 0.01 mm"), "doubtful", "the groove is 0.16 deep and 0.07 is gone");
    assert_eq!(state("21.70 ± 0.01 mm"), "doubtful", "gone at the middle, not at worst");
    assert_eq!(state("21.64 ± 0.01 mm"), "proven");
}

#[test]
fn what_cannot_be_of_this_job_is_refused_at_its_place_and_not_written() {
    let folder = folder(JOB);
    for (words, says) in [
        (vec!["length_after=21.677"], "needs its unit"),
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
    // The line is not in the log, and is told of where it was typed.
    assert!(said(&second).starts_with("argument: "), "{}", said(&second));
    assert!(
        said(&second).contains("nothing was written down") && !said(&second).contains("worked out"),
        "{}",
        said(&second)
    );
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
    // Nobody knows of which work the line told: each set-up of it stands on that.
    let lap = include_str!("../examples/lap.yaml");
    std::fs::write(folder.path().join("lap.yaml"), lap).expect("job");
    std::fs::write(folder.path().join("lap.log.yaml"), torn).expect("log");
    let plan = said(&run(folder.path(), &["plan", "lap.yaml"]));
    let lines: Vec<&str> = plan.lines().filter(|line| line.starts_with("1.")).collect();
    assert!(lines.len() == 2 && lines.iter().all(|line| line.contains("DOUBTFUL")), "{plan}");
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
    assert_eq!(kinds(&read(changed.as_bytes())), [(LogFaultKind::Changed, 2)], "the very line");
    assert_eq!(read(changed.as_bytes()).faults[0].between, (2, 5), "all were written before the change");
    assert_eq!(read(changed.as_bytes()).standing(None).count(), 5, "figures are used");
    // Changed while three stood there; then two more were written over what was there.
    let three: String = text.lines().take(3).map(|line| line.to_owned() + "\n").collect();
    let mut later = three.replace("line 2", "line 7").into_bytes();
    for n in 4..=5 {
        let line = NewLine::default().text(&later, n);
        later.extend_from_slice(line.as_bytes());
    }
    assert_eq!(kinds(&read(&later)), [(LogFaultKind::Changed, 2)]);
    assert_eq!(read(&later).faults[0].between, (2, 3));
    let last = text.replace("line 5", "line 9");
    assert_eq!(kinds(&read(last.as_bytes())), [(LogFaultKind::Torn, 5)]);
    let bad = text.replace("- {n: 2,", "- [n: 2,");
    assert_eq!(kinds(&read(bad.as_bytes())), [(LogFaultKind::Changed, 2), (LogFaultKind::Broken, 2)]);
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
    let output = log_it(folder.path(), &["length_after=21.677 mm", "--wait", "0"]);
    assert_eq!(output.status.code(), Some(3), "{}", said(&output));
    assert!(said(&output).contains("process 12345 holds"), "{}", said(&output));
    // Long enough for any hand, where nobody says how long.
    let help = said(&run(folder.path(), &["log", "--help"]));
    let wait = help.split("--wait").nth(1).and_then(|wait| wait.split("--shop").next()).expect("the option");
    assert!(wait.contains("[default: 10]"), "{help}");
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
    let seed = 20_261_201_u64;
    println!("seed {seed}");
    // Several at the same time, each in a folder of its own: most of the time is waiting.
    let (old, new) = std::thread::scope(|scope| {
        let all: Vec<_> = (0..4).map(|at| scope.spawn(move || killed(50, seed + at))).collect();
        let ended = all.into_iter().map(|one| one.join().expect("a whole log"));
        ended.fold((0, 0), |sum, one| (sum.0 + one.0, sum.1 + one.1))
    });
    println!("{old} old, {new} new");
    assert!(old > 0 && new > 0, "{old} old, {new} new: no kill fell in between");
}

/// How often of so many kills the log was as before, and how often it had the whole line.
fn killed(kills: u32, mut seed: u64) -> (usize, usize) {
    let folder = folder(JOB);
    assert_eq!(log_it(folder.path(), &["note=begun"]).status.code(), Some(0));
    let usual = {
        let start = std::time::Instant::now();
        assert_eq!(log_it(folder.path(), &["note=timed"]).status.code(), Some(0));
        start.elapsed()
    };
    let (mut old, mut new) = (0, 0);
    for _ in 0..kills {
        seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let share = (seed >> 33) as f64 / f64::from(1_u32 << 31);
        let before = bytes(folder.path());
        let words = ["log", "job.yaml", AT, "note=another line", "--date", "2026-12-01"];
        let mut child =
            command(folder.path(), &words).stdout(Stdio::null()).stderr(Stdio::null()).spawn().expect("runs");
        std::thread::sleep(usual.mul_f64(share * 2.0));
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
    assert_eq!(log_it(folder.path(), &["note=and on"]).status.code(), Some(0), "whoever comes next goes on");
    (old, new)
}

/// A second part whose length is what the first one leaves.
const CHAIN: &str = "
  - part: distance piece
    material: mild steel
    operations:
      - face: {outside: 58 mm, inside: 30 mm, length: {of: collar/face/length_after}, wear: 0.10 ± 0.01 mm, least-length: 21.0 mm, finish: Ra 1.6 um, hold: {in: soft-jaws, diameter: 58 mm, grip: 10 mm, overhang: 12 mm}}
";

#[test]
fn what_changed_since_an_entry_names_its_cause() {
    let folder = folder(&format!("{JOB}{CHAIN}"));
    let since = |entry: &str| said(&run(folder.path(), &["plan", "job.yaml", "--since", entry]));
    assert_eq!(log_it(folder.path(), &["note=begun"]).status.code(), Some(0));
    assert_eq!(since("L1"), "Nothing has changed: L1 is the last entry. --since L0 shows all.\n");
    assert!(since("L9").contains("there is no L9: the last entry is L1"), "{}", since("L9"));
    assert_eq!(log_it(folder.path(), &["length_after=21.677 ± 0.004 mm"]).status.code(), Some(0));
    let all = since("L1");
    let line = |of: &str| all.lines().find(|line| line.starts_with(of)).unwrap_or_else(|| panic!("{of}: {all}"));
    assert!(line("collar/face/length_after: ").ends_with("→ 21.677 ± 0.004 mm (L2)"), "{all}");
    assert!(line("distance piece/face/length: ").ends_with("→ 21.677 ± 0.004 mm (L2)"), "{all}");
    assert!(line("distance piece/face/length_after: ").contains("→ 21.5"), "{all}");
    assert!(!all.contains("collar/face/wear"), "what is the same is not told: {all}");
    assert_eq!(since("L2"), "Nothing has changed: L2 is the last entry. --since L0 shows all.\n");
    let json = run(folder.path(), &["plan", "job.yaml", "--since", "1", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_slice(&json.stdout).expect("json");
    let first = &json["changes"][0];
    assert_eq!((first["kind"].as_str(), first["entry"].as_u64()), (Some("figure"), Some(2)), "{first}");
    // Taken back, all is as it was, and the entry that took it back is the cause.
    assert_eq!(run(folder.path(), &["log", "job.yaml", "--withdraws", "L2"]).status.code(), Some(0));
    assert_eq!(since("L1"), "Nothing has changed since L1.\n");
    assert!(since("L2").contains("collar/face/length_after: 21.677 ± 0.004 mm → "), "{}", since("L2"));
    assert!(since("L2").contains("(L3)"), "{}", since("L2"));
}

#[test]
fn what_no_longer_holds_stands_on_every_output_with_its_cause() {
    let folder = folder(&format!("{JOB}{CHAIN}"));
    let plan = || said(&run(folder.path(), &["plan", "job.yaml"]));
    assert!(!plan().contains("No longer holds"));
    assert_eq!(log_it(folder.path(), &["length_after=21.10 ± 0.004 mm"]).status.code(), Some(0));
    assert!(plan().contains("No longer holds"), "{}", plan());
    let json = run(folder.path(), &["plan", "job.yaml", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_slice(&json.stdout).expect("json");
    let all = json["no_longer_holds"].as_array().expect("a list");
    let of = |address: &str| all.iter().find(|change| change["address"] == address);
    let short = of("distance piece/face/least-length").unwrap_or_else(|| panic!("{all:#?}"));
    assert_eq!((short["new"].as_str(), short["entry"].as_u64()), (Some("fails"), Some(1)), "{short}");
    let value = &json["operations"][0]["values"]["length_after"];
    assert_eq!(value["log"], "L1", "{value}");
    let shown = said(&run(folder.path(), &["plan", "job.yaml", "--values", "--part", "collar"]));
    assert!(shown.contains("as left L1"), "{shown}");
    let cover = run(folder.path(), &["sheets", "job.yaml", "--cover", "-o", "sheets.pdf"]);
    assert!(said(&cover).contains("No longer holds"), "{}", said(&cover));
    assert_eq!(cover.status.code(), Some(1), "{}", said(&cover));
}

#[test]
fn work_that_went_on_from_what_was_not_written_down_is_named() {
    let folder = folder(&format!("{JOB}{CHAIN}"));
    let words = ["log", "job.yaml", "distance piece/face", "length_after=21.5 ± 0.004 mm"];
    assert_eq!(run(folder.path(), &words).status.code(), Some(0));
    let plan = said(&run(folder.path(), &["plan", "job.yaml"]));
    let says = "collar/face: nothing was written down, and distance piece/face was done after it (L1)";
    assert!(plan.contains(says), "{plan}");
    assert_eq!(log_it(folder.path(), &["length_after=21.64 ± 0.004 mm"]).status.code(), Some(0));
    let plan = said(&run(folder.path(), &["plan", "job.yaml"]));
    assert!(!plan.contains(says), "{plan}");
}

/// Readings of one micrometer meet in one figure through the log as they do through the job: off together where nobody knows better.
#[test]
fn a_worse_instrument_and_a_warm_part_never_better_a_verdict() {
    let left = |words: &[&str]| {
        let folder = folder(JOB);
        let logged = log_it(folder.path(), words);
        assert_eq!(logged.status.code(), Some(0), "{}", said(&logged));
        let plan = run(folder.path(), &["plan", "job.yaml", "--format", "json"]);
        let answer: serde_json::Value = serde_json::from_slice(&plan.stdout).expect("json");
        let value = answer["operations"][0]["values"]["length_after"].clone();
        let of = |key: &str| value[key].as_f64().unwrap_or_default();
        (of("value"), of("plus_minus"), answer["operations"][0]["verdict"].clone())
    };
    let (size, instrument, _) = left(&["length_after=21.677 mm", "with=micrometer"]);
    assert!(size == 21.677 && instrument > 0.0);
    let (_, typed, _) = left(&["length_after=21.677 ± 0.0001 mm", "with=micrometer"]);
    assert_eq!(typed, instrument, "never less than the instrument's");
    let (_, more, _) = left(&["length_after=21.677 ± 0.05 mm", "with=micrometer"]);
    assert!((more - 0.05).abs() < 1e-12, "what is more counts: {more}");
    let (warm, doubt, _) = left(&["length_after=21.677 mm", "with=micrometer", "at=40 degC", "gauge-at=20 degC"]);
    assert!(warm < size && doubt > instrument, "{warm} ± {doubt}");
    let (_, _, verdict) = left(&["length_after=21.677 mm", "with=micrometer", "at=40 degC"]);
    assert_ne!(verdict, "proven", "nobody said how warm the gauge was");
}

/// A correction stands in the place of an entry: one of another operation, or without a figure that the entry gave, would put the
/// planned size back in the place of the measured one without a word.
#[test]
fn a_correction_drops_nothing_without_a_word() {
    let folder = folder(&format!("{JOB}{CHAIN}"));
    let log = |words: &[&str]| run(folder.path(), &[&["log", "job.yaml"], words, &["--date", "2026-12-01"]].concat());
    assert_eq!(log(&["collar/face", "length_after=21.0 ± 0.01 mm"]).status.code(), Some(0));
    let before = bytes(folder.path());
    let other = log(&["distance piece/face", "length_after=20.9 ± 0.01 mm", "--corrects", "L1"]);
    assert_eq!(other.status.code(), Some(2), "{}", said(&other));
    assert!(said(&other).contains("entry 1 tells of collar/face"), "{}", said(&other));
    let note = log(&["collar/face", "note=read again", "--corrects", "L1"]);
    assert_eq!(note.status.code(), Some(2), "{}", said(&note));
    assert!(said(&note).contains("entry 1 gives `length_after`"), "{}", said(&note));
    assert_eq!(bytes(folder.path()), before, "nothing was written");
    assert_eq!(log(&["collar/face", "length_after=21.1 ± 0.01 mm", "--corrects", "L1"]).status.code(), Some(0));
    assert_eq!(log(&["--withdraws", "L2"]).status.code(), Some(0));
}

/// Every name that an operation declares for the log is asked for, and every one that is asked for is declared.
#[test]
fn the_names_for_the_log_are_those_that_are_asked_for() {
    let mut asked = std::collections::BTreeSet::new();
    let mut declared = std::collections::BTreeSet::new();
    for path in crate::common::rust_files(Path::new("src/operations")) {
        let text = std::fs::read_to_string(&path).expect("text");
        for piece in text.split("bench.left(&").skip(1) {
            asked.insert(
                piece
                    .chars()
                    .take_while(|c| c.is_ascii_uppercase() || *c == '_' || c.is_ascii_digit())
                    .collect::<String>(),
            );
        }
        for line in text.split(';').filter(|line| line.contains(").left(Gauge::")) {
            let name = line.split(": ").next().expect("a name").split_whitespace().last().expect("a word");
            declared.insert(name.to_owned());
        }
    }
    assert!(asked.len() > 2, "{asked:?}");
    assert_eq!(asked, declared);
}

/// A log of ten thousand lines is read in a moment: time of the processor, so that others on the machine do not count.
#[test]
fn ten_thousand_lines_are_read_in_a_moment() {
    let bytes = lines(10_000);
    let start = std::time::Instant::now();
    let log = read(&bytes);
    println!("{} bytes, {:?}", bytes.len(), start.elapsed());
    assert_eq!((log.entries.len(), log.faults.len(), log.problems.len()), (10_000, 0, 0));
}

const TRUED: &str = "
job: a flange trued
shop: shop.yaml
parts:
  - part: flange
    material: mild steel
    operations:
      - set-true: {jaw-readings: 0 -0.045 -0.130 -0.075 mm, with: lever indicator, true-within: 0.02 mm, hold: {in: four-jaw}, last-held-in: four-jaw}
";

/// Read again in a row after the move: what the centre alone makes of the readings is what was left.
#[test]
fn readings_in_a_row_are_the_turn_that_they_make_or_one_size_at_several_places() {
    let folder = folder(TRUED);
    let words =
        ["log", "job.yaml", "flange/set-true", "tir_after=0.002 -0.001 -0.004 0.001 mm", "with=lever indicator"];
    let logged = run(folder.path(), &words);
    assert_eq!(logged.status.code(), Some(0), "{}", said(&logged));
    let plan = run(folder.path(), &["plan", "job.yaml", "--format", "json"]);
    let plan: serde_json::Value = serde_json::from_slice(&plan.stdout).expect("json");
    let value = &plan["operations"][0]["values"]["tir_after"];
    // By hand: a 0.003, b -0.001, e 0.0031623.
    assert!((value["value"].as_f64().expect("a figure") - 0.006_324_555).abs() < 1e-8, "{value}");
    assert!(value["plus_minus"].as_f64().expect("a doubt") > 0.0 && value["log"] == "L1", "{value}");
    let folder = self::folder(JOB);
    let logged = log_it(folder.path(), &["length_after=21.677 21.671 21.680 21.676 mm", "with=micrometer"]);
    assert_eq!(logged.status.code(), Some(0), "{}", said(&logged));
    let plan = run(folder.path(), &["plan", "job.yaml", "--format", "json"]);
    let plan: serde_json::Value = serde_json::from_slice(&plan.stdout).expect("json");
    let value = &plan["operations"][0]["values"]["length_after"];
    assert_eq!((value["low"].as_f64(), value["high"].as_f64()), (Some(21.671), Some(21.68)), "{value}");
    assert!((value["value"].as_f64().expect("a figure") - 21.6755).abs() < 1e-9, "{value}");
    // A mixed fraction is one figure and no row.
    let folder = self::folder(JOB);
    assert_eq!(log_it(folder.path(), &["length_after=1 3/8 in"]).status.code(), Some(0));
    let plan = run(folder.path(), &["plan", "job.yaml", "--format", "json"]);
    let plan: serde_json::Value = serde_json::from_slice(&plan.stdout).expect("json");
    assert_eq!(plan["operations"][0]["values"]["length_after"]["value"].as_f64(), Some(34.925));
}

/// Every place that was read is there: what fails at one of them fails, however good the middle of all is.
#[test]
fn one_place_that_fails_is_not_made_better_by_the_others() {
    let cut = "      - face: {outside: 52 mm, inside: 32 mm, length: 21.85 ± 0.01 mm, wear: 0.25 ± 0.02 mm, finish: Ra 1.6 um, square-within: 0.02 mm, hold: {in: soft-jaws, diameter: 52 mm, grip: 10 mm, overhang: 12 mm, true-within: 0.01 mm, stop: step}, least-case: 0.5 mm, removed-before: 0 mm, float: opens, as-found-float: 0.42 ± 0.01 mm, bears: in-groove, set-up: {name: end A, feature: ends}}\n";
    let job = format!(
        "job: one\nshop: shop.yaml\nparts:\n  - part: piece\n    material: case-hardened steel\n    hardness: 60 HRC\n    case-depth: 1.0 ± 0.1 mm\n    operations:\n{cut}"
    );
    let state = |read: &str| {
        let folder = folder(&job);
        let logged = run(
            folder.path(),
            &["log", "job.yaml", "piece/end A", &format!("length_after={read} mm"), "with=micrometer"],
        );
        assert_eq!(logged.status.code(), Some(0), "{}", said(&logged));
        let plan = run(folder.path(), &["plan", "job.yaml", "--format", "json"]);
        let plan: serde_json::Value = serde_json::from_slice(&plan.stdout).expect("json");
        let checks = plan["operations"][0]["checks"].as_array().expect("checks").clone();
        let case = checks.iter().find(|check| check["check"] == "case").unwrap_or_else(|| panic!("{checks:#?}"));
        case["state"].as_str().expect("a state").to_owned()
    };
    assert_eq!(state("21.60"), "proven");
    assert_eq!(state("21.25"), "fails");
    assert_eq!(state("21.60 21.60 21.60 21.25"), "fails", "the middle, 21.425, would be doubtful");
    assert_eq!(state("21.60 21.60 21.60 21.55"), "proven");
}

/// The page for a screen writes its blanks out as entries: each that the log asks for says under which name.
#[test]
fn the_blanks_of_the_page_for_a_screen_are_named_as_the_log_names_them() {
    let folder = folder(JOB);
    let output = run(folder.path(), &["sheets", "job.yaml", "--format", "html", "-o", "sheets.html"]);
    let page =
        std::fs::read_to_string(folder.path().join("sheets.html")).unwrap_or_else(|_| panic!("{}", said(&output)));
    assert!(page.contains("data-log=\"length_after\" data-unit=\"mm\""));
    assert!(page.contains("data-address=\"collar/face\""));
    // As the page writes it.
    let entry = "- {part: \"collar\", operation: \"face\", length_after: \"21.677 21.675 mm\", note: \"Roughness by comparison: 1.6 um\", by: \"A\", date: 2026-12-01}\n";
    std::fs::write(folder.path().join("readings.txt"), entry).expect("file");
    let logged = run(folder.path(), &["log", "job.yaml", "--from", "readings.txt"]);
    assert_eq!(logged.status.code(), Some(0), "{}", said(&logged));
}

/// A map that was taken again in a row is how far it makes the face out of flat, and not the middle of its readings.
#[test]
fn a_map_in_a_row_is_how_far_it_is_out_of_flat() {
    let left = |row: &str| {
        let folder = folder(include_str!("../examples/lap.yaml"));
        let entry = format!("flat_after={row}");
        let words = ["log", "job.yaml", "barrel/lap", &entry, "with=lever indicator"];
        let logged = run(folder.path(), &words);
        let plan = run(folder.path(), &["plan", "job.yaml", "--format", "json"]);
        let plan: serde_json::Value = serde_json::from_slice(&plan.stdout).unwrap_or_default();
        let of =
            plan["operations"].as_array().into_iter().flatten().find(|one| one["address"] == "barrel/lap").cloned();
        (logged.status.code(), said(&logged), of.map(|of| of["values"]["flat_after"].clone()).unwrap_or_default())
    };
    let (code, says, value) = left("20 -20 20 -20 20 -20 20 -20 um");
    assert_eq!(code, Some(0), "{says}");
    assert!((value["value"].as_f64().expect("a figure") - 0.040).abs() < 1e-9, "{value}");
    let (code, says, _) = left("20 -20 20 um");
    assert_eq!(code, Some(2), "{says}");
    assert!(says.contains("not as many readings as the face was mapped at"), "{says}");
}

/// Somebody measured it: that its doubt rests on a figure from memory does not make the figure one.
#[test]
fn a_figure_of_a_warm_part_is_as_left_too() {
    let folder = folder(JOB);
    let words = ["length_after=21.677 mm", "with=micrometer", "at=30 degC", "gauge-at=20 degC"];
    assert_eq!(log_it(folder.path(), &words).status.code(), Some(0));
    let plan = said(&run(folder.path(), &["plan", "job.yaml", "--values"]));
    let line = plan.lines().find(|line| line.trim_start().starts_with("length_after")).expect("its line");
    assert!(line.contains("as left L1") && !line.contains("from memory"), "{line}");
}

/// What the page for a screen writes out, the log takes: each name in the unit of its blank, once for each of its readings.
/// A page of two jobs copies out the lines of both, each with the gauge of its sheet: a job takes its own, and says what it left.
#[test]
fn lines_of_another_job_are_left_alone_and_told() {
    let folder = folder(JOB);
    let own = "- {part: collar, operation: face, length_after: 21.700 mm, date: 2026-12-01}\n";
    let other = "- {part: pump barrel, operation: bore, finish_bore: 46.500 mm, date: 2026-12-01}\n";
    std::fs::write(folder.path().join("readings.txt"), format!("{own}{other}")).expect("file");
    let logged = run(folder.path(), &["log", "job.yaml", "--from", "readings.txt"]);
    assert_eq!(logged.status.code(), Some(0), "{}", said(&logged));
    assert!(said(&logged).contains("no such operation: pump barrel/bore"), "{}", said(&logged));
    let kept = std::fs::read_to_string(folder.path().join("job.log.yaml")).expect("a log");
    assert!(kept.contains("length_after") && !kept.contains("finish_bore"), "{kept}");
    // A slip in the only line is no line of another job.
    std::fs::write(folder.path().join("readings.txt"), other).expect("file");
    assert_eq!(run(folder.path(), &["log", "job.yaml", "--from", "readings.txt"]).status.code(), Some(2));
}

#[test]
fn every_blank_with_a_name_writes_an_entry_that_the_log_takes() {
    let mut names = std::collections::BTreeSet::new();
    let shops = [("examples/lap.yaml", SHOP), ("examples/polish-seal.yaml", SHOP), ("examples/shim.yaml", SHOP)];
    let texts = shops.map(|(path, shop)| (std::fs::read_to_string(path).expect(path), shop));
    let barrel = (crate::rebore::BARREL.replacen("parts:", "shop: shop.yaml\nparts:", 1), crate::rebore::SHOP);
    for (job, shop) in texts.into_iter().chain([barrel]) {
        let folder = folder(&job);
        std::fs::write(folder.path().join("shop.yaml"), shop).expect("shop");
        let output = run(folder.path(), &["sheets", "job.yaml", "--format", "html", "-o", "sheets.html"]);
        let page =
            std::fs::read_to_string(folder.path().join("sheets.html")).unwrap_or_else(|_| panic!("{}", said(&output)));
        for section in page.split("data-address=\"").skip(1) {
            let address = section.split('"').next().expect("an address");
            let (part, operation) = address.rsplit_once('/').expect("two words");
            let mut seen = std::collections::BTreeSet::new();
            for blank in section.split("data-log=\"").skip(1) {
                let blank = blank.split('>').next().expect("a tag");
                let name = blank.split('"').next().expect("a name");
                let of =
                    |key: &str| blank.split(&format!("data-{key}=\"")).nth(1).and_then(|rest| rest.split('"').next());
                let unit = of("unit").expect("a unit");
                let figure = format!("{} 0.5 {unit}", of("before").unwrap_or_default());
                if !seen.insert(name) {
                    continue;
                }
                names.insert(name.to_owned());
                let entry = format!(
                    "- {{part: \"{part}\", operation: \"{operation}\", {name}: \"{}\", date: 2026-12-01}}\n",
                    figure.trim()
                );
                std::fs::write(folder.path().join("readings.txt"), &entry).expect("file");
                let _ = std::fs::remove_file(folder.path().join("job.log.yaml"));
                let logged = run(folder.path(), &["log", "job.yaml", "--from", "readings.txt"]);
                assert_eq!(logged.status.code(), Some(0), "{entry}{}", said(&logged));
            }
        }
    }
    for name in [
        "diameter_after",
        "finish",
        "flat_after",
        "removed",
        "float_left",
        "piston",
        "bored_size",
        "finish_bore",
        "ring_gap",
    ] {
        assert!(names.contains(name), "{name}: {names:?}");
    }
}

/// What takes back is not taken back: the figure is written down anew.
#[test]
fn a_withdrawal_is_not_withdrawn() {
    let folder = folder(JOB);
    assert_eq!(log_it(folder.path(), &["length_after=21.677 ± 0.004 mm"]).status.code(), Some(0));
    let back = |entry: &str| run(folder.path(), &["log", "job.yaml", "--withdraws", entry, "--date", "2026-12-01"]);
    assert_eq!(back("L1").status.code(), Some(0));
    let before = bytes(folder.path());
    let again = back("L2");
    assert_eq!(again.status.code(), Some(2), "{}", said(&again));
    assert!(said(&again).contains("write down anew"), "{}", said(&again));
    assert_eq!(bytes(folder.path()), before);
    assert_eq!(log_it(folder.path(), &["length_after=21.677 ± 0.004 mm"]).status.code(), Some(0));
}

/// Of a long log only what a new line may meet is read again; what it meets is found all the same.
#[test]
fn a_line_meets_what_stands_far_up_in_a_long_log() {
    let folder = folder(JOB);
    assert_eq!(log_it(folder.path(), &["length_after=21.677 ± 0.004 mm"]).status.code(), Some(0));
    for note in 0..5 {
        assert_eq!(log_it(folder.path(), &[&format!("note=line {note}")]).status.code(), Some(0));
    }
    let twice = log_it(folder.path(), &["length_after=21.670 ± 0.004 mm"]);
    assert_eq!(twice.status.code(), Some(2), "{}", said(&twice));
    assert!(said(&twice).contains("`corrects: 1`"), "{}", said(&twice));
    let corrected = log_it(folder.path(), &["length_after=21.670 ± 0.004 mm", "--corrects", "L1"]);
    assert_eq!(corrected.status.code(), Some(0), "{}", said(&corrected));
    // The one that was corrected is not corrected again, and none is that was passed over without being there.
    let again = log_it(folder.path(), &["length_after=21.6 ± 0.004 mm", "--corrects", "L1"]);
    assert!(said(&again).contains("corrected or taken back before"), "{}", said(&again));
    let none = log_it(folder.path(), &["length_after=21.6 ± 0.004 mm", "--corrects", "L40"]);
    assert_eq!(none.status.code(), Some(2), "{}", said(&none));
    // A remark may be taken back, which nothing else touches.
    let remark = run(folder.path(), &["log", "job.yaml", "--withdraws", "L3", "--date", "2026-12-01"]);
    assert_eq!(remark.status.code(), Some(0), "{}", said(&remark));
    let plan = said(&run(folder.path(), &["plan", "job.yaml", "--values"]));
    assert!(plan.contains("21.670"), "{plan}");
}

/// Read near to nothing, a log of many lines has their numbers and no entry of them, and the same faults.
#[test]
fn what_is_passed_over_keeps_its_number_and_its_faults() {
    let near = NearInLog::default();
    let whole = lines(200);
    let log = Log::read_near(&whole, Place::start(0), Some(&near));
    assert_eq!((log.last, log.entries.len(), log.faults.len(), log.problems.len()), (200, 0, 0, 0));
    let torn = &whole[..whole.len() - 5];
    assert_eq!(kinds(&Log::read_near(torn, Place::start(0), Some(&near))), kinds(&read(torn)));
    let changed = String::from_utf8(whole.clone()).unwrap().replace("line 7 ", "line 8 ").into_bytes();
    let (near, all) = (Log::read_near(&changed, Place::start(0), Some(&near)), read(&changed));
    assert_eq!((kinds(&near), near.last), (kinds(&all), all.last));
    let wanted = NearInLog { numbers: [3].into(), names: vec!["line 5 ".into()], first: Some(199) };
    let log = Log::read_near(&whole, Place::start(0), Some(&wanted));
    assert_eq!(log.entries.iter().map(|entry| entry.n.value).collect::<Vec<_>>(), [3, 5, 199, 200]);
}

/// What the log has as left is set by nobody again, whichever way it is asked for.
#[test]
fn done_work_gives_no_setting_in_text_nor_in_json() {
    let folder = folder(JOB);
    let text = |words: &[&str]| String::from_utf8(run(folder.path(), words).stdout).expect("text");
    let ways: [&[&str]; 3] = [
        &["sheets", "job.yaml", "--format", "text", "-o", "-"],
        &["sheets", "job.yaml", "--format", "json", "-o", "-"],
        &["plan", "job.yaml", "--all"],
    ];
    for words in ways {
        assert!(text(words).contains("Then dial on"), "{words:?} as planned");
    }
    assert_eq!(log_it(folder.path(), &["length_after=21.677 mm", "with=micrometer"]).status.code(), Some(0));
    for words in ways {
        let said = text(words);
        assert!(said.contains("DONE: the log has its size") && !said.contains("Then dial on"), "{words:?}: {said}");
    }
}

/// A figure that is written down before the work closes nothing: the barrel is not bored because its piston was measured.
#[test]
fn a_figure_read_before_the_work_does_not_close_it() {
    let folder = folder(include_str!("../examples/bore.yaml"));
    let text = |words: &[&str]| String::from_utf8(run(folder.path(), words).stdout).expect("text");
    let log = |what: &str, with: &str| {
        let logged = run(folder.path(), &["log", "job.yaml", "pump barrel/bore", what, with]);
        assert_eq!(logged.status.code(), Some(0), "{}", said(&logged));
    };
    log("piston=46.432 ± 0.004 mm", "note=in hand");
    let day = text(&["day", "job.yaml", "--date", "2026-11-30"]);
    assert!(day.contains("1.1") && !day.contains("Done, as the log says"), "{day}");
    assert!(!text(&["plan", "job.yaml", "--all"]).contains("DONE: the log"), "nothing was bored");
    // What was honed was bored before.
    log("finish_bore=46.516 ± 0.004 mm", "note=after honing");
    let plan = text(&["plan", "job.yaml", "--all"]);
    assert_eq!(plan.matches("DONE: the log").count(), 2, "{plan}");
}
