//! Measure: what the step is about large, further sizes beside each other, a blank each; day and initials once, in the bar.

mod blanks;
mod further;
mod size;

pub(super) use self::blanks::{BETWEEN, in_a_row};
use self::blanks::{FIRST_BLANK, GUTTER, NARROW_BLANK, NARROWEST_BLANK, blanks, in_lines, in_rows};
use self::further::{FURTHER, cell, further};
use self::size::{Size, set, width_of};
use super::Sheet;
use super::block::{BODY, Block, FIGURE, HAIR, STRONG, as_one, plain};
use super::flow::Section;
use super::lists::bar_and;
use super::zones::TARGET_BASE;
use crate::operations::SetUp;
use crate::quantity::Print;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Field, Kind, Point, Scope};
use crate::sheet::words;

/// Height of the bar, mm.
const BAR: f64 = 4.6;
/// Base line of the words in the bar, mm.
const BASE: f64 = 3.6;
/// From the day to the end of the bar, mm.
const FROM_DAY: f64 = 82.0;
/// Height of the first row, mm.
const FIRST: f64 = 14.0;
/// Above the first blank, mm.
const TOP: f64 = 4.6;
/// Lines to write on, where the steps ask for no size.
const NOTES: usize = 2;
/// What a sum of widths may be short of what it was made for, mm.
const DUST: f64 = 1e-6;

/// The least height of lines to write on, mm.
pub(super) const A_NOTE: f64 = BAR + FURTHER;

/// What is measured: the first with a target stands first, with as many blanks as its step asks. Where all would be higher
/// than the zone, the first shares its row; where they still would, it has as many blanks as there is room for.
/// Where it may be higher for it, it is, so that every reading that is asked has its blank.
pub(super) fn section(
    sheet: &Sheet,
    set_up: &SetUp<String>,
    (width, high): (f64, f64),
    higher: f64,
) -> Result<Section, Fault> {
    let here = in_height(sheet, set_up, (width, high))?;
    let is_whole = sheet.plan.print != Print::Both && has(&here).0 >= asked(set_up);
    if higher <= high || is_whole {
        return Ok(here);
    }
    let taller = in_height(sheet, set_up, (width, higher))?;
    Ok(if has(&taller) > has(&here) { taller } else { here })
}

/// How many blanks stand in rows, and how many words, of which some leave out the figure of the other unit.
fn has(section: &Section) -> (usize, usize) {
    let of = section.rows.iter().map(Block::frames_and_texts);
    of.fold((0, 0), |sum, one| (sum.0 + one.0, sum.1 + one.1))
}

/// How many readings a set-up asks.
fn asked(set_up: &SetUp<String>) -> usize {
    set_up.blanks.iter().map(|blank| blank.readings.max(1)).sum()
}

