//! The section through the hole, in millimetres of the part: the spindle's axis upright, the face at `y` = 0.

use super::case::Case;
use super::keys::HoleKind;
use super::names::{
    BEYOND, DEPTH_TO_POINT, DRILL_DIAMETER, DRILLED_DEPTH, EDGE_WALL, FITTED, FULL_THREAD, METAL_LEFT, SET_DOWN,
    STOP_TRAVEL, WALL,
};
use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke, drilled, rectangle};
use crate::operations::Answer;
use crate::operations::hole_making::ViceJaws;
use crate::proof::Worked;

/// What is drawn of a wall whose edge is not known, from the middle of the hole, in major diameters.
const SHOWN: f64 = 1.6;
/// The same where the jaws that grip it stand beside that.
const BESIDE_JAWS: f64 = 1.1;
/// How far the coil stands into its hole, in pitches: the height of the form that it carries.
pub(super) const COIL_IN_PITCHES: f64 = 0.541;
/// An edge further off than this is not drawn, in major diameters.
const FAR: f64 = 3.2;

/// The hole as it is drilled and tapped.
pub(super) fn hole(case: &Case, answer: &Answer) -> Sketch {
    let mut frame = Frame::of(case, answer);
    let mut sketch = Sketch::default();
    // Which way a near edge lies to the jaws nobody said.
    let jaws = ViceJaws::of(case.asked.hold.as_ref(), frame.wall).filter(|_| frame.edge.is_none());
    if let Some(jaws) = jaws {
        let side = f64::max(BESIDE_JAWS * frame.major, 0.6 * frame.old.map_or(0.0, |(old, _)| old));
        (frame.left, frame.right) = (-side, side);
        jaws.draw(&mut sketch, (side, frame.wall), frame.major);
    }
    frame.wall(&mut sketch);
    sketch.cut_away(frame.outline());
    frame.old_hole(&mut sketch);
    frame.floor(&mut sketch);
    frame.threads(&mut sketch);
    frame.beyond(&mut sketch);
    frame.drill(&mut sketch, answer);
    frame.dimensions(&mut sketch, answer);
    sketch
}

/// The insert in its hole.
pub(super) fn assembled(case: &Case, answer: &Answer) -> Sketch {
    let frame = Frame::of(case, answer);
    let mut sketch = Sketch::default();
    frame.wall(&mut sketch);
    sketch.void(frame.outline());
    frame.floor(&mut sketch);
    frame.threads(&mut sketch);
    frame.coil(&mut sketch, answer);
    frame.beyond(&mut sketch);
    frame.axis(&mut sketch, 0.0);
    sketch
}

/// What both sketches measure from.
struct Frame {
    wall: f64,
    left: f64,
    right: f64,
    /// Centre of the hole to the nearest edge, where it is near enough to be drawn.
    edge: Option<f64>,
    drill: f64,
    major: f64,
    depth: f64,
    point: f64,
    point_angle: f64,
    thread: f64,
    pitch: f64,
    /// Diameter and depth of the old hole.
    old: Option<(f64, f64)>,
    gap: Option<f64>,
    through: bool,
}

impl Frame {
    fn of(case: &Case, answer: &Answer) -> Self {
        let value = |key: &str| answer.value(key).map(|value| value.number);
        let through = case.asked.hole.value == HoleKind::Through;
        let wall = case.wall.number();
        let (drill, major) = (case.hole.drill.number(), case.hole.major_min.number());
        let shown = SHOWN * major;
        let edge = case.edge.as_ref().map(Worked::number).filter(|edge| *edge > major / 2.0 && *edge < FAR * major);
        let point = if through { 0.0 } else { case.hole.point.number() };
        // Half of the point's angle has the tangent radius / length.
        let point_angle = if point > 0.0 { 2.0 * (drill / 2.0).atan2(point).to_degrees() } else { 180.0 };
        let old = case.present_hole.as_ref().map(Worked::number);
        let old = old.map(|old| (old, case.present_depth.as_ref().map_or(wall, Worked::number)));
        Self {
            wall,
            left: -shown,
            right: edge.unwrap_or(shown),
            edge,
            drill,
            major,
            depth: if through { wall } else { value(DRILLED_DEPTH.key).unwrap_or(wall) },
            point,
            point_angle,
            thread: value(FULL_THREAD.key).unwrap_or(wall).min(wall),
            pitch: case.pitch.number(),
            old: old.filter(|(old, depth)| *old > 0.0 && *depth > 0.0 && *old < 2.0 * shown),
            gap: case.beyond.as_ref().map(|gap| gap.number()),
            through,
        }
    }

    /// How deep the hole goes, its point too.
    fn tip(&self) -> f64 {
        self.depth + self.point
    }

    /// The hole as it is drilled: also beyond the far face, where it breaks through.
    fn outline(&self) -> Vec<Point> {
        drilled(0.0, self.drill, self.depth, self.point_angle)
    }

    fn wall(&self, sketch: &mut Sketch) {
        let (left, right, wall) = (self.left, self.right, self.wall);
        sketch.section(rectangle(left, 0.0, right, wall), 0);
        sketch.breaks(Point::new(left, 0.0), Point::new(left, wall));
        match self.edge {
            Some(edge) => sketch.face("edge", Point::new(edge, 0.0), Point::new(edge, wall)),
            None => sketch.breaks(Point::new(right, 0.0), Point::new(right, wall)),
        };
        sketch.face("face", Point::new(left, 0.0), Point::new(right, 0.0)).face(
            "far side",
            Point::new(left, wall),
            Point::new(right, wall),
        );
    }

