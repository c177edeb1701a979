//! A worn bore on the paper: depths down, diameters across and many times as large, a line for each axis, and upright lines for what
//! they are held against. A letter stands over each upright line, and beside the picture what it is.

use super::scale::Scale;
use super::symbols::round;
use super::{Fault, Point, Rect};
use crate::drawing::{Wear, WearKind, WearLine, rectangle};
use crate::in_order::InOrder;
use crate::sheet::fonts::{self, Font};
use crate::sheet::page::{Anchor, AreaId, Dash, Fill, Page, Role, Text};
use crate::sheet::words;

/// Height of the capitals, and from row to row, mm.
const CAPITAL: f64 = 3.0;
const ROW: f64 = 4.6;
/// By how much letters may stand under their line, mm.
const BELOW: f64 = 1.2;
/// Between two things that do not belong together, and beside the outermost lines, mm.
const APART: f64 = 4.0;
const BESIDE: f64 = 3.0;
/// How far an upright line goes on over and under the depths that were read, mm.
const ON: f64 = 2.5;
/// Air between two letters, mm.
const BETWEEN: f64 = 0.8;
/// Least width of what is drawn, mm.
const LEAST: f64 = 30.0;
/// The line of an axis in the key, and the mark of a reading, mm.
const SAMPLE: f64 = 8.0;
const MARK: f64 = 0.9;
/// Lines, mm: an axis of the bore, what it is held against, what is taken.
const OUTLINE: f64 = 0.5;
const THIN: f64 = 0.25;
const HEAVY: f64 = 0.7;
/// How many times as large diameters are drawn, the largest first.
const TIMES: [f64; 10] = [1000.0, 500.0, 200.0, 100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0];
/// Scales of the depths.
const DOWN: [Scale; 6] = [
    Scale { paper: 2, part: 1 },
    Scale { paper: 1, part: 1 },
    Scale { paper: 1, part: 2 },
    Scale { paper: 1, part: 5 },
    Scale { paper: 1, part: 10 },
    Scale { paper: 1, part: 20 },
];

/// What was drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct WearDrawn {
    /// How many times as large diameters are drawn.
    pub across: f64,
    /// The scale of the depths, which it prints itself.
    pub down: Scale,
    /// The least diameter that has a place, mm, and where that is.
    pub from: (f64, f64),
    /// Where the mouth of the bore is.
    pub mouth: f64,
    /// What it covers.
    pub bounds: Rect,
}

impl WearDrawn {
    /// The place of a diameter at a depth.
    #[must_use]
    pub fn at(&self, diameter: f64, depth: f64) -> Point {
        Point::new(self.from.1 + (diameter - self.from.0) * self.across, self.mouth + depth * self.down.factor())
    }
}

