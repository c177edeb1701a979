//! What the checks against printed figures share: the rows of `tests/published/*.csv`, what the handbook says to each, and
//! a run that may bend one formula.
#![allow(dead_code)]

pub mod count;
pub mod cutting;
pub mod cutting_doubt;
pub mod cutting_force;
pub mod cutting_grip;
pub mod inputs;
pub mod joining;
pub mod joining_press;
pub mod measuring;
pub mod mutation;
pub mod page;
pub mod rows;
pub mod run;
pub mod survivors;
pub mod units;
pub mod written;

use rows::Row;
use run::{Outcome, Run};

/// A subject of the case tables: its name and what the handbook works out for it.
pub type Subject = (&'static str, fn(&inputs::Inputs, &mut Run) -> Result<Outcome, String>);

/// Subjects whose formula is not in the book yet, with the file that will hold it. Must be empty.
pub const PENDING: &[(&str, &str)] = &[];

/// What the handbook says to a row, in the unit of the print; none where the subject is pending.
pub fn worked(row: &Row, run: &mut Run) -> Option<Result<f64, String>> {
    let name = row.subject.strip_suffix("-inch").unwrap_or(&row.subject);
    let all = [
        joining::SUBJECTS,
        joining_press::SUBJECTS,
        cutting::SUBJECTS,
        cutting_doubt::SUBJECTS,
        cutting_force::SUBJECTS,
        cutting_grip::SUBJECTS,
        measuring::SUBJECTS,
    ]
    .concat();
    match all.into_iter().find(|subject| subject.0 == name) {
        Some((_, subject)) => {
            let outcome = subject(&row.inputs(), run);
            Some(outcome.and_then(|outcome| units::printed(outcome, &row.unit)))
        }
        None if PENDING.iter().any(|pending| pending.0 == name) => None,
        None => Some(Err(format!("no subject `{name}`"))),
    }
}
