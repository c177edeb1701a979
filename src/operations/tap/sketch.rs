//! The section through the tapped hole, in millimetres of the part: its axis upright, the face at `y` = 0.

use super::keys::Tap;
use super::names::{BOTTOM_LEFT, FULL_THREAD, HOLE, HOLE_DEPTH, TAP_END};
use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke};
use crate::operations::Answer;
use crate::operations::hole_making::ViceJaws;

/// What is drawn of the metal on each side of the axis, in thread diameters.
const SHOWN: f64 = 1.6;
/// The same where the jaws that grip it stand beside that.
const BESIDE_JAWS: f64 = 1.1;

/// What is drawn of the metal under the hole, in thread diameters.
const UNDER: f64 = 0.4;

/// The hole with its thread; where the end of the tap comes, a thin line.
pub(super) fn hole(asked: &Tap, answer: &Answer) -> Sketch {
    let value = |key: &str| answer.value(key).map(|value| value.number);
    let major = asked.thread.value.major().number();
    let (r, thread) = (value(HOLE.key).unwrap_or(major) / 2.0, value(FULL_THREAD.key).unwrap_or(major));
    let end = value(TAP_END.key).unwrap_or(thread);
    let floor = value(HOLE_DEPTH.key).unwrap_or(end + 0.5 * major);
    let bottom = floor.max(end) + UNDER * major;
    let jaws = ViceJaws::of(asked.hold.as_ref(), bottom);
    let side = if jaws.is_some() { BESIDE_JAWS } else { SHOWN } * major;
    let p = Point::new;
    let mut sketch = Sketch::default();
    sketch.section(vec![p(-side, 0.0), p(side, 0.0), p(side, bottom), p(-side, bottom)], 0);
    let open = if asked.goes_through() { bottom } else { floor };
    sketch.void(vec![p(-r, 0.0), p(r, 0.0), p(r, open), p(-r, open)]);
    sketch.breaks(p(-side, 0.0), p(-side, bottom)).breaks(p(side, 0.0), p(side, bottom));
    if let Some(jaws) = jaws {
        jaws.draw(&mut sketch, (side, bottom), major);
    }
    // How thick the metal is under the hole, or how far a hole goes through, nobody said.
    sketch.breaks(p(-side, bottom), p(side, bottom));
    sketch.thread(0.0, major, thread).axis(0.0, -0.3 * major, bottom);
    sketch
        .face("face", p(-side, 0.0), p(side, 0.0))
        .face("end of the thread", p(-r, thread), p(r, thread))
        .face("end of the tap", p(-r, end), p(r, end))
        .face("floor", p(-r, floor), p(r, floor))
        .faces_about(["hole left", "hole right"], (0.0, 2.0 * r), (0.0, open));
    sketch.between("hole left", "hole right", Side::Below, Shows::diameter(HOLE.key));
    sketch.between("face", "end of the thread", Side::Right, Shows::value(FULL_THREAD.key));
    sketch.line(Stroke::Phantom, vec![p(-r, end), p(r, end)]);
    sketch.between("face", "end of the tap", Side::Left, Shows::value(TAP_END.key));
    // Also where the tap would have to go through the floor: that is what fails.
    if value(BOTTOM_LEFT.key).is_some() {
        sketch.between("end of the tap", "floor", Side::Right, Shows::value(BOTTOM_LEFT.key));
    }
    tap(&mut sketch, major, r);
    sketch
}

/// The tap above the hole, its lead entering, turned by hand with a wrench of two arms; how long it is nobody said.
fn tap(sketch: &mut Sketch, major: f64, hole: f64) {
    let p = Point::new;
    let (body, small) = (major / 2.0, 0.92 * hole);
    let (enters, lead, above) = (0.15 * major, -0.4 * major, -major);
    sketch.tooling(vec![
        p(-body, above),
        p(body, above),
        p(body, lead),
        p(small, enters),
        p(-small, enters),
        p(-body, lead),
    ]);
    sketch.breaks(p(-body, above), p(body, above)).breaks(p(-small, enters), p(small, enters));
    sketch.axis(0.0, above, enters);
    sketch.push(Item::Turning { at: p(0.0, above), wrench: true });
    sketch.balloon(Balloon::Tool, p(-body, f64::midpoint(above, lead)), Side::Left);
}
