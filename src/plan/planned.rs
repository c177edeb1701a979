//! Putting the words of the cards to the answers.

use super::cards::Cards;
use super::frame::{Frame, Plan, Planned, Told, print_of};
use super::log::Logged;
use super::of_day::OfDay;
use super::order::Task;
use super::together::held_on::{HeldOn, held_on};
use super::words::Filler;
use crate::handbook::materials::safety;
use crate::operations::card::Texts;
use crate::operations::{Answer, Card, SetUp, Station, WORST_MEMBER, done_by};
use crate::proof::{At, Fact, Section, Speak, Verdict, Words};
use crate::quantity::Print;
use crate::reading::Problem;
use crate::spread;

/// How many answers are put into words at a time.
const AT_ONCE: usize = 128;

/// Puts the words of the cards to the answers, and does something to each operation in its words. A slip in a card refuses the
/// operation that needs it; the others go on.
pub(super) fn plan<T: Send>(
    frames: &[Frame],
    (worked, log): (Vec<(usize, &Task, Answer)>, &Logged),
    each: &(impl Fn(&Plan, Planned, usize) -> T + Sync),
) -> Vec<(usize, Result<T, Problem>)> {
    let held = held_on(&worked, log);
    let said = |((at, task, answer), held): &((usize, &Task, Answer), HeldOn)| {
        let own = frames.get(task.job)?;
        Some((*at, in_words((task, held), own, answer).map(|planned| each(&own.plan, planned, at + 1 - own.first))))
    };
    let mut all = Vec::with_capacity(worked.len());
    let mut worked = worked.into_iter().zip(held);
    // An answer goes as soon as its words are put: no more than so many stand in memory twice.
    loop {
        let some: Vec<((usize, &Task, Answer), HeldOn)> = worked.by_ref().take(AT_ONCE).collect();
        if some.is_empty() {
            return all;
        }
        all.extend(spread::all(&some, said).into_iter().flatten());
    }
}

fn in_words((task, held): (&Task, &HeldOn), frame: &Frame, answer: &Answer) -> Result<Planned, Problem> {
    let said = planned((task, held), frame, answer);
    match frame.cards.refusal(task.request.word(), said.as_ref().err()) {
        Some(refusal) => planned((task, held), frame, &task.request.refused(refusal)),
        None => said,
    }
}

/// Puts the words of the cards to one answer.
struct Speaker<'a> {
    filler: Filler<'a>,
    /// The operation's own card, then that of all operations.
    both: [&'a Card; 2],
    word: &'a str,
}

impl<'a> Speaker<'a> {
    /// Who speaks for an answer: its own figures fill the blanks, then those of the whole answer.
    fn of(word: &'a str, answer: &'a Answer, whole: &'a Answer, cards: &'a Cards, print: Print) -> Self {
        let both = [cards.of(word), cards.common()];
        let names = both.map(|card| &card.names);
        Self { filler: Filler { word, answer, owner: whole, names, print }, both, word }
    }

