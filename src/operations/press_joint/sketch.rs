//! Bush and housing as the sketches draw them, to one scale.

use super::asked::Asked;
use super::keys::Stands;
use super::names::closed_in::BORE_PRESSED;
use super::names::fitted::BUSH_OUTSIDE;
use super::names::joint::{
    BUSH_BORE, BUSH_LENGTH, HOUSING_BORE, HOUSING_OUTSIDE, MANDREL_PILOT, MANDREL_SHOULDER, PRESS_FORCE,
};
use super::names::support::SUPPORT;
use crate::drawing::{Item, Point, Shows, Side, Sketch, Stroke, rectangle, ring_section};
use crate::operations::Answer;
use crate::quantity::Quantity;

/// What is drawn of a mandrel or a support whose length is not known, in parts of the bush's length.
const SHOWN: f64 = 0.35;

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
    /// The same of the oilways of the housing, which were there before.
    pub(in crate::operations) oilways: Vec<(f64, f64)>,
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
            oilways: Vec::new(),
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
        for (diameter, at) in &self.oilways {
            let (y, outside) = (self.top + at, self.housing / 2.0);
            sketch.void(rectangle(joint, y - diameter / 2.0, outside, y + diameter / 2.0));
            sketch.line(Stroke::Centre, vec![Point::new(joint, y), Point::new(outside, y)]);
        }
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

    /// The oil holes on the right, to their full size: through the bush down an oilway, else through bush and housing.
    pub(in crate::operations) fn oil_holes(&self, sketch: &mut Sketch) {
        for (diameter, at) in &self.holes {
            let y = self.top + at;
            sketch.void(self.hole(*diameter, y));
            sketch.line(Stroke::Centre, vec![Point::new(0.4 * self.bore, y), Point::new(self.housing / 2.0, y)]);
        }
    }

    pub(in crate::operations) fn hole(&self, diameter: f64, y: f64) -> Vec<Point> {
        rectangle(self.bore / 2.0, y - diameter / 2.0, self.drilled_from(diameter, y), y + diameter / 2.0)
    }

    /// Where the metal of a hole begins: at the bush where an oilway lies over it, else at the outside of the housing.
    pub(in crate::operations) fn drilled_from(&self, diameter: f64, y: f64) -> f64 {
        let meets = |(wide, at): &(f64, f64)| (self.top + at - y).abs() < f64::midpoint(*wide, diameter);
        (if self.oilways.iter().any(meets) { self.joint } else { self.housing }) / 2.0
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

    /// On the press: mandrel with pilot and shoulder, the bush at the mouth, a support under the housing, the greatest force at the
    /// arrow by its name: where the bush goes in warm only one that sticks is pressed.
    pub(in crate::operations) fn at_the_press(&self, answer: &Answer) -> Sketch {
        let mut sketch = Sketch::default();
        let value = |key: &str| answer.value(key).map(|value| value.number);
        let (p, length, joint) = (Point::new, self.length, self.joint / 2.0);
        self.housing(&mut sketch);
        // The bush stands on the mouth: its inner end on the outer face.
        self.bush(&mut sketch, 0.0, value(BUSH_OUTSIDE.key).unwrap_or(self.joint), self.bore, -length);
        let shown = SHOWN * length;
        let mut top = -length;
        if let (Some(pilot), Some(shoulder)) = (value(MANDREL_PILOT.key), value(MANDREL_SHOULDER.key)) {
            top = -length - shown;
            let (pilot, shoulder, end) = (pilot / 2.0, shoulder / 2.0, -0.2 * length);
            sketch.tooling(vec![
                p(-shoulder, top),
                p(shoulder, top),
                p(shoulder, -length),
                p(pilot, -length),
                p(pilot, end),
                p(-pilot, end),
                p(-pilot, -length),
                p(-shoulder, -length),
            ]);
            // How long mandrel and pilot are nobody said.
            sketch.breaks(p(-shoulder, top), p(shoulder, top)).breaks(p(-pilot, end), p(pilot, end));
            sketch
                .faces_about(["shoulder left", "shoulder right"], (0.0, 2.0 * shoulder), (top, -length))
                .between("shoulder left", "shoulder right", Side::Above, Shows::diameter(MANDREL_SHOULDER.key))
                .faces_about(["pilot left", "pilot right"], (0.0, 2.0 * pilot), (-length, end))
                .between("pilot left", "pilot right", Side::Above, Shows::diameter(MANDREL_PILOT.key));
        }
        let bottom = self.housing_length;
        let inside = value(SUPPORT.key).filter(|inside| *inside < self.housing);
        if let Some(inside) = inside {
            // As wide as the part, on the free hole that somebody named; how high it stands nobody said.
            let (near, far, end) = (inside / 2.0, self.housing / 2.0, bottom + shown);
            for side in [-1.0, 1.0] {
                let (a, b) = (side * near, side * far);
                sketch.jaw(vec![p(a, bottom), p(b, bottom), p(b, end), p(a, end)]).breaks(p(a, end), p(b, end));
            }
            sketch.faces_about(["support left", "support right"], (0.0, inside), (bottom, end)).between(
                "support left",
                "support right",
                Side::Below,
                Shows::diameter(SUPPORT.key),
            );
        }
        for side in if inside.is_none() { &[-1.0, 1.0][..] } else { &[] } {
            let (near, far) = (side * f64::midpoint(joint, self.housing / 2.0), side * self.housing / 2.0);
            // How wide the free hole in the support is nobody said, nor how high it stands: one break ends it.
            let low = p(far, bottom + 0.5 * shown);
            sketch.jaw(vec![p(near, bottom), p(far, bottom), low]).breaks(p(near, bottom), low);
        }
        sketch.axis(0.0, top, bottom);
        let beside = self.flange.map_or(self.joint, |(diameter, _)| diameter) / 2.0 + 0.1 * self.housing;
        sketch.push(Item::Feed { from: p(beside, top), to: p(beside, -0.1 * length) });
        if value(PRESS_FORCE.key).is_some() {
            let at = p(beside, f64::midpoint(top, -0.1 * length));
            let shows = Shows::named(PRESS_FORCE.means, PRESS_FORCE.key);
            sketch.push(Item::Reads { at, towards: Side::Right, shows });
        }
        sketch
    }

    /// The bush in its housing as it comes from the press, on the bench: what is measured is dimensioned.
    pub(in crate::operations) fn pressed(&self) -> Sketch {
        let mut sketch = Sketch::default();
        self.within(&mut sketch);
        self.axis(&mut sketch, self.top);
        sketch
            .between("bore left", "bore right", Side::Below, Shows::diameter(BORE_PRESSED.key))
            .between("housing left", "housing right", Side::Above, Shows::diameter(HOUSING_OUTSIDE.key))
            .between("outer end", "inner end", Side::Left, Shows::value(BUSH_LENGTH.key));
        sketch
    }

    /// Where the axis of the bush stands beside the housing.
    pub(in crate::operations) fn beside(&self, outside: f64) -> f64 {
        self.housing / 2.0 + self.flange.map_or(outside, |(diameter, _)| diameter)
    }

    /// Housing and bush side by side.
    pub(in crate::operations) fn side_by_side(&self, answer: &Answer, sketch: &mut Sketch) {
        let outside = answer.value(BUSH_OUTSIDE.key).map_or(self.joint, |value| value.number);
        let middle = self.beside(outside);
        self.housing(sketch);
        self.bush(sketch, middle, outside, self.bore, 0.0);
        sketch.axis(middle, 0.0, self.length);
    }

    /// Housing and bush side by side, as they lie on the bench: what is measured is dimensioned.
    pub(in crate::operations) fn apart(&self, answer: &Answer) -> Sketch {
        let mut sketch = Sketch::default();
        self.side_by_side(answer, &mut sketch);
        sketch
            .between("housing bore left", "housing bore right", Side::Above, Shows::diameter(HOUSING_BORE.key))
            .between("bore left", "bore right", Side::Above, Shows::diameter(BUSH_BORE.key))
            .between("outer end", "inner end", Side::Right, Shows::value(BUSH_LENGTH.key));
        if answer.value(BUSH_OUTSIDE.key).is_some() {
            sketch.between("bush left", "bush right", Side::Below, Shows::diameter(BUSH_OUTSIDE.key));
        }
        self.axis(&mut sketch, 0.0);
        sketch
    }
}
