//! Measure: what the step is about large, further sizes beside each other, a blank each; day and initials once, in the bar.

use super::Sheet;
use super::block::{BODY, Block, FIGURE, HAIR, HEAD, SECOND, STRONG, Style, as_one, plain};
use super::cells;
use super::flow::Section;
use super::lists::{NUMBER, bar_and};
use super::zones::TARGET_BASE;
use crate::operations::{Blank, LeftAs, SetUp};
use crate::quantity::Print;
use crate::sheet::as_typed;
use crate::sheet::figures::{self, Run};
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Field, Kind, Point, Rect, Scope};
use crate::sheet::words;

/// Height of the bar, mm.
const BAR: f64 = 4.6;
/// Base line of the words in the bar, mm.
const BASE: f64 = 3.6;
/// From the day to the end of the bar, mm.
const FROM_DAY: f64 = 82.0;
/// Between a step and the bar behind it, and between its heading and the day, mm.
const BESIDE_STEP: f64 = 3.0;
const BESIDE_HEADING: f64 = 4.0;
/// Where the number of a step stands, as that of the others, mm.
const AT_NUMBER: f64 = 0.6;
/// Height of the first row, mm.
const FIRST: f64 = 14.0;
/// Width and height of the first blank, mm; and its least width, where all of several readings stand in one row.
const FIRST_BLANK: (f64, f64) = (22.0, 9.0);
const NARROW_BLANK: f64 = 14.0;
/// Between the blanks of several readings, mm.
const BETWEEN: f64 = 0.6;
/// Above the first blank, mm.
const TOP: f64 = 4.6;
/// Height of a further row, mm.
const FURTHER: f64 = 13.0;
/// Width and height of a further blank, mm.
const BLANK: (f64, f64) = (22.0, 8.0);
/// Under the figure of the other unit, mm.
const BENEATH: f64 = 1.0;
/// Parts of a row, of which a further size takes two, three, four or all.
const PARTS: usize = 6;
/// Lines to write on, where the steps ask for no size.
const NOTES: usize = 2;
/// Between columns, mm.
const GUTTER: f64 = 2.5;
/// Between the words of a further size and its blank, mm.
const TO_BLANK: f64 = 1.5;
/// Between words of a target, mm.
const SPACE: f64 = 1.3;
/// What a sum of widths may be short of what it was made for, mm.
const DUST: f64 = 1e-6;
/// From base line to base line of small letters, mm.
const LINE: f64 = 4.35;

/// A size with its figures as they are set.
struct Size {
    label: String,
    found: Option<String>,
    /// The figure of it alone.
    figure: String,
    /// In the first unit of print.
    target: Vec<Run>,
    /// The same in the other, in brackets.
    other: String,
    /// The unit in which it is written down.
    unit: &'static str,
    /// The name under which the log holds it.
    log: Option<LeftAs>,
    /// How many readings are written down.
    readings: usize,
}

impl Size {
    fn of(sheet: &Sheet, blank: &Blank<String>) -> Self {
        let print = sheet.plan.print;
        let first = if print == Print::Both { Print::Metric } else { print };
        // What is to be made is found and made in one unit, that of its target.
        let alone = blank.as_found.as_ref().filter(|_| blank.target.is_none());
        let typed = alone.and_then(|found| as_typed::found(sheet.plan, &sheet.planned.answer, found));
        let figure = blank
            .as_found
            .as_ref()
            .map(|found| plain(&typed.as_ref().map_or_else(|| found.said(None, first), as_typed::Typed::line)));
        let found = figure.as_ref().map(|figure| plain(&words::found(figure)));
        let target = blank.target.as_ref().map_or_else(Vec::new, |target| figures::target(target, first).concat());
        let other = match &blank.target {
            Some(target) if print == Print::Both => format!("({})", figures::target_line(target, Print::Imperial)),
            _ => String::new(),
        };
        Self {
            label: plain(&blank.words),
            found,
            figure: figure.unwrap_or_default(),
            target,
            other,
            unit: typed.map_or_else(|| figures::unit_of(blank, first), |typed| typed.unit),
            log: blank.log,
            readings: blank.readings.max(1),
        }
    }

    /// Name and size as found.
    fn name(&self) -> String {
        self.found.as_ref().map_or_else(|| self.label.clone(), |found| format!("{}: {found}", self.label))
    }
}