    fn text(&self, section: Section, of: impl Fn(&'a Card) -> &'a Texts, words: &Words) -> Result<String, Problem> {
        self.filler.text(section.text(), &self.both.map(of), words)
    }

    /// What a check asks or what would mend it. What it asks names the member of a family for which it is worst.
    fn of_check(&self, section: Section, words: &Words, facts: &[(&'static str, Fact)]) -> Result<String, Problem> {
        let known = self.both.into_iter().find_map(|card| card.checks.get(words.id)).ok_or_else(|| {
            Problem::new(None, format!("the card `{}` has no words for the check `{}`", self.word, words.id))
        })?;
        let text = if section == Section::Remedy { &known.remedy } else { &known.asks };
        let said = self.filler.fill(section.text(), words.id, text, facts)?;
        let member = facts.iter().find(|fact| fact.0 == WORST_MEMBER).filter(|_| section == Section::Asks);
        let Some((_, member)) = member else { return Ok(said) };
        let worst = Words::of("worst-member").with("member", member.clone());
        Ok(format!("{said} {}", self.say(Section::Reasons, &worst, &[])?))
    }

    /// What a check is called under a stamp: as its card has it, else its id in words.
    fn called(&self, id: &str) -> String {
        let known = self.both.into_iter().find_map(|card| card.checks.get(id));
        let stamp = known.and_then(|check| check.stamp.as_deref());
        stamp.map_or_else(|| id.replace('-', " "), str::to_owned)
    }

    /// A caution of the card, else of the table of cautions.
    fn caution(&self, words: &Words) -> Result<String, Problem> {
        let known = self.both.iter().any(|card| card.cautions.contains_key(words.id));
        match (known, safety::caution(words.id)) {
            (false, Some(row)) => Ok(row.caution.clone()),
            _ => self.text(Section::Cautions, |card| &card.cautions, words),
        }
    }
}

impl Speak<Words> for Speaker<'_> {
    type Said = String;
    type Slip = Problem;

    fn say(&self, section: Section, words: &Words, beside: &[(&'static str, Fact)]) -> Result<String, Problem> {
        let of = |of: for<'b> fn(&'b Card) -> &'b Texts| self.text(section, of, words);
        match section {
            Section::Unmade => Ok(words.id.replace('-', " ")),
            Section::Called => Ok(self.called(words.id)),
            Section::Asks | Section::Remedy => self.of_check(section, words, beside),
            Section::Cautions => self.caution(words),
            Section::Remedies => of(|card| &card.remedies),
            Section::Reasons => of(|card| &card.reasons),
            Section::Assumed => of(|card| &card.assumed),
            Section::Missing => of(|card| &card.missing),
            Section::SetUps => of(|card| &card.set_ups),
            Section::Hold => of(|card| &card.hold),
            Section::Steps => of(|card| &card.steps),
            Section::Blanks => of(|card| &card.blanks),
            Section::Names => self.filler.name(words),
        }
    }
}

/// One answer in words, in the frame of its job.
fn planned((task, held): (&Task, &HeldOn), frame: &Frame, answer: &Answer) -> Result<Planned, Problem> {
    let (word, shop, cards) = (task.request.word(), task.shop, frame.cards);
    let card = cards.of(word);
    let print = print_of(shop, cards);
    let speaker = |own| Speaker::of(word, own, answer, cards, print);
    let text = |at: &At<String>| at.value.clone();
    let wish = task.request.set_up().and_then(|wish| wish.note.as_ref());
    let own_note = answer.facts.iter().find(|fact| fact.0 == "stamp_note");
    let own_note = own_note.map(|fact| speaker(answer).filler.said(&fact.1, None)).transpose()?;
    // Nobody said what the shop owns: the stamp says so.
    let no_shop =
        shop.is_none().then(|| speaker(answer).say(Section::Reasons, &Words::of("no-shop"), &[])).transpose()?;
    // Whoever reads the steps must know whose they are.
    let whose = cards.own_words(word).map(|path| Words::of("own-card").with("path", path));
    let whose = whose.map(|words| speaker(answer).say(Section::Reasons, &words, &[])).transpose()?;
    let notes: Vec<String> = own_note.into_iter().chain(no_shop).chain(whose).collect();
    let alone = |own| Speaker::of(word, own, answer, cards, Print::Metric);
    // A text that lacks refuses its operation: where that can be, all is said.
    let whole = frame.told == Told::Whole || !cards.are_built_in(word);
    let said = if whole { answer.try_map_words(&speaker)? } else { answer.try_map_titles(&speaker(answer))? };
    let brief = (whole && print == Print::Both).then(|| answer.try_map_words(&alone).map(marked).map(Box::new));
    // What has no figure and no line of a sheet here is of another way to do it.
    let asks = |key: &str| {
        answer.set_ups.iter().flat_map(|set_up| &set_up.blanks).any(|blank| blank.log.is_some_and(|log| log.key == key))
    };
    let is_here = |key: &str| answer.refused.is_some() || answer.value(key).is_some() || asks(key);
    let may_be_logged: Vec<(&str, &str)> = { task.request.declared().into_iter() }
        .filter(|declared| declared.left.is_some() && is_here(declared.key))
        .map(|declared| (declared.key, declared.means))
        .collect();
    Ok(Planned {
        address: task.address.clone(),
        word: word.into(),
        title: card.title.to_string(),
        does: card.does.to_string(),
        material: material_words(task),
        note: wish.or(task.note).map(text),
        verdict: answer.verdict(),
        spoilt: spoilt(answer),
        stamp_note: (!notes.is_empty()).then(|| notes.join("; ")),
        of_day: OfDay::of(task, held),
        may_be_logged,
        sizes: task.request.declared().iter().filter_map(|declared| Some((declared.key, declared.part?))).collect(),
        answer: as_it_is_left(asking(marked(said), &task.named.keys), spoilt(answer)),
        in_one_unit: brief.transpose()?,
        first: None,
    })
}

/// Of what was cut and fails nothing is cut otherwise any more: no such way out is told.
fn as_it_is_left(mut answer: Answer<String>, spoilt: Option<u32>) -> Answer<String> {
    let cuts = |set_up: &SetUp<String>| matches!(set_up.station, Station::Lathe | Station::Drilling);
    if spoilt.is_some() && answer.set_ups.iter().any(cuts) {
        answer.checks.iter_mut().for_each(|check| check.remedies.retain(|remedy| remedy.gives.is_none()));
    }
    answer
}

/// The entry of the log by which the last of an operation that fails is done: nothing of it is left to be cut.
fn spoilt(answer: &Answer) -> Option<u32> {
    let entry = |key: &str| answer.value(key).and_then(|value| value.origin.entry());
    let fails = answer.refused.is_none() && answer.verdict() == Verdict::Fails && !answer.is_unfinished();
    done_by(&answer.set_ups, entry).last().copied().flatten().filter(|_| fails)
}

/// A check that was not made asks only for keys that were not typed yet.
fn asking(mut answer: Answer<String>, typed: &[String]) -> Answer<String> {
    let is_open = |key: &str| !typed.iter().any(|own| own == key);
    for check in &mut answer.checks {
        check.missing.retain(|key| is_open(key));
    }
    answer.alternatives = answer
        .alternatives
        .into_iter()
        .map(|other| crate::operations::Alternative { answer: asking(other.answer, typed), ..other })
        .collect();
    answer
}

/// A check of a size that was left names the entry of the log.
fn marked(mut answer: Answer<String>) -> Answer<String> {
    let left: Vec<(&str, u32)> =
        answer.values.iter().filter_map(|value| Some((value.key, value.origin.entry()?))).collect();
    for check in &mut answer.checks {
        let entry = left.iter().find(|(key, _)| check.about == Some(*key));
        check.asks.extend(entry.map(|(_, entry)| format!(" (L{entry})")));
    }
    answer
}

fn material_words(task: &Task) -> Option<String> {
    let material = task.part.material.as_ref().map(|m| m.value.typed().to_owned());
    let hardness = task.part.hardness.as_ref().map(|h| h.value.to_string());
    match (material, hardness) {
        (Some(material), Some(hardness)) => Some(format!("{material}, {hardness}")),
        (material, hardness) => material.or(hardness),
    }
}
