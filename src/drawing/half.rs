//! The half above the axis of a round part: what is drawn where the whole would be small.

use super::{Balloon, Item, Point, Side, Sketch, Vector};

/// Nearer than this to the axis is on it, mm.
const ON_AXIS: f64 = 1e-9;

impl Sketch {
    /// What lies above the level axis of a round part, its ends marked as the same below. What stands below the axis and
    /// is there but once, such as the tool, stands above it instead; a diameter is dimensioned to the axis. Nothing where
    /// the part is not round.
    #[must_use]
    pub fn above_axis(&self) -> Option<Self> {
        self.round?;
        let mut half = Self { items: Vec::new(), faces: self.faces.clone(), ..*self };
        half.items.extend(self.items.iter().filter_map(|item| upper(&self.once(item))));
        let shapes = half.items.iter().filter_map(|item| match item {
            Item::Section { outline, .. } => Some(outline),
            Item::CutAway(outline) | Item::Void(outline) | Item::Old(outline) | Item::Jaw(outline) => Some(outline),
            _ => None,
        });
        let along: Vec<f64> = shapes.flatten().map(|p| p.x).collect();
        let (left, right) = (along.iter().copied().reduce(f64::min)?, along.iter().copied().reduce(f64::max)?);
        half.push(Item::Symmetry { from: Point::new(left, 0.0), to: Point::new(right, 0.0) });
        Some(half)
    }
}

impl Sketch {
    /// The whole with the tool, its feed and what is set by it above the level axis of a round part, where the half above the axis
    /// has them too: on whatever paper, the tool stands on one side.
    #[must_use]
    pub fn tool_above(&self) -> Self {
        let mut whole = self.clone();
        if self.round.is_none() {
            return whole;
        }
        whole.items = self.items.iter().map(|item| tool_over(&self.once(item))).collect();
        whole
    }

    /// An item; what stands below the axis and is there but once, with the break at its end, over it.
    fn once(&self, item: &Item) -> Item {
        let below = |outline: &[Point]| outline.iter().all(|p| p.y >= -ON_AXIS);
        let mut item = item.clone();
        match &mut item {
            Item::Tooling(outline) if below(outline) => outline.iter_mut().for_each(|p| *p = over(*p)),
            Item::Break { from, to } => {
                let ends = |outline: &Vec<Point>| below(outline) && outline.contains(from) && outline.contains(to);
                let of_it = |other: &Item| matches!(other, Item::Tooling(outline) if ends(outline));
                if self.items.iter().any(of_it) {
                    (*from, *to) = (over(*from), over(*to));
                }
            }
            _ => {}
        }
        item
    }
}

/// An item above the axis.
fn upper(item: &Item) -> Option<Item> {
    let mut item = item.clone();
    match &mut item {
        Item::Section { outline, .. }
        | Item::CutAway(outline)
        | Item::Void(outline)
        | Item::Old(outline)
        | Item::Jaw(outline)
        | Item::Tooling(outline)
        | Item::Moving { outline, .. } => {
            *outline = cut(outline, true);
            (outline.len() > 2).then_some(())?;
        }
        Item::Line { points, .. } => {
            // The axis itself is drawn with its marks.
            *points = cut(points, false);
            points.iter().any(|p| p.y < -ON_AXIS).then_some(())?;
        }
        Item::Break { from, to } | Item::Thread { from, to } | Item::Symmetry { from, to } => {
            let above = cut(&[*from, *to], false);
            let [a, b] = above.as_slice() else { return None };
            (a.y < -ON_AXIS || b.y < -ON_AXIS).then_some(())?;
            (*from, *to) = (*a, *b);
        }
        Item::Circle { centre, .. } | Item::Arc { centre, .. } => (centre.y < 0.0).then_some(())?,
        Item::Dimension { from, to, side, half, .. } => match side {
            Side::Left | Side::Right if from.y * to.y < 0.0 => {
                *from = if from.y < to.y { *from } else { *to };
                *to = Point::new(from.x, 0.0);
                *half = true;
            }
            // A length under the part begins at the axis, the lowest that is drawn.
            Side::Below => (from.y, to.y) = (0.0, 0.0),
            // What lies below the axis is as far from it above.
            _ if from.y >= -ON_AXIS && to.y >= -ON_AXIS => (*from, *to) = (over(*from), over(*to)),
            _ => (from.y <= ON_AXIS && to.y <= ON_AXIS).then_some(())?,
        },
        Item::Feed { from, to } => (*from, *to) = (over(*from), over(*to)),
        Item::Tool { .. } => item = tool_over(&item),
        Item::Label { at, towards, .. }
        | Item::Reads { at, towards, .. }
        | Item::Roughness { at, towards, .. }
        | Item::Datum { at, towards, .. }
        | Item::Balloon { at, towards, .. }
        | Item::Indicator { at, towards } => {
            if at.y > 0.0 {
                *at = over(*at);
                *towards = if *towards == Side::Below { Side::Above } else { *towards };
            }
        }
        // What goes round the axis is as thick above it.
        Item::Detail { at, .. } => *at = over(*at),
        Item::Turning { .. } => {}
    }
    Some(item)
}

