//! `setover plan JOB…`: every figure with its verdict.

use super::load::Inputs;
use super::say::weighed;
use super::{Common, Format, ShowArguments, Stop, exit_code, json, print};
use std::path::PathBuf;
use std::process::ExitCode;

#[derive(clap::Args)]
pub(super) struct PlanArguments {
    /// Job files; `-` reads one from standard input.
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// What is printed.
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
    #[command(flatten)]
    shows: ShowArguments,
    #[command(flatten)]
    common: Common,
}

pub(super) fn run(arguments: &PlanArguments) -> Result<ExitCode, Stop> {
    let mut inputs = Inputs::printing(arguments.common.look.units);
    let (jobs, shop) = (&arguments.jobs, arguments.common.look.shop.as_deref());
    let plans = match arguments.format {
        Format::Json => inputs.jobs_to_print(jobs, shop),
        Format::Text => inputs.jobs(jobs, shop),
    };
    let plans = inputs.settle(plans)?;
    match arguments.format {
        Format::Json => print(&json(&plans)?)?,
        Format::Text => print(&weighed(&arguments.shows.text(&plans)?))?,
    }
    let code = exit_code(&plans, arguments.common.strict);
    // The end of the process frees it, and faster.
    std::mem::forget(plans);
    Ok(code)
}
