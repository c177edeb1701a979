//! Draughting: from a sketch in millimetres of the part to marks on the paper.
//!
//! The scale is the largest of ISO 5455 at which the extents fit: the part, and on each side the rows of its dimensions. At
//! that scale the sketch is laid out once, with symbols, labels and dimensions; only where it then cannot be read is the next
//! scale taken. It holds both ways and nothing is stretched: a cut too thin to be seen is drawn once more in a circle, at a
//! larger scale that stands under it.

mod clip;
mod detail;
mod dimensions;
mod hatching;
mod ink;
mod labels;
mod lay;
mod scale;
mod symbols;
mod words;

pub use scale::Scale;
pub(super) use scale::{LEAST_IN_DETAIL, LEAST_SEEN};

use super::fonts::{self, Font};
use super::page::{Anchor, AreaId, Dash, Page, Point, Rect, Role, Text};
use crate::drawing::{self, Balloon, Item, Shows, Side, Sketch};
use labels::Says;
use lay::{Align, Block, Kind, Lay, Layer, Pen, Stroke};
use scale::{SCALES, View};

/// How far an axis runs out beyond the ends that the sketch gives it, mm of paper.
const RUN_OUT: f64 = 3.0;
/// Half of the thickest line, by which ink stands out of what is drawn, mm.
const EDGE: f64 = Pen::Thick.width() / 2.0;
/// Between a drawing and its scale under it, mm.
const ABOVE_FOOT: f64 = 2.0;

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
    /// Letters and scales of its details.
    pub details: Vec<(char, Scale)>,
    /// Balloons in it, by number.
    pub balloons: Vec<Balloon>,
    /// What the drawing covers, notes included.
    pub bounds: Rect,
}

/// A sketch with its figures measured, ready to be drawn in a room: laid out once at each scale that it is asked for.
#[derive(Debug)]
pub struct Draft {
    sketch: Sketch,
    /// Height of the capitals, mm.
    capital: f64,
    extents: Rect,
    sizes: Vec<Size>,
    /// Texts of the roughness signs, in the order of the sketch.
    roughness: Vec<String>,
    /// Texts of the figures with a line, in the order of the sketch.
    readings: Vec<String>,
    laid: Vec<Laid>,
}

/// A dimension with its figure, before a scale is chosen.
#[derive(Debug)]
struct Size {
    from: Point,
    to: Point,
    side: Side,
    shortened: bool,
    block: Block,
}

/// The sketch laid out at one scale.
#[derive(Debug)]
struct Laid {
    scale: Scale,
    sides: Sides,
    lay: Lay,
    details: Vec<(char, Scale)>,
    bounds: Rect,
    legible: bool,
}

/// Draws a sketch into `room` (mm of paper) of a page with capitals `capital` mm high. `value` gives the text of a value by
/// its name: a line feed in it stacks lines.
///
/// # Errors
/// [`Fault`], and then nothing is drawn.
pub fn draw(
    page: &mut Page,
    area: AreaId,
    room: Rect,
    (sketch, capital): (&Sketch, f64),
    value: impl Fn(&str) -> Option<String>,
) -> Result<Drawing, Fault> {
    Draft::new(sketch.clone(), capital, value)?.draw(page, area, room)
}

impl Draft {
    /// Reads a sketch; `value` gives the text of a value by its name, as for [`draw`].
    ///
    /// # Errors
    /// [`Fault`] for what cannot be drawn in any room.
    pub fn new(sketch: Sketch, capital: f64, value: impl Fn(&str) -> Option<String>) -> Result<Self, Fault> {
        finite(&sketch)?;
        let extents = scale::extents(&sketch).ok_or(Fault::Empty)?;
        let text = |shows: &Shows| -> Result<String, Fault> {
            let mut lines = Vec::new();
            for key in shows.values() {
                let known = value(key).filter(|figure| !figure.trim().is_empty());
                let figure = known.ok_or(Fault::NoValue { key })?;
                lines.extend(figure.lines().map(|line| before(shows.before, line)));
            }
            Ok(lines.join("\n"))
        };
        let (mut sizes, mut roughness, mut readings) = (Vec::new(), Vec::new(), Vec::new());
        for item in &sketch.items {
            match item {
                Item::Dimension { from, to, side, shortened, shows, .. } => {
                    let block = Block::new(Font::Sans, capital, lines_of(*side, &text(shows)?))?;
                    sizes.push(Size { from: *from, to: *to, side: *side, shortened: *shortened, block });
                }
                Item::Reads { shows, .. } => readings.push(text(shows)?.replace('\n', " ")),
                Item::Roughness { shows, .. } => roughness.push(text(shows)?.replace('\n', " ")),
                _ => {}
            }
        }
        Ok(Self { sketch, capital, extents, sizes, roughness, readings, laid: Vec::new() })
    }

