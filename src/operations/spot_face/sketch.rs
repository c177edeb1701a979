//! The section through the seat and its hole, in millimetres of the part: the spindle's axis upright, the highest place of the raw
//! face at `y` = 0.

use super::keys::SpotFace;
use super::names::{DEPTH, HOLE, METAL_LEFT, PILOT, SEAT, UNEVEN, WALL};
use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke, rectangle};
use crate::operations::Answer;
use crate::operations::hole_making::ViceJaws;
use crate::quantity::Quantity;

/// What is drawn of the part on each side of the axis, in seats.
const SHOWN: f64 = 0.95;

/// The wall with its raw face as uneven as it was read, the seat cut away, the cutter with its pilot in the hole.
pub(super) fn seat(asked: &SpotFace, answer: &Answer) -> Sketch {
    let value = |key: &str| answer.value(key).map(|value| value.number);
    let across = asked.diameter.value.number();
    let depth = asked.depth.value.number();
    let hole = value(HOLE.key).unwrap_or(across / 2.0);
    let wall = value(WALL.key).unwrap_or(depth + across / 2.0);
    let uneven = value(UNEVEN.key).unwrap_or(0.0).max(0.0);
    let (side, r, b) = (SHOWN * across, across / 2.0, hole / 2.0);
    let p = Point::new;
    let mut sketch = Sketch::default();
    // Its raw face falls by what was read across the seat: high on the left.
    let raw = |x: f64| uneven * ((x + r) / across).clamp(0.0, 1.0);
    sketch.section(vec![p(-side, 0.0), p(-r, 0.0), p(r, raw(r)), p(side, raw(r)), p(side, wall), p(-side, wall)], 0);
    let floor = depth.max(uneven);
    sketch.cut_away(vec![p(-r, 0.0), p(r, raw(r)), p(r, floor), p(-r, floor)]);
    sketch.void(rectangle(-b, raw(0.0).min(floor), b, wall));
    sketch.breaks(p(-side, 0.0), p(-side, wall)).breaks(p(side, raw(r)), p(side, wall));
    if let Some(jaws) = ViceJaws::of(asked.hold.as_ref(), wall) {
        jaws.draw(&mut sketch, (side, wall), 0.5 * across);
    }
    sketch
        .line(Stroke::Visible, vec![p(-r, floor), p(-b, floor)])
        .line(Stroke::Visible, vec![p(b, floor), p(r, floor)]);
    sketch
        .face("raw face", p(-side, 0.0), p(-r, 0.0))
        .face("far side", p(-side, wall), p(side, wall))
        .face("seat", p(-r, floor), p(r, floor))
        .faces_about(["hole left", "hole right"], (0.0, hole), (floor, wall));
    cutter(&mut sketch, (across, value(PILOT.key)), hole, wall);
    sketch.between("hole left", "hole right", Side::Below, Shows::diameter(HOLE.key));
    sketch.between("raw face", "seat", Side::Left, Shows::value(DEPTH.key));
    if value(WALL.key).is_some() {
        sketch.between("raw face", "far side", Side::Left, Shows::value(WALL.key));
        if value(METAL_LEFT.key).is_some_and(|left| left > 0.0) {
            sketch.between("seat", "far side", Side::Right, Shows::value(METAL_LEFT.key));
        }
    }
    sketch
}

/// The cutter above the seat, broken off, its pilot reaching into the hole, and which way it goes.
fn cutter(sketch: &mut Sketch, (across, pilot): (f64, Option<f64>), hole: f64, wall: f64) {
    let p = Point::new;
    let (r, edge) = (across / 2.0, -0.12 * across);
    let (top, neck) = (edge - 0.55 * across, 0.3 * across);
    let shoulder = edge - 0.25 * across;
    let mut outline =
        vec![p(-neck, top), p(neck, top), p(neck, shoulder), p(r, shoulder), p(r, edge), p(-r, edge), p(-r, shoulder)];
    outline.push(p(-neck, shoulder));
    sketch.tooling(outline);
    if let Some(pilot) = pilot.map(|pilot| pilot.min(hole) / 2.0) {
        sketch.tooling(rectangle(-pilot, edge, pilot, 0.45 * wall));
    }
    sketch.breaks(p(-neck, top), p(neck, top)).axis(0.0, top, wall);
    sketch
        .faces_about(["cutter left", "cutter right"], (0.0, across), (shoulder, edge))
        .between("cutter left", "cutter right", Side::Above, Shows::diameter(SEAT.key))
        .balloon(Balloon::Tool, p(-r, f64::midpoint(shoulder, edge)), Side::Left)
        .balloon(Balloon::Zero, p(-0.8 * across, 0.0), Side::Above)
        .push(Item::Feed { from: p(0.75 * across, shoulder), to: p(0.75 * across, edge) });
}
