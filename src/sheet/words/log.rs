//! Standing words of the log.

use crate::operations::Limits;
use crate::plan::{Change, ChangeKind};
use crate::plan::{LogFault, LogFaultKind};
use crate::proof::Fact;
use crate::quantity::{Celsius, Print, Quantity};

/// Of a log without entries.
pub(in crate::sheet) const NOTHING: &str = "Nothing is in the log of this job.";
/// Behind an entry that was corrected or taken back.
pub(in crate::sheet) const NO_MORE: &str = "(counts no more)";

/// The number of an entry as it is named everywhere.
pub(in crate::sheet) fn entry(n: u32) -> String {
    format!("L{n}")
}

/// Beside a figure of the log.
pub(in crate::sheet) fn left_by(n: u32) -> String {
    format!("{} {}", super::AS_LEFT, entry(n))
}

/// Over the names that the log takes of an operation.
pub(in crate::sheet) fn what_is_logged(of: &str) -> String {
    format!("What the log takes of {of}, as it was left:")
}

/// Where it takes none.
pub(in crate::sheet) fn nothing_is_logged(job: &str, of: &str) -> String {
    format!(
        "The log takes no figure of {of}. That it was done is said by done=yes, what was seen by a note: setover log {job} \"{of}\" done=yes note=\"let go at 1800 lbf\""
    )
}

/// A line to copy.
pub(in crate::sheet) fn as_in_log(job: &str, of: &str, name: &str) -> String {
    format!("setover log {job} \"{of}\" {name}=\"SIZE\" with=\"INSTRUMENT\"")
}

/// After a line was taken back: what nothing is known of any more.
pub(in crate::sheet) fn none_counts(job: &str, of: &str, name: &str) -> String {
    format!("Of {of} no {name} counts now: it is as planned again, until setover log {job} \"{of}\" {name}=\"SIZE\"")
}

/// The readings for which the work goes on at a stop of a sheet.
pub(in crate::sheet) fn hold_limits(limits: &Limits, print: Print) -> String {
    match (&limits.least, &limits.most) {
        (Some(least), Some(most)) => Fact::span(least.clone(), most.clone()).said(None, print),
        (Some(least), None) => format!("at least {}", least.said(None, print)),
        (None, Some(most)) => format!("at most {}", most.said(None, print)),
        (None, None) => String::new(),
    }
}

/// A size outside the limits that its sheet asked for.
pub(in crate::sheet) fn not_as_asked(entry: u32, name: &str, left: &str, asked: &str) -> String {
    format!("L{entry}: {name} {left} lies outside what the sheet asked for: {asked}. Look whether that is meant.")
}

/// Written down, and not judged: the log is long.
pub(in crate::sheet) fn long_log(jobs: &str) -> String {
    format!(
        "Written down, not judged: so long a log is not worked again for every line. See whether it holds: setover plan {jobs}"
    )
}

/// Written down, and not judged: the job goes on from others.
pub(in crate::sheet) fn goes_on_from(jobs: &str, wants: &[String]) -> String {
    format!(
        "Written down, not judged: {jobs} goes on from {}, of another job. See whether it holds: setover plan {jobs} OTHER.yaml; setover \
         log {jobs} … --and OTHER.yaml judges the next line at once",
        wants.join(" · ")
    )
}

/// Written down, and not judged: there is a fault.
pub(in crate::sheet) fn cannot_be_worked(jobs: &str) -> String {
    format!("Written down, not judged: it cannot be worked as it stands. setover plan {jobs} says why")
}

/// After a correction was taken back: what it corrected counts.
pub(in crate::sheet) fn counts_again(of: &str, n: u32) -> String {
    format!("Of {of} {} counts again, in whose place it stood", entry(n))
}

/// How warm the part was.
pub(in crate::sheet) fn at(warm: Celsius) -> String {
    format!("at {} °C", warm.number())
}

/// How warm the gauge was.
pub(in crate::sheet) fn gauge_at(warm: Celsius) -> String {
    format!("the gauge at {} °C", warm.number())
}

/// The set-up that it tells of.
pub(in crate::sheet) fn set_up(name: &str) -> String {
    format!("set-up {name}")
}

/// Over what fails by a line that was just written.
pub(in crate::sheet) fn fails_by(of: &str, n: u32) -> String {
    format!("By {} {of} fails:", entry(n))
}

/// The same where nothing fails and metal still stands.
pub(in crate::sheet) fn unfinished_by(of: &str, n: u32) -> String {
    format!("By {} {of} is NOT FINISHED:", entry(n))
}

/// The same where it is doubtful whether what was written can be, or proves anything.
pub(in crate::sheet) fn doubtful_by(of: &str, n: u32) -> String {
    format!("By {} {of} is DOUBTFUL:", entry(n))
}

