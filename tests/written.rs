//! Whatever happens while something is read or written: a file is whole or as it was, nothing of ours is left beside it, what is too
//! large is refused at once, and what is wrong many times is told a few times and counted.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::any_bytes::Dice;
use crate::cli::{JOB, folder, run, said};
use std::io::Write;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// What is written, by which words, under which name.
const WRITES: [(&[&str], &str); 5] = [
    (&["sheets", "job.yaml", "--force", "-o", "sheets.pdf"], "sheets.pdf"),
    (&["sheets", "job.yaml", "--force", "--format", "html", "-o", "sheets.html"], "sheets.html"),
    (&["sheets", "job.yaml", "--force", "--format", "json", "-o", "sheets.json"], "sheets.json"),
    (&["sheets", "job.yaml", "--force", "--format", "text", "-o", "sheets.txt"], "sheets.txt"),
    (&["day", "job.yaml", "--date", "2026-11-30", "--force", "-o", "day.pdf"], "day.pdf"),
];

/// Names in a folder that are ours while something is written.
#[cfg(unix)]
fn beside(folder: &Path) -> Vec<String> {
    let names = std::fs::read_dir(folder).expect("folder").map(|entry| entry.expect("entry").file_name());
    names.map(|name| name.to_string_lossy().into_owned()).filter(|name| name.starts_with(".setover-")).collect()
}

/// So many processes are killed at the same time, each in a folder of its own: most of the time is waiting.
#[cfg(unix)]
const AT_ONCE: usize = 4;

/// Kills the process at random instants, half of them while a file stands beside its name, by signals that can be waited with and
/// by the one that cannot; `SETOVER_KILLS` sets how often.
#[cfg(unix)]
#[test]
fn a_process_that_is_killed_leaves_a_whole_file_or_the_old_one() {
    let kills: usize = std::env::var("SETOVER_KILLS").ok().and_then(|text| text.parse().ok()).unwrap_or(200);
    let each = kills.div_ceil(AT_ONCE);
    let ended = std::thread::scope(|scope| {
        let all: Vec<_> = (0..AT_ONCE).map(|at| scope.spawn(move || killed(each, 0x5e70_7e12 + at as u64))).collect();
        all.into_iter()
            .map(|one| one.join().expect("whole files"))
            .fold((0, 0, 0), |sum, one| (sum.0 + one.0, sum.1 + one.1, sum.2 + one.2))
    });
    let (kept, new, left) = ended;
    println!(
        "{kills} kills: {kept} old files kept, {new} new ones whole, {left} left by the signal that nobody can wait with"
    );
    assert!(kills < 100 || (kept > 10 && new > 10), "{kept} and {new}");
}

/// How many old files were kept, how many new ones were whole, how many were left beside them.
#[cfg(unix)]
fn killed(kills: usize, seed: u64) -> (usize, usize, usize) {
    let folder = folder(JOB);
    let mut dice = Dice(seed);
    let old = b"setover: what stood here before";
    let whole: Vec<(Vec<u8>, Duration)> = WRITES
        .iter()
        .map(|(words, name)| {
            let before = Instant::now();
            let output = run(folder.path(), words);
            assert!(matches!(output.status.code(), Some(0 | 1)), "{words:?}: {}", said(&output));
            (std::fs::read(folder.path().join(name)).expect("written"), before.elapsed())
        })
        .collect();
    let (mut kept, mut new, mut left) = (0, 0, 0);
    for kill in 0..kills {
        let at = dice.below(WRITES.len());
        let ((words, name), (wanted, takes)) = (&WRITES[at], &whole[at]);
        let path = folder.path().join(name);
        std::fs::write(&path, old).expect("old");
        let signal = ["TERM", "KILL", "INT", "HUP"][kill % 4];
        let mut process = Command::new(env!("CARGO_BIN_EXE_setover"))
            .args(*words)
            .current_dir(folder.path())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .expect("runs");
        let begun = Instant::now();
        if kill % 2 == 0 {
            while beside(folder.path()).is_empty() && process.try_wait().expect("waits").is_none() {
                std::thread::sleep(Duration::from_micros(100));
            }
            std::thread::sleep(Duration::from_micros(dice.below(3_000) as u64));
        } else {
            let until = takes.mul_f64(dice.below(1_200) as f64 / 1_000.0);
            std::thread::sleep(until.saturating_sub(begun.elapsed()));
        }
        let _ = Command::new("kill").args(["-s", signal, &process.id().to_string()]).stderr(Stdio::null()).status();
        process.wait().expect("ends");
        let found = std::fs::read(&path).expect("there");
        match found {
            found if found == old => kept += 1,
            found if found == *wanted => new += 1,
            found => panic!("{signal}: {name} is half a file of {} bytes, of {}", found.len(), wanted.len()),
        }
        let now = beside(folder.path()).len();
        assert!(now <= left || signal == "KILL", "{signal} leaves {:?} beside {name}", beside(folder.path()));
        left = now;
    }
    // What was left is taken away by the next that writes there.
    std::thread::sleep(Duration::from_millis(1_200));
    run(folder.path(), WRITES[2].0);
    assert_eq!(beside(folder.path()), Vec::<String>::new());
    (kept, new, left)
}

