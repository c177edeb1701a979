//! Blocks: pieces of a page about a corner of their own, each with its height, before anyone knows where they will stand.

use crate::reading::harmless;
use crate::sheet::fonts::{self, Fault, Font, LINE};
use crate::sheet::page::{Anchor, AreaId, Dash, Field, Fill, Ink, Kind, Mark, Page, Paper, Point, Rect, Role, Text};

/// Font, purpose and height of letters.
#[derive(Clone, Copy, Debug)]
pub(super) struct Style {
    pub font: Font,
    pub role: Role,
    /// Height of the capitals, mm.
    pub capital: f64,
}

/// Text.
pub(super) const BODY: Style = Style { font: Font::Sans, role: Role::Body, capital: 3.0 };
/// Text that must be found first.
pub(super) const STRONG: Style = Style { font: Font::Bold, role: Role::Body, capital: 3.0 };
/// Headings.
pub(super) const HEAD: Style = Style { font: Font::Bold, role: Role::Body, capital: 3.2 };
/// Operation, numbers in circles, what is read from the drawing.
pub(super) const DRAWN: Style = Style { font: Font::Bold, role: Role::Drawing, capital: 3.5 };
/// Part, number of the sheet, further targets.
pub(super) const SECOND: Style = Style { font: Font::Bold, role: Role::Second, capital: 5.0 };
/// Spindle step, feed step, dial, first target.
pub(super) const FIGURE: Style = Style { font: Font::Bold, role: Role::Figure, capital: 7.5 };
/// The verdict.
pub(super) const STAMP: Style = Style { font: Font::Bold, role: Role::Stamp, capital: 10.0 };

/// From base line to base line of running text, in heights of the capitals: the least of ISO 3098 is 1.4.
const PITCH: f64 = 1.45;
/// Room under a base line, in heights of the capitals.
const UNDER: f64 = 0.33;
/// Thin line between rows, mm.
pub(super) const HAIR: f64 = 0.18;
/// Least air between the letters of two lines, mm.
const AIR: f64 = 0.12;
const _: () = assert!(PITCH < LINE && PITCH >= 1.4);

impl Style {
    /// Width of a line in this style, mm.
    pub(super) fn width(self, text: &str) -> Result<f64, Fault> {
        fonts::width(self.font, self.capital, text)
    }

    /// A text broken to a width, one line a string.
    pub(super) fn wrap(self, text: &str, width: f64) -> Result<Vec<String>, Fault> {
        fonts::wrap(self.font, self.capital, &plain(text), width)
    }

    /// The first of these lines, no more than so many.
    pub(super) fn first_lines(self, text: &str, width: f64, most: usize) -> Result<Vec<String>, Fault> {
        fonts::first_lines(self.font, self.capital, &plain(text), (width, most))
    }
}

/// A text as one line of words: [`harmless`], line ends and tabs as one space, so that a name in two lines is one line.
pub(super) fn in_line(text: &str) -> String {
    if is_plain(text) && !text.contains('`') {
        return text.to_owned();
    }
    let ends = |c: char| matches!(c, '\t'..='\r' | '\u{85}' | '\u{2028}' | '\u{2029}');
    harmless(&text.split(ends).filter(|part| !part.is_empty()).collect::<Vec<_>>().join(" "))
}

/// Whether a text is letters that every font has and no reader is led by.
fn is_plain(text: &str) -> bool {
    text.bytes().all(|byte| matches!(byte, b' '..=b'~')) || text.chars().all(is_usual)
}

/// The letters of a typewriter, those of western Europe, and the signs that sheets are full of.
const fn is_usual(c: char) -> bool {
    matches!(c, ' '..='~' | '¡'..='¬' | '®'..='ÿ' | '•' | '\u{2212}' | '→' | '≤' | '≥')
}

/// Opens and closes the number of a sign that the letters of a sheet lack.
pub(super) const NUMBERED: [char; 2] = ['⟨', '⟩'];

/// A text as it may stand on a page: in one line, a figure under nought with its own sign, and a sign that the letters lack as its
/// number.
pub(super) fn plain(text: &str) -> String {
    if is_plain(text) && !text.contains('`') {
        return with_minus(text);
    }
    let [open, close] = NUMBERED;
    let mut plain = String::with_capacity(text.len());
    for c in in_line(text).chars() {
        match fonts::lacks(c) {
            Ok(true) => plain += &format!("{open}U+{:04X}{close}", u32::from(c)),
            // What is typed in a file stands between quotes on paper.
            _ if c == '`' => plain.push('"'),
            // Letters that cannot be read at all are met where the text is measured.
            _ => plain.push(c),
        }
    }
    with_minus(&plain)
}

