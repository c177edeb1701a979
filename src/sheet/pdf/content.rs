//! A page's marks as the stream that draws them.

use super::POINTS;
use super::letters::Letters;
use crate::sheet::fonts;
use crate::sheet::page::{Dash, Fill, Ink, Page, Point, Text};
use std::io::Write as _;

/// Largest coordinate that a stream holds, mm: far off any paper, and small enough to be written exactly.
const FARTHEST: f64 = 1e6;

/// The lengths of dashes and gaps, mm (ISO 128 for a line of 0.25 mm, dots long enough to print).
const fn dashes(dash: Dash) -> &'static str {
    match dash {
        Dash::Whole => "[] 0 d\n",
        Dash::Chain => "[6 1.3 0.5 1.3] 0 d\n",
        Dash::Short => "[2.5 1.2] 0 d\n",
        Dash::Phantom => "[6 1.3 0.5 1.3 0.5 1.3] 0 d\n",
    }
}

/// A stream in the making. It remembers pen and fill so that it says only what changes.
struct Writer<'a> {
    out: Vec<u8>,
    height: f64,
    letters: &'a Letters,
    width: f64,
    dash: Dash,
    grey: u8,
}

/// The stream of a page, or the number (from 1) of a mark that is not finite.
pub(super) fn stream(page: &Page, letters: &Letters) -> Result<Vec<u8>, usize> {
    let height = page.paper.size().1;
    let mut writer = Writer {
        out: Vec::with_capacity(page.marks.len() * 48),
        height,
        letters,
        width: f64::NAN,
        dash: Dash::Whole,
        grey: 100,
    };
    // Millimetres from here on; round ends and corners.
    writer.out.extend_from_slice(format!("{POINTS:.6} 0 0 {POINTS:.6} 0 0 cm 1 J 1 j\n").as_bytes());
    for (i, mark) in page.marks.iter().enumerate() {
        writer.mark(&mark.ink).ok_or(i + 1)?;
    }
    Ok(writer.out)
}

impl Writer<'_> {
    fn mark(&mut self, ink: &Ink) -> Option<()> {
        match ink {
            Ink::Text(text) => self.text(text),
            Ink::Line { points, width, dash } => {
                self.pen(*width, *dash)?;
                self.path(points)?;
                self.out.extend_from_slice(b"S\n");
                Some(())
            }
            Ink::Polygon { points, fill, stroke } => self.polygon(points, *fill, *stroke),
        }
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
        self.path(points)?;
        self.out.extend_from_slice(paint);
        Some(())
    }

    fn text(&mut self, text: &Text) -> Option<()> {
        self.fill(100);
        self.out.extend_from_slice(b"BT /");
        self.out.extend_from_slice(super::letters::key(text.font).as_bytes());
        self.out.push(b' ');
        self.number(fonts::em(text.capital))?;
        self.out.extend_from_slice(b" Tf ");
        self.place(text.at)?;
        self.out.extend_from_slice(b"Td <");
        for code in text.text.chars().filter_map(|c| self.letters.code(text.font, c)) {
            write!(self.out, "{code:04X}").ok()?;
        }
        self.out.extend_from_slice(b"> Tj ET\n");
        Some(())
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
            self.out.extend_from_slice(dashes(dash).as_bytes());
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
        let thousandths = (value * 1000.0).round() as i64;
        if thousandths < 0 {
            self.out.push(b'-');
        }
        let (whole, mut part, mut places) = (thousandths.unsigned_abs() / 1000, thousandths.unsigned_abs() % 1000, 3);
        write!(self.out, "{whole}").ok()?;
        if part > 0 {
            while part % 10 == 0 {
                (part, places) = (part / 10, places - 1);
            }
            write!(self.out, ".{part:0places$}").ok()?;
        }
        Some(())
    }
}

#[cfg(test)]
mod tests {
    use super::{Dash, Letters, Writer};

    fn written(value: f64) -> Option<String> {
        let letters = Letters::used(std::iter::empty()).unwrap();
        let mut writer =
            Writer { out: Vec::new(), height: 0.0, letters: &letters, width: 0.0, dash: Dash::Whole, grey: 100 };
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
    fn what_is_not_finite_is_not_written() {
        for value in [f64::NAN, f64::INFINITY, f64::NEG_INFINITY, 1e300] {
            assert_eq!(written(value), None);
        }
    }
}
