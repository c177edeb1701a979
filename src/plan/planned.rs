//! A job planned: answers with the words of their cards filled in. This is what every output is made from.

use super::cards::Cards;
use super::order::Task;
use super::words::Filler;
use crate::drawing::Sketch;
use crate::handbook::materials::safety;
use crate::job::{Address, JobFile};
use crate::operations::card::Texts;
use crate::operations::{Answer, Blank, Candidate, Choice, Cut, Request, SetUp, Station};
use crate::proof::{Fact, Finding, Judged, Keep, Place, Verdict, Words};
use crate::quantity::{Print, difference, shown};
use crate::reading::Problem;
use crate::shop::{Paper, Shop, View};

/// A job planned.
#[derive(Clone, Debug)]
pub struct Plan {
    /// The job's name.
    pub job: String,
    /// The engine.
    pub engine: Option<String>,
    /// The day on the sheets.
    pub date: Option<String>,
    /// The shop's name.
    pub shop: Option<String>,
    /// Units of print.
    pub print: Print,
    /// Paper of its sheets.
    pub paper: Paper,
    /// How views stand to each other.
    pub view: View,
    /// Its operations in the order of the file.
    pub operations: Vec<Planned>,
}

/// An operation planned.
#[derive(Clone, Debug)]
pub struct Planned {
    /// Where it stands.
    pub address: Address,
    /// Its word.
    pub word: String,
    /// Its title.
    pub title: String,
    /// What it does.
    pub does: String,
    /// The part's material and hardness, in words.
    pub material: Option<String>,
    /// The remark of the part or of the set-up.
    pub note: Option<String>,
    /// Its verdict.
    pub verdict: Verdict,
    /// What the stamp says, where it says more than the verdict.
    pub stamp_note: Option<String>,
    /// The answer itself.
    pub answer: Answer,
    /// Choices in words.
    pub choices: Vec<SaidChoice>,
    /// Candidates in words.
    pub candidates: Vec<SaidCandidate>,
    /// Findings in words.
    pub findings: Vec<SaidFinding>,
    /// Set-ups in words.
    pub set_ups: Vec<PlannedSetUp>,
    /// What was assumed.
    pub assumed: Vec<String>,
    /// Cautions of the whole operation.
    pub cautions: Vec<String>,
    /// What the shop lacks.
    pub missing: Vec<String>,
    /// What could not be worked out.
    pub refused: Option<String>,
}

/// A text with the id it has in the card.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// The id.
    pub id: String,
    /// The words.
    pub text: String,
}

/// A choice in words.
#[derive(Clone, Debug)]
pub struct SaidChoice {
    /// What was chosen.
    pub name: String,
    /// The choice.
    pub chosen: String,
    /// Why.
    pub why: String,
}

/// A candidate in words.
#[derive(Clone, Debug)]
pub struct SaidCandidate {
    /// Its name.
    pub name: String,
    /// Its verdict.
    pub verdict: Verdict,
    /// Its answer.
    pub answer: Answer,
    /// Its findings in words.
    pub findings: Vec<SaidFinding>,
    /// Whether it was taken.
    pub taken: bool,
    /// Why not.
    pub why_not: Option<String>,
    /// What could not be worked out.
    pub refused: Option<String>,
}

/// A finding in words.
#[derive(Clone, Debug)]
pub struct SaidFinding {
    /// The check.
    pub check: String,
    /// The key of the value that is judged, where it has a name.
    pub about: Option<&'static str>,
    /// What it asks.
    pub asks: String,
    /// Its figures in a line ("2.476 ± 0.361 mm, at least 1.000 mm").
    pub figures: Option<String>,
    /// Its figures.
    pub judged: Option<Judged>,
    /// Its verdict.
    pub verdict: Verdict,
    /// What would mend it, where it is not proven.
    pub remedy: Option<String>,
    /// Remedies with the figure that each gives, where it is not proven.
    pub remedies: Vec<String>,
    /// The line to mend.
    pub place: Option<Place>,
}

/// A set-up in words.
#[derive(Clone, Debug)]
pub struct PlannedSetUp {
    /// Its id in the card.
    pub id: String,
    /// Its title.
    pub title: String,
    /// The kind of place.
    pub station: Station,
    /// The machine, or the kind of place where the shop has no name for it.
    pub machine: String,
    /// How it is held and trued.
    pub hold: Vec<String>,
    /// Steps in working order.
    pub steps: Vec<SaidStep>,
    /// The sketch, its labels in words.
    pub sketch: Sketch,
    /// Minutes at the machine.
    pub minutes: f64,
    /// Minutes that run by themselves.
    pub unattended: f64,
    /// States that must hold before it.
    pub needs: Vec<String>,
    /// States that hold after it.
    pub leaves: Vec<String>,
    /// The checks that its page shows; empty shows all.
    pub checks: Vec<String>,
    /// Blanks.
    pub blanks: Vec<SaidBlank>,
    /// Cautions of just these steps.
    pub cautions: Vec<String>,
}

/// A step in words.
#[derive(Clone, Debug)]
pub struct SaidStep {
    /// Its id in the card.
    pub id: String,
    /// Its words.
    pub text: String,
    /// Its figures, where it cuts.
    pub cut: Option<Cut>,
}

