//! Floor 10. One file a command: arguments in, exit code out. No formula, no table, no layout.
//!
//! Exit codes: 0 all proven, or doubtful with a note; 1 something fails; 2 the input cannot be read; 3 could not write.

mod book;
mod keys;
mod load;
mod plan;
mod sheets;
mod shows;
mod try_one;

use clap::{Parser, Subcommand, ValueEnum};
use std::path::PathBuf;
use std::process::ExitCode;

use crate::plan::Plan;
use crate::proof::Verdict;
use crate::reading::{Problem, Text, harmless, point};
use shows::ShowArguments;

/// Works out, for your own machines, how worn engine parts are put right, and prints the sheets to pin by the machine.
///
/// Guide only: local codes, the machine's manual and competent practice come first.
#[derive(Parser)]
#[command(name = "setover", version, about, max_term_width = 100)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Works jobs out and shows every figure with its verdict.
    ///
    /// Example: setover plan demo/tidewater.yaml
    Plan(plan::PlanArguments),
    /// Prints the setup sheets of jobs, one a set-up.
    ///
    /// Example: setover sheets demo/tidewater.yaml -o sheets.pdf
    Sheets(sheets::SheetsArguments),
    /// Works one operation out without a file: the same keys, nested ones with dots.
    ///
    /// Example: setover try thread-insert thread=M8x1.25 wall="18.0 ± 0.3 mm" hole=blind part.material="cast aluminium"
    Try(try_one::TryArguments),
    /// Opens the book at one question: which figure, from where, how sure, over what range.
    ///
    /// Example: setover book thread "1/4 BSF"
    Book(book::BookArguments),
    /// Shows what an operation, a job or a shop asks for: every key with its meaning, its unit and an example.
    ///
    /// Example: setover keys thread-insert
    Keys(keys::KeysArguments),
    /// Names every operation in one line each.
    ///
    /// Example: setover operations
    Operations(keys::OperationsArguments),
    /// Prints the JSON Schema of a job or a shop file, for an editor that completes and checks YAML.
    ///
    /// Example: setover schema job
    Schema(keys::SchemaArguments),
}

/// What every command takes.
#[derive(clap::Args)]
struct Common {
    /// The shop file, in place of the one that the job names.
    #[arg(long, value_name = "FILE")]
    shop: Option<PathBuf>,
    /// Doubtful counts as failing.
    #[arg(long)]
    strict: bool,
}

/// What is printed.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Format {
    /// For a person at a terminal.
    Text,
    /// For a program.
    Json,
}

/// Runs the program on the arguments of the process.
pub fn run() -> ExitCode {
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(said) => return not_arguments(&said),
    };
    if let Some((columns, _)) = terminal_size::terminal_size() {
        crate::sheet::terminal::as_wide_as(usize::from(columns.0));
    }
    let outcome = match arguments.command {
        Command::Plan(arguments) => plan::run(&arguments),
        Command::Sheets(arguments) => sheets::run(&arguments),
        Command::Try(arguments) => try_one::run(&arguments),
        Command::Book(arguments) => book::run(&arguments),
        Command::Keys(arguments) => keys::run(&arguments),
        Command::Operations(arguments) => keys::operations(&arguments),
        Command::Schema(arguments) => keys::schema(&arguments),
    };
    outcome.unwrap_or_else(Stop::report)
}

/// Help and version to standard output; what is no command of ours, told without the signs that it was typed with.
fn not_arguments(said: &clap::Error) -> ExitCode {
    let text = if said.use_stderr() { said.render().to_string() } else { said.render().ansi().to_string() };
    if !said.use_stderr() {
        return print(&text).map_or_else(Stop::report, |()| ExitCode::SUCCESS);
    }
    text.lines().for_each(|line| tell(&harmless(line)));
    ExitCode::from(2)
}

/// A line to standard error. Where that is gone or full nobody can be told, and the exit code still says how it ended.
fn tell(line: &str) {
    use std::io::Write;
    let mut err = anstream::stderr().lock();
    let _ = writeln!(err, "{line}").and_then(|()| err.flush());
}

/// Why a command stops before it has an answer.
enum Stop {
    /// The input cannot be read: every problem, with the texts that they point into.
    Input(Vec<Problem>, Vec<Text>),
    /// An output could not be written.
    Unwritten(String),
    /// The program's own fault: its page would not hold.
    Page(String),
}

impl Stop {
    fn report(self) -> ExitCode {
        let colour = anstream::AutoStream::choice(&std::io::stderr()) != anstream::ColorChoice::Never;
        match self {
            Self::Input(problems, texts) => {
                for problem in &problems {
                    tell(&format!("{}\n", point(problem, &texts, colour)));
                }
                let count = problems.len();
                let word = if count == 1 { "problem" } else { "problems" };
                tell(&format!("{count} {word}; nothing was worked out"));
                ExitCode::from(2)
            }
            Self::Unwritten(says) | Self::Page(says) => {
                tell(&harmless(&says));
                ExitCode::from(3)
            }
        }
    }
}

/// The exit code of plans that were worked.
fn exit_code(plans: &[Plan], strict: bool) -> ExitCode {
    let worst = plans.iter().map(Plan::verdict).max().unwrap_or(Verdict::Proven);
    let fails = worst == Verdict::Fails || (strict && worst == Verdict::Doubtful);
    ExitCode::from(u8::from(fails))
}

/// Prints to standard output; a reader that has gone away is no fault.
fn print(text: &str) -> Result<(), Stop> {
    use std::io::Write;
    // Nothing to be taken out where no colour was put in.
    if !text.contains('\u{1b}') {
        return print_bytes(text.as_bytes());
    }
    let mut out = anstream::stdout().lock();
    gone_or_written(out.write_all(text.as_bytes()).and_then(|()| out.flush()))
}

/// Bytes to standard output as they are.
fn print_bytes(bytes: &[u8]) -> Result<(), Stop> {
    use std::io::Write;
    let mut out = std::io::stdout().lock();
    gone_or_written(out.write_all(bytes).and_then(|()| out.flush()))
}

fn gone_or_written(written: std::io::Result<()>) -> Result<(), Stop> {
    match written {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => {
            Err(Stop::Unwritten(format!("standard output: {error}")))
        }
        _ => Ok(()),
    }
}

/// Plans as JSON text.
fn json(plans: &[Plan]) -> Result<String, Stop> {
    json_text(&crate::sheet::json::output(plans))
}

/// An answer as JSON text.
fn json_text(answer: &impl serde::Serialize) -> Result<String, Stop> {
    serde_json::to_value(answer)
        .map(without_harm)
        .and_then(|answer| serde_json::to_string_pretty(&answer))
        .map(|text| text + "\n")
        .map_err(|error| Stop::Page(format!("the answer has no JSON form: {error}")))
}

/// Every text of an answer, names included, through the one filter.
fn without_harm(value: serde_json::Value) -> serde_json::Value {
    use serde_json::Value;
    match value {
        Value::String(text) => Value::String(harmless(&text)),
        Value::Array(items) => items.into_iter().map(without_harm).collect(),
        Value::Object(fields) => {
            fields.into_iter().map(|(name, value)| (harmless(&name), without_harm(value))).collect()
        }
        other => other,
    }
}
