//! The kinds of place where work is done.

use crate::proof::Fact;
use crate::shop::Machine;

/// The kind of place where a set-up stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Station {
    /// A lathe.
    Lathe,
    /// A mill or a drill press.
    Drilling,
    /// A press.
    Press,
    /// An oven (and freezer).
    Oven,
    /// The bench.
    Bench,
}

impl Station {
    /// The kind of place where a machine stands.
    pub const fn of(machine: &Machine) -> Self {
        match machine {
            Machine::Lathe(_) => Self::Lathe,
            Machine::Mill(_) | Machine::DrillPress(_) => Self::Drilling,
            Machine::Press(_) => Self::Press,
            Machine::Oven(_) | Machine::Freezer(_) => Self::Oven,
            Machine::Bench(_) => Self::Bench,
        }
    }

    /// Where an operation stands, by its word, that has no set-up to say so; nothing of one that may cut.
    pub fn of_operation(word: &str) -> Option<Self> {
        match word {
            "press-in" | "press-out" => Some(Self::Press),
            "warm" | "chill" => Some(Self::Oven),
            "chain" | "deburr" | "fit-up" | "hand" | "lap" | "measure" | "shim" | "wash" => Some(Self::Bench),
            _ => None,
        }
    }

    /// Its name, where the shop has none for the machine.
    pub const fn named(self) -> Fact {
        Fact::named(match self {
            Self::Lathe => "station-lathe",
            Self::Drilling => "station-drilling",
            Self::Press => "station-press",
            Self::Oven => "station-oven",
            Self::Bench => "station-bench",
        })
    }
}
