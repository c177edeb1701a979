//! Letters: their widths, the characters that they lack, and how a text is broken or made smaller to fit.
//!
//! DejaVu Sans Condensed, its Bold, and Sans Mono, from the `dejavu` package. Sizes are given as the height of the
//! capitals in millimetres, because that is what the eye reads by; figures are tabular in all three.

use std::sync::OnceLock;
use ttf_parser::Face;
use unicode_linebreak::{BreakOpportunity, linebreaks};

/// Height of the capitals over the em: 1493 / 2048 in each of the three fonts (top of their H).
pub const CAPITAL: f64 = 1493.0 / 2048.0;

/// Least step by which [`fit`] makes letters smaller, mm.
const STEP: f64 = 0.25;

/// From base line to base line, in heights of the capitals (ISO 3098: not under 14/10).
pub const LINE: f64 = 1.6;

/// A font of the sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Font {
    /// Text.
    Sans,
    /// Headings, figures, stamp.
    Bold,
    /// Formulas worked line by line.
    Mono,
}

impl Font {
    /// Every font, in the order in which a file holds them.
    pub const ALL: [Self; 3] = [Self::Sans, Self::Bold, Self::Mono];

    /// The font file.
    #[must_use]
    pub fn file(self) -> &'static [u8] {
        match self {
            Self::Sans => dejavu::sans_condensed::regular(),
            Self::Bold => dejavu::sans_condensed::bold(),
            Self::Mono => dejavu::sans_mono::regular(),
        }
    }

    /// Its PostScript name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sans => "DejaVuSansCondensed",
            Self::Bold => "DejaVuSansCondensed-Bold",
            Self::Mono => "DejaVuSansMono",
        }
    }

    /// The font, read once.
    ///
    /// # Errors
    /// [`Fault::Unreadable`] if the file built in is damaged.
    pub fn face(self) -> Result<&'static Face<'static>, Fault> {
        self.read().map(|read| &read.face)
    }

    fn read(self) -> Result<&'static Read, Fault> {
        static READ: [OnceLock<Option<Read>>; 3] = [const { OnceLock::new() }; 3];
        let [sans, bold, mono] = &READ;
        let cell = match self {
            Self::Sans => sans,
            Self::Bold => bold,
            Self::Mono => mono,
        };
        let read = cell.get_or_init(|| Face::parse(self.file(), 0).ok().map(Read::new));
        read.as_ref().ok_or(Fault::Unreadable { font: self })
    }
}

/// A font read, with the letters that nearly every text is made of already looked up.
struct Read {
    face: Face<'static>,
    ascii: [Option<Letter>; 128],
}

/// What a character covers, in units of the font.
#[derive(Clone, Copy)]
struct Letter {
    advance: u16,
    top: i16,
    bottom: i16,
}

impl Read {
    fn new(face: Face<'static>) -> Self {
        let mut ascii = [None; 128];
        for (c, letter) in (0_u8..).map(char::from).zip(&mut ascii) {
            *letter = look_up(&face, c);
        }
        Self { face, ascii }
    }

    fn letter(&self, c: char) -> Option<Letter> {
        match usize::try_from(u32::from(c)).ok().and_then(|i| self.ascii.get(i)) {
            Some(known) => *known,
            None => look_up(&self.face, c),
        }
    }
}

fn look_up(face: &Face<'_>, c: char) -> Option<Letter> {
    let glyph = face.glyph_index(c)?;
    let advance = face.glyph_hor_advance(glyph).unwrap_or(0);
    let (top, bottom) = face.glyph_bounding_box(glyph).map_or((0, 0), |ink| (ink.y_max, ink.y_min));
    Some(Letter { advance, top, bottom })
}

/// Why a text cannot be set.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Fault {
    /// Characters without a glyph.
    #[error("the font {} has no glyph for {} in {text:?}", font.name(), listed(missing))]
    Missing {
        /// The font.
        font: Font,
        /// The text.
        text: String,
        /// Each character that is missing, once.
        missing: Vec<char>,
    },
    /// The text stays too long at its least height.
    #[error("{text:?} does not fit a space {} mm wide in {lines} lines", hundredths / 100)]
    TooLong {
        /// The text.
        text: String,
        /// Width there is, in hundredths of a millimetre.
        hundredths: i64,
        /// Lines there are.
        lines: usize,
    },
    /// The font built in cannot be read.
    #[error("the font {} cannot be read", font.name())]
    Unreadable {
        /// The font.
        font: Font,
    },
}

fn listed(missing: &[char]) -> String {
    missing.iter().map(|c| format!("{c:?} (U+{:04X})", u32::from(*c))).collect::<Vec<_>>().join(", ")
}

/// What a line of text covers, from the left end of its base line, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    /// Sum of the advances.
    pub width: f64,
    /// From the base line up to the highest ink, not under the capitals.
    pub above: f64,
    /// From the base line down to the lowest ink.
    pub below: f64,
}

/// The em of letters whose capitals are `capital` mm high, mm.
#[must_use]
pub fn em(capital: f64) -> f64 {
    capital / CAPITAL
}

/// The size in points of letters whose capitals are `capital` mm high (1 pt = 25.4/72 mm).
#[must_use]
pub fn points(capital: f64) -> f64 {
    em(capital) * 72.0 / 25.4
}

/// Whether the letters of running text, or the bold ones, have no glyph for a sign.
///
/// # Errors
/// [`Fault::Unreadable`].
pub fn lacks(c: char) -> Result<bool, Fault> {
    Ok(Font::Sans.read()?.letter(c).is_none() || Font::Bold.read()?.letter(c).is_none())
}

