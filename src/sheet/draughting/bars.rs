//! Sizes as level bars: all on one scale, a ruler under each group, and what lies between two of them.

use super::hatching;
use super::symbols::{ARROW, arrowhead};
use super::{Fault, Point};
use crate::drawing::{BarGroup, Bars, Ruler, rectangle};
use crate::sheet::fonts::{self, Font};
use crate::sheet::page::{Anchor, AreaId, Dash, Fill, Page, Rect, Role, Text};
use crate::sheet::words;
use nalgebra::Vector2;

/// Scales, mm of paper for each micrometre, the largest first.
const SCALES: [f64; 15] =
    [2.0, 1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005, 0.002, 0.001, 0.0005, 0.0002, 0.0001, 0.00005];
/// Micrometres in a millimetre.
const MICROMETRES: f64 = 1000.0;
/// Height of a bar, mm.
const BAR: f64 = 3.2;
/// From row to row, mm: closer where there would be no room.
const ROWS: [f64; 2] = [5.2, 4.6];
/// Room for the names, mm at most.
const NAMES: f64 = 40.0;
/// Height of the capitals, mm.
const CAPITAL: f64 = 3.0;
/// Between a figure and what it belongs to, mm.
const AIR: f64 = 1.2;
/// From the caption of a line to its first figure, mm at least.
const AIR_AFTER: f64 = 3.0;
/// A ruler: its line under the figures over it, its long and short lines, the figures under it, mm.
const LINE_AT: f64 = 6.4;
const LONG: f64 = 1.8;
const SHORT: f64 = 1.0;
const UNDER: f64 = 6.2;
/// Under the line of a ruler under which nothing is read off: half of the scale beside it, and its tails.
const BELOW: f64 = 2.6;
/// Between the end of a ruler and the scale beside it, mm.
const AFTER_RULER: f64 = 2.5;
/// Short lines nearer to each other than this are left out, mm.
const NEAREST: f64 = 0.9;
/// Between groups, mm.
const BETWEEN: f64 = 2.4;
/// Lines, mm: outline, thin.
const OUTLINE: f64 = 0.5;
const THIN: f64 = 0.25;
/// Grey of a bar, hundredths of black.
const GREY: u8 = 12;

/// What was drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct BarsDrawn {
    /// Millimetres of paper for each micrometre, which it prints itself.
    pub scale: f64,
    /// What it covers.
    pub bounds: Rect,
}

/// How a group stands: its room from its own least, figures and all, mm of paper.
struct Reach {
    left: f64,
    right: f64,
}

/// Draws bars into a room (mm of paper) of a page, from its upper left corner, at the largest scale that fits.
///
/// # Errors
/// [`Fault`], and then nothing is drawn.
pub fn bars(page: &mut Page, area: AreaId, room: Rect, bars: &Bars) -> Result<BarsDrawn, Fault> {
    let no_room = Fault::NoRoom { width: room.width(), height: room.height() };
    let row = ROWS.into_iter().find(|row| height(bars, *row) <= room.height());
    let Some(row) = row.filter(|_| !bars.groups.is_empty()) else { return Err(no_room) };
    let high = height(bars, row);
    let names = names(bars)?;
    let wide = room.width() - names;
    for scale in SCALES {
        let reaches = bars.groups.iter().map(|group| reach(group, scale, names)).collect::<Result<Vec<_>, _>>()?;
        if reaches.iter().any(|reach| reach.right - reach.left > wide) {
            continue;
        }
        let mut top = room.top;
        for (group, reach) in bars.groups.iter().zip(&reaches) {
            let from = room.left + names - reach.left;
            let drawn = Group { group, scale, high: row, names: room.left, from };
            top = drawn.draw(page, area, top)? + BETWEEN;
        }
        let bounds = Rect::new(room.left, room.top, room.right, room.top + high);
        return Ok(BarsDrawn { scale, bounds });
    }
    Err(no_room)
}

