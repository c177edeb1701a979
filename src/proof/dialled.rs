//! What is set for a pass: a dial, a stop, an adjustable tool. It is data; words come where it is printed.

use crate::quantity::{Decimals, Print, Rounds, Shown, Unit, figure, shown};
use schemars::JsonSchema;
use serde::Serialize;

/// The length that a dial is divided in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum DividedIn {
    /// Whole micrometres.
    Millimetres,
    /// Whole ten-thousandths of an inch.
    Inches,
    /// Its division could be either: it counts as the shop prints.
    Either,
}

impl DividedIn {
    /// What a division says: whole ten-thousandths of an inch that are no whole micrometres are an inch dial's, whole
    /// micrometres a metric one's.
    pub(crate) fn of_division(mm: f64) -> Self {
        let whole = |parts: f64| (parts - parts.round()).abs() < 1e-6;
        match (whole(mm / 0.00254), whole(mm / 0.001)) {
            (true, false) => Self::Inches,
            (false, true) => Self::Millimetres,
            _ => Self::Either,
        }
    }

    /// The units of print of what is counted on it.
    pub const fn print(self, print: Print) -> Print {
        match self {
            Self::Inches => Print::Imperial,
            Self::Millimetres => Print::Metric,
            Self::Either => print,
        }
    }
}

/// A length counted in turns and divisions of a dial.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Counted {
    /// The dial, in the words of the shop's machines.
    pub device: &'static str,
    /// Whole turns from its zero.
    pub turns: u32,
    /// Divisions past the whole turns, to a tenth of one.
    pub divisions: f64,
    /// One division, mm along its slide.
    pub division_mm: f64,
    /// What its divisions are.
    pub divided_in: DividedIn,
    /// Past the whole turns, mm along its slide.
    pub past_turns_mm: f64,
    /// From its zero in all, mm along its slide.
    pub travel_mm: f64,
    /// How far along its slide for each mm of what is measured: a half where it counts the radius of a diameter, more than one
    /// where the slide is set over.
    #[serde(skip_serializing_if = "is_alike")]
    pub per_measured: f64,
}

/// Whether as much is dialled as was measured.
fn is_alike(per_measured: &f64) -> bool {
    (per_measured - 1.0).abs() < 1e-9
}

impl Counted {
    /// Counts a length of mm along a slide from its dial's zero; `per_turn` is one turn of the dial, mm.
    pub fn of(device: &'static str, travel_mm: f64, division_mm: f64, per_turn: Option<f64>) -> Self {
        let turns = per_turn.map_or(0.0, |turn| (travel_mm / turn + 1e-9).floor()).max(0.0);
        let rest = travel_mm - turns * per_turn.unwrap_or(0.0);
        let divisions = rest / division_mm;
        let whole = (divisions - divisions.round()).abs() < 1e-6;
        let divisions = if whole { divisions.round() } else { (divisions * 10.0).round() / 10.0 };
        Self {
            device,
            // Whole and not under nought.
            turns: turns as u32,
            divisions,
            division_mm,
            divided_in: DividedIn::of_division(division_mm),
            past_turns_mm: rest.max(0.0),
            travel_mm,
            per_measured: 1.0,
        }
    }

    /// One division in the unit of the reading that is reckoned with, whatever the dial is divided in: what is left of a
    /// reading in millimetres is never parted by a division in inches.
    pub fn division(&self, print: Print) -> String {
        match print {
            Print::Imperial => format!("{} in", figure(self.division_mm / 25.4)),
            Print::Metric | Print::Both => format!("{} mm", figure(self.division_mm)),
        }
    }
}

/// What is set for a pass.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
#[serde(tag = "sets", rename_all = "kebab-case")]
pub enum Dialled {
    /// The dial of a slide: set to zero at the touch and not again, so that each pass counts on.
    Slide(Counted),
    /// The stop of a spindle, set to its own zero before its pass.
    Stop(Counted),
    /// An adjustable tool.
    Size {
        /// Its diameter, mm.
        to_mm: f64,
        /// How much that is over the setting before, mm on diameter.
        more_mm: f64,
    },
    /// What was set for the pass before.
    Same,
    /// A tool that a hand turns in, such as a tap.
    Turns {
        /// How often, over its depth: how far its lead is in as it first bites nobody sees.
        turns: f64,
    },
}

impl Dialled {
    /// In words, with its figures in the units of print.
    pub fn said(&self, print: Print) -> String {
        let mm = |number: f64, print| shown(number, None, Unit::Mm, Rounds::Nearest, print);
        match self {
            Self::Slide(counted) => {
                let turned = match counted.turns {
                    0 => String::new(),
                    1 => "1 turn and ".into(),
                    turns => format!("{turns} turns and "),
                };
                let past = mm(counted.past_turns_mm, counted.divided_in.print(print));
                format!("{} {turned}{past} ({} div)", counted.device, figure(counted.divisions))
            }
            Self::Stop(counted) => {
                let travel =
                    Shown::of(counted.travel_mm, None, Unit::Mm, (Decimals::Exactly(2), Rounds::Nearest), print);
                format!("{} {travel} from its zero", counted.device)
            }
            Self::Size { to_mm, more_mm } => {
                format!("set to {}, {} more on diameter", mm(*to_mm, print), mm(*more_mm, print))
            }
            Self::Same => "the same setting again".into(),
            Self::Turns { turns } => format!("about {turns:.1} turns: its depth counts"),
        }
    }
}
