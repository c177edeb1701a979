//! Letters: their widths, the characters that they lack, and how a text is broken or made smaller to fit.
//!
//! DejaVu Sans Condensed, its Bold, and Sans Mono, from the `dejavu` package. Sizes are given as the height of the
//! capitals in millimetres, because that is what the eye reads by; figures are tabular in all three.

mod lines;

pub use lines::{Fitted, Room, first_lines, fit, wrap};

use std::sync::OnceLock;
use ttf_parser::Face;
use ttf_parser::cmap::Subtable;

/// Height of the capitals over the em: 1493 / 2048 in each of the three fonts (top of their H).
pub(crate) const CAPITAL: f64 = 1493.0 / 2048.0;

/// From base line to base line, in heights of the capitals (ISO 3098: not under 14/10).
pub(crate) const LINE: f64 = 1.6;

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
const BLOCK: usize = 32;

/// Blocks that are kept: letters of Europe, Greek, Cyrillic, signs of the trade. What stands beyond is rare, and looked up each time.
const BLOCKS: usize = 0x3000 / BLOCK;

/// Signs of a typewriter.
const TYPED: usize = 128;

/// A font read, with what each letter covers: a letter is looked up once, whatever is written with it.
struct Read {
    face: Face<'static>,
    /// Its lists of signs, found once.
    signs: Vec<Subtable<'static>>,
    blocks: [OnceLock<Box<[Option<Letter>; BLOCK]>>; BLOCKS],
    /// Those of a typewriter, which nearly every text is made of.
    typed: OnceLock<Box<[Option<Letter>; TYPED]>>,
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
    fn new(face: Face<'static>) -> Self {
        let lists = face.tables().cmap.iter().flat_map(|cmap| cmap.subtables);
        let signs = lists.filter(Subtable::is_unicode).collect();
        let blocks = [const { OnceLock::new() }; BLOCKS];
        Self { face, signs, blocks, typed: OnceLock::new(), beyond: OnceLock::new() }
    }

    /// What each letter of a text covers.
    fn letters<'a>(&'a self, text: &'a str) -> impl Iterator<Item = Option<Letter>> + 'a {
        let typed = self.typed();
        text.chars().map(|c| typed.get(c as usize).copied().unwrap_or_else(|| self.letter(c)))
    }

    fn typed(&self) -> &[Option<Letter>; TYPED] {
        self.typed.get_or_init(|| {
            let mut typed = Box::new([None; TYPED]);
            typed.iter_mut().zip('\0'..).for_each(|(letter, c)| *letter = self.look_up(c));
            typed
        })
    }

    fn letter(&self, c: char) -> Option<Letter> {
        let at = c as usize;
        if let Some(letter) = self.typed().get(at) {
            return *letter;
        }
        let Some(block) = self.blocks.get(at / BLOCK) else { return self.look_up(c) };
        let block = block.get_or_init(|| self.block(at / BLOCK));
        block.get(at % BLOCK).copied().flatten()
    }

    fn block(&self, number: usize) -> Box<[Option<Letter>; BLOCK]> {
        let first = u32::try_from(number * BLOCK).unwrap_or(u32::MAX);
        let mut block = Box::new([None; BLOCK]);
        for (at, letter) in (first..).zip(block.iter_mut()) {
            *letter = char::from_u32(at).and_then(|c| self.look_up(c));
        }
        block
    }

    /// What the font says of a character. The box stands at the head of its outline: no outline is read.
    fn look_up(&self, c: char) -> Option<Letter> {
        let glyph = self.signs.iter().find_map(|list| list.glyph_index(u32::from(c)))?;
        let advance = self.face.glyph_hor_advance(glyph).unwrap_or(0);
        let ink = self.face.tables().glyf.and_then(|outlines| outlines.bbox(glyph));
        let (top, bottom) = ink.map_or((0, 0), |ink| (ink.y_max, ink.y_min));
        Some(Letter { advance, top, bottom })
    }

    fn beyond(&self) -> &[char] {
        self.beyond.get_or_init(|| {
            let mut all = Vec::new();
            for list in &self.signs {
                list.codepoints(|at| all.extend(char::from_u32(at).filter(|c| u32::from(*c) >= BEYOND)));
            }
            all.sort_unstable();
            all.dedup();
            all
        })
    }
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
    Ok(codes(font)?(c))
}

/// The same for many characters of one font.
pub(super) fn codes(font: Font) -> Result<impl Fn(char) -> Option<u16>, Fault> {
    let read = font.read()?;
    Ok(move |c| {
        if let Ok(code) = u16::try_from(u32::from(c)) {
            return read.letter(c).map(|_| code);
        }
        let place = read.beyond().binary_search(&c).ok();
        place.and_then(|at| u16::try_from(at).ok()).filter(|at| *at < 2048).map(|at| UNGIVEN + at)
    })
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
pub(crate) fn em(capital: f64) -> f64 {
    capital / CAPITAL
}

/// Whether the letters of running text, or the bold ones, have no glyph for a sign.
///
/// # Errors
/// [`Fault::Unreadable`].
pub fn lacks(c: char) -> Result<bool, Fault> {
    if matches!(c, ' '..='~') {
        return Ok(false);
    }
    Ok(Font::Sans.read()?.letter(c).is_none() || Font::Bold.read()?.letter(c).is_none())
}

/// What a single line covers.
///
/// # Errors
/// [`Fault::Missing`] with every character that the font lacks.
pub fn measure(font: Font, capital: f64, text: &str) -> Result<Extent, Fault> {
    let read = font.read()?;
    let (mut advance, mut top, mut bottom, mut all) = (0_u32, 0_i16, 0_i16, true);
    for letter in read.letters(text) {
        match letter {
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

#[cfg(test)]
mod tests {
    use super::{CAPITAL, Fault, Font, code, measure, width};

    #[test]
    fn capitals_are_as_high_in_all_three_fonts() {
        for font in Font::ALL {
            let face = font.face().unwrap();
            let top = face.glyph_bounding_box(face.glyph_index('H').unwrap()).unwrap().y_max;
            assert_eq!(f64::from(top) / f64::from(face.units_per_em()), CAPITAL, "{font:?}");
        }
    }

    /// The box at the head of an outline is that of the outline, up to 128 of its 2048 units (a quarter of a millimetre in body text, of signs that no
    /// sheet is made of; 2 units for the letters and figures that every sheet is made of), and every sign has a number of its own.
    #[test]
    fn the_boxes_of_the_letters_are_those_of_their_outlines() {
        for font in Font::ALL {
            let read = font.read().unwrap();
            let (mut letters, mut codes) = (0, std::collections::BTreeSet::new());
            for c in '\0'..'\u{20000}' {
                let Some(letter) = read.letter(c) else { continue };
                let glyph = read.face.glyph_index(c).unwrap();
                let ink = read.face.glyph_bounding_box(glyph).map_or((0, 0), |ink| (ink.y_max, ink.y_min));
                let off = letter.top.abs_diff(ink.0).max(letter.bottom.abs_diff(ink.1));
                let most = if c < '\u{250}' { 2 } else { 128 };
                assert!(off <= most, "{font:?} {c:?} {off}");
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
            measure(font, 3.0, &(' '..='~').collect::<String>()).unwrap();
        }
    }

    #[test]
    fn what_is_missing_is_listed_once() {
        let Err(Fault::Missing { missing, .. }) = measure(Font::Sans, 3.0, "a漢b漢\u{7}") else {
            panic!("set in silence")
        };
        assert_eq!(missing, ['漢', '\u{7}']);
    }
}
