//! `setover completions SHELL` and `setover man`: from the same definition that reads the arguments.

use super::{Arguments, Stop, say};
use clap::CommandFactory;
use std::process::ExitCode;

#[derive(clap::Args)]
pub(super) struct CompletionsArguments {
    /// The shell.
    #[arg(value_enum, value_name = "SHELL")]
    shell: clap_complete::Shell,
}

pub(super) fn completions(arguments: &CompletionsArguments) -> Result<ExitCode, Stop> {
    let mut out = Vec::new();
    clap_complete::generate(arguments.shell, &mut Arguments::command(), env!("CARGO_PKG_NAME"), &mut out);
    say::print_bytes(&out)?;
    Ok(ExitCode::SUCCESS)
}

/// The manual page.
pub(super) fn man() -> Result<ExitCode, Stop> {
    let mut out = Vec::new();
    let written = clap_mangen::Man::new(Arguments::command()).render(&mut out);
    written.map_err(|error| Stop::Page(error.to_string()))?;
    say::print_bytes(&out)?;
    Ok(ExitCode::SUCCESS)
}