/// Draws a worn bore into a room (mm of paper) of a page, from its upper left corner, at the largest scales that fit.
///
/// # Errors
/// [`Fault`], and then nothing is drawn.
pub fn wear(page: &mut Page, area: AreaId, room: Rect, wear: &Wear) -> Result<WearDrawn, Fault> {
    let no_room = Fault::NoRoom { width: room.width(), height: room.height() };
    let lines = in_order(&wear.lines);
    let key = Key::of(wear, &lines)?;
    let mut depths = fonts::width(Font::Sans, CAPITAL, &wear.caption)?;
    for (_, says) in &wear.depths {
        depths = depths.max(fonts::width(Font::Sans, CAPITAL, says)?);
    }
    let left = room.left + depths + BESIDE;
    let wide = room.right - key.width - APART - left - 2.0 * BESIDE;
    let sizes = || wear.axes.iter().flat_map(|axis| axis.sizes.iter().copied()).chain(lines.iter().map(|line| line.at));
    let (low, high) = (sizes().fold(f64::INFINITY, f64::min), sizes().fold(f64::NEG_INFINITY, f64::max));
    let deepest = wear.depths.iter().map(|depth| depth.0).fold(0.0, f64::max);
    let over = 2.0 * ROW;
    let high_room = room.height() - over - 2.0 * ON - ROW - BELOW;
    let across = TIMES.into_iter().find(|times| (high - low) * times <= wide);
    let down = DOWN.into_iter().find(|scale| deepest * scale.factor() <= high_room);
    let (Some(across), Some(down)) = (across.filter(|_| wide >= LEAST && low <= high), down) else {
        return Err(no_room);
    };
    if key.height() > room.height() {
        return Err(no_room);
    }
    let mouth = room.top + over + ON;
    let drawn = WearDrawn { across, down, from: (low, left + BESIDE), mouth, bounds: room };
    let foot = drawn.at(low, deepest).y + ON;
    let right = drawn.at(high, 0.0).x + BESIDE;
    drawn.letters(page, area, room.top + ROW, &lines)?;
    for line in &lines {
        let x = drawn.at(line.at, 0.0).x;
        let (width, dash) = ink(line.kind);
        page.line(area, vec![Point::new(x, mouth - ON), Point::new(x, foot)], width, dash);
    }
    let caption = Point::new(room.left, room.top + ROW);
    say(page, area, caption, Anchor::Left, Font::Sans, &wear.caption)?;
    let mut free = caption.y;
    for (depth, says) in &wear.depths {
        let y = drawn.at(low, *depth).y;
        // Of depths that stand close the first says where.
        if y - ROW / 2.0 >= free {
            say(page, area, Point::new(left - BESIDE, y + CAPITAL / 2.0), Anchor::Right, Font::Sans, says)?;
            free = y + ROW / 2.0;
        }
        page.line(area, vec![Point::new(left, y), Point::new(left + BESIDE / 2.0, y)], THIN, Dash::Whole);
    }
    for (at, axis) in wear.axes.iter().enumerate() {
        let points: Vec<Point> =
            axis.sizes.iter().zip(&wear.depths).map(|(size, depth)| drawn.at(*size, depth.0)).collect();
        page.line(area, points.clone(), OUTLINE, of_axis(at));
        points.iter().for_each(|point| mark(page, area, *point, at));
    }
    let scales = words::scales_of_wear(across, down);
    let under = key.draw(page, area, (right + APART, room.top), (wear, &lines))?;
    let base = foot + ROW;
    say(page, area, Point::new(room.left, base), Anchor::Left, Font::Sans, &scales)?;
    let wide = fonts::width(Font::Sans, CAPITAL, &scales)?;
    let right = (right + APART + key.width).max(room.left + wide);
    Ok(WearDrawn { bounds: Rect::new(room.left, room.top, right, (base + 1.0).max(under)), ..drawn })
}

/// What the bore is held against, from the least.
fn in_order(lines: &[WearLine]) -> Vec<&WearLine> {
    let mut all: Vec<&WearLine> = lines.iter().collect();
    all.order_by(|a, b| a.at.total_cmp(&b.at));
    all
}

/// The letter of an upright line.
fn letter(at: usize) -> String {
    char::from(b'A' + u8::try_from(at % 26).unwrap_or(0)).to_string()
}

const fn ink(kind: WearKind) -> (f64, Dash) {
    match kind {
        WearKind::New => (THIN, Dash::Whole),
        WearKind::Cleans => (THIN, Dash::Chain),
        WearKind::Oversize => (THIN, Dash::Short),
        WearKind::Taken => (HEAVY, Dash::Whole),
    }
}

const fn of_axis(at: usize) -> Dash {
    match at % 3 {
        0 => Dash::Whole,
        1 => Dash::Short,
        _ => Dash::Phantom,
    }
}

/// The mark of a reading: black for the first axis, white for the second, a square for others.
fn mark(page: &mut Page, area: AreaId, at: Point, axis: usize) {
    match axis {
        0 => page.polygon(area, round(at, MARK), Fill::Ink, None),
        1 => page.polygon(area, round(at, MARK), Fill::White, Some(THIN)),
        _ => page.polygon(area, rectangle(at.x - MARK, at.y - MARK, at.x + MARK, at.y + MARK), Fill::Ink, None),
    }
}

