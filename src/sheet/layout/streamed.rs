//! Sheets made one operation after the other: of each its packed pages and a line a sheet are kept, so that no more than a few
//! answers stand in memory at once.

use super::overview::{Line, line};
use super::{Bundle, Fault, Packed, Sheet, bound, packed_pages, printed};
use crate::plan::{Plan, Planned};
use crate::proof::Verdict;

/// The sheets of one operation, packed, and what a list says of them.
pub struct Sheets {
    pub(in crate::sheet) lines: Vec<Line>,
    verdict: Verdict,
    bundles: Result<Vec<Bundle<Packed>>, Fault>,
}

impl Sheets {
    /// The verdict of the operation.
    #[must_use]
    pub const fn verdict(&self) -> Verdict {
        self.verdict
    }
}

/// The sheets of an operation of that number in its job, from 1, of which the frame is given.
#[must_use]
pub fn packed(plan: &Plan, planned: &Planned, number: usize) -> Sheets {
    let stopped = printed::on_page(planned);
    let shown = Sheet::of_operation(plan, stopped.as_ref().unwrap_or(planned), number);
    let lines = shown.iter().map(line).collect();
    let bundles = shown.iter().map(|sheet| sheet.bundle(packed_pages)).collect();
    Sheets { lines, verdict: planned.verdict, bundles }
}

/// The sheets of several jobs, each with its frame, as one PDF: the same bytes as those of [`super::pdf()`], in pieces that follow
/// each other.
///
/// # Errors
/// As [`super::pdf()`].
pub fn streamed_pdf(jobs: Vec<(Plan, Vec<Sheets>)>) -> Result<Vec<Vec<u8>>, Fault> {
    let (plans, sheets): (Vec<Plan>, Vec<Vec<Sheets>>) = jobs.into_iter().unzip();
    let bundles: Vec<Vec<_>> = sheets.into_iter().flatten().map(|sheets| sheets.bundles).collect::<Result<_, _>>()?;
    bound(bundles.into_iter().flatten(), &plans)
}
