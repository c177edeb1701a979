//! The graph of a figure: what it was worked from, so that it can be worked again with every reading a little off.
//!
//! Each [`super::Worked`] shares its node. A node knows nothing of units and words: a number, and how it follows from others.
//! Choices (a step, a length, a count of divisions) are made once, at the figures as read, and stand in the graph as numbers.

use super::{Cause, Side};
use std::collections::HashMap;
use std::fmt;
use std::sync::Arc;

/// How a number follows from others. Two nodes are always equal: what is compared is the figure, never how it can be shaken.
#[derive(Clone)]
pub struct Node {
    number: f64,
    /// Nothing moves a number that is only given.
    made: Option<Arc<Made>>,
}

/// How a number is made.
enum Made {
    /// By a formula, from the numbers of its symbols.
    Formula { by: fn(&[f64]) -> f64, of: Box<[Node]> },
    /// `times` another and so much more.
    Line { of: Node, times: f64, more: f64 },
    /// A sum of others, each so many times, and so much more.
    Sum { of: Box<[Node]>, times: Box<[f64]>, more: f64 },
    /// Another, held between two limits.
    Held { of: Node, least: f64, most: f64 },
    /// Another with a share of doubt (k = 2) of a cause more.
    Doubted { of: Node, cause: Cause, share: f64 },
    /// Another with a band: so far down and so far up from it.
    Banded { of: Node, low: f64, high: f64 },
    /// Another at its worst end, taken once and kept.
    Worst { of: Node },
}

impl Node {
    fn new(number: f64, made: Made) -> Self {
        Self { number, made: Some(Arc::new(made)) }
    }

    /// A number that nothing moves.
    pub(super) const fn fixed(number: f64) -> Self {
        Self { number, made: None }
    }

    /// A number with shares of doubt by cause.
    pub(super) fn straight(number: f64, shares: &[(Cause, f64)]) -> Self {
        shares.iter().fold(Self::fixed(number), |of, &(cause, share)| of.doubted(cause, share))
    }

    /// What a formula gives.
    pub(super) fn formula<'a>(number: f64, by: fn(&[f64]) -> f64, of: impl Iterator<Item = &'a Self> + Clone) -> Self {
        match of.clone().all(Self::is_fixed) {
            true => Self::fixed(number),
            false => Self::new(number, Made::Formula { by, of: of.cloned().collect() }),
        }
    }

    /// So many times this, and so much more.
    pub(super) fn line(&self, number: f64, times: f64, more: f64) -> Self {
        self.then(number, |of| Made::Line { of, times, more })
    }

    /// A sum of others, each so many times, and so much more.
    pub(super) fn sum(number: f64, terms: &[(f64, &Self)], more: f64) -> Self {
        match terms.iter().all(|term| term.1.is_fixed()) {
            true => Self::fixed(number),
            false => {
                let of = terms.iter().map(|term| term.1.clone()).collect();
                Self::new(number, Made::Sum { of, times: terms.iter().map(|term| term.0).collect(), more })
            }
        }
    }

    /// This, held between two limits.
    pub(super) fn held(&self, number: f64, least: f64, most: f64) -> Self {
        self.then(number, |of| Made::Held { of, least, most })
    }

    /// This at its worst end.
    pub(super) fn worst(&self, number: f64) -> Self {
        self.then(number, |of| Made::Worst { of })
    }

    /// This with a share of doubt of a cause more.
    pub(super) fn doubted(self, cause: Cause, share: f64) -> Self {
        Self::new(self.number, Made::Doubted { of: self, cause, share })
    }

    /// This with a band from one number to another.
    pub(super) fn banded(self, low: f64, high: f64) -> Self {
        let number = self.number;
        Self::new(number, Made::Banded { of: self, low: low - number, high: high - number })
    }

    fn then(&self, number: f64, made: impl FnOnce(Self) -> Made) -> Self {
        if self.is_fixed() { Self::fixed(number) } else { Self::new(number, made(self.clone())) }
    }

    /// Lets go of what it follows from: a number that nothing moves.
    pub(crate) fn let_go(&mut self) {
        self.made = None;
    }

    const fn is_fixed(&self) -> bool {
        self.made.is_none()
    }
}

impl Made {
    /// The nodes that it follows from.
    fn parts(&self) -> &[Node] {
        match self {
            Self::Formula { of, .. } | Self::Sum { of, .. } => of,
            Self::Line { of, .. }
            | Self::Held { of, .. }
            | Self::Doubted { of, .. }
            | Self::Banded { of, .. }
            | Self::Worst { of } => std::slice::from_ref(of),
        }
    }
}

impl PartialEq for Node {
    fn eq(&self, _: &Self) -> bool {
        true
    }
}

impl fmt::Debug for Node {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Node({})", self.number)
    }
}

