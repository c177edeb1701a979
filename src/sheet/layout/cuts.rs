//! Cuts: the steps in working order. A cut at a machine has three equal cells, spindle, feed and dial; one of several passes
//! a ladder beside them; what must be measured before anything goes on stands in a frame.

use super::Sheet;
use super::block::{BODY, Block, STRONG, as_one, plain};
use super::cells::{CELL, cell, set_cells};
use super::flow::Section;
use super::hold::{NOTHING_READ, PAD, READINGS, Set, all_inside, hold, print_of_hold};
use super::ladder::{self, Ended, Stands};
use super::lists::{NUMBER, bar_and, chunks, high};
use crate::operations::{Cut, PassKind, SetUp, Station, Step};
use crate::proof::Dialled;
use crate::quantity::Print;
use crate::sheet::figures;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Kind, Point, Rect};
use crate::sheet::words;

/// Above and below a step where the zone would overflow, mm: in the last line after line as in a paragraph.
const TIGHT: [f64; 2] = [0.105, 0.0];
/// Under a box to tick, mm.
const UNDER_TICK: f64 = 0.5;
/// Between two steps in one row, mm.
const APART: f64 = 2.0;
/// Between what is set for a pass and a step beside it, mm: nobody reads the number of the step as that of the setting.
const FROM_PASS: f64 = 3.0;

/// Parts of the ids of steps at which the work stops until something was measured, though no limit could be worked out.
const HOLDS: [&str; 7] = [
    "try-the-grip",
    "test-hardness",
    "measure-closed-in",
    "trial-bore",
    "try-for-lead",
    "measure-the-cuts-first",
    NOTHING_READ,
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
    /// How many passes of it were made, a trial apart, and where they left the dial.
    passed: usize,
    stands: Option<Stands>,
}

impl Before {
    /// Whether what is set for a cut stands above: the reading ends it, or it is the one before once more.
    fn stands_for(&self, cut: &Cut<String>) -> bool {
        let is_the_same = self.ended.is_some() || (self.passed > 0 && ladder::is_again(cut));
        is_the_same && self.set == Some((cut.spindle, cut.feed))
    }

    /// After a cut.
    fn pass(&mut self, cut: &Cut<String>) {
        self.passed += cut.passes.iter().filter(|pass| pass.kind != PassKind::Trial).count();
        let dials = cut.passes.iter().filter_map(|pass| pass.dial.as_ref());
        let mut stands = dials.filter_map(|dial| match dial {
            Dialled::Slide(counted) => Some((counted.device, counted.turns, counted.divisions)),
            _ => None,
        });
        self.stands = stands.next_back().or(self.stands);
    }
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
    filled(sheet, set_up, width, Set { all: true, ..Set::default() })
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
    // Where the reading begins that ends the cut after it: nothing of that is parted.
    let mut from = None;
    for (step, number) in steps(set_up).zip(1..) {
        if let Some((_, with, taken_off)) = READINGS.iter().find(|reading| reading.0 == step.id) {
            let value = |key: &str| sheet.planned.answer.value(key).map(|value| value.number);
            let with = with.iter().find_map(|key| value(key));
            // A bore grows to what is wanted, and what is short of it must go.
            let grows = value("present").zip(with).is_some_and(|(present, with)| present < with);
            let (taken_off, after) = (*taken_off || grows, before.stands);
            before.ended = Some(Ended { step: number, taken_off, with, after });
            from = Some(rows.len());
        }
        // A cut whose spindle and feed stand above already has words and its passes alone.
        let goes_on = step.cut.as_ref().filter(|cut| before.stands_for(cut));
        match &step.cut {
            Some(cut) if goes_on.is_none() || !shared => {
                tool(set_up, cut).clone_into(&mut before.tool);
                rows.extend(self::cut(number, step, cut, (set_up.station, &mut before), print, width)?);
                taken = None;
            }
            None if is_hold(step) => {
                let grows = before.ended.filter(|ended| ended.step == number).map(|ended| ended.taken_off);
                let of = |set| {
                    hold((number, step), (print_of_hold(sheet, step), set), (grows, all_inside(sheet, step)), width)
                };
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
            rows.extend(ladder::rows_alone(cut, (before.ended.take(), before.passed), print, width)?);
            // Short steps may stand beside a pass that is set as the one before.
            let last = cut.passes.last().filter(|pass| pass.kind == PassKind::Spring && cut.passes.len() > 1);
            taken = last.and_then(|_| rows.last()).map(|row| row.right() + FROM_PASS);
        }
        if let Some(cut) = &step.cut {
            before.pass(cut);
            let last = rows.len().saturating_sub(1);
            for row in from.take().and_then(|from| rows.get_mut(from..last)).into_iter().flatten() {
                row.keep = true;
            }
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
    let is_set = before.stands_for(cut);
    let (ended, settings) = (before.ended.take(), (cut.spindle, cut.feed));
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
        rows.extend(ladder::rows_alone(cut, (ended, before.passed), print, width)?);
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
        rows.extend(ladder::rows_alone(cut, (ended, 0), print, width)?);
    }
    Ok(rows)
}
