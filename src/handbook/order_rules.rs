//! Rules of order: what comes before what, and why.

use super::state_kind::StateKind;
use super::table::{rows, seen};
use crate::proof::{Mark, Verdict};
use serde::{Deserialize, Deserializer, de};
use std::fmt;
use std::sync::LazyLock;

/// A rule of order.
#[derive(Debug, Deserialize, PartialEq)]
pub struct OrderRule {
    /// Its name.
    pub rule: String,
    /// Whether it binds.
    pub kind: Binds,
    /// What comes first.
    pub before: Word,
    /// What comes after it.
    pub after: Word,
    /// Between what it holds.
    pub scope: Scope,
    /// The least time between them, min.
    pub rest_min: f64,
    /// The verdict where two operations of a part stand against it in the file; none where it is not judged there.
    #[serde(deserialize_with = "verdict_in_file")]
    pub in_file: Option<Verdict>,
    /// Why.
    pub reason: String,
    /// Source keys.
    pub source: String,
    /// How well the source is known.
    #[serde(deserialize_with = "seen")]
    pub seen: Mark,
}

/// Whether a rule binds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Binds {
    /// Nothing stands against it.
    Must,
    /// What stands against it is worse, and may be.
    Better,
    /// The later is not done while the earlier lasts, nor before it has rested: it goes before it, or stands after it.
    Apart,
    /// The later does not come between the earlier and the end of its operation.
    Between,
    /// As the job lists the two: what is done by hand behind a cut is done to what that leaves.
    Listed,
    /// It stands, but where what else is known would close a circle with it.
    Yields,
}

/// Whether a rule goes by the order in which a job lists two works.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AsListed {
    /// The later comes behind each earlier that is listed before it.
    Kept,
    /// Wherever the two are listed.
    Either,
}

/// Between what a rule holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Scope {
    /// One bore, one face of a part.
    Feature,
    /// Two features of one part, each named.
    Elsewhere,
    /// A part.
    Part,
    /// Two parts that lose the same.
    Pair,
    /// Work on one part that is held alike on one machine.
    Clamping,
    /// Parts that are bolted together.
    Assembly,
    /// All work of the shop.
    Shop,
}

impl Scope {
    /// Whether the two stand beside each other, whichever comes first.
    pub const fn has_no_direction(self) -> bool {
        matches!(self, Self::Pair | Self::Clamping)
    }
}

/// What a rule binds: one exact word for a kind of work.
#[derive(Clone, Debug, PartialEq)]
pub enum Word {
    /// An operation, by its word.
    Operation(String),
    /// A set-up that leaves this state.
    State(StateKind),
    /// A set-up with this step, by its whole id.
    Step(String),
    /// Any work of a class.
    Class(&'static Class),
}

/// Work that rules name together.
#[derive(Debug, Deserialize, PartialEq)]
pub struct Class {
    /// Its name.
    pub class: String,
    /// Operations and steps.
    #[serde(deserialize_with = "of_class")]
    pub words: Vec<Word>,
}

/// The work of one operation, as the rules see it.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Work<'a> {
    operation: &'a str,
    steps: Vec<&'a str>,
    leaves: Vec<StateKind>,
    /// The words of other work that free words do, by the states that they leave.
    does: Vec<&'static Word>,
}

/// What free words do that leave a state.
#[derive(Debug, Deserialize, PartialEq)]
struct FreeWords {
    #[serde(deserialize_with = "state")]
    state: StateKind,
    #[serde(deserialize_with = "of_class")]
    words: Vec<Word>,
}

/// The operation in the job's own words.
const BY_HAND: &str = "hand";

impl OrderRule {
    /// How it binds two works besides as a must or a wish: as the job lists them, or however it does. What `plan` judges by the order of the
    /// file is kept where the file has it right: on that its verdicts stand.
    pub fn binds_as(&self) -> Option<AsListed> {
        match self.kind {
            Binds::Listed => Some(AsListed::Kept),
            Binds::Better if self.in_file.is_some() => Some(AsListed::Kept),
            Binds::Yields => Some(AsListed::Either),
            Binds::Must | Binds::Better | Binds::Apart | Binds::Between => None,
        }
    }

