//! What an operation says back.

use super::answer_json::{by_key, said};
use super::name::{LinkOf, ReadElsewhere};
use super::{Bench, Closes, Name, PartSize, Picture, Proving, SetUp, Value};
use crate::proof::{Check, CheckRule, Fact, Facts, Keep, Outcome, Refusal, Verdict, Words, Worked};
use crate::quantity::{Decimals, Quantity};
use crate::shop::Take;
use schemars::JsonSchema;
use serde::{Serialize, Serializer};
use std::collections::BTreeMap;

/// A word chosen: a tool, a reamer, a length.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Choice<W = Words> {
    /// What was chosen (`drill`, `insert_length`, `machine` …).
    #[serde(skip)]
    pub name: &'static str,
    /// The choice: a name of the shop or of the card, or a figure.
    pub chosen: W,
    /// The reason, from the card.
    pub why: W,
    /// What would be taken now, where the log says that something else was fitted.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub instead: Option<W>,
}

/// One of several that were worked: an answer of its own.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Alternative<W = Words> {
    /// Its name (`1.5D`, a reamer).
    pub name: W,
    /// Its values and checks.
    #[serde(flatten, serialize_with = "compared")]
    #[schemars(with = "Compared<'static, String>")]
    pub answer: Answer<W>,
    /// Whether it was chosen.
    pub chosen: bool,
    /// Why not, from the card.
    pub why_not: Option<W>,
}

/// What an operation says back, generic over its words: the operation gives the ids of its card's texts with the facts for
/// their blanks, the plan puts the texts in their place, and every output is made from that. An alternative is an answer too:
/// its failing checks stay its own unless it is chosen.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Answer<W = Words> {
    /// Values by name.
    #[serde(serialize_with = "by_key")]
    #[schemars(with = "BTreeMap<String, Value>")]
    pub values: Vec<Value>,
    /// Words chosen by name.
    #[serde(serialize_with = "by_name")]
    #[schemars(with = "BTreeMap<String, Choice<W>>")]
    pub choices: Vec<Choice<W>>,
    /// What else was worked, in the order worked.
    pub alternatives: Vec<Alternative<W>>,
    /// Every check that the operation declares, made or not; those of other operations (order) behind them.
    pub checks: Vec<Check<W>>,
    /// Set-ups in working order.
    pub set_ups: Vec<SetUp<W>>,
    /// What was assumed.
    pub assumed: Vec<W>,
    /// Cautions of the whole operation.
    pub cautions: Vec<W>,
    /// What the shop lacks: a line each on the missing list.
    pub missing: Vec<W>,
    /// The card's id of each of these.
    #[serde(skip)]
    pub lacks: Vec<&'static str>,
    /// What of the drawer would do the work of a tool that lacks, with the card's id of the line that is missing no more then.
    #[serde(skip)]
    pub serves: Vec<(&'static str, W)>,
    /// What it takes from the drawers for good.
    #[serde(skip)]
    pub takes: Vec<Take>,
    /// Whether it says that where it works there is no hole yet.
    #[serde(skip)]
    pub(crate) no_hole: bool,
    /// Whether it says that what it cuts stands in the path of no float.
    #[serde(skip)]
    pub(crate) out_of_float: bool,
    /// What the face that it cuts closes, where its own keys say so.
    #[serde(skip)]
    pub(crate) closes: Option<Closes>,
    /// Sizes that it reads of other parts.
    #[serde(skip)]
    pub(crate) elsewhere: Vec<ReadElsewhere>,
    /// What could not be worked out, or null.
    #[serde(serialize_with = "said")]
    #[schemars(with = "Option<String>")]
    pub refused: Option<Refusal>,
    /// What it shows beside its sketches.
    #[serde(skip)]
    pub picture: Option<Picture<W>>,
    /// Of what fails the readings that would put it right.
    #[serde(skip)]
    pub proving: Vec<Proving>,
    /// Words and figures for every blank of the card.
    #[serde(skip)]
    pub facts: Facts,
    /// What the operation declares.
    #[serde(skip)]
    pub(super) declared: &'static [CheckRule],
}

/// What the JSON tells of an alternative beside its name and why it was not chosen.
#[derive(Serialize, JsonSchema)]
struct Compared<'a, W> {
    verdict: Verdict,
    #[serde(serialize_with = "by_key")]
    #[schemars(with = "BTreeMap<String, Value>")]
    values: &'a [Value],
    checks: &'a [Check<W>],
    /// What could not be worked out, or null.
    #[serde(serialize_with = "said")]
    #[schemars(with = "Option<String>")]
    refused: &'a Option<Refusal>,
}

