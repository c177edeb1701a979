//! The list of a day: tick box, clock time, sheet, what, machine, minutes.

use super::{Sheet, fitted, row_of, tick_box};
use crate::plan::day::{Day, Line};
use crate::sheet::fonts::Fault;
use crate::sheet::layout::block::{BODY, Block, HAIR, STRONG, Style, plain};
use crate::sheet::layout::lists::bar_and;
use crate::sheet::page::{Anchor, Kind, Point, Scope};
use crate::sheet::words;
use crate::sheet::words::day as said;
use crate::sheet::words::day::rows::{self, Is, Row};

/// Height of a row, mm: where there is the room no rule touches the letters under it.
pub(super) const AIRY: f64 = 4.4;
pub(super) const CLOSER: [f64; 2] = [4.1, 3.8];
/// Height of a row that says that there is none, mm.
const NONE: f64 = 4.6;
/// So much lower is a row of a change-over, mm.
const CHANGE: f64 = 0.3;
/// Where the times begin, mm from the left.
const TIME: f64 = 5.0;
/// Between two columns, mm.
const BETWEEN: f64 = 1.5;
/// A column is no wider, mm: what is done has the room.
const MOST: f64 = 26.0;
/// Room of the heading beside the key of the letters, mm.
const KEY: f64 = 30.0;
/// Between the key of the letters and the head of the minutes, with the air beside that, mm.
const HEAD: f64 = 5.0;

/// Where the columns stand, as wide as what is in them.
struct Columns {
    id: f64,
    what: f64,
    machine: f64,
    right: f64,
}

impl Columns {
    fn of(day: &Day, width: f64) -> Result<Self, Fault> {
        let widest = |style: Style, words: &dyn Fn(&Line) -> String| {
            let mut widest = 0.0;
            for line in &day.lines {
                widest = f64::max(widest, style.width(&plain(&words(line)))?);
            }
            Ok::<f64, Fault>(widest.min(MOST) + BETWEEN)
        };
        let id = TIME + widest(STRONG, &|line| said::time_of_day(line.start))?;
        let machine = widest(BODY, &|line| line.machine.clone())?;
        let minutes = widest(BODY, &said::bare_minutes)?;
        let what = id + widest(STRONG, &|line| line.id.clone())?;
        Ok(Self { id, what, machine: width - minutes - machine + BETWEEN, right: width })
    }
}

/// Puts the list.
pub(super) fn put(sheet: &mut Sheet, day: &Day) -> Result<(), Fault> {
    let width = sheet.width();
    let head = HEAD + BODY.width(said::MIN)?;
    let key = fitted(BODY, &rows::key_of_letters(day), width - KEY - head)?;
    let mut first = bar_and(width, said::TIMETABLE, &format!("{key}   {}", said::MIN))?;
    first.keep = true;
    let again = bar_and(width, &format!("{}, {}", said::TIMETABLE, words::CONTINUED), said::MIN)?;
    let columns = Columns::of(day, width)?;
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
            Is::SetUp(line) => row(day, of, line, (&columns, sheet.row))?,
            _ => beside(of, (width, sheet.row - CHANGE))?,
        });
    }
    for (at, (mut block, of)) in blocks.iter().cloned().zip(&all).enumerate() {
        // Between two set-ups, and under the last: over a change-over, which is lower, it would touch the letters.
        let is_set_up = |row: &Row| matches!(row.is, Is::SetUp(_));
        if is_set_up(of) && all.get(at + 1).is_none_or(is_set_up) {
            block.line(Point::new(0.0, block.height), Point::new(width, block.height), HAIR);
        }
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

/// A set-up: its letters behind what is done; what few have stands below it in words, and there what has no room beside the machine.
fn row(day: &Day, of: &Row, line: &Line, (columns, high): (&Columns, f64)) -> Result<Block, Fault> {
    let Columns { id, what, machine, right } = *columns;
    let letters = rows::letters(line).join(" ");
    let letters = if line.hold_point { format!("{letters} {}", said::time_of_day(line.read_at)) } else { letters };
    let letters = if letters.is_empty() { letters } else { format!(" · {letters}") };
    let measuring = if line.measuring_only { format!(" · {}", said::MEASURING_ONLY) } else { String::new() };
    let marks = format!("{measuring}{letters}");
    let by_itself = line.by_itself_until.map(|until| rows::until(line, until));
    let below = rows::over_night(day, line).into_iter().chain(by_itself).chain(rows::rare_marks(day, line));
    let mut below = below.collect::<Vec<_>>().join(" · ");
    let mut words = of.words.clone();
    let room = machine - what - BETWEEN - BODY.width(&marks)?;
    if !below.is_empty() && BODY.width(&plain(&words))? > room {
        let lines = BODY.wrap(&words, room)?;
        if let [first, rest @ ..] = lines.as_slice() {
            below = format!("{} · {below}", rest.join(" "));
            words.clone_from(first);
        }
    }
    let done = format!("{}{marks}", fitted(BODY, &words, room)?);
    let place = fitted(BODY, &line.machine, MOST)?;
    let (clock, minutes) = (said::time_of_day(line.start), said::bare_minutes(line));
    let time = if line.may_change_after.is_some() { BODY } else { STRONG };
    let cells = [
        (TIME, Anchor::Left, time, clock.as_str()),
        (id, Anchor::Left, STRONG, line.id.as_str()),
        (what, Anchor::Left, BODY, done.as_str()),
        (machine, Anchor::Left, BODY, place.as_str()),
        (right, Anchor::Right, BODY, minutes.as_str()),
    ];
    let (base, first) = row_of(&cells.map(|(_, _, style, text)| (style, text)), high)?;
    let below = fitted(BODY, &below, right - what)?;
    let (under, second) = if below.is_empty() { (0.0, 0.0) } else { row_of(&[(BODY, &below)], high - CHANGE)? };
    let mut block = Block::new(first + second);
    tick_box(&mut block, 0.0, first);
    for (at, (x, anchor, style, text)) in cells.into_iter().enumerate() {
        block.open(if at == 0 { Kind::HeadCell(Scope::Row) } else { Kind::Cell });
        block.text(Point::new(x, base), anchor, style, text)?;
        if at == 2 && !below.is_empty() {
            block.text(Point::new(what, first + under), Anchor::Left, BODY, &below)?;
        }
        block.close();
    }
    Ok(block)
}
