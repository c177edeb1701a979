//! The part on the shelf of the oven, to scale, cut through its bore.

use super::{BORE, Warm};
use crate::drawing::{Item, Point, Shows, Side, Sketch, Stroke, rectangle, ring_section};
use crate::operations::Answer;
use crate::operations::press_joint::names::oven_set::{HOUSING_HOTTEST, OVEN_SETTING};
use crate::quantity::Quantity;

/// The boss with its axis upright, standing on the shelf.
pub(super) fn in_the_oven(asked: &Warm, answer: &Answer) -> Sketch {
    let mut sketch = Sketch::default();
    let (bore, outside, length) =
        (asked.bore.value.number(), asked.outside.value.number(), asked.length.value.number());
    for half in ring_section(0.0, outside, bore, 0.0, length) {
        sketch.section(half, 0);
    }
    let (r, half) = (bore / 2.0, outside / 2.0);
    for y in [0.0, length] {
        sketch.line(Stroke::Visible, vec![Point::new(-r, y), Point::new(r, y)]);
    }
    let thick = 0.06 * outside;
    sketch.jaw(rectangle(-0.7 * outside, length, 0.7 * outside, length + thick));
    sketch.breaks(Point::new(-0.7 * outside, length), Point::new(-0.7 * outside, length + thick));
    sketch.breaks(Point::new(0.7 * outside, length), Point::new(0.7 * outside, length + thick));
    sketch.axis(0.0, 0.0, length);
    sketch.faces_about(["bore left", "bore right"], (0.0, bore), (0.0, length));
    sketch.between("bore left", "bore right", Side::Above, Shows::diameter(BORE.key));
    if answer.value(OVEN_SETTING.key).is_some() {
        let at = Point::new(-f64::midpoint(r, half), 0.4 * length);
        sketch.push(Item::Reads { at, towards: Side::Left, shows: Shows::named(OVEN_SETTING.means, OVEN_SETTING.key) });
    }
    // How hot it may become, and what it must stay under.
    if answer.value(HOUSING_HOTTEST.key).is_some() {
        let at = Point::new(-f64::midpoint(r, half), 0.8 * length);
        sketch.push(Item::Reads {
            at,
            towards: Side::Left,
            shows: Shows::named(HOUSING_HOTTEST.means, HOUSING_HOTTEST.key),
        });
    }
    sketch
}