fn rows(group: &BarGroup) -> usize {
    group.bars.len() + usize::from(group.gap.is_some())
}

fn ruler_height(ruler: &Ruler) -> f64 {
    LINE_AT + if ruler.under.is_some() { UNDER } else { BELOW }
}

fn height(bars: &Bars, row: f64) -> f64 {
    let one = |group: &BarGroup| rows(group) as f64 * row + ruler_height(&group.ruler);
    bars.groups.iter().map(one).sum::<f64>() + bars.groups.len().saturating_sub(1) as f64 * BETWEEN
}

fn width(text: &str) -> Result<f64, Fault> {
    Ok(fonts::width(Font::Sans, CAPITAL, text)?)
}

/// What the names take: short ones leave more of the room for the bars.
fn names(bars: &Bars) -> Result<f64, Fault> {
    let mut widest = 0.0_f64;
    for group in &bars.groups {
        for name in group.bars.iter().map(|bar| &bar.name).chain(group.gap.iter().map(|gap| &gap.name)) {
            widest = widest.max(width(name)?);
        }
    }
    Ok(f64::min(widest + AIR_AFTER, NAMES))
}

/// What a group takes at a scale, from its own least.
fn reach(group: &BarGroup, scale: f64, names: f64) -> Result<Reach, Fault> {
    let (low, _) = group.span();
    let x = |mm: f64| (mm - low) * MICROMETRES * scale;
    let scale_said = AFTER_RULER + width(&words::a_micrometre(scale))?;
    let mut reach = Reach { left: 0.0, right: 0.0 };
    let mut take = |left: f64, right: f64| {
        reach = Reach { left: reach.left.min(left), right: reach.right.max(right) };
    };
    for bar in &group.bars {
        let [from, to] = &bar.ends;
        match beside(group) {
            Some(right) => take(x(bar.low), x(right) + AIR + width(&words::both_ends(from, to))?),
            None => take(x(bar.low) - AIR - width(from)?, x(bar.high) + AIR + width(to)?),
        }
    }
    if let (Some(gap), [.., inner, outer]) = (&group.gap, group.bars.as_slice()) {
        let [least, greatest] = &gap.says;
        let (left, right) = about_gap([x(inner.high), x(outer.low)], [x(inner.low), x(outer.high)]);
        take(left - AIR - width(least)?, right + AIR + width(greatest)?);
    }
    // A figure keeps off the caption of its line, which begins where the names do.
    let ruler = &group.ruler;
    let lines = ruler.under.iter().map(|(caption, marks)| (caption, marks)).chain([(&ruler.caption, &ruler.ticks)]);
    for (caption, marks) in lines {
        let longer = f64::max(width(caption)? + AIR_AFTER - names, 0.0);
        for (at, text) in marks {
            let half = width(text)? / 2.0;
            take(x(*at) - half - longer, x(*at) + half);
        }
    }
    if let Some((last, _)) = group.ruler.ticks.last() {
        take(0.0, x(*last) + scale_said);
    }
    Ok(reach)
}

/// Right of where the ends of its bars are written, where limits stand between them; mm.
fn beside(group: &BarGroup) -> Option<f64> {
    let all = group.bars.iter().map(|bar| bar.high).chain(group.limits.iter().map(|limit| limit.at));
    all.reduce(f64::max).filter(|_| !group.limits.is_empty())
}

/// One group on the paper.
struct Group<'a> {
    group: &'a BarGroup,
    scale: f64,
    /// From row to row, mm.
    high: f64,
    /// Where its names begin.
    names: f64,
    /// Where its least stands.
    from: f64,
}

