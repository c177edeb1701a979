//! What face and skim share: a flat end taken back to clean metal on a lathe, and everything that goes wrong with it.
//!
//! The two list the same keys ([`facing_operation!`]) and add their own; each says how much metal must go, and this room works
//! the rest: [`Ground`] (part, lathe, dial), metal and case ([`metal`]), tool ([`tool`]), cuts, speed, feed, force, grip, set-up.

mod case;
mod checks;
mod cuts;
mod edge;
mod effort;
mod feed;
mod float;
mod grip;
mod ground;
mod left;
mod measuring;
mod metal;
mod names;
mod problems;
mod recess;
mod set_up;
mod sketch;
mod speed;
mod swing;
mod tool;

pub(super) use checks::facing_checks;
pub(super) use float::{Float, FloatWay, Rides};
pub(super) use ground::{DepthDial, Ground, cuts_as, dial_alone};
pub(super) use left::work as metal_left;
pub(super) use metal::{Least, Metal, clean_up, doubt_of, middle};
pub(super) use names::*;
pub(super) use recess::Relief;
pub(super) use set_up::{Extra, set_up};
pub(super) use sketch::Shoulder;

use super::{Answer, Bench, Hold, SetUpWish};
use crate::job::{Difference, Reading};
use crate::proof::{At, Refusal, Worked};
use crate::quantity::{Kilogram, Mm, Roughness, Wanted};
use schemars::JsonSchema;
use serde::Deserialize;

/// Which way the tool is fed over the face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum FeedDirection {
    /// From the outside to the centre.
    Inward,
    /// From the centre to the outside.
    Outward,
}

/// The keys that both have, as they were typed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Asked<'a> {
    /// Whether `length` is over both ends of the part; else it is the thickness at the contact.
    pub over_both_ends: bool,
    pub outside: &'a At<Mm>,
    pub inside: Option<&'a At<Mm>>,
    pub length: &'a At<Reading>,
    pub finish: Option<&'a At<Wanted<Roughness>>>,
    pub square_within: Option<&'a At<Wanted<Mm>>>,
    pub flat_within: Option<&'a At<Wanted<Mm>>>,
    pub thickness_at_rim: Option<&'a At<Reading>>,
    pub interrupted: Option<&'a At<u32>>,
    pub hold: Option<&'a Hold>,
    pub relief: Option<&'a Relief>,
    pub tool: Option<&'a At<String>>,
    pub feed_direction: Option<&'a At<FeedDirection>>,
    pub float: Float<'a>,
    pub least_case: Option<&'a At<Wanted<Mm>>>,
    pub removed_before: Option<&'a At<Difference>>,
    pub clean_up: Option<&'a At<Mm>>,
    pub mass: Option<&'a At<Kilogram>>,
    pub off_centre: Option<&'a At<Mm>>,
    pub set_up: Option<&'a SetUpWish>,
}

