//! Dimensions (ISO 129): the shorter nearer to the part, in rows that do not collide.
//!
//! Every figure is set level, so that it is read without turning the head: in a gap of an upright dimension line, or
//! beside it where the line is short; above a level one, or beyond its end.

use super::Point;
use super::lay::{Align, Block, Lay};
use super::symbols::{ARROW, arrowhead, outward};
use crate::drawing::Side;
use crate::in_order::InOrder;
use crate::sheet::page::Rect;
use nalgebra::Vector2;

/// From the part to the first row, and between rows, mm at least.
const FIRST: f64 = 7.0;
const NEXT: f64 = 6.0;
/// An extension line begins this far from the part and ends this far beyond the dimension line, mm.
const GAP: f64 = 0.8;
const BEYOND: f64 = 1.6;
/// Line beyond an arrowhead that stands outside, mm.
const TAIL: f64 = 3.0;
/// How far the line of a size drawn in half runs over the axis, mm.
const OVER: f64 = 2.0;
/// Air about a figure, mm.
const AIR: f64 = 1.2;
/// Between extension lines farther apart than this there is room for a symbol, mm.
const WIDE_LANE: f64 = 45.0;
/// Under a figure whose length a break shortens, mm.
const UNDERLINE: f64 = 0.85;
/// Extension lines are never longer, mm.
const FARTHEST: f64 = 400.0;

/// A dimension with the words that it shows.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    pub(super) from: Point,
    pub(super) to: Point,
    pub(super) side: Side,
    /// Whether a break shortens it: its figure is underlined.
    pub(super) shortened: bool,
    /// Whether its second end is an axis beyond which the same half follows: there it has neither arrow nor extension line.
    pub(super) half: bool,
    pub(super) block: Block,
}

/// Where the figure stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Stand {
    /// In a gap of the line (upright), or above it (level).
    On,
    /// Beside the line (upright), or beyond its end (level).
    Beside,
    /// Before the beginning of a level one.
    Before,
}

/// A dimension given its row. `low`, `high` and `text` run along the dimension line.
struct Placed {
    wanted: Wanted,
    low: f64,
    high: f64,
    stand: Stand,
    arrows_outside: bool,
    /// Middle of the figure along the line.
    text: f64,
    row: usize,
}

impl Placed {
    fn new(wanted: Wanted) -> Self {
        let (a, b) = (along(wanted.side, wanted.from), along(wanted.side, wanted.to));
        let (low, high) = (a.min(b), a.max(b));
        let (span, length) = (high - low, figure_length(&wanted));
        let arrows_outside = span < 2.0 * ARROW.0 + 1.5;
        let upright = is_upright(wanted.side);
        let needs = length + if upright { 2.0 * (ARROW.0 + AIR) } else { 2.0 * AIR };
        let stand = if span >= needs && !arrows_outside { Stand::On } else { Stand::Beside };
        let text = match stand {
            Stand::Beside if !upright => high + ARROW.0 + AIR + length / 2.0,
            _ => f64::midpoint(low, high),
        };
        Self { wanted, low, high, stand, arrows_outside, text, row: 0 }
    }

    /// The same with the figure of a level one at its other end.
    fn turned_round(self) -> Self {
        if is_upright(self.wanted.side) || self.stand != Stand::Beside {
            return self;
        }
        let text = self.low - ARROW.0 - AIR - figure_length(&self.wanted) / 2.0;
        Self { text, stand: Stand::Before, ..self }
    }

    /// What it takes along its row.
    fn taken(&self) -> (f64, f64) {
        let tail = if self.arrows_outside { ARROW.0 + TAIL } else { 0.0 };
        let half = figure_length(&self.wanted) / 2.0 + AIR;
        ((self.low - tail).min(self.text - half), (self.high + tail).max(self.text + half))
    }

    fn collides(&self, other: &Self) -> bool {
        let ((a, b), (c, d)) = (self.taken(), other.taken());
        a < d - 0.01 && c < b - 0.01
    }

