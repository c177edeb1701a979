//! The polished track in section, true to scale: the axis level, the hard case below, the ends of what was polished.

use super::keys::PolishSeal;
use super::names::{DIAMETER_AFTER, FINISH_LEAST, FINISH_MOST, GROOVE, SIZE};
use super::work::Track;
use crate::drawing::{Item, Point, Shows, Side, Sketch, Stroke, rectangle};
use crate::operations::Answer;
use crate::operations::turning::CASE_LEFT;
use crate::quantity::Quantity;

/// What is drawn of the shaft to each side, in radii of the track.
const SHOWN: f64 = 1.4;
/// Half the width of a track of which nobody says how wide its groove is, in radii.
const USUAL: f64 = 0.4;

/// How far off the track the holder of the cloth waits, and how much of it is drawn, in radii.
const CLEAR: f64 = 0.12;
const HELD: f64 = 0.45;
/// What lengths may differ by and still be one, mm.
const DUST: f64 = 1e-9;

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
    let found = answer.value(SIZE.key).map_or(radius, |size| size.number / 2.0).max(radius);
    // Beside what is polished the shaft stays as it was found.
    let upper = [(-end, found), (-wide, found), (-wide, radius), (wide, radius), (wide, found), (end, found)];
    let lower = upper.iter().rev().map(|(x, r)| p(*x, *r));
    sketch.section(upper.iter().map(|(x, r)| p(*x, -r)).chain(lower).collect(), 0);
    if found > radius {
        for side in [-1.0, 1.0] {
            let (a, b) = ((side * radius).min(side * found), (side * radius).max(side * found));
            sketch.cut_away(rectangle(-wide, a, wide, b));
        }
        // The groove at its depth.
        let groove = answer.value(GROOVE.key).map(|value| value.number).filter(|deep| *deep < found - radius + DUST);
        let groove = groove.zip(asked.groove_width.as_ref()).map(|(deep, at)| (deep, at.value.number() / 2.0));
        let groove = groove.filter(|(_, half)| *half < wide);
        if let Some((deep, half)) = groove {
            sketch.void(rectangle(-half, -found, half, deep - found));
            sketch.void(rectangle(-half, found - deep, half, found));
        }
        let at = groove.map_or(-0.5 * wide, |(_, half)| -half);
        sketch.detail(p(at, -f64::midpoint(radius, found)), found - radius);
    }
    sketch.breaks(p(-end, -found), p(-end, found)).breaks(p(end, -found), p(end, found));
    sketch.line(Stroke::Centre, vec![p(-end, 0.0), p(end, 0.0)]);
    // Cloth in its holder, pressed straight in.
    let (near, far) = (-found * (1.0 + CLEAR), -found * (1.0 + CLEAR + HELD));
    sketch.tooling(rectangle(-wide, far, wide, near));
    sketch.breaks(p(-wide, far), p(wide, far));
    sketch.push(Item::Feed { from: p(1.6 * wide, far), to: p(1.6 * wide, near) });
    let left = answer.value(CASE_LEFT.key).map(|value| value.number);
    for side in [-1.0, 1.0] {
        sketch.line(Stroke::Thin, vec![p(side * wide, -radius), p(side * wide, radius)]);
        if let Some(left) = left.filter(|left| (0.0..radius).contains(left)) {
            let y = side * (radius - left);
            sketch.line(Stroke::Hidden, vec![p(-end, y), p(end, y)]);
        }
    }
    sketch
        .face("track upper", p(-wide, -radius), p(wide, -radius))
        .face("track lower", p(-wide, radius), p(wide, radius))
        .between("track upper", "track lower", Side::Right, Shows::diameter(DIAMETER_AFTER.key));
    // Too smooth a track carries no oil.
    let shows = Shows::roughness_between(FINISH_MOST.key, FINISH_LEAST.key);
    sketch.push(Item::Roughness { at: p(0.0, radius), towards: Side::Below, shows });
    sketch
}
