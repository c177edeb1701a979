//! Lines for a terminal: broken at its width, hanging, and with nothing in them that a terminal would obey.

use crate::quantity::Shown;
use crate::reading::without_harm;
use std::borrow::Cow;
use std::sync::OnceLock;

/// Columns that a line may take where no terminal says how wide it is.
const USUAL: usize = 100;

/// Columns of the terminal that is written to.
static COLUMNS: OnceLock<usize> = OnceLock::new();

/// Breaks lines at the width of a terminal; the first to say it is heard.
pub fn as_wide_as(columns: usize) {
    const LEAST: usize = 60;
    const MOST: usize = 200;
    let _ = COLUMNS.set(columns.clamp(LEAST, MOST));
}

fn width() -> usize {
    COLUMNS.get().copied().unwrap_or(USUAL)
}

/// Columns that a quoted line may take: those of the terminal where one is written to.
pub fn columns() -> Option<usize> {
    COLUMNS.get().copied()
}

/// A page with its long lines broken at the width of the terminal that is written to; as it is where none is. What runs over hangs
/// under the last column of its line, or under the line itself where too little room is left there.
pub fn within(page: &str) -> Cow<'_, str> {
    match COLUMNS.get() {
        Some(width) if page.lines().any(|line| seen(line) > *width) => Cow::Owned(broken_at(page, *width)),
        _ => Cow::Borrowed(page),
    }
}

fn broken_at(page: &str, width: usize) -> String {
    let mut out = String::with_capacity(page.len() + page.len() / 16);
    for line in page.lines() {
        if seen(line) <= width {
            out.push_str(line);
        } else {
            break_line(&mut out, line, width);
        }
        out.push('\n');
    }
    if !page.ends_with('\n') {
        out.pop();
    }
    out
}

/// One line that is too long, broken at its blanks.
fn break_line(out: &mut String, line: &str, width: usize) {
    let stands_in = line.len() - line.trim_start().len();
    // Where its last column begins: behind the last two blanks that stand early enough.
    let columns = line.match_indices("  ").map(|(at, blanks)| at + blanks.len()).filter(|at| *at > stands_in);
    let begins =
        columns.filter(|at| line.get(*at..).is_some_and(|rest| !rest.starts_with(' '))).map(|at| seen_to(line, at));
    let hangs = begins.filter(|at| at + LEAST_WORDS <= width).last().unwrap_or((stands_in + 2).min(width / 2));
    let mut column = 0;
    let mut fresh = true;
    // Blanks within a line are kept; those at which it is broken go.
    for piece in line.split_inclusive(' ') {
        let word = piece.trim_end();
        if !fresh && !word.is_empty() && column + seen(word) > width {
            out.truncate(without_blanks(out));
            out.push('\n');
            out.extend(std::iter::repeat_n(' ', hangs));
            column = hangs;
        }
        out.push_str(piece);
        column += seen(piece);
        fresh &= word.is_empty();
    }
    out.truncate(without_blanks(out));
}

/// How long a text is without the blanks at the end of its last line.
fn without_blanks(text: &str) -> usize {
    text.len() - text.bytes().rev().take_while(|byte| *byte == b' ').count()
}

/// How many signs of a text are seen: not those that give it weight and colour.
fn seen(text: &str) -> usize {
    if !text.contains('\u{1b}') {
        return columns_of(text);
    }
    let mut hidden = false;
    let one = |sign: char| {
        hidden |= sign == '\u{1b}';
        let counts = !hidden;
        hidden &= sign != 'm';
        usize::from(counts)
    };
    text.chars().map(one).sum()
}

/// How many signs are seen before a place of a text.
fn seen_to(text: &str, at: usize) -> usize {
    text.get(..at).map_or(0, seen)
}

/// Columns that the words behind a beginning must have: where they have fewer they hang further to the left, and the last cell of a
/// row stands beneath the others.
const LEAST_WORDS: usize = 28;

/// A text in the making.
#[derive(Default)]
pub(super) struct Lines {
    text: String,
}

impl Lines {
    /// The text.
    pub(super) fn finish(self) -> String {
        self.text
    }

    /// An empty line, unless the last is one.
    pub(super) fn gap(&mut self) {
        if !self.text.is_empty() && !self.text.ends_with("\n\n") {
            self.text.push('\n');
        }
    }

