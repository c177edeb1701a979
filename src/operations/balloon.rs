//! The four balloons of a sketch: what a line of the hold, and what a step, is about.

use crate::drawing::Balloon;
use crate::proof::{Section, Speak, Words};

/// Which one a line of the hold belongs to, by its id in the card.
fn of_hold(id: &str) -> Balloon {
    match id {
        "true-as-it-will-go" | "true-on-the-unworn-ring" | "square-to-face" => Balloon::Indicator,
        id if id.starts_with("true-within") => Balloon::Indicator,
        _ => Balloon::Grip,
    }
}

/// Which one a step that does not cut belongs to, by its id in the card: that of the zero, or none.
pub(in crate::operations) fn of_step(id: &str) -> Option<Balloon> {
    let zero = id.starts_with("zero-") || id.starts_with("touch");
    zero.then_some(Balloon::Zero)
}

/// A line of how it is held and trued.
#[derive(Clone, Debug, PartialEq)]
pub struct HoldLine<W = Words> {
    /// The balloon that it belongs to.
    pub balloon: Balloon,
    /// Its words.
    pub words: W,
}

impl From<Words> for HoldLine {
    fn from(words: Words) -> Self {
        Self { balloon: of_hold(words.id), words }
    }
}

impl<W> HoldLine<W> {
    /// The same line in other words.
    pub(in crate::operations) fn try_map_words<S: Speak<W>>(&self, speaker: &S) -> Result<HoldLine<S::Said>, S::Slip> {
        Ok(HoldLine { balloon: self.balloon, words: speaker.say(Section::Hold, &self.words, &[])? })
    }
}
