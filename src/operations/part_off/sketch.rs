//! The part in the lathe: axis level, headstock left, its free end at `x` = 0; the blade stands above what it cuts away. In
//! millimetres of the part.

use super::names::{INSIDE, LENGTH, OUTSIDE, WIDTH};
use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke, rectangle};
use crate::operations::Answer;
use crate::operations::turning::{self, Piece};
use crate::proof::Worked;
use crate::quantity::Mm;

/// How far from the part the blade waits, and how much of it is drawn, in parts of the radius.
const CLEAR: f64 = 0.1;
const SHOWN: f64 = 0.7;

/// Draws it.
pub(super) fn draw(piece: &Piece, width: &Worked<Mm>, answer: &Answer) -> Sketch {
    let (outer, bore, whole) = (piece.outside.number() / 2.0, piece.inside.number() / 2.0, piece.length.number());
    let (long, wide) = (answer.value(LENGTH.key).map_or(0.0, |length| length.number), width.number());
    let mut sketch = Sketch { round: Some(2.0 * outer), ..Sketch::default() };
    if long <= 0.0 || long + wide >= whole {
        return sketch;
    }
    let p = Point::new;
    let out = turning::stands_out(piece).map_or(whole, |out| out.number());
    turning::jaws(&mut sketch, piece.asked.hold, out);
    for (from, to) in [(-whole, -long - wide), (-long, 0.0)] {
        for half in turning::halves(bore, outer, from, to) {
            sketch.section(half, 0);
        }
    }
    for half in turning::halves(bore, outer, -long - wide, -long) {
        sketch.cut_away(half);
    }
    if bore > 0.0 {
        for x in [-whole, -long - wide, -long, 0.0] {
            sketch.line(Stroke::Visible, vec![p(x, -bore), p(x, bore)]);
        }
    }
    sketch.line(Stroke::Centre, vec![p(-whole, 0.0), p(0.0, 0.0)]);
    let (near, far) = (outer * (1.0 + CLEAR), outer * (1.0 + CLEAR + SHOWN));
    sketch.tooling(rectangle(-long - wide, near, -long, far));
    sketch.breaks(p(-long - wide, far), p(-long, far));
    sketch
        .face("outside upper", p(-whole, -outer), p(0.0, -outer))
        .face("outside lower", p(-whole, outer), p(0.0, outer))
        .face("blade near", p(-long, -outer), p(-long, outer))
        .face("blade far", p(-long - wide, -outer), p(-long - wide, outer))
        .face("end", p(0.0, -outer), p(0.0, outer))
        .between("outside upper", "outside lower", Side::Right, Shows::diameter(OUTSIDE.key))
        .between("blade near", "end", Side::Below, Shows::value(LENGTH.key))
        .between("blade far", "blade near", Side::Above, Shows::value(WIDTH.key));
    if bore > 0.0 {
        sketch
            .face("bore upper", p(-whole, -bore), p(0.0, -bore))
            .face("bore lower", p(-whole, bore), p(0.0, bore))
            .between("bore upper", "bore lower", Side::Right, Shows::diameter(INSIDE.key));
    }
    sketch.detail(p(-long - wide / 2.0, -f64::midpoint(bore, outer)), wide);
    // Where the blade meets the outside its dial is nought.
    sketch.balloon(Balloon::Zero, p(-long, near), Side::Right);
    sketch.balloon(Balloon::Tool, p(-long, f64::midpoint(near, far)), Side::Right);
    // Beside the blade, on the side of the jaws where those leave the room: an arrow further off would feed where nothing is cut.
    let beside = if out - long - wide > outer { -long - wide - 0.35 * outer } else { 0.25 * outer - long };
    // Off the part: what touches it is pushed aside.
    let off = 0.25 * outer;
    sketch.push(Item::Feed { from: p(beside, far + off), to: p(beside, near + off) });
    sketch
}
