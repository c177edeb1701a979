//! A sketch half laid out: lines, solids and words in millimetres of paper about the part's own origin.

use super::{Fault, Point, clip};
use crate::sheet::fonts::{self, Font};
use crate::sheet::page::{Dash, Rect};
use rstar::primitives::Line;
use rstar::{AABB, RTree};

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
pub(super) struct Stroke {
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
    Line(Stroke),
}

/// One line of words.
#[derive(Clone, Debug)]
pub(super) struct Words {
    pub(super) at: Point,
    pub(super) font: Font,
    pub(super) capital: f64,
    pub(super) text: String,
    pub(super) bounds: Rect,
}

/// Lines of words that stand together.
#[derive(Clone, Debug)]
pub(super) struct Block {
    pub(super) lines: Vec<(String, f64)>,
    pub(super) width: f64,
    pub(super) height: f64,
    pub(super) capital: f64,
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
            .map(|text| fonts::width(font, capital, &text).map(|w| (text, w)))
            .collect::<Result<Vec<_>, _>>()?;
        let width = lines.iter().map(|(_, w)| *w).fold(0.0, f64::max);
        let more = lines.len().saturating_sub(1) as f64;
        Ok(Self { width, height: capital * (1.0 + more * fonts::LINE), lines, capital, font })
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
    pub(super) layers: Vec<Layer>,
    /// Edges of everything that belongs to the part, to be found by their place.
    edges: RTree<Line<[f64; 2]>>,
    /// Metal with its box: nothing is written on it.
    metal: Vec<(Rect, Vec<Point>)>,
    pub(super) strokes: Vec<Stroke>,
    pub(super) solids: Vec<Vec<Point>>,
    pub(super) words: Vec<Words>,
    /// Boxes of symbols and words, which nothing else may take.
    pub(super) taken: Vec<Rect>,
    /// Where dimensions will stand, which symbols keep off.
    pub(super) lanes: Vec<Rect>,
    /// Dimension lines, each whole.
    pub(super) measures: Vec<(Point, Point)>,
    /// Whether something found no free place.
    pub(super) crowded: bool,
}

impl Lay {
    /// The part alone.
    pub(super) fn of(capital: f64, layers: Vec<Layer>) -> Self {
        let edges = layers.iter().flat_map(|layer| match layer {
            Layer::Shape(_, outline) => clip::edges(outline).collect::<Vec<_>>(),
            Layer::Line(line) => runs(&line.points).collect(),
        });
        let edges = RTree::bulk_load(edges.map(|(a, b)| Line::new(a.into(), b.into())).collect());
        let metal = layers.iter().filter_map(|layer| match layer {
            Layer::Shape(Kind::Section(_) | Kind::CutAway | Kind::Moving | Kind::Tooling, outline) => {
                Some((Rect::about(outline)?, outline.clone()))
            }
            _ => None,
        });
        Self { capital, metal: metal.collect(), edges, layers, ..Self::default() }
    }

    pub(super) fn thin(&mut self, points: Vec<Point>) {
        self.strokes.push(Stroke { points, pen: Pen::Thin, dash: Dash::Whole });
    }

    pub(super) fn thick(&mut self, points: Vec<Point>) {
        self.strokes.push(Stroke { points, pen: Pen::Thick, dash: Dash::Whole });
    }

    /// Sets a block with its left upper corner at a place.
    pub(super) fn set(&mut self, block: &Block, left: f64, top: f64, align: Align) -> Result<(), Fault> {
        let mut base = top + block.capital;
        for (text, width) in &block.lines {
            let x = match align {
                Align::Left => left,
                Align::Centre => left + (block.width - width) / 2.0,
                Align::Right => left + block.width - width,
            };
            let size = fonts::measure(block.font, block.capital, text)?;
            let bounds = Rect::new(x, base - size.above, x + size.width, base + size.below);
            let (font, capital) = (block.font, block.capital);
            self.words.push(Words { at: Point::new(x, base), font, capital, text: text.clone(), bounds });
            base += capital * fonts::LINE;
        }
        self.taken.push(block.bounds(left, top));
        Ok(())
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
        !self.taken.iter().any(|t| t.grown(1.2).overlaps(room))
            && !self.edge_through(room)
            && !self.metal.iter().any(metal)
    }

    /// Whether a box keeps off the lanes of dimensions to come.
    pub(super) fn off_lanes(&self, room: &Rect) -> bool {
        let wide = Rect::new(room.left - 1.5, room.top, room.right + 1.5, room.bottom);
        !self.lanes.iter().any(|lane| lane.grown(1e-3).overlaps(&wide))
    }

    /// Whether a line drawn so far passes through a box.
    pub(super) fn crossed(&self, room: &Rect) -> bool {
        let through = |s: &Stroke| runs(&s.points).any(|(a, b)| room.crossed_by(a, b));
        self.strokes.iter().any(through) || self.solids.iter().any(|s| Rect::about(s).is_some_and(|r| r.overlaps(room)))
    }

    /// Bounds of the part and of what else lies across a span, upright (`y`) or level (`x`): what dimensions there must
    /// keep clear of.
    pub(super) fn reach(&self, upright: bool, (low, high): (f64, f64)) -> Option<Rect> {
        let across = |r: &Rect| {
            let (a, b) = if upright { (r.top, r.bottom) } else { (r.left, r.right) };
            a < high + 1.0 && b > low - 1.0
        };
        self.boxes(false).chain(self.boxes(true).filter(across)).reduce(|a, b| a.and(&b))
    }

    /// Bounds of everything so far.
    pub(super) fn bounds(&self) -> Option<Rect> {
        self.boxes(false).chain(self.boxes(true)).reduce(|a, b| a.and(&b))
    }

    /// The box of everything that belongs to the part, or of everything about it.
    fn boxes(&self, about: bool) -> impl Iterator<Item = Rect> + '_ {
        let part = self.layers.iter().filter(move |_| !about).filter_map(|layer| match layer {
            Layer::Shape(_, outline) => Rect::about(outline),
            Layer::Line(line) => Rect::about(&line.points),
        });
        let strokes = self.strokes.iter().filter_map(|s| Rect::about(&s.points));
        let solids = self.solids.iter().filter_map(|s| Rect::about(s));
        let words = self.words.iter().map(|w| w.bounds);
        part.chain(strokes.chain(solids).chain(words).filter(move |_| about))
    }

    /// Whether every word can be read: none upon another, none on an edge of the part or a solid; whether no dimension line
    /// crosses another, and whether everything found its place.
    pub(super) fn legible(&self) -> bool {
        let boxes: Vec<Rect> = self.words.iter().map(|w| w.bounds.grown(-0.05)).collect();
        let clear = |(i, b): (usize, &Rect)| {
            !boxes.iter().skip(i + 1).any(|other| other.overlaps(b))
                && !self.edge_through(b)
                && !self.solids.iter().any(|s| Rect::about(s).is_some_and(|r| r.overlaps(b)))
                && !self
                    .strokes
                    .iter()
                    .any(|s| s.pen == Pen::Thick && runs(&s.points).any(|(from, to)| b.crossed_by(from, to)))
        };
        let crossed = self
            .measures
            .iter()
            .enumerate()
            .any(|(i, (a, b))| self.measures.iter().skip(i + 1).any(|(c, d)| clip::cross(*a, *b, *c, *d)));
        !self.crowded && !crossed && boxes.iter().enumerate().all(clear)
    }
}

/// The straight pieces of a run of corners.
pub(super) fn runs(points: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    points.iter().copied().zip(points.iter().copied().skip(1))
}