/// What is measured: the first with a target stands first, with as many blanks as its step asks. Where all would be higher
/// than the zone, the first shares its row; where they still would, it has as many blanks as there is room for.
///
/// `step`: number and words of the step that stands in the bar, where one does.
pub(super) fn section(
    sheet: &Sheet,
    set_up: &SetUp<String>,
    (width, high): (f64, f64),
    step: Option<(usize, &str)>,
) -> Result<Section, Fault> {
    let mut sizes: Vec<Size> = set_up.blanks.iter().map(|blank| Size::of(sheet, blank)).collect();
    let about = sizes.iter().position(|size| !size.target.is_empty()).map(|about| sizes.remove(about));
    let mut rows = set_out(about, &sizes, width, high)?;
    as_one(&mut rows, Kind::Table);
    if rows.is_empty() {
        rows = vec![to_note(width); NOTES];
    }
    let again = format!("{}, {}", words::MEASURE, words::CONTINUED);
    let mut bar = match step {
        Some((number, text)) => behind_step(width, number, text)?,
        None => bar_and(width, words::MEASURE, "")?,
    };
    day_and_initials(&mut bar, width)?;
    Ok(Section { name: words::MEASURE, bar: Some((bar, bar_and(width, &again, "")?)), rows })
}

/// Whether a step has room before the bar.
pub(super) fn has_room_in_bar(width: f64, text: &str) -> Result<bool, Fault> {
    let heading = HEAD.width(words::MEASURE)? + BESIDE_HEADING;
    Ok(NUMBER + BODY.width(&plain(text))? + BESIDE_STEP + heading <= width - FROM_DAY)
}

/// The bar behind the last step, which stands before it as under the others, on white.
fn behind_step(width: f64, number: usize, text: &str) -> Result<Block, Fault> {
    let mut bar = Block::new(BAR);
    bar.open(Kind::P);
    bar.text(Point::new(AT_NUMBER, BASE), Anchor::Left, STRONG, &number.to_string())?;
    let end = bar.text(Point::new(NUMBER, BASE), Anchor::Left, BODY, text)?.right;
    bar.close();
    let from = end + BESIDE_STEP;
    bar.set(&bar_and(width - from, words::MEASURE, "")?, from, 0.0);
    Ok(bar)
}

fn day_and_initials(bar: &mut Block, width: f64) -> Result<(), Fault> {
    let base = BASE;
    bar.open(Kind::P);
    for (x, long, caption) in [(width - FROM_DAY, 26.0, words::DAY), (width - 40.0, 24.0, words::INITIALS)] {
        let end = bar.text(Point::new(x, base), Anchor::Left, BODY, caption)?.right + 1.2;
        bar.open_as(Kind::Span, words::BLANK);
        bar.with_field(Field::Words, caption);
        bar.line(Point::new(end, base + 0.5), Point::new(x + long + 14.0, base + 0.5), HAIR);
        bar.close();
    }
    bar.close();
    Ok(())
}

/// A line to write on, where the steps ask for no size.
fn to_note(width: f64) -> Block {
    let mut line = Block::new(FURTHER);
    line.open_as(Kind::Span, words::BLANK);
    line.line(Point::new(0.0, FURTHER - 1.0), Point::new(width, FURTHER - 1.0), HAIR);
    line.close();
    line.wrap(Kind::P, false);
    line
}

/// All sizes in rows: with all blanks of the first where those stand in the zone, else with as many as do.
fn set_out(about: Option<Size>, sizes: &[Size], width: f64, high: f64) -> Result<Vec<Block>, Fault> {
    let fits = |rows: &[Block]| BAR + rows.iter().map(|row| row.height).sum::<f64>() <= high + 1e-9;
    let Some(mut about) = about else { return further(sizes, width) };
    let whole = filled(&about, sizes, width)?;
    if fits(&whole) {
        return Ok(whole);
    }
    let other = about.other.clone();
    for readings in (1..=about.readings).rev() {
        about.readings = readings;
        // Rather all its blanks and its figure large than the other unit behind it.
        for other in [other.as_str(), ""] {
            other.clone_into(&mut about.other);
            let apart = filled(&about, sizes, width)?;
            if fits(&apart) {
                return Ok(apart);
            }
            if let Some(shared) = sharing(&about, sizes, width)?.filter(|rows| fits(rows)) {
                return Ok(shared);
            }
        }
    }
    Ok(whole)
}

fn filled(about: &Size, sizes: &[Size], width: f64) -> Result<Vec<Block>, Fault> {
    let mut rows = first(about, width)?;
    rows.extend(further(sizes, width)?);
    Ok(rows)
}

/// Width of so many blanks beside each other, each so wide, mm.
fn in_a_row(count: usize, wide: f64) -> f64 {
    count as f64 * (wide + BETWEEN) - BETWEEN
}

/// How wide so many blanks are and how many stand in a row of some room: in as few rows as hold the narrowest, shared out
/// alike, as wide as may be.
fn in_rows(all: usize, room: f64) -> (f64, usize) {
    let most = (1..=all).rev().find(|count| in_a_row(*count, NARROW_BLANK) <= room + 1e-9).unwrap_or(1);
    let in_one = all.div_ceil(all.div_ceil(most));
    let wide = (room + BETWEEN) / in_one as f64 - BETWEEN;
    (wide.clamp(NARROW_BLANK, FIRST_BLANK.0), in_one)
}

