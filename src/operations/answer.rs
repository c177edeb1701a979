//! What an operation says back.

use super::{Bench, Name, SetUp, Value};
use crate::job::Reading;
use crate::proof::{At, Cause, Fact, Facts, Finding, Keep, Origin, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Mm, Quantity};
use crate::shop::Gauge;

/// A word chosen: a tool, a reamer, a length.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// What was chosen (`drill`, `insert_length`, `machine` …).
    pub name: &'static str,
    /// The choice.
    pub chosen: String,
    /// The reason, from the card.
    pub why: Words,
}

/// One of several that were worked: an answer of its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// Its name (`1.5D`, a reamer).
    pub name: String,
    /// Its values and findings.
    pub answer: Answer,
    /// Whether it was taken.
    pub taken: bool,
    /// Why not, from the card.
    pub why_not: Option<Words>,
}

/// What an operation says back. A candidate is an answer too: its failing checks stay its own unless it is taken.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answer {
    /// Values by name.
    pub values: Vec<Value>,
    /// Words chosen.
    pub choices: Vec<Choice>,
    /// What else was worked.
    pub candidates: Vec<Candidate>,
    /// Checks judged.
    pub findings: Vec<Finding>,
    /// Set-ups in working order.
    pub set_ups: Vec<SetUp>,
    /// What was assumed.
    pub assumed: Vec<Words>,
    /// Cautions of the whole operation.
    pub cautions: Vec<&'static str>,
    /// What the shop lacks: a line each on the missing list.
    pub missing: Vec<Words>,
    /// Words and figures for every blank of the card.
    pub facts: Facts,
    /// What could not be worked out.
    pub refused: Option<Refusal>,
}

impl Answer {
    /// Puts a value on record. If the log holds the size as it was left, that size is what the rest is worked with.
    pub fn settle<Q: Quantity>(&mut self, bench: &Bench, name: &Name<Q>, planned: Worked<Q>) -> Worked<Q> {
        let settled = match bench.as_left(name.key) {
            Some(left) => {
                Worked::exact(Q::new(left.number), Origin::AsLeft).with_doubt(Cause::Named(name.key), left.plus_minus)
            }
            None => planned,
        };
        self.values.retain(|value| value.key != name.key);
        self.values.push(Value::of(name, &settled));
        settled
    }

    /// Takes a default: the only way to do so. `id` is the text of the card under `assumed`, its blank `{value}` the figure.
    pub fn assume<Q: Quantity>(&mut self, id: &'static str, default: Worked<Q>) -> Worked<Q> {
        self.note(Words::of(id).with("value", Fact::figure(default.number(), Q::UNIT).to(Decimals::AsTyped)));
        default
    }

    /// Lists an assumption that is no figure.
    pub fn note(&mut self, assumed: Words) {
        if !self.assumed.contains(&assumed) {
            self.assumed.push(assumed);
        }
    }

    /// A typed quantity, or its default, assumed.
    pub fn typed_or<Q: Quantity>(
        &mut self,
        typed: Option<&At<Q>>,
        id: &'static str,
        default: impl FnOnce() -> Worked<Q>,
    ) -> Worked<Q> {
        match typed {
            Some(at) => at.into(),
            None => self.assume(id, default()),
        }
    }

    /// A reading with its doubt: as typed, else of the instrument named, else of the shop's default instrument, else half a
    /// unit of the last digit typed but not less than 0.02 mm. Only 0 itself has no doubt.
    ///
    /// # Errors
    /// [`Refusal::NotHandedOver`] where the size of another operation is asked for and was not worked out.
    pub fn read(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        at: &At<Reading>,
    ) -> Result<Worked<Mm>, Refusal> {
        let (size, with) = match &at.value {
            Reading::Of(address) => return bench.handed(address),
            Reading::Size { size, with } => (size, with),
        };
        let reading = Worked::exact(size.value, Origin::Typed(at.place));
        let doubted = |half: f64| reading.clone().with_doubt(Cause::Reading(at.place), half);
        if size.value.number() == 0.0 {
            return Ok(reading);
        }
        if let Some(typed) = size.plus_minus {
            return Ok(doubted(typed));
        }
        if let Some(instrument) = with.as_ref().and_then(|name| bench.shop?.instrument(name)) {
            return Ok(doubted(instrument.uncertainty.value.number()));
        }
        if let Some(instrument) = bench.shop.and_then(|shop| shop.default_instrument(size.value.number(), gauge)) {
            let half = instrument.uncertainty.value.number();
            self.note(doubt_words("doubt-of-default-instrument", key, half).with("instrument", &instrument.name.value));
            return Ok(doubted(half));
        }
        let half = (size.grain.unwrap_or(0.0) / 2.0).max(LEAST_DOUBT);
        self.note(doubt_words("doubt-of-last-digit", key, half));
        Ok(doubted(half))
    }

