//! Shapes that sketches are made of, in millimetres of the part.

use super::Point;

/// Straight pieces of a whole circle.
const PIECES: f64 = 72.0;

/// A rectangle from its left, top, right and bottom, mm.
#[must_use]
pub fn rectangle(left: f64, top: f64, right: f64, bottom: f64) -> Vec<Point> {
    vec![Point::new(left, top), Point::new(right, top), Point::new(right, bottom), Point::new(left, bottom)]
}

/// The points of an arc from one angle to another, degrees from `x` towards `y`; radius in mm.
#[must_use]
pub fn arc(centre: Point, radius: f64, from: f64, to: f64) -> Vec<Point> {
    let pieces = ((to - from).abs() / 360.0 * PIECES).ceil().clamp(1.0, PIECES);
    let at = |k: f64| (from + (to - from) * k / pieces).to_radians();
    std::iter::successors(Some(0.0), |k| (*k < pieces).then_some(k + 1.0))
        .map(|k| Point::new(centre.x + radius * at(k).cos(), centre.y + radius * at(k).sin()))
        .collect()
}

/// A closed circle as a polygon, radius in mm.
#[must_use]
pub fn circle(centre: Point, radius: f64) -> Vec<Point> {
    let mut points = arc(centre, radius, 0.0, 360.0);
    points.pop();
    points
}

/// A profile right of the axis at `x`, closed by its mirror image left of it.
#[must_use]
pub fn mirrored(x: f64, right: &[Point]) -> Vec<Point> {
    let left = right.iter().rev().map(|p| Point::new(2.0 * x - p.x, p.y));
    let mut whole: Vec<Point> = right.iter().copied().chain(left).collect();
    let same = |a: &Point, b: &Point| (a - b).norm() < 1e-9;
    whole.dedup_by(|a, b| same(a, b));
    if whole.len() > 1 && whole.first().zip(whole.last()).is_some_and(|(a, b)| same(a, b)) {
        whole.pop();
    }
    whole
}

/// A drilled hole about the axis at `x`: `diameter` to `depth` (full diameter), then the point with the included angle
/// `point_angle` in degrees; 180 is a flat bottom. It starts at the face, `y` = 0.
///
/// Height of the point: (diameter / 2) / tan(half angle), plane geometry.
#[must_use]
pub fn drilled(x: f64, diameter: f64, depth: f64, point_angle: f64) -> Vec<Point> {
    let r = diameter / 2.0;
    let tip = if point_angle >= 180.0 { 0.0 } else { r / (point_angle / 2.0).to_radians().tan() };
    mirrored(x, &[Point::new(x + r, 0.0), Point::new(x + r, depth), Point::new(x, depth + tip)])
}

/// The two cut faces of a ring whose axis stands upright at `x`: outside and inside diameters, `top` and `bottom`, mm.
#[must_use]
pub fn ring_section(x: f64, outside: f64, inside: f64, top: f64, bottom: f64) -> [Vec<Point>; 2] {
    let (out, bore) = (outside / 2.0, inside / 2.0);
    [rectangle(x - out, top, x - bore, bottom), rectangle(x + bore, top, x + out, bottom)]
}

/// The outline lying down: the axis that stood upright at `x` = 0 now runs to the right.
#[must_use]
pub fn lengthwise(outline: &[Point]) -> Vec<Point> {
    outline.iter().map(|p| Point::new(p.y, -p.x)).collect()
}

#[cfg(test)]
mod tests {
    use super::{Point, arc, circle, drilled, lengthwise, mirrored, ring_section};

    /// Source: plane geometry, 4.2 / tan 59° = 2.5236.
    #[test]
    fn drill_point_of_118_degrees() {
        let hole = drilled(0.0, 8.4, 13.0, 118.0);
        let lowest = hole.iter().map(|p| p.y).fold(0.0, f64::max);
        assert_eq!(format!("{:.2}", lowest - 13.0), "2.52");
    }

    #[test]
    fn flat_bottom_has_no_point() {
        assert!(drilled(0.0, 8.4, 13.0, 180.0).iter().all(|p| p.y <= 13.0));
    }

    #[test]
    fn mirror_keeps_each_corner_once() {
        let whole = mirrored(10.0, &[Point::new(12.0, 0.0), Point::new(10.0, 5.0)]);
        assert_eq!(whole, [Point::new(12.0, 0.0), Point::new(10.0, 5.0), Point::new(8.0, 0.0)]);
    }

    #[test]
    fn arcs_end_where_they_are_told() {
        let quarter = arc(Point::new(0.0, 0.0), 10.0, 0.0, 90.0);
        assert!((quarter[quarter.len() - 1] - Point::new(0.0, 10.0)).norm() < 1e-9);
        assert_eq!(circle(Point::new(0.0, 0.0), 1.0).len(), 72);
    }

    #[test]
    fn ring_has_two_faces_about_its_axis() {
        let [left, right] = ring_section(0.0, 30.0, 20.0, 0.0, 4.0);
        assert_eq!((left[0].x, left[1].x, right[0].x, right[1].x), (-15.0, -10.0, 10.0, 15.0));
    }

    #[test]
    fn lying_down_turns_depth_into_length() {
        assert_eq!(lengthwise(&[Point::new(3.0, 7.0)]), [Point::new(7.0, -3.0)]);
    }
}
