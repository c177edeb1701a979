//! The section through the bush in its housing: axis upright, the outer end above. Interference and clearance are drawn larger
//! than they are, and said so.

use super::keys::{End, OilHole, ReamBush, Stands};
use super::names::{
    BORE_MAX, BORE_MIDDLE, BORE_MIN, BORE_PRESSED, BUSH_BORE, BUSH_LENGTH, BUSH_OUTSIDE, HOUSING_BORE, HOUSING_OUTSIDE,
    INTERFERENCE, OIL_HOLE, OIL_HOLE_AT,
};
use crate::drawing::{Item, Point, Shows, Side, Sketch, Stroke, rectangle, ring_section};
use crate::operations::Answer;
use crate::quantity::Quantity;

/// The interference is drawn as this share of the joint diameter.
const SEEN: f64 = 0.04;

/// What the sketches measure from, mm.
struct Frame {
    joint: f64,
    housing: f64,
    housing_length: f64,
    bore: f64,
    length: f64,
    flange: Option<(f64, f64)>,
    top: f64,
    holes: Vec<(f64, f64)>,
}

impl Frame {
    fn of(asked: &ReamBush, answer: &Answer, bore: &str) -> Option<Self> {
        let value = |key: &str| answer.value(key).map(|value| value.number);
        let length = value(BUSH_LENGTH.key)?;
        let flange = asked.flange.as_ref().map(|f| (f.diameter.value.number(), f.thickness.value.number()));
        let proud = match asked.stands.as_ref().map(|at| at.value) {
            Some(Stands::By(by)) => by.number(),
            _ => 0.0,
        };
        let top = -proud - flange.map_or(0.0, |(_, thickness)| thickness);
        let housing_length = asked.housing.length.as_ref().map_or(length + top, |at| at.value.number());
        let from_outer = |hole: &OilHole| {
            let along = hole.at.value.number();
            let outer = hole.from.as_ref().is_none_or(|end| end.value == End::Outer);
            (hole.diameter.value.number(), if outer { along } else { length - along })
        };
        Some(Self {
            joint: value(HOUSING_BORE.key)?,
            housing: value(HOUSING_OUTSIDE.key)?,
            housing_length: housing_length.max(0.1),
            bore: value(bore)?,
            length,
            flange,
            top,
            holes: asked.oil_holes.iter().map(from_outer).collect(),
        })
    }

    fn bottom(&self) -> f64 {
        self.housing_length.max(self.top + self.length)
    }

    fn housing(&self, sketch: &mut Sketch) {
        for half in ring_section(0.0, self.housing, self.joint, 0.0, self.housing_length) {
            sketch.section(half, 0);
        }
        for y in [0.0, self.housing_length] {
            sketch.line(Stroke::Visible, vec![Point::new(-self.joint / 2.0, y), Point::new(self.joint / 2.0, y)]);
        }
    }

    /// The bush about the axis at `x`, its outside drawn at `outside`, its top at `top`.
    fn bush(&self, sketch: &mut Sketch, x: f64, outside: f64, bore: f64, top: f64) {
        let (r, b) = (outside / 2.0, bore / 2.0);
        let (end, chamfer) = (top + self.length, (0.05 * self.length).min((r - b) / 3.0));
        let mut right = match self.flange {
            Some((diameter, thickness)) => {
                vec![(b, top), (diameter / 2.0, top), (diameter / 2.0, top + thickness), (r, top + thickness)]
            }
            None => vec![(b, top), (r, top)],
        };
        right.extend([(r, end - chamfer), (r - chamfer, end), (b, end)]);
        for side in [1.0, -1.0] {
            sketch.section(right.iter().map(|(dx, y)| Point::new(x + side * dx, *y)).collect(), 1);
        }
        // The bore hides what lies behind the bush.
        sketch.void(rectangle(x - b, top, x + b, end));
    }

    /// The oil hole through bush and housing on the right, to its full size.
    fn oil_holes(&self, sketch: &mut Sketch) {
        for (diameter, at) in &self.holes {
            let y = self.top + at;
            let outline = rectangle(self.bore / 2.0, y - diameter / 2.0, self.housing / 2.0, y + diameter / 2.0);
            sketch.void(outline);
            sketch.line(Stroke::Centre, vec![Point::new(0.4 * self.bore / 2.0, y), Point::new(0.55 * self.housing, y)]);
        }
    }

