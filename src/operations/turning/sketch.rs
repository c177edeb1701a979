//! What every sketch of a part in the lathe has: halves of rings about the axis, and the jaws on the real grip.

use crate::drawing::{Balloon, Point, Side, Sketch, rectangle};
use crate::operations::{HeldIn, Hold};
use crate::quantity::Quantity;

/// What is drawn of a jaw, in parts of the radius that it grips.
const SHOWN: f64 = 0.25;

/// Both cut halves of a ring about the axis, by radii and from one end to the other along the axis; a solid is one.
pub(in crate::operations) fn halves(inner: f64, outer: f64, from: f64, to: f64) -> Vec<Vec<Point>> {
    if inner <= 0.0 {
        return vec![rectangle(from, -outer, to, outer)];
    }
    vec![rectangle(from, -outer, to, -inner), rectangle(from, inner, to, outer)]
}

/// The cut faces of one body that is stepped along the axis: its pieces from left to right, each by its ends and its radii, the
/// solid ones first. No edge runs through metal that goes on.
pub(in crate::operations) fn stepped(pieces: &[([f64; 2], [f64; 2])]) -> Vec<Vec<Point>> {
    let p = Point::new;
    let along = |way: f64, of: fn(&[f64; 2]) -> f64| {
        pieces.iter().flat_map(move |(ends, radii)| ends.map(|x| p(x, way * of(radii)))).collect::<Vec<_>>()
    };
    let inner = |way: f64| {
        let open = pieces.iter().filter(|(_, [inner, _])| *inner > 0.0);
        open.flat_map(move |(ends, [inner, _])| ends.map(|x| p(x, way * inner))).rev().collect::<Vec<_>>()
    };
    let outer = |way: f64| along(way, |[_, outer]| *outer);
    let back = |mut points: Vec<Point>| {
        points.reverse();
        points
    };
    let closed = |parts: Vec<Vec<Point>>| {
        let mut outline = parts.concat();
        outline.dedup_by(|a, b| (*a - *b).norm() < 1e-9);
        outline
    };
    if pieces.iter().any(|(_, [inner, _])| *inner <= 0.0) {
        return vec![closed(vec![outer(-1.0), inner(-1.0), back(inner(1.0)), back(outer(1.0))])];
    }
    vec![closed(vec![outer(-1.0), inner(-1.0)]), closed(vec![outer(1.0), inner(1.0)])]
}

/// The jaws on their grip, behind what stands out of them: the free end at `x` = 0. Nothing where nobody says how it is gripped.
pub(in crate::operations) fn jaws(sketch: &mut Sketch, hold: Option<&Hold>, out: f64) {
    let Some(hold) = hold else { return };
    let (Some(diameter), Some(grip)) = (&hold.diameter, &hold.grip) else { return };
    let chuck = matches!(hold.held_in.value, HeldIn::Jaws | HeldIn::SoftJaws | HeldIn::FourJaw | HeldIn::Collet);
    if !chuck {
        return;
    }
    let (gripped, grip) = (diameter.value.number() / 2.0, grip.value.number());
    let (back, front, thick) = (-out - grip, -out, SHOWN * gripped);
    let (near, far) = if hold.grips_inside() { (gripped - thick, gripped) } else { (gripped, gripped + thick) };
    for side in [-1.0, 1.0] {
        let (a, b) = ((side * near).min(side * far), (side * near).max(side * far));
        sketch.jaw(rectangle(back, a, front, b));
        // The jaw goes on from the grip outward, or inward in a bore.
        let on = side * if hold.grips_inside() { near } else { far };
        sketch.breaks(Point::new(back, on), Point::new(front, on));
    }
    sketch.balloon(Balloon::Grip, Point::new(f64::midpoint(back, front), -gripped), Side::Above);
}
