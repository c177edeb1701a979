//! `setover start [DIR]`: plain questions about the shop, a commented shop file and a first job that plans at once.

mod shop_text;

use super::Stop;
use super::dialogue::{Dialogue, Reply};
use super::load::Inputs;
use super::say::{page, weighed};
use crate::files::{Target, plainly};
use crate::proof::Place;
use crate::reading::{Node, Problem, harmless};
use crate::sheet::terminal::{Shows, answers};
use crate::shop::Shop;
use serde::Deserialize;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

#[derive(clap::Args)]
pub(super) struct StartArguments {
    /// The folder; it is made where it is not there.
    #[arg(value_name = "DIR", default_value = ".")]
    folder: PathBuf,
    /// Asks nothing: everything in the shop file is left for you to write.
    #[arg(long)]
    plain: bool,
}

/// A question about the shop.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Question {
    /// What it fills.
    pub id: String,
    /// The question of the machine or instrument that it belongs to: asked only where that was answered.
    #[serde(default)]
    pub of: String,
    /// The questions of the machines in which it is used: asked only where one of them was answered.
    #[serde(default, rename = "turns-in")]
    pub turns_in: Vec<String>,
    /// Whether a thing of which this is not known is left out.
    #[serde(default)]
    pub must: bool,
    /// What the thing is called that is there where this was answered, and may be left out for want of another answer.
    #[serde(default)]
    pub thing: String,
    /// The questions that may be answered with it in one line, itself the first; empty where it is answered alone.
    #[serde(default)]
    pub parts: Vec<String>,
    /// What stands in that line.
    #[serde(default)]
    pub whole: String,
    /// What is asked.
    pub asks: String,
    /// An answer that is read.
    pub example: String,
    /// The same in a shop of inches, where it is another.
    #[serde(default)]
    pub inch: Option<String>,
    /// What it costs to skip it.
    pub skipped: String,
}

impl Question {
    /// An answer that is read, in the units of the shop.
    pub(super) fn example_in(&self, answered: &Answers) -> &str {
        self.inch.as_deref().filter(|_| of_inches(answered)).unwrap_or(&self.example)
    }
}

/// Whether the shop works in inches, under any of the words that say so.
fn of_inches(answered: &Answers) -> bool {
    let units = answered.get("units").map(|units| units.to_lowercase());
    units.is_some_and(|units| units.starts_with("inch") || units.starts_with("imperial"))
}

/// What was answered, by question.
pub(super) type Answers = BTreeMap<String, String>;

/// The first job of a shop that drills and measures, and the one that plans in any shop: each in millimetres and in inches.
const FIRST_HOLE: [&str; 2] = [include_str!("first-hole.yaml"), include_str!("first-hole-inch.yaml")];
const FIRST_JOB: [&str; 2] = [include_str!("first-job.yaml"), include_str!("first-job-inch.yaml")];

fn first_job(answered: &Answers) -> &'static str {
    let has = |id: &str| answered.contains_key(id);
    let drills = (has("drill-press") || has("mill")) && has("drills-from");
    let [metric, inch] = if drills { FIRST_HOLE } else { FIRST_JOB };
    if of_inches(answered) { inch } else { metric }
}

pub(super) fn run(arguments: &StartArguments) -> Result<ExitCode, Stop> {
    let [shop, job] = ["shop.yaml", "first-job.yaml"].map(|name| arguments.folder.join(name));
    if let Some(there) = [&shop, &job].into_iter().find(|path| path.exists()) {
        return Err(Stop::Unwritten(format!(
            "{}: not written: it is there already; give another folder",
            there.display()
        )));
    }
    let questions = questions()?;
    let told = if arguments.plain { Answers::new() } else { ask(&questions)? };
    let answered = whole(&questions, told.clone());
    let unwritten = |error: std::io::Error| {
        Stop::Unwritten(format!("{}: not written: {}", arguments.folder.display(), plainly(&error)))
    };
    std::fs::create_dir_all(&arguments.folder).map_err(unwritten)?;
    write(&shop, &shop_text::shop_text(&questions, &answered, &told))?;
    write(&job, first_job(&answered))?;
    let mut inputs = Inputs::default();
    let plans = inputs.jobs(std::slice::from_ref(&job), None);
    let plans = inputs.settle(plans)?;
    page(&format!("\n{}", weighed(&answers(&plans, &Shows::default()).unwrap_or_default())))?;
    page(&format!(
        "\nWritten: {} and {}. Open both: every line says what it is. Again at any time: setover plan {}\n",
        harmless(&shop.display().to_string()),
        harmless(&job.display().to_string()),
        harmless(&job.display().to_string())
    ))?;
    // The first job is an example: that it fails in a bare shop is no fault of the start.
    Ok(ExitCode::SUCCESS)
}

