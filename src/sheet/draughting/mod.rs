//! Draughting: from a sketch in millimetres of the part to marks on the paper.
//!
//! A scale of ISO 5455 is tried, the largest first; at each the sketch is laid out whole, with symbols, labels and
//! dimensions, and the first that fits the room and can be read is drawn. Metal too thin to be seen at that scale is
//! stretched one way, and every size along that way then says NOT TO SCALE.

mod clip;
mod dimensions;
mod hatching;
mod ink;
mod labels;
mod lay;
mod scale;
mod symbols;
mod words;

pub use scale::{Scale, Stretch};

use super::fonts::{self, Font};
use super::page::{Anchor, AreaId, Dash, Page, Point, Rect, Role, Text};
use crate::drawing::{self, Drawn, Item, Shows, Side, Sketch};
use lay::{Align, Block, Kind, Lay, Layer, Pen, Stroke};
use scale::{SCALES, View};

/// Height of the capitals of a sketch, mm.
const CAPITAL: f64 = 3.0;
/// How far an axis runs out beyond the ends that the sketch gives it, mm of paper.
const RUN_OUT: f64 = 3.0;
/// Half of the thickest line, by which ink stands out of what is drawn, mm.
const EDGE: f64 = Pen::Thick.width() / 2.0;
/// Widest note beside a figure, mm: the longer ones are broken.
const BESIDE: f64 = 18.0;

/// Why a sketch cannot be drawn.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Fault {
    /// A dimension names a value that nobody has worked out: no figure is invented.
    #[error("the sketch shows {key}, which has no value")]
    NoValue {
        /// Name of the value.
        key: &'static str,
    },
    /// A coordinate is not a number, or not finite.
    #[error("item {number} of the sketch is not finite: {item}")]
    NotFinite {
        /// Counted from 1.
        number: usize,
        /// The item as golden files hold it.
        item: String,
    },
    /// Nothing is drawn.
    #[error("the sketch is empty")]
    Empty,
    /// It does not fit at any scale.
    #[error("the sketch does not fit {width:.0} × {height:.0} mm at any scale")]
    NoRoom {
        /// Width there is, mm.
        width: f64,
        /// Height there is, mm.
        height: f64,
    },
    /// A text cannot be set.
    #[error(transparent)]
    Letters(#[from] fonts::Fault),
}

/// What was drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Drawing {
    /// The scale, which the drawing prints itself.
    pub scale: Scale,
    /// What was stretched to be seen.
    pub stretch: Stretch,
    /// What the drawing covers, notes included.
    pub bounds: Rect,
}

/// Draws a sketch into `room` (mm of paper) of a page. `value` gives the text of a value by its name: a line feed in it
/// stacks limits.
///
/// # Errors
/// [`Fault`], and then nothing is drawn.
pub fn draw(
    page: &mut Page,
    area: AreaId,
    room: Rect,
    sketch: &Sketch,
    value: impl Fn(&str) -> Option<String>,
) -> Result<Drawing, Fault> {
    finite(sketch)?;
    let metal = scale::metal(sketch).ok_or(Fault::Empty)?;
    for scale in SCALES {
        let view = View::new(scale, &metal);
        // A scale at which the part alone is too large is not worth laying out.
        if metal.width() * scale.factor() > room.width() || metal.height() * scale.factor() > room.height() {
            continue;
        }
        let notes = notes(sketch, &view, room.width())?;
        let below = notes.len() as f64 * CAPITAL * fonts::LINE + 2.0;
        let space = Rect::new(room.left, room.top, room.right, room.bottom - below);
        let mut tried = [Sides::AsAsked, Sides::Balanced].into_iter();
        let Some((lay, bounds)) =
            tried.find_map(|sides| fitted(sketch, &view, &space, sides, &value).transpose()).transpose()?
        else {
            continue;
        };
        let shift = space.centre() - bounds.centre();
        let mut covered = bounds.moved(shift.x, shift.y);
        ink::draw(page, area, &lay, shift)?;
        let mut base = room.bottom - below + 2.0 + CAPITAL;
        for note in notes {
            let text = Text::new(Font::Sans, Role::Body, CAPITAL, note);
            covered = covered.and(&page.text(area, Point::new(room.left, base), Anchor::Left, text)?);
            base += CAPITAL * fonts::LINE;
        }
        return Ok(Drawing { scale, stretch: view.stretch, bounds: covered });
    }
    Err(Fault::NoRoom { width: room.width(), height: room.height() })
}

/// Which sides upright dimensions stand on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sides {
    AsAsked,
    Balanced,
}

