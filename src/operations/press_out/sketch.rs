//! The part on the press, to scale, as it stands before the first push: ram side up, the bush in its place.

use super::keys::{HeldBy, PressOut, PushFrom};
use super::{BORE, FORCE_STUCK, JOINT, MANDREL, TRAVEL};
use crate::drawing::{Item, Point, Shows, Side, Sketch, Stroke, rectangle, ring_section};
use crate::operations::Answer;
use crate::operations::press_joint::names::support::SUPPORT;
use crate::quantity::Quantity;

/// What is drawn of a mandrel or a support whose length is not known, in parts of the bush's length.
const SHOWN: f64 = 0.3;

pub(super) fn at_the_press(asked: &PressOut, answer: &Answer) -> Sketch {
    let mut sketch = Sketch::default();
    let value = |key: &str| answer.value(key).map(|value| value.number);
    let (Some(joint), Some(bore), Some(travel)) = (value(JOINT.key), value(BORE.key), value(TRAVEL.key)) else {
        return sketch;
    };
    let p = Point::new;
    let (housing, bush) = (asked.housing.outside.value.number(), asked.bush.length.value.number());
    let length = asked.housing.length.as_ref().map_or(travel, |at| at.value.number());
    let flange = asked.flange.as_ref().map(|f| (f.diameter.value.number(), f.thickness.value.number()));
    let from_outer = asked.push_from.as_ref().is_some_and(|at| at.value == PushFrom::Outer);
    // From the outer end the flange stands on top, from the inner one the part lies turned over.
    let (top, bottom) = match flange {
        Some((_, thick)) if from_outer => (-thick, bush - thick),
        Some((_, thick)) => (length - (bush - thick), length + thick),
        None if from_outer => (0.0, bush),
        None => (length - bush, length),
    };
    for half in ring_section(0.0, housing, joint, 0.0, length) {
        sketch.section(half, 0);
    }
    shoulder(asked, (joint, length, bush, from_outer), &mut sketch);
    let r = joint / 2.0;
    for y in [0.0, length] {
        sketch.line(Stroke::Visible, vec![p(-r, y), p(r, y)]);
    }
    for half in ring_section(0.0, joint, bore, top, bottom) {
        sketch.section(half, 1);
    }
    if let Some((diameter, thick)) = flange {
        let (from, to) = if from_outer { (top, top + thick) } else { (bottom - thick, bottom) };
        for half in ring_section(0.0, diameter, joint, from, to) {
            sketch.section(half, 1);
        }
    }
    sketch.void(rectangle(-bore / 2.0, top, bore / 2.0, bottom));
    let above = mandrel(asked, answer, (top, bush), &mut sketch);
    support(asked, (housing, joint, length, bush), &mut sketch);
    sketch.axis(0.0, above, bottom.max(length));
    sketch.faces_about(["joint left", "joint right"], (0.0, joint), (0.0, length));
    let beside = housing / 2.0 + 0.1 * housing;
    sketch.push(Item::Feed { from: p(beside, above), to: p(beside, -0.1 * bush) });
    // The force at which the hand stops stands at the arrow.
    if value(FORCE_STUCK.key).is_some() {
        let at = p(beside, f64::midpoint(above, -0.1 * bush));
        sketch.push(Item::Reads { at, towards: Side::Right, shows: Shows::named(FORCE_STUCK.means, FORCE_STUCK.key) });
    }
    sketch
}

/// The shoulder at the inner end, where it is known how thick it is.
fn shoulder(asked: &PressOut, (joint, length, bush, from_outer): (f64, f64, f64, bool), sketch: &mut Sketch) {
    let held = asked.held_by.as_ref().is_some_and(|at| matches!(at.value, HeldBy::Shoulder | HeldBy::Both));
    let Some(bore) = asked.housing.shoulder_bore.as_ref().map(|at| at.value.number()).filter(|_| held) else { return };
    let thick = length - bush;
    if thick > 0.0 && bore < joint {
        let (from, to) = if from_outer { (length - thick, length) } else { (0.0, thick) };
        for half in ring_section(0.0, joint, bore, from, to) {
            sketch.section(half, 0);
        }
    }
}

/// The mandrel on the end of the bush; gives how high it stands.
fn mandrel(asked: &PressOut, answer: &Answer, (top, bush): (f64, f64), sketch: &mut Sketch) -> f64 {
    let p = Point::new;
    let above = top - SHOWN * bush;
    let Some(mandrel) = &asked.mandrel else { return above };
    let m = mandrel.diameter.value.number() / 2.0;
    sketch.tooling(rectangle(-m, above, m, top));
    // It goes on up to the ram.
    sketch.breaks(p(-m, above), p(m, above));
    if answer.value(MANDREL.key).is_some() {
        sketch.faces_about(["mandrel left", "mandrel right"], (0.0, 2.0 * m), (above, top)).between(
            "mandrel left",
            "mandrel right",
            Side::Above,
            Shows::diameter(MANDREL.key),
        );
    }
    above
}

/// Two blocks, or the wall of a ring, beneath the part.
fn support(asked: &PressOut, (housing, joint, length, bush): (f64, f64, f64, f64), sketch: &mut Sketch) {
    let p = Point::new;
    let inside = asked.support.as_ref().map(|support| support.inside.value.number());
    let near = inside.unwrap_or(f64::midpoint(joint, housing)) / 2.0;
    let far = (housing / 2.0).max(near + 0.15 * housing);
    let end = length + SHOWN * bush;
    for side in [-1.0, 1.0] {
        let (a, b) = (side * near, side * far);
        sketch.jaw(vec![p(a, length), p(b, length), p(b, end), p(a, end)]).breaks(p(a, end), p(b, end));
    }
    if inside.is_some() {
        sketch.faces_about(["support left", "support right"], (0.0, 2.0 * near), (length, end)).between(
            "support left",
            "support right",
            Side::Below,
            Shows::diameter(SUPPORT.key),
        );
    }
}