fn questions() -> Result<Vec<Question>, Stop> {
    let stop = |problems: Vec<Problem>| Stop::Input(problems, Vec::new());
    let node = Node::yaml(include_str!("questions.yaml"), Place::start(0)).map_err(|problem| stop(vec![problem]))?;
    node.read().map_err(stop)
}

fn write(path: &Path, text: &str) -> Result<(), Stop> {
    let written = Target::of(path, &[]).and_then(|target| target.write(text.as_bytes()));
    written.map_err(|fault| Stop::Unwritten(fault.to_string()))
}

/// Asks what there is; each answer is read as the shop file would be, and asked again where it cannot be.
fn ask(questions: &[Question]) -> Result<Answers, Stop> {
    let mut dialogue = Dialogue::new();
    let mut answered = Answers::new();
    let (mut left_out, mut passed): (Vec<&str>, Vec<String>) = (Vec::new(), Vec::new());
    dialogue.say(
        "Every question may be skipped: by an empty line, or `none`. `stop` ends the questions; what was answered is written. \
         Sizes carry their unit: 0.02 mm, 0.001 in, 1 thou.",
    )?;
    for question in questions {
        if answered.contains_key(&question.id) || (passed.contains(&question.id) && !question.must) {
            continue;
        }
        if !question.of.is_empty() && (!answered.contains_key(&question.of) || left_out.contains(&question.of.as_str()))
        {
            continue;
        }
        if !question.turns_in.is_empty() && !question.turns_in.iter().any(|id| answered.contains_key(id)) {
            continue;
        }
        let skipped = match thing_of(questions, question) {
            Some(thing) if question.must => format!("the {thing} stays out of the shop until it is known"),
            _ => question.skipped.clone(),
        };
        loop {
            let like = lined_up(questions, question, &answered);
            let hint = format!("as in {like}; skipped: {skipped}");
            let asks = match question.parts.is_empty() {
                true => question.asks.clone(),
                false => format!("{}\nAlone, or in one line with commas: {}.", question.asks, question.whole),
            };
            match dialogue.ask(&format!("\n{asks}"), &hint)? {
                Reply::Ended => {
                    dialogue
                        .say("\nThe questions end here; what was answered is written, the rest stands behind a #.")?;
                    return Ok(answered);
                }
                Reply::Given(answer) if !NONE.contains(&answer.to_lowercase().as_str()) => {
                    let Some((given, skips)) = in_one_line(questions, question, &answer) else {
                        dialogue.say(&format!("No more stands in that line than this: {}.", question.whole))?;
                        continue;
                    };
                    let ids: Vec<String> = given.iter().map(|(id, _)| id.clone()).collect();
                    answered.extend(given);
                    let tried = tried(questions, &answered);
                    let problems = problems(&shop_text::shop_text(questions, &tried, &tried));
                    if problems.is_empty() {
                        passed.extend(skips);
                        break;
                    }
                    ids.iter().for_each(|id| drop(answered.remove(id)));
                    let mut said: Vec<String> = Vec::new();
                    for says in problems.into_iter().map(|problem| problem.says) {
                        if !said.contains(&says) {
                            dialogue.say_sentence(&says)?;
                            said.push(says);
                        }
                    }
                }
                Reply::Skipped | Reply::Given(_) => {
                    if let Some(thing) = thing_of(questions, question).filter(|_| question.must) {
                        left_out.push(&question.of);
                        dialogue.say(&format!(
                            "The {thing} stays out of the shop until that is known; what was said of it stands in shop.yaml behind a #."
                        ))?;
                    }
                    break;
                }
            }
        }
    }
    Ok(answered)
}

