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
    for ring in RINGS {
        let places = places(lay, label, (&window, &shadow), (before, ring));
        for mut place in Cheapest::of(places.into_iter().map(|place| (place.cost, place))) {
            if found.is_some_and(|found| found.cost <= place.cost) {
                break;
            }
            if is_free(lay, label, &place) {
                if label.has_leader() {
                    place.cost += CROSSING * crossings(lay, label.at, &place.leader);
                }
                if found.is_none_or(|found| place.cost < found.cost) {
                    found = Some(place);
                }
            }
        }
        if found.is_some_and(|found| found.cost <= ring) {
            break;
        }
        before = ring;
    }
    found
}

fn is_free(lay: &Lay, label: &Wanted, place: &Place) -> bool {
    lay.free(&place.bounds.grown(AIR))
        && !lay.crossed(&place.bounds.grown(0.8))
        && !(label.has_leader() && through_others(lay, label.at, &place.leader))
}

/// The places on a grid about the thing meant whose cost lies in a span: level with it the leaders are straight.
fn places(lay: &Lay, label: &Wanted, (window, shadow): (&Rect, &Shadow), (from, to): (f64, f64)) -> Vec<Place> {
    let (size, at) = (label.size(), label.at);
    let first = Point::new(at.x - size.x / 2.0, at.y - size.y / 2.0);
    // No place costs less than its leader is long.
    let corners = Rect::new(
        window.left.max(at.x - to - size.x),
        window.top.max(at.y - to - size.y),
        (window.right - size.x).min(at.x + to),
        (window.bottom - size.y).min(at.y + to),
    );
    let steps = |low: f64, high: f64, first: f64, step: f64| {
        let (low, high) = (((low - first) / step).ceil(), ((high - first) / step).floor());
        std::iter::successors(Some(low), move |k| Some(k + 1.0))
            .take_while(move |k| *k <= high)
            .map(move |k| first + k * step)
    };
    let before = lay.growth(None);
    let mut all = Vec::new();
    for x in steps(corners.left, corners.right, first.x, STEP.0) {
        for y in steps(corners.top, corners.bottom, first.y, STEP.1) {
            if shadow.takes(Point::new(x - AIR, y - AIR)) {
                continue;
            }
            let bounds = Rect::new(x, y, x + size.x, y + size.y);
            let leader = match label.says {
                Says::Words => way(at, &bounds),
                // Straight at the middle, which the circle's edge cuts short.
                Says::Balloon | Says::Letter => [bounds.centre(); 2],
            };
            let cost = length(at, &leader)
                + GROWTH * (lay.growth(Some(&bounds)) - before)
                + if on_side(label, &bounds) { 0.0 } else { WRONG_SIDE };
            let near = bounds.grown(AWAY);
            let on_it = at.x > near.left && at.x < near.right && at.y > near.top && at.y < near.bottom;
            if cost > from && cost <= to && !on_it && lay.holds(&bounds) {
                all.push(Place { bounds, leader, cost });
            }
        }
    }
    all
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
    let mut others = others.filter(|room| !room.overlaps(&thing));
    others.any(|room| runs(at, leader).iter().any(|(a, b)| room.crossed_by(*a, *b)))
}

/// How many lines of dimensions, symbols and other leaders, and how many edges of the part a leader crosses.
fn crossings(lay: &Lay, at: Point, leader: &Leader) -> f64 {
    let Some(about) = Rect::about(&[at, leader[0], leader[1]]) else { return 0.0 };
    let near = lay.strokes.iter().filter(|(bounds, _)| bounds.grown(0.01).overlaps(&about.grown(0.01)));
    let lines = near.flat_map(|(_, s)| super::lay::runs(&s.points));
    // An edge on which the thing meant lies is where its leader ends.
    let edges = lay.edges_near(&about).filter(|(a, b)| clip::distance(at, *a, *b) > ON_EDGE);
    let lines = lines.chain(edges);
    lines.flat_map(|(c, d)| runs(at, leader).map(|(a, b)| clip::cross(a, b, c, d))).filter(|crosses| *crosses).count()
        as f64
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