/// How a figure that was taken at its worst end is worked again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum BadEnds {
    /// It stays the number that it was.
    Kept,
    /// It moves with what it was taken from: what the part itself does.
    Thawed,
    /// It moves with what it was taken from and stays as far from it as it was.
    Carried,
}

/// What is given to work a graph again: one number for each of [`Graph::causes`] (in standard deviations), an end for each band.
#[derive(Clone, Debug)]
pub struct Draw {
    /// Standard deviations by cause.
    pub off: Vec<f64>,
    /// The end of each band; none is the middle.
    pub ends: Vec<Option<Side>>,
    /// What becomes of figures taken at their worst end.
    pub worst_ends: BadEnds,
    /// A root that is another number now, whatever it was worked from.
    pub pinned: Option<(usize, f64)>,
}

/// One line of a graph; numbers name earlier lines.
pub(super) enum Line {
    Fixed(f64),
    Formula(fn(&[f64]) -> f64, Vec<usize>),
    Straight(usize, f64, f64),
    Sum(Vec<usize>, Vec<f64>, f64),
    Held(usize, f64, f64),
    Doubted(usize, usize, f64),
    Banded(usize, usize, f64, f64),
    Worst(usize, f64),
}

impl Line {
    /// The earlier lines that it follows from.
    pub(super) fn parts(&self) -> &[usize] {
        match self {
            Self::Fixed(_) => &[],
            Self::Formula(_, of) | Self::Sum(of, ..) => of,
            Self::Straight(of, ..)
            | Self::Held(of, ..)
            | Self::Doubted(of, ..)
            | Self::Banded(of, ..)
            | Self::Worst(of, _) => std::slice::from_ref(of),
        }
    }
}

/// The line of each node that was met.
type Places = HashMap<*const Made, usize>;

/// Figures with all that they are worked from, each once, in an order in which they can be worked one after the other.
pub struct Graph {
    pub(super) lines: Vec<Line>,
    causes: Vec<Cause>,
    bands: usize,
    pub(super) roots: Vec<usize>,
    /// Every line as it was worked.
    numbers: Vec<f64>,
}

