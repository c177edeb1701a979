//! Arguments that are none of ours, in the words of this program: what was typed, what would do, where the examples stand.

use super::Arguments;
use crate::reading::near;
use clap::CommandFactory;
use clap::error::{ContextKind, ContextValue, ErrorKind};

/// What is said of arguments that are no command of ours.
pub(super) fn told(said: &clap::Error) -> String {
    let text = |kind| match said.get(kind) {
        Some(ContextValue::String(text)) => text.clone(),
        Some(ContextValue::Strings(all)) => all.join(" "),
        Some(ContextValue::StyledStr(text)) => text.to_string(),
        _ => String::new(),
    };
    let (argument, value) = (text(ContextKind::InvalidArg), text(ContextKind::InvalidValue));
    let known: Vec<String> = match said.get(ContextKind::ValidValue) {
        Some(ContextValue::Strings(all)) => all.clone(),
        _ => Vec::new(),
    };
    let name = plain(&argument);
    let says = match said.kind() {
        ErrorKind::InvalidSubcommand => return no_command(&text(ContextKind::InvalidSubcommand)),
        ErrorKind::InvalidValue if value.is_empty() => match known.as_slice() {
            [] => format!("`{name}` wants something behind it: {argument}"),
            _ => format!("`{name}` wants one of these behind it: {}", known.join(", ")),
        },
        ErrorKind::InvalidValue => {
            let near = near(&value, known.iter().map(String::as_str));
            let near = if near.starts_with("did you mean") { format!("; {near}") } else { String::new() };
            format!("`{name}` is one of {}, not `{value}`{near}", known.join(", "))
        }
        ErrorKind::ValueValidation => {
            let why = std::error::Error::source(said).map_or_else(String::new, ToString::to_string);
            format!("`{name}`: {why}")
        }
        ErrorKind::UnknownArgument => {
            let near = text(ContextKind::SuggestedArg);
            let near = if near.is_empty() { near } else { format!("; did you mean `{near}`?") };
            match argument.starts_with('-') {
                true => format!("there is no option `{argument}` here{near}"),
                false => format!("`{argument}` is one word too many"),
            }
        }
        ErrorKind::ArgumentConflict => format!("`{name}` and {} do not go together", others(said)),
        ErrorKind::MissingRequiredArgument => format!("{} is missing", named_all(&argument)),
        _ => said.render().to_string().trim_start_matches("error: ").lines().next().unwrap_or_default().to_owned(),
    };
    let usage = text(ContextKind::Usage);
    let usage = usage.trim().trim_start_matches("Usage: ").trim().replace(['<', '>'], "").replace("...", "…");
    let form = if usage.is_empty() { String::new() } else { format!(" It goes so: {usage}") };
    let end = if says.ends_with('?') { "" } else { "." };
    format!("{says}{end}{form}\n`{} --help` has examples.", command())
}

/// What is said of a command that there is not.
fn no_command(word: &str) -> String {
    let known = Arguments::command();
    let names: Vec<&str> = known.get_subcommands().map(clap::Command::get_name).collect();
    let near = near(word, names.iter().copied());
    let near = if near.starts_with("did you mean") { format!("{near} ") } else { String::new() };
    format!("there is no command `{word}`; {near}there are {}", names.join(", "))
}

/// An argument by its name alone: `--units <UNITS>` is `--units`, `<JOB>...` is `JOB`.
fn plain(argument: &str) -> String {
    let first = argument.split_whitespace().next().unwrap_or_default();
    first.split('=').next().unwrap_or_default().trim_matches(['<', '>', '[', ']', '.']).to_owned()
}

/// All that are named one behind the other.
fn named_all(arguments: &str) -> String {
    let names: Vec<String> = arguments.split_whitespace().map(plain).collect();
    names.join(" and ")
}

/// With what an argument does not go together.
fn others(said: &clap::Error) -> String {
    let all = match said.get(ContextKind::PriorArg) {
        Some(ContextValue::String(other)) => vec![other.clone()],
        Some(ContextValue::Strings(all)) => all.clone(),
        _ => Vec::new(),
    };
    all.iter().map(|other| format!("`{}`", plain(other))).collect::<Vec<_>>().join(", ")
}

/// The program, and the command of it that was typed.
fn command() -> String {
    let known = Arguments::command();
    let typed = std::env::args_os().nth(1).and_then(|word| word.into_string().ok());
    let name = env!("CARGO_PKG_NAME");
    match typed.filter(|word| known.find_subcommand(word).is_some()) {
        Some(word) => format!("{name} {word}"),
        None => name.to_owned(),
    }
}
