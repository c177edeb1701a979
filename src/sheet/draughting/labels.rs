//! Words with a leader, set where there is room: near what they mean, on the side wished where that is free, off every
//! line, their leader through no other words.

use super::lay::{Align, Block, Lay, Pen, Stroke};
use super::symbols::{arrowhead, dot};
use super::{Fault, Point, clip};
use crate::drawing::Side;
use crate::sheet::fonts::{self, Font};
use crate::sheet::page::{Dash, Rect};

/// Widest label, mm: longer ones are broken.
const WIDEST: f64 = 30.0;
/// Circle and digit of a balloon, mm.
const BALLOON: (f64, f64) = (6.0, 3.5);
/// From what is meant to the words, mm at least.
const AWAY: f64 = 5.0;
/// Places tried: so far apart, mm.
const STEP: (f64, f64) = (4.0, 2.5);
/// What a place costs, in mm of leader: the wrong side, a line crossed, a millimetre by which the drawing grows.
const WRONG_SIDE: f64 = 15.0;
const CROSSING: f64 = 10.0;
const GROWTH: f64 = 0.6;

/// A label to be placed.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    pub(super) at: Point,
    pub(super) side: Side,
    pub(super) says: Says,
}

/// What a leader leads to.
#[derive(Clone, Debug)]
pub(super) enum Says {
    Words(String),
    /// A number in a circle.
    Balloon(u8),
    /// The letter of a detail, beside its circle.
    Letter(char),
}

impl Wanted {
    /// Whether a line leads to the thing meant: the letter of a detail stands beside its ring.
    fn has_leader(&self) -> bool {
        !matches!(self.says, Says::Letter(_))
    }
}

/// A place for a label: its box, its leader, what it costs before lines crossed are counted.
struct Place {
    bounds: Rect,
    leader: Vec<Point>,
    cost: f64,
}

/// Places the labels.
pub(super) fn place(lay: &mut Lay, labels: &[Wanted]) -> Result<(), Fault> {
    for label in labels {
        let mut block = match &label.says {
            Says::Words(text) if text.trim().is_empty() => continue,
            Says::Words(text) => {
                Block::new(Font::Sans, lay.capital, fonts::wrap(Font::Sans, lay.capital, text, WIDEST)?)?
            }
            Says::Balloon(number) => Block::new(Font::Bold, BALLOON.1, [number.to_string()])?,
            Says::Letter(letter) => Block::new(Font::Bold, BALLOON.1, [letter.to_string()])?,
        };
        let inner = block.clone();
        if matches!(label.says, Says::Balloon(_)) {
            (block.width, block.height) = (BALLOON.0, BALLOON.0);
        }
        let found = best(lay, label, &block);
        let Some(place) = lay.or_crowded(found.map(Some), None) else {
            continue;
        };
        let (room, c) = (place.bounds, place.bounds.centre());
        match label.says {
            Says::Balloon(_) => {
                lay.set(&inner, c.x - inner.width / 2.0, c.y - inner.height / 2.0, Align::Left)?;
                let circle = crate::drawing::arc(c, BALLOON.0 / 2.0, 0.0, 360.0);
                lay.strokes.push(Stroke { points: circle, pen: Pen::Balloon, dash: Dash::Whole });
                lay.taken.push(room);
                if let Some(way) = (label.at - c).try_normalize(1e-9) {
                    leader(lay, label.at, &[c + way * (BALLOON.0 / 2.0)]);
                }
            }
            Says::Letter(_) => lay.set(&inner, room.left, room.top, Align::Left)?,
            Says::Words(_) => {
                let align = if room.right < label.at.x { Align::Right } else { Align::Left };
                lay.set(&block, room.left, room.top, align)?;
                leader(lay, label.at, &place.leader);
            }
        }
    }
    Ok(())
}

/// The cheapest place that is free.
fn best(lay: &Lay, label: &Wanted, block: &Block) -> Option<Place> {
    let mut places = places(lay, label, block);
    places.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    let mut found: Option<(usize, f64)> = None;
    for (i, place) in places.iter().enumerate() {
        if found.is_some_and(|(_, cost)| cost <= place.cost) {
            break;
        }
        if lay.free(&place.bounds.grown(0.4))
            && !lay.crossed(&place.bounds.grown(0.8))
            && (!label.has_leader() || !through_others(lay, label.at, &place.leader))
        {
            let crossed = if label.has_leader() { crossings(lay, label.at, &place.leader) } else { 0.0 };
            let cost = place.cost + CROSSING * crossed;
            if found.is_none_or(|(_, least)| cost < least) {
                found = Some((i, cost));
            }
        }
    }
    found.and_then(|(i, _)| places.into_iter().nth(i))
}

