//! Measure: as found, target, and blanks to write the as-left in.

use super::Look;
use super::block::{BODY, Block, FIGURE, HAIR, STRONG, Style, plain};
use super::flow::Section;
use super::lists::{Caption, bars};
use crate::operations::{Blank, SetUp};
use crate::quantity::Print;
use crate::sheet::figures::{self, Run};
use crate::sheet::fonts::{self, Fault};
use crate::sheet::page::{Anchor, Fill, Point, Rect};
use crate::sheet::words;

/// Width of the blank for the size, mm.
const AS_LEFT: f64 = 27.0;
/// Width of the blank for the day, mm.
const DAY: f64 = 17.0;
/// Width of the blank for the initials, mm.
const INITIALS: f64 = 13.0;
/// Least width of the labels, mm.
const LABEL: f64 = 40.0;
/// Between columns, mm.
const GUTTER: f64 = 2.5;
/// Above and below a row, mm.
const PAD: f64 = 0.8;
/// Between the lines of a target, mm.
const LEADING: f64 = 2.2;
/// Between words of a target, mm.
const SPACE: f64 = 1.3;
/// Least height of a row: room to write in, mm.
const LEAST: f64 = 10.6;
/// The same where every millimetre counts, mm.
const LEAST_CLOSE: f64 = 9.2;

/// What is measured.
pub(super) fn section(set_up: &SetUp<String>, print: Print, look: Look) -> Result<Section, Fault> {
    let width = look.width;
    let blanks = width - AS_LEFT - DAY - INITIALS;
    let captions: [Caption; 4] = [
        (blanks - GUTTER, words::TARGET),
        (blanks + AS_LEFT - GUTTER, words::AS_LEFT),
        (blanks + AS_LEFT + DAY - GUTTER, words::DAY),
        (width, words::INITIALS),
    ];
    let mut target = 0.0_f64;
    let rows: Vec<Row> = set_up.blanks.iter().map(|blank| Row::of(blank, print)).collect();
    for row in &rows {
        target = target.max(width_of(&row.target.concat())?);
    }
    let label = f64::max(blanks - GUTTER - target - GUTTER, LABEL);
    let rows = rows.iter().map(|of| row(of, label, look)).collect::<Result<_, _>>()?;
    Ok(Section { name: words::MEASURE, bar: Some(bars(width, words::MEASURE, &captions)?), rows })
}

/// A blank with its figures as they will be set.
struct Row<'a> {
    label: &'a str,
    as_found: Option<String>,
    /// What must stay on one line each; nothing where there is no target.
    target: Vec<Vec<Run>>,
}

impl<'a> Row<'a> {
    fn of(blank: &'a Blank<String>, print: Print) -> Self {
        let as_found = blank.as_found.as_ref().map(|found| found.said(None, print));
        let target = blank.target.as_ref().map_or_else(Vec::new, |target| figures::target(target, print));
        Self { label: &blank.words, as_found, target }
    }
}

/// A row: its words beside the target, or above it where that takes less height.
fn row(blank: &Row, label: f64, look: Look) -> Result<Block, Fault> {
    let blanks = look.width - AS_LEFT - DAY - INITIALS;
    let mut block = beside(blank, label, blanks)?;
    let above = above(blank, blanks)?;
    if above.height < block.height {
        block = above;
    }
    block.height = block.height.max(if look.close { LEAST_CLOSE } else { LEAST });
    let mut x = blanks;
    for wide in [AS_LEFT, DAY, INITIALS] {
        block.rectangle(Rect::new(x, 0.0, x + wide, block.height), Fill::None, Some(HAIR));
        x += wide;
    }
    block.line(Point::new(0.0, block.height), Point::new(blanks, block.height), HAIR);
    Ok(block)
}

