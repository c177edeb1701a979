//! The column: the parts of each page one under the other, in the order of reading.

use super::tree::{self, Filled, Node, Part, between};
use super::{Of, Sheet, field_id};
use crate::operations::LeftAs;
use crate::proof::Verdict;
use crate::sheet::fonts::Font;
use crate::sheet::page::{Field, Kind, Page, Role, Scope, Text};
use crate::sheet::xml::escaped;
use crate::sheet::{svg, words};
use std::collections::HashMap;
use std::fmt::Write as _;

/// Areas that stand beside each other where there is room.
const SKETCH: &str = "sketch";
const BESIDE: &str = "beside";
const CUTS: &str = "cuts";
/// How large a picture is shown, pixels for each mm of paper.
const LEAST_LARGE: f64 = 2.6;
/// The same of one wider than a sketch, whose letters are smaller: its capitals are 11 pixels high at least.
const WIDER: f64 = 130.0;
const LEAST_LARGE_OF_WIDER: f64 = 3.7;
const MOST_LARGE: f64 = 6.0;

/// What parts items that are run in.
const PARTS_ITEMS: char = '•';
/// Between base lines of which one stands under the other, mm.
const UNDER_IT: f64 = 2.0;

/// A sheet in one column.
pub(super) struct Column<'a> {
    out: &'a mut String,
    sheet: &'a Sheet,
    fields: usize,
    /// How often a name was given to a field, and to a box.
    named: HashMap<(String, bool), usize>,
    headed: bool,
    /// Whether a cell of a table is put now.
    in_cell: bool,
    /// The page of which something is put now, counted from 0.
    at: usize,
    /// What can be filled in on each page.
    filled: Vec<Vec<Filled>>,
    /// The pictures of each page by their element.
    figures: Vec<Vec<(usize, String)>>,
}

/// What stands under one heading, each with its page.
#[derive(Default)]
struct Chapter<'a> {
    /// The area of its heading.
    area: &'a str,
    parts: Vec<(usize, &'a Part<'a>)>,
}

impl<'a> Column<'a> {
    pub(super) fn new(out: &'a mut String, sheet: &'a Sheet) -> Self {
        let figures = |page: &Page| {
            let all = page.numbered_elements().filter(|(_, element)| element.kind == Kind::Figure);
            let ids: Vec<usize> = all.map(|(id, _)| id.number()).collect();
            ids.into_iter().zip(svg::pictures(page, &sheet.id)).collect()
        };
        Self {
            out,
            sheet,
            fields: 0,
            named: HashMap::new(),
            headed: false,
            in_cell: false,
            at: 0,
            filled: sheet.pages.iter().map(|_| Vec::new()).collect(),
            figures: sheet.pages.iter().map(figures).collect(),
        }
    }

    /// Puts all pages of the sheet under each other; gives back what can be filled in on each.
    pub(super) fn pages(mut self) -> Vec<Vec<Filled>> {
        let sheet = self.sheet;
        let trees: Vec<Vec<Node>> = sheet.pages.iter().map(tree::of).collect();
        let mut open = "";
        for chapter in chapters(&trees) {
            for (at, part) in chapter.parts {
                let Some(page) = sheet.pages.get(at) else { continue };
                self.at = at;
                self.beside(&mut open, if at == 0 { part.area } else { "" });
                self.part((page, part.id), part);
            }
            self.beside(&mut open, "");
        }
        self.filled
    }

    /// Opens and closes what holds the sketch and what stands beside it.
    fn beside(&mut self, open: &mut &'static str, area: &str) {
        let wanted = match area {
            SKETCH => SKETCH,
            BESIDE => BESIDE,
            _ => "",
        };
        if wanted == *open {
            return;
        }
        self.out.push_str(match (*open, wanted) {
            ("", _) => "<div class=\"beside\">\n<div>\n",
            (_, "") => "</div>\n</div>\n",
            _ => "</div>\n<div>\n",
        });
        *open = wanted;
    }

