//! What an operation says back.

use super::{Bench, Name, SetUp, Value};
use crate::handbook::constants::constant;
use crate::job::{Address, Difference, Reading};
use crate::proof::{At, Cause, Check, CheckRule, Fact, Facts, Keep, Origin, Refusal, State, Verdict, Words, Worked};
use crate::quantity::{Decimals, Measured, Mm, Quantity, Ratio};
use crate::shop::{DoubtOf, Gauge, doubt_of_reading};

/// A word chosen: a tool, a reamer, a length.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// What was chosen (`drill`, `insert_length`, `machine` …).
    pub name: &'static str,
    /// The choice: a name of the shop or of the card, or a figure.
    pub chosen: Fact,
    /// The reason, from the card.
    pub why: Words,
}

/// One of several that were worked: an answer of its own.
#[derive(Clone, Debug, PartialEq)]
pub struct Alternative {
    /// Its name (`1.5D`, a reamer).
    pub name: Fact,
    /// Its values and checks.
    pub answer: Answer,
    /// Whether it was chosen.
    pub chosen: bool,
    /// Why not, from the card.
    pub why_not: Option<Words>,
}

/// What an operation says back. An alternative is an answer too: its failing checks stay its own unless it is taken.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Answer {
    /// Values by name.
    pub values: Vec<Value>,
    /// Words chosen.
    pub choices: Vec<Choice>,
    /// What else was worked.
    pub alternatives: Vec<Alternative>,
    /// Every check that the operation declares, made or not; those of other operations (order) behind them.
    pub checks: Vec<Check>,
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
    /// What the operation declares.
    declared: &'static [CheckRule],
}

impl Answer {
    /// An empty answer of an operation that declares these checks.
    pub(super) fn declaring(declared: &'static [CheckRule]) -> Self {
        Self { declared, ..Self::default() }
    }

    /// Puts a value on record.
    pub fn record<Q: Quantity>(&mut self, name: &Name<Q>, planned: Worked<Q>) -> Worked<Q> {
        self.values.retain(|value| value.key != name.key);
        self.values.push(Value::of(name, &planned));
        planned
    }

    /// Takes a default: the only way to do so. `id` is the text of the card under `assumed`, its blank `{value}` the figure.
    pub fn assume<Q: Quantity>(&mut self, id: &'static str, default: Worked<Q>) -> Worked<Q> {
        self.assume_words(Words::of(id).with("value", Fact::figure(default.number(), Q::UNIT).to(Decimals::AsTyped)));
        default
    }

