//! Why a command stops before it has an answer, and how that is told: to a person in lines, to a program as JSON.

use super::say::{print, tell};
use crate::reading::{Problem, Text, harmless, point};
use std::process::ExitCode;

/// Why a command stops before it has an answer.
pub(super) enum Stop {
    /// The arguments are none of ours.
    Arguments(String),
    /// The input cannot be read: every problem, with the texts that they point into.
    Input(Vec<Problem>, Vec<Text>),
    /// An output could not be written.
    Unwritten(String),
    /// The program's own fault: its page would not hold.
    Page(String),
}

/// A problem for a program.
#[derive(serde::Serialize)]
struct ProblemOut<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    file: Option<&'a str>,
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
}

impl Stop {
    /// Tells why, and gives the exit code: 2 for what was given, 3 for what could not be written.
    pub(super) fn report(self) -> ExitCode {
        if asks_json()
            && let Ok(text) = super::json_text(&self.as_json())
        {
            let _ = print(&text);
            return self.code();
        }
        let colour = anstream::AutoStream::choice(&std::io::stderr()) != anstream::ColorChoice::Never;
        match &self {
            Self::Input(problems, texts) => {
                for problem in problems {
                    tell(&format!("{}\n", point(problem, texts, colour)));
                }
                let count = problems.len();
                let word = if count == 1 { "problem" } else { "problems" };
                tell(&format!("{count} {word}; nothing was worked out"));
            }
            Self::Arguments(says) => says.lines().for_each(|line| tell(&harmless(line))),
            Self::Unwritten(says) | Self::Page(says) => tell(&harmless(says)),
        }
        self.code()
    }

    fn code(&self) -> ExitCode {
        ExitCode::from(match self {
            Self::Arguments(_) | Self::Input(..) => 2,
            Self::Unwritten(_) | Self::Page(_) => 3,
        })
    }

    fn as_json(&self) -> Problems<'_> {
        let plain =
            |says: &str| vec![ProblemOut { file: None, line: None, column: None, says: says.trim().to_owned() }];
        let problems = match self {
            Self::Input(problems, texts) => problems.iter().map(|problem| placed(problem, texts)).collect(),
            Self::Arguments(says) | Self::Unwritten(says) | Self::Page(says) => plain(says),
        };
        Problems { schema: crate::sheet::json::SCHEMA, problems }
    }
}

fn placed<'a>(problem: &Problem, texts: &'a [Text]) -> ProblemOut<'a> {
    let place = problem.place;
    let file = place.and_then(|place| texts.get(place.source as usize)).map(|text| text.name.as_str());
    let of = |number: fn(crate::proof::Place) -> u32| place.filter(|_| file.is_some()).map(number);
    ProblemOut { file, line: of(|at| at.line), column: of(|at| at.column), says: problem.says.clone() }
}

/// Whether the arguments ask for JSON, also where they are no arguments of ours.
fn asks_json() -> bool {
    let words: Vec<_> = std::env::args_os().collect();
    let pairs = words.windows(2).any(|pair| matches!(pair, [option, value] if option == "--format" && value == "json"));
    pairs || words.iter().any(|word| word == "--format=json")
}
