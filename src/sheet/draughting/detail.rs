//! Details: a place too thin to be seen, drawn once more inside a circle at a larger scale.

use super::Cheapest;
use super::dimensions::{self, Wanted};
use super::labels::{self, DIGIT, Says};
use super::lay::{Align, Block, Circled, Lay, Layer};
use super::part::parts;
use super::scale::{Scale, View};
use super::symbols::{ring, round};
use super::{Fault, Point, SIDES, clip};
use crate::drawing::{Item, Side, Sketch};
use crate::sheet::fonts::Font;
use crate::sheet::page::Rect;
use nalgebra::Vector2;

/// Radius of a detail on the paper, and where there is no room for it, mm.
pub(super) const RADII: [f64; 2] = [13.0, 9.0];
/// Least radius of the ring about its place on the sketch, mm of paper.
const LEAST_RING: f64 = 2.0;
/// Ends of a dimension so far from the middle of a detail still lie well inside it, in radii.
const WELL_INSIDE: f64 = 0.75;
/// Between the drawing and a detail, and between a detail and its dimension line, mm.
const APART: f64 = 4.0;

/// Between the circle of a detail and its name, mm.
const UNDER_CIRCLE: f64 = 2.0;
/// Air about a detail, mm at least.
const AIR: f64 = 1.0;
/// Places tried for a detail: so far apart, mm.
const STEP: f64 = 3.0;
/// So far beyond its circle a detail is cut off before it is hatched, mm.
const BEYOND: f64 = 1.0;
/// What a millimetre between a detail and its place weighs against the room that it takes.
const NEARNESS: f64 = 1e-3;

/// A detail.
pub(super) struct Detail {
    pub(super) letter: char,
    pub(super) scale: Scale,
    /// Its middle, mm of the part.
    at: Point,
    /// Radius of its circle, mm of paper.
    radius: f64,
    /// The dimensions that stand in it, about its middle.
    sizes: Vec<Wanted>,
}

/// The details that a sketch needs at a scale. The dimensions of what they show go over to them.
pub(super) fn wanted(sketch: &Sketch, view: &View, radius: f64, sizes: &mut Vec<Wanted>) -> Vec<Detail> {
    let mut all: Vec<Detail> = Vec::new();
    for item in &sketch.items {
        let Item::Detail { at, across } = item else { continue };
        let (Some(scale), Some(letter)) = (view.scale.of_detail(*across), ('A'..='H').nth(all.len())) else { continue };
        let times = scale.factor() / view.scale.factor();
        let middle = view.at(*at);
        let (inside, others): (Vec<Wanted>, Vec<Wanted>) = std::mem::take(sizes).into_iter().partition(|size| {
            [size.from, size.to].iter().all(|end| (end - middle).norm() * times < WELL_INSIDE * radius)
        });
        *sizes = others;
        let larger = |p: Point| Point::from((p - middle) * times);
        let inside = inside.into_iter().map(|size| Wanted { from: larger(size.from), to: larger(size.to), ..size });
        all.push(Detail { letter, scale, at: *at, radius, sizes: inside.collect() });
    }
    all
}

/// Draws a thin ring about the place of each detail; its letter finds its place among the labels.
pub(super) fn ringed(lay: &mut Lay, view: &View, details: &[Detail]) -> Result<Vec<labels::Wanted>, Fault> {
    let mut letters = Vec::new();
    for detail in details {
        let (at, radius) = (view.at(detail.at), detail.radius * view.scale.factor() / detail.scale.factor());
        let radius = radius.max(LEAST_RING);
        lay.taken.push(Rect::new(at.x, at.y, at.x, at.y).grown(radius));
        lay.thin(ring(at, radius));
        let block = Block::new(Font::Bold, DIGIT, [detail.letter.to_string()])?;
        letters.push(labels::Wanted { at, side: Side::Above, says: Says::Letter, block });
    }
    Ok(letters)
}

