//! What stands in the place of the steps of a set-up that must not be done, or that was.

use crate::plan::Planned;

/// Instead of the steps of what fails.
pub(in crate::sheet) const WITHHELD: &str =
    "STOP. No steps, settings or targets are printed. Put right what FAILS, print again.";
/// The same where it was done already.
pub(in crate::sheet) fn withheld(planned: &Planned) -> String {
    match planned.spoilt {
        None => WITHHELD.into(),
        Some(entry) => format!(
            "STOP. It is done (L{entry}) and FAILS as it was left: this piece is not fitted as it is. Of the ways out only those count that cut nothing again."
        ),
    }
}
/// Id of that line among the steps.
pub(in crate::sheet) const WITHHELD_ID: &str = "withheld";

/// The step that stands in place of those of a set-up that was worked, and its words.
pub(in crate::sheet) const DONE_ID: &str = "done";
pub(in crate::sheet) fn done(entry: u32) -> String {
    format!("DONE: the log has its size as it was left (L{entry}). Nothing is set or cut by this sheet.")
}
/// The stamp of a set-up that was worked, and the reason under it.
pub(in crate::sheet) const DONE_STAMP: &str = "DONE";
pub(in crate::sheet) const DONE_REASON: &str = "the log has it as done";
/// The reason where what was worked is in doubt.
pub(in crate::sheet) fn doubt_of_done(reason: &str) -> String {
    format!("in doubt: {reason}")
}
/// The step of a set-up of which somebody said that it was worked; where it leaves a size, none was written down.
pub(in crate::sheet) fn told(entry: u32, leaves: bool) -> String {
    let lacks = if leaves { ", and has no size of it. Measure it" } else { "" };
    format!("DONE: the log says so (L{entry}){lacks}. Nothing is set or cut by this sheet.")
}
/// The step of a set-up that was worked, and of which not every size was written down.
pub(in crate::sheet) fn done_in_part(entry: u32, open: &str) -> String {
    format!(
        "DONE by the log (L{entry}), which has nothing of: {open}. Measure it. Nothing is set or cut by this sheet."
    )
}
/// The step of a set-up after which by the log metal still stands that was to go, and its words.
pub(in crate::sheet) const UNFINISHED_ID: &str = "not-finished";
pub(in crate::sheet) fn unfinished(entry: u32, what: &str) -> String {
    format!("NOT FINISHED by the log (L{entry}): {what}.")
}
/// Under the stamp of such a set-up.
pub(in crate::sheet) const UNFINISHED: &str = "not finished, by what was written down";
