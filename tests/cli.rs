//! The program as its user meets it: exit codes, placed errors, files written whole or not at all.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::path::Path;
use std::process::{Command, Output};

pub const JOB: &str = include_str!("fixtures/thread-insert.yaml");
pub const SHOP: &str = include_str!("fixtures/shop.yaml");

pub fn run(folder: &Path, words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).args(words).current_dir(folder).output().expect("runs")
}

pub fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

pub fn folder(job: &str) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("folder");
    std::fs::write(folder.path().join("job.yaml"), job).expect("job");
    std::fs::write(folder.path().join("shop.yaml"), SHOP).expect("shop");
    folder
}

#[test]
fn exit_codes_say_how_it_ended() {
    let code = |job: &str, words: &[&str]| run(folder(job).path(), words).status.code();
    assert_eq!(code(JOB, &["plan", "job.yaml"]), Some(0));
    assert_eq!(code(JOB, &["plan", "job.yaml", "--strict"]), Some(0));
    let doubtful = JOB.replace("wall: 18.0", "wall: 16.8");
    assert_eq!(code(&doubtful, &["plan", "job.yaml"]), Some(0));
    assert_eq!(code(&doubtful, &["plan", "job.yaml", "--strict"]), Some(1));
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
    assert!(said(&output).contains("job.yaml, line 9: "), "{}", said(&output));
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

/// A job of a face and an insert, with the shop's own card of the face.
fn with_own_card(card: &[u8]) -> tempfile::TempDir {
    let face = include_str!("../examples/face.yaml");
    let parts = JOB.split("parts:\n").nth(1).expect("parts");
    let folder = folder(&format!("{face}\n{parts}"));
    std::fs::create_dir(folder.path().join("ops")).expect("ops");
    std::fs::write(folder.path().join("ops/face.yaml"), card).expect("card");
    folder
}

const CARD: &str = include_str!("../ops/face.yaml");

/// The line of a card, from one, that holds a piece.
fn line_of(card: &str, piece: &str) -> usize {
    card.lines().position(|line| line.contains(piece)).unwrap_or_else(|| panic!("no {piece}")) + 1
}

/// Whose words the steps are stands beside them; a copy that says the same is no other.
#[test]
fn an_own_card_that_says_something_else_is_named() {
    let whose = "shop's own card";
    for (card, says) in [(CARD.to_owned(), false), (CARD.replace("Key out;", "Key out and away;"), true)] {
        let folder = with_own_card(card.as_bytes());
        let plan = run(folder.path(), &["plan", "job.yaml", "--format", "json"]);
        let text = String::from_utf8_lossy(&plan.stdout).into_owned();
        assert_eq!(text.matches(whose).count(), usize::from(says), "{text}");
        let page = run(folder.path(), &["sheets", "job.yaml", "--format", "html", "-o", "-"]);
        assert_eq!(String::from_utf8_lossy(&page.stdout).contains("own card"), says);
    }
}

#[test]
fn a_slip_in_an_own_card_costs_its_operation_and_no_other() {
    let blank = CARD.replace("Key out;", "Key {nonsense} out;");
    // A text of the common card that the shop's own card has too is the shop's.
    let own = "checks:\n  case:\n    asks: \"hard case left of {nonsense}\"\n    remedy: \"make it new\"\n";
    let check = CARD.replacen("checks:\n", own, 1);
    assert_ne!(check, CARD);
    let torn = CARD.replace("set-ups:", "set-ups: [");
    let unknown = CARD.replace("steps:", "stepps:");
    let gone: String = CARD.lines().filter(|line| !line.contains("turn-by-hand:")).map(|l| format!("{l}\n")).collect();
    let nested = CARD.replace("  turn-by-hand: ", "  turn-by-hand: [a, b] # ");
    let twice = format!("{CARD}\ntitle: again\n");
    let open = CARD.replace("Key out;", "Key {out;");
    let cases: Vec<(&str, Vec<u8>, usize, &str)> = vec![
        ("an unfilled blank", blank.clone().into_bytes(), line_of(&blank, "{nonsense}"), "nonsense"),
        ("an unfilled blank of a check", check.clone().into_bytes(), line_of(&check, "{nonsense}"), "nonsense"),
        ("a torn list", torn.clone().into_bytes(), 0, "a comma is missing"),
        ("an unknown key", unknown.clone().into_bytes(), line_of(&unknown, "stepps:"), "stepps"),
        ("a text that is missing", gone.clone().into_bytes(), line_of(&gone, "steps:"), "turn-by-hand"),
        ("a list for a text", nested.clone().into_bytes(), line_of(&nested, "turn-by-hand"), "a list stands here"),
        ("a key twice", twice.clone().into_bytes(), twice.lines().count(), "second time"),
        ("a blank that is not closed", open.clone().into_bytes(), line_of(&open, "{out;"), "out;"),
        ("no text at all", Vec::new(), 1, "empty"),
        ("not UTF-8", [b"title: x\n\xff".as_slice(), CARD.as_bytes()].concat(), 2, "not text in UTF-8"),
        ("too large", vec![b'#'; 5 * 1024 * 1024], 1, "larger than"),
        (
            "the card of another operation",
            CARD.replace("operation: face", "operation: skim").into_bytes(),
            1,
            "the card of `skim`",
        ),
        ("signs that lead", CARD.replace("title:", "\"ti\\u202etle\":").into_bytes(), 0, "there is no key"),
    ];
    for (what, card, line, says) in cases {
        let folder = with_own_card(&card);
        let output = run(folder.path(), &["plan", "job.yaml", "--format", "json"]);
        assert_eq!(output.status.code(), Some(1), "{what}: {}", said(&output));
        let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("json");
        let (face, insert) = (&json["operations"][0], &json["operations"][1]);
        let why = face["refused"].as_str().unwrap_or_else(|| panic!("{what} is not refused: {face}"));
        assert!(why.contains("ops/face.yaml:") && why.contains(says), "{what}: {why}");
        if line > 0 {
            assert!(why.contains(&format!("ops/face.yaml:{line}:")), "{what}: line {line}: {why}");
        }
        assert_eq!(face["verdict"], "fails", "{what}");
        assert!(
            face["checks"].as_array().is_some_and(|all| all
                .iter()
                .all(|c| !["proven", "doubtful", "fails"].contains(&c["state"].as_str().unwrap_or("proven")))),
            "{what}: no check of it was made"
        );
        assert_eq!(insert["refused"], serde_json::Value::Null, "{what}");
        assert!(insert["set_ups"].as_array().is_some_and(|all| all.len() == 2), "{what}");
        let sheets = run(folder.path(), &["sheets", "job.yaml", "-o", "sheets.pdf"]);
        assert_eq!(sheets.status.code(), Some(1), "{what}: {}", said(&sheets));
        let file = lopdf::Document::load(folder.path().join("sheets.pdf")).expect("a PDF");
        let pages: Vec<u32> = file.get_pages().keys().copied().collect();
        let text = file.extract_text(&pages).expect("text").split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(text.contains("DO NOT CUT") && text.contains("timing chest"), "{what}: {text}");
        assert!(!said(&sheets).contains('\u{202e}') && !why.contains('\u{202e}'), "{what}");
    }
    // A good copy changes the words and nothing else.
    let folder = with_own_card(CARD.replace("Key out;", "Chuck key out;").as_bytes());
    let output = run(folder.path(), &["plan", "job.yaml", "--all"]);
    assert!(said(&output).contains("Chuck key out;"), "{}", said(&output));
}

#[cfg(unix)]
#[test]
fn no_input_is_ever_written_by_whatever_name() {
    let folder = folder(JOB);
    let here = |name: &str| folder.path().join(name);
    std::fs::create_dir(here("ops")).expect("ops");
    std::fs::write(here("ops/thread-insert.yaml"), include_str!("../ops/thread-insert.yaml")).expect("card");
    std::fs::hard_link(here("job.yaml"), here("hard.pdf")).expect("hard link");
    std::os::unix::fs::symlink("shop.yaml", here("soft.pdf")).expect("link");
    for name in
        ["job.yaml", "./job.yaml", "ops/../job.yaml", "shop.yaml", "ops/thread-insert.yaml", "hard.pdf", "soft.pdf"]
    {
        for format in ["pdf", "text", "json"] {
            let before = std::fs::read(here(name)).expect("before");
            let output = run(folder.path(), &["sheets", "job.yaml", "--format", format, "-o", name]);
            assert_eq!(output.status.code(), Some(3), "{name}: {}", said(&output));
            assert!(said(&output).contains("which this run reads"), "{name}: {}", said(&output));
            assert_eq!(std::fs::read(here(name)).expect("after"), before, "{name}");
        }
    }
    assert_eq!(run(folder.path(), &["sheets", "job.yaml", "-o", "."]).status.code(), Some(3));
}

#[test]
fn a_dash_is_standard_output_and_holds_the_file_alone() {
    let folder = folder(JOB);
    let output = run(folder.path(), &["sheets", "job.yaml", "-o", "-"]);
    assert_eq!(output.status.code(), Some(0), "{}", String::from_utf8_lossy(&output.stderr));
    assert!(lopdf::Document::load_mem(&output.stdout).is_ok_and(|file| file.get_pages().len() >= 2));
    assert!(!folder.path().join("-").exists());
    let json = run(folder.path(), &["sheets", "job.yaml", "--format", "json", "-o", "-"]);
    assert!(serde_json::from_slice::<serde_json::Value>(&json.stdout).is_ok());
}

#[cfg(unix)]
#[test]
fn devices_and_pipes_are_written_to_and_not_replaced() {
    use std::os::unix::fs::FileTypeExt;
    let folder = folder(JOB);
    let output = run(folder.path(), &["sheets", "job.yaml", "-o", "/dev/null"]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert!(std::fs::metadata("/dev/null").expect("device").file_type().is_char_device());
    let full = run(folder.path(), &["sheets", "job.yaml", "-o", "/dev/full"]);
    assert_eq!(full.status.code(), Some(3), "{}", said(&full));
    let pipe = folder.path().join("pipe");
    assert!(Command::new("mkfifo").arg(&pipe).status().expect("mkfifo").success());
    let reader = std::thread::spawn({
        let pipe = pipe.clone();
        move || std::fs::read(pipe).expect("read")
    });
    let output = run(folder.path(), &["sheets", "job.yaml", "-o", "pipe"]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert!(reader.join().expect("reader").starts_with(b"%PDF-1.7"));
    assert!(std::fs::metadata(&pipe).expect("pipe").file_type().is_fifo());
}

#[cfg(unix)]
#[test]
fn a_link_and_a_mode_are_kept() {
    use std::os::unix::fs::PermissionsExt;
    let folder = folder(JOB);
    let here = |name: &str| folder.path().join(name);
    std::fs::create_dir(here("pinned")).expect("folder");
    std::fs::write(here("pinned/sheets.pdf"), "old").expect("old");
    std::fs::set_permissions(here("pinned/sheets.pdf"), std::fs::Permissions::from_mode(0o640)).expect("mode");
    std::os::unix::fs::symlink("pinned/sheets.pdf", here("sheets.pdf")).expect("link");
    assert_eq!(run(folder.path(), &["sheets", "job.yaml", "-o", "sheets.pdf", "--force"]).status.code(), Some(0));
    assert!(std::fs::symlink_metadata(here("sheets.pdf")).expect("link").is_symlink());
    assert!(std::fs::read(here("pinned/sheets.pdf")).expect("pdf").starts_with(b"%PDF-1.7"));
    assert_eq!(std::fs::metadata(here("pinned/sheets.pdf")).expect("pdf").permissions().mode() & 0o777, 0o640);
    assert_eq!(std::fs::read_dir(here("pinned")).expect("folder").count(), 1, "nothing is left beside it");
}

/// Runs with a shell, for what only a shell can take away.
#[cfg(unix)]
fn shell(folder: &Path, line: &str) -> (Option<i32>, String) {
    let line = line.replace("setover", env!("CARGO_BIN_EXE_setover"));
    let output = Command::new("sh").args(["-c", &line]).current_dir(folder).output().expect("runs");
    (output.status.code(), said(&output))
}

#[cfg(target_os = "linux")]
#[test]
fn full_and_closed_outputs_are_met_with_an_exit_code_and_no_panic() {
    let folder = folder(JOB);
    std::fs::write(folder.path().join("bad.yaml"), "job: [").expect("bad");
    for (line, code) in [
        ("setover plan job.yaml > /dev/full", 3),
        ("setover plan job.yaml > /dev/full 2> /dev/full", 3),
        ("setover plan job.yaml --format json > /dev/full", 3),
        ("setover book thread M8 > /dev/full", 3),
        ("setover --help > /dev/full", 3),
        ("setover sheets job.yaml -o - > /dev/full", 3),
        ("setover sheets job.yaml -o x.pdf > /dev/full", 3),
        ("setover plan bad.yaml 2> /dev/full", 2),
        ("setover plan bad.yaml 2>&-", 2),
        ("setover plan bad.yaml >&- 2>&-", 2),
        ("setover plan job.yaml >&- 2>&-", 0),
        ("setover nonsense 2> /dev/full", 2),
        ("setover nonsense 2>&-", 2),
        ("setover sheets job.yaml -o none/x.pdf 2> /dev/full", 3),
        ("setover plan job.yaml | true", 0),
    ] {
        let (got, said) = shell(folder.path(), line);
        assert_eq!(got, Some(code), "{line}: {said}");
        assert!(!said.contains("panicked"), "{line}: {said}");
    }
}

#[test]
fn a_key_of_any_depth_is_read_or_refused_at_its_place() {
    let folder = tempfile::tempdir().expect("folder");
    let dots = |count: usize| format!("a{}=1", ".a".repeat(count));
    for key in [
        dots(3),
        dots(63),
        dots(64),
        dots(40_000),
        format!("{}=1", ".".repeat(40_000)),
        format!("a={}", "[".repeat(40_000)),
        format!("a={}1{}", "{a: ".repeat(20_000), "}".repeat(20_000)),
    ] {
        let output = run(folder.path(), &["try", "face", &key]);
        assert_eq!(output.status.code(), Some(2), "{} signs", key.len());
        assert!(said(&output).contains("argument: "), "{}", said(&output));
        assert!(said(&output).len() < 20_000, "the echo is short");
    }
    assert!(said(&run(folder.path(), &["try", "face", &dots(64)])).contains("nested deeper"));
}

/// Signs that lead a terminal or a reader's eye.
pub const LEADING: &[char] = &[
    '\u{1b}', '\u{7}', '\u{9b}', '\u{85}', '\u{61c}', '\u{200e}', '\u{200f}', '\u{2028}', '\u{2029}', '\u{202a}',
    '\u{202b}', '\u{202c}', '\u{202d}', '\u{202e}', '\u{2066}', '\u{2067}', '\u{2068}', '\u{2069}', '\u{feff}',
    '\u{200b}',
];

/// Every text of a JSON value, names included.
fn all_texts(value: &serde_json::Value, all: &mut Vec<String>) {
    match value {
        serde_json::Value::String(text) => all.push(text.clone()),
        serde_json::Value::Array(items) => items.iter().for_each(|item| all_texts(item, all)),
        serde_json::Value::Object(fields) => fields.iter().for_each(|(name, item)| {
            all.push(name.clone());
            all_texts(item, all);
        }),
        _ => {}
    }
}

#[test]
fn no_sign_that_leads_comes_through_anywhere() {
    // Several at a time: none of them may come through.
    for signs in LEADING.chunks(5) {
        let code: String = signs.iter().map(|sign| format!("\\U{:08X}", u32::from(*sign))).collect();
        let of: Vec<String> = signs.iter().map(|sign| format!("U+{:04X}", u32::from(*sign))).collect();
        let name = |word: &str| format!("\"{word}{code}x{code}\"");
        let job = JOB
            .replace("Worked example, thread-insert", &name("worked"))
            .replace("part: timing chest", &format!("part: {}", name("chest")))
            .replace(
                "material: cast aluminium\n    op",
                &format!("material: cast aluminium\n    note: {}\n    op", name("remark")),
            );
        assert_ne!(job, JOB);
        let folder = folder(&job);
        let shop = SHOP.replace("shop: Example bench", &format!("shop: {}", name("bench")));
        std::fs::write(folder.path().join("shop.yaml"), shop).expect("shop");
        let clean = |output: &Output, what: &str| {
            let said = said(output);
            let stray = said.chars().find(|c| LEADING.contains(c));
            assert_eq!(stray, None, "{of:?} in {what}: {said}");
        };
        let text = run(folder.path(), &["plan", "job.yaml"]);
        assert_eq!(text.status.code(), Some(0), "{of:?}: {}", said(&text));
        clean(&text, "the terminal");
        let json = run(folder.path(), &["plan", "job.yaml", "--format", "json"]);
        clean(&json, "the JSON");
        let mut texts = Vec::new();
        all_texts(&serde_json::from_slice(&json.stdout).expect("json"), &mut texts);
        assert!(texts.iter().all(|text| !text.contains(|c: char| LEADING.contains(&c) || c.is_control())), "{texts:?}");
        let pdf = run(folder.path(), &["sheets", "job.yaml", "-o", "-"]);
        let file = lopdf::Document::load_mem(&pdf.stdout).expect("a PDF");
        let pages: Vec<u32> = file.get_pages().keys().copied().collect();
        let page = file.extract_text(&pages).expect("text");
        assert!(!page.contains(|c: char| LEADING.contains(&c)), "{of:?} in the PDF: {page}");
        // Errors: a key, a value, a name that nobody has, a path, an argument.
        for wrong in [
            job.replace("wall:", &format!("{}:", name("wal"))),
            job.replace("18.0 ± 0.3 mm", &name("18.0")),
            job.replace("M8x1.25", &name("M8")),
            job.replace("lead: bottoming", &format!("lead: {}", name("plug"))),
            job.replace("18.0 ± 0.3 mm", &format!("{{size: 18 mm, with: {}}}", name("rule"))),
            job.replace("18.0 ± 0.3 mm", &format!("{{of: {}}}", name("a/b/c"))),
        ] {
            std::fs::write(folder.path().join("wrong.yaml"), wrong).expect("wrong");
            let output = run(folder.path(), &["plan", "wrong.yaml"]);
            assert_eq!(output.status.code(), Some(2), "{}", said(&output));
            clean(&output, "an error");
        }
        let sign: String = signs.iter().filter(|sign| **sign != '\u{feff}').collect();
        {
            let raw = format!("no{sign}job.yaml");
            clean(&run(folder.path(), &["plan", &raw]), "a path");
            clean(&run(folder.path(), &["sheets", "job.yaml", "-o", &format!("none{sign}/{raw}")]), "an output");
            clean(&run(folder.path(), &["sheets", "job.yaml", "-o", &raw]), "a path written");
            clean(&run(folder.path(), &[&format!("pl{sign}an")]), "a command");
            clean(&run(folder.path(), &["plan", "job.yaml", &format!("--fo{sign}x")]), "an option");
            clean(
                &run(folder.path(), &["try", &format!("fa{sign}ce"), &format!("ke{sign}y=va{sign}lue")]),
                "an argument",
            );
            clean(&run(folder.path(), &["book", "thread", &format!("M{sign}8")]), "the book");
            clean(&run(folder.path(), &["book", &format!("thr{sign}ead"), "M8"]), "a topic");
        }
    }
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
    assert_ne!(operation["verdict"], "fails");
    let note = operation["stamp_note"].as_str().expect("a note");
    assert!(note.contains("no shop: machine, tools not judged"), "{note}");
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
