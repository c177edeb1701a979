//! Holding: what the part is held in, and where; and what every operation may ask of its set-up.

use super::above_zero;
use crate::handbook::constants::row;
use crate::job::{Address, Feature};
use crate::proof::{At, Fact, Place};
use crate::quantity::{Date, Measured, Mm, Moment, NewtonMetre, Quantity, figure};
use crate::reading::Problem;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;

/// What a part is held in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum HeldIn {
    /// Hard jaws of a three-jaw chuck.
    #[serde(
        alias = "three-jaw",
        alias = "3-jaw",
        alias = "three-jaw-chuck",
        alias = "3-jaw-chuck",
        alias = "hard-jaws"
    )]
    Jaws,
    /// Soft jaws bored to size.
    SoftJaws,
    /// A four-jaw chuck.
    #[serde(alias = "4-jaw", alias = "independent", alias = "four-jaw-chuck", alias = "4-jaw-chuck")]
    FourJaw,
    /// A mandrel.
    Mandrel,
    /// A faceplate.
    Faceplate,
    /// A collet.
    Collet,
    /// A vice.
    #[serde(alias = "vise")]
    Vice,
    /// Clamps on the table.
    Clamps,
    /// An angle plate.
    AnglePlate,
    /// A support under the press.
    PressSupport,
}

impl HeldIn {
    /// Other names of holds, which an editor is to take for no slip.
    pub(crate) const OTHER_NAMES: [&str; 5] = ["three-jaw", "3-jaw", "hard-jaws", "4-jaw", "vise"];

    /// Whether it grips by the jaws of a chuck.
    pub const fn has_jaws(self) -> bool {
        matches!(self, Self::Jaws | Self::SoftJaws | Self::FourJaw)
    }

    /// Its name.
    pub const fn named(self) -> Fact {
        Fact::named(match self {
            Self::Jaws => "in-jaws",
            Self::SoftJaws => "in-soft-jaws",
            Self::FourJaw => "in-four-jaw",
            Self::Mandrel => "in-mandrel",
            Self::Faceplate => "in-faceplate",
            Self::Collet => "in-collet",
            Self::Vice => "in-vice",
            Self::Clamps => "in-clamps",
            Self::AnglePlate => "in-angle-plate",
            Self::PressSupport => "in-press-support",
        })
    }

    /// The word that the table of change-overs has for it.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Jaws => "three-jaw",
            Self::SoftJaws => "soft-jaws",
            Self::FourJaw => "four-jaw",
            Self::Mandrel => "mandrel",
            Self::Faceplate => "faceplate",
            Self::Collet => "collet",
            Self::Vice => "vice",
            Self::Clamps => "clamps",
            Self::AnglePlate => "angle-plate",
            Self::PressSupport => "press-support",
        }
    }

    /// Whether it puts what it grips in the middle of its own accord, so that nothing is set there by an indicator.
    pub const fn centres_itself(self) -> bool {
        matches!(self, Self::Jaws | Self::SoftJaws | Self::Collet | Self::Mandrel)
    }

    /// What the spindle of a lathe carries for it: what is bolted down turns on the faceplate.
    pub const fn on_a_lathe(self) -> Self {
        match self {
            Self::Clamps | Self::AnglePlate => Self::Faceplate,
            _ => self,
        }
    }

    /// Its name there.
    pub const fn named_on_a_lathe(self) -> Fact {
        match self {
            Self::Clamps => Fact::named("in-clamps-on-a-faceplate"),
            Self::AnglePlate => Fact::named("in-angle-plate-on-a-faceplate"),
            _ => self.named(),
        }
    }

    /// How many jaws grip; none where it is not a chuck.
    pub const fn jaws(self) -> Option<u8> {
        match self {
            Self::Jaws | Self::SoftJaws => Some(3),
            Self::FourJaw => Some(4),
            _ => None,
        }
    }
}

/// How hard the key was turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Nip {
    /// As little as will hold it by hand.
    Light,
    /// One pull of one hand.
    Normal,
    /// All that an arm gives.
    Hard,
}

impl Nip {
    /// Its name.
    pub const fn named(self) -> Fact {
        Fact::named(match self {
            Self::Light => "nip-light",
            Self::Normal => "nip-normal",
            Self::Hard => "nip-hard",
        })
    }
}

/// From which side the jaws grip.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Grips {
    /// The jaws close on an outside diameter.
    Outside,
    /// The jaws open in a bore.
    Inside,
}

