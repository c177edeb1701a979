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

/// Signs of a block: a block of the font is looked up when the first of its signs is met.
const BLOCK: usize = 256;

/// Blocks that are kept: the two planes of Unicode that hold letters and signs.
const BLOCKS: usize = 0x2_0000 / BLOCK;

/// A font read, with what each letter covers: a letter is looked up once, whatever is written with it.
struct Read {
    face: Face<'static>,
    blocks: [OnceLock<Box<[Option<Letter>; BLOCK]>>; BLOCKS],
    /// The signs beyond the first plane, in order: see [`code`].
    beyond: OnceLock<Vec<char>>,
}

/// What a character covers, in units of the font.
#[derive(Clone, Copy)]
struct Letter {
    advance: u16,
    top: i16,
    bottom: i16,
}

impl Read {
    const fn new(face: Face<'static>) -> Self {
        Self { face, blocks: [const { OnceLock::new() }; BLOCKS], beyond: OnceLock::new() }
    }

    fn letter(&self, c: char) -> Option<Letter> {
        let at = c as usize;
        let Some(block) = self.blocks.get(at / BLOCK) else { return look_up(&self.face, c) };
        let block = block.get_or_init(|| self.block(at / BLOCK));
        block.get(at % BLOCK).copied().flatten()
    }

    fn block(&self, number: usize) -> Box<[Option<Letter>; BLOCK]> {
        let first = u32::try_from(number * BLOCK).unwrap_or(u32::MAX);
        let mut block = Box::new([None; BLOCK]);
        for (at, letter) in (first..).zip(block.iter_mut()) {
            *letter = char::from_u32(at).and_then(|c| look_up(&self.face, c));
        }
        block
    }

    fn beyond(&self) -> &[char] {
        self.beyond.get_or_init(|| {
            let mut all = Vec::new();
            for table in self.face.tables().cmap.iter().flat_map(|cmap| cmap.subtables) {
                if table.is_unicode() {
                    table.codepoints(|at| all.extend(char::from_u32(at).filter(|c| u32::from(*c) >= BEYOND)));
                }
            }
            all.sort_unstable();
            all.dedup();
            all
        })
    }
}

/// What a font says of a character. The box stands at the head of its outline: no outline is read.
fn look_up(face: &Face<'_>, c: char) -> Option<Letter> {
    let glyph = face.glyph_index(c)?;
    let advance = face.glyph_hor_advance(glyph).unwrap_or(0);
    let ink = face.tables().glyf.and_then(|outlines| outlines.bbox(glyph));
    let (top, bottom) = ink.map_or((0, 0), |ink| (ink.y_max, ink.y_min));
    Some(Letter { advance, top, bottom })
}

/// The first sign beyond the first plane of Unicode.
const BEYOND: u32 = 0x1_0000;

/// The first of the numbers that Unicode gives to no sign; there are 2048 of them.
const UNGIVEN: u16 = 0xD800;

/// The number of a character in the files that are written: its number in Unicode, and for those that have none of two bytes, in
/// order, the numbers that no character has. It is the same in every file, whatever else is written.
///
/// # Errors
/// [`Fault::Unreadable`].
pub fn code(font: Font, c: char) -> Result<Option<u16>, Fault> {
    let read = font.read()?;
    if let Ok(code) = u16::try_from(u32::from(c)) {
        return Ok(read.letter(c).map(|_| code));
    }
    let place = read.beyond().binary_search(&c).ok();
    Ok(place.and_then(|at| u16::try_from(at).ok()).filter(|at| *at < 2048).map(|at| UNGIVEN + at))
}

