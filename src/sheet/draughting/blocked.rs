//! Where something stands for certain: most places are ruled out by a look at a table, and only the others held against
//! every line.

use super::Point;
use super::clip;
use super::lay::{Lay, Layer, runs};
use crate::sheet::page::Rect;

/// Width and height of a cell, mm.
const CELL: f64 = 2.0;
/// Most cells across and down.
const MOST: usize = 160;
/// Longest line that is followed, mm.
const LONGEST: f64 = 1000.0;

/// How many cells of a window have something in them, summed up from its corner.
pub(super) struct Blocked {
    corner: Point,
    across: usize,
    down: usize,
    sums: Vec<u32>,
}

impl Blocked {
    /// What stands in a window of a sketch so far.
    pub(super) fn of(lay: &Lay, window: &Rect) -> Self {
        let cells = |length: f64| usize::min((length / CELL).ceil().max(0.0) as usize, MOST);
        let (across, down) = (cells(window.width()), cells(window.height()));
        let corner = Point::new(window.left, window.top);
        let mut blocked = Self { corner, across, down, sums: vec![0; (across + 1) * (down + 1)] };
        for layer in &lay.layers {
            match layer {
                Layer::Shape(_, outline) => clip::edges(outline).for_each(|(a, b)| blocked.line(a, b)),
                Layer::Line(line) => runs(&line.points).for_each(|(a, b)| blocked.line(a, b)),
            }
        }
        for (_, stroke) in &lay.strokes {
            runs(&stroke.points).for_each(|(a, b)| blocked.line(a, b));
        }
        lay.solids.iter().flat_map(|(_, solid)| solid).for_each(|p| blocked.point(*p));
        lay.taken.iter().for_each(|room| blocked.room(room));
        blocked.sum();
        blocked
    }

    fn point(&mut self, p: Point) {
        let (x, y) = ((p.x - self.corner.x) / CELL, (p.y - self.corner.y) / CELL);
        if x >= 0.0 && y >= 0.0 && x < self.across as f64 && y < self.down as f64 {
            self.mark(x as usize, y as usize);
        }
    }

    fn mark(&mut self, x: usize, y: usize) {
        if let Some(cell) = self.sums.get_mut((y + 1) * (self.across + 1) + x + 1) {
            *cell = 1;
        }
    }

    fn line(&mut self, a: Point, b: Point) {
        let way = b - a;
        let long = way.norm();
        if long <= LONGEST {
            let steps = (long / CELL).ceil().max(1.0);
            (0..=steps as usize).for_each(|k| self.point(a + way * (k as f64 / steps)));
        }
    }

    /// The cells whose middle lies in a box.
    fn room(&mut self, room: &Rect) {
        let from = |low: f64, start: f64| (((low - start) / CELL - 0.5).floor() + 1.0).max(0.0) as usize;
        let to =
            |high: f64, start: f64, end: usize| usize::min(((high - start) / CELL - 0.5).ceil().max(0.0) as usize, end);
        for y in from(room.top, self.corner.y)..to(room.bottom, self.corner.y, self.down) {
            for x in from(room.left, self.corner.x)..to(room.right, self.corner.x, self.across) {
                self.mark(x, y);
            }
        }
    }

    fn sum(&mut self) {
        let wide = self.across + 1;
        for at in wide + 1..self.sums.len() {
            let before = |by: usize| self.sums.get(at - by).copied().unwrap_or(0);
            let all = if at.is_multiple_of(wide) { 0 } else { before(1) + before(wide) - before(wide + 1) };
            if let Some(cell) = self.sums.get_mut(at) {
                *cell += all;
            }
        }
    }

    /// Whether something stands in a box for certain: in a cell that lies in it wholly.
    pub(super) fn takes(&self, room: &Rect) -> bool {
        let from = |low: f64, start: f64| (((low + 1e-6 - start) / CELL).floor() + 1.0).max(0.0) as usize;
        let to = |high: f64, start: f64, end: usize| {
            usize::min(((high - 1e-6 - start) / CELL).floor().max(0.0) as usize, end)
        };
        let (left, right) = (from(room.left, self.corner.x), to(room.right, self.corner.x, self.across));
        let (top, bottom) = (from(room.top, self.corner.y), to(room.bottom, self.corner.y, self.down));
        if left >= right || top >= bottom {
            return false;
        }
        let sum = |x: usize, y: usize| self.sums.get(y * (self.across + 1) + x).copied().unwrap_or(0);
        sum(right, bottom) + sum(left, top) > sum(left, bottom) + sum(right, top)
    }
}

#[cfg(test)]
mod tests {
    use super::Blocked;
    use crate::drawing::rectangle;
    use crate::sheet::draughting::lay::{Kind, Lay, Layer};
    use crate::sheet::page::{Point, Rect};

    /// Nothing that is free is ruled out.
    #[test]
    fn what_is_ruled_out_is_not_free() {
        let mut lay = Lay::of(3.0, vec![Layer::Shape(Kind::Section(0), rectangle(-20.0, 0.0, 20.0, 15.0))]);
        lay.thin(vec![Point::new(-31.0, -9.0), Point::new(27.0, 22.5)]);
        lay.solid(vec![Point::new(30.0, 30.0), Point::new(33.0, 30.0), Point::new(33.0, 30.5)]);
        lay.taken.push(Rect::new(24.0, 3.0, 29.0, 8.0));
        let window = Rect::new(-40.3, -30.2, 41.0, 45.0);
        let blocked = Blocked::of(&lay, &window);
        let (mut ruled_out, mut taken) = (0, 0);
        for at in 0..4000 {
            let (x, y) = (-40.0 + f64::from(at % 80), -30.0 + f64::from(at / 80) * 1.4);
            let room = Rect::new(x, y, x + 5.0 + f64::from(at % 7), y + 4.0 + f64::from(at % 5));
            let is_taken = !lay.free(&room) || lay.crossed(&room);
            assert!(is_taken || !blocked.takes(&room), "{room:?}");
            ruled_out += i32::from(blocked.takes(&room));
            taken += i32::from(is_taken);
        }
        assert!(ruled_out * 2 > taken, "{ruled_out} of {taken}");
    }
}
