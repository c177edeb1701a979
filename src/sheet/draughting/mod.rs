//! Draughting: from a sketch in millimetres of the part to marks on the paper.
//!
//! The scale is the largest of ISO 5455 at which the extents fit: the part, and on each side the rows of its dimensions. At
//! that scale the sketch is laid out once, with symbols, labels and dimensions; only where it then cannot be read is the next
//! scale taken. Metal too thin to be seen at that scale is
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
/// Between a drawing and the notes under it, mm.
const ABOVE_NOTES: f64 = 2.0;

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
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The scale, which the drawing prints itself.
    pub scale: Scale,
    /// What was stretched to be seen.
    pub stretch: Stretch,
    /// What the drawing covers, notes included.
    pub bounds: Rect,
    /// The notes under it, each in one line: its scale, what is drawn larger.
    pub notes: Vec<String>,
}

/// A sketch with its figures measured, ready to be drawn in a room: laid out once at each scale that it is asked for.
#[derive(Debug)]
pub struct Draft {
    sketch: Sketch,
    metal: Rect,
    sizes: Vec<Size>,
    /// Texts of the roughness signs, in the order of the sketch.
    roughness: Vec<String>,
    laid: Vec<Laid>,
}

/// A dimension with its figure, before a scale is chosen.
#[derive(Debug)]
struct Size {
    from: Point,
    to: Point,
    side: Side,
    drawn: Drawn,
    lines: Vec<String>,
}

/// The sketch laid out at one scale.
#[derive(Debug)]
struct Laid {
    scale: Scale,
    sides: Sides,
    lay: Lay,
    bounds: Rect,
    legible: bool,
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
    Draft::new(sketch.clone(), value)?.draw(page, area, room)
}

impl Draft {
    /// Reads a sketch; `value` gives the text of a value by its name, as for [`draw`].
    ///
    /// # Errors
    /// [`Fault`] for what cannot be drawn in any room.
    pub fn new(sketch: Sketch, value: impl Fn(&str) -> Option<String>) -> Result<Self, Fault> {
        finite(&sketch)?;
        let metal = scale::metal(&sketch).ok_or(Fault::Empty)?;
        let text = |shows: &Shows| -> Result<String, Fault> {
            let known = value(shows.value).filter(|figure| !figure.trim().is_empty());
            let figure = known.ok_or(Fault::NoValue { key: shows.value })?;
            Ok(figure.lines().map(|line| before(shows.before, line)).collect::<Vec<_>>().join("\n"))
        };
        let (mut sizes, mut roughness) = (Vec::new(), Vec::new());
        for item in &sketch.items {
            match item {
                Item::Dimension { from, to, side, drawn, shows } => {
                    let lines = text(shows)?.lines().map(str::to_owned).collect();
                    sizes.push(Size { from: *from, to: *to, side: *side, drawn: *drawn, lines });
                }
                Item::Roughness { shows, .. } => roughness.push(text(shows)?.replace('\n', " ")),
                _ => {}
            }
        }
        Ok(Self { sketch, metal, sizes, roughness, laid: Vec::new() })
    }

    /// Draws it into `room` (mm of paper) of a page.
    ///
    /// # Errors
    /// [`Fault`], and then nothing is drawn.
    pub fn draw(&mut self, page: &mut Page, area: AreaId, room: Rect) -> Result<Drawing, Fault> {
        let found = self.fitting(room.width(), room.height())?;
        let Some(laid) = found.and_then(|at| self.laid.get(at)) else {
            return Err(Fault::NoRoom { width: room.width(), height: room.height() });
        };
        let view = View::new(laid.scale, &self.metal);
        let (said, notes) = (said(&self.sketch, &view), notes(&self.sketch, &view, room.width())?);
        let space = Rect::new(room.left, room.top, room.right, room.bottom - under(&notes));
        let shift = space.centre() - laid.bounds.centre();
        let mut covered = laid.bounds.moved(shift.x, shift.y);
        ink::draw(page, area, &laid.lay, shift)?;
        let mut base = covered.bottom + ABOVE_NOTES + CAPITAL;
        for note in notes {
            let text = Text::new(Font::Sans, Role::Body, CAPITAL, note);
            covered = covered.and(&page.text(area, Point::new(room.left, base), Anchor::Left, text)?);
            base += CAPITAL * fonts::LINE;
        }
        Ok(Drawing { scale: laid.scale, stretch: view.stretch, bounds: covered, notes: said })
    }

