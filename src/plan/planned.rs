//! Putting the words of the cards to the answers.

use super::cards::Cards;
use super::order::Task;
use super::said::{Plan, Planned, PlannedSetUp, SaidAlternative, SaidBlank, SaidCheck, SaidChoice, SaidStep};
use super::words::Filler;
use crate::handbook::materials::safety;
use crate::job::JobFile;
use crate::operations::card::Texts;
use crate::operations::{Alternative, Answer, Blank, Choice, Request, SetUp, WORST_MEMBER};
use crate::proof::{Check, Fact, Words};
use crate::quantity::{Print, Rounds, difference};
use crate::reading::Problem;
use crate::shop::{Paper, Shop, View};

/// Puts the words of the cards to the answers. A slip in a card refuses the operation that needs it; the others go on.
pub(super) fn plan(
    job: &JobFile<Request>,
    shop: Option<&Shop>,
    cards: &Cards,
    worked: Vec<(&Task, Answer)>,
) -> Result<Plan, Vec<Problem>> {
    let print = shop.map_or(Print::Metric, |shop| shop.units);
    let mut problems = Vec::new();
    let mut operations = Vec::new();
    for (task, answer) in worked {
        let word = task.request.word();
        let speaker = |answer| Speaker { no_shop: shop.is_none(), ..Speaker::of(task, answer, cards, print) };
        let planned = speaker(&answer).planned(task, job);
        match cards.refusal(word, planned.as_ref().err()) {
            Some(refusal) => {
                let refused = task.request.refused(refusal);
                problems.extend(speaker(&refused).planned(task, job).map(|p| operations.push(p)).err());
            }
            None => problems.extend(planned.map(|planned| operations.push(planned)).err()),
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    let text = |at: &Option<crate::proof::At<String>>| at.as_ref().map(|at| at.value.clone());
    Ok(Plan {
        job: job.job.value.clone(),
        engine: text(&job.engine),
        date: text(&job.date),
        shop: shop.map(|shop| shop.shop.value.clone()),
        print,
        paper: shop.map_or(Paper::default(), |shop| shop.paper),
        view: shop.map_or(View::default(), |shop| shop.view),
        operations,
    })
}

/// Puts words to one answer.
struct Speaker<'a> {
    filler: Filler<'a>,
    cards: &'a Cards,
    word: &'a str,
    /// Whether nobody said what the shop owns: the stamp says so.
    no_shop: bool,
}

type SectionOf = for<'a> fn(&'a crate::operations::Card) -> &'a Texts;

impl<'a> Speaker<'a> {
    fn of(task: &Task<'a>, answer: &'a Answer, cards: &'a Cards, print: Print) -> Self {
        let word = task.request.word();
        let names = [&cards.of(word).names, &cards.common().names];
        Self { filler: Filler { word, answer, owner: None, names, print }, cards, word, no_shop: false }
    }

    fn planned(&self, task: &Task, job: &JobFile<Request>) -> Result<Planned, Problem> {
        let answer = self.filler.answer;
        let card = self.cards.of(self.word);
        let part = job.parts.iter().find(|part| part.part.value == task.part.name);
        let note = |at: Option<&crate::proof::At<String>>| at.map(|at| at.value.clone());
        let wish = task.request.set_up().and_then(|wish| wish.note.as_ref());
        let own_note = answer.facts.iter().find(|fact| fact.0 == "stamp_note");
        let own_note = own_note.map(|fact| self.filler.said(&fact.1, None)).transpose()?;
        let no_shop =
            self.no_shop.then(|| self.say("reasons", |card| &card.reasons, &Words::of("no-shop"))).transpose()?;
        let notes: Vec<String> = own_note.into_iter().chain(no_shop).collect();
        let stamp_note = (!notes.is_empty()).then(|| notes.join("; "));
        Ok(Planned {
            address: task.address.clone(),
            word: self.word.into(),
            title: card.title.clone(),
            does: card.does.clone(),
            material: material_words(task),
            note: note(wish).or_else(|| note(part.and_then(|part| part.note.as_ref()))),
            verdict: answer.verdict(),
            stamp_note,
            choices: answer.choices.iter().map(|choice| self.choice(choice)).collect::<Result<_, _>>()?,
            alternatives: answer.alternatives.iter().map(|c| self.alternative(c)).collect::<Result<_, _>>()?,
            checks: self.checks(&answer.checks)?,
            set_ups: answer.set_ups.iter().map(|set_up| self.set_up(set_up)).collect::<Result<_, _>>()?,
            assumed: self.lines("assumed", |card| &card.assumed, &answer.assumed)?,
            cautions: self.cautions(&answer.cautions)?,
            missing: self.lines("missing", |card| &card.missing, &answer.missing)?,
            refused: answer.refused.as_ref().map(ToString::to_string),
            answer: answer.clone(),
        })
    }

    fn say(&self, section: &str, of: SectionOf, words: &Words) -> Result<String, Problem> {
        self.filler.text(section, &[of(self.cards.of(self.word)), of(self.cards.common())], words)
    }

    fn lines(&self, section: &str, of: SectionOf, all: &[Words]) -> Result<Vec<String>, Problem> {
        all.iter().map(|words| self.say(section, of, words)).collect()
    }

    /// A caution of the card, else of the table of cautions.
    fn cautions(&self, ids: &[&'static str]) -> Result<Vec<String>, Problem> {
        let of_card = |id: &&'static str| {
            let known =
                [self.cards.of(self.word), self.cards.common()].iter().any(|card| card.cautions.contains_key(*id));
            match (known, safety::caution(id)) {
                (false, Some(row)) => Ok(row.caution.clone()),
                _ => self.say("cautions", |card| &card.cautions, &Words::of(id)),
            }
        };
        ids.iter().map(of_card).collect()
    }

