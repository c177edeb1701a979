//! Bush and housing as the sketches draw them, to one scale.

use super::asked::Asked;
use super::keys::Stands;
use super::names::joint::{BUSH_LENGTH, HOUSING_BORE, HOUSING_OUTSIDE};
use crate::drawing::{Point, Sketch, Stroke, rectangle, ring_section};
use crate::operations::Answer;
use crate::quantity::Quantity;

/// What the sketches measure from, mm: the axis upright at `x` = 0, the outer face of the housing at `y` = 0.
pub(in crate::operations) struct Frame {
    pub(in crate::operations) joint: f64,
    pub(in crate::operations) housing: f64,
    pub(in crate::operations) housing_length: f64,
    /// Whether somebody said how long the housing is.
    pub(in crate::operations) housing_ends: bool,
    pub(in crate::operations) bore: f64,
    pub(in crate::operations) length: f64,
    pub(in crate::operations) flange: Option<(f64, f64)>,
    pub(in crate::operations) top: f64,
    /// Diameter and middle from the outer end of the bush, of the holes that are there.
    pub(in crate::operations) holes: Vec<(f64, f64)>,
}

impl Frame {
    /// From the answer: `bore` is the key of the bush's bore that is drawn; `holes` are those through the bush that are there.
    pub(in crate::operations) fn of(
        asked: &Asked,
        answer: &Answer,
        bore: &str,
        holes: Vec<(f64, f64)>,
    ) -> Option<Self> {
        let value = |key: &str| answer.value(key).map(|value| value.number);
        let length = value(BUSH_LENGTH.key)?;
        let flange = asked.flange.map(|f| (f.diameter.value.number(), f.thickness.value.number()));
        let proud = match asked.stands.map(|at| at.value) {
            Some(Stands::By(by)) => by.number(),
            _ => 0.0,
        };
        let top = -proud - flange.map_or(0.0, |(_, thickness)| thickness);
        let housing_length = asked.housing.length.as_ref().map(|at| at.value.number());
        Some(Self {
            joint: value(HOUSING_BORE.key)?,
            housing: value(HOUSING_OUTSIDE.key)?,
            housing_length: housing_length.unwrap_or(length + top).max(0.1),
            housing_ends: housing_length.is_some(),
            bore: value(bore)?,
            length,
            flange,
            top,
            holes,
        })
    }

    pub(in crate::operations) fn bottom(&self) -> f64 {
        self.housing_length.max(self.top + self.length)
    }

    /// The housing with its bore, whose edges are joined: it is one body.
    pub(in crate::operations) fn housing(&self, sketch: &mut Sketch) {
        let (joint, length) = (self.joint / 2.0, self.housing_length);
        for half in ring_section(0.0, self.housing, self.joint, 0.0, length) {
            sketch.section(half, 0);
        }
        sketch.line(Stroke::Visible, vec![Point::new(-joint, 0.0), Point::new(joint, 0.0)]);
        if self.housing_ends {
            sketch.line(Stroke::Visible, vec![Point::new(-joint, length), Point::new(joint, length)]);
        } else {
            let half = self.housing / 2.0;
            sketch.breaks(Point::new(-half, length), Point::new(-joint, length));
            sketch.breaks(Point::new(joint, length), Point::new(half, length));
        }
        sketch.faces_about(["housing left", "housing right"], (0.0, self.housing), (0.0, length)).faces_about(
            ["housing bore left", "housing bore right"],
            (0.0, self.joint),
            (0.0, length),
        );
    }

    /// The bush about the axis at `x`, its outside drawn at `outside`, its top at `top`.
    pub(in crate::operations) fn bush(&self, sketch: &mut Sketch, x: f64, outside: f64, bore: f64, top: f64) {
        let (r, b) = (outside / 2.0, bore / 2.0);
        let end = top + self.length;
        let mut right = match self.flange {
            Some((diameter, thickness)) => {
                vec![(b, top), (diameter / 2.0, top), (diameter / 2.0, top + thickness), (r, top + thickness)]
            }
            None => vec![(b, top), (r, top)],
        };
        right.extend([(r, end), (b, end)]);
        for side in [1.0, -1.0] {
            sketch.section(right.iter().map(|(dx, y)| Point::new(x + side * dx, *y)).collect(), 1);
        }
        // The bore hides what lies behind the bush, and its edges join both halves.
        sketch.void(rectangle(x - b, top, x + b, end));
        let widest = self.flange.map_or(r, |(diameter, _)| diameter / 2.0);
        sketch
            .faces_about(["bore left", "bore right"], (x, bore), (top, end))
            .faces_about(["bush left", "bush right"], (x, outside), (end, end))
            .face("outer end", Point::new(x - widest, top), Point::new(x + widest, top))
            .face("inner end", Point::new(x - r, end), Point::new(x + r, end));
    }

    /// The oil holes through bush and housing on the right, to their full size.
    pub(in crate::operations) fn oil_holes(&self, sketch: &mut Sketch) {
        for (diameter, at) in &self.holes {
            let y = self.top + at;
            sketch.void(self.hole(*diameter, y));
            sketch.line(Stroke::Centre, vec![Point::new(0.4 * self.bore, y), Point::new(self.housing / 2.0, y)]);
        }
    }

    pub(in crate::operations) fn hole(&self, diameter: f64, y: f64) -> Vec<Point> {
        rectangle(self.bore / 2.0, y - diameter / 2.0, self.housing / 2.0, y + diameter / 2.0)
    }

    pub(in crate::operations) fn axis(&self, sketch: &mut Sketch, top: f64) {
        sketch.axis(0.0, top, self.bottom());
    }

    /// Bush in its housing, the holes drilled that are there.
    pub(in crate::operations) fn within(&self, sketch: &mut Sketch) {
        self.housing(sketch);
        self.bush(sketch, 0.0, self.joint, self.bore, self.top);
        self.oil_holes(sketch);
    }
}
