//! Symbols drawn as lines: arrowheads, roughness, datum, indicator, feed.

use super::lay::{Align, Block, Lay, Pen, runs};
use super::{Point, clip};
use crate::drawing::{Projection, Side, arc};
use crate::sheet::page::Rect;
use nalgebra::Vector2;

/// Length and half width of an arrowhead, mm: closed, filled, slim enough to see which face it touches.
pub(super) const ARROW: (f64, f64) = (3.0, 0.55);
/// Heights of the short and the long leg of the roughness sign, in heights of its letters.
const LEGS: (f64, f64) = (1.4, 2.8);
/// Tangent of the 30° by which the legs of the roughness sign lean.
const LEAN: f64 = 0.577_350_269;
/// How far a leader may go sideways for each millimetre out: 30° off the face at the flattest.
const STEEP: f64 = 1.732;
/// Radius of the indicator's dial, mm.
const DIAL: f64 = 4.0;
/// Shortest arrow of feed that is seen, mm.
const LEAST_FEED: f64 = 10.0;
/// A tool on the paper: its edge, its shank, mm.
const TOOL: (f64, f64) = (5.0, 9.0);
/// Half widths of a turning arrow, and the length of an arm of a wrench, mm.
const TURNING: (f64, f64) = (5.0, 2.0);
const ARM: f64 = 14.0;
/// A mark of symmetry: its length, from the end of the part, and between its two lines, mm.
const MARK: (f64, f64, f64) = (3.5, 1.2, 1.0);
/// The second edge of a tool to the face that it leaves, degrees.
const TRAIL: f64 = 6.0;
/// How far a symbol may be pushed out, and along its face, in search of room, mm.
const PUSH: [f64; 12] = [0.0, 2.0, 4.0, 6.0, 8.0, 10.0, 13.0, 16.0, 20.0, 24.0, 28.0, 34.0];
const SHIFT: [f64; 9] = [0.0, 4.0, -4.0, 8.0, -8.0, 12.0, -12.0, 18.0, -18.0];

/// The way out of the part on a side (`y` runs down).
pub(super) fn outward(side: Side) -> Vector2<f64> {
    match side {
        Side::Left => Vector2::new(-1.0, 0.0),
        Side::Right => Vector2::new(1.0, 0.0),
        Side::Above => Vector2::new(0.0, -1.0),
        Side::Below => Vector2::new(0.0, 1.0),
    }
}

/// An arrowhead with its tip at a place, pointing along a unit vector.
pub(super) fn arrowhead(tip: Point, along: Vector2<f64>) -> Vec<Point> {
    let (back, across) = (tip - along * ARROW.0, Vector2::new(-along.y, along.x) * ARROW.1);
    vec![tip, back + across, back - across]
}

/// A dot at the end of a leader that points into a face.
pub(super) fn dot(at: Point) -> Vec<Point> {
    round(at, 0.6)
}

/// A closed circle on the paper, of as many straight pieces as the eye needs.
pub(in crate::sheet) fn round(centre: Point, radius: f64) -> Vec<Point> {
    // No piece lies further off the circle than this, mm; and no circle has more pieces.
    const OFF: f64 = 0.02;
    const MOST: f64 = 72.0;
    let pieces = (std::f64::consts::PI / (1.0 - OFF / radius).acos()).ceil().clamp(12.0, MOST);
    let turn = std::f64::consts::TAU / pieces;
    let at = |k: f64| centre + Vector2::new((k * turn).cos(), (k * turn).sin()) * radius;
    std::iter::successors(Some(0.0), |k| (k + 1.0 < pieces).then_some(k + 1.0)).map(at).collect()
}

/// The same as a line that ends where it begins.
pub(super) fn ring(centre: Point, radius: f64) -> Vec<Point> {
    let mut ring = round(centre, radius);
    ring.extend(ring.first().copied());
    ring
}

/// The first place, pushed out and shifted, whose foot is allowed and whose box is free: off the lanes of dimensions to come where
/// that can be, else at least where none of their extension lines passes through it; else nothing.
fn placed(lay: &Lay, foot: impl Fn(f64, f64) -> bool, bounds: impl Fn(f64, f64) -> Rect) -> Option<(f64, f64)> {
    let (mut within_a_lane, mut on_a_line) = (None, None);
    for (push, shift) in PUSH.iter().flat_map(|push| SHIFT.iter().map(move |shift| (*push, *shift))) {
        let room = bounds(push, shift);
        if !foot(push, shift) || !lay.free(&room) {
            continue;
        }
        let is_off = lay.off_extensions(&room);
        if is_off && lay.off_lanes(&room) {
            return Some((push, shift));
        }
        let other = if is_off { &mut within_a_lane } else { &mut on_a_line };
        other.get_or_insert((push, shift));
    }
    within_a_lane.or(on_a_line)
}

