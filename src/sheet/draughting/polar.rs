//! Readings round a circle on the paper: how far the work stands out far larger than it is, true all round; jaws about it, and
//! what is done to each beside it.

use super::symbols::{arrowhead, round};
use super::{Fault, Point, Rect};
use crate::drawing::{Goes, Grip, Polar, Spoke};
use crate::in_order::InOrder;
use crate::sheet::fonts::{self, Font};
use crate::sheet::page::{Anchor, AreaId, Dash, Fill, Page, Role, Text};
use crate::sheet::words;
use nalgebra::Vector2;

/// How many times as large as it is it may be drawn, each with tens, hundreds and so on.
const TIMES: [f64; 3] = [5.0, 2.0, 1.0];
/// Powers of ten of that, the largest first.
const POWERS: (i32, i32) = (6, -4);
/// Half of what it covers at most, what letters keep of its room on each side, and the least radius that can be read, mm.
const HIGHEST: f64 = 45.0;
const LETTERS: f64 = 1.0;
const LEAST: f64 = 12.0;
/// Share of that radius by which the work may stand out: what turns off its centre is then round to the eye.
const SWING: f64 = 1.0 / 3.0;
/// Share of the mean circle that what is allowed may take, and how far the centre must be seen off before it counts, mm.
const ALLOWED: f64 = 0.85;
const SEEN: f64 = 3.0;
/// A jaw: its width, its depth, from the readings to it, mm.
const JAW: (f64, f64) = (7.0, 7.0);
const TO_JAW: f64 = 1.0;
/// Beside a jaw, from its middle: the arrow that says which way it goes, and its length, mm.
const ARROW_AT: f64 = 5.6;
const ARROW: f64 = 7.0;
/// Height of the capitals, of the numbers of jaws, and from row to row, mm.
const CAPITAL: f64 = 3.0;
const NUMBER: f64 = 3.5;
const ROW: f64 = 4.4;
/// Between words and what is drawn, mm.
const AIR: f64 = 1.5;
/// A reading and a centre on the paper, and half of the cross on the axis, mm.
const DOT: f64 = 0.9;
const CROSS: f64 = 2.5;
/// Lines, mm: what is shown, thin, what is allowed.
const OUTLINE: f64 = 0.5;
const THIN: f64 = 0.25;
const LIMIT: f64 = 0.35;
/// How much wider than high it may be.
const WIDE: f64 = 2.0;
/// So many readings are joined.
const MANY: usize = 8;
/// Corners of a curve.
const CORNERS: u32 = 90;
/// A jaw that stands less than this sideways has its words over or under the others.
const UPRIGHT: f64 = 0.3;

/// What was drawn.
#[derive(Clone, Debug, PartialEq)]
pub struct PolarDrawn {
    /// How many times as large as it is what stands out is drawn, which it prints itself.
    pub times: f64,
    /// Where the axis of the spindle is.
    pub axis: Point,
    /// Radius of the mean circle, mm of paper.
    pub ring: f64,
    /// What it covers.
    pub bounds: Rect,
}

/// Draws readings round a circle into a room (mm of paper) of a page.
///
/// # Errors
/// [`Fault`], and then nothing is drawn.
pub fn polar(page: &mut Page, area: AreaId, room: Rect, polar: &Polar) -> Result<PolarDrawn, Fault> {
    let no_room = Fault::NoRoom { width: room.width(), height: room.height() };
    let laid = Laid::of(polar, room).filter(|laid| laid.out >= LEAST).ok_or_else(|| no_room.clone())?;
    let words = laid.words()?;
    let rooms: Vec<Rect> = words.iter().map(|words| words.bounds.grown(0.2)).collect();
    let inside = |at: &Rect| at.left >= room.left && at.right <= room.right && at.top >= room.top;
    let apart = rooms.iter().enumerate().all(|(at, one)| !rooms.iter().skip(at + 1).any(|other| other.overlaps(one)));
    let taken = laid.taken();
    let apart = apart && !rooms.iter().any(|words| taken.iter().any(|room| room.overlaps(words)));
    if !apart || !rooms.iter().all(inside) || laid.axis.x - laid.half < room.left {
        return Err(no_room);
    }
    laid.draw(page, area, &words)
}

/// Lines of words that stand together.
struct Words {
    lines: Vec<String>,
    /// Which end of the lines is at `x`.
    anchor: Anchor,
    x: f64,
    top: f64,
    bounds: Rect,
    /// A line to what they are about.
    leader: Option<(Point, Point)>,
}

/// The picture laid out.
struct Laid<'a> {
    polar: &'a Polar,
    room: Rect,
    axis: Point,
    /// Half of what it covers.
    half: f64,
    /// Radius in which all readings lie.
    out: f64,
    ring: f64,
    times: f64,
}

