//! Cuts: the steps in working order. A cut at a machine has three equal cells, spindle, feed and dial; one of several passes
//! a ladder beside them; what must be measured before anything goes on stands in a frame.

use super::Sheet;
use super::block::{BODY, Block, SECOND, STRONG, as_one};
use super::cells::{self, CELL, cell, set_cells};
use super::flow::Section;
use super::ladder::{self, Ended};
use super::lists::{bar_and, chunks};
use crate::operations::{Cut, SetUp, Station, Step};
use crate::quantity::Print;
use crate::sheet::figures;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Fill, Kind, Point, Rect};
use crate::sheet::words;

/// Width of the numbers, mm.
pub(super) const NUMBER: f64 = 7.0;
/// Above and below a step, mm.
const PAD: f64 = 0.25;
/// Frame of what must be measured before anything goes on, mm.
const FRAME: f64 = 0.7;
/// Width and height of the blank of such a frame, mm.
const BLANK: (f64, f64) = (26.0, 8.0);

/// Parts of the ids of steps at which the work stops until something was measured.
const HOLDS: [&str; 6] =
    ["hold-point", "trial-cut", "try-the-grip", "test-hardness", "measure-closed-in", "trial-bore"];

/// Ids of steps whose reading says how far the dial goes on, and what is written for it. Of a trial step and of an indicator
/// the reading is what was taken off; of the others it is the size that is left.
const READINGS: [(&str, bool); 5] = [
    ("measure-over-rim", false),
    ("measure-through-bore", false),
    ("measure-to-plate", false),
    ("measure-trial-step", true),
    ("measure-by-indicator", true),
];

/// Whether the work stops at a step.
pub(super) fn is_hold(id: &str) -> bool {
    HOLDS.iter().any(|part| id.contains(part))
}

/// Whether a step names a fluid, which stands beside the sketch.
pub(super) fn is_fluid(id: &str) -> bool {
    id.ends_with("-fluid") || id == "cutting-fluid"
}

/// The section of the steps.
pub(super) fn section(sheet: &Sheet, set_up: &SetUp<String>, width: f64) -> Result<Section, Fault> {
    let mut rows = Vec::new();
    let mut ended = None;
    let steps = set_up.steps.iter().filter(|step| !is_fluid(step.id));
    for (at, step) in steps.enumerate() {
        let number = at + 1;
        if let Some((_, taken_off)) = READINGS.iter().find(|reading| reading.0 == step.id) {
            ended = Some(Ended { step: number, taken_off: *taken_off });
        }
        rows.extend(match &step.cut {
            Some(cut) => self::cut(number, step, cut, (set_up.station, ended.take()), sheet.plan.print, width)?,
            None if step.hold_point.is_some() || is_hold(step.id) => hold(number, step, sheet.plan.print, width)?,
            None => by_hand(number, &step.words, width)?,
        });
    }
    let heading = if set_up.cuts().next().is_none() { words::STEPS } else { words::CUTS };
    let time = words::minutes(set_up.minutes, set_up.by_itself());
    let again = format!("{heading}, {}", words::CONTINUED);
    let bar = Some((bar_and(width, heading, &time)?, bar_and(width, &again, "")?));
    Ok(Section { name: words::CUTS, bar, rows })
}

fn numbered(block: &mut Block, number: usize) -> Result<(), Fault> {
    block.lead(None, Point::new(0.6, PAD + STRONG.capital), (Anchor::Left, STRONG), &number.to_string())
}

/// A step by hand: its words over the whole width.
fn by_hand(number: usize, text: &str, width: f64) -> Result<Vec<Block>, Fault> {
    let mut rows = chunks(&BODY.wrap(text, width - NUMBER)?, NUMBER, PAD, BODY)?;
    if rows.is_empty() {
        rows.push(Block::new(PAD + STRONG.capital + 1.4));
    }
    if let Some(first) = rows.first_mut() {
        numbered(first, number)?;
    }
    as_one(&mut rows, Kind::P);
    Ok(rows)
}