/// Whether a symbol asked for at one place may stand at another: on the same face.
fn on_face(lay: &Lay, at: Point, foot: Point) -> bool {
    let near = Rect::new(at.x, at.y, at.x, at.y).grown(0.05);
    lay.edges_near(&near).any(|(a, b)| clip::distance(at, a, b) < 0.05 && clip::distance(foot, a, b) < 0.05)
}

/// The roughness sign for a face worked by removing metal (ISO 21920): a tick closed to a triangle, a bar over the value.
/// On an upper face it stands on the face; on any other it stands on a line that points to the face.
pub(super) fn roughness(lay: &mut Lay, at: Point, side: Side, block: &Block) {
    let (short, long) = (LEGS.0 * lay.capital, LEGS.1 * lay.capital);
    let (left, right) = (short * LEAN, long * LEAN + block.width + 1.5);
    let foot = |push: f64, shift: f64| match side {
        Side::Above => Point::new(at.x + shift, at.y - push),
        Side::Below => Point::new(at.x + 4.0 + left + shift, at.y + long + 3.0 + push),
        Side::Right => Point::new(at.x + 5.0 + left + push, at.y + shift),
        Side::Left => Point::new(at.x - 5.0 - right - push, at.y + shift),
    };
    let bounds = |push, shift| {
        let v = foot(push, shift);
        Rect::new(v.x - left, v.y - long - 0.5, v.x + right, v.y - 0.1)
    };
    let way = |push: f64, shift: f64| {
        let (v, room) = (foot(push, shift), bounds(push, shift));
        match side {
            Side::Above if push == 0.0 => Vec::new(),
            Side::Above => vec![at, v],
            Side::Below => vec![at, Point::new(at.x, v.y), Point::new(v.x + right, v.y)],
            Side::Right => vec![at, Point::new(at.x + 4.0, v.y), Point::new(v.x + right, v.y)],
            Side::Left => vec![at, Point::new(at.x - 4.0, v.y), Point::new(room.left, v.y)],
        }
    };
    // On an upper face it stands on the face itself, or on a line that is not flatter than 30°.
    let stands = |push: f64, shift: f64| match side {
        Side::Above if push == 0.0 => shift == 0.0 || on_face(lay, at, foot(push, shift)),
        Side::Above => {
            shift.abs() <= STEEP * push && !lay.taken.iter().any(|t| t.grown(1.0).crossed_by(at, foot(push, shift)))
        }
        _ => true,
    };
    // Its line passes through no tool and no other symbol, where there is such a place; what stands at its very face apart.
    let beside = |t: &&Rect| at.x < t.left || at.x > t.right || at.y < t.top || at.y > t.bottom;
    let others: Vec<Rect> = lay.taken.iter().filter(beside).copied().collect();
    let clear = |push: f64, shift: f64| {
        stands(push, shift) && !runs(&way(push, shift)).any(|(a, b)| others.iter().any(|t| t.crossed_by(a, b)))
    };
    let found = placed(lay, clear, bounds).or_else(|| placed(lay, stands, bounds));
    let (push, shift) = found.unwrap_or((0.0, 0.0));
    let way = way(push, shift);
    lay.crowded |= found.is_none();
    let v = foot(push, shift);
    let (near, top) = (Point::new(v.x - left, v.y - short), Point::new(v.x + long * LEAN, v.y - long));
    lay.thin(vec![near, v, top, Point::new(v.x + right, top.y)]);
    lay.thin(vec![near, Point::new(v.x + left, v.y - short)]);
    let room = bounds(push, shift);
    lay.set(block, v.x + long * LEAN + 0.8, top.y + 1.2, Align::Left);
    lay.taken.push(room);
    if let Some(second) = way.get(1) {
        lay.solid(arrowhead(at, (at - second).try_normalize(1e-9).unwrap_or_else(|| -outward(side))));
    }
    if !way.is_empty() {
        lay.thin(way);
    }
}

