//! Words with a leader, set where there is room: near what they mean, on the side wished where that is free, off every
//! line, their leader through no other words.

use super::Cheapest;
use super::blocked::Shadow;
use super::lay::{Align, Block, Lay, Pen};
use super::symbols::{arrowhead, dot, ring};
use super::{Point, clip};
use crate::drawing::Side;
use crate::sheet::page::Rect;
use nalgebra::Vector2;
use std::ops::Range;

/// Widest label, mm: longer ones are broken.
pub(super) const WIDEST: f64 = 30.0;
/// Height of the digit of a balloon, and of the letter of a detail, mm.
pub(super) const DIGIT: f64 = 3.5;
/// Diameter of a balloon, mm.
const BALLOON: f64 = 6.0;
/// From what is meant to the words, mm at least.
const AWAY: f64 = 5.0;
/// Air about the words, mm at least.
const AIR: f64 = 0.4;
/// Places tried: so far apart, mm.
const STEP: (f64, f64) = (4.0, 2.5);
/// What a place costs, in mm of leader: the wrong side, a line crossed, a millimetre by which the drawing grows.
const WRONG_SIDE: f64 = 15.0;
const CROSSING: f64 = 10.0;
const GROWTH: f64 = 0.6;
/// How far a label stands to its side at least for each millimetre across.
const STRAIGHT: f64 = 0.5;
/// Nearer than this to an edge a thing lies on it, mm.
const ON_EDGE: f64 = 0.2;
/// How dear a place may be before the dearer ones are looked at: the nearest first.
const RINGS: [f64; 4] = [15.0, 30.0, 60.0, f64::INFINITY];

/// A label to be placed.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    pub(super) at: Point,
    pub(super) side: Side,
    pub(super) says: Says,
    pub(super) block: Block,
}

/// What a leader leads to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Says {
    Words,
    /// A number in a circle.
    Balloon,
    /// The letter of a detail, beside its circle.
    Letter,
}

impl Wanted {
    /// Whether a line leads to the thing meant: the letter of a detail stands beside its ring.
    fn has_leader(&self) -> bool {
        self.says != Says::Letter
    }

    fn size(&self) -> Vector2<f64> {
        match self.says {
            Says::Balloon => Vector2::new(BALLOON, BALLOON),
            Says::Words | Says::Letter => Vector2::new(self.block.width, self.block.height),
        }
    }
}

/// A leader after the thing meant: its knee, which may be its end.
type Leader = [Point; 2];

/// A place for a label: its box, its leader, what it costs.
#[derive(Clone, Copy)]
struct Place {
    bounds: Rect,
    leader: Leader,
    cost: f64,
}

/// Places the labels; the first that finds no place leaves the drawing crowded.
pub(super) fn place(lay: &mut Lay, labels: &[Wanted]) {
    for label in labels {
        lay.survey();
        let found = best(lay, label);
        let Some(place) = lay.or_crowded(found.map(Some), None) else { return };
        set(lay, label, &place);
    }
}

fn set(lay: &mut Lay, label: &Wanted, place: &Place) {
    let (block, room, c) = (&label.block, place.bounds, place.bounds.centre());
    match label.says {
        Says::Balloon => {
            lay.set(block, c.x - block.width / 2.0, c.y - block.height / 2.0, Align::Left);
            lay.stroke(ring(c, BALLOON / 2.0), Pen::Balloon);
            lay.taken.push(room);
            if let Some(way) = (label.at - c).try_normalize(1e-9) {
                leader(lay, label.at, [c + way * (BALLOON / 2.0); 2]);
            }
        }
        Says::Letter => lay.set(block, room.left, room.top, Align::Left),
        Says::Words => {
            let align = if room.right < label.at.x { Align::Right } else { Align::Left };
            lay.set(block, room.left, room.top, align);
            leader(lay, label.at, place.leader);
        }
    }
}

/// The cheapest place that is free.
fn best(lay: &Lay, label: &Wanted) -> Option<Place> {
    let window = lay.window(label.size(), AWAY)?;
    let shadow = lay.blocked.shadow(label.size().add_scalar(2.0 * AIR));
    let (mut found, mut before) = (None::<Place>, 0.0);
    let (mut seen, mut waiting) = (Grid::default(), Vec::new());
    for ring in RINGS {
        // What is dearer than a place that was found is not looked at; a leader ends a little before its label.
        let grid = Grid::within(label, &window, found.map_or(ring, |found| ring.min(found.cost + AWAY)));
        let ring = found.map_or(ring, |found| ring.min(found.cost));
        waiting.extend(grid.places(lay, label, &shadow, &seen).into_iter().filter(|(cost, _)| *cost > before));
        let (now, later) = waiting.into_iter().partition::<Vec<_>, _>(|(cost, _)| *cost <= ring);
        (seen, waiting) = (grid, later);
        for (cost, corner) in Cheapest::of(now) {
            if found.is_some_and(|found| found.cost <= cost) {
                break;
            }
            let place = Place::of(label, corner, cost);
            if !is_free(lay, label, &place) {
                continue;
            }
            let dear = |crossed: usize| cost + CROSSING * crossed as f64;
            // So many lines crossed make it dearer than what was found: no more are counted.
            let most = |found: Place| (1..).find(|most| dear(*most) >= found.cost).unwrap_or(usize::MAX);
            let most = found.map_or(usize::MAX, most);
            let crossed = if label.has_leader() { crossings(lay, label.at, &place.leader, most) } else { 0 };
            if crossed < most {
                found = Some(Place { cost: dear(crossed), ..place });
            }
        }
        if found.is_some_and(|found| found.cost <= ring) {
            break;
        }
        before = ring;
    }
    found
}