/// The way out at an angle: the first jaw up, the others as the clock goes.
fn way(degrees: f64) -> Vector2<f64> {
    let angle = degrees.to_radians();
    Vector2::new(angle.sin(), -angle.cos())
}

fn finite(polar: &Polar) -> bool {
    let reads = polar.reads.iter().all(|read| read.degrees.is_finite() && read.over.is_finite());
    reads && polar.centre.iter().all(|x| x.is_finite()) && polar.grips.iter().all(|grip| grip.degrees.is_finite())
}

fn wrapped(lines: &[String], wide: f64) -> Result<Vec<String>, Fault> {
    let broken = lines.iter().map(|text| fonts::wrap(Font::Sans, CAPITAL, text, wide.max(CAPITAL)));
    Ok(broken.collect::<Result<Vec<_>, _>>()?.concat())
}

fn high(lines: &[String]) -> f64 {
    lines.len().saturating_sub(1) as f64 * ROW + CAPITAL
}

impl<'a> Laid<'a> {
    /// In a room; nothing where a number is none, or where no scale holds it.
    fn of(polar: &'a Polar, room: Rect) -> Option<Self> {
        let half = (room.height() / 2.0 - LETTERS).min(HIGHEST);
        let out = half - JAW.1 - TO_JAW;
        let ring = out * (1.0 - SWING);
        let reads = polar.reads.iter().map(|read| read.over.abs());
        let big = reads.chain([polar.centre.norm()]).fold(0.0, f64::max);
        let times = times(big, polar.allowed, out * SWING, ring * ALLOWED).filter(|_| finite(polar))?;
        let axis = Point::new(room.left + room.width().min(2.0 * WIDE * half) / 2.0, room.top + LETTERS + half);
        Some(Self { polar, room, axis, half, out, ring, times })
    }

    fn at(&self, degrees: f64, radius: f64) -> Point {
        self.axis + way(degrees) * radius
    }

    /// How far the middle of all readings stands out at an angle, mm of paper.
    fn mean(&self, degrees: f64) -> f64 {
        let angle = degrees.to_radians();
        self.ring + self.times * (self.polar.centre.x * angle.cos() + self.polar.centre.y * angle.sin())
    }

    fn jaw(&self, degrees: f64) -> Vec<Point> {
        let (out, across) = (way(degrees), way(degrees + 90.0) * (JAW.0 / 2.0));
        let [near, far] = [self.out + TO_JAW, self.out + TO_JAW + JAW.1 - OUTLINE / 2.0].map(|r| self.axis + out * r);
        vec![near - across, far - across, far + across, near + across]
    }

    /// Everything written, with its place.
    fn words(&self) -> Result<Vec<Words>, Fault> {
        let (left, top, bottom) = (self.room.left + LETTERS, self.axis.y - self.half, self.axis.y + self.half);
        // The more lines, the narrower.
        let corner = |says: &[String], is_over| {
            let mut lines = says.to_vec();
            for _ in 0..says.len() + 2 {
                lines = wrapped(says, self.axis.x - self.clear(high(&lines), (true, is_over)) - left)?;
            }
            Ok::<_, Fault>(lines)
        };
        let [over, under] = &self.polar.says;
        let said = self.placed(corner(over, true)?, Anchor::Left, left, top, None)?;
        let under = corner(&[under.as_slice(), &[words::off_centre_times(self.times)]].concat(), false)?;
        let y = bottom - high(&under);
        let scale = self.placed(under, Anchor::Left, left, y, None)?;
        let between = (said.bounds.bottom + AIR / 2.0, scale.bounds.top - AIR / 2.0);
        let mut all = vec![said, scale];
        for grip in self.polar.grips.iter().filter(|grip| !grip.says.is_empty()) {
            all.push(self.beside(grip, between)?);
        }
        Ok(all)
    }

    /// How far from the axis words so high stand clear of what is drawn, in a corner: at the left or right, over or under.
    fn clear(&self, high: f64, (left, over): (bool, bool)) -> f64 {
        let to = (self.half - high - 1.0).max(0.0);
        let circle = (self.out.powi(2) - to.powi(2)).max(0.0).sqrt().max(JAW.0 / 2.0 + 4.0);
        let in_the_way = |room: &Rect| {
            let out = if left { self.axis.x - room.left } else { room.right - self.axis.x };
            let beside = if over { room.top < self.axis.y - to } else { room.bottom > self.axis.y + to };
            let on_side = if left { room.centre().x < self.axis.x - 1.0 } else { room.centre().x > self.axis.x + 1.0 };
            (beside && on_side).then_some(out)
        };
        self.taken().iter().filter_map(in_the_way).fold(circle, f64::max) + AIR
    }

