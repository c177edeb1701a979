//! From the laid-out sketch to marks: what is seen of each line, hatching, and the order of ink.

use super::lay::{Kind, Lay, Layer, Pen, Stroke};
use super::{CAPITAL, Fault, Point, clip, hatching};
use crate::sheet::page::{Anchor, AreaId, Dash, Fill, Page, Rect, Role, Text};

/// Metal thinner than this on the paper is filled black instead of hatched, mm (ISO 128: thin sections).
const BLACK: f64 = 1.0;
/// Air about words where lines stop, mm.
const AIR: f64 = 0.6;

/// Puts the laid-out sketch on the page: thin lines first, then thick ones, solids, words.
pub(super) fn draw(page: &mut Page, area: AreaId, lay: &Lay, shift: nalgebra::Vector2<f64>) -> Result<(), Fault> {
    let words: Vec<Rect> = lay.words.iter().map(|w| w.bounds.grown(AIR)).collect();
    let here = |points: &[Point]| points.iter().map(|p| p + shift).collect::<Vec<_>>();
    let mut thick = Vec::new();
    for (i, layer) in lay.layers.iter().enumerate() {
        let Some(here_about) = box_of(layer) else { continue };
        let near = |other: &Layer| box_of(other).is_some_and(|r| r.grown(AIR).overlaps(&here_about));
        let on_top: Vec<&[Point]> =
            lay.layers.iter().skip(i + 1).filter(|other| near(other)).filter_map(shape).collect();
        let words: Vec<Rect> = words.iter().filter(|w| w.overlaps(&here_about)).copied().collect();
        match layer {
            Layer::Shape(kind, outline) => {
                let pen = if *kind == Kind::Moving { Pen::Thin } else { Pen::Thick };
                let dash = if *kind == Kind::Moving { Dash::Phantom } else { Dash::Whole };
                let thin_metal = Rect::about(outline).is_some_and(|r| r.width().min(r.height()) < BLACK);
                let hatching = match kind {
                    Kind::Section(_) if thin_metal => {
                        page.polygon(area, here(outline), Fill::Ink, None);
                        Vec::new()
                    }
                    Kind::Section(hatch) => hatching::section(outline, *hatch, &on_top, &words),
                    Kind::CutAway => hatching::crossed(outline, &on_top, &words),
                    Kind::Void | Kind::Moving => Vec::new(),
                };
                for (a, b) in hatching {
                    page.line(area, here(&[a, b]), Pen::Thin.width(), Dash::Whole);
                }
                let mut closed = outline.clone();
                closed.extend(outline.first());
                thick.extend(seen(&Stroke { points: closed, pen, dash }, &on_top, &[]));
            }
            Layer::Line(line) if line.pen == Pen::Thick => thick.extend(seen(line, &on_top, &[])),
            Layer::Line(line) => seen(line, &on_top, &words)
                .into_iter()
                .for_each(|s| page.line(area, here(&s.points), s.pen.width(), s.dash)),
        }
    }
    for line in
        lay.strokes.iter().flat_map(|s| seen(s, &[], if s.pen == Pen::Thin { &words } else { &[] })).chain(thick)
    {
        page.line(area, here(&line.points), line.pen.width(), line.dash);
    }
    for solid in &lay.solids {
        page.polygon(area, here(solid), Fill::Ink, None);
    }
    for w in &lay.words {
        page.text(area, w.at + shift, Anchor::Left, Text::new(w.font, Role::Body, CAPITAL, w.text.clone()))?;
    }
    Ok(())
}

fn box_of(layer: &Layer) -> Option<Rect> {
    match layer {
        Layer::Shape(_, outline) => Rect::about(outline),
        Layer::Line(line) => Rect::about(&line.points).map(|r| r.grown(AIR)),
    }
}

fn shape(layer: &Layer) -> Option<&[Point]> {
    match layer {
        Layer::Shape(_, outline) => Some(outline),
        Layer::Line(_) => None,
    }
}

/// What shapes on top and words leave of a line. A line that nothing touches stays one run, so that its corners join.
fn seen(line: &Stroke, on_top: &[&[Point]], words: &[Rect]) -> Vec<Stroke> {
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for (a, b) in line.points.iter().copied().zip(line.points.iter().copied().skip(1)) {
        let mut kept = clip::whole();
        for shape in on_top {
            kept = clip::under(a, b, &kept, shape);
        }
        for text in words {
            kept = clip::beside(a, b, &kept, text);
        }
        for (from, to) in clip::pieces(a, b, &kept) {
            match runs.last_mut() {
                Some(run) if run.last().is_some_and(|end| (end - from).norm() < 1e-9) => run.push(to),
                _ => runs.push(vec![from, to]),
            }
        }
    }
    runs.into_iter().map(|points| Stroke { points, ..line.clone() }).collect()
}
