//! `setover sheets JOB… -o FILE.pdf`: the setup sheets, one page a set-up.

use super::load::Inputs;
use super::{Common, Stop, exit_code, json, print};
use crate::files::write_whole;
use std::path::PathBuf;
use std::process::ExitCode;

/// What is written.
#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum SheetFormat {
    /// Pages to pin by the machine.
    Pdf,
    /// For a person at a terminal.
    Text,
    /// For a program.
    Json,
}

#[derive(clap::Args)]
pub(super) struct SheetsArguments {
    /// Job files.
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// The file to write.
    #[arg(short, long, value_name = "FILE")]
    output: PathBuf,
    /// What is written.
    #[arg(long, value_enum, default_value = "pdf")]
    format: SheetFormat,
    #[command(flatten)]
    common: Common,
}

pub(super) fn run(arguments: &SheetsArguments) -> Result<ExitCode, Stop> {
    let mut inputs = Inputs::default();
    let plans = inputs.jobs(&arguments.jobs, arguments.common.shop.as_deref());
    let plans = inputs.settle(plans)?;
    let bytes = match arguments.format {
        SheetFormat::Pdf => crate::sheet::layout::pdf(&plans).map_err(|fault| Stop::Page(fault.to_string()))?,
        SheetFormat::Text => crate::sheet::terminal::plans(&plans).into_bytes(),
        SheetFormat::Json => json(&plans)?.into_bytes(),
    };
    write_whole(&arguments.output, &bytes).map_err(|fault| Stop::Unwritten(fault.to_string()))?;
    print(&format!("{}\n", arguments.output.display()))?;
    Ok(exit_code(&plans, arguments.common.strict))
}
