//! The structure tree: what each marked piece of the pages is, in the order of reading (ISO 32000-1, 14.7 and 14.8).
//!
//! A page has about a hundred elements: they are written as text and packed page by page, never held as objects.

use super::file::{Objects, reference, string};
use super::number;
use crate::sheet::page::{Element, ElementId, Ink, Kind, Page, Rect, Scope};
use std::collections::BTreeMap;
use std::ops::Range;

/// Pages whose elements are packed together: a reader unpacks them together too.
const TOGETHER: usize = 12;

/// What the structure tree has to know of a page: its elements in the order in which they are first read.
#[derive(Debug, Default)]
pub(super) struct Tags {
    elements: Vec<Tag>,
    /// What they consist of: the kids of each stand together, behind those of the one before.
    kids: Vec<Kid>,
    /// The element of each marked piece, by the number of the piece.
    pieces: Vec<u32>,
    /// What each figure shows in words, and what it covers, points, `y` up.
    figures: BTreeMap<u32, (String, [f64; 4])>,
}

#[derive(Debug)]
struct Tag {
    kind: Kind,
    parent: Option<u32>,
    actual_text: Option<&'static str>,
    kids: Range<u32>,
}

/// What an element consists of.
#[derive(Clone, Copy, Debug)]
enum Kid {
    Piece(u32),
    Element(u32),
}

/// Tags in the making: which element stands where, and what was given to each so far.
struct Growing<'a> {
    page: &'a Page,
    tags: Tags,
    here: Vec<Option<u32>>,
    given: Vec<(u32, Kid)>,
}

impl Growing<'_> {
    /// Sees to it that an element and those it is part of stand here, behind what was read before.
    fn grow(&mut self, id: ElementId) -> Option<u32> {
        if let Some(at) = self.here.get(id.number()).copied().flatten() {
            return Some(at);
        }
        let element = self.page.element_of(id)?;
        let parent = element.parent.filter(|parent| *parent < id).and_then(|parent| self.grow(parent));
        let at = u32::try_from(self.tags.elements.len()).ok()?;
        let Element { kind, actual_text, .. } = *element;
        self.tags.elements.push(Tag { kind, parent, actual_text, kids: 0..0 });
        self.given.extend(parent.map(|parent| (parent, Kid::Element(at))));
        *self.here.get_mut(id.number())? = Some(at);
        Some(at)
    }

    /// Each element with what was given to it, in the order in which it was.
    fn grown(mut self) -> (Tags, Vec<Option<u32>>) {
        self.given.sort_by_key(|(at, _)| *at);
        self.tags.kids = self.given.iter().map(|(_, kid)| *kid).collect();
        let mut end = 0;
        for (at, tag) in (0..).zip(&mut self.tags.elements) {
            let start = end;
            end += self.given.iter().skip(start as usize).take_while(|(of, _)| *of == at).map(|_| 1).sum::<u32>();
            tag.kids = start..end;
        }
        self.tags.elements.shrink_to_fit();
        (self.tags, self.here)
    }
}

impl Tags {
    /// Those of a page whose pieces are marked so.
    pub(super) fn of(page: &Page, marked: &[ElementId]) -> Self {
        let (tags, here) = (Self::default(), vec![None; page.elements.len()]);
        let mut growing = Growing { page, tags, here, given: Vec::with_capacity(2 * marked.len()) };
        for (piece, id) in (0_u32..).zip(marked) {
            let Some(at) = growing.grow(*id) else { continue };
            growing.tags.pieces.push(at);
            growing.given.push((at, Kid::Piece(piece)));
        }
        let (mut tags, here) = growing.grown();
        let mut covered: BTreeMap<ElementId, Rect> = BTreeMap::new();
        for mark in &page.marks {
            let mut lineage = mark.element.into_iter().flat_map(|id| page.lineage(id));
            if let Some((figure, _)) = lineage.find(|(_, element)| element.kind == Kind::Figure) {
                covered.entry(figure).and_modify(|r| *r = r.and(&mark.bounds)).or_insert(mark.bounds);
            }
        }
        let height = page.paper.size().1;
        for (id, r) in covered {
            let (at, alt) = (here.get(id.number()), page.element_of(id).and_then(|element| element.alt.clone()));
            if let Some(at) = at.copied().flatten() {
                let up = [r.left, height - r.bottom, r.right, height - r.top].map(|mm| mm * super::POINTS);
                tags.figures.insert(at, (alt.unwrap_or_default(), up));
            }
        }
        tags
    }