/// What belongs to the tool, above the axis.
fn tool_over(item: &Item) -> Item {
    let mut item = item.clone();
    match &mut item {
        // Its body lies off the metal on that side too.
        Item::Tool { nose, feed, free, .. } if nose.y > 0.0 => {
            let turned = |way: &Vector| Vector::new(way.x, -way.y);
            (*nose, *feed, *free) = (over(*nose), turned(feed), turned(free));
        }
        Item::Feed { from, to } if from.y.max(to.y) > 0.0 => (*from, *to) = (over(*from), over(*to)),
        Item::Balloon { balloon: Balloon::Tool | Balloon::Zero, at, towards } if at.y > 0.0 => {
            *at = over(*at);
            *towards = if *towards == Side::Below { Side::Above } else { *towards };
        }
        _ => {}
    }
    item
}

fn over(p: Point) -> Point {
    Point::new(p.x, -p.y.abs())
}

/// What of a run of corners lies above the axis, closed or open.
fn cut(points: &[Point], closed: bool) -> Vec<Point> {
    let mut kept: Vec<Point> = Vec::new();
    let closing = if closed { points.last().copied() } else { None };
    let before = closing.into_iter().chain(points.iter().copied());
    let pairs = before.zip(points.iter().skip(usize::from(closing.is_none())).copied());
    if let Some(first) = points.first().filter(|first| !closed && first.y <= ON_AXIS) {
        kept.push(*first);
    }
    for (a, b) in pairs {
        if (a.y > ON_AXIS) != (b.y > ON_AXIS) {
            kept.push(Point::new(a.x + (b.x - a.x) * a.y / (a.y - b.y), 0.0));
        }
        if b.y <= ON_AXIS {
            kept.push(b);
        }
    }
    kept.dedup_by(|a, b| (*a - *b).norm() < ON_AXIS);
    kept
}

#[cfg(test)]
mod tests {
    use crate::drawing::{Item, Point, Shows, Side, Sketch, Vector, rectangle};

    #[test]
    fn a_disc_is_halved_with_its_diameter_and_its_marks() {
        let p = Point::new;
        let mut disc = Sketch { round: Some(40.0), ..Sketch::default() };
        disc.section(rectangle(0.0, -20.0, 8.0, 20.0), 0)
            .section(rectangle(0.0, 10.0, 8.0, 12.0), 1)
            .face("upper", p(0.0, -20.0), p(8.0, -20.0))
            .face("lower", p(0.0, 20.0), p(8.0, 20.0))
            .between("upper", "lower", Side::Left, Shows::diameter("outside"));
        let half = disc.above_axis().unwrap();
        let [Item::Section { outline, .. }, Item::Dimension { from, to, half: true, .. }, Item::Symmetry { .. }] =
            half.items.as_slice()
        else {
            panic!("{half}")
        };
        assert!(outline.iter().all(|p| p.y <= 0.0) && outline.len() == 4);
        assert_eq!((from.y, to.y), (-20.0, 0.0));
        assert!(Sketch::default().above_axis().is_none());
    }

