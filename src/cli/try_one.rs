//! `setover try OPERATION key=value…`: any operation without a file.

use super::load::Inputs;
use super::{Common, Format, Stop, exit_code, json, print};
use crate::job::JobFile;
use crate::operations::Request;
use crate::plan::Plan;
use crate::proof::Place;
use crate::reading::{Node, Problem};
use std::path::Path;
use std::process::ExitCode;

#[derive(clap::Args)]
pub(super) struct TryArguments {
    /// The operation.
    #[arg(value_name = "OPERATION")]
    operation: String,
    /// Keys of the operation, nested ones with dots; facts of the part as part.material=… part.hardness=…
    #[arg(value_name = "KEY=VALUE")]
    keys: Vec<String>,
    /// What is printed.
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
    #[command(flatten)]
    common: Common,
}

pub(super) fn run(arguments: &TryArguments) -> Result<ExitCode, Stop> {
    let mut inputs = Inputs::default();
    let plan = worked(arguments, &mut inputs);
    let plans: Vec<Plan> = inputs.settle(plan.into_iter().collect())?;
    match arguments.format {
        Format::Json => print(&json(&plans)?)?,
        Format::Text => print(&crate::sheet::terminal::plans(&plans))?,
    }
    Ok(exit_code(&plans, arguments.common.strict))
}

fn worked(arguments: &TryArguments, inputs: &mut Inputs) -> Option<Plan> {
    let first = inputs.text("argument", arguments.operation.clone());
    for word in &arguments.keys {
        inputs.text("argument", word.clone());
    }
    let job = job(arguments, first, inputs);
    // The shop of this folder is used where there is one; there is never a pretended one.
    let here = Path::new("shop.yaml");
    let path = arguments.common.shop.as_deref().or_else(|| here.is_file().then_some(here));
    let shop = match path {
        Some(path) => Some(inputs.shop(path, None)?),
        None => None,
    };
    inputs.work(&job?, shop.as_ref(), None)
}

/// The job that a file would have said: one part, one operation.
fn job(arguments: &TryArguments, first: Place, inputs: &mut Inputs) -> Option<JobFile<Request>> {
    let mut keys =
        Node::arguments(&arguments.keys, first.source + 1).map_err(|all| inputs.problems.extend(all)).ok()?;
    let name = Place { length: u32::try_from(arguments.operation.chars().count()).unwrap_or(1), ..first };
    let mut part = keys.take("part").unwrap_or_else(|| Node::map(name));
    if !part.is_map() {
        inputs
            .problems
            .push(Problem::new(part.place(), "facts of the part are given as part.material=… part.hardness=…"));
        return None;
    }
    part.insert("part", Node::text(name, "part"));
    part.insert("operations", keys.under_word(&arguments.operation, name).alone());
    let mut job = Node::map(name);
    job.insert("job", Node::text(name, "try"));
    job.insert("parts", part.alone());
    JobFile::read(job).map_err(|all| inputs.problems.extend(all)).ok()
}
