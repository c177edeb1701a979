//! Below the list in two columns: what must be to hand, what is missing, what stands outside, what was assumed.

use super::{GAP, Sheet, fitted, row_with, tick_box};
use crate::plan::day::search::DAY;
use crate::plan::day::{Day, Pulled};
use crate::sheet::fonts::Fault;
use crate::sheet::layout::block::{BODY, Block, HEAD, STRONG, plain};
use crate::sheet::layout::flow::EDGE;
use crate::sheet::layout::lists::{bar, marked};
use crate::sheet::page::{Anchor, Kind, Point, Rect, Scope};
use crate::sheet::words::day as said;

/// Least height of a row of the pull list, mm: no rule stands between them.
const ROW: f64 = 3.6;
/// Between the columns, mm.
const BETWEEN: f64 = 4.0;
/// Where the words of the pull list begin, mm.
const WORDS: f64 = 18.5;
/// Least room of a column worth beginning, mm.
const LEAST: f64 = 20.0;

/// Puts them, column by column; what has no room goes overleaf.
pub(super) fn put(sheet: &mut Sheet, day: &Day) -> Result<(), Fault> {
    let width = (sheet.width() - BETWEEN) / 2.0;
    let mut rows = Vec::new();
    let before: [(&'static str, Vec<String>); 3] = [
        (said::LOG_FAULTS, day.log_faults.clone()),
        (said::APPOINTMENTS, day.impossible.iter().map(|own| said::appointment(day, own)).collect()),
        (said::BROKEN, day.better_broken.iter().map(said::broken).collect()),
    ];
    for of in before {
        list(&mut rows, of, width)?;
    }
    pull(&mut rows, day, width)?;
    let lists: [(&'static str, Vec<String>); 6] = [
        (said::LACKING, day.missing.iter().map(|own| said::lacking(day, own)).collect()),
        (said::OUT, said::all_left_out(day)),
        (said::OVER, day.left_over.iter().map(|own| said::left_over(day, own)).collect()),
        (said::RULES_OUT, day.rules_left_out.iter().map(said::rule_out).collect()),
        (said::LOGGED, said::logged(day)),
        (said::TAKEN_AND_ASSUMED, said::taken_as_done(day).into_iter().chain(said::assumed_in_short(day)).collect()),
    ];
    for of in lists {
        list(&mut rows, of, width)?;
    }
    flow(sheet, rows, width);
    Ok(())
}

/// Lines under a heading; nothing where there are none.
fn list(rows: &mut Vec<Row>, (heading, lines): (&str, Vec<String>), width: f64) -> Result<(), Fault> {
    if !lines.is_empty() {
        rows.push(Row { block: headed(width, heading)?, kind: Kind::H2 });
        rows.extend(marked(&lines, width)?.into_iter().map(|block| Row { block, kind: Kind::P }));
    }
    Ok(())
}

/// A piece of a column.
#[derive(Clone)]
struct Row {
    block: Block,
    kind: Kind,
}

/// A heading that stays with what follows.
fn headed(width: f64, heading: &str) -> Result<Block, Fault> {
    let mut block = bar(width, heading, &[])?;
    block.keep = true;
    Ok(block)
}

/// The pull list, by drawer, in the order of use.
fn pull(rows: &mut Vec<Row>, day: &Day, width: f64) -> Result<(), Fault> {
    let mut drawers: Vec<&str> = day.pull.iter().map(|own| said::drawer(own.drawer)).collect();
    drawers.dedup();
    if drawers.is_empty() {
        return Ok(());
    }
    let heading = format!("{}: {}", said::PULL, drawers.join(", "));
    rows.push(Row { block: headed(width, &fitted(HEAD, &heading, width - 2.0)?)?, kind: Kind::H2 });
    let mut of_day = 0;
    for own in &day.pull {
        // The clock of another day stands under that day.
        let number = own.first_at / DAY;
        if number != of_day {
            of_day = number;
            let which = said::which_day(day, number);
            let (base, height) = row_with(&[(STRONG, &which)], ROW, 0.0)?;
            let mut block = Block::new(height);
            block.text(Point::new(4.4, base), Anchor::Left, STRONG, &which)?;
            block.keep = true;
            rows.push(Row { block, kind: Kind::P });
        }
        let lines = words(own, width - WORDS)?;
        let (first, later) = lines.split_first().map_or(("", &[][..]), |(first, later)| (first.as_str(), later));
        let (base, height) = row_with(&[(BODY, first)], ROW, 0.0)?;
        let mut block = Block::new(height);
        tick_box(&mut block, 0.0, height);
        let clock = said::time_of_day(own.first_at);
        block.open(Kind::Cell);
        block.text(Point::new(4.4, base), Anchor::Left, STRONG, &clock)?;
        block.close();
        block.open(Kind::HeadCell(Scope::Row));
        block.text(Point::new(WORDS, base), Anchor::Left, BODY, first)?;
        block.height = f64::max(height, block.lines(WORDS, height, BODY, later)?);
        block.close();
        block.wrap(Kind::Row, false);
        block.wrap(Kind::Table, true);
        rows.push(Row { block, kind: Kind::P });
    }
    Ok(())
}

/// A thing with its sheets, in one line; where they have no room with the first, and how many more. A long name stands whole, in
/// more lines, with the sheet that wants it.
fn words(own: &Pulled, room: f64) -> Result<Vec<String>, Fault> {
    let more = own.sheets.len().saturating_sub(1);
    let first = own.sheets.first().map_or("", String::as_str);
    let mut sheets = vec![own.sheets.join(", ")];
    if more > 0 {
        sheets.extend([said::and_more(first, more), said::plus(first, more)]);
    }
    let item = said::pulled(own);
    let mut shortest = String::new();
    for sheets in sheets.iter().filter(|sheets| !sheets.is_empty()) {
        shortest = format!(" ({sheets})");
        let all = format!("{item}{shortest}");
        if BODY.width(&plain(&all))? <= room {
            return Ok(vec![all]);
        }
    }
    BODY.wrap(&format!("{item}{shortest}"), room)
}

/// Where two columns from `top` end that hold all rows and are as even as may be; the foot of the page where they do not hold them.
fn even(rows: &[Row], top: f64, foot: f64) -> f64 {
    let mut floor = foot;
    let all: f64 = rows.iter().map(|row| row.block.height).sum();
    let mut tried = top + all / 2.0;
    while tried < foot {
        if columns(rows, top, tried) <= 2 {
            floor = tried;
            break;
        }
        tried += 1.0;
    }
    floor
}

/// How many columns from `top` to `floor` hold the rows.
fn columns(rows: &[Row], top: f64, floor: f64) -> usize {
    let (mut count, mut y) = (1, top);
    for (at, row) in rows.iter().enumerate() {
        let next = rows.get(at + 1);
        let with = if row.block.keep { next.map_or(0.0, |next| next.block.height) } else { 0.0 };
        if y + row.block.height + with > floor && y > top {
            count += 1;
            y = top;
        }
        y += row.block.height;
        if next.is_some_and(|next| next.block.keep) {
            y += GAP;
        }
    }
    count
}

/// Fills the left column, then the right, then further pages; where two columns hold what is left they are even.
fn flow(sheet: &mut Sheet, rows: Vec<Row>, width: f64) {
    if rows.is_empty() {
        return;
    }
    if sheet.floor() - sheet.y < LEAST {
        sheet.turn();
    }
    let mut column = 0;
    let mut top = sheet.y;
    let mut y = top;
    let mut floor = even(&rows, top, sheet.floor());
    let mut rows = rows.into_iter().peekable();
    while let Some(row) = rows.next() {
        let with = if row.block.keep { rows.peek().map_or(0.0, |next| next.block.height) } else { 0.0 };
        if y + row.block.height + with > floor && y > top {
            column += 1;
            if column > 1 {
                sheet.turn();
                (column, top) = (0, sheet.y);
                let left: Vec<Row> = std::iter::once(row.clone()).chain(rows.by_ref()).collect();
                floor = even(&left, top, sheet.floor());
                rows = left.into_iter().peekable();
                y = top;
                continue;
            }
            y = top;
        }
        let left = EDGE + f64::from(column) * (width + BETWEEN);
        if let Some(page) = sheet.pages.last_mut() {
            let area = page.area("lists", Rect::new(left, y, left + width, y + row.block.height));
            row.block.clone().onto(page, area, (left, y), row.kind);
        }
        y += row.block.height;
        if rows.peek().is_some_and(|next| next.block.keep) {
            y += GAP;
        }
    }
    sheet.y = sheet.floor();
}
