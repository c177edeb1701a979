//! The work from the side, in millimetres of the part: the feed from left to right, the highest place of the raw face at `y` = 0.

use super::keys::MillFace;
use super::names::{CUTTER, LEFT, REMOVED, THICKNESS};
use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke, rectangle};
use crate::operations::{Answer, HeldIn};
use crate::quantity::Quantity;

/// What is seen of the jaw of a vice beyond each end of the work, in lengths of that.
const BEYOND: f64 = 0.1;

/// The metal with what comes off, its supports, and the cutter before it at its last depth.
pub(super) fn face(asked: &MillFace, answer: &Answer) -> Sketch {
    let value = |key: &str| answer.value(key).map(|value| value.number);
    let (length, across) = (asked.length.value.number(), asked.cutter.value.number());
    let thick = value(THICKNESS.key).unwrap_or(10.0);
    let removed = value(REMOVED.key).unwrap_or(0.0);
    let p = Point::new;
    let mut sketch = Sketch::default();
    vice(asked, &mut sketch, length);
    sketch.section(rectangle(0.0, removed, length, thick), 0).cut_away(rectangle(0.0, 0.0, length, removed));
    let foot = 0.12 * length;
    let high = 0.06 * length;
    for x in [0.04 * length, 0.96 * length - foot] {
        sketch.jaw(rectangle(x, thick, x + foot, thick + high));
    }
    sketch.face("raw face", p(0.0, 0.0), p(length, 0.0)).face("new face", p(0.0, removed), p(length, removed)).face(
        "seat",
        p(0.0, thick),
        p(length, thick),
    );
    sketch.line(Stroke::Visible, vec![p(0.0, removed), p(length, removed)]);
    sketch.detail(p(0.4 * length, removed / 2.0), removed);
    cutter(&mut sketch, across, removed);
    sketch.between("raw face", "seat", Side::Right, Shows::value(THICKNESS.key));
    sketch.between("new face", "seat", Side::Right, Shows::value(LEFT.key));
    sketch.between("raw face", "new face", Side::Left, Shows::value(REMOVED.key));
    sketch.balloon(Balloon::Zero, p(0.7 * length, 0.0), Side::Above);
    sketch
}

/// The jaw behind the work, which hides it: how long it is nobody said.
fn vice(asked: &MillFace, sketch: &mut Sketch, length: f64) {
    let Some(hold) = asked.hold.as_ref().filter(|hold| hold.held_in.value == HeldIn::Vice) else { return };
    let (Some(out), Some(grip)) = (&hold.overhang, &hold.grip) else { return };
    let (top, bottom) = (out.value.number(), out.value.number() + grip.value.number());
    let (left, right) = (-BEYOND * length, (1.0 + BEYOND) * length);
    let p = Point::new;
    sketch.jaw(rectangle(left, top, right, bottom));
    sketch.breaks(p(left, top), p(left, bottom)).breaks(p(right, top), p(right, bottom));
    sketch.balloon(Balloon::Grip, p(right - 0.5 * BEYOND * length, bottom), Side::Below);
}

/// The cutter to the left of the work, its arbor broken off, and the way that it goes through the metal.
fn cutter(sketch: &mut Sketch, across: f64, edge: f64) {
    let p = Point::new;
    let (middle, r, neck) = (-0.65 * across, across / 2.0, 0.4 * across);
    let (shoulder, top) = (edge - 0.45 * across, edge - 0.8 * across);
    sketch.tooling(vec![
        p(middle - neck, top),
        p(middle + neck, top),
        p(middle + neck, shoulder),
        p(middle + r, shoulder),
        p(middle + r, edge),
        p(middle - r, edge),
        p(middle - r, shoulder),
        p(middle - neck, shoulder),
    ]);
    sketch.breaks(p(middle - neck, top), p(middle + neck, top)).axis(middle, top, edge);
    sketch
        .faces_about(["cutter left", "cutter right"], (middle, across), (shoulder, edge))
        .between("cutter left", "cutter right", Side::Above, Shows::diameter(CUTTER.key))
        .balloon(Balloon::Tool, p(middle - r, f64::midpoint(shoulder, edge)), Side::Left)
        .push(Item::Feed { from: p(0.05 * across, shoulder), to: p(0.75 * across, shoulder) });
}
