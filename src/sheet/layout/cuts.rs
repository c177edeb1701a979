//! Cuts: the steps in working order. A cut at a machine has three equal cells, spindle, feed and dial; one of several passes
//! a ladder beside them; what must be measured before anything goes on stands in a frame.

use super::Sheet;
use super::block::{BODY, Block, SECOND, STRONG, as_one, plain};
use super::cells::{self, CELL, cell, set_cells};
use super::flow::Section;
use super::ladder::{self, Ended};
use super::lists::{NUMBER, bar_and, chunks, high};
use super::measure::{BETWEEN, in_a_row};
use crate::operations::{Cut, PassKind, SetUp, Station, Step, Target};
use crate::proof::{Dialled, Fact};
use crate::quantity::Print;
use crate::sheet::as_typed;
use crate::sheet::figures;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Fill, Kind, Point, Rect};
use crate::sheet::words;

/// Above and below a step, and where the zone would overflow, mm: in the last line after line as in a paragraph.
const PAD: f64 = 0.18;
const TIGHT: [f64; 2] = [0.105, 0.0];
/// Under a box to tick, mm.
const UNDER_TICK: f64 = 0.5;
/// Between two steps in one row, mm.
const APART: f64 = 2.0;
/// Between what is set for a pass and a step beside it, mm: nobody reads the number of the step as that of the setting.
const FROM_PASS: f64 = 3.0;
/// Frame of what must be measured before anything goes on, mm.
const FRAME: f64 = 0.7;
/// Width and height of the blank of such a frame, mm.
const BLANK: (f64, f64) = (26.0, 8.0);
/// Width of each of several, mm.
const NARROW: f64 = 12.0;
/// So many stand in one frame: of more the one that counts, the others where they are measured.
const MOST_BLANKS: usize = 6;

/// Parts of the ids of steps at which the work stops until something was measured, though no limit could be worked out.
const HOLDS: [&str; 6] =
    ["try-the-grip", "test-hardness", "measure-closed-in", "trial-bore", "try-for-lead", "measure-the-cuts-first"];

/// Ids of steps whose reading says how far the dial goes on, what is reckoned with it, and whether the reading is what was
/// taken off: of a trial step and of an indicator it is, of the others it is the size that is left.
const READINGS: [(&str, &[&str], bool); 7] = [
    ("measure-over-rim", &["length_after"], false),
    ("measure-through-bore", &["length_after"], false),
    ("measure-to-plate", &["length_after"], false),
    ("measure-trial-step", &["removed"], true),
    ("measure-by-indicator", &["removed"], true),
    ("measure-last", &["diameter_after", "thickness_after"], false),
    ("measure-before-the-last", &["bored_size"], true),
];

/// The step that says that a reading counts: where the reading is reckoned with on the sheet, the blanks say it.
const COUNTS: &str = "measured-counts";

/// Whether the work stops at a step.
fn is_hold(step: &Step<String>) -> bool {
    step.hold_point.is_some() || HOLDS.iter().any(|part| step.id.contains(part))
}

/// Whether a step names a fluid, which stands beside the sketch.
pub(super) fn is_fluid(id: &str) -> bool {
    id.ends_with("-fluid") || id == "lubricate"
}

/// The steps that stand among the cuts, in working order.
pub(super) fn steps(set_up: &SetUp<String>) -> impl Iterator<Item = &Step<String>> {
    set_up.steps.iter().filter(|step| !is_fluid(step.id) && step.id != COUNTS)
}

/// What stands before a cut: whether its cells stand there already, and the reading that ends it.
#[derive(Clone, Debug, Default)]
struct Before {
    set: Option<(Option<f64>, Option<f64>)>,
    ended: Option<Ended>,
    /// Whether the set-up cuts with several tools.
    several: bool,
    /// The tool of the cut, as the drawer calls it.
    tool: String,
    /// Above and below a step, mm.
    pad: f64,
    /// Whether turns of the hand, which the words have too, stand in a cell of their own.
    turns: bool,
}

