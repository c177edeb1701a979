//! Saying things: to standard output, to standard error, with weight where a terminal shows it.

use super::sheets::write_page;
use super::stop::Stop;
use crate::files::{plainly, put};
use crate::sheet::terminal::within;
use anstream::ColorChoice;
use std::io::Write;
use std::path::{Path, PathBuf};

/// When verdicts have weight and colour.
#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub(super) enum When {
    /// Where a terminal shows it.
    Auto,
    /// Always.
    Always,
    /// Never.
    Never,
}

impl When {
    pub(super) const fn choice(self) -> ColorChoice {
        match self {
            Self::Auto => ColorChoice::Auto,
            Self::Always => ColorChoice::AlwaysAnsi,
            Self::Never => ColorChoice::Never,
        }
    }
}

/// The words of verdicts as they stand in the list and before an answer, each with how it is shown: what must not be done bold
/// and red, what is doubtful bold and yellow, what is proven bold. Nothing rests on the colour alone.
const WEIGHTS: [(&str, &str); 5] = [
    ("DO NOT CUT", "\u{1b}[1;31m"),
    ("DO NOT FIT", "\u{1b}[1;31m"),
    ("FAILS", "\u{1b}[1;31m"),
    ("DOUBTFUL", "\u{1b}[1;33m"),
    ("PROVEN", "\u{1b}[1m"),
];

/// A text with its verdicts in weight, where standard output shows it.
pub(super) fn weighed(text: &str) -> String {
    if anstream::AutoStream::choice(&std::io::stdout()) == ColorChoice::Never {
        return text.to_owned();
    }
    let put = |text: String, (word, weight): &(&str, &str)| text.replace(word, &format!("{weight}{word}\u{1b}[0m"));
    WEIGHTS.iter().fold(text.to_owned(), put)
}

/// A page for a person, its lines broken at the width of the terminal, to standard output.
pub(super) fn page(text: &str) -> Result<(), Stop> {
    print(&within(text))
}

/// Where an answer goes: to standard output, or to a file that is named.
#[derive(clap::Args)]
pub(super) struct To {
    /// The file to write; left out or `-`, it is standard output.
    #[arg(short, long, value_name = "FILE")]
    output: Option<PathBuf>,
    /// Replaces the file even where this program did not write what is there.
    #[arg(long)]
    force: bool,
}

impl To {
    /// A page for a person; none of the files read is written over.
    pub(super) fn page(&self, text: &str, read: &[PathBuf]) -> Result<(), Stop> {
        match self.file() {
            Some(file) => write_page(within(text).as_bytes(), (file, self.force), read),
            None => page(&weighed(text)),
        }
    }

    /// What a program reads.
    pub(super) fn print(&self, text: &str, read: &[PathBuf]) -> Result<(), Stop> {
        match self.file() {
            Some(file) => write_page(text.as_bytes(), (file, self.force), read),
            None => print(text),
        }
    }

    fn file(&self) -> Option<&Path> {
        self.output.as_deref().filter(|path| path.as_os_str() != "-")
    }
}

/// Lines for a person to standard error, broken in the same way.
pub(super) fn tell_page(text: &str) {
    tell(&within(text));
}

/// A line to standard error. Where that is gone or full nobody can be told, and the exit code still says how it ended.
pub(super) fn tell(line: &str) {
    #[cfg(fuzzing)]
    super::heard::hear(&[line, "\n"]);
    let line = format!("{line}\n");
    // Nothing to be taken out where no colour was put in.
    let _ = if line.contains('\u{1b}') {
        anstream::stderr().lock().write_all(line.as_bytes())
    } else {
        std::io::stderr().lock().write_all(line.as_bytes())
    };
}

/// Prints to standard output; a reader that has gone away is no fault.
pub(super) fn print(text: &str) -> Result<(), Stop> {
    // Nothing to be taken out where no colour was put in.
    if !text.contains('\u{1b}') {
        return print_bytes(text.as_bytes());
    }
    let mut out = anstream::stdout().lock();
    gone_or_written(out.write_all(text.as_bytes()).and_then(|()| out.flush()))
}

/// Bytes to standard output as they are.
pub(super) fn print_bytes(bytes: &[u8]) -> Result<(), Stop> {
    print_pieces(&[bytes])
}

/// The same of bytes in pieces that follow each other.
pub(super) fn print_pieces(pieces: &[impl AsRef<[u8]>]) -> Result<(), Stop> {
    #[cfg(fuzzing)]
    super::heard::hear(pieces);
    gone_or_written(put(std::io::stdout().lock(), pieces))
}

fn gone_or_written(written: std::io::Result<()>) -> Result<(), Stop> {
    match written {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => {
            Err(Stop::Unwritten(format!("standard output: {}", plainly(&error))))
        }
        _ => Ok(()),
    }
}
