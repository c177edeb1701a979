//! A plan in one line a set-up: what a list of sheets says of each.

use super::{Sheet, words};
use crate::plan::{Plan, Planned};
use crate::proof::Verdict;
use crate::sheet::printed;

/// One set-up in one line.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::sheet) struct Line {
    /// The sheet's id.
    pub id: String,
    /// Number of its operation in the job, counted from 1.
    pub operation: usize,
    /// The part.
    pub part: String,
    /// What is done.
    pub what: String,
    /// Its own verdict.
    pub verdict: Verdict,
    /// The word of its stamp.
    pub stamp: &'static str,
    /// The one reason.
    pub reason: String,
    /// Whether it was worked already.
    pub is_done: bool,
    /// What is in doubt of it, where it was worked already.
    pub doubt_of_done: Option<String>,
    /// Minutes of the hands, where they are known.
    pub hands: Option<f64>,
    /// Minutes that it runs unattended.
    pub by_itself: f64,
}

/// Every set-up of a plan.
pub(in crate::sheet) fn overview(plan: &Plan) -> Vec<Line> {
    let stopped = printed::on_pages(plan);
    Sheet::shown(plan, &stopped).iter().map(line).collect()
}

/// What a list says of an operation: a line a set-up.
pub struct Listed {
    pub(in crate::sheet) lines: Vec<Line>,
    verdict: Verdict,
}

impl Listed {
    /// An operation of that number in its job, from 1, of which the frame is given.
    #[must_use]
    pub fn of(plan: &Plan, planned: &Planned, number: usize) -> Self {
        let stopped = printed::on_page(planned);
        let shown = Sheet::of_operation(plan, stopped.as_ref().unwrap_or(planned), number);
        Self { lines: shown.iter().map(line).collect(), verdict: planned.verdict }
    }

    /// The verdict of the operation.
    #[must_use]
    pub const fn verdict(&self) -> Verdict {
        self.verdict
    }
}

/// A sheet in one line.
pub(super) fn line(sheet: &Sheet) -> Line {
    Line {
        id: sheet.id(),
        operation: sheet.operation,
        part: sheet.planned.address.part.clone(),
        what: sheet.set_up.map_or_else(|| sheet.planned.title.clone(), |set_up| set_up.title.clone()),
        verdict: sheet.verdict(),
        stamp: sheet.stamp(),
        reason: sheet.reason(),
        is_done: sheet.is_done(),
        doubt_of_done: sheet.doubt_of_done(),
        hands: sheet.set_up.and_then(|set_up| set_up.minutes).map(words::whole_minutes),
        by_itself: sheet.set_up.map_or(0.0, |set_up| words::whole_minutes(set_up.by_itself())),
    }
}
