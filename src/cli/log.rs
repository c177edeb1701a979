//! `setover log JOB PART/OPERATION NAME=SIZE…`: writes down what was left, and shows what was written.

use super::at_once;
use super::load::{Inputs, LINES, log_of};
use super::log_typed::{TYPED, argument, told_where_typed};
use super::today::today;
use super::{Stop, page, print};
use crate::files::{FileFault, Kept, read_bytes_if_there, read_standard_input, read_text};
use crate::job::{Address, JobFile, LOG_KEYS, Log, NearInLog, NewLine};
use crate::operations::Request;
use crate::plan::{Logged, addresses, elsewhere, logged, worked_by_log};
use crate::proof::{Fact, Place};
use crate::quantity::{Date, Mm, Quantity, Written};
use crate::reading::{Node, Problem, harmless, near};
use crate::sheet::terminal;
use crate::shop::Shop;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::Duration;

#[derive(clap::Args)]
pub(super) struct LogArguments {
    /// The job file; its log lies beside it.
    #[arg(value_name = "JOB")]
    job: PathBuf,
    /// The operation that was done, as in "distance piece/face"; left out, the log is shown; alone, the names that it may have are.
    #[arg(value_name = "PART/OPERATION")]
    of: Option<Address>,
    /// What was left, as in length_after="21.677 mm"; with="micrometer 0-25", at="38 degC", gauge-at=, note= beside it; done=yes where
    /// nothing is measured.
    #[arg(value_name = "NAME=SIZE")]
    words: Vec<String>,
    /// The day on which it was measured; left out, today (UTC).
    #[arg(long, value_name = "DATE")]
    date: Option<Date>,
    /// Who measured.
    #[arg(long, value_name = "NAME")]
    by: Option<String>,
    /// The entry in whose place this one stands, as in L4 or 4.
    #[arg(long, value_name = "ENTRY", value_parser = number)]
    corrects: Option<u32>,
    /// Takes an entry back.
    #[arg(long, value_name = "ENTRY", value_parser = number, conflicts_with_all = ["of", "corrects", "from", "mend"])]
    withdraws: Option<u32>,
    /// Turns a last line that was cut off into a remark.
    #[arg(long, conflicts_with_all = ["of", "corrects", "from"])]
    mend: bool,
    /// Takes entries from a file, or from standard input (`-`): lines as the HTML page copies them out.
    #[arg(long, value_name = "FILE", conflicts_with_all = ["of", "corrects"])]
    from: Option<PathBuf>,
    /// How long to wait for another that writes into the same log.
    #[arg(long, value_name = "SECONDS", default_value_t = 10)]
    wait: u16,
    /// A job that this one goes on from, so that what is written is judged at once; may be given again for a further one.
    #[arg(long, value_name = "JOB")]
    and: Vec<PathBuf>,
    /// The shop file, in place of the one that the job names.
    #[arg(long, value_name = "FILE")]
    shop: Option<PathBuf>,
}

/// The number of an entry, with its letter or without.
pub(super) fn number(text: &str) -> Result<u32, String> {
    let digits = text.trim().trim_start_matches(['L', 'l']);
    digits.parse().map_err(|_| format!("`{text}` is no entry such as `L4`"))
}