    fn part(&mut self, of: Of, part: &Part) {
        if let Some((field, name)) = &part.element.field {
            return self.field(part, *field, name);
        }
        let (class, whole) = match part.area {
            "stamp" => (stamp_class(self.sheet.framed), Some(&self.sheet.reason)),
            "facts" => ("", Some(&self.sheet.facts)),
            _ => ("", None),
        };
        match part.element.kind {
            Kind::Figure => {
                let here = self.figures.get(self.at);
                let drawn = here.and_then(|all| all.iter().find(|(at, _)| *at == of.1.number()));
                if let (Some((_, drawn)), Some(bounds)) = (drawn, part.drawn) {
                    picture(self.out, drawn, words::SKETCH, bounds.width());
                }
            }
            Kind::H1 if !self.headed => {
                self.headed = true;
                let _ = write!(self.out, "<h2 id=\"h{}\">", escaped(&self.sheet.id));
                self.parts(of.0, part);
                self.out.push_str("</h2>\n");
            }
            Kind::H1 => {}
            Kind::H2 => self.within(of.0, part, ("<h3>", "</h3>\n")),
            // The paper may have had room for the beginning alone.
            Kind::P if whole.is_some() => {
                let _ = write!(self.out, "<p{class}>");
                let stamp = part.parts.iter().find_map(|node| match node {
                    Node::Text(text) if text.role == Role::Stamp => Some(text),
                    _ => None,
                });
                if let Some(stamp) = stamp {
                    let (before, after) = tag(stamp);
                    let _ = write!(self.out, "{before}{}{after} ", escaped(&stamp.text));
                }
                let _ = writeln!(self.out, "{}</p>", escaped(whole.map_or("", String::as_str)));
            }
            Kind::P if is_hold(part) => self.within(of.0, part, ("<p class=\"hold\">", "</p>\n")),
            Kind::P => {
                self.within(of.0, part, (&format!("<p{class}>"), "</p>\n"));
            }
            Kind::List => self.within(of.0, part, ("<ul>\n", "</ul>\n")),
            Kind::Item => self.within(of.0, part, ("<li>", "</li>\n")),
            Kind::Label => {
                let word = tree::words(&part.parts);
                // The number of a mark in the sketch is round, as it is there.
                let is_balloon = part.area == BESIDE && part.element.actual_text.is_some();
                let class = if is_balloon { "label balloon" } else { "label" };
                let _ = write!(self.out, "<span class=\"{class}\">{}</span> ", escaped(&word));
            }
            Kind::Body => self.within(of.0, part, ("<span>", "</span>")),
            Kind::Table => self.table(of.0, part),
            Kind::Row => self.row(of.0, &part.parts),
            Kind::HeadCell(scope) => {
                let role = if scope == Scope::Row { "rowheader" } else { "columnheader" };
                self.within(of.0, part, (&format!("<div role=\"{role}\">"), "</div>\n"));
            }
            Kind::Cell => {
                self.in_cell = true;
                self.within(of.0, part, ("<div role=\"cell\">", "</div>\n"));
                self.in_cell = false;
            }
            Kind::Span => self.within(of.0, part, ("<span>", "</span>")),
        }
    }

    fn within(&mut self, page: &Page, part: &Part, (before, after): (&str, &str)) {
        self.out.push_str(before);
        self.parts(page, part);
        self.out.push_str(after);
    }

    /// What is in a part: what it stands for, where its letters do not say it.
    fn parts(&mut self, page: &Page, part: &Part) {
        match part.element.actual_text {
            // What is empty on paper is said to whoever does not see it.
            Some(text) if matches!(part.element.kind, Kind::Span | Kind::Cell) => {
                let _ = write!(self.out, "<span class=\"unseen\">{}</span>", escaped(text));
            }
            Some(text) => self.out.push_str(&escaped(text)),
            None => self.nodes(page, &part.parts),
        }
    }

    fn nodes(&mut self, page: &Page, nodes: &[Node]) {
        let mut before = String::new();
        let mut base = None;
        let mut open: Option<&'static str> = None;
        for node in nodes {
            match node {
                Node::Text(text) if text.text == words::page(self.at + 1, self.sheet.pages.len()) => {}
                Node::Text(text) => {
                    // What parts items on a line of paper parts nothing in a list.
                    let said = text.text.trim_end().trim_end_matches(PARTS_ITEMS);
                    if said.is_empty() && !text.text.is_empty() {
                        continue;
                    }
                    // What stands under a figure in its cell stands under it here.
                    let under = self.in_cell && base.is_some_and(|base: f64| (base - text.at.y).abs() > UNDER_IT);
                    let gap = if under { "<br>" } else { between(&before, base, text) };
                    let tag = tag(text);
                    if open.is_some_and(|open| open != tag.1) {
                        self.out.push_str(open.take().unwrap_or_default());
                    }
                    self.out.push_str(gap);
                    if open.is_none() {
                        self.out.push_str(tag.0);
                        open = Some(tag.1);
                    }
                    self.out.push_str(&escaped(said));
                    before.clone_from(&text.text);
                    base = Some(text.at.y);
                }
                Node::Part(part) => {
                    self.out.push_str(open.take().unwrap_or_default());
                    if !before.is_empty() {
                        self.out.push(' ');
                    }
                    self.part((page, part.id), part);
                    before = " ".into();
                }
            }
        }
        self.out.push_str(open.unwrap_or_default());
    }

