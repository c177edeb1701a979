//! The laws of a sketch: true to scale, its dimensions on the faces that they name, thin cuts in a detail.

use crate::drawing::{Face, Item, Point, Shows, Side, Sketch};
use crate::sheet::draughting::{Drawing, LEAST_IN_DETAIL, LEAST_SEEN};
use crate::sheet::page::Rect;

/// How far a dimension may lie off its value or its face, mm of the part.
const OFF: f64 = 0.1;
/// The largest scale of a detail: a thinner cut than it can show is shown as large as that.
const LARGEST: f64 = 50.0;

/// Something wrong with a sketch.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum SketchFault {
    /// A size is drawn longer or shorter than its value.
    #[error("{value} is drawn {drawn:.3} mm long, its value is {meant:.3} mm")]
    NotTrue {
        /// Name of the value.
        value: &'static str,
        /// As drawn, mm of the part.
        drawn: f64,
        /// As worked out, mm.
        meant: f64,
    },
    /// A size names a face that the sketch does not have, or ends off it.
    #[error("{value} does not end on {face:?}")]
    OffFace {
        /// Name of the value.
        value: &'static str,
        /// Name of the face.
        face: &'static str,
    },
    /// A face that a size names is not drawn.
    #[error("{face:?} is not drawn")]
    NotDrawn {
        /// Name of the face.
        face: &'static str,
    },
    /// A length is said to be shortened, and nothing breaks it.
    #[error("{value} is said to be shortened, and no break crosses it")]
    NotBroken {
        /// Name of the value.
        value: &'static str,
    },
    /// A cut too thin to be seen has no detail that shows it.
    #[error("a cut {across:.3} mm thick has no detail that shows it")]
    Unseen {
        /// How thick, mm of the part.
        across: f64,
    },
}

/// What is wrong with a sketch. `value` gives a value in mm by its name; nothing for what is no length or not known.
#[must_use]
pub fn sketch_faults(sketch: &Sketch, value: impl Fn(&str) -> Option<f64>) -> Vec<SketchFault> {
    let mut found = Vec::new();
    for item in &sketch.items {
        let Item::Dimension { from, to, faces, side, shortened, shows, .. } = item else { continue };
        let upright = matches!(side, Side::Left | Side::Right);
        let drawn = if upright { to.y - from.y } else { to.x - from.x }.abs();
        if *shortened {
            found.extend((!broken(sketch, *from, *to)).then_some(SketchFault::NotBroken { value: shows.value }));
        } else {
            found.extend(untrue(shows, drawn, &value));
        }
        for (end, name) in [from, to].into_iter().zip(faces) {
            match sketch.faces.iter().find(|face| face.name == *name && along(face, *end) < OFF) {
                None => found.push(SketchFault::OffFace { value: shows.value, face: name }),
                Some(_) if !on_an_edge(sketch, *end) => found.push(SketchFault::NotDrawn { face: name }),
                Some(_) => {}
            }
        }
    }
    found
}

/// What is wrong with a drawing of a sketch.
#[must_use]
pub fn drawing_faults(sketch: &Sketch, drawing: &Drawing) -> Vec<SketchFault> {
    let cuts = sketch.items.iter().filter_map(|item| match item {
        Item::CutAway(outline) => Rect::about(outline).map(|room| room.width().min(room.height())),
        _ => None,
    });
    let shown = |across: f64| {
        let scales = || drawing.details.iter().map(|(_, scale)| scale.factor());
        across * drawing.scale.factor() >= LEAST_SEEN
            || scales().any(|scale| across * scale >= LEAST_IN_DETAIL || scale >= LARGEST)
    };
    cuts.filter(|across| *across > 0.0 && !shown(*across)).map(|across| SketchFault::Unseen { across }).collect()
}

/// A size drawn other than its value; of two limits it lies between them.
fn untrue(shows: &Shows, drawn: f64, value: &impl Fn(&str) -> Option<f64>) -> Option<SketchFault> {
    let meant: Vec<f64> = shows.values().filter_map(value).map(f64::abs).collect();
    let (low, high) = (meant.iter().copied().reduce(f64::min)?, meant.iter().copied().reduce(f64::max)?);
    let off = (low - drawn).max(drawn - high);
    (off > OFF).then_some(SketchFault::NotTrue { value: shows.value, drawn, meant: high })
}