    /// The scale at which the sketch is drawn in a room so wide and high, mm; nothing where it does not fit.
    ///
    /// # Errors
    /// [`Fault::Letters`].
    pub fn scale_in(&mut self, width: f64, height: f64) -> Result<Option<Scale>, Fault> {
        let found = self.fitting(width, height)?;
        Ok(found.and_then(|at| self.laid.get(at)).map(|laid| laid.scale))
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
        let space = Rect::new(room.left, room.top, room.right, room.bottom - self.foot());
        let shift = space.centre() - laid.bounds.centre();
        let drawn = laid.bounds.moved(shift.x, shift.y);
        ink::draw(page, area, &laid.lay, shift)?;
        let base = drawn.bottom + ABOVE_FOOT + self.capital;
        let says = Text::new(Font::Sans, Role::Body, self.capital, format!("{} {}", words::SCALE, laid.scale));
        let bounds = drawn.and(&page.text(area, Point::new(room.left, base), Anchor::Left, says)?);
        let mut balloons: Vec<Balloon> = self.sketch.items.iter().filter_map(balloon).collect();
        balloons.sort_unstable();
        balloons.dedup();
        Ok(Drawing { scale: laid.scale, details: laid.details.clone(), balloons, bounds })
    }

    /// Height that the scale under a drawing takes, mm.
    fn foot(&self) -> f64 {
        self.capital * fonts::LINE + ABOVE_FOOT
    }

