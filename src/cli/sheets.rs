//! `setover sheets JOB… -o FILE.pdf`: the setup sheets, one a set-up.

use super::load::Inputs;
use super::{Common, Stop, exit_code, json, print, print_bytes};
use crate::files::Target;
use crate::plan::Plan;
use crate::reading::harmless;
use crate::sheet::layout::{self, Working};
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
    /// The file to write; `-` is standard output.
    #[arg(short, long, value_name = "FILE")]
    output: PathBuf,
    /// What is written.
    #[arg(long, value_enum, default_value = "pdf")]
    format: SheetFormat,
    /// With a working page for each operation: every check, every figure and where it comes from.
    #[arg(long)]
    working: bool,
    #[command(flatten)]
    common: Common,
}

pub(super) fn run(arguments: &SheetsArguments) -> Result<ExitCode, Stop> {
    let mut inputs = Inputs::default();
    let plans = inputs.jobs(&arguments.jobs, arguments.common.shop.as_deref());
    let files = std::mem::take(&mut inputs.files);
    let plans = inputs.settle(plans)?;
    let to_stdout = arguments.output.as_os_str() == "-";
    let unwritten = |fault: crate::files::FileFault| Stop::Unwritten(fault.to_string());
    let target = if to_stdout { None } else { Some(Target::of(&arguments.output, &files).map_err(unwritten)?) };
    let working = if arguments.working { Working::All } else { Working::None };
    let bytes = match arguments.format {
        SheetFormat::Pdf => layout::pdf_with(&plans, working).map_err(|fault| Stop::Page(fault.to_string()))?,
        SheetFormat::Text => crate::sheet::terminal::plans(&plans).into_bytes(),
        SheetFormat::Json => json(&plans)?.into_bytes(),
    };
    match target {
        None => print_bytes(&bytes)?,
        Some(target) => {
            target.write(&bytes).map_err(unwritten)?;
            // Whoever reads a pipe or a device wants what was written and nothing else.
            if let Target::Plain(_) = target {
                print(&format!("{}\n", harmless(&arguments.output.display().to_string())))?;
            }
        }
    }
    let code = exit_code(plans.iter().map(Plan::verdict), arguments.common.strict);
    // The end of the process frees it, and faster.
    std::mem::forget(plans);
    Ok(code)
}
