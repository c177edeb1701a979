//! `setover book TOPIC [NAME | KEY=VALUE…]`: one question to the book.

use super::load::Inputs;
use super::{Format, Stop, print};
use crate::lookup::{Reply, open};
use crate::proof::{At, Place};
use crate::quantity::Print;
use crate::reading::{ARGUMENT, Node};
use crate::sheet::lookup::{output, text};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

#[derive(clap::Args)]
pub(super) struct BookArguments {
    /// What is asked: thread, which-thread, insert, fit, bush, reamer, material, speed, drill, turn, mill, hardness, instrument, sources.
    #[arg(value_name = "TOPIC")]
    topic: String,
    /// A name (`1/4 BSF`, `25 H7/p6`), and keys of the question.
    #[arg(value_name = "NAME | KEY=VALUE")]
    words: Vec<String>,
    /// What is printed.
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
    /// The shop file; left out, `shop.yaml` of this folder where there is one.
    #[arg(long, value_name = "FILE")]
    shop: Option<PathBuf>,
}

pub(super) fn run(arguments: &BookArguments) -> Result<ExitCode, Stop> {
    let mut inputs = Inputs::default();
    let answer = answered(arguments, &mut inputs);
    let answer = inputs.settle(answer)?;
    if let Some((reply, units)) = answer {
        print(&match arguments.format {
            Format::Text => text(&reply, units),
            Format::Json => super::json_text(&output(&arguments.topic, &reply))?,
        })?;
    }
    Ok(ExitCode::SUCCESS)
}

fn answered(arguments: &BookArguments, inputs: &mut Inputs) -> Option<(Reply, Print)> {
    let topic = placed(inputs, &arguments.topic);
    let (keys, names): (Vec<String>, Vec<String>) =
        arguments.words.iter().cloned().partition(|word| word.contains('='));
    // The words of a name may come apart: `book thread 1/4 BSF`.
    let name = (!names.is_empty()).then(|| placed(inputs, &names.join(" ")));
    let first = u32::try_from(inputs.texts.len()).unwrap_or(u32::MAX);
    keys.iter().for_each(|word| {
        inputs.text(ARGUMENT, word.clone());
    });
    let keys = match keys.is_empty() {
        true => Node::map(topic.place),
        false => Node::arguments(&keys, first).map_err(|all| inputs.problems.extend(all)).ok()?,
    };
    let here = Path::new("shop.yaml");
    let shop = match arguments.shop.as_deref().or_else(|| here.is_file().then_some(here)) {
        Some(path) => Some(inputs.shop(path, None)?),
        None => None,
    };
    let reply = open(&topic, name, keys, shop.as_ref()).map_err(|all| inputs.problems.extend(all)).ok()?;
    Some((reply, shop.map(|shop| shop.units).unwrap_or_default()))
}

/// An argument as a text at its place.
fn placed(inputs: &mut Inputs, word: &str) -> At<String> {
    let start = inputs.text(ARGUMENT, word);
    let length = u32::try_from(word.chars().count()).unwrap_or(u32::MAX).max(1);
    At { value: word.to_owned(), place: Place { length, ..start } }
}