/// Within two seconds of the processor and 200 MB of memory; the refusal itself takes a few milliseconds.
#[cfg(target_os = "linux")]
#[test]
fn a_file_of_a_hundred_megabytes_is_refused_at_once() {
    let folder = folder(JOB);
    let large = std::fs::File::create(folder.path().join("large.yaml")).expect("large");
    large.set_len(100 * 1024 * 1024).expect("length");
    std::fs::create_dir(folder.path().join("ops")).expect("ops");
    for line in [
        "plan large.yaml",
        "plan job.yaml --shop large.yaml",
        "sheets large.yaml -o x.pdf",
        "day job.yaml --like large.yaml",
        "plan - < large.yaml",
        "book thread M8 --shop large.yaml",
    ] {
        let line = format!("ulimit -t 2; ulimit -v 204800; exec {} {line}", env!("CARGO_BIN_EXE_setover"));
        let begun = Instant::now();
        let output = Command::new("sh").args(["-c", &line]).current_dir(folder.path()).output().expect("runs");
        assert_eq!(output.status.code(), Some(2), "{line}: {}", said(&output));
        assert!(said(&output).contains("larger than 4 MB"), "{line}: {}", said(&output));
        println!("{line}: {:?}", begun.elapsed());
    }
    assert!(!folder.path().join("x.pdf").exists());
    // As a card it costs its operation its words, and no more.
    std::fs::hard_link(folder.path().join("large.yaml"), folder.path().join("ops/thread-insert.yaml")).expect("card");
    let output = run(folder.path(), &["plan", "job.yaml"]);
    assert_eq!(output.status.code(), Some(1), "{}", said(&output));
    let text = said(&output).split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("larger than 4 MB"), "{text}");
}

/// Twenty thousand problems of a kind.
const MANY: usize = 20_000;