    /// Rows under each other. Where two columns of rows stand side by side on the page, they are read down.
    fn table(&mut self, page: &Page, part: &Part) {
        self.out.push_str("<div role=\"table\">\n");
        let rows: Vec<Vec<&[Node]>> = part
            .parts
            .iter()
            .filter_map(|node| match node {
                Node::Part(row) if row.element.kind == Kind::Row => Some(side_by_side(&row.parts)),
                _ => None,
            })
            .collect();
        let most = rows.iter().map(Vec::len).max().unwrap_or(0);
        for column in 0..most {
            for row in &rows {
                if let Some(cells) = row.get(column) {
                    self.row(page, cells);
                }
            }
        }
        self.out.push_str("</div>\n");
    }

    fn row(&mut self, page: &Page, cells: &[Node]) {
        self.out.push_str("<div role=\"row\">\n");
        for cell in cells {
            if let Node::Part(part) = cell {
                // A blank of a table is a cell that holds it.
                let is_field = part.element.field.is_some() && part.element.kind == Kind::Cell;
                self.out.push_str(if is_field { "<div role=\"cell\">" } else { "" });
                self.part((page, part.id), part);
                self.out.push_str(if is_field { "</div>\n" } else { "" });
            }
        }
        self.out.push_str("</div>\n");
    }

    fn field(&mut self, part: &Part, field: Field, name: &str) {
        let Some(bounds) = part.drawn else { return };
        self.fields += 1;
        let id = field_id(&self.sheet.id, self.fields);
        let count = self.named.entry((name.to_owned(), field == Field::Tick)).or_default();
        *count += 1;
        let name = if *count > 1 { format!("{name} ({count})") } else { name.to_owned() };
        let (at, said) = (escaped(&id), escaped(&name));
        let label = format!("aria-label=\"{} {said}\" data-name=\"{said}\"", escaped(&self.sheet.id));
        let _ = match field {
            Field::Tick => {
                write!(self.out, "<label class=\"tick\"><input type=\"checkbox\" id=\"{at}\" {label}></label>")
            }
            Field::Words => {
                write!(self.out, "<input type=\"text\" id=\"{at}\" {label} data-words autocomplete=\"off\">")
            }
            Field::Size(unit) | Field::Left(unit, _) | Field::Reckoned(unit) => {
                let behind = match field {
                    Field::Reckoned(_) => String::new(),
                    _ => format!("&nbsp;{}", escaped(unit)),
                };
                let log = match field {
                    Field::Left(_, LeftAs { key, before, is_of_all, .. }) => {
                        let before = match before {
                            "" => String::new(),
                            some => format!(" data-before=\"{}\"", escaped(some)),
                        };
                        format!(" data-log=\"{key}\"{before}{}", if is_of_all { " data-all" } else { "" })
                    }
                    _ => String::new(),
                };
                let read_with = match field {
                    Field::Left(_, LeftAs { key, .. }) => self.sheet.gauges.iter().find(|(own, _)| *own == key),
                    _ => None,
                };
                let with = read_with.map(|(_, gauge)| format!(" data-with=\"{}\"", escaped(gauge))).unwrap_or_default();
                write!(
                    self.out,
                    "<span class=\"blank\"><input type=\"text\" inputmode=\"decimal\" id=\"{at}\" {label}{log} data-unit=\"{0}\"{with} \
                     autocomplete=\"off\">{behind}</span>",
                    escaped(unit)
                )
            }
        };
        if let Some(filled) = self.filled.get_mut(self.at) {
            filled.push(Filled { id, bounds });
        }
    }
}

