//! The laid-out page: marks in millimetres of paper, `y` down, each with its bounds and the area that it belongs to.
//!
//! Nothing here knows PDF. A back end writes the marks as they stand; the checker reads the same marks.

mod elements;
mod rect;

pub use elements::{Element, ElementId, Field, Kind, Scope};
pub use rect::Rect;

use super::fonts::{self, Extent, Font};
pub use crate::plan::Paper;

/// A place on the paper, mm.
pub type Point = nalgebra::Point2<f64>;

/// What a text is for: it sets how high its capitals must at least be.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Role {
    /// Read at arm's length.
    Body,
    /// Read from the drawing or beside it: dimensions, numbers in circles, the operation.
    Drawing,
    /// Read a step away: part, number of the sheet, further targets.
    Second,
    /// Spindle step, feed step, dial, first target.
    Figure,
    /// The verdict, read across the shop.
    Stamp,
}

/// Where a text stands from its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// It begins there.
    Left,
    /// Its middle is there.
    Centre,
    /// It ends there.
    Right,
}

/// What a closed shape is filled with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    /// Nothing: what lies below is seen.
    None,
    /// Paper white.
    White,
    /// Grey, in hundredths of black.
    Grey(u8),
    /// Black.
    Ink,
}

/// How a line is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Dash {
    /// Not at all.
    Whole,
    /// Long dash, dot (ISO 128: axes).
    Chain,
    /// Dashes (hidden edges).
    Short,
    /// Long dash, two dots (neighbours).
    Phantom,
}

impl Dash {
    /// Lengths of dashes and gaps by turns, mm (ISO 128 for a line of 0.25 mm, dots long enough to print).
    pub(super) const fn lengths(self) -> &'static str {
        match self {
            Self::Whole => "",
            Self::Chain => "6 1.3 0.5 1.3",
            Self::Short => "2.5 1.2",
            Self::Phantom => "6 1.3 0.5 1.3 0.5 1.3",
        }
    }
}

/// Words on the paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// Left end of the base line.
    pub at: Point,
    /// Height of the capitals, mm.
    pub capital: f64,
    /// The font.
    pub font: Font,
    /// What it is for.
    pub role: Role,
    /// The words, one line.
    pub text: String,
}

/// What a mark is.
#[derive(Clone, Debug, PartialEq)]
pub enum Ink {
    /// Words.
    Text(Text),
    /// A line from point to point.
    Line {
        /// Corner after corner.
        points: Vec<Point>,
        /// Width, mm.
        width: f64,
        /// How it is broken.
        dash: Dash,
    },
    /// A closed shape.
    Polygon {
        /// Corner after corner.
        points: Vec<Point>,
        /// Inside.
        fill: Fill,
        /// Width of its outline, mm; none is drawn when absent.
        stroke: Option<f64>,
    },
}

/// Which area of its page a mark belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct AreaId(usize);

/// A named part of a page: its marks stay inside its bounds.
#[derive(Clone, Debug, PartialEq)]
pub struct Area {
    /// As a fault names it, such as `cuts`.
    pub name: String,
    /// Where it is.
    pub bounds: Rect,
}

/// One mark on the paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// The area that it belongs to.
    pub area: AreaId,
    /// What it covers.
    pub bounds: Rect,
    /// What it is.
    pub ink: Ink,
    /// What it is part of in the order of reading; nothing for decoration.
    pub element: Option<ElementId>,
}

/// A page.
#[derive(Clone, Debug, PartialEq)]
pub struct Page {
    /// Its paper.
    pub paper: Paper,
    /// Its areas.
    pub areas: Vec<Area>,
    /// Its marks in the order of reading, the later above the earlier.
    pub marks: Vec<Mark>,
    /// Its elements.
    pub elements: Vec<Element>,
    /// Those that are open, the innermost last.
    opened: Vec<ElementId>,
}

impl Page {
    /// An empty page.
    #[must_use]
    pub const fn new(paper: Paper) -> Self {
        Self { paper, areas: Vec::new(), marks: Vec::new(), elements: Vec::new(), opened: Vec::new() }
    }

    /// Opens an area.
    pub fn area(&mut self, name: impl Into<String>, bounds: Rect) -> AreaId {
        self.areas.push(Area { name: name.into(), bounds });
        AreaId(self.areas.len() - 1)
    }

