//! A sketch half laid out: lines, solids and words in millimetres of paper about the part's own origin.

use super::blocked::Blocked;
use super::{Fault, Point, clip};
use crate::sheet::fonts::{self, Extent, Font};
use crate::sheet::page::{Dash, Rect};
use nalgebra::Vector2;
use rstar::primitives::Line;
use rstar::{AABB, RTree};
use std::sync::Arc;

/// Air that is kept about what is taken, mm.
const ABOUT_TAKEN: f64 = 1.2;

/// Air about words: two figures that stand together are nearer than two that do not, mm.
const ABOUT_WORDS: f64 = 1.0;

/// Air between a symbol and an extension line, mm.
const OFF_EXTENSION: f64 = 0.6;

/// Width of a pen (ISO 128).
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Pen {
    /// The edge of a tool that cuts.
    Edge,
    Thick,
    /// The circle of a balloon.
    Balloon,
    Thin,
}

impl Pen {
    /// Line width, mm.
    pub(super) const fn width(self) -> f64 {
        match self {
            Self::Edge => 0.7,
            Self::Thick => 0.5,
            Self::Balloon => 0.35,
            Self::Thin => 0.25,
        }
    }
}

/// A line.
#[derive(Clone, Debug)]
pub(super) struct Ruled {
    pub(super) points: Vec<Point>,
    pub(super) pen: Pen,
    pub(super) dash: Dash,
}

/// What a closed shape is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    Section(u8),
    CutAway,
    Void,
    Moving,
    Tooling,
    Old,
}

/// Something of the part, in the order of the sketch.
#[derive(Clone, Debug)]
pub(super) enum Layer {
    Shape(Kind, Vec<Point>),
    Line(Ruled),
}

/// One line of words.
#[derive(Clone, Debug)]
pub(super) struct Words {
    pub(super) at: Point,
    pub(super) font: Font,
    pub(super) capital: f64,
    pub(super) text: String,
    /// What the letters stand for, where they do not say it.
    pub(super) means: Option<&'static str>,
    pub(super) bounds: Rect,
}

/// Lines of words that stand together.
#[derive(Clone, Debug)]
pub(super) struct Block {
    lines: Arc<[(String, Extent)]>,
    pub(super) width: f64,
    pub(super) height: f64,
    pub(super) capital: f64,
    /// What its letters stand for, where they do not say it.
    means: Option<&'static str>,
    font: Font,
}

/// How the lines of a block stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Align {
    Left,
    Centre,
    Right,
}

impl Block {
    pub(super) fn new(font: Font, capital: f64, lines: impl IntoIterator<Item = String>) -> Result<Self, Fault> {
        let lines = lines
            .into_iter()
            .map(|text| fonts::measure(font, capital, &text).map(|size| (text, size)))
            .collect::<Result<Arc<[_]>, _>>()?;
        let width = lines.iter().map(|(_, size)| size.width).fold(0.0, f64::max);
        let more = lines.len().saturating_sub(1) as f64;
        Ok(Self { width, height: capital * (1.0 + more * fonts::LINE), lines, capital, means: None, font })
    }

    /// The same, its letters standing for something.
    pub(super) fn meaning(self, means: &'static str) -> Self {
        Self { means: Some(means), ..self }
    }

    /// The box of the block with its left upper corner (of the capitals) at a place.
    pub(super) fn bounds(&self, left: f64, top: f64) -> Rect {
        Rect::new(left, top, left + self.width, top + self.height)
    }
}

/// A detail: a part of the sketch drawn larger inside a circle.
#[derive(Clone, Debug)]
pub(super) struct Circled {
    pub(super) circle: Vec<Point>,
    pub(super) layers: Vec<Layer>,
    pub(super) breaks: Vec<(Point, Point)>,
}

