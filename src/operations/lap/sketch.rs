//! The face from above, true to scale: where it was read, and which readings touch the two planes.

use super::flat::Flat;
use super::places::Read;
use crate::drawing::{Item, Point, Side, Sketch, Stroke, rectangle};

/// A place as it is drawn, in parts of the face.
const DOT: f64 = 0.012;
/// What is drawn round the places, in parts of the face.
const ROUND: f64 = 0.06;

/// Draws it.
pub(super) fn draw(reads: &[Read], flat: &Flat) -> Sketch {
    let mut sketch = Sketch::default();
    let least = |of: &dyn Fn(&Read) -> f64| reads.iter().map(of).fold(f64::INFINITY, f64::min);
    let most = |of: &dyn Fn(&Read) -> f64| reads.iter().map(of).fold(f64::NEG_INFINITY, f64::max);
    let (left, right) = (least(&|read| read.x), most(&|read| read.x));
    let (near, far) = (least(&|read| read.y), most(&|read| read.y));
    let size = (right - left).max(far - near);
    if !size.is_finite() || size <= 0.0 {
        return sketch;
    }
    // Across the face is up, as it is read.
    let round = ROUND * size;
    let mut edge = rectangle(left - round, -far - round, right + round, -near + round);
    edge.extend(edge.first().copied());
    sketch.line(Stroke::Thin, edge);
    for read in reads {
        sketch.push(Item::Circle { stroke: Stroke::Visible, centre: Point::new(read.x, -read.y), radius: DOT * size });
    }
    let middle = f64::midpoint(left, right);
    for (x, y, upper) in &flat.contacts {
        let side = if *x < middle { Side::Left } else { Side::Right };
        sketch.label(Point::new(*x, -*y), side, if *upper { "▲" } else { "▼" });
    }
    sketch
}
