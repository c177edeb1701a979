//! A page's marks as the stream that draws them.

use super::file::escaped;
use super::letters::Used;
use super::{Fault, POINTS, tags};
use crate::sheet::fonts::{self, Font};
use crate::sheet::page::{Dash, ElementId, Fill, Ink, Page, Point, Text};

/// Largest coordinate that a stream holds, mm: far off any paper, and small enough to be written exactly.
const FARTHEST: f64 = 1e6;

/// A stream in the making. It remembers pen and fill so that it says only what changes.
struct Writer {
    out: Vec<u8>,
    height: f64,
    used: Used,
    width: f64,
    dash: Dash,
    grey: u8,
    /// Font and height of the letters set last.
    letters: Option<(Font, u64)>,
}

/// The stream of a page, the letters that it uses, and the element of each of its marked pieces.
///
/// # Errors
/// A mark that is not finite (`number` is the page's, counted from 1), a sign that no font has.
pub(super) fn stream(page: &Page, number: usize) -> Result<(Vec<u8>, Used, Vec<ElementId>), Fault> {
    let mut writer = Writer::new(page.paper.size().1, page.marks.len() * 80);
    let (mut marked, mut piece) = (Vec::new(), None);
    // Millimetres from here on; round ends and corners.
    writer.out.extend_from_slice(format!("{POINTS:.6} 0 0 {POINTS:.6} 0 0 cm 1 J 1 j\n").as_bytes());
    for (mark, nth) in page.marks.iter().zip(1..) {
        // Marks of one element that follow each other are one piece; so is decoration.
        if piece != Some(mark.element) {
            writer.close(piece.is_some());
            writer.open(page, mark.element, &mut marked);
            piece = Some(mark.element);
        }
        let goes_on = page.marks.get(nth).is_some_and(|next| next.element == mark.element && tags::is_text(&next.ink));
        writer.mark(&mark.ink, goes_on)?.ok_or(Fault::NotFinite { page: number, mark: nth })?;
    }
    writer.close(piece.is_some());
    Ok((writer.out, writer.used, marked))
}

impl Writer {
    fn new(height: f64, room: usize) -> Self {
        let (width, dash, grey) = (f64::NAN, Dash::Whole, 100);
        Self { out: Vec::with_capacity(room), height, used: Used::default(), width, dash, grey, letters: None }
    }

    /// Begins a piece: of an element, or of what is not read.
    fn open(&mut self, page: &Page, element: Option<ElementId>, marked: &mut Vec<ElementId>) {
        match element.and_then(|id| Some((id, page.element_of(id)?))) {
            Some((id, element)) => {
                tags::opening(&mut self.out, element, marked.len());
                marked.push(id);
            }
            None => self.out.extend_from_slice(b"/Artifact BMC\n"),
        }
    }

    /// Ends a piece, where one was begun.
    fn close(&mut self, begun: bool) {
        if begun {
            self.out.extend_from_slice(b"EMC\n");
        }
    }

    /// Nothing where it is not finite. `goes_on`: more words of the same piece follow.
    fn mark(&mut self, ink: &Ink, goes_on: bool) -> Result<Option<()>, Fault> {
        Ok(match ink {
            Ink::Text(text) => return self.text(text, goes_on),
            Ink::Line { points, width, dash } => self.line(points, *width, *dash),
            Ink::Polygon { points, fill, stroke } => self.polygon(points, *fill, *stroke),
        })
    }

    fn line(&mut self, points: &[Point], width: f64, dash: Dash) -> Option<()> {
        self.pen(width, dash)?;
        self.path(points)?;
        self.out.extend_from_slice(b"S\n");
        Some(())
    }

    fn polygon(&mut self, points: &[Point], fill: Fill, stroke: Option<f64>) -> Option<()> {
        if let Some(width) = stroke {
            self.pen(width, Dash::Whole)?;
        }
        match fill {
            Fill::None => {}
            Fill::White => self.fill(0),
            Fill::Grey(grey) => self.fill(grey),
            Fill::Ink => self.fill(100),
        }
        let paint: &[u8] = match (fill, stroke) {
            (Fill::None, None) => return Some(()),
            (Fill::None, Some(_)) => b"s\n",
            (_, None) => b"f*\n",
            (_, Some(_)) => b"b*\n",
        };
        self.outline(points)?;
        self.out.extend_from_slice(paint);
        Some(())
    }

    /// Words. Where more follow, a space is set behind them, which parts the words of two lines for whoever hears them.
    fn text(&mut self, text: &Text, goes_on: bool) -> Result<Option<()>, Fault> {
        self.fill(100);
        self.out.extend_from_slice(b"BT ");
        let size = self.letters(text.font, text.capital);
        let place = self.place(text.at);
        self.out.extend_from_slice(b"Td (");
        let code = fonts::codes(text.font)?;
        let parted = goes_on && !text.text.ends_with(' ');
        for c in text.text.chars().chain(parted.then_some(' ')) {
            let Some(code) = code(c) else {
                let (font, text, missing) = (text.font, text.text.clone(), vec![c]);
                return Err(Fault::Letters(fonts::Fault::Missing { font, text, missing }));
            };
            self.used.take(text.font, code);
            code.to_be_bytes().into_iter().for_each(|byte| escaped(&mut self.out, byte));
        }
        self.out.extend_from_slice(b") Tj ET\n");
        Ok(size.and(place))
    }