/// The half laid out sketch.
#[derive(Clone, Debug, Default)]
pub(super) struct Lay {
    /// Height of the capitals, mm.
    pub(super) capital: f64,
    /// Ends that are not known, where no edge is drawn.
    pub(super) breaks: Vec<(Point, Point)>,
    /// Details.
    pub(super) circled: Vec<Circled>,
    pub(super) layers: Arc<[Layer]>,
    /// Edges of everything that belongs to the part, to be found by their place.
    edges: Arc<RTree<Line<[f64; 2]>>>,
    /// Metal with its box: nothing is written on it.
    metal: Arc<[(Rect, Vec<Point>)]>,
    /// Where something stands for certain, as far as it was surveyed.
    pub(super) blocked: Blocked,
    /// How many of the strokes, solids and boxes taken were surveyed.
    surveyed: [usize; 3],
    /// Lines about the part, each with its box.
    pub(super) strokes: Vec<(Rect, Ruled)>,
    /// Filled shapes, each with its box.
    pub(super) solids: Vec<(Rect, Vec<Point>)>,
    pub(super) words: Vec<Words>,
    /// Boxes of symbols and words, which nothing else may take.
    pub(super) taken: Vec<Rect>,
    /// Where dimensions will stand, which symbols keep off.
    pub(super) lanes: Vec<Rect>,
    /// Where their extension lines will run, which would pass through a symbol.
    pub(super) extensions: Vec<Rect>,
    /// Dimension lines, each whole.
    pub(super) measures: Vec<(Point, Point)>,
    /// Whether something found no free place.
    pub(super) crowded: bool,
    /// Box of the part alone.
    part: Option<Rect>,
    /// Box of everything so far.
    reach: Option<Rect>,
    /// Width and height that everything together may take, mm; nothing where there is no end to it.
    room: Option<Vector2<f64>>,
}

impl Lay {
    /// The part alone.
    pub(super) fn of(capital: f64, layers: Vec<Layer>) -> Self {
        let edges = layers.iter().flat_map(edges_of);
        let edges = RTree::bulk_load(edges.map(|(a, b)| Line::new(a.into(), b.into())).collect());
        let metal = layers.iter().filter_map(|layer| match layer {
            Layer::Shape(Kind::Section(_) | Kind::CutAway | Kind::Moving | Kind::Tooling, outline) => {
                Some((Rect::about(outline)?, outline.clone()))
            }
            _ => None,
        });
        let boxes = layers.iter().filter_map(|layer| match layer {
            Layer::Shape(_, outline) => Rect::about(outline),
            Layer::Line(line) => Rect::about(&line.points),
        });
        let part = boxes.reduce(|a, b| a.and(&b));
        let (edges, metal) = (Arc::new(edges), metal.collect());
        Self { capital, metal, edges, layers: layers.into(), part, reach: part, ..Self::default() }
    }

    /// Keeps everything together within a width and a height, mm.
    pub(super) fn keep_within(&mut self, width: f64, height: f64) {
        let room = Vector2::new(width, height);
        self.room = Some(room);
        self.blocked = self.part.map_or_else(Blocked::default, |part| Blocked::about(&part, room));
        self.surveyed = [0; 3];
        self.layers.iter().flat_map(edges_of).for_each(|edge| self.blocked.line(edge));
    }

    /// Notes where something stands, up to now.
    pub(super) fn survey(&mut self) {
        let Self { blocked, surveyed: [strokes, solids, taken], .. } = self;
        let new = self.strokes.iter().skip(*strokes);
        new.flat_map(|(_, stroke)| runs(&stroke.points)).for_each(|edge| blocked.line(edge));
        self.solids.iter().skip(*solids).for_each(|(bounds, _)| blocked.room(bounds));
        self.taken.iter().skip(*taken).for_each(|room| blocked.room(&room.grown(ABOUT_TAKEN)));
        (*strokes, *solids, *taken) = (self.strokes.len(), self.solids.len(), self.taken.len());
    }

    /// Whether everything so far keeps within its room, and something more would.
    pub(super) fn holds(&self, more: &Rect) -> bool {
        let whole = self.reach.map_or(*more, |reach| reach.and(more));
        self.room.is_none_or(|room| whole.width() <= room.x && whole.height() <= room.y)
    }

