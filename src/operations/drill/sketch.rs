//! The section through the hole, in millimetres of the part: the spindle's axis upright, the face at `y` = 0.

use super::keys::Drill;
use super::names::{DEPTH, METAL_LEFT};
use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke};
use crate::operations::Answer;
use crate::operations::hole_making::ViceJaws;
use crate::operations::hole_making::drilled::Case;
use crate::operations::hole_making::drilled::names::{DEPTH_TO_POINT, DIAMETER, TIP_BEHIND, WALL};

/// What is drawn of the wall on each side of the axis, in drills.
const SHOWN: f64 = 1.6;
/// The same where the jaws that grip it stand beside that.
const BESIDE_JAWS: f64 = 1.1;

/// The hole in its wall, and the drill above it.
pub(super) fn hole(asked: &Drill, case: &Case, answer: &Answer) -> Sketch {
    let (r, wall, point) = (case.diameter.number() / 2.0, case.wall.number(), case.point.number());
    let jaws = ViceJaws::of(asked.hold.as_ref(), wall);
    let side = if jaws.is_some() { BESIDE_JAWS } else { SHOWN } * 2.0 * r;
    let value = |key: &str| answer.value(key).map(|value| value.number);
    let tip = value(DEPTH_TO_POINT.key).unwrap_or(wall);
    let p = Point::new;
    let mut sketch = Sketch::default();
    sketch.section(vec![p(-side, 0.0), p(side, 0.0), p(side, wall), p(-side, wall)], 0);
    let depth = if asked.goes_through() { wall } else { tip - point };
    let mut outline = vec![p(-r, 0.0), p(r, 0.0), p(r, depth)];
    if !asked.goes_through() {
        outline.push(p(0.0, tip));
    }
    outline.push(p(-r, depth));
    sketch.cut_away(outline);
    sketch.breaks(p(-side, 0.0), p(-side, wall)).breaks(p(side, 0.0), p(side, wall));
    if let Some(jaws) = jaws {
        jaws.draw(&mut sketch, (side, wall), 2.0 * r);
    }
    sketch
        .face("face", p(-side, 0.0), p(side, 0.0))
        .face("far side", p(-side, wall), p(side, wall))
        .face("floor", p(-r, depth), p(r, depth))
        .face("tip", p(0.0, tip), p(0.0, tip));
    if !asked.goes_through() {
        sketch.line(Stroke::Visible, vec![p(-r, depth), p(r, depth)]);
    }
    drill(&mut sketch, (r, point), tip.max(wall), -0.8 * side);
    sketch.between("face", "far side", Side::Left, Shows::value(WALL.key));
    if asked.goes_through() {
        if value(TIP_BEHIND.key).is_some_and(|out| out > 0.0) {
            sketch.line(Stroke::Phantom, vec![p(-r, tip - point), p(0.0, tip), p(r, tip - point)]);
            sketch.between("far side", "tip", Side::Right, Shows::value(TIP_BEHIND.key));
        }
        return sketch;
    }
    sketch.between("face", "floor", Side::Right, Shows::value(DEPTH.key));
    // Also where the tip stands out behind: that is what fails.
    if value(METAL_LEFT.key).is_some() {
        sketch.between("tip", "far side", Side::Right, Shows::value(METAL_LEFT.key));
    }
    sketch
}

/// The drill above the hole, broken off, and which way it goes; at `zero` it is touched off.
fn drill(sketch: &mut Sketch, (r, point): (f64, f64), deepest: f64, zero: f64) {
    let p = Point::new;
    let tip = -0.6 * r;
    let (shoulder, top) = (tip - point, tip - point - 2.0 * r);
    sketch.tooling(vec![p(-r, top), p(r, top), p(r, shoulder), p(0.0, tip), p(-r, shoulder)]);
    sketch.breaks(p(-r, top), p(r, top)).axis(0.0, top, deepest);
    sketch
        .faces_about(["drill left", "drill right"], (0.0, 2.0 * r), (top, shoulder))
        .between("drill left", "drill right", Side::Above, Shows::diameter(DIAMETER.key))
        .balloon(Balloon::Tool, p(-r, f64::midpoint(top, shoulder)), Side::Left)
        .balloon(Balloon::Zero, p(zero, 0.0), Side::Above)
        .push(Item::Feed { from: p(1.6 * r, top), to: p(1.6 * r, tip) });
}
