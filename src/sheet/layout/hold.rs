//! Hold points: what must be measured before anything goes on, in a frame.

use super::Sheet;
use super::block::{BODY, Block, SECOND, STRONG, as_one, plain};
use super::cells;
use super::lists::NUMBER;
use super::measure::{BETWEEN, in_a_row};
use crate::operations::{Step, Target};
use crate::proof::Fact;
use crate::quantity::{Print, Unit};
use crate::sheet::fonts::Fault;
use crate::sheet::page::{Anchor, Fill, Kind, Point, Rect};
use crate::sheet::{as_typed, figures, words};

/// Ids of steps whose reading says how far the dial goes on, what is reckoned with it, and whether the reading is what was
/// taken off: of a trial step and of an indicator it is, of the others it is the size that is left.
pub(super) const READINGS: [(&str, &[&str], bool); 7] = [
    ("measure-over-rim", &["length_after"], false),
    ("measure-through-bore", &["length_after"], false),
    ("measure-to-plate", &["length_after"], false),
    ("measure-trial-step", &["removed"], true),
    ("measure-by-indicator", &["removed"], true),
    ("measure-last", &["diameter_after", "thickness_after"], false),
    ("measure-before-the-last", &["bored_size"], true),
];

/// The stop at which nothing is read: the work does not go on as it is planned.
pub(super) const NOTHING_READ: &str = "no-outside-is-proven";

/// Above and below a step, mm.
pub(super) const PAD: f64 = 0.18;
/// Frame of what must be measured before anything goes on, mm.
const FRAME: f64 = 0.7;
/// Width and height of the blank of such a frame, mm.
const BLANK: (f64, f64) = (26.0, 8.0);
/// Width of each of several, mm.
const NARROW: f64 = 12.0;
/// So many stand in one frame: of more the one that counts, the others where they are measured.
const MOST_BLANKS: usize = 6;

/// How closely steps are set.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Set {
    /// Above and below a step, mm.
    pub pad: f64,
    /// Whether turns of the hand, which the words have too, stand in a cell of their own.
    pub turns: bool,
    /// Whether each reading that a hold point asks has its blank there.
    pub all: bool,
    /// Whether the tools stand beside the sketch alone.
    pub without_tools: bool,
}

/// The units of print of a hold point: a size that somebody wrote is measured again in the unit that it was written in, but
/// not where its reading is reckoned with, nor where another size is made of it: that is read in one unit all through.
pub(super) fn print_of_hold(sheet: &Sheet, step: &Step<String>) -> Print {
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
/// reading that is asked, or one for what counts of them. Where its reading is `reckoned` with, whether the greatest counts; and
/// whether all that is expected lies inside its limits.
pub(super) fn hold(
    (number, step): (usize, &Step<String>),
    (print, set): (Print, Set),
    (reckoned, all_inside): (Option<bool>, bool),
    width: f64,
) -> Result<Vec<Block>, Fault> {
    let Set { pad, all, .. } = set;
    const INSIDE: f64 = 1.1;
    // A line of capitals keeps off the frame where there is room.
    let inside = if pad < PAD { INSIDE } else { INSIDE + 0.3 };
    const MOST_LINES: usize = 10;
    let first = if print == Print::Both { Print::Metric } else { print };
    let of = |print| step.hold_point.as_ref().and_then(|point| words::limits(&point.limits, print));
    let limits = of(first);
    let x = NUMBER + INSIDE;
    let is_read = step.id != NOTHING_READ;
    let asked = step.hold_point.as_ref().map_or(1, |point| point.readings).max(1);
    let blanks = if !is_read {
        0
    } else if all && asked <= MOST_BLANKS {
        asked
    } else {
        1
    };
    let wide = if blanks > 1 { NARROW } else { BLANK.0 };
    let blank = width - FRAME - INSIDE - if is_read { in_a_row(blanks, wide) } else { 0.0 };
    let room = blank - INSIDE - x;
    let then = step.hold_point.as_ref().and_then(|point| point.then.as_deref()).unwrap_or_default();
    // The other unit small, before what is done with the reading.
    let other = step.hold_point.as_ref().filter(|_| print == Print::Both);
    let other = other.and_then(|point| words::limits_beside(&point.limits, Print::Imperial));
    // Where the reading is reckoned with, the row for that says how.
    let then = reckoned.map_or(then, |grows| words::as_reckoned(asked > 1, grows));
    let then =
        if all_inside || reckoned.is_some() { then.to_owned() } else { format!("{} {then}", words::NOT_ALL_INSIDE) };
    let then = then.trim_end();
    let follows = [other.as_deref().unwrap_or_default(), then];
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

/// Whether all readings that are expected of a size that was worked out let the work go on: who reads beyond that is told that it may be
/// so.
pub(super) fn all_inside(sheet: &Sheet, step: &Step<String>) -> bool {
    // What is cut is measured again before the last cut: that is said there.
    let is_cut = sheet.set_up.is_some_and(|set_up| set_up.cuts().next().is_some());
    let Some(point) = step.hold_point.as_ref().filter(|_| !is_cut) else { return true };
    // How warm a thing gets is no size: it is waited for.
    let value = sheet.planned.answer.value(point.measures).filter(|value| value.unit == Unit::Mm);
    let Some(value) = value.filter(|value| value.origin.entry().is_none()) else {
        return true;
    };
    let (low, high) = value.band.unwrap_or((value.number, value.number));
    let (least, most) = point.limits.numbers();
    let beyond = |limit: Option<f64>, at: f64, way: f64| limit.is_some_and(|limit| way * (limit - at) > SEEN);
    let read = |at: f64| at - point.taken_off;
    !beyond(least, read(low - value.plus_minus), 1.0) && !beyond(most, read(high + value.plus_minus), -1.0)
}

/// What is seen of a size as it is printed, mm.
const SEEN: f64 = 1.1e-3;

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
