//! The pass ladder: a row a pass with a box to tick, what the dial must read, and a blank for what was measured.

use super::block::{BODY, Block, DRAWN, FIGURE, Ladder, STRONG, Style};
use super::cells::{CELL, SPACE, THIN, blank, set, set_cells, width_of};
use crate::operations::{Cut, PassKind};
use crate::proof::{Counted, Dialled, Fact};
use crate::quantity::{Decimals, Print, Rounds, Shown, Unit};
use crate::sheet::figures;
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Field, Fill, Kind, Point, Rect, Scope};
use crate::sheet::words;

/// Height of a row, mm.
pub(super) const ROW: f64 = 9.2;
/// Height of the captions, mm.
const CAPTIONS: f64 = 4.2;
/// Side of the box to tick, mm.
const TICK: f64 = 5.0;
/// Width and height of a blank, mm.
const BLANK: (f64, f64) = (26.0, 8.0);
/// Width of what should be measured, mm.
const SHOULD: f64 = 22.0;
/// Widest blank in a line of words, mm.
const IN_LINE: f64 = 18.0;
/// Narrowest blank that is written in, mm.
const NARROW: f64 = 11.0;
/// The same where the words are set thin, mm.
const NARROWER: f64 = 9.5;
/// How wide the blank of divisions is, in that of a size.
const OF_DIVISIONS: f64 = 0.65;
/// Between the number of a pass and what is reckoned for it, mm.
const AFTER_PASS: f64 = 3.0;
/// An inch, mm.
const INCH: f64 = 25.4;
/// Height of a row to reckon in, and of one that is set as the one before, mm.
const RECKONED: f64 = 5.8;
const SAME: f64 = 5.1;
/// Where the box to tick of such rows begins, mm.
const ROW_LEFT: f64 = 0.6;

/// Where a dial stands: which it is, its whole turns and its divisions from zero.
pub(super) type Stands = (&'static str, u32, f64);

/// The step before a cut that says how far its last pass goes, where one does: its number, and what its reading is.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ended {
    /// Number of the step.
    pub step: usize,
    /// Whether the reading is what was taken off.
    pub taken_off: bool,
    /// What the reading is reckoned with, mm: what must be left, or what must go.
    pub with: Option<f64>,
    /// Where the passes before it left the dial.
    pub after: Option<Stands>,
}

/// What a row says.
enum Says<'a> {
    Dial(&'a Dialled),
    /// What is dialled by a reading; without a dial that anybody named only how far it goes.
    Reading(Ended, Option<&'a Dialled>),
    Again,
    Nothing,
}

struct Row<'a> {
    /// Counted from the first pass of the set-up, where it is counted.
    number: Option<usize>,
    kind: PassKind,
    says: Says<'a>,
    /// What is then left to measure.
    leaves: Option<&'a Fact>,
}

/// The ladder of a cut of several passes. At a machine spindle and feed stand left of it; by hand it stands in two columns, read
/// down. Where it goes on overleaf, what is set stands there again.
pub(super) fn rows(
    cut: &Cut<String>,
    (at_machine, ended): (bool, Option<Ended>),
    print: Print,
    width: f64,
) -> Result<Block, Fault> {
    let middle = width / 2.0;
    let (columns, wide) = if at_machine {
        (vec![width / 3.0 + 1.0], 2.0 * width / 3.0 - 1.0)
    } else {
        (vec![0.0, middle + 2.0], middle - 2.0)
    };
    let mut head = Block::new(CAPTIONS);
    if at_machine {
        head.height = 2.0 * CELL + 0.8;
        set_cells(&mut head, cut, print, width, true)?;
    }
    let mut over = Block::new(CAPTIONS);
    for left in &columns {
        captions(&mut over, (*left, left + wide), (cut, at_machine), print)?;
    }
    over.wrap(Kind::Row, false);
    over.wrap(Kind::Table, false);
    head.set(over, 0.0, 0.0);
    let mut rows = Vec::new();
    for one in passes(cut, ended, 0) {
        let mut block = Block::new(ROW);
        row(&mut block, (0.0, wide), (0.0, ROW), &one, print)?;
        rows.push(block);
    }
    let mut block = Block::ladder(Ladder { head, top: CAPTIONS, columns, rows });
    if at_machine {
        block.height += 0.4;
    }
    Ok(block)
}

