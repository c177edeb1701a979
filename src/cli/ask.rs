//! `setover ask OPERATION`: question by question to a job that plans; each answer is judged as it comes.

use super::dialogue::{Dialogue, Reply};
use super::draft::{Draft, quoted};
use super::load::Inputs;
use super::say::{page, weighed};
use super::{Stop, exit_code, keys};
use crate::files::{FileFault, Target};
use crate::job::JobFile;
use crate::operations::{Card, Request};
use crate::plan::Plan;
use crate::proof::Place;
use crate::reading::{Key, Node, Problem};
use crate::sheet::terminal::{Shows, answers};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

#[derive(clap::Args)]
pub(super) struct AskArguments {
    /// The operation.
    #[arg(value_name = "OPERATION")]
    operation: String,
    /// The job file to write; left out, it has the operation's name. Nothing that is there is written over.
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// The shop file; left out, `shop.yaml` of this folder where there is one.
    #[arg(long, value_name = "FILE")]
    shop: Option<PathBuf>,
}

/// What is said where the answers end too early.
const ENDED: &str = "no more answers came; nothing was written";

/// Questions that every operation begins with, each with its example.
const FIRST: [(&str, &str, &str); 2] = [
    ("part.material", "What is the part made of? `setover book material NAME` knows many names.", "cast aluminium"),
    ("part.hardness", "How hard is it, where that was tested?", "58 HRC"),
];

pub(super) fn run(arguments: &AskArguments) -> Result<ExitCode, Stop> {
    let (card, asked) = keys::of_operation(&arguments.operation)?;
    let output = arguments.output.clone().unwrap_or_else(|| PathBuf::from(format!("{}.yaml", arguments.operation)));
    if output.exists() {
        return Err(Stop::Unwritten(format!(
            "{}: not written: it is there already; give another name with -o",
            output.display()
        )));
    }
    let here = Path::new("shop.yaml");
    let shop = arguments.shop.as_deref().or_else(|| here.is_file().then_some(here));
    let lists = asked.iter().filter(|key| key.list && !key.under.is_empty()).map(|key| key.key.clone()).collect();
    let mut interview = Interview { dialogue: Dialogue::new(), card, asked: flat(asked), draft: Draft::default() };
    interview.draft.lists = lists;
    interview.draft.operation.clone_from(&arguments.operation);
    // A job names its shop from its own folder.
    interview.draft.shop = shop.map(|path| from_folder_of(&output, path).display().to_string());
    interview.all()?;
    let plan = interview.mended()?;
    let written = Target::of(&output, &[]).and_then(|target| target.write(interview.draft.text().as_bytes()));
    written.map_err(|fault: FileFault| Stop::Unwritten(fault.to_string()))?;
    let plans = [plan];
    page(&format!("\n{}", weighed(&answers(&plans, &Shows::default()).unwrap_or_default())))?;
    interview.dialogue.say(&format!("\nWritten: {0}. Again at any time: setover plan {0}", output.display()))?;
    Ok(exit_code(&plans, false))
}

/// A file as a job names it: from the folder that the job lies in, where it lies there or below.
fn from_folder_of(job: &Path, file: &Path) -> PathBuf {
    let whole = |path: &Path| std::path::absolute(path).unwrap_or_else(|_| path.into());
    let folder = whole(job).parent().map(Path::to_path_buf).unwrap_or_default();
    let file = whole(file);
    file.strip_prefix(&folder).map(Path::to_path_buf).unwrap_or(file)
}

/// How a part is held is asked in the order in which it is set up.
const HELD: [&str; 5] = ["hold.in", "hold.diameter", "hold.grip", "hold.overhang", "hold.true-within"];

/// The single keys with their paths, those that must be given first.
fn flat(keys: Vec<Key>) -> Vec<Key> {
    fn into(key: Key, must: bool, all: &mut Vec<Key>) {
        let required = must && key.required;
        match key.under.is_empty() || !key.asks.is_empty() {
            true => all.push(Key { required, ..key }),
            false => key.under.into_iter().for_each(|under| into(under, required, all)),
        }
    }
    let mut all = Vec::new();
    keys.into_iter().for_each(|key| into(key, true, &mut all));
    all.sort_by_key(|key| !key.required);
    all
}

/// An interview about one operation.
struct Interview<'a> {
    dialogue: Dialogue<'a>,
    card: Card,
    asked: Vec<Key>,
    draft: Draft,
}