    /// Whether everything so far found its place and keeps within its room.
    pub(super) fn fits(&self) -> bool {
        !self.crowded && self.reach.is_none_or(|reach| self.holds(&reach))
    }

    /// Width and height of everything so far together with something more, mm.
    pub(super) fn growth(&self, more: Option<&Rect>) -> f64 {
        let whole = self.reach.into_iter().chain(more.copied()).reduce(|a, b| a.and(&b));
        whole.map_or(0.0, |whole| whole.width() + whole.height())
    }

    /// How full a room something more would leave, in the direction in which it is fuller: 1 is full.
    pub(super) fn fullness(&self, more: &Rect) -> f64 {
        let whole = self.reach.map_or(*more, |reach| reach.and(more));
        self.room.map_or(whole.width() + whole.height(), |room| (whole.width() / room.x).max(whole.height() / room.y))
    }

    /// Where something of a size can stand at all: near what is drawn, and within the room.
    pub(super) fn window(&self, size: Vector2<f64>, away: f64) -> Option<Rect> {
        let reach = self.reach?;
        let (x, y) = (size.x + away, size.y + away);
        let near = Rect::new(reach.left - x, reach.top - y, reach.right + x, reach.bottom + y);
        let Some(room) = self.room else { return Some(near) };
        let held = Rect::new(reach.right - room.x, reach.bottom - room.y, reach.left + room.x, reach.top + room.y);
        Some(Rect::new(
            near.left.max(held.left),
            near.top.max(held.top),
            near.right.min(held.right),
            near.bottom.min(held.bottom),
        ))
    }

    pub(super) fn stroke(&mut self, points: Vec<Point>, pen: Pen) {
        let Some(bounds) = Rect::about(&points) else { return };
        self.grow(bounds);
        self.strokes.push((bounds, Ruled { points, pen, dash: Dash::Whole }));
    }

    pub(super) fn thin(&mut self, points: Vec<Point>) {
        self.stroke(points, Pen::Thin);
    }

    pub(super) fn thick(&mut self, points: Vec<Point>) {
        self.stroke(points, Pen::Thick);
    }

    pub(super) fn solid(&mut self, points: Vec<Point>) {
        let Some(bounds) = Rect::about(&points) else { return };
        self.grow(bounds);
        self.solids.push((bounds, points));
    }

    fn grow(&mut self, bounds: Rect) {
        self.reach = Some(self.reach.map_or(bounds, |reach| reach.and(&bounds)));
    }

    /// Sets a block with its left upper corner at a place.
    pub(super) fn set(&mut self, block: &Block, left: f64, top: f64, align: Align) {
        let mut base = top + block.capital;
        for (text, size) in block.lines.iter() {
            let x = match align {
                Align::Left => left,
                Align::Centre => left + (block.width - size.width) / 2.0,
                Align::Right => left + block.width - size.width,
            };
            let bounds = Rect::new(x, base - size.above, x + size.width, base + size.below);
            let (font, capital, means) = (block.font, block.capital, block.means);
            self.grow(bounds);
            self.words.push(Words { at: Point::new(x, base), font, capital, text: text.clone(), means, bounds });
            base += capital * fonts::LINE;
        }
        self.taken.push(block.bounds(left, top));
    }

    /// The place found, or another where none was free: the drawing is then not legible.
    pub(super) fn or_crowded<T>(&mut self, found: Option<T>, other: T) -> T {
        self.crowded |= found.is_none();
        found.unwrap_or(other)
    }

