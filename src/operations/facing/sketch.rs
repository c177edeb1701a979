//! The section of the part as it is held in the lathe: axis level, headstock left, the contact that is cut at the right.
//! In millimetres of the part; `x` = 0 is the new surface, the metal that goes lies right of it.

use super::{FeedDirection, Ground, Metal};
use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke, Vector, rectangle};
use crate::operations::turning::{CASE_LEFT, halves};
use crate::operations::{Answer, HeldIn, Hold};
use crate::proof::{Check, Verdict};
use crate::quantity::Quantity;

/// The matching shoulder inside the contact.
#[derive(Clone, Copy, Debug)]
pub(in crate::operations) struct Shoulder {
    /// How far it stands below the new contact, mm.
    pub below: f64,
}

/// The tool as it is drawn.
#[derive(Clone, Copy, Debug)]
pub(in crate::operations) struct Edge {
    /// Cutting edge to direction of feed, degrees.
    pub angle: f64,
}

/// How far from the rim the tool's nose waits, in parts of the radius.
const CLEAR: f64 = 0.06;
/// What is drawn of a part whose end is not known, and of a jaw, in parts of the radius.
const SHOWN: f64 = 0.22;

struct Frame<'a> {
    ground: &'a Ground<'a>,
    outer: f64,
    inner: f64,
    /// Length that is left.
    end: f64,
    /// Metal that goes.
    off: f64,
}

/// Draws it.
pub(super) fn draw(ground: &Ground, metal: &Metal, edge: Edge, shoulder: Option<Shoulder>, answer: &Answer) -> Sketch {
    let (outer, inner) = (ground.piece.outside.number() / 2.0, ground.piece.inside.number() / 2.0);
    let (end, off) = (metal.length_after.number(), metal.removed.number().max(0.0));
    let mut sketch = Sketch { round: Some(2.0 * outer), ..Sketch::default() };
    if end <= 0.0 || outer <= inner {
        return sketch;
    }
    let frame = Frame { ground, outer, inner, end, off };
    frame.holding(&mut sketch);
    frame.section(&mut sketch);
    frame.shoulder(&mut sketch, shoulder, answer);
    frame.recess(&mut sketch, answer);
    frame.worn(&mut sketch, metal.worn.number());
    let left = sketch.items.iter().filter_map(leftmost).fold(-end, f64::min);
    sketch.line(Stroke::Centre, vec![Point::new(left, 0.0), Point::new(off, 0.0)]);
    frame.sizes(&mut sketch);
    frame.case(&mut sketch, answer);
    frame.signs(&mut sketch);
    frame.tool(&mut sketch, edge);
    sketch
}

fn leftmost(item: &Item) -> Option<f64> {
    match item {
        Item::Jaw(outline) | Item::Old(outline) | Item::Section { outline, .. } => {
            outline.iter().map(|p| p.x).reduce(f64::min)
        }
        _ => None,
    }
}