    /// What each figure says, for the name of the file.
    pub(super) fn says(&self) -> impl Iterator<Item = &str> {
        self.figures.values().map(|(alt, _)| alt.as_str())
    }

    /// How many objects it takes: the elements, and the list of the parents of its pieces.
    fn objects(&self) -> u32 {
        u32::try_from(self.elements.len() + 1).unwrap_or(u32::MAX)
    }

    /// Its objects, the first of the number `first`, of a page and a section of those numbers.
    fn written(&self, objects: &mut Objects, first: u32, (page, section): (u32, u32)) {
        let number_of = |at: u32| first + 1 + at;
        objects.add(first, |out| {
            out.push(b'[');
            self.pieces.iter().for_each(|at| reference(out, number_of(*at)));
            out.push(b']');
        });
        for (at, tag) in (0..).zip(&self.elements) {
            let kids = self.kids.get(tag.kids.start as usize..tag.kids.end as usize).unwrap_or_default();
            objects.add(number_of(at), |out| {
                out.extend_from_slice(b"<</S/");
                out.extend_from_slice(role(tag.kind).as_bytes());
                out.extend_from_slice(b"/P ");
                reference(out, tag.parent.map_or(section, number_of));
                out.extend_from_slice(b"/Pg ");
                reference(out, page);
                out.extend_from_slice(b"/K[");
                for kid in kids {
                    match kid {
                        Kid::Piece(piece) => number(out, i64::from(*piece)),
                        Kid::Element(at) => reference(out, number_of(*at)),
                    }
                    out.push(b' ');
                }
                out.push(b']');
                self.more(out, at, tag);
                out.extend_from_slice(b">>");
            });
        }
    }

    /// What an element says besides what it is and what it consists of.
    fn more(&self, out: &mut Vec<u8>, at: u32, tag: &Tag) {
        if let Some(text) = tag.actual_text {
            out.extend_from_slice(b"/ActualText");
            string(out, text);
        }
        if let Some((alt, covered)) = self.figures.get(&at) {
            out.extend_from_slice(b"/Alt");
            string(out, alt);
            out.extend_from_slice(b"/A<</O/Layout/Placement/Block/BBox[");
            covered.iter().for_each(|points| out.extend_from_slice(format!("{points:.3} ").as_bytes()));
            out.extend_from_slice(b"]>>");
        }
        if let Kind::HeadCell(scope) = tag.kind {
            out.extend_from_slice(match scope {
                Scope::Column => b"/A<</O/Table/Scope/Column>>",
                Scope::Row => b"/A<</O/Table/Scope/Row>>",
            });
        }
    }
}

/// How a piece of a stream begins: its kind, its number, what its letters stand for.
pub(super) fn opening(out: &mut Vec<u8>, element: &Element, piece: usize) {
    out.push(b'/');
    out.extend_from_slice(role(element.kind).as_bytes());
    out.extend_from_slice(b" <</MCID ");
    number(out, i64::try_from(piece).unwrap_or(i64::MAX));
    if let Some(text) = element.actual_text {
        out.extend_from_slice(b"/ActualText");
        string(out, text);
    }
    out.extend_from_slice(b">> BDC\n");
}

/// Whether a mark is words.
pub(super) const fn is_text(ink: &Ink) -> bool {
    matches!(ink, Ink::Text(_))
}

const fn role(kind: Kind) -> &'static str {
    match kind {
        Kind::H1 => "H1",
        Kind::H2 => "H2",
        Kind::P => "P",
        Kind::Figure => "Figure",
        Kind::List => "L",
        Kind::Item => "LI",
        Kind::Label => "Lbl",
        Kind::Body => "LBody",
        Kind::Table => "Table",
        Kind::Row => "TR",
        Kind::HeadCell(_) => "TH",
        Kind::Cell => "TD",
        Kind::Span => "Span",
    }
}

