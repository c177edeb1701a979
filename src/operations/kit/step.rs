//! The lines of a sheet in working order.

use super::cut::Cut;
use crate::drawing::Balloon;
use crate::operations::balloon::{self, HoldLine};
use crate::operations::hold_point::{HoldPoint, HoldPointOut};
use crate::proof::Words;
use schemars::JsonSchema;
use serde::{Serialize, Serializer};

/// One line of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Step<W = Words> {
    /// Its id in the card.
    pub id: &'static str,
    /// Its words.
    pub words: W,
    /// Its figures, where it cuts.
    pub cut: Option<Cut<W>>,
    /// What is measured there before the work goes on, where anything is.
    pub hold_point: Option<HoldPoint<W>>,
}

impl<W> Step<W> {
    /// The balloon that it belongs to: ④ where it cuts, ③ where it takes the zero.
    pub fn balloon(&self) -> Option<Balloon> {
        self.cut.as_ref().map(|_| Balloon::Tool).or_else(|| balloon::of_step(self.id))
    }
}

impl Step {
    /// A step without figures.
    pub const fn by_hand(words: Words) -> Self {
        Self { id: words.id, words, cut: None, hold_point: None }
    }
}

/// The steps of a set-up as the JSON has them: all in words, and those that cut with their figures.
#[derive(Serialize, JsonSchema)]
pub(super) struct StepsAndCuts<'a, W> {
    /// Steps in working order.
    steps: Vec<&'a W>,
    /// Those that cut.
    cuts: Vec<CutInWords<'a, W>>,
    /// What is measured at some of the steps before the work goes on.
    hold_points: Vec<HoldPointOut<'a, W>>,
}

#[derive(Serialize, JsonSchema)]
struct CutInWords<'a, W> {
    /// The words of its step.
    what: &'a W,
    #[serde(flatten)]
    cut: &'a Cut<W>,
}

pub(super) fn steps_and_cuts<W: Serialize, S: Serializer>(all: &[Step<W>], serializer: S) -> Result<S::Ok, S::Error> {
    let steps = all.iter().map(|step| &step.words).collect();
    let cuts = all.iter().filter_map(|step| Some(CutInWords { what: &step.words, cut: step.cut.as_ref()? })).collect();
    let held = all.iter().enumerate().filter_map(|(at, step)| Some(HoldPointOut::of(at, step.hold_point.as_ref()?)));
    StepsAndCuts { steps, cuts, hold_points: held.collect() }.serialize(serializer)
}

pub(super) fn words_of<W: Serialize, S: Serializer>(hold: &[HoldLine<W>], serializer: S) -> Result<S::Ok, S::Error> {
    serializer.collect_seq(hold.iter().map(|line| &line.words))
}
