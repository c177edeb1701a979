//! `setover completions SHELL` and `setover man`: from the same definition that reads the arguments.

use super::{Stop, later::whole, say};
use crate::lookup::TOPICS;
use crate::operations::Request;
use clap::Command;
use clap::builder::PossibleValuesParser;
use clap_mangen::Man;
use std::io::Write;
use std::process::ExitCode;

#[derive(clap::Args)]
pub(super) struct CompletionsArguments {
    /// The shell.
    #[arg(value_enum, value_name = "SHELL")]
    shell: clap_complete::Shell,
}

pub(super) fn completions(arguments: &CompletionsArguments) -> Result<ExitCode, Stop> {
    let mut out = Vec::new();
    clap_complete::generate(arguments.shell, &mut completed(), env!("CARGO_PKG_NAME"), &mut out);
    if arguments.shell == clap_complete::Shell::Fish {
        for (command, words) in words_of_commands() {
            let words = words.join(" ");
            let name = env!("CARGO_PKG_NAME");
            let line =
                format!("complete -c {name} -n \"__fish_{name}_using_subcommand {command}\" -f -a \"{words}\"\n");
            out.extend_from_slice(line.as_bytes());
        }
    }
    say::print_bytes(&out)?;
    Ok(ExitCode::SUCCESS)
}

/// Commands with the words that stand where any word may be typed: operations, and topics of the book.
fn words_of_commands() -> [(&'static str, Vec<&'static str>); 4] {
    let operations = || Request::WORDS.iter().copied();
    let keys = ["job", "part", "shop"].into_iter().chain(operations()).collect();
    [("ask", operations().collect()), ("try", operations().collect()), ("keys", keys), ("book", TOPICS.to_vec())]
}

/// The definition with those words.
fn completed() -> Command {
    words_of_commands().into_iter().fold(whole(), |all, (name, words)| {
        all.mut_subcommand(name, |own| {
            let first = own.get_positionals().next().map(|argument| argument.get_id().clone());
            // All of them are gone over: one that is changed alone comes to stand behind the others.
            own.mut_args(|argument| match first.as_ref() == Some(argument.get_id()) {
                true => argument.value_parser(PossibleValuesParser::new(words.iter().copied())),
                false => argument,
            })
        })
    })
}

/// What the program reads of the environment.
const ENVIRONMENT: [(&str, &str); 2] = [
    ("NO_COLOR", "Where it is set, verdicts have no colour."),
    ("COLUMNS", "How wide a page is; else as the terminal is."),
];

/// How a command ended.
const EXIT_STATUS: [(&str, &str); 4] = [
    ("0", "All is proven, or doubtful with a note."),
    ("1", "Something fails; with --strict, or is doubtful. What was asked for is written all the same."),
    ("2", "What was given cannot be read: nothing is worked out."),
    ("3", "An output could not be written."),
];

/// The files of a job.
const FILES: [(&str, &str); 4] = [
    ("JOB.yaml", "What came in and what is done to it; setover keys job."),
    ("shop.yaml", "What the shop owns; setover keys shop. The job names it."),
    ("JOB.log.yaml", "What was left of each operation, beside the job; lines are only ever added."),
    ("ops/OPERATION.yaml", "The shop's own words of an operation, beside the job, in place of those built in."),
];

/// The manual page: one page, on which every command has its section.
pub(super) fn man() -> Result<ExitCode, Stop> {
    let out = page().map_err(|error| Stop::Page(error.to_string()))?;
    say::print_bytes(&out)?;
    Ok(ExitCode::SUCCESS)
}

fn page() -> std::io::Result<Vec<u8>> {
    let mut out = Vec::new();
    let root = whole();
    let whole = Man::new(root.clone());
    whole.render_title(&mut out)?;
    whole.render_name_section(&mut out)?;
    whole.render_synopsis_section(&mut out)?;
    whole.render_description_section(&mut out)?;
    whole.render_options_section(&mut out)?;
    for command in root.get_subcommands() {
        section(&mut out, command)?;
    }
    for (title, rows) in [("EXIT STATUS", &EXIT_STATUS[..]), ("FILES", &FILES[..]), ("ENVIRONMENT", &ENVIRONMENT[..])] {
        writeln!(out, ".SH {title}")?;
        for (name, means) in rows {
            writeln!(out, ".TP\n\\fB{}\\fR\n{}", roff(name), roff(means))?;
        }
    }
    Ok(out)
}

/// One command: how it is typed, what it does, its options, its examples.
fn section(out: &mut Vec<u8>, command: &Command) -> std::io::Result<()> {
    let name = format!("{} {}", env!("CARGO_PKG_NAME"), command.get_name());
    let mut own = command.clone().disable_help_flag(true).bin_name(&name);
    let usage = own.render_usage().to_string();
    let mut options = Vec::new();
    let man = Man::new(own.clone());
    man.render_options_section(&mut options)?;
    let options = String::from_utf8_lossy(&options).replace(".SH OPTIONS", ".SS Options");
    writeln!(out, ".SH {}", roff(&name).to_uppercase())?;
    writeln!(out, "\\fB{}\\fR", roff(usage.trim_start_matches("Usage: ").trim()))?;
    let about = own.get_long_about().or_else(|| own.get_about()).map(ToString::to_string).unwrap_or_default();
    writeln!(out, ".PP\n{}.", roff(about.trim_end_matches('.')))?;
    // What the macros of a page begin with stands at its head already.
    options
        .lines()
        .filter(|line| !line.starts_with(".ie ") && !line.starts_with(".el "))
        .try_for_each(|line| writeln!(out, "{line}"))?;
    if let Some(examples) = own.get_after_long_help() {
        writeln!(out, ".SS Examples\n.nf")?;
        for line in examples.to_string().lines().filter(|line| *line != "Examples:") {
            writeln!(out, "{}", roff(line))?;
        }
        writeln!(out, ".fi")?;
    }
    Ok(())
}

/// A text as it stands on the page: no sign of it is a command to the typesetter.
fn roff(text: &str) -> String {
    let line = |line: &str| {
        let line = line.replace('\\', "\\e").replace('-', "\\-");
        if line.starts_with(['.', '\'']) { format!("\\&{line}") } else { line }
    };
    text.lines().map(line).collect::<Vec<_>>().join("\n")
}