/// What a single line covers.
///
/// # Errors
/// [`Fault::Missing`] with every character that the font lacks.
pub fn measure(font: Font, capital: f64, text: &str) -> Result<Extent, Fault> {
    let read = font.read()?;
    let unit = em(capital) / f64::from(read.face.units_per_em());
    let mut size = Extent { width: 0.0, above: capital, below: 0.0 };
    let mut missing: Vec<char> = Vec::new();
    for c in text.chars() {
        if let Some(letter) = read.letter(c) {
            size.width += f64::from(letter.advance) * unit;
            size.above = size.above.max(f64::from(letter.top) * unit);
            size.below = size.below.max(-f64::from(letter.bottom) * unit);
        } else if !missing.contains(&c) {
            missing.push(c);
        }
    }
    if missing.is_empty() { Ok(size) } else { Err(Fault::Missing { font, text: text.to_owned(), missing }) }
}

/// Width of a single line, mm.
///
/// # Errors
/// As [`measure`].
pub fn width(font: Font, capital: f64, text: &str) -> Result<f64, Fault> {
    measure(font, capital, text).map(|size| size.width)
}

/// Breaks a text into lines no wider than `room` mm, where Unicode allows a break; a word that is longer than a line is
/// cut between letters. A line feed always breaks.
///
/// # Errors
/// As [`measure`].
pub fn wrap(font: Font, capital: f64, text: &str, room: f64) -> Result<Vec<String>, Fault> {
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut start = 0;
    for (end, kind) in linebreaks(text) {
        if kind == BreakOpportunity::Allowed
            && let Some(next) = stays_together(text.split_at(end))
            && let Some(so_far) = text.get(start..end)
            && width(font, capital, &format!("{so_far}{next}"))? <= room
        {
            continue;
        }
        let piece = text.get(start..end).unwrap_or_default();
        start = end;
        let word = piece.trim_end_matches(['\n', '\r']);
        if !line.is_empty() && width(font, capital, format!("{line}{word}").trim_end())? > room {
            lines.push(std::mem::take(&mut line));
        }
        line.push_str(word);
        cut_long(font, capital, room, &mut line, &mut lines)?;
        if kind == BreakOpportunity::Mandatory {
            lines.push(std::mem::take(&mut line));
        }
    }
    for line in &mut lines {
        line.truncate(line.trim_end().len());
    }
    while lines.last().is_some_and(String::is_empty) {
        lines.pop();
    }
    Ok(lines)
}

/// Units that stay on the line of their figure.
const UNITS: [&str; 17] = [
    "mm", "in", "N", "N·m", "kN", "MPa", "°C", "°F", "µm", "min", "m/min", "mm/rev", "rev/min", "lbf", "degrees",
    "turns", "%",
];

/// The next word, where a break would part a figure from its unit or doubt, or a unit within itself.
fn stays_together<'a>((before, after): (&str, &'a str)) -> Option<&'a str> {
    let word = before.trim_end();
    let next = after.split_whitespace().next().unwrap_or_default();
    let unit = next.trim_end_matches(['.', ',', ';', ':', ')']);
    let figure = word.ends_with(|c: char| c.is_ascii_digit());
    let together = before.ends_with('/') || word.ends_with('±') || (figure && (next == "±" || UNITS.contains(&unit)));
    together.then_some(next)
}

/// Takes full lines off the front of a word that is longer than a line.
fn cut_long(font: Font, capital: f64, room: f64, line: &mut String, lines: &mut Vec<String>) -> Result<(), Fault> {
    while width(font, capital, line.trim_end())? > room {
        let mut head = String::new();
        for c in line.chars() {
            head.push(c);
            if head.chars().nth(1).is_some() && width(font, capital, &head)? > room {
                head.pop();
                break;
            }
        }
        if head.len() >= line.len() {
            return Ok(());
        }
        *line = line.split_off(head.len());
        lines.push(head);
    }
    Ok(())
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
/// [`Fault::TooLong`] if it does not fit at the least size; else as [`measure`].
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
    use super::{CAPITAL, Fault, Font, Room, fit, measure, points, width, wrap};

    #[test]
    fn capitals_are_as_high_in_all_three_fonts() {
        for font in Font::ALL {
            let face = font.face().unwrap();
            let top = face.glyph_bounding_box(face.glyph_index('H').unwrap()).unwrap().y_max;
            assert_eq!(f64::from(top) / f64::from(face.units_per_em()), CAPITAL, "{font:?}");
        }
    }

    /// Source: own: 3.0 mm capitals are 11.7 pt (3 / 0.729 × 72 / 25.4).
    #[test]
    fn three_millimetre_capitals_are_eleven_point_seven() {
        assert_eq!(format!("{:.1}", points(3.0)), "11.7");
    }

    #[test]
    fn figures_are_tabular() {
        for font in Font::ALL {
            let nought = width(font, 3.0, "0").unwrap();
            assert!("123456789".chars().all(|c| (width(font, 3.0, &c.to_string()).unwrap() - nought).abs() < 1e-12));
        }
    }

    #[test]
    fn every_sign_of_the_trade_is_there() {
        for font in Font::ALL {
            measure(font, 3.0, "Ø±µ×°→≤≥₂⁻⌀½−✓▽ Ж Ω ñ Å").unwrap();
        }
    }

    #[test]
    fn what_is_missing_is_listed_once() {
        let Err(Fault::Missing { missing, .. }) = measure(Font::Sans, 3.0, "a漢b漢\u{7}") else {
            panic!("set in silence")
        };
        assert_eq!(missing, ['漢', '\u{7}']);
    }

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