/// Steps as they are set.
pub(super) struct Made {
    pub section: Section,
    /// How much of it yields: turns of the hand that stand in the words alone, and hold points with fewer blanks than readings.
    pub yields: usize,
}

/// The section of the steps; where it would be higher than its zone, short steps share a row.
pub(super) fn section(sheet: &Sheet, set_up: &SetUp<String>, width: f64, high: f64) -> Result<Made, Fault> {
    let fits = |section: &Section| {
        let bar = section.bar.as_ref().map_or(0.0, |bar| bar.0.height);
        section.rows.iter().map(|row| row.height).sum::<f64>() + bar <= high
    };
    let pads = [(PAD, true), (PAD, false)].into_iter().chain(TIGHT.map(|pad| (pad, false)));
    // Rather a blank at a hold point for what counts of its readings than steps that share rows; tools stand beside the sketch too.
    let set = |all, (pad, turns)| Set { pad, turns, all, without_tools: false };
    let mut ways = pads.flat_map(|of| [true, false].map(|all| set(all, of))).collect::<Vec<_>>();
    ways.sort_by_key(|set| (set.pad < PAD, !set.all));
    ways.extend(TIGHT.map(|pad| Set { without_tools: true, ..set(false, (pad, false)) }));
    // What a set-up has not gives no other way.
    let (turns, holds, several) = (has_turns(set_up), steps(set_up).any(is_hold), has_several_tools(set_up));
    ways.retain(|set| {
        (turns || set.turns == (set.pad >= PAD))
            && (holds || set.all || set.without_tools)
            && (several || !set.without_tools)
    });
    for set in ways {
        let made = filled(sheet, set_up, width, set)?;
        if fits(&made.section) {
            return Ok(made);
        }
    }
    filled(sheet, set_up, width, Set::default())
}

/// Whether a hand turns a tool so often that it is counted.
fn has_turns(set_up: &SetUp<String>) -> bool {
    let alone = set_up.cuts().filter(|cut| cut.passes.len() == 1 && cut.spindle.is_none());
    alone.flat_map(|cut| &cut.passes).any(|pass| matches!(pass.dial, Some(Dialled::Turns { .. })))
}

fn has_several_tools(set_up: &SetUp<String>) -> bool {
    let first = set_up.cuts().next().map(|cut| &cut.tool);
    set_up.cuts().any(|cut| Some(&cut.tool) != first)
}

/// How closely steps are set.
#[derive(Clone, Copy, Debug, Default)]
struct Set {
    /// Above and below a step, mm.
    pad: f64,
    /// Whether turns of the hand, which the words have too, stand in a cell of their own.
    turns: bool,
    /// Whether each reading that a hold point asks has its blank there.
    all: bool,
    /// Whether the tools stand beside the sketch alone.
    without_tools: bool,
}

