//! Words in one place: no sentence stands in the arithmetic, and every minute is a row.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::{between_quotes, rust_files};
use setover::operations::{Card, Request};
use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

/// What may hold words in Rust, as it stands before them in their statement: what stops the reading of a job, the meaning of a
/// value or key, the reason that a figure's origin keeps, the name of a row.
const MAY_SAY: &[&str] = &[
    // Exit 2: what cannot be read, and the Display of an error.
    "Problem::new(",
    "Problem::of_sizes(",
    "problem(",
    "above_zero(",
    "none = |key",
    "custom(",
    "Err(",
    "amount.parse().map_err(",
    "write!(",
    "#[error(",
    "format!(\"the grip is longer",
    // Refusals: what is missing, under which key, in which table.
    "NotGiven",
    "NoRow",
    "Unread",
    // Why the lowest step was taken: the origin of a figure.
    "lowest_step(piece,",
    "Gauge::",
    "CheckRule::",
    // Values, their meaning; the schema of a key.
    "Name::new(",
    " = new(",
    " = lower(",
    " = upper(",
    "json_schema!(",
    ": Name<",
    " = \"",
    "not_checked(",
    "missing.extend(",
    "[\"indicator\",",
    ": &str =",
    "\"description\":",
    "answer.read",
    // Origins.
    "Source::fixed(",
    "Worked::",
    "Origin::",
    "nominal(",
    "scaled(",
    "shifted(",
    "at_least(",
    "at_most(",
    "Cause::Named(",
    "Cause::Set(",
    "says =",
    "rule =",
    "rule:",
    "reason =",
    "lines =",
    "no_factor(",
    "picked(",
    "counted(",
    "Side::High =>",
    "Side::Low =>",
    "FloatWay::",
    "vec![",
    "none(",
    "same(metal,",
    "bare =",
    "within_band",
    // Rows by their name.
    "set_up_minutes::start(",
    "self.minutes(",
    // What a person never sees.
    "assert",
    "expect(",
];

/// Words that still wait for a home: readings of dials and labels of sketches, until both are data.
const WAITING: &[&str] = &[
    "1 turn and ",
    "turns and ",
    " div",
    "set to {}",
    "the same setting again",
    "stop {} from its zero",
    "to depth",
    "cross slide",
    "top slide",
    "table, long",
    "table, cross",
];

/// The string literals of a text, each with its line and what stands before it in its statement.
fn literals(text: &str) -> Vec<(usize, String, String)> {
    let code: Vec<char> = text.split("#[cfg(test)]\nmod tests").next().unwrap_or(text).chars().collect();
    let (mut all, mut at, mut line, mut before) = (Vec::new(), 0, 1, String::new());
    while let Some(c) = code.get(at).copied() {
        match c {
            '/' if code.get(at + 1) == Some(&'/') => {
                while code.get(at).is_some_and(|c| *c != '\n') {
                    at += 1;
                }
                continue;
            }
            '\'' if code.get(at + 2) == Some(&'\'') => at += 2,
            '"' => {
                let (from, mut literal) = (line, String::new());
                at += 1;
                while let Some(c) = code.get(at).copied().filter(|c| *c != '"') {
                    if c == '\\' {
                        at += 1;
                    }
                    line += usize::from(code.get(at) == Some(&'\n'));
                    literal.push(code[at]);
                    at += 1;
                }
                all.push((from, literal.clone(), before.clone()));
                before += &format!("\"{literal}\"");
            }
            ';' | '}' => before.clear(),
            '{' if !before.trim_end().ends_with("NotGiven") && !before.trim_end().ends_with("NoRow") => before.clear(),
            _ => before.push(c),
        }
        line += usize::from(c == '\n');
        at += 1;
    }
    all
}

/// Whether a literal is words: two of them, or one beside a blank.
fn is_words(literal: &str) -> bool {
    let mut bare = String::new();
    let mut deep = 0_usize;
    for c in literal.chars() {
        match c {
            '{' => deep += 1,
            '}' => deep = deep.saturating_sub(1),
            c if deep == 0 => bare.push(c),
            _ => {}
        }
    }
    let is_word = |w: &&str| w.chars().filter(|c| c.is_alphabetic()).count() >= 3;
    bare.contains(' ') && bare.split(' ').any(|w| is_word(&w))
}

fn may_say(before: &str) -> bool {
    let before = before.split_whitespace().collect::<Vec<_>>().join(" ");
    MAY_SAY.iter().any(|head| before.contains(head))
}

/// Files of the two rooms whose words belong into cards; cases of tests and sketches (their labels become data) aside.
fn files() -> Vec<PathBuf> {
    let all = ["src/operations", "src/shop"].map(|folder| rust_files(Path::new(folder))).concat();
    all.into_iter().filter(|path| !path.to_string_lossy().contains("/cases/") && !path.ends_with("sketch.rs")).collect()
}

