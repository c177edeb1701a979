//! The reading order of a page: what each mark is to somebody who hears the page or copies it out.
//!
//! Elements are opened and closed while marks are put on the page. A text belongs to the element that is open; a line or a
//! shape does so only inside a figure. What belongs to none is decoration (an artifact): frames, rules, a strip that repeats.
//! The order of the marks is the order of reading.

use super::{AreaId, Ink, Mark, Page, Point, Text};

/// What a part of a page is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
    /// Parts that belong together.
    Section,
    /// What a sheet is about.
    H1,
    /// Heading of a part of a sheet.
    H2,
    /// Running words.
    P,
    /// A picture, with its text in words.
    Figure,
    /// A list of items.
    List,
    /// An item of a list.
    Item,
    /// Rows of cells.
    Table,
    /// A row of a table.
    Row,
    /// A cell that names those of its column or row.
    HeadCell(Scope),
    /// A cell.
    Cell,
    /// A piece of running words.
    Span,
}

/// Which cells a head cell names.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Scope {
    /// Those under it.
    Column,
    /// Those beside it.
    Row,
}

/// An element of a page, by its number.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct ElementId(usize);

/// A part of a page in its order of reading.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Element {
    /// What it is.
    pub kind: Kind,
    /// The element that it is part of; nothing for a part of the sheet itself.
    pub parent: Option<ElementId>,
    /// What a picture shows, in words.
    pub alt: Option<String>,
    /// What its letters stand for, where they do not say it.
    pub actual_text: Option<String>,
}

impl Page {
    /// Opens an element: what is put on the page until [`Self::close`] belongs to it.
    pub fn open(&mut self, kind: Kind) -> ElementId {
        let id = self.added(kind, self.opened.last().copied());
        self.opened.push(id);
        id
    }

    /// Says in words what a figure shows.
    pub fn describe(&mut self, figure: ElementId, alt: impl Into<String>) {
        if let Some(element) = self.elements.get_mut(figure.0) {
            element.alt = Some(alt.into());
        }
    }

    /// Opens a piece of words whose letters stand for `text`.
    pub fn open_as(&mut self, text: impl Into<String>) -> ElementId {
        let id = self.open(Kind::Span);
        if let Some(element) = self.elements.get_mut(id.0) {
            element.actual_text = Some(text.into());
        }
        id
    }

    /// Closes the element opened last; nothing where none is open.
    pub fn close(&mut self) {
        self.opened.pop();
    }

    /// The element of that number, if it belongs to this page.
    #[must_use]
    pub fn element_of(&self, id: ElementId) -> Option<&Element> {
        self.elements.get(id.0)
    }

    /// Every element with its number, in the order in which they were opened.
    pub fn numbered_elements(&self) -> impl Iterator<Item = (ElementId, &Element)> {
        self.elements.iter().enumerate().map(|(at, element)| (ElementId(at), element))
    }

    /// An element and those that it is part of, from the inside out.
    pub fn lineage(&self, id: ElementId) -> impl Iterator<Item = (ElementId, &Element)> {
        // An element stands behind those that it is part of, so that this ends.
        let whole = move |id: ElementId| self.element_of(id).map(|element| (id, element));
        std::iter::successors(whole(id), move |(at, element)| element.parent.filter(|p| p < at).and_then(whole))
    }

    /// Puts what stands on another page on this one, moved by `x` and `y` mm. Its elements become part of the one that is open
    /// here; each run of its words that belongs to none becomes an element of the kind `loose`, or part of the open one.
    pub fn put(&mut self, other: &Self, area: AreaId, x: f64, y: f64, loose: Option<Kind>) {
        let under = self.opened.last().copied();
        let pictured = self.pictured();
        let first = self.elements.len();
        let here = |id: ElementId| ElementId(id.0 + first);
        let carried = other.elements.iter().cloned();
        self.elements.extend(carried.map(|e| Element { parent: e.parent.map(here).or(under), ..e }));
        let mut run = None;
        for mark in &other.marks {
            let element = match (mark.element, &mark.ink) {
                (Some(id), _) => {
                    run = None;
                    Some(here(id))
                }
                (None, Ink::Text(_)) => match loose {
                    Some(kind) => Some(*run.get_or_insert_with(|| self.added(kind, under))),
                    None => under,
                },
                (None, _) => under.filter(|_| pictured),
            };
            self.marks.push(mark.moved(x, y, area, element));
        }
    }