/// The same in a zone so wide and high.
fn in_height(sheet: &Sheet, set_up: &SetUp<String>, (width, high): (f64, f64)) -> Result<Section, Fault> {
    let mut sizes: Vec<Size> = set_up.blanks.iter().map(|blank| Size::of(sheet, set_up, blank)).collect();
    let about = sizes.iter().position(|size| !size.target.is_empty()).map(|about| sizes.remove(about));
    let mut rows = set_out(about, &sizes, width, high)?;
    as_one(&mut rows, Kind::Table);
    if rows.is_empty() {
        let held = (1..=NOTES).rfind(|lines| BAR + *lines as f64 * FURTHER <= high + DUST).unwrap_or(1);
        rows = vec![to_note(width); held];
        if let (Some(first), true) = (rows.first_mut(), set_up.tail.is_some()) {
            *first = clock(width)?;
        }
    }
    let again = format!("{}, {}", words::MEASURE, words::CONTINUED);
    let mut bar = bar_and(width, if set_up.blanks.is_empty() { words::TO_NOTE } else { words::MEASURE }, "")?;
    day_and_initials(&mut bar, width)?;
    Ok(Section { name: words::MEASURE, bar: Some((bar, bar_and(width, &again, "")?)), rows })
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

/// When what runs unattended began, and when it is ready.
fn clock(width: f64) -> Result<Block, Fault> {
    let base = FURTHER - 1.5;
    let mut line = Block::new(FURTHER);
    line.open(Kind::P);
    for (x, caption) in [(0.0, words::BEGAN), (width / 2.0, words::READY)] {
        let end = line.text(Point::new(x, base), Anchor::Left, BODY, caption)?.right + 1.2;
        line.open_as(Kind::Span, words::BLANK);
        line.with_field(Field::Words, caption);
        line.line(Point::new(end, base + 0.5), Point::new(x + width / 2.0 - GUTTER, base + 0.5), HAIR);
        line.close();
    }
    line.close();
    Ok(line)
}

/// All sizes in rows: with all blanks of the first where those stand in the zone, else with as many as do.
fn set_out(about: Option<Size>, sizes: &[Size], width: f64, high: f64) -> Result<Vec<Block>, Fault> {
    let fits = |rows: &[Block]| BAR + rows.iter().map(|row| row.height).sum::<f64>() <= high + 1e-9;
    // As many blanks of each as are asked, else as many as there is room for.
    let most = sizes.iter().map(|size| size.readings).max().unwrap_or(1);
    let Some(mut about) = about else {
        for most in (2..=most).rev() {
            let rows = further(sizes, width, most)?;
            if fits(&rows) {
                return Ok(rows);
            }
        }
        let one_each = further(sizes, width, 1)?;
        // What goes on overleaf anyhow has the room there for all of them.
        return if fits(&one_each) { Ok(one_each) } else { further(sizes, width, most) };
    };
    let whole = filled(&about, sizes, width, 1)?;
    for most in (1..=most).rev() {
        let with_more = if most > 1 { filled(&about, sizes, width, most)? } else { whole.clone() };
        if fits(&with_more) {
            return Ok(with_more);
        }
        if let Some(shared) = sharing(&about, sizes, width, most)?.filter(|rows| fits(rows)) {
            return Ok(shared);
        }
    }
    let all = filled(&about, sizes, width, most)?;
    let other = about.other.clone();
    for readings in (1..=about.readings).rev() {
        about.readings = readings;
        // Rather all its blanks and its figure large than the other unit behind it.
        for other in [other.as_str(), ""] {
            other.clone_into(&mut about.other);
            let apart = filled(&about, sizes, width, 1)?;
            if fits(&apart) {
                return Ok(apart);
            }
            if let Some(shared) = sharing(&about, sizes, width, 1)?.filter(|rows| fits(rows)) {
                return Ok(shared);
            }
        }
    }
    Ok(all)
}

fn filled(about: &Size, sizes: &[Size], width: f64, most: usize) -> Result<Vec<Block>, Fault> {
    let mut rows = first(about, width)?;
    rows.extend(further(sizes, width, most)?);
    Ok(rows)
}

/// The first size with its blanks behind its figure, as wide as may be, and behind those the first of the others that has room
/// there.
fn sharing(about: &Size, sizes: &[Size], width: f64, most: usize) -> Result<Option<Vec<Block>>, Fault> {
    let (figure, name) = (width_of(&about.target, FIGURE)?, STRONG.width(&about.name())?);
    let other = if about.other.is_empty() { 0.0 } else { GUTTER + BODY.width(&plain(&about.other_behind_its_name))? };
    let widths = [FIRST_BLANK.0, f64::midpoint(FIRST_BLANK.0, NARROW_BLANK), NARROW_BLANK, NARROWEST_BLANK];
    let narrowest = |wide: f64| {
        let (blanks, first) = (GUTTER + in_a_row(about.readings, wide), GUTTER + FIRST_BLANK.0);
        // The other unit behind the name, over the blanks too, or behind the figure.
        let behind_figure = f64::max(figure + other + blanks, name + first);
        let behind_name = f64::max(figure + blanks, f64::max(name + other, name + first));
        behind_figure.min(behind_name) + DUST
    };
    for own in widths.into_iter().map(narrowest) {
        let room = width - own - 2.0 * GUTTER;
        for (at, size) in sizes.iter().enumerate() {
            let blanks = size.readings.min(most);
            let Some(beside) = (if room > 0.0 { cell(size, room, blanks)? } else { None }) else { continue };
            let mut rows = first(about, own)?;
            let [row] = rows.as_mut_slice() else { continue };
            // One with a second unit beneath takes the whole height of the row.
            let top = f64::max(FIRST - beside.height, 0.0);
            row.height = row.height.max(top + beside.height);
            row.set(beside, width - room, top);
            let others = sizes.iter().enumerate().filter(|(other, _)| *other != at).map(|(_, size)| size);
            rows.extend(further(others, width, most)?);
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
    let (mut wide, mut in_one) = in_rows(all, free);
    if in_one < all && in_a_row(all, NARROWEST_BLANK) <= free + DUST {
        (wide, in_one) = ((free + BETWEEN) / all as f64 - BETWEEN, all);
    }
    let room = width - FIRST_BLANK.0 - GUTTER;
    let other = if size.other.is_empty() { 0.0 } else { GUTTER + BODY.width(&plain(&size.other_behind_its_name))? };
    let with_readings = size.name_and_readings();
    let name = if STRONG.width(&with_readings)? + other <= room { with_readings } else { size.name() };
    let lines = STRONG.wrap(&name, room)?;
    let mut block = Block::new(FIRST);
    let base = TARGET_BASE - BAR;
    if lines.len() > 1 || line > room || size.target.is_empty() {
        return in_lines(size, width);
    }
    block.open(Kind::HeadCell(Scope::Row));
    block.lines(0.0, 0.7, STRONG, &lines)?;
    block.close();
    block.open(Kind::Cell);
    set(&mut block, &size.target, FIGURE, Point::new(0.0, base))?;
    if !size.other.is_empty() {
        let (beside, named) = (BODY.width(&plain(&size.other))?, STRONG.width(&name)? + GUTTER);
        let behind = &size.other_behind_its_name;
        // With its figure, and not over the blanks: behind the name, under which the figure stands.
        if named + BODY.width(&plain(behind))? <= width {
            block.text(Point::new(named, 0.7 + STRONG.capital), Anchor::Left, BODY, behind)?;
        } else if line + GUTTER + beside <= width - in_a_row(in_one, wide) - GUTTER {
            block.text(Point::new(line + GUTTER, base), Anchor::Left, BODY, &size.other)?;
        } else {
            return in_lines(size, width);
        }
    }
    block.close();
    block.height = block.height.max(blanks(&mut block, (width, TOP), size, (wide, in_one)));
    block.wrap(Kind::Row, false);
    Ok(vec![block])
}
