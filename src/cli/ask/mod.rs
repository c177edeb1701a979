//! `setover ask OPERATION`: question by question to a job that plans; each answer is judged as it comes.

mod mend;
mod things;

use super::dialogue::{Dialogue, Reply};
use super::draft::Draft;
use super::in_inches::in_inches;
use super::say::{page, print, weighed};
use super::{Stop, exit_code, first, keys};
use crate::files::{FileFault, Target};
use crate::handbook::Material;
use crate::in_order::InOrder;
use crate::job::JobFile;
use crate::operations::{Card, Request};
use crate::plan::Plan;
use crate::proof::Place;
use crate::quantity::figure;
use crate::reading::{Key, Keys, Node, Problem};
use crate::sheet::terminal::{Shows, answers};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

#[derive(clap::Args)]
pub(super) struct AskArguments {
    /// The operation.
    #[arg(value_name = "OPERATION")]
    operation: String,
    /// The job file to write, `-` is standard output; left out, it has the operation's name. Nothing that is there is written over.
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
    ("part.material", "What is the part made of? `setover book materials` lists the names.", "cast aluminium"),
    ("part.hardness", "How hard is it, where that was tested?", "58 HRC"),
];

/// What is asked of keys that many operations have, where the card of one has no words of its own.
const OF_MANY: [(&str, &str); 9] = [
    ("hold.in", "What is it held in?"),
    ("hold.diameter", "At what diameter is it gripped?"),
    ("hold.inside", "What bore has what is gripped? 0 mm where it is solid."),
    ("hold.grip", "How long is the grip, along the part?"),
    ("hold.overhang", "How far does it stand out of the grip?"),
    ("hold.true-within", "Within what run-out is it set true before it is cut?"),
    ("hold.tested", "What torque did it stand as held, tried with bar and spring balance?"),
    ("hold.stop", "What stops it from being pushed along?"),
    ("material", "What is it made of, where that is not the metal of the part?"),
];

/// A question where nobody has worded one: what the key means.
fn question_of(own: &str, means: &str) -> String {
    if let Some((_, asks)) = OF_MANY.iter().find(|(key, _)| *key == own) {
        return format!("{asks} ({own})");
    }
    // What leaving it out does is said beside the key, and by the sheet.
    let means = means.split("; left out").next().unwrap_or(means);
    let end = if means.ends_with(['?', '.']) { "" } else { "?" };
    format!("{means}{end} ({own})")
}

pub(super) fn run(arguments: &AskArguments) -> Result<ExitCode, Stop> {
    let (card, asked) = keys::of_operation(&arguments.operation)?;
    let output = arguments.output.clone().unwrap_or_else(|| PathBuf::from(format!("{}.yaml", arguments.operation)));
    let to_stdout = output.as_os_str() == "-";
    if !to_stdout && output.exists() {
        return Err(Stop::Unwritten(format!(
            "{}: not written: it is there already; give another name with -o",
            output.display()
        )));
    }
    let here = Path::new("shop.yaml");
    let shop = arguments.shop.as_deref().or_else(|| here.is_file().then_some(here));
    let lists = asked.iter().filter(|key| key.list && !key.under.is_empty()).map(|key| key.key.clone()).collect();
    let mut asked = asked;
    if shop.is_some_and(keys::works_in_inches) {
        in_inches(&mut asked);
    }
    let tree = asked.clone();
    let mut interview = Interview {
        dialogue: if to_stdout { Dialogue::aside() } else { Dialogue::new() },
        card,
        tree,
        asked: flat(asked),
        draft: Draft::default(),
        folder: output.parent().map(Path::to_path_buf).unwrap_or_default(),
        heading: String::new(),
    };
    interview.draft.lists = lists;
    interview.draft.operation.clone_from(&arguments.operation);
    // A job names its shop from its own folder.
    interview.draft.shop = shop.map(|path| from_folder_of(&output, path).display().to_string());
    interview.all()?;
    let plan = interview.mended()?;
    // What was skipped leaves doubts: which reading comes first is said with them.
    let text = interview.draft.text();
    let first = plan.operations.first().and_then(|planned| {
        let first = first::of(planned, (&output, &text), shop, plan.print)?;
        Some((planned.address.clone(), first))
    });
    let shows = Shows { first, ..Shows::default() };
    if to_stdout {
        print(&text)?;
        let plans = [plan];
        interview.dialogue.show(&format!("\n{}", weighed(&answers(&plans, &shows).unwrap_or_default())))?;
        return Ok(exit_code(&plans, false));
    }
    let written = Target::of(&output, &[]).and_then(|target| target.write(text.as_bytes()));
    written.map_err(|fault: FileFault| Stop::Unwritten(fault.to_string()))?;
    let plans = [plan];
    page(&format!("\n{}", weighed(&answers(&plans, &shows).unwrap_or_default())))?;
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

/// The single keys with their paths, those that must be given first; behind them what is measured of a thing that must be told.
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
    all.order_by_key(|key| !key.required);
    all
}

