//! `setover decide JOB…`: what must be done with each part as it came.

use super::load::Inputs;
use super::sheets::{beside_the_page, one_to_standard_output, write_page};
use super::{Stop, json_text, print};
use crate::plan::decide::Decided;
use crate::sheet::{decide_html, decide_json, layout, terminal};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What is printed.
#[derive(Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum DecideFormat {
    /// For a person at a terminal.
    Text,
    /// For a program.
    Json,
    /// For a browser.
    Html,
}

#[derive(clap::Args)]
pub(super) struct DecideArguments {
    /// Job files; together they are one set of parts and addresses.
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    #[command(flatten)]
    common: super::Common,
    /// What is printed.
    #[arg(long, value_enum, default_value = "text")]
    format: DecideFormat,
    /// Writes the page as well; `-` is standard output.
    #[arg(short, long, value_name = "FILE.pdf")]
    output: Option<PathBuf>,
    /// Replaces the file even where this program did not write what is there.
    #[arg(long, requires = "output")]
    force: bool,
}

pub(super) fn run(arguments: &DecideArguments) -> Result<ExitCode, Stop> {
    let look = &arguments.common.look;
    let output = arguments.output.as_deref();
    one_to_standard_output(output, arguments.format == DecideFormat::Text)?;
    let mut inputs = Inputs::printing(look.units);
    let decided = inputs.decided(&arguments.jobs, look.shop.as_deref());
    let files = std::mem::take(&mut inputs.files);
    let Some(decided) = inputs.settle(decided)? else { return Ok(ExitCode::from(2)) };
    if let Some(path) = &arguments.output {
        write(&decided, path, arguments.force, &files)?;
    }
    match arguments.format {
        DecideFormat::Text => beside_the_page(&terminal::within(&terminal::decided(&decided)), output)?,
        DecideFormat::Json => print(&json_text(&decide_json::output(&decided))?)?,
        DecideFormat::Html => print(&decide_html::decide_html(&decided))?,
    }
    let open = decided.rows.iter().any(|row| !row.is_settled());
    Ok(ExitCode::from(u8::from(arguments.common.strict && open)))
}

fn write(decided: &Decided, path: &Path, force: bool, files: &[PathBuf]) -> Result<(), Stop> {
    let bytes = layout::decide_pdf(decided).map_err(|fault| Stop::Page(fault.to_string()))?;
    write_page(&bytes, (path, force), files)
}
