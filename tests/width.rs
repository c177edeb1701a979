//! Nothing that is written for a person runs over the width of the terminal, from the narrowest on.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use std::path::Path;
use std::process::Command;

/// What is asked, each with words that its answer holds at any width.
const ASKED: &[(&[&str], &str)] = &[
    (&["--help"], "Commands:"),
    (&["plan", "--help"], "Examples:"),
    (&["try", "--help"], "Examples:"),
    (&["book", "--help"], "Examples:"),
    (&["operations"], "thread-insert"),
    (&["keys"], "shop"),
    (&["keys", "shop"], "feeds-along"),
    (&["keys", "turn"], "overhang"),
    (&["plan", "demo/tidewater.yaml"], "DO NOT CUT"),
    (&["plan", "demo/tidewater.yaml", "--all"], "Checks"),
    (&["plan", "examples/face.yaml", "--all", "--values"], "spindle_speed"),
    (&["why", "examples/face.yaml"], "spindle_speed"),
    (&["why", "examples/face.yaml", "spindle_speed"], "rev/min"),
    (&["day", "demo/tidewater.yaml"], "hands"),
    (&["decide", "demo/tidewater.yaml"], "features"),
    (&["book"], "which-thread"),
    (&["book", "materials"], "Phosphor bronze"),
    (&["book", "thread", "1/4-20", "--all"], "minor_diameter"),
    (&["book", "insert", "M8"], "hole_major_min"),
    (&["book", "fit", "25 H7/p6"], "hole_min"),
    (&["book", "material", "EN8"], "tensile_strength"),
    (&["book", "sources"], "sources"),
    (&["book", "which-thread", "diameter=6.33 ± 0.02 mm", "pitch=26 tpi"], "1/4 BSF"),
    (&["book", "speed", "material=EN8", "work=turn-finish", "tool=HSS", "diameter=38 mm"], "surface_speed"),
    (&["plan", "examples/shop.yaml"], "this is a shop file"),
    (&["try", "thread-insert", "thread=M8"], "is missing"),
    (&["ploan"], "there is no command"),
    (
        &[
            "try",
            "thread-insert",
            "thread=M8",
            "wall=18.0 ± 0.3 mm",
            "hole=blind",
            "part.material=cast aluminium",
            "--over",
            "wall=12 mm to 30 mm",
        ],
        "thread-insert",
    ),
];

fn said(columns: usize, arguments: &[&str]) -> String {
    let output = Command::new(env!("CARGO_BIN_EXE_setover"))
        .current_dir(Path::new(env!("CARGO_MANIFEST_DIR")))
        .env("COLUMNS", columns.to_string())
        .args(arguments)
        .output()
        .expect("runs");
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

#[test]
fn no_line_runs_over_the_terminal_at_any_width() {
    for columns in [60, 80, 132] {
        for (arguments, holds) in ASKED {
            let text = said(columns, arguments);
            assert!(text.contains(holds), "{arguments:?} at {columns}: {text}");
            let over = |line: &&str| line.chars().count() > columns && line.trim().contains(' ');
            let over: Vec<&str> = text.lines().filter(over).collect();
            assert!(over.is_empty(), "{arguments:?} at {columns}: {over:#?}");
        }
    }
}

/// A wide table is broken within its columns: each row still begins with its sheet, and its verdict stands in the one column.
#[test]
fn the_table_of_sheets_stays_a_table_on_a_narrow_terminal() {
    let text = said(60, &["plan", "demo/tidewater.yaml"]);
    let rows: Vec<&str> = text.lines().filter(|line| line.starts_with(|c: char| c.is_ascii_digit())).collect();
    let verdicts = ["PROVEN", "DOUBTFUL", "DO NOT CUT", "DO NOT FIT"];
    let columns: Vec<usize> =
        rows.iter().filter_map(|row| verdicts.iter().find_map(|verdict| row.find(verdict))).collect();
    assert!(columns.len() > 15, "{text}");
    assert!(columns.iter().all(|column| *column == columns[0]), "{columns:?}: {text}");
}

/// What a program reads is never broken.
#[test]
fn json_is_the_same_at_any_width() {
    for arguments in [&["plan", "examples/face.yaml", "--format", "json"][..], &["book", "sources", "--format", "json"]]
    {
        assert_eq!(said(60, arguments), said(200, arguments));
    }
    let pages = ["--format", "html"];
    assert_eq!(
        said(60, &[&["decide", "demo/tidewater.yaml"][..], &pages].concat()),
        said(200, &[&["decide", "demo/tidewater.yaml"][..], &pages].concat())
    );
}