    /// Edges of the part that may touch a box.
    pub(super) fn edges_near(&self, room: &Rect) -> impl Iterator<Item = (Point, Point)> + '_ {
        let seen = AABB::from_corners([room.left, room.top], [room.right, room.bottom]);
        self.edges.locate_in_envelope_intersecting(&seen).map(|edge| (edge.from.into(), edge.to.into()))
    }

    /// Whether an edge of the part passes through a box.
    pub(super) fn edge_through(&self, room: &Rect) -> bool {
        self.edges_near(room).any(|(a, b)| room.crossed_by(a, b))
    }

    /// Whether a box is free of the part, of symbols and of words.
    pub(super) fn free(&self, room: &Rect) -> bool {
        let metal =
            |(bounds, outline): &(Rect, Vec<Point>)| bounds.overlaps(room) && clip::inside(room.centre(), outline);
        !self.taken.iter().any(|t| t.grown(ABOUT_TAKEN).overlaps(room))
            && !self.edge_through(room)
            && !self.metal.iter().any(metal)
    }

    /// Whether a box keeps off the lanes of dimensions to come.
    pub(super) fn off_lanes(&self, room: &Rect) -> bool {
        let wide = Rect::new(room.left - 1.5, room.top, room.right + 1.5, room.bottom);
        !self.lanes.iter().any(|lane| lane.grown(1e-3).overlaps(&wide))
    }

    /// Whether a box keeps off the extension lines of dimensions to come.
    pub(super) fn off_extensions(&self, room: &Rect) -> bool {
        !self.extensions.iter().any(|line| line.grown(OFF_EXTENSION).overlaps(room))
    }

    /// Whether a line drawn so far passes through a box.
    pub(super) fn crossed(&self, room: &Rect) -> bool {
        self.line_through(room, |_| true) || self.solids.iter().any(|(bounds, _)| bounds.overlaps(room))
    }

    fn line_through(&self, room: &Rect, which: impl Fn(Pen) -> bool) -> bool {
        let through = |s: &Ruled| which(s.pen) && runs(&s.points).any(|(a, b)| room.crossed_by(a, b));
        self.strokes.iter().any(|(bounds, s)| bounds.grown(0.01).overlaps(room) && through(s))
    }

    /// Bounds of the part and of what else lies across a span, upright (`y`) or level (`x`): what dimensions there must
    /// keep clear of.
    pub(super) fn reach(&self, upright: bool, (low, high): (f64, f64)) -> Option<Rect> {
        let across = |r: &Rect| {
            let (a, b) = if upright { (r.top, r.bottom) } else { (r.left, r.right) };
            a < high + 1.0 && b > low - 1.0
        };
        // Of a line with corners the pieces that lie there.
        let about = self.strokes.iter().flat_map(|(_, stroke)| runs(&stroke.points));
        let about = about.filter_map(|(a, b)| Rect::about(&[a, b]));
        let about = about.chain(self.solids.iter().map(|(bounds, _)| *bounds));
        let about = about.chain(self.words.iter().map(|words| words.bounds.grown(ABOUT_WORDS)));
        self.part.into_iter().chain(about.filter(across)).reduce(|a, b| a.and(&b))
    }

    /// Bounds of everything so far.
    pub(super) fn bounds(&self) -> Option<Rect> {
        self.reach
    }

    /// Whether every word can be read: none upon another, none on an edge of the part or a solid; whether no dimension line
    /// crosses another, and whether everything found its place.
    pub(super) fn legible(&self) -> bool {
        let boxes: Vec<Rect> = self.words.iter().map(|w| w.bounds.grown(-0.05)).collect();
        let clear = |(i, b): (usize, &Rect)| {
            !boxes.iter().skip(i + 1).any(|other| other.overlaps(b))
                && !self.edge_through(b)
                && !self.solids.iter().any(|(bounds, _)| bounds.overlaps(b))
                && !self.line_through(b, |pen| pen == Pen::Thick)
        };
        let crossed = self
            .measures
            .iter()
            .enumerate()
            .any(|(i, (a, b))| self.measures.iter().skip(i + 1).any(|(c, d)| clip::cross(*a, *b, *c, *d)));
        !self.crowded && !crossed && boxes.iter().enumerate().all(clear)
    }
}

/// The edges of something of the part.
fn edges_of(layer: &Layer) -> Vec<(Point, Point)> {
    match layer {
        Layer::Shape(_, outline) => clip::edges(outline).collect(),
        Layer::Line(line) => runs(&line.points).collect(),
    }
}

/// The straight pieces of a run of corners.
pub(super) fn runs(points: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    points.iter().copied().zip(points.iter().copied().skip(1))
}