    fn oil_dimensions(&self, sketch: &mut Sketch) {
        let Some((diameter, at)) = self.holes.first() else { return };
        let (y, x) = (self.top + at, self.housing / 2.0);
        sketch.dimension(Point::new(x, self.top), Point::new(x, y), Side::Right, Shows::value(OIL_HOLE_AT.key));
        sketch.dimension(
            Point::new(x, y - diameter / 2.0),
            Point::new(x, y + diameter / 2.0),
            Side::Right,
            Shows::diameter(OIL_HOLE.key),
        );
    }

    fn across(&self, sketch: &mut Sketch, diameter: f64, y: f64, side: Side, shows: Shows) {
        sketch.dimension(Point::new(-diameter / 2.0, y), Point::new(diameter / 2.0, y), side, shows);
    }
}

/// Housing and bush side by side: the interference drawn so that it can be seen.
pub(super) fn apart(asked: &ReamBush, answer: &Answer) -> Sketch {
    let mut sketch = Sketch::default();
    let Some(frame) = Frame::of(asked, answer, BUSH_BORE.key) else { return sketch };
    let wider = frame.joint * (1.0 + SEEN);
    let widest = frame.flange.map_or(wider, |(diameter, _)| diameter);
    let middle = frame.housing / 2.0 + widest;
    frame.housing(&mut sketch);
    sketch.axis(0.0, -0.15 * frame.length, frame.housing_length + 0.15 * frame.length);
    frame.across(&mut sketch, frame.joint, 0.0, Side::Above, Shows::diameter(HOUSING_BORE.key));
    frame.bush(&mut sketch, middle, wider, frame.bore, 0.0);
    sketch.axis(middle, -0.15 * frame.length, 1.15 * frame.length);
    let bore = (Point::new(middle - frame.bore / 2.0, 0.0), Point::new(middle + frame.bore / 2.0, 0.0));
    sketch.dimension(bore.0, bore.1, Side::Above, Shows::diameter(BUSH_BORE.key));
    sketch.dimension_not_to_scale(
        Point::new(middle - wider / 2.0, frame.length),
        Point::new(middle + wider / 2.0, frame.length),
        Side::Below,
        Shows::diameter(BUSH_OUTSIDE.key),
    );
    let x = middle + widest / 2.0;
    sketch.dimension(Point::new(x, 0.0), Point::new(x, frame.length), Side::Right, Shows::value(BUSH_LENGTH.key));
    exaggerated(&mut sketch, answer, frame.joint);
    sketch
}

/// The bush in its housing.
pub(super) fn pressed(asked: &ReamBush, answer: &Answer) -> Sketch {
    let mut sketch = Sketch::default();
    let Some(frame) = Frame::of(asked, answer, BORE_PRESSED.key) else { return sketch };
    within(&frame, &mut sketch);
    frame.across(&mut sketch, frame.bore, frame.bottom(), Side::Below, Shows::diameter(BORE_PRESSED.key));
    frame.across(&mut sketch, frame.housing, 0.0, Side::Above, Shows::diameter(HOUSING_OUTSIDE.key));
    sketch
}

/// The bush reamed to its finished bore.
pub(super) fn reamed(asked: &ReamBush, answer: &Answer) -> Sketch {
    let mut sketch = Sketch::default();
    let Some(frame) = Frame::of(asked, answer, BORE_MIDDLE.key) else { return sketch };
    within(&frame, &mut sketch);
    frame.across(&mut sketch, frame.bore, frame.bottom(), Side::Below, Shows::diameter(BORE_MAX.key));
    frame.across(&mut sketch, frame.bore, frame.top, Side::Above, Shows::diameter(BORE_MIN.key));
    sketch
}

fn within(frame: &Frame, sketch: &mut Sketch) {
    frame.housing(sketch);
    frame.bush(sketch, 0.0, frame.joint, frame.bore, frame.top);
    frame.oil_holes(sketch);
    sketch.axis(0.0, frame.top - 0.15 * frame.length, frame.bottom() + 0.15 * frame.length);
    frame.oil_dimensions(sketch);
    let x = -frame.housing / 2.0;
    let (top, end) = (frame.top, frame.top + frame.length);
    sketch.dimension(Point::new(x, top), Point::new(x, end), Side::Left, Shows::value(BUSH_LENGTH.key));
}

/// Says by how much the interference is drawn larger.
fn exaggerated(sketch: &mut Sketch, answer: &Answer, joint: f64) {
    let interference = answer.value(INTERFERENCE.key).map_or(0.0, |value| value.number.abs());
    if interference > 0.0 {
        let factor = (SEEN * joint / interference).round();
        sketch.push(Item::Exaggerated { what: "interference".into(), factor });
    }
}
