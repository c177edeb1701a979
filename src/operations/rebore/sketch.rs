//! The cylinder cut through, true to scale, its axis upright as it stands on the machine and on the bench: its wall at the thinnest,
//! what is bored out, and how far.

use super::keys::Bore;
use super::names::{BORED, FINISH, WALL, WORST};
use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke, rectangle, ring_section};
use crate::operations::Answer;
use crate::quantity::Quantity;

/// What is drawn of the bar above the cylinder, and how far off its mouth it waits, in parts of the bore.
const SHOWN: f64 = 0.16;
const CLEAR: f64 = 0.06;

/// Draws it, as it is bored or as it is `finished`: the thinnest wall at the right, what the outside has more at the left. No sheet
/// shows another size than its own; the bar stands above where it is `cut` here.
pub(super) fn draw(asked: &Bore, answer: &Answer, (finished, cut): (bool, bool)) -> Sketch {
    let number = |key: &str| answer.value(key).map(|value| value.number);
    let mut sketch = Sketch::default();
    let made = if finished { FINISH.key } else { BORED.key };
    let (Some(bored), Some(found), Some(wall)) = (number(made), number(WORST.key), number(WALL.key)) else {
        return sketch;
    };
    let outside = asked.outside.as_ref().and_then(|about| about.size.value.typed());
    let Some(outside) = outside.filter(|outside| wall > 0.0 && found < bored && bored + 2.0 * wall <= *outside) else {
        return sketch;
    };
    let (inner, old, long) = (bored / 2.0, found / 2.0, asked.length.value.number());
    let p = Point::new;
    let (right, left) = (inner + wall, -(outside - inner - wall));
    sketch.section(rectangle(inner, 0.0, right, long), 0);
    sketch.section(rectangle(left, 0.0, -inner, long), 0);
    for half in ring_section(0.0, bored, found, 0.0, long) {
        sketch.cut_away(half);
    }
    sketch.line(Stroke::Visible, vec![p(-inner, 0.0), p(inner, 0.0)]);
    sketch.line(Stroke::Visible, vec![p(-inner, long), p(inner, long)]);
    sketch
        .face("bored left", p(-inner, 0.0), p(-inner, long))
        .face("bored right", p(inner, 0.0), p(inner, long))
        .face("outside right", p(right, 0.0), p(right, long))
        .between("bored left", "bored right", Side::Below, Shows::diameter(made))
        .detail(p(f64::midpoint(old, inner), 0.2 * long), inner - old);
    if finished {
        sketch.between("bored right", "outside right", Side::Above, Shows::value(WALL.key));
        sketch.axis(0.0, 0.0, long);
        return sketch;
    }
    // Where no ring runs: at the face that the bar enters.
    sketch.balloon(Balloon::Indicator, p(-old, 0.03 * long), Side::Left);
    if !cut {
        sketch.axis(0.0, 0.0, long);
        return sketch;
    }
    let (low, top) = (-CLEAR * bored, -(CLEAR + SHOWN) * bored);
    let bar = 0.6 * old;
    sketch.tooling(vec![
        p(-bar, top),
        p(bar, top),
        p(bar, f64::midpoint(low, top)),
        p(inner, f64::midpoint(low, top)),
        p(inner, low),
        p(-bar, low),
    ]);
    sketch.breaks(p(-bar, top), p(bar, top)).axis(0.0, top, long);
    sketch.balloon(Balloon::Tool, p(bar, f64::midpoint(top, f64::midpoint(low, top))), Side::Right);
    sketch.push(Item::Feed { from: p(left.min(-1.2 * old), top), to: p(left.min(-1.2 * old), low) });
    sketch
}