pub(super) fn run(arguments: &LogArguments) -> Result<ExitCode, Stop> {
    if arguments.job.as_os_str() == "-" {
        return Err(Stop::Arguments("a log lies beside its job: give the job as a file".into()));
    }
    let mut inputs = Inputs::default();
    let read = inputs.job_and_shop(&arguments.job, arguments.shop.as_deref());
    if read.is_none() || !inputs.problems.is_empty() {
        inputs.settle(())?;
        return Ok(ExitCode::from(2));
    }
    let Some((job, shop)) = read else { return Ok(ExitCode::from(2)) };
    if let (Some(of), true) = (&arguments.of, arguments.words.is_empty()) {
        return names(arguments, inputs, (&job, shop.as_ref()), &of.among(&addresses(&job)));
    }
    let (new, of_others) = of_this_job(arguments.new_lines(&mut inputs, &addresses(&job)), arguments, &job);
    if !inputs.problems.is_empty() {
        inputs.settle(())?;
        return Ok(ExitCode::from(2));
    }
    if new.is_empty() && !arguments.mend {
        return show(arguments, inputs, (&job, shop.as_ref()));
    }
    let log_file = log_of(&arguments.job);
    // Before the first entry there is neither file nor lock, and none is left by what cannot be written.
    if !log_file.exists() && !arguments.mend {
        let text: String = (1..).zip(&new).map(|(n, line)| line.text(&[], n)).collect();
        let start = inputs.text(TYPED, text.clone());
        let log = Log::read(text.as_bytes(), start);
        let said = logged(&job, shop.as_ref(), &log, None).map_err(|all| inputs.problems.extend(all)).ok();
        inputs.problems.extend(read_by_the_wrong_one((&log, said.as_ref()), 1, shop.as_ref()));
        if !inputs.problems.is_empty() {
            told_where_typed(&mut inputs, start, 0, &new);
            inputs.settle(())?;
            return Ok(ExitCode::from(2));
        }
    }
    let kept = Kept::within(&log_file, Duration::from_secs(arguments.wait.into())).map_err(unwritten)?;
    let old = read_bytes_if_there(kept.path()).map_err(unwritten)?.unwrap_or_default();
    // Of a long log only what the new lines may meet is read again: each of the others was looked at when it was written, and its sum
    // says that it is still the same.
    let mut near = near_to(&new);
    let before = Log::read_near(&old, Place::start(u32::MAX), Some(&near));
    let (mut bytes, mut last) = (old.clone(), before.last);
    match (before.torn(), arguments.mend) {
        (Some(_), true) => bytes = Log::mended(&old),
        (Some(torn), false) => {
            let says = format!(
                "the last line (line {}) was cut off, and nothing is written behind it: {}; `setover log {} --mend` turns it into a remark",
                torn.line,
                torn.text,
                arguments.job.display()
            );
            return Err(Stop::Input(vec![Problem::new(None, says)], Vec::new()));
        }
        (None, true) => {
            print("The log is whole: there is nothing to mend.\n")?;
            return Ok(ExitCode::SUCCESS);
        }
        (None, false) if !old.is_empty() && !old.ends_with(b"\n") => bytes.push(b'\n'),
        (None, false) => {}
    }
    let (first, behind) = (last + 1, bytes.iter().filter(|byte| **byte == b'\n').count());
    for line in &new {
        last += 1;
        let text = line.text(&bytes, last);
        bytes.extend_from_slice(text.as_bytes());
    }
    // What the log would say is looked at before a byte of it is written.
    near.first = Some(first);
    let log = inputs.log_text(&log_of(&arguments.job), &bytes, Some(&near));
    let read_again = log.entries.iter().filter(|entry| entry.n.value >= first).count();
    if log.problems.is_empty() && read_again < new.len() {
        let says =
            "one of its names stands in it twice, or something in it cannot be written on a line: nothing was written";
        inputs.problems.push(Problem::new(log.torn().map(|torn| Place { line: torn.line, ..log.start }), says));
    }
    let said = logged(&job, shop.as_ref(), &log, None).map_err(|all| inputs.problems.extend(all)).ok();
    inputs.problems.extend(read_by_the_wrong_one((&log, said.as_ref()), first, shop.as_ref()));
    inputs.no_such_set_up((&job, shop.as_ref()), &log, (first, arguments.job.parent()));
    told_where_typed(&mut inputs, log.start, behind, &new);
    inputs.settle(said)?;
    kept.replace(&bytes).map_err(unwritten)?;
    drop(kept);
    let written: Vec<_> = log.entries.iter().filter(|entry| entry.n.value >= first).collect();
    page(&harmless_lines(&terminal::written(&written, &log)))?;
    let jobs = (arguments.job.as_path(), arguments.and.as_slice());
    // What is told goes by all of it.
    let whole = (log.last <= LINES).then(|| Log::read(&bytes, log.start));
    let whole = whole.as_ref().unwrap_or(&log);
    let told = at_once::told(jobs, arguments.shop.as_deref(), (whole, first), &elsewhere(&job));
    page(&harmless_lines(&told))?;
    if !of_others.is_empty() {
        let says = format!("Left alone, since this job has no such operation: {}", of_others.join(" · "));
        page(&harmless_lines(&says))?;
    }
    Ok(ExitCode::SUCCESS)
}