/// Every place on a grid about the drawing.
fn places(lay: &Lay, label: &Wanted, block: &Block) -> Vec<Place> {
    let Some(reach) = lay.bounds() else {
        return Vec::new();
    };
    let from = (reach.left - block.width - AWAY, reach.top - block.height - AWAY);
    let (columns, rows) = ((reach.right + AWAY - from.0) / STEP.0, (reach.bottom + AWAY - from.1) / STEP.1);
    let grid = (0..=columns as u32)
        .flat_map(|i| (0..=rows as u32).map(move |k| (f64::from(i) * STEP.0, f64::from(k) * STEP.1)));
    // Beside the grid, the places level with what is meant: their leaders are straight.
    let level = label.at.y - block.height / 2.0;
    let straight = (0..=columns as u32).map(|i| (f64::from(i) * STEP.0, level - from.1));
    straight
        .chain(grid)
        .map(|(x, y)| {
            let bounds = block.bounds(from.0 + x, from.1 + y);
            let whole = reach.and(&bounds);
            let leader = match label.says {
                Says::Words(_) => way(label.at, &bounds),
                // Straight at the middle, which the circle's edge cuts short.
                Says::Balloon(_) | Says::Letter(_) => vec![bounds.centre()],
            };
            let growth = whole.width() - reach.width() + whole.height() - reach.height();
            let cost =
                length(label.at, &leader) + GROWTH * growth + if on_side(label, &bounds) { 0.0 } else { WRONG_SIDE };
            Place { bounds, leader, cost }
        })
        .filter(|place| !place.bounds.grown(AWAY).crossed_by(label.at, label.at + nalgebra::Vector2::new(1e-6, 1e-6)))
        .collect()
}

fn on_side(label: &Wanted, bounds: &Rect) -> bool {
    match label.side {
        Side::Left => bounds.right < label.at.x,
        Side::Right => bounds.left > label.at.x,
        Side::Above => bounds.bottom < label.at.y,
        Side::Below => bounds.top > label.at.y,
    }
}

/// The leader to a box after the thing meant: to its nearer end with a short level piece, or to its middle from above or
/// below.
fn way(at: Point, bounds: &Rect) -> Vec<Point> {
    let c = bounds.centre();
    if bounds.left > at.x + 3.0 {
        vec![Point::new(bounds.left - 3.0, c.y), Point::new(bounds.left - 1.0, c.y)]
    } else if bounds.right < at.x - 3.0 {
        vec![Point::new(bounds.right + 3.0, c.y), Point::new(bounds.right + 1.0, c.y)]
    } else if c.y < at.y {
        vec![Point::new(at.x.clamp(bounds.left, bounds.right), bounds.bottom + 1.5)]
    } else {
        vec![Point::new(at.x.clamp(bounds.left, bounds.right), bounds.top - 1.0)]
    }
}

fn runs(at: Point, way: &[Point]) -> impl Iterator<Item = (Point, Point)> + '_ {
    std::iter::once(at).chain(way.iter().copied()).zip(way.iter().copied())
}

fn length(at: Point, way: &[Point]) -> f64 {
    runs(at, way).map(|(a, b)| (b - a).norm()).sum()
}

fn through_others(lay: &Lay, at: Point, way: &[Point]) -> bool {
    let words = lay.taken.iter().map(|t| t.grown(0.5));
    let solids = lay.solids.iter().filter_map(|s| Rect::about(s));
    // What stands about the very thing meant is not in the way of its leader.
    let about = |room: &Rect| room.overlaps(&Rect::new(at.x, at.y, at.x, at.y).grown(0.1));
    let others: Vec<Rect> = words.chain(solids).filter(|room| !about(room)).collect();
    runs(at, way).any(|(a, b)| others.iter().any(|r| r.crossed_by(a, b)))
}

/// How many lines of dimensions, symbols and other leaders a leader crosses.
fn crossings(lay: &Lay, at: Point, way: &[Point]) -> f64 {
    let crossed = runs(at, way).flat_map(|(a, b)| {
        lay.strokes
            .iter()
            .flat_map(|s| s.points.iter().copied().zip(s.points.iter().copied().skip(1)))
            .filter(move |(c, d)| clip::cross(a, b, *c, *d))
    });
    crossed.count() as f64
}

/// A leader: an arrow where it ends on an edge, a dot where it ends in a face.
fn leader(lay: &mut Lay, at: Point, way: &[Point]) {
    let on_edge =
        lay.edges_near(&Rect::new(at.x, at.y, at.x, at.y).grown(0.2)).any(|(a, b)| clip::distance(at, a, b) < 0.2);
    let toward = way.first().and_then(|first| (at - first).try_normalize(1e-9));
    lay.solids.push(match toward {
        Some(toward) if on_edge => arrowhead(at, toward),
        _ => dot(at),
    });
    lay.thin(std::iter::once(at).chain(way.iter().copied()).collect());
}

#[cfg(test)]
mod tests {
    use super::{Lay, Point, Says, Side, Wanted, place};
    use crate::sheet::draughting::lay::{Kind, Layer};

    fn plate() -> Lay {
        let plate = crate::drawing::rectangle(-40.0, 0.0, 40.0, 30.0);
        Lay::of(3.0, vec![Layer::Shape(Kind::Section(0), plate)])
    }

    #[test]
    fn crowded_labels_on_every_side_stay_legible() {
        for side in [Side::Left, Side::Right, Side::Above, Side::Below] {
            let mut lay = plate();
            let text = "an insert of stainless wire, wound to the right".to_owned();
            let wanted: Vec<Wanted> = (0..4)
                .map(|i| Wanted { at: Point::new(0.0, 10.0 + f64::from(i)), side, says: Says::Words(text.clone()) })
                .collect();
            place(&mut lay, &wanted).unwrap();
            assert!(lay.legible(), "{side:?}");
            assert!(lay.words.len() >= 8);
        }
    }

    #[test]
    fn a_label_stands_on_the_side_wished_and_its_leader_ends_on_the_thing() {
        let mut lay = plate();
        let at = Point::new(30.0, 15.0);
        place(&mut lay, &[Wanted { at, side: Side::Right, says: Says::Words("lug".into()) }]).unwrap();
        assert!(lay.words[0].at.x > 40.0);
        assert_eq!(lay.strokes[0].points[0], at);
    }
}