/// Whether nothing stands there or in the way of its leader: words, which are in the way most often, first.
fn is_free(lay: &Lay, label: &Wanted, place: &Place) -> bool {
    !(label.has_leader() && through_others(lay, label.at, &place.leader))
        && lay.free(&place.bounds.grown(AIR))
        && !lay.crossed(&place.bounds.grown(0.8))
}

impl Place {
    /// The place with its left upper corner there.
    fn of(label: &Wanted, corner: Point, cost: f64) -> Self {
        let size = label.size();
        let bounds = Rect::new(corner.x, corner.y, corner.x + size.x, corner.y + size.y);
        let leader = match label.says {
            Says::Words => way(label.at, &bounds),
            // Straight at the middle, which the circle's edge cuts short.
            Says::Balloon | Says::Letter => [bounds.centre(); 2],
        };
        Self { bounds, leader, cost }
    }
}

/// Steps of a grid about the thing meant, across and down: level with it the leaders are straight.
#[derive(Default)]
struct Grid {
    across: Range<i32>,
    down: Range<i32>,
}

impl Grid {
    /// Those in a window that may cost no more than so much: no place costs less than its leader is long.
    fn within(label: &Wanted, window: &Rect, most: f64) -> Self {
        let (size, at) = (label.size(), label.at);
        let first = corner(label, (0, 0));
        let steps = |low: f64, high: f64, first: f64, step: f64| {
            ((low - first) / step).ceil() as i32..((high - first) / step).floor() as i32 + 1
        };
        let (left, right) = (window.left.max(at.x - most - size.x), (window.right - size.x).min(at.x + most));
        let (top, bottom) = (window.top.max(at.y - most - size.y), (window.bottom - size.y).min(at.y + most));
        Self { across: steps(left, right, first.x, STEP.0), down: steps(top, bottom, first.y, STEP.1) }
    }

    /// The places on it that were not seen before, each with what it costs but for the lines that its leader crosses.
    fn places(&self, lay: &Lay, label: &Wanted, shadow: &Shadow, seen: &Self) -> Vec<(f64, Point)> {
        let (at, before) = (label.at, lay.growth(None));
        let mut all = Vec::new();
        for x in self.across.clone() {
            let may_be_seen = seen.across.contains(&x);
            for y in self.down.clone() {
                if may_be_seen && seen.down.contains(&y) {
                    continue;
                }
                let corner = corner(label, (x, y));
                if shadow.takes(Point::new(corner.x - AIR, corner.y - AIR)) {
                    continue;
                }
                let Place { bounds, leader, .. } = Place::of(label, corner, 0.0);
                let near = bounds.grown(AWAY);
                let on_it = at.x > near.left && at.x < near.right && at.y > near.top && at.y < near.bottom;
                if on_it || !lay.holds(&bounds) {
                    continue;
                }
                let cost = length(at, &leader)
                    + GROWTH * (lay.growth(Some(&bounds)) - before)
                    + if on_side(label, &bounds) { 0.0 } else { WRONG_SIDE };
                all.push((cost, corner));
            }
        }
        all
    }
}

/// Left upper corner of a label so many steps from where its middle would stand upon the thing meant.
fn corner(label: &Wanted, (across, down): (i32, i32)) -> Point {
    let (size, at) = (label.size(), label.at);
    let first = Point::new(at.x - size.x / 2.0, at.y - size.y / 2.0);
    Point::new(first.x + f64::from(across) * STEP.0, first.y + f64::from(down) * STEP.1)
}

/// Whether a box stands rather beside the thing on its side than over or under it.
fn on_side(label: &Wanted, bounds: &Rect) -> bool {
    let way = bounds.centre() - label.at;
    match label.side {
        Side::Left => bounds.right < label.at.x && -way.x > STRAIGHT * way.y.abs(),
        Side::Right => bounds.left > label.at.x && way.x > STRAIGHT * way.y.abs(),
        Side::Above => bounds.bottom < label.at.y && -way.y > STRAIGHT * way.x.abs(),
        Side::Below => bounds.top > label.at.y && way.y > STRAIGHT * way.x.abs(),
    }
}

/// The leader to a box after the thing meant: to its nearer end with a short level piece, or to its middle from above or
/// below.
fn way(at: Point, bounds: &Rect) -> Leader {
    let c = bounds.centre();
    if bounds.left > at.x + 3.0 {
        [Point::new(bounds.left - 3.0, c.y), Point::new(bounds.left - 1.0, c.y)]
    } else if bounds.right < at.x - 3.0 {
        [Point::new(bounds.right + 3.0, c.y), Point::new(bounds.right + 1.0, c.y)]
    } else {
        let y = if c.y < at.y { bounds.bottom + 1.5 } else { bounds.top - 1.0 };
        [Point::new(at.x.clamp(bounds.left, bounds.right), y); 2]
    }
}