/// The lines of a file that are of this job, and the addresses of the others: a page of several jobs copies out the lines of all. Where
/// none is of this job they are all kept, and told as what they are.
fn of_this_job(lines: Vec<NewLine>, arguments: &LogArguments, job: &JobFile<Request>) -> (Vec<NewLine>, Vec<String>) {
    let known = if arguments.from.is_some() { addresses(job) } else { Vec::new() };
    let is_own = |line: &NewLine| line.of.as_ref().is_none_or(|of| known.contains(of));
    if !lines.iter().any(|line| line.of.is_some() && is_own(line)) {
        return (lines, Vec::new());
    }
    let (own, others): (Vec<NewLine>, Vec<NewLine>) = lines.into_iter().partition(is_own);
    (own, others.into_iter().filter_map(|line| line.of).map(|of| of.to_string()).collect())
}

/// Sizes that the instrument which is named cannot have read: a slip that is told before it is written, for nothing in a log is edited.
fn read_by_the_wrong_one((log, said): (&Log, Option<&Logged>), first: u32, shop: Option<&Shop>) -> Vec<Problem> {
    let misread: Vec<Place> = said.into_iter().flat_map(Logged::misread).collect();
    let mut problems = Vec::new();
    for entry in log.entries.iter().filter(|entry| entry.n.value >= first) {
        let with = entry.with.as_ref().and_then(|with| shop?.instrument(&with.value));
        let Some((with, shop)) = with.zip(shop) else { continue };
        let (from, to) = (with.from.value.number(), with.to.value.number());
        for (_, typed) in &entry.values {
            let read = typed.value.parse::<Written<Mm>>().ok().map(|size| size.value.number().abs());
            if read.is_some_and(|read| !(from..=to).contains(&read)) {
                let says = format!(
                    "`{}` reads {}: it cannot have read {}; name what did (with=…), in a line of its own where this read the others",
                    with.name.value,
                    Fact::span(Fact::mm(from), Fact::mm(to)).said(None, shop.units),
                    typed.value
                );
                problems.push(Problem::new(typed.place, says));
            } else if misread.contains(&typed.place) {
                let (name, kind) = (&with.name.value, &with.kind.value);
                let says = format!(
                    "`{name}` ({kind}) cannot have read {}, by its kind: name what did (with=…), in a line of its own where this read the others; of what is seen and not measured leave `with` out",
                    typed.value
                );
                problems.push(Problem::new(typed.place, says));
            }
        }
    }
    problems
}

impl Inputs {
    /// Set-ups that new lines name and that no operation has: a slip that is told before it is written, for no line is taken out again.
    fn no_such_set_up(
        &mut self,
        (job, shop): (&JobFile<Request>, Option<&Shop>),
        log: &Log,
        (first, beside): (u32, Option<&Path>),
    ) {
        let names_one = log.entries.iter().any(|entry| entry.n.value >= first && entry.set_up.is_some());
        if !names_one || !self.problems.is_empty() {
            return;
        }
        // A job that cannot be worked alone is told of by the plan.
        let before = self.problems.len();
        let plan = self.work(job, shop, beside);
        self.problems.truncate(before);
        let new = |problem: &Problem| {
            let lines = log.entries.iter().filter(|entry| entry.n.value >= first).map(|entry| entry.place.line);
            problem.place.is_some_and(|place| lines.into_iter().any(|line| line == place.line))
        };
        if let Some(Err(problems)) = plan.map(|plan| worked_by_log(&plan, log)) {
            self.problems.extend(problems.into_iter().filter(new));
        }
    }
}

