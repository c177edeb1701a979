//! Layer 10. One file a command: arguments in, exit code out. No formula, no table, no layout.
//!
//! Exit codes: 0 all proven, or doubtful with a note; 1 something fails; 2 the input cannot be read; 3 could not write.

mod ask;
mod at_once;
mod book;
mod day;
mod decide;
mod dialogue;
mod draft;
mod examples;
mod first;
#[cfg(fuzzing)]
pub mod fuzzing;
#[cfg(fuzzing)]
mod heard;
mod in_inches;
mod keys;
mod later;
mod left_out;
mod load;
mod log;
mod log_typed;
mod not_ours;
mod one;
mod open;
mod over;
mod places;
mod plan;
mod report;
mod say;
mod sheets;
mod shell;
mod shows;
mod start;
mod stop;
mod today;
mod try_one;
mod watch;
mod why;

use clap::{Parser, Subcommand, ValueEnum};
use std::path::PathBuf;
use std::process::ExitCode;

use crate::plan::Plan;
use crate::proof::Verdict;
use crate::quantity::Print;
use crate::reading::harmless;
use later::Later;
use say::{When, page, print, print_pieces, tell, tell_page};
use shows::ShowArguments;
use stop::Stop;

/// Works out, for your own machines, how worn engine parts are put right, and prints the sheets to pin by the machine.
///
/// Guide only: local codes, the machine's manual and competent practice come first.
///
/// Begin with `setover start` and `setover ask OPERATION`; `setover keys OPERATION` shows what can be typed. Exit codes: 0 proven,
/// or doubtful with a note; 1 something fails; 2 the input cannot be read; 3 an output could not be written. Worked examples lie in
/// the folders `examples` and `demo` of the source.
#[derive(Parser)]
#[command(name = "setover", version, about, max_term_width = 100)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
    /// Verdicts in weight and colour: where a terminal shows it, always, or never (as NO_COLOR in the environment says).
    #[arg(long, visible_alias = "color", global = true, value_enum, value_name = "WHEN", default_value = "auto")]
    colour: When,
}

#[derive(Subcommand)]
enum Command {
    /// Works jobs out and shows every figure with its verdict.
    #[command(after_long_help = examples::PLAN)]
    Plan(Later<plan::PlanArguments>),
    /// Prints the setup sheets of jobs, one a set-up.
    #[command(after_long_help = examples::SHEETS)]
    Sheets(Later<sheets::SheetsArguments>),
    /// Puts the set-ups of jobs in the best order of the day, with clock times.
    #[command(after_long_help = examples::DAY)]
    Day(Later<day::DayArguments>),
    /// Says what must be done with each part as it came: reuse, put right, replace, or measure first.
    #[command(after_long_help = examples::DECIDE)]
    Decide(Later<decide::DecideArguments>),
    /// Writes down what was left when an operation was done, and shows what was written.
    #[command(after_long_help = examples::LOG)]
    Log(Later<log::LogArguments>),
    /// Works one operation out without a file: the same keys, nested ones with dots.
    #[command(after_long_help = examples::TRY)]
    Try(Later<try_one::TryArguments>),
    /// Shows how one figure came about: every working down to the readings and the rows of the book, and whose doubt costs most.
    #[command(after_long_help = examples::WHY)]
    Why(Later<why::WhyArguments>),
    /// Opens the book at one question: which figure, from where, how sure, over what range.
    #[command(after_long_help = examples::BOOK)]
    Book(Later<book::BookArguments>),
    /// Asks what the shop has, and writes its file and a first job that plans at once.
    #[command(after_long_help = examples::START)]
    Start(Later<start::StartArguments>),
    /// Asks question by question what an operation needs, writes the job and shows the answer.
    #[command(after_long_help = examples::ASK)]
    Ask(Later<ask::AskArguments>),
    /// Shows what an operation, a job or a shop asks for: every key with its meaning, its unit and an example.
    #[command(after_long_help = examples::KEYS)]
    Keys(Later<keys::KeysArguments>),
    /// Names every operation in one line each.
    #[command(after_long_help = examples::OPERATIONS)]
    Operations(Later<keys::OperationsArguments>),
    /// Prints the JSON Schema of a job or a shop file, for an editor that completes and checks YAML.
    #[command(after_long_help = examples::SCHEMA)]
    Schema(Later<keys::SchemaArguments>),
    /// Plans again whenever the job, its shop or its cards are saved.
    #[command(after_long_help = examples::WATCH)]
    Watch(Later<watch::WatchArguments>),
    /// Prints what a shell needs to complete commands and options.
    #[command(after_long_help = examples::COMPLETIONS)]
    Completions(Later<shell::CompletionsArguments>),
    /// Prints the manual page.
    #[command(after_long_help = examples::MAN)]
    Man,
}