/// The character of a [`code`].
///
/// # Errors
/// [`Fault::Unreadable`].
pub fn sign(font: Font, code: u16) -> Result<Option<char>, Fault> {
    match char::from_u32(u32::from(code)) {
        Some(c) => Ok(Some(c)),
        None => Ok(font.read()?.beyond().get(usize::from(code.saturating_sub(UNGIVEN))).copied()),
    }
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
    let (mut advance, mut top, mut bottom, mut all) = (0_u32, 0_i16, 0_i16, true);
    for c in text.chars() {
        match read.letter(c) {
            Some(letter) => {
                advance += u32::from(letter.advance);
                top = top.max(letter.top);
                bottom = bottom.min(letter.bottom);
            }
            None => all = false,
        }
    }
    if !all {
        return Err(missing(font, read, text));
    }
    let unit = em(capital) / f64::from(read.face.units_per_em());
    let (above, below) = (capital.max(f64::from(top) * unit), -f64::from(bottom) * unit);
    Ok(Extent { width: f64::from(advance) * unit, above, below })
}

fn missing(font: Font, read: &Read, text: &str) -> Fault {
    let mut missing: Vec<char> = Vec::new();
    for c in text.chars() {
        if read.letter(c).is_none() && !missing.contains(&c) {
            missing.push(c);
        }
    }
    Fault::Missing { font, text: text.to_owned(), missing }
}

/// Width of a single line, mm.
///
/// # Errors
/// As [`measure`].
pub fn width(font: Font, capital: f64, text: &str) -> Result<f64, Fault> {
    measure(font, capital, text).map(|size| size.width)
}

/// A text whose letters were each looked up once: any piece of it is measured by a subtraction.
struct Ruler<'a> {
    text: &'a str,
    /// Units of the font up to each byte that begins a letter.
    up_to: Vec<u32>,
    unit: f64,
}

impl<'a> Ruler<'a> {
    fn new(font: Font, capital: f64, text: &'a str) -> Result<Self, Fault> {
        let read = font.read()?;
        let mut up_to = vec![0; text.len() + 1];
        let (mut sum, mut all) = (0, true);
        for (at, c) in text.char_indices() {
            match read.letter(c) {
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
        Ok(Self { text, up_to, unit: em(capital) / f64::from(read.face.units_per_em()) })
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
/// As [`measure`].
pub fn wrap(font: Font, capital: f64, text: &str, room: f64) -> Result<Vec<String>, Fault> {
    let ruler = Ruler::new(font, capital, text)?;
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
    }
    let mut lines: Vec<String> = lines.into_iter().map(|line| line.trim_end().to_owned()).collect();
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

/// The length of the next word with what stands before it, where a break would part a figure from its unit or doubt, or a unit
/// within itself.
fn stays_together((before, after): (&str, &str)) -> Option<usize> {
    let word = before.trim_end();
    let next = after.split_whitespace().next().unwrap_or_default();
    let unit = next.trim_end_matches(['.', ',', ';', ':', ')']);
    let figure = word.ends_with(|c: char| c.is_ascii_digit());
    let together = before.ends_with('/') || word.ends_with('±') || (figure && (next == "±" || UNITS.contains(&unit)));
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
    use super::{CAPITAL, Fault, Font, Room, code, fit, measure, points, width, wrap};

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

    /// The box at the head of an outline is the box of the outline, and every sign has a number of its own.
    #[test]
    fn the_boxes_of_the_letters_are_those_of_their_outlines() {
        for font in Font::ALL {
            let read = font.read().unwrap();
            let (mut letters, mut codes) = (0, std::collections::BTreeSet::new());
            for c in '\0'..'\u{20000}' {
                let Some(letter) = read.letter(c) else { continue };
                let glyph = read.face.glyph_index(c).unwrap();
                let ink = read.face.glyph_bounding_box(glyph).map_or((0, 0), |ink| (ink.y_max, ink.y_min));
                assert_eq!((letter.top, letter.bottom), ink, "{font:?} {c:?}");
                assert!(codes.insert(code(font, c).unwrap().unwrap()), "{font:?} {c:?}");
                letters += 1;
            }
            assert!(letters > 2000, "{font:?} has {letters}");
        }
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
