//! The jaws of a vice beside the section through a hole: on the real grip, so far under the face as the part stands out of them.

use crate::drawing::{Balloon, Point, Side, Sketch, rectangle};
use crate::operations::{HeldIn, Hold};
use crate::quantity::Quantity;

/// Between what is drawn round the hole and the end that is gripped, in diameters of the tool: how far apart they are nobody said.
const LEFT_OUT: f64 = 0.3;
/// What is drawn of the end that is gripped, in the same.
const END: f64 = 0.4;
/// What is drawn of a jaw, in the same.
const JAW: f64 = 0.6;
/// What lengths may differ by and still be one, mm.
const DUST: f64 = 1e-6;

/// Where the jaws grip, mm under the face.
pub(in crate::operations) struct ViceJaws {
    top: f64,
    bottom: f64,
}

impl ViceJaws {
    /// Those of a hold of which both are typed, where the part is known to be so deep, mm.
    pub(in crate::operations) fn of(hold: Option<&Hold>, deep: f64) -> Option<Self> {
        let hold = hold.filter(|hold| hold.held_in.value == HeldIn::Vice && !hold.grips_inside())?;
        let top = hold.overhang.as_ref()?.value.number();
        let bottom = top + hold.grip.as_ref()?.value.number();
        (top >= 0.0 && bottom > top && bottom <= deep + DUST).then_some(Self { top, bottom })
    }

    /// Draws them to both sides of a part that is drawn to `side` from its axis and is `deep`, for a tool so far `across`, mm.
    pub(in crate::operations) fn draw(&self, sketch: &mut Sketch, (side, deep): (f64, f64), across: f64) {
        let p = Point::new;
        let from = side + LEFT_OUT * across;
        let end = from + END * across;
        let outer = end + JAW * across;
        for way in [-1.0, 1.0] {
            let (a, b) = (f64::min(way * from, way * end), f64::max(way * from, way * end));
            sketch.section(rectangle(a, 0.0, b, deep), 0).breaks(p(way * from, 0.0), p(way * from, deep));
            let (a, b) = (f64::min(way * end, way * outer), f64::max(way * end, way * outer));
            sketch.jaw(rectangle(a, self.top, b, self.bottom));
            // How thick a jaw is nobody said.
            sketch.breaks(p(way * outer, self.top), p(way * outer, self.bottom));
        }
        sketch.balloon(Balloon::Grip, p(-f64::midpoint(end, outer), self.bottom), Side::Below);
    }

    /// Draws them on the outside of a part, so far from its axis, `thick` mm of each.
    pub(in crate::operations) fn draw_on(&self, sketch: &mut Sketch, outside: f64, thick: f64) {
        let (p, outer) = (Point::new, outside + thick);
        for (inner, outer) in [(-outside, -outer), (outside, outer)] {
            sketch.jaw(rectangle(f64::min(inner, outer), self.top, f64::max(inner, outer), self.bottom));
            sketch.breaks(p(outer, self.top), p(outer, self.bottom));
        }
        sketch.balloon(Balloon::Grip, p(-f64::midpoint(outside, outer), self.bottom), Side::Below);
    }
}