/// How a line is put right that was a slip.
pub(in crate::sheet) fn slip(command: &str) -> String {
    format!("Was that a slip of the pen? {command}")
}

/// A name of the log with what it is.
pub(in crate::sheet) fn name(key: &str, means: &str) -> String {
    format!("`{key}` ({means})")
}

/// What is still to be written down of work of which a line was just written.
pub(in crate::sheet) fn still_wanted(n: u32, (job, of): (&str, &str), names: &[String], open: Option<&str>) -> String {
    let n = entry(n);
    let done = format!("setover log {job} \"{of}\" {}done=yes", open.unwrap_or_default());
    match (names, open) {
        ([], _) => format!("{n} does not say that {of} is done. Where it is: {done}"),
        (names, None) => format!("{n}: {of} is done; still to be measured and written down: {}", names.join(", ")),
        (names, Some(_)) => format!(
            "{n} does not say that {of} is done: that is said by {}. Where it is done and cannot be measured: {done}",
            names.join(", ")
        ),
    }
}

/// A day that is to come, or that lies before that of the line above.
pub(in crate::sheet) fn odd_day(n: u32, day: &str, before: Option<(u32, String)>) -> String {
    let n = entry(n);
    match before {
        None => format!(
            "{n} is of {day}, and that day is to come: what is older by it may pass for new. If it is a slip, --corrects {n} with the right --date"
        ),
        Some((other, then)) => format!(
            "{n} is of {day}, and {} above it of {then}: if it is a slip, --corrects {n} with the right --date",
            entry(other)
        ),
    }
}

/// Of work that somebody says was done.
pub(in crate::sheet) const DONE: &str = "done";

/// Heading of what the log undid.
pub(in crate::sheet) const NO_LONGER: &str = "No longer holds";
/// Where nothing differs since an entry; nothing can behind the last.
pub(in crate::sheet) fn no_change(since: u32, last: u32) -> String {
    match last {
        0 => "Nothing has changed: nothing is in the log yet.".into(),
        last if since == last => {
            format!("Nothing has changed: {} is the last entry. --since L0 shows all.", entry(last))
        }
        _ => format!("Nothing has changed since {}.", entry(since)),
    }
}

/// One difference, with its cause.
pub(in crate::sheet) fn change(change: &Change) -> String {
    let Change { kind, address, old, new, entry: cause, job } = change;
    let says = match kind {
        ChangeKind::Added => format!("{address}: {new}, new"),
        ChangeKind::Gone => format!("{address}: {old}, gone"),
        ChangeKind::Figure => format!("{address}: {old} → {new}"),
        // A state of two words has a hyphen for programs alone.
        ChangeKind::Check if new.is_empty() => format!("{address}: {}, and asked no more", old.replace('-', " ")),
        ChangeKind::Check if old.is_empty() => format!("{address}: {}, not asked before", new.replace('-', " ")),
        ChangeKind::Check => format!("{address}: {} → {}", old.replace('-', " "), new.replace('-', " ")),
        ChangeKind::Chosen => format!("{address}: {} → {}", or_none(old), or_none(new)),
        ChangeKind::Fitted => format!("{address}: {old} is in; by what was left, {new} would be taken now"),
        ChangeKind::Unfinished => format!("{address}: NOT FINISHED: {new}"),
        ChangeKind::Passed => format!("{address}: nothing was written down, and {new} was done after it"),
    };
    match (cause, job) {
        (None, _) => says,
        (Some(cause), None) => format!("{says} ({})", entry(*cause)),
        (Some(cause), Some(job)) => format!("{says} ({} of {job})", entry(*cause)),
    }
}

fn or_none(text: &str) -> &str {
    if text.is_empty() { super::NONE } else { text }
}

/// The instrument of an entry.
pub(in crate::sheet) fn with(instrument: &str) -> String {
    format!("with {instrument}")
}

/// In whose place an entry stands.
pub(in crate::sheet) fn corrects(n: u32) -> String {
    format!("corrects {}", entry(n))
}

/// Which entry one takes back.
pub(in crate::sheet) fn withdraws(n: u32) -> String {
    format!("takes back {}", entry(n))
}

/// What is wrong with a line.
pub(in crate::sheet) fn fault(fault: &LogFault) -> String {
    let LogFault { kind, line, between: (from, stood), text } = fault;
    match kind {
        LogFaultKind::Torn => format!("line {line} was cut off and is not used: {text}"),
        LogFaultKind::Broken => format!("line {line} cannot be read and is not used: {text}"),
        LogFaultKind::Changed => {
            let which = if from == line { format!("line {line}") } else { format!("one of lines {from} to {line}") };
            format!("{which} was changed by hand when line {stood} stood there already: {text}")
        }
        LogFaultKind::Doubled => format!("line {line} has the number of another, and neither is used: {text}"),
    }
}