    /// Takes a font in a height: a reader keeps both until they change.
    fn letters(&mut self, font: Font, capital: f64) -> Option<()> {
        if self.letters != Some((font, capital.to_bits())) {
            self.out.push(b'/');
            self.out.extend_from_slice(super::letters::key(font).as_bytes());
            self.out.push(b' ');
            self.number(fonts::em(capital))?;
            self.out.extend_from_slice(b" Tf ");
            self.letters = Some((font, capital.to_bits()));
        }
        Some(())
    }

    /// The path of a closed shape: an upright rectangle by a corner, its width and its height.
    fn outline(&mut self, points: &[Point]) -> Option<()> {
        match points {
            [a, b, c, d] if (a.y, b.x, c.y, d.x) == (b.y, c.x, d.y, a.x) => {
                self.place(*a)?;
                self.number(c.x - a.x)?;
                self.out.push(b' ');
                self.number(a.y - c.y)?;
                self.out.extend_from_slice(b" re ");
                Some(())
            }
            _ => self.path(points),
        }
    }

    fn path(&mut self, points: &[Point]) -> Option<()> {
        for (i, point) in points.iter().enumerate() {
            self.place(*point)?;
            self.out.extend_from_slice(if i == 0 { b"m " } else { b"l " });
        }
        Some(())
    }

    fn pen(&mut self, width: f64, dash: Dash) -> Option<()> {
        if width.to_bits() != self.width.to_bits() {
            self.number(width)?;
            self.out.extend_from_slice(b" w\n");
            self.width = width;
        }
        if dash != self.dash {
            self.out.push(b'[');
            self.out.extend_from_slice(dash.lengths().as_bytes());
            self.out.extend_from_slice(b"] 0 d\n");
            self.dash = dash;
        }
        Some(())
    }

    /// Sets the fill in hundredths of black.
    fn fill(&mut self, grey: u8) {
        if grey != self.grey {
            let white = 100 - grey.min(100);
            self.out.extend_from_slice(format!("{}.{:02} g\n", white / 100, white % 100).as_bytes());
            self.grey = grey;
        }
    }

    fn place(&mut self, p: Point) -> Option<()> {
        self.number(p.x)?;
        self.out.push(b' ');
        self.number(self.height - p.y)?;
        self.out.push(b' ');
        Some(())
    }

    /// A number in thousandths of a millimetre, without needless noughts; never a minus nought.
    fn number(&mut self, value: f64) -> Option<()> {
        if !value.is_finite() || value.abs() > FARTHEST {
            return None;
        }
        // Rounded as `round` does, which calls the library for it.
        let thousandths = (value * 1000.0 + 0.5_f64.copysign(value)) as i64;
        if thousandths < 0 {
            self.out.push(b'-');
        }
        let (whole, mut part) = (thousandths.unsigned_abs() / 1000, thousandths.unsigned_abs() % 1000);
        match whole {
            0..10 => self.out.push(digit(whole as u8)),
            10..100 => self.out.extend([whole / 10, whole % 10].map(|n| digit(n as u8))),
            100..1000 => self.out.extend([whole / 100, whole / 10 % 10, whole % 10].map(|n| digit(n as u8))),
            _ => self.out.extend_from_slice(itoa::Buffer::new().format(whole).as_bytes()),
        }
        if part > 0 {
            self.out.push(b'.');
        }
        while part > 0 {
            self.out.push(digit((part / 100) as u8));
            part = part % 100 * 10;
        }
        Some(())
    }
}

const fn digit(number: u8) -> u8 {
    b'0' + number
}

#[cfg(test)]
mod tests {
    use super::{Dash, Fill, Point, Writer};

    fn written(value: f64) -> Option<String> {
        let mut writer = Writer::new(0.0, 0);
        writer.number(value)?;
        Some(String::from_utf8(writer.out).unwrap())
    }

    #[test]
    fn numbers_are_short_and_exact_to_a_thousandth() {
        for (value, text) in [
            (0.0, "0"),
            (-0.0001, "0"),
            (1.5, "1.5"),
            (-12.3456, "-12.346"),
            (0.05, "0.05"),
            (297.0, "297"),
            (-0.5, "-0.5"),
        ] {
            assert_eq!(written(value).unwrap(), text);
        }
    }

    #[test]
    fn an_upright_rectangle_is_a_corner_and_two_lengths_and_a_line_of_four_points_is_none() {
        let corners = [(10.0, 20.0), (40.0, 20.0), (40.0, 30.0), (10.0, 30.0)].map(|(x, y)| Point::new(x, y));
        let mut writer = Writer::new(297.0, 0);
        writer.polygon(&corners, Fill::None, Some(0.5)).unwrap();
        writer.line(&corners, 0.5, Dash::Whole).unwrap();
        let written = String::from_utf8(writer.out).unwrap();
        assert_eq!(written, "0.5 w\n10 277 30 -10 re s\n10 277 m 40 277 l 40 267 l 10 267 l S\n");
    }

    #[test]
    fn what_is_not_finite_is_not_written() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300] {
            assert_eq!(written(value), None);
        }
    }
}
