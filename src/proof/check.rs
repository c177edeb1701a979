//! One check, judged: proven, doubtful or failing; or not made, and why not.

use super::judged::{Judged, Keep, settled};
use super::{Fact, Facts, Node, Place, Remedy, Section, Speak, Verdict, Words, Worked, cause::root_sum_square};
use crate::quantity::Quantity;
use schemars::JsonSchema;
use serde::{Serialize, Serializer};

/// What became of a check. None ever vanishes: what was not made says so.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// It was made.
    Made(Verdict),
    /// The question is open and a key for it is missing.
    NotChecked,
    /// The question was not opened.
    DoesNotApply,
    /// It asks what the shop owns, and there is no shop.
    NoShop,
}

impl Outcome {
    /// As the JSON spells it.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Made(verdict) => verdict.text(),
            Self::NotChecked => "not-checked",
            Self::DoesNotApply => "does-not-apply",
            Self::NoShop => "no-shop",
        }
    }

    /// The verdict, where the check was made.
    pub const fn verdict(self) -> Option<Verdict> {
        match self {
            Self::Made(verdict) => Some(verdict),
            _ => None,
        }
    }
}

impl Serialize for Outcome {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.text())
    }
}

/// What a check counts for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Weight {
    /// It stamps; not checked it is doubtful.
    Must,
    /// It stamps where it was made; not checked it is listed only.
    May,
    /// Shown, never stamped.
    Advice,
    /// It judges the part as it came: it says what must be done with it and never stamps what cures it.
    Found,
}

impl Weight {
    /// Whether a check of this weight does anything to the stamp once it was made.
    pub const fn stamps(self) -> bool {
        matches!(self, Self::Must | Self::May)
    }
}

/// A check that an operation declares. The ids that it declares stand in every answer, whatever was typed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct CheckRule {
    /// Its id in the card.
    pub id: &'static str,
    /// What it counts for.
    pub weight: Weight,
    /// The keys that open it, nested ones with dots: named where it was not checked.
    pub needs: &'static [&'static str],
}

