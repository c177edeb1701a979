//! The section of the part as it is held, the axis of the spindle upright: the contact that is cut lies above, the chuck below.
//! In millimetres of the part; `y` = 0 is the new surface.

use super::{FeedDirection, Ground, Metal};
use crate::drawing::{Item, Point, Shows, Side, Sketch, Stroke, rectangle, ring_section};
use crate::operations::{Answer, HeldIn, Hold};
use crate::quantity::Quantity;

/// The matching shoulder inside the contact.
#[derive(Clone, Copy, Debug)]
pub(in crate::operations) struct Shoulder {
    /// How far it stands below the new contact, mm.
    pub below: f64,
}

/// Metal that is drawn thinner than this share of the part could not be seen.
const LEAST_SEEN: f64 = 0.04;
/// It is not drawn thicker than this share of the length that is left.
const MOST_SHOWN: f64 = 0.2;

struct Frame<'a> {
    ground: &'a Ground<'a>,
    outer: f64,
    inner: f64,
    /// Length that is left.
    end: f64,
    /// Thickness of the metal that goes, as drawn.
    off: f64,
}

/// Draws it.
pub(super) fn draw(ground: &Ground, metal: &Metal, shoulder: Option<Shoulder>, answer: &Answer) -> Sketch {
    let (outer, inner) = (ground.outside.number() / 2.0, ground.inside.number() / 2.0);
    let (end, removed) = (metal.length_after.number(), metal.removed.number());
    let mut sketch = Sketch::default();
    if end <= 0.0 {
        return sketch;
    }
    // Seen, but never so thick that it hides what is left.
    let off = removed.max((LEAST_SEEN * end.max(2.0 * outer)).min(MOST_SHOWN * end));
    let frame = Frame { ground, outer, inner, end, off };
    frame.holding(&mut sketch);
    frame.section(&mut sketch);
    if let Some(shoulder) = shoulder {
        frame.shoulder(&mut sketch, shoulder, answer);
    }
    frame.recess(&mut sketch, answer);
    sketch.axis(0.0, -off, end);
    frame.sizes(&mut sketch);
    frame.signs(&mut sketch);
    if removed > 0.0 && off > 1.001 * removed {
        let factor = (off / removed * 10.0).round() / 10.0;
        sketch.push(Item::Exaggerated { what: "metal removed".into(), factor });
    }
    sketch
}