/// The steps in rows.
fn filled(sheet: &Sheet, set_up: &SetUp<String>, width: f64, set: Set) -> Result<Made, Fault> {
    let Set { pad, turns, .. } = set;
    let print = sheet.plan.print;
    let shared = pad < PAD;
    let mut rows = Vec::new();
    let mut yields = usize::from(!turns && has_turns(set_up));
    let several = !set.without_tools && has_several_tools(set_up);
    let mut before = Before { several, pad, turns, ..Before::default() };
    // Up to where the last row is taken by short steps, where those share rows.
    let mut taken = None;
    for (step, number) in steps(set_up).zip(1..) {
        if let Some((_, with, taken_off)) = READINGS.iter().find(|reading| reading.0 == step.id) {
            let value = |key: &str| sheet.planned.answer.value(key).map(|value| value.number);
            let with = with.iter().find_map(|key| value(key));
            // A bore grows to what is wanted, and what is short of it must go.
            let grows = value("present").zip(with).is_some_and(|(present, with)| present < with);
            before.ended = Some(Ended { step: number, taken_off: *taken_off || grows, with });
        }
        // A cut whose spindle and feed stand above already has words and its passes alone.
        let stands = |cut: &&Cut<String>| before.ended.is_some() && before.set == Some((cut.spindle, cut.feed));
        let goes_on = step.cut.as_ref().filter(stands);
        match &step.cut {
            Some(cut) if goes_on.is_none() || !shared => {
                tool(set_up, cut).clone_into(&mut before.tool);
                rows.extend(self::cut(number, step, cut, (set_up.station, &mut before), print, width)?);
                taken = None;
            }
            None if is_hold(step) => {
                let of = |set| hold(number, step, (print_of_hold(sheet, step), set), width);
                let all = of(Set { all: true, ..set })?;
                // As many blanks as are asked wherever they take no line more.
                let fewer = if set.all { None } else { Some(of(set)?).filter(|made| high(&all) > high(made) + 1e-9) };
                yields += usize::from(fewer.is_some());
                rows.extend(fewer.unwrap_or(all));
                taken = None;
            }
            _ if shared => taken = short(&mut rows, (number, step), taken, (pad, width))?,
            _ => rows.extend(by_hand(number, &step.words, (pad, width))?),
        }
        if let Some(cut) = goes_on.filter(|_| shared) {
            if let Some(last) = rows.last_mut() {
                last.keep = true;
            }
            rows.extend(ladder::rows_alone(cut, before.ended.take(), print, width)?);
            // Short steps may stand beside a pass that is set as the one before.
            let last = cut.passes.last().filter(|pass| pass.kind == PassKind::Spring && cut.passes.len() > 1);
            taken = last.and_then(|_| rows.last()).map(|row| row.right() + FROM_PASS);
        }
    }
    let heading = if set_up.cuts().next().is_none() { words::STEPS } else { words::CUTS };
    let time = words::minutes(set_up.minutes, set_up.by_itself());
    let again = format!("{heading}, {}", words::CONTINUED);
    let bar = Some((bar_and(width, heading, &time)?, bar_and(width, &again, "")?));
    Ok(Made { section: Section { name: words::CUTS, bar, rows }, yields })
}

fn numbered(block: &mut Block, (x, pad): (f64, f64), number: usize) -> Result<(), Fault> {
    block.lead(None, Point::new(x + 0.6, pad + STRONG.capital), (Anchor::Left, STRONG), &number.to_string())
}

/// A step by hand: its words over the whole width.
fn by_hand(number: usize, text: &str, (pad, width): (f64, f64)) -> Result<Vec<Block>, Fault> {
    let mut rows = chunks(&BODY.wrap(text, width - NUMBER)?, NUMBER, pad, BODY)?;
    if rows.is_empty() {
        rows.push(Block::new(pad + STRONG.capital + 1.4));
    }
    if let Some(first) = rows.first_mut() {
        numbered(first, (0.0, pad), number)?;
    }
    as_one(&mut rows, Kind::P);
    Ok(rows)
}

/// Puts a step under the others, or beside them where it is short and the last row, taken up to `taken`, has the room; gives
/// back up to where the last row is taken now. A step that is longer than a row lets none stand beside it.
fn short(
    rows: &mut Vec<Block>,
    (number, step): (usize, &Step<String>),
    taken: Option<f64>,
    (pad, width): (f64, f64),
) -> Result<Option<f64>, Fault> {
    let text = plain(&step.words);
    let wide = NUMBER + BODY.width(&text)?;
    if wide > width {
        rows.extend(by_hand(number, &text, (pad, width))?);
        return Ok(None);
    }
    let piece = |top: f64| -> Result<Block, Fault> {
        let mut piece = Block::new(0.0);
        piece.height = piece.lines(NUMBER, top, BODY, std::slice::from_ref(&text))? + pad;
        numbered(&mut piece, (0.0, top), number)?;
        piece.wrap(Kind::P, false);
        Ok(piece)
    };
    let alone = piece(pad)?;
    // A row with a box to tick is higher than a line.
    let is_ticked = |row: &Block| row.height > alone.height + UNDER_TICK;
    // Numbers of steps that stand beside others stand under each other, where rows need not be set as closely as they may.
    let columns = [1.0 / 3.0, 0.5, 2.0 / 3.0].map(|part| part * width);
    let in_column = |x: f64| columns.into_iter().find(|at| pad > 0.0 && *at >= x);
    let beside = taken.map(|taken| taken + APART).filter(|x| x + wide <= width);
    let beside = beside.map(|x| in_column(x).filter(|at| at + wide <= width).unwrap_or(x));
    match (beside, rows.last_mut()) {
        (Some(x), Some(row)) => {
            // On the line of what stands there.
            let top = if is_ticked(row) { (row.height - BODY.capital) / 2.0 - pad } else { 0.0 };
            row.height = row.height.max(top + alone.height);
            row.set(alone, x, top);
            Ok(Some(x + wide))
        }
        (None, Some(row)) if taken.is_some() && is_ticked(row) => {
            rows.push(piece(pad + UNDER_TICK)?);
            Ok(Some(wide))
        }
        _ => {
            rows.push(alone);
            Ok(Some(wide))
        }
    }
}

