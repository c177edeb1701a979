//! The elements of a page as a tree, in the order in which they are read.

use crate::sheet::page::{Area, Element, ElementId, Ink, Mark, Page, Rect, Text};

/// A part of a page.
pub(super) enum Node<'a> {
    /// One line, or a piece of one.
    Text(&'a Text),
    /// What is made of parts.
    Part(Part<'a>),
}

/// An element with what is in it.
pub(super) struct Part<'a> {
    pub id: ElementId,
    pub element: &'a Element,
    pub parts: Vec<Node<'a>>,
    /// The name of the area in which it stands.
    pub area: &'a str,
    /// What its lines and shapes cover.
    pub drawn: Option<Rect>,
}

/// A blank on a page, as what was typed is to be put into it.
pub(super) struct Filled {
    pub id: String,
    pub bounds: Rect,
}

impl Filled {
    /// Height of the letters that fit, mm.
    pub(super) fn letters(&self) -> f64 {
        (self.bounds.height() * 0.62).clamp(3.2, 5.0)
    }
}

/// What of a page is read, in order.
pub(super) fn of(page: &Page) -> Vec<Node<'_>> {
    let mut roots = Vec::new();
    for mark in &page.marks {
        let Some(id) = mark.element else { continue };
        let mut way: Vec<(ElementId, &Element)> = page.lineage(id).collect();
        way.reverse();
        let area = page.area_of(mark.area).map_or("", name);
        put(&mut roots, &way, mark, area);
    }
    roots
}

fn name(area: &Area) -> &str {
    &area.name
}

fn put<'a>(nodes: &mut Vec<Node<'a>>, way: &[(ElementId, &'a Element)], mark: &'a Mark, area: &'a str) {
    let Some(((id, element), inner)) = way.split_first() else {
        if let Ink::Text(text) = &mark.ink {
            nodes.push(Node::Text(text));
        }
        return;
    };
    let known = nodes.iter().rposition(|node| matches!(node, Node::Part(part) if part.id == *id));
    let at = known.unwrap_or_else(|| {
        nodes.push(Node::Part(Part { id: *id, element, parts: Vec::new(), area, drawn: None }));
        nodes.len() - 1
    });
    let Some(Node::Part(part)) = nodes.get_mut(at) else { return };
    if inner.is_empty() && !matches!(mark.ink, Ink::Text(_)) {
        part.drawn = Some(part.drawn.map_or(mark.bounds, |drawn| drawn.and(&mark.bounds)));
    } else {
        put(&mut part.parts, inner, mark, area);
    }
}

/// All words of some parts, in one line.
pub(super) fn words(nodes: &[Node]) -> String {
    let mut said = Joined::default();
    collect(nodes, &mut said);
    said.text
}

fn collect(nodes: &[Node], said: &mut Joined) {
    for node in nodes {
        match node {
            Node::Text(text) => said.put(text),
            Node::Part(part) => match part.element.actual_text {
                Some(_) => {}
                None => collect(&part.parts, said),
            },
        }
    }
}

/// Pieces of lines one after the other, as they are read.
#[derive(Default)]
pub(super) struct Joined {
    pub text: String,
    base: Option<f64>,
}

impl Joined {
    fn put(&mut self, text: &Text) {
        let between = between(&self.text, self.base, text);
        self.text.push_str(between);
        self.text.push_str(&text.text);
        self.base = Some(text.at.y);
    }
}

/// What stands between a text and the one before it: nothing where a word was broken behind its hyphen.
pub(super) fn between(before: &str, base: Option<f64>, next: &Text) -> &'static str {
    let mut last = before.chars().rev();
    let hyphen = last.next() == Some('-') && last.next().is_some_and(char::is_alphanumeric);
    let new_line = base.is_some_and(|base| (base - next.at.y).abs() > 0.5);
    if before.is_empty() || (hyphen && new_line) { "" } else { " " }
}