    /// Which of the laid out fits a room: the largest scale whose extents do, part and rows of dimensions, that can be read
    /// when it is laid out.
    fn fitting(&mut self, width: f64, height: f64) -> Result<Option<usize>, Fault> {
        for scale in SCALES {
            let (wide, high) = (self.metal.width() * scale.factor(), self.metal.height() * scale.factor());
            if wide > width || high > height {
                continue;
            }
            let view = View::new(scale, &self.metal);
            let space = Rect::new(0.0, 0.0, width, height - under(&notes(&self.sketch, &view, width)?));
            for sides in [Sides::AsAsked, Sides::Balanced] {
                let at = match self.laid.iter().position(|laid| laid.scale == scale && laid.sides == sides) {
                    Some(at) => at,
                    None => {
                        let wanted = self.dimensions(&view, sides)?;
                        if !fits(&extents(&view, &self.metal, &wanted), &space) {
                            continue;
                        }
                        let lay = self.lay_out(&view, &wanted)?;
                        let bounds = lay.bounds().ok_or(Fault::Empty)?.grown(EDGE);
                        self.laid.push(Laid { scale, sides, bounds, legible: lay.legible(), lay });
                        self.laid.len() - 1
                    }
                };
                if self.laid.get(at).is_some_and(|laid| laid.legible && fits(&laid.bounds, &space)) {
                    return Ok(Some(at));
                }
            }
        }
        Ok(None)
    }

    /// The dimensions at one scale.
    fn dimensions(&self, view: &View, sides: Sides) -> Result<Vec<dimensions::Wanted>, Fault> {
        let one = |size: &Size| -> Result<dimensions::Wanted, Fault> {
            let mut lines = size.lines.clone();
            if not_to_scale(size.side, size.drawn, view.stretch) {
                lines.extend(fonts::wrap(Font::Sans, CAPITAL, words::NOT_TO_SCALE, BESIDE)?);
            }
            let block = Block::new(Font::Sans, lines)?;
            Ok(dimensions::Wanted { from: view.at(size.from), to: view.at(size.to), side: size.side, block })
        };
        let wanted = self.sizes.iter().map(one).collect::<Result<Vec<_>, _>>()?;
        Ok(if sides == Sides::Balanced { dimensions::balanced(wanted) } else { wanted })
    }

    /// The whole sketch at one scale.
    fn lay_out(&self, view: &View, dimensions: &[dimensions::Wanted]) -> Result<Lay, Fault> {
        let mut lay = Lay::of(self.sketch.items.iter().filter_map(|item| layer(item, view)).collect());
        let mut labels = Vec::new();
        for item in &self.sketch.items {
            match item {
                Item::Moving { outline, label } => {
                    labels.extend(inside_or_beside(&mut lay, &view.all(outline), label)?)
                }
                Item::Label { at, towards, text } => {
                    labels.push(labels::Wanted { at: view.at(*at), side: *towards, text: text.clone() });
                }
                _ => {}
            }
        }
        lay.lanes = dimensions::lanes(dimensions);
        // What stands on a place of its own first; feed finds room beside it.
        let mut roughness = self.roughness.iter();
        for item in &self.sketch.items {
            match item {
                Item::Roughness { at, towards, .. } => {
                    let figure = roughness.next().map_or("", String::as_str);
                    symbols::roughness(&mut lay, view.at(*at), *towards, figure)?;
                }
                Item::Datum { at, towards, letter } => {
                    symbols::datum(&mut lay, view.at(*at), *towards, *letter)?;
                }
                Item::Indicator { at, towards } => symbols::indicator(&mut lay, view.at(*at), *towards),
                _ => {}
            }
        }
        for item in &self.sketch.items {
            if let Item::Feed { from, to } = item {
                symbols::feed(&mut lay, view.at(*from), view.at(*to))?;
            }
        }
        for side in SIDES {
            dimensions::place(&mut lay, side, dimensions)?;
        }
        labels::place(&mut lay, &labels)?;
        Ok(lay)
    }
}

/// All sides of a part.
const SIDES: [Side; 4] = [Side::Left, Side::Right, Side::Above, Side::Below];

/// The part on the paper with the rows of its dimensions: no drawing at this scale is smaller.
fn extents(view: &View, metal: &Rect, wanted: &[dimensions::Wanted]) -> Rect {
    let [left, right, above, below] = SIDES.map(|side| dimensions::margin(side, wanted));
    let (a, b) = (view.at(Point::new(metal.left, metal.top)), view.at(Point::new(metal.right, metal.bottom)));
    Rect::new(a.x - left, a.y - above, b.x + right, b.y + below)
}

/// Which sides upright dimensions stand on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Sides {
    AsAsked,
    Balanced,
}

/// Height that the notes under a drawing take, mm.
fn under(notes: &[String]) -> f64 {
    notes.len() as f64 * CAPITAL * fonts::LINE + ABOVE_NOTES
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
fn said(sketch: &Sketch, view: &View) -> Vec<String> {
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
    notes
}

/// The same in lines.
fn notes(sketch: &Sketch, view: &View, width: f64) -> Result<Vec<String>, Fault> {
    let one = |note: &String| fonts::wrap(Font::Sans, CAPITAL, note, width);
    let wrapped = said(sketch, view).iter().map(one).collect::<Result<Vec<_>, _>>()?;
    Ok(wrapped.concat())
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
    if holds && !lay.edge_through(&room) {
        lay.set(&block, room.left, room.top, Align::Left)?;
        return Ok(None);
    }
    Ok(Some(labels::Wanted { at: c, side: Side::Right, text: label.to_owned() }))
}

#[cfg(test)]
mod tests;