    /// Whether the later work takes what the earlier made warm or cold, while it lasts.
    pub fn fetches(&self) -> bool {
        let makes = |class: &Class| ["warming", "chilling"].contains(&class.class.as_str());
        self.scope == Scope::Feature
            && matches!(&self.before, Word::Class(class) if makes(class) && self.rest_min == 0.0)
    }
}

impl<'a> Work<'a> {
    /// The work of an operation: its word, the ids of its steps in working order, the states that it leaves.
    pub fn of(operation: &'a str, steps: Vec<&'a str>, leaves: Vec<StateKind>) -> Self {
        let lasts = |kind: StateKind| !kind.comes_again() && !kind.passes();
        // A lap leaves its part clean and is no wash for that.
        let lasting = leaves.iter().any(|kind| lasts(*kind));
        let counts = |kind: StateKind| operation == BY_HAND && leaves.contains(&kind) && (lasts(kind) || !lasting);
        let does = free_words().iter().filter(|own| counts(own.state)).flat_map(|own| &own.words).collect();
        Self { operation, steps, leaves, does }
    }

    /// The states that it leaves.
    pub fn leaves(&self) -> &[StateKind] {
        &self.leaves
    }
}

impl Word {
    /// Reads a word that is no class.
    fn plain(text: &str) -> Result<Self, String> {
        match text.split_once(':') {
            Some(("state", kind)) => kind.parse().map(Self::State),
            Some(("step", id)) if !id.is_empty() => Ok(Self::Step(id.into())),
            None if !text.is_empty() => Ok(Self::Operation(text.into())),
            _ => Err(format!("`{text}` is no word of a rule")),
        }
    }

    /// Whether such work stands in an operation.
    pub fn is_in(&self, work: &Work) -> bool {
        match self {
            Self::Operation(word) => word == work.operation || work.does.contains(&self),
            Self::State(kind) => work.leaves.contains(kind),
            Self::Step(id) => work.steps.contains(&id.as_str()) || work.does.contains(&self),
            Self::Class(class) => class.words.iter().any(|word| word.is_in(work)),
        }
    }

    /// The operations and steps that it names, a class by its members.
    pub fn members(&self) -> Vec<&Self> {
        match self {
            Self::Class(class) => class.words.iter().collect(),
            one => vec![one],
        }
    }
}

/// In words: `oil hole drilling`.
impl fmt::Display for Word {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let word = match self {
            Self::Operation(word) | Self::Step(word) => word,
            Self::State(kind) => kind.text(),
            Self::Class(class) => &class.class,
        };
        f.write_str(&word.replace('-', " "))
    }
}

impl<'de> Deserialize<'de> for Word {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
        let text = String::deserialize(from)?;
        match classes().iter().find(|class| class.class == text) {
            Some(class) => Ok(Self::Class(class)),
            None => Self::plain(&text).map_err(de::Error::custom),
        }
    }
}

/// Reads the words of a class.
fn of_class<'de, D: Deserializer<'de>>(from: D) -> Result<Vec<Word>, D::Error> {
    let text = String::deserialize(from)?;
    let words = text.split(';').map(str::trim).filter(|word| !word.is_empty());
    words.map(Word::plain).collect::<Result<_, _>>().map_err(de::Error::custom)
}

/// Reads the `state` column.
fn state<'de, D: Deserializer<'de>>(from: D) -> Result<StateKind, D::Error> {
    String::deserialize(from)?.parse().map_err(de::Error::custom)
}

const RULES: &str = include_str!("../../shared/order.csv");
const CLASSES: &str = include_str!("../../shared/classes.csv");
const FREE_WORDS: &str = include_str!("../../shared/free-words.csv");

/// Every class of work.
pub fn classes() -> &'static [Class] {
    static ROWS: LazyLock<Vec<Class>> = LazyLock::new(|| rows(CLASSES));
    &ROWS
}