fn compared<W: Serialize, S: Serializer>(answer: &Answer<W>, serializer: S) -> Result<S::Ok, S::Error> {
    let Answer { values, checks, refused, .. } = answer;
    Compared { verdict: answer.verdict(), values, checks, refused }.serialize(serializer)
}

fn by_name<W: Serialize, S: Serializer>(choices: &[Choice<W>], serializer: S) -> Result<S::Ok, S::Error> {
    let sorted: BTreeMap<&str, &Choice<W>> = choices.iter().map(|choice| (choice.name, choice)).collect();
    sorted.serialize(serializer)
}

impl<W> Answer<W> {
    /// Finds the limits of its hold points and lets go of what its figures were worked from: it can be printed, and no more be
    /// shaken. Most of what an answer takes in memory is that.
    pub(crate) fn settle(&mut self) {
        let steps = self.set_ups.iter_mut().flat_map(|set_up| &mut set_up.steps);
        steps.filter_map(|step| step.hold_point.as_mut()).for_each(|hold| hold.limits.settle());
        self.proving.iter_mut().for_each(|reading| reading.limits.settle());
        self.values.iter_mut().for_each(|value| value.node.let_go());
        self.checks.iter_mut().for_each(|check| {
            check.worked_from = None;
            check.other_ends = Vec::new();
        });
        self.alternatives.iter_mut().for_each(|other| other.answer.settle());
    }

    /// The value on record under a key.
    pub fn value(&self, key: &str) -> Option<&Value> {
        self.values.iter().find(|value| value.key == key)
    }

    /// The check that says that by a value of the log metal still stands that was to go.
    pub fn unfinished(&self, key: &str) -> Option<&Check<W>> {
        self.checks.iter().find(|check| check.unfinished == Some(key))
    }

    /// Whether by the log any metal still stands that was to go.
    pub fn is_unfinished(&self) -> bool {
        self.checks.iter().any(|check| check.unfinished.is_some())
    }

    /// The worst of what stamps; what is refused fails.
    pub fn verdict(&self) -> Verdict {
        self.worst(|_| true)
    }

    /// The worst of what stamps but for one check; what is refused fails.
    pub(crate) fn verdict_without(&self, id: &str) -> Verdict {
        self.worst(|check| check.id != id)
    }

    /// The set-up that owns a check, by its place in the list.
    pub fn owner_of(&self, check: &str) -> Option<usize> {
        self.set_ups.iter().position(|set_up| set_up.checks.contains(&check))
    }

    /// Whether a set-up stands on a check: it owns it, or all of them do, or those behind its owner do.
    pub fn is_of_set_up(&self, check: &Check<W>, at: usize) -> bool {
        let owner = self.owner_of(check.id).unwrap_or(0);
        check.of_every_set_up || owner == at || (check.of_those_behind && owner < at)
    }

    /// The verdict of one set-up: the worst of the checks that it owns, what nobody owns with those of the first; where anything of the
    /// operation fails, or is refused, no set-up of it may be done.
    pub fn verdict_of_set_up(&self, at: usize) -> Verdict {
        let is_own = |check: &Check<W>| self.is_of_set_up(check, at);
        if self.verdict() == Verdict::Fails { Verdict::Fails } else { self.worst(is_own) }
    }

    fn worst(&self, counts: impl Fn(&Check<W>) -> bool) -> Verdict {
        let worst = self.checks.iter().filter(|check| counts(check)).filter_map(Check::stamps).max();
        if self.refused.is_some() { Verdict::Fails } else { worst.unwrap_or(Verdict::Proven) }
    }
}

impl Answer {
    /// An empty answer of an operation that declares these checks.
    pub(super) fn declaring(declared: &'static [CheckRule]) -> Self {
        Self { declared, ..Self::default() }
    }

    /// Puts a value on record.
    pub fn record<Q: Quantity>(&mut self, name: &Name<Q>, planned: Worked<Q>) -> Worked<Q> {
        self.values.retain(|value| value.key != name.key);
        if self.values.is_empty() {
            self.values.reserve(OFTEN);
        }
        self.values.push(Value::of(name, &planned));
        planned
    }

    /// Notes a size that it reads of another part.
    pub(crate) fn read_elsewhere(&mut self, what: &str, size: Option<PartSize>, value: Value) {
        self.elsewhere.push(ReadElsewhere { what: what.to_owned(), size, value, link: None, is_of_another: false });
    }