    /// The area of that number, if it belongs to this page.
    #[must_use]
    pub fn area_of(&self, id: AreaId) -> Option<&Area> {
        self.areas.get(id.0)
    }

    /// Words at a place of their base line; gives back their bounds.
    ///
    /// # Errors
    /// When the font lacks a character.
    pub fn text(&mut self, area: AreaId, at: Point, anchor: Anchor, text: Text) -> Result<Rect, fonts::Fault> {
        let size = fonts::measure(text.font, text.capital, &text.text)?;
        Ok(self.measured(area, at, anchor, (text, size)))
    }

    /// The same words, measured before.
    pub(super) fn measured(&mut self, area: AreaId, at: Point, anchor: Anchor, (text, size): (Text, Extent)) -> Rect {
        let left = match anchor {
            Anchor::Left => at.x,
            Anchor::Centre => at.x - size.width / 2.0,
            Anchor::Right => at.x - size.width,
        };
        let placed = Text { at: Point::new(left, at.y), ..text };
        let bounds = Rect::new(left, at.y - size.above, left + size.width, at.y + size.below);
        self.marks.push(Mark { area, bounds, ink: Ink::Text(placed), element: self.of_text() });
        bounds
    }

    /// A line, `width` in mm. Fewer than two points draw nothing.
    pub fn line(&mut self, area: AreaId, points: Vec<Point>, width: f64, dash: Dash) {
        if let (Some(bounds), true) = (Rect::about(&points), points.len() > 1) {
            let (bounds, element) = (bounds.grown(width / 2.0), self.of_lines());
            self.marks.push(Mark { area, bounds, ink: Ink::Line { points, width, dash }, element });
        }
    }

    /// A closed shape, outline width in mm. Fewer than three points draw nothing.
    pub(crate) fn polygon(&mut self, area: AreaId, points: Vec<Point>, fill: Fill, stroke: Option<f64>) {
        if let (Some(bounds), true) = (Rect::about(&points), points.len() > 2) {
            let bounds = bounds.grown(stroke.unwrap_or(0.0) / 2.0);
            let element = self.of_lines();
            self.marks.push(Mark { area, bounds, ink: Ink::Polygon { points, fill, stroke }, element });
        }
    }

    /// A rectangle.
    pub fn rectangle(&mut self, area: AreaId, r: Rect, fill: Fill, stroke: Option<f64>) {
        let corners = vec![
            Point::new(r.left, r.top),
            Point::new(r.right, r.top),
            Point::new(r.right, r.bottom),
            Point::new(r.left, r.bottom),
        ];
        self.polygon(area, corners, fill, stroke);
    }
}

impl Text {
    /// Words without a place yet: [`Page::text`] gives them one.
    #[must_use]
    pub fn new(font: Font, role: Role, capital: f64, text: impl Into<String>) -> Self {
        Self { at: Point::origin(), capital, font, role, text: text.into() }
    }
}

#[cfg(test)]
mod tests {
    use super::{Anchor, Dash, Font, Page, Paper, Point, Rect, Role, Text};

    #[test]
    fn anchors_settle_the_left_end() {
        let mut page = Page::new(Paper::A4);
        let area = page.area("test", Rect::new(0.0, 0.0, 210.0, 297.0));
        let words = || Text::new(Font::Sans, Role::Body, 3.0, "wall");
        let left = page.text(area, Point::new(100.0, 50.0), Anchor::Left, words()).unwrap();
        let right = page.text(area, Point::new(100.0, 60.0), Anchor::Right, words()).unwrap();
        let middle = page.text(area, Point::new(100.0, 70.0), Anchor::Centre, words()).unwrap();
        assert!((left.left - 100.0).abs() < 1e-9 && (right.right - 100.0).abs() < 1e-9);
        assert!((middle.centre().x - 100.0).abs() < 1e-9);
    }

    #[test]
    fn a_single_point_draws_nothing() {
        let mut page = Page::new(Paper::Letter);
        let area = page.area("test", Rect::new(0.0, 0.0, 1.0, 1.0));
        page.line(area, vec![Point::new(1.0, 1.0)], 0.5, Dash::Whole);
        assert!(page.marks.is_empty());
    }
}