/// The datum sign: a filled triangle on the face and a boxed letter on a stem (ISO 5459).
pub(super) fn datum(lay: &mut Lay, at: Point, side: Side, block: &Block) {
    let (out, half) = (outward(side), (lay.capital + 2.4) / 2.0);
    let along = Vector2::new(-out.y, out.x);
    let foot = |shift: f64| at + along * shift;
    let middle = |push: f64, shift: f64| foot(shift) + out * (5.0 + push + half);
    let bounds = |push: f64, shift: f64| {
        let c = middle(push, shift);
        Rect::new(c.x - half, c.y - half, c.x + half, c.y + half)
    };
    let found = placed(lay, |_, shift| shift == 0.0 || on_face(lay, at, foot(shift)), bounds);
    let (push, shift) = lay.or_crowded(found, (0.0, 0.0));
    let (base, c) = (foot(shift), middle(push, shift));
    lay.solid(vec![base + along * 1.8, base + out * 2.8, base - along * 1.8]);
    lay.thin(vec![base + out * 2.8, c - out * half]);
    let room = bounds(push, shift);
    let corners = [
        (room.left, room.top),
        (room.right, room.top),
        (room.right, room.bottom),
        (room.left, room.bottom),
        (room.left, room.top),
    ];
    lay.thin(corners.iter().map(|(x, y)| Point::new(*x, *y)).collect());
    lay.set(block, c.x - block.width / 2.0, c.y - block.capital / 2.0, Align::Left);
    lay.taken.push(room);
    if let Some(stand) = Rect::about(&[base + along * 1.8, base + out * 2.8, base - along * 1.8, c]) {
        lay.taken.push(stand);
    }
}

/// An indicator: its point on the face, its stem, its dial with a needle.
pub(super) fn indicator(lay: &mut Lay, at: Point, side: Side) {
    let out = outward(side);
    let along = Vector2::new(-out.y, out.x);
    let middle = |push: f64, shift: f64| at + along * shift + out * (7.0 + push + DIAL);
    let bounds = |push: f64, shift: f64| {
        let c = middle(push, shift);
        Rect::new(c.x - DIAL, c.y - DIAL, c.x + DIAL, c.y + DIAL)
    };
    let found = placed(lay, |_, shift| shift == 0.0 || on_face(lay, at, at + along * shift), bounds);
    let (push, shift) = lay.or_crowded(found, (0.0, 0.0));
    let (tip, c) = (at + along * shift, middle(push, shift));
    lay.solid(round(tip + out * 0.7, 0.7));
    lay.thick(vec![tip + out * 1.4, c - out * DIAL]);
    lay.thick(ring(c, DIAL));
    lay.thin(vec![c, c + Vector2::new(0.55, -0.75) * (DIAL * 0.8)]);
    for angle in [180.0, 225.0, 270.0, 315.0, 360.0_f64] {
        let ray = Vector2::new(angle.to_radians().cos(), angle.to_radians().sin());
        lay.thin(vec![c + ray * (DIAL * 0.8), c + ray * DIAL]);
    }
    lay.taken.push(bounds(push, shift));
}

/// The direction of feed: a thick arrow from where the tool begins to where it ends, pushed aside where that must be. Gives back
/// its middle.
pub(super) fn feed(lay: &mut Lay, from: Point, to: Point) -> Option<Point> {
    let way = (to - from).try_normalize(1e-9)?;
    let tail = to - way * (to - from).norm().max(LEAST_FEED);
    let across = Vector2::new(-way.y, way.x);
    let bounds = |out: f64| Rect::about(&[tail + across * out, to + across * out]).map(|room| room.grown(1.5));
    let outs = || PUSH.iter().flat_map(|push| [*push, -*push]);
    let free = |out: &f64| bounds(*out).is_some_and(|room| lay.free(&room));
    // Off marks and lines too, where there is such a place.
    let clear = |out: &f64| free(out) && bounds(*out).is_some_and(|room| !lay.crossed(&room));
    let found = outs().find(clear).or_else(|| outs().find(free));
    let out = lay.or_crowded(found, 0.0);
    let (t, tip) = (tail + across * out, to + across * out);
    let head = tip - way * 4.0;
    lay.thick(vec![t, head]);
    lay.solid(vec![tip, head + across * 1.5, head - across * 1.5]);
    lay.taken.extend(bounds(out));
    Some(nalgebra::center(&t, &tip))
}