/// The sketch laid out at one scale with its bounds, if it fits and can be read.
fn fitted(
    sketch: &Sketch,
    view: &View,
    space: &Rect,
    sides: Sides,
    value: &impl Fn(&str) -> Option<String>,
) -> Result<Option<(Lay, Rect)>, Fault> {
    let Some(lay) = lay_out(sketch, view, space, sides, value)? else {
        return Ok(None);
    };
    let bounds = lay.bounds().ok_or(Fault::Empty)?.grown(EDGE);
    Ok((fits(&bounds, space) && lay.legible()).then_some((lay, bounds)))
}

fn fits(bounds: &Rect, space: &Rect) -> bool {
    bounds.width() <= space.width() && bounds.height() <= space.height()
}

/// Refuses coordinates that are not finite.
fn finite(sketch: &Sketch) -> Result<(), Fault> {
    for (i, item) in sketch.items.iter().enumerate() {
        let (points, more): (&[Point], Vec<f64>) = match item {
            Item::Section { outline: p, .. }
            | Item::CutAway(p)
            | Item::Void(p)
            | Item::Moving { outline: p, .. }
            | Item::Line { points: p, .. } => (p, Vec::new()),
            Item::Circle { centre, radius, .. } => (std::slice::from_ref(centre), vec![*radius]),
            Item::Arc { centre, radius, from, to, .. } => (std::slice::from_ref(centre), vec![*radius, *from, *to]),
            Item::Thread { from, to } | Item::Dimension { from, to, .. } | Item::Feed { from, to } => {
                (&[], vec![from.x, from.y, to.x, to.y])
            }
            Item::Label { at, .. }
            | Item::Roughness { at, .. }
            | Item::Datum { at, .. }
            | Item::Indicator { at, .. } => (std::slice::from_ref(at), Vec::new()),
            Item::Exaggerated { factor, .. } => (&[], vec![*factor]),
        };
        if !points.iter().flat_map(|p| [p.x, p.y]).chain(more).all(f64::is_finite) {
            return Err(Fault::NotFinite { number: i + 1, item: item.to_string() });
        }
    }
    Ok(())
}

/// The scale, and what is not to scale.
fn notes(sketch: &Sketch, view: &View, width: f64) -> Result<Vec<String>, Fault> {
    let mut notes = vec![format!("{} {}", words::SCALE, view.scale)];
    match view.stretch {
        Stretch::None => {}
        Stretch::Width(k) => notes.push(words::stretched("widths", k)),
        Stretch::Height(k) => notes.push(words::stretched("heights", k)),
    }
    notes.extend(sketch.items.iter().filter_map(|item| match item {
        Item::Exaggerated { what, factor } => Some(words::exaggerated(what, *factor)),
        _ => None,
    }));
    let wrapped =
        notes.iter().map(|note| fonts::wrap(Font::Sans, CAPITAL, note, width)).collect::<Result<Vec<_>, _>>()?;
    Ok(wrapped.concat())
}

/// The whole sketch at one scale; nothing when it is already too large without its labels.
fn lay_out(
    sketch: &Sketch,
    view: &View,
    space: &Rect,
    sides: Sides,
    value: &impl Fn(&str) -> Option<String>,
) -> Result<Option<Lay>, Fault> {
    let text = |shows: &Shows| -> Result<String, Fault> {
        let known = value(shows.value).filter(|figure| !figure.trim().is_empty());
        let figure = known.ok_or(Fault::NoValue { key: shows.value })?;
        Ok(figure.lines().map(|line| before(shows.before, line)).collect::<Vec<_>>().join("\n"))
    };
    let mut lay = Lay::default();
    let mut labels = Vec::new();
    let mut dimensions = Vec::new();
    lay.layers = sketch.items.iter().filter_map(|item| layer(item, view)).collect();
    for item in &sketch.items {
        match item {
            Item::Moving { outline, label } => labels.extend(inside_or_beside(&mut lay, &view.all(outline), label)?),
            Item::Label { at, towards, text } => {
                labels.push(labels::Wanted { at: view.at(*at), side: *towards, text: text.clone() })
            }
            Item::Dimension { from, to, side, drawn, shows } => {
                let mut lines: Vec<String> = text(shows)?.lines().map(str::to_owned).collect();
                if not_to_scale(*side, *drawn, view.stretch) {
                    lines.extend(fonts::wrap(Font::Sans, CAPITAL, words::NOT_TO_SCALE, BESIDE)?);
                }
                let block = Block::new(Font::Sans, lines)?;
                dimensions.push(dimensions::Wanted { from: view.at(*from), to: view.at(*to), side: *side, block });
            }
            _ => {}
        }
    }
    if sides == Sides::Balanced {
        dimensions = dimensions::balanced(dimensions);
    }
    lay.lanes = dimensions::lanes(&dimensions);
    // What stands on a place of its own first; feed finds room beside it.
    for item in &sketch.items {
        match item {
            Item::Roughness { at, towards, shows } => {
                let figure = text(shows)?.replace('\n', " ");
                symbols::roughness(&mut lay, view.at(*at), *towards, &figure)?;
            }
            Item::Datum { at, towards, letter } => {
                symbols::datum(&mut lay, view.at(*at), *towards, *letter)?;
            }
            Item::Indicator { at, towards } => symbols::indicator(&mut lay, view.at(*at), *towards),
            _ => {}
        }
    }
    for item in &sketch.items {
        if let Item::Feed { from, to } = item {
            symbols::feed(&mut lay, view.at(*from), view.at(*to))?;
        }
    }
    for side in [Side::Left, Side::Right, Side::Above, Side::Below] {
        dimensions::place(&mut lay, side, &dimensions)?;
    }
    if !lay.bounds().is_some_and(|bounds| fits(&bounds.grown(EDGE), space)) {
        return Ok(None);
    }
    labels::place(&mut lay, &labels, (space.width() - 2.0 * EDGE, space.height() - 2.0 * EDGE))?;
    Ok(Some(lay))
}