impl CheckRule {
    /// A check that stamps, and that is doubtful where it was not made.
    pub const fn must(id: &'static str, needs: &'static [&'static str]) -> Self {
        Self { id, weight: Weight::Must, needs }
    }

    /// A check that stamps where it was made.
    pub const fn may(id: &'static str, needs: &'static [&'static str]) -> Self {
        Self { id, weight: Weight::May, needs }
    }

    /// A check of the part as it came: it stamps nothing of the operation that cures it.
    pub const fn found(id: &'static str, needs: &'static [&'static str]) -> Self {
        Self { id, weight: Weight::Found, needs }
    }

    /// A check that is shown and never stamps.
    pub const fn advice(id: &'static str, needs: &'static [&'static str]) -> Self {
        Self { id, weight: Weight::Advice, needs }
    }
}

/// One check, with all that a reader needs to argue with it, generic over its words: an operation gives the ids of its card's
/// texts, the plan puts the texts in their place.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Check<W = Words> {
    /// Its id in the card.
    #[serde(rename = "check")]
    pub id: &'static str,
    /// The key of the value that is judged, where it has a name.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub about: Option<&'static str>,
    /// What became of it: proven, doubtful, fails, not-checked, does-not-apply or no-shop.
    #[schemars(with = "String")]
    pub state: Outcome,
    /// What it counts for.
    pub weight: Weight,
    /// What it asks; of one that was not made its name.
    pub asks: W,
    /// What it is called under a stamp.
    #[serde(skip)]
    pub called: W,
    /// Its figures, where it has any.
    #[serde(flatten)]
    pub judged: Option<Judged>,
    /// The keys that would let it be made, where it was not.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub missing: Vec<&'static str>,
    /// Whether it rests on a figure that was remembered and not read.
    pub from_memory: bool,
    /// What would mend it; in words only where it was made and is not proven.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub remedy: Option<W>,
    /// What would mend it, each with the figure that it gives; texts of the card under `remedies`.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    #[schemars(with = "Vec<W>")]
    pub remedies: Vec<Remedy<W>>,
    /// The line to mend.
    #[serde(rename = "line", serialize_with = "line", skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Option<u32>")]
    pub place: Option<Place>,
    /// The value of the log that it is about, where by what was left metal still stands that was to go.
    #[serde(skip)]
    pub unfinished: Option<&'static str>,
    /// Whether every set-up of its operation stands on it, and not one alone: of a log of which nobody knows what a lost line told.
    #[serde(skip)]
    pub of_every_set_up: bool,
    /// Whether the set-ups behind its own stand on it too: of a reading of the log that they go on from.
    #[serde(skip)]
    pub of_those_behind: bool,
    /// Words and figures for the blanks of what it asks and of its remedy.
    #[serde(skip)]
    pub facts: Facts,
    /// What the figure and the limit of the worst end were worked from, where it has figures.
    #[serde(skip)]
    pub worked_from: Option<[Node; 2]>,
    /// Figures that were judged under the same id and lie further inside: a window has two ends.
    #[serde(skip)]
    pub other_ends: Vec<(Judged, [Node; 2])>,
}

#[allow(clippy::ref_option)] // As the serialiser asks it.
fn line<S: Serializer>(place: &Option<Place>, serializer: S) -> Result<S::Ok, S::Error> {
    place.map(|place| place.line).serialize(serializer)
}

impl<W> Check<W> {
    /// The verdict, where it was made.
    pub fn verdict(&self) -> Option<Verdict> {
        self.state.verdict()
    }

    /// Whether it was made and is proven.
    pub fn is_proven(&self) -> bool {
        self.state == Outcome::Made(Verdict::Proven)
    }

    /// What it does to the stamp; none where it does nothing.
    pub fn stamps(&self) -> Option<Verdict> {
        match (self.weight, self.state) {
            (weight, _) if !weight.stamps() => None,
            (_, Outcome::Made(verdict)) => Some(verdict),
            (Weight::Must, Outcome::NotChecked) => Some(Verdict::Doubtful),
            _ => None,
        }
    }

    /// The same check in other words. One that was not made has its name and no remedy, one that is proven no remedy.
    ///
    /// # Errors
    /// Where a text has no other words.
    pub(crate) fn try_map_words<S: Speak<W>>(&self, speaker: &S) -> Result<Check<S::Said>, S::Slip> {
        let made = self.verdict().is_some();
        let open = made && !self.is_proven();
        let facts = if made { self.all_facts() } else { Facts::new() };
        let remedy = self.remedy.as_ref().filter(|_| open);
        let remedies = self.remedies.iter().filter(|_| open);
        let asks = speaker.say(if made { Section::Asks } else { Section::Unmade }, &self.asks, &facts)?;
        let called = speaker.say(Section::Called, &self.called, &[])?;
        let remedy = remedy.map(|words| speaker.say(Section::Remedy, words, &facts)).transpose()?;
        let remedies = remedies.map(|remedy| remedy.try_map_words(speaker)).collect::<Result<_, _>>()?;
        Ok(Check { remedy, remedies, ..self.called(asks, called) })
    }

    /// The same as far as a list tells of it: what it is called and how it came out.
    pub(crate) fn try_map_called<S: Speak<W>>(&self, speaker: &S) -> Result<Check<S::Said>, S::Slip>
    where
        S::Said: Default,
    {
        Ok(self.called(S::Said::default(), speaker.say(Section::Called, &self.called, &[])?))
    }

    /// The same with other words for what it asks and what it is called, and without remedies.
    fn called<V>(&self, asks: V, called: V) -> Check<V> {
        Check {
            id: self.id,
            about: self.about,
            state: self.state,
            weight: self.weight,
            asks,
            called,
            judged: self.judged,
            missing: self.missing.clone(),
            from_memory: self.from_memory,
            remedy: None,
            remedies: Vec::new(),
            place: self.place,
            unfinished: self.unfinished,
            of_every_set_up: self.of_every_set_up,
            of_those_behind: self.of_those_behind,
            facts: Facts::new(),
            worked_from: self.worked_from.clone(),
            other_ends: self.other_ends.clone(),
        }
    }

    /// The facts with those of its figures.
    fn all_facts(&self) -> Facts {
        let mut facts = self.facts.clone();
        if let Some(judged) = &self.judged {
            facts.push(("got", Fact::figure(judged.got, judged.unit)));
            facts.push(("limit", Fact::figure(judged.limit, judged.unit).rounded(judged.keep.rounds())));
            // The worst-case margin; a check that fails at its middle is told by how much it fails at its worst.
            facts.push(("margin", Fact::apart(judged.margin.abs(), judged.unit)));
        }
        facts
    }
}

impl Check {
    /// Judges at the worst end (ISO 14253-1): the end of the bands, then the doubt of figure and limit together. Proven when
    /// that holds, doubtful when the middle does; of what was read at several places each must hold. `guard` is the factor on the standard uncertainty; 2 keeps the doubts
    /// (k = 2) as they are.
    pub fn judge<Q: Quantity>(id: &'static str, got: &Worked<Q>, keep: Keep, limit: &Worked<Q>, guard: f64) -> Self {
        Self::judge_two(id, (got, limit), keep, (got, limit), guard)
    }

    /// Judges where two limits are named: the worst end against the first, the middle against the second. Each side says what
    /// is judged against what.
    pub(crate) fn judge_two<Q: Quantity>(
        id: &'static str,
        (worst, proven_to): (&Worked<Q>, &Worked<Q>),
        keep: Keep,
        (middle, doubtful_to): (&Worked<Q>, &Worked<Q>),
        guard: f64,
    ) -> Self {
        let shares = worst.shares().iter().copied();
        let both: Vec<_> = shares.chain(proven_to.shares().iter().map(|s| (s.0, -s.1))).collect();
        let doubt = root_sum_square(&both) * guard / 2.0;
        let (at_worst_end, limit) = (worst.band_end(keep.bad()), proven_to.band_end(keep.bad_limit()));
        let margin = settled(keep.inside(at_worst_end, limit) - doubt, limit);
        let holds = keep.inside(middle.as_there(keep.bad()), doubtful_to.as_there(keep.bad_limit()));
        let holds = settled(holds, doubtful_to.number()) >= 0.0;
        let verdict = match holds {
            _ if margin >= 0.0 => Verdict::Proven,
            true => Verdict::Doubtful,
            false => Verdict::Fails,
        };
        let judged =
            Judged { got: worst.number(), at_worst_end, doubt, limit: proven_to.number(), keep, margin, unit: Q::UNIT };
        let from_memory = [worst, proven_to, middle, doubtful_to].iter().any(|figure| figure.from_memory());
        let worked_from = Some([worst.node().clone(), proven_to.node().clone()]);
        Self { judged: Some(judged), from_memory, worked_from, ..Self::of_kind(id, verdict) }
    }

    /// A check that is a matter of kind, not of a figure.
    pub(crate) fn of_kind(id: &'static str, verdict: Verdict) -> Self {
        Self::in_state(id, Outcome::Made(verdict))
    }

    /// A check in a state, without figures.
    pub(crate) fn in_state(id: &'static str, state: Outcome) -> Self {
        Self {
            id,
            about: None,
            state,
            weight: Weight::Must,
            asks: Words::of(id),
            called: Words::of(id),
            judged: None,
            missing: Vec::new(),
            from_memory: false,
            remedy: Some(Words::of(id)),
            remedies: Vec::new(),
            place: None,
            unfinished: None,
            of_every_set_up: false,
            of_those_behind: false,
            facts: Facts::new(),
            worked_from: None,
            other_ends: Vec::new(),
        }
    }

    /// The same check of what was left, about a value of the log: where the reading itself is beyond its limit, metal still stands
    /// that was to go. What is only within its doubt of the limit is not cut again for that, but measured again.
    pub(crate) fn unfinished(self, key: &'static str) -> Self {
        let beyond = self.judged.as_ref().is_some_and(|judged| judged.inside(judged.got, judged.limit) < 0.0);
        Self { unfinished: beyond.then_some(key), ..self }
    }

    /// The same check of what was left: where metal still stands or the figure cannot be, no finer gauge mends it.
    pub(crate) fn past_finer_reading(self) -> Self {
        let is_past = self.unfinished.is_some() || self.verdict() == Some(Verdict::Fails);
        Self { remedy: self.remedy.filter(|_| !is_past), ..self }
    }

    /// How bad what became of it is, beside another of its id: what had to be made and was not is worse than what was made and is proven.
    pub(crate) fn rank(&self) -> u8 {
        match (self.state, self.weight) {
            (Outcome::Made(Verdict::Fails), _) => 4,
            (Outcome::Made(Verdict::Doubtful), _) => 3,
            (Outcome::NotChecked, Weight::Must) => 2,
            (Outcome::Made(Verdict::Proven), _) => 1,
            _ => 0,
        }
    }

    /// The same check beside another of its id that is no worse: the figures of that one are judged as well.
    pub(crate) fn beside(&mut self, other: Self) {
        let own = other.judged.zip(other.worked_from).filter(|_| other.state.verdict().is_some());
        let more = own.into_iter().chain(other.other_ends);
        // What was judged twice is one thing.
        let all: Vec<_> = more.filter(|one| self.judged != Some(one.0)).collect();
        self.other_ends.extend(all);
    }

    /// The same check, about the value of a key.
    pub fn about(self, key: &'static str) -> Self {
        Self { about: Some(key), ..self }
    }

    /// The same check, pointing at the line to mend.
    pub fn at(self, place: Place) -> Self {
        Self { place: Some(place), ..self }
    }

    /// The same check with a word or figure for the card's blanks.
    pub fn with(mut self, name: &'static str, fact: impl Into<Fact>) -> Self {
        self.facts.push((name, fact.into()));
        self
    }

    /// The same check, on which every set-up of its operation stands.
    pub(crate) fn of_every_set_up(self) -> Self {
        Self { of_every_set_up: true, ..self }
    }

    /// Adds a remedy with the figure that it gives.
    pub fn remedy(&mut self, remedy: impl Into<Remedy>) -> &mut Self {
        let remedy = remedy.into();
        if !self.remedies.contains(&remedy) {
            self.remedies.push(remedy);
        }
        self
    }

    /// The same check, not better than `floor`: what rests on a doubtful figure is doubtful.
    pub(crate) fn not_better_than(self, floor: Verdict) -> Self {
        self.changed(|verdict| verdict.max(floor))
    }

    /// The same check, not worse than `ceiling`.
    pub(crate) fn not_worse_than(self, ceiling: Verdict) -> Self {
        self.changed(|verdict| verdict.min(ceiling))
    }

    /// The same check, failing only where the reading itself lies further beyond its limit than this, however sure it is: what lies less
    /// far out is only doubtful.
    pub(crate) fn fails_beyond(self, far: f64) -> Self {
        let judged = self.judged.as_ref();
        let is_beyond = judged.is_some_and(|judged| judged.inside(judged.got, judged.limit) + far < 0.0);
        if is_beyond { self } else { self.not_worse_than(Verdict::Doubtful) }
    }

    /// The same check with this verdict in the place of the judged one.
    pub(crate) fn judged_as(self, verdict: Verdict) -> Self {
        self.changed(|_| verdict)
    }

    /// The same check, counting for so much whatever was declared.
    pub(crate) fn weighing(self, weight: Weight) -> Self {
        Self { weight, ..self }
    }

    fn changed(self, change: impl Fn(Verdict) -> Verdict) -> Self {
        let state = match self.state {
            Outcome::Made(verdict) => Outcome::Made(change(verdict)),
            other => other,
        };
        Self { state, ..self }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::proof::Cause;
    use crate::quantity::Mm;

    fn of(number: f64) -> Worked<Mm> {
        Worked::assumed(Mm::new(number), "a test")
    }

    fn judged(got: &Worked<Mm>, keep: Keep, limit: &Worked<Mm>) -> (Option<Verdict>, f64) {
        let check = Check::judge("a-test", got, keep, limit, 2.0);
        (check.verdict(), check.judged.map_or(f64::NAN, |judged| judged.margin))
    }

    #[test]
    fn a_band_decides_before_the_doubt_does() {
        let banded = of(3.125).with_band(2.34, 3.91);
        assert_eq!(judged(&banded, Keep::AtMost, &of(3.2)).0, Some(Verdict::Doubtful));
        assert_eq!(judged(&banded, Keep::AtLeast, &of(2.34)), (Some(Verdict::Proven), 0.0));
        let read = banded.with_doubt(Cause::Named("gauge"), 0.01);
        assert_eq!(judged(&read, Keep::AtLeast, &of(2.34)).0, Some(Verdict::Doubtful));
        assert_eq!(judged(&of(1.0), Keep::AtMost, &of(2.0).with_band(0.9, 3.0)).0, Some(Verdict::Doubtful));
        assert_eq!(judged(&of(2.1), Keep::AtMost, &of(2.0)).0, Some(Verdict::Fails));
    }

    #[test]
    fn two_limits_are_held_by_two_ends() {
        let read = of(1.0).with_doubt(Cause::Named("gauge"), 0.2);
        let check = |first: f64, second: f64| {
            Check::judge_two("a-test", (&read, &of(first)), Keep::AtLeast, (&read, &of(second)), 2.0).verdict()
        };
        assert_eq!(check(0.8, 0.5), Some(Verdict::Proven));
        assert_eq!(check(0.9, 0.5), Some(Verdict::Doubtful));
        assert_eq!(check(1.2, 1.1), Some(Verdict::Fails));
    }

    #[test]
    fn a_must_that_was_not_made_is_doubtful_and_a_may_is_only_listed() {
        let open = |weight| Check::in_state("a-test", Outcome::NotChecked).weighing(weight).stamps();
        assert_eq!(open(Weight::Must), Some(Verdict::Doubtful));
        assert_eq!(open(Weight::May), None);
        assert_eq!(Check::of_kind("a-test", Verdict::Fails).weighing(Weight::Advice).stamps(), None);
        assert_eq!(Check::in_state("a-test", Outcome::NoShop).stamps(), None);
    }
}