impl Graph {
    /// The graph of some figures.
    pub fn of<'a>(roots: impl IntoIterator<Item = &'a Node>) -> Self {
        let roots: Vec<&Node> = roots.into_iter().collect();
        let mut graph =
            Self { lines: Vec::new(), causes: Vec::new(), bands: 0, roots: Vec::new(), numbers: Vec::new() };
        let mut places = Places::new();
        let mut open: Vec<(&Node, bool)> = roots.iter().rev().map(|node| (*node, false)).collect();
        while let Some((node, ready)) = open.pop() {
            let Some(made) = node.made.as_ref().filter(|made| !places.contains_key(&Arc::as_ptr(made))) else {
                continue;
            };
            if ready {
                let line = graph.line(node.number, made, &places);
                graph.lines.push(line);
                graph.numbers.push(node.number);
                places.insert(Arc::as_ptr(made), graph.lines.len() - 1);
            } else {
                open.push((node, true));
                open.extend(made.parts().iter().rev().map(|part| (part, false)));
            }
        }
        graph.roots = roots.iter().map(|node| graph.place(node, &places)).collect();
        graph
    }

    /// Where a node stands; a number that nothing moves gets a line of its own.
    fn place(&mut self, node: &Node, places: &Places) -> usize {
        let known = node.made.as_ref().and_then(|made| places.get(&Arc::as_ptr(made)));
        known.copied().unwrap_or_else(|| {
            self.lines.push(Line::Fixed(node.number));
            self.numbers.push(node.number);
            self.lines.len() - 1
        })
    }

    fn line(&mut self, number: f64, made: &Made, places: &Places) -> Line {
        match made {
            Made::Formula { by, of } => Line::Formula(*by, of.iter().map(|node| self.place(node, places)).collect()),
            Made::Sum { of, times, more } => {
                Line::Sum(of.iter().map(|node| self.place(node, places)).collect(), times.to_vec(), *more)
            }
            Made::Line { of, times, more } => Line::Straight(self.place(of, places), *times, *more),
            Made::Held { of, least, most } => Line::Held(self.place(of, places), *least, *most),
            Made::Worst { of } => Line::Worst(self.place(of, places), number),
            Made::Doubted { of, cause, share } => {
                let known = self.causes.iter().position(|other| other == cause);
                let cause = known.unwrap_or_else(|| {
                    self.causes.push(*cause);
                    self.causes.len() - 1
                });
                Line::Doubted(self.place(of, places), cause, *share)
            }
            Made::Banded { of, low, high } => {
                self.bands += 1;
                let band = self.bands - 1;
                Line::Banded(self.place(of, places), band, *low, *high)
            }
        }
    }

    /// The causes of doubt, each once.
    pub fn causes(&self) -> &[Cause] {
        &self.causes
    }

    /// The figures as they were worked.
    pub fn as_read(&self, worst_ends: BadEnds) -> Draw {
        Draw { off: vec![0.0; self.causes.len()], ends: vec![None; self.bands], worst_ends, pinned: None }
    }

    /// Works all lines again and gives the roots, in their order. A doubt is a half-width at k = 2: one standard deviation is
    /// half of it. `room` is reused from one draw to the next.
    pub fn work(&self, draw: &Draw, room: &mut Vec<f64>) -> Vec<f64> {
        room.clear();
        let mut given = Vec::with_capacity(super::working::MOST_SYMBOLS);
        let pinned = draw.pinned.and_then(|(root, number)| Some((*self.roots.get(root)?, number)));
        for (place, line) in self.lines.iter().enumerate() {
            let number = self.number(line, draw, room, &mut given);
            room.push(pinned.filter(|(line, _)| *line == place).map_or(number, |(_, pinned)| pinned));
        }
        self.roots.iter().map(|root| room.get(*root).copied().unwrap_or(f64::NAN)).collect()
    }

    /// What a line gives from the earlier lines as they stand in `room`; `given` is room for the symbols of a formula.
    pub(super) fn number(&self, line: &Line, draw: &Draw, room: &[f64], given: &mut Vec<f64>) -> f64 {
        let at = |place: usize| room.get(place).copied().unwrap_or(f64::NAN);
        match line {
            Line::Fixed(number) => *number,
            Line::Formula(by, of) => {
                given.clear();
                given.extend(of.iter().map(|place| at(*place)));
                by(given)
            }
            Line::Straight(of, times, more) => at(*of) * times + more,
            Line::Sum(of, times, more) => of.iter().zip(times).fold(*more, |sum, (of, times)| sum + at(*of) * times),
            Line::Held(of, least, most) => at(*of).max(*least).min(*most),
            Line::Doubted(of, cause, share) => at(*of) + share / 2.0 * draw.off.get(*cause).unwrap_or(&0.0),
            Line::Banded(of, band, low, high) => match draw.ends.get(*band).copied().flatten() {
                None => at(*of),
                Some(Side::Low) => at(*of) + low,
                Some(Side::High) => at(*of) + high,
            },
            Line::Worst(of, number) if draw.worst_ends == BadEnds::Kept || at(*of).is_nan() => *number,
            Line::Worst(of, _) if draw.worst_ends == BadEnds::Thawed => at(*of),
            Line::Worst(of, number) => at(*of) + number - self.numbers.get(*of).unwrap_or(number),
        }
    }

    /// Which lines follow from any of some lines, those themselves among them; nothing follows through the line `but`.
    pub(super) fn following(&self, from: impl Fn(usize, &Line) -> bool, but: Option<usize>) -> Vec<bool> {
        let mut follows: Vec<bool> = Vec::with_capacity(self.lines.len());
        for (place, line) in self.lines.iter().enumerate() {
            let of = |part: &usize| follows.get(*part).copied().unwrap_or(false);
            let this = but != Some(place) && (from(place, line) || line.parts().iter().any(of));
            follows.push(this);
        }
        follows
    }

    /// Which roots follow from one of them.
    pub(crate) fn roots_following(&self, root: usize) -> Vec<bool> {
        let pinned = self.roots.get(root).copied();
        let follows = self.following(|place, _| Some(place) == pinned, None);
        self.roots.iter().map(|root| follows.get(*root).copied().unwrap_or(false)).collect()
    }

    /// The ends of the bands at which `goodness` of the roots is least, each reading as read: all corners where there are few
    /// bands, else one band after the other until none makes it worse.
    pub(crate) fn worst_ends(&self, worst_ends: BadEnds, goodness: impl Fn(&[f64]) -> f64) -> Draw {
        const ALL_CORNERS: usize = 8;
        let mut room = Vec::new();
        let mut draw = self.as_read(worst_ends);
        let mut goodness_of = |draw: &Draw| goodness(&self.work(draw, &mut room));
        let mut least = goodness_of(&draw);
        if self.bands <= ALL_CORNERS {
            let mut worst = draw.clone();
            for bits in 0..1_usize << self.bands {
                let side = |band: usize| if bits >> band & 1 == 0 { Side::Low } else { Side::High };
                draw.ends = (0..self.bands).map(|band| Some(side(band))).collect();
                let this = goodness_of(&draw);
                if this < least {
                    (least, worst) = (this, draw.clone());
                }
            }
            return worst;
        }
        let mut found = true;
        while found {
            found = false;
            for (band, side) in (0..self.bands).flat_map(|band| [(band, Side::Low), (band, Side::High)]) {
                let mut other = draw.clone();
                if let Some(end) = other.ends.get_mut(band) {
                    *end = Some(side);
                }
                let this = goodness_of(&other);
                if this < least {
                    (least, draw, found) = (this, other, true);
                }
            }
        }
        draw
    }
}