#[test]
fn no_sentence_stands_in_operations() {
    let mut wrong = Vec::new();
    let rows = ["shared/set-up-minutes.csv", "shared/materials.csv", "shared/material-aliases.csv"];
    let rows = rows.map(|path| std::fs::read_to_string(path).expect("rows")).concat();
    for path in files() {
        let text = std::fs::read_to_string(&path).expect("text");
        for (line, literal, before) in literals(&text) {
            let may = may_say(&before)
                || rows.contains(&format!("\n\"{literal}\","))
                || rows.contains(&format!("\n{literal},"))
                || rows.contains(&format!(",{literal},"));
            let may = may || WAITING.iter().any(|w| literal.contains(w));
            if is_words(&literal) && !may {
                wrong.push(format!("{}:{line}: {literal:?} after {:?}", path.display(), before.trim()));
            }
        }
    }
    assert!(wrong.is_empty(), "words belong into a card:\n{}", wrong.join("\n"));
}

#[test]
fn the_reader_of_literals_finds_a_sentence() {
    let found = |code: &str| {
        let all = literals(code);
        all.iter().any(|(_, literal, before)| is_words(literal) && !may_say(before))
    };
    assert!(found("fn a() { step.with(\"tool\", \"drill it by hand\") }"));
    assert!(found("let tool = format!(\"drill {}\", size);"));
    assert!(found("Self::Jaws => \"three-jaw chuck\","));
    assert!(!found("Problem::new(place, \"`wear` must be above zero\")"));
    assert!(!found("x.nominal(\"the middle is enough\")"));
    assert!(!found("// a remark \"of words\"\nlet a = \"id\";"));
    assert!(!found("format!(\"{} mm\", a)"));
}

/// A minute that is a number in the code has no row that a shop could correct.
#[test]
fn every_minute_of_a_set_up_is_a_row_or_a_formula() {
    let mut wrong = Vec::new();
    let mut seen = 0;
    for path in rust_files(Path::new("src/operations")) {
        let text = std::fs::read_to_string(&path).expect("text");
        for (at, line) in text.lines().enumerate() {
            let given =
                ["set_up.takes(", "set_up.tail", "set_up.rest", "minutes:", "let minutes = self", "let each = self"];
            if !given.iter().any(|name| line.trim().starts_with(name)) {
                continue;
            }
            seen += 1;
            let number = |word: &str| word.parse::<f64>().is_ok_and(|number| number != 0.0);
            if line.split(|c: char| !(c.is_alphanumeric() || c == '.' || c == '_')).any(number) {
                wrong.push(format!("{}:{}: {line}", path.display(), at + 1));
            }
        }
    }
    assert!(seen > 8, "only {seen} minutes are given");
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// A name that the code asks of a card stands in one, and a common text is asked for.
#[test]
fn every_common_word_is_used_and_every_name_has_words() {
    let code: String =
        rust_files(Path::new("src")).iter().map(|path| std::fs::read_to_string(path).expect("text")).collect();
    let quoted = between_quotes(&code);
    let common = Card::read(&std::fs::read_to_string("ops/common.yaml").expect("card"), 0).expect("a card that reads");
    let own =
        Request::WORDS.iter().map(|word| Card::read(Request::built_in_card(word).expect("card"), 0).expect("card"));
    let own: Vec<Card> = own.collect();
    let safety = std::fs::read_to_string("shared/materials.csv").expect("materials");
    for (card, texts) in std::iter::once(&common).chain(&own).map(|card| (&card.operation, &card.names)) {
        texts.keys().for_each(|key| assert!(quoted.contains(&**key), "{card}: nothing uses `{key}`"));
    }
    let sections = [&common.steps, &common.hold, &common.remedies, &common.reasons, &common.assumed, &common.missing];
    let keys = sections.iter().flat_map(|texts| texts.keys()).chain(common.checks.keys());
    for key in keys {
        assert!(quoted.contains(&**key) || safety.contains(&**key), "nothing uses the common `{key}`");
    }
    let names: BTreeSet<&str> =
        std::iter::once(&common).chain(&own).flat_map(|card| card.names.keys()).map(|key| &**key).collect();
    for piece in code.split("Fact::named(\"").skip(1) {
        let id = piece.split('"').next().unwrap_or_default();
        assert!(names.contains(id), "no card has the name `{id}`");
    }
}

/// Two lines of a sheet, in letters.
const TWO_LINES: usize = 172;

/// A step says one thing, in one line or two: at the machine nobody reads a paragraph.
#[test]
fn a_step_takes_two_lines_at_most() {
    let mut long = Vec::new();
    for path in std::fs::read_dir("ops").expect("cards").map(|entry| entry.expect("entry").path()) {
        let card = Card::read(&std::fs::read_to_string(&path).expect("text"), 0).expect("a card that reads");
        let over = card.steps.iter().filter(|(_, text)| text.chars().count() > TWO_LINES);
        long.extend(over.map(|(id, text)| format!("{path:?} {id}: {}", text.chars().count())));
    }
    assert_eq!(long, Vec::<String>::new());
}
