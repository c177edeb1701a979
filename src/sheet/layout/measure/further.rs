//! Further sizes: three to a row, each with its blanks.

use super::super::block::{BODY, Block, SECOND, plain};
use super::blanks::{BLANK, GUTTER, NARROW_BLANK, NARROWEST_BLANK, blank, in_a_row, in_lines};
use super::size::{Size, set, width_of};
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Kind, Point, Rect, Scope};

/// Height of a further row, mm.
pub(super) const FURTHER: f64 = 13.0;
/// Under the figure of the other unit, mm.
const BENEATH: f64 = 1.0;
/// Parts of a row, of which a further size takes two, three, four or all.
const PARTS: usize = 6;
/// Between the words of a further size and its blank, mm.
const TO_BLANK: f64 = 1.5;
/// From base line to base line of small letters, mm.
const LINE: f64 = 4.35;

/// Further sizes: each takes as much of a row as it needs, a third at least; with as many blanks as are asked, but no more than
/// `most`.
pub(super) fn further<'a>(
    sizes: impl IntoIterator<Item = &'a Size>,
    width: f64,
    most: usize,
) -> Result<Vec<Block>, Fault> {
    let part = width / PARTS as f64;
    let mut rows: Vec<Block> = Vec::new();
    let mut free = 0;
    for size in sizes {
        let mut fitting = None;
        for parts in [2, 3, 4, PARTS] {
            let (wide, blanks) = (parts as f64 * part - GUTTER, size.readings.min(most));
            // With how many readings are asked, where those words do not take more room.
            let named = Size { label: size.label_for(blanks), ..size.clone() };
            let cell = match self::cell(&named, wide, blanks)? {
                Some(cell) => Some(cell),
                None => self::cell(size, wide, blanks)?,
            };
            if let Some(cell) = cell {
                fitting = Some((parts, cell));
                break;
            }
        }
        let Some((parts, cell)) = fitting else {
            rows.extend(in_lines(&Size { readings: size.readings.min(most), ..size.clone() }, width)?);
            free = 0;
            continue;
        };
        if parts > free {
            rows.push(Block::new(FURTHER));
            free = PARTS;
        }
        if let Some(row) = rows.last_mut() {
            row.height = row.height.max(cell.height);
            row.set(cell, (PARTS - free) as f64 * part, 0.0);
        }
        free -= parts;
    }
    Ok(rows)
}

/// One size in a cell with so many blanks, as wide as it holds; nothing where it is too long for it.
pub(super) fn cell(size: &Size, width: f64, blanks: usize) -> Result<Option<Block>, Fault> {
    let widths: &[f64] = if blanks > 1 { &[NARROW_BLANK, NARROWEST_BLANK] } else { &[BLANK.0] };
    for wide in widths {
        if let Some(cell) = cell_with(size, width, (blanks, *wide))? {
            return Ok(Some(cell));
        }
    }
    Ok(None)
}

fn cell_with(size: &Size, width: f64, (blanks, wide): (usize, f64)) -> Result<Option<Block>, Fault> {
    let mut block = Block::new(FURTHER);
    let room = width - in_a_row(blanks, wide) - TO_BLANK;
    if room < 0.0 {
        return Ok(None);
    }
    let mut lines = Vec::new();
    match &size.found {
        None => lines.push((size.label.clone(), width)),
        Some(_) if BODY.width(&size.name())? <= width => lines.push((size.name(), width)),
        Some(found) if size.target.is_empty() => {
            lines.push((size.label.clone(), width));
            // Caption and figure each in its line rather than a figure broken in two.
            if BODY.width(found)? <= room {
                lines.push((found.clone(), room));
            } else {
                lines.extend([size.known, &size.figure].map(|line| (line.to_owned(), room)));
            }
        }
        Some(_) => return Ok(None),
    }
    block.open(Kind::HeadCell(Scope::Row));
    for (at, (text, room)) in lines.iter().enumerate() {
        if BODY.width(&plain(text))? > *room {
            return Ok(None);
        }
        let first = if size.other.is_empty() || size.target.is_empty() { 3.6 } else { 3.3 };
        block.text(Point::new(0.0, first + at as f64 * LINE), Anchor::Left, BODY, text)?;
    }
    block.close();
    if !size.target.is_empty() {
        let figure = width_of(&size.target, SECOND)?;
        if figure.max(BODY.width(&size.other)?) > room {
            return Ok(None);
        }
        // The other unit beneath.
        let base = if size.other.is_empty() { FURTHER - 1.4 } else { FURTHER - 3.7 };
        block.open(Kind::Cell);
        set(&mut block, &size.target, SECOND, Point::new(0.0, base))?;
        if !size.other.is_empty() {
            block.text(Point::new(0.0, FURTHER + 0.35), Anchor::Left, BODY, &size.other)?;
            block.height = FURTHER + BENEATH;
        }
        block.close();
    }
    for at in (1..=blanks).rev() {
        let left = width - in_a_row(at, wide);
        blank(&mut block, Rect::new(left, FURTHER - BLANK.1 - 0.3, left + wide, FURTHER - 0.3), size);
    }
    block.wrap(Kind::Row, false);
    Ok(Some(block))
}