/// What can be written down of an operation: the names, and a line to copy.
fn names(
    arguments: &LogArguments,
    mut inputs: Inputs,
    (job, shop): (&JobFile<Request>, Option<&Shop>),
    of: &Address,
) -> Result<ExitCode, Stop> {
    let path = &arguments.job;
    let plan = match arguments.and.as_slice() {
        [] => inputs.work(job, shop, path.parent()),
        others => {
            let paths: Vec<PathBuf> = std::iter::once(path).chain(others).cloned().collect();
            inputs.jobs(&paths, arguments.shop.as_deref()).into_iter().next()
        }
    };
    let Some(plan) = inputs.settle(plan)? else { return Ok(ExitCode::from(2)) };
    let Some(planned) = plan.operations.iter().find(|planned| planned.address == *of) else {
        let known: Vec<String> = plan.operations.iter().map(|planned| planned.address.to_string()).collect();
        let names = near(&of.to_string(), known.iter().map(String::as_str));
        let says = format!("no operation of this job has the address `{of}`; {names}");
        return Err(Stop::Input(vec![Problem::new(None, says)], Vec::new()));
    };
    let name = |(key, means): &(&str, &str)| ((*key).to_owned(), (*means).to_owned());
    let names: Vec<(String, String)> = planned.may_be_logged.iter().map(name).collect();
    page(&harmless_lines(&terminal::loggable(&path.display().to_string(), &of.to_string(), &names)))?;
    Ok(ExitCode::SUCCESS)
}

/// What new lines may meet in a log.
fn near_to(new: &[NewLine]) -> NearInLog {
    let keys = || new.iter().flat_map(|line| &line.keys);
    let names = keys().map(|(key, _)| key).filter(|key| !LOG_KEYS.contains(&key.as_str()));
    let numbers = keys().filter(|(key, _)| ["corrects", "withdraws"].contains(&key.as_str()));
    NearInLog {
        names: names.cloned().collect(),
        numbers: numbers.filter_map(|(_, number)| number.trim().parse().ok()).collect(),
        first: None,
    }
}

fn unwritten(fault: FileFault) -> Stop {
    Stop::Unwritten(fault.to_string())
}

/// Each line through the one filter.
pub(super) fn harmless_lines(text: &str) -> String {
    text.lines().map(|line| harmless(line) + "\n").collect()
}

/// Shows the log and what is wrong with it.
fn show(
    arguments: &LogArguments,
    mut inputs: Inputs,
    (job, shop): (&JobFile<Request>, Option<&Shop>),
) -> Result<ExitCode, Stop> {
    let log = inputs.log(&arguments.job);
    let said = log.as_ref().map(|log| logged(job, shop, log, None));
    if let Some(Err(problems)) = said {
        inputs.problems.extend(problems)
    }
    let log = inputs.settle(log)?.unwrap_or_default();
    page(&harmless_lines(&terminal::log(&log)))?;
    Ok(ExitCode::SUCCESS)
}

impl LogArguments {
    /// What is to be written: from the words, from a file, or the line that takes one back or tells of mending.
    fn new_lines(&self, inputs: &mut Inputs, known: &[Address]) -> Vec<NewLine> {
        let date = Some(self.date.unwrap_or_else(today));
        let frame = || NewLine { date, by: self.by.clone(), ..NewLine::default() };
        let keyed = |key: &str, value: String| vec![NewLine { keys: vec![(key.into(), value)], ..frame() }];
        if self.mend {
            return keyed("note", "the line before, which was cut off, was turned into a remark".into());
        }
        if let Some(entry) = self.withdraws {
            let typed = vec![argument(inputs, "withdraws", &format!("--withdraws L{entry}"))];
            return keyed("withdraws", entry.to_string())
                .into_iter()
                .map(|line| NewLine { typed: typed.clone(), ..line })
                .collect();
        }
        if let Some(from) = &self.from {
            return self.lines_from(from, inputs, &frame());
        }
        let Some(of) = &self.of else { return Vec::new() };
        let mut keys = Vec::new();
        let mut typed: Vec<_> = ["part", "operation"].map(|key| argument(inputs, key, &of.to_string())).into();
        for word in &self.words {
            match word.split_once('=') {
                Some((key, _)) if OWN.contains(&key.trim()) => {
                    let says = format!("`{}` is given by the log itself: leave it out", key.trim());
                    inputs.problems.push(Problem::new(None, says));
                }
                Some((key, value)) => {
                    typed.push(argument(inputs, &key_of(key), word));
                    keys.push((key_of(key), value.trim().to_owned()));
                }
                None => {
                    let says = format!("`{word}` is not of the form NAME=SIZE, as in length_after=\"21.677 mm\"");
                    inputs.problems.push(Problem::new(None, says));
                }
            }
        }
        let measures = keys.iter().any(|(key, _)| !LOG_KEYS.contains(&key.as_str()));
        if !measures && !keys.iter().any(|(key, _)| ["note", "done"].contains(&key.as_str())) {
            let says = "what was left? Give it as NAME=SIZE, as in length_after=\"21.677 mm\"; done=yes says that it was done and not measured";
            inputs.problems.push(Problem::new(None, says));
        }
        if let Some(entry) = self.corrects {
            typed.push(argument(inputs, "corrects", &format!("--corrects L{entry}")));
            keys.push(("corrects".into(), entry.to_string()));
        }
        vec![NewLine { of: Some(of.among(known)), keys, typed, ..frame() }]
    }

