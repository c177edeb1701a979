//! Bars with headings, and sections that are lists.

use super::Sheet;
use super::block::{BODY, Block, HEAD, STRONG, Style, as_item, as_one};
use super::flow::Section;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Fill, Kind, Point, Rect};
use crate::sheet::words;

/// Width of the numbers of steps, mm.
pub(super) const NUMBER: f64 = 7.0;
/// Height of a bar, mm.
const BAR: f64 = 4.4;
/// Grey of a bar, hundredths of black: it survives a photocopy.
const GREY: u8 = 12;
/// Under a bar, mm.
const UNDER: f64 = 0.2;
/// Most lines of words in one block; what is longer goes on in the next.
const MOST_LINES: usize = 12;
/// Width of the mark before a line of a list, mm.
const BULLET: f64 = 3.6;
/// Between lines of a list, mm.
const BETWEEN: f64 = 0.6;
/// Above and below a line of the foot, mm.
pub(super) const TIGHT: f64 = 0.11;

/// A caption in a bar and its right end, mm.
pub(super) type Caption = (f64, &'static str);

/// A bar with a heading and captions over columns.
pub(super) fn bar(width: f64, heading: &str, captions: &[Caption]) -> Result<Block, Fault> {
    let mut block = Block::new(BAR + UNDER);
    block.rectangle(Rect::new(0.0, 0.0, width, BAR), Fill::Grey(GREY), None);
    let base = (BAR + HEAD.capital) / 2.0 - 0.2;
    block.text(Point::new(1.2, base), Anchor::Left, HEAD, heading)?;
    for (right, caption) in captions {
        block.text(Point::new(*right, base), Anchor::Right, BODY, caption)?;
    }
    Ok(block)
}

/// A bar with a heading and words at its right end.
pub(super) fn bar_and(width: f64, heading: &str, right: &str) -> Result<Block, Fault> {
    let mut block = bar(width, heading, &[])?;
    if !right.is_empty() {
        let base = (BAR + HEAD.capital) / 2.0 - 0.2;
        block.text(Point::new(width - 1.2, base), Anchor::Right, BODY, right)?;
    }
    Ok(block)
}

/// The bar of a section, and the bar where it goes on.
pub(super) fn bars(width: f64, heading: &str, captions: &[Caption]) -> Result<(Block, Block), Fault> {
    headed(width, heading, heading, captions)
}

/// The same, with more in the first bar than the name of the section.
pub(super) fn headed(width: f64, heading: &str, name: &str, captions: &[Caption]) -> Result<(Block, Block), Fault> {
    let again = format!("{name}, {}", words::CONTINUED);
    Ok((bar(width, heading, captions)?, bar(width, &again, captions)?))
}

/// Lines of words as blocks, so many to a block that a page can hold each.
pub(super) fn chunks(lines: &[String], x: f64, pad: f64, style: Style) -> Result<Vec<Block>, Fault> {
    let mut blocks = Vec::new();
    for some in lines.chunks(MOST_LINES) {
        let mut block = Block::new(0.0);
        block.height = block.lines(x, pad, style, some)? + pad;
        blocks.push(block);
    }
    Ok(blocks)
}

/// Lines of a list, each behind a mark.
pub(super) fn marked(lines: &[String], width: f64) -> Result<Vec<Block>, Fault> {
    let mut blocks = Vec::new();
    for text in lines {
        let mut some = chunks(&BODY.wrap(text, width - BULLET)?, BULLET, BETWEEN / 2.0, BODY)?;
        as_one(&mut some, Kind::Body);
        if let Some(first) = some.first_mut() {
            let at = Point::new(0.4, BETWEEN / 2.0 + BODY.capital);
            first.lead(Some((Kind::Label, None)), at, (Anchor::Left, STRONG), "•")?;
        }
        as_item(&mut some);
        blocks.extend(some);
    }
    Ok(blocks)
}

/// A section of marked lines; nothing where there are none.
pub(super) fn list(name: &'static str, lines: &[String], width: f64) -> Result<Option<Section>, Fault> {
    if lines.is_empty() {
        return Ok(None);
    }
    Ok(Some(Section { name, bar: Some(bars(width, name, &[])?), rows: marked(lines, width)? }))
}

/// What is said of the sheet itself, in rows.
pub(super) fn notes(notes: &[String], width: f64) -> Result<Vec<Block>, Fault> {
    let mut rows = Vec::new();
    for note in notes {
        rows.extend(chunks(&STRONG.wrap(note, width)?, 0.0, 0.2, STRONG)?);
    }
    Ok(rows)
}

/// Items run in, parted by marks: a row a line, and still a list to whoever hears it.
pub(super) fn run_in(items: &[String], width: f64) -> Result<Vec<Block>, Fault> {
    let mut rows = Vec::new();
    let mut goes_on = false;
    for line in BODY.wrap(&items.join(" • "), width)? {
        let mut row = Block::new(0.0);
        row.height = row.lines(0.0, TIGHT, BODY, std::slice::from_ref(&line))? + TIGHT;
        rows.push(row.in_items("• ", &mut goes_on)?);
    }
    for row in &mut rows {
        row.wrap(Kind::List, true);
    }
    Ok(rows)
}

/// Height of rows that stand under each other, mm.
pub(super) fn high(rows: &[Block]) -> f64 {
    rows.iter().map(|row| row.height).sum()
}

/// Cautions that stand apart from the others, and their bar; nothing where there are none.
pub(super) fn cautions_apart(some: &[String], width: f64) -> Result<Option<(Block, Vec<Block>)>, Fault> {
    if some.is_empty() {
        return Ok(None);
    }
    Ok(Some((bar(width, words::CAUTIONS, &[])?, run_in(some, width)?)))
}

/// Cautions of the set-up and of the operation.
pub(super) fn cautions(sheet: &Sheet) -> Vec<String> {
    let mut all: Vec<String> = sheet.set_up.map(|set_up| set_up.cautions.clone()).unwrap_or_default();
    for caution in &sheet.planned.answer.cautions {
        if !all.contains(caution) {
            all.push(caution.clone());
        }
    }
    all
}
