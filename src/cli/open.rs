//! Opening what was written, as a double click would: `open` on a Mac, `start` on Windows, `xdg-open` everywhere else.

use super::stop::Stop;
use crate::files::plainly;
use std::path::Path;
use std::process::{Command, Stdio};

/// The program of this machine that opens a file with what is usual for it, and the words before the file.
const OPENER: (&str, &[&str]) = match std::env::consts::OS.as_bytes() {
    b"macos" => ("open", &[]),
    b"windows" => ("cmd", &["/C", "start", ""]),
    _ => ("xdg-open", &[]),
};

/// Opens a file; it is left to itself then. That it was written stands whatever becomes of that.
pub(super) fn with_the_usual(path: &Path) -> Result<(), Stop> {
    let (program, words) = OPENER;
    // A name that begins with a dash is no option.
    let path = std::path::absolute(path).unwrap_or_else(|_| path.into());
    let started = Command::new(program)
        .args(words)
        .arg(path)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn();
    match started {
        Ok(_) => Ok(()),
        Err(error) => {
            let why = match error.kind() {
                std::io::ErrorKind::NotFound => "is not on this machine".to_owned(),
                _ => format!("said: {}", plainly(&error)),
            };
            Err(Stop::Unwritten(format!("written, but not opened: `{program}`, which opens files, {why}")))
        }
    }
}