/// The units of print of a hold point: a size that somebody wrote is measured again in the unit that it was written in, but
/// not where its reading is reckoned with, nor where another size is made of it: that is read in one unit all through.
fn print_of_hold(sheet: &Sheet, step: &Step<String>) -> Print {
    let print = sheet.plan.print;
    let reckoned = READINGS.iter().any(|reading| reading.0 == step.id);
    let Some(point) = step.hold_point.as_ref().filter(|_| print != Print::Both && !reckoned) else { return print };
    let is_made = |number: f64| {
        let mut made =
            sheet.set_up.into_iter().flat_map(|set_up| &set_up.blanks).filter(|blank| blank.target.is_some());
        made.any(|blank| match (&blank.as_found, &blank.target) {
            (Some(Fact::Figure { number: found, .. }), _) => *found == number,
            (None, Some(Target::Between(low, high))) => low
                .number()
                .zip(high.number())
                .is_some_and(|(low, high)| (f64::midpoint(low, high) - number).abs() < 1e-6),
            _ => false,
        })
    };
    let written = sheet.planned.answer.value(point.measures).filter(|value| !is_made(value.number));
    written.and_then(|value| as_typed::print_of(sheet.plan, value)).unwrap_or(print)
}

/// A hold point: its words in a frame, the readings for which the work goes on and what follows of others, a blank for each
/// reading that is asked, or one for what counts of them.
fn hold(number: usize, step: &Step<String>, (print, set): (Print, Set), width: f64) -> Result<Vec<Block>, Fault> {
    let Set { pad, all, .. } = set;
    const INSIDE: f64 = 1.1;
    // A line of capitals keeps off the frame where there is room.
    let inside = if pad < PAD { INSIDE } else { INSIDE + 0.3 };
    const MOST_LINES: usize = 10;
    let first = if print == Print::Both { Print::Metric } else { print };
    let of = |print| step.hold_point.as_ref().and_then(|point| words::limits(&point.limits, print));
    let limits = of(first);
    let x = NUMBER + INSIDE;
    let asked = step.hold_point.as_ref().map_or(1, |point| point.readings).max(1);
    let blanks = if all && asked <= MOST_BLANKS { asked } else { 1 };
    let wide = if blanks > 1 { NARROW } else { BLANK.0 };
    let blank = width - FRAME - INSIDE - in_a_row(blanks, wide);
    let room = blank - INSIDE - x;
    let then = step.hold_point.as_ref().and_then(|point| point.then.as_deref()).unwrap_or_default();
    // The other unit small, before what is done with the reading.
    let other = step.hold_point.as_ref().filter(|_| print == Print::Both);
    let other = other.and_then(|point| words::limits_beside(&point.limits, Print::Imperial));
    // Where the reading is reckoned with, the row for that says how: no room is taken for saying it twice, rather for its blanks.
    let is_reckoned = pad < PAD && READINGS.iter().any(|reading| reading.0 == step.id);
    let reckoned = is_reckoned && (print == Print::Both || blanks > 1);
    let follows = [other.as_deref().unwrap_or_default(), if reckoned { words::AS_RECKONED } else { then }];
    let what = match &limits {
        Some(_) => step.words.clone(),
        None => format!("{} {then}", step.words),
    };
    let mut rows = Vec::new();
    let lines = BODY.wrap(&what, room)?;
    let later = lines.len().div_ceil(MOST_LINES).max(1);
    for (at, some) in lines.chunks(MOST_LINES).enumerate() {
        let mut block = Block::new(0.0);
        let mut end = block.lines(x, inside, BODY, some)?;
        if let Some(limits) = limits.as_ref().filter(|_| at + 1 == later) {
            end = limited(&mut block, (x, if pad < PAD { end } else { end + 0.2 }, room), limits, &follows)?;
        }
        let height = if at == 0 { f64::max(end, BLANK.1 + inside) } else { end } + FRAME - 0.2;
        if at == 0 {
            let place = Point::new(0.6, inside + STRONG.capital);
            block.lead(None, place, (Anchor::Left, STRONG), &number.to_string())?;
            let middle = height / 2.0;
            let unit = step.hold_point.as_ref().and_then(|point| figures::unit_of_limits(&point.limits, print));
            let unit = unit.unwrap_or(words::unit_of_sizes(print));
            for at in 0..blanks {
                let left = blank + at as f64 * (wide + BETWEEN);
                let at = Rect::new(left, middle - BLANK.1 / 2.0, left + wide, middle + BLANK.1 / 2.0);
                cells::blank(&mut block, Kind::Span, at, Some((&words::reading_of(number), unit)));
            }
        }
        let frame = Rect::new(NUMBER - 0.6, 0.15, width, height);
        block.rectangle(frame.grown(-FRAME / 2.0), Fill::None, Some(FRAME));
        block.height = height + 0.1 + pad;
        rows.push(block);
    }
    as_one(&mut rows, Kind::P);
    Ok(rows)
}

