//! A job planned: answers with the words of their cards filled in. This is what every output is made from.

use super::cards::Cards;
use super::order::Task;
use super::words::Filler;
use crate::drawing::Sketch;
use crate::handbook::materials::safety;
use crate::job::{Address, JobFile};
use crate::operations::card::Texts;
use crate::operations::{Alternative, Answer, Blank, Choice, Cut, Request, SetUp, Station, WORST_MEMBER};
use crate::proof::{Check, Fact, Judged, Keep, Place, State, Verdict, Weight, Words};
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
    /// Alternatives in words.
    pub alternatives: Vec<SaidAlternative>,
    /// Checks in words.
    pub checks: Vec<SaidCheck>,
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

/// A alternative in words.
#[derive(Clone, Debug)]
pub struct SaidAlternative {
    /// Its name.
    pub name: String,
    /// Its verdict.
    pub verdict: Verdict,
    /// Its answer.
    pub answer: Answer,
    /// Its checks in words.
    pub checks: Vec<SaidCheck>,
    /// Whether it was chosen.
    pub chosen: bool,
    /// Why not.
    pub why_not: Option<String>,
    /// What could not be worked out.
    pub refused: Option<String>,
}

/// A check in words.
#[derive(Clone, Debug)]
pub struct SaidCheck {
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
    /// What became of it.
    pub state: State,
    /// What it counts for.
    pub weight: Weight,
    /// The keys that would let it be made, where it was not.
    pub missing: Vec<String>,
    /// Whether it rests on a figure that was remembered and not read.
    pub from_memory: bool,
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

/// Checks that were not made for want of the keys under one parent key, in one line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unmade {
    /// The checks by name.
    pub checks: Vec<String>,
    /// The keys that would open them, nested ones with dots.
    pub keys: Vec<String>,
}

impl Planned {
    /// The checks that were not made, those of one parent key together: first those that must be made, then those that may.
    pub fn unmade(&self) -> [Vec<Unmade>; 2] {
        let of = |weight: Weight| {
            let mut groups: Vec<(String, Unmade)> = Vec::new();
            for check in self.checks.iter().filter(|check| check.state == State::NotChecked && check.weight == weight) {
                let parent = |key: &String| key.split('.').next().unwrap_or(key).to_owned();
                let parent = check.missing.first().map(parent).unwrap_or_default();
                let at = groups.iter().position(|group| group.0 == parent).unwrap_or_else(|| {
                    groups.push((parent, Unmade { checks: Vec::new(), keys: Vec::new() }));
                    groups.len() - 1
                });
                let Some((_, group)) = groups.get_mut(at) else { continue };
                group.checks.push(check.asks.clone());
                let new = check.missing.iter().filter(|key| !group.keys.contains(key)).cloned().collect::<Vec<_>>();
                group.keys.extend(new);
            }
            groups.into_iter().map(|group| group.1).collect()
        };
        [of(Weight::Must), of(Weight::May)]
    }

    /// The checks that rest on a figure that was remembered and not read.
    pub fn from_memory(&self) -> Vec<&str> {
        let rests = self.checks.iter().filter(|check| check.from_memory && check.state.verdict().is_some());
        rests.map(|check| check.check.as_str()).collect()
    }
}

impl SaidCheck {
    /// The verdict, where it was made.
    pub fn verdict(&self) -> Option<Verdict> {
        self.state.verdict()
    }

    /// What it does to the stamp; none where it does nothing.
    pub fn stamps(&self) -> Option<Verdict> {
        match (self.weight, self.state) {
            (Weight::Advice, _) => None,
            (_, State::Made(verdict)) => Some(verdict),
            (Weight::Must, State::NotChecked) => Some(Verdict::Doubtful),
            _ => None,
        }
    }
}

/// Puts the words of the cards to the answers. A slip in a shop's own card refuses the operation that needs it; the others go
/// on.
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
        let planned = Speaker::of(task, &answer, cards, print).planned(task, job);
        match cards.refusal(word, planned.as_ref().err()) {
            Some(refusal) => {
                let refused = task.request.refused(refusal);
                problems.extend(
                    Speaker::of(task, &refused, cards, print).planned(task, job).map(|p| operations.push(p)).err(),
                );
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
        let own_note = answer.facts.iter().find(|fact| fact.0 == "stamp_note");
        let own_note = own_note.map(|fact| fact.1.said(None, self.filler.print));
        let no_shop = answer.checks.iter().any(|check| check.state == State::NoShop);
        let no_shop = no_shop.then(|| self.say("reasons", |card| &card.reasons, &Words::of("no-shop"))).transpose()?;
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
        Ok(SaidChoice { name: choice.name.into(), chosen: choice.chosen.clone(), why })
    }

    fn alternative(&self, alternative: &Alternative) -> Result<SaidAlternative, Problem> {
        let filler = Filler { answer: &alternative.answer, owner: Some(self.filler.answer), ..self.filler };
        let own = Speaker { filler, cards: self.cards, word: self.word };
        let why_not =
            alternative.why_not.as_ref().map(|words| own.say("reasons", |card| &card.reasons, words)).transpose()?;
        Ok(SaidAlternative {
            name: alternative.name.clone(),
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
            facts.push(("limit", Fact::figure(judged.limit, judged.unit)));
            // The worst-case margin; a check that fails at its middle is told by how much it fails at its worst.
            facts.push(("margin", difference(judged.margin.abs(), judged.unit, self.filler.print).into()));
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
            figures: check.judged.as_ref().map(|judged| self.figures(judged)),
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
            figures: None,
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