/// A blank in words.
#[derive(Clone, Debug)]
pub struct SaidBlank {
    /// Its label.
    pub label: String,
    /// As found.
    pub as_found: Option<String>,
    /// Target with limits.
    pub target: Option<String>,
}

/// Puts the words of the cards to the answers.
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
        match Speaker::of(task, &answer, cards, print).planned(task, job) {
            Ok(planned) => operations.push(planned),
            Err(problem) => problems.push(problem),
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
}

type SectionOf = for<'a> fn(&'a crate::operations::Card) -> &'a Texts;

impl<'a> Speaker<'a> {
    fn of(task: &Task<'a>, answer: &'a Answer, cards: &'a Cards, print: Print) -> Self {
        let word = task.request.word();
        Self { filler: Filler { word, answer, owner: None, print }, cards, word }
    }

    fn planned(&self, task: &Task, job: &JobFile<Request>) -> Result<Planned, Problem> {
        let answer = self.filler.answer;
        let card = self.cards.of(self.word);
        let part = job.parts.iter().find(|part| part.part.value == task.part.name);
        let note = |at: Option<&crate::proof::At<String>>| at.map(|at| at.value.clone());
        let wish = task.request.set_up().and_then(|wish| wish.note.as_ref());
        let stamp_note =
            answer.facts.iter().find(|fact| fact.0 == "stamp_note").map(|fact| fact.1.said(None, self.filler.print));
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
            candidates: answer.candidates.iter().map(|c| self.candidate(c)).collect::<Result<_, _>>()?,
            findings: self.findings(&answer.findings)?,
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
        Ok(SaidChoice { name: choice.name.into(), chosen: choice.chosen.clone(), why })
    }

    fn candidate(&self, candidate: &Candidate) -> Result<SaidCandidate, Problem> {
        let filler = Filler { answer: &candidate.answer, owner: Some(self.filler.answer), ..self.filler };
        let own = Speaker { filler, cards: self.cards, word: self.word };
        let why_not =
            candidate.why_not.as_ref().map(|words| own.say("reasons", |card| &card.reasons, words)).transpose()?;
        Ok(SaidCandidate {
            name: candidate.name.clone(),
            verdict: candidate.answer.verdict(),
            findings: own.findings(&candidate.answer.findings)?,
            taken: candidate.taken,
            why_not,
            refused: candidate.answer.refused.as_ref().map(ToString::to_string),
            answer: candidate.answer.clone(),
        })
    }

    fn findings(&self, findings: &[Finding]) -> Result<Vec<SaidFinding>, Problem> {
        findings.iter().map(|finding| self.finding(finding)).collect()
    }

    fn finding(&self, finding: &Finding) -> Result<SaidFinding, Problem> {
        let (card, common) = (self.cards.of(self.word), self.cards.common());
        let words = card.checks.get(finding.check).or_else(|| common.checks.get(finding.check)).ok_or_else(|| {
            Problem::new(None, format!("the card `{}` has no words for the check `{}`", self.word, finding.check))
        })?;
        let mut facts = finding.facts.clone();
        if let Some(judged) = &finding.judged {
            facts.push(("got", Fact::figure(judged.got, judged.unit)));
            facts.push(("limit", Fact::figure(judged.limit, judged.unit)));
            facts.push(("margin", difference(judged.margin.abs(), judged.unit, self.filler.print).into()));
        }
        let fill = |text: &str| self.filler.fill("checks", finding.check, text, &facts);
        let proven = finding.verdict == Verdict::Proven;
        let remedy = if proven { None } else { Some(fill(&words.remedy)?) };
        let remedies =
            if proven { Vec::new() } else { self.lines("remedies", |card| &card.remedies, &finding.remedies)? };
        Ok(SaidFinding {
            check: finding.check.into(),
            about: finding.about,
            asks: fill(&words.asks)?,
            figures: finding.judged.as_ref().map(|judged| self.figures(judged)),
            judged: finding.judged,
            verdict: finding.verdict,
            remedy,
            remedies,
            place: finding.place,
        })
    }

    fn figures(&self, judged: &Judged) -> String {
        let keep = if judged.keep == Keep::AtLeast { "at least" } else { "at most" };
        let got = shown(judged.got, Some(judged.doubt), judged.unit, self.filler.print);
        format!("{got}, {keep} {}", shown(judged.limit, None, judged.unit, self.filler.print))
    }

    fn set_up(&self, set_up: &SetUp) -> Result<PlannedSetUp, Problem> {
        let step = |step: &crate::operations::Step| {
            let text = self.say("steps", |card| &card.steps, &step.words)?;
            Ok(SaidStep { id: step.words.id.into(), text, cut: step.cut.clone() })
        };
        let blank = |blank: &Blank| {
            let label = self.say("blanks", |card| &card.blanks, &blank.words)?;
            let said = |fact: &Option<Fact>| fact.as_ref().map(|fact| fact.said(None, self.filler.print));
            Ok(SaidBlank { label, as_found: said(&blank.as_found), target: said(&blank.target) })
        };
        Ok(PlannedSetUp {
            id: set_up.id.into(),
            title: self.say("set-ups", |card| &card.set_ups, &Words::of(set_up.id))?,
            station: set_up.station,
            machine: set_up.machine.clone().unwrap_or_else(|| set_up.station.text().into()),
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
