//! The keys of truing, what cannot be, and what it answers.

use super::names;
use crate::handbook::form::circle::spaced;
use crate::job::{Difference, PartFacts};
use crate::operations::kit::above_zero;
use crate::operations::{Answer, Bench, Declared, Grips, HeldIn, Hold, OfRow, Operation, SetUpWish};
use crate::proof::{At, CheckRule, Refusal, Worked};
use crate::quantity::{Angle, Mm, Quantity, Row, Shift};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// Readings at angles.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Round {
    /// The angles, from the first jaw the way they count; on a faceplate from a mark on its rim.
    pub(super) at: At<Row<Angle>>,
    /// The readings, in the same order.
    pub(super) reads: At<Row<Shift>>,
}

/// What was found of the centre, where nobody wrote the readings down.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Found {
    /// How far it is off (measured).
    pub(super) eccentricity: At<Difference>,
    /// Towards where, from the first jaw; on a faceplate from a mark on its rim.
    pub(super) towards: At<Angle>,
}

/// A second plane along the part.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Second {
    /// Its readings at the same four jaws.
    pub(super) jaw_readings: At<Row<Shift>>,
    /// How far it is from the first.
    pub(super) apart: At<Mm>,
}

/// On which side of the work the jaws, or the indicator, touch.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Touches {
    /// From outside.
    Outside,
    /// In the bore.
    Inside,
}

/// What the indicator shows when its plunger is pushed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum PlungerIn {
    /// More.
    Plus,
    /// Less.
    Minus,
}

/// What `true-within` counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Counts {
    /// What the indicator reads in a whole turn.
    Tir,
    /// How far the centre is off, half of that.
    Eccentricity,
}

/// A part trued in its chuck.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct SetTrue {
    /// Readings at any angles, three or more; left out, `jaw-readings` or `found` says where the centre is.
    pub(super) readings: Option<Round>,
    /// Readings with jaw 1, 2, 3 and 4 facing the indicator: 0, 90, 180, 270 degrees; left out, `readings` or `found` says where
    /// the centre is.
    pub(super) jaw_readings: Option<At<Row<Shift>>>,
    /// What was found, in place of readings; left out, the readings say where the centre is.
    pub(super) found: Option<Found>,
    /// A second plane along the part; left out, how far it leans is not worked.
    pub(super) second: Option<Second>,
    /// Readings of the face with each of the four jaws facing the indicator; left out, how far the face leans is not worked.
    pub(super) face_readings: Option<At<Row<Shift>>>,
    /// The indicator.
    pub(super) with: Option<At<String>>,
    /// What an indicator may read in a turn when it is true (wanted).
    pub(super) true_within: At<Mm>,
    /// The same of the face, at its rim (wanted).
    pub(super) square_within: Option<At<Mm>>,
    /// What it is held in.
    pub(super) hold: At<Hold>,
    /// From which side the jaws grip; left out, from outside.
    pub(super) jaws: Option<At<Touches>>,
    /// On which side the indicator touches; left out, outside.
    pub(super) indicator: Option<At<Touches>>,
    /// What it shows when its plunger is pushed in; left out, more.
    pub(super) plunger_in: Option<At<PlungerIn>>,
    /// What `true-within` counts; left out, a whole turn of the indicator.
    pub(super) counts: Option<At<Counts>>,
    /// Diameter on which the face was read; left out, there are no `face-readings`.
    pub(super) face_diameter: Option<At<Mm>>,
    /// Outside diameter of the face; left out, where it was read.
    pub(super) face_outside: Option<At<Mm>>,
    /// What it was last held in as it was cut: three jaws leave three lobes; left out, it may have been three jaws: lobes are seen
    /// with eight readings or more.
    pub(super) last_held_in: Option<At<HeldIn>>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

/// The angles of the four jaws.
pub(super) const JAWS: [f64; 4] = [0.0, 90.0, 180.0, 270.0];

impl SetTrue {
    /// Angles and readings, whichever way they were typed.
    pub(super) fn reads(&self) -> Option<(Vec<f64>, &At<Row<Shift>>)> {
        match (&self.readings, &self.jaw_readings) {
            (Some(round), _) => round.at.value.numbers().map(|angles| (angles, &round.reads)),
            (None, Some(row)) => Some((JAWS.to_vec(), row)),
            (None, None) => None,
        }
    }

    /// Whether what an indicator shows is turned about: each of these turns it once.
    pub(super) fn indicator_turned(&self) -> bool {
        let inside = self.indicator.as_ref().is_some_and(|at| at.value == Touches::Inside);
        inside != self.plunger_in.as_ref().is_some_and(|at| at.value == PlungerIn::Minus)
    }

    /// Whether the jaws open in a bore.
    pub(super) fn jaws_inside(&self) -> bool {
        self.jaws.as_ref().is_some_and(|at| at.value == Touches::Inside) || self.hold.value.grips_inside()
    }