/// The first size with its blanks behind its figure, as wide as may be, and behind those the first of the others that has room
/// there.
fn sharing(about: &Size, sizes: &[Size], width: f64) -> Result<Option<Vec<Block>>, Fault> {
    let (figure, name) = (width_of(&about.target, FIGURE)?, STRONG.width(&about.name())?);
    let other = if about.other.is_empty() { 0.0 } else { GUTTER + BODY.width(&plain(&about.other))? };
    let widths = [FIRST_BLANK.0, f64::midpoint(FIRST_BLANK.0, NARROW_BLANK), NARROW_BLANK];
    let narrowest = |wide: f64| {
        let (blanks, first) = (GUTTER + in_a_row(about.readings, wide), GUTTER + FIRST_BLANK.0);
        // The other unit behind the figure, or behind the name.
        let behind_figure = f64::max(figure + other + blanks, name + first);
        let behind_name = f64::max(figure + blanks, name + other + first);
        behind_figure.min(behind_name) + DUST
    };
    for own in widths.into_iter().map(narrowest) {
        let room = width - own - 2.0 * GUTTER;
        for (at, size) in sizes.iter().enumerate() {
            let Some(beside) = (if room > 0.0 { cell(size, room)? } else { None }) else { continue };
            let mut rows = first(about, own)?;
            let [row] = rows.as_mut_slice() else { continue };
            // One with a second unit beneath takes the whole height of the row.
            let top = f64::max(FIRST - beside.height, 0.0);
            row.set(&beside, width - room, top);
            row.height = row.height.max(top + beside.height);
            let others = sizes.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, size)| size);
            rows.extend(further(others, width)?);
            return Ok(Some(rows));
        }
    }
    Ok(None)
}

/// The row of what the step is about, with as many blanks as are asked: narrower where the line is long, in lines under each
/// other where it is too long for that.
fn first(size: &Size, width: f64) -> Result<Vec<Block>, Fault> {
    let line = width_of(&size.target, FIGURE)?;
    let all = size.readings;
    let free = width - line - GUTTER;
    let (wide, in_one) = in_rows(all, free);
    let room = width - FIRST_BLANK.0 - GUTTER;
    let lines = STRONG.wrap(&size.name(), room)?;
    let mut block = Block::new(FIRST);
    let base = TARGET_BASE - BAR;
    if lines.len() > 1 || line > room || size.target.is_empty() {
        return in_lines(size, width);
    }
    block.open(Kind::HeadCell(Scope::Row));
    let end = block.lines(0.0, 0.7, STRONG, &lines)?;
    block.close();
    block.open(Kind::Cell);
    set(&mut block, &size.target, FIGURE, Point::new(0.0, base))?;
    if !size.other.is_empty() {
        let beside = BODY.width(&plain(&size.other))?;
        if line + GUTTER + beside <= width - in_a_row(in_one, wide) - GUTTER {
            block.text(Point::new(line + GUTTER, base), Anchor::Left, BODY, &size.other)?;
        } else if STRONG.width(&size.name())? + GUTTER + beside <= room {
            block.text(Point::new(room, end - 1.0), Anchor::Right, BODY, &size.other)?;
        } else {
            return in_lines(size, width);
        }
    }
    block.close();
    block.height = block.height.max(blanks(&mut block, (width, TOP), size, (wide, in_one)));
    block.wrap(Kind::Row, false);
    Ok(vec![block])
}

/// The blanks of a size, so wide and so many in a line, up to the right end `right` and from `top` down; gives back where they
/// end.
fn blanks(block: &mut Block, (right, top): (f64, f64), size: &Size, (wide, in_one): (f64, usize)) -> f64 {
    let (mut left_over, mut y) = (size.readings, top);
    while left_over > 0 {
        let here = left_over.min(in_one.max(1));
        for at in (1..=here).rev() {
            let left = right - in_a_row(at, wide);
            blank(block, Rect::new(left, y, left + wide, y + FIRST_BLANK.1), size);
        }
        left_over -= here;
        y += FIRST_BLANK.1 + BETWEEN;
    }
    y - BETWEEN
}

fn blank(block: &mut Block, room: Rect, size: &Size) {
    let field = size.log.map_or(Field::Size(size.unit), |left| Field::Left(size.unit, left));
    cells::blank_for(block, Kind::Cell, room.grown(-0.125), Some((&size.label, field)));
}