    /// The entries of a file: a line each, as in the log but without number and sum.
    fn lines_from(&self, from: &Path, inputs: &mut Inputs, frame: &NewLine) -> Vec<NewLine> {
        let stdin = from.as_os_str() == "-";
        let text = match if stdin { read_standard_input() } else { read_text(from) } {
            Ok(text) => text,
            Err(fault) => {
                inputs.problems.push(Problem::new(None, fault.to_string()));
                return Vec::new();
            }
        };
        let name = if stdin { "standard input".to_owned() } else { from.display().to_string() };
        let start = inputs.text(name, text.clone());
        let node = match Node::yaml(&text, start) {
            Ok(node) => node,
            Err(problem) => {
                inputs.problems.push(problem);
                return Vec::new();
            }
        };
        if node.items().is_empty() {
            let says = "a list of entries is wanted, a line each: `- {part: …, operation: …, length_after: 21.677 mm}`";
            inputs.problems.push(Problem::new(node.place(), says));
        }
        node.items().iter().filter_map(|item| new_line(item, frame, inputs)).collect()
    }
}

/// Keys that the log gives itself.
const OWN: [&str; 2] = ["n", "sum"];

/// One entry of a file; its day and who measured go before those of the command line.
fn new_line(item: &Node, frame: &NewLine, inputs: &mut Inputs) -> Option<NewLine> {
    let mut line = NewLine { of: None, keys: Vec::new(), typed: Vec::new(), ..frame.clone() };
    let (mut part, mut operation) = (None, None);
    for (key, place) in item.keys() {
        let Some(value) = item.under(key).and_then(Node::typed) else {
            inputs.problems.push(Problem::new(place, format!("`{key}` is one text or one figure with its unit")));
            return None;
        };
        let behind = item.under(key).map_or(place, Node::place);
        line.typed.push((key_of(key), [place, behind]));
        match key {
            "part" => part = Some(value),
            "operation" => operation = Some(value),
            "by" => line.by = Some(value),
            "date" => match value.parse() {
                Ok(date) => line.date = Some(date),
                Err(says) => inputs.problems.push(Problem::new(place, says)),
            },
            own if OWN.contains(&own) => {
                inputs.problems.push(Problem::new(place, format!("`{key}` is given by the log itself: leave it out")));
            }
            _ => line.keys.push((key_of(key), value)),
        }
    }
    line.of = part.zip(operation).map(|(part, operation)| Address::of(&part, &operation));
    if line.of.is_none() {
        inputs.problems.push(Problem::new(item.place(), "an entry names its `part` and its `operation`"));
    }
    Some(line)
}

/// A key as the log writes it: names of values have underscores.
fn key_of(key: &str) -> String {
    let key = key.trim();
    if LOG_KEYS.contains(&key) { key.to_owned() } else { key.replace('-', "_") }
}
