//! What the day asks of a set-up beside its minutes: waits that run unattended, and what must be at hand.

use super::facts::drill_size;
use super::hold::HeldIn;
use crate::handbook::set_up_minutes;
use crate::operations::Bench;
use crate::proof::{Fact, Refusal, Section, Speak, Words};
use schemars::JsonSchema;
use serde::Serialize;

/// Minutes that run unattended.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Wait {
    /// How many.
    pub minutes: f64,
    /// Whether it must end before the shop is closed.
    pub watched: bool,
    /// Whether the machine is taken for as long.
    pub holds: bool,
}

impl Wait {
    /// A wait of a row of the table of set-up minutes, that nobody need watch and that takes no machine.
    ///
    /// # Errors
    /// As [`set_up_minutes::start`].
    pub fn of(task: &str) -> Result<Self, Refusal> {
        Ok(Self { minutes: set_up_minutes::start(task)?, watched: false, holds: false })
    }

    /// The same wait in a machine that is taken for as long.
    pub const fn in_machine(self) -> Self {
        Self { holds: true, ..self }
    }

    /// The same wait, that must end before the shop is closed.
    pub const fn watched(self) -> Self {
        Self { watched: true, ..self }
    }
}

/// What a machine carries in one of its aspects: what is alike needs no change-over.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Carried {
    /// What holds the part.
    Held(HeldIn),
    /// Jaws bored to such a diameter, and where the part seats on their step so deep: to a tenth of a millimetre.
    BoredMm(f64, Option<f64>),
    /// Jaws turned to such a diameter outside, to open in a bore.
    OpensInMm(f64),
    /// A collet, or a mandrel, for such a diameter.
    ForMm(f64),
    /// Jaws the other way round, to open in a bore.
    TurnedRound,
    /// A slide set over by so many degrees.
    SetOverDeg(f64),
    /// A temperature.
    AtDegC(f64),
}

/// Where a thing lies that must be at hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Drawer {
    /// Cutting tools, reamers, taps.
    Tools,
    /// Thread inserts.
    Inserts,
    /// Shims.
    Shims,
    /// Gauges and instruments.
    Gauges,
    /// Stones and cloth.
    Abrasives,
    /// Oils and greases.
    Oils,
    /// Gloves and other guards of the hands and eyes.
    Gloves,
}

/// A thing that must be at hand before a set-up begins.
#[derive(Clone, Debug, PartialEq)]
pub struct Pull<W = Words> {
    /// Where it lies.
    pub drawer: Drawer,
    /// What it is: a name of the shop or of the card.
    pub item: W,
    /// How many.
    pub count: u32,
}

impl<W> Pull<W> {
    /// The same in other words.
    pub(super) fn try_map_words<S: Speak<W>>(&self, speaker: &S) -> Result<Pull<S::Said>, S::Slip> {
        Ok(Pull { drawer: self.drawer, item: speaker.say(Section::Names, &self.item, &[])?, count: self.count })
    }
}

/// A tool of a cut, and what its drawer calls it.
#[derive(Clone, Debug, PartialEq)]
pub struct Lies<W = Words> {
    /// The tool as its cut has it.
    pub tool: W,
    /// As the drawer has it.
    pub item: W,
}

impl<W> Lies<W> {
    /// The same in other words.
    pub(super) fn try_map_words<S: Speak<W>>(&self, speaker: &S) -> Result<Lies<S::Said>, S::Slip> {
        let say = |words: &W| speaker.say(Section::Names, words, &[]);
        Ok(Lies { tool: say(&self.tool)?, item: say(&self.item)? })
    }
}

/// A drill as its drawer calls it: the size as the shop file types it, and the set; none where the shop has no such drill.
pub fn drill_lies(bench: &Bench, tool: &Words, diameter: f64) -> Option<Lies> {
    let drills = bench.shop?.drills();
    let own = drills.into_iter().find(|drill| (drill.diameter - diameter).abs() < 1e-6)?;
    let size = own.typed.map_or_else(|| drill_size(diameter), Fact::from);
    let item = match own.from {
        Some(from) => Words::of("drill-in-drawer").with("size", size).with("from", from),
        None => Words::of("drill-of").with("size", size),
    };
    Some(Lies { tool: tool.clone(), item })
}