/// A text with the sign of a figure under nought in the place of the hyphen that stands for it: before a digit, behind a space or a
/// bracket.
fn with_minus(text: &str) -> String {
    let is_sign = |at: usize| {
        let (before, rest) = text.split_at(at);
        before.chars().next_back().is_none_or(|c| matches!(c, ' ' | '(' | '['))
            && rest.as_bytes().get(1).is_some_and(u8::is_ascii_digit)
    };
    let piece = |from: usize, to: usize| text.get(from..to).unwrap_or_default();
    let (mut said, mut from) = (String::with_capacity(text.len() + 2), 0);
    for (at, _) in text.match_indices('-').filter(|(at, _)| is_sign(*at)) {
        said.push_str(piece(from, at));
        said.push('\u{2212}');
        from = at + 1;
    }
    said.push_str(piece(from, text.len()));
    said
}

/// A piece of a page.
#[derive(Clone, Debug)]
pub(super) struct Block {
    scratch: Page,
    area: AreaId,
    /// Height, mm.
    pub height: f64,
    /// Whether what follows must stand on the same page.
    pub keep: bool,
    /// What it was made of, where it may be parted.
    ladder: Option<Box<Ladder>>,
}

/// Rows of one height under a head, in columns that are read down.
#[derive(Clone, Debug)]
pub(super) struct Ladder {
    /// Stands over them, and over those that go on elsewhere.
    pub head: Block,
    /// Where the first row begins, mm from the top of the head.
    pub top: f64,
    /// Where each column begins, mm.
    pub columns: Vec<f64>,
    /// The rows, in their order.
    pub rows: Vec<Block>,
}

impl Ladder {
    /// How many rows go down a column.
    fn down(&self) -> usize {
        self.rows.len().div_ceil(self.columns.len().max(1))
    }

    fn row_height(&self) -> f64 {
        self.rows.iter().map(|row| row.height).fold(0.0, f64::max)
    }
}

impl Block {
    /// An empty block, `height` mm high.
    pub(super) fn new(height: f64) -> Self {
        let mut scratch = Page::new(Paper::A4);
        let area = scratch.area("", Rect::new(0.0, 0.0, 0.0, 0.0));
        Self { scratch, area, height, keep: false, ladder: None }
    }

    /// A ladder: down one column and then the next, so that no row stands under one that comes after it.
    pub(super) fn ladder(ladder: Ladder) -> Self {
        let mut block = ladder.head.clone();
        let (down, high) = (ladder.down(), ladder.row_height());
        for at in 0..down {
            let mut line = Self::new(high);
            for (column, x) in ladder.columns.iter().enumerate() {
                if let Some(row) = ladder.rows.get(column * down + at) {
                    line.set(row.clone(), *x, 0.0);
                }
            }
            line.wrap(Kind::Row, false);
            line.wrap(Kind::Table, true);
            block.set(line, 0.0, ladder.top + at as f64 * high);
        }
        block.height = block.height.max(ladder.top + down as f64 * high);
        block.ladder = Some(Box::new(ladder));
        block
    }

    /// A ladder parted at a height: as many rows as have room there under its head, and the others under the same head again.
    /// Nothing of what is no ladder, and where no row has room.
    pub(super) fn parted(&self, room: f64) -> Option<(Self, Self)> {
        let ladder = self.ladder.as_ref().filter(|ladder| ladder.head.height <= room)?;
        let down = ((room - ladder.top) / ladder.row_height() + 1e-9).floor().max(0.0) as usize;
        let here = (down * ladder.columns.len()).min(ladder.rows.len());
        if here == 0 || here == ladder.rows.len() {
            return None;
        }
        let (now, later) = ladder.rows.split_at(here);
        let of = |rows: &[Self]| Self::ladder(Ladder { rows: rows.to_vec(), ..(**ladder).clone() });
        Some((of(now), Self { keep: self.keep, ..of(later) }))
    }

    /// A block from what was drawn elsewhere about `corner`.
    pub(super) fn of_page(page: &Page, corner: Point, height: f64) -> Self {
        let mut block = Self::new(height);
        block.scratch.put(page, block.area, -corner.x, -corner.y, None);
        block
    }

