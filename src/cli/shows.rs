//! How much of an answer is shown.

use super::Stop;
use crate::plan::{Plan, Planned};
use crate::reading::{Problem, near};
use crate::sheet::terminal::{Shows, answers};

/// What settles the most of what is open in an operation.
type First<'a> = &'a dyn Fn(&Plan, &Planned) -> Option<crate::plan::First>;

#[derive(clap::Args)]
pub(super) struct ShowArguments {
    /// Shows the operations of this part alone.
    #[arg(long, value_name = "NAME")]
    part: Option<String>,
    /// Shows the operations of this word alone.
    #[arg(long, value_name = "WORD")]
    operation: Option<String>,
    /// Shows the operation of this sheet alone (`3` or `3.1`, of the second of several jobs `2/3.1`).
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
        answers(plans, &self.shows(plans)?).ok_or_else(|| self.none(plans))
    }

    /// The same with what settles the most, which is asked for where one operation is shown.
    pub(super) fn text_with(&self, plans: &[Plan], first: First) -> Result<String, Stop> {
        let mut shows = self.shows(plans)?;
        let mut taken = plans.iter().flat_map(|plan| plan.operations.iter().zip(1..).map(move |own| (plan, own)));
        let mut shown = taken.by_ref().filter(|(plan, (planned, number))| shows.takes(plan, planned, *number));
        if let (Some((plan, (planned, _))), None) = (shown.next(), shown.next())
            && (shows.picks()
                || shows.all
                || shows.values
                || plans.iter().map(|plan| plan.operations.len()).sum::<usize>() == 1)
        {
            shows.first = first(plan, planned).map(|first| (planned.address.clone(), first));
        }
        answers(plans, &shows).ok_or_else(|| self.none(plans))
    }

    /// The plans with the operations asked for alone; what names none is a problem.
    pub(super) fn only(&self, mut plans: Vec<Plan>) -> Result<Vec<Plan>, Stop> {
        let shows = self.shows(&plans)?;
        if !shows.picks() {
            return Ok(plans);
        }
        let takes = |plan: &Plan| -> Vec<bool> {
            plan.operations.iter().zip(1..).map(|(planned, number)| shows.takes(plan, planned, number)).collect()
        };
        let kept: Vec<Vec<bool>> = plans.iter().map(takes).collect();
        if !kept.iter().flatten().any(|kept| *kept) {
            return Err(self.none(&plans));
        }
        for (plan, kept) in plans.iter_mut().zip(kept) {
            let mut kept = kept.into_iter();
            plan.operations.retain(|_| kept.next().unwrap_or_default());
        }
        Ok(plans)
    }

    /// Whether of several operations each is told in a line alone.
    pub(super) const fn is_list(&self) -> bool {
        !(self.all || self.values || self.part.is_some() || self.operation.is_some() || self.sheet.is_some())
    }

    fn shows(&self, plans: &[Plan]) -> Result<Shows, Stop> {
        Ok(Shows {
            part: self.part.clone(),
            operation: self.operation.clone(),
            number: self.sheet.as_deref().map(|id| number(id, plans)).transpose()?,
            values: self.values,
            all: self.all,
            first: None,
        })
    }

    fn none(&self, plans: &[Plan]) -> Stop {
        Stop::Input(vec![Problem::new(None, self.nothing(plans))], Vec::new())
    }

    fn nothing(&self, plans: &[Plan]) -> String {
        let planned = || plans.iter().flat_map(|plan| &plan.operations);
        let said = |what: &str, word: &str, mut known: Vec<&str>| {
            let mut seen = std::collections::BTreeSet::new();
            known.retain(|name| seen.insert(*name));
            format!("there is no {what} `{word}` in this job; {}", near(word, known))
        };
        if let Some(part) = self.part.as_deref().filter(|part| !planned().any(|one| one.address.part == *part)) {
            return said("part", part, planned().map(|one| one.address.part.as_str()).collect());
        }
        if let Some(word) = self.operation.as_deref().filter(|word| !planned().any(|one| one.word == *word)) {
            return said("operation", word, planned().map(|one| one.word.as_str()).collect());
        }
        "no operation of this job is of that part, word and sheet together: see the list without them".into()
    }
}

/// The job and the operation of the id of a sheet: `3`, `3.1`, or `2/3.1` of the second of several jobs.
///
/// # Errors
/// A sheet that is not there.
fn number(id: &str, plans: &[Plan]) -> Result<(Option<usize>, usize), Stop> {
    let (job, own) = id.trim().split_once('/').map_or((None, id.trim()), |(job, own)| (Some(job), own));
    let (operation, set_up) = own.split_once('.').map_or((own, None), |(operation, set_up)| (operation, Some(set_up)));
    let wanted = |plan: &&Plan| job.is_none_or(|job| plan.nth.is_some_and(|nth| nth.to_string() == job));
    // An operation that has no set-up has one sheet all the same.
    let sheets = |plan: &Plan, at: usize| plan.operations.get(at).map_or(0, |one| one.answer.set_ups.len().max(1));
    let found = operation.parse::<usize>().ok().filter(|operation| {
        plans.iter().filter(wanted).any(|plan| {
            let last = sheets(plan, operation.wrapping_sub(1));
            last > 0 && set_up.is_none_or(|set_up| (1..=last).any(|known| known.to_string() == set_up))
        })
    });
    let says = || {
        let ends = |plan: &Plan| {
            let last = plan.operations.len();
            match (plan.sheet_id(1, 1), plan.sheet_id(last, sheets(plan, last.wrapping_sub(1)))) {
                (first, last) if first == last => first,
                (first, last) => format!("{first} to {last}"),
            }
        };
        let known = plans.iter().filter(|plan| !plan.operations.is_empty()).map(ends).collect::<Vec<_>>().join(", ");
        Stop::Input(vec![Problem::new(None, format!("there is no sheet `{id}`; there are {known}"))], Vec::new())
    };
    Ok((job.and_then(|job| job.parse().ok()), found.ok_or_else(says)?))
}
