//! The cards of a run: the built-in ones, and a shop's own copies beside its jobs, which win.

use crate::operations::{Card, Request};
use crate::proof::{Place, Refusal};
use crate::quantity::Print;
use crate::reading::Problem;
use std::collections::BTreeMap;
use std::sync::{LazyLock, OnceLock};

/// The words that every operation shares.
const COMMON: &str = include_str!("../../ops/common.yaml");

/// A card that was read, or what is wrong with it.
type Read = Result<Card, Vec<Problem>>;

/// Cards by operation word.
#[derive(Clone, Debug)]
pub struct Cards {
    built_in: BTreeMap<&'static str, &'static Card>,
    common: &'static Card,
    further: BTreeMap<&'static str, Card>,
    own: BTreeMap<String, Own>,
    print: Option<Print>,
}

/// A shop's own copy of a card: where it lies and what it says, so that a slip can be pointed at.
#[derive(Clone, Debug)]
struct Own {
    path: String,
    text: String,
    /// What it says, or why it cannot be read.
    card: Result<Card, Problem>,
}

/// The card of a word that is built in: read once in a run, by whoever asks first.
fn read_once(word: &str) -> Option<(&'static str, &'static Read)> {
    static READ: LazyLock<BTreeMap<&str, OnceLock<Read>>> =
        LazyLock::new(|| Request::WORDS.iter().map(|word| (*word, OnceLock::new())).collect());
    let (word, read) = READ.get_key_value(word)?;
    let text = Request::built_in_card(word)?;
    Some((*word, read.get_or_init(|| Card::built_in(text))))
}

impl Cards {
    /// The built-in cards of some operations.
    ///
    /// # Errors
    /// The problems of a card.
    pub fn built_in<'a>(words: impl IntoIterator<Item = &'a str>) -> Result<Self, Vec<Problem>> {
        static SHARED: LazyLock<Read> = LazyLock::new(|| Card::built_in(COMMON));
        let mut built_in = BTreeMap::new();
        for (word, read) in words.into_iter().filter_map(read_once) {
            built_in.insert(word, read.as_ref().map_err(Clone::clone)?);
        }
        Ok(Self {
            built_in,
            common: SHARED.as_ref().map_err(Clone::clone)?,
            further: BTreeMap::new(),
            own: BTreeMap::new(),
            print: None,
        })
    }

    /// The same with figures in these units, where no shop says others.
    #[must_use]
    pub fn printing(self, print: Option<Print>) -> Self {
        Self { print, ..self }
    }

    /// The units of print where no shop says others.
    pub(super) fn print(&self) -> Print {
        self.print.unwrap_or_default()
    }

    /// Adds the card of an operation that is not built in.
    ///
    /// # Errors
    /// The problems of the card.
    pub fn and(mut self, word: &'static str, text: &str) -> Result<Self, Vec<Problem>> {
        self.further.insert(word, Card::read(text, u32::MAX)?);
        Ok(self)
    }

    /// Puts a shop's own copy in the place of a built-in card. One that cannot be read refuses its operation, not the job.
    pub fn put_own(&mut self, word: &str, path: String, text: String) {
        let card = match Card::read(&text, 0) {
            Ok(card) if card.operation == word => Ok(card),
            Ok(card) => Err(Problem::new(None, format!("this is the card of `{}`, not of `{word}`", card.operation))),
            Err(problems) => {
                Err(problems.into_iter().next().unwrap_or_else(|| Problem::new(None, "this card cannot be read")))
            }
        };
        self.own.insert(word.to_owned(), Own { path, text, card });
    }

    /// Notes a shop's own copy of which nothing could be read: it refuses its operation too.
    pub(crate) fn put_unread(&mut self, word: &str, path: String, line: u32, says: String) {
        let card = Err(Problem::new(Place { line, ..Place::start(0) }, says));
        self.own.insert(word.to_owned(), Own { path, text: String::new(), card });
    }

    /// Why a card refuses its operation: the shop's own cannot be read, or a text of it or of the built-in one cannot be filled.
    pub(super) fn refusal(&self, word: &str, slip: Option<&Problem>) -> Option<Refusal> {
        let Some(own) = self.own.get(word) else {
            return slip.map(|slip| Refusal::BuiltInCard { word: word.into(), says: slip.says.clone() });
        };
        let problem = own.card.as_ref().err().or(slip)?;
        let line = problem.place.map_or_else(|| own.line_of(&problem.says), |place| place.line);
        Some(Refusal::Card { path: own.path.clone(), line, says: problem.says.clone() })
    }

    /// Where the shop's own copy of a card lies, where it says something else than the built-in one.
    pub(super) fn own_words(&self, word: &str) -> Option<&str> {
        let own = self.own.get(word).filter(|own| own.card.is_ok())?;
        (Request::built_in_card(word) != Some(own.text.as_str())).then_some(own.path.as_str())
    }

    /// Whether the words of an operation are the built-in ones: a test holds that none of them lacks.
    pub(super) fn are_built_in(&self, word: &str) -> bool {
        self.built_in.contains_key(word) && !self.own.contains_key(word)
    }

    /// The card of an operation.
    pub fn of(&self, word: &str) -> &Card {
        let own = self.own.get(word).and_then(|own| own.card.as_ref().ok());
        let built_in = || self.built_in.get(word).copied().or_else(|| self.further.get(word));
        own.or_else(built_in).unwrap_or(self.common)
    }

    /// The card of what all operations share.
    pub fn common(&self) -> &Card {
        self.common
    }
}

impl Own {
    /// The line that a message without a place speaks of. It quotes a section, an id in it and a blank, or some of these, and
    /// the innermost of them that the card has is the line.
    fn line_of(&self, says: &str) -> u32 {
        let quoted: Vec<&str> = says.split('`').skip(1).step_by(2).collect();
        let key =
            |line: &str, from: &str| quoted.iter().any(|word| line.strip_prefix(from).is_some_and(|l| is_key(l, word)));
        let lines = || self.text.lines().enumerate();
        // A check has no section in its message: its id stands deeper than any section all the same.
        let section = lines().find(|(_, line)| key(line, "")).map(|(at, _)| at);
        let id = lines().skip(section.unwrap_or(0)).find(|(_, line)| key(line, "  ")).map(|(at, _)| at);
        let blank =
            |line: &str| quoted.iter().any(|word| word.strip_suffix('}').is_some_and(|open| line.contains(open)));
        let blank = id.and_then(|id| lines().skip(id).find(|(_, line)| blank(line)).map(|(at, _)| at));
        let at = blank.or(id).or(section).unwrap_or(0);
        u32::try_from(at + 1).unwrap_or(u32::MAX)
    }
}

/// Whether a line of a card begins with a key.
fn is_key(line: &str, key: &str) -> bool {
    line.strip_prefix(key).is_some_and(|rest| rest.starts_with(':'))
}
