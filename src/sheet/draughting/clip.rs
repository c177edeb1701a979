//! Which parts of a line are seen: what shapes on top and words leave of it.

use super::Point;
use crate::sheet::page::Rect;

/// Nearer than this to an edge is on the edge, mm.
const ON_EDGE: f64 = 1e-6;

/// A shorter stretch is none, as a part of its line.
const NOTHING: f64 = 1e-9;

/// Stretches of a straight line, each from 0 (its beginning) to 1 (its end).
pub(super) type Stretches = Vec<(f64, f64)>;

/// The whole line.
pub(super) fn whole() -> Stretches {
    vec![(0.0, 1.0)]
}

/// The edges of a closed polygon.
pub(super) fn edges(outline: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    outline.iter().copied().zip(outline.iter().copied().cycle().skip(1))
}

/// Distance of a point from a straight stretch, mm.
pub(super) fn distance(p: Point, a: Point, b: Point) -> f64 {
    let way = b - a;
    let length = way.norm_squared();
    let t = if length > 0.0 { ((p - a).dot(&way) / length).clamp(0.0, 1.0) } else { 0.0 };
    (p - (a + way * t)).norm()
}

/// Whether two straight stretches cross, ends left out.
pub(super) fn cross(a: Point, b: Point, c: Point, d: Point) -> bool {
    let side = |p: Point, q: Point, r: Point| (q - p).perp(&(r - p));
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// Whether a point lies inside a polygon (even-odd rule); on the edge is outside.
pub(super) fn inside(p: Point, outline: &[Point]) -> bool {
    let mut odd = false;
    let within = |at: f64, a: f64, b: f64| at > a.min(b) - ON_EDGE && at < a.max(b) + ON_EDGE;
    for (a, b) in edges(outline) {
        if within(p.x, a.x, b.x) && within(p.y, a.y, b.y) && distance(p, a, b) < ON_EDGE {
            return false;
        }
        if (a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x) {
            odd = !odd;
        }
    }
    odd
}

/// Where a straight line meets the edges of a polygon, as fractions of the line.
fn meetings(from: Point, to: Point, outline: &[Point]) -> Vec<f64> {
    let way = to - from;
    edges(outline)
        .filter_map(|(a, b)| {
            let edge = b - a;
            let cross = way.perp(&edge);
            if cross.abs() < 1e-12 {
                return None;
            }
            let start = a - from;
            let (t, u) = (start.perp(&edge) / cross, start.perp(&way) / cross);
            ((-1e-9..=1.0 + 1e-9).contains(&u) && t > 0.0 && t < 1.0).then_some(t)
        })
        .collect()
}

/// The stretches that lie inside a polygon, or outside it.
fn sorted_out(from: Point, to: Point, kept: &Stretches, outline: &[Point], wanted_inside: bool) -> Stretches {
    let cuts = meetings(from, to, outline);
    let mut left = Stretches::new();
    for &(start, end) in kept {
        let mut at: Vec<f64> = cuts.iter().copied().filter(|t| *t > start && *t < end).collect();
        at.extend([start, end]);
        at.sort_by(f64::total_cmp);
        for (a, b) in at.iter().copied().zip(at.iter().copied().skip(1)) {
            let middle = from + (to - from) * f64::midpoint(a, b);
            if b - a > NOTHING && inside(middle, outline) == wanted_inside {
                left.push((a, b));
            }
        }
    }
    left
}

/// What of a line lies inside a polygon.
pub(super) fn within(from: Point, to: Point, outline: &[Point]) -> Stretches {
    sorted_out(from, to, &whole(), outline, true)
}

/// What a polygon on top leaves of a line.
pub(super) fn under(from: Point, to: Point, kept: &Stretches, outline: &[Point]) -> Stretches {
    sorted_out(from, to, kept, outline, false)
}

/// Polygons on top, each with its box.
#[derive(Default)]
pub(super) struct OnTop<'a>(Vec<(Rect, &'a [Point])>);

impl<'a> OnTop<'a> {
    pub(super) fn of(shapes: impl IntoIterator<Item = &'a [Point]>) -> Self {
        let boxed = |shape: &'a [Point]| Some((Rect::about(shape)?.grown(ON_EDGE), shape));
        Self(shapes.into_iter().filter_map(boxed).collect())
    }

    /// Whether one of them may cover something of what stands in a box.
    pub(super) fn meets(&self, about: &Rect) -> bool {
        self.0.iter().any(|(bounds, _)| bounds.overlaps(&about.grown(ON_EDGE)))
    }

    /// What they and boxes of words leave of a line.
    pub(super) fn leave(&self, from: Point, to: Point, mut kept: Stretches, words: &[Rect]) -> Stretches {
        let about = Rect::new(from.x.min(to.x), from.y.min(to.y), from.x.max(to.x), from.y.max(to.y)).grown(ON_EDGE);
        for (_, shape) in self.0.iter().filter(|(bounds, _)| bounds.overlaps(&about)) {
            kept = under(from, to, &kept, shape);
        }
        for text in words.iter().filter(|text| text.crossed_by(from, to)) {
            kept = beside(from, to, &kept, text);
        }
        kept
    }
}

