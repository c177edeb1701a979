//! The section through the hole, in millimetres of the part.

use super::case::Case;
use super::keys::HoleKind;
use super::names::{BEYOND, DEPTH_TO_POINT, DRILL_DIAMETER, DRILLED_DEPTH, INSERT_LENGTH, METAL_LEFT, SET_DOWN, WALL};
use crate::drawing::{Item, Point, Shows, Side, Sketch, Stroke, rectangle};
use crate::operations::Answer;

/// The hole as it is drilled and tapped.
pub(super) fn hole(case: &Case, answer: &Answer) -> Sketch {
    let frame = Frame::of(case, answer);
    let mut sketch = Sketch::default();
    frame.wall(&mut sketch);
    frame.drilled(&mut sketch);
    frame.threads(&mut sketch);
    frame.dimensions(&mut sketch, answer);
    frame.beyond(&mut sketch);
    sketch
}

/// The insert in its hole.
pub(super) fn assembled(case: &Case, answer: &Answer) -> Sketch {
    let frame = Frame::of(case, answer);
    let mut sketch = Sketch::default();
    frame.wall(&mut sketch);
    frame.drilled(&mut sketch);
    frame.coil(&mut sketch, answer);
    frame.beyond(&mut sketch);
    sketch
}

/// What both sketches measure from.
struct Frame {
    wall: f64,
    half_wide: f64,
    drill: f64,
    major: f64,
    depth: f64,
    point: f64,
    thread: f64,
    pitch: f64,
    gap: Option<f64>,
    through: bool,
}

impl Frame {
    fn of(case: &Case, answer: &Answer) -> Self {
        let value = |key: &str| answer.value(key).map(|value| value.number);
        let through = case.asked.hole.value == HoleKind::Through;
        let wall = case.wall.number();
        let drill = case.hole.drill.number();
        Self {
            wall,
            half_wide: 1.6 * case.hole.major_min.number(),
            drill,
            major: case.hole.major_min.number(),
            depth: if through { wall } else { value("drilled_depth").unwrap_or(wall) },
            point: if through { 0.0 } else { case.hole.point.number() },
            thread: value("full_thread_depth").unwrap_or(wall).min(wall),
            pitch: case.pitch.number(),
            gap: case.beyond.as_ref().map(|gap| gap.number()),
            through,
        }
    }

    fn wall(&self, sketch: &mut Sketch) {
        let outline = rectangle(-self.half_wide, 0.0, self.half_wide, self.wall);
        sketch.items.push(Item::Section { outline, hatch: 0 });
    }

    fn drilled(&self, sketch: &mut Sketch) {
        let (r, h) = (self.drill / 2.0, self.depth);
        let mut outline = vec![Point::new(-r, 0.0), Point::new(r, 0.0), Point::new(r, h)];
        if self.point > 0.0 {
            outline.push(Point::new(0.0, h + self.point));
        }
        outline.push(Point::new(-r, h));
        sketch.items.push(Item::Void(outline));
        let lowest = (h + self.point).max(self.wall) + 0.15 * self.wall;
        sketch.line(Stroke::Centre, vec![Point::new(0.0, -0.15 * self.wall), Point::new(0.0, lowest)]);
    }

    fn threads(&self, sketch: &mut Sketch) {
        let x = self.major / 2.0;
        for side in [-x, x] {
            sketch.items.push(Item::Thread { from: Point::new(side, 0.0), to: Point::new(side, self.thread) });
        }
    }

    fn dimensions(&self, sketch: &mut Sketch, answer: &Answer) {
        let r = self.drill / 2.0;
        let tip = self.depth + self.point;
        sketch.dimension(Point::new(-r, 0.0), Point::new(r, 0.0), Side::Above, Shows::diameter(DRILL_DIAMETER.key));
        sketch.dimension(
            Point::new(-self.half_wide, 0.0),
            Point::new(-self.half_wide, self.wall),
            Side::Left,
            Shows::value(WALL.key),
        );
        if self.through {
            return;
        }
        sketch.dimension(Point::new(r, 0.0), Point::new(r, self.depth), Side::Right, Shows::value(DRILLED_DEPTH.key));
        if answer.value(METAL_LEFT.key).is_some_and(|left| left.number > 0.0) {
            sketch.dimension(
                Point::new(0.0, tip),
                Point::new(0.0, self.wall),
                Side::Right,
                Shows::value(METAL_LEFT.key),
            );
        }
        sketch.dimension(Point::new(r, 0.0), Point::new(r, tip), Side::Right, Shows::value(DEPTH_TO_POINT.key));
    }

    /// What moves behind the wall, at the end of the gap.
    fn beyond(&self, sketch: &mut Sketch) {
        let Some(gap) = self.gap else { return };
        let top = self.wall + gap;
        let outline = rectangle(-self.half_wide, top, self.half_wide, top + 0.25 * self.wall);
        sketch.items.push(Item::Moving { outline, label: "moves here".into() });
        sketch.dimension(
            Point::new(self.half_wide, self.wall),
            Point::new(self.half_wide, top),
            Side::Right,
            Shows::value(BEYOND.key),
        );
    }

    /// The coils of the insert, as diamonds of wire on both sides.
    fn coil(&self, sketch: &mut Sketch, answer: &Answer) {
        let value = |key: &str| answer.value(key).map(|value| value.number);
        let (Some(length), Some(down)) = (value(INSERT_LENGTH.key), value(SET_DOWN.key)) else { return };
        let (inner, outer) = (self.drill / 2.0 - 0.541 * self.pitch, self.major / 2.0);
        let turns = ((length - 0.75 * self.pitch) / self.pitch).floor().max(1.0) as u32;
        for turn in 0..turns {
            let y = down + self.pitch * (f64::from(turn) + 0.5);
            for side in [-1.0, 1.0] {
                let middle = (inner + outer) / 2.0;
                let wire = [(inner, 0.0), (middle, -0.45), (outer, 0.0), (middle, 0.45)];
                let outline = wire.map(|(x, dy)| Point::new(side * x, y + dy * self.pitch)).to_vec();
                sketch.items.push(Item::Section { outline, hatch: 1 });
            }
        }
        let end = down + length;
        sketch.dimension(
            Point::new(self.half_wide, 0.0),
            Point::new(self.half_wide, end.min(self.wall)),
            Side::Right,
            Shows::value(INSERT_LENGTH.key),
        );
    }
}