/// What lies behind work that is bolted down.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Backed {
    /// It lies on the plate, or on packing, all over.
    AllOver,
    /// It lies on packing right behind each clamp, and on nothing between.
    AtClamps,
}

/// Where the clamps of work that is bolted down stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Clamped {
    /// It is bolted from behind; nothing stands out in front.
    Behind,
    /// On a ledge or a flange below the face that is cut.
    OnALedge,
    /// On the face itself.
    OnTheFace,
}

impl Clamped {
    /// Its name.
    pub const fn named(self) -> Fact {
        Fact::named(match self {
            Self::Behind => "clamped-behind",
            Self::OnALedge => "clamped-on-a-ledge",
            Self::OnTheFace => "clamped-on-the-face",
        })
    }
}

/// What the part seats on, along the axis.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Stop {
    /// Nothing.
    None,
    /// A shoulder of the jaws, also one bored in soft jaws.
    Step,
    /// A rod or stop in the spindle.
    Rod,
}

impl Stop {
    /// Its name.
    pub const fn named(self) -> Fact {
        Fact::named(match self {
            Self::None => "stop-none",
            Self::Step => "stop-step",
            Self::Rod => "stop-rod",
        })
    }
}

/// How a part is held; what it is held in alone, or with its keys.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
#[schemars(transform = crate::reading::in_a_word)]
pub struct Hold {
    /// What it is held in.
    #[serde(rename = "in")]
    pub held_in: At<HeldIn>,
    /// Diameter gripped.
    pub diameter: Option<At<Mm>>,
    /// Bore of a ring that is gripped outside, or hollow of what a vice grips; 0 where it is solid; left out, the bore of the operation,
    /// where it has one, else it is taken as solid.
    pub inside: Option<At<Mm>>,
    /// Length gripped.
    pub grip: Option<At<Mm>>,
    /// Length standing out of the grip.
    pub overhang: Option<At<Mm>>,
    /// Run-out allowed when it is trued.
    pub true_within: Option<At<Mm>>,
    /// What it seats on, along the axis; left out, nothing.
    pub stop: Option<At<Stop>>,
    /// How far a smaller end of the part stands behind the shoulder by which it seats on a step; left out, nothing: it seats by its
    /// end.
    pub behind: Option<At<Mm>>,
    /// What lies behind work that is bolted down; left out, nobody knows: a thin plate is in doubt.
    pub backed: Option<At<Backed>>,
    /// Where its clamps stand, where it is bolted down and its face is cut.
    pub clamped: Option<At<Clamped>>,
    /// How hard it is gripped; left out, normal.
    pub nipped: Option<At<Nip>>,
    /// The torque that the gripped work stood without a slip (measured, with a bar and a spring balance).
    pub tested: Option<At<Measured<NewtonMetre>>>,
    /// From which side the jaws grip; left out, from outside.
    pub grips: Option<At<Grips>>,
    /// Greatest diameter that turns with the part: twice as far out as an arm, a flange or a lug reaches; left out, nothing reaches further
    /// than what is cut and gripped, and on a faceplate nobody knows.
    pub swings: Option<At<Mm>>,
}

impl Hold {
    /// What it seats on.
    pub fn stop(&self) -> Stop {
        self.stop.as_ref().map_or(Stop::None, |at| at.value)
    }

    /// Whether the jaws open in a bore.
    pub fn grips_inside(&self) -> bool {
        self.grips.as_ref().is_some_and(|at| at.value == Grips::Inside)
    }

    /// What it is held in, by its name: soft jaws that open in a bore were turned outside.
    pub fn named(&self) -> Fact {
        match self.held_in.value {
            HeldIn::SoftJaws if self.grips_inside() => Fact::named("in-soft-jaws-that-open"),
            held_in => held_in.named(),
        }
    }

    /// The same where it turns with the spindle.
    pub fn named_on_a_lathe(&self) -> Fact {
        match self.held_in.value {
            HeldIn::SoftJaws => self.named(),
            held_in => held_in.named_on_a_lathe(),
        }
    }

    /// Whether what holds it stands in its bore: a mandrel, or jaws that open there.
    pub(crate) fn fills_the_bore(&self) -> bool {
        self.grips_inside() || self.held_in.value == HeldIn::Mandrel
    }

