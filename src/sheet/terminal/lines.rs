//! Lines for a terminal: broken at its width, hanging, and with nothing in them that a terminal would obey.

use crate::quantity::Shown;
use crate::reading::harmless;

/// Columns that a line may take.
const WIDTH: usize = 100;

/// Columns that a later line hangs at most, and that a cell is filled up to.
const MOST_INDENT: usize = 48;

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
        self.text += harmless(text).trim_end();
        self.text.push('\n');
    }

    /// A heading.
    pub(super) fn heading(&mut self, text: &str) {
        self.gap();
        self.line(text);
    }

    /// Words behind what stands before them (which sets how far later lines hang), broken between words.
    pub(super) fn hanging(&mut self, before: &str, words: &str) {
        let before = harmless(before);
        let indent = before.chars().count().min(MOST_INDENT);
        let mut line = before;
        let mut fresh = true;
        for word in harmless(words).split_whitespace() {
            if !fresh && line.chars().count() + 1 + word.chars().count() > WIDTH {
                self.text += line.trim_end();
                self.text.push('\n');
                line = " ".repeat(indent);
                fresh = true;
            }
            if !fresh {
                line.push(' ');
            }
            line += word;
            fresh = false;
        }
        self.text += line.trim_end();
        self.text.push('\n');
    }

    /// Rows in columns, each as wide as its widest cell; the last runs on and hangs.
    pub(super) fn table(&mut self, indent: usize, rows: &[Vec<String>]) {
        let columns = rows.iter().map(Vec::len).max().unwrap_or(0);
        let width = |at: usize| rows.iter().filter_map(|row| row.get(at)).map(|c| harmless(c).chars().count()).max();
        let widths: Vec<usize> = (0..columns).map(|at| width(at).unwrap_or(0).min(MOST_INDENT)).collect();
        for row in rows {
            let Some((last, cells)) = row.split_last() else { continue };
            let mut before = " ".repeat(indent);
            for (cell, width) in cells.iter().zip(&widths) {
                before += &format!("{:<width$}  ", harmless(cell));
            }
            self.hanging(&before, last);
        }
    }
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
        assert!(text.lines().count() > 1 && text.lines().all(|line| line.chars().count() <= WIDTH));
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