/// A size that is too long for its place: its words broken over the width.
fn in_lines(size: &Size, width: f64) -> Result<Vec<Block>, Fault> {
    let room = width - BLANK.0 - GUTTER;
    let mut text = size.name();
    let mut target = size.target.iter().map(|run| run.text.clone()).collect::<Vec<_>>();
    target.extend((!size.other.is_empty()).then(|| size.other.clone()));
    if !size.target.is_empty() {
        text = format!("{text}; {} {}", words::TARGET, target.join(" "));
    }
    let mut rows = super::lists::chunks(&STRONG.wrap(&text, room)?, 0.0, 0.6, STRONG)?;
    if rows.is_empty() {
        rows.push(Block::new(0.0));
    }
    as_one(&mut rows, Kind::HeadCell(Scope::Row));
    if let Some(first) = rows.first_mut().filter(|_| size.readings == 1) {
        blank(first, Rect::new(width - BLANK.0, 0.6, width, 0.6 + BLANK.1), size);
        first.height = first.height.max(BLANK.1 + 1.2);
    } else {
        let mut under = Block::new(0.0);
        under.height = blanks(&mut under, (width, 0.2), size, in_rows(size.readings, width)) + 0.4;
        rows.push(under);
    }
    as_one(&mut rows, Kind::Row);
    Ok(rows)
}

/// Further sizes: each takes as much of a row as it needs, a third at least.
fn further<'a>(sizes: impl IntoIterator<Item = &'a Size>, width: f64) -> Result<Vec<Block>, Fault> {
    let part = width / PARTS as f64;
    let mut rows: Vec<Block> = Vec::new();
    let mut free = 0;
    for size in sizes {
        let mut fitting = None;
        for parts in [2, 3, 4, PARTS] {
            let cell = self::cell(size, parts as f64 * part - GUTTER)?;
            if let Some(cell) = cell {
                fitting = Some((parts, cell));
                break;
            }
        }
        let Some((parts, cell)) = fitting else {
            rows.extend(in_lines(size, width)?);
            free = 0;
            continue;
        };
        if parts > free {
            rows.push(Block::new(FURTHER));
            free = PARTS;
        }
        if let Some(row) = rows.last_mut() {
            row.set(&cell, (PARTS - free) as f64 * part, 0.0);
            row.height = row.height.max(cell.height);
        }
        free -= parts;
    }
    Ok(rows)
}

/// One size in a cell; nothing where it is too long for it.
fn cell(size: &Size, width: f64) -> Result<Option<Block>, Fault> {
    let mut block = Block::new(FURTHER);
    let room = width - BLANK.0 - TO_BLANK;
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
                lines.extend([words::AS_FOUND, &size.figure].map(|line| (line.to_owned(), room)));
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
        let wide = width_of(&size.target, SECOND)?;
        if wide.max(BODY.width(&size.other)?) > room {
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
    blank(&mut block, Rect::new(width - BLANK.0, FURTHER - BLANK.1 - 0.3, width, FURTHER - 0.3), size);
    block.wrap(Kind::Row, false);
    Ok(Some(block))
}

fn style(run: &Run, large: Style) -> Style {
    if run.large { large } else { BODY }
}

fn width_of(runs: &[Run], large: Style) -> Result<f64, Fault> {
    let mut wide = 0.0;
    for run in runs {
        wide += style(run, large).width(&run.text)? + SPACE;
    }
    Ok(f64::max(wide - SPACE, 0.0))
}

fn set(block: &mut Block, runs: &[Run], large: Style, at: Point) -> Result<(), Fault> {
    let mut x = at.x;
    for run in runs {
        x = block.text(Point::new(x, at.y), Anchor::Left, style(run, large), &run.text)?.right + SPACE;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::{BETWEEN, FIRST_BLANK, NARROW_BLANK, in_a_row, in_rows};

    /// Twelve readings beside a long figure stand in two rows of six, not in three of five and two: as few rows as may be, and the
    /// blanks as wide as those leave.
    #[test]
    fn blanks_stand_in_as_few_rows_as_hold_them() {
        assert_eq!(in_rows(12, 120.0).1, 6);
        assert_eq!(in_rows(4, 200.0), (FIRST_BLANK.0, 4));
        for all in 1..=40 {
            for room in [5.0, 14.0, 60.0, 120.0, 186.0] {
                let (wide, in_one) = in_rows(all, room);
                assert!((NARROW_BLANK..=FIRST_BLANK.0).contains(&wide) && (1..=all).contains(&in_one), "{all} {room}");
                assert!(in_one == 1 || in_a_row(in_one, wide) <= room + 1e-6, "{all} {room}");
                let fewer = all.div_ceil(in_one) - 1;
                let fits = fewer > 0 && in_a_row(all.div_ceil(fewer), NARROW_BLANK) <= room - BETWEEN;
                assert!(!fits, "{all} blanks in {room} mm would stand in {fewer} rows");
            }
        }
    }
}
