//! The answer first: what `plan`, `try` and `sheets` say at a terminal, and where they read and write.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::io::Write;
use std::path::Path;
use std::process::{Command, Output, Stdio};

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

fn run(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_setover")).current_dir(folder).args(arguments).output().expect("runs")
}

fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

fn err(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// The demo in JSON: what the list of sheets is held against.
fn demo() -> serde_json::Value {
    serde_json::from_slice(&run(root(), &["plan", "demo/tidewater.yaml", "--format", "json"]).stdout).expect("JSON")
}

#[test]
fn the_list_of_sheets_comes_first_and_counts_what_the_answers_say() {
    let text = out(&run(root(), &["plan", "demo/tidewater.yaml"]));
    assert!(text.starts_with("sheet "), "{text}");
    let demo = demo();
    let mut ids = Vec::new();
    for (at, operation) in demo["operations"].as_array().unwrap().iter().enumerate() {
        let set_ups = operation["set_ups"].as_array().unwrap().len().max(1);
        // Of what fails the JSON keeps the first set-up; the list names them all.
        ids.extend((1..=set_ups).map(|number| format!("{}.{number}", at + 1)));
        let fails = operation["verdict"] == "fails";
        let line = text.lines().find(|line| line.starts_with(&format!("{}.1 ", at + 1))).expect("its line");
        assert_eq!(line.contains("DO NOT "), fails, "{line}");
    }
    for id in ids {
        assert!(text.lines().any(|line| line.starts_with(&format!("{id} "))), "{id}: {text}");
    }
    let counts = text.lines().find(|line| line.contains("set-ups: ")).expect("a line of counts");
    let stamps = |word: &str| {
        text.lines().filter(|line| line.starts_with(|c: char| c.is_ascii_digit()) && line.contains(word)).count()
    };
    assert!(counts.contains(&format!("{} must not be done", stamps(" DO NOT "))), "{counts}");
    assert!(counts.contains(&format!("{} doubtful", stamps(" DOUBTFUL"))), "{counts}");
    assert!(counts.contains(&format!("{} proven", stamps(" PROVEN"))), "{counts}");
    assert!(text.lines().count() < 80, "{} lines", text.lines().count());
    let sheets = err(&run(root(), &["sheets", "demo/tidewater.yaml", "-o", "-"]));
    assert!(sheets.starts_with("sheet ") && sheets.contains(counts), "{sheets}");
}

/// A list is made of titles and names of checks alone; sheets are made of all words, and list the same.
#[test]
fn the_list_of_a_plan_says_what_the_sheets_say() {
    let listed = |text: String| text.split_once("set-ups: ").map(|(lines, _)| lines.to_owned());
    let mut held = 0;
    for (path, _) in crate::common::committed_jobs() {
        let plan = out(&run(root(), &["plan", &path]));
        if path.starts_with("examples") || !plan.starts_with("sheet ") {
            continue;
        }
        let sheets = err(&run(root(), &["sheets", &path, "-o", "-"]));
        assert_eq!(listed(plan), listed(sheets), "{path}");
        held += 1;
    }
    assert!(held > 10, "{held}");
}

#[test]
fn one_operation_is_answered_in_short_and_in_full() {
    let short = out(&run(root(), &["plan", "examples/thread-insert.yaml"]));
    let values = out(&run(root(), &["plan", "examples/thread-insert.yaml", "--values"]));
    let all = out(&run(root(), &["plan", "examples/thread-insert.yaml", "--all"]));
    assert!(short.lines().count() < values.lines().count() && values.lines().count() < all.lines().count());
    assert!(
        short.starts_with("PROVEN: ") && short.contains("insert length") && short.contains("19 proven; closest: "),
        "{short}"
    );
    assert!(!short.contains("drill_point") && !short.contains("To make"), "{short}");
    // What would make a longer insert hold is not asked where the chosen one is proven.
    assert!(!all.contains("What would make"), "{all}");
    assert!(all.contains("Chuck key out") || all.contains("Cautions"), "{all}");
    let failing = out(&run(root(), &["plan", "demo/tidewater.yaml", "--sheet", "1"]));
    assert!(failing.starts_with("FAILS") || failing.starts_with("DO NOT"), "{failing}");
    assert!(failing.contains('→'), "a remedy: {failing}");
    // By sheet, by part and by word the same operation is meant.
    let by_sheet = out(&run(root(), &["plan", "demo/tidewater.yaml", "--sheet", "7.1"]));
    let by_part = out(&run(root(), &["plan", "demo/tidewater.yaml", "--part", "idler thrust collar"]));
    assert_eq!(by_sheet, by_part);
    assert_eq!(by_part, out(&run(root(), &["plan", "demo/tidewater.yaml", "--operation", "face"])));
    let none = run(root(), &["plan", "demo/tidewater.yaml", "--part", "idler thrust color"]);
    assert_eq!(none.status.code(), Some(2));
    assert!(err(&none).contains("did you mean `idler thrust collar`?"), "{}", err(&none));
}

/// The page of a day or of decisions goes through a pipe as sheets do: its text gives way to standard error, and no file is named `-`.
#[test]
fn a_page_beside_a_text_goes_through_a_pipe_alone() {
    let jobs = ["demo/one-day/found.yaml", "demo/one-day/cuts.yaml", "demo/one-day/float.yaml"];
    for (command, text) in [("day", "hands"), ("decide", "layshaft")] {
        let of = |rest: &[&str]| {
            let words: Vec<&str> = std::iter::once(command).chain(jobs).chain(rest.iter().copied()).collect();
            run(root(), &words)
        };
        let output = of(&["-o", "-"]);
        assert!(output.stdout.starts_with(b"%PDF-1.7"), "{command}");
        assert!(err(&output).to_lowercase().contains(text), "{command}: {}", err(&output));
        assert!(!root().join("-").exists(), "{command}");
        let both = of(&["-o", "-", "--format", "html"]);
        assert_eq!(both.status.code(), Some(2), "{command}");
        assert!(both.stdout.is_empty() && err(&both).contains("-o -"), "{command}: {}", err(&both));
    }
}

#[test]
fn a_job_comes_from_standard_input_and_a_pdf_goes_to_standard_output() {
    let job = std::fs::read_to_string(root().join("examples/face.yaml")).unwrap();
    let job = job.replace("shop: shop.yaml", "shop: examples/shop.yaml");
    let piped = |arguments: &[&str], job: &str| {
        let mut child = Command::new(env!("CARGO_BIN_EXE_setover"))
            .current_dir(root())
            .args(arguments)
            .stdin(Stdio::piped())
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("runs");
        child.stdin.take().unwrap().write_all(job.as_bytes()).expect("written");
        child.wait_with_output().expect("ends")
    };
    assert_eq!(out(&piped(&["plan", "-"], &job)), out(&run(root(), &["plan", "examples/face.yaml"])));
    assert!(piped(&["sheets", "-"], &job).stdout.starts_with(b"%PDF-1.7"));
    let wrong = piped(&["plan", "-"], &job.replace("length:", "lenght:"));
    assert!(err(&wrong).starts_with("standard input, line "), "{}", err(&wrong));
    assert!(err(&wrong).contains("nothing was worked out"), "{}", err(&wrong));
}

#[test]
fn sheets_stand_beside_the_job_and_take_nothing_else_away() {
    let folder = tempfile::tempdir().unwrap();
    for file in ["face.yaml", "shop.yaml"] {
        std::fs::copy(root().join("examples").join(file), folder.path().join(file)).unwrap();
    }
    let pdf = folder.path().join("face.pdf");
    let code = |arguments: &[&str]| run(folder.path(), arguments).status.code();
    for _ in 0..2 {
        assert_eq!(code(&["sheets", "face.yaml"]), Some(0), "what was written here is written again");
    }
    assert!(std::fs::read(&pdf).unwrap().starts_with(b"%PDF"));
    std::fs::write(&pdf, "a letter").unwrap();
    assert_eq!(code(&["sheets", "face.yaml"]), Some(3));
    assert_eq!(std::fs::read(&pdf).unwrap(), b"a letter");
    assert_eq!(code(&["sheets", "face.yaml", "--force"]), Some(0));
    for format in ["text", "json"] {
        let name = format!("face.{}", if format == "text" { "txt" } else { "json" });
        for _ in 0..2 {
            assert_eq!(code(&["sheets", "face.yaml", "--format", format]), Some(0), "{name}");
        }
        assert!(folder.path().join(name).is_file());
    }
    // A job by the name of another ending is never taken for the file to write.
    std::fs::copy(folder.path().join("face.yaml"), folder.path().join("job.pdf")).unwrap();
    assert_eq!(code(&["sheets", "job.pdf"]), Some(3));
}

#[test]
fn what_is_no_command_is_told_with_those_that_there_are() {
    let output = run(root(), &["plann", "x"]);
    assert_eq!(output.status.code(), Some(2));
    let said = err(&output);
    assert!(said.starts_with("there is no command `plann`; did you mean `plan`? there are plan, sheets, "), "{said}");
}

#[test]
fn a_program_gets_problems_as_json() {
    for arguments in [
        &["plan", "tests/none.yaml", "--format", "json"][..],
        &["try", "face", "x", "--format=json"],
        &["foo", "--format", "json"],
    ] {
        let output = run(root(), arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
        assert!(!json["problems"][0]["says"].as_str().unwrap().is_empty(), "{json}");
        assert!(json["schema"].is_number() && output.stderr.is_empty(), "{json}");
    }
    let output = run(root(), &["plan", "examples/face.yaml", "--shop", "examples/skim.yaml", "--format", "json"]);
    let json: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
    let problem = &json["problems"][0];
    assert!(
        problem["file"] == "examples/skim.yaml" && problem["line"].is_u64() && problem["column"].is_u64(),
        "{json}"
    );
}

#[test]
fn colour_is_for_terminals_and_for_who_asks() {
    let plan = |more: &[&str], no_colour: bool| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_setover"));
        command.current_dir(root()).args(["plan", "examples/face.yaml"]).args(more).env_remove("NO_COLOR");
        if no_colour {
            command.env("NO_COLOR", "1");
        }
        out(&command.output().expect("runs"))
    };
    let plain = plan(&[], false);
    assert!(!plain.contains('\u{1b}'), "a pipe");
    assert!(!plan(&[], true).contains('\u{1b}') && !plan(&["--colour", "never"], false).contains('\u{1b}'));
    for option in ["--colour", "--color"] {
        let weighed = plan(&[option, "always"], false);
        assert!(weighed.contains("\u{1b}[1mPROVEN\u{1b}[0m"), "{weighed}");
        assert_eq!(weighed.replace("\u{1b}[1m", "").replace("\u{1b}[0m", ""), plain, "nothing rests on it");
    }
}

/// What is let go of after a job is worked is nothing that a page still asks: the pages of the program are those of the library,
/// which keeps all.
#[test]
fn the_pages_of_the_program_are_those_of_the_library() {
    use setover::sheet::layout::{Working, pdf_with};
    let job = std::fs::read_to_string(root().join("demo/tidewater.yaml")).unwrap();
    let shop = crate::common::shop(&std::fs::read_to_string(root().join("demo/shop.yaml")).unwrap());
    let plan = crate::common::try_plan(&job, Some(&shop)).expect("plan");
    let of_library = pdf_with(&[plan], Working::All).expect("pages");
    let of_program = run(root(), &["sheets", "demo/tidewater.yaml", "-o", "-", "--working"]).stdout;
    assert!(
        of_program.len() > 10_000 && of_program == of_library,
        "{} and {} bytes",
        of_program.len(),
        of_library.len()
    );
    let text = lopdf::Document::load_mem(&of_program).unwrap().extract_text(&[1]).unwrap();
    let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(text.contains("would prove it as asked"), "{text}");
}