    /// The element of a text put now.
    pub(super) fn of_text(&self) -> Option<ElementId> {
        self.opened.last().copied()
    }

    /// The element of a line or a shape put now.
    pub(super) fn of_lines(&self) -> Option<ElementId> {
        self.of_text().filter(|_| self.pictured())
    }

    /// Whether a figure is open.
    fn pictured(&self) -> bool {
        let is_figure = |id: &ElementId| self.element_of(*id).is_some_and(|element| element.kind == Kind::Figure);
        self.opened.iter().any(is_figure)
    }

    fn added(&mut self, kind: Kind, parent: Option<ElementId>) -> ElementId {
        self.elements.push(Element { kind, parent, alt: None, actual_text: None });
        ElementId(self.elements.len() - 1)
    }
}

impl Mark {
    /// The same mark elsewhere, mm.
    fn moved(&self, x: f64, y: f64, area: AreaId, element: Option<ElementId>) -> Self {
        let shift = nalgebra::Vector2::new(x, y);
        let all = |points: &[Point]| points.iter().map(|p| p + shift).collect();
        let ink = match &self.ink {
            Ink::Text(text) => Ink::Text(Text { at: text.at + shift, ..text.clone() }),
            Ink::Line { points, width, dash } => Ink::Line { points: all(points), width: *width, dash: *dash },
            Ink::Polygon { points, fill, stroke } => Ink::Polygon { points: all(points), fill: *fill, stroke: *stroke },
        };
        Self { area, bounds: self.bounds.moved(x, y), ink, element }
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Anchor, Dash, Font, Page, Paper, Point, Rect, Role, Text};
    use super::Kind;

    fn words(page: &mut Page, text: &str) {
        let area = page.area("all", Rect::new(0.0, 0.0, 210.0, 297.0));
        page.text(area, Point::new(20.0, 40.0), Anchor::Left, Text::new(Font::Sans, Role::Body, 3.0, text)).unwrap();
        page.line(area, vec![Point::new(20.0, 50.0), Point::new(30.0, 50.0)], 0.5, Dash::Whole);
    }

    fn kinds(page: &Page) -> Vec<Vec<Kind>> {
        let of = |mark: &super::Mark| {
            mark.element.map_or(Vec::new(), |id| page.lineage(id).map(|(_, element)| element.kind).collect())
        };
        page.marks.iter().map(of).collect()
    }

    #[test]
    fn words_belong_to_what_is_open_and_lines_only_to_a_figure() {
        let mut page = Page::new(Paper::A4);
        words(&mut page, "free");
        page.open(Kind::Section);
        page.open(Kind::P);
        words(&mut page, "wall");
        page.close();
        page.open(Kind::Figure);
        words(&mut page, "18");
        page.close();
        page.close();
        let (p, figure) = (vec![Kind::P, Kind::Section], vec![Kind::Figure, Kind::Section]);
        assert_eq!(kinds(&page), [vec![], vec![], p, vec![], figure.clone(), figure]);
    }

    #[test]
    fn what_is_put_from_another_page_keeps_its_elements_and_its_loose_words_get_one_a_run() {
        let mut other = Page::new(Paper::A4);
        words(&mut other, "one");
        words(&mut other, "two");
        let figure = other.open(Kind::Figure);
        other.describe(figure, "a wall");
        words(&mut other, "18");
        other.close();
        words(&mut other, "three");
        let mut page = Page::new(Paper::A4);
        let area = page.area("all", Rect::new(0.0, 0.0, 210.0, 297.0));
        page.open(Kind::Section);
        page.put(&other, area, 1.0, 2.0, Some(Kind::P));
        let (p, figure) = (vec![Kind::P, Kind::Section], vec![Kind::Figure, Kind::Section]);
        assert_eq!(kinds(&page), [p.clone(), vec![], p.clone(), vec![], figure.clone(), figure, p, vec![]]);
        let ids: Vec<_> = page.marks.iter().filter_map(|mark| mark.element).collect();
        assert_eq!(ids[0], ids[1]);
        assert_ne!(ids[0], ids[4]);
        assert!((page.marks[0].bounds.left - 21.0).abs() < 1e-9);
    }
}
