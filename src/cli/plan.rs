//! `setover plan JOB…`: every figure with its verdict.

use super::load::Inputs;
use super::{Common, Format, Stop, exit_code, json, print};
use crate::plan::{Plan, Planned};
use crate::proof::Verdict;
use crate::sheet::terminal;
use std::path::PathBuf;
use std::process::ExitCode;

#[derive(clap::Args)]
pub(super) struct PlanArguments {
    /// Job files.
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// What is printed.
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
    #[command(flatten)]
    common: Common,
}

pub(super) fn run(arguments: &PlanArguments) -> Result<ExitCode, Stop> {
    match arguments.format {
        Format::Json => as_json(arguments),
        Format::Text => as_text(arguments),
    }
}

fn as_json(PlanArguments { jobs, common, .. }: &PlanArguments) -> Result<ExitCode, Stop> {
    let mut inputs = Inputs::default();
    let plans = inputs.jobs(jobs, common.shop.as_deref());
    let plans = inputs.settle(plans)?;
    print(&json(&plans)?)?;
    let code = exit_code(plans.iter().map(Plan::verdict), common.strict);
    // The end of the process frees it, and faster.
    std::mem::forget(plans);
    Ok(code)
}

/// Of each operation only its text is kept.
fn as_text(PlanArguments { jobs, common, .. }: &PlanArguments) -> Result<ExitCode, Stop> {
    let mut inputs = Inputs::default();
    let said = |plan: &Plan, planned: Planned, number: usize| {
        (planned.verdict, terminal::operation_alone(plan, &planned, number))
    };
    let said = inputs.jobs_each(jobs, common.shop.as_deref(), said);
    let (verdicts, texts): (Vec<Verdict>, Vec<String>) = inputs.settle(said)?.into_iter().unzip();
    print(&terminal::together(texts))?;
    Ok(exit_code(verdicts, common.strict))
}