    /// Sizes that cannot be: a grip longer than the part, or nothing to grip.
    pub fn problems(&self, length: Option<f64>, all: &mut Vec<Problem>) {
        above_zero("`diameter` of the hold", self.diameter.as_ref(), all);
        above_zero("`grip` of the hold", self.grip.as_ref(), all);
        above_zero("`swings` of the hold", self.swings.as_ref(), all);
        above_zero("`true-within` of the hold", self.true_within.as_ref(), all);
        above_zero("`behind` of the hold", self.behind.as_ref(), all);
        above_zero("`tested` of the hold", self.tested.as_ref(), all);
        let most = row("tested-beyond").map_or(f64::INFINITY, |row| row.value);
        if let Some(tested) = self.tested.as_ref().filter(|at| at.value.value.number() > most) {
            let says = format!("no arm with a bar and a spring balance puts on more than {} N·m", figure(most));
            all.push(Problem::new(tested.place, says));
        }
        if let (Some(grip), Some(length)) = (&self.grip, length)
            && grip.value.number() > length
        {
            all.push(Problem::of_sizes(
                grip.place,
                format!("the grip is longer than the part ({} mm)", crate::quantity::figure(length)),
            ));
        }
        if let Some(stop) = self.stop.as_ref().filter(|stop| stop.value == Stop::Step && !self.held_in.value.has_jaws())
        {
            let says = "`stop: step` is a shoulder of the jaws of a chuck, and this is held in none: leave `stop` out, or name what \
                        it seats on (`rod`)";
            all.push(Problem::new(stop.place, says));
        }
        if let (Some(inside), Some(diameter)) = (&self.inside, &self.diameter)
            && !self.grips_inside()
            && inside.value.number() >= diameter.value.number()
        {
            all.push(Problem::new(inside.place, "`inside` of the hold must be smaller than its `diameter`"));
        }
    }
}

/// What a face closes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Closes {
    /// The room over a piston: head to barrel, barrel to case, or a spacer between them.
    RoomOverPiston,
    /// Nothing that stands over a piston.
    Elsewhere,
    /// No gap at all: it stands neither over a piston nor in the path of a float.
    NoGap,
}

/// What every operation may say of its set-up.
#[derive(Clone, Debug, Default, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct SetUpWish {
    /// A name to be addressed by; left out, the word of the operation.
    pub name: Option<At<String>>,
    /// The machine; left out, the shop's first of its kind.
    pub machine: Option<At<String>>,
    /// The feature it works on, so that rules can say "the same bore"; left out, rules that ask for the same feature bind its own
    /// set-ups alone.
    pub feature: Option<At<Feature>>,
    /// What the face, or the shoulder, that it cuts closes, of an engine whose squish, clearance volume or end float the job judges; left
    /// out, nobody knows: what is cut may close it.
    pub closes: Option<At<Closes>>,
    /// The day on which its sizes were read; left out, before anything was cut. A cut that the log has of that day or a later one makes
    /// them stale.
    pub measured: Option<At<Date>>,
    /// A remark for the sheet; left out, none.
    pub note: Option<At<String>>,
    /// Its first set-up begins at this time, not before and not after; left out, whenever the day has room.
    pub at: Option<At<Moment>>,
    /// Its first set-up does not begin before this time: the part is not there; left out, the part is there.
    pub not_before: Option<At<Moment>>,
    /// The hands are done with its last set-up by this time; left out, nothing is late.
    pub due: Option<At<Moment>>,
    /// It comes after another operation, `part/operation`, or after one of its set-ups, `part/operation/set-up`; left out, the
    /// rules of order alone bind it.
    pub after: Option<At<Address>>,
    /// Times of single set-ups, by their ids; left out, those of the operation.
    #[serde(default)]
    pub times: BTreeMap<String, Times>,
}

/// Times of one set-up.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub struct Times {
    /// It begins at this time, not before and not after.
    pub at: Option<At<Moment>>,
    /// It does not begin before this time.
    pub not_before: Option<At<Moment>>,
    /// The hands are done with it by this time.
    pub due: Option<At<Moment>>,
    /// It comes after another operation or set-up.
    pub after: Option<At<Address>>,
}

impl Times {
    /// Where it stands in the job file.
    pub fn place(&self) -> Option<Place> {
        let times = [&self.at, &self.not_before, &self.due].into_iter().flatten().map(|at| at.place);
        times.chain(self.after.iter().map(|at| at.place)).next()
    }
}

impl SetUpWish {
    /// Every operation or set-up that it is to come after.
    pub fn afters(&self) -> impl Iterator<Item = &At<Address>> {
        self.after.iter().chain(self.times.values().filter_map(|times| times.after.as_ref()))
    }
}