impl Group<'_> {
    fn x(&self, mm: f64) -> f64 {
        self.from + (mm - self.group.span().0) * MICROMETRES * self.scale
    }

    /// Draws it from `top`; gives back where it ends.
    fn draw(&self, page: &mut Page, area: AreaId, top: f64) -> Result<f64, Fault> {
        let mut y = top;
        for bar in &self.group.bars {
            let room =
                Rect::new(self.x(bar.low), y + (self.high - BAR) / 2.0, self.x(bar.high), y + (self.high + BAR) / 2.0);
            page.rectangle(area, room, Fill::Grey(GREY), Some(OUTLINE));
            let [low, high] = &bar.ends;
            match beside(self.group) {
                Some(right) => {
                    let both = words::both_ends(low, high);
                    self.row(page, area, y, (&bar.name, (room.left, ""), (self.x(right), &both)))?;
                }
                None => self.row(page, area, y, (&bar.name, (room.left, low), (room.right, high)))?,
            }
            y += self.high;
        }
        for limit in &self.group.limits {
            let [from, to] = [limit.holds.0, limit.holds.1].map(|row| top + row as f64 * self.high);
            let upright = vec![Point::new(self.x(limit.at), from), Point::new(self.x(limit.at), to)];
            page.line(area, upright, OUTLINE, Dash::Short);
        }
        if let Some(end) = self.gap(page, area, y)? {
            y = end;
        }
        self.ruler(page, area, y)
    }

    /// A name and two figures in a row.
    fn row(
        &self,
        page: &mut Page,
        area: AreaId,
        y: f64,
        (name, (left, low), (right, high)): (&str, (f64, &str), (f64, &str)),
    ) -> Result<(), Fault> {
        let base = y + (self.high + CAPITAL) / 2.0;
        let mut say = |x: f64, anchor, text: &str| {
            let text = Text::new(Font::Sans, Role::Body, CAPITAL, text);
            page.text(area, Point::new(x, base), anchor, text).map(|_| ())
        };
        say(self.names, Anchor::Left, name)?;
        if !low.is_empty() {
            say(left - AIR, Anchor::Right, low)?;
        }
        Ok(say(right + AIR, Anchor::Left, high)?)
    }

    /// What lies between the last two bars: the least over the greatest, from end to end.
    fn gap(&self, page: &mut Page, area: AreaId, y: f64) -> Result<Option<f64>, Fault> {
        let (Some(gap), [.., inner, outer]) = (&self.group.gap, self.group.bars.as_slice()) else { return Ok(None) };
        let ends = [(inner.high, outer.low), (inner.low, outer.high)].map(|(a, b)| (self.x(a), self.x(b)));
        let [(from, to), (first, last)] = ends;
        if gap.is_room && from < to {
            let room = rectangle(from, y + 0.4, to, y + self.high / 2.0 + 0.2);
            for (a, b) in hatching::section(&room, 0, &[], &[]) {
                page.line(area, vec![a, b], THIN, Dash::Whole);
            }
            page.polygon(area, room, Fill::None, Some(THIN));
        } else {
            arrow(page, area, (from, to), y + 1.5);
        }
        arrow(page, area, (first, last), y + 3.9);
        for (x, down) in [
            (from, self.high / 2.0 + 0.2),
            (to, self.high / 2.0 + 0.2),
            (first, self.high - 0.4),
            (last, self.high - 0.4),
        ] {
            page.line(area, vec![Point::new(x, y - 0.6), Point::new(x, y + down)], THIN, Dash::Whole);
        }
        let (left, right) = about_gap([from, to], [first, last]);
        let [least, greatest] = &gap.says;
        self.row(page, area, y, (&gap.name, (left, least), (right, greatest)))?;
        Ok(Some(y + self.high))
    }

    /// Which lines of a ruler have room for their figures: each, every second, and so on.
    fn every(&self, ticks: &[(f64, String)]) -> Result<usize, Fault> {
        let [(first, label), (second, _), ..] = ticks else { return Ok(1) };
        let apart = (second - first).abs() * MICROMETRES * self.scale;
        Ok(((width(label)? + AIR) / apart).ceil().clamp(1.0, 100.0) as usize)
    }

    /// The ruler: figures over its line, and under it what is read off; the scale beside its end.
    fn ruler(&self, page: &mut Page, area: AreaId, top: f64) -> Result<f64, Fault> {
        let ruler = &self.group.ruler;
        let line = top + LINE_AT;
        let (Some(from), Some(to)) = (ruler.ticks.first(), ruler.ticks.last()) else { return Ok(top) };
        let (left, right) = (self.x(from.0), self.x(to.0));
        let upright = |page: &mut Page, x: f64, a: f64, b: f64| {
            page.line(area, vec![Point::new(x, a), Point::new(x, b)], THIN, Dash::Whole);
        };
        page.line(area, vec![Point::new(left, line), Point::new(right, line)], OUTLINE, Dash::Whole);
        let say = |page: &mut Page, x: f64, base: f64, anchor, text: &str| {
            let text = Text::new(Font::Sans, Role::Body, CAPITAL, text);
            page.text(area, Point::new(x, base), anchor, text).map(|_| ())
        };
        let over = line - LONG - 0.7;
        let every = self.every(&ruler.ticks)?;
        for (n, (at, text)) in ruler.ticks.iter().enumerate() {
            upright(page, self.x(*at), line - LONG, line);
            if n.is_multiple_of(every) {
                say(page, self.x(*at), over, Anchor::Centre, text)?;
            }
        }
        let fine = ruler.fine * MICROMETRES * self.scale;
        if fine >= NEAREST {
            let count = ((right - left) / fine).round() as u32;
            (1..count).for_each(|n| upright(page, left + f64::from(n) * fine, line - SHORT, line));
        }
        say(page, self.names, over, Anchor::Left, &ruler.caption)?;
        let scale = words::a_micrometre(self.scale);
        say(page, right + AFTER_RULER, line + CAPITAL / 2.0, Anchor::Left, &scale)?;
        if let Some((caption, marks)) = &ruler.under {
            let base = line + LONG + 0.6 + CAPITAL;
            let every = if self.group.limits.is_empty() { self.every(marks)? } else { 1 };
            let mut taken: Vec<(f64, f64)> = Vec::new();
            for (n, (at, text)) in marks.iter().enumerate() {
                let x = self.x(*at);
                upright(page, x, line, line + LONG);
                let half = (width(text)? + AIR) / 2.0;
                // Of two limits whose figures would stand on each other the first is written.
                let free = taken.iter().all(|(left, right)| x + half <= *left || x - half >= *right);
                if n.is_multiple_of(every) && free {
                    say(page, x, base, Anchor::Centre, text)?;
                    taken.push((x - half, x + half));
                }
            }
            say(page, self.names, base, Anchor::Left, caption)?;
        }
        Ok(top + ruler_height(ruler))
    }
}