/// Whether a cut is one at the setting before it, once more.
pub(super) fn is_again(cut: &Cut<String>) -> bool {
    cut.passes.iter().all(|pass| pass.kind == PassKind::Spring)
}

/// The rows of a cut whose spindle and feed stand above already, over the whole width, after so many passes.
pub(super) fn rows_alone(
    cut: &Cut<String>,
    (ended, passed): (Option<Ended>, usize),
    print: Print,
    width: f64,
) -> Result<Vec<Block>, Fault> {
    let mut blocks = Vec::new();
    for one in passes(cut, ended, passed) {
        let high = match one.says {
            Says::Reading(ended, dial) => {
                let name = words::pass_before(one.number, one.kind);
                let left = ROW_LEFT + TICK + 2.0 + BODY.width(&name)? + AFTER_PASS;
                if reckoning((left, width), ended, dial, print)?.then.is_empty() { RECKONED } else { 2.0 * RECKONED }
            }
            Says::Again => SAME,
            Says::Dial(_) | Says::Nothing => ROW,
        };
        let mut block = Block::new(high);
        row(&mut block, (ROW_LEFT, width), (0.0, high), &one, print)?;
        block.wrap(Kind::Row, false);
        block.wrap(Kind::Table, !blocks.is_empty());
        blocks.push(block);
    }
    Ok(blocks)
}

/// A cut that a reading ends has no dial for its last pass; a spring pass is that same setting again. Its passes are counted on
/// from those before the reading; where there were none, only several of a kind have a number.
fn passes(cut: &Cut<String>, ended: Option<Ended>, passed: usize) -> Vec<Row<'_>> {
    let last = cut.passes.iter().rposition(|pass| pass.kind != PassKind::Spring).filter(|_| ended.is_some());
    let counts = match ended {
        Some(_) => passed > 0 || cut.passes.len() > 2,
        None => passed == 0,
    };
    let mut rows = Vec::new();
    for (at, pass) in cut.passes.iter().enumerate() {
        let says = match (&pass.dial, last, ended) {
            (dial, Some(last), Some(ended)) if at == last => Says::Reading(ended, dial.as_ref()),
            (_, Some(last), Some(_)) if at > last => Says::Again,
            (Some(Dialled::Same), ..) => Says::Again,
            (Some(_), None, _) if passed > 0 && is_again(cut) => Says::Again,
            (Some(dial), ..) => Says::Dial(dial),
            (None, ..) => Says::Nothing,
        };
        // What a reading ends, and what is set as before, says its size elsewhere.
        let leaves = pass.leaves.as_ref().filter(|_| matches!(says, Says::Dial(_)));
        let number = counts.then_some(passed + at + 1);
        rows.push(Row { number, kind: pass.kind, says, leaves });
    }
    rows
}

fn captions(
    block: &mut Block,
    (left, right): (f64, f64),
    (cut, at_machine): (&Cut<String>, bool),
    print: Print,
) -> Result<(), Fault> {
    let base = BODY.capital + 0.2;
    let is_size = cut.passes.iter().any(|pass| matches!(pass.dial, Some(Dialled::Size { .. })));
    let counts_on = cut.passes.iter().any(|pass| matches!(pass.dial, Some(Dialled::Slide(_))));
    let dial = if counts_on { words::DIAL_FROM_ZERO } else { words::DIAL_CELL };
    let dial = if is_size { words::sizes_in(print, at_machine) } else { dial.into() };
    let leaves = cut.passes.iter().any(|pass| pass.leaves.is_some());
    for (x, anchor, caption) in [
        (left + TICK + 2.0, Anchor::Left, words::PASS),
        (right - BLANK.0 - 3.0 - if leaves { SHOULD } else { 0.0 }, Anchor::Right, dial.as_str()),
        (right - BLANK.0 - 2.0, Anchor::Right, if leaves { words::SHOULD_BE } else { "" }),
        (right, Anchor::Right, words::MEASURED),
    ]
    .into_iter()
    .filter(|caption| !caption.2.is_empty())
    {
        block.open(Kind::HeadCell(Scope::Column));
        block.text(Point::new(x, base), anchor, BODY, caption)?;
        block.close();
    }
    Ok(())
}

