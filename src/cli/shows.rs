//! How much of an answer is shown.

use super::Stop;
use crate::plan::Plan;
use crate::reading::{Problem, near};
use crate::sheet::terminal::{Shows, answers};

#[derive(clap::Args)]
pub(super) struct ShowArguments {
    /// Shows the operations of this part alone.
    #[arg(long, value_name = "NAME")]
    part: Option<String>,
    /// Shows the operations of this word alone.
    #[arg(long, value_name = "WORD")]
    operation: Option<String>,
    /// Shows the operation of this sheet alone (`3` or `3.1`).
    #[arg(long, value_name = "ID")]
    sheet: Option<String>,
    /// Every figure with how well its source is known.
    #[arg(long)]
    values: bool,
    /// Everything: figures, alternatives, checks, steps, cautions.
    #[arg(long)]
    all: bool,
}

impl ShowArguments {
    /// The text asked for; what names no operation of the job is a problem.
    pub(super) fn text(&self, plans: &[Plan]) -> Result<String, Stop> {
        let shows = Shows {
            part: self.part.clone(),
            operation: self.operation.clone(),
            // A sheet's id begins with the number of its operation; what is none names no operation.
            number: self
                .sheet
                .as_deref()
                .map(|id| id.split('.').next().and_then(|first| first.parse().ok()).unwrap_or(0)),
            values: self.values,
            all: self.all,
        };
        answers(plans, &shows).ok_or_else(|| Stop::Input(vec![Problem::new(None, self.nothing(plans))], Vec::new()))
    }

    fn nothing(&self, plans: &[Plan]) -> String {
        let planned = || plans.iter().flat_map(|plan| &plan.operations);
        let said =
            |word: &str, known: Vec<&str>| format!("no operation of this job is of `{word}`; {}", near(word, known));
        if let Some(part) = self.part.as_deref().filter(|part| !planned().any(|one| one.address.part == *part)) {
            return said(part, planned().map(|one| one.address.part.as_str()).collect());
        }
        if let Some(word) = self.operation.as_deref().filter(|word| !planned().any(|one| one.word == *word)) {
            return said(word, planned().map(|one| one.word.as_str()).collect());
        }
        "no operation of this job is of that part, word and sheet together: see the list without them".into()
    }
}
