//! How a command that stops is told: to a person in lines, to a program as JSON.

use super::say::{print, tell, tell_page};
use super::stop::{SHOWN, Stop};
use crate::reading::{ARGUMENT, Problem, Text, harmless, point_within};
use crate::sheet::terminal::columns;
use std::process::ExitCode;

/// A problem for a program.
#[derive(serde::Serialize)]
struct ProblemOut<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    file: Option<&'a str>,
    /// The argument that is wrong, where it stands in none of the files.
    #[serde(skip_serializing_if = "Option::is_none")]
    argument: Option<&'a str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    line: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    column: Option<u32>,
    says: String,
}

/// What a program gets in the place of an answer.
#[derive(serde::Serialize)]
struct Problems<'a> {
    schema: u32,
    problems: Vec<ProblemOut<'a>>,
    /// How many more there are.
    #[serde(skip_serializing_if = "Option::is_none")]
    more: Option<usize>,
}

/// Tells why a command stops, and gives the exit code: 2 for what was given, 3 for what could not be written.
pub(super) fn report(stop: Stop) -> ExitCode {
    if asks_json()
        && let Ok(text) = super::json_text(&as_json(&stop))
    {
        let _ = print(&text);
        return code(&stop);
    }
    let colour = anstream::AutoStream::choice(&std::io::stderr()) != anstream::ColorChoice::Never;
    match &stop {
        Stop::Input(problems, texts) => {
            for (at, problem) in problems.iter().enumerate().take(SHOWN) {
                let says = point_within(problem, texts, colour, columns());
                // What is quoted stands over its mark: only what is said is broken.
                let (says, quoted) = says.split_once('\n').unwrap_or((&says, ""));
                tell_page(says);
                // Of several at one place it is quoted once, behind the last.
                let next = problems.get(at + 1).filter(|_| at + 1 < SHOWN);
                if next.is_some_and(|next| next.place.is_some() && next.place == problem.place) {
                    continue;
                }
                tell(&if quoted.is_empty() { String::new() } else { format!("{quoted}\n") });
            }
            let not_done = match texts.iter().any(|text| text.name == super::log_typed::TYPED) {
                true => "nothing was written down",
                false => "nothing was worked out",
            };
            tell(&match problems.len() {
                1 => format!("1 problem; {not_done}"),
                count @ ..=SHOWN => format!("{count} problems; {not_done}"),
                count => format!("{count} problems, of which the first {SHOWN} are shown; {not_done}"),
            });
        }
        Stop::Arguments(says) => says.lines().for_each(|line| tell_page(&harmless(line))),
        Stop::Unwritten(says) | Stop::Page(says) => tell_page(&harmless(says)),
    }
    code(&stop)
}

fn code(stop: &Stop) -> ExitCode {
    ExitCode::from(match stop {
        Stop::Arguments(_) | Stop::Input(..) => 2,
        Stop::Unwritten(_) | Stop::Page(_) => 3,
    })
}

fn as_json(stop: &Stop) -> Problems<'_> {
    let plain = |says: &str| {
        vec![ProblemOut { file: None, argument: None, line: None, column: None, says: says.trim().to_owned() }]
    };
    let problems = match stop {
        Stop::Input(problems, texts) => problems.iter().take(SHOWN).map(|problem| placed(problem, texts)).collect(),
        Stop::Arguments(says) | Stop::Unwritten(says) | Stop::Page(says) => plain(says),
    };
    let all = if let Stop::Input(all, _) = stop { all.len() } else { 1 };
    Problems { schema: crate::sheet::json::SCHEMA, problems, more: all.checked_sub(SHOWN).filter(|more| *more > 0) }
}

fn placed<'a>(problem: &Problem, texts: &'a [Text]) -> ProblemOut<'a> {
    let place = problem.place;
    let text = place.and_then(|place| texts.get(place.source as usize));
    let file = text.map(|text| text.name.as_str()).filter(|name| *name != ARGUMENT);
    let argument = text.filter(|text| text.name == ARGUMENT).map(|text| text.text.as_str());
    let of =
        |number: fn(crate::proof::Place) -> u32| place.filter(|place| text.is_some() && place.line > 0).map(number);
    // Of a file as a whole a person is told its name; a program has it beside what is said.
    let named = file.and_then(|file| problem.says.strip_prefix(file)?.strip_prefix(": "));
    let says = named.unwrap_or(&problem.says).to_owned();
    ProblemOut { file, argument, line: of(|at| at.line).filter(|_| file.is_some()), column: of(|at| at.column), says }
}

/// Whether the arguments ask for JSON, also where they are no arguments of ours.
fn asks_json() -> bool {
    let words: Vec<_> = std::env::args_os().collect();
    let pairs = words.windows(2).any(|pair| matches!(pair, [option, value] if option == "--format" && value == "json"));
    pairs || words.iter().any(|word| word == "--format=json")
}
