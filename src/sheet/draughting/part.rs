//! The part itself on the paper: its shapes and lines in the order of the sketch.

use super::lay::{Kind, Layer, Pen, Ruled};
use super::scale::View;
use super::{Fault, Point, ink, symbols};
use crate::drawing::{self, Item, Sketch};
use crate::sheet::page::Dash;

/// How far an axis runs out beyond the ends that the sketch gives it, mm of paper.
const RUN_OUT: f64 = 3.0;

/// Everything of the part on the paper, and the breaks in it.
pub(super) fn parts(sketch: &Sketch, view: &View) -> (Vec<Layer>, Vec<(Point, Point)>) {
    let breaks = sketch.items.iter().filter_map(|item| match item {
        Item::Break { from, to } | Item::Symmetry { from, to } => Some((view.at(*from), view.at(*to))),
        _ => None,
    });
    let breaks: Vec<_> = breaks.collect();
    let layers = sketch.items.iter().flat_map(|item| layers(item, view, &breaks)).collect();
    (layers, breaks)
}

/// Refuses coordinates that are not finite.
pub(super) fn finite(sketch: &Sketch) -> Result<(), Fault> {
    for (i, item) in sketch.items.iter().enumerate() {
        let (points, more): (&[Point], Vec<f64>) = match item {
            Item::Section { outline: p, .. }
            | Item::CutAway(p)
            | Item::Void(p)
            | Item::Old(p)
            | Item::Jaw(p)
            | Item::Tooling(p)
            | Item::Moving { outline: p, .. }
            | Item::Line { points: p, .. } => (p, Vec::new()),
            Item::Circle { centre, radius, .. } => (std::slice::from_ref(centre), vec![*radius]),
            Item::Arc { centre, radius, from, to, .. } => (std::slice::from_ref(centre), vec![*radius, *from, *to]),
            Item::Thread { from, to }
            | Item::Dimension { from, to, .. }
            | Item::Break { from, to }
            | Item::Symmetry { from, to }
            | Item::Feed { from, to } => (&[], vec![from.x, from.y, to.x, to.y]),
            Item::Label { at, .. }
            | Item::Reads { at, .. }
            | Item::Turning { at, .. }
            | Item::Roughness { at, .. }
            | Item::Datum { at, .. }
            | Item::Balloon { at, .. }
            | Item::Indicator { at, .. } => (std::slice::from_ref(at), Vec::new()),
            Item::Detail { at, across } => (std::slice::from_ref(at), vec![*across]),
            Item::Tool { nose, feed, free, edge } => {
                (std::slice::from_ref(nose), vec![feed.x, feed.y, free.x, free.y, *edge])
            }
        };
        if !points.iter().flat_map(|p| [p.x, p.y]).chain(more).all(f64::is_finite) {
            return Err(Fault::NotFinite { number: i + 1, item: item.to_string() });
        }
    }
    Ok(())
}

/// An item of the part itself on the paper.
fn layers(item: &Item, view: &View, breaks: &[(Point, Point)]) -> Vec<Layer> {
    let line = |stroke: drawing::Stroke, points: Vec<Point>| vec![Layer::Line(stroke_of(stroke, points))];
    let shape = |kind: Kind, outline: &[Point]| vec![Layer::Shape(kind, view.all(outline))];
    // Open outlines hide nothing of what lies below them.
    let open = |outline: &[Point]| -> Vec<Layer> {
        let runs = ink::unbroken(&view.all(outline), breaks).into_iter();
        runs.map(|points| Layer::Line(stroke_of(drawing::Stroke::Phantom, points))).collect()
    };
    match item {
        Item::Section { outline, hatch } => shape(Kind::Section(*hatch), outline),
        Item::CutAway(outline) => shape(Kind::CutAway, outline),
        Item::Void(outline) => shape(Kind::Void, outline),
        Item::Tooling(outline) => shape(Kind::Tooling, outline),
        Item::Moving { outline, .. } => shape(Kind::Moving, outline),
        Item::Old(outline) => shape(Kind::Old, outline),
        Item::Jaw(outline) => open(outline),
        Item::Break { from, to } => line(drawing::Stroke::Thin, symbols::zigzag(view.at(*from), view.at(*to))),
        Item::Symmetry { from, to } => line(drawing::Stroke::Centre, view.all(&[*from, *to])),
        Item::Line { stroke, points } => line(*stroke, view.all(points)),
        Item::Circle { stroke, centre, radius } => line(*stroke, view.all(&drawing::arc(*centre, *radius, 0.0, 360.0))),
        Item::Arc { stroke, centre, radius, from, to } => {
            line(*stroke, view.all(&drawing::arc(*centre, *radius, *from, *to)))
        }
        Item::Thread { from, to } => line(drawing::Stroke::Thin, view.all(&[*from, *to])),
        _ => Vec::new(),
    }
}

fn stroke_of(stroke: drawing::Stroke, mut points: Vec<Point>) -> Ruled {
    let (pen, dash) = match stroke {
        drawing::Stroke::Visible => (Pen::Thick, Dash::Whole),
        drawing::Stroke::Thin => (Pen::Thin, Dash::Whole),
        drawing::Stroke::Centre => (Pen::Thin, Dash::Chain),
        drawing::Stroke::Hidden => (Pen::Thin, Dash::Short),
        drawing::Stroke::Phantom => (Pen::Thin, Dash::Phantom),
    };
    if let ([a, b], Dash::Chain) = (points.as_mut_slice(), dash)
        && let Some(way) = (*b - *a).try_normalize(1e-9)
    {
        (*a, *b) = (*a - way * RUN_OUT, *b + way * RUN_OUT);
    }
    Ruled { points, pen, dash }
}