fn row(
    block: &mut Block,
    (left, right): (f64, f64),
    (top, high): (f64, f64),
    row: &Row,
    print: Print,
) -> Result<(), Fault> {
    let is_reading = matches!(row.says, Says::Reading(..));
    let middle = top + if is_reading { f64::min(high, RECKONED) } else { high } / 2.0;
    let tick = Rect::new(left, middle - TICK / 2.0, left + TICK, middle + TICK / 2.0);
    let base = middle + BODY.capital / 2.0;
    let at = Point::new(left + TICK + 2.0, base);
    let name = words::pass_named(row.number, row.kind);
    block.open(Kind::HeadCell(Scope::Row));
    block.open_as(Kind::Span, words::TICK);
    block.with_field(Field::Tick, &name);
    block.rectangle(tick.grown(-THIN / 2.0), Fill::None, Some(THIN));
    block.close();
    if let Says::Reading(ended, dial) = row.says {
        // In words, so that number and size are never read as one figure.
        let end = block.text(at, Anchor::Left, BODY, &words::pass_before(row.number, row.kind))?.right;
        block.close();
        block.open(Kind::Cell);
        reading(block, (end + AFTER_PASS, right), base, ended, dial, print)?;
        block.close();
        return Ok(());
    }
    let end = block.text(at, Anchor::Left, BODY, &words::pass_number(row.number, row.kind))?.right;
    block.close();
    if high < ROW {
        block.open(Kind::Cell);
        block.text(Point::new(end + 2.0, base), Anchor::Left, BODY, words::DIAL_UNTOUCHED)?;
        block.close();
        return Ok(());
    }
    let measured = Rect::new(right - BLANK.0, middle - BLANK.1 / 2.0, right, middle + BLANK.1 / 2.0);
    let left =
        row.leaves.and_then(|leaves| leaves.shown(None, if print == Print::Both { Print::Metric } else { print }));
    let room = (end + 2.0, measured.left - 3.0 - if left.is_some() { SHOULD } else { 0.0 });
    block.open(Kind::Cell);
    match row.says {
        Says::Dial(dial) => set_dial(block, room, middle, dial, print)?,
        Says::Again => block.text(Point::new(room.1, base), Anchor::Right, STRONG, words::UNTOUCHED).map(|_| ())?,
        _ => block.unseen(Kind::Span, Point::new(room.1, base), words::NONE)?,
    }
    block.close();
    if let Some(left) = left {
        block.open(Kind::Cell);
        let at = Point::new(measured.left - 2.0, middle + DRAWN.capital / 2.0);
        block.text(at, Anchor::Right, DRAWN, &figures::number(&left.number))?;
        block.close();
    }
    blank(block, Kind::Cell, measured.grown(-THIN / 2.0), Some((&name, words::unit_of_sizes(print))));
    Ok(())
}

/// What the dial must read, flush right; what is longer than its room in small letters.
fn set_dial(
    block: &mut Block,
    (left, right): (f64, f64),
    middle: f64,
    dial: &Dialled,
    print: Print,
) -> Result<(), Fault> {
    let (figure, _) = figures::dial(dial, print);
    let mut figure = figure;
    if width_of(&figure)? > right - left && matches!(dial, Dialled::Size { .. }) {
        // Its unit stands over the column.
        figure.retain(|run| run.large);
    }
    let wide = width_of(&figure)?;
    if wide <= right - left {
        return set(block, &figure, Point::new(right - wide, middle + FIGURE.capital / 2.0));
    }
    let text = figure.iter().map(|run| run.text.as_str()).collect::<Vec<_>>().join(" ");
    let text = super::strip::on_one_line(STRONG, &text, right - left)?;
    block.text(Point::new(right, middle + STRONG.capital / 2.0), Anchor::Right, STRONG, &text).map(|_| ())
}

/// How far a dial goes on by what was measured, as it has room in a line, or in two.
struct Reckoning {
    /// Words, and nothing where a blank stands.
    first: Vec<Option<String>>,
    /// What has no room in the first line.
    then: Vec<Option<String>>,
    style: Style,
    /// How wide the blank of a size is, mm.
    blank: f64,
    /// Whether divisions come of a size at once.
    at_once: bool,
}

/// How wide the blank of a size may be in a room with such words, that of divisions being narrower.
fn blank_in(room: f64, pieces: &[Option<String>], style: Style, sizes: usize) -> Result<f64, Fault> {
    let (mut wide, mut blanks) = (0.0, 0.0);
    let mut of_sizes = sizes;
    for piece in pieces {
        match piece {
            Some(text) => wide += style.width(text)? + SPACE,
            None => {
                (wide, blanks) = (wide + SPACE, blanks + if of_sizes > 0 { 1.0 } else { OF_DIVISIONS });
                of_sizes = of_sizes.saturating_sub(1);
            }
        }
    }
    Ok(f64::min((room - wide) / f64::max(blanks, 1.0), IN_LINE))
}

