//! The keys of a thread insert, as typed.

use crate::handbook::{BoltClass, InsertLength, Lead, Material, Thread};
use crate::job::{Difference, Reading};
use crate::operations::hole_making::{Beyond, PresentHole};
use crate::operations::{Bench, Hold, SetUpWish};
use crate::proof::At;
use crate::quantity::{Mm, NewtonMetre, Ratio, Wanted};
use schemars::JsonSchema;
use serde::Deserialize;

/// A wire thread insert in a wall.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
#[schemars(extend("x-wants" = [["material", "part.material"]]))]
pub struct ThreadInsert {
    /// Thread of the bolt.
    pub(super) thread: At<Thread>,
    /// Metal from the face to the far side (measured).
    pub(super) wall: At<Reading>,
    /// Through or blind.
    pub(super) hole: At<HoleKind>,
    /// Open gap behind the wall before something moves (measured), or `clear`.
    pub(super) beyond: Option<At<Beyond>>,
    /// Metal to leave under a blind hole (wanted).
    pub(super) least_left: Option<At<Wanted<Mm>>>,
    /// Hole centre to the nearest edge (measured).
    pub(super) edge: Option<At<Reading>>,
    /// Greatest diameter of the hole that is there (measured), or `none`.
    pub(super) present_hole: Option<At<PresentHole>>,
    /// Its depth to its deepest point (measured); left out, the picture does not show how deep it goes.
    pub(super) present_depth: Option<At<Reading>>,
    /// Width of the chamfer at 45° on its mouth (measured); left out, {present-chamfer} is assumed where the zero is taken on the old
    /// hole.
    pub(super) present_chamfer: Option<At<Difference>>,
    /// Where the stop is set to zero.
    pub(super) zero: Option<At<ZeroKind>>,
    /// Thickness of the strip that a zero is taken on; left out, {zero-strip} is assumed.
    pub(super) strip: Option<At<Mm>>,
    /// Whether the mouth is countersunk.
    pub(super) countersink: Option<At<bool>>,
    /// Lead of the insert tap.
    pub(super) lead: Option<At<Lead>>,
    /// The bolt.
    pub(super) bolt: Option<Bolt>,
    /// Tang in or out; left out, it comes out of a through hole and stays in a blind one.
    pub(super) tang: Option<At<Tang>>,
    /// How the part is held.
    pub(super) hold: Option<Hold>,
    /// Length, in diameters or mm; left out, the best is chosen.
    pub(super) length: Option<At<InsertLength>>,
    /// Material, where it is not the part's; left out, the part's.
    pub(super) material: Option<At<Material>>,
    /// Set-up wishes; left out, none.
    pub(super) set_up: Option<SetUpWish>,
}

impl ThreadInsert {
    pub(super) fn material<'a>(&'a self, bench: &Bench<'a>) -> Option<&'a Material> {
        self.material.as_ref().or(bench.part.material.as_ref()).map(|at| &at.value)
    }

    /// Whether something may be there: only `none` says that nothing is.
    pub(super) fn opens_old_hole(&self) -> bool {
        !self.present_hole.as_ref().is_some_and(|at| at.value == PresentHole::None)
    }

    /// Inserts by the reach of a spark plug: its thread, through a head.
    pub(super) fn spark_plug(&self) -> bool {
        InsertLength::by_reach(self.thread.value) && self.hole.value == HoleKind::Through
    }
}

/// Through the wall or not.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(super) enum HoleKind {
    /// Out at the far side.
    Through,
    /// Ends in the metal.
    Blind,
}

/// What becomes of the tang.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(super) enum Tang {
    /// Stays in the hole.
    In,
    /// Is broken off and fetched out.
    Out,
}

/// Where the stop is set to zero.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub(super) enum ZeroKind {
    /// The point touches sound metal beside the hole.
    Face,
    /// The point touches a flat strip laid over the hole.
    Strip,
    /// The full diameter just enters the face.
    Corner,
    /// Point or corners rest in the mouth of the old hole.
    OldHole,
}

impl ZeroKind {
    /// Every zero, in the order that a list shows them.
    pub(super) const ALL: [Self; 4] = [Self::Face, Self::Strip, Self::Corner, Self::OldHole];

    /// As it is written.
    pub(super) const fn text(self) -> &'static str {
        match self {
            Self::Face => "face",
            Self::Strip => "strip",
            Self::Corner => "corner",
            Self::OldHole => "old-hole",
        }
    }
}

/// How the bolt's thread is when it is tightened.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub(super) enum BoltThreads {
    /// As received, nothing on it.
    Dry,
    /// Oiled, under the head too.
    Oiled,
}

impl BoltThreads {
    /// As it is written.
    pub(super) const fn text(self) -> &'static str {
        match self {
            Self::Dry => "dry",
            Self::Oiled => "oiled",
        }
    }
}

/// The bolt that goes into the insert.
#[derive(Clone, Debug, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Bolt {
    /// Strength class.
    pub(super) class: At<BoltClass>,
    /// Full thread standing past the face of this part when the joint is closed, the point not counted.
    pub(super) reach: Option<At<Mm>>,
    /// Tightening torque.
    pub(super) torque: Option<At<NewtonMetre>>,
    /// Dry or oiled; left out, the nut factor is taken wide enough for both.
    pub(super) threads: Option<At<BoltThreads>>,
    /// Nut factor K of torque = K × diameter × force, where it is known; left out, by `threads`.
    pub(super) nut_factor: Option<At<Ratio>>,
}
