//! From the laid-out sketch to marks: what is seen of each line, hatching, and the order of ink.

use super::clip::OnTop;
use super::lay::{Kind, Lay, Layer, Pen, Ruled, runs};
use super::{Fault, Point, clip, hatching};
use crate::sheet::page::{self, Anchor, AreaId, Dash, Fill, Page, Rect, Role, Text};
use nalgebra::Vector2;

/// Metal thinner than this on the paper is filled black instead of hatched, mm (ISO 128: thin sections).
const BLACK: f64 = 1.0;
/// Nearer than this to a break an edge is left out, mm.
const IN_BREAK: f64 = 0.02;
/// Air about words where lines stop, mm.
const AIR: f64 = 0.6;

/// Puts the laid-out sketch on the page: thin lines first, then thick ones, solids, words.
pub(super) fn draw(page: &mut Page, area: AreaId, lay: &Lay, shift: Vector2<f64>) -> Result<(), Fault> {
    let words: Vec<Rect> = lay.words.iter().map(|w| w.bounds.grown(AIR)).collect();
    let here = |points: &[Point]| points.iter().map(|p| p + shift).collect::<Vec<_>>();
    let mut black = Vec::new();
    let mut lines = part((&lay.layers, &lay.breaks), &words, Some(&mut black));
    for solid in black {
        page.polygon(area, here(solid), Fill::Ink, None);
    }
    for detail in &lay.circled {
        let within = |line: Ruled| inside(&line, &detail.circle);
        lines.extend(part((&detail.layers, &detail.breaks), &[], None).into_iter().flat_map(within));
    }
    let (thick, thin): (Vec<Ruled>, Vec<Ruled>) = lines.into_iter().partition(|line| line.pen == Pen::Thick);
    let covers = OnTop::default();
    let others = lay.strokes.iter().flat_map(|(_, s)| seen(s, &covers, if s.pen == Pen::Thin { &words } else { &[] }));
    for line in thin.into_iter().chain(others).chain(thick) {
        page.line(area, here(&line.points), line.pen.width(), line.dash);
    }
    for (_, solid) in &lay.solids {
        page.polygon(area, here(solid), Fill::Ink, None);
    }
    for w in &lay.words {
        let text = Text::new(w.font, Role::Body, w.capital, w.text.clone());
        if let Some(means) = w.means {
            page.open_as(page::Kind::Span, means);
        }
        let set = page.text(area, w.at + shift, Anchor::Left, text);
        if w.means.is_some() {
            page.close();
        }
        set?;
    }
    Ok(())
}

/// The lines of the part, hatching too; metal too thin to be hatched goes to `black`, where there is one.
fn part<'a>(
    (layers, breaks): (&'a [Layer], &[(Point, Point)]),
    words: &[Rect],
    mut black: Option<&mut Vec<&'a [Point]>>,
) -> Vec<Ruled> {
    let mut lines = Vec::new();
    let boxes: Vec<Option<Rect>> = layers.iter().map(box_of).collect();
    for (i, (layer, here_about)) in layers.iter().zip(&boxes).enumerate() {
        let Some(here_about) = here_about else { continue };
        let near = |about: &Option<Rect>| about.is_some_and(|about| about.grown(AIR).overlaps(here_about));
        let above = layers.iter().zip(&boxes).skip(i + 1).filter(|(_, about)| near(about));
        let on_top: Vec<&[Point]> = above.filter_map(|(other, _)| shape(other)).collect();
        let covers = OnTop::of(on_top.iter().copied());
        let words: Vec<Rect> = words.iter().filter(|w| w.overlaps(here_about)).copied().collect();
        match layer {
            Layer::Shape(kind, outline) => {
                let (pen, dash) = match kind {
                    Kind::Moving | Kind::Old => (Pen::Thin, Dash::Phantom),
                    Kind::Tooling => (Pen::Thin, Dash::Whole),
                    Kind::Section(_) | Kind::CutAway | Kind::Void => (Pen::Thick, Dash::Whole),
                };
                let thin_metal = Rect::about(outline).is_some_and(|r| r.width().min(r.height()) < BLACK);
                let hatching = match kind {
                    Kind::Section(hatch) => match black.as_mut().filter(|_| thin_metal) {
                        Some(black) => {
                            black.push(outline);
                            Vec::new()
                        }
                        None => hatching::section(outline, *hatch, &on_top, &words),
                    },
                    Kind::CutAway => hatching::crossed(outline, &on_top, &words),
                    Kind::Void | Kind::Moving | Kind::Tooling | Kind::Old => Vec::new(),
                };
                let thin = |(a, b)| Ruled { points: vec![a, b], pen: Pen::Thin, dash: Dash::Whole };
                lines.extend(hatching.into_iter().map(thin));
                let around = unbroken(outline, breaks).into_iter();
                lines.extend(around.flat_map(|points| seen(&Ruled { points, pen, dash }, &covers, &[])));
            }
            Layer::Line(line) => {
                let clear: &[Rect] = if line.pen == Pen::Thick { &[] } else { &words };
                lines.extend(seen(line, &covers, clear));
            }
        }
    }
    lines
}

/// A closed outline as runs of edges, those left out that lie in a break.
pub(super) fn unbroken(outline: &[Point], breaks: &[(Point, Point)]) -> Vec<Vec<Point>> {
    let broken = |a: Point, b: Point| {
        breaks.iter().any(|(c, d)| clip::distance(a, *c, *d) < IN_BREAK && clip::distance(b, *c, *d) < IN_BREAK)
    };
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for (a, b) in clip::edges(outline).filter(|(a, b)| !broken(*a, *b)) {
        match runs.last_mut() {
            Some(run) if run.last().is_some_and(|end| (end - a).norm() < 1e-9) => run.push(b),
            _ => runs.push(vec![a, b]),
        }
    }
    runs
}

/// What of a line lies inside a closed shape.
fn inside(line: &Ruled, shape: &[Point]) -> Vec<Ruled> {
    let pieces = runs(&line.points).flat_map(|(a, b)| {
        clip::pieces(a, b, &clip::within(a, b, shape)).map(|(from, to)| vec![from, to]).collect::<Vec<_>>()
    });
    pieces.map(|points| Ruled { points, ..line.clone() }).collect()
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
fn seen(line: &Ruled, on_top: &OnTop, words: &[Rect]) -> Vec<Ruled> {
    let Some(about) = Rect::about(&line.points).filter(|_| line.points.len() > 1) else { return Vec::new() };
    if !on_top.meets(&about) && !words.iter().any(|text| text.overlaps(&about)) {
        return vec![line.clone()];
    }
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for (a, b) in line.points.iter().copied().zip(line.points.iter().copied().skip(1)) {
        let kept = on_top.leave(a, b, clip::whole(), words);
        for (from, to) in clip::pieces(a, b, &kept) {
            match runs.last_mut() {
                Some(run) if run.last().is_some_and(|end| (end - from).norm() < 1e-9) => run.push(to),
                _ => runs.push(vec![from, to]),
            }
        }
    }
    runs.into_iter().map(|points| Ruled { points, ..line.clone() }).collect()
}