    /// The words of a jaw: beside it, or where it stands over or under the axis at that corner with a line to it. On the left they
    /// keep between what stands there.
    fn beside(&self, grip: &Grip, (from, to): (f64, f64)) -> Result<Words, Fault> {
        let out = way(grip.degrees);
        let (top, bottom) = (self.axis.y - self.half, self.axis.y + self.half);
        let jaw = Rect::about(&self.jaw(grip.degrees)).unwrap_or(Rect::new(0.0, 0.0, 0.0, 0.0));
        if out.x.abs() < UPRIGHT {
            let at = |lines: &[String]| self.axis.x + self.clear(high(lines), (false, out.y < 0.0));
            let lines = wrapped(&grip.says, self.room.right - at(&grip.says))?;
            let x = at(&lines);
            let (top, y) = match out.y < 0.0 {
                true => (top, top + CAPITAL / 2.0 + 0.5),
                false => (bottom - high(&lines), bottom - CAPITAL / 2.0 - 0.5),
            };
            let leader = (Point::new(jaw.right + 0.8, y), Point::new(x - 0.8, y));
            return self.placed(lines, Anchor::Left, x, top, Some(leader));
        }
        let is_right = out.x > 0.0;
        let (anchor, x, wide) = match is_right {
            true => (Anchor::Left, jaw.right + AIR, self.room.right - jaw.right - AIR),
            false => (Anchor::Right, jaw.left - AIR, jaw.left - AIR - self.room.left),
        };
        let lines = wrapped(&grip.says, wide)?;
        let (from, to) = if is_right { (top, bottom) } else { (from, to) };
        let y = (jaw.centre().y - high(&lines) / 2.0).min(to - high(&lines)).max(from);
        self.placed(lines, anchor, x, y, None)
    }

    fn placed(
        &self,
        lines: Vec<String>,
        anchor: Anchor,
        x: f64,
        top: f64,
        leader: Option<(Point, Point)>,
    ) -> Result<Words, Fault> {
        let mut bounds = Rect::new(x, top, x, top);
        for (n, line) in lines.iter().enumerate() {
            let size = fonts::measure(Font::Sans, CAPITAL, line)?;
            let left = if anchor == Anchor::Right { x - size.width } else { x };
            let base = top + CAPITAL + n as f64 * ROW;
            bounds = bounds.and(&Rect::new(left, base - size.above, left + size.width, base + size.below));
        }
        Ok(Words { lines, anchor, x, top, bounds, leader })
    }

    fn draw(&self, page: &mut Page, area: AreaId, words: &[Words]) -> Result<PolarDrawn, Fault> {
        let whole = |radius: f64| {
            let mut ring = round(self.axis, radius);
            ring.extend(ring.first().copied());
            ring
        };
        page.line(area, whole(self.ring), THIN, Dash::Chain);
        if self.allowed() > 0.4 {
            page.line(area, whole(self.allowed()), LIMIT, Dash::Short);
        }
        for way in [Vector2::new(CROSS, 0.0), Vector2::new(0.0, CROSS)] {
            page.line(area, vec![self.axis - way, self.axis + way], THIN, Dash::Whole);
        }
        let corner = |n: u32| {
            let degrees = f64::from(n) * 360.0 / f64::from(CORNERS);
            self.at(degrees, self.mean(degrees))
        };
        page.polygon(area, (0..CORNERS).map(corner).collect(), Fill::None, Some(OUTLINE));
        let at = |read: &Spoke| self.at(read.degrees, self.ring + self.times * read.over);
        let mut round_it: Vec<&Spoke> = self.polar.reads.iter().collect();
        round_it.order_by(|one, other| one.degrees.rem_euclid(360.0).total_cmp(&other.degrees.rem_euclid(360.0)));
        // Of a few nobody knows how the work runs between them.
        let round_it = if round_it.len() < MANY { Vec::new() } else { round_it };
        let run = round_it.iter().chain(round_it.first()).map(|read| at(read)).collect();
        page.line(area, run, THIN, Dash::Whole);
        for read in &self.polar.reads {
            let at = at(read);
            page.polygon(area, round(at, DOT), Fill::Ink, None);
        }
        self.centre(page, area);
        for grip in &self.polar.grips {
            self.grip(page, area, grip)?;
        }
        let mut bounds = Rect::new(
            self.axis.x - self.half,
            self.axis.y - self.half,
            self.axis.x + self.half,
            self.axis.y + self.half,
        );
        for words in words {
            bounds = bounds.and(&words.bounds);
            if let Some((from, to)) = words.leader {
                page.line(area, vec![from, to], THIN, Dash::Whole);
            }
            for (n, line) in words.lines.iter().enumerate() {
                let at = Point::new(words.x, words.top + CAPITAL + n as f64 * ROW);
                page.text(area, at, words.anchor, Text::new(Font::Sans, Role::Body, CAPITAL, line.clone()))?;
            }
        }
        Ok(PolarDrawn { times: self.times, axis: self.axis, ring: self.ring, bounds })
    }

