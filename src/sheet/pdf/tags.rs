//! The structure tree: what each marked piece of the pages is, in the order of reading (ISO 32000-1, 14.7 and 14.8).

use super::{Fault, real};
use crate::sheet::page::{Element, ElementId, Ink, Kind, Page, Rect, Scope};
use lopdf::{Dictionary, Document, Object, ObjectId, dictionary, text_string};
use std::collections::BTreeMap;
use std::ops::Range;

/// What the structure tree has to know of a page.
#[derive(Debug)]
pub(super) struct Tags {
    elements: Vec<(ElementId, Element)>,
    /// The element of each marked piece, by the number of the piece.
    marked: Vec<ElementId>,
    /// What each figure covers, points, `y` up.
    figures: BTreeMap<ElementId, [f64; 4]>,
}

impl Tags {
    /// Those of a page whose pieces are marked so.
    pub(super) fn of(page: &Page, marked: Vec<ElementId>) -> Self {
        let mut covered: BTreeMap<ElementId, Rect> = BTreeMap::new();
        for mark in &page.marks {
            let lineage = mark.element.into_iter().flat_map(|id| page.lineage(id));
            if let Some((figure, _)) = lineage.into_iter().find(|(_, element)| element.kind == Kind::Figure) {
                covered.entry(figure).and_modify(|r| *r = r.and(&mark.bounds)).or_insert(mark.bounds);
            }
        }
        let height = page.paper.size().1;
        let up = |r: Rect| [r.left, height - r.bottom, r.right, height - r.top].map(|mm| mm * super::POINTS);
        let figures = covered.into_iter().map(|(id, r)| (id, up(r))).collect();
        let elements = page.numbered_elements().map(|(id, element)| (id, element.clone())).collect();
        Self { elements, marked, figures }
    }
}

/// How a piece of a stream begins: its kind, its number, what its letters stand for.
pub(super) fn opening(out: &mut Vec<u8>, element: &Element, number: usize) {
    out.push(b'/');
    out.extend_from_slice(role(element.kind).as_bytes());
    out.extend_from_slice(b" <</MCID ");
    out.extend_from_slice(itoa::Buffer::new().format(number).as_bytes());
    if let Some(text) = &element.actual_text {
        let utf16 = std::iter::once(0xFEFF).chain(text.encode_utf16());
        let digits: String = utf16.map(|unit| format!("{unit:04X}")).collect();
        out.extend_from_slice(format!(" /ActualText <{digits}>").as_bytes());
    }
    out.extend_from_slice(b">> BDC\n");
}

/// Whether a mark of a page is part of anything that is read.
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
    pub id: ObjectId,
    pub tags: Tags,
}

/// Puts the structure tree into a file: a section a sheet, `sheets` being the pages of each.
pub(super) fn put_into(file: &mut Document, pages: &[Tagged], sheets: &[Range<usize>]) -> Result<(), Fault> {
    let (root, document, parents) = (file.new_object_id(), file.new_object_id(), file.new_object_id());
    let mut tree = Tree { file, numbers: Vec::new() };
    let mut sections = Vec::new();
    for sheet in sheets {
        let section = tree.file.new_object_id();
        let mut kids = Vec::new();
        for (page, number) in pages.iter().zip(0_i64..).take(sheet.end).skip(sheet.start) {
            kids.extend(tree.page(page, number, section)?);
        }
        tree.file.set_object(section, dictionary! { "S" => "Sect", "P" => document, "K" => kids });
        sections.push(Object::Reference(section));
    }
    let numbers = std::mem::take(&mut tree.numbers);
    file.set_object(parents, dictionary! { "Nums" => numbers });
    file.set_object(document, dictionary! { "S" => "Document", "P" => root, "K" => sections });
    let next = i64::try_from(pages.len()).unwrap_or(i64::MAX);
    let tree = dictionary! {
        "Type" => "StructTreeRoot", "K" => document, "ParentTree" => parents, "ParentTreeNextKey" => next,
    };
    file.set_object(root, tree);
    let catalogue = file.catalog_mut()?;
    catalogue.set("StructTreeRoot", root);
    catalogue.set("MarkInfo", dictionary! { "Marked" => true });
    Ok(())
}

