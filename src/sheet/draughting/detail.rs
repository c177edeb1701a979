//! Details: a place too thin to be seen, drawn once more inside a circle at a larger scale.

use super::dimensions::{self, Wanted};
use super::labels::{self, Says};
use super::lay::{Align, Block, Circled, Lay, Pen, Stroke};
use super::scale::{Scale, View};
use super::{Fault, Point, parts};
use crate::drawing::{Item, Side, Sketch, circle};
use crate::sheet::fonts::Font;
use crate::sheet::page::{Dash, Rect};

/// Radius of a detail on the paper, mm.
const RADIUS: f64 = 13.0;
/// Least radius of the ring about its place on the sketch, mm of paper.
const LEAST_RING: f64 = 2.0;
/// Ends of a dimension so far from the middle of a detail still lie well inside it, in radii.
const WELL_INSIDE: f64 = 0.75;
/// Between the drawing and a detail, and between a detail and its dimension line, mm.
const APART: f64 = 4.0;

/// A detail.
pub(super) struct Detail {
    pub(super) letter: char,
    pub(super) scale: Scale,
    /// Its middle, mm of the part.
    at: Point,
    /// The dimensions that stand in it, about its middle.
    sizes: Vec<Wanted>,
}

/// The details that a sketch needs at a scale. The dimensions of what they show go over to them.
pub(super) fn wanted(sketch: &Sketch, view: &View, sizes: &mut Vec<Wanted>) -> Vec<Detail> {
    let mut all: Vec<Detail> = Vec::new();
    for item in &sketch.items {
        let Item::Detail { at, across } = item else { continue };
        let (Some(scale), Some(letter)) = (view.scale.of_detail(*across), ('A'..='H').nth(all.len())) else { continue };
        let times = scale.factor() / view.scale.factor();
        let middle = view.at(*at);
        let (inside, others): (Vec<Wanted>, Vec<Wanted>) = std::mem::take(sizes).into_iter().partition(|size| {
            [size.from, size.to].iter().all(|end| (end - middle).norm() * times < WELL_INSIDE * RADIUS)
        });
        *sizes = others;
        let larger = |p: Point| Point::from((p - middle) * times);
        let inside = inside.into_iter().map(|size| Wanted { from: larger(size.from), to: larger(size.to), ..size });
        all.push(Detail { letter, scale, at: *at, sizes: inside.collect() });
    }
    all
}

/// Draws a thin ring about the place of each detail; its letter finds its place among the labels.
pub(super) fn ringed(lay: &mut Lay, view: &View, details: &[Detail]) -> Vec<labels::Wanted> {
    let mut letters = Vec::new();
    for detail in details {
        let (at, radius) = (view.at(detail.at), RADIUS * view.scale.factor() / detail.scale.factor());
        let radius = radius.max(LEAST_RING);
        let mut ring = circle(at, radius);
        ring.extend(ring.first().copied());
        lay.taken.push(Rect::new(at.x, at.y, at.x, at.y).grown(radius));
        lay.strokes.push(Stroke { points: ring, pen: Pen::Thin, dash: Dash::Whole });
        letters.push(labels::Wanted { at, side: Side::Above, says: Says::Letter(detail.letter) });
    }
    letters
}

/// Draws the details right of the drawing, under each other, or below it, beside each other.
pub(super) fn place(lay: &mut Lay, sketch: &Sketch, details: &[Detail], below: bool) -> Result<(), Fault> {
    for detail in details {
        let Some(reach) = lay.bounds() else { return Ok(()) };
        let name = Block::new(Font::Bold, lay.capital, [format!("{}  {}", detail.letter, detail.scale)])?;
        let margin = |side: Side| match dimensions::margin(side, &detail.sizes) {
            none if none <= 0.0 => 0.0,
            some => some + APART,
        };
        let middle = if below {
            Point::new(reach.left + RADIUS + margin(Side::Left), reach.bottom + APART + margin(Side::Above) + RADIUS)
        } else {
            let high = margin(Side::Above) + 2.0 * RADIUS + APART + name.height;
            let top = reach.centre().y - high / 2.0 + margin(Side::Above);
            Point::new(reach.right + APART + margin(Side::Left) + RADIUS, top + RADIUS)
        };
        one(lay, sketch, detail, middle)?;
        lay.set(&name, middle.x - name.width / 2.0, middle.y + RADIUS + margin(Side::Below) + 2.0, Align::Left)?;
    }
    Ok(())
}

/// One detail about its middle on the paper.
fn one(lay: &mut Lay, sketch: &Sketch, detail: &Detail, middle: Point) -> Result<(), Fault> {
    let view = View::about(detail.scale, detail.at, middle);
    let (layers, breaks) = parts(sketch, &view);
    let round = circle(middle, RADIUS);
    let mut ring = round.clone();
    ring.extend(ring.first().copied());
    lay.circled.push(Circled { circle: round, layers, breaks });
    lay.strokes.push(Stroke { points: ring, pen: Pen::Thin, dash: Dash::Whole });
    lay.taken.push(Rect::new(middle.x, middle.y, middle.x, middle.y).grown(RADIUS));
    for size in &detail.sizes {
        let here = Wanted { from: middle + size.from.coords, to: middle + size.to.coords, ..size.clone() };
        let across = match here.side {
            Side::Left => middle.x - RADIUS - APART,
            Side::Right => middle.x + RADIUS + APART,
            Side::Above => middle.y - RADIUS - APART,
            Side::Below => middle.y + RADIUS + APART,
        };
        dimensions::place_at(lay, here, across)?;
    }
    Ok(())
}