    /// A line as it is, never broken.
    pub(super) fn line(&mut self, text: &str) {
        self.text += without_harm(text).trim_end();
        self.text.push('\n');
    }

    /// A text of its own under what stands.
    pub(super) fn put(&mut self, text: &str) {
        self.text += text;
    }

    /// A heading.
    pub(super) fn heading(&mut self, text: &str) {
        self.gap();
        self.hanging("", text);
    }

    /// Words behind what stands before them (which sets how far later lines hang), broken between words.
    pub(super) fn hanging(&mut self, before: &str, words: &str) {
        let start = self.text.len();
        self.text += &without_harm(before);
        self.words_from(start, words);
    }

    /// Words behind a line that has begun at `start`.
    fn words_from(&mut self, start: usize, words: &str) {
        let words = without_harm(words);
        match words.is_ascii() {
            true => self.broken(start, words.split_ascii_whitespace()),
            false => self.broken(start, words.split_whitespace()),
        }
    }

    fn broken<'a>(&mut self, mut start: usize, words: impl Iterator<Item = &'a str>) {
        let mut columns = self.text.get(start..).map_or(0, columns_of);
        let indent = if columns + LEAST_WORDS <= width() { columns } else { columns.min(BENEATH) };
        let mut fresh = true;
        for word in words {
            let wide = columns_of(word);
            if !fresh && columns + 1 + wide > width() {
                self.end(start);
                start = self.text.len();
                self.blanks(indent);
                (columns, fresh) = (indent, true);
            }
            if !fresh {
                self.text.push(' ');
                columns += 1;
            }
            self.text += word;
            columns += wide;
            fresh = false;
        }
        self.end(start);
    }

    /// Ends the line that began at `start`, without the blanks at its end.
    fn end(&mut self, start: usize) {
        let line = self.text.get(start..).map_or(0, |line| line.trim_end().len());
        self.text.truncate(start + line);
        self.text.push('\n');
    }

    fn blanks(&mut self, count: usize) {
        self.text.extend(std::iter::repeat_n(' ', count));
    }

    /// Rows in columns, each as wide as its widest cell; the last runs on and hangs. Where too little room is left for it, it
    /// stands beneath the others; and where those alone are too wide, the widest of them are broken within their columns.
    pub(super) fn table(&mut self, indent: usize, rows: &[Vec<String>]) {
        let wide = |cell: &str| columns_of(&without_harm(cell));
        let columns = rows.iter().map(Vec::len).max().unwrap_or(0).saturating_sub(1);
        let width = |at: usize| rows.iter().filter_map(|row| row.get(at)).map(|cell| wide(cell)).max();
        let mut widths: Vec<usize> = (0..columns).map(|at| width(at).unwrap_or(0)).collect();
        let taken = |widths: &[usize]| indent + widths.iter().map(|width| width + GAP).sum::<usize>();
        let runs_on = rows.iter().filter_map(|row| row.last()).map(|cell| wide(cell)).max().unwrap_or(0);
        let beside = taken(&widths) + runs_on.min(LEAST_WORDS) <= self::width();
        while taken(&widths) > self::width() + GAP
            && let Some(widest) = widths.iter_mut().max().filter(|width| **width > LEAST_CELL)
        {
            *widest -= 1;
        }
        for row in rows {
            let Some((last, cells)) = row.split_last() else { continue };
            let start = self.row(indent, cells, &widths);
            if beside {
                self.words_from(start, last);
                continue;
            }
            self.end(start);
            if !last.trim().is_empty() {
                self.hanging(&" ".repeat(indent + BENEATH), last);
            }
        }
    }

    /// The cells of a row before its last one, each broken within its column; where its last line begins.
    fn row(&mut self, indent: usize, cells: &[String], widths: &[usize]) -> usize {
        let cells: Vec<Vec<String>> =
            cells.iter().zip(widths).map(|(cell, width)| within_column(&without_harm(cell), *width)).collect();
        let lines = cells.iter().map(Vec::len).max().unwrap_or(1).max(1);
        let mut start = self.text.len();
        for line in 0..lines {
            if line > 0 {
                self.end(start);
                start = self.text.len();
            }
            self.blanks(indent);
            for (cell, width) in cells.iter().zip(widths) {
                let piece = cell.get(line).map_or("", String::as_str);
                self.text += piece;
                self.blanks(width.saturating_sub(columns_of(piece)) + GAP);
            }
        }
        start
    }
}