fn runs(at: Point, [knee, end]: &Leader) -> [(Point, Point); 2] {
    [(at, *knee), (*knee, *end)]
}

fn length(at: Point, leader: &Leader) -> f64 {
    runs(at, leader).iter().map(|(a, b)| (b - a).norm()).sum()
}

fn through_others(lay: &Lay, at: Point, leader: &Leader) -> bool {
    let words = lay.taken.iter().map(|taken| taken.grown(0.8));
    let others = words.chain(lay.solids.iter().map(|(bounds, _)| *bounds));
    // What stands about the very thing meant is not in the way of its leader.
    let thing = Rect::new(at.x, at.y, at.x, at.y).grown(0.1);
    let about = Rect::about(&[at, leader[0], leader[1]]);
    let near = |room: &Rect| about.is_some_and(|about| room.overlaps(&about)) && !room.overlaps(&thing);
    others.filter(near).any(|room| runs(at, leader).iter().any(|(a, b)| room.crossed_by(*a, *b)))
}

/// How many lines of dimensions, symbols and other leaders, and how many edges of the part a leader crosses, counted up to `most`.
fn crossings(lay: &Lay, at: Point, leader: &Leader, most: usize) -> usize {
    let Some(about) = Rect::about(&[at, leader[0], leader[1]]) else { return 0 };
    let near = lay.strokes.iter().filter(|(bounds, _)| bounds.grown(0.01).overlaps(&about.grown(0.01)));
    let lines = near.flat_map(|(_, s)| super::lay::runs(&s.points));
    // An edge on which the thing meant lies is where its leader ends.
    let edges = lay.edges_near(&about).filter(|(a, b)| clip::distance(at, *a, *b) > ON_EDGE);
    let lines = lines.chain(edges);
    let crosses = lines.flat_map(|(c, d)| runs(at, leader).map(|(a, b)| clip::cross(a, b, c, d)));
    crosses.filter(|crosses| *crosses).take(most).count()
}

/// A leader: an arrow where it ends on an edge, a dot where it ends in a face.
fn leader(lay: &mut Lay, at: Point, [knee, end]: Leader) {
    let on_edge = lay
        .edges_near(&Rect::new(at.x, at.y, at.x, at.y).grown(ON_EDGE))
        .any(|(a, b)| clip::distance(at, a, b) < ON_EDGE);
    let toward = (at - knee).try_normalize(1e-9);
    lay.solid(match toward {
        Some(toward) if on_edge => arrowhead(at, toward),
        _ => dot(at),
    });
    lay.thin(if knee == end { vec![at, end] } else { vec![at, knee, end] });
}

#[cfg(test)]
mod tests {
    use super::{Lay, Point, Says, Side, WIDEST, Wanted, place};
    use crate::sheet::draughting::lay::{Block, Kind, Layer};
    use crate::sheet::fonts::{self, Font};

    fn plate() -> Lay {
        let plate = crate::drawing::rectangle(-40.0, 0.0, 40.0, 30.0);
        Lay::of(3.0, vec![Layer::Shape(Kind::Section(0), plate)])
    }

    fn words(at: Point, side: Side, text: &str) -> Wanted {
        let lines = fonts::wrap(Font::Sans, 3.0, text, WIDEST).unwrap();
        Wanted { at, side, says: Says::Words, block: Block::new(Font::Sans, 3.0, lines).unwrap() }
    }

    #[test]
    fn crowded_labels_on_every_side_stay_legible() {
        for side in [Side::Left, Side::Right, Side::Above, Side::Below] {
            let mut lay = plate();
            let text = "an insert of stainless wire, wound to the right";
            let wanted: Vec<Wanted> = (0..4).map(|i| words(Point::new(0.0, 10.0 + f64::from(i)), side, text)).collect();
            place(&mut lay, &wanted);
            assert!(lay.legible(), "{side:?}");
            assert!(lay.words.len() >= 8);
        }
    }

    #[test]
    fn a_label_stands_on_the_side_wished_and_its_leader_ends_on_the_thing() {
        let mut lay = plate();
        let at = Point::new(30.0, 15.0);
        place(&mut lay, &[words(at, Side::Right, "lug")]);
        assert!(lay.words[0].at.x > 40.0);
        assert_eq!(lay.strokes[0].1.points[0], at);
    }

    #[test]
    fn a_label_goes_where_the_room_is() {
        let mut lay = plate();
        lay.keep_within(82.0, 50.0);
        place(&mut lay, &[words(Point::new(40.0, 15.0), Side::Right, "lug")]);
        assert!(lay.fits() && lay.words[0].bounds.right <= 40.0);
        lay.keep_within(82.0, 31.0);
        place(&mut lay, &[words(Point::new(40.0, 15.0), Side::Right, "lug")]);
        assert!(!lay.fits());
    }
}
