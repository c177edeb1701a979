//! The thin end: everything is in the library.

use std::process::ExitCode;

fn main() -> ExitCode {
    setover::cli::run()
}
