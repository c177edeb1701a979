//! Floor 7. One file an operation, and what they share. No operation names another's file.
//!
//! The list at the foot of this page is the only place that knows which operations there are.

mod answer;
mod balloon;
mod bench;
pub mod card;
mod face;
mod facing;
mod families;
mod hardness;
mod hold_limits;
mod hold_point;
mod holds_for;
mod kit;
mod name;
mod owners;
mod readings;
mod ream_bush;
mod safety;
mod shaking;
mod skim;
mod spindle;
mod thread_insert;
mod value_json;

pub use answer::{Alternative, Answer, COMMON_CHECKS, Choice};
pub use balloon::HoldLine;
pub use bench::Bench;
pub use card::Card;
pub use families::WORST_MEMBER;
pub use hold_point::{GaugeUsed, HoldPoint, Limits, LimitsFrom};
pub use holds_for::{Holds, Measured, holds_for};
pub use kit::{
    Blank, Carried, Cut, Drawer, Grips, HeldIn, Hold, Nip, Pass, PassKind, Pull, SetUp, SetUpWish, Station, Step, Stop,
    Target, Times, Wait,
};
pub use name::{Declared, Name, Value};
pub use owners::Stage;
pub use shaking::{Shaken, ShakenCheck, ShakenValue, shake};

use crate::handbook::Material;
use crate::job::PartFacts;
use crate::proof::{At, CheckRule, Refusal};
use crate::reading::Problem;

/// Choices for a reader of the JSON alone: on a sheet or at a terminal they would stand beside what is to be done.
pub(crate) const FOR_READERS: &[&str] = &["other_zeros"];

/// An operation: its fields are the keys of its YAML, its file is its page of the handbook.
pub trait Operation {
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

    /// Every metal that it reads: its own, and the part's where it takes that one.
    fn metals<'a>(&'a mut self, part: &'a mut PartFacts) -> Vec<&'a mut At<Material>>;

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

    /// What cannot stand beside the other operations of the job, each at its place (exit 2); asked when all have said what they
    /// ask.
    fn disagrees(&self, _bench: &Bench) -> Vec<Problem> {
        Vec::new()
    }

    /// Works it out.
    ///
    /// # Errors
    /// What cannot be worked out: the rest of the answer stands, the operation fails.
    fn work(&self, bench: &Bench, answer: &mut Answer) -> Result<(), Refusal>;
}

macro_rules! operations {
    ($($word:literal => $file:ident::$Op:ident),+ $(,)?) => {
        /// One operation as it is asked for: `- thread-insert: {…}`.
        #[derive(Clone, Debug, serde::Deserialize, schemars::JsonSchema)]
        pub enum Request {
            $(
                #[serde(rename = $word)]
                #[allow(missing_docs)]
                $Op(Box<$file::$Op>)
            ),+
        }

        impl Request {
            /// The words of all operations, in the order of the help.
            pub const WORDS: &'static [&'static str] = &[$($word),+];

            /// The built-in cards, in the same order.
            pub(crate) const CARDS: &'static [&'static str] = &[$(include_str!(concat!("../../ops/", $word, ".yaml"))),+];

            /// Its word.
            pub fn word(&self) -> &'static str {
                match self { $(Self::$Op(_) => $word),+ }
            }

            fn operation(&self) -> &dyn Operation {
                match self { $(Self::$Op(operation) => operation.as_ref()),+ }
            }

            fn operation_mut(&mut self) -> &mut dyn Operation {
                match self { $(Self::$Op(operation) => operation.as_mut()),+ }
            }
        }
    };
}

impl Request {
    /// Every value that it can give.
    pub fn declared(&self) -> impl Iterator<Item = &'static Declared> {
        self.operation().values().iter().copied().flatten()
    }

    /// Every check that it makes.
    pub fn declared_checks(&self) -> &'static [CheckRule] {
        self.operation().checks()
    }

    /// What it asks of its set-up.
    pub fn set_up(&self) -> Option<&SetUpWish> {
        self.operation().set_up()
    }

    /// What cannot be a real part, each at its place.
    pub fn problems(&self, part: &PartFacts) -> Vec<Problem> {
        self.operation().problems(part)
    }

    /// The operation that it is one of a pair with.
    pub(crate) fn partner(&self) -> Option<crate::job::Address> {
        self.operation().partner()
    }

    /// Values that others may ask before it is worked.
    pub fn asks(&self, bench: &Bench) -> Answer {
        let mut answer = Answer::declaring(self.declared_checks());
        answer.refused = self.operation().asks(bench, &mut answer).err();
        answer
    }

    /// What cannot stand beside the other operations of the job.
    pub(crate) fn disagrees(&self, bench: &Bench) -> Vec<Problem> {
        self.operation().disagrees(bench)
    }

    /// Works it out; where a metal is a family, for every member, and the worst of each check is kept.
    pub fn work(&self, bench: &Bench) -> Answer {
        let mut answer = families::work(self, bench);
        owners::share_out(&mut answer, self.operation().stages());
        answer
    }

    /// Works it out for the metals as they are named.
    fn work_once(&self, bench: &Bench) -> Answer {
        let mut answer = Answer::declaring(self.declared_checks());
        let refused = self.operation().work(bench, &mut answer).err();
        answer.refused = refused.or(answer.refused);
        hardness::judge(bench, &mut answer);
        let metals = self.metals_of(bench);
        safety::on_every_set_up(&mut answer, |set_up| {
            let asked = self.operation().fluids(set_up).iter();
            let cuts_as =
                |metal: &Material| self.operation().cuts_as(bench.part, metal).unwrap_or_else(|_| metal.clone());
            asked.filter_map(|(at, fluid)| Some((cuts_as(&metals.get(*at)?.value), *fluid))).collect()
        });
        answer.complete();
        hold_limits::find_all(&mut answer);
        answer
    }

    /// The metals that it reads, in the order of [`Operation::metals`].
    fn metals_of(&self, bench: &Bench) -> Vec<At<Material>> {
        let (mut asked, mut part) = (self.clone(), bench.part.clone());
        asked.metals(&mut part).into_iter().map(|at| at.clone()).collect()
    }

    /// Every metal that it reads: its own, and the part's where it takes that one.
    fn metals<'a>(&'a mut self, part: &'a mut PartFacts) -> Vec<&'a mut At<Material>> {
        self.operation_mut().metals(part)
    }

    /// Takes the sizes to make that an answer gave, where it gave any.
    fn take_sizes(&mut self, of: &Answer) -> bool {
        self.operation_mut().take_sizes(of)
    }

    /// The answer of an operation that is refused before it is worked: every check stands in it, none was made.
    pub fn refused(&self, refusal: Refusal) -> Answer {
        let mut answer = Answer::declaring(self.declared_checks());
        answer.refused = Some(refusal);
        answer.complete();
        answer
    }

    /// The built-in card of an operation's word.
    pub fn built_in_card(word: &str) -> Option<&'static str> {
        Self::WORDS.iter().zip(Self::CARDS).find(|(known, _)| **known == word).map(|(_, card)| *card)
    }
}

// The list of operations, in the order of the help. A new one is one line here, and one with its module above.
operations! {
    "thread-insert" => thread_insert::ThreadInsert,
    "ream-bush" => ream_bush::ReamBush,
    "face" => face::Face,
    "skim" => skim::Skim,
}
