//! The day by the clock. It is read in two places alone, both before anything is worked: for the day of a new line of a log, and to
//! refuse a reading of a day that has not been.

use crate::job::JobFile;
use crate::operations::{Registered, Request};
use crate::quantity::Date;
use crate::reading::Problem;
use std::time::{SystemTime, UNIX_EPOCH};

/// Seconds of a day.
const DAY: u64 = 24 * 60 * 60;

/// The day by the clock (UTC).
pub(super) fn today() -> Date {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).map_or(0, |since| since.as_secs());
    Date::since_1970(u32::try_from(since / DAY).unwrap_or(0))
}

/// Every operation whose sizes were read on a day that is not yet: it would count as newer than whatever is logged. East of Greenwich it
/// may be tomorrow.
pub(super) fn not_yet(job: &JobFile<Request>) -> Vec<Problem> {
    let latest = today().plus(1);
    let wishes = job.parts.iter().flat_map(|part| &part.operations).filter_map(|request| request.set_up());
    let measured = wishes.filter_map(|wish| wish.measured.as_ref()).filter(|at| at.value > latest);
    measured
        .map(|at| Problem::new(at.place, format!("nothing was read on {} yet: that day is to come", at.value)))
        .collect()
}
