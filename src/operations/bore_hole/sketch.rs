//! The section of the part in the lathe: axis level, headstock left, the face that the bar enters at `x` = 0. In millimetres of the
//! part.

use super::names::OUTSIDE;
use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke, Vector};
use crate::operations::diameter::{BORED, LENGTH, Size};
use crate::operations::turning::{self, FINISH, Piece};
use crate::proof::Worked;
use crate::quantity::Mm;

/// How far from the face the tool waits, in parts of the bore.
const CLEAR: f64 = 0.12;

/// Draws it; `by_the_hole` where the indicator stands in the hole.
pub(super) fn draw(
    piece: &Piece,
    (size, depth): (&Size, &Worked<Mm>),
    edge: f64,
    (through, by_the_hole): (bool, bool),
) -> Sketch {
    let (found, bored, deep) = (size.present.number() / 2.0, size.after.number() / 2.0, depth.number());
    let (outer, whole) = (piece.outside.number() / 2.0, piece.length.number());
    let mut sketch = Sketch { round: Some(2.0 * outer), ..Sketch::default() };
    if bored >= outer || found >= bored {
        return sketch;
    }
    let p = Point::new;
    turning::jaws(&mut sketch, piece.asked.hold, turning::stands_out(piece).map_or(whole, |out| out.number()));
    let beyond = whole > deep + 1e-6;
    // How deep the hole as found goes on is drawn to the far end where it goes through.
    let behind = ([-whole, -deep], [if through { found } else { 0.0 }, outer]);
    let cut = ([-deep, 0.0], [bored, outer]);
    let pieces = if beyond { vec![behind, cut] } else { vec![cut] };
    for half in turning::stepped(&pieces) {
        sketch.section(half, 0);
    }
    for half in turning::halves(found, bored, -deep, 0.0) {
        sketch.cut_away(half);
    }
    sketch.line(Stroke::Visible, vec![p(0.0, -bored), p(0.0, bored)]);
    sketch.line(Stroke::Visible, vec![p(-deep, -bored), p(-deep, bored)]);
    sketch.line(Stroke::Centre, vec![p(-whole, 0.0), p(0.0, 0.0)]);
    sketch
        .face("outside upper", p(-whole, -outer), p(0.0, -outer))
        .face("outside lower", p(-whole, outer), p(0.0, outer))
        .face("bored upper", p(-deep, -bored), p(0.0, -bored))
        .face("bored lower", p(-deep, bored), p(0.0, bored))
        .face("bottom", p(-deep, -bored), p(-deep, bored))
        .face("face", p(0.0, -outer), p(0.0, outer))
        .between("bored upper", "bored lower", Side::Right, Shows::diameter(BORED.key))
        .between("outside upper", "outside lower", Side::Left, Shows::diameter(OUTSIDE.key))
        .between("bottom", "face", Side::Below, Shows::value(LENGTH.key))
        .detail(p(-0.8 * deep, -f64::midpoint(found, bored)), bored - found);
    sketch.push(Item::Roughness {
        at: p(-0.3 * deep, bored),
        towards: Side::Above,
        shows: Shows::roughness(FINISH.key),
    });
    sketch.balloon(Balloon::Zero, p(0.0, -found), Side::Right);
    match by_the_hole {
        true => sketch.balloon(Balloon::Indicator, p(-0.5 * deep, -found), Side::Below),
        false => sketch.balloon(Balloon::Indicator, p(-0.25 * whole, -outer), Side::Above),
    };
    let start = CLEAR * bored;
    let nose = p(start, bored);
    sketch.push(Item::Tool { nose, feed: Vector::new(-1.0, 0.0), free: Vector::new(0.0, -1.0), edge });
    sketch.balloon(Balloon::Tool, nose, Side::Right);
    sketch.push(Item::Feed { from: p(start, 0.35 * bored), to: p(-deep, 0.35 * bored) });
    sketch
}
