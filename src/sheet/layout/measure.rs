//! Measure: what the step is about large, further sizes beside each other, a blank each; day and initials once, in the bar.

use super::Sheet;
use super::block::{BODY, Block, FIGURE, HAIR, SECOND, STRONG, Style, as_one, plain};
use super::cells;
use super::flow::Section;
use super::lists::bar_and;
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
/// Height of the first row, mm.
const FIRST: f64 = 14.0;
/// Width and height of the first blank, mm.
const FIRST_BLANK: (f64, f64) = (22.0, 9.0);
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
/// Between words of a target, mm.
const SPACE: f64 = 1.3;
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
/// than the zone, the first has one blank and shares its row.
pub(super) fn section(sheet: &Sheet, set_up: &SetUp<String>, width: f64, high: f64) -> Result<Section, Fault> {
    let mut sizes: Vec<Size> = set_up.blanks.iter().map(|blank| Size::of(sheet, blank)).collect();
    let about = sizes.iter().position(|size| !size.target.is_empty()).map(|about| sizes.remove(about));
    let mut rows = filled(about.as_ref(), &sizes, width)?;
    let height: f64 = rows.iter().map(|row| row.height).sum();
    if let (Some(about), true) = (&about, BAR + height > high) {
        rows = sharing(about, &sizes, width)?.unwrap_or(rows);
    }
    as_one(&mut rows, Kind::Table);
    if rows.is_empty() {
        rows = vec![to_note(width); NOTES];
    }
    let again = format!("{}, {}", words::MEASURE, words::CONTINUED);
    let mut bar = bar_and(width, words::MEASURE, "")?;
    day_and_initials(&mut bar, width)?;
    Ok(Section { name: words::MEASURE, bar: Some((bar, bar_and(width, &again, "")?)), rows })
}

fn day_and_initials(bar: &mut Block, width: f64) -> Result<(), Fault> {
    let base = 3.6;
    bar.open(Kind::P);
    for (x, long, caption) in [(width - 82.0, 26.0, words::DAY), (width - 40.0, 24.0, words::INITIALS)] {
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

fn filled(about: Option<&Size>, sizes: &[Size], width: f64) -> Result<Vec<Block>, Fault> {
    let mut rows = about.map_or_else(|| Ok(Vec::new()), |about| first(about, about.readings, width))?;
    rows.extend(further(sizes, width)?);
    Ok(rows)
}

/// The first size with one blank behind its figure, and behind that the first of the others that has room there.
fn sharing(about: &Size, sizes: &[Size], width: f64) -> Result<Option<Vec<Block>>, Fault> {
    let figure = width_of(&about.target, FIGURE)?;
    let own = f64::max(figure, STRONG.width(&about.name())?) + GUTTER + FIRST_BLANK.0;
    let room = width - own - 2.0 * GUTTER;
    for (at, size) in sizes.iter().enumerate() {
        let Some(beside) = (if room > 0.0 { cell(size, room)? } else { None }) else { continue };
        let mut rows = first(about, 1, own)?;
        if let [row] = rows.as_mut_slice() {
            row.set(&beside, width - room, FIRST - FURTHER);
            row.height = row.height.max(FIRST - FURTHER + beside.height);
        } else {
            return Ok(None);
        }
        let others = sizes.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, size)| size);
        rows.extend(further(others, width)?);
        return Ok(Some(rows));
    }
    Ok(None)
}

/// The row of what the step is about; fewer blanks where the line is too long for all.
fn first(size: &Size, readings: usize, width: f64) -> Result<Vec<Block>, Fault> {
    let wide = |blanks: usize| blanks as f64 * (FIRST_BLANK.0 + BETWEEN) - BETWEEN;
    let line = width_of(&size.target, FIGURE)?;
    let blanks = (1..=readings).rev().find(|blanks| line + GUTTER + wide(*blanks) <= width).unwrap_or(1);
    let room = width - FIRST_BLANK.0 - GUTTER;
    let lines = STRONG.wrap(&size.name(), room)?;
    let wide_figure = line;
    let mut block = Block::new(FIRST);
    let base = TARGET_BASE - BAR;
    if lines.len() > 1 || wide_figure > room || size.target.is_empty() {
        return in_lines(size, width);
    }
    block.open(Kind::HeadCell(Scope::Row));
    let end = block.lines(0.0, 0.7, STRONG, &lines)?;
    block.close();
    block.open(Kind::Cell);
    set(&mut block, &size.target, FIGURE, Point::new(0.0, base))?;
    if !size.other.is_empty() {
        let beside = BODY.width(&plain(&size.other))?;
        if wide_figure + GUTTER + beside <= width - wide(blanks) - GUTTER {
            block.text(Point::new(wide_figure + GUTTER, base), Anchor::Left, BODY, &size.other)?;
        } else if STRONG.width(&size.name())? + GUTTER + beside <= room {
            block.text(Point::new(room, end - 1.0), Anchor::Right, BODY, &size.other)?;
        } else {
            return in_lines(size, width);
        }
    }
    block.close();
    for at in (1..=blanks).rev() {
        let left = width - wide(at);
        blank(&mut block, Rect::new(left, TOP, left + FIRST_BLANK.0, TOP + FIRST_BLANK.1), size);
    }
    block.wrap(Kind::Row, false);
    Ok(vec![block])
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
    if let Some(first) = rows.first_mut() {
        blank(first, Rect::new(width - BLANK.0, 0.6, width, 0.6 + BLANK.1), size);
        first.height = first.height.max(BLANK.1 + 1.2);
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
    let room = width - BLANK.0 - GUTTER;
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
