//! Every formula is reached by a command: a figure that only tests ask for is a promise that nobody keeps.
//!
//! The sources are read as a graph of names. Reached is what `cli/` holds, what stands outside of functions, what implements a
//! trait (the compiler calls it), and from there every function whose name a reached body calls.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, clippy::indexing_slicing)]

use crate::common::rust_files;
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// The code without tests, comments and what stands between quotes.
fn code(text: &str) -> String {
    let tests = text.match_indices("#[cfg(test)]\nmod ").map(|(at, _)| at);
    let inline = tests.filter(|at| text[*at..].lines().nth(1).is_some_and(|line| line.ends_with('{'))).min();
    let mut out = String::new();
    let mut chars = text[..inline.unwrap_or(text.len())].chars().peekable();
    while let Some(c) = chars.next() {
        match c {
            '/' if chars.peek() == Some(&'/') => {
                while chars.peek().is_some_and(|c| *c != '\n') {
                    chars.next();
                }
            }
            // A brace or a quote as a character is none of the code's.
            '\'' if matches!(chars.peek(), Some('{' | '}' | '"' | '(')) => {
                chars.next();
                chars.next();
            }
            '"' => {
                while let Some(inner) = chars.next() {
                    match inner {
                        '\\' => {
                            chars.next();
                        }
                        '"' => break,
                        _ => {}
                    }
                }
                out.push_str("\"\"");
            }
            c => out.push(c),
        }
    }
    out
}

/// Where the brace that opens at or after a place closes.
fn closes(code: &str, from: usize) -> Option<(usize, usize)> {
    let open = from + code[from..].find('{')?;
    let mut depth = 0_i32;
    for (at, c) in code[open..].char_indices() {
        depth += i32::from(c == '{') - i32::from(c == '}');
        if depth == 0 {
            return Some((open, open + at + 1));
        }
    }
    None
}

/// The spans of what starts with a word at the beginning of a line.
fn blocks<'a>(code: &'a str, word: &'a str) -> impl Iterator<Item = (usize, usize)> + 'a {
    let starts = code.match_indices(word).map(|(at, _)| at).filter(|at| *at == 0 || code[..*at].ends_with('\n'));
    starts.filter_map(|at| closes(code, at).map(|(_, end)| (at, end)))
}

fn word_at(text: &str) -> String {
    text.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect()
}

/// The names that a piece of code calls, or hands on by their path.
fn called(code: &str) -> BTreeSet<String> {
    let mut all = BTreeSet::new();
    let mut word = String::new();
    let (mut before, mut path) = (' ', false);
    for c in code.chars().chain([' ']) {
        if c.is_alphanumeric() || c == '_' {
            if word.is_empty() {
                path = before == ':';
            }
            word.push(c);
            continue;
        }
        if !word.is_empty() && (path || matches!(c, '(' | ')' | ',' | ':')) {
            all.insert(std::mem::take(&mut word));
        }
        word.clear();
        before = c;
    }
    all
}

#[derive(Default)]
struct Graph {
    /// What a function of a name calls; several of one name are one.
    calls: BTreeMap<String, BTreeSet<String>>,
    roots: BTreeSet<String>,
    formulas: BTreeSet<String>,
}

impl Graph {
    fn read(&mut self, text: &str, is_command: bool) {
        let code = code(text);
        let traits: Vec<_> =
            blocks(&code, "impl").filter(|(a, _)| code[*a..].split('{').next().unwrap().contains(" for ")).collect();
        let formulas: Vec<_> = blocks(&code, "formula! {").collect();
        for (from, to) in &formulas {
            let inner = code[from + "formula! {".len()..*to].trim_start();
            let name = inner.lines().find(|line| !line.trim_start().starts_with('#')).unwrap();
            self.formulas.insert(word_at(name.trim_start()));
        }
        let mut outside = code.clone();
        for (from, _) in code.match_indices("fn ") {
            let name = word_at(&code[from + 3..]);
            let in_formula = formulas.iter().any(|span| span.0 <= from && from < span.1);
            let signature_ends = code[from..].find(['{', ';']).map(|at| from + at);
            let has_body = signature_ends.is_some_and(|at| code[at..].starts_with('{'));
            if name.is_empty() || in_formula || !has_body {
                continue;
            }
            let Some((open, end)) = closes(&code, from) else { continue };
            let calls = called(&code[open..end]);
            if is_command || traits.iter().any(|span| span.0 <= from && from < span.1) {
                self.roots.extend(calls.iter().cloned());
            }
            self.calls.entry(name).or_default().extend(calls);
            outside.replace_range(from..end, &" ".repeat(end - from));
        }
        for (from, to) in formulas {
            outside.replace_range(from..to, &" ".repeat(to - from));
        }
        // What is brought in is not yet called.
        let outside: String = outside.split_inclusive(';').filter(|part| !part.contains("use ")).collect();
        self.roots.extend(called(&outside));
    }

    fn unreached(&self) -> Vec<&String> {
        let reached = self.from(&self.roots);
        self.formulas.iter().filter(|name| !reached.contains(*name)).collect()
    }

    /// Every name that is called from some, and from what they call.
    fn from(&self, some: &BTreeSet<String>) -> BTreeSet<String> {
        let mut reached = some.clone();
        let mut next: Vec<String> = reached.iter().cloned().collect();
        while let Some(name) = next.pop() {
            for callee in self.calls.get(&name).into_iter().flatten() {
                if reached.insert(callee.clone()) {
                    next.push(callee.clone());
                }
            }
        }
        reached
    }
}

#[test]
fn every_formula_is_reached_by_a_command() {
    let mut graph = Graph::default();
    for path in rust_files(Path::new("src")) {
        graph.read(&std::fs::read_to_string(&path).unwrap(), path.starts_with("src/cli"));
    }
    assert!(graph.formulas.len() > 200, "{}", graph.formulas.len());
    let unreached = graph.unreached();
    assert!(
        unreached.is_empty(),
        "no command asks for {} of {}: {unreached:#?}",
        unreached.len(),
        graph.formulas.len()
    );
}

#[test]
fn a_formula_that_only_a_dead_function_or_a_test_calls_is_found() {
    let mut graph = Graph::default();
    graph.read("pub fn run() { page(lone::alive(\"{\")) }\n", true);
    graph.read(
        "formula! {\n    alive(a: Mm) -> b: Mm { a }\n}\nformula! {\n    dead(a: Mm) -> b: Mm { a }\n}\n\
         formula! {\n    tested(a: Mm) -> b: Mm { a }\n}\nformula! {\n    shown(a: Mm) -> b: Mm { a }\n}\n\
         pub fn nobody_calls() { dead(1) }\nimpl Display for X {\n    fn fmt(&self) { shown(2) }\n}\n\
         #[cfg(test)]\nmod tests {\n    fn held() { tested(3); nobody_calls() }\n}\n",
        false,
    );
    assert_eq!(graph.formulas.len(), 4);
    assert_eq!(graph.unreached(), ["dead", "tested"]);
}
