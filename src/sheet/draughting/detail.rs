//! Details: a place too thin to be seen, drawn once more inside a circle at a larger scale.

use super::dimensions::{self, Wanted};
use super::labels::{self, DIGIT, Says};
use super::lay::{Align, Block, Circled, Lay};
use super::part::parts;
use super::scale::{Scale, View};
use super::{Fault, Point, SIDES};
use crate::drawing::{Item, Side, Sketch, circle};
use crate::sheet::fonts::Font;
use crate::sheet::page::Rect;
use nalgebra::Vector2;

/// Radius of a detail on the paper, mm.
const RADIUS: f64 = 13.0;
/// Least radius of the ring about its place on the sketch, mm of paper.
const LEAST_RING: f64 = 2.0;
/// Ends of a dimension so far from the middle of a detail still lie well inside it, in radii.
const WELL_INSIDE: f64 = 0.75;
/// Between the drawing and a detail, and between a detail and its dimension line, mm.
const APART: f64 = 4.0;

/// Between the circle of a detail and its name, mm.
const UNDER_CIRCLE: f64 = 2.0;
/// Places tried for a detail: so far apart, mm.
const STEP: f64 = 3.0;
/// What a millimetre between a detail and its place weighs against the room that it takes.
const NEARNESS: f64 = 1e-3;

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
pub(super) fn ringed(lay: &mut Lay, view: &View, details: &[Detail]) -> Result<Vec<labels::Wanted>, Fault> {
    let mut letters = Vec::new();
    for detail in details {
        let (at, radius) = (view.at(detail.at), RADIUS * view.scale.factor() / detail.scale.factor());
        let radius = radius.max(LEAST_RING);
        let mut ring = circle(at, radius);
        ring.extend(ring.first().copied());
        lay.taken.push(Rect::new(at.x, at.y, at.x, at.y).grown(radius));
        lay.thin(ring);
        let block = Block::new(Font::Bold, DIGIT, [detail.letter.to_string()])?;
        letters.push(labels::Wanted { at, side: Side::Above, says: Says::Letter, block });
    }
    Ok(letters)
}

/// Draws each detail where it is free and leaves most of the room; the first without a place leaves the drawing crowded.
pub(super) fn place(lay: &mut Lay, sketch: &Sketch, view: &View, details: &[Detail]) -> Result<(), Fault> {
    for detail in details {
        let name = Block::new(Font::Bold, lay.capital, [format!("{}  {}", detail.letter, detail.scale)])?;
        let [left, right, above, below] = SIDES.map(|side| match dimensions::margin(side, &detail.sizes) {
            none if none <= 0.0 => 0.0,
            some => some + APART,
        });
        let size = Vector2::new(left + 2.0 * RADIUS + right, above + 2.0 * RADIUS + below + UNDER_CIRCLE + name.height);
        let found = free_corner(lay, size, view.at(detail.at));
        let Some(corner) = lay.or_crowded(found.map(Some), None) else { return Ok(()) };
        let middle = corner + Vector2::new(left + RADIUS, above + RADIUS);
        one(lay, sketch, detail, middle);
        let top = middle.y + RADIUS + below + UNDER_CIRCLE;
        lay.set(&name, middle.x - name.width / 2.0, top, Align::Left);
    }
    Ok(())
}

/// Left upper corner of the free box of a size that leaves most of the room; of such the one nearest to its place.
fn free_corner(lay: &Lay, size: Vector2<f64>, at: Point) -> Option<Point> {
    let window = lay.window(size, APART)?;
    let steps = |low: f64, high: f64| {
        std::iter::successors(Some(low), |at| Some(at + STEP)).take_while(move |at| *at <= high).chain([high])
    };
    let mut corners: Vec<(f64, Point)> = Vec::new();
    for x in steps(window.left, window.right - size.x).filter(|x| *x >= window.left) {
        for y in steps(window.top, window.bottom - size.y).filter(|y| *y >= window.top) {
            let corner = Point::new(x, y);
            let room = box_at(corner, size);
            if lay.holds(&room) {
                corners.push((lay.fullness(&room) + (room.centre() - at).norm() * NEARNESS, corner));
            }
        }
    }
    corners.sort_unstable_by(|a, b| a.0.total_cmp(&b.0));
    let free = |corner: &Point| {
        let room = box_at(*corner, size).grown(1.0);
        lay.free(&room) && !lay.crossed(&room)
    };
    corners.into_iter().map(|(_, corner)| corner).find(free)
}

fn box_at(corner: Point, size: Vector2<f64>) -> Rect {
    Rect::new(corner.x, corner.y, corner.x + size.x, corner.y + size.y)
}

/// One detail about its middle on the paper.
fn one(lay: &mut Lay, sketch: &Sketch, detail: &Detail, middle: Point) {
    let view = View::about(detail.scale, detail.at, middle);
    let (layers, breaks) = parts(sketch, &view);
    let round = circle(middle, RADIUS);
    let mut ring = round.clone();
    ring.extend(ring.first().copied());
    lay.circled.push(Circled { circle: round, layers, breaks });
    lay.thin(ring);
    lay.taken.push(Rect::new(middle.x, middle.y, middle.x, middle.y).grown(RADIUS));
    for size in &detail.sizes {
        let here = Wanted { from: middle + size.from.coords, to: middle + size.to.coords, ..size.clone() };
        let across = match here.side {
            Side::Left => middle.x - RADIUS - APART,
            Side::Right => middle.x + RADIUS + APART,
            Side::Above => middle.y - RADIUS - APART,
            Side::Below => middle.y + RADIUS + APART,
        };
        dimensions::place_at(lay, here, across);
    }
}