/// Draws each detail where it is free and leaves most of the room; the first without a place leaves the drawing crowded.
pub(super) fn place(lay: &mut Lay, sketch: &Sketch, view: &View, details: &[Detail]) -> Result<(), Fault> {
    for detail in details {
        let name = Block::new(Font::Bold, lay.capital, [format!("{}  {}", detail.letter, detail.scale)])?;
        let [left, right, above, below] = about(detail);
        let radius = detail.radius;
        let size = Vector2::new(left + 2.0 * radius + right, above + 2.0 * radius + below + UNDER_CIRCLE + name.height);
        let found = free_corner(lay, size, view.at(detail.at));
        let Some(corner) = lay.or_crowded(found.map(Some), None) else { return Ok(()) };
        let middle = corner + Vector2::new(left + radius, above + radius);
        one(lay, sketch, detail, middle);
        let top = middle.y + radius + below + UNDER_CIRCLE;
        lay.set(&name, middle.x - name.width / 2.0, top, Align::Left);
    }
    Ok(())
}

/// How far the dimensions of a detail reach out of its circle on each side, mm: their rows, and figures beyond their ends.
fn about(detail: &Detail) -> [f64; 4] {
    let rows = SIDES.map(|side| match dimensions::margin(side, &detail.sizes) {
        none if none <= 0.0 => 0.0,
        some => some + APART,
    });
    let beyond = dimensions::taken(&detail.sizes);
    let [left, right, above, below] =
        [-beyond.left, beyond.right, -beyond.top, beyond.bottom].map(|out| out - detail.radius);
    let [rows_left, rows_right, rows_above, rows_below] = rows;
    [rows_left.max(left), rows_right.max(right), rows_above.max(above), rows_below.max(below)]
}

/// Left upper corner of the free box of a size that leaves most of the room; of such the one nearest to its place.
pub(super) fn free_corner(lay: &mut Lay, size: Vector2<f64>, at: Point) -> Option<Point> {
    let window = lay.window(size, APART)?;
    if window.width() < size.x || window.height() < size.y {
        return None;
    }
    lay.survey();
    let steps = |low: f64, high: f64| {
        std::iter::successors(Some(low), |at| Some(at + STEP)).take_while(move |at| *at <= high).chain([high])
    };
    let shadow = lay.blocked.shadow(size.add_scalar(2.0 * AIR));
    let mut corners: Vec<(f64, Point)> = Vec::new();
    for x in steps(window.left, window.right - size.x).filter(|x| *x >= window.left) {
        for y in steps(window.top, window.bottom - size.y).filter(|y| *y >= window.top) {
            let corner = Point::new(x, y);
            if shadow.takes(Point::new(x - AIR, y - AIR)) {
                continue;
            }
            let room = box_at(corner, size);
            if lay.holds(&room) {
                corners.push((lay.fullness(&room) + (room.centre() - at).norm() * NEARNESS, corner));
            }
        }
    }
    let free = |corner: &Point| {
        let room = box_at(*corner, size).grown(AIR);
        lay.free(&room) && !lay.crossed(&room)
    };
    Cheapest::of(corners).map(|(_, corner)| corner).find(free)
}

fn box_at(corner: Point, size: Vector2<f64>) -> Rect {
    Rect::new(corner.x, corner.y, corner.x + size.x, corner.y + size.y)
}

/// One detail about its middle on the paper.
fn one(lay: &mut Lay, sketch: &Sketch, detail: &Detail, middle: Point) {
    let view = View::about(detail.scale, detail.at, middle);
    let (mut layers, breaks) = parts(sketch, &view);
    let radius = detail.radius;
    let round = round(middle, radius);
    // At its scale the whole part would be metres of hatching.
    let near = Rect::new(middle.x, middle.y, middle.x, middle.y).grown(radius + BEYOND);
    layers.retain_mut(|layer| match layer {
        Layer::Shape(_, outline) => {
            *outline = clip::to_box(outline, &near);
            outline.len() > 2
        }
        Layer::Line(_) => true,
    });
    lay.circled.push(Circled { circle: round, layers, breaks });
    lay.thin(ring(middle, radius));
    lay.taken.push(Rect::new(middle.x, middle.y, middle.x, middle.y).grown(radius));
    for size in &detail.sizes {
        let here = Wanted { from: middle + size.from.coords, to: middle + size.to.coords, ..size.clone() };
        let across = match here.side {
            Side::Left => middle.x - radius - APART,
            Side::Right => middle.x + radius + APART,
            Side::Above => middle.y - radius - APART,
            Side::Below => middle.y + radius + APART,
        };
        dimensions::place_at(lay, here, across);
    }
}