/// A turning tool by its nose: the cutting edge thick, the shank thin and broken off, for nobody knows how long it is.
pub(super) fn tool(lay: &mut Lay, nose: Point, feed: Vector2<f64>, free: Vector2<f64>, edge: f64) {
    let angle = edge.to_radians();
    // The edge leaves the nose at its angle to the feed, towards the metal that goes; the second edge trails behind it.
    let cutting = feed * angle.cos() + free * angle.sin();
    let trailing = (free * TRAIL.to_radians().sin() - feed * TRAIL.to_radians().cos()) * TOOL.1;
    let (tip, heel) = (nose + cutting * TOOL.0, nose + trailing);
    let back = tip - feed * (tip - heel).dot(&feed);
    lay.thin(vec![nose, heel]);
    lay.thin(vec![tip, back]);
    lay.thin(zigzag(heel, back));
    lay.stroke(vec![nose, tip], Pen::Edge);
    if let Some(room) = Rect::about(&[nose, tip, heel, back]) {
        lay.taken.push(room.grown(-0.3));
    }
}

/// An arrow that turns to the right about an upright axis, seen a little from above; with it a wrench of two arms.
pub(super) fn turning(lay: &mut Lay, at: Point, wrench: bool) {
    let middle = at - Vector2::new(0.0, TURNING.1 + 2.5);
    if wrench {
        let arm = |x: f64| middle + Vector2::new(x, 0.0);
        lay.thick(vec![arm(-ARM), arm(ARM)]);
        lay.thick(vec![middle, at]);
    }
    let c = middle - Vector2::new(0.0, if wrench { TURNING.1 + 1.5 } else { 0.0 });
    let run: Vec<Point> = arc(Point::origin(), 1.0, 200.0, -20.0)
        .iter()
        .map(|p| c + Vector2::new(p.x * TURNING.0, p.y * TURNING.1))
        .collect();
    if let [.., before, tip] = run.as_slice()
        && let Some(way) = (*tip - *before).try_normalize(1e-9)
    {
        lay.solid(arrowhead(*tip + way * 1.0, way));
    }
    if let Some(room) = Rect::about(&[c - Vector2::new(ARM, TURNING.1), at + Vector2::new(ARM, 0.0)]) {
        lay.taken.push(room);
    }
    lay.thin(run);
}

/// The two short lines across each end of an axis that say: the other half is the same (ISO 128).
pub(super) fn symmetry(lay: &mut Lay, from: Point, to: Point) {
    let Some(way) = (to - from).try_normalize(1e-9) else { return };
    let across = Vector2::new(-way.y, way.x) * (MARK.0 / 2.0);
    for (end, out) in [(from, -way), (to, way)] {
        for off in [MARK.1, MARK.1 + MARK.2] {
            let foot = end + out * off;
            lay.thin(vec![foot - across, foot + across]);
        }
    }
}

/// Room that the sign of projection takes, mm.
pub(super) const PROJECTION: (f64, f64) = (16.0, 7.4);

/// The sign of projection in a room with its left upper corner at a place: a truncated cone and its view from the small end,
/// in first angle on the far side of the cone, in third angle on the side that it is seen from.
pub(super) fn projection(lay: &mut Lay, corner: Point, projection: Projection) {
    /// Half of the small and of the large end, and the length of the cone, mm.
    const CONE: (f64, f64, f64) = (1.3, 2.6, 5.6);
    const BEYOND: f64 = 0.8;
    let axis = corner.y + PROJECTION.1 - CONE.1 - BEYOND;
    let (left, right) = (corner.x + BEYOND, corner.x + PROJECTION.0 - BEYOND);
    let (cone, seen) = match projection {
        Projection::First => (left, right - CONE.1),
        Projection::Third => (right - CONE.2, left + CONE.1),
    };
    let end = cone + CONE.2;
    let corners = [(cone, -CONE.0), (end, -CONE.1), (end, CONE.1), (cone, CONE.0), (cone, -CONE.0)];
    lay.thin(corners.map(|(x, y)| Point::new(x, axis + y)).to_vec());
    for radius in [CONE.0, CONE.1] {
        lay.thin(ring(Point::new(seen, axis), radius));
    }
    lay.thin(vec![Point::new(cone - BEYOND, axis), Point::new(end + BEYOND, axis)]);
    lay.thin(vec![Point::new(seen - CONE.1 - BEYOND, axis), Point::new(seen + CONE.1 + BEYOND, axis)]);
    lay.thin(vec![Point::new(seen, axis - CONE.1 - BEYOND), Point::new(seen, axis + CONE.1 + BEYOND)]);
}