/// A cell in lines no wider than its column, broken between words; a longer word stays whole.
fn within_column(cell: &str, width: usize) -> Vec<String> {
    if columns_of(cell) <= width {
        return vec![cell.to_owned()];
    }
    let mut lines: Vec<String> = Vec::new();
    for word in cell.split_whitespace() {
        match lines.last_mut().filter(|line| columns_of(line) + 1 + columns_of(word) <= width) {
            Some(line) => *line = format!("{line} {word}"),
            None => lines.push(word.to_owned()),
        }
    }
    lines
}

/// Blanks between two columns.
const GAP: usize = 2;

/// No column of a table is made narrower than this.
const LEAST_CELL: usize = 10;

/// How far the last cell of a row stands in where it stands beneath the others.
const BENEATH: usize = 6;

/// How many signs a text has.
fn columns_of(text: &str) -> usize {
    if text.is_ascii() { text.len() } else { text.chars().count() }
}

/// Figures with blanks before them, so that their decimal points stand under each other.
pub(super) fn aligned(figures: &[Shown]) -> Vec<String> {
    let before = |shown: &Shown| shown.number.whole.len() + usize::from(shown.number.negative);
    let widest = figures.iter().map(before).max().unwrap_or(0);
    figures.iter().map(|shown| format!("{}{shown}", " ".repeat(widest - before(shown)))).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Print, Rounds, Unit};

    #[test]
    fn nothing_that_a_terminal_obeys_comes_through() {
        let mut lines = Lines::default();
        lines.line("a\u{1b}[2Jb\u{9b}31mc\u{7}\r\nd\u{202e}e");
        lines.hanging("\u{1b}", "\u{1b}]0;x\u{7}");
        let text = lines.finish();
        assert!(text.chars().all(|c| c == '\n' || !c.is_control()), "{text:?}");
        assert_eq!(text.lines().count(), 2);
    }

    #[test]
    fn long_words_hang_under_their_beginning() {
        let mut lines = Lines::default();
        lines.hanging("  1  ", &"drill the hole ".repeat(12));
        let text = lines.finish();
        assert!(text.lines().count() > 1 && text.lines().all(|line| line.chars().count() <= USUAL));
        assert!(
            text.lines()
                .skip(1)
                .all(|line| line.starts_with("     d") || line.starts_with("     t") || line.starts_with("     h"))
        );
    }

    #[test]
    fn a_long_line_is_broken_and_hangs_under_its_last_column() {
        let page = "  key              8.4 mm  what it is in many words that run on and on [1: read]\n\n    deep words that run on\nshort\n";
        let broken = broken_at(page, 60);
        assert!(broken.lines().all(|line| line.chars().count() <= 60), "{broken}");
        assert_eq!(broken.lines().nth(1).map(|line| line.len() - line.trim_start().len()), Some(27), "{broken}");
        let words = |text: &str| text.split_whitespace().map(str::to_owned).collect::<Vec<_>>();
        assert_eq!(words(&broken), words(page));
        assert_eq!(broken_at(page, 200), page);
        // Weight and colour take no room.
        let weighed = "\u{1b}[1;31mDO NOT CUT\u{1b}[0m".repeat(5);
        assert_eq!(seen(&weighed), 50);
        assert_eq!(broken_at(&weighed, 60), weighed);
    }

    #[test]
    fn a_cell_is_broken_within_its_column() {
        assert_eq!(within_column("crankcase half, drive side", 15), ["crankcase half,", "drive side"]);
        assert_eq!(within_column("short", 15), ["short"]);
        assert_eq!(within_column("unbreakablelonger word", 10), ["unbreakablelonger", "word"]);
    }

    #[test]
    fn points_stand_under_each_other() {
        let shown = |number, unit| Shown::usual(number, None, unit, Rounds::Nearest, Print::Metric);
        let figures = [shown(18.0, Unit::Mm), shown(15_705.0, Unit::N), shown(-1.5, Unit::Mm), shown(3.0, Unit::One)];
        assert_eq!(aligned(&figures), ["   18.000 mm", "15700 N", "   −1.500 mm", "    3"]);
    }
}
