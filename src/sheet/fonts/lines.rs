//! Lines: how a text is broken to a width, or made smaller to fit.

use super::{Fault, Font, em, missing, width};
use unicode_linebreak::{BreakOpportunity, linebreaks};

/// Least step by which [`fit`] makes letters smaller, mm.
const STEP: f64 = 0.25;

/// What a room may be short of a text that it was measured for, mm: the dust of sums and differences.
const DUST: f64 = 1e-9;

/// A text whose letters were each looked up once: any piece of it is measured by a subtraction.
struct Ruler<'a> {
    text: &'a str,
    /// Units of the font up to each byte that begins a letter.
    up_to: Vec<u32>,
    unit: f64,
    /// Whether a line ends in it, however long it is.
    ends_line: bool,
}

impl<'a> Ruler<'a> {
    fn new(font: Font, capital: f64, text: &'a str) -> Result<Self, Fault> {
        let read = font.read()?;
        let mut up_to = vec![0; text.len() + 1];
        let (mut sum, mut all, mut ends_line) = (0, true, false);
        for ((at, c), letter) in text.char_indices().zip(read.letters(text)) {
            ends_line |= matches!(c, '\n'..='\r' | '\u{85}' | '\u{2028}' | '\u{2029}');
            match letter {
                Some(letter) => sum += u32::from(letter.advance),
                None => all = all && matches!(c, '\n' | '\r'),
            }
            if let Some(slot) = up_to.get_mut(at + c.len_utf8()) {
                *slot = sum;
            }
        }
        if !all {
            return Err(missing(font, read, &text.replace(['\n', '\r'], "")));
        }
        Ok(Self { text, up_to, unit: em(capital) / f64::from(read.face.units_per_em()), ends_line })
    }

    fn piece(&self, from: usize, to: usize) -> &'a str {
        self.text.get(from..to).unwrap_or_default()
    }

    /// Where a piece ends without the spaces at its end.
    fn trimmed(&self, from: usize, to: usize) -> usize {
        from + self.piece(from, to).trim_end().len()
    }

    /// Width of a piece, mm.
    fn width(&self, from: usize, to: usize) -> f64 {
        let up_to = |at: usize| self.up_to.get(at).copied().unwrap_or(0);
        f64::from(up_to(to).saturating_sub(up_to(from))) * self.unit
    }
}

/// Breaks a text into lines no wider than `room` mm, where Unicode allows a break; a word that is longer than a line is
/// cut between letters. A line feed always breaks.
///
/// # Errors
/// As [`super::measure`].
pub fn wrap(font: Font, capital: f64, text: &str, room: f64) -> Result<Vec<String>, Fault> {
    first_lines(font, capital, text, (room, usize::MAX))
}

/// The first lines of these, no more than `most`: what comes behind them is not broken.
///
/// # Errors
/// As [`super::measure`].
pub fn first_lines(font: Font, capital: f64, text: &str, (room, most): (f64, usize)) -> Result<Vec<String>, Fault> {
    let ruler = Ruler::new(font, capital, text)?;
    let room = room + DUST;
    // What stands in one line is looked through for no place to break.
    if !ruler.ends_line && ruler.width(0, text.len()) <= room {
        let line = text.trim_end();
        return Ok(if line.is_empty() || most == 0 { Vec::new() } else { vec![line.to_owned()] });
    }
    let mut lines: Vec<&str> = Vec::new();
    // The line so far, and where the word after it begins.
    let (mut from, mut to, mut start) = (0, 0, 0);
    for (end, kind) in linebreaks(text) {
        if kind == BreakOpportunity::Allowed
            && let Some(next) = stays_together(text.split_at(end))
            && ruler.width(start, end + next) <= room
        {
            continue;
        }
        let word = start + ruler.piece(start, end).trim_end_matches(['\n', '\r']).len();
        if to > from && ruler.width(from, ruler.trimmed(from, word)) > room {
            lines.push(ruler.piece(from, to));
            from = start;
        }
        (start, to) = (end, word);
        from = cut_long(&ruler, room, (from, to), &mut lines);
        if kind == BreakOpportunity::Mandatory {
            lines.push(ruler.piece(from, to));
            (from, to) = (end, end);
        }
        if lines.len() >= most && end < text.len() {
            return Ok(lines.into_iter().take(most).map(|line| line.trim_end().to_owned()).collect());
        }
    }
    let mut lines: Vec<String> = lines.into_iter().map(|line| line.trim_end().to_owned()).collect();
    while lines.last().is_some_and(String::is_empty) {
        lines.pop();
    }
    lines.truncate(most);
    Ok(lines)
}

