//! The part in the lathe: axis level, headstock left, its free end at `x` = 0; what is turned lies left of it. In millimetres of
//! the part.

use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke, Vector};
use crate::operations::diameter::{LENGTH, Size, TURNED};
use crate::operations::turning::{self, FINISH, Piece};
use crate::proof::Worked;
use crate::quantity::Mm;

/// How far from the end the tool waits, in parts of the radius.
const CLEAR: f64 = 0.12;

/// Draws it: `length` turned, up to a shoulder of `largest` where it ends there.
pub(super) fn draw(
    piece: &Piece,
    size: &Size,
    [length, largest]: [&Worked<Mm>; 2],
    edge: f64,
    shoulder: bool,
) -> Sketch {
    let (found, left, long) = (size.present.number() / 2.0, size.after.number() / 2.0, length.number());
    let (bore, whole) = (piece.inside.number() / 2.0, piece.length.number());
    let body = if shoulder { largest.number() / 2.0 } else { found };
    let mut sketch = Sketch { round: Some(2.0 * body.max(found)), ..Sketch::default() };
    if left <= bore || found <= left {
        return sketch;
    }
    let p = Point::new;
    let out = turning::stands_out(piece).map_or(whole, |out| out.number());
    turning::jaws(&mut sketch, piece.asked.hold, out);
    let (behind, turned) = (([-whole, -long], [bore, body]), ([-long, 0.0], [bore, left]));
    let pieces = if whole > long + 1e-6 { vec![behind, turned] } else { vec![turned] };
    for half in turning::stepped(&pieces) {
        sketch.section(half, 0);
    }
    for half in turning::halves(left, found, -long, 0.0) {
        sketch.cut_away(half);
    }
    if bore > 0.0 {
        sketch
            .line(Stroke::Visible, vec![p(-whole, -bore), p(-whole, bore)])
            .line(Stroke::Visible, vec![p(0.0, -bore), p(0.0, bore)]);
    }
    sketch.line(Stroke::Centre, vec![p(-whole, 0.0), p(0.0, 0.0)]);
    sketch
        .face("turned upper", p(-long, -left), p(0.0, -left))
        .face("turned lower", p(-long, left), p(0.0, left))
        .face("shoulder", p(-long, left), p(-long, body.max(found)))
        .face("end", p(0.0, -left), p(0.0, left))
        .between("turned upper", "turned lower", Side::Right, Shows::diameter(TURNED.key))
        .between("shoulder", "end", Side::Below, Shows::value(LENGTH.key))
        .detail(p(-0.85 * long, f64::midpoint(left, found)), found - left);
    sketch.push(Item::Roughness {
        at: p(-0.3 * long, -left),
        towards: Side::Above,
        shows: Shows::roughness(FINISH.key),
    });
    sketch.balloon(Balloon::Zero, p(0.0, -found), Side::Right);
    // The indicator touches what is not cut, between the cut and the jaws.
    let free = (out - long).max(0.0);
    sketch.balloon(Balloon::Indicator, p(-long - 0.5 * free, -if free > 0.0 { body } else { found }), Side::Above);
    let start = CLEAR * found;
    let nose = p(start, left);
    sketch.push(Item::Tool { nose, feed: Vector::new(-1.0, 0.0), free: Vector::new(0.0, 1.0), edge });
    sketch.balloon(Balloon::Tool, nose, Side::Right);
    let beside = body.max(found) + 0.3 * found;
    sketch.push(Item::Feed { from: p(start, beside), to: p(-long, beside) });
    sketch
}
