//! Where something stands for certain: most places are ruled out by a look at a table, and only the others held against
//! every line.

use super::Point;
use crate::sheet::page::Rect;
use nalgebra::Vector2;

/// Width and height of a cell, mm; cells in a millimetre.
const CELL: f64 = 1.0;
const CELLS: f64 = 1.0 / CELL;
/// Most cells across, a bit each, and down.
const MOST: usize = WORDS * WORD;
const WORDS: usize = 4;
const WORD: usize = 64;
/// Longest line that is followed, mm.
const LONGEST: f64 = 1000.0;
/// By so much a cell must lie inside a box to lie in it for certain, mm.
const HAIR: f64 = 1e-6;
/// A row of cells, a bit each.
type Row = [u64; WORDS];

/// The cells of a field that have something in them. Nothing outside the field is ruled out.
#[derive(Clone, Debug, Default)]
pub(super) struct Blocked {
    corner: Point,
    rows: Vec<Row>,
}

impl Blocked {
    /// The field about a part within which everything about it can stand.
    pub(super) fn about(part: &Rect, room: Vector2<f64>) -> Self {
        let across = |length: f64, part: f64| (2.0 * length - part).clamp(0.0, MOST as f64 * CELL);
        let (width, height) = (across(room.x, part.width()), across(room.y, part.height()));
        let corner = part.centre() - Vector2::new(width, height) / 2.0;
        Self { corner, rows: vec![Row::default(); usize::min((height * CELLS) as usize + 1, MOST)] }
    }

    fn point(&mut self, p: Point) {
        let (x, y) = ((p.x - self.corner.x) * CELLS, (p.y - self.corner.y) * CELLS);
        if x >= 0.0
            && y >= 0.0
            && let (x, y) = (x as usize, y as usize)
            && let Some(word) = self.rows.get_mut(y).and_then(|row| row.get_mut(x / WORD))
        {
            *word |= 1 << (x % WORD);
        }
    }

    /// A point of a line in each cell or so.
    pub(super) fn line(&mut self, (a, b): (Point, Point)) {
        let way = b - a;
        let long = way.x.abs().max(way.y.abs());
        self.point(a);
        if long > CELL && long <= LONGEST {
            let steps = (long * CELLS) as usize + 1;
            let step = way / steps as f64;
            (1..steps).for_each(|k| self.point(a + step * k as f64));
        }
        self.point(b);
    }

    /// The cells that a box shares: what holds one of them wholly shares the box.
    pub(super) fn room(&mut self, room: &Rect) {
        let cell = |at: f64, start: f64| (((at - start) * CELLS).max(0.0) as usize).min(MOST);
        let (from, to) = (cell(room.left + HAIR, self.corner.x), cell(room.right - HAIR, self.corner.x) + 1);
        let (top, bottom) = (cell(room.top + HAIR, self.corner.y), cell(room.bottom - HAIR, self.corner.y) + 1);
        if room.right <= self.corner.x || room.bottom <= self.corner.y {
            return;
        }
        let bits = between(from, to);
        for row in self.rows.iter_mut().take(bottom).skip(top) {
            row.iter_mut().zip(bits).for_each(|(word, bits)| *word |= bits);
        }
    }

    /// Where a box of a size would have something in it for certain.
    pub(super) fn shadow(&self, size: Vector2<f64>) -> Shadow {
        // Wherever in its cell the corner stands, so many cells behind that one lie in the box wholly.
        let whole = |length: f64| (((length - 2.0 * HAIR) * CELLS).max(1.0) as usize) - 1;
        let (across, down) = (whole(size.x), whole(size.y));
        let mut rows = if across == 0 || down == 0 { Vec::new() } else { self.rows.clone() };
        // All cells of so many rows in one, by doubling.
        let mut have = 1;
        while have < down {
            let more = usize::min(have, down - have);
            for at in 0..rows.len() {
                let Some(below) = rows.get(at + more).copied() else { break };
                if let Some(row) = rows.get_mut(at) {
                    row.iter_mut().zip(below).for_each(|(word, below)| *word |= below);
                }
            }
            have += more;
        }
        let mut have = 1;
        while have < across {
            let more = usize::min(have, across - have);
            for row in &mut rows {
                let behind = shifted(row, more);
                row.iter_mut().zip(behind).for_each(|(word, behind)| *word |= behind);
            }
            have += more;
        }
        Shadow { corner: self.corner - Vector2::new(HAIR, HAIR), rows }
    }
}