    /// Which of the laid out fits a room: the largest scale whose extents do, part and rows of dimensions, that can be read
    /// when it is laid out.
    fn fitting(&mut self, width: f64, height: f64) -> Result<Option<usize>, Fault> {
        let space = Rect::new(0.0, 0.0, width, height - self.foot());
        for scale in SCALES {
            let (wide, high) = (self.extents.width() * scale.factor(), self.extents.height() * scale.factor());
            if wide > width || high > height {
                continue;
            }
            let view = View::new(scale);
            for sides in Sides::ALL {
                let at = match self.laid.iter().position(|laid| laid.scale == scale && laid.sides == sides) {
                    Some(at) => at,
                    None => {
                        let mut wanted = self.dimensions(&view);
                        let details = detail::wanted(&self.sketch, &view, &mut wanted);
                        if sides.balanced {
                            wanted = dimensions::balanced(wanted);
                        }
                        if details.is_empty() && sides.grows == detail::Grows::High
                            || !fits(&self.least(&view, &wanted), &space)
                        {
                            continue;
                        }
                        let mut lay = self.lay_out(&view, &wanted, &details)?;
                        detail::place(&mut lay, &self.sketch, &details, sides.grows)?;
                        let bounds = lay.bounds().ok_or(Fault::Empty)?.grown(EDGE);
                        let details = details.iter().map(|detail| (detail.letter, detail.scale)).collect();
                        self.laid.push(Laid { scale, sides, details, bounds, legible: lay.legible(), lay });
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

    /// The part on the paper with the rows of its dimensions: no drawing at this scale is smaller.
    fn least(&self, view: &View, wanted: &[dimensions::Wanted]) -> Rect {
        let [left, right, above, below] = SIDES.map(|side| dimensions::margin(side, wanted));
        let (a, b) =
            (Point::new(self.extents.left, self.extents.top), Point::new(self.extents.right, self.extents.bottom));
        let (a, b) = (view.at(a), view.at(b));
        Rect::new(a.x - left, a.y - above, b.x + right, b.y + below)
    }

    /// The dimensions at one scale.
    fn dimensions(&self, view: &View) -> Vec<dimensions::Wanted> {
        let one = |size: &Size| dimensions::Wanted {
            from: view.at(size.from),
            to: view.at(size.to),
            side: size.side,
            shortened: size.shortened,
            block: size.block.clone(),
        };
        self.sizes.iter().map(one).collect()
    }

    /// The whole sketch at one scale.
    fn lay_out(
        &self,
        view: &View,
        dimensions: &[dimensions::Wanted],
        details: &[detail::Detail],
    ) -> Result<Lay, Fault> {
        let (layers, breaks) = parts(&self.sketch, view);
        let mut lay = Lay::of(self.capital, layers);
        lay.breaks = breaks;
        let mut readings = self.readings.iter();
        let mut labels = detail::ringed(&mut lay, view, details);
        for item in &self.sketch.items {
            match item {
                Item::Moving { outline, label } => {
                    labels.extend(inside_or_beside(&mut lay, &view.all(outline), label)?)
                }
                Item::Label { at, towards, text } => {
                    let says = Says::Words(text.clone());
                    labels.push(labels::Wanted { at: view.at(*at), side: *towards, says });
                }
                Item::Reads { at, towards, .. } => {
                    let says = Says::Words(readings.next().cloned().unwrap_or_default());
                    labels.push(labels::Wanted { at: view.at(*at), side: *towards, says });
                }
                Item::Turning { at, wrench } => symbols::turning(&mut lay, view.at(*at), *wrench),
                Item::Balloon { balloon, at, towards } => {
                    let says = Says::Balloon(balloon.number());
                    labels.push(labels::Wanted { at: view.at(*at), side: *towards, says });
                }
                Item::Tool { nose, feed, free, edge } => symbols::tool(&mut lay, view.at(*nose), *feed, *free, *edge),
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
                symbols::feed(&mut lay, view.at(*from), view.at(*to));
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

/// Which sides upright dimensions stand on, and which way a drawing grows for its details.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Sides {
    balanced: bool,
    grows: detail::Grows,
}

impl Sides {
    /// In the order in which they are tried.
    const ALL: [Self; 4] = [
        Self { balanced: false, grows: detail::Grows::Wide },
        Self { balanced: true, grows: detail::Grows::Wide },
        Self { balanced: false, grows: detail::Grows::High },
        Self { balanced: true, grows: detail::Grows::High },
    ];
}

fn balloon(item: &Item) -> Option<Balloon> {
    match item {
        Item::Balloon { balloon, .. } => Some(*balloon),
        _ => None,
    }
}

/// Everything of the part on the paper, and the breaks in it.
fn parts(sketch: &Sketch, view: &View) -> (Vec<Layer>, Vec<(Point, Point)>) {
    let breaks = sketch.items.iter().filter_map(|item| match item {
        Item::Break { from, to } => Some((view.at(*from), view.at(*to))),
        _ => None,
    });
    let breaks: Vec<_> = breaks.collect();
    let layers = sketch.items.iter().flat_map(|item| layers(item, view, &breaks)).collect();
    (layers, breaks)
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

/// The lines of a figure: along a level dimension line there is room for the doubt beside it.
fn lines_of(side: Side, text: &str) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for line in text.lines() {
        match lines.last_mut() {
            Some(last) if line.starts_with('±') && matches!(side, Side::Above | Side::Below) => {
                last.push(' ');
                last.push_str(line);
            }
            _ => lines.push(line.to_owned()),
        }
    }
    lines
}

/// A line of a figure with what stands before figures; words among the lines stay as they are.
fn before(sign: &str, line: &str) -> String {
    if line.starts_with(|c: char| c.is_ascii_digit()) { format!("{sign}{line}") } else { line.to_owned() }
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
        Item::Line { stroke, points } => line(*stroke, view.all(points)),
        Item::Circle { stroke, centre, radius } => line(*stroke, view.all(&drawing::arc(*centre, *radius, 0.0, 360.0))),
        Item::Arc { stroke, centre, radius, from, to } => {
            line(*stroke, view.all(&drawing::arc(*centre, *radius, *from, *to)))
        }
        Item::Thread { from, to } => line(drawing::Stroke::Thin, view.all(&[*from, *to])),
        _ => Vec::new(),
    }
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
    let block = Block::new(Font::Sans, lay.capital, [label.to_owned()])?;
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
    Ok(Some(labels::Wanted { at: c, side: Side::Right, says: Says::Words(label.to_owned()) }))
}

#[cfg(test)]
mod tests;
