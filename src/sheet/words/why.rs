//! Words of one figure down to what it rests on.

use crate::sheet::TypedAt;

/// Over the values that can be asked for.
pub(crate) const LIST: &str = "What was worked out; `setover why JOB VALUE` shows how.";
/// Over the workings.
pub(in crate::sheet) const WORKINGS: &str = "How it came about, the last working first";
/// Of formulas, where the shop prints in other units.
pub(in crate::sheet) const WORKED_METRIC: &str =
    "Formulas stand as they are worked, in mm, N, MPa and their kin; what comes out has its inch unit behind it.";
/// Over the shares of doubt.
pub(in crate::sheet) const DOUBTS: &str = "Whose doubt costs most";
/// Where nothing has a doubt.
pub(in crate::sheet) const NO_DOUBT: &str = "No reading's doubt is in this figure.";
/// Where the figure stands at its worst end, and the doubts are in the number itself.
pub(in crate::sheet) const AT_WORST_END: &str =
    "It has no ± of its own: it stands at the worst end already. These doubts are counted in it:";
/// What comes from the log.
pub(in crate::sheet) const AS_LEFT: &str = "as left, from the log";

/// The figure with its address and what it is.
pub(in crate::sheet) fn head(address: &str, figure: &str, means: &str) -> String {
    format!("{address}: {figure} — {means}")
}

/// From where to where it may lie: the books disagree, or limits were typed.
pub(in crate::sheet) fn band(of_books: bool, low: &str, high: &str) -> String {
    match of_books {
        true => format!("the books disagree: from {low} to {high}"),
        false => format!("by the limits that were typed: from {low} to {high}"),
    }
}

/// A check that judges it.
pub(in crate::sheet) fn judged(state: &str, check: &str, asks: &str) -> String {
    format!("judged by {check}, {state}: {asks}")
}

/// Where a rule comes from.
pub(in crate::sheet) fn source(source: &str) -> String {
    format!("source: {source}")
}

/// A working by its number.
pub(in crate::sheet) fn working(number: usize) -> String {
    format!("working {number}")
}

/// What somebody typed.
pub(in crate::sheet) fn typed(at: &TypedAt) -> String {
    let key = if at.key.is_empty() { String::new() } else { format!("{}: ", at.key) };
    format!("typed, {key}{} {}", at.typed, self::at(at))
}

/// Where something was typed.
pub(in crate::sheet) fn at(at: &TypedAt) -> String {
    match at.is_argument {
        true => "(argument)".to_owned(),
        false => format!("({}, line {})", at.file, at.line),
    }
}

/// A default.
pub(in crate::sheet) fn assumed(why: &str) -> String {
    format!("assumed: {why}")
}

/// A row of the book.
pub(in crate::sheet) fn row(says: &str, source: &str) -> String {
    format!("the book, {says}; source: {source}")
}

/// A part of the doubt.
pub(in crate::sheet) fn part(part: f64) -> String {
    format!("{:.0} %", part * 100.0)
}