impl Interview<'_> {
    /// Asks what must be known, then what checks want that could not be made.
    fn all(&mut self) -> Result<(), Stop> {
        self.dialogue.say(&self.card.does.clone())?;
        self.dialogue
            .say("An empty line skips a question. Sizes carry their unit: 18.0 ± 0.3 mm, 0.709 in, 9 thou.")?;
        self.draft.part =
            match self.dialogue.ask("Which part is it?", "as in timing chest; skipped: it is called part")? {
                Reply::Given(name) => name,
                Reply::Skipped | Reply::Ended => "part".into(),
            };
        for (key, question, example) in FIRST {
            self.one(key, question, &format!("as in {example}"), false)?;
        }
        for key in self.asked.clone().into_iter().filter(|key| key.required) {
            self.key(&key, None)?;
        }
        // A check that must be made and lacks a key: the sheet stays doubtful for want of it.
        let mut seen: Vec<String> = Vec::new();
        loop {
            let plan = self.mended()?;
            let Some((key, check)) = wanted(&plan, &seen) else { break };
            // What it is held in comes before where it is gripped.
            let first =
                HELD.iter().copied().find(|held| !self.is_answered(held) && !seen.iter().any(|one| one == held));
            let key = match first.filter(|_| key.starts_with("hold.")) {
                Some(held) if self.is_answered("hold.in") || held == "hold.in" => held.to_owned(),
                _ => key,
            };
            seen.push(key.clone());
            let Some(found) = self.asked.iter().find(|one| one.key == key).cloned() else { continue };
            if !self.key(&found, Some(&check))? {
                return Ok(());
            }
        }
        // A hold that nobody names is doubtful wherever something turns or presses.
        let held = self.asked.iter().find(|one| one.key == "hold.in").cloned();
        if let Some(held) = held.filter(|held| !self.is_answered(&held.key) && !seen.contains(&held.key)) {
            self.key(&held, None)?;
        }
        Ok(())
    }

    fn is_answered(&self, key: &str) -> bool {
        self.draft.answers.iter().any(|(own, _)| own == key)
    }

    /// Asks one key; whether more may be asked.
    fn key(&mut self, key: &Key, for_check: Option<&str>) -> Result<bool, Stop> {
        let group = key.key.split('.').next().unwrap_or(&key.key);
        let of_card = self.card.questions.get(&key.key).or_else(|| self.card.questions.get(group));
        let question = match (of_card, key.key.contains('.')) {
            (Some(question), false) => question.clone(),
            (Some(question), true) => format!("{question}\n{} ({})", key.means, key.key),
            (None, _) => format!("{} ({})", key.means, key.key),
        };
        let question = match for_check {
            Some(check) => format!("{question}\nSkipped, the sheet stays doubtful: {check}"),
            None => question,
        };
        let hint = match (key.words.is_empty(), key.asks.is_empty()) {
            (false, _) => key.words.iter().map(|(word, means)| in_words(word, means)).collect::<Vec<_>>().join("; "),
            (true, false) => format!("{}, as in {}", key.asks, key.example),
            (true, true) => {
                if key.example.is_empty() {
                    key.takes.clone()
                } else {
                    format!("as in {}", key.example)
                }
            }
        };
        self.one(&key.key, &question, &hint, key.required)
    }

    /// Asks until the answer is read, is skipped where it may be, or no more is coming.
    fn one(&mut self, key: &str, question: &str, hint: &str, required: bool) -> Result<bool, Stop> {
        loop {
            match self.dialogue.ask(&format!("\n{question}"), hint)? {
                Reply::Ended if required => {
                    let text = self.draft.text();
                    if !self.draft.answers.is_empty() {
                        self.dialogue.say("\nThe job as far as it was answered, to copy:")?;
                        text.lines().try_for_each(|line| self.dialogue.say(line))?;
                    }
                    return Err(Stop::Arguments(format!(
                        "no more answers came before `{key}` was given; nothing was written"
                    )));
                }
                Reply::Ended => return Ok(false),
                Reply::Skipped if required => self.dialogue.say("This must be known.")?,
                Reply::Skipped => return Ok(true),
                Reply::Given(value) => {
                    self.draft.answers.push(self.meant(key, value));
                    match self.read().err() {
                        Some(problems) if !problems.is_empty() => {
                            self.draft.answers.pop();
                            for problem in problems {
                                self.dialogue.say(&problem.says)?;
                            }
                        }
                        _ => return Ok(true),
                    }
                }
            }
        }
    }

    /// The key that an answer fills: the one that was asked, or another that the answer names, as in `through: true`.
    fn meant(&self, key: &str, value: String) -> (String, String) {
        let (named, given) = match value.split_once(':') {
            Some((named, given)) => (named.trim(), given.trim()),
            None => (value.trim(), "true"),
        };
        let other = self.asked.iter().find(|own| own.key == named && own.key != key && !self.is_answered(&own.key));
        let says_yes = |other: &&Key| value.contains(':') || other.takes.contains("true");
        match other.filter(says_yes) {
            Some(other) if !given.is_empty() => (other.key.clone(), given.to_owned()),
            _ => (key.to_owned(), value),
        }
    }

    /// Reads the draft; what is only missing yet is no problem.
    fn read(&self) -> Result<JobFile<Request>, Vec<Problem>> {
        let node = Node::yaml(&self.draft.text(), Place::start(0)).map_err(|problem| vec![problem])?;
        JobFile::read(node).map_err(|all| all.into_iter().filter(|problem| !problem.is_missing()).collect())
    }

    /// The plan of the draft; what cannot be a real part is asked again.
    fn mended(&mut self) -> Result<Plan, Stop> {
        loop {
            let problems = match self.plan() {
                Ok(plan) => return Ok(plan),
                Err(problems) => problems,
            };
            for problem in &problems {
                self.dialogue.say(&problem.says)?;
            }
            // A key that it names and that was not asked yet goes before one that would be asked again.
            if let Some(key) = problems.iter().find_map(|problem| self.named_in(&problem.says)) {
                if self.key(&key, None)? {
                    continue;
                }
                return Err(Stop::Arguments(ENDED.into()));
            }
            let answer = problems.iter().find_map(|problem| self.draft.answer_in(problem.place?.line));
            let Some(at) = answer.filter(|at| *at < self.draft.answers.len()) else {
                let says = problems.into_iter().map(|problem| problem.says).collect::<Vec<_>>().join("; ");
                return Err(Stop::Arguments(says));
            };
            let (key, value) = self.draft.answers.remove(at);
            let required = self.asked.iter().any(|one| one.key == key && one.required);
            // What need not be known is left out where no other answer comes.
            let more = self.one(&key, &format!("{key} was {}: and now?", quoted(&value)), "", required)?;
            if !more && required {
                return Err(Stop::Arguments(ENDED.into()));
            }
        }
    }

    /// The first key named in a message that has no answer yet: it must be given now.
    fn named_in(&self, says: &str) -> Option<Key> {
        let named = says.split('`').skip(1).step_by(2);
        let open = |name: &&str| !self.draft.answers.iter().any(|(key, _)| key == name);
        let mut found = named.filter(open).find_map(|name| self.asked.iter().find(|key| key.key == name)).cloned()?;
        found.required = true;
        Some(found)
    }

    fn plan(&self) -> Result<Plan, Vec<Problem>> {
        let mut inputs = Inputs::default();
        inputs.text("job", self.draft.text());
        // Now what is missing counts too: a key given in a group may need another of it.
        let node = Node::yaml(&self.draft.text(), Place::start(0)).map_err(|problem| vec![problem])?;
        let job = JobFile::read(node)?;
        let shop = match &self.draft.shop {
            Some(path) => Some(inputs.shop(Path::new(path), None).ok_or_else(|| std::mem::take(&mut inputs.problems))?),
            None => None,
        };
        let plan = inputs.work(&job, shop.as_ref(), None);
        plan.ok_or(inputs.problems)
    }
}

/// The first key that a check which must be made lacks, with what the check asks.
fn wanted(plan: &Plan, seen: &[String]) -> Option<(String, String)> {
    let planned = plan.operations.first()?;
    let [must, _] = planned.unmade();
    let lacking =
        must.iter().flat_map(|unmade| unmade.keys.iter().map(|key| ((*key).to_owned(), some(&unmade.checks))));
    lacking.into_iter().find(|(key, _)| !seen.contains(key))
}

/// Checks by name, no more of them than anybody reads.
fn some<T: AsRef<str>>(checks: &[T]) -> String {
    const NAMED: usize = 3;
    let named: Vec<&str> = checks.iter().take(NAMED).map(AsRef::as_ref).collect();
    match checks.len().saturating_sub(NAMED) {
        0 => named.join("; "),
        more => format!("{} and {more} more", named.join("; ")),
    }
}

/// A word that may be answered, with its meaning where that says more.
fn in_words(word: &str, means: &str) -> String {
    let plain = means.trim_end_matches('.').to_lowercase();
    let same = plain.is_empty() || plain.trim_start_matches("a ").trim_start_matches("an ") == word.replace('-', " ");
    if same { word.to_owned() } else { format!("{word}: {plain}") }
}