    fn problems_of_reads(&self, all: &mut Vec<Problem>) {
        let given = [self.readings.is_some(), self.jaw_readings.is_some(), self.found.is_some()];
        if given.iter().filter(|given| **given).count() > 1 {
            let says =
                "give only one of `readings`, `jaw-readings` and `found`: where the centre is comes from one of them";
            all.push(Problem::new(self.true_within.place, says));
        }
        if let Some(round) = &self.readings {
            if round.at.value.reads.len() != round.reads.value.reads.len() {
                all.push(Problem::new(round.reads.place, "there are as many readings as angles"));
            }
            if round.at.value.reads.len() < 3 {
                all.push(Problem::new(round.at.place, "three angles at least: two readings have no centre"));
            }
            if let Some(angles) = round.at.value.numbers()
                && repeated(&angles)
            {
                all.push(Problem::new(round.at.place, "each angle stands once: two readings at one place are one"));
            }
        }
        for row in self.reads().map(|(_, row)| row).into_iter().chain(&self.face_readings) {
            if row.value.reads.iter().any(Option::is_none) {
                all.push(Problem::new(row.place, "a reading is missing: read there too, or leave its angle out"));
            }
        }
        let four = [&self.jaw_readings, &self.face_readings].into_iter().flatten();
        for row in four.chain(self.second.iter().map(|second| &second.jaw_readings)) {
            if row.value.reads.len() == JAWS.len() {
                continue;
            }
            if self.in_three_jaws() && self.jaw_readings.as_ref() == Some(row) {
                let says =
                    "three jaws have no fourth: give `readings: {at: 0 120 240 deg, reads: …}`, better at eight places";
                all.push(Problem::new(row.place, says));
            } else {
                all.push(Problem::new(row.place, "four readings: with jaw 1, 2, 3 and 4 facing the indicator"));
            }
        }
        if let Some(second) = &self.second
            && self.reads().is_none_or(|(angles, _)| !spaced(&angles))
        {
            all.push(Problem::new(second.jaw_readings.place, "a second plane needs readings all round in the first"));
        }
    }
}

fn repeated(angles: &[f64]) -> bool {
    let mut sorted: Vec<f64> = angles.iter().map(|angle| angle.rem_euclid(360.0)).collect();
    sorted.sort_by(f64::total_cmp);
    sorted.windows(2).any(|pair| matches!(pair, [a, b] if b - a < 1e-6))
}

impl Operation for SetTrue {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[names::VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("true-enough", &["readings"]),
                CheckRule::must("form-enough", &["readings"]),
                CheckRule::may("lobes-seen", &["readings"]),
                CheckRule::may("can-be-measured", &["readings", "with"]),
                CheckRule::must("square-enough", &["square-within"]),
                CheckRule::may("second-plane-true", &[]),
                CheckRule::may("shims-in-drawer", &[]),
                CheckRule::may("swing", &["hold.diameter"]),
                CheckRule::may("device-there", &[]),
            ]
        }
    }

    fn hold(&self) -> Option<&Hold> {
        Some(&self.hold.value)
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn left_of_row(&self, key: &str, reads: &[Worked<Shift>]) -> Option<Result<Vec<OfRow>, Refusal>> {
        match key {
            _ if key == names::AFTER.key => Some(self.read_after(reads)),
            _ if key == names::FACE_AFTER.key => Some(self.face_after(reads)),
            _ if key == names::SECOND_AFTER.key => Some(self.second_after(reads)),
            _ => None,
        }
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`true-within`", &self.true_within, &mut all);
        above_zero("`square-within`", self.square_within.as_ref(), &mut all);
        above_zero("`face-diameter`", self.face_diameter.as_ref(), &mut all);
        above_zero("`face-outside`", self.face_outside.as_ref(), &mut all);
        above_zero("`apart`", self.second.as_ref().map(|second| &second.apart), &mut all);
        self.hold.value.problems(None, &mut all);
        self.problems_of_reads(&mut all);
        if self.hold.value.held_in.value.jaws().is_none() && self.hold.value.held_in.value != HeldIn::Faceplate {
            let says = "a part is trued in a four-jaw, a three-jaw or on a faceplate";
            all.push(Problem::new(self.hold.value.held_in.place, says));
        }
        if let (Some(jaws), Some(grips)) = (&self.jaws, &self.hold.value.grips)
            && (jaws.value == Touches::Inside) != (grips.value == Grips::Inside)
        {
            let says = "`jaws` and `grips` of the hold say it otherwise: from which side the jaws grip is one answer";
            all.push(Problem::new(jaws.place, says));
        }
        if let (Some(at), Some(outside)) = (&self.face_diameter, &self.face_outside)
            && outside.value.number() < at.value.number()
        {
            all.push(Problem::new(outside.place, "the face was read outside its own edge: `face-outside` is smaller"));
        }
        if let (Some(row), None) = (&self.face_readings, &self.face_diameter) {
            all.push(Problem::new(row.place, "say on which diameter the face was read: `face-diameter`"));
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
