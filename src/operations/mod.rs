//! Layer 7. One file an operation, and what they share. No operation names another's file.
//!
//! The list at the foot of this page is the only place that knows which operations there are.

mod answer;
mod answer_json;
mod answer_words;
mod balloon;
mod bench;
mod beside;
mod bore_hole;
mod by_hand;
pub mod card;
mod chain;
mod chill;
mod diameter;
mod drill;
mod drill_oil_hole;
mod face;
mod facing;
mod families;
mod fit_up;
mod hardness;
mod hold_limits;
mod hold_point;
mod hold_search;
mod hold_window;
mod holds_for;
mod hole_making;
pub mod kit;
mod lap;
mod linked;
mod mill_face;
mod name;
mod once;
mod owners;
mod part_off;
mod picture;
mod polish_seal;
mod press_in;
mod press_joint;
mod press_out;
mod readings;
mod ream_bush;
mod rebore;
mod registry;
mod safety;
mod set_true;
mod shaking;
mod shim;
mod skim;
mod spindle;
mod spot_face;
mod tap;
mod thread_insert;
mod turn;
mod turning;
mod value_json;
mod warm;

pub(crate) use answer::DOUBT_PLAUSIBLE;
pub use answer::{Alternative, Answer, COMMON_CHECKS, Choice};
pub use balloon::HoldLine;
pub use bench::Bench;
pub use card::Card;
pub use families::{WORST_MEMBER, work};
pub use hold_point::HoldPoint;
pub use hold_search::{LimitsWhenAsked, Proving};
pub use hold_window::{GaugeUsed, Limits, LimitsFrom};
pub use holds_for::{Holds, Measured, holds_for};
pub use kit::{
    Backed, Blank, Carried, Clamped, Closes, Cut, Drawer, Grips, HeldIn, Hold, LeftAs, Nip, Pass, PassKind, Pull,
    SetUp, SetUpWish, Station, Step, Stop, Target, Times, Wait, done_by,
};
pub use name::{Declared, Left, Name, OfPart, OfRow, PartSize, Value};
pub(crate) use name::{LinkOf, ReadElsewhere};
pub use owners::Stage;
pub use picture::{
    Between, Ends, Fit, FitGroup, FitLimit, HighSpot, HighSpots, Jaw, JawWork, Lengths, LinkShare, Links, Pack,
    PackLink, Picture, Polar, WornBore,
};
pub(crate) use readings::{CANNOT_READ, read_left, read_row_left};
pub use registry::Registered;
pub use shaking::{Shaken, ShakenCheck, ShakenValue, shake};

use crate::handbook::{Lead, Material};
use crate::job::PartFacts;
use crate::proof::{At, Check, CheckRule, Refusal, Words, Worked};
use crate::quantity::Shift;
use crate::reading::Problem;

/// Choices for a reader of the JSON alone: on a sheet or at a terminal they would stand beside what is to be done.
pub(crate) const FOR_READERS: &[&str] = &["other_zeros"];