/// A polygon cut down to a box; its edges along the box are no edges of the polygon.
pub(super) fn to_box(outline: &[Point], room: &Rect) -> Vec<Point> {
    // How far a point lies inside each of the four sides.
    let sides: [fn(&Rect, Point) -> f64; 4] =
        [|r, p| p.x - r.left, |r, p| r.right - p.x, |r, p| p.y - r.top, |r, p| r.bottom - p.y];
    let one = |points: Vec<Point>, inside: fn(&Rect, Point) -> f64| {
        let mut kept = Vec::with_capacity(points.len() + 2);
        for (a, b) in edges(&points) {
            let (from, to) = (inside(room, a), inside(room, b));
            if from >= 0.0 {
                kept.push(a);
            }
            if (from >= 0.0) != (to >= 0.0) {
                kept.push(a + (b - a) * (from / (from - to)));
            }
        }
        kept
    };
    sides.into_iter().fold(outline.to_vec(), one)
}

/// What a box of words leaves of a line.
pub(super) fn beside(from: Point, to: Point, kept: &Stretches, words: &Rect) -> Stretches {
    let way = to - from;
    let x = between(from.x, way.x, (words.left, words.right));
    let y = between(from.y, way.y, (words.top, words.bottom));
    let Some((start, end)) = x.zip(y).map(|(x, y)| (x.0.max(y.0), x.1.min(y.1))) else { return kept.clone() };
    if end - start <= NOTHING {
        return kept.clone();
    }
    let mut left = Stretches::with_capacity(kept.len() + 1);
    for (a, b) in kept {
        left.extend([(*a, b.min(start)), (a.max(end), *b)].into_iter().filter(|(a, b)| b - a > NOTHING));
    }
    left
}

/// Where what goes on from a place by so much lies between two others; nowhere where it lies on one of them or beyond it.
fn between(from: f64, way: f64, (low, high): (f64, f64)) -> Option<(f64, f64)> {
    if way.abs() < ON_EDGE {
        return (from > low + ON_EDGE && from < high - ON_EDGE).then_some((f64::NEG_INFINITY, f64::INFINITY));
    }
    let (a, b) = ((low - from) / way, (high - from) / way);
    Some((a.min(b), a.max(b)))
}

/// The stretches as pairs of points.
pub(super) fn pieces(from: Point, to: Point, kept: &Stretches) -> impl Iterator<Item = (Point, Point)> + '_ {
    let way = to - from;
    kept.iter().map(move |(a, b)| (from + way * *a, from + way * *b))
}

#[cfg(test)]
mod tests {
    use super::{Point, beside, inside, pieces, to_box, under, whole, within};
    use crate::sheet::page::Rect;

    fn square() -> [Point; 4] {
        [Point::new(0.0, 0.0), Point::new(10.0, 0.0), Point::new(10.0, 10.0), Point::new(0.0, 10.0)]
    }

    #[test]
    fn the_edge_is_not_inside() {
        assert!(inside(Point::new(5.0, 5.0), &square()));
        assert!(!inside(Point::new(10.0, 5.0), &square()));
        assert!(!inside(Point::new(11.0, 5.0), &square()));
    }

    #[test]
    fn a_line_through_a_square_keeps_its_ends() {
        let (a, b) = (Point::new(-10.0, 5.0), Point::new(20.0, 5.0));
        let left: Vec<_> = pieces(a, b, &under(a, b, &whole(), &square())).collect();
        assert_eq!(left.len(), 2);
        assert!((left[0].1.x - 0.0).abs() < 1e-9 && (left[1].0.x - 10.0).abs() < 1e-9);
        assert_eq!(within(a, b, &square()).len(), 1);
    }

    #[test]
    fn a_line_along_an_edge_is_kept() {
        let (a, b) = (Point::new(-5.0, 0.0), Point::new(15.0, 0.0));
        let kept: f64 = under(a, b, &whole(), &square()).iter().map(|(s, e)| e - s).sum();
        assert!((kept - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_polygon_is_cut_down_to_a_box() {
        let cut = to_box(&square(), &Rect::new(5.0, -5.0, 20.0, 2.0));
        let about = Rect::about(&cut).unwrap();
        assert_eq!((about.left, about.top, about.right, about.bottom), (5.0, 0.0, 10.0, 2.0));
        assert!(to_box(&square(), &Rect::new(11.0, 0.0, 20.0, 10.0)).is_empty());
    }

    #[test]
    fn words_interrupt_a_line() {
        let (a, b) = (Point::new(0.0, 5.0), Point::new(30.0, 5.0));
        assert_eq!(beside(a, b, &whole(), &Rect::new(10.0, 3.0, 20.0, 7.0)).len(), 2);
        assert_eq!(beside(a, b, &whole(), &Rect::new(10.0, 6.0, 20.0, 7.0)).len(), 1);
    }
}
