//! What the checks against printed figures share: the rows of `tests/published/*.csv`, what the handbook says to each, and
//! a run that may bend one formula.

pub mod cutting;
pub mod cutting_doubt;
pub mod inputs;
pub mod joining;
pub mod joining_press;
pub mod rows;
pub mod run;
pub mod units;

use rows::Row;
use run::{Outcome, Run};

/// A subject of the case tables: its name and what the handbook works out for it.
pub type Subject = (&'static str, fn(&inputs::Inputs, &mut Run) -> Result<Outcome, String>);

/// Subjects whose formula is not in the book yet, with the file that will hold it. Must be empty.
pub const PENDING: &[(&str, &str)] = &[
    ("second-moment", "src/handbook/deflection.rs"),
    ("deflection-cantilever", "src/handbook/deflection.rs"),
    ("chuck-permitted-speed", "src/handbook/work_holding.rs"),
    ("chuck-initial-force", "src/handbook/work_holding.rs"),
    ("unbalance", "src/handbook/work_holding.rs"),
    ("unbalance-force", "src/handbook/work_holding.rs"),
    ("roughness-rt", "src/handbook/finish.rs"),
    ("roughness-ra", "src/handbook/finish.rs"),
    ("roughness-rt-sharp", "src/handbook/finish.rs"),
    ("feed-for-rt", "src/handbook/finish.rs"),
    ("feed-for-chip-thickness", "src/handbook/cutting_force.rs"),
    ("feed-for-mean-chip", "src/handbook/cutting_force.rs"),
    ("radial-chip-thinning", "src/handbook/cutting_force.rs"),
    ("motor-power", "src/handbook/cutting_force.rs"),
    ("motor-power-turning", "src/handbook/cutting_force.rs"),
    ("motor-power-from-cutting", "src/handbook/cutting_force.rs"),
    ("cutting-power", "src/handbook/cutting_force.rs"),
    ("cutting-power-removal", "src/handbook/cutting_force.rs"),
    ("cutting-power-kienzle", "src/handbook/cutting_force.rs"),
    ("cutting-force", "src/handbook/cutting_force.rs"),
    ("cutting-force-kienzle", "src/handbook/cutting_force.rs"),
    ("cutting-force-from-power", "src/handbook/cutting_force.rs"),
    ("torque-from-power", "src/handbook/cutting_force.rs"),
    ("drill-power-handbook", "src/handbook/cutting_force.rs"),
    ("feed-rate", "src/handbook/times.rs"),
    ("feed-per-rev", "src/handbook/times.rs"),
    ("turning-time", "src/handbook/times.rs"),
    ("turning-time-feed-rate", "src/handbook/times.rs"),
    ("turning-time-speed", "src/handbook/times.rs"),
    ("drilling-time", "src/handbook/times.rs"),
    ("drilling-time-speed", "src/handbook/times.rs"),
    ("facing-time-constant-speed", "src/handbook/times.rs"),
    ("removal-rate-turning", "src/handbook/times.rs"),
    ("removal-rate-turning-speed", "src/handbook/times.rs"),
    ("removal-rate-drilling", "src/handbook/times.rs"),
    ("removal-rate-drilling-feed-rate", "src/handbook/times.rs"),
];

/// What the handbook says to a row, in the unit of the print; none where the subject is pending.
pub fn worked(row: &Row, run: &mut Run) -> Option<Result<f64, String>> {
    let name = row.subject.strip_suffix("-inch").unwrap_or(&row.subject);
    let all = [joining::SUBJECTS, joining_press::SUBJECTS, cutting::SUBJECTS, cutting_doubt::SUBJECTS].concat();
    match all.into_iter().find(|subject| subject.0 == name) {
        Some((_, subject)) => {
            let outcome = subject(&row.inputs(), run);
            Some(outcome.and_then(|outcome| units::printed(outcome, &row.unit)))
        }
        None if PENDING.iter().any(|pending| pending.0 == name) => None,
        None => Some(Err(format!("no subject `{name}`"))),
    }
}