fn say(page: &mut Page, area: AreaId, at: Point, anchor: Anchor, font: Font, text: &str) -> Result<(), Fault> {
    page.text(area, at, anchor, Text::new(font, Role::Body, CAPITAL, text))?;
    Ok(())
}

impl WearDrawn {
    /// A letter over each upright line; where lines stand close their letters stand together.
    fn letters(&self, page: &mut Page, area: AreaId, base: f64, lines: &[&WearLine]) -> Result<(), Fault> {
        let mut groups: Vec<(f64, f64, String, f64)> = Vec::new();
        for (at, line) in lines.iter().enumerate() {
            let x = self.at(line.at, 0.0).x;
            let mut group = (x, x, letter(at), fonts::width(Font::Bold, CAPITAL, &letter(at))?);
            while let Some((first, last, said, wide)) = groups.last() {
                let (end, start) =
                    (f64::midpoint(*first, *last) + wide / 2.0, f64::midpoint(group.0, group.1) - group.3 / 2.0);
                if end + BETWEEN <= start {
                    break;
                }
                let said = format!("{said}{}", group.2);
                let wide = fonts::width(Font::Bold, CAPITAL, &said)?;
                group = (*first, group.1, said, wide);
                groups.pop();
            }
            groups.push(group);
        }
        for (first, last, said, _) in groups {
            say(page, area, Point::new(f64::midpoint(first, last), base), Anchor::Centre, Font::Bold, &said)?;
        }
        Ok(())
    }
}

/// What stands beside the picture.
struct Key {
    /// Widest letter, name and figure.
    name: f64,
    width: f64,
    rows: usize,
}

/// Width of a letter with its air, mm.
const LETTER: f64 = 4.5;

impl Key {
    fn of(wear: &Wear, lines: &[&WearLine]) -> Result<Self, Fault> {
        let widest = |texts: &mut dyn Iterator<Item = &String>| -> Result<f64, Fault> {
            let mut wide = 0.0_f64;
            for text in texts {
                wide = wide.max(fonts::width(Font::Bold, CAPITAL, text)?);
            }
            Ok(wide)
        };
        let name = widest(&mut lines.iter().map(|line| &line.name))?;
        let figure = widest(&mut lines.iter().map(|line| &line.says))?;
        let axes = widest(&mut wear.axes.iter().map(|axis| &axis.name))?;
        let width = (LETTER + name + BESIDE + figure).max(SAMPLE + BESIDE + axes);
        Ok(Self { name, width, rows: lines.len() + wear.axes.len() })
    }

    fn height(&self) -> f64 {
        self.rows as f64 * ROW + ROW / 2.0
    }

    /// Draws it; gives back where it ends.
    fn draw(
        &self,
        page: &mut Page,
        area: AreaId,
        (left, top): (f64, f64),
        (wear, lines): (&Wear, &[&WearLine]),
    ) -> Result<f64, Fault> {
        let mut base = top + ROW;
        for (at, axis) in wear.axes.iter().enumerate() {
            let y = base - CAPITAL / 2.0;
            page.line(area, vec![Point::new(left, y), Point::new(left + SAMPLE, y)], OUTLINE, of_axis(at));
            mark(page, area, Point::new(left + SAMPLE / 2.0, y), at);
            say(page, area, Point::new(left + SAMPLE + BESIDE, base), Anchor::Left, Font::Sans, &axis.name)?;
            base += ROW;
        }
        base += ROW / 2.0;
        for (at, line) in lines.iter().enumerate() {
            let font = if line.kind == WearKind::Taken { Font::Bold } else { Font::Sans };
            say(page, area, Point::new(left, base), Anchor::Left, Font::Bold, &letter(at))?;
            say(page, area, Point::new(left + LETTER, base), Anchor::Left, font, &line.name)?;
            say(page, area, Point::new(left + LETTER + self.name + BESIDE, base), Anchor::Left, font, &line.says)?;
            base += ROW;
        }
        Ok(base - ROW + 1.0)
    }
}