fn broken(sketch: &Sketch, a: Point, b: Point) -> bool {
    let Some(span) = Rect::about(&[a, b]) else { return false };
    sketch.items.iter().any(|item| match item {
        Item::Break { from, to } => Rect::about(&[*from, *to]).is_some_and(|r| {
            (r.left <= span.right && r.right >= span.left) || (r.top <= span.bottom && r.bottom >= span.top)
        }),
        _ => false,
    })
}

/// Distance of a place from a straight stretch, mm.
fn distance(p: Point, a: Point, b: Point) -> f64 {
    let way = b - a;
    let length = way.norm_squared();
    let t = if length > 0.0 { ((p - a).dot(&way) / length).clamp(0.0, 1.0) } else { 0.0 };
    (p - (a + way * t)).norm()
}

fn along(face: &Face, p: Point) -> f64 {
    distance(p, face.from, face.to)
}

/// Whether an edge of what is drawn runs through a place.
fn on_an_edge(sketch: &Sketch, p: Point) -> bool {
    let run = |points: &[Point], closed: bool| {
        let closing = if closed { points.last().zip(points.first()) } else { None };
        points.iter().zip(points.iter().skip(1)).chain(closing).any(|(a, b)| distance(p, *a, *b) < OFF)
    };
    sketch.items.iter().any(|item| match item {
        Item::Section { outline, .. } | Item::Moving { outline, .. } => run(outline, true),
        Item::CutAway(o) | Item::Void(o) | Item::Old(o) | Item::Jaw(o) | Item::Tooling(o) => run(o, true),
        Item::Line { points, .. } => run(points, false),
        Item::Thread { from, to } => run(&[*from, *to], false),
        _ => false,
    })
}

#[cfg(test)]
mod tests {
    use super::{SketchFault, sketch_faults};
    use crate::drawing::{Item, Point, Shows, Side, Sketch, rectangle};

    fn plate(thick: f64) -> Sketch {
        let mut sketch = Sketch::default();
        sketch
            .section(rectangle(0.0, 0.0, 40.0, thick), 0)
            .face("face", Point::new(0.0, 0.0), Point::new(40.0, 0.0))
            .face("back", Point::new(0.0, 8.0), Point::new(40.0, 8.0))
            .between("face", "back", Side::Right, Shows::value("thickness"));
        sketch
    }

    #[test]
    fn a_size_drawn_longer_than_its_value_is_found() {
        assert!(sketch_faults(&plate(8.0), |_| Some(8.05)).is_empty());
        let found = sketch_faults(&plate(8.0), |_| Some(8.2));
        assert!(matches!(found.as_slice(), [SketchFault::NotTrue { value: "thickness", .. }]), "{found:?}");
    }

    #[test]
    fn a_face_that_is_not_drawn_is_found_and_an_end_off_its_face() {
        let found = sketch_faults(&plate(7.0), |_| Some(8.0));
        assert_eq!(found, [SketchFault::NotDrawn { face: "back" }]);
        let mut off = plate(8.0);
        if let Some(Item::Dimension { to, .. }) = off.items.last_mut() {
            to.y = 8.3;
        }
        assert!(sketch_faults(&off, |_| None).contains(&SketchFault::OffFace { value: "thickness", face: "back" }));
    }

    #[test]
    fn a_length_is_shortened_by_a_break_alone() {
        let mut sketch = plate(8.0);
        if let Some(Item::Dimension { shortened, .. }) = sketch.items.last_mut() {
            *shortened = true;
        }
        assert_eq!(sketch_faults(&sketch, |_| Some(80.0)), [SketchFault::NotBroken { value: "thickness" }]);
        sketch.breaks(Point::new(0.0, 4.0), Point::new(40.0, 4.0));
        assert!(sketch_faults(&sketch, |_| Some(80.0)).is_empty());
    }
}