    /// Lists an assumption that is no figure.
    pub fn assume_words(&mut self, assumed: Words) {
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

    /// A size as it was read, with its doubt ([`doubt_of_reading`]). A doubt over a tenth of the size is doubtful.
    ///
    /// # Errors
    /// [`Refusal::NotHandedOver`] where the size of another operation is asked for and was not worked out;
    /// [`Refusal::Unread`] where the doubt is half the size or more.
    pub fn read(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        at: &At<Reading>,
    ) -> Result<Worked<Mm>, Refusal> {
        let read = self.reading(bench, key, gauge, &at.value, at)?;
        let (size, doubt) = (read.number().abs(), read.plus_minus());
        if doubt > 0.0 && doubt >= size * constant::<Ratio>("doubt-share-unread")?.number() {
            return Err(Refusal::Unread { what: key, size, doubt });
        }
        self.plausible(key, size * constant::<Ratio>("doubt-share-plausible")?.number(), doubt, at.place);
        Ok(read)
    }

    /// A difference as it was read (wear, dish, float): a doubt over the figure itself is doubtful.
    ///
    /// # Errors
    /// As [`Self::read`].
    pub fn read_difference(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        at: &At<Difference>,
    ) -> Result<Worked<Mm>, Refusal> {
        let read = self.reading(bench, key, gauge, &at.value, at)?;
        self.plausible(key, read.number().abs(), read.plus_minus(), at.place);
        Ok(read)
    }

    fn plausible(&mut self, key: &'static str, most: f64, doubt: f64, place: crate::proof::Place) {
        // 1e-9: a doubt of just the share is none too many.
        let verdict = if doubt > most * (1.0 + 1e-9) { Verdict::Doubtful } else { Verdict::Proven };
        let check = Check::of_kind(DOUBT_PLAUSIBLE.id, verdict).at(place);
        self.check(check.with("key", key).with("doubt", Fact::mm(doubt)));
    }

    /// A size that another operation leaves. One that is planned without doubt is no surer than a reading without ±; one of an
    /// operation that fails is doubtful: it will not be there.
    fn handed(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        address: &At<Address>,
    ) -> Result<Worked<Mm>, Refusal> {
        let handed = bench.handed::<Mm>(&address.value)?;
        if bench.look_up(&address.value).is_some_and(|entry| entry.fails) {
            let check = Check::of_kind(DOUBT_PLAUSIBLE.id, Verdict::Doubtful).at(address.place);
            let check = self.check(check.with("key", key).with("doubt", Fact::mm(handed.plus_minus())));
            check.remedy(Words::of("handed-by-what-fails").with("address", address.value.to_string()));
        }
        if handed.plus_minus() > 0.0 {
            return Ok(handed);
        }
        let bare = Measured { value: Mm::new(handed.number()), plus_minus: None, grain: None };
        let (half, how) = doubt_of_reading(bench.shop, &bare, None, gauge)?;
        match how {
            DoubtOf::Default(instrument) => self.assume_words(
                doubt_words("doubt-of-default-instrument", key, half).with("instrument", &instrument.name.value),
            ),
            DoubtOf::LastDigit => self.assume_words(doubt_words("doubt-of-what-is-handed", key, half)),
            DoubtOf::Nothing | DoubtOf::Typed | DoubtOf::Named(_) => {}
        }
        Ok(handed.with_doubt(Cause::Reading(address.place), half))
    }

    fn reading<T>(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        reading: &Reading,
        at: &At<T>,
    ) -> Result<Worked<Mm>, Refusal> {
        let (size, with) = match reading {
            Reading::Of(address) => return self.handed(bench, key, gauge, address),
            Reading::Size { size, with } => (size, with.as_ref()),
        };
        let with = with.map(|name| name.value.as_str());
        let (half, how) = doubt_of_reading(bench.shop, size, with, gauge)?;
        match how {
            DoubtOf::Default(instrument) => self.assume_words(
                doubt_words("doubt-of-default-instrument", key, half).with("instrument", &instrument.name.value),
            ),
            DoubtOf::LastDigit => self.assume_words(doubt_words("doubt-of-last-digit", key, half)),
            DoubtOf::Nothing | DoubtOf::Typed | DoubtOf::Named(_) => {}
        }
        Ok(Worked::exact(size.value, Origin::Typed(at.place)).with_doubt(Cause::Reading(at.place), half))
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

    /// A difference that may be left out.
    ///
    /// # Errors
    /// As [`Self::read`].
    pub fn read_difference_if(
        &mut self,
        bench: &Bench,
        key: &'static str,
        gauge: Gauge,
        at: Option<&At<Difference>>,
    ) -> Result<Option<Worked<Mm>>, Refusal> {
        at.map(|at| self.read_difference(bench, key, gauge, at)).transpose()
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
        let worse = |old: &Check| match old.verdict().cmp(&check.verdict()) {
            std::cmp::Ordering::Equal => !nearer(old),
            order => order.is_gt(),
        };
        let several = check.id == ORDER.id && check.verdict().is_some();
        let same = |old: &Check| old.id == check.id && !(several && old.verdict().is_some());
        let at = match self.checks.iter().position(same) {
            Some(at) if self.checks.get(at).is_some_and(worse) => at,
            Some(at) => {
                self.checks.splice(at..=at, [check]);
                at
            }
            None => {
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
            self.check(Check::in_state(id, State::DoesNotApply));
        });
    }

    /// Says of checks that they ask what the shop owns, and that there is no shop.
    pub fn no_shop(&mut self, ids: &[&'static str]) {
        ids.iter().for_each(|id| {
            self.check(Check::in_state(id, State::NoShop));
        });
    }

    /// Says of checks that their question is open and that these keys are missing.
    pub fn not_checked(&mut self, ids: &[&'static str], missing: &[&'static str]) {
        ids.iter().for_each(|id| {
            let check = Check { missing: missing.to_vec(), ..Check::in_state(id, State::NotChecked) };
            self.check(check);
        });
    }

    /// Puts a check that nobody said a word of on the list: not checked, with the keys that would open it. After this every
    /// declared id stands in the answer.
    pub(super) fn complete(&mut self) {
        let silent = |rules: &[CheckRule], all: &[Check]| -> Vec<CheckRule> {
            rules.iter().filter(|rule| !all.iter().any(|check| check.id == rule.id)).copied().collect()
        };
        for rule in silent(self.declared, &self.checks) {
            self.not_checked(&[rule.id], rule.needs);
        }
        for rule in silent(&COMMON_CHECKS, &self.checks) {
            self.does_not_apply(&[rule.id]);
        }
        let order = |check: &Check| {
            let at = self.declared.iter().chain(&COMMON_CHECKS).position(|rule| rule.id == check.id);
            at.unwrap_or(usize::MAX)
        };
        self.checks.sort_by_key(order);
    }

    /// Records a choice of words.
    pub fn choose(&mut self, name: &'static str, chosen: impl Into<Fact>, why: Words) {
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

    /// Works one alternative, on a bench without the log; what cannot be worked out is out, and the others go on.
    pub fn alternative(
        &mut self,
        bench: &Bench,
        name: impl Into<Fact>,
        work: impl FnOnce(&Bench, &mut Self) -> Result<(), Refusal>,
    ) {
        let mut row = Self::declaring(self.declared);
        row.refused = work(&bench.choosing(), &mut row).err();
        self.alternatives.push(Alternative { name: name.into(), answer: row, chosen: false, why_not: None });
    }

    /// Chooses an alternative: its values, checks, assumptions and facts become the answer's; all alternatives stay to be shown.
    pub fn choose_alternative(&mut self, chosen: usize) {
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
        taken.cautions.into_iter().for_each(|id| self.caution(id));
        self.missing.extend(taken.missing);
        taken.facts.into_iter().for_each(|(name, fact)| self.fact(name, fact));
        self.refused = taken.refused;
    }

    /// The value on record under a key.
    pub fn value(&self, key: &str) -> Option<&Value> {
        self.values.iter().find(|value| value.key == key)
    }

    /// The worst of what stamps; what is refused fails.
    pub fn verdict(&self) -> Verdict {
        let worst = self.checks.iter().filter_map(Check::stamps).max().unwrap_or(Verdict::Proven);
        if self.refused.is_some() { Verdict::Fails } else { worst }
    }

    /// The worst of what stamps but for one check; what is refused fails.
    pub fn verdict_without(&self, id: &str) -> Verdict {
        let others = self.checks.iter().filter(|check| check.id != id);
        let worst = others.filter_map(Check::stamps).max().unwrap_or(Verdict::Proven);
        if self.refused.is_some() { Verdict::Fails } else { worst }
    }

    /// The worst verdict among some of the checks.
    pub fn verdict_of(&self, ids: &[&str]) -> Verdict {
        let asked = self.checks.iter().filter(|check| ids.contains(&check.id));
        let worst = asked.filter_map(Check::stamps).max().unwrap_or(Verdict::Proven);
        if self.refused.is_some() { Verdict::Fails } else { worst }
    }
}

/// The doubt of a reading is so large that it says little.
const DOUBT_PLAUSIBLE: CheckRule = CheckRule::may("doubt-plausible", &[]);

/// An operation stands in the file before one that must come first.
const ORDER: CheckRule = CheckRule::may("order-of-operations", &[]);

/// Checks of every operation; each is opened by what was typed and does not apply else.
pub const COMMON_CHECKS: [CheckRule; 4] = [
    DOUBT_PLAUSIBLE,
    CheckRule::may("hardness-plausible", &["part.hardness"]),
    CheckRule::may("alloy-named", &["material"]),
    ORDER,
];

fn doubt_words(id: &'static str, key: &'static str, half: f64) -> Words {
    Words::of(id).with("key", key).with("doubt", Fact::mm(half).to(Decimals::AsTyped).plus_minus())
}