/// The corners, by their cells, of boxes of one size that have something in them for certain.
pub(super) struct Shadow {
    corner: Point,
    rows: Vec<Row>,
}

impl Shadow {
    /// Whether something stands in the box of that size with its left upper corner at a place, for certain.
    pub(super) fn takes(&self, corner: Point) -> bool {
        let (x, y) = ((corner.x - self.corner.x) * CELLS, (corner.y - self.corner.y) * CELLS);
        if x < -1.0 || y < -1.0 {
            return false;
        }
        // The first cell that lies in the box is the next.
        let (x, y) = ((x + 1.0) as usize, (y + 1.0) as usize);
        let word = self.rows.get(y).and_then(|row| row.get(x / WORD));
        word.is_some_and(|word| word >> (x % WORD) & 1 == 1)
    }
}

/// A bit for each number from one up to another.
fn between(from: usize, to: usize) -> Row {
    let below = |n: usize| if n >= WORD { u64::MAX } else { (1 << n) - 1 };
    std::array::from_fn(|at| below(to.saturating_sub(at * WORD)) & !below(from.saturating_sub(at * WORD)))
}

/// Each bit in the place of the one so many before it.
fn shifted(row: &Row, by: usize) -> Row {
    let (words, bits) = (by / WORD, by % WORD);
    let word = |at: usize| row.get(at).copied().unwrap_or(0);
    std::array::from_fn(|at| match bits {
        0 => word(at + words),
        _ => word(at + words) >> bits | word(at + words + 1) << (WORD - bits),
    })
}

#[cfg(test)]
mod tests {
    use super::{Vector2, between, shifted};
    use crate::drawing::rectangle;
    use crate::sheet::draughting::lay::{Kind, Lay, Layer};
    use crate::sheet::page::{Point, Rect};

    /// Nothing that is free is ruled out, and most of what is not free is.
    #[test]
    fn what_is_ruled_out_is_not_free() {
        let mut lay = Lay::of(3.0, vec![Layer::Shape(Kind::Section(0), rectangle(-20.0, 0.0, 20.0, 15.0))]);
        lay.keep_within(90.0, 80.0);
        lay.thin(vec![Point::new(-31.0, -9.0), Point::new(27.0, 22.5)]);
        lay.solid(vec![Point::new(30.0, 30.0), Point::new(33.0, 30.0), Point::new(33.0, 30.5)]);
        lay.taken.push(Rect::new(24.0, 3.0, 29.0, 8.0));
        lay.survey();
        let (mut ruled_out, mut taken) = (0, 0);
        for at in 0..4000 {
            let (x, y) = (-60.0 + f64::from(at % 80) * 1.7, -50.0 + f64::from(at / 80) * 2.4);
            let size = Vector2::new(4.0 + f64::from(at % 7), 3.8 + f64::from(at % 5));
            let room = Rect::new(x, y, x + size.x, y + size.y);
            let is_taken = !lay.free(&room) || lay.crossed(&room);
            let takes = lay.blocked.shadow(size).takes(Point::new(x, y));
            assert!(is_taken || !takes, "{room:?}");
            ruled_out += i32::from(takes);
            taken += i32::from(is_taken);
        }
        assert!(ruled_out * 2 > taken && taken > 300, "{ruled_out} of {taken}");
    }

    #[test]
    fn bits_run_over_the_ends_of_words() {
        let bits = between(60, 130);
        assert_eq!(bits, [0xF << 60, u64::MAX, 0b11, 0]);
        assert_eq!(shifted(&bits, 60), between(0, 70));
        assert_eq!(shifted(&bits, 64), between(0, 66));
        assert_eq!(between(5, 5), [0; 4]);
    }
}
