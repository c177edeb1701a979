//! Holding: what the part is held in, and where; and what every operation may ask of its set-up.

use crate::proof::At;
use crate::quantity::{Mm, Quantity};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::Deserialize;

/// What a part is held in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum HeldIn {
    /// Hard jaws of a three-jaw chuck.
    Jaws,
    /// Soft jaws bored to size.
    SoftJaws,
    /// A four-jaw chuck.
    FourJaw,
    /// A mandrel.
    Mandrel,
    /// A faceplate.
    Faceplate,
    /// A collet.
    Collet,
    /// A vice.
    Vice,
    /// Clamps on the table.
    Clamps,
    /// An angle plate.
    AnglePlate,
    /// A support under the press.
    PressSupport,
}

impl HeldIn {
    /// As a sheet names it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Jaws => "three-jaw chuck, hard jaws",
            Self::SoftJaws => "soft jaws bored to size",
            Self::FourJaw => "four-jaw chuck",
            Self::Mandrel => "mandrel",
            Self::Faceplate => "faceplate",
            Self::Collet => "collet",
            Self::Vice => "vice",
            Self::Clamps => "clamps on the table",
            Self::AnglePlate => "angle plate",
            Self::PressSupport => "support under the press",
        }
    }
}

/// How a part is held.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Hold {
    /// What it is held in.
    #[serde(rename = "in")]
    pub held_in: At<HeldIn>,
    /// Diameter gripped.
    pub diameter: Option<At<Mm>>,
    /// Bore of a ring that is gripped outside.
    pub inside: Option<At<Mm>>,
    /// Length gripped.
    pub grip: Option<At<Mm>>,
    /// Length standing out of the grip.
    pub overhang: Option<At<Mm>>,
    /// Run-out allowed when it is trued.
    pub true_within: Option<At<Mm>>,
    /// What it seats on.
    pub stop: Option<At<String>>,
}

impl Hold {
    /// Sizes that cannot be: a grip longer than the part, or nothing to grip.
    pub fn problems(&self, length: Option<f64>, all: &mut Vec<Problem>) {
        let sizes = [
            ("diameter", &self.diameter),
            ("inside", &self.inside),
            ("grip", &self.grip),
            ("true-within", &self.true_within),
        ];
        for (key, size) in sizes {
            if let Some(at) = size
                && at.value.number() <= 0.0
            {
                all.push(Problem::new(at.place, format!("`{key}` of the hold must be above zero")));
            }
        }
        if let (Some(grip), Some(length)) = (&self.grip, length)
            && grip.value.number() > length
        {
            all.push(Problem::new(
                grip.place,
                format!("the grip is longer than the part ({} mm)", crate::quantity::figure(length)),
            ));
        }
        if let (Some(inside), Some(diameter)) = (&self.inside, &self.diameter)
            && inside.value.number() >= diameter.value.number()
        {
            all.push(Problem::new(inside.place, "`inside` of the hold must be smaller than its `diameter`"));
        }
    }
}

/// What every operation may say of its set-up.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct SetUpWish {
    /// A name to be addressed by.
    pub name: Option<At<String>>,
    /// The machine.
    pub machine: Option<At<String>>,
    /// The feature it works on, so that rules can say "the same bore".
    pub feature: Option<At<String>>,
    /// A remark for the sheet.
    pub note: Option<At<String>>,
}
