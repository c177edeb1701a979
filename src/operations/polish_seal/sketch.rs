//! The track in section, true to scale: the axis level, the groove, what polishing takes, the hard case below.

use super::keys::PolishSeal;
use super::names::DIAMETER_AFTER;
use super::work::Track;
use crate::drawing::{Balloon, Item, Point, Shows, Side, Sketch, Stroke, rectangle};
use crate::operations::Answer;
use crate::operations::turning::CASE_LEFT;
use crate::quantity::Quantity;

/// What is drawn of the shaft beside the track, in radii of the track.
const SHOWN: f64 = 1.1;
/// Width of a track of which nobody says how wide its groove is, in radii.
const USUAL: f64 = 0.4;

/// Draws it.
pub(super) fn draw(asked: &PolishSeal, track: &Track, answer: &Answer) -> Sketch {
    let (after, metal) = (track.after.number() / 2.0, track.metal.number());
    let before = after + metal;
    let mut sketch = Sketch { round: Some(2.0 * before), ..Sketch::default() };
    if after <= 0.0 || metal <= 0.0 {
        return sketch;
    }
    let p = Point::new;
    let groove = asked.groove_width.as_ref().map_or(USUAL * after, |at| at.value.number()).min(USUAL * 2.0 * after);
    // Polished a little wider than its groove: to both sides as wide again.
    let wide = 1.5 * groove;
    let end = SHOWN * after + wide;
    let shaft = vec![
        p(-end, -before),
        p(-wide, -before),
        p(-wide, -after),
        p(wide, -after),
        p(wide, -before),
        p(end, -before),
        p(end, before),
        p(wide, before),
        p(wide, after),
        p(-wide, after),
        p(-wide, before),
        p(-end, before),
    ];
    sketch.section(shaft, 0);
    for side in [-1.0, 1.0] {
        let (inner, outer) = (side * after, side * before);
        sketch.cut_away(rectangle(-wide, inner.min(outer), wide, inner.max(outer)));
    }
    sketch.breaks(p(-end, -before), p(-end, before)).breaks(p(end, -before), p(end, before));
    sketch.line(Stroke::Centre, vec![p(-end, 0.0), p(end, 0.0)]);
    if let Some(left) =
        answer.value(CASE_LEFT.key).map(|value| value.number).filter(|left| *left > 0.0 && *left < after)
    {
        for side in [-1.0, 1.0] {
            let y = side * (after - left);
            sketch.line(Stroke::Hidden, vec![p(-end, y), p(end, y)]);
        }
    }
    sketch
        .face("track upper", p(-wide, -after), p(wide, -after))
        .face("track lower", p(-wide, after), p(wide, after))
        .between("track upper", "track lower", Side::Right, Shows::diameter(DIAMETER_AFTER.key))
        .push(Item::Roughness {
            at: p(0.0, -after),
            towards: Side::Above,
            shows: Shows::roughness(super::names::FINISH_MOST.key),
        })
        .detail(p(wide / 2.0, -after - metal / 2.0), metal)
        .balloon(Balloon::Indicator, p(-wide, -before), Side::Above);
    sketch
}
