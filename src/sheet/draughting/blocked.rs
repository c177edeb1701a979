//! Where something stands for certain: most places are ruled out by a look at a table, and only the others held against
//! every line.

use super::Point;
use super::clip;
use super::lay::{Lay, Layer, runs};
use crate::sheet::page::Rect;

/// Width and height of a cell, mm; cells in a millimetre.
const CELL: f64 = 2.0;
const CELLS: f64 = 1.0 / CELL;
/// Most cells across, a bit each, and down.
const MOST: usize = 128;
/// Longest line that is followed, mm.
const LONGEST: f64 = 1000.0;

/// The cells of a window that have something in them: a bit a cell, a row a line of cells.
pub(super) struct Blocked {
    corner: Point,
    across: usize,
    rows: Vec<u128>,
}

impl Blocked {
    /// What stands in a window of a sketch so far.
    pub(super) fn of(lay: &Lay, window: &Rect) -> Self {
        let cells = |length: f64| usize::min((length * CELLS) as usize + 1, MOST);
        let corner = Point::new(window.left, window.top);
        let mut blocked = Self { corner, across: cells(window.width()), rows: vec![0; cells(window.height())] };
        for layer in &lay.layers {
            match layer {
                Layer::Shape(_, outline) => clip::edges(outline).for_each(|(a, b)| blocked.line(a, b)),
                Layer::Line(line) => runs(&line.points).for_each(|(a, b)| blocked.line(a, b)),
            }
        }
        for (_, stroke) in &lay.strokes {
            runs(&stroke.points).for_each(|(a, b)| blocked.line(a, b));
        }
        lay.solids.iter().filter_map(|(_, solid)| solid.first()).for_each(|p| blocked.point(*p));
        lay.taken.iter().for_each(|room| blocked.room(room));
        blocked
    }

    fn point(&mut self, p: Point) {
        let (x, y) = ((p.x - self.corner.x) * CELLS, (p.y - self.corner.y) * CELLS);
        if x >= 0.0
            && y >= 0.0
            && let (x, y) = (x as usize, y as usize)
            && x < self.across
            && let Some(row) = self.rows.get_mut(y)
        {
            *row |= 1 << x;
        }
    }

    /// A point of a line in each cell or so.
    fn line(&mut self, a: Point, b: Point) {
        let way = b - a;
        let long = way.x.abs().max(way.y.abs());
        self.point(a);
        if long > CELL && long <= LONGEST {
            let steps = (long * CELLS) as usize + 1;
            let step = way / steps as f64;
            (1..steps).for_each(|k| self.point(a + step * k as f64));
        }
    }

    /// The cells whose middle lies in a box.
    fn room(&mut self, room: &Rect) {
        let middle = CELL / 2.0;
        let shrunk = Rect::new(room.left - middle, room.top - middle, room.right - middle, room.bottom - middle);
        let (bits, from, to) = self.beginning_in(&shrunk);
        self.rows.iter_mut().take(to).skip(from).for_each(|row| *row |= bits);
    }

    /// Whether something stands in a box for certain: in a cell that lies in it wholly.
    pub(super) fn takes(&self, room: &Rect) -> bool {
        let (bits, from, to) =
            self.beginning_in(&Rect::new(room.left, room.top, room.right - CELL, room.bottom - CELL));
        self.rows.iter().take(to).skip(from).any(|row| row & bits != 0)
    }

    /// The cells that begin inside a box: their bits in a row, the first row, and the row behind the last.
    fn beginning_in(&self, room: &Rect) -> (u128, usize, usize) {
        // The first that begins behind an edge, by a hair.
        let behind = |edge: f64, start: f64| {
            let at = (edge - start) * CELLS + 1e-6;
            if at < 0.0 { 0 } else { at as usize + 1 }
        };
        let until = |edge: f64, start: f64| {
            let at = (edge - start) * CELLS - 1e-6;
            if at < 0.0 { 0 } else { at as usize + 1 }
        };
        let (left, right) = (behind(room.left, self.corner.x), until(room.right, self.corner.x).min(self.across));
        let below = |n: usize| if n >= MOST { u128::MAX } else { (1 << n) - 1 };
        let bits = if left < right { below(right) & !below(left) } else { 0 };
        (bits, behind(room.top, self.corner.y), until(room.bottom, self.corner.y))
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