    /// Notes a link of a gap, of whatever part.
    pub(crate) fn read_link(&mut self, what: &str, value: Value, link: Option<LinkOf>) {
        self.elsewhere.push(ReadElsewhere { what: what.to_owned(), size: None, value, link, is_of_another: false });
    }

    /// Takes a default: the only way to do so. `id` is the text of the card under `assumed`, its blank `{value}` the figure.
    pub fn assume<Q: Quantity>(&mut self, id: &'static str, default: Worked<Q>) -> Worked<Q> {
        self.assume_words(Words::of(id).with("value", Fact::figure(default.number(), Q::UNIT).to(Decimals::AsTyped)));
        default
    }

    /// The same of how far two figures are apart: of temperatures that has no other zero.
    pub fn assume_apart<Q: Quantity>(&mut self, id: &'static str, default: Worked<Q>) -> Worked<Q> {
        let apart = Fact::apart(default.number(), Q::UNIT).to(Decimals::AsTyped);
        self.assume_words(Words::of(id).with("value", apart));
        default
    }

    /// Lists an assumption that is no figure.
    pub fn assume_words(&mut self, assumed: Words) {
        if !self.assumed.contains(&assumed) {
            self.assumed.push(assumed);
        }
    }

    /// Judges a figure against a limit and lists the check.
    pub fn judge<Q: Quantity>(
        &mut self,
        bench: &Bench,
        id: &'static str,
        got: &Worked<Q>,
        keep: Keep,
        limit: &Worked<Q>,
    ) -> &mut Check {
        self.check(Check::judge(id, got, keep, limit, bench.guard()))
    }

    /// Lists a check. It weighs what the operation declares; of one id the worse stays (of two alike the one with the smaller
    /// margin), but for those of order, which each bind two operations of their own.
    pub fn check(&mut self, check: Check) -> &mut Check {
        let rule = self.declared.iter().chain(&COMMON_CHECKS).find(|rule| rule.id == check.id);
        let weight = rule.map_or(check.weight, |rule| rule.weight);
        let check = check.weighing(weight);
        let nearer = |old: &Check| match (&old.judged, &check.judged) {
            (Some(old), Some(new)) => old.unit == new.unit && new.margin < old.margin,
            _ => false,
        };
        let worse = |old: &Check| match old.rank().cmp(&check.rank()) {
            std::cmp::Ordering::Equal => !nearer(old),
            order => order.is_gt(),
        };
        let several = check.id == ORDER.id && check.verdict().is_some();
        let same = |old: &Check| old.id == check.id && !(several && old.verdict().is_some());
        let known = self.checks.iter().position(same);
        let at = match known.and_then(|at| Some((at, self.checks.get_mut(at)?))) {
            Some((at, old)) if worse(old) => {
                old.beside(check);
                at
            }
            Some((at, old)) => {
                let better = std::mem::replace(old, check);
                old.beside(better);
                at
            }
            None => {
                // Most answers have as many, and a check is large: room for them is taken once.
                if self.checks.is_empty() {
                    self.checks.reserve(OFTEN);
                }
                self.checks.push(check);
                self.checks.len() - 1
            }
        };
        // The check at this place was found or put there in the lines above.
        #[allow(clippy::indexing_slicing)]
        &mut self.checks[at]
    }