impl Frame<'_> {
    /// Both cut halves of a ring about the axis, by radii, top and bottom.
    fn halves(inner: f64, outer: f64, top: f64, bottom: f64) -> [Vec<Point>; 2] {
        ring_section(0.0, 2.0 * outer, 2.0 * inner, top, bottom)
    }

    /// Jaws, and a hub below the contact where a smaller diameter is gripped: imaginary lines, they are not cut.
    fn holding(&self, sketch: &mut Sketch) {
        let Some(hold) = self.ground.asked.hold else { return };
        let size = |at: &Option<crate::proof::At<crate::quantity::Mm>>| at.as_ref().map(|at| at.value.number());
        let gripped = size(&hold.diameter).map_or(self.outer, |diameter| diameter / 2.0);
        let grip = size(&hold.grip).unwrap_or(0.4 * self.end);
        let foot = self.foot(hold, gripped, grip);
        if foot > self.end {
            phantom(sketch, rectangle(-gripped, self.end, gripped, foot));
        }
        if !matches!(hold.held_in.value, HeldIn::Jaws | HeldIn::SoftJaws | HeldIn::FourJaw | HeldIn::Collet) {
            return;
        }
        let jaws = Self::halves(gripped, gripped + 0.2 * self.outer, foot - grip, foot + 0.1 * self.outer);
        jaws.into_iter().for_each(|jaw| phantom(sketch, jaw));
    }

    /// Where the gripped end lies: the contact's own back, or a hub below it as long as grip and overhang say.
    fn foot(&self, hold: &Hold, gripped: f64, grip: f64) -> f64 {
        let overhang = hold.overhang.as_ref().map_or(0.0, |overhang| overhang.value.number());
        if gripped >= self.outer { self.end } else { (overhang + grip).max(self.end + grip) }
    }

    fn section(&self, sketch: &mut Sketch) {
        if self.inner > 0.0 {
            for half in Self::halves(self.inner, self.outer, 0.0, self.end) {
                sketch.section(half, 0);
            }
        } else {
            sketch.section(rectangle(-self.outer, 0.0, self.outer, self.end), 0);
        }
        for (inner, outer) in self.lands() {
            for land in Self::halves(inner, outer, -self.off, 0.0) {
                sketch.cut_away(land);
            }
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
            for recess in Self::halves(from, to, 0.0, left) {
                sketch.void(recess);
            }
        }
        let ring = relief.ring_outside.as_ref().and_then(|ring| ring.value.typed()).map(|ring| ring / 2.0);
        if let Some(ring) = ring.filter(|ring| *ring > self.inner) {
            let above = -self.off - 0.25 * self.outer;
            Self::halves(self.inner, ring, above, -self.off).into_iter().for_each(|ring| phantom(sketch, ring));
        }
    }

    /// The shoulder inside the contact, and how far it stands below.
    fn shoulder(&self, sketch: &mut Sketch, shoulder: Shoulder, answer: &Answer) {
        let level = shoulder.below;
        if self.inner <= 0.0 || level <= 0.0 || level >= self.end {
            return;
        }
        let hub = 0.7 * self.inner;
        for half in Self::halves(hub, self.inner, level, self.end) {
            sketch.section(half, 0);
        }
        if answer.value("step_after").is_some() {
            let side = |y: f64| Point::new(self.inner, y);
            sketch.dimension(side(0.0), side(level), Side::Left, Shows::value("step_after"));
        }
    }

    fn sizes(&self, sketch: &mut Sketch) {
        let p = Point::new;
        let (outer, inner, end, off) = (self.outer, self.inner, self.end, self.off);
        sketch
            .dimension(p(-outer, end), p(outer, end), Side::Below, Shows::diameter(super::OUTSIDE.key))
            .dimension(p(-outer, 0.0), p(-outer, end), Side::Left, Shows::value(super::LENGTH_AFTER.key))
            .dimension_not_to_scale(p(outer, -off), p(outer, 0.0), Side::Right, Shows::value(super::REMOVED.key));
        if inner > 0.0 {
            sketch.dimension(p(-inner, end), p(inner, end), Side::Below, Shows::diameter(super::INSIDE.key));
        }
    }

    /// Roughness, datum, indicator, direction of feed, slots.
    fn signs(&self, sketch: &mut Sketch) {
        let p = Point::new;
        let (outer, inner, end, off) = (self.outer, self.inner, self.end, self.off);
        let middle = self.lands().into_iter().max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)));
        let middle = middle.map_or(outer / 2.0, |(from, to)| (from + to) / 2.0);
        let shows = Shows { before: "Ra ", value: super::FINISH.key };
        sketch.push(Item::Roughness { at: p(-middle, -off), towards: Side::Above, shows });
        sketch.push(Item::Datum { at: p(-middle, end), towards: Side::Below, letter: 'A' });
        sketch.push(Item::Indicator { at: p(outer, 0.3 * end), towards: Side::Right });
        let over = -off - 0.12 * outer;
        let (far, near) = (p(1.15 * outer, over), p(inner.max(0.1 * outer), over));
        let inward = self.ground.asked.feed_direction.is_none_or(|way| way.value == FeedDirection::Inward);
        let (from, to) = if inward { (far, near) } else { (near, far) };
        sketch.push(Item::Feed { from, to });
        let slots = self.ground.asked.slots();
        if slots > 0 {
            // One of the slots in hidden lines; how deep they are nobody said.
            let (left, right) = (inner + 0.4 * (outer - inner), inner + 0.6 * (outer - inner));
            for x in [left, right] {
                sketch.line(Stroke::Hidden, vec![p(x, 0.0), p(x, end)]);
            }
            sketch.label(p((left + right) / 2.0, 0.6 * end), Side::Right, format!("{slots} slots"));
        }
    }
}

/// A neighbour: a long dash and two dots all round.
fn phantom(sketch: &mut Sketch, mut outline: Vec<Point>) {
    outline.extend(outline.first().copied());
    sketch.line(Stroke::Phantom, outline);
}