/// A hold point: its words in a frame, the readings for which the work goes on, a blank for what was measured.
fn hold(number: usize, step: &Step<String>, print: Print, width: f64) -> Result<Vec<Block>, Fault> {
    const INSIDE: f64 = 1.6;
    // A trial cut is measured in the step after it.
    let has_blank = step.id != "trial-cut";
    let blank = if has_blank { width - FRAME - INSIDE - BLANK.0 } else { width };
    let lines = BODY.wrap(&step.words, blank - NUMBER - 2.0 * INSIDE)?;
    let limits = step.hold_point.as_ref().and_then(|point| words::limits(&point.limits, print));
    let mut rows = Vec::new();
    for (at, some) in lines.chunks(10).enumerate() {
        let mut block = Block::new(0.0);
        let mut end = block.lines(NUMBER + INSIDE, INSIDE, BODY, some)?;
        if let Some(limits) = limits.as_ref().filter(|_| at == 0) {
            end = block.paragraph(NUMBER + INSIDE, end + 0.4, blank - NUMBER - 2.0 * INSIDE, SECOND, limits)?;
        }
        let height = if at == 0 && has_blank { f64::max(end, BLANK.1 + INSIDE) } else { end } + INSIDE - 0.6;
        if at == 0 {
            let place = Point::new(0.6, INSIDE + STRONG.capital);
            block.lead(None, place, (Anchor::Left, STRONG), &number.to_string())?;
        }
        if at == 0 && has_blank {
            let middle = height / 2.0;
            let at = Rect::new(blank, middle - BLANK.1 / 2.0, blank + BLANK.0, middle + BLANK.1 / 2.0);
            let unit = step.hold_point.as_ref().and_then(|point| figures::unit_of_limits(&point.limits, print));
            let unit = unit.unwrap_or(words::unit_of_sizes(print));
            cells::blank(&mut block, Kind::Span, at, Some((&words::reading_of(number), unit)));
        }
        let frame = Rect::new(NUMBER - 0.6, 0.2, width, height);
        block.rectangle(frame.grown(-FRAME / 2.0), Fill::None, Some(FRAME));
        block.height = height + 0.3;
        rows.push(block);
    }
    as_one(&mut rows, Kind::P);
    Ok(rows)
}

/// A step that cuts.
fn cut(
    number: usize,
    step: &Step<String>,
    cut: &Cut<String>,
    (station, ended): (Station, Option<Ended>),
    print: Print,
    width: f64,
) -> Result<Vec<Block>, Fault> {
    let text = if cut.tool.is_empty() { step.words.clone() } else { words::with_tool(&step.words, &cut.tool) };
    let at_machine = cut.spindle.is_some() || station == Station::Lathe;
    let ladder = cut.passes.len() > 1;
    let dial = cut.passes.first().and_then(|pass| pass.dial.as_ref());
    if !at_machine && !ladder {
        let Some(dial) = dial else { return by_hand(number, &text, width) };
        // By hand the dial alone, the words left of it.
        let third = width / 3.0;
        let mut rows = by_hand(number, &text, width - third - 2.0)?;
        if let Some(first) = rows.first_mut() {
            let (figure, beneath) = figures::dial(dial, print);
            first.open(Kind::Table);
            cell(first, Rect::new(width - third, 0.3, width, 0.3 + CELL), words::DIAL_CELL, (&figure, &beneath))?;
            first.close();
            first.height = first.height.max(CELL + 0.6);
        }
        return Ok(rows);
    }
    let mut rows = by_hand(number, &text, width)?;
    if let Some(last) = rows.last_mut() {
        last.keep = true;
    }
    if ladder {
        rows.extend(ladder::rows(cut, (at_machine, ended), print, width)?);
        return Ok(rows);
    }
    let mut cells = Block::new(CELL + 0.8);
    set_cells(&mut cells, cut, print, width, false)?;
    let third = width / 3.0;
    let room = Rect::new(2.0 * third, 0.3, width, 0.3 + CELL);
    let (figure, beneath) = match (dial, ended) {
        (Some(_), Some(ended)) => (Vec::new(), words::by_reading(ended.step)),
        (Some(dial), None) => figures::dial(dial, print),
        (None, _) => (Vec::new(), String::new()),
    };
    let mut dial_cell = Block::new(CELL);
    cell(&mut dial_cell, room, words::DIAL_CELL, (&figure, &beneath))?;
    dial_cell.wrap(Kind::Table, true);
    cells.set(&dial_cell, 0.0, 0.0);
    rows.push(cells);
    if let (Some(dial), Some(ended)) = (dial, ended) {
        if let Some(cells) = rows.last_mut() {
            cells.keep = true;
        }
        let mut row = Block::new(ladder::ROW);
        ladder::reading(&mut row, (NUMBER, width), ladder::ROW - 2.6, ended, dial, print)?;
        row.wrap(Kind::P, false);
        rows.push(row);
    }
    Ok(rows)
}