/// From where to where the arrows of what lies between two bars go, mm.
fn about_gap(least: [f64; 2], greatest: [f64; 2]) -> (f64, f64) {
    let reaches = [least, greatest].map(|[from, to]| {
        let tail = tail(from, to);
        (from.min(to) - tail, from.max(to) + tail)
    });
    reaches.into_iter().fold((f64::MAX, f64::MIN), |(low, high), (left, right)| (low.min(left), high.max(right)))
}

/// How far an arrow stands out of its ends, mm: where it is short its points stand outside.
fn tail(from: f64, to: f64) -> f64 {
    if (to - from).abs() < 2.0 * ARROW.0 + 1.0 { ARROW.0 + 1.0 } else { 0.0 }
}

/// A level line with an arrow at each end, its points outside where it is short.
fn arrow(page: &mut Page, area: AreaId, (from, to): (f64, f64), y: f64) {
    let (left, right) = (from.min(to), from.max(to));
    let tail = tail(from, to);
    page.line(area, vec![Point::new(left - tail, y), Point::new(right + tail, y)], THIN, Dash::Whole);
    let way = if tail > 0.0 { 1.0 } else { -1.0 };
    for (x, towards) in [(left, way), (right, -way)] {
        page.polygon(area, arrowhead(Point::new(x, y), Vector2::new(towards, 0.0)), Fill::Ink, None);
    }
}