    /// A size of what is below the axis alone stands above it: none is lost.
    #[test]
    fn a_wall_below_the_axis_is_dimensioned_above_it() {
        let p = Point::new;
        let mut ring = Sketch { round: Some(40.0), ..Sketch::default() };
        ring.section(rectangle(0.0, -20.0, 8.0, -15.0), 0)
            .section(rectangle(0.0, 15.0, 8.0, 20.0), 0)
            .face("bore", p(0.0, 15.0), p(8.0, 15.0))
            .face("outside", p(0.0, 20.0), p(8.0, 20.0))
            .between("bore", "outside", Side::Left, Shows::value("wall"));
        let half = ring.above_axis().unwrap();
        let ends = half.items.iter().find_map(|item| match item {
            Item::Dimension { from, to, .. } => Some((from.y, to.y)),
            _ => None,
        });
        assert_eq!(ends, Some((-15.0, -20.0)));
    }

    /// A blade that stands below the axis is there but once: it stands above, with the break at its end.
    #[test]
    fn a_blade_below_the_axis_stands_above_it() {
        let p = Point::new;
        let mut bar = Sketch { round: Some(40.0), ..Sketch::default() };
        bar.section(rectangle(-30.0, -20.0, 0.0, 20.0), 0).tooling(rectangle(-12.0, 22.0, -10.0, 36.0));
        bar.breaks(p(-12.0, 36.0), p(-10.0, 36.0));
        let half = bar.above_axis().unwrap();
        let blade = half.items.iter().find_map(|item| match item {
            Item::Tooling(outline) => Some(outline.clone()),
            _ => None,
        });
        let blade = blade.expect("the blade");
        assert!(blade.iter().all(|p| (-36.0..=-22.0).contains(&p.y)), "{blade:?}");
        let broken = |item: &Item| matches!(item, Item::Break { from, to } if from.y == -36.0 && to.y == -36.0);
        assert!(half.items.iter().any(broken), "{half}");
    }

    /// A tool that turns, or bores, from below does so from above in the half, and in the whole: its body never lies in the metal.
    #[test]
    fn a_tool_stands_on_its_own_side_of_the_metal_above_the_axis_too() {
        for (nose, free) in [(20.0, 1.0), (10.0, -1.0)] {
            let mut bar = Sketch { round: Some(40.0), ..Sketch::default() };
            bar.section(rectangle(-30.0, -20.0, 0.0, -10.0), 0).section(rectangle(-30.0, 10.0, 0.0, 20.0), 0);
            let tool = |nose: f64, free: f64| Item::Tool {
                nose: Point::new(2.0, nose),
                feed: Vector::new(-1.0, 0.0),
                free: Vector::new(0.0, free),
                edge: 95.0,
            };
            bar.push(tool(nose, free));
            for drawn in [bar.above_axis().unwrap(), bar.tool_above()] {
                assert!(drawn.items.contains(&tool(-nose, -free)), "{drawn}");
            }
        }
    }

    /// A place drawn larger lies on what is drawn.
    #[test]
    fn a_detail_under_the_axis_is_that_of_the_same_place_above_it() {
        let mut disc = Sketch { round: Some(40.0), ..Sketch::default() };
        disc.section(rectangle(0.0, -20.0, 8.0, 20.0), 0).detail(Point::new(4.0, 19.9), 0.2);
        let half = disc.above_axis().unwrap();
        let at = half.items.iter().find_map(|item| match item {
            Item::Detail { at, .. } => Some(*at),
            _ => None,
        });
        assert_eq!(at, Some(Point::new(4.0, -19.9)));
    }
}
