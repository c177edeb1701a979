//! The section along the bush through the hole, in millimetres of the part: the outer end at the left, the outside of the bush at
//! `y` = 0, its bore below, the housing with the oilway above.

use super::keys::DrillOilHole;
use super::names::{AT, LENGTH, MOUTH};
use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke, rectangle};
use crate::operations::Answer;
use crate::operations::hole_making::drilled::Case;
use crate::operations::hole_making::drilled::names::{DIAMETER, WALL};
use crate::operations::hole_making::{OILWAY, OILWAY_AT};
use crate::quantity::Quantity;

/// Cosine of the angle of a hole that goes straight in.
const SQUARE: f64 = 1e-9;

/// The wall with the hole through it, the oilway over it, the drill in its way in.
pub(super) fn hole(asked: &DrillOilHole, case: &Case, answer: &Answer) -> Sketch {
    let value = |key: &str| answer.value(key).map(|value| value.number);
    let d = case.diameter.number();
    let at = asked.at.value.number();
    let wall = value(WALL.key).unwrap_or(d);
    let length = value(LENGTH.key).unwrap_or(at + 4.0 * d);
    let (sin, cos) = asked.angle.value.number().to_radians().sin_cos();
    let lean = |y: f64| y * cos / sin;
    let half = d / sin / 2.0;
    let above = 1.6 * d + wall;
    let p = Point::new;
    let mut sketch = Sketch::default();
    sketch.section(rectangle(0.0, -above, length, 0.0), 0).section(rectangle(0.0, 0.0, length, wall), 1);
    sketch.breaks(p(0.0, -above), p(length, -above));
    if value(LENGTH.key).is_none() {
        sketch.breaks(p(length, -above), p(length, wall));
    }
    if let (Some(across), Some(middle)) = (value(OILWAY.key), value(OILWAY_AT.key)) {
        // It comes in along the hole: the drill goes down it.
        let (wide, up) = (across / sin / 2.0, middle + lean(-above));
        sketch.void(vec![p(up - wide, -above), p(up + wide, -above), p(middle + wide, 0.0), p(middle - wide, 0.0)]);
        sketch.line(Stroke::Centre, vec![p(up, -above), p(middle, 0.0)]);
    }
    // Through the wall, the way that the drill goes; its mouth in the bore lies so much further along.
    let exit = at + lean(wall);
    sketch.cut_away(vec![p(at - half, 0.0), p(at + half, 0.0), p(exit + half, wall), p(exit - half, wall)]);
    let top = -above - 1.2 * d;
    sketch.line(Stroke::Centre, vec![p(at + lean(top), top), p(at + lean(wall + d), wall + d)]);
    sketch
        .face("outer end", p(0.0, -above), p(0.0, wall))
        .face("inner end", p(length, -above), p(length, wall))
        .face("middle of the hole", p(at, 0.0), p(at, 0.0))
        .face("outside of the bush", p(0.0, 0.0), p(length, 0.0))
        .face("bore", p(0.0, wall), p(length, wall))
        .face("mouth left", p(exit - half, wall), p(exit - half, wall))
        .face("mouth right", p(exit + half, wall), p(exit + half, wall));
    sketch.balloon(Balloon::Zero, p(at + half, 0.0), Side::Right);
    drill(&mut sketch, case, at, (sin, cos), -0.25 * above);
    sketch.between("outside of the bush", "bore", Side::Right, Shows::value(WALL.key));
    // Straight in, the mouth is as wide as the drill, which has its own figure.
    if cos.abs() > SQUARE {
        sketch.between("mouth left", "mouth right", Side::Below, Shows::value(MOUTH.key));
    }
    if value(LENGTH.key).is_some() {
        sketch.between("outer end", "inner end", Side::Below, Shows::value(LENGTH.key));
    }
    sketch.between("outer end", "middle of the hole", Side::Above, Shows::value(AT.key));
    sketch
}

/// The drill on the axis of the hole, its tip at a height above the bush, broken off.
fn drill(sketch: &mut Sketch, case: &Case, at: f64, (sin, cos): (f64, f64), tip: f64) {
    let (r, point) = (case.diameter.number() / 2.0, case.point.number());
    // Along the axis upwards, and across it, from where the axis goes in.
    let from = tip / sin;
    let place = |along: f64, across: f64| {
        let s = from - along;
        Point::new(at + s * cos + across * sin, s * sin - across * cos)
    };
    let long = point + 4.0 * r;
    let outline = vec![place(0.0, 0.0), place(point, r), place(long, r), place(long, -r), place(point, -r)];
    sketch.tooling(outline).breaks(place(long, -r), place(long, r));
    sketch
        .face("drill left", place(long, -r), place(long, -r))
        .face("drill right", place(long, r), place(long, r))
        .balloon(Balloon::Tool, place(point + 2.0 * r, -r), Side::Left)
        .push(Item::Feed { from: place(long, 2.6 * r), to: place(point, 2.6 * r) });
    if cos.abs() <= SQUARE {
        sketch.between("drill left", "drill right", Side::Above, Shows::diameter(DIAMETER.key));
    }
}
