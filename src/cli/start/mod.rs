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
    /// The machine that it belongs to: asked only where that one is there.
    #[serde(default)]
    pub of: String,
    /// What is asked.
    pub asks: String,
    /// An answer that is read.
    pub example: String,
    /// What it costs to skip it.
    pub skipped: String,
}

/// What was answered, by question.
pub(super) type Answers = BTreeMap<String, String>;

/// The first job: it plans in any shop.
const FIRST_JOB: &str = include_str!("first-job.yaml");

pub(super) fn run(arguments: &StartArguments) -> Result<ExitCode, Stop> {
    let [shop, job] = ["shop.yaml", "first-job.yaml"].map(|name| arguments.folder.join(name));
    if let Some(there) = [&shop, &job].into_iter().find(|path| path.exists()) {
        return Err(Stop::Unwritten(format!(
            "{}: not written: it is there already; give another folder",
            there.display()
        )));
    }
    let questions = questions()?;
    let answered = if arguments.plain { Answers::new() } else { ask(&questions)? };
    let unwritten = |error: std::io::Error| {
        Stop::Unwritten(format!("{}: not written: {}", arguments.folder.display(), plainly(&error)))
    };
    std::fs::create_dir_all(&arguments.folder).map_err(unwritten)?;
    write(&shop, &shop_text::shop_text(&questions, &answered))?;
    write(&job, FIRST_JOB)?;
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
    dialogue.say("An empty line skips a question. Sizes carry their unit: 0.02 mm, 0.001 in, 1 thou.")?;
    for question in questions {
        let without = match question.of.as_str() {
            "lathe" => !answered.contains_key("spindle"),
            "four-jaw" => !answered.contains_key("four-jaw-diameter"),
            "micrometer" => !answered.contains_key("micrometer"),
            _ => false,
        };
        if without {
            continue;
        }
        loop {
            let hint = format!("as in {}; skipped: {}", question.example, question.skipped);
            match dialogue.ask(&format!("\n{}", question.asks), &hint)? {
                Reply::Ended => return Ok(answered),
                Reply::Skipped => break,
                Reply::Given(answer) => {
                    answered.insert(question.id.clone(), answer);
                    let problems = problems(&shop_text::shop_text(questions, &tried(questions, question, &answered)));
                    if problems.is_empty() {
                        break;
                    }
                    answered.remove(&question.id);
                    for problem in problems {
                        dialogue.say(&problem.says)?;
                    }
                }
            }
        }
    }
    Ok(answered)
}

/// The answers with an example for what is still to be asked of the same instrument: so each is read as soon as it is given.
fn tried(questions: &[Question], asked: &Question, answered: &Answers) -> Answers {
    let of = if asked.of.is_empty() { &asked.id } else { &asked.of };
    let open = questions.iter().filter(|other| other.of == *of && !answered.contains_key(&other.id));
    let mut all = answered.clone();
    all.extend(open.map(|other| (other.id.clone(), other.example.clone())));
    all
}

fn problems(text: &str) -> Vec<Problem> {
    let read = Node::yaml(text, Place::start(0)).map_err(|problem| vec![problem]).and_then(Node::read_known::<Shop>);
    match read {
        Ok(shop) => shop.problems(),
        Err(problems) => problems,
    }
}