/// Cells of a row as the columns in which they stand side by side: each begins with a cell that names a row.
fn side_by_side<'a, 'b>(cells: &'a [Node<'b>]) -> Vec<&'a [Node<'b>]> {
    let kind = |node: &Node| match node {
        Node::Part(part) => Some(part.element.kind),
        Node::Text(_) => None,
    };
    let row_heads: Vec<usize> =
        (0..cells.len()).filter(|at| cells.get(*at).and_then(kind) == Some(Kind::HeadCell(Scope::Row))).collect();
    if row_heads.len() < 2 {
        // Captions that stand over both columns are said once.
        let heads = cells.iter().all(|cell| kind(cell) == Some(Kind::HeadCell(Scope::Column)));
        let first = cells.iter().take_while({
            let mut seen: Vec<String> = Vec::new();
            move |cell| {
                let Node::Part(part) = cell else { return true };
                let words = tree::words(&part.parts);
                let new = !seen.contains(&words);
                seen.push(words);
                new
            }
        });
        let count = if heads { first.count() } else { cells.len() };
        return vec![cells.get(..count).unwrap_or(cells)];
    }
    let ends = row_heads.iter().skip(1).copied().chain([cells.len()]);
    row_heads.iter().zip(ends).filter_map(|(from, to)| cells.get(*from..to)).collect()
}

/// A picture, `wide` mm on paper: it never becomes smaller than can be read, and may be moved sideways within itself.
pub(super) fn picture(out: &mut String, drawn: &str, name: &str, wide: f64) {
    let least = wide * if wide > WIDER { LEAST_LARGE_OF_WIDER } else { LEAST_LARGE };
    let most = wide * MOST_LARGE;
    let _ = write!(
        out,
        "<div class=\"picture\" tabindex=\"0\" role=\"group\" aria-label=\"{}\" style=\"--least:{least:.0}px;--most:{most:.0}px\">\n\
         {drawn}</div>\n",
        escaped(name)
    );
}

/// The sections of a sheet: what goes on elsewhere, in an area of the same name, stands where it began. That it goes on says
/// nothing in one column.
fn chapters<'a>(trees: &'a [Vec<Node<'a>>]) -> Vec<Chapter<'a>> {
    let mut all: Vec<Chapter> = vec![Chapter::default()];
    for (page, nodes) in trees.iter().enumerate() {
        let mut into = all.len() - 1;
        let mut area = "";
        for node in nodes {
            let Node::Part(part) = node else { continue };
            if [words::GOES_ON, words::GOES_ON_UNDER].contains(&tree::words(&part.parts).as_str()) {
                continue;
            }
            let is_heading = part.element.kind == Kind::H2;
            let is_same = |area: &str| area.eq_ignore_ascii_case(part.area);
            let begins = !is_same(area);
            area = part.area;
            match all.iter().rposition(|chapter| is_same(chapter.area)).filter(|_| begins) {
                Some(known) => {
                    into = known;
                    if is_heading {
                        continue;
                    }
                }
                None if is_heading || (page > 0 && all.get(into).is_none_or(|last| !is_same(last.area))) => {
                    all.push(Chapter { area: part.area, parts: Vec::new() });
                    into = all.len() - 1;
                }
                None => {}
            }
            if let Some(chapter) = all.get_mut(into) {
                chapter.parts.push((page, part));
            }
        }
    }
    all
}

/// Whether a part is what must be measured before anything goes on: among the steps, with its limits large or a blank.
fn is_hold(part: &Part) -> bool {
    let stands_out = |node: &Node| match node {
        Node::Text(text) => text.role == Role::Second,
        Node::Part(inner) => inner.element.field.is_some(),
    };
    part.area.eq_ignore_ascii_case(CUTS) && part.parts.iter().any(stands_out)
}

/// The tags about a text, by what it is for.
fn tag(text: &Text) -> (&'static str, &'static str) {
    match (text.role, text.font) {
        (Role::Stamp, _) => ("<strong class=\"verdict\">", "</strong>"),
        (Role::Figure, _) => ("<b class=\"figure\">", "</b>"),
        (Role::Second, _) => ("<b class=\"second\">", "</b>"),
        (_, Font::Bold) => ("<b>", "</b>"),
        _ => ("<span>", "</span>"),
    }
}

/// The frame of a stamp as on paper: nobody tells the verdict by its word alone.
const fn stamp_class(framed: Verdict) -> &'static str {
    match framed {
        Verdict::Proven => " class=\"stamp\"",
        Verdict::Doubtful => " class=\"stamp doubtful\"",
        Verdict::Fails => " class=\"stamp stopped\"",
    }
}