/// Units, and what is counted, that stay on the line of their figure.
const UNITS: [&str; 24] = [
    "mm", "in", "N", "N·m", "kN", "MPa", "°C", "°F", "µm", "µin", "min", "m/min", "mm/rev", "rev/min", "lbf", "psi",
    "degrees", "turns", "div", "thou", "g", "kg", "places", "%",
];

/// The mark of memory, which stands between a figure and its unit.
const MEMORY: char = 'ᵐ';

/// Words that stay on the line of the figure behind them.
const LIMITS: [&str; 2] = ["min", "max"];

/// The length of the next word with what stands before it, where a break would part a figure from its unit or doubt, or a unit
/// within itself.
fn stays_together((before, after): (&str, &str)) -> Option<usize> {
    let word = before.trim_end().trim_end_matches(MEMORY);
    let figure = word.ends_with(|c: char| c.is_ascii_digit());
    let is_last = |limit: &str| word.ends_with(limit) && word.split_whitespace().next_back() == Some(limit);
    let limit = LIMITS.iter().any(|limit| is_last(limit));
    let (parted, doubt) = (before.ends_with('/'), word.ends_with('±'));
    // Behind all other words a line may end, whatever follows.
    if !(parted || doubt || limit || figure) {
        return None;
    }
    let next = after.split_whitespace().next().unwrap_or_default();
    let unit = next.trim_end_matches(['.', ',', ';', ':', ')']);
    let number = next.contains(|c: char| c.is_ascii_digit());
    let together = parted || doubt || (limit && number) || (figure && (next == "±" || UNITS.contains(&unit)));
    together.then(|| after.len() - after.trim_start().len() + next.len())
}

/// Takes full lines off the front of a word that is longer than a line; where the rest begins.
fn cut_long<'a>(ruler: &Ruler<'a>, room: f64, (mut from, to): (usize, usize), lines: &mut Vec<&'a str>) -> usize {
    while ruler.width(from, ruler.trimmed(from, to)) > room {
        let ends = ruler.piece(from, to).char_indices().map(|(at, c)| from + at + c.len_utf8());
        let fits = ends.clone().take_while(|end| ruler.width(from, *end) <= room).last();
        // One letter a line at the least.
        let Some(head) = fits.or_else(|| ends.clone().next()).filter(|head| *head < to) else { return from };
        lines.push(ruler.piece(from, head));
        from = head;
    }
    from
}

/// A text that fits.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// Height of the capitals, mm.
    pub capital: f64,
    /// The lines.
    pub lines: Vec<String>,
}

/// What [`fit`] may do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Width there is, mm.
    pub width: f64,
    /// Lines there are.
    pub lines: usize,
    /// Height of the capitals wished, mm.
    pub wished: f64,
    /// Least height of the capitals, mm.
    pub least: f64,
}

/// One line at the size wished; else one line, smaller; else broken, at the greatest size whose lines are few enough.
///
/// # Errors
/// [`Fault::TooLong`] if it does not fit at the least size; else as [`super::measure`].
pub fn fit(font: Font, text: &str, room: Room) -> Result<Fitted, Fault> {
    let one = width(font, room.wished, text)?;
    let shrunk = if one > room.width { (room.wished * room.width / one / STEP).floor() * STEP } else { room.wished };
    if shrunk >= room.least && !text.contains('\n') {
        return Ok(Fitted { capital: shrunk, lines: vec![text.to_owned()] });
    }
    let mut capital = room.wished;
    loop {
        let lines = wrap(font, capital, text, room.width)?;
        if lines.len() <= room.lines {
            return Ok(Fitted { capital, lines });
        }
        if capital <= room.least {
            let hundredths = (room.width * 100.0).round() as i64;
            return Err(Fault::TooLong { text: text.to_owned(), hundredths, lines: room.lines });
        }
        capital = (capital - STEP).max(room.least);
    }
}

