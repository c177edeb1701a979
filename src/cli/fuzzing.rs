//! The command line for the fuzzer, which alone builds with `--cfg fuzzing`: words in, the exit code and what is said out.

use super::heard::heard;
use super::{Arguments, Command, Stop, dispatched, not_arguments, report};
use clap::Parser;
use std::process::ExitCode;

/// Most draws that a run has time for.
const MOST_DRAWS: u32 = 1_000;

/// Parses words as the program parses its own, and runs the command where it answers at once and writes no file; the exit code,
/// and what was said.
pub fn run(words: &[&str]) -> (ExitCode, String) {
    heard();
    let parsed = Arguments::try_parse_from(std::iter::once(&env!("CARGO_PKG_NAME")).chain(words));
    let done = match parsed {
        Ok(arguments) if answers(&arguments.command, words) => dispatched(arguments),
        Ok(_) => Ok(ExitCode::SUCCESS),
        Err(said) => not_arguments(&said),
    };
    let code = done.unwrap_or_else(|stop: Stop| report::report(stop));
    (code, heard())
}

/// Whether a command answers at once, asks nobody and writes no file.
fn answers(command: &Command, words: &[&str]) -> bool {
    let writes = |word: &&str| word.starts_with("--output") || (word.starts_with('-') && !word.starts_with("--"));
    let draws = |at: usize, word: &str| match word.strip_prefix("--shake")?.strip_prefix('=') {
        Some(draws) => draws.parse::<u32>().ok(),
        None => words.get(at + 1)?.parse().ok(),
    };
    let waits = words.iter().enumerate().any(|(at, word)| draws(at, word).is_some_and(|draws| draws > MOST_DRAWS));
    match command {
        Command::Sheets(_) | Command::Log(_) | Command::Start(_) | Command::Ask(_) | Command::Watch(_) => false,
        _ => !waits && !words.iter().any(writes),
    }
}
