//! The section of the part as it is held: headstock to the left, the contact that is cut to the right, in millimetres of the
//! part; the spindle's axis is `y` = 0.

use super::{FeedDirection, Ground, Metal};
use crate::drawing::{Item, Point, Shows, Side, Sketch, Stroke, rectangle};
use crate::operations::{Answer, Hold};
use crate::quantity::Quantity;

/// The matching shoulder inside the contact.
#[derive(Clone, Copy, Debug)]
pub(in crate::operations) struct Shoulder {
    /// How far it stands back from the new contact, mm.
    pub back: f64,
}

/// Metal that is drawn thinner than this share of the part could not be seen.
const LEAST_SEEN: f64 = 0.04;

struct Frame<'a> {
    ground: &'a Ground<'a>,
    outer: f64,
    inner: f64,
    /// Where the new contact lies.
    end: f64,
    /// Thickness of the metal that goes, as drawn.
    off: f64,
}

pub(super) fn draw(ground: &Ground, metal: &Metal, shoulder: Option<Shoulder>, answer: &Answer) -> Sketch {
    let (outer, inner) = (ground.outside.number() / 2.0, ground.inside.number() / 2.0);
    let (end, removed) = (metal.length_after.number(), metal.removed.number());
    let mut sketch = Sketch::default();
    if end <= 0.0 {
        return sketch;
    }
    let off = removed.max(LEAST_SEEN * end.max(2.0 * outer));
    let frame = Frame { ground, outer, inner, end, off };
    frame.holding(&mut sketch);
    frame.section(&mut sketch);
    if let Some(shoulder) = shoulder {
        frame.shoulder(&mut sketch, shoulder, answer);
    }
    frame.recess(&mut sketch, answer);
    sketch.line(Stroke::Centre, vec![Point::new(-0.3 * outer, 0.0), Point::new(end + off + 0.2 * outer, 0.0)]);
    frame.sizes(&mut sketch);
    frame.signs(&mut sketch);
    if removed > 0.0 && off > 1.001 * removed {
        let factor = (off / removed * 10.0).round() / 10.0;
        sketch.push(Item::Exaggerated { what: "metal removed".into(), factor });
    }
    sketch
}