    /// What it takes towards the part and away from it, from its line.
    fn depth(&self) -> (f64, f64) {
        let block = &self.wanted.block;
        match (is_upright(self.wanted.side), self.stand) {
            (true, Stand::On) => (block.width / 2.0 + AIR, block.width / 2.0 + AIR),
            (true, Stand::Beside | Stand::Before) => (ARROW.1, AIR + block.width + AIR),
            (false, _) if self.wanted.side == Side::Above => (BEYOND, block.height + 2.0 * AIR),
            (false, _) => (block.height + 2.0 * AIR, BEYOND),
        }
    }

    /// Moves the figure of an upright dimension off the extension lines of the rows outside it.
    fn avoid(&mut self, lines: &[f64]) {
        if !is_upright(self.wanted.side) {
            return;
        }
        let half = self.wanted.block.height / 2.0;
        let room = match self.stand {
            Stand::On => (self.high - self.low) / 2.0 - half - ARROW.0 - 0.5,
            Stand::Beside | Stand::Before => (self.high - self.low) / 2.0 + half + ARROW.0,
        };
        let clear = |middle: f64| !lines.iter().any(|y| (y - middle).abs() < half + 0.7);
        let steps = std::iter::successors(Some(0.0), |k| (k + 0.25 <= room).then_some(k + 0.25));
        let middle = self.text;
        if let Some(free) = steps.flat_map(|k| [middle + k, middle - k]).find(|m| clear(*m)) {
            self.text = free;
        }
    }
}

const fn is_upright(side: Side) -> bool {
    matches!(side, Side::Left | Side::Right)
}

fn along(side: Side, p: Point) -> f64 {
    if is_upright(side) { p.y } else { p.x }
}

/// How much of the dimension line its figure covers.
fn figure_length(wanted: &Wanted) -> f64 {
    if is_upright(wanted.side) { wanted.block.height } else { wanted.block.width }
}

/// A point from its place along the dimension line and across it.
fn point(side: Side, along: f64, across: f64) -> Point {
    if is_upright(side) { Point::new(across, along) } else { Point::new(along, across) }
}

/// The lanes in which some dimensions will stand: all between their extension lines where these are near each other,
/// else the two lines.
pub(super) fn lanes(wanted: &[Wanted]) -> Vec<Rect> {
    let lane = |w: &Wanted, ends: [Point; 2]| {
        let out = outward(w.side) * FARTHEST;
        Rect::about(&[ends, ends.map(|p| p + out)].concat())
    };
    wanted
        .iter()
        .flat_map(|w| {
            let wide = (along(w.side, w.from) - along(w.side, w.to)).abs() > WIDE_LANE;
            let ends = if wide { [[w.from; 2], [w.to; 2]] } else { [[w.from, w.to], [w.to, w.from]] };
            ends.map(|e| lane(w, e))
        })
        .flatten()
        .collect()
}

/// Where their extension lines will run, as far as they may: none where the same half follows.
pub(super) fn extensions(wanted: &[Wanted]) -> Vec<Rect> {
    let line = |w: &Wanted, end: Point| Rect::about(&[end, end + outward(w.side) * FARTHEST]);
    let of = |w: &Wanted| [Some(w.from), (!w.half).then_some(w.to)].map(|end| end.and_then(|end| line(w, end)));
    wanted.iter().flat_map(of).flatten().collect()
}

/// Shares the upright dimensions out to both sides, the shorter first, so that neither side grows wide; nothing where each
/// stands where it stood.
pub(super) fn balanced(all: &[Wanted]) -> Option<Vec<Wanted>> {
    let mut wanted = all.to_vec();
    wanted.order_by(|a, b| (a.from - a.to).norm().total_cmp(&(b.from - b.to).norm()));
    let (mut next, mut moves) = (Side::Right, false);
    for w in wanted.iter_mut().filter(|w| is_upright(w.side)) {
        moves |= w.side != next;
        w.side = next;
        next = if next == Side::Right { Side::Left } else { Side::Right };
    }
    moves.then_some(wanted)
}