    /// A reading that may be left out.
    ///
    /// # Errors
    /// As [`Self::read`].
    pub fn read_if(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        at: Option<&At<Reading>>,
    ) -> Result<Option<Worked<Mm>>, Refusal> {
        at.map(|at| self.read(bench, key, gauge, at)).transpose()
    }

    /// Judges a figure against a limit and lists the finding.
    pub fn check<Q: Quantity>(
        &mut self,
        bench: &Bench,
        check: &'static str,
        got: &Worked<Q>,
        keep: Keep,
        limit: &Worked<Q>,
    ) -> &mut Finding {
        self.find(Finding::judge(check, got, keep, limit, bench.guard()))
    }

    /// Lists a finding.
    pub fn find(&mut self, finding: Finding) -> &mut Finding {
        self.findings.push(finding);
        let last = self.findings.len() - 1;
        // The finding was pushed in the line above.
        #[allow(clippy::indexing_slicing)]
        &mut self.findings[last]
    }

    /// Records a choice of words.
    pub fn choose(&mut self, name: &'static str, chosen: impl Into<String>, why: Words) {
        self.choices.push(Choice { name, chosen: chosen.into(), why });
    }

    /// Gives a word or figure to every blank of the card.
    pub fn fact(&mut self, name: &'static str, fact: impl Into<Fact>) {
        self.facts.retain(|other| other.0 != name);
        self.facts.push((name, fact.into()));
    }

    /// Adds a caution once.
    pub fn caution(&mut self, id: &'static str) {
        if !self.cautions.contains(&id) {
            self.cautions.push(id);
        }
    }

    /// Works one candidate; what cannot be worked out is out, and the others go on.
    pub fn candidate(&mut self, name: &str, work: impl FnOnce(&mut Self) -> Result<(), Refusal>) {
        let mut row = Self::default();
        row.refused = work(&mut row).err();
        self.candidates.push(Candidate { name: name.into(), answer: row, taken: false, why_not: None });
    }

    /// Takes a candidate: its values, findings, assumptions and facts become the answer's; all candidates stay to be shown.
    pub fn take(&mut self, chosen: usize) {
        let Some(candidate) = self.candidates.get_mut(chosen) else { return };
        candidate.taken = true;
        candidate.why_not = None;
        let taken = candidate.answer.clone();
        self.values.retain(|value| !taken.values.iter().any(|other| other.key == value.key));
        self.values.extend(taken.values);
        self.choices.extend(taken.choices);
        self.findings.extend(taken.findings);
        self.set_ups.extend(taken.set_ups);
        taken.assumed.into_iter().for_each(|words| self.note(words));
        taken.cautions.into_iter().for_each(|id| self.caution(id));
        self.missing.extend(taken.missing);
        taken.facts.into_iter().for_each(|(name, fact)| self.fact(name, fact));
        self.refused = taken.refused;
    }

    /// The value on record under a key.
    pub fn value(&self, key: &str) -> Option<&Value> {
        self.values.iter().find(|value| value.key == key)
    }

    /// The worst of the findings; what is refused fails.
    pub fn verdict(&self) -> Verdict {
        let worst = self.findings.iter().map(|finding| finding.verdict).max().unwrap_or(Verdict::Proven);
        if self.refused.is_some() { Verdict::Fails } else { worst }
    }

    /// The worst verdict among some of the checks.
    pub fn verdict_of(&self, checks: &[&str]) -> Verdict {
        let asked = self.findings.iter().filter(|finding| checks.contains(&finding.check));
        let worst = asked.map(|finding| finding.verdict).max().unwrap_or(Verdict::Proven);
        if self.refused.is_some() { Verdict::Fails } else { worst }
    }
}

/// The least doubt of a reading without an instrument, mm (our own choice).
const LEAST_DOUBT: f64 = 0.02;

fn doubt_words(id: &'static str, key: &'static str, half: f64) -> Words {
    Words::of(id).with("key", key).with("doubt", Fact::mm(half).to(Decimals::AsTyped).plus_minus())
}