/// A page in the file, with its tags.
pub(super) struct Tagged {
    /// Number of its object.
    pub page: u32,
    pub tags: Tags,
}

/// The structure tree of a file whose further objects begin at the number `root`: a section a sheet, `sheets` being the pages
/// of each.
pub(super) struct Tree<'a> {
    pages: &'a [Tagged],
    sheets: &'a [Range<usize>],
    root: u32,
    /// The first object of each page.
    firsts: Vec<u32>,
}

impl<'a> Tree<'a> {
    pub(super) fn new(pages: &'a [Tagged], sheets: &'a [Range<usize>], root: u32) -> Self {
        let mut next = root + 3 + u32::try_from(sheets.len()).unwrap_or(0);
        let mut firsts = Vec::with_capacity(pages.len());
        for page in pages {
            firsts.push(next);
            next += page.tags.objects();
        }
        Self { pages, sheets, root, firsts }
    }

    /// The first number behind its objects.
    pub(super) fn end(&self) -> u32 {
        let last = self.pages.last().zip(self.firsts.last());
        last.map_or(self.section(self.sheets.len()), |(page, first)| first + page.tags.objects())
    }

    /// What is packed together: the tree's own objects, and some pages each.
    pub(super) fn parts(&self) -> Vec<Option<Range<usize>>> {
        let starts = (0..self.pages.len()).step_by(TOGETHER);
        let some = starts.map(|start| Some(start..usize::min(start + TOGETHER, self.pages.len())));
        std::iter::once(None).chain(some).collect()
    }

    /// The objects of a part.
    pub(super) fn objects(&self, part: Option<&Range<usize>>) -> Objects {
        let mut objects = Objects::default();
        let Some(range) = part else {
            self.own(&mut objects);
            return objects;
        };
        for at in range.clone() {
            let section = self.sheets.partition_point(|sheet| sheet.start <= at).saturating_sub(1);
            if let (Some(page), Some(first)) = (self.pages.get(at), self.firsts.get(at)) {
                page.tags.written(&mut objects, *first, (page.page, self.section(section)));
            }
        }
        objects
    }

    fn section(&self, sheet: usize) -> u32 {
        self.root + 3 + u32::try_from(sheet).unwrap_or(0)
    }

    /// Root, document, the list of parents, and the sections.
    fn own(&self, objects: &mut Objects) {
        let (root, document, parents) = (self.root, self.root + 1, self.root + 2);
        objects.add(root, |out| {
            out.extend_from_slice(b"<</Type/StructTreeRoot/K ");
            reference(out, document);
            out.extend_from_slice(b"/ParentTree ");
            reference(out, parents);
            out.extend_from_slice(b"/ParentTreeNextKey ");
            number(out, i64::try_from(self.pages.len()).unwrap_or(i64::MAX));
            out.extend_from_slice(b">>");
        });
        objects.add(document, |out| {
            out.extend_from_slice(b"<</S/Document/P ");
            reference(out, root);
            out.extend_from_slice(b"/K[");
            (0..self.sheets.len()).for_each(|sheet| reference(out, self.section(sheet)));
            out.extend_from_slice(b"]>>");
        });
        objects.add(parents, |out| {
            out.extend_from_slice(b"<</Nums[");
            for (page, first) in (0_i64..).zip(&self.firsts) {
                number(out, page);
                out.push(b' ');
                reference(out, *first);
            }
            out.extend_from_slice(b"]>>");
        });
        for (at, sheet) in self.sheets.iter().enumerate() {
            objects.add(self.section(at), |out| {
                out.extend_from_slice(b"<</S/Sect/P ");
                reference(out, document);
                out.extend_from_slice(b"/K[");
                for (page, first) in self.pages.iter().zip(&self.firsts).take(sheet.end).skip(sheet.start) {
                    let tops = page.tags.elements.iter().zip(first + 1..).filter(|(tag, _)| tag.parent.is_none());
                    tops.for_each(|(_, number)| reference(out, number));
                }
                out.extend_from_slice(b"]>>");
            });
        }
    }
}
