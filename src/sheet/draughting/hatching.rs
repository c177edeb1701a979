//! Hatching of cut metal (ISO 128): thin lines at 45°, neighbours the other way, stopping at holes and at words.

use super::Point;
use super::clip::{OnTop, pieces, within};
use crate::sheet::page::Rect;

/// Narrowest and widest distance between hatching lines, mm of paper.
const PITCH: (f64, f64) = (1.2, 3.0);
/// Lines that a shape should hold at least, where the pitch allows.
const LINES: f64 = 6.0;
/// Distance between the lines of metal that is taken off, mm of paper.
const CROSSED: f64 = 1.3;

/// Which way hatching leans.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Lean {
    /// Rising to the right.
    Up,
    /// Falling to the right.
    Down,
}

/// The pitch that suits a shape, mm: near lines in a small one.
fn pitch(shape: &Rect) -> f64 {
    (shape.width().min(shape.height()) / LINES).clamp(PITCH.0, PITCH.1)
}

/// Hatching of a section: its `hatch` says which way it leans.
pub(super) fn section(outline: &[Point], hatch: u8, on_top: &[&[Point]], words: &[Rect]) -> Vec<(Point, Point)> {
    let Some(bounds) = Rect::about(outline) else {
        return Vec::new();
    };
    let lean = if hatch.is_multiple_of(2) { Lean::Up } else { Lean::Down };
    hatch_lines(outline, lean, pitch(&bounds), on_top, words)
}

/// Cross-hatching of metal that comes off.
pub(super) fn crossed(outline: &[Point], on_top: &[&[Point]], words: &[Rect]) -> Vec<(Point, Point)> {
    let mut lines = hatch_lines(outline, Lean::Up, CROSSED, on_top, words);
    lines.extend(hatch_lines(outline, Lean::Down, CROSSED, on_top, words));
    lines
}

/// Lines at 45°, `pitch` mm apart, inside a shape and clear of what lies on top. They lie on one grid for the whole
/// sketch, so that two faces of one part hatch alike.
fn hatch_lines(outline: &[Point], lean: Lean, pitch: f64, on_top: &[&[Point]], words: &[Rect]) -> Vec<(Point, Point)> {
    let Some(bounds) = Rect::about(outline) else {
        return Vec::new();
    };
    let sign = if lean == Lean::Up { 1.0 } else { -1.0 };
    let step = pitch * std::f64::consts::SQRT_2;
    // On a line rising to the right x + y is constant (y runs down); on a falling one x − y.
    let ends = [bounds.top, bounds.bottom].map(|y| sign * y);
    let (low, high) = (bounds.left + ends[0].min(ends[1]), bounds.right + ends[0].max(ends[1]));
    let on_top = OnTop::of(on_top.iter().copied());
    let mut lines = Vec::new();
    let mut c = (low / step).ceil() * step;
    while c < high {
        let from = Point::new(bounds.left - 1.0, sign * (c - bounds.left + 1.0));
        let to = Point::new(bounds.right + 1.0, sign * (c - bounds.right - 1.0));
        let kept = on_top.leave(from, to, within(from, to, outline), words);
        lines.extend(pieces(from, to, &kept));
        c += step;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::{Point, crossed, section};
    use crate::drawing::rectangle;
    use crate::sheet::page::Rect;

    #[test]
    fn lines_lean_at_45_degrees_and_neighbours_the_other_way() {
        let shape = rectangle(0.0, 0.0, 30.0, 20.0);
        for (hatch, slope) in [(0, -1.0), (1, 1.0)] {
            let lines = section(&shape, hatch, &[], &[]);
            assert!(lines.len() > 8);
            assert!(lines.iter().all(|(a, b)| ((b.y - a.y) / (b.x - a.x) - slope).abs() < 1e-9));
        }
    }

    #[test]
    fn hatching_stays_in_the_metal_and_off_the_words() {
        let (shape, hole) = (rectangle(0.0, 0.0, 30.0, 20.0), rectangle(10.0, 0.0, 20.0, 20.0));
        let words = Rect::new(2.0, 5.0, 8.0, 9.0);
        for (a, b) in section(&shape, 0, &[&hole], &[words]) {
            let middle: Point = a + (b - a) * 0.5;
            assert!((0.0..=30.0).contains(&middle.x) && (0.0..=20.0).contains(&middle.y));
            assert!(!(10.001..19.999).contains(&middle.x));
            assert!(!words.grown(-0.001).crossed_by(a, b));
        }
    }

    #[test]
    fn metal_that_goes_is_crossed() {
        let lines = crossed(&rectangle(0.0, 0.0, 8.0, 8.0), &[], &[]);
        assert!(lines.iter().any(|(a, b)| b.y > a.y) && lines.iter().any(|(a, b)| b.y < a.y));
    }
}