fn reckoning(
    (left, right): (f64, f64),
    ended: Ended,
    dial: Option<&Dialled>,
    print: Print,
) -> Result<Reckoning, Fault> {
    let first = if print == Print::Both { Print::Metric } else { print };
    let with = ended.with.map_or_else(
        || words::TARGET.to_owned(),
        |mm| figures::number(&Shown::of(mm, None, Unit::Mm, (Decimals::Exactly(3), Rounds::Nearest), first).number),
    );
    // Readings in inches and a metric dial: a part of an inch that nobody divides by.
    let is_metric = |counted: &Counted| counted.divided_in.print(first) == Print::Metric;
    let in_other = first == Print::Imperial
        && matches!(dial, Some(Dialled::Slide(counted) | Dialled::Stop(counted)) if is_metric(counted));
    let sets = match dial {
        Some(Dialled::Slide(counted) | Dialled::Stop(counted)) if in_other => {
            words::Sets::InOther(counted.per_measured * INCH / counted.division_mm)
        }
        Some(Dialled::Slide(counted) | Dialled::Stop(counted)) => {
            let division = if first == Print::Imperial { INCH } else { 1.0 };
            words::Sets::Divisions(counted.per_measured, counted.division_mm / division)
        }
        Some(Dialled::Size { .. } | Dialled::Same) => words::Sets::Size,
        Some(Dialled::Turns { .. }) | None => words::Sets::Nothing,
    };
    let pieces = words::reckoned(ended.taken_off, &with, sets, print);
    // A dial that counted from its zero up to here goes on from there: nobody sets it to what it is to go on by.
    let stands = match (dial, ended.after) {
        (Some(Dialled::Slide(counted)), Some((device, turns, divisions))) if counted.device == device => {
            words::from_where_it_stands(turns, divisions)
        }
        _ => Vec::new(),
    };
    let (room, whole) = (right - left, [pieces.clone(), stands.clone()].concat());
    let (at_once, sizes) = (in_other, if in_other { 1 } else { 2 });
    for (style, least) in [(STRONG, NARROW), (BODY, NARROWER)] {
        let blank = blank_in(room, &whole, style, sizes)?;
        if blank >= least || stands.is_empty() {
            return Ok(Reckoning { first: whole, then: Vec::new(), style, blank, at_once });
        }
    }
    let blank = f64::min(blank_in(room, &pieces, STRONG, sizes)?, IN_LINE);
    Ok(Reckoning { first: pieces, then: stands, style: STRONG, blank, at_once })
}

/// How far the dial goes on by what was measured, with blanks to reckon in, and where it then stands.
fn reading(
    block: &mut Block,
    (left, right): (f64, f64),
    base: f64,
    ended: Ended,
    dial: Option<&Dialled>,
    print: Print,
) -> Result<(), Fault> {
    let Reckoning { first, then, style, blank, at_once } = reckoning((left, right), ended, dial, print)?;
    // What was measured, what is then to go in the same unit, and where a slide is turned its divisions.
    let unit = words::unit_of_sizes(print);
    let mut fields = [(words::reading_of(ended.step), unit), (words::to_go(ended.step), unit)]
        .into_iter()
        .take(if at_once { 1 } else { 2 })
        .chain([(words::to_turn(ended.step), words::DIVISIONS)])
        .chain(std::iter::repeat((words::then_reads(ended.step), words::DIVISIONS)));
    for (pieces, base) in [(first, base), (then, base + RECKONED)] {
        let mut x = left;
        for piece in &pieces {
            match piece {
                Some(text) => x = block.text(Point::new(x, base), Anchor::Left, style, text)?.right + SPACE,
                None => {
                    block.open_as(Kind::Span, words::BLANK);
                    let (name, unit) = fields.next().unwrap_or_default();
                    block.with_field(Field::Reckoned(unit), &name);
                    let blank = if unit == words::DIVISIONS { OF_DIVISIONS * blank } else { blank };
                    block.line(Point::new(x, base + 0.9), Point::new(x + blank, base + 0.9), THIN);
                    block.close();
                    x += blank + SPACE;
                }
            }
        }
    }
    Ok(())
}
