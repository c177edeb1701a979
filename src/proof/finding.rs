//! One check, judged: proven, doubtful or failing.

use super::{Fact, Facts, Place, Words, Worked, worked::root_sum_square};
use crate::quantity::{Quantity, Unit};

/// The three answers to a check, worst last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Verdict {
    /// Holds at the bad end of the doubt too.
    Proven,
    /// Holds nominally; the doubt reaches over, or what it rests on is doubtful.
    Doubtful,
    /// Does not hold.
    Fails,
}

impl Verdict {
    /// As the JSON spells it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Proven => "proven",
            Self::Doubtful => "doubtful",
            Self::Fails => "fails",
        }
    }
}

/// The side of a limit on which a figure must stay.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Keep {
    /// Not under the limit.
    AtLeast,
    /// Not over the limit.
    AtMost,
}

/// The figures of a check.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// The figure got.
    pub got: f64,
    /// The doubt of the margin (k = 2).
    pub doubt: f64,
    /// The limit.
    pub limit: f64,
    /// On which side it must stay.
    pub keep: Keep,
    /// How far inside the limit it is; negative is outside.
    pub margin: f64,
    /// The unit of all four.
    pub unit: Unit,
}

/// One check, with all that a reader needs to argue with it. Its words stand in the operation's card under [`Finding::check`].
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The id of the check in the card.
    pub check: &'static str,
    /// The key of the value that is judged, where it has a name.
    pub about: Option<&'static str>,
    /// Its figures, where it has any.
    pub judged: Option<Judged>,
    /// What came out.
    pub verdict: Verdict,
    /// The line to mend.
    pub place: Option<Place>,
    /// Words and figures for the card's blanks.
    pub facts: Facts,
    /// What would mend it, each with the figure that it gives; texts of the card under `remedies`.
    pub remedies: Vec<Words>,
}

impl Finding {
    /// Judges by the guard-banded rule (ISO 14253-1): proven only if the bad end of the doubt holds too. The limit may have
    /// doubt as well. `guard` is the factor on the standard uncertainty; 2 keeps the doubts (k = 2) as they are.
    pub fn judge<Q: Quantity>(check: &'static str, got: &Worked<Q>, keep: Keep, limit: &Worked<Q>, guard: f64) -> Self {
        let both: Vec<_> = got.shares.iter().copied().chain(limit.shares.iter().map(|s| (s.0, -s.1))).collect();
        let doubt = root_sum_square(&both) * guard / 2.0;
        let side = if keep == Keep::AtLeast { 1.0 } else { -1.0 };
        let margin = settled(side * (got.number() - limit.number()), limit.number());
        let verdict = match settled(margin - doubt, limit.number()) {
            left if left >= 0.0 => Verdict::Proven,
            _ if margin >= 0.0 => Verdict::Doubtful,
            _ => Verdict::Fails,
        };
        let judged = Judged { got: got.number(), doubt, limit: limit.number(), keep, margin, unit: Q::UNIT };
        Self { check, about: None, judged: Some(judged), verdict, place: None, facts: Vec::new(), remedies: Vec::new() }
    }

    /// A check that is a matter of kind, not of a figure.
    pub fn plain(check: &'static str, verdict: Verdict) -> Self {
        Self { check, about: None, judged: None, verdict, place: None, facts: Vec::new(), remedies: Vec::new() }
    }

    /// The same finding, about the value of a key.
    pub fn about(self, key: &'static str) -> Self {
        Self { about: Some(key), ..self }
    }

    /// The same finding, pointing at the line to mend.
    pub fn at(self, place: Place) -> Self {
        Self { place: Some(place), ..self }
    }

    /// The same finding with a word or figure for the card's blanks.
    pub fn with(mut self, name: &'static str, fact: impl Into<Fact>) -> Self {
        self.facts.push((name, fact.into()));
        self
    }

    /// Adds a remedy with the figure that it gives.
    pub fn remedy(&mut self, words: Words) -> &mut Self {
        self.remedies.push(words);
        self
    }

    /// The same finding, not better than `floor`: what rests on a doubtful figure is doubtful.
    pub fn not_better_than(self, floor: Verdict) -> Self {
        Self { verdict: self.verdict.max(floor), ..self }
    }

    /// The same finding, not worse than `ceiling`.
    pub fn not_worse_than(self, ceiling: Verdict) -> Self {
        Self { verdict: self.verdict.min(ceiling), ..self }
    }
}

/// A limit met exactly holds: a margin smaller than the arithmetic's own noise is none.
fn settled(margin: f64, scale: f64) -> f64 {
    if margin.abs() <= 1e-12 * scale.abs().max(1.0) { 0.0 } else { margin }
}