/// An operation: its fields are the keys of its YAML, its file is its page of the handbook.
pub trait Operation: Send + Sync {
    /// Every value that it can give, in lists: what cards, logs and the JSON's description may name.
    fn values(&self) -> &'static [&'static [Declared]];

    /// Every check that it makes: all of these stand in every answer.
    fn checks(&self) -> &'static [CheckRule];

    /// Its work in order, each with the checks that it cannot undo; what no stage names the first set-up owns.
    fn stages(&self) -> &'static [Stage] {
        &[]
    }

    /// What it asks of its set-up.
    fn set_up(&self) -> Option<&SetUpWish>;

    /// Every metal that it reads: its own, and the part's where it takes that one; left out, the part's.
    fn metals<'a>(&'a mut self, part: &'a mut PartFacts) -> Vec<&'a mut At<Material>> {
        part.material.iter_mut().collect()
    }

    /// Which fluid a set-up that cuts asks for, as the table of coolants names the operation, and for which of [`Self::metals`].
    fn fluids(&self, _set_up: &str) -> &'static [(usize, &'static str)] {
        &[(0, "any")]
    }

    /// The metal whose cutting rows are taken for one of [`Self::metals`]: itself, unless it was hardened.
    ///
    /// # Errors
    /// [`Refusal::NoRow`] where a table lacks a limit or a metal.
    fn cuts_as(&self, _: &PartFacts, metal: &Material) -> Result<Material, Refusal> {
        Ok(metal.clone())
    }

    /// What cannot be a real part, each at its place (exit 2).
    fn problems(&self, part: &PartFacts) -> Vec<Problem>;

    /// Takes the sizes to make that an answer gave, where it gave any: what is made for one metal is judged for every other that
    /// it may be.
    fn take_sizes(&mut self, _of: &Answer) -> bool {
        false
    }

    /// What was left, out of readings in a row: the size itself and what else the readings tell, each by its name; none where each of
    /// them is that size, at another place.
    fn left_of_row(&self, _key: &str, _reads: &[Worked<Shift>]) -> Option<Result<Vec<OfRow>, Refusal>> {
        None
    }

    /// Values that others may ask before it is worked (what a pair wants to lose): no needs of its own.
    ///
    /// # Errors
    /// What cannot be worked out.
    fn asks(&self, _bench: &Bench, _answer: &mut Answer) -> Result<(), Refusal> {
        Ok(())
    }

    /// The operation that it is one of a pair with, by its address: cut by the same, and not at all where the other fails.
    fn partner(&self) -> Option<crate::job::Address> {
        None
    }

    /// An operation that it looks at as it is worked, whichever of the two comes first. What it needs first, and its partner, are
    /// known without.
    fn beside(&self) -> Option<crate::job::Address> {
        None
    }

    /// The metal of what it leaves in the part.
    fn puts_in(&self) -> Option<&At<Material>> {
        None
    }

    /// Whether what it puts into the part stands out of the face of it.
    fn stands_out(&self) -> bool {
        false
    }

    /// Whether it is the part itself that it makes cold, with all that sits in it, and nothing that goes into it.
    fn chills_its_part(&self) -> bool {
        false
    }

    /// Whether it says what stands out of the face that it works, or that nothing does.
    fn counts_what_stands_out(&self) -> bool {
        true
    }

    /// How warm it says that the part gets as it runs.
    fn runs_as_warm(&self) -> Option<&At<crate::quantity::Celsius>> {
        None
    }

    /// What it says of a metal in the part that is not the part's own, where that goes through it too.
    ///
    /// # Errors
    /// [`Refusal::NoRow`] where a table has no word of it.
    fn suits(&self, _metal: &Material) -> Result<Option<Check>, Refusal> {
        Ok(None)
    }

    /// How the part is held on a spindle that turns it.
    fn hold(&self) -> Option<&Hold> {
        None
    }

    /// Whether a hole that it drills was there before, and it says so.
    fn opens_a_hole(&self) -> bool {
        false
    }

    /// How the part is held, whatever turns.
    fn gripped(&self) -> Option<&Hold> {
        self.hold()
    }

    /// What cannot stand beside the other operations of the job, each at its place (exit 2); asked when all have said what they
    /// ask.
    fn disagrees(&self, _bench: &Bench) -> Vec<Problem> {
        Vec::new()
    }

    /// What else of the drawer may do the work of a tool that it asks for and the shop lacks, by its name.
    fn instead(&self, _bench: &Bench) -> Vec<(Words, Instead)> {
        Vec::new()
    }

    /// Asks for that tool in the place of its own.
    fn take_instead(&mut self, _tool: Instead) {}

    /// Works it out.
    ///
    /// # Errors
    /// What cannot be worked out: the rest of the answer stands, the operation fails.
    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal>;
}

/// A tool in the place of one that the shop lacks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Instead {
    /// A tap of another lead.
    Lead(Lead),
    /// A cutter or drill of another size, mm.
    Size(f64),
}

// The list of operations, in the order of the help. A new one is one line here, and one with its module above.
crate::operations! {
    /// One operation as it is asked for: `- thread-insert: {…}`.
    Request from "../../ops/" and "../../examples/";
    "thread-insert" => thread_insert::ThreadInsert,
    "ream-bush" => ream_bush::ReamBush,
    "press-in" => press_in::PressIn,
    "press-out" => press_out::PressOut,
    "face" => face::Face,
    "skim" => skim::Skim,
    "wash" => by_hand::Wash,
    "measure" => by_hand::Measure,
    "deburr" => by_hand::Deburr,
    "hand" => by_hand::Hand,
    "drill" => drill::Drill,
    "tap" => tap::Tap,
    "warm" => warm::Warm,
    "chill" => chill::Chill,
    "drill-oil-hole" => drill_oil_hole::DrillOilHole,
    "spot-face" => spot_face::SpotFace,
    "mill-face" => mill_face::MillFace,
    "set-true" => set_true::SetTrue,
    "chain" => chain::Chain,
    "shim" => shim::Shim,
    "fit-up" => fit_up::FitUp,
    "turn" => turn::Turn,
    "bore-hole" => bore_hole::BoreHole,
    "bore" => rebore::Bore,
    "part-off" => part_off::PartOff,
    "lap" => lap::Lap,
    "polish-seal" => polish_seal::PolishSeal,
}