/// Writes an operation that faces: the keys that face and skim share, and its own.
macro_rules! facing_operation {
    ($(#[$about:meta])* $Op:ident { $($(#[$note:meta])* $key:ident: $Type:ty),* $(,)? }) => {
        $(#[$about])*
        #[derive(Clone, Debug, serde::Deserialize, schemars::JsonSchema)]
        #[serde(deny_unknown_fields, rename_all = "kebab-case")]
        pub struct $Op {
            /// Outside diameter of the contact.
            outside: $crate::proof::At<$crate::quantity::Mm>,
            /// Inside diameter; left out, it is solid to the centre.
            inside: Option<$crate::proof::At<$crate::quantity::Mm>>,
            /// Length over both ends, on unworn metal (measured).
            length: $crate::proof::At<$crate::job::Reading>,
            /// Least length that may be left (wanted).
            least_length: Option<$crate::proof::At<$crate::quantity::Wanted<$crate::quantity::Mm>>>,
            /// Roughness wanted.
            finish: Option<$crate::proof::At<$crate::quantity::Wanted<$crate::quantity::Roughness>>>,
            /// How square to the axis it must be (wanted).
            square_within: Option<$crate::proof::At<$crate::quantity::Wanted<$crate::quantity::Mm>>>,
            /// How flat it must be (wanted); left out, as square as it must be, else as true as it is held.
            flat_within: Option<$crate::proof::At<$crate::quantity::Wanted<$crate::quantity::Mm>>>,
            /// Thickness of the free rim behind the face, as found (measured).
            thickness_at_rim: Option<$crate::proof::At<$crate::job::Reading>>,
            /// Slots that interrupt the cut.
            interrupted: Option<$crate::proof::At<u32>>,
            /// How the part is held.
            hold: Option<$crate::operations::Hold>,
            /// A recess that clears a bearing's ring or cage.
            relief: Option<$crate::operations::facing::Relief>,
            /// The tool by its name in the shop; left out, the one that does it in least time is chosen.
            tool: Option<$crate::proof::At<String>>,
            /// Which way the tool is fed.
            feed_direction: Option<$crate::proof::At<$crate::operations::facing::FeedDirection>>,
            /// What metal taken here does to the end float.
            float: Option<$crate::proof::At<$crate::operations::facing::FloatWay>>,
            /// End float as it was found (measured).
            as_found_float: Option<$crate::proof::At<$crate::job::Difference>>,
            /// End float wanted, for the shim.
            float_wanted: Option<$crate::proof::At<$crate::quantity::Wanted<$crate::quantity::Mm>>>,
            /// Whether the part ran in its groove when the float was measured, or the groove was bridged.
            rides: Option<$crate::proof::At<$crate::operations::facing::Rides>>,
            /// Least hard case that may be left (wanted).
            least_case: Option<$crate::proof::At<$crate::quantity::Wanted<$crate::quantity::Mm>>>,
            /// Metal taken off here in earlier overhauls (measured).
            removed_before: Option<$crate::proof::At<$crate::job::Difference>>,
            /// Least cut that leaves clean metal all over.
            clean_up: Option<$crate::proof::At<$crate::quantity::Mm>>,
            /// Mass of the part, for the balance.
            mass: Option<$crate::proof::At<$crate::quantity::Kilogram>>,
            /// How far its centre of mass lies off the spindle's axis.
            off_centre: Option<$crate::proof::At<$crate::quantity::Mm>>,
            /// Set-up wishes.
            set_up: Option<$crate::operations::SetUpWish>,
            $($(#[$note])* $key: $Type),*
        }

        impl $Op {
            fn asked(&self) -> $crate::operations::facing::Asked<'_> {
                $crate::operations::facing::Asked {
                    over_both_ends: Self::OVER_BOTH_ENDS,
                    outside: &self.outside,
                    inside: self.inside.as_ref(),
                    length: &self.length,
                    finish: self.finish.as_ref(),
                    square_within: self.square_within.as_ref(),
                    flat_within: self.flat_within.as_ref(),
                    thickness_at_rim: self.thickness_at_rim.as_ref(),
                    interrupted: self.interrupted.as_ref(),
                    hold: self.hold.as_ref(),
                    relief: self.relief.as_ref(),
                    tool: self.tool.as_ref(),
                    feed_direction: self.feed_direction.as_ref(),
                    float: $crate::operations::facing::Float {
                        way: self.float.as_ref(),
                        as_found: self.as_found_float.as_ref(),
                        wanted: self.float_wanted.as_ref(),
                        rides: self.rides.as_ref(),
                    },
                    least_case: self.least_case.as_ref(),
                    removed_before: self.removed_before.as_ref(),
                    clean_up: self.clean_up.as_ref(),
                    mass: self.mass.as_ref(),
                    off_centre: self.off_centre.as_ref(),
                    set_up: self.set_up.as_ref(),
                }
            }
        }
    };
}
pub(super) use facing_operation;

impl Asked<'_> {
    /// Slots in the way of the cut; none is 0.
    pub fn slots(&self) -> u32 {
        self.interrupted.map_or(0, |slots| slots.value)
    }

    /// The run-out that the hold is trued to.
    pub fn true_within(&self) -> Option<&At<Mm>> {
        self.hold.and_then(|hold| hold.true_within.as_ref())
    }
}

/// Everything that is worked once the metal to remove is known: the tool with its cuts, speed, feed and force, and the grip; none
/// where no tool can be worked out, and the answer says why.
pub(super) fn work_cut(
    bench: &Bench,
    ground: &Ground,
    metal: &Metal,
    answer: &mut Answer,
) -> Result<Option<tool::CuttingData>, Refusal> {
    let Some(cutting) = tool::choose(bench, ground, metal, answer)? else { return Ok(None) };
    let depths: Vec<f64> = cutting.cuts.depths.iter().map(Worked::number).collect();
    let nose = &cutting.edge.nose;
    let pushes_back = grip::Cut::pushes_back(ground, &depths, nose)?;
    let cut = grip::Cut { force: &cutting.force, step: &cutting.speed.step, nose, pushes_back };
    grip::work(bench, ground, metal, cut, answer)?;
    Ok(Some(cutting))
}