/// The words over the target.
fn above(blank: &Row, blanks: f64) -> Result<Block, Fault> {
    let mut block = Block::new(0.0);
    let room = blanks - GUTTER;
    let mut end = block.paragraph(0.0, PAD, room, STRONG, blank.label)?;
    if let Some(found) = &blank.as_found {
        let whole = plain(&format!("{} {found}", words::AS_FOUND));
        let x = room - BODY.width(&whole)?;
        let fits = STRONG.width(&plain(blank.label))? + GUTTER <= x;
        end = match fits {
            true => end.max(block.lines(x, PAD, BODY, &[whole])?),
            false => block.paragraph(0.0, end + 0.3, room, BODY, &whole)?,
        };
    }
    if !blank.target.is_empty() {
        end = set_target(&mut block, &blank.target, &Rect::new(0.0, end + 0.3, room, 0.0))?;
    }
    block.height = end + PAD;
    Ok(block)
}

/// The words beside the target.
fn beside(blank: &Row, label: f64, blanks: f64) -> Result<Block, Fault> {
    let mut block = Block::new(0.0);
    let room = label - GUTTER;
    let mut end = block.paragraph(0.0, PAD, room, STRONG, blank.label)?;
    if let Some(found) = &blank.as_found {
        // Caption and figure each in its line rather than a figure broken in two.
        let whole = format!("{} {found}", words::AS_FOUND);
        let lines =
            if BODY.width(&plain(&whole))? <= room { vec![whole] } else { vec![words::AS_FOUND.into(), found.clone()] };
        for line in lines {
            end = block.paragraph(0.0, end + 0.3, room, BODY, &line)?;
        }
    }
    if !blank.target.is_empty() {
        let room = Rect::new(label, PAD, blanks - GUTTER, 0.0);
        end = end.max(set_target(&mut block, &blank.target, &room)?);
    }
    block.height = end + PAD;
    Ok(block)
}

fn style(run: &Run) -> Style {
    if run.large { FIGURE } else { BODY }
}

/// Sets a target, its figures large, flush right; gives back where it ends.
fn set_target(block: &mut Block, target: &[Vec<Run>], room: &Rect) -> Result<f64, Fault> {
    let mut top = room.top;
    for line in target_lines(target, room.width())? {
        let mut x = room.right - width_of(&line)?;
        let (mut above, mut below) = (0.0_f64, 0.4_f64);
        for run in &line {
            let size = fonts::measure(style(run).font, style(run).capital, &run.text)?;
            (above, below) = (above.max(size.above), below.max(size.below));
        }
        for run in &line {
            let at = Point::new(x, top + above);
            x = block.text(at, Anchor::Left, style(run), &run.text)?.right + SPACE;
        }
        top += above + below + LEADING;
    }
    Ok(f64::max(top - LEADING, room.top))
}

fn width_of(line: &[Run]) -> Result<f64, Fault> {
    let mut wide = 0.0;
    for run in line {
        wide += style(run).width(&run.text)? + SPACE;
    }
    Ok(f64::max(wide - SPACE, 0.0))
}

/// A target broken into lines: between its limits where it can be, else between words, else within.
fn target_lines(target: &[Vec<Run>], room: f64) -> Result<Vec<Vec<Run>>, Fault> {
    let mut lines: Vec<Vec<Run>> = Vec::new();
    for group in target {
        let pieces = if width_of(group)? <= room { vec![group.clone()] } else { apart(group, room)? };
        for piece in pieces {
            let fits = match lines.last() {
                Some(line) => width_of(line)? + SPACE + width_of(&piece)? <= room,
                None => false,
            };
            match lines.last_mut() {
                Some(line) if fits => line.extend(piece),
                _ => lines.push(piece),
            }
        }
    }
    Ok(lines)
}

/// Every run by itself, those too long cut.
fn apart(group: &[Run], room: f64) -> Result<Vec<Vec<Run>>, Fault> {
    let mut pieces = Vec::new();
    for run in group {
        let style = style(run);
        for text in fonts::wrap(style.font, style.capital, &run.text, room)? {
            pieces.push(vec![Run { large: run.large, text }]);
        }
    }
    Ok(pieces)
}
