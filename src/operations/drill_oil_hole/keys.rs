//! The keys of an oil hole, what cannot be a real part, and what it answers.

use super::names;
use crate::handbook::Material;
use crate::job::{PartFacts, Reading};
use crate::operations::hole_making::drilled::{self, Drilled, Thick};
use crate::operations::hole_making::{Beyond, HELD_VALUES, OILWAY_VALUES, Oilway, Sunk};
use crate::operations::kit::{above_zero, hard};
use crate::operations::{Answer, Bench, Declared, Hold, Operation, SetUpWish};
use crate::proof::{At, CheckRule, Refusal};
use crate::quantity::{Angle, Mm, Quantity};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// What comes after the hole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Before {
    /// The bush is not in yet.
    Press,
    /// The bush is in, and is reamed when the hole is through.
    Ream,
    /// The bore is finished.
    Nothing,
}

/// What the drill starts on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum Start {
    /// The bush as it is.
    AsItIs,
    /// A small flat, milled square to the hole.
    Flat,
    /// A drilled guide that lies on the bush.
    Guide,
}

/// An oil hole through the wall of a bush; the part is the bush, its metal that of the bush.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct DrillOilHole {
    /// Diameter of the drill.
    pub(super) diameter: At<Mm>,
    /// Its middle from the outer end of the bush, where it goes in.
    pub(super) at: At<Mm>,
    /// Angle between the hole and the bush: 90 deg goes straight in.
    pub(super) angle: At<Angle>,
    /// What the drill starts on: the bush as-it-is, a milled flat, or in a guide; left out, the bush as it is.
    pub(super) start: Option<At<Start>>,
    /// Wall of the bush at the hole (measured).
    pub(super) wall: At<Reading>,
    /// What lies behind the wall: the bore (measured), or `clear` where nothing can be hurt.
    pub(super) beyond: Option<At<Beyond>>,
    /// Length of the bush, or of its housing where that ends first.
    pub(super) length: Option<At<Mm>>,
    /// The oilway that it must meet.
    pub(super) oilway: Option<Oilway>,
    /// What comes after it: press, ream or nothing.
    pub(super) before: Option<At<Before>>,
    /// How far the drill stands out of its chuck; left out, the whole length of a short-series drill.
    pub(super) stick_out: Option<At<Mm>>,
    /// How it is held.
    pub(super) hold: Option<Hold>,
    /// Machine, name, feature, remark; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

impl DrillOilHole {
    /// Whether the bush is in, under the mouth of its oilway; where nobody says what comes after, it is.
    pub(super) fn is_in(&self) -> bool {
        self.before.as_ref().is_none_or(|at| at.value != Before::Press)
    }

    /// How wide the bore is, mm: what lies behind the wall.
    fn bore_across(&self) -> Option<f64> {
        match &self.beyond.as_ref()?.value {
            Beyond::Read(reading) => reading.typed(),
            Beyond::Clear => None,
        }
    }

    /// What every drilled hole is asked for.
    pub(super) fn hole(&self, sunk: Sunk) -> Drilled<'_> {
        Drilled {
            diameter: &self.diameter,
            wall: Thick::Read(&self.wall),
            sunk,
            through: true,
            bore: self.bore_across(),
            beyond: self.beyond.as_ref(),
            stick_out: self.stick_out.as_ref(),
            hold: self.hold.as_ref(),
            set_up: self.set_up.as_ref(),
        }
    }
}

impl Operation for DrillOilHole {
    fn values(&self) -> &'static [&'static [Declared]] {
        &[names::VALUES, OILWAY_VALUES, drilled::names::VALUES, HELD_VALUES]
    }

    fn checks(&self) -> &'static [CheckRule] {
        const {
            &[
                CheckRule::must("meets-oilway", &["oilway"]),
                CheckRule::must("clear-of-the-ends", &["length"]),
                CheckRule::must("in-its-time", &["before"]),
                CheckRule::must("chips-come-out", &["oilway.open"]),
                CheckRule::must("starts-true", &[]),
                CheckRule::must("flat-leaves-wall", &[]),
                CheckRule::must("behind", &["beyond"]),
                CheckRule::must("sheet-thick-enough", &[]),
                CheckRule::must("held", &["hold"]),
                CheckRule::must("grip", &["hold.tested"]),
                CheckRule::must("grip-looked-at", &["hold.tested"]),
                CheckRule::must("grip-length", &["hold.grip", "hold.overhang", "hold.diameter"]),
                CheckRule::must("drill-reaches", &["stick-out", "oilway.depth"]),
                CheckRule::must("drill-bows", &["stick-out"]),
                CheckRule::must("drill-twists-off", &[]),
                CheckRule::must("drill-hard-enough", &[]),
                CheckRule::must("never-cut", &[]),
                CheckRule::may("drill-in-drawer", &[]),
                CheckRule::may("drill-too-fast", &[]),
                CheckRule::may("torque", &["power of the machine"]),
            ]
        }
    }

    fn gripped(&self) -> Option<&crate::operations::Hold> {
        self.hold.as_ref()
    }

    fn set_up(&self) -> Option<&SetUpWish> {
        self.set_up.as_ref()
    }

    fn cuts_as(&self, part: &PartFacts, metal: &Material) -> Result<Material, Refusal> {
        hard::cuts_as(metal, part.hardness.as_ref().map(|at| at.value))
    }

    fn problems(&self, _: &PartFacts) -> Vec<Problem> {
        let mut all = Vec::new();
        above_zero("`diameter`", &self.diameter, &mut all);
        above_zero("`at`", &self.at, &mut all);
        above_zero("`wall`", &self.wall, &mut all);
        above_zero("`length`", self.length.as_ref(), &mut all);
        above_zero("`stick-out`", self.stick_out.as_ref(), &mut all);
        self.oilway.iter().for_each(|oilway| oilway.problems(&mut all));
        if let Some(hold) = &self.hold {
            hold.problems(None, &mut all);
        }
        let angle = self.angle.value.number();
        if !(15.0..=90.0).contains(&angle) {
            let says =
                "`angle` lies between 15 deg and 90 deg, which goes straight in: it is that between hole and bush";
            all.push(Problem::new(self.angle.place, says));
        }
        if self.length.as_ref().is_some_and(|length| self.at.value.number() >= length.value.number()) {
            all.push(Problem::new(self.at.place, "the hole stands beyond the end of the bush"));
        }
        all
    }

    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal> {
        self.work_it(bench, answer)
    }
}