/// The limits large, and behind them the other unit and what is done with a reading: in one line, else in two upon each other,
/// else under the limits.
fn limited(block: &mut Block, (x, top, room): (f64, f64, f64), limits: &str, follows: &[&str]) -> Result<f64, Fault> {
    const GAP: f64 = 3.0;
    let limits = plain(limits);
    let follows: Vec<String> = follows.iter().map(|text| plain(text)).filter(|text| !text.is_empty()).collect();
    let wide = SECOND.width(&limits)?;
    if wide > room {
        let end = block.paragraph(x, top, room, SECOND, &limits)?;
        return if follows.is_empty() { Ok(end) } else { block.paragraph(x, end, room, BODY, &follows.join(" ")) };
    }
    let beside = room - wide - GAP;
    let in_one = BODY.width(&follows.join(" "))? <= beside;
    let mut stacked = follows.len() == 2;
    for text in &follows {
        stacked &= BODY.width(text)? <= beside;
    }
    if !in_one && stacked {
        // Two small lines are higher than one large.
        let base = top + 0.2 + f64::midpoint(BODY.capital * 2.45, SECOND.capital);
        block.text(Point::new(x, base), Anchor::Left, SECOND, &limits)?;
        return block.lines(x + wide + GAP, top, BODY, &follows);
    }
    let base = top + SECOND.capital;
    block.text(Point::new(x, base), Anchor::Left, SECOND, &limits)?;
    let end = base + UNDER * SECOND.capital;
    if follows.is_empty() {
        return Ok(end);
    }
    if in_one {
        block.text(Point::new(x + wide + GAP, base), Anchor::Left, BODY, &follows.join(" "))?;
        return Ok(end);
    }
    block.paragraph(x, end, room, BODY, &follows.join(" "))
}

/// Room under the base line of limits, in heights of their capitals.
const UNDER: f64 = 0.2;

