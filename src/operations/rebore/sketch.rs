//! The cylinder cut through, true to scale: its wall at the thinnest, what is bored out, and how far.

use super::keys::Bore;
use super::names::{BORED, FINISH, WALL, WORST};
use crate::drawing::{Balloon, Point, Shows, Side, Sketch, Stroke, rectangle};
use crate::operations::{Answer, turning};
use crate::quantity::Quantity;

/// Draws it, bored or finished: the thinnest wall below, what the outside has more above. No sheet shows another size than its own.
pub(super) fn draw(asked: &Bore, answer: &Answer, finished: bool) -> Sketch {
    let number = |key: &str| answer.value(key).map(|value| value.number);
    let mut sketch = Sketch::default();
    let made = if finished { FINISH.key } else { BORED.key };
    let (Some(bored), Some(found), Some(wall)) = (number(made), number(WORST.key), number(WALL.key)) else {
        return sketch;
    };
    let outside = asked.outside.as_ref().and_then(|about| about.size.value.typed());
    let Some(outside) = outside.filter(|outside| wall > 0.0 && found < bored && bored + 2.0 * wall <= *outside) else {
        return sketch;
    };
    let (inner, old, long) = (bored / 2.0, found / 2.0, asked.length.value.number());
    let p = Point::new;
    let (low, high) = (inner + wall, -(outside - inner - wall));
    // Where the thinnest wall is a size, what is above the axis does not stand for what is below.
    sketch.round = Some(outside).filter(|_| !finished);
    sketch.section(rectangle(-long, inner, 0.0, low), 0);
    sketch.section(rectangle(-long, high, 0.0, -inner), 0);
    for half in turning::halves(old, inner, -long, 0.0) {
        sketch.cut_away(half);
    }
    sketch.line(Stroke::Visible, vec![p(0.0, -inner), p(0.0, inner)]);
    sketch.line(Stroke::Visible, vec![p(-long, -inner), p(-long, inner)]);
    sketch.line(Stroke::Centre, vec![p(-long, 0.0), p(0.0, 0.0)]);
    sketch
        .face("bored upper", p(-long, -inner), p(0.0, -inner))
        .face("bored lower", p(-long, inner), p(0.0, inner))
        .face("outside lower", p(-long, low), p(0.0, low))
        .between("bored upper", "bored lower", Side::Right, Shows::diameter(made))
        .detail(p(-0.8 * long, -f64::midpoint(old, inner)), inner - old);
    if finished {
        sketch.between("bored lower", "outside lower", Side::Left, Shows::value(WALL.key));
        return sketch;
    }
    // Where no ring runs: at the face that the bar enters.
    sketch.balloon(Balloon::Indicator, p(-0.03 * long, -old), Side::Below);
    sketch
}
