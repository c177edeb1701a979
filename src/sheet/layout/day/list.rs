//! The list of a day: tick box, clock time, sheet, what, machine, minutes.

use super::{Sheet, fitted, row_of, tick_box};
use crate::plan::day::{Day, Line};
use crate::sheet::fonts::Fault;
use crate::sheet::layout::block::{BODY, Block, HAIR, STRONG};
use crate::sheet::layout::lists::{bar_and, bars};
use crate::sheet::page::{Anchor, Kind, Point, Scope};
use crate::sheet::words::day as said;
use crate::sheet::words::day::rows::{self, Is, Row};

/// Height of a row, mm: where there is the room no rule touches the letters under it.
pub(super) const AIRY: f64 = 4.4;
pub(super) const CLOSER: [f64; 2] = [4.1, 3.8];
/// Height of a row that says that there is none, mm.
const NONE: f64 = 4.6;
/// So much lower is a row of a change-over, mm.
const CHANGE: f64 = 0.3;
/// Where the columns begin, mm from the left.
const TIME: f64 = 5.0;
const ID: f64 = 18.0;
const WHAT: f64 = 31.0;
/// Widths at the right, mm.
const MACHINE: f64 = 26.0;
const MINUTES: f64 = 15.0;
/// Room of the heading beside the key of the letters, mm.
const KEY: f64 = 30.0;

/// Puts the list.
pub(super) fn put(sheet: &mut Sheet, day: &Day) -> Result<(), Fault> {
    let width = sheet.width();
    let mut first = bar_and(width, said::TIMETABLE, &fitted(BODY, &rows::key_of_letters(day), width - KEY)?)?;
    first.keep = true;
    let (_, again) = bars(width, said::TIMETABLE, &[])?;
    sheet.put("timetable", &first, Kind::H2);
    if day.lines.is_empty() {
        let mut none = Block::new(NONE);
        none.text(Point::new(0.0, NONE - 1.3), Anchor::Left, BODY, said::nothing(day))?;
        sheet.put("timetable", &none, Kind::P);
    }
    let all: Vec<Row> = rows::rows(day).into_iter().filter(|row| !matches!(row.is, Is::Break)).collect();
    let mut blocks = Vec::with_capacity(all.len());
    for of in &all {
        blocks.push(match of.is {
            Is::SetUp(line) => row(day, of, line, (width, sheet.row))?,
            _ => beside(of, (width, sheet.row - CHANGE))?,
        });
    }
    for (at, (mut block, of)) in blocks.iter().cloned().zip(&all).enumerate() {
        // A change-over stands with what it is for, a day with its first line.
        let with = if matches!(of.is, Is::SetUp(_)) { 0.0 } else { blocks.get(at + 1).map_or(0.0, |next| next.height) };
        if sheet.y + block.height + with > sheet.floor() {
            sheet.turn();
            sheet.put("timetable", &again, Kind::H2);
        }
        block.wrap(Kind::Row, false);
        block.wrap(Kind::Table, true);
        sheet.put("timetable", &block, Kind::P);
    }
    sheet.y += super::GAP;
    Ok(())
}

/// A change-over, or the beginning of a day.
fn beside(of: &Row, (width, high): (f64, f64)) -> Result<Block, Fault> {
    let (style, words) = match of.is {
        Is::Day => (STRONG, of.words.clone()),
        _ => (BODY, format!("{} {}", said::time_of_day(of.from), of.words)),
    };
    let words = fitted(style, &words, width - TIME)?;
    let (base, height) = row_of(&[(style, &words)], high)?;
    let mut block = Block::new(height);
    block.open(Kind::Cell);
    block.text(Point::new(TIME, base), Anchor::Left, style, &words)?;
    block.close();
    Ok(block)
}

/// A set-up: its letters behind what is done; what few have stands below it in words.
fn row(day: &Day, of: &Row, line: &Line, (width, high): (f64, f64)) -> Result<Block, Fault> {
    let right = width - MACHINE - MINUTES;
    let letters: String = rows::letters(line).iter().map(|letter| format!(" · {letter}")).collect();
    let letters = if line.hold_point { format!("{letters} {}", said::time_of_day(line.read_at)) } else { letters };
    let measuring = if line.measuring_only { format!(" · {}", said::MEASURING_ONLY) } else { String::new() };
    let marks = format!("{measuring}{letters}");
    let room = right - WHAT - 1.0 - BODY.width(&marks)?;
    let what = format!("{}{marks}", fitted(BODY, &of.words, room)?);
    let machine = fitted(BODY, &line.machine, MACHINE - 1.0)?;
    let (clock, minutes) = (said::time_of_day(line.start), said::minutes(line));
    let time = if line.may_change_after.is_some() { BODY } else { STRONG };
    let cells = [
        (TIME, Anchor::Left, time, clock.as_str()),
        (ID, Anchor::Left, STRONG, line.id.as_str()),
        (WHAT, Anchor::Left, BODY, what.as_str()),
        (right, Anchor::Left, BODY, machine.as_str()),
        (width, Anchor::Right, BODY, minutes.as_str()),
    ];
    let (base, first) = row_of(&cells.map(|(_, _, style, text)| (style, text)), high)?;
    let by_itself = line.by_itself_until.map(|until| rows::until(line, until));
    let below = rows::over_night(day, line).into_iter().chain(by_itself).chain(rows::rare_marks(day, line));
    let below = below.collect::<Vec<_>>().join(" · ");
    let below = fitted(BODY, &below, width - WHAT)?;
    let (under, second) = if below.is_empty() { (0.0, 0.0) } else { row_of(&[(BODY, &below)], high - CHANGE)? };
    let height = first + second;
    let mut block = Block::new(height);
    tick_box(&mut block, 0.0, first);
    for (at, (x, anchor, style, text)) in cells.into_iter().enumerate() {
        block.open(if at == 0 { Kind::HeadCell(Scope::Row) } else { Kind::Cell });
        block.text(Point::new(x, base), anchor, style, text)?;
        if at == 2 && !below.is_empty() {
            block.text(Point::new(WHAT, first + under), Anchor::Left, BODY, &below)?;
        }
        block.close();
    }
    block.line(Point::new(0.0, height), Point::new(width, height), HAIR);
    Ok(block)
}
