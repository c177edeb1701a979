//! What would mend a check: its words, and how the check would then stand where that was worked out.

use super::{Section, Speak, Verdict, Words};
use serde::{Serialize, Serializer};
use std::ops::Deref;

/// One thing that would mend a check. In JSON its words alone, which name the verdict.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy<W = Words> {
    /// Its words: a text of the card under `remedies`.
    pub words: W,
    /// How the check stands with it, where that was worked out.
    pub gives: Option<Verdict>,
}

/// The blank of a remedy that was worked out.
const VERDICT: &str = "verdict";

impl Remedy {
    /// One that was not worked out.
    pub fn of(id: &'static str) -> Self {
        Words::of(id).into()
    }

    /// One with the verdict that it gives, for the blank of its words too.
    pub fn giving(words: Words, verdict: Verdict) -> Self {
        Self { words: words.with(VERDICT, verdict.text()), gives: Some(verdict) }
    }

    /// The same judged by more than its own check: the worse counts.
    pub fn at_best(&mut self, verdict: Verdict) {
        let gives = self.gives.map_or(verdict, |own| own.max(verdict));
        self.gives = Some(gives);
        self.words.facts.retain(|fact| fact.0 != VERDICT);
        self.words.facts.push((VERDICT, gives.text().into()));
    }
}

impl From<Words> for Remedy {
    fn from(words: Words) -> Self {
        Self { words, gives: None }
    }
}

impl<W> Remedy<W> {
    /// The same in other words.
    pub(super) fn try_map_words<S: Speak<W>>(&self, speaker: &S) -> Result<Remedy<S::Said>, S::Slip> {
        Ok(Remedy { words: speaker.say(Section::Remedies, &self.words, &[])?, gives: self.gives })
    }
}

impl<W> Deref for Remedy<W> {
    type Target = W;

    fn deref(&self) -> &W {
        &self.words
    }
}

impl<W: Serialize> Serialize for Remedy<W> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        self.words.serialize(serializer)
    }
}

#[cfg(test)]
mod tests {
    use super::{Remedy, Verdict, Words};

    #[test]
    fn the_worse_of_two_verdicts_counts_and_is_said() {
        let mut remedy = Remedy::giving(Words::of("shorter-length"), Verdict::Proven);
        remedy.at_best(Verdict::Fails);
        remedy.at_best(Verdict::Doubtful);
        assert_eq!(remedy.gives, Some(Verdict::Fails));
        assert_eq!(remedy.words.facts, [("verdict", "fails".into())]);
    }
}
