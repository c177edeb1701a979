//! What must be done with each part, on a page: feature and decision first, the figures under them, then why.

use super::block::{BODY, Block, HAIR, SECOND, STRONG, Style, as_one, in_line};
use super::flow::{EDGE, Flow, Section, TooHigh, inner};
use super::lists::{bars, chunks, list};
use super::strip::on_one_line;
use super::{Fault, cells, packed_pages};
use crate::plan::decide::Decided;
use crate::sheet::page::{Anchor, Field, Kind, Page, Point, Rect, Scope};
use crate::sheet::pdf::{self, Chapter, Leaf, Meta};
use crate::sheet::words::day;
use crate::sheet::words::decide::{self as said, Said};
use crate::sheet::{check, fonts, words};

/// Height of the strip, mm.
const STRIP: f64 = 23.8;
/// The page as faults and labels name it.
const ID: &str = "decide";
/// How far what stands under a feature hangs, mm.
const HANGS: f64 = 4.0;
/// Where the decision begins, in widths of the page.
const DECISION: f64 = 0.5;
/// Width and height of the blank of what nobody measured, mm.
const BLANK: (f64, f64) = (26.0, 8.0);
/// Between two columns, mm.
const GUTTER: f64 = 2.0;
/// Air over and under a row, mm.
const AIR: f64 = 0.7;

/// The page of what was decided; a long one goes on overleaf under the same head.
///
/// # Errors
/// As [`super::pages`].
pub fn decide_pages(decided: &Decided) -> Result<Vec<Page>, Fault> {
    let letters = |fault| Fault::Letters { sheet: ID.into(), part: said::DECIDE, fault };
    let mut flow = Flow::new(decided.paper, STRIP);
    for section in sections(decided, inner(decided.paper)).map_err(letters)? {
        flow.put(&section).map_err(|TooHigh(part)| Fault::TooHigh { sheet: ID.into(), part })?;
    }
    let count = flow.pages.len();
    for (at, page) in flow.pages.iter_mut().enumerate() {
        let before = page.marks.len();
        strip(decided, page, (at + 1, count)).map_err(letters)?;
        page.lead_with(before, at == 0);
        let faults = check::faults(page);
        if !faults.is_empty() {
            return Err(Fault::Page { sheet: ID.into(), page: at + 1, faults });
        }
    }
    Ok(flow.pages)
}

/// The page as PDF.
///
/// # Errors
/// As [`super::pdf()`].
pub fn decide_pdf(decided: &Decided) -> Result<Vec<u8>, Fault> {
    let pages = packed_pages(ID, decide_pages(decided)?)?;
    let own = Leaf { id: ID.into(), title: said::DECIDE.into(), page: 0 };
    let meta = Meta {
        title: in_line(&format!("{}: {}", said::DECIDE, decided.jobs.join("; "))),
        author: in_line(decided.shop.as_deref().unwrap_or_default()),
        language: words::LANGUAGE.into(),
        date: decided.date.clone(),
        chapters: vec![Chapter { title: said::DECIDE.into(), sheets: vec![own] }],
    };
    Ok(pdf::bound(pages, &meta)?)
}

/// The strip: what page it is, of which jobs, and how much is open.
fn strip(decided: &Decided, page: &mut Page, (number, pages): (usize, usize)) -> Result<(), fonts::Fault> {
    let (width, right) = (page.paper.size().0, page.paper.size().0 - EDGE);
    let half = (width - check::PIN.0) / 2.0 - 1.0;
    let mut put = |name: &str, zone: Rect, block: &Block| {
        let area = page.area(name, zone);
        block.clone().onto(page, area, (zone.left, zone.top), Kind::P);
    };
    let zone = Rect::new(EDGE, EDGE, half, EDGE + 13.0);
    let mut block = Block::new(zone.height());
    let title = on_one_line(SECOND, said::DECIDE, zone.width())?;
    block.text(Point::new(0.0, 5.6), Anchor::Left, SECOND, &title)?;
    let of_page = on_one_line(BODY, &words::page(number, pages), zone.width())?;
    block.text(Point::new(0.0, 11.8), Anchor::Left, BODY, &of_page)?;
    block.wrap(Kind::H1, false);
    put("decide", zone, &block);
    let zone = Rect::new(width - half, EDGE, right, EDGE + 13.0);
    if let Some(date) = &decided.date {
        let mut block = Block::new(zone.height());
        let date = on_one_line(STRONG, date, zone.width())?;
        block.text(Point::new(zone.width(), 5.6), Anchor::Right, STRONG, &date)?;
        put("date", zone, &block);
    }
    let zone = Rect::new(EDGE, EDGE + 13.5, right, EDGE + STRIP);
    let mut block = Block::new(zone.height());
    for (style, text, base) in [(STRONG, said::names(decided), 4.4), (BODY, said::sums(decided), 9.4)] {
        let text = on_one_line(style, &text, zone.width())?;
        block.text(Point::new(0.0, base), Anchor::Left, style, &text)?;
    }
    put("facts", zone, &block);
    Ok(())
}