/// The keys of things that must be told which are read off the part, and may be left out.
fn measured(keys: &[Key]) -> Vec<String> {
    let things = keys.iter().filter(|key| key.required && !key.list && key.key != "hold");
    let open = |key: &&Key| !key.required && key.under.is_empty() && is_measured(key);
    things.flat_map(|thing| thing.under.iter().filter(open)).map(|key| key.key.clone()).collect()
}

fn is_measured(key: &Key) -> bool {
    key.asks == "measured" || key.means.contains("(measured)")
}

/// A key without the number of an item in it.
fn plain(key: &str) -> String {
    let mut out = String::new();
    let mut rest = key;
    while let Some((before, after)) = rest.split_once('[') {
        out += before;
        rest = after.split_once(']').map_or("", |(_, rest)| rest);
    }
    out + rest
}

/// An interview about one operation.
struct Interview<'a> {
    dialogue: Dialogue<'a>,
    card: Card,
    /// The keys as they hang together.
    tree: Vec<Key>,
    asked: Vec<Key>,
    draft: Draft,
    /// Where the job is to lie: it names its shop from there.
    folder: PathBuf,
    /// The thing that was asked about last: its question is not said again for each of its keys.
    heading: String,
}

impl Interview<'_> {
    /// Asks what must be known, then what checks want that could not be made.
    fn all(&mut self) -> Result<(), Stop> {
        self.dialogue.say(&self.card.does.clone())?;
        self.dialogue.say(
            "An empty line skips a question where it may be skipped; `stop` ends the questions. Sizes carry their unit: 18.0 ± 0.3 mm, 0.709 in, 9 thou.",
        )?;
        self.draft.part =
            match self.dialogue.ask("Which part is it?", "as in timing chest; skipped: it is called part")? {
                Reply::Given(name) => name,
                Reply::Skipped | Reply::Ended => "part".into(),
            };
        let hangs_on_metal = self.hangs_on_metal();
        for (key, question, example) in FIRST {
            let hint = match (key, self.hardnesses()) {
                ("part.hardness", Some(of_metal)) => of_metal,
                ("part.material", _) if hangs_on_metal => format!("as in {example}; skipped, it is asked again"),
                _ => format!("as in {example}"),
            };
            self.one(key, question, &hint, false)?;
        }
        let measured = measured(&self.tree);
        let things = self.tree.clone();
        for thing in things.iter().filter(|key| key.required) {
            if thing.list && !thing.under.is_empty() {
                self.items(thing, None)?;
                continue;
            }
            let own = |key: &&Key| key.key == thing.key || key.key.starts_with(&format!("{}.", thing.key));
            let told = |key: &&Key| key.required || measured.contains(&key.key);
            let of_thing: Vec<Key> = self.asked.iter().filter(own).filter(told).cloned().collect();
            for key in of_thing {
                if (key.required || self.would_do(&key)) && !self.key(&key, None)? {
                    return Ok(());
                }
            }
        }
        // A check that must be made and lacks a key: the sheet stays doubtful for want of it.
        let mut seen: Vec<String> = Vec::new();
        loop {
            let plan = self.mended()?;
            // What could not be worked out for want of a key.
            let refused = plan.operations.first().and_then(|planned| planned.answer.refused.as_ref());
            let lacks = refused.map(ToString::to_string);
            const WANTED: &str = "it cannot be worked out without it";
            let named = lacks.as_ref().and_then(|says| self.named_in(says));
            if let Some(key) = named.filter(|key| !seen.contains(&key.key)) {
                seen.push(key.key.clone());
                if !self.key(&Key { required: false, ..key }, Some(WANTED))? {
                    return Ok(());
                }
                continue;
            }
            // The same of a thing with keys under it.
            let open = self.tree.iter().filter(|thing| !thing.under.is_empty() && !seen.contains(&thing.key));
            let says = lacks.as_deref().unwrap_or_default();
            let named = open.filter_map(|thing| Some((says.find(&format!("`{}`", thing.key))?, thing)));
            if let Some(thing) = named.min_by_key(|(at, _)| *at).map(|(_, thing)| thing.clone()) {
                seen.push(thing.key.clone());
                if !self.thing(&thing, WANTED)? {
                    return Ok(());
                }
                continue;
            }
            let Some((key, check)) = wanted(&plan, &seen) else { break };
            // What it is held in comes before where it is gripped.
            let first =
                HELD.iter().copied().find(|held| !self.is_answered(held) && !seen.iter().any(|one| one == held));
            let key = match first.filter(|_| key.starts_with("hold.")) {
                Some(held) if self.is_answered("hold.in") || held == "hold.in" => held.to_owned(),
                _ => key,
            };
            seen.push(key.clone());
            if let Some(thing) = self.tree.iter().find(|one| one.key == key && !one.under.is_empty()).cloned() {
                if !self.thing(&thing, &check)? {
                    return Ok(());
                }
                continue;
            }
            let Some(found) = self.asked.iter().find(|one| one.key == key).cloned() else { continue };
            if !self.key(&found, Some(&check))? {
                return Ok(());
            }
        }
        if !self.what_would_settle(&mut seen)? {
            return Ok(());
        }
        // A hold that nobody names is doubtful wherever something turns or presses.
        let held = self.asked.iter().find(|one| one.key == "hold.in").cloned();
        let was_asked = |key: &str| seen.iter().any(|one| one == key || key.starts_with(&format!("{one}.")));
        if let Some(held) = held.filter(|held| !self.is_answered(&held.key) && !was_asked(&held.key)) {
            self.key(&held, None)?;
        }
        self.anything_else()
    }

    /// Whether nothing is worked out without the metal of the part.
    fn hangs_on_metal(&self) -> bool {
        let wanted = Keys::of::<JobFile<Request>>().wanted("Request", &self.draft.operation);
        wanted.iter().any(|key| key.key.ends_with("material of the part") && !key.key.contains("housing"))
    }

    /// What a test of the metal that was named would read, by the book.
    fn hardnesses(&self) -> Option<String> {
        let (_, name) = self.draft.answers.iter().find(|(key, _)| key == "part.material")?;
        let (low, high, scale, _) = name.parse::<Material>().ok()?.hardness_range()?;
        Some(format!("as in {} {scale}; the book has {} to {} {scale}", figure(low), figure(low), figure(high)))
    }

    fn is_answered(&self, key: &str) -> bool {
        self.draft.answers.iter().any(|(own, _)| own == key)
    }

    /// Asks one key; whether more may be asked.
    fn key(&mut self, key: &Key, for_check: Option<&str>) -> Result<bool, Stop> {
        self.key_with(key, for_check, None)
    }

    /// The same with a line before its own.
    fn key_with(&mut self, key: &Key, for_check: Option<&str>, before: Option<&str>) -> Result<bool, Stop> {
        let own = plain(&key.key);
        let group = own.split('.').next().unwrap_or(&own).to_owned();
        let of_card = self.card.questions.get(own.as_str()).or_else(|| self.card.questions.get(group.as_str()));
        // What is asked about a thing is said once, before the first of its keys.
        let of_card = of_card.filter(|_| own == group || self.heading != group).cloned();
        self.heading = group;
        let question = match (of_card, own.contains('.')) {
            (Some(question), false) => question.into_owned(),
            (Some(question), true) => format!("{question}\n{}", question_of(&own, &key.means)),
            (None, _) => question_of(&own, &key.means),
        };
        let question = match for_check {
            Some(check) => format!("{question}\nSkipped, the sheet stays doubtful: {check}"),
            None => question,
        };
        let question = before.map_or(question.clone(), |before| format!("{before}\n{question}"));
        let hint = match (key.words.is_empty(), key.asks.is_empty()) {
            (false, _) => key.words.iter().map(|(word, means)| in_words(word, means)).collect::<Vec<_>>().join("; "),
            (true, is_none) => {
                let like = if key.example.is_empty() { key.takes.clone() } else { format!("as in {}", key.example) };
                let asks = if is_none { String::new() } else { key.asks.clone() };
                let all = [asks, self.range(key), like];
                all.into_iter().filter(|part| !part.is_empty()).collect::<Vec<_>>().join(", ")
            }
        };
        let hint = if key.required { format!("must be known; {hint}") } else { hint };
        if key.list && key.under.is_empty() && key.words.is_empty() {
            return self.rows(key, &question, &hint);
        }
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
                    // What a list takes may be said without its brackets.
                    let listed = self.in_brackets(key, &value);
                    let said = self.meant(key, value);
                    let Some(problems) = self.taken(said) else { return Ok(true) };
                    if let Some(listed) = listed
                        && self.taken((key.to_owned(), listed)).is_none()
                    {
                        return Ok(true);
                    }
                    for problem in problems {
                        self.dialogue.say_sentence(&problem.says)?;
                    }
                }
            }
        }
    }

    /// Puts an answer down where it is read; else gives what is wrong with it.
    fn taken(&mut self, answer: (String, String)) -> Option<Vec<Problem>> {
        self.draft.answers.push(answer);
        let problems = self.read().err().filter(|problems| !problems.is_empty())?;
        self.draft.answers.pop();
        Some(problems)
    }

    /// An answer to a key that takes a list, in its brackets: rows parted by `;`, else by commas, words by blanks too.
    fn in_brackets(&self, key: &str, value: &str) -> Option<String> {
        let asked = self.asked.iter().find(|own| own.key == key).filter(|own| own.list)?;
        let is_word = |sign: char| !asked.words.is_empty() && sign.is_whitespace();
        let parts = |by: &dyn Fn(char) -> bool| {
            let all: Vec<&str> = value.split(by).map(str::trim).filter(|part| !part.is_empty()).collect();
            all.join(", ")
        };
        let all =
            if value.contains(';') { parts(&|sign| sign == ';') } else { parts(&|sign| sign == ',' || is_word(sign)) };
        (!value.trim_start().starts_with('[')).then(|| format!("[{all}]"))
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