    fn choice(&self, choice: &Choice) -> Result<SaidChoice, Problem> {
        let why = self.say("reasons", |card| &card.reasons, &choice.why)?;
        Ok(SaidChoice { name: choice.name.into(), chosen: self.filler.said(&choice.chosen, None)?, why })
    }

    fn alternative(&self, alternative: &Alternative) -> Result<SaidAlternative, Problem> {
        let filler = Filler { answer: &alternative.answer, owner: Some(self.filler.answer), ..self.filler };
        let own = Speaker { filler, ..*self };
        let why_not =
            alternative.why_not.as_ref().map(|words| own.say("reasons", |card| &card.reasons, words)).transpose()?;
        Ok(SaidAlternative {
            name: self.filler.said(&alternative.name, None)?,
            verdict: alternative.answer.verdict(),
            checks: own.checks(&alternative.answer.checks)?,
            chosen: alternative.chosen,
            why_not,
            refused: alternative.answer.refused.as_ref().map(ToString::to_string),
            answer: alternative.answer.clone(),
        })
    }

    fn checks(&self, checks: &[Check]) -> Result<Vec<SaidCheck>, Problem> {
        checks.iter().map(|check| self.check(check)).collect()
    }

    fn check(&self, check: &Check) -> Result<SaidCheck, Problem> {
        if check.verdict().is_none() {
            return Ok(self.not_made(check));
        }
        let (card, common) = (self.cards.of(self.word), self.cards.common());
        let words = card.checks.get(check.id).or_else(|| common.checks.get(check.id)).ok_or_else(|| {
            Problem::new(None, format!("the card `{}` has no words for the check `{}`", self.word, check.id))
        })?;
        let mut facts = check.facts.clone();
        if let Some(judged) = &check.judged {
            facts.push(("got", Fact::figure(judged.got, judged.unit)));
            facts.push(("limit", Fact::figure(judged.limit, judged.unit).rounded(judged.keep.rounds())));
            // The worst-case margin; a check that fails at its middle is told by how much it fails at its worst.
            facts.push(("margin", difference(judged.margin.abs(), judged.unit, Rounds::Up, self.filler.print).into()));
        }
        let fill = |text: &str| self.filler.fill("checks", check.id, text, &facts);
        let proven = check.is_proven();
        let remedy = if proven { None } else { Some(fill(&words.remedy)?) };
        let remedies =
            if proven { Vec::new() } else { self.lines("remedies", |card| &card.remedies, &check.remedies)? };
        let mut asks = fill(&words.asks)?;
        if let Some((_, member)) = check.facts.iter().find(|fact| fact.0 == WORST_MEMBER) {
            let worst = Words::of("worst-member").with("member", member.clone());
            asks = format!("{asks} {}", self.say("reasons", |card| &card.reasons, &worst)?);
        }
        Ok(SaidCheck {
            check: check.id.into(),
            about: check.about,
            asks,
            judged: check.judged,
            state: check.state,
            weight: check.weight,
            missing: Vec::new(),
            from_memory: check.from_memory,
            remedy,
            remedies,
            place: check.place,
        })
    }

    /// A check that was not made says its name and the keys that would open it.
    fn not_made(&self, check: &Check) -> SaidCheck {
        SaidCheck {
            check: check.id.into(),
            about: None,
            asks: check.id.replace('-', " "),
            judged: None,
            state: check.state,
            weight: check.weight,
            missing: check.missing.iter().map(|key| (*key).into()).collect(),
            from_memory: false,
            remedy: None,
            remedies: Vec::new(),
            place: check.place,
        }
    }

    fn set_up(&self, set_up: &SetUp) -> Result<PlannedSetUp, Problem> {
        let step = |step: &crate::operations::Step| {
            let text = self.say("steps", |card| &card.steps, &step.words)?;
            let cut = step.cut.as_ref().map(|cut| Ok(cut.with_tool(self.filler.said(&cut.tool, None)?))).transpose()?;
            Ok(SaidStep { id: step.words.id.into(), text, cut })
        };
        let blank = |blank: &Blank| {
            let label = self.say("blanks", |card| &card.blanks, &blank.words)?;
            let said = |fact: &Option<Fact>| fact.as_ref().map(|fact| self.filler.said(fact, None)).transpose();
            Ok(SaidBlank { label, as_found: said(&blank.as_found)?, target: said(&blank.target)? })
        };
        Ok(PlannedSetUp {
            id: set_up.id.into(),
            title: self.say("set-ups", |card| &card.set_ups, &Words::of(set_up.id))?,
            station: set_up.station,
            machine: match &set_up.machine {
                Some(machine) => machine.clone(),
                None => self.filler.said(&set_up.station.named(), None)?,
            },
            hold: self.lines("hold", |card| &card.hold, &set_up.hold)?,
            steps: set_up.steps.iter().map(step).collect::<Result<_, Problem>>()?,
            sketch: set_up.sketch.clone(),
            minutes: set_up.minutes,
            unattended: set_up.unattended,
            needs: set_up.needs.clone(),
            leaves: set_up.leaves.clone(),
            checks: set_up.checks.iter().map(|check| (*check).into()).collect(),
            blanks: set_up.blanks.iter().map(blank).collect::<Result<_, Problem>>()?,
            cautions: self.cautions(&set_up.cautions)?,
        })
    }
}

fn material_words(task: &Task) -> Option<String> {
    let material = task.part.material.as_ref().map(|m| m.value.typed().to_owned());
    let hardness = task.part.hardness.as_ref().map(|h| h.value.to_string());
    match (material, hardness) {
        (Some(material), Some(hardness)) => Some(format!("{material}, {hardness}")),
        (material, hardness) => material.or(hardness),
    }
}