/// A break line (ISO 128): thin and straight, with one zigzag, a little beyond what it ends.
pub(super) fn zigzag(from: Point, to: Point) -> Vec<Point> {
    let Some(way) = (to - from).try_normalize(1e-9) else {
        return vec![from, to];
    };
    let (middle, across) = (nalgebra::center(&from, &to), Vector2::new(-way.y, way.x));
    let (near, far) = (way * 0.6, across * 1.6);
    vec![
        from - way * 1.2,
        middle - near * 2.0,
        middle - near + far,
        middle + near - far,
        middle + near * 2.0,
        to + way * 1.2,
    ]
}

#[cfg(test)]
mod tests {
    use super::super::dimensions::{self, Wanted};
    use super::{Block, Lay, Point, Side, arrowhead, datum, feed, indicator, outward, roughness};
    use crate::sheet::draughting::lay::{Kind, Layer};
    use crate::sheet::fonts::Font;

    fn plate() -> Lay {
        Lay::of(3.0, vec![Layer::Shape(Kind::Section(0), crate::drawing::rectangle(-40.0, 0.0, 40.0, 30.0))])
    }

    fn sign() -> Block {
        Block::new(Font::Sans, 3.0, ["Ra 0.8".to_owned()]).unwrap()
    }

    #[test]
    fn an_arrowhead_touches_with_its_tip() {
        let head = arrowhead(Point::new(5.0, 5.0), outward(Side::Right));
        assert_eq!(head[0], Point::new(5.0, 5.0));
        assert!(head[1].x < 5.0 && head[2].x < 5.0);
    }

    #[test]
    fn symbols_asked_for_at_one_place_make_room_for_each_other() {
        let mut lay = plate();
        let place = Point::new(0.0, 0.0);
        roughness(&mut lay, place, Side::Above, &sign());
        let letter = Block::new(Font::Bold, 3.0, ["A".to_owned()]).unwrap();
        datum(&mut lay, place, Side::Above, &letter);
        indicator(&mut lay, place, Side::Above);
        feed(&mut lay, Point::new(10.0, 0.0), place);
        assert!(lay.legible());
    }

    /// Where a sign must stand between the extension lines of a dimension, none of them runs through it.
    #[test]
    fn no_extension_line_runs_through_a_sign() {
        let block = sign();
        for high in [10.0, 14.0, 18.0, 22.0, 26.0] {
            let mut lay = plate();
            let (from, to) = (Point::new(40.0, high), Point::new(40.0, 60.0));
            let size = Wanted { from, to, side: Side::Right, shortened: false, half: true, block: block.clone() };
            lay.lanes = dimensions::lanes(std::slice::from_ref(&size));
            lay.extensions = dimensions::extensions(std::slice::from_ref(&size));
            // Nothing stands above its foot.
            lay.taken.push(crate::sheet::page::Rect::new(41.0, -80.0, 100.0, 8.0));
            roughness(&mut lay, Point::new(40.0, 15.0), Side::Right, &block);
            let stands = lay.taken.last().copied().unwrap();
            assert!(!lay.crowded && lay.off_extensions(&stands), "{high}: {stands:?}");
        }
    }

    #[test]
    fn what_finds_no_place_makes_the_drawing_illegible() {
        let mut lay = plate();
        for _ in 0..4 {
            roughness(&mut lay, Point::new(0.0, 0.0), Side::Above, &sign());
        }
        assert!(!lay.legible());
    }

    #[test]
    fn a_feed_without_direction_draws_nothing() {
        let mut lay = plate();
        feed(&mut lay, Point::new(1.0, 1.0), Point::new(1.0, 1.0));
        assert!(lay.solids.is_empty());
    }

    #[test]
    fn roughness_may_stand_on_every_side() {
        for (side, at) in [
            (Side::Left, (-40.0, 15.0)),
            (Side::Right, (40.0, 15.0)),
            (Side::Below, (0.0, 30.0)),
            (Side::Above, (0.0, 0.0)),
        ] {
            let mut lay = plate();
            roughness(&mut lay, Point::new(at.0, at.1), side, &sign());
            assert!(lay.legible(), "{side:?}");
        }
    }
}
