//! The list of a day: tick box, clock time, sheet, what, machine, minutes.

use super::{Sheet, fitted, row_of, tick_box};
use crate::plan::day::{Day, Line};
use crate::proof::Verdict;
use crate::sheet::fonts::Fault;
use crate::sheet::layout::block::{BODY, Block, DRAWN, HAIR, STRONG};
use crate::sheet::layout::lists::bars;
use crate::sheet::page::{Anchor, Kind, Point, Scope};
use crate::sheet::words;
use crate::sheet::words::day as said;

/// Height of a row, mm.
const ROW: f64 = 4.4;
/// Height of a row of a change-over, mm.
const CHANGE: f64 = 3.9;
/// Where the columns begin, mm from the left.
const TIME: f64 = 5.0;
const ID: f64 = 22.0;
const WHAT: f64 = 34.0;
/// Widths at the right, mm.
const MACHINE: f64 = 28.0;
const MINUTES: f64 = 15.0;

/// Puts the list.
pub(super) fn put(sheet: &mut Sheet, day: &Day) -> Result<(), Fault> {
    let width = sheet.width();
    let (first, again) = bars(width, said::TIMETABLE, &[])?;
    sheet.put("timetable", &first, Kind::H2);
    if day.lines.is_empty() {
        let mut none = Block::new(ROW);
        none.text(Point::new(0.0, ROW - 1.3), Anchor::Left, BODY, said::NOTHING)?;
        sheet.put("timetable", &none, Kind::P);
        return Ok(());
    }
    for line in &day.lines {
        let rows = rows(day, line, width)?;
        if sheet.y + rows.iter().map(|row| row.height).sum::<f64>() > sheet.floor() {
            sheet.turn();
            sheet.put("timetable", &again, Kind::H2);
        }
        for mut row in rows {
            row.wrap(Kind::Row, false);
            row.wrap(Kind::Table, true);
            sheet.put("timetable", &row, Kind::P);
        }
    }
    sheet.y += super::GAP;
    Ok(())
}

/// The change-over before a line, where there is one, and the line.
fn rows(day: &Day, line: &Line, width: f64) -> Result<Vec<Block>, Fault> {
    let mut all = Vec::new();
    let last =
        line.change.as_ref().and_then(|change| Some((change.pieces.len().checked_sub(1)?, change.pieces.last()?.0)));
    if let Some((piece, at)) = last {
        let words = format!("{} {}", said::time_of_day(at), said::change_over(day, line, piece));
        let words = fitted(BODY, &words, width - TIME)?;
        let (base, height) = row_of(&[(BODY, &words)], CHANGE)?;
        let mut block = Block::new(height);
        block.open(Kind::Cell);
        block.text(Point::new(TIME, base), Anchor::Left, BODY, &words)?;
        block.close();
        all.push(block);
    }
    all.push(row(line, width)?);
    Ok(all)
}

fn row(line: &Line, width: f64) -> Result<Block, Fault> {
    let right = width - MACHINE - MINUTES;
    let marks = marks(line);
    let room = right - WHAT - 1.0 - BODY.width(&marks)?;
    let what = format!("{}{marks}", fitted(BODY, &said::what(line), room)?);
    let machine = fitted(BODY, &line.machine, MACHINE - 1.0)?;
    let (clock, minutes) = (said::time_of_day(line.start), said::minutes(line));
    let cells = [
        (TIME, Anchor::Left, DRAWN, clock.as_str()),
        (ID, Anchor::Left, STRONG, line.id.as_str()),
        (WHAT, Anchor::Left, BODY, what.as_str()),
        (right, Anchor::Left, BODY, machine.as_str()),
        (width, Anchor::Right, BODY, minutes.as_str()),
    ];
    let (base, height) = row_of(&cells.map(|(_, _, style, text)| (style, text)), ROW)?;
    let mut block = Block::new(height);
    tick_box(&mut block, 0.0, height);
    for (at, (x, anchor, style, text)) in cells.into_iter().enumerate() {
        block.open(if at == 0 { Kind::HeadCell(Scope::Row) } else { Kind::Cell });
        block.text(Point::new(x, base), anchor, style, text)?;
        block.close();
    }
    block.line(Point::new(0.0, height), Point::new(width, height), HAIR);
    Ok(block)
}

/// What a line is marked with, behind what is done.
fn marks(line: &Line) -> String {
    let mut marks = Vec::new();
    if line.measuring_only {
        marks.push(said::MEASURING_ONLY.to_owned());
    } else if line.verdict == Verdict::Doubtful {
        marks.push(words::verdict(Verdict::Doubtful).to_owned());
    }
    if line.hold_point {
        marks.push(said::LOOK_AGAIN.to_owned());
    }
    marks.extend(line.by_itself_until.map(said::until));
    marks.iter().map(|mark| format!(" · {mark}")).collect()
}
