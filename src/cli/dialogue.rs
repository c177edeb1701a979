//! Questions and answers, a line each: at a terminal, over a pipe, over a slow line alike.

use super::Stop;
use super::say::{page, tell_page};
use crate::reading::harmless;
use std::io::BufRead;

/// Answers from standard input, questions to standard output.
pub(super) struct Dialogue<'a> {
    answers: std::io::StdinLock<'a>,
    /// Whether standard output is wanted for something else.
    aside: bool,
    /// Whether somebody ended the questions, or no more answers come.
    ended: bool,
}

/// What came back.
pub(super) enum Reply {
    /// An answer.
    Given(String),
    /// An empty line: skipped.
    Skipped,
    /// No more is coming.
    Ended,
}

/// The word that ends the questions.
const STOP: &str = "stop";

impl Dialogue<'_> {
    pub(super) fn new() -> Self {
        Self { answers: std::io::stdin().lock(), aside: false, ended: false }
    }

    /// The same with the questions on standard error.
    pub(super) fn aside() -> Self {
        Self { aside: true, ..Self::new() }
    }

    /// A text where the questions stand.
    pub(super) fn show(&self, text: &str) -> Result<(), Stop> {
        if self.aside {
            tell_page(text.strip_suffix('\n').unwrap_or(text));
            return Ok(());
        }
        page(text)
    }

    /// Says a line.
    pub(super) fn say(&self, line: &str) -> Result<(), Stop> {
        let (gap, line) = apart(line);
        self.show(&format!("{gap}{}\n", harmless(line)))
    }

    /// Says a message as a sentence of its own.
    pub(super) fn say_sentence(&self, says: &str) -> Result<(), Stop> {
        let mut signs = says.chars();
        let first = signs.next().map(|c| c.to_uppercase().to_string()).unwrap_or_default();
        self.say(&format!("{first}{}", signs.as_str()))
    }

    /// Asks; the hint stands in brackets behind the question.
    pub(super) fn ask(&mut self, question: &str, hint: &str) -> Result<Reply, Stop> {
        if self.ended {
            return Ok(Reply::Ended);
        }
        let hint = if hint.is_empty() { String::new() } else { format!(" [{hint}]") };
        let (gap, question) = apart(question);
        self.show(&format!("{gap}{}{}\n> ", harmless(question), harmless(&hint)))?;
        /// Longest answer that is read.
        const MOST: u64 = 4_000;
        let mut line = Vec::new();
        let read = std::io::Read::take(&mut self.answers, MOST).read_until(b'\n', &mut line);
        let text = String::from_utf8_lossy(&line).trim().to_owned();
        self.ended = !matches!(read, Ok(count) if count > 0) || text == STOP;
        Ok(match (self.ended, text.is_empty()) {
            (true, _) => Reply::Ended,
            (_, true) => Reply::Skipped,
            (_, false) => Reply::Given(text),
        })
    }
}

/// The empty line that stands before a text, where one does, and the text.
fn apart(text: &str) -> (&str, &str) {
    text.strip_prefix('\n').map_or(("", text), |text| ("\n", text))
}
