//! `setover why JOB VALUE`: one figure, down to the readings and the rows of the book that it was worked from.

use super::load::Inputs;
use super::places::Places;
use super::{Format, Stop, json_text, print};
use crate::operations::Value;
use crate::plan::{Plan, Planned};
use crate::reading::{Problem, near};
use crate::sheet::Why;
use crate::sheet::terminal::{listed as listed_under, within};
use std::path::PathBuf;
use std::process::ExitCode;

#[derive(clap::Args)]
pub(super) struct WhyArguments {
    /// The job file; `-` reads it from standard input.
    #[arg(value_name = "JOB")]
    job: PathBuf,
    /// The value, as `setover plan JOB --values` names it, or a check that judges one; with its part and operation before it where
    /// several have it. Left out, all values are named.
    #[arg(value_name = "[PART/OPERATION/]VALUE")]
    value: Option<String>,
    /// A job that is worked with it, whose operations it names; may be given several times.
    #[arg(long, value_name = "JOB")]
    beside: Vec<PathBuf>,
    /// What is printed.
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
    #[command(flatten)]
    look: super::Look,
}

pub(super) fn run(arguments: &WhyArguments) -> Result<ExitCode, Stop> {
    let mut inputs = Inputs::printing(arguments.look.units);
    let jobs: Vec<PathBuf> = std::iter::once(&arguments.job).chain(&arguments.beside).cloned().collect();
    let plans = inputs.jobs(&jobs, arguments.look.shop.as_deref());
    let texts = inputs.texts.clone();
    let plans = inputs.settle(plans)?;
    let Some(plan) = plans.first() else { return Ok(ExitCode::SUCCESS) };
    let Some(asked) = &arguments.value else { return listed(plan, arguments.format) };
    let (planned, value) = found(plan, asked)?;
    let places = Places::of(&texts);
    let why = Why::of(planned, value, &|place| places.typed(place), &|cause| places.cause(cause));
    print(&match arguments.format {
        Format::Json => json_text(&why)?,
        Format::Text => within(&why.text(plan.print)).into_owned(),
    })?;
    Ok(ExitCode::SUCCESS)
}

/// Every value that can be asked for.
fn listed(plan: &Plan, format: Format) -> Result<ExitCode, Stop> {
    let values = |planned: &Planned| -> Vec<(String, String)> {
        planned.answer.values.iter().map(|value| (value.key.to_owned(), value.means.to_owned())).collect()
    };
    let all: Vec<_> = plan.operations.iter().map(|planned| (planned.address.to_string(), values(planned))).collect();
    print(&match format {
        Format::Json => json_text(&all)?,
        Format::Text => {
            let each = all.iter().map(|(address, values)| listed_under(address, values));
            std::iter::once(format!("{}\n", crate::sheet::words::why::LIST)).chain(each).collect::<Vec<_>>().join("\n")
        }
    })?;
    Ok(ExitCode::SUCCESS)
}

/// The value asked for; by its own name where one operation alone has it.
fn found<'a>(plan: &'a Plan, asked: &str) -> Result<(&'a Planned, &'a Value), Stop> {
    let (of, name) = asked.rsplit_once('/').map_or((None, asked), |(of, name)| (Some(of), name));
    let (key, id) = (name.trim().replace('-', "_"), name.trim());
    let is_meant = |planned: &Planned, of: &str| {
        let of = of.trim();
        [planned.address.to_string().as_str(), &planned.address.part, &planned.address.operation, &planned.word]
            .contains(&of)
    };
    let meant: Vec<&Planned> =
        plan.operations.iter().filter(|planned| of.is_none_or(|of| is_meant(planned, of))).collect();
    let wrong = |says: String| Stop::Input(vec![Problem::new(None, says)], Vec::new());
    if meant.is_empty() {
        let known = plan.operations.iter().map(|planned| planned.address.to_string()).collect::<Vec<_>>();
        let near = near(of.unwrap_or_default(), known.iter().map(String::as_str));
        return Err(wrong(format!("no operation of this job is `{}`; {near}", of.unwrap_or_default())));
    }
    let has = |planned: &&'a Planned| {
        let planned: &'a Planned = planned;
        let judged = planned.answer.checks.iter().find(|check| check.id == id).and_then(|check| check.about);
        Some((planned, planned.answer.value(judged.unwrap_or(&key))?))
    };
    let all: Vec<(&Planned, &Value)> = meant.iter().filter_map(has).collect();
    match all.as_slice() {
        [one] => Ok(*one),
        [] => {
            let keys = meant.iter().flat_map(|planned| planned.answer.values.iter().map(|value| value.key));
            let judges = meant.iter().any(|planned| planned.answer.checks.iter().any(|check| check.id == id));
            let says = match judges {
                true => format!("the check `{id}` judges no value that has a name of its own"),
                false => format!("no value `{name}` was worked out here; {}", near(&key, keys)),
            };
            Err(wrong(format!("{says}; `setover why JOB` without a value names them all")))
        }
        several => {
            let all: Vec<String> = several.iter().map(|(planned, _)| planned.address.value(&key).to_string()).collect();
            Err(wrong(format!("several operations have it: say which, as in `{}`", all.join("`, `"))))
        }
    }
}
