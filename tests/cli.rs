//! The program as its user meets it: exit codes, placed errors, files written whole or not at all.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::path::Path;
use std::process::{Command, Output};

const JOB: &str = include_str!("fixtures/thread-insert.yaml");
const SHOP: &str = include_str!("fixtures/shop.yaml");

fn run(folder: &Path, words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(folder).output().expect("runs")
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

fn folder(job: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("folder");
    std::fs::write(folder.path().join("job.yaml"), job).expect("job");
    std::fs::write(folder.path().join("shop.yaml"), SHOP).expect("shop");
    folder
}

#[test]
fn exit_codes_say_how_it_ended() {
    let code = |job: &str, words: &[&str]| run(folder(job).path(), words).status.code();
    assert_eq!(code(JOB, &["plan", "job.yaml"]), Some(0));
    assert_eq!(code(JOB, &["plan", "job.yaml", "--strict"]), Some(1));
    assert_eq!(code(&JOB.replace("lead: bottoming", "lead: plug"), &["plan", "job.yaml"]), Some(1));
    assert_eq!(code(&JOB.replace("wall:", "wal:"), &["plan", "job.yaml"]), Some(2));
    assert_eq!(code(JOB, &["sheets", "job.yaml", "-o", "none/sheets.pdf"]), Some(3));
}

#[test]
fn a_sheet_is_written_even_when_it_says_do_not_cut() {
    let folder = folder(&JOB.replace("lead: bottoming", "lead: plug"));
    let output = run(folder.path(), &["sheets", "job.yaml", "-o", "sheets.pdf"]);
    assert_eq!(output.status.code(), Some(1), "{}", said(&output));
    assert!(std::fs::read(folder.path().join("sheets.pdf")).expect("pdf").starts_with(b"%PDF-1.7"));
}

#[test]
fn bad_input_never_writes() {
    let folder = folder(&JOB.replace("M8x1.25", "M8x1.26"));
    std::fs::write(folder.path().join("sheets.pdf"), "old").expect("old");
    let output = run(folder.path(), &["sheets", "job.yaml", "-o", "sheets.pdf"]);
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(std::fs::read(folder.path().join("sheets.pdf")).expect("old"), b"old");
    assert!(said(&output).contains("job.yaml:8:19"), "{}", said(&output));
    assert!(said(&output).contains("^^^^^^^"), "{}", said(&output));
}

#[test]
fn all_problems_of_all_inputs_come_in_one_run() {
    let folder = folder(&JOB.replace("wall: 18.0 ± 0.3 mm", "wall: 18").replace("edge: 14 ± 0.2 mm", "edge: 14,2 mm"));
    std::fs::write(folder.path().join("other.yaml"), JOB.replace("cast aluminium", "cast aluminum alloy"))
        .expect("other");
    let said = said(&run(folder.path(), &["plan", "job.yaml", "other.yaml"]));
    for piece in ["needs its unit", "the decimal sign is a point: `14.2 mm`", "the book has no material", "3 problems"]
    {
        assert!(said.contains(piece), "{piece}: {said}");
    }
}

#[test]
fn every_kind_of_bad_file_is_met_with_words_and_exit_2() {
    let deep = format!("job: {}", "[".repeat(10_000));
    let bomb = "a: &a [x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a]\nc: [*b,*b,*b,*b,*b,*b,*b,*b]\n".to_owned();
    let cases: Vec<(&str, Vec<u8>)> = vec![
        ("empty", Vec::new()),
        ("a list", b"- 1\n- 2\n".to_vec()),
        ("a number", b"12\n".to_vec()),
        ("no YAML", b"job: [1\n".to_vec()),
        ("a tab", b"job: x\nparts:\n\t- part: a\n".to_vec()),
        ("not UTF-8", b"job: \xff\xfe\n".to_vec()),
        ("a key twice", JOB.replacen("hole: blind", "hole: blind\n          hole: blind", 1).into_bytes()),
        ("an empty key", JOB.replace("tang: out", "tang:").into_bytes()),
        ("a negative size", JOB.replace("wall: 18.0", "wall: -18.0").into_bytes()),
        ("nought", JOB.replace("18.0 ± 0.3 mm", "0 mm").into_bytes()),
        ("not a number", JOB.replace("18.0 ± 0.3 mm", ".nan").into_bytes()),
        ("without end", JOB.replace("18.0 ± 0.3 mm", ".inf").into_bytes()),
        ("too large", JOB.replace("18.0 ± 0.3 mm", "1e999 mm").into_bytes()),
        ("unknown thread", JOB.replace("M8x1.25", "Q8").into_bytes()),
        ("unknown operation", JOB.replace("thread-insert:", "thread-insrt:").into_bytes()),
        ("unknown material", JOB.replace("cast aluminium", "kryptonite").into_bytes()),
        ("wrong type", JOB.replace("countersink: false", "countersink: maybe").into_bytes()),
        ("deep nesting", deep.into_bytes()),
        ("an alias bomb", bomb.into_bytes()),
        ("anchors", JOB.replace("hole: blind", "hole: &h blind").into_bytes()),
        ("huge", vec![b'#'; 100 * 1024 * 1024]),
    ];
    for (what, bytes) in cases {
        let folder = tempfile::tempdir().expect("folder");
        std::fs::write(folder.path().join("job.yaml"), bytes).expect("job");
        std::fs::write(folder.path().join("shop.yaml"), SHOP).expect("shop");
        let start = std::time::Instant::now();
        let output = run(folder.path(), &["sheets", "job.yaml", "-o", "sheets.pdf"]);
        assert_eq!(output.status.code(), Some(2), "{what}: {}", said(&output));
        assert!(said(&output).contains("job.yaml"), "{what}: {}", said(&output));
        assert!(!said(&output).contains("panicked"), "{what}");
        assert!(!folder.path().join("sheets.pdf").exists(), "{what} wrote a file");
        assert!(start.elapsed().as_secs() < 5, "{what} took {:?}", start.elapsed());
    }
    let folder = folder(JOB);
    assert_eq!(run(folder.path(), &["plan", "."]).status.code(), Some(2));
    assert_eq!(run(folder.path(), &["plan", "none.yaml"]).status.code(), Some(2));
}

#[test]
fn windows_line_ends_and_a_byte_order_mark_are_no_problem() {
    let job = format!("\u{feff}{}", JOB.replace('\n', "\r\n"));
    assert_eq!(run(folder(&job).path(), &["plan", "job.yaml"]).status.code(), Some(0));
}

#[test]
fn escape_signs_of_a_file_never_reach_the_terminal() {
    let job = JOB.replace("Worked example", "\"\\e[31mred\"").replace("wall: 18.0 ± 0.3 mm", "wall: \"\\e[2J18\"");
    let output = run(folder(&job).path(), &["plan", "job.yaml"]);
    assert!(!said(&output).contains('\u{1b}'), "{}", said(&output));
}

#[test]
fn try_meets_the_same_types_as_a_file() {
    let words = [
        "try",
        "thread-insert",
        "thread=M8x1.25",
        "wall=18.0 ± 0.3 mm",
        "hole=blind",
        "lead=bottoming",
        "least-left=1 mm",
        "present-hole=8 mm",
        "part.material=cast aluminium",
        "--format",
        "json",
    ];
    let folder = tempfile::tempdir().expect("folder");
    let output = run(folder.path(), &words);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("json");
    let operation = &json["operations"][0];
    assert_eq!(operation["verdict"], "proven");
    assert_eq!(operation["stamp_note"], "for depth; strength not asked");
    assert_eq!(operation["alternatives"].as_array().expect("alternatives").len(), 5);
    assert_eq!(operation["choices"]["insert_length"]["chosen"], "1D");
    let bad = run(folder.path(), &["try", "thread-insert", "thread=M8", "wall", "part=x"]);
    assert_eq!(bad.status.code(), Some(2), "{}", said(&bad));
    let twice = run(folder.path(), &["try", "thread-insert", "thread=M8", "thread=M8"]);
    assert!(said(&twice).contains("is given twice"), "{}", said(&twice));
}

#[test]
fn the_shop_of_this_folder_is_used_by_try() {
    let output = run(
        folder(JOB).path(),
        &[
            "try",
            "thread-insert",
            "thread=M8",
            "wall=18 ± 0.3 mm",
            "hole=blind",
            "part.material=LM25",
            "--format",
            "json",
        ],
    );
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("json");
    assert!(json["operations"][0]["values"]["drill_spindle_speed"]["value"].as_f64().is_some(), "{}", said(&output));
}

#[test]
fn a_job_that_is_tried_can_be_shaken() {
    let words = |more: &[&'static str]| {
        let keys = ["try", "thread-insert", "thread=M8x1.25", "wall=18.0 ± 0.3 mm", "hole=blind", "lead=bottoming"];
        let more = ["least-left=1 mm", "part.material=cast aluminium"].iter().chain(more);
        keys.iter().chain(more).copied().collect::<Vec<&str>>()
    };
    let folder = folder(JOB);
    let text = said(&run(folder.path(), &words(&["--shake", "2000"])));
    assert!(text.contains("Shaken 2000 times from seed 1"), "{text}");
    let line = text.lines().find(|line| line.contains("break-through") && line.contains("holds in")).expect("its line");
    assert!(line.contains("holds in 100.0 %") || line.contains("holds in 99."), "{line}");
    assert!(line.contains("mostly wall (") || line.contains("mostly stop"), "{line}");
    let json: serde_json::Value =
        serde_json::from_slice(&run(folder.path(), &words(&["--shake", "2000", "--format", "json"])).stdout)
            .expect("json");
    let shaken = &json["operations"][0]["shaken"];
    assert_eq!((shaken["trials"].as_u64(), shaken["seed"].as_u64()), (Some(2_000), Some(1)));
    let left =
        shaken["values"].as_array().expect("values").iter().find(|value| value["name"] == "metal_left").expect("it");
    let (worked, drawn) = (left["plus_minus"].as_f64().expect("±"), left["half_width"].as_f64().expect("half"));
    assert!((drawn / worked - 1.0).abs() < 0.06, "{left}");
    assert_eq!(run(folder.path(), &words(&["--shake", "3"])).status.code(), Some(2));
}
