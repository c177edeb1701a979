//! The command line for the fuzzer, which alone builds with `--cfg fuzzing`: words in, the exit code and what is said out.

use super::{Arguments, Command, Stop, dispatched, not_arguments, report};
use clap::Parser;
use std::cell::RefCell;
use std::process::ExitCode;

thread_local! {
    /// What was said since the last command.
    static SAID: RefCell<Vec<u8>> = const { RefCell::new(Vec::new()) };
}

/// Most draws that a run has time for.
const MOST_DRAWS: u32 = 1_000;

/// Takes what would go to standard output or standard error.
pub(super) fn hear(pieces: &[impl AsRef<[u8]>]) {
    SAID.with_borrow_mut(|said| pieces.iter().for_each(|piece| said.extend_from_slice(piece.as_ref())));
}

/// Parses words as the program parses its own, and runs the command where it answers at once and writes no file; the exit code,
/// and what was said.
pub fn run(words: &[&str]) -> (ExitCode, String) {
    SAID.take();
    let parsed = Arguments::try_parse_from(std::iter::once(&env!("CARGO_PKG_NAME")).chain(words));
    let done = match parsed {
        Ok(arguments) if answers(&arguments.command, words) => dispatched(arguments),
        Ok(_) => Ok(ExitCode::SUCCESS),
        Err(said) => not_arguments(&said),
    };
    let code = done.unwrap_or_else(|stop: Stop| report::report(stop));
    (code, String::from_utf8_lossy(&SAID.take()).into_owned())
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