    /// Radius of what is allowed, mm of paper; nought where it would leave the mean circle.
    fn allowed(&self) -> f64 {
        let radius = self.polar.allowed * self.times;
        if radius <= self.ring * ALLOWED + 1e-9 { radius } else { 0.0 }
    }

    /// The centre of the work, and how it is off.
    fn centre(&self, page: &mut Page, area: AreaId) {
        let (along, across) = (self.polar.centre.x, self.polar.centre.y);
        let off = Vector2::new(across, -along) * self.times;
        let to = self.axis + off;
        match off.try_normalize(SEEN / 2.0) {
            Some(way) if off.norm() > SEEN + DOT => {
                page.line(area, vec![self.axis, to - way * SEEN], OUTLINE, Dash::Whole);
                page.polygon(area, head(to, way), Fill::Ink, None);
            }
            _ => page.polygon(area, round(to, DOT), Fill::Ink, None),
        }
    }

    fn grip(&self, page: &mut Page, area: AreaId, grip: &Grip) -> Result<(), Fault> {
        let middle = self.at(grip.degrees, self.out + TO_JAW + JAW.1 / 2.0);
        if let Some(number) = grip.number {
            page.polygon(area, self.jaw(grip.degrees), Fill::White, Some(OUTLINE));
            let text = Text::new(Font::Bold, Role::Drawing, NUMBER, number.to_string());
            page.text(area, Point::new(middle.x, middle.y + NUMBER / 2.0), Anchor::Centre, text)?;
        }
        if let Some((tail, tip)) = self.arrow(grip) {
            let along = (tip - tail) / ARROW;
            page.line(area, vec![tail, tip - along * SEEN], OUTLINE, Dash::Whole);
            page.polygon(area, head(tip, along), Fill::Ink, None);
        }
        Ok(())
    }

    /// The arrow of a jaw that moves, beside it where no words stand.
    fn arrow(&self, grip: &Grip) -> Option<(Point, Point)> {
        let out = way(grip.degrees);
        let beside = match grip.number {
            None => Vector2::zeros(),
            Some(_) if out.x.abs() < UPRIGHT => Vector2::new(-ARROW_AT, 0.0),
            Some(_) => Vector2::new(0.0, if out.x > 0.0 { -ARROW_AT } else { ARROW_AT }),
        };
        let along = if grip.goes? == Goes::In { -out } else { out };
        let middle = self.at(grip.degrees, self.out + TO_JAW + JAW.1 / 2.0) + beside;
        Some((middle - along * (ARROW / 2.0), middle + along * (ARROW / 2.0)))
    }

    /// What no words may stand on.
    fn taken(&self) -> Vec<Rect> {
        let jaws = self.polar.grips.iter().filter(|grip| grip.number.is_some()).map(|grip| self.jaw(grip.degrees));
        let arrows = self.polar.grips.iter().filter_map(|grip| self.arrow(grip)).map(|(tail, tip)| vec![tail, tip]);
        let rooms = jaws.chain(arrows).filter_map(|points| Rect::about(&points));
        rooms.map(|room| room.grown(OUTLINE)).collect()
    }
}

/// The head of an arrow that is seen from afar.
fn head(tip: Point, along: Vector2<f64>) -> Vec<Point> {
    const WIDER: f64 = 2.2;
    let middle = |corner: &Point| {
        let from = corner - tip;
        tip + along * from.dot(&along) + (from - along * from.dot(&along)) * WIDER
    };
    arrowhead(tip, along).iter().map(middle).collect()
}

/// How many times as large as it is something is drawn, so that it takes no more than `swing` mm; and what is allowed, where that can
/// be seen beside it, no more than `ring`.
fn times(big: f64, allowed: f64, swing: f64, ring: f64) -> Option<f64> {
    let all = (POWERS.1..=POWERS.0).rev().flat_map(|power| TIMES.map(|times| times * 10.0_f64.powi(power)));
    let holds = |times: &f64| big * times <= swing;
    let largest = all.clone().find(|times| holds(times) && (big > 0.0 || allowed * times <= ring));
    let both = all.clone().find(|times| holds(times) && allowed * times <= ring);
    both.filter(|times| big * times >= SEEN || big <= 0.0).or(largest)
}
