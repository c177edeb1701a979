//! Upright rectangles: the boxes of marks and areas.

use super::Point;

/// An upright rectangle on the paper, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// Left edge.
    pub left: f64,
    /// Upper edge (the smaller `y`).
    pub top: f64,
    /// Right edge.
    pub right: f64,
    /// Lower edge.
    pub bottom: f64,
}

impl Rect {
    /// From its four edges.
    #[must_use]
    pub const fn new(left: f64, top: f64, right: f64, bottom: f64) -> Self {
        Self { left, top, right, bottom }
    }

    /// The smallest rectangle about some points; nothing when there are none.
    #[must_use]
    pub fn about(points: &[Point]) -> Option<Self> {
        let (first, rest) = points.split_first()?;
        Some(rest.iter().fold(Self::new(first.x, first.y, first.x, first.y), |r, p| {
            Self::new(r.left.min(p.x), r.top.min(p.y), r.right.max(p.x), r.bottom.max(p.y))
        }))
    }

    /// Width, mm.
    #[must_use]
    pub fn width(&self) -> f64 {
        self.right - self.left
    }

    /// Height, mm.
    #[must_use]
    pub fn height(&self) -> f64 {
        self.bottom - self.top
    }

    /// The middle.
    #[must_use]
    pub fn centre(&self) -> Point {
        Point::new(f64::midpoint(self.left, self.right), f64::midpoint(self.top, self.bottom))
    }

    /// Both together.
    #[must_use]
    pub fn and(&self, other: &Self) -> Self {
        Self::new(
            self.left.min(other.left),
            self.top.min(other.top),
            self.right.max(other.right),
            self.bottom.max(other.bottom),
        )
    }

    /// Larger by `by` mm on every side (smaller where it is under nought).
    #[must_use]
    pub fn grown(&self, by: f64) -> Self {
        Self::new(self.left - by, self.top - by, self.right + by, self.bottom + by)
    }

    /// The same rectangle elsewhere.
    #[must_use]
    pub fn moved(&self, x: f64, y: f64) -> Self {
        Self::new(self.left + x, self.top + y, self.right + x, self.bottom + y)
    }

    /// Whether they share more than their edges.
    #[must_use]
    pub(crate) fn overlaps(&self, other: &Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }

    /// Whether a straight line passes through the inside.
    #[must_use]
    pub(crate) fn crossed_by(&self, from: Point, to: Point) -> bool {
        let way = to - from;
        let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
        for (start, go, low, high) in [(from.x, way.x, self.left, self.right), (from.y, way.y, self.top, self.bottom)] {
            if go.abs() < 1e-12 {
                if start <= low || start >= high {
                    return false;
                }
                continue;
            }
            let (a, b) = ((low - start) / go, (high - start) / go);
            enter = enter.max(a.min(b));
            leave = leave.min(a.max(b));
        }
        enter < leave
    }

    /// Whether `other` lies inside, edges included, to within `slack` mm.
    #[must_use]
    #[cfg(test)]
    pub(crate) fn holds(&self, other: &Self, slack: f64) -> bool {
        let room = self.grown(slack);
        other.left >= room.left && other.right <= room.right && other.top >= room.top && other.bottom <= room.bottom
    }
}

#[cfg(test)]
mod tests {
    use super::{Point, Rect};

    #[test]
    fn rectangles_know_what_crosses_them() {
        let r = Rect::new(0.0, 0.0, 10.0, 5.0);
        assert!(r.crossed_by(Point::new(-5.0, 2.0), Point::new(15.0, 2.0)));
        assert!(r.crossed_by(Point::new(2.0, 2.0), Point::new(3.0, 3.0)));
        assert!(!r.crossed_by(Point::new(-5.0, 0.0), Point::new(15.0, 0.0)), "along the edge is not through");
        assert!(!r.crossed_by(Point::new(-3.0, 3.0), Point::new(3.0, 8.0)), "past the corner");
    }

    #[test]
    fn touching_is_not_overlapping() {
        let r = Rect::new(0.0, 0.0, 10.0, 5.0);
        assert!(!r.overlaps(&Rect::new(10.0, 0.0, 12.0, 5.0)));
        assert!(r.overlaps(&Rect::new(9.9, 4.9, 12.0, 9.0)));
    }
}
