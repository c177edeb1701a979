//! The scale of a sketch: one, both ways, of ISO 5455.

use super::Point;
use crate::drawing::{Item, Sketch, Stroke};
use crate::sheet::page::Rect;
use nalgebra::{Similarity2, Vector2};

/// Scales of ISO 5455, the largest first.
pub(super) const SCALES: [Scale; 14] = [
    Scale { paper: 50, part: 1 },
    Scale { paper: 20, part: 1 },
    Scale { paper: 10, part: 1 },
    Scale { paper: 5, part: 1 },
    Scale { paper: 2, part: 1 },
    Scale { paper: 1, part: 1 },
    Scale { paper: 1, part: 2 },
    Scale { paper: 1, part: 5 },
    Scale { paper: 1, part: 10 },
    Scale { paper: 1, part: 20 },
    Scale { paper: 1, part: 50 },
    Scale { paper: 1, part: 100 },
    Scale { paper: 1, part: 200 },
    Scale { paper: 1, part: 500 },
];

/// Scales of a detail, the smallest first.
const DETAILS: [Scale; 5] = [
    Scale { paper: 2, part: 1 },
    Scale { paper: 5, part: 1 },
    Scale { paper: 10, part: 1 },
    Scale { paper: 20, part: 1 },
    Scale { paper: 50, part: 1 },
];
/// A cut thinner than this on the paper has a detail, mm.
pub(in crate::sheet) const LEAST_SEEN: f64 = 0.6;
/// In a detail a cut is at least so thick, mm of paper.
pub(in crate::sheet) const LEAST_IN_DETAIL: f64 = 2.0;

/// A scale, millimetres of paper to millimetres of the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scale {
    /// On the paper.
    pub paper: u16,
    /// On the part.
    pub part: u16,
}

impl Scale {
    /// Paper over part.
    #[must_use]
    pub fn factor(self) -> f64 {
        f64::from(self.paper) / f64::from(self.part)
    }

    /// The least scale of a detail at which a cut is seen, where it is too thin at this one, mm of the part.
    pub(super) fn of_detail(self, across: f64) -> Option<Self> {
        if across <= 0.0 || across * self.factor() >= LEAST_SEEN {
            return None;
        }
        let larger = || DETAILS.into_iter().filter(|detail| detail.factor() > self.factor());
        larger().find(|detail| across * detail.factor() >= LEAST_IN_DETAIL).or_else(|| larger().next_back())
    }
}

impl std::fmt::Display for Scale {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}:{}", self.paper, self.part)
    }
}

/// From the part to the paper: as large both ways, never turned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct View {
    pub(super) scale: Scale,
    map: Similarity2<f64>,
}

impl View {
    /// The part's origin stays the origin.
    pub(super) fn new(scale: Scale) -> Self {
        Self { scale, map: Similarity2::new(Vector2::zeros(), 0.0, scale.factor()) }
    }

    /// The view in which a place of the part stands at a place of the paper.
    pub(super) fn about(scale: Scale, part: Point, paper: Point) -> Self {
        let shift = paper.coords - part.coords * scale.factor();
        Self { scale, map: Similarity2::new(shift, 0.0, scale.factor()) }
    }

    /// A place of the part on the paper.
    pub(super) fn at(&self, p: Point) -> Point {
        self.map.transform_point(&p)
    }

    pub(super) fn all(&self, points: &[Point]) -> Vec<Point> {
        points.iter().map(|p| self.at(*p)).collect()
    }
}

/// What a sketch covers, mm of the part: every outline and edge, axes left out.
pub(super) fn extents(sketch: &Sketch) -> Option<Rect> {
    let covered = sketch.items.iter().filter_map(|item| match item {
        Item::Section { outline, .. } | Item::Moving { outline, .. } => Rect::about(outline),
        Item::CutAway(outline) | Item::Void(outline) | Item::Jaw(outline) | Item::Tooling(outline) => {
            Rect::about(outline)
        }
        Item::Line { points, stroke } if *stroke != Stroke::Centre => Rect::about(points),
        Item::Circle { centre, radius, .. } | Item::Arc { centre, radius, .. } => {
            Some(Rect::new(centre.x, centre.y, centre.x, centre.y).grown(radius.abs()))
        }
        _ => None,
    });
    covered.reduce(|a, b| a.and(&b))
}

#[cfg(test)]
mod tests {
    use super::{Point, SCALES, Scale, View};

    const ONE: Scale = Scale { paper: 1, part: 1 };

    #[test]
    fn scales_run_from_large_to_small() {
        assert!(SCALES.is_sorted_by(|a, b| a.factor() > b.factor()));
        assert_eq!(Scale { paper: 1, part: 5 }.to_string(), "1:5");
    }

    #[test]
    fn a_view_is_as_large_both_ways() {
        let half = View::new(Scale { paper: 1, part: 2 });
        assert_eq!(half.at(Point::new(150.0, 2.0)), Point::new(75.0, 1.0));
        let about = View::about(Scale { paper: 10, part: 1 }, Point::new(3.0, 4.0), Point::new(50.0, 60.0));
        assert!((about.at(Point::new(3.1, 4.2)) - Point::new(51.0, 62.0)).norm() < 1e-9);
    }

    /// Source: own: 0.229 mm at 1:1 wants 10:1 (2.29), 0.055 mm wants 50:1 (2.75), 0.6 mm wants none.
    #[test]
    fn a_thin_cut_has_the_least_detail_that_shows_it() {
        let scale = |across: f64| ONE.of_detail(across).map(|scale| scale.paper);
        assert_eq!((scale(0.229), scale(0.055), scale(0.6), scale(0.0)), (Some(10), Some(50), None, None));
        assert_eq!(Scale { paper: 5, part: 1 }.of_detail(0.11).map(|scale| scale.paper), Some(20));
        assert_eq!(scale(0.002), Some(50), "the largest there is");
    }
}