#[cfg(test)]
mod tests {
    use super::{Font, Room, first_lines, fit, width, wrap};
    use crate::sheet::fonts::Fault;

    #[test]
    fn long_text_breaks_at_words_and_long_words_break_anywhere() {
        let lines = wrap(Font::Sans, 3.0, "drill the hole to the shoulder", 25.0).unwrap();
        assert!(lines.len() > 1 && lines.iter().all(|l| width(Font::Sans, 3.0, l).unwrap() <= 25.0));
        assert_eq!(lines.join(" "), "drill the hole to the shoulder");
        let cut = wrap(Font::Sans, 3.0, "Donaudampfschifffahrtsgesellschaft", 20.0).unwrap();
        assert_eq!(cut.concat(), "Donaudampfschifffahrtsgesellschaft");
        assert!(cut.iter().all(|l| width(Font::Sans, 3.0, l).unwrap() <= 20.0));
        assert!(wrap(Font::Sans, 3.0, "mm", 0.5).unwrap().len() == 2, "one letter a line at least");
    }

    #[test]
    fn a_figure_stays_with_its_unit_and_its_doubt() {
        let lines =
            wrap(Font::Sans, 3.0, "drill to 13.00 mm, hand feed 0.1 mm/rev, wall 18.000 ± 0.300 mm", 24.0).unwrap();
        assert_eq!(
            lines,
            ["drill to", "13.00 mm,", "hand feed", "0.1 mm/rev,", "wall", "18.000 ±", "0.300 mm"].as_slice()
        );
    }

    /// A room that was made for a text, with other widths added to it and taken off again, holds the text in one line.
    #[test]
    fn a_text_stands_in_one_line_of_the_room_that_was_made_for_it() {
        let text = "Length over the ends: as found 2.2868 ± 0.0010 in; target 2.2808 ± 0.0011 in";
        let wide = width(Font::Sans, 3.0, text).unwrap();
        let rooms =
            (0..2_000).map(|at| f64::from(at).mul_add(0.1, 0.1)).map(|other| (wide + other + 2.5) - 2.5 - other);
        let rooms: Vec<f64> = rooms.collect();
        assert!(rooms.iter().any(|room| *room < wide), "dust");
        assert!(rooms.iter().all(|room| wrap(Font::Sans, 3.0, text, *room).unwrap().len() == 1));
    }

    /// A few lines of a text are those that the whole of it begins with.
    #[test]
    fn the_first_lines_are_those_of_the_whole() {
        let text =
            "\n\ndrill to 13.00 mm, hand feed 0.1 mm/rev, wall 18.000 ± 0.300 mm\nDonaudampfschifffahrtsgesellschaft";
        for room in [9.0, 14.0, 24.0, 60.0, 200.0] {
            let whole = wrap(Font::Sans, 3.0, text, room).unwrap();
            for most in 1..12 {
                let few = first_lines(Font::Sans, 3.0, text, (room, most)).unwrap();
                assert_eq!(few, whole[..whole.len().min(most)], "{room} {most}");
            }
        }
    }

    #[test]
    fn a_line_feed_breaks() {
        assert_eq!(wrap(Font::Sans, 3.0, "25.02\n25.00\n", 60.0).unwrap(), ["25.02", "25.00"]);
        assert!(wrap(Font::Sans, 3.0, "", 60.0).unwrap().is_empty());
    }

    #[test]
    fn fitting_makes_smaller_before_it_breaks() {
        let room = Room { width: 60.0, lines: 2, wished: 5.0, least: 3.0 };
        let short = fit(Font::Bold, "crankcase", room).unwrap();
        assert_eq!((short.capital, short.lines.len()), (5.0, 1));
        let longer = fit(Font::Bold, "crankcase, drive side half", room).unwrap();
        assert!(longer.capital < 5.0 && longer.lines.len() == 1);
        let two = fit(Font::Bold, "crankcase, drive side half, with the bearing housing", room).unwrap();
        assert_eq!(two.lines.len(), 2);
        assert!(matches!(fit(Font::Bold, &"crankcase ".repeat(40), room), Err(Fault::TooLong { .. })));
    }
}
