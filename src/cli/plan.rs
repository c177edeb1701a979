//! `setover plan JOB…`: every figure with its verdict.

use super::first;
use super::load::Inputs;
use super::log::harmless_lines;
use super::say::To;
use super::{Common, Format, ShowArguments, Stop, exit_code, exit_code_of, json, json_text, leave};
use crate::plan::{Change, Plan, Planned};
use crate::sheet::{json::SCHEMA, layout::Listed, terminal};
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
    /// Shows what the entries of the log after this one changed, as in L3, and which of them is the cause; L0 shows what all of them
    /// changed, and of jobs given together it is of each one's log.
    #[arg(long, value_name = "ENTRY", value_parser = super::log::number)]
    since: Option<u32>,
    #[command(flatten)]
    shows: ShowArguments,
    #[command(flatten)]
    to: To,
    #[command(flatten)]
    common: Common,
}

/// What changed, for a program.
#[derive(serde::Serialize)]
struct Changes {
    schema: u32,
    changes: Vec<Change>,
    no_longer_holds: Vec<Change>,
}

pub(super) fn run(arguments: &PlanArguments) -> Result<ExitCode, Stop> {
    let mut inputs = Inputs::printing(arguments.common.look.units);
    let (jobs, shop) = (&arguments.jobs, arguments.common.look.shop.as_deref());
    if let Some(since) = arguments.since {
        let found = inputs.since(jobs, shop, since);
        let read = std::mem::take(&mut inputs.files);
        let found = inputs.settle(found)?;
        match arguments.format {
            Format::Json => {
                let (changes, no_longer_holds) = (found.changes, found.no_longer);
                arguments.to.print(&json_text(&Changes { schema: SCHEMA, changes, no_longer_holds })?, &read)?;
            }
            Format::Text => {
                let text = terminal::changes(&found.changes, &found.no_longer, (since, found.last));
                arguments.to.page(&harmless_lines(&text), &read)?;
            }
        }
        return Ok(ExitCode::SUCCESS);
    }
    let listed = |plan: &Plan, planned: &Planned, number| Listed::of(plan, planned, number);
    let plans = match arguments.format {
        Format::Json => inputs.jobs_to_print(jobs, shop),
        // Of many operations in a line each none stays longer than its line needs.
        Format::Text if arguments.shows.is_list() => match inputs.each_or_whole(jobs, shop, listed) {
            Ok(listed) => {
                let read = std::mem::take(&mut inputs.files);
                let listed = inputs.settle(listed)?;
                arguments.to.page(&terminal::list_made(&listed), &read)?;
                return Ok(exit_code_of(listed.iter().flatten().map(Listed::verdict), arguments.common.strict));
            }
            Err(plans) => plans,
        },
        Format::Text => inputs.jobs(jobs, shop),
    };
    let read = std::mem::take(&mut inputs.files);
    let texts = std::mem::take(&mut inputs.texts);
    let of_one = jobs.first().filter(|_| jobs.len() == 1).zip(texts.first().cloned());
    inputs.texts = texts;
    let plans = inputs.settle(plans)?;
    let first = |plan: &Plan, planned: &Planned| {
        let (path, text) = of_one.as_ref()?;
        first::of(planned, (path, &text.text), shop, plan.print)
    };
    let plans = match arguments.format {
        Format::Json => arguments.shows.only(plans)?,
        Format::Text => plans,
    };
    match arguments.format {
        Format::Json => arguments.to.print(&json(&plans)?, &read)?,
        Format::Text => arguments.to.page(&arguments.shows.text_with(&plans, &first)?, &read)?,
    }
    let code = exit_code(&plans, arguments.common.strict);
    leave(plans);
    Ok(code)
}
