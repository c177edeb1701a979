//! Lines for a terminal: broken at its width, hanging, and with nothing in them that a terminal would obey.

use crate::quantity::Shown;
use crate::reading::without_harm;
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

/// Columns that a line may take.
pub(super) fn width() -> usize {
    COLUMNS.get().copied().unwrap_or(USUAL)
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
        self.line(text);
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
    /// stands beneath the others.
    pub(super) fn table(&mut self, indent: usize, rows: &[Vec<String>]) {
        let wide = |cell: &str| columns_of(&without_harm(cell));
        let columns = rows.iter().map(Vec::len).max().unwrap_or(0).saturating_sub(1);
        let width = |at: usize| rows.iter().filter_map(|row| row.get(at)).map(|cell| wide(cell)).max();
        let widths: Vec<usize> = (0..columns).map(|at| width(at).unwrap_or(0)).collect();
        let before = indent + widths.iter().map(|width| width + 2).sum::<usize>();
        let runs_on = rows.iter().filter_map(|row| row.last()).map(|cell| wide(cell)).max().unwrap_or(0);
        let beside = before + runs_on.min(LEAST_WORDS) <= self::width();
        for row in rows {
            let Some((last, cells)) = row.split_last() else { continue };
            let start = self.text.len();
            self.blanks(indent);
            for (cell, width) in cells.iter().zip(&widths) {
                let cell = without_harm(cell);
                self.text += &cell;
                self.blanks(width.saturating_sub(columns_of(&cell)) + 2);
            }
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
}

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
    fn points_stand_under_each_other() {
        let shown = |number, unit| Shown::usual(number, None, unit, Rounds::Nearest, Print::Metric);
        let figures = [shown(18.0, Unit::Mm), shown(15_705.0, Unit::N), shown(-1.5, Unit::Mm), shown(3.0, Unit::One)];
        assert_eq!(aligned(&figures), ["   18.000 mm", "15705 N", "   −1.500 mm", "    3"]);
    }
}
