//! `setover book TOPIC [NAME | KEY=VALUE…]`: one question to the book.

use super::in_inches::in_inches;
use super::keys::works_in_inches;
use super::load::Inputs;
use super::{Format, Stop, Units, print};
use crate::lookup::{Reply, TOPICS, contents, open, topic_of};
use crate::proof::{At, Place};
use crate::quantity::Print;
use crate::reading::{ARGUMENT, Keys, Node};
use crate::sheet::lookup::{output, text};
use crate::sheet::terminal::{self, within};
use crate::sheet::words::keys as words;
use std::path::Path;
use std::process::ExitCode;

#[derive(clap::Args)]
pub(super) struct BookArguments {
    /// What is asked: thread, which-thread, insert, fit, bush, reamer, material, speed, drill, turn, mill, hardness, instrument, sources.
    #[arg(value_name = "TOPIC")]
    topic: Option<String>,
    /// A name (`1/4 BSF`, `25 H7/p6`), and keys of the question.
    #[arg(value_name = "NAME | KEY=VALUE")]
    words: Vec<String>,
    /// What is printed.
    #[arg(long, value_enum, default_value = "text")]
    format: Format,
    /// Everything that the book holds of it, where it shows first what is mostly wanted.
    #[arg(long)]
    all: bool,
    #[command(flatten)]
    look: super::Look,
}

pub(super) fn run(arguments: &BookArguments) -> Result<ExitCode, Stop> {
    let Some(topic) = arguments.topic.as_deref() else { return topics(arguments.format) };
    // `sources` has a page of its own; of the others a bare topic shows what can be asked.
    if arguments.words.is_empty()
        && topic != "sources"
        && let Some((keys, names)) = contents(topic)
    {
        let look = &arguments.look;
        let shop = look.shop.as_deref().unwrap_or(Path::new("shop.yaml"));
        let inch = look.units.map_or_else(|| works_in_inches(shop), |units| units == Units::Inch);
        return listed(arguments.format, (topic, inch), &keys, &names);
    }
    let mut inputs = Inputs::printing(arguments.look.units);
    let answer = answered(arguments, topic, &mut inputs);
    let answer = inputs.settle(answer)?;
    if let Some((reply, units)) = answer {
        print(&match arguments.format {
            Format::Text => within(&text(&reply, units, arguments.all)).into_owned(),
            Format::Json => super::json_text(&output(topic, &reply))?,
        })?;
    }
    Ok(ExitCode::SUCCESS)
}

/// Every topic with what it is.
fn topics(format: Format) -> Result<ExitCode, Stop> {
    let means =
        |keys: &Keys| keys.schema().get("description").and_then(|text| text.as_str()).unwrap_or_default().to_owned();
    let all: Vec<(String, String)> =
        TOPICS.iter().filter_map(|topic| Some(((*topic).to_owned(), means(&contents(topic)?.0)))).collect();
    print(&match format {
        Format::Text => terminal::listed(words::TOPICS, &all),
        Format::Json => super::json_text(&all)?,
    })?;
    Ok(ExitCode::SUCCESS)
}

/// What a topic takes, and the names that it knows.
fn listed(
    format: Format,
    (topic, inch): (&str, bool),
    keys: &Keys,
    names: &[(String, String)],
) -> Result<ExitCode, Stop> {
    let mut all = keys.listed(None);
    Keys::in_place(&mut all, &format!("book-{}", topic_of(topic)));
    if inch {
        in_inches(&mut all);
    }
    print(&match format {
        Format::Json => super::json_text(&(&all, names))?,
        Format::Text if names.is_empty() => terminal::keys(&words::topic(topic), &all),
        Format::Text => {
            format!("{}\n{}", terminal::keys(&words::topic(topic), &all), terminal::listed(words::NAMES, names))
        }
    })?;
    Ok(ExitCode::SUCCESS)
}

fn answered(arguments: &BookArguments, topic: &str, inputs: &mut Inputs) -> Option<(Reply, Print)> {
    let topic = placed(inputs, topic);
    let (keys, names): (Vec<String>, Vec<String>) =
        arguments.words.iter().cloned().partition(|word| is_key_and_value(word));
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
    let shop = match arguments.look.shop.as_deref().or_else(|| here.is_file().then_some(here)) {
        Some(path) => Some(inputs.shop(path, None)?),
        None => None,
    };
    let reply = open(&topic, name, keys, shop.as_ref()).map_err(|all| inputs.problems.extend(all)).ok()?;
    Some((reply, inputs.units_of(shop.as_ref())))
}

/// Whether a word is `key=value`; names may have the sign too (`Grey iron <= 190 HB`).
fn is_key_and_value(word: &str) -> bool {
    let is_key =
        |key: &str| !key.is_empty() && key.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '.'));
    word.split_once('=').is_some_and(|(key, _)| is_key(key))
}

/// An argument as a text at its place.
fn placed(inputs: &mut Inputs, word: &str) -> At<String> {
    let start = inputs.text(ARGUMENT, word);
    let length = u32::try_from(word.chars().count()).unwrap_or(u32::MAX).max(1);
    At { value: word.to_owned(), place: Place { length, ..start } }
}
