//! The questions that a rebuilder asks: every command of `docs/twenty-questions.md` is run, and every line quoted there comes out.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::shell_words;
use std::process::Command;

/// A question with its command and the lines quoted.
struct Question {
    title: String,
    command: String,
    quoted: Vec<String>,
}

fn questions(text: &str) -> Vec<Question> {
    let mut all = Vec::new();
    for piece in text.split("\n### ").skip(1) {
        let (title, rest) = piece.split_once('\n').expect("a title");
        let block = rest.split("```console\n").nth(1).and_then(|b| b.split("\n```").next()).expect("a console block");
        let mut lines = block.lines();
        let command = lines.next().and_then(|l| l.strip_prefix("$ setover ")).expect("a command").to_owned();
        all.push(Question { title: title.to_owned(), command, quoted: lines.map(str::to_owned).collect() });
    }
    all
}

#[test]
fn every_answer_is_what_the_book_says() {
    let text = std::fs::read_to_string("docs/twenty-questions.md").expect("document");
    let all = questions(&text);
    let mut wrong = Vec::new();
    for question in &all {
        let output =
            Command::new(env!("CARGO_BIN_EXE_setover")).args(shell_words(&question.command)).output().expect("runs");
        assert_eq!(output.status.code(), Some(0), "{}", question.title);
        let said = String::from_utf8_lossy(&output.stdout).into_owned();
        assert!(!question.quoted.is_empty(), "{}", question.title);
        for line in &question.quoted {
            if !said.lines().any(|printed| printed == line) {
                wrong.push(format!("{}\n  {line}", question.title));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn there_are_twenty_of_each_half() {
    let text = std::fs::read_to_string("docs/twenty-questions.md").expect("document");
    let halves: Vec<usize> = text.split("\n## ").skip(1).map(|half| questions(half).len()).collect();
    assert_eq!(halves, [20, 20]);
}