impl Frame<'_> {
    /// An outline above the axis and its mirror image below.
    fn both(points: &[Point]) -> [Vec<Point>; 2] {
        [points.to_vec(), points.iter().map(|p| Point::new(p.x, -p.y)).collect()]
    }

    fn ring(left: f64, right: f64, inner: f64, outer: f64) -> [Vec<Point>; 2] {
        Self::both(&rectangle(left, -outer, right, -inner))
    }

    /// Jaws, and a hub behind the contact where a smaller diameter is gripped: imaginary lines, they are not this part's cut.
    fn holding(&self, sketch: &mut Sketch) {
        let Some(hold) = self.ground.asked.hold else { return };
        let size = |at: &Option<crate::proof::At<crate::quantity::Mm>>| at.as_ref().map(|at| at.value.number());
        let gripped = size(&hold.diameter).map_or(self.outer, |diameter| diameter / 2.0);
        let grip = size(&hold.grip).unwrap_or(0.4 * self.end);
        let back = self.back(hold, gripped, grip);
        if back < 0.0 {
            Self::both(&rectangle(back, -gripped, 0.0, 0.0)).into_iter().for_each(|hub| phantom(sketch, hub));
        }
        let jaw = Self::ring(back - 0.25 * self.outer, back + grip, gripped, gripped + 0.3 * self.outer);
        jaw.into_iter().for_each(|jaw| phantom(sketch, jaw));
    }

    /// Where the gripped end lies: the contact's own back, or a hub behind it as long as grip and overhang say.
    fn back(&self, hold: &Hold, gripped: f64, grip: f64) -> f64 {
        let overhang = hold.overhang.as_ref().map_or(0.0, |overhang| overhang.value.number());
        if gripped >= self.outer { 0.0 } else { (self.end - overhang - grip).min(-grip) }
    }

    fn section(&self, sketch: &mut Sketch) {
        if self.inner > 0.0 {
            Self::ring(0.0, self.end, self.inner, self.outer).into_iter().for_each(|half| {
                sketch.section(half, 0);
            });
        } else {
            sketch.section(rectangle(0.0, -self.outer, self.end, self.outer), 0);
        }
        for (inner, outer) in self.lands() {
            Self::ring(self.end, self.end + self.off, inner, outer).into_iter().for_each(|land| {
                sketch.cut_away(land);
            });
        }
    }

    /// The radial spans that are cut: all of the contact, less a relief.
    fn lands(&self) -> Vec<(f64, f64)> {
        let Some(relief) = self.ground.asked.relief else { return vec![(self.inner, self.outer)] };
        let (from, to) = (relief.inside.value.number() / 2.0, relief.outside.value.number() / 2.0);
        [(self.inner, from), (to, self.outer)].into_iter().filter(|(inner, outer)| outer - inner > 1e-6).collect()
    }

    fn recess(&self, sketch: &mut Sketch, answer: &Answer) {
        let Some(relief) = self.ground.asked.relief else { return };
        let left = answer.value(super::RELIEF_LEFT.key).map_or(0.0, |left| left.number);
        let (from, to) = (relief.inside.value.number() / 2.0, relief.outside.value.number() / 2.0);
        if left > 0.0 && left < self.end {
            Self::ring(self.end - left, self.end, from, to).into_iter().for_each(|recess| {
                sketch.void(recess);
            });
            let at = |x: f64| Point::new(x, (from + to) / 2.0);
            sketch.dimension(at(self.end - left), at(self.end), Side::Below, Shows::value(super::RELIEF_LEFT.key));
        }
        if let Some(ring) = relief.ring_outside.as_ref().and_then(|ring| ring.value.typed()) {
            let (near, far) = (self.end + self.off, self.end + self.off + 0.25 * self.outer);
            Self::ring(near, far, self.inner, ring / 2.0).into_iter().for_each(|ring| phantom(sketch, ring));
        }
    }

    /// The shoulder inside the contact, and how far it stands back.
    fn shoulder(&self, sketch: &mut Sketch, shoulder: Shoulder, answer: &Answer) {
        let level = self.end - shoulder.back;
        if self.inner <= 0.0 || level <= 0.0 {
            return;
        }
        let hub = 0.7 * self.inner;
        Self::ring(0.0, level.min(self.end), hub, self.inner).into_iter().for_each(|half| {
            sketch.section(half, 0);
        });
        if answer.value("step_after").is_some() {
            let at = |x: f64| Point::new(x, (hub + self.inner) / 2.0);
            sketch.dimension(at(level), at(self.end), Side::Below, Shows::value("step_after"));
        }
    }

    fn sizes(&self, sketch: &mut Sketch) {
        let p = Point::new;
        let (outer, end, off) = (self.outer, self.end, self.off);
        sketch
            .dimension(p(0.0, -outer), p(0.0, outer), Side::Left, Shows::diameter(super::OUTSIDE.key))
            .dimension(p(0.0, outer), p(end, outer), Side::Below, Shows::value(super::LENGTH_AFTER.key))
            .dimension_not_to_scale(
                p(end, -outer),
                p(end + off, -outer),
                Side::Above,
                Shows::value(super::REMOVED.key),
            );
        if self.inner > 0.0 {
            let at = |y: f64| p(end + off, y);
            sketch.dimension(at(-self.inner), at(self.inner), Side::Right, Shows::diameter(super::INSIDE.key));
        }
    }

    /// Roughness, datum, indicator, direction of feed, slots.
    fn signs(&self, sketch: &mut Sketch) {
        let p = Point::new;
        let (outer, inner, front) = (self.outer, self.inner, self.end + self.off);
        let (widest, _) = self
            .lands()
            .into_iter()
            .map(|(a, b)| ((a + b) / 2.0, b - a))
            .fold((0.0, 0.0), |best, land| if land.1 > best.1 { land } else { best });
        let shows = Shows { before: "Ra ", value: super::FINISH.key };
        sketch.push(Item::Roughness { at: p(front, widest), towards: Side::Right, shows });
        sketch.push(Item::Datum { at: p(0.0, (outer + inner) / 2.0), towards: Side::Left, letter: 'A' });
        sketch.push(Item::Indicator { at: p(0.75 * self.end, -outer), towards: Side::Above });
        let (far, near) = (p(front + 0.15 * outer, -1.15 * outer), p(front + 0.15 * outer, -inner.max(0.1 * outer)));
        let inward = self.ground.asked.feed_direction.is_none_or(|way| way.value == FeedDirection::Inward);
        let (from, to) = if inward { (far, near) } else { (near, far) };
        sketch.push(Item::Feed { from, to });
        let slots = self.ground.asked.slots();
        if slots > 0 {
            let y = 0.5 * (outer + inner);
            sketch.line(Stroke::Hidden, vec![p(0.5 * self.end, inner), p(0.5 * self.end, outer)]);
            sketch.label(p(0.5 * self.end, y), Side::Below, format!("{slots} slots"));
        }
    }
}

/// A neighbour: a long dash and two dots all round.
fn phantom(sketch: &mut Sketch, mut outline: Vec<Point>) {
    outline.extend(outline.first().copied());
    sketch.line(Stroke::Phantom, outline);
}
