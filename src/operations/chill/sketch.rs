//! The part as it lies in the cold, to scale.

use super::{Chill, OUTSIDE, PART};
use crate::drawing::{Item, Point, Shows, Side, Sketch, Stroke, rectangle, ring_section};
use crate::operations::Answer;
use crate::quantity::Quantity;

/// The bush, or the pin, cut along its axis, in its bag.
pub(super) fn in_the_cold(asked: &Chill, answer: &Answer) -> Sketch {
    let mut sketch = Sketch::default();
    let (outside, length) = (asked.outside.value.number(), asked.length.value.number());
    let bore = asked.bore.as_ref().map_or(0.0, |at| at.value.number());
    let (r, b) = (outside / 2.0, bore / 2.0);
    if bore > 0.0 {
        for half in ring_section(0.0, outside, bore, 0.0, length) {
            sketch.section(half, 1);
        }
        for y in [0.0, length] {
            sketch.line(Stroke::Visible, vec![Point::new(-b, y), Point::new(b, y)]);
        }
    } else {
        sketch.section(rectangle(-r, 0.0, r, length), 1);
    }
    sketch.axis(0.0, 0.0, length);
    sketch.faces_about(["left", "right"], (0.0, outside), (0.0, length));
    sketch.between("left", "right", Side::Above, Shows::diameter(OUTSIDE.key));
    if answer.value(PART.key).is_some() {
        let at = Point::new(f64::midpoint(b, r), 0.5 * length);
        sketch.push(Item::Reads { at, towards: Side::Right, shows: Shows::value(PART.key) });
    }
    sketch
}