/// Gives every dimension its row: beyond all shorter ones that it would collide with.
fn in_rows(wanted: Vec<Wanted>) -> Vec<Placed> {
    rowed(wanted.into_iter().map(Placed::new).collect())
}

fn rowed(mut waiting: Vec<Placed>) -> Vec<Placed> {
    waiting.order_by(|a, b| (a.high - a.low).total_cmp(&(b.high - b.low)));
    let mut placed: Vec<Placed> = Vec::new();
    for mut next in waiting {
        next.row = placed.iter().filter(|p| p.collides(&next)).map(|p| p.row + 1).max().unwrap_or(0);
        placed.push(next);
    }
    let ends: Vec<(usize, f64)> = placed.iter().flat_map(|p| [(p.row, p.low), (p.row, p.high)]).collect();
    for p in &mut placed {
        let outside: Vec<f64> = ends.iter().filter(|(row, _)| *row > p.row).map(|(_, y)| *y).collect();
        p.avoid(&outside);
    }
    placed
}

/// Places and draws the dimensions of one side. Where a figure beyond the end of its line would drive them far out, because something
/// stands there, all such stand at the other end.
pub(super) fn place(lay: &mut Lay, side: Side, wanted: &[Wanted]) {
    /// So much nearer they must come for it, mm.
    const WORTH: f64 = 4.0;
    let here = || wanted.iter().filter(|w| w.side == side).cloned().map(Placed::new);
    let usual = rowed(here().collect());
    let Some(lines) = lines_of(lay, side, &usual) else { return };
    let turned = rowed(here().map(Placed::turned_round).collect());
    let others = lines_of(lay, side, &turned);
    let far = |lines: &[f64]| lines.last().map_or(0.0, |line| line * sign(side));
    let (placed, lines) = match others {
        Some(others) if far(&others) + WORTH < far(&lines) => (turned, others),
        _ => (usual, lines),
    };
    for p in &placed {
        draw(lay, p, lines.get(p.row).copied().unwrap_or_default());
    }
}

/// Where the lines of the rows of one side stand on the paper, the nearest first.
fn lines_of(lay: &Lay, side: Side, placed: &[Placed]) -> Option<Vec<f64>> {
    let span = placed.iter().map(Placed::taken).reduce(|a, b| (a.0.min(b.0), a.1.max(b.1)))?;
    let reach = lay.reach(is_upright(side), span)?;
    let edge = match side {
        Side::Left => reach.left,
        Side::Right => reach.right,
        Side::Above => reach.top,
        Side::Below => reach.bottom,
    };
    Some(rows(placed).0.into_iter().map(|line| edge + sign(side) * line).collect())
}

/// Which way a side lies.
const fn sign(side: Side) -> f64 {
    if matches!(side, Side::Left | Side::Above) { -1.0 } else { 1.0 }
}

/// Where the lines of the rows stand, from the part outward, and where the last row ends, mm: first the room that a row
/// needs on the near side, then its line, then the far side.
fn rows(placed: &[Placed]) -> (Vec<f64>, f64) {
    let (mut out, mut lines) = (0.0_f64, Vec::new());
    for row in 0..placed.iter().map(|p| p.row + 1).max().unwrap_or(0) {
        let depths = placed.iter().filter(|p| p.row == row).map(Placed::depth);
        let (near, far) = depths.fold((0.0_f64, 0.0_f64), |a, d| (a.0.max(d.0), a.1.max(d.1)));
        let line = (out + near + 0.5).max(lines.last().map_or(FIRST, |before| before + NEXT));
        lines.push(line);
        out = line + far;
    }
    (lines, out)
}

/// What dimensions take along their lines.
pub(super) fn taken(wanted: &[Wanted]) -> Rect {
    let spans = wanted.iter().cloned().map(Placed::new).map(|placed| {
        let (low, high) = placed.taken();
        if is_upright(placed.wanted.side) { Rect::new(0.0, low, 0.0, high) } else { Rect::new(low, 0.0, high, 0.0) }
    });
    spans.fold(Rect::new(0.0, 0.0, 0.0, 0.0), |whole, span| whole.and(&span))
}