/// With which shop, and in which units.
#[derive(clap::Args)]
struct Look {
    /// The shop file, in place of the one that the job names.
    #[arg(long, value_name = "FILE")]
    shop: Option<PathBuf>,
    /// The units of this run, whatever the shop prints in.
    #[arg(long, value_enum, value_name = "UNITS")]
    units: Option<Units>,
}

/// Units of print.
#[derive(Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Units {
    /// Millimetres, newtons and their kin.
    Metric,
    /// Inches, pounds-force and their kin.
    Inch,
    /// Metric, with inches beside each length.
    Both,
}

impl From<Units> for Print {
    fn from(units: Units) -> Self {
        match units {
            Units::Metric => Self::Metric,
            Units::Inch => Self::Imperial,
            Units::Both => Self::Both,
        }
    }
}

/// What every command that works jobs out takes.
#[derive(clap::Args)]
struct Common {
    #[command(flatten)]
    look: Look,
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
    done().unwrap_or_else(report::report)
}

fn done() -> Result<ExitCode, Stop> {
    if let Some(columns) = columns() {
        crate::sheet::terminal::as_wide_as(columns);
    }
    let arguments = match Arguments::try_parse() {
        Ok(arguments) => arguments,
        Err(said) => return not_arguments(&said),
    };
    dispatched(arguments)
}

fn dispatched(arguments: Arguments) -> Result<ExitCode, Stop> {
    arguments.colour.choice().write_global();
    match arguments.command {
        Command::Plan(arguments) => plan::run(&arguments),
        Command::Sheets(arguments) => sheets::run(&arguments),
        Command::Day(arguments) => day::run(&arguments),
        Command::Decide(arguments) => decide::run(&arguments),
        Command::Log(arguments) => log::run(&arguments),
        Command::Try(arguments) => try_one::run(&arguments),
        Command::Why(arguments) => why::run(&arguments),
        Command::Book(arguments) => book::run(&arguments),
        Command::Start(arguments) => start::run(&arguments),
        Command::Ask(arguments) => ask::run(&arguments),
        Command::Keys(arguments) => keys::run(&arguments),
        Command::Operations(arguments) => keys::operations(&arguments),
        Command::Schema(arguments) => keys::schema(&arguments),
        Command::Watch(arguments) => watch::run(&arguments),
        Command::Completions(arguments) => shell::completions(&arguments),
        Command::Man => shell::man(),
    }
}

/// Leaves what a command made to the end of the process, which frees it faster. A fuzzer runs many commands in one.
fn leave<T>(made: T) {
    if cfg!(fuzzing) { drop(made) } else { std::mem::forget(made) }
}

/// How wide the page is: as COLUMNS in the environment says, else as the terminal is; nothing where neither says.
fn columns() -> Option<usize> {
    let said = std::env::var("COLUMNS").ok().and_then(|columns| columns.trim().parse().ok());
    said.or_else(|| terminal_size::terminal_size().map(|(columns, _)| usize::from(columns.0)))
}

/// Help and version to standard output; what is no command of ours, told without the signs that it was typed with.
fn not_arguments(said: &clap::Error) -> Result<ExitCode, Stop> {
    if !said.use_stderr() {
        return page(&said.render().ansi().to_string()).map(|()| ExitCode::SUCCESS);
    }
    Err(Stop::Arguments(not_ours::told(said)))
}

/// The exit code of plans that were worked.
fn exit_code(plans: &[Plan], strict: bool) -> ExitCode {
    exit_code_of(plans.iter().map(Plan::verdict), strict)
}

/// The same of verdicts.
fn exit_code_of(verdicts: impl Iterator<Item = Verdict>, strict: bool) -> ExitCode {
    let worst = verdicts.max().unwrap_or(Verdict::Proven);
    let fails = worst == Verdict::Fails || (strict && worst == Verdict::Doubtful);
    ExitCode::from(u8::from(fails))
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
