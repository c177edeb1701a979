//! The polished track in section, true to scale: the axis level, the hard case below, the ends of what was polished.

use super::keys::PolishSeal;
use super::names::{DIAMETER_AFTER, FINISH_MOST};
use super::work::Track;
use crate::drawing::{Item, Point, Shows, Side, Sketch, Stroke, rectangle};
use crate::operations::Answer;
use crate::operations::turning::CASE_LEFT;
use crate::quantity::Quantity;

/// What is drawn of the shaft to each side, in radii of the track.
const SHOWN: f64 = 1.4;
/// Half the width of a track of which nobody says how wide its groove is, in radii.
const USUAL: f64 = 0.4;

/// Draws it.
pub(super) fn draw(asked: &PolishSeal, track: &Track, answer: &Answer) -> Sketch {
    let radius = track.after.number() / 2.0;
    let mut sketch = Sketch::default();
    if radius <= 0.0 {
        return sketch;
    }
    let p = Point::new;
    let end = SHOWN * radius;
    // To both sides of the groove as wide again.
    let wide = asked.groove_width.as_ref().map_or(USUAL * radius, |at| 1.5 * at.value.number()).min(USUAL * radius);
    sketch.section(rectangle(-end, -radius, end, radius), 0);
    sketch.breaks(p(-end, -radius), p(-end, radius)).breaks(p(end, -radius), p(end, radius));
    sketch.line(Stroke::Centre, vec![p(-end, 0.0), p(end, 0.0)]);
    let left = answer.value(CASE_LEFT.key).map(|value| value.number);
    for side in [-1.0, 1.0] {
        sketch.line(Stroke::Thin, vec![p(side * wide, -radius), p(side * wide, radius)]);
        if let Some(left) = left.filter(|left| (0.0..radius).contains(left)) {
            let y = side * (radius - left);
            sketch.line(Stroke::Hidden, vec![p(-end, y), p(end, y)]);
        }
    }
    sketch
        .face("track upper", p(-end, -radius), p(end, -radius))
        .face("track lower", p(-end, radius), p(end, radius))
        .between("track upper", "track lower", Side::Right, Shows::diameter(DIAMETER_AFTER.key));
    sketch.push(Item::Roughness {
        at: p(0.0, -radius),
        towards: Side::Above,
        shows: Shows::roughness(FINISH_MOST.key),
    });
    sketch
}