/// How far the dimensions of one side reach out of the part, mm, counted in rows: known before anything is placed.
pub(super) fn margin(side: Side, wanted: &[Wanted]) -> f64 {
    rows(&in_rows(wanted.iter().filter(|w| w.side == side).cloned().collect())).1
}

/// Draws one dimension with its line at `across`.
fn draw(lay: &mut Lay, p: &Placed, across: f64) {
    let side = p.wanted.side;
    let out = outward(side);
    let ends = [p.wanted.from, p.wanted.to];
    for end in ends.into_iter().take(if p.wanted.half { 1 } else { 2 }) {
        let foot = point(side, along(side, end), across);
        lay.thin(vec![end + out * GAP, foot + out * BEYOND]);
    }
    let (low, high) = (point(side, p.low, across), point(side, p.high, across));
    let way: Vector2<f64> = if is_upright(side) { Vector2::y() } else { Vector2::x() };
    let block = &p.wanted.block;
    let axis = p.wanted.half.then(|| along(side, p.wanted.to));
    let (mut first, mut last) = (low, high);
    for (end, at, inward) in [(&mut first, p.low, way), (&mut last, p.high, -way)] {
        let tip = *end;
        if axis == Some(at) {
            *end = tip - inward * OVER;
        } else if p.arrows_outside {
            *end = tip - inward * (ARROW.0 + TAIL);
            lay.solid(arrowhead(tip, inward));
        } else {
            lay.solid(arrowhead(tip, -inward));
        }
    }
    let room = figure_box(p, across);
    match p.stand {
        Stand::Beside if !is_upright(side) => last = point(side, room.right, across),
        Stand::Before => first = point(side, room.left, across),
        _ => {}
    }
    lay.measures.push((first, last));
    if is_upright(side) && p.stand == Stand::On {
        lay.thin(vec![first, point(side, room.top - AIR, across)]);
        lay.thin(vec![point(side, room.bottom + AIR, across), last]);
    } else {
        lay.thin(vec![first, last]);
    }
    let align = match (side, p.stand) {
        (Side::Left, Stand::Beside) => Align::Right,
        (_, Stand::Before) => Align::Right,
        (_, Stand::Beside) => Align::Left,
        (_, Stand::On) => Align::Centre,
    };
    if p.wanted.shortened {
        lay.thin(vec![Point::new(room.left, room.bottom + UNDERLINE), Point::new(room.right, room.bottom + UNDERLINE)]);
    }
    lay.set(block, room.left, room.top, align);
}

/// Draws one dimension on its own with its line at `across`.
pub(super) fn place_at(lay: &mut Lay, wanted: Wanted, across: f64) {
    draw(lay, &Placed::new(wanted), across);
}

/// Where the figure of a dimension stands.
fn figure_box(p: &Placed, across: f64) -> Rect {
    let block = &p.wanted.block;
    let (left, top) = match (p.wanted.side, p.stand) {
        (Side::Right, Stand::Beside) => (across + AIR, p.text - block.height / 2.0),
        (Side::Left, Stand::Beside) => (across - AIR - block.width, p.text - block.height / 2.0),
        (Side::Left | Side::Right, Stand::On | Stand::Before) => {
            (across - block.width / 2.0, p.text - block.height / 2.0)
        }
        (Side::Above | Side::Below, _) => {
            (p.text - block.width / 2.0, across - AIR - block.capital * 0.1 - block.height)
        }
    };
    block.bounds(left, top)
}

#[cfg(test)]
mod tests {
    use super::{Align, Block, Lay, Point, Side, Stand, Wanted, in_rows, place};
    use crate::sheet::draughting::lay::{Kind, Layer};
    use crate::sheet::fonts::Font;

