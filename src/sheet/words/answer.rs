//! Words of the short answer at a terminal.

use crate::plan::{First, FirstBy};
use crate::proof::Verdict;

/// The heads of the columns of the list of sheets.
pub(in crate::sheet) const COLUMNS: [&str; 6] = ["sheet", "part", "what", "min", "verdict", "why"];
/// What stands on sheets alone, and how the rest is seen.
pub(in crate::sheet) const MORE: &str = "Steps, dial readings and cautions stand on the sheets (setover sheets); --values shows every figure, --all everything.";
/// How one of several operations is looked at.
pub(in crate::sheet) const ONE: &str = "One of them in full: --sheet 1, --part NAME or --operation WORD.";

/// The stamp of a set-up that was worked and is in doubt all the same.
pub(in crate::sheet) fn done_in_doubt(stamp: &str) -> String {
    format!("{stamp}, doubtful")
}

/// Which sheets of an operation are done by the log.
pub(in crate::sheet) fn done(ids: &[String], all: bool) -> String {
    let sheets = ids.join(", ");
    if all {
        format!("DONE by the log: {sheets}; nothing is left to be done.")
    } else {
        format!("DONE by the log: {sheets}.")
    }
}

/// How many set-ups came out how, how many of them are done, and how long they take.
pub(in crate::sheet) fn counts(
    verdicts: &[Verdict],
    done: usize,
    (hands, by_itself): (f64, f64),
    unknown: usize,
) -> String {
    let of = |verdict| verdicts.iter().filter(|one| **one == verdict).count();
    let set_ups = if verdicts.len() == 1 { "1 set-up".to_owned() } else { format!("{} set-ups", verdicts.len()) };
    let named = [(Verdict::Fails, "must not be done"), (Verdict::Doubtful, "doubtful"), (Verdict::Proven, "proven")];
    let counted = named.into_iter().filter(|(verdict, _)| of(*verdict) > 0);
    let counted: Vec<String> = counted.map(|(verdict, word)| format!("{} {word}", of(verdict))).collect();
    let mut says = format!("{set_ups}: {}", counted.join(", "));
    if done > 0 {
        says += &if done == verdicts.len() { "; all done".to_owned() } else { format!("; {done} done") };
    }
    if hands > 0.0 || unknown == 0 {
        says += &format!("; {:.0} min hands-on", hands + 0.0);
    }
    if by_itself > 0.0 {
        says += &format!(", {by_itself:.0} min unattended");
    }
    if unknown > 0 {
        says += &format!(", {unknown} without minutes");
    }
    says + "."
}

/// How many things were assumed.
pub(in crate::sheet) fn assumed(count: usize) -> String {
    let things = if count == 1 { "1 thing was assumed".to_owned() } else { format!("{count} things were assumed") };
    format!("{things}: --all names what.")
}

/// What is measured, or said, before all else.
pub(in crate::sheet) fn first(first: &First) -> String {
    let open = format!("{} of the {} checks that are open", first.proves, first.open);
    match &first.by {
        FirstBy::Read { key, means, to } => {
            format!(
                "Take this reading first: `{key}` ({means}), to ± {to}: if it reads the same, {open} are proven by it."
            )
        }
        FirstBy::Given { key, means } if means.is_empty() => format!("Give this first: `{key}`: {open} wait for it."),
        FirstBy::Given { key, means } => format!("Give this first: `{key}` ({means}): {open} wait for it."),
    }
}

/// The same in one line of a sheet.
pub(in crate::sheet) fn first_on_sheet(first: &First) -> String {
    let open = format!("{} of {} open checks", first.proves, first.open);
    match &first.by {
        FirstBy::Read { means, to, .. } => {
            format!("Take this reading first: {means}, to ± {to}: if it reads the same, it proves {open}.")
        }
        FirstBy::Given { key, .. } => format!("Give this first: `{key}`: {open} wait for it."),
    }
}

#[cfg(test)]
mod tests {
    use super::counts;
    use crate::proof::Verdict;

    /// Figures without a set-up take no minutes: none below nought either.
    #[test]
    fn what_takes_no_minutes_says_none() {
        let none: f64 = [].iter().sum();
        assert_eq!(counts(&[Verdict::Proven], 0, (none, 0.0), 1), "1 set-up: 1 proven, 1 without minutes.");
        assert_eq!(
            counts(&[Verdict::Proven], 0, (none, 30.0), 0),
            "1 set-up: 1 proven; 0 min hands-on, 30 min unattended."
        );
        assert_eq!(counts(&[Verdict::Fails], 0, (4.0, 0.0), 0), "1 set-up: 1 must not be done; 4 min hands-on.");
    }
}