/// What free words do, by the states that they leave.
fn free_words() -> &'static [FreeWords] {
    static ROWS: LazyLock<Vec<FreeWords>> = LazyLock::new(|| rows(FREE_WORDS));
    &ROWS
}

/// Every rule of order.
pub fn all() -> &'static [OrderRule] {
    static ROWS: LazyLock<Vec<OrderRule>> = LazyLock::new(|| rows(RULES));
    &ROWS
}

/// The rules that are judged between the operations of a part as they stand in the file.
pub(crate) fn in_file() -> impl Iterator<Item = (&'static OrderRule, Verdict)> {
    all().iter().filter_map(|rule| Some((rule, rule.in_file?)))
}

/// The other rules that nothing stands against, between works of one part.
pub(crate) fn musts_of_a_part() -> impl Iterator<Item = &'static OrderRule> {
    let is_of_a_part = |rule: &&OrderRule| matches!(rule.scope, Scope::Feature | Scope::Part);
    all().iter().filter(|rule| rule.kind == Binds::Must && rule.in_file.is_none()).filter(is_of_a_part)
}

/// Reads the `in_file` column.
fn verdict_in_file<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Verdict>, D::Error> {
    match String::deserialize(from)?.as_str() {
        "" => Ok(None),
        "doubtful" => Ok(Some(Verdict::Doubtful)),
        "fails" => Ok(Some(Verdict::Fails)),
        other => Err(de::Error::custom(format!("`{other}` is no verdict of a rule"))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_loads() {
        let (all, good, first) = crate::handbook::table::audit::<OrderRule>(RULES);
        assert_eq!(all, good, "{first}");
        let (all, good, first) = crate::handbook::table::audit::<Class>(CLASSES);
        assert_eq!(all, good, "{first}");
        let (all, good, first) = crate::handbook::table::audit::<FreeWords>(FREE_WORDS);
        assert_eq!(all, good, "{first}");
        let states: Vec<StateKind> = free_words().iter().map(|own| own.state).collect();
        assert_eq!(states, StateKind::ALL, "each state that a card may leave has its row");
    }

    #[test]
    fn free_words_answer_to_the_work_that_leaves_their_state() {
        let by_hand = |leaves: &[StateKind]| Work::of("hand", vec!["as-it-says"], leaves.to_vec());
        let is_in = |text: &str, leaves: &[StateKind]| Word::plain(text).unwrap().is_in(&by_hand(leaves));
        assert!(is_in("drill", &[StateKind::Drilled]) && !is_in("tap", &[StateKind::Drilled]));
        assert!(is_in("hand", &[StateKind::Drilled]) && is_in("hand", &[]));
        assert!(is_in("wash", &[StateKind::Washed]) && !is_in("wash", &[StateKind::Washed, StateKind::Honed]));
        assert!(!Word::plain("drill").unwrap().is_in(&Work::of("tap", vec![], vec![StateKind::Drilled])));
    }

    #[test]
    fn a_face_comes_before_the_insert_whose_coil_it_would_cut() {
        let (face, insert) = (Word::plain("face"), Word::plain("thread-insert"));
        let stands =
            |before: &Word, after: &Word| in_file().any(|(rule, _)| rule.before == *before && rule.after == *after);
        let (face, insert) = (face.unwrap(), insert.unwrap());
        assert!(stands(&face, &insert) && !stands(&insert, &face));
    }

    #[test]
    fn a_word_is_matched_whole_and_a_word_that_is_none_is_refused() {
        let work = Work::of("ream-bush", vec!["ream-in-steps"], vec![StateKind::Reamed]);
        let is_in = |text: &str| Word::plain(text).unwrap().is_in(&work);
        assert!(is_in("ream-bush") && is_in("step:ream-in-steps") && is_in("state:reamed"));
        assert!(!is_in("ream") && !is_in("step:ream") && !is_in("state:sized"));
        for none in ["state:shiny", "step:", "kind:ream", ""] {
            assert!(Word::plain(none).is_err(), "{none}");
        }
    }
}