    fn old_hole(&self, sketch: &mut Sketch) {
        let Some((old, depth)) = self.old else { return };
        sketch.old(rectangle(-old / 2.0, 0.0, old / 2.0, depth));
        sketch.face("floor of the old hole", Point::new(-old / 2.0, depth), Point::new(old / 2.0, depth));
    }

    /// Where the full diameter ends, and the tip.
    fn floor(&self, sketch: &mut Sketch) {
        let (r, depth) = (self.drill / 2.0, self.depth);
        if !self.through && self.point > 0.0 {
            sketch.line(Stroke::Visible, vec![Point::new(-r, depth), Point::new(r, depth)]);
        }
        sketch.face("floor", Point::new(-r, depth), Point::new(r, depth)).face(
            "tip",
            Point::new(0.0, self.tip()),
            Point::new(0.0, self.tip()),
        );
    }

    fn threads(&self, sketch: &mut Sketch) {
        let x = self.major / 2.0;
        sketch.thread(0.0, self.major, self.thread).face("thread", Point::new(x, 0.0), Point::new(x, self.thread));
    }

    fn axis(&self, sketch: &mut Sketch, top: f64) {
        sketch.axis(0.0, top, self.tip().max(self.wall));
    }

    /// The drill above the hole, broken off, where the zero is taken and which way it goes.
    fn drill(&self, sketch: &mut Sketch, answer: &Answer) {
        let (r, clear) = (self.drill / 2.0, 0.3 * self.drill);
        let point = if self.point > 0.0 { self.point } else { r * 59.0_f64.to_radians().tan().recip() };
        let (tip, top) = (-clear, -clear - point - self.drill);
        let p = Point::new;
        let shoulder = tip - point;
        sketch.tooling(vec![p(-r, top), p(r, top), p(r, shoulder), p(0.0, tip), p(-r, shoulder)]);
        sketch.breaks(p(-r, top), p(r, top));
        self.axis(sketch, top);
        sketch
            .faces_about(["drill left", "drill right"], (0.0, self.drill), (top, shoulder))
            .between("drill left", "drill right", Side::Above, Shows::diameter(DRILL_DIAMETER.key))
            .balloon(Balloon::Tool, p(-r, f64::midpoint(top, shoulder)), Side::Left)
            .push(Item::Feed { from: p(1.6 * r, top), to: p(1.6 * r, tip) });
        if answer.value(STOP_TRAVEL.key).is_some() {
            sketch.balloon(Balloon::Zero, p(f64::midpoint(-self.major / 2.0, self.left), 0.0), Side::Above);
        }
    }

    fn dimensions(&self, sketch: &mut Sketch, answer: &Answer) {
        sketch.between("face", "far side", Side::Left, Shows::value(WALL.key));
        if self.edge.is_some() && answer.value(EDGE_WALL.key).is_some() {
            sketch.between("thread", "edge", Side::Below, Shows::value(EDGE_WALL.key));
        }
        if self.through {
            return;
        }
        sketch.between("face", "floor", Side::Right, Shows::value(DRILLED_DEPTH.key));
        sketch.between("face", "tip", Side::Right, Shows::value(DEPTH_TO_POINT.key));
        if let Some(left) = answer.value(METAL_LEFT.key) {
            // Under the new hole, or under the old one where that leaves less.
            let new = (self.wall - self.tip() - left.number).abs() < 0.05;
            let floor = if new || self.old.is_none() { "tip" } else { "floor of the old hole" };
            sketch.between(floor, "far side", Side::Right, Shows::value(METAL_LEFT.key));
        }
    }

    /// The face of what moves behind the wall, at the end of the gap; how thick it is nobody said.
    fn beyond(&self, sketch: &mut Sketch) {
        let Some(gap) = self.gap else { return };
        let ends = [self.left, self.right].map(|x| Point::new(x, self.wall + gap));
        sketch.line(Stroke::Phantom, ends.to_vec());
        let [left, right] = ends;
        sketch.face("what moves", left, right);
        sketch.between("far side", "what moves", Side::Right, Shows::value(BEYOND.key));
    }

    /// The coils of the insert, as diamonds of wire on both sides, from the first to the last as it is fitted.
    fn coil(&self, sketch: &mut Sketch, answer: &Answer) {
        let value = |key: &str| answer.value(key).map(|value| value.number);
        let (Some(length), Some(down)) = (value(FITTED.key), value(SET_DOWN.key)) else { return };
        let (inner, outer) = (self.drill / 2.0 - COIL_IN_PITCHES * self.pitch, self.major / 2.0);
        let middle = f64::midpoint(inner, outer);
        let half = 0.45 * self.pitch;
        let turns = ((length - 2.0 * half) / self.pitch).round().max(1.0);
        let step = (length - 2.0 * half).max(0.0) / turns;
        for turn in 0..=turns as u32 {
            let y = down + half + step * f64::from(turn);
            for side in [-1.0, 1.0] {
                let wire = [(inner, 0.0), (middle, -half), (outer, 0.0), (middle, half)];
                let outline = wire.map(|(x, dy)| Point::new(side * x, y + dy)).to_vec();
                sketch.section(outline, 1);
            }
        }
        let end = down + length;
        sketch
            .face("first coil", Point::new(-middle, down), Point::new(middle, down))
            .face("last coil", Point::new(-middle, end), Point::new(middle, end))
            .between("first coil", "last coil", Side::Right, Shows::value(FITTED.key))
            .between("face", "first coil", Side::Left, Shows::value(SET_DOWN.key));
    }
}