fn sections(decided: &Decided, width: f64) -> Result<Vec<Section>, fonts::Fault> {
    let mut rows = Vec::new();
    for of in &decided.rows {
        rows.extend(row(&said::said(of, decided.print), width)?);
    }
    for (at, row) in rows.iter_mut().enumerate() {
        row.wrap(Kind::Table, at > 0);
    }
    if decided.rows.is_empty() {
        rows = chunks(&[said::NOTHING.to_owned()], 0.0, AIR, BODY)?;
    }
    let captions = [(width * DECISION + BODY.width(said::DECISION)?, said::DECISION)];
    let mut all = vec![Section { name: said::DECIDE, bar: Some(bars(width, said::FEATURE, &captions)?), rows }];
    let orders: Vec<String> = decided.orders().into_iter().map(said::entry).collect();
    all.extend(list(day::LOG_FAULTS, &decided.log_faults, width)?);
    all.extend(list(said::ORDERS, &orders, width)?);
    all.extend(list(said::ASSUMED, &decided.assumed, width)?);
    Ok(all)
}

/// A feature in rows that stay together: what it is and what is done; its figures; why, the sheet and the order.
fn row(of: &Said, width: f64) -> Result<Vec<Block>, fonts::Fault> {
    let middle = width * DECISION;
    let mut first = Block::new(0.0);
    let mut cell = |kind: Kind, x: f64, room: f64, top: f64, style: Style, text: &str| -> Result<f64, fonts::Fault> {
        first.open(kind);
        let end = first.paragraph(x, top, room, style, text);
        first.close();
        end
    };
    let left = cell(Kind::HeadCell(Scope::Row), 0.0, middle - GUTTER, AIR, STRONG, &of.feature)?;
    let right = cell(Kind::Cell, middle, width - middle, AIR, STRONG, &of.decision)?;
    let top = left.max(right) + 0.6;
    let room = width - HANGS;
    let figures = [
        (0.0, 0.32, said::FOUND, &of.found),
        (0.32, 0.73, said::LIMIT, &of.limit),
        (0.73, 1.0, said::WORST, &of.margin),
    ];
    let mut bottom = top;
    for (from, to, head, text) in figures {
        let text = if text == said::NONE { String::new() } else { format!("{}: {text}", head.to_lowercase()) };
        if !text.is_empty() {
            bottom = bottom.max(cell(Kind::Cell, HANGS + from * room, (to - from) * room - GUTTER, top, BODY, &text)?);
        }
    }
    if of.found == said::NONE {
        // What nobody measured is written down where it would stand.
        let caption = format!("{}:", said::FOUND.to_lowercase());
        let left = HANGS + BODY.width(&caption)? + 1.5;
        first.open(Kind::Cell);
        first.text(Point::new(HANGS, top + BLANK.1 / 2.0 + BODY.capital / 2.0), Anchor::Left, BODY, &caption)?;
        first.close();
        let room = Rect::new(left, top, left + BLANK.0, top + BLANK.1);
        cells::blank_for(&mut first, Kind::Cell, room.grown(-cells::THIN / 2.0), Some((&of.feature, Field::Words)));
        bottom = bottom.max(room.bottom);
    }
    first.height = bottom + 0.3;
    first.keep = true;
    let beside = [(said::SHEET, &of.sheet), (said::ORDER, &of.order)];
    let beside = beside.into_iter().filter(|(_, text)| *text != said::NONE);
    let beside = beside.map(|(head, text)| format!("{}: {text}", head.to_lowercase()));
    let why: Vec<String> = std::iter::once(of.why.clone()).chain(beside).collect();
    let mut below = Vec::new();
    for text in &why {
        let mut some = chunks(&BODY.wrap(text, width - HANGS)?, HANGS, 0.2, BODY)?;
        as_one(&mut some, Kind::Cell);
        below.extend(some);
    }
    if let Some(last) = below.last_mut() {
        last.height += AIR;
        last.line(Point::new(0.0, last.height - 0.09), Point::new(width, last.height - 0.09), HAIR);
    }
    let count = below.len();
    below.iter_mut().take(count.saturating_sub(1)).for_each(|block| block.keep = true);
    let mut all: Vec<Block> = std::iter::once(first).chain(below).collect();
    as_one(&mut all, Kind::Row);
    Ok(all)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::sheet::page::{Ink, Paper};

    /// What nobody measured has a blank to be written in; what was measured has none.
    #[test]
    fn what_is_to_be_measured_has_a_blank() {
        for (found, blanks) in [(said::NONE, 1), ("24.98 mm", 0)] {
            let text = |text: &str| text.to_owned();
            let of = Said {
                feature: text("pump impeller, hub bore"),
                found: text(found),
                limit: text("at most 18.03 mm"),
                margin: text(said::NONE),
                decision: text("MEASURE: not reused"),
                why: text("nobody measured it"),
                sheet: text(said::NONE),
                order: text(said::NONE),
            };
            let mut page = Page::new(Paper::A4);
            let area = page.area("decide", Rect::new(0.0, 0.0, 210.0, 297.0));
            for row in row(&of, 186.0).unwrap() {
                row.onto(&mut page, area, (12.0, 40.0), Kind::P);
            }
            let boxes = page.marks.iter().filter(|mark| matches!(mark.ink, Ink::Polygon { .. })).count();
            assert_eq!(boxes, blanks, "{found}");
        }
    }
}