    /// Opens an element of the reading order: what is set until [`Self::close`] belongs to it.
    pub(super) fn open(&mut self, kind: Kind) {
        self.scratch.open(kind);
    }

    /// Opens an element whose letters or lines stand for `text`.
    pub(super) fn open_as(&mut self, kind: Kind, text: &'static str) {
        self.scratch.open_as(kind, text);
    }

    /// Says what is filled in where the element opened last stands, and its name.
    pub(super) fn with_field(&mut self, field: Field, name: &str) {
        self.scratch.with_field(field, name);
    }

    /// Closes the element opened last.
    pub(super) fn close(&mut self) {
        self.scratch.close();
    }

    /// Makes all that is set part of one element; where that `goes_on`, with the one of its kind in the block before.
    pub(super) fn wrap(&mut self, kind: Kind, goes_on: bool) {
        self.scratch.wrap(kind, goes_on);
    }

    /// An element that is heard and not seen.
    pub(super) fn unseen(&mut self, kind: Kind, at: Point, text: &'static str) -> Result<(), Fault> {
        self.open_as(kind, text);
        let set = self.text(at, Anchor::Left, BODY, "");
        self.close();
        set.map(|_| ())
    }

    /// Words that are read before all that is set so far; as an element of their own where a kind is given, and then for what
    /// they stand for.
    pub(super) fn lead(
        &mut self,
        kind: Option<(Kind, Option<&'static str>)>,
        at: Point,
        (anchor, style): (Anchor, Style),
        text: &str,
    ) -> Result<(), Fault> {
        self.text(at, anchor, style, text)?;
        match kind {
            Some((kind, means)) => self.scratch.lead_as(kind, means),
            None => self.scratch.lead_with(self.scratch.marks.len() - 1, true),
        }
        Ok(())
    }

    /// One line of words at a place of its base line.
    pub(super) fn text(&mut self, at: Point, anchor: Anchor, style: Style, text: &str) -> Result<Rect, Fault> {
        self.scratch.text(self.area, at, anchor, Text::new(style.font, style.role, style.capital, plain(text)))
    }

    /// Lines of words under each other from `top`; gives back where they end. Lines with tall letters stand further apart.
    pub(super) fn lines(&mut self, x: f64, top: f64, style: Style, lines: &[String]) -> Result<f64, Fault> {
        let mut base = None;
        let mut end = top;
        for line in lines {
            let text = Text::new(style.font, style.role, style.capital, plain(line));
            let size = fonts::measure(style.font, style.capital, &text.text)?;
            let wished = base.map_or(top + style.capital, |base| base + PITCH * style.capital);
            let here = f64::max(wished, end + size.above + AIR);
            let here = if base.is_none() { f64::max(wished, top + size.above) } else { here };
            self.scratch.measured(self.area, Point::new(x, here), Anchor::Left, (text, size));
            end = here + size.below;
            base = Some(here);
        }
        Ok(base.map_or(top, |base| end.max(base + UNDER * style.capital)))
    }

    /// A block of one line in pieces, each an item of a list that begins at a mark; the first goes on with the item before
    /// where `goes_on` says so, which then says it for the next line.
    pub(super) fn in_items(mut self, mark: &str, goes_on: &mut bool) -> Result<Self, Fault> {
        let Some(Mark { ink: Ink::Text(whole), .. }) = self.scratch.marks.pop() else { return Ok(self) };
        let style = Style { font: whole.font, role: whole.role, capital: whole.capital };
        let mut x = whole.at.x;
        for (at, piece) in whole.text.split_inclusive(mark).enumerate() {
            let mut item = Self::new(0.0);
            let end = item.text(Point::new(x, whole.at.y), Anchor::Left, style, piece)?.right;
            x = end;
            item.wrap(Kind::Body, at == 0 && *goes_on);
            item.wrap(Kind::Item, at == 0 && *goes_on);
            self.set(item, 0.0, 0.0);
            *goes_on = !piece.trim_end().ends_with(mark.trim_end());
        }
        Ok(self)
    }

    /// A text broken to a width; gives back where it ends.
    pub(super) fn paragraph(&mut self, x: f64, top: f64, width: f64, style: Style, text: &str) -> Result<f64, Fault> {
        let lines = style.wrap(text, width)?;
        self.lines(x, top, style, &lines)
    }

    /// Right end of its ink, mm.
    pub(super) fn right(&self) -> f64 {
        self.scratch.marks.iter().map(|mark| mark.bounds.right).fold(0.0, f64::max)
    }

    /// A straight line.
    pub(super) fn line(&mut self, from: Point, to: Point, width: f64) {
        self.scratch.line(self.area, vec![from, to], width, Dash::Whole);
    }

    /// A run of lines.
    pub(super) fn run(&mut self, points: Vec<Point>, width: f64, dash: Dash) {
        self.scratch.line(self.area, points, width, dash);
    }

    /// A closed shape.
    pub(super) fn polygon(&mut self, points: Vec<Point>, fill: Fill, stroke: f64) {
        self.scratch.polygon(self.area, points, fill, Some(stroke));
    }

    /// A rectangle.
    pub(super) fn rectangle(&mut self, room: Rect, fill: Fill, stroke: Option<f64>) {
        self.scratch.rectangle(self.area, room, fill, stroke);
    }

    /// Another block with its corner at a place of this one.
    pub(super) fn set(&mut self, other: Self, x: f64, y: f64) {
        self.scratch.take(other.scratch, self.area, x, y, None);
    }

    /// How many open frames it has, as blanks are, and how many words.
    pub(super) fn frames_and_texts(&self) -> (usize, usize) {
        let of = |is: fn(&Ink) -> bool| self.scratch.marks.iter().filter(|mark| is(&mark.ink)).count();
        let is_frame = |ink: &Ink| matches!(ink, Ink::Polygon { fill: Fill::None, .. });
        (of(is_frame), of(|ink| matches!(ink, Ink::Text(_))))
    }

    /// Whether something in it rests on memory.
    pub(super) fn marks_memory(&self) -> bool {
        let of = |mark: &Mark| matches!(&mark.ink, Ink::Text(text) if crate::sheet::words::marks_memory(&text.text));
        self.scratch.marks.iter().any(of)
    }

    /// Puts the block on a page; words that belong to no element become one of the kind `loose`.
    pub(super) fn onto(self, page: &mut Page, area: AreaId, (x, y): (f64, f64), loose: Kind) {
        page.take(self.scratch, area, x, y, Some(loose));
    }
}

/// Makes rows that follow each other one element.
pub(super) fn as_one(rows: &mut [Block], kind: Kind) {
    for (at, row) in rows.iter_mut().enumerate() {
        row.wrap(kind, at > 0);
    }
}

/// Makes rows an item of a list, which goes on with the list before it.
pub(super) fn as_item(rows: &mut [Block]) {
    as_one(rows, Kind::Item);
    for row in rows {
        row.wrap(Kind::List, true);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What is taken as it stands is what the whole way leaves as it is.
    #[test]
    fn usual_letters_are_in_every_font_and_lead_nobody() {
        for c in ('\0'..'\u{3000}').filter(|c| is_usual(*c)) {
            assert!(fonts::lacks(c) == Ok(false) && harmless(&c.to_string()) == c.to_string(), "{c:?}");
        }
        let signs = "-1 to (-2), [-3] a-4 5-6 - 7 -";
        assert_eq!(plain(signs), "\u{2212}1 to (\u{2212}2), [\u{2212}3] a-4 5-6 - 7 -");
    }

    #[test]
    fn lines_with_tall_letters_never_touch() {
        let mut block = Block::new(0.0);
        let lines = ["gÇgỹ".to_owned(), "Ấg".to_owned(), "Ǟ".to_owned()];
        let end = block.lines(0.0, 0.0, BODY, &lines).unwrap();
        let bounds: Vec<Rect> = block.scratch.marks.iter().map(|m| m.bounds).collect();
        assert!(bounds.windows(2).all(|pair| pair[0].bottom <= pair[1].top));
        assert!(bounds[0].top >= 0.0 && bounds[2].bottom <= end);
    }

    #[test]
    fn a_name_in_two_lines_is_one_line_of_words() {
        assert_eq!(plain("drive\n\tside\r\n"), "drive side");
    }

    #[test]
    fn a_figure_under_nought_has_the_sign_of_one() {
        assert_eq!(
            plain("1.642 − (-1.393), -0.2 to 2026-11-28, M5-0.8, --working"),
            "1.642 − (−1.393), −0.2 to 2026-11-28, M5-0.8, --working"
        );
    }

    #[test]
    fn a_sign_that_the_letters_lack_stands_as_its_number() {
        assert_eq!(plain("漢 Ж ᵐ ⟨x⟩"), "⟨U+6F22⟩ Ж ᵐ ⟨x⟩");
        assert_eq!(plain(&plain("漢\u{202e}")), "⟨U+6F22⟩");
    }
}
