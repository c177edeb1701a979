//! What a terminal gets: verdicts in weight, no page of a printer, lines as wide as the terminal says it is.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use nix::pty::{Winsize, openpty};
use std::fs::File;
use std::io::Read;
use std::path::Path;
use std::process::{Command, Stdio};

/// What a command says to a terminal of so many columns, what it says beside, and its exit code.
fn said(folder: &Path, words: &[&str], columns: u16, more: &[(&str, &str)]) -> (String, String, Option<i32>) {
    let size = Winsize { ws_row: 40, ws_col: columns, ws_xpixel: 0, ws_ypixel: 0 };
    let terminal = openpty(Some(&size), None).expect("a terminal");
    let mut command = Command::new(env!("CARGO_BIN_EXE_setover"));
    command.current_dir(folder).args(words).stdin(Stdio::null());
    // What runs the tests may say of itself that it runs them (`CI`): colour is then taken to be wanted whatever the terminal is.
    for name in ["NO_COLOR", "COLUMNS", "CLICOLOR", "CLICOLOR_FORCE", "CI"] {
        command.env_remove(name);
    }
    command.env("TERM", "xterm-256color").envs(more.iter().copied());
    command.stdout(Stdio::from(terminal.slave)).stderr(Stdio::piped());
    let child = command.spawn().expect("runs");
    // Of the ends for writing the child has the last one: what it wrote ends with it.
    drop(command);
    let mut out = Vec::new();
    let mut from = File::from(terminal.master);
    let mut some = [0; 4096];
    // A terminal whose last writer is gone gives an error, and no end.
    while let Ok(count @ 1..) = from.read(&mut some) {
        out.extend_from_slice(&some[..count]);
    }
    let ended = child.wait_with_output().expect("ends");
    let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).replace("\r\n", "\n");
    (text(&out), text(&ended.stderr), ended.status.code())
}

fn root() -> &'static Path {
    Path::new(env!("CARGO_MANIFEST_DIR"))
}

/// A text without what gives it weight.
fn plain(text: &str) -> String {
    let mut parts = text.split('\u{1b}');
    let first = parts.next().unwrap_or_default().to_owned();
    parts.fold(first, |out, part| out + part.split_once('m').map_or("", |(_, rest)| rest))
}

#[test]
fn a_pdf_is_not_written_to_a_terminal() {
    for words in [
        &["sheets", "examples/face.yaml", "-o", "-"][..],
        &["sheets", "examples/face.yaml", "-o", "-", "--working"],
        &["day", "examples/face.yaml", "-o", "-"],
    ] {
        let (out, beside, code) = said(root(), words, 100, &[]);
        assert_eq!(code, Some(2), "{words:?}: {out}: {beside}");
        assert!(!out.contains("%PDF") && out.trim().is_empty(), "{words:?}: {out}");
        assert!(
            beside.contains("a PDF is nothing that a terminal shows: name its file with -o FILE.pdf"),
            "{words:?}: {beside}"
        );
    }
    // What a terminal shows is shown.
    let (out, beside, code) = said(root(), &["sheets", "examples/face.yaml", "-o", "-", "--format", "text"], 100, &[]);
    assert_eq!(code, Some(0), "{beside}");
    assert!(out.contains("distance piece/face"), "{out}: {beside}");
}

#[test]
fn verdicts_have_weight_on_a_terminal_and_none_where_it_is_not_wanted() {
    let words = ["plan", "examples/face.yaml"];
    let (out, _, code) = said(root(), &words, 100, &[]);
    assert_eq!(code, Some(0));
    assert!(out.contains("\u{1b}[1mPROVEN\u{1b}[0m"), "{out}");
    for (words, more) in [
        (&words[..], &[("NO_COLOR", "1")][..]),
        (&["plan", "examples/face.yaml", "--colour", "never"], &[]),
        (&["plan", "examples/face.yaml", "--color", "never"], &[]),
        (&words, &[("TERM", "dumb")]),
    ] {
        let (bare, _, _) = said(root(), words, 100, more);
        assert!(!bare.contains('\u{1b}'), "{words:?} {more:?}: {bare}");
        assert_eq!(plain(&out), bare, "{words:?} {more:?}");
    }
}

/// The page is as wide as the terminal, and what gives a verdict its weight takes no room in a line.
#[test]
fn a_page_is_as_wide_as_the_terminal() {
    for columns in [60, 80, 100, 132, 200] {
        for words in [
            &["plan", "demo/tidewater.yaml"][..],
            &["plan", "demo/tidewater.yaml", "--sheet", "1", "--all"],
            &["decide", "demo/tidewater.yaml"],
            &["day", "demo/tidewater.yaml"],
            &["keys", "turn"],
            &["book", "thread", "M8"],
        ] {
            let (out, beside, _) = said(root(), words, columns, &[]);
            let (other, _, _) = said(root(), words, columns, &[("NO_COLOR", "1")]);
            assert_eq!(plain(&out), other, "{words:?} at {columns}");
            let over = |line: &&str| line.chars().count() > usize::from(columns) && line.trim().contains(' ');
            let over: Vec<&str> = other.lines().filter(over).collect();
            assert!(over.is_empty(), "{words:?} at {columns}: {over:#?} {beside}");
        }
    }
    let lines =
        |columns| said(root(), &["plan", "demo/tidewater.yaml", "--sheet", "1"], columns, &[]).0.lines().count();
    assert!(lines(60) > lines(100) && lines(100) >= lines(200), "{} {} {}", lines(60), lines(100), lines(200));
}