/// The words of a step that cuts, its tool behind them where they do not name it and the set-up has several.
fn worded(step: &Step<String>, cut: &Cut<String>, before: &Before) -> String {
    if !before.several || cut.tool.is_empty() || step.words.contains(&cut.tool) {
        step.words.clone()
    } else {
        words::with_tool(&step.words, &before.tool)
    }
}

/// The tool of a cut as the drawer calls it.
pub(super) fn tool<'a>(set_up: &'a SetUp<String>, cut: &'a Cut<String>) -> &'a str {
    set_up.lies.iter().find(|lies| lies.tool == cut.tool).map_or(&cut.tool, |lies| &lies.item)
}

/// A step that cuts, its words on one page with what is set.
fn cut(
    number: usize,
    step: &Step<String>,
    cut: &Cut<String>,
    (station, before): (Station, &mut Before),
    print: Print,
    width: f64,
) -> Result<Vec<Block>, Fault> {
    let ended = before.ended.take();
    let settings = (cut.spindle, cut.feed);
    let is_set = ended.is_some() && before.set == Some(settings);
    let text = if is_set { step.words.clone() } else { worded(step, cut, before) };
    let pad = before.pad;
    let at_machine = cut.spindle.is_some() || station == Station::Lathe;
    before.set = at_machine.then_some(settings);
    let is_ladder = cut.passes.len() > 1;
    let dial = cut.passes.first().and_then(|pass| pass.dial.as_ref());
    if !at_machine && !is_ladder {
        let shown = |dial: &&Dialled| before.turns || !matches!(dial, Dialled::Turns { .. });
        let Some(dial) = dial.filter(shown) else { return by_hand(number, &text, (pad, width)) };
        // By hand the dial alone, the words left of it.
        let third = width / 3.0;
        let mut rows = by_hand(number, &text, (pad, width - third - 2.0))?;
        if let Some(first) = rows.first_mut() {
            let (figure, beneath) = figures::dial(dial, print);
            first.open(Kind::Table);
            cell(first, Rect::new(width - third, 0.3, width, 0.3 + CELL), words::DIAL_CELL, (&figure, &beneath))?;
            first.close();
            first.height = first.height.max(CELL + 0.6);
        }
        return Ok(rows);
    }
    let mut rows = by_hand(number, &text, (pad, width))?;
    if let Some(last) = rows.last_mut() {
        last.keep = true;
    }
    if is_set {
        // Spindle and feed stand above already: what is left is what the hand turns.
        rows.extend(ladder::rows_alone(cut, ended, print, width)?);
        return Ok(rows);
    }
    if is_ladder {
        rows.push(ladder::rows(cut, (at_machine, ended), print, width)?);
    } else {
        rows.extend(three_cells(cut, ended, print, width)?);
    }
    Ok(rows)
}

/// Spindle, feed and dial beside each other; where a reading ends the cut, what is reckoned with it under them.
fn three_cells(cut: &Cut<String>, ended: Option<Ended>, print: Print, width: f64) -> Result<Vec<Block>, Fault> {
    let dial = cut.passes.first().and_then(|pass| pass.dial.as_ref());
    let mut cells = Block::new(CELL + 0.4);
    set_cells(&mut cells, cut, print, width, false)?;
    let third = width / 3.0;
    let room = Rect::new(2.0 * third, 0.2, width, 0.2 + CELL);
    let (figure, beneath) = match (dial, ended) {
        (Some(_), Some(ended)) => (Vec::new(), words::by_reading(ended.step)),
        (Some(dial), None) => figures::dial(dial, print),
        (None, _) => (Vec::new(), String::new()),
    };
    let mut dial_cell = Block::new(CELL);
    cell(&mut dial_cell, room, words::DIAL_CELL, (&figure, &beneath))?;
    dial_cell.wrap(Kind::Table, true);
    cells.set(dial_cell, 0.0, 0.0);
    let mut rows = vec![cells];
    if let (Some(_), Some(_)) = (dial, ended) {
        if let Some(cells) = rows.last_mut() {
            cells.keep = true;
        }
        rows.extend(ladder::rows_alone(cut, ended, print, width)?);
    }
    Ok(rows)
}