/// The parts of an answer.
fn parts_of(answer: &str) -> impl Iterator<Item = &str> {
    answer.split("; ").flat_map(|part| part.split(", ")).map(str::trim)
}

/// What was given in one line, by question, and which questions were passed over in it.
type InOneLine = (Vec<(String, String)>, Vec<String>);

/// An answer to a question and to those that may be answered with it: what was given, by question, and what was passed over. None
/// where more was said than was asked. A comma with no blank behind it parts nothing: it may be a decimal sign.
fn in_one_line(questions: &[Question], question: &Question, answer: &str) -> Option<InOneLine> {
    let alone = || (vec![(question.id.clone(), meant(question, answer.to_owned()))], Vec::new());
    if question.parts.is_empty() || parts_of(answer).count() < 2 {
        return Some(alone());
    }
    if parts_of(answer).count() > question.parts.len() {
        return None;
    }
    let (mut given, mut passed) = (Vec::new(), Vec::new());
    for (id, part) in question.parts.iter().zip(parts_of(answer)) {
        let own = questions.iter().find(|own| own.id == *id)?;
        match part.is_empty() || NONE.contains(&part.to_lowercase().as_str()) {
            true => passed.push(id.clone()),
            false => given.push((id.clone(), meant(own, part.to_owned()))),
        }
    }
    Some((given, passed))
}

/// An answer that is read: to a question alone, and to all that may stand in its line.
fn lined_up(questions: &[Question], question: &Question, answered: &Answers) -> String {
    let own = question.example_in(answered);
    let of = |id: &String| questions.iter().find(|own| own.id == *id).map(|own| own.example_in(answered));
    let all: Vec<&str> = question.parts.iter().filter_map(of).collect();
    if all.is_empty() { own.to_owned() } else { format!("{own}, or {}", all.join(", ")) }
}

/// What the thing is called that a question belongs to.
fn thing_of<'a>(questions: &'a [Question], question: &Question) -> Option<&'a str> {
    let head = questions.iter().find(|other| other.id == question.of)?;
    Some(head.thing.as_str()).filter(|thing| !thing.is_empty())
}

/// Words that skip a question as an empty line does.
const NONE: [&str; 5] = ["none", "no", "n", "-", "skip"];

/// A plate has bare figures: of spindle speeds they are turns a minute. Its steps may stand apart by commas too, a blank behind each:
/// `0,06` is a decimal comma.
fn meant(question: &Question, answer: String) -> String {
    if question.id == "units" {
        return answer.to_lowercase();
    }
    let of_a_plate = ["rev/min", "/rev"].iter().any(|unit| question.example.ends_with(unit));
    let answer = if of_a_plate { answer.replace(", ", " ") } else { answer };
    let bare = answer.chars().all(|sign| sign.is_ascii_digit() || " .,".contains(sign));
    if bare && question.example.ends_with("rev/min") { format!("{answer} rev/min") } else { answer }
}

/// The answers with an example for what must still be told of a thing that is there: so each is read as soon as it is given.
fn tried(questions: &[Question], answered: &Answers) -> Answers {
    let mut all = answered.clone();
    let open = open(questions, answered).map(|other| (other.id.clone(), other.example_in(answered).to_owned()));
    all.extend(open);
    all
}

/// What must be told of a thing that is there and was not.
fn open<'a>(questions: &'a [Question], answered: &'a Answers) -> impl Iterator<Item = &'a Question> {
    let open = |other: &&Question| other.must && answered.contains_key(&other.of) && !answered.contains_key(&other.id);
    questions.iter().filter(open)
}

/// The answers without the things of which something that must be known was not told.
fn whole(questions: &[Question], mut answered: Answers) -> Answers {
    let left: Vec<String> = open(questions, &answered).map(|question| question.of.clone()).collect();
    left.iter().for_each(|thing| drop(answered.remove(thing)));
    answered
}

fn problems(text: &str) -> Vec<Problem> {
    let read = Node::yaml(text, Place::start(0)).map_err(|problem| vec![problem]).and_then(Node::read_known::<Shop>);
    match read {
        Ok(shop) => shop.problems(),
        Err(problems) => problems,
    }
}