/// The tree in the making.
struct Tree<'a> {
    file: &'a mut Document,
    /// The parents of the pieces of each page, by the page's number.
    numbers: Vec<Object>,
}

/// An element of a page in the making: where it will stand, and what is in it.
struct Branch {
    id: ObjectId,
    kids: Vec<Object>,
}

impl Tree<'_> {
    /// Puts the elements of a page into the file; gives back those that are part of its section.
    fn page(&mut self, page: &Tagged, number: i64, section: ObjectId) -> Result<Vec<Object>, Fault> {
        let elements: BTreeMap<ElementId, &Element> = page.tags.elements.iter().map(|(id, e)| (*id, e)).collect();
        let mut branches: BTreeMap<ElementId, Branch> = BTreeMap::new();
        let (mut top, mut parents) = (Vec::new(), Vec::new());
        for (piece, at) in (0_i64..).zip(&page.tags.marked) {
            self.grow(*at, &elements, &mut branches, &mut top);
            if let Some(branch) = branches.get_mut(at) {
                branch.kids.push(piece.into());
                parents.push(Object::Reference(branch.id));
            }
        }
        let ids: BTreeMap<ElementId, ObjectId> = branches.iter().map(|(at, branch)| (*at, branch.id)).collect();
        for (at, branch) in branches {
            let Some(element) = elements.get(&at) else { continue };
            let parent = element.parent.and_then(|parent| ids.get(&parent)).copied().unwrap_or(section);
            let figure = page.tags.figures.get(&at).filter(|_| element.kind == Kind::Figure);
            let said = written(element, parent, page.id, branch.kids, figure);
            self.file.set_object(branch.id, said);
        }
        self.numbers.extend([number.into(), parents.into()]);
        let leaf = self.file.get_object_mut(page.id)?.as_dict_mut()?;
        leaf.set("StructParents", number);
        leaf.set("Tabs", "S");
        Ok(top)
    }

    /// Sees to it that an element and those it is part of stand in the tree, behind what was read before.
    fn grow(
        &mut self,
        at: ElementId,
        elements: &BTreeMap<ElementId, &Element>,
        branches: &mut BTreeMap<ElementId, Branch>,
        top: &mut Vec<Object>,
    ) {
        let Some(element) = elements.get(&at).filter(|_| !branches.contains_key(&at)) else { return };
        let id = self.file.new_object_id();
        branches.insert(at, Branch { id, kids: Vec::new() });
        match element.parent.filter(|parent| *parent < at) {
            None => top.push(Object::Reference(id)),
            Some(parent) => {
                self.grow(parent, elements, branches, top);
                if let Some(parent) = branches.get_mut(&parent) {
                    parent.kids.push(Object::Reference(id));
                }
            }
        }
    }
}

/// An element as the file holds it.
fn written(
    element: &Element,
    parent: ObjectId,
    page: ObjectId,
    mut kids: Vec<Object>,
    figure: Option<&[f64; 4]>,
) -> Dictionary {
    let kid = if kids.len() == 1 { kids.pop().unwrap_or(Object::Null) } else { Object::Array(kids) };
    let mut said = dictionary! { "S" => role(element.kind), "P" => parent, "Pg" => page, "K" => kid };
    if let Some(alt) = &element.alt {
        said.set("Alt", text_string(alt));
    }
    if let Some(text) = &element.actual_text {
        said.set("ActualText", text_string(text));
    }
    if let Some(covered) = figure {
        let covered: Vec<Object> = covered.iter().map(|points| real(*points)).collect();
        said.set("A", dictionary! { "O" => "Layout", "Placement" => "Block", "BBox" => covered });
    }
    if let Kind::HeadCell(scope) = element.kind {
        let scope = match scope {
            Scope::Column => "Column",
            Scope::Row => "Row",
        };
        said.set("A", dictionary! { "O" => "Table", "Scope" => scope });
    }
    said
}