    fn height(from: f64, to: f64, text: &str) -> Wanted {
        let block = Block::new(Font::Sans, 3.0, [text.to_owned()]).unwrap();
        let (from, to) = (Point::new(10.0, from), Point::new(10.0, to));
        Wanted { from, to, side: Side::Right, shortened: false, half: false, block }
    }

    #[test]
    fn the_shorter_stand_nearer_and_a_chain_shares_a_row() {
        let placed = in_rows(vec![height(0.0, 60.0, "60"), height(0.0, 30.0, "30"), height(30.0, 60.0, "30")]);
        let row = |low: f64, high: f64| placed.iter().find(|p| p.low == low && p.high == high).unwrap().row;
        assert_eq!((row(0.0, 30.0), row(30.0, 60.0), row(0.0, 60.0)), (0, 0, 1));
    }

    #[test]
    fn a_short_one_has_its_arrows_outside_and_its_figure_beside() {
        let placed = in_rows(vec![height(0.0, 2.0, "1.0")]);
        assert!(placed[0].arrows_outside && placed[0].stand == Stand::Beside);
    }

    /// Where words stand at the end of a level line its figure stands before its beginning, nearer to the part.
    #[test]
    fn a_figure_stands_before_its_line_where_words_stand_behind_it() {
        let line = |words: bool| {
            let plate = crate::drawing::rectangle(0.0, 0.0, 40.0, 10.0);
            let mut lay = Lay::of(3.0, vec![Layer::Shape(Kind::Section(0), plate)]);
            let block = |text: &str| Block::new(Font::Sans, 3.0, [text.to_owned()]).unwrap();
            if words {
                lay.set(&block("min 1.00"), 49.0, 20.0, Align::Left);
            }
            let (from, to) = (Point::new(36.0, 10.0), Point::new(40.0, 10.0));
            let size = Wanted { from, to, side: Side::Below, shortened: false, half: false, block: block("9.35") };
            place(&mut lay, Side::Below, &[size]);
            assert!(lay.legible());
            (lay.words.last().unwrap().bounds, lay.measures[0])
        };
        let (behind, usual) = line(false);
        let (before, turned) = line(true);
        assert!(behind.left > 40.0 && before.right < 36.0, "{behind:?} {before:?}");
        assert_eq!(usual.0.y, turned.0.y);
        assert!(turned.0.x <= before.left && turned.1.x >= 40.0);
    }

    #[test]
    fn a_figure_steps_aside_for_an_extension_line() {
        let placed = in_rows(vec![height(0.0, 40.0, "40"), height(20.0, 80.0, "60")]);
        let short = placed.iter().find(|p| p.high == 40.0).unwrap();
        assert!((short.text - 20.0).abs() > 1.5);
    }

    #[test]
    fn many_dimensions_on_every_side_never_collide() {
        for side in [Side::Left, Side::Right, Side::Above, Side::Below] {
            let plate = crate::drawing::rectangle(0.0, 0.0, 80.0, 80.0);
            let mut lay = Lay::of(3.0, vec![Layer::Shape(Kind::Section(0), plate)]);
            let sizes = [
                (0.0, 80.0),
                (0.0, 1.0),
                (1.0, 3.0),
                (3.0, 40.0),
                (20.0, 60.0),
                (79.5, 80.0),
                (0.0, 0.0),
                (10.0, 70.0),
            ];
            let wanted: Vec<Wanted> = sizes
                .iter()
                .map(|(a, b)| {
                    let at = |v: f64| {
                        if matches!(side, Side::Left | Side::Right) { Point::new(40.0, v) } else { Point::new(v, 40.0) }
                    };
                    let block = Block::new(Font::Sans, 3.0, ["Ø25.021".to_owned(), "Ø25.000".to_owned()]).unwrap();
                    Wanted { from: at(*a), to: at(*b), side, shortened: false, half: false, block }
                })
                .collect();
            place(&mut lay, side, &wanted);
            assert!(lay.legible(), "{side:?}");
            assert_eq!(lay.words.len(), 16);
        }
    }
}
