//! The four balloons of a sketch: what a line of the hold, and what a step, is about.

use crate::proof::{Section, Speak, Words};

/// A balloon, its number always the same.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Balloon {
    /// ① How it is gripped or lies.
    Grip,
    /// ② Where the indicator touches, and how true it runs.
    Indicator,
    /// ③ What the dial counts from.
    Zero,
    /// ④ The tool.
    Tool,
}

impl Balloon {
    /// Its number, from 1.
    pub const fn number(self) -> u8 {
        self as u8 + 1
    }

    /// Which one a line of the hold belongs to, by its id in the card.
    fn of_hold(id: &str) -> Self {
        match id {
            "true-within" | "true-as-it-will-go" | "square-to-face" => Self::Indicator,
            _ => Self::Grip,
        }
    }

    /// Which one a step that does not cut belongs to, by its id in the card: that of the zero, or none.
    pub(super) fn of_step(id: &str) -> Option<Self> {
        let zero = id.starts_with("zero-") || id == "touch-unworn";
        zero.then_some(Self::Zero)
    }
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
        Self { balloon: Balloon::of_hold(words.id), words }
    }
}

impl<W> HoldLine<W> {
    /// The same line in other words.
    pub(super) fn try_map_words<S: Speak<W>>(&self, speaker: &S) -> Result<HoldLine<S::Said>, S::Slip> {
        Ok(HoldLine { balloon: self.balloon, words: speaker.say(Section::Hold, &self.words, &[])? })
    }
}