/// A line of a figure with what stands before figures; words among the lines stay as they are.
fn before(sign: &str, line: &str) -> String {
    if line.starts_with(|c: char| c.is_ascii_digit()) { format!("{sign}{line}") } else { line.to_owned() }
}

/// Whether a dimension must say that it is not to scale.
fn not_to_scale(side: Side, drawn: Drawn, stretch: Stretch) -> bool {
    let along = match side {
        Side::Left | Side::Right => matches!(stretch, Stretch::Height(_)),
        Side::Above | Side::Below => matches!(stretch, Stretch::Width(_)),
    };
    along || drawn == Drawn::NotToScale
}

/// An item of the part itself on the paper.
fn layer(item: &Item, view: &View) -> Option<Layer> {
    let line = |stroke: drawing::Stroke, points: Vec<Point>| Layer::Line(stroke_of(stroke, points));
    Some(match item {
        Item::Section { outline, hatch } => Layer::Shape(Kind::Section(*hatch), view.all(outline)),
        Item::CutAway(outline) => Layer::Shape(Kind::CutAway, view.all(outline)),
        Item::Void(outline) => Layer::Shape(Kind::Void, view.all(outline)),
        Item::Moving { outline, .. } => Layer::Shape(Kind::Moving, view.all(outline)),
        Item::Line { stroke, points } => line(*stroke, view.all(points)),
        Item::Circle { stroke, centre, radius } => line(*stroke, view.all(&drawing::arc(*centre, *radius, 0.0, 360.0))),
        Item::Arc { stroke, centre, radius, from, to } => {
            line(*stroke, view.all(&drawing::arc(*centre, *radius, *from, *to)))
        }
        Item::Thread { from, to } => line(drawing::Stroke::Thin, view.all(&[*from, *to])),
        _ => return None,
    })
}

fn stroke_of(stroke: drawing::Stroke, mut points: Vec<Point>) -> Stroke {
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
    Stroke { points, pen, dash }
}

/// Sets the name of a neighbour inside it where there is room; else asks for a label.
fn inside_or_beside(lay: &mut Lay, outline: &[Point], label: &str) -> Result<Option<labels::Wanted>, Fault> {
    let Some(bounds) = Rect::about(outline) else {
        return Ok(None);
    };
    let block = Block::new(Font::Sans, [label.to_owned()])?;
    let c = bounds.centre();
    let room = block.bounds(c.x - block.width / 2.0, c.y - block.height / 2.0);
    let air = room.grown(1.5);
    let holds = [(air.left, air.top), (air.right, air.top), (air.right, air.bottom), (air.left, air.bottom)]
        .iter()
        .all(|(x, y)| clip::inside(Point::new(*x, *y), outline));
    if holds && !lay.edges().any(|(a, b)| room.crossed_by(a, b)) {
        lay.set(&block, room.left, room.top, Align::Left)?;
        return Ok(None);
    }
    Ok(Some(labels::Wanted { at: c, side: Side::Right, text: label.to_owned() }))
}

#[cfg(test)]
mod tests;
