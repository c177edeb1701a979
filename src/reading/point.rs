//! Pointing at a problem: the line quoted, with a mark under the value.

use super::Problem;
use super::harmless::{harmless, harmless_in_place, hidden};
use crate::proof::Place;

/// A text of this run: a file or an argument.
#[derive(Clone, Debug)]
pub struct Text {
    /// The file's path as it was given, or [`ARGUMENT`].
    pub name: String,
    /// What it says.
    pub text: String,
}

/// The name of a text that was given as an argument.
pub const ARGUMENT: &str = "argument";

/// How many signs of a line are quoted at most.
const QUOTED: usize = 160;

/// How far a quoted line stands in.
const INDENT: &str = "    ";

/// Names the file and line, says what is wrong, and quotes the line with a mark under the value; `colour` is for a terminal that
/// shows it.
pub fn point(problem: &Problem, texts: &[Text], colour: bool) -> String {
    point_within(problem, texts, colour, None)
}

/// The same, with no more of the line quoted than a page of so many columns takes.
pub fn point_within(problem: &Problem, texts: &[Text], colour: bool, columns: Option<usize>) -> String {
    let says = cut(&harmless(&problem.says));
    let Some((place, text)) = problem.place.and_then(|place| Some((place, texts.get(place.source as usize)?))) else {
        return says;
    };
    // Of a file as a whole, which says its own name.
    if place.line == 0 {
        return says;
    }
    let hides = hidden(&marked(place, text));
    let hides =
        if hides.is_empty() { hides } else { format!(" (a sign that is not seen stands here: {})", cut(&hides)) };
    let line = text.text.lines().nth(place.line.saturating_sub(1) as usize).unwrap_or_default();
    let line = harmless_in_place(line.strip_prefix('\u{feff}').unwrap_or(line));
    let column = place.column.saturating_sub(1) as usize;
    let room = columns.map_or(QUOTED, |columns| QUOTED.min(columns.saturating_sub(INDENT.len() + 1)));
    let (quoted, shift) = excerpt(&line, column, room);
    let width = quoted.chars().count();
    let from = column.saturating_sub(shift).min(width);
    let length = (place.length as usize).clamp(1, width.saturating_sub(from).max(1));
    let is_empty = line.trim().is_empty();
    let bold = |text: String| if colour { format!("\u{1b}[1m{text}\u{1b}[0m") } else { text };
    let name = harmless(&text.name);
    // An argument is one line, and quoted beneath.
    let head = bold(if name == ARGUMENT { name } else { format!("{name}, line {}", place.line) });
    // Nothing can be marked on a line that is empty.
    if is_empty {
        return format!("{head}: {says}{hides}");
    }
    let mark = bold(format!("{}{}", " ".repeat(from), "^".repeat(length)));
    format!("{head}: {says}{hides}\n{INDENT}{quoted}\n{INDENT}{mark}")
}

/// What stands under the mark.
fn marked(place: Place, text: &Text) -> String {
    let line = text.text.lines().nth(place.line.saturating_sub(1) as usize).unwrap_or_default();
    let line = line.strip_prefix('\u{feff}').unwrap_or(line);
    line.chars().skip(place.column.saturating_sub(1) as usize).take(place.length as usize).collect()
}

/// An echo of a page or more helps nobody: its beginning and its end do.
fn cut(text: &str) -> String {
    const HALF: usize = 300;
    let count = text.chars().count();
    if count <= 2 * HALF + 3 {
        return text.into();
    }
    let (head, tail) = (text.chars().take(HALF), text.chars().skip(count - HALF));
    head.chain(" … ".chars()).chain(tail).collect()
}

/// The line without its indentation, or a window of a very long one around the column; and how far it begins from the left.
fn excerpt(line: &str, column: usize, room: usize) -> (String, usize) {
    let indent = line.chars().take_while(|c| *c == ' ').count().min(column);
    let before = room / 4;
    let shift = if line.chars().count() - indent <= room { indent } else { column.saturating_sub(before).max(indent) };
    (line.chars().skip(shift).take(room).collect(), shift)
}