fn many() -> [(&'static str, String); 4] {
    let parts = |of: fn(usize) -> String| -> String {
        let all: String = (0..MANY).map(of).collect();
        format!("job: much\nparts:\n{all}")
    };
    [
        (
            "keys with nothing after them",
            format!("job: much\nparts: []\n{}", (0..MANY).map(|n| format!("k{n}:\n")).collect::<String>()),
        ),
        ("keys that there are not", parts(|n| format!("  - {{part: p{n}, metal: steel, operations: []}}\n"))),
        ("materials that nobody knows", parts(|n| format!("  - {{part: p{n}, material: xyz{n}, operations: []}}\n"))),
        ("parts without a name", parts(|_| "  - {material: steel, operations: []}\n".into())),
    ]
}

#[test]
fn twenty_thousand_problems_are_told_as_forty_and_a_count() {
    let many = many();
    crate::common::over_jobs(many.len() as u64, |nth| {
        let (what, job) = &many[nth as usize];
        let folder = folder(JOB);
        std::fs::write(folder.path().join("many.yaml"), job).expect("many");
        let begun = Instant::now();
        let output = run(folder.path(), &["plan", "many.yaml"]);
        println!("{what}: {:?}", begun.elapsed());
        assert_eq!(output.status.code(), Some(2), "{what}");
        let text = said(&output);
        let told = text.lines().filter(|line| line.starts_with("many.yaml, line ")).count();
        let last = text.lines().last().unwrap_or_default().to_owned();
        assert_eq!(
            (told, last.as_str()),
            (40, "20000 problems, of which the first 40 are shown; nothing was worked out"),
            "{what}"
        );
        // Both ways print one list: that it is cut off the same is seen once.
        if nth > 0 {
            return;
        }
        let json = run(folder.path(), &["plan", "many.yaml", "--format", "json"]);
        let json: serde_json::Value = serde_json::from_slice(&json.stdout).expect("json");
        assert_eq!(json["problems"].as_array().map(Vec::len), Some(40), "{what}");
        assert_eq!(json["more"], MANY - 40, "{what}");
    });
}

#[test]
fn a_day_that_no_calendar_has_is_refused_at_its_place() {
    let folder = folder(&JOB.replacen("shop: shop.yaml", "shop: shop.yaml\ndate: 2026-02-30", 1));
    let output = run(folder.path(), &["plan", "job.yaml"]);
    assert_eq!(output.status.code(), Some(2), "{}", said(&output));
    assert!(said(&output).contains("`2026-02-30` is no day"), "{}", said(&output));
    let output = run(folder.path(), &["day", "job.yaml", "--date", "2026-02-29"]);
    assert_eq!(output.status.code(), Some(2), "{}", said(&output));
    assert!(said(&output).contains("is no day"), "{}", said(&output));
    std::fs::write(
        folder.path().join("job.yaml"),
        JOB.replacen("shop: shop.yaml", "shop: shop.yaml\ndate: 2028-02-29", 1),
    )
    .expect("a leap year");
    assert_eq!(run(folder.path(), &["plan", "job.yaml"]).status.code(), Some(0));
}

/// A name that means harm, or is only odd, in each place where a person types one.
const NAMES: [&str; 9] = [
    "<script>alert(1)</script>",
    "a & b < c > d \\\" ' ]]> --> <!--",
    "../../../etc/passwd",
    "-rf",
    "--force",
    "\\e[2Jbell\\a",
    "tur\\u202Ened",
    "zero\\u200Bwidth\\u2060joined\\uFEFF",
    "100 % {blank} $HOME `id`",
];

#[test]
fn a_name_that_means_harm_is_shown_and_does_nothing() {
    let long = "very long ".repeat(200);
    for typed in NAMES.iter().copied().chain([long.as_str()]) {
        let name = |word: &str| format!("\"{word} {typed} {word}\"");
        let job = JOB
            .replace("Worked example, thread-insert", &name("worked"))
            .replace("part: timing chest", &format!("part: {}", name("chest")))
            .replace("    operations:", &format!("    note: {}\n    operations:", name("remark")));
        let shop = crate::cli::SHOP
            .replace("shop: Example bench", &format!("shop: {}", name("bench")))
            .replace("name: hss-knife", &format!("name: {}", name("knife")))
            .replace("name: turret mill", &format!("name: {}", name("mill")));
        let folder = folder(&job);
        std::fs::write(folder.path().join("shop.yaml"), shop).expect("shop");
        let words = ["sheets", "job.yaml", "--format", "html", "--working", "--sketches", "drawn", "-o", "sheets.html"];
        let output = run(folder.path(), &words);
        assert_eq!(output.status.code(), Some(0), "{typed}: {}", said(&output));
        let html = std::fs::read_to_string(folder.path().join("sheets.html")).expect("page");
        assert!(
            !html.contains("<script>alert") && !html.contains("<!-- chest") && !html.contains("]]> -->"),
            "{typed}"
        );
        assert_eq!(html.matches("<script").count(), html.matches("</script").count(), "{typed}");
        let mut all = vec![("page", html)];
        for file in std::fs::read_dir(folder.path().join("drawn")).expect("drawn") {
            let file = file.expect("entry");
            let own = file.file_name().to_string_lossy().into_owned();
            assert!(own.chars().all(|c| c.is_ascii_alphanumeric() || c == '.'), "{own}");
            all.push(("sketch", std::fs::read_to_string(file.path()).expect("svg")));
        }
        for words in
            [&["plan", "job.yaml", "--all"][..], &["plan", "job.yaml", "--format", "json"], &["day", "job.yaml"]]
        {
            let output = run(folder.path(), words);
            assert!(matches!(output.status.code(), Some(0 | 1)), "{typed}: {}", said(&output));
            all.push(("terminal", said(&output)));
        }
        let pdf = run(folder.path(), &["sheets", "job.yaml", "-o", "-"]);
        assert!(lopdf::Document::load_mem(&pdf.stdout).is_ok_and(|file| !file.get_pages().is_empty()), "{typed}");
        for (what, text) in &all {
            let stray = text.chars().find(|c| crate::cli::LEADING.contains(c));
            assert_eq!(stray, None, "{what}: {typed}");
        }
        // Nothing is made but what was asked for, and nowhere else.
        let mut made: Vec<String> = std::fs::read_dir(folder.path())
            .expect("folder")
            .map(|entry| entry.expect("entry").file_name().to_string_lossy().into_owned())
            .collect();
        made.sort();
        assert_eq!(made, ["drawn", "job.yaml", "sheets.html", "shop.yaml"], "{typed}");
    }
}

/// An answer that cannot be given to anybody ends in its exit code, whatever command it is of.
#[cfg(target_os = "linux")]
#[test]
fn every_command_meets_a_full_disk() {
    let folder = folder(JOB);
    for words in [
        &["plan", "job.yaml"][..],
        &["day", "job.yaml"],
        &["keys", "face"],
        &["operations"],
        &["schema", "job"],
        &["book"],
        &["man"],
        &["completions", "bash"],
        &["sheets", "job.yaml", "-o", "-"],
        &["start", "new", "--plain"],
    ] {
        let full = || std::fs::OpenOptions::new().write(true).open("/dev/full").expect("the full device");
        let status = Command::new(env!("CARGO_BIN_EXE_setover"))
            .args(words)
            .current_dir(folder.path())
            .stdin(Stdio::null())
            .stdout(full())
            .stderr(full())
            .status()
            .expect("runs");
        assert_eq!(status.code(), Some(3), "{words:?}");
    }
}

/// What is no file at all, where a job, a shop or an output is wanted.
#[cfg(unix)]
#[test]
fn folders_devices_pipes_and_links_are_met_as_what_they_are() {
    let folder = folder(JOB);
    let here = |name: &str| folder.path().join(name);
    std::os::unix::fs::symlink("job.yaml", here("link.yaml")).expect("link");
    std::os::unix::fs::symlink("nowhere/at/all.pdf", here("dangling.pdf")).expect("link");
    assert!(Command::new("mkfifo").arg(here("pipe.yaml")).status().expect("mkfifo").success());
    assert_eq!(run(folder.path(), &["plan", "link.yaml"]).status.code(), Some(0));
    for path in [".", "/dev/null", "/dev/zero", "pipe.yaml", "none.yaml"] {
        for words in [&["plan", path][..], &["plan", "job.yaml", "--shop", path]] {
            let output = run(folder.path(), words);
            assert_eq!(output.status.code(), Some(2), "{words:?}: {}", said(&output));
        }
    }
    let output = run(folder.path(), &["sheets", "job.yaml", "-o", "dangling.pdf"]);
    assert_eq!(output.status.code(), Some(3), "{}", said(&output));
    for day in ["job.yaml", "link.yaml", "shop.yaml"] {
        let output = run(folder.path(), &["day", "job.yaml", "--force", "-o", day]);
        assert_eq!(output.status.code(), Some(3), "{day}: {}", said(&output));
    }
    assert_eq!(std::fs::read_to_string(here("job.yaml")).expect("job"), JOB);
}

/// What comes in by a pipe is read as it comes, and no further than a job may be long.
#[test]
fn a_stream_without_an_end_is_cut_where_no_job_is_so_long() {
    let mut process = Command::new(env!("CARGO_BIN_EXE_setover"))
        .args(["plan", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::null())
        .stderr(Stdio::piped())
        .spawn()
        .expect("runs");
    let mut into = process.stdin.take().expect("a pipe");
    let piece = vec![b'#'; 1 << 16];
    // A reader that has had enough closes its end.
    while into.write_all(&piece).is_ok() {}
    drop(into);
    let output = process.wait_with_output().expect("ends");
    assert_eq!(output.status.code(), Some(2), "{}", said(&output));
    assert!(said(&output).contains("larger than 4 MB"), "{}", said(&output));
}
