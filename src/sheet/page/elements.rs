//! The reading order of a page: what each mark is to somebody who hears the page or copies it out.
//!
//! Elements are opened and closed while marks are put on the page. A text belongs to the element that is open; a line or a
//! shape does so only inside a figure, and where a text stands for it. What belongs to none is decoration (an artifact):
//! frames, rules, a strip that repeats. The order of the marks is the order of reading.

use super::{AreaId, Ink, Mark, Page};
use crate::operations::LeftAs;

/// What a part of a page is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Kind {
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
    /// The mark or number of an item.
    Label,
    /// The words of an item.
    Body,
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

/// What whoever uses a page fills in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Field {
    /// A size, in a unit.
    Size(&'static str),
    /// A figure that is reckoned with, in a unit that the words about it say.
    Reckoned(&'static str),
    /// A size, in a unit, under the name by which the log holds it.
    Left(&'static str, LeftAs),
    /// Words: a day, initials.
    Words,
    /// A box to tick.
    Tick,
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
    /// What its letters or lines stand for, where they do not say it.
    pub actual_text: Option<&'static str>,
    /// Whether it goes on with the element of its kind that was put before it, where there is one.
    pub goes_on: bool,
    /// What is filled in there, and its name.
    pub field: Option<(Field, String)>,
}

impl ElementId {
    /// Its number among the elements of its page.
    #[must_use]
    pub const fn number(self) -> usize {
        self.0
    }
}

impl Page {
    /// Opens an element: what is put on the page until [`Self::close`] belongs to it.
    pub fn open(&mut self, kind: Kind) -> ElementId {
        self.opened_as(kind, None)
    }

    /// Opens an element whose letters or lines stand for `text`.
    pub fn open_as(&mut self, kind: Kind, text: &'static str) -> ElementId {
        self.opened_as(kind, Some(text))
    }

    fn opened_as(&mut self, kind: Kind, actual_text: Option<&'static str>) -> ElementId {
        let id = self.added(kind, self.opened.last().copied(), actual_text);
        self.opened.push(id);
        id
    }

    /// Says in words what a figure shows.
    pub fn describe(&mut self, figure: ElementId, alt: impl Into<String>) {
        if let Some(element) = self.elements.get_mut(figure.0) {
            element.alt = Some(alt.into());
        }
    }

    /// Says what is filled in where the element opened last stands, and its name.
    pub fn with_field(&mut self, field: Field, name: &str) {
        let open = self.opened.last().and_then(|id| self.elements.get_mut(id.0));
        if let Some(element) = open {
            element.field = Some((field, name.to_owned()));
        }
    }

    /// Closes the element opened last; nothing where none is open.
    pub fn close(&mut self) {
        self.opened.pop();
    }

    /// Makes all elements and loose words so far part of one element. Where that `goes_on`, it is one with the element of its
    /// kind that stands before it where the page is put.
    pub fn wrap(&mut self, kind: Kind, goes_on: bool) {
        let whole = self.put_first(Element { kind, parent: None, alt: None, actual_text: None, goes_on, field: None });
        for element in self.elements.iter_mut().skip(1) {
            element.parent.get_or_insert(whole);
        }
        for mark in self.marks.iter_mut().filter(|mark| matches!(mark.ink, Ink::Text(_))) {
            mark.element.get_or_insert(whole);
        }
    }

    /// Has the mark put last, which belongs to no element, read before all others, as an element of its own.
    pub fn lead_as(&mut self, kind: Kind, actual_text: Option<&'static str>) {
        let first = self.put_first(Element { kind, parent: None, alt: None, actual_text, goes_on: false, field: None });
        if let Some(mark) = self.marks.last_mut() {
            mark.element = Some(first);
        }
        self.lead_with(self.marks.len().saturating_sub(1), true);
    }

    /// Puts an element before all others.
    fn put_first(&mut self, element: Element) -> ElementId {
        let next = |id: &mut ElementId| id.0 += 1;
        self.elements.iter_mut().filter_map(|element| element.parent.as_mut()).for_each(next);
        self.marks.iter_mut().filter_map(|mark| mark.element.as_mut()).for_each(next);
        self.opened.iter_mut().for_each(next);
        self.elements.insert(0, element);
        ElementId(0)
    }

    /// Has the marks from the `from`th on read before all others; where they are not `read` at all, they are decoration.
    pub fn lead_with(&mut self, from: usize, read: bool) {
        let from = from.min(self.marks.len());
        self.marks.rotate_left(from);
        let leading = self.marks.len() - from;
        if !read {
            self.marks.iter_mut().take(leading).for_each(|mark| mark.element = None);
        }
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
        self.take(other.clone(), area, x, y, loose);
    }

    /// The same of a page that nobody needs any more.
    pub fn take(&mut self, other: Self, area: AreaId, x: f64, y: f64, loose: Option<Kind>) {
        let under = self.opened.last().copied();
        let drawn = self.of_lines().is_some();
        let mut here: Vec<ElementId> = Vec::with_capacity(other.elements.len());
        for mut element in other.elements {
            let parent = element.parent.map_or(under, |parent| here.get(parent.0).copied());
            here.push(self.gone_on(&element, parent).unwrap_or_else(|| {
                element.parent = parent;
                self.elements.push(element);
                ElementId(self.elements.len() - 1)
            }));
        }
        let mut run = None;
        self.marks.reserve(other.marks.len());
        for mark in other.marks {
            let element = match (mark.element, &mark.ink) {
                (Some(id), _) => {
                    run = None;
                    here.get(id.0).copied()
                }
                (None, Ink::Text(_)) => match loose {
                    Some(kind) => Some(*run.get_or_insert_with(|| self.added(kind, under, None))),
                    None => under,
                },
                (None, _) => under.filter(|_| drawn),
            };
            self.marks.push(mark.moved(x, y, area, element));
        }
    }

    /// The element of this page that one of another goes on with: the last part of `parent`, where that is of its kind.
    fn gone_on(&self, element: &Element, parent: Option<ElementId>) -> Option<ElementId> {
        let last = || self.elements.iter().rposition(|other| other.parent == parent);
        let last = ElementId(element.goes_on.then(last)??);
        self.element_of(last).filter(|other| other.kind == element.kind).map(|_| last)
    }

    /// The element of a text put now.
    pub(super) fn of_text(&self) -> Option<ElementId> {
        self.opened.last().copied()
    }

    /// The element of a line or a shape put now: what is open, in a figure and where a text stands for it.
    pub(super) fn of_lines(&self) -> Option<ElementId> {
        let drawn = |id: &ElementId| {
            self.element_of(*id).is_some_and(|element| element.kind == Kind::Figure || element.actual_text.is_some())
        };
        self.of_text().filter(|_| self.opened.iter().any(drawn))
    }

    fn added(&mut self, kind: Kind, parent: Option<ElementId>, actual_text: Option<&'static str>) -> ElementId {
        self.elements.push(Element { kind, parent, alt: None, actual_text, goes_on: false, field: None });
        ElementId(self.elements.len() - 1)
    }
}

impl Mark {
    /// The same mark elsewhere, mm.
    fn moved(mut self, x: f64, y: f64, area: AreaId, element: Option<ElementId>) -> Self {
        let shift = nalgebra::Vector2::new(x, y);
        match &mut self.ink {
            Ink::Text(text) => text.at += shift,
            Ink::Line { points, .. } | Ink::Polygon { points, .. } => {
                points.iter_mut().for_each(|point| *point += shift)
            }
        }
        Self { area, bounds: self.bounds.moved(x, y), ink: self.ink, element }
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
        page.open(Kind::List);
        page.open(Kind::P);
        words(&mut page, "wall");
        page.close();
        page.open(Kind::Figure);
        words(&mut page, "18");
        page.close();
        page.close();
        let (p, figure) = (vec![Kind::P, Kind::List], vec![Kind::Figure, Kind::List]);
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
        page.open(Kind::List);
        page.put(&other, area, 1.0, 2.0, Some(Kind::P));
        let (p, figure) = (vec![Kind::P, Kind::List], vec![Kind::Figure, Kind::List]);
        assert_eq!(kinds(&page), [p.clone(), vec![], p.clone(), vec![], figure.clone(), figure, p, vec![]]);
        let ids: Vec<_> = page.marks.iter().filter_map(|mark| mark.element).collect();
        assert_eq!(ids[0], ids[1]);
        assert_ne!(ids[0], ids[4]);
        assert!((page.marks[0].bounds.left - 21.0).abs() < 1e-9);
    }
    #[test]
    fn rows_of_one_element_are_one_where_they_follow_each_other() {
        let row = |text: &str, goes_on| {
            let mut row = Page::new(Paper::A4);
            words(&mut row, text);
            row.wrap(Kind::Item, goes_on);
            row.wrap(Kind::List, true);
            row
        };
        let mut page = Page::new(Paper::A4);
        let area = page.area("all", Rect::new(0.0, 0.0, 210.0, 297.0));
        for row in [row("one", false), row("and more", true), row("two", false)] {
            page.put(&row, area, 0.0, 0.0, None);
        }
        words(&mut page, "between");
        page.open(Kind::P);
        page.close();
        page.put(&row("three", true), area, 0.0, 0.0, None);
        let of =
            |at: usize| page.marks[2 * at].element.map(|id| page.lineage(id).map(|(id, _)| id).collect::<Vec<_>>());
        let [one, more, two, between, three] = [0, 1, 2, 3, 4].map(of);
        assert_eq!(one, more);
        assert_ne!(one, two);
        assert_eq!(one.unwrap()[1], two.unwrap()[1], "items of one list");
        assert_eq!(between, None);
        assert_ne!(three.unwrap()[1], more.unwrap()[1], "a list of its own");
    }
}