impl Frame<'_> {
    /// Jaws on the real grip, and the hub behind the contact where a smaller diameter is gripped.
    fn holding(&self, sketch: &mut Sketch) {
        let Some(hold) = self.ground.asked.hold else { return };
        let size = |at: &Option<crate::proof::At<crate::quantity::Mm>>| at.as_ref().map(|at| at.value.number());
        let (Some(diameter), Some(grip)) = (size(&hold.diameter), size(&hold.grip)) else { return };
        let chuck = matches!(hold.held_in.value, HeldIn::Jaws | HeldIn::SoftJaws | HeldIn::FourJaw | HeldIn::Collet);
        if !chuck || grip <= 0.0 {
            return;
        }
        let gripped = diameter / 2.0;
        let (back, front) = self.grip(hold, gripped, grip);
        if back < -self.end {
            // How far the hub goes on in the chuck nobody said.
            sketch.push(Item::Old(rectangle(back, -gripped, -self.end, gripped)));
        }
        let thick = SHOWN * self.outer;
        let (near, far) = if hold.grips_inside() { (gripped - thick, gripped) } else { (gripped, gripped + thick) };
        let (near, far) = (near.max(0.0), far);
        for side in [-1.0, 1.0] {
            let (a, b) = ((side * near).min(side * far), (side * near).max(side * far));
            sketch.jaw(rectangle(back, a, front, b));
            // The jaw goes on from the grip outward, or inward in a bore.
            let on = side * if hold.grips_inside() { near } else { far };
            sketch.breaks(Point::new(back, on), Point::new(front, on));
        }
        let name = ["grip upper", "grip lower"];
        for (name, side) in name.into_iter().zip([-gripped, gripped]) {
            sketch.face(name, Point::new(back, side), Point::new(front, side));
        }
        let middle = Point::new(f64::midpoint(back, front), -gripped);
        sketch.balloon(Balloon::Grip, middle, Side::Above);
    }

    /// Where the grip begins and ends along the axis: on the contact's own back, or on a hub behind it.
    fn grip(&self, hold: &Hold, gripped: f64, grip: f64) -> (f64, f64) {
        let overhang = hold.overhang.as_ref().map(|overhang| overhang.value.number());
        if gripped >= self.outer || hold.grips_inside() {
            return (-self.end, grip - self.end);
        }
        let front = overhang.map_or(self.end, |overhang| (overhang - self.off).max(self.end));
        (-front - grip, -front)
    }

    /// Whether the inside is where the cut ends and not a bore: a smaller diameter behind it is gripped.
    fn goes_on_inside(&self) -> bool {
        let diameter =
            self.ground.asked.hold.and_then(|hold| hold.diameter.as_ref().filter(|_| !hold.fills_the_bore()));
        self.inner > 0.0 && diameter.is_some_and(|at| at.value.number() / 2.0 <= self.inner)
    }

    fn section(&self, sketch: &mut Sketch) {
        halves(self.inner, self.outer, -self.end, 0.0).into_iter().for_each(|half| {
            sketch.section(half, 0);
        });
        for (inner, outer) in self.lands() {
            halves(inner, outer, 0.0, self.off).into_iter().filter(|_| self.off > 0.0).for_each(|land| {
                sketch.cut_away(land);
            });
        }
        let level = |x: f64| vec![Point::new(x, -self.inner), Point::new(x, self.inner)];
        if self.goes_on_inside() {
            for y in [-self.inner, self.inner] {
                sketch.breaks(Point::new(-self.end, y), Point::new(0.0, y));
            }
        } else if self.inner > 0.0 {
            // Edges of the bore behind the section: the ring is one body.
            sketch.line(Stroke::Visible, level(-self.end)).line(Stroke::Visible, level(self.off));
        }
    }

    /// The radial spans that are cut: all of the contact, less a relief.
    fn lands(&self) -> Vec<(f64, f64)> {
        let Some(relief) = self.ground.asked.relief else { return vec![(self.inner, self.outer)] };
        let (from, to) = (relief.inside.value.number() / 2.0, relief.outside.value.number() / 2.0);
        [(self.inner, from), (to, self.outer)].into_iter().filter(|(inner, outer)| outer - inner > 1e-6).collect()
    }

    /// The relief as deep as it is left, and the ring that sits on the land inside it.
    fn recess(&self, sketch: &mut Sketch, answer: &Answer) {
        let Some(relief) = self.ground.asked.relief else { return };
        let left = answer.value(super::RELIEF_LEFT.key).map_or(0.0, |left| left.number);
        let (from, to) = (relief.inside.value.number() / 2.0, relief.outside.value.number() / 2.0);
        if left > 0.0 && left < self.end {
            for recess in halves(from, to, -left, 0.0) {
                sketch.void(recess);
            }
        }
    }

    /// The floor of the worn groove at its depth below the face as found; how wide it is nobody said.
    fn worn(&self, sketch: &mut Sketch, depth: f64) {
        if depth <= 0.0 || depth > self.off {
            return;
        }
        let floor = self.off - depth;
        for (inner, outer) in self.lands() {
            for (from, to) in [(-outer, -inner), (inner, outer)] {
                sketch.line(Stroke::Phantom, vec![Point::new(floor, from), Point::new(floor, to)]);
            }
        }
    }

    /// The shoulder inside the contact, and how far it stands below; how far it goes in nobody said.
    fn shoulder(&self, sketch: &mut Sketch, shoulder: Option<Shoulder>, answer: &Answer) {
        let Some(level) = shoulder.map(|shoulder| shoulder.below) else { return };
        if self.inner <= 0.0 || level <= 0.0 || level >= self.end {
            return;
        }
        let on = (1.0 - SHOWN) * self.inner;
        for (near, far) in [(-self.inner, -on), (on, self.inner)] {
            sketch.section(rectangle(-self.end, near, -level, far), 0);
        }
        for y in [-on, on] {
            sketch.breaks(Point::new(-self.end, y), Point::new(-level, y));
        }
        if answer.value("step_after").is_some() {
            sketch
                .face("new face inside", Point::new(0.0, -self.inner), Point::new(0.0, -self.inner))
                .face("shoulder", Point::new(-level, -self.inner), Point::new(-level, -on))
                .between("shoulder", "new face inside", Side::Above, Shows::value("step_after"));
        }
    }

    fn sizes(&self, sketch: &mut Sketch) {
        let p = Point::new;
        let (outer, inner, end, off) = (self.outer, self.inner, self.end, self.off);
        sketch
            .face("outside upper", p(-end, -outer), p(0.0, -outer))
            .face("outside lower", p(-end, outer), p(0.0, outer))
            .face("back", p(-end, -outer), p(-end, outer))
            .face("new face", p(0.0, -outer), p(0.0, outer))
            .face("face as found", p(off, -outer), p(off, outer))
            .between("outside upper", "outside lower", Side::Left, Shows::diameter(super::OUTSIDE.key))
            .between("back", "new face", Side::Below, Shows::value(super::LENGTH_AFTER.key));
        if off > 0.0 {
            sketch
                .between("new face", "face as found", Side::Above, Shows::value(super::REMOVED.key))
                .detail(p(off / 2.0, -outer), off);
        }
        if inner > 0.0 {
            sketch
                .face("inside upper", p(-end, -inner), p(0.0, -inner))
                .face("inside lower", p(-end, inner), p(0.0, inner))
                .between("inside upper", "inside lower", Side::Left, Shows::diameter(super::INSIDE.key));
        }
    }

    /// How deep the hard case still goes under the new surface; where that is too little, dimensioned.
    fn case(&self, sketch: &mut Sketch, answer: &Answer) {
        let left = answer.value(CASE_LEFT.key).map(|left| left.number);
        let Some(left) = left.filter(|left| *left > 0.0 && *left < self.end) else { return };
        for (inner, outer) in self.lands() {
            for (from, to) in [(-outer, -inner), (inner, outer)] {
                sketch.line(Stroke::Hidden, vec![Point::new(-left, from), Point::new(-left, to)]);
            }
        }
        let is_short = |check: &Check| check.about == Some(CASE_LEFT.key) && check.verdict() == Some(Verdict::Fails);
        if answer.checks.iter().any(is_short) {
            sketch.face("case ends", Point::new(-left, -self.outer), Point::new(-left, self.outer)).between(
                "case ends",
                "new face",
                Side::Below,
                Shows::value(CASE_LEFT.key),
            );
        }
    }

    /// Roughness, indicator, zero, slots.
    fn signs(&self, sketch: &mut Sketch) {
        let p = Point::new;
        let (outer, inner, end, off) = (self.outer, self.inner, self.end, self.off);
        let middle = self.lands().into_iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)));
        let middle = middle.map_or(outer / 2.0, |(from, to)| (from + to) / 2.0);
        let shows = Shows::roughness(crate::operations::turning::FINISH.key);
        sketch.push(Item::Roughness { at: p(0.0, -middle), towards: Side::Right, shows });
        sketch.balloon(Balloon::Indicator, p(-0.3 * end, -outer), Side::Above);
        sketch.balloon(Balloon::Zero, p(off, -(0.85 * outer).max(middle + 0.25 * (outer - middle))), Side::Right);
        let slots = self.ground.piece.asked.slots();
        if slots > 0 {
            // One of the slots in hidden lines; how deep they are nobody said.
            let (near, far) = (inner + 0.4 * (outer - inner), inner + 0.6 * (outer - inner));
            for y in [near, far] {
                sketch.line(Stroke::Hidden, vec![p(-end, y), p(0.0, y)]);
            }
            sketch.label(p(-0.4 * end, (near + far) / 2.0), Side::Below, format!("{slots} slots"));
        }
    }

    /// The tool at the start of its feed on the operator's side, and the arrow to where it ends.
    fn tool(&self, sketch: &mut Sketch, edge: Edge) {
        let inward = self.ground.asked.feed_direction.is_none_or(|way| way.value == FeedDirection::Inward);
        let clear = CLEAR * self.outer;
        let (start, end, way) =
            if inward { (self.outer + clear, self.inner, -1.0) } else { (self.inner - clear, self.outer, 1.0) };
        let nose = Point::new(0.0, start);
        let (feed, free) = (Vector::new(0.0, way), Vector::new(1.0, 0.0));
        sketch.push(Item::Tool { nose, feed, free, edge: edge.angle });
        sketch.balloon(Balloon::Tool, nose, Side::Right);
        let beside = self.off + SHOWN * self.outer;
        sketch.push(Item::Feed { from: Point::new(beside, start), to: Point::new(beside, end) });
    }
}
