//! The scale of a sketch (ISO 5455), and what is stretched so that thin metal can be seen.

use super::Point;
use crate::drawing::{Item, Sketch};
use crate::sheet::page::Rect;
use nalgebra::Scale2;

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

/// Metal drawn thinner than this, mm of paper, is stretched.
const LEAST_DRAWN: f64 = 9.0;
/// How many times metal may be stretched one way.
const STRETCHES: [u16; 17] = [2, 3, 4, 5, 8, 10, 15, 20, 30, 40, 50, 100, 200, 500, 1000, 2000, 5000];

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
}

impl std::fmt::Display for Scale {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}:{}", self.paper, self.part)
    }
}

/// Which way thin metal is stretched.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stretch {
    /// Not at all: to scale.
    None,
    /// Widths, so many times.
    Width(u16),
    /// Heights, so many times.
    Height(u16),
}

/// From the part to the paper.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct View {
    pub(super) scale: Scale,
    pub(super) stretch: Stretch,
    map: Scale2<f64>,
}

impl View {
    /// The view at a scale; metal that would be too thin to see is stretched by the least factor that will do.
    pub(super) fn new(scale: Scale, metal: &Rect) -> Self {
        let (wide, high) = (metal.width() * scale.factor(), metal.height() * scale.factor());
        let thin = wide.min(high);
        let times = STRETCHES.into_iter().find(|k| thin * f64::from(*k) >= LEAST_DRAWN);
        let stretch = match times {
            Some(k) if thin < LEAST_DRAWN && thin > 0.0 => {
                if high < wide {
                    Stretch::Height(k)
                } else {
                    Stretch::Width(k)
                }
            }
            _ => Stretch::None,
        };
        let (x, y) = match stretch {
            Stretch::None => (1.0, 1.0),
            Stretch::Width(k) => (f64::from(k), 1.0),
            Stretch::Height(k) => (1.0, f64::from(k)),
        };
        Self { scale, stretch, map: Scale2::new(scale.factor() * x, scale.factor() * y) }
    }

    /// A place of the part on the paper; the part's origin stays the origin.
    pub(super) fn at(&self, p: Point) -> Point {
        self.map.transform_point(&p)
    }

    pub(super) fn all(&self, points: &[Point]) -> Vec<Point> {
        points.iter().map(|p| self.at(*p)).collect()
    }
}

/// Bounds of the metal of a sketch, mm of the part; of all its lines where no metal is cut.
pub(super) fn metal(sketch: &Sketch) -> Option<Rect> {
    let cut = sketch.items.iter().filter_map(|item| match item {
        Item::Section { outline, .. } | Item::CutAway(outline) => Rect::about(outline),
        _ => None,
    });
    let drawn = sketch.items.iter().filter_map(|item| match item {
        Item::Line { points, .. } | Item::Void(points) => Rect::about(points),
        Item::Circle { centre, radius, .. } | Item::Arc { centre, radius, .. } => {
            Some(Rect::new(centre.x, centre.y, centre.x, centre.y).grown(radius.abs()))
        }
        _ => None,
    });
    cut.reduce(|a, b| a.and(&b)).or_else(|| drawn.reduce(|a, b| a.and(&b)))
}

#[cfg(test)]
mod tests {
    use super::{Point, Rect, SCALES, Scale, Stretch, View};

    #[test]
    fn scales_run_from_large_to_small() {
        assert!(SCALES.is_sorted_by(|a, b| a.factor() > b.factor()));
        assert_eq!(Scale { paper: 1, part: 5 }.to_string(), "1:5");
    }

    #[test]
    fn a_wall_is_drawn_to_scale_and_a_thin_ring_is_stretched_and_says_so() {
        let half = Scale { paper: 1, part: 2 };
        assert_eq!(View::new(half, &Rect::new(0.0, 0.0, 60.0, 30.0)).stretch, Stretch::None);
        let ring = View::new(half, &Rect::new(-150.0, 0.0, 150.0, 2.0));
        assert_eq!(ring.stretch, Stretch::Height(10));
        assert_eq!(ring.at(Point::new(150.0, 2.0)), Point::new(75.0, 10.0));
        let shim = View::new(half, &Rect::new(0.0, 0.0, 0.5, 100.0));
        assert_eq!(shim.stretch, Stretch::Width(40));
    }
}