    /// Says of checks that their question was not opened.
    pub fn does_not_apply(&mut self, ids: &[&'static str]) {
        ids.iter().for_each(|id| {
            self.check(Check::in_state(id, Outcome::DoesNotApply));
        });
    }

    /// Says of checks that they ask what the shop owns, and that there is no shop.
    pub(crate) fn no_shop(&mut self, ids: &[&'static str]) {
        ids.iter().for_each(|id| {
            self.check(Check::in_state(id, Outcome::NoShop));
        });
    }

    /// Says of checks that their question is open and that these keys are missing.
    pub fn not_checked(&mut self, ids: &[&'static str], missing: &[&'static str]) {
        ids.iter().for_each(|id| {
            let check = Check { missing: missing.to_vec(), ..Check::in_state(id, Outcome::NotChecked) };
            self.check(check);
        });
    }

    /// Puts a check that nobody said a word of on the list: not checked, with the keys that would open it. After this every
    /// declared id stands in the answer.
    pub(super) fn complete(&mut self) {
        let silent = |rules: &[CheckRule], all: &[Check]| -> Vec<CheckRule> {
            rules.iter().filter(|rule| !all.iter().any(|check| check.id == rule.id)).copied().collect()
        };
        // What could not be worked out is not opened by a key: the keys may all have been typed.
        let refused = self.refused.is_some();
        for rule in silent(self.declared, &self.checks) {
            self.not_checked(&[rule.id], if refused { &[] } else { rule.needs });
        }
        for rule in silent(&COMMON_CHECKS, &self.checks) {
            self.does_not_apply(&[rule.id]);
        }
        let order = |check: &Check| {
            let at = self.declared.iter().chain(&COMMON_CHECKS).position(|rule| rule.id == check.id);
            at.unwrap_or(usize::MAX)
        };
        self.checks.sort_by_cached_key(order);
        self.shrink();
    }

    /// Gives back the room that the lists grew beyond what they hold: an answer waits for all others of its job.
    fn shrink(&mut self) {
        self.values.shrink_to_fit();
        self.choices.shrink_to_fit();
        self.alternatives.shrink_to_fit();
        self.checks.shrink_to_fit();
        self.set_ups.shrink_to_fit();
        self.facts.shrink_to_fit();
    }

    /// Records a choice of words.
    pub fn choose(&mut self, name: &'static str, chosen: impl Into<Fact>, why: Words) {
        self.choices.push(Choice { name, chosen: chosen.into().into(), why, instead: None });
    }

    /// Says of a choice that another thing was fitted: what was chosen is only what would be taken now.
    pub(crate) fn fitted(&mut self, name: &'static str, fitted: impl Into<Fact>, why: Words) {
        let instead = self.choices.iter().find(|choice| choice.name == name).map(|choice| choice.chosen.clone());
        self.choices.retain(|choice| choice.name != name);
        self.choices.push(Choice { name, chosen: fitted.into().into(), why, instead });
    }

    /// Gives a word or figure to every blank of the card.
    pub fn fact(&mut self, name: &'static str, fact: impl Into<Fact>) {
        self.facts.retain(|other| other.0 != name);
        self.facts.push((name, fact.into()));
    }

    /// Adds a caution once.
    pub fn caution(&mut self, id: &'static str) {
        if !self.cautions.iter().any(|known| known.id == id) {
            self.cautions.push(Words::of(id));
        }
    }

    /// Works one alternative, on a bench without the log; what cannot be worked out is out, and the others go on.
    pub fn alternative(
        &mut self,
        bench: &Bench,
        name: impl Into<Fact>,
        work: impl FnOnce(&Bench, &mut Self) -> Result<(), Refusal>,
    ) {
        let mut row = Self::declaring(self.declared);
        row.refused = work(&bench.choosing(), &mut row).err();
        row.shrink();
        self.alternatives.push(Alternative { name: name.into().into(), answer: row, chosen: false, why_not: None });
    }

    /// Chooses an alternative: its values, checks, assumptions and facts become the answer's; all alternatives stay to be shown.
    pub(crate) fn choose_alternative(&mut self, chosen: usize) {
        let Some(alternative) = self.alternatives.get_mut(chosen) else { return };
        alternative.chosen = true;
        alternative.why_not = None;
        let taken = alternative.answer.clone();
        self.values.retain(|value| !taken.values.iter().any(|other| other.key == value.key));
        self.values.extend(taken.values);
        self.choices.extend(taken.choices);
        taken.checks.into_iter().for_each(|check| {
            self.check(check);
        });
        self.set_ups.extend(taken.set_ups);
        taken.assumed.into_iter().for_each(|words| self.assume_words(words));
        taken.cautions.iter().for_each(|words| self.caution(words.id));
        self.missing.extend(taken.missing);
        taken.facts.into_iter().for_each(|(name, fact)| self.fact(name, fact));
        self.refused = taken.refused;
    }
}

/// The doubt of a reading is so large that it says little.
pub(crate) const DOUBT_PLAUSIBLE: CheckRule = CheckRule::may("doubt-plausible", &[]);

/// As many checks and values an answer often has.
const OFTEN: usize = 24;

/// An operation stands in the file before one that must come first.
const ORDER: CheckRule = CheckRule::may("order-of-operations", &[]);

/// Checks of every operation; each is opened by what was typed and does not apply else.
pub const COMMON_CHECKS: [CheckRule; 5] = [
    DOUBT_PLAUSIBLE,
    CheckRule::may("hardness-plausible", &["part.hardness"]),
    CheckRule::may("case-plausible", &["part.case-depth"]),
    CheckRule::may("alloy-named", &["material"]),
    ORDER,
];
